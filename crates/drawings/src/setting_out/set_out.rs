use plan::{GradedCourses, OffTheMarks, OutOfSquare, Station};

use super::sheet::{Sheet, in_inches, tape};

/// Fixed heights told one by one.
const MOST_STATIONS: usize = 8;

/// What the lead must know of the course lines, a line of the notes each.
pub(crate) fn notes(sheet: &Sheet) -> Vec<String> {
    let laid = sheet.laid;
    let mut notes: Vec<String> = laid.off_the_marks.iter().map(off_the_marks).collect();
    notes.extend(laid.out_of_square.iter().map(out_of_square));
    notes.extend(hanging(sheet));
    notes.extend(tapered(sheet));
    notes.extend(sheet.laid.lengths.iter().map(graded));
    notes.extend(under_starters(sheet));
    notes.extend(stations(sheet));
    notes.extend(guides(sheet));
    notes
}

fn off_the_marks(off: &OffTheMarks) -> String {
    format!(
        "Do not lay by the marks on the unit: course {} shows {}, and the nearest mark is {}.",
        off.course + 1,
        in_inches(off.exposure_in),
        in_inches(off.mark_in)
    )
}

fn out_of_square(is: &OutOfSquare) -> String {
    let [left, right] = is.slopes_in.map(tape);
    let [left_lap, right_lap] = is.headlaps_in.map(in_inches);
    format!(
        "Out of square: {left} at the left, {right} at the right; each pole has its own marks. Least headlap {left_lap} at the \
         left, {right_lap} at the right; lines run {} apart in 10 ft.",
        in_inches(is.in_10_ft)
    )
}

/// Staggered butts.
fn hanging(sheet: &Sheet) -> Option<String> {
    let step = sheet.laid.step_in;
    let told = || {
        format!(
            "Staggered: every other unit hangs {} below the line, as drawn; starters and first course lie straight.",
            in_inches(step)
        )
    };
    (step > 0.0).then(told)
}

/// Units that are cut narrower towards the peak of a turret.
fn tapered(sheet: &Sheet) -> Option<String> {
    let told = "Every joint points at the peak: snap it from a nail there. Joints are measured along the butts.";
    sheet.laid.peak_in.map(|_| told.into())
}

/// Courses of one length, and the drop of the first of them.
fn graded(of: &GradedCourses) -> String {
    let last = of.first_course + of.courses;
    let [length, thickness] = [of.length_in, of.thickness_in].map(in_inches);
    let drop = of.heads_apart_in.map_or_else(String::new, |apart| {
        format!(" Course {} drops: its heads lie {} over those below, once.", of.first_course + 1, in_inches(apart))
    });
    format!("Courses {} to {last}: {length} long, {thickness} thick.{drop}", of.first_course + 1)
}

/// What lies under the first course beyond one layer of starters.
fn under_starters(sheet: &Sheet) -> Option<String> {
    let cant = sheet.laid.cant_in.map(|cant| format!("cant strip {} thick", in_inches(cant)));
    let layers = (sheet.laid.starter_layers > 1).then(|| format!("{} layers of starters", sheet.laid.starter_layers));
    let told: Vec<String> = cant.into_iter().chain(layers).collect();
    (!sheet.laid.starters.is_empty() && !told.is_empty()).then(|| format!("Under the first course: {}.", told.join(", ")))
}

fn stations(sheet: &Sheet) -> Option<String> {
    let told: Vec<String> = sheet.laid.stations.iter().take(MOST_STATIONS).map(|station| told(sheet, station)).collect();
    let more = if sheet.laid.stations.len() > MOST_STATIONS { " …" } else { "" };
    (!told.is_empty()).then(|| format!("Fixed heights on the poles: {}{more}.", told.join("; ")))
}

fn told(sheet: &Sheet, station: &Station) -> String {
    let mark = tape(station.v_in - sheet.laid.first_butt_in);
    let name = station.name;
    if station.met {
        format!("{name} {mark}, a line")
    } else {
        format!("{name} {mark}, {} shows", in_inches(station.shows_in))
    }
}

/// Caps, or the metal in their place, lie to a straight line, whatever the framing does.
fn guides(sheet: &Sheet) -> Option<String> {
    let off = sheet.laid.guides.first()?.off_in;
    let has = |kind: &str| sheet.laid.guides.iter().any(|guide| guide.kind == kind);
    let lines = match (has("hip"), has("ridge")) {
        (true, true) => "hips and ridge",
        (true, false) => "hips",
        _ => "ridge",
    };
    let items = || sheet.plan.details.metal.iter().flat_map(|metal| &metal.items);
    let has_metal = items().any(|item| item.id == "ridge-metal" || item.id == "hip-metal");
    let has_caps = sheet.plan.order.iter().any(|line| line.id.starts_with("caps"));
    let covers = match (has_metal, has_caps) {
        (false, _) => "Caps",
        (true, false) => "Metal",
        (true, true) => "Caps and metal",
    };
    (off > 0.0).then(|| format!("{covers} of {lines}: snap a straight line {} down from both ends of each.", in_inches(off)))
}
