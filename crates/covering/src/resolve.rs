use reader::{Format, Places, Read, read};
use units::{Length, Measure, Pitch};

use crate::bonds::{self, bonds};
use crate::conditions::{self, conditions};
use crate::cutting::cutting;
use crate::desk::Desk;
use crate::ridge_metal::ridge_metal;
use crate::sheet::{
    CapGroup, EdgesGroup, ExposureGroup, NailsGroup, SheetFile, StarterGroup, UnderlaymentGroup, UnitGroup, WideGroup,
};
use crate::{Band, Bonds, Cap, Covering, Edges, Lap, Nails, Pack, Starter, Underlayment, Unit, Wide};

/// Version of the shape of a sheet.
const FORMAT: u32 = 1;

/// Slack for figures that came from millimetres, in.
const SLACK: Length = Length::inches(1e-9);

/// Reads a covering's data sheet and looks at every figure: what cannot be laid is a mistake at its place.
#[must_use]
pub fn read_sheet(text: &str, format: Format) -> Read<Covering> {
    let Read { value, mut mistakes, places } = read::<SheetFile>(text, format);
    let value = value.and_then(|sheet| match sound_sheet(&sheet, &places) {
        Ok(covering) => Some(covering),
        Err(found) => {
            mistakes.extend(found);
            None
        }
    });
    mistakes.sort_by_key(|mistake| mistake.span.start);
    Read { value, mistakes, places }
}

/// Looks at every figure of a sheet that stands in a file of its own or within another, where `places` are counted from it.
///
/// # Errors
/// Every mistake, with its place.
pub fn sound_sheet(sheet: &SheetFile, places: &Places) -> Result<Covering, Vec<reader::Mistake>> {
    let mut desk = Desk { units: sheet.units, places, mistakes: Vec::new() };
    head(&mut desk, sheet);
    let unit = unit(&mut desk, &sheet.unit);
    let covering = Covering {
        id: sheet.id.clone(),
        name: desk.words("name", &sheet.name),
        material: sheet.unit.material,
        unit,
        wide: sheet.wide.as_ref().map(|group| wide(&mut desk, group)),
        lap: sheet.lap.rule,
        bands: bands(&mut desk, &sheet.exposure),
        marks: marks(&mut desk, sheet),
        gap: desk.nil_or_more("lap.gap", sheet.lap.gap),
        joint_offset: desk.nil_or_more("lap.joint_offset", sheet.lap.joint_offset),
        least_piece: desk.nil_or_more("lap.least_piece", sheet.lap.least_piece),
        bonds: sheet.bond.as_ref().map_or_else(Bonds::default, |group| bonds(&mut desk, group)),
        edges: edges(&mut desk, &sheet.edges),
        starter: starter(&mut desk, &sheet.starter, sheet.lap.rule),
        cap: cap(&mut desk, &sheet.cap),
        ridge_metal: sheet.ridge_metal.as_ref().map(|group| ridge_metal(&mut desk, sheet, group)),
        nails: nails(&mut desk, &sheet.nails),
        underlayment: underlayment(&mut desk, &sheet.underlayment),
        pack: Pack { count: desk.count("pack.count", sheet.pack.count) },
        conditions: conditions(&mut desk, sheet),
        cutting: sheet.cutting.as_ref().map(|group| cutting(&mut desk, sheet, group)),
        sources: sources(&mut desk, sheet),
        invented: sheet.invented,
    };
    if desk.mistakes.is_empty() {
        together(&mut desk, &covering);
    }
    if desk.mistakes.is_empty() { Ok(covering) } else { Err(desk.mistakes) }
}

fn head(desk: &mut Desk, sheet: &SheetFile) {
    let says = || format!("format {} is not known; this program reads format {FORMAT}", sheet.format);
    desk.expect(sheet.format == FORMAT, "format", says, "Write format = 1.");
    let sound = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    let is_id = !sheet.id.is_empty() && sheet.id.len() <= 60 && sheet.id.chars().all(sound);
    let says = || format!("{} is not a short name", reader::quoted(&sheet.id));
    desk.expect(is_id, "id", says, "Use small letters, digits and hyphens: \"hill-slate-22\".");
}

fn unit(desk: &mut Desk, unit: &UnitGroup) -> Unit {
    Unit {
        length: desk.size("unit.length", unit.length),
        width: desk.size("unit.width", unit.width),
        thickness: desk.some("unit.thickness", unit.thickness),
        tapered: unit.tapered,
        weight: desk.mass("unit.weight_lb", unit.weight_lb),
    }
}

fn wide(desk: &mut Desk, wide: &WideGroup) -> Wide {
    Wide {
        width: desk.size("wide.width", wide.width),
        weight: desk.mass("wide.weight_lb", wide.weight_lb),
        pack: Pack { count: desk.count("wide.pack", wide.pack) },
    }
}

