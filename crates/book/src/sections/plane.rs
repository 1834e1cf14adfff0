use plan::{Course, Edge, GradedCourses, LaidPlane, Opening, Plane, Starters};

use super::cautions;
use super::cover::pitch;
use super::cut_list::courses;
use super::desk::{Desk, count, note_height, sentence};
use crate::content::{Block, Column, Picture, Sheet, Table};

/// A sheet for each plane that is laid, one for all that are alike: the drawing, what must be known before a nail is driven, marks and cuts.
pub(crate) fn sheets(desk: &Desk) -> Vec<Sheet> {
    desk.with_sheets().enumerate().map(|(index, (plane, laid))| sheet(desk, index, plane, laid)).collect()
}

/// Room for facts and instructions under the drawing, mm.
const UNDER: f64 = 52.0;

fn sheet(desk: &Desk, index: usize, plane: &Plane, laid: &LaidPlane) -> Sheet {
    let [width, height] = desk.room();
    let alike = alike(desk, plane, laid);
    let over = alike.as_deref().map_or(0.0, note_height);
    let figure = drawings::plane_figure(&desk.plan, &plane.id, [width, height - UNDER - over], desk.tongue);
    let mut blocks: Vec<Block> = alike.into_iter().map(|words| Block::Words { words }).collect();
    let mut scale = String::new();
    let mut keyed = Vec::new();
    if let Some(figure) = figure {
        scale = drawings::Words::scale(desk.tongue, figure.scale);
        let alt = desk.with(
            "plane-alt",
            &[
                ("plane", plane.name.as_str().into()),
                ("scale", scale.as_str().into()),
                ("courses", laid.courses.len().into()),
            ],
        );
        blocks.push(Block::Figure(Picture::of(&format!("plane-{index}"), &figure, alt, String::new())));
        keyed = figure.keyed;
    }
    blocks.push(Block::Facts { facts: facts(desk, plane, laid) });
    let mut told = instructions(desk, plane, laid, &keyed);
    told.extend(tables(desk, plane, laid));
    blocks.push(Block::Columns { count: 2, blocks: told });
    Sheet { scale, ..Sheet::new(desk.sheet_name(&plane.id), desk.say("plane"), blocks) }
}

/// For which planes a sheet holds, and how many pieces all of them take.
fn alike(desk: &Desk, plane: &Plane, laid: &LaidPlane) -> Option<String> {
    let ids = desk.like(&plane.id);
    let planes = ids.len() as u64;
    let [all, cut] = pieces(laid);
    let values = [
        ("count", planes.into()),
        ("planes", desk.plane_names(ids).into()),
        ("pieces", count(all * planes).into()),
        ("cut", count(cut * planes).into()),
    ];
    (planes > 1).then(|| desk.with("plane-alike", &values))
}

/// All, and those that are cut.
fn pieces(laid: &LaidPlane) -> [u64; 2] {
    let runs = || laid.courses.iter().flat_map(|course| &course.runs);
    let all = runs().map(|run| u64::from(run.count)).sum();
    [all, runs().filter(|run| run.cut.is_some()).map(|run| u64::from(run.count)).sum()]
}

fn facts(desk: &Desk, plane: &Plane, laid: &LaidPlane) -> Vec<[String; 2]> {
    let measures = desk.tongue.measures;
    let covering = &desk.plan.covering;
    let [all, cut] = pieces(laid);
    vec![
        desk.fact("fact-pitch", pitch(plane.pitch)),
        desk.fact("fact-area", measures.area(plane.area_sqft)),
        desk.fact("fact-courses", laid.courses.len().to_string()),
        desk.fact("fact-exposure", exposure(desk, laid)),
        desk.fact("fact-headlap", least_headlap(desk, laid)),
        desk.fact(
            "fact-plane-pieces",
            desk.with("pieces-of-which", &[("pieces", count(all).into()), ("cut", count(cut).into())]),
        ),
        desk.fact("fact-gap", measures.short(covering.gap_in)),
        desk.fact("fact-nails", covering.nails_each.to_string()),
    ]
}

