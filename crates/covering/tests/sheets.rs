//! A sheet that cannot be laid is refused with the place of every wrong figure.

use covering::{Catalog, Covering, Lap, SHIPPED, read_sheet};
use proptest::prelude::*;
use reader::{Format, Read};

fn shipped(id: &str) -> &'static str {
    SHIPPED.into_iter().find(|(shipped, _)| *shipped == id).expect("a shipped id").1
}

fn covering(id: &str) -> Covering {
    read_sheet(shipped(id), Format::Toml).value.expect("a sound sheet")
}

/// Paths and marked texts of the mistakes after some replacements in the composite sheet.
fn spoilt(changes: &[(&str, &str)]) -> Vec<(String, String)> {
    let mut text = shipped("composite-slate").to_string();
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replacen(from, to, 1);
    }
    let Read { value, mistakes, .. } = read_sheet(&text, Format::Toml);
    assert_eq!(value.is_none(), !mistakes.is_empty());
    mistakes.into_iter().map(|mistake| (mistake.path, text[mistake.span].to_string())).collect()
}

#[test]
fn each_wrong_figure_is_named_with_its_place() {
    for (from, to, path, marked) in [
        ("format   = 1", "format = 2", "format", "2"),
        ("\"composite-slate\"\nname", "\"My Slate\"\nname", "id", "\"My Slate\""),
        ("\"Composite slate, generic\"", "\" \"", "name", "\" \""),
        ("length    = 19.5", "length = -19.5", "unit.length", "-19.5"),
        ("length    = 19.5", "length = \"19.5 m\"", "unit.length", "\"19.5 m\""),
        ("width     = 11.5", "width = 0.001", "unit.width", "0.001"),
        ("\"5/8 in\"", "0", "unit.thickness", "0"),
        ("[6.25, 7.25, 8]", "[6.25, 0]", "unit.marks[1]", "0"),
        ("weight_lb = 2.3", "weight_lb = -1", "unit.weight_lb", "-1"),
        ("\"3/16 in\"", "-1", "lap.gap", "-1"),
        ("\"3/16 in\"", "12", "lap.gap", "12"),
        ("joint_offset = 3 ", "joint_offset = 6", "lap.joint_offset", "6"),
        ("least_piece  = 3.5", "least_piece = 12", "lap.least_piece", "12"),
        ("to_pitch   = \"7/12\"", "to_pitch = \"6/12\"", "exposure[0].to_pitch", "\"6/12\""),
        ("to_pitch   = \"7/12\"", "to_pitch = \"3/12\"", "exposure[0].to_pitch", "\"3/12\""),
        ("to_pitch   = \"7/12\"", "", "exposure[0].to_pitch", "[[exposure]]"),
        ("least      = 5.75", "least = 7", "exposure[0].least", "7"),
        ("greatest   = 8", "greatest = 8.5", "exposure[1].greatest", "8.5"),
        ("headlap    = 3", "headlap = 4", "exposure[1].greatest", "8"),
        ("headlap    = 3", "headlap = -3", "exposure[1].headlap", "-3"),
        ("joint_offset = 2.75", "joint_offset = 6", "starter.joint_offset", "6"),
        ("exposure  = 6.75", "exposure = 14", "cap.exposure", "14"),
        ("each          = 2", "each = 0", "nails.each", "0"),
        ("\"7/8 in\"        # into", "0 # into", "nails.penetration", "0"),
        ("width     = 18.5", "width = 11.5", "wide.width", "11.5"),
        ("valley_growth   = 1 ", "valley_growth = -1", "edges.valley_growth", "-1"),
        ("top_lap   = 4", "top_lap = 42", "underlayment.top_lap", "42"),
        ("count  = 21", "count = 0", "pack.count", "0"),
        ("source = \"Invented.\"", "source = \"\"", "pack.source", "\"\""),
        ("side          = 1.25", "", "nails", "[nails]"),
        ("side          = 1.25", "side = -1", "nails.side", "-1"),
        ("\"42e-6 per F\"", "\"42e-6\"", "movement.expansion", "\"42e-6\""),
        ("\"42e-6 per F\"", "42e-6", "movement.expansion", "42e-6"),
        ("[\"0 F\", \"115 F\"]", "[\"115 F\", \"0 F\"]", "temperatures.stored", "[\"115 F\", \"0 F\"]"),
        ("conditioned_hours = 24", "conditioned_hours = -1", "temperatures.conditioned_hours", "-1"),
        ("impact = { class = 4", "impact = { class = 5", "tested.impact.class", "5"),
        ("mph = 108", "mph = 0", "tested.wind.mph", "0"),
        ("[\"composite slate\", \"glass-faced underlayment\", \"plywood 1/2 in\"]", "[]", "tested.fire[0].layers", "[]"),
    ] {
        assert_eq!(spoilt(&[(from, to)]), [(path.to_string(), marked.to_string())], "{to}");
    }
}