fn marks(desk: &mut Desk, sheet: &SheetFile) -> Vec<Length> {
    let marks = sheet.unit.marks.iter().enumerate();
    marks.map(|(index, &mark)| desk.size(&format!("unit.marks[{index}]"), mark)).collect()
}

fn bands(desk: &mut Desk, groups: &[ExposureGroup]) -> Vec<Band> {
    desk.expect(!groups.is_empty(), "exposure", || "no exposure is given".into(), "Give one [[exposure]] at least.");
    for (index, group) in groups.iter().enumerate() {
        band_end(desk, group, groups.get(index + 1).map(|next| next.from_pitch), index);
    }
    groups.iter().enumerate().map(|(index, group)| band(desk, group, &format!("exposure[{index}]"))).collect()
}

fn band(desk: &mut Desk, group: &ExposureGroup, path: &str) -> Band {
    let least_exposure = desk.size(&format!("{path}.least"), group.least);
    let greatest_exposure = desk.size(&format!("{path}.greatest"), group.greatest);
    let says = || format!("the least exposure {least_exposure} is more than the greatest {greatest_exposure}");
    desk.expect(least_exposure <= greatest_exposure, &format!("{path}.least"), says, "Exchange the two or mend one.");
    Band {
        from: group.from_pitch,
        to: group.to_pitch,
        least_exposure,
        greatest_exposure,
        headlap: desk.nil_or_more(&format!("{path}.headlap"), group.headlap),
    }
}

/// A band ends above where it begins, and exactly where the next one begins.
fn band_end(desk: &mut Desk, group: &ExposureGroup, next: Option<Pitch>, index: usize) {
    let path = format!("exposure[{index}].to_pitch");
    match (group.to_pitch, next) {
        (Some(to), _) if to <= group.from_pitch => {
            let says = format!("the band ends at {to}, not above {}, where it begins", group.from_pitch);
            desk.mistake(&path, says, "Give the bands from the lowest pitch up.");
        }
        (Some(to), Some(next)) if to != next => {
            let says = format!("this band ends at {to} and the next begins at {next}");
            desk.mistake(&path, says, "Let each band begin where the one before it ends.");
        }
        (None, Some(_)) => {
            desk.mistake(&path, "only the last band may have no end", "Write to_pitch where the next band begins.")
        }
        _ => {}
    }
}

/// Where a sheet is silent, an open valley is 4 in clear at the top and grows 1 in per 8 ft, and units lie 4 in over its
/// metal: Copper Flashings, a manual, Copper and Brass Research Association (1920s), specification, paragraph 33.
fn edges(desk: &mut Desk, edges: &EdgesGroup) -> Edges {
    let mut or = |path: &str, value: Option<Measure>, absent: f64| {
        value.map_or(Length::inches(absent), |value| desk.nil_or_more(&format!("edges.{path}"), value))
    };
    let [valley_clear, valley_growth, valley_flange, valley_nails_off] = [
        or("valley_clear", edges.valley_clear, 4.0),
        or("valley_growth", edges.valley_growth, 1.0),
        or("valley_flange", edges.valley_flange, 4.0),
        or("valley_nails_off", edges.valley_nails_off, 0.0),
    ];
    Edges {
        eave_projection: desk.nil_or_more("edges.eave_projection", edges.eave_projection),
        rake_projection: desk.nil_or_more("edges.rake_projection", edges.rake_projection),
        off_walls: desk.nil_or_more("edges.off_walls", edges.off_walls),
        valley_clear,
        valley_growth,
        valley_flange,
        valley_nails_off,
        high_edge_metal: desk.nil_or_more("edges.high_edge_metal", edges.high_edge_metal),
        apron_leg: desk.nil_or_more("edges.apron_leg", edges.apron_leg),
        ridge_slot: desk.nil_or_more("edges.ridge_slot", edges.ridge_slot),
        made_at_rakes: edges.made_at_rakes,
    }
}

fn starter(desk: &mut Desk, starter: &StarterGroup, lap: Lap) -> Starter {
    let layers = starter.layers.unwrap_or_else(|| lap.starter_layers());
    let says = || format!("{layers} is not a count of layers from 1 to 3");
    desk.expect((1..=3).contains(&layers), "starter.layers", says, "Type how many starters lie over each other.");
    Starter {
        height: starter.height.map(|height| desk.size("starter.height", height)),
        width: desk.size("starter.width", starter.width),
        weight: desk.mass("starter.weight_lb", starter.weight_lb),
        pack: Pack { count: desk.count("starter.pack", starter.pack) },
        nails: desk.count("starter.nails", starter.nails),
        joint_offset: desk.nil_or_more("starter.joint_offset", starter.joint_offset),
        layers,
    }
}