fn exposure(desk: &Desk, laid: &LaidPlane) -> String {
    let exposures = laid.courses.iter().map(|course| course.exposure_in);
    let [least, greatest] = exposures.fold([f64::INFINITY, 0.0], |[a, b]: [f64; 2], is| [a.min(is), b.max(is)]);
    match [least, greatest].map(|inches| desk.tongue.measures.short(inches)) {
        _ if laid.courses.is_empty() => String::new(),
        [least, greatest] if least == greatest => least,
        [least, greatest] => desk.with("from-to", &[("from", least.into()), ("to", greatest.into())]),
    }
}

fn least_headlap(desk: &Desk, laid: &LaidPlane) -> String {
    let headlaps = laid.courses.iter().map(|course| course.headlap_in);
    headlaps.reduce(f64::min).map_or_else(String::new, |least| desk.tongue.measures.short(least))
}

fn instructions(desk: &Desk, plane: &Plane, laid: &LaidPlane, keyed: &[String]) -> Vec<Block> {
    let mut blocks = vec![
        Block::Together {
            blocks: vec![Block::Heading { words: desk.say("plane-before") }, Block::Boxes { items: before(desk) }],
        },
        Block::Heading { words: desk.say("plane-start") },
        Block::List { items: start(desk, laid) },
    ];
    let mut others = notes(desk, laid);
    others.extend(openings(desk, plane));
    if !keyed.is_empty() {
        others.push(desk.with("plane-short-edges", &[("edges", keyed.join("; ").into())]));
    }
    if !others.is_empty() {
        blocks.push(Block::Heading { words: desk.say("plane-mind") });
        blocks.push(Block::List { items: others });
    }
    blocks.push(Block::Together {
        blocks: vec![Block::Heading { words: desk.say("plane-nail") }, Block::List { items: nailing(desk, plane) }],
    });
    blocks.push(Block::Together {
        blocks: vec![Block::Heading { words: desk.say("cautions-walk") }, Block::List { items: cautions::walk(desk) }],
    });
    blocks
}

/// The hold points that are signed before the first unit is laid.
fn before(desk: &Desk) -> Vec<String> {
    let steps = desk.plan.details.order_of_work.iter().enumerate();
    let before = steps.take_while(|(_, step)| step.id != "first-courses").filter(|(_, step)| step.hold_point);
    before
        .map(|(index, step)| {
            desk.with("plane-signed", &[("number", (index + 1).to_string().into()), ("step", desk.words(step.title).into())])
        })
        .collect()
}

fn start(desk: &Desk, laid: &LaidPlane) -> Vec<String> {
    let measures = desk.tongue.measures;
    let mut items = vec![first_joints(desk, laid), zero(desk, laid)];
    items.extend(starters(laid).into_iter().map(|(starters, count)| {
        let up = measures.long(starters.butt_in - laid.first_butt_in);
        let height = measures.short(starters.height_in);
        let name = if starters.butt_in > laid.first_butt_in { "plane-starters-above" } else { "plane-starters" };
        desk.with(name, &[("count", count.to_string().into()), ("height", height.into()), ("up", up.into())])
    }));
    items.push(desk.say("plane-poles"));
    items
}

/// Starters of one height along one line of butts, and how many in all.
fn starters(laid: &LaidPlane) -> Vec<(&Starters, u32)> {
    let mut rows: Vec<(&Starters, u32)> = Vec::new();
    for starters in &laid.starters {
        let same = |a: f64, b: f64| (a - b).abs() < 1e-6;
        let row =
            rows.iter_mut().find(|(of, _)| same(of.butt_in, starters.butt_in) && same(of.height_in, starters.height_in));
        match row {
            Some((_, count)) => *count += starters.count,
            None => rows.push((starters, starters.count)),
        }
    }
    rows
}