#[test]
fn several_wrong_figures_in_one_run() {
    let found =
        spoilt(&[("length    = 19.5", "length = 0"), ("each          = 2", "each = 0"), ("cover     = 5.5", "cover = 0")]);
    let paths: Vec<&str> = found.iter().map(|(path, _)| path.as_str()).collect();
    assert_eq!(paths, ["unit.length", "cap.cover", "nails.each"]);
}

#[test]
fn a_sheet_without_any_exposure_is_refused() {
    let text = shipped("composite-slate");
    let (before, rest) = text.split_once("[[exposure]]").unwrap();
    let (_, after) = rest.split_once("[edges]").unwrap();
    let none = format!("exposure = []\n{before}[edges]{after}");
    let paths: Vec<String> = read_sheet(&none, Format::Toml).mistakes.into_iter().map(|mistake| mistake.path).collect();
    assert_eq!(paths, ["exposure"]);
}

/// Common US code headlap for slate by pitch: International Residential Code, R905.6, from memory, not read.
#[test]
fn natural_slate_has_the_headlap_of_the_code() {
    let slate = covering("natural-slate");
    let headlap = |rise| slate.band(units::Pitch::per_12(rise).unwrap()).map(|band| band.headlap.to_inches());
    let found = [3.99, 4.0, 7.99, 8.0, 19.99, 20.0].map(headlap);
    assert_eq!(found, [None, Some(4.0), Some(4.0), Some(3.0), Some(3.0), Some(2.0)]);
}

/// Copper Flashings: A Manual (Copper and Brass Research Association, 1920s), specification, paragraph 33: at least 4 in
/// clear at the top, 1 in more per 8 ft, slates at least 4 in over the metal.
#[test]
fn a_sheet_silent_about_valleys_opens_them_as_the_manual_says() {
    let text = shipped("composite-slate");
    let silent: Vec<&str> = text.lines().filter(|line| !line.starts_with("valley_")).collect();
    let edges = read_sheet(&silent.join("\n"), Format::Toml).value.unwrap().edges;
    let inches = |inches| units::Length::inches(inches);
    assert_eq!((edges.valley_clear, edges.valley_growth, edges.valley_flange), (inches(4.0), inches(1.0), inches(4.0)));
}

#[test]
fn bare_lengths_are_in_the_unit_of_the_sheet() {
    let tile = covering("plain-tile");
    assert!((tile.unit.length.to_millimetres() - 268.0).abs() < 1e-9);
    assert!((tile.underlayment.length.to_millimetres() - 72_000.0).abs() < 1e-9);
    assert_eq!(covering("wood-shingle").lap, Lap::Triple);
}

proptest! {
    #[test]
    fn no_figure_panics(id in 0usize..5, line in 0usize..120, figure in "-?[0-9]{1,12}(\\.[0-9]{1,3})?|nan|\"[0-9 /mftin]{0,8}\"") {
        let text = SHIPPED[id].1;
        let spoilt: Vec<String> = text
            .lines()
            .enumerate()
            .map(|(at, typed)| match typed.split_once('=') {
                Some((key, _)) if at == line => format!("{key} = {figure}"),
                _ => typed.to_string(),
            })
            .collect();
        let Read { value, mistakes, .. } = read_sheet(&spoilt.join("\n"), Format::Toml);
        prop_assert_eq!(value.is_none(), !mistakes.is_empty());
        // What is read can be laid: every course line and every joint makes way.
        if let Some(sheet) = value {
            for band in &sheet.bands {
                prop_assert!(band.least_exposure.to_inches() >= 1.0 && sheet.headlap(band.greatest_exposure) >= band.headlap - units::Length::inches(1e-6));
            }
            prop_assert!((sheet.unit.width + sheet.gap).to_inches() >= 1.0);
        }
    }
}

/// Geometry, no published source: a 20-in slate, 1/4 in thick, at 8-1/2 in exposure and so 3 in headlap has its head on the
/// deck and lies 8-1/2 in further down on the head of the slate below, 1/4 in over the deck. At its butt, 20 in down, it
/// lies 1/4 x 20 / 8-1/2 = 0.588 in over the deck; a starter makes 1/4 in of that, the cant 1/4 x (8-1/2 + 3) / 8-1/2 =
/// 0.338 in.
#[test]
fn the_cant_of_a_slate() {
    let mut slate = Catalog::shipped().get("natural-slate").unwrap().clone();
    let of = [20.0, 0.25].map(units::Length::inches);
    let cant = slate.cant(units::Length::inches(8.5), of).unwrap().to_inches();
    assert!((cant - 0.338).abs() < 5e-4, "{cant}");
    slate.starter.layers = 2;
    assert!((slate.cant(units::Length::inches(8.5), of).unwrap().to_inches() - (0.338 - 0.25)).abs() < 5e-4);
    slate.unit.tapered = true;
    assert!(slate.cant(units::Length::inches(8.5), of).is_none());
}