fn cap(desk: &mut Desk, cap: &CapGroup) -> Cap {
    let cover = desk.some("cap.cover", cap.cover);
    Cap {
        length: desk.size("cap.length", cap.length),
        exposure: desk.size("cap.exposure", cap.exposure),
        cover,
        hip_cover: cap.hip_cover.map_or(cover, |cover| desk.nil_or_more("cap.hip_cover", cover)),
        nails: desk.count("cap.nails", cap.nails),
        weight: desk.mass("cap.weight_lb", cap.weight_lb),
        pack: Pack { count: desk.count("cap.pack", cap.pack) },
    }
}

fn nails(desk: &mut Desk, nails: &NailsGroup) -> Nails {
    Nails {
        each: desk.count("nails.each", nails.each),
        penetration: desk.some("nails.penetration", nails.penetration),
        through_units: desk.count("nails.through_units", nails.through_units),
        box_count: desk.count("nails.box_count", nails.box_count),
    }
}

fn underlayment(desk: &mut Desk, roll: &UnderlaymentGroup) -> Underlayment {
    Underlayment {
        name: desk.words("underlayment.name", &roll.name),
        width: desk.roll("underlayment.width", roll.width),
        length: desk.roll("underlayment.length", roll.length),
        top_lap: desk.nil_or_more("underlayment.top_lap", roll.top_lap),
        end_lap: desk.nil_or_more("underlayment.end_lap", roll.end_lap),
        double_below: roll.double_below,
        weight: desk.mass("underlayment.weight_lb", roll.weight_lb),
    }
}

fn sources(desk: &mut Desk, sheet: &SheetFile) -> Vec<(String, String)> {
    let bands = sheet.exposure.iter().enumerate().map(|(index, band)| (format!("exposure[{index}]"), &band.source));
    [
        ("unit", &sheet.unit.source),
        ("lap", &sheet.lap.source),
        ("edges", &sheet.edges.source),
        ("starter", &sheet.starter.source),
        ("cap", &sheet.cap.source),
        ("nails", &sheet.nails.source),
        ("underlayment", &sheet.underlayment.source),
        ("pack", &sheet.pack.source),
    ]
    .into_iter()
    .chain(sheet.bond.as_ref().map(|bond| ("bond", &bond.source)))
    .chain(sheet.cutting.as_ref().map(|cutting| ("cutting", &cutting.source)))
    .chain(sheet.wide.as_ref().map(|wide| ("wide", &wide.source)))
    .chain(sheet.ridge_metal.as_ref().map(|metal| ("ridge_metal", &metal.source)))
    .map(|(group, source)| (group.to_string(), source))
    .chain(bands)
    .chain(conditions::sources(sheet))
    .map(|(group, source)| {
        let source = desk.words(&format!("{group}.source"), source);
        (group, source)
    })
    .collect()
}

/// What the figures must be to each other, so that the covering can be laid at all.
fn together(desk: &mut Desk, covering: &Covering) {
    for (index, band) in covering.bands.iter().enumerate() {
        let path = format!("exposure[{index}].greatest");
        let headlap = covering.headlap(band.greatest_exposure);
        let says = || {
            let (exposure, least) = (band.greatest_exposure, band.headlap);
            format!("at {exposure} exposure the headlap is {headlap}; this band asks for {least}")
        };
        desk.expect(
            headlap + SLACK >= band.headlap,
            &path,
            says,
            "Shorten the exposure, or mend the unit's length or headlap.",
        );
    }
    bonds::together(desk, covering);
    starter_joints(desk, covering);
    if let Some(wide) = covering.wide {
        let says = || format!("{} is not more than the unit's width, {}", wide.width, covering.unit.width);
        desk.expect(wide.width > covering.unit.width, "wide.width", says, "Mend one of the two.");
    }
    less(desk, ("lap.gap", covering.gap), ("the unit's width", covering.unit.width));
    less(desk, ("lap.least_piece", covering.least_piece), ("the unit's width", covering.unit.width + SLACK));
    if let Some(cutting) = covering.cutting {
        less(desk, ("cutting.kerf", cutting.kerf), ("the unit's width", covering.unit.width));
    }
    less(desk, ("cap.exposure", covering.cap.exposure), ("the cap's length", covering.cap.length + SLACK));
    less(desk, ("underlayment.top_lap", covering.underlayment.top_lap), ("the roll's width", covering.underlayment.width));
    less(desk, ("underlayment.end_lap", covering.underlayment.end_lap), ("the roll's length", covering.underlayment.length));
}

/// The joint of a starter can stand over the middle of a unit at best.
fn starter_joints(desk: &mut Desk, covering: &Covering) {
    let apart = (covering.starter.width + covering.gap) / 2.0;
    let says = || format!("starters of this width have joints at most {apart} off the first course's, less than this");
    desk.expect(
        apart + SLACK >= covering.starter.joint_offset,
        "starter.joint_offset",
        says,
        "Mend the offset or the width.",
    );
}

fn less(desk: &mut Desk, (path, is): (&str, Length), (what, limit): (&str, Length)) {
    desk.expect(is < limit, path, || format!("{is} is not less than {what}, {limit}"), "Mend one of the two.");
}