/// From the left end of a course to its first joint: for odd and even courses where the bond repeats in two, for three where it
/// repeats in three; else the table tells.
fn first_joints(desk: &Desk, laid: &LaidPlane) -> String {
    let joints: Vec<Option<String>> =
        laid.courses.iter().map(|course| first_joint(course).map(|joint| desk.tongue.measures.short(joint))).collect();
    let repeats_in = |period: usize| {
        let alike = |index: usize| joints[index] == joints[index % period];
        joints.len() > period && (0..joints.len()).all(alike)
    };
    let shown = |index: usize| joints.get(index).cloned().flatten().unwrap_or_else(|| desk.say("none"));
    if repeats_in(1) {
        return desk.with("plane-joints-1", &[("a", shown(0).into())]);
    }
    if repeats_in(2) {
        return desk.with("plane-joints-2", &[("a", shown(0).into()), ("b", shown(1).into())]);
    }
    if repeats_in(3) {
        return desk.with("plane-joints-3", &[("a", shown(0).into()), ("b", shown(1).into()), ("c", shown(2).into())]);
    }
    desk.with("plane-joints-table", &[("a", shown(0).into()), ("b", shown(1).into())])
}

/// From the left end of a course to its first joint; none for a course of one piece.
fn first_joint(course: &Course) -> Option<f64> {
    let &[left, right] = course.spans_in.first()?;
    let joint = course.joints_in.iter().find(|&&joint| joint > left)?;
    (*joint < right).then_some(joint - left)
}

fn zero(desk: &Desk, laid: &LaidPlane) -> String {
    let measures = desk.tongue.measures;
    let top = laid.poles.first().map_or(laid.top_in - laid.first_butt_in, |pole| pole.top_in);
    let (name, off) = match laid.first_butt_in {
        0.0 => ("plane-zero-at", 0.0),
        below if below < 0.0 => ("plane-zero-past", -below),
        above => ("plane-zero-above", above),
    };
    desk.with(name, &[("off", measures.short(off).into()), ("top", measures.long(top).into())])
}

fn notes(desk: &Desk, laid: &LaidPlane) -> Vec<String> {
    let measures = desk.tongue.measures;
    let mut notes = Vec::new();
    notes.extend(laid.off_the_marks.as_ref().map(|off| {
        let [shows, mark] = [off.exposure_in, off.mark_in].map(|inches| measures.short(inches));
        let course = (off.course + 1).to_string();
        desk.with("plane-off-marks", &[("course", course.into()), ("shows", shows.into()), ("mark", mark.into())])
    }));
    notes.extend(laid.out_of_square.as_ref().map(|is| {
        let [left, right] = is.slopes_in.map(|inches| measures.long(inches));
        let apart = measures.short(is.in_10_ft);
        desk.with("plane-out-of-square", &[("left", left.into()), ("right", right.into()), ("apart", apart.into())])
    }));
    let staggered = is_staggered(laid).then(|| measures.short(laid.step_in));
    notes.extend(staggered.map(|step| desk.with("plane-staggered", &[("step", step.into())])));
    notes.extend(laid.peak_in.map(|_| desk.say("plane-tapered")));
    notes.extend(laid.lengths.iter().map(|of| graded(desk, of)));
    notes.extend(under_first_course(desk, laid));
    notes.extend(laid.stations.iter().map(|station| {
        let mark = measures.long(station.v_in - laid.first_butt_in);
        let name = if station.met { "plane-station-met" } else { "plane-station-not" };
        let shows = measures.short(station.shows_in);
        desk.with(
            name,
            &[
                ("name", sentence(&desk.words(station.name)).trim_end_matches('.').into()),
                ("mark", mark.into()),
                ("shows", shows.into()),
            ],
        )
    }));
    let guide = laid.guides.first().filter(|guide| guide.off_in > 0.0);
    notes.extend(guide.map(|guide| desk.with("plane-caps", &[("off", measures.short(guide.off_in).into())])));
    notes
}

/// Courses of one length, and the drop of the first of them.
fn graded(desk: &Desk, of: &GradedCourses) -> String {
    let measures = desk.tongue.measures;
    let name = if of.heads_apart_in.is_some() { "plane-length-drop" } else { "plane-length" };
    let values = [
        ("from", (of.first_course + 1).to_string()),
        ("to", (of.first_course + of.courses).to_string()),
        ("length", measures.short(of.length_in)),
        ("thickness", measures.short(of.thickness_in)),
        ("apart", of.heads_apart_in.map(|apart| measures.short(apart)).unwrap_or_default()),
    ];
    let values: Vec<(&str, crate::tongue::Value)> = values.into_iter().map(|(name, value)| (name, value.into())).collect();
    desk.with(name, &values)
}

/// What lies under the starters, and how many of them over each other.
fn under_first_course(desk: &Desk, laid: &LaidPlane) -> Vec<String> {
    if laid.starters.is_empty() {
        return Vec::new();
    }
    let cant = laid.cant_in.map(|cant| desk.tongue.measures.short(cant));
    let cant = cant.map(|cant| desk.with("plane-cant", &[("cant", cant.into())]));
    let layers = u64::from(laid.starter_layers);
    let layers = (layers > 1).then(|| desk.with("plane-starter-layers", &[("layers", layers.into())]));
    cant.into_iter().chain(layers).collect()
}

/// What comes through the plane, numbered as in the drawing.
fn openings(desk: &Desk, plane: &Plane) -> Vec<String> {
    let all = desk.plan.roof.openings.iter().enumerate();
    all.filter(|(_, opening)| opening.planes.first() == Some(&plane.id))
        .map(|(index, opening)| told(desk, index + 1, opening))
        .collect()
}

fn told(desk: &Desk, number: usize, opening: &Opening) -> String {
    let measures = desk.tongue.measures;
    let values = [
        ("number", number.to_string()),
        ("name", desk.words(&opening.name)),
        ("width", measures.short(opening.width_in)),
        ("height", measures.short(opening.height_in)),
        ("across", measures.long(opening.across_in)),
        ("up", measures.long(opening.up_in)),
    ];
    let values: Vec<(&str, crate::tongue::Value)> = values.into_iter().map(|(name, value)| (name, value.into())).collect();
    desk.with("plane-opening", &values)
}

fn nailing(desk: &Desk, plane: &Plane) -> Vec<String> {
    let covering = &desk.plan.covering;
    let nails = desk.with("plane-nails", &[("nails", u64::from(covering.nails_each).into())]);
    let mut items = vec![
        nails,
        desk.say("plane-nails-driven"),
        desk.with("plane-nails-reach", &[("depth", desk.tongue.measures.short(covering.nail_penetration_in).into())]),
        desk.with("plane-gap", &[("gap", desk.tongue.measures.short(covering.gap_in).into())]),
    ];
    let has = |kinds: &[&str]| plane.edges.iter().any(|edge: &Edge| kinds.contains(&edge.kind));
    if has(&["hip", "valley"]) {
        items.push(desk.say("plane-cut-made"));
    }
    items.push(cutting(desk));
    items.push(chalk(desk));
    items
}

fn cutting(desk: &Desk) -> String {
    let covering = &desk.plan.covering;
    if covering.cutting_tool.is_empty() {
        return desk.say("plane-tool-unknown");
    }
    let kerf = desk.tongue.measures.short(covering.kerf_in);
    desk.with("plane-tool", &[("tool", desk.words(covering.cutting_tool).into()), ("kerf", kerf.into())])
}

fn chalk(desk: &Desk) -> String {
    let stains: Vec<String> = desk.plan.covering.stained_by.iter().map(|colour| desk.words(colour)).collect();
    if stains.is_empty() {
        return desk.say("plane-chalk");
    }
    desk.with("plane-chalk-stains", &[("colours", stains.join(", ").into())])
}

fn tables(desk: &Desk, plane: &Plane, laid: &LaidPlane) -> Vec<Block> {
    let mut blocks = vec![Block::Heading { words: desk.say("courses") }, course_table(desk, laid)];
    let cuts = drawings::cut_uses(&desk.plan, &plane.id);
    if !cuts.is_empty() {
        blocks.push(Block::Heading { words: desk.say("plane-cuts") });
        blocks.push(cut_table(desk, laid, &cuts));
    }
    blocks
}

fn course_table(desk: &Desk, laid: &LaidPlane) -> Block {
    let right = |name: &str| Column::right(desk.say(name));
    let has_right = laid.out_of_square.is_some();
    let mut columns = vec![right("courses-number"), right("courses-butts")];
    columns.extend(has_right.then(|| right("courses-butts-right")));
    columns.extend(is_staggered(laid).then(|| right("courses-low")));
    columns.extend([right("courses-heads"), right("courses-joint"), right("courses-left-cut"), right("courses-right-cut")]);
    let rows =
        laid.courses.iter().enumerate().map(|(index, course)| course_row(desk, laid, index, course, has_right)).collect();
    Block::Table(Table { columns, rows, size: 8.5 })
}

fn is_staggered(laid: &LaidPlane) -> bool {
    laid.step_in > 0.0
}

fn course_row(desk: &Desk, laid: &LaidPlane, index: usize, course: &Course, has_right: bool) -> Vec<String> {
    let measures = desk.tongue.measures;
    let mark = |side: &str| drawings::mark(laid, side, index);
    let butts = |side: &str| mark(side).map(|mark| measures.mark(mark.butt_in)).unwrap_or_default();
    let heads = mark("left").and_then(|mark| mark.head_in).map(|head| measures.mark(head)).unwrap_or_default();
    let cut = |run: Option<&plan::Run>| run.and_then(|run| run.cut).map(|cut| (cut + 1).to_string()).unwrap_or_default();
    let mut row = vec![(index + 1).to_string(), butts("left")];
    row.extend(has_right.then(|| butts("right")));
    let low = || mark("left").and_then(|mark| mark.hang_in).map(|hang| measures.mark(hang)).unwrap_or_default();
    row.extend(is_staggered(laid).then(low));
    row.extend([
        heads,
        first_joint(course).map(|joint| measures.short(joint)).unwrap_or_default(),
        cut(course.runs.first()),
        cut(course.runs.last()),
    ]);
    row
}

fn cut_table(desk: &Desk, laid: &LaidPlane, cuts: &[drawings::CutUse]) -> Block {
    let right = |name: &str| Column::right(desk.say(name));
    let columns = vec![
        right("cut-cut"),
        right("cut-count"),
        right("cut-courses"),
        right("cut-butt"),
        right("cut-head"),
        right("cut-length"),
        right("cut-bevel"),
        Column::left(desk.say("cut-hand")),
        Column::left(desk.say("cut-at")),
    ];
    let rows = cuts.iter().map(|cut| cut_row(desk, laid, cut)).collect();
    Block::Table(Table { columns, rows, size: 8.0 })
}

fn cut_row(desk: &Desk, laid: &LaidPlane, cut: &drawings::CutUse) -> Vec<String> {
    let measures = desk.tongue.measures;
    let shape = laid.cuts.get(cut.cut);
    let bevels = shape.map_or(&[][..], |shape| &shape.bevels);
    // Level cuts are told by the length, upright ones by the width.
    let slanted = bevels.iter().find(|bevel| bevel.angle_deg > 0.05 && bevel.angle_deg < 89.95);
    let hand = shape.and_then(|shape| shape.hand).unwrap_or_default();
    vec![
        (cut.cut + 1).to_string(),
        cut.count.to_string(),
        courses(cut.courses),
        measures.short(cut.butt_in),
        measures.short(cut.head_in),
        measures.short(cut.length_in),
        slanted.map(|bevel| format!("{:.1}°", bevel.angle_deg)).unwrap_or_default(),
        desk.words(hand),
        desk.words(cut.at),
    ]
}
