//! From readings on the roof to new marks.

use std::collections::BTreeMap;

use covering::{Catalog, Covering};
use layout::{InTheWay, Limit, NoRoom, Reading, Relaid, Relaying, Spread, Way};
use roof::{Plane as Surface, Roof as Shape};
use units::Length;

use crate::make::{Surveyed, id_of, survey, unknown_sheet};
use crate::own_sheets::as_job_has_it;
use crate::{FORMAT, Job, LaidSoFar, NewCourse, Outcome, PartedNeighbour, RelaidPlane, Relay, courses, openings};

/// A course as it was measured on the roof.
#[derive(Debug, Clone, PartialEq)]
pub struct CourseRead {
    /// The plane's id or its name.
    pub plane: String,
    /// Counted from 1 at the eave, as on the papers.
    pub course: usize,
    /// From the pole's zero to its butts at the left end.
    pub left: Length,
    /// The same at the right end.
    pub right: Length,
}

/// A reading that cannot be meant.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Misread {
    /// Which reading, counted from 0.
    pub reading: usize,
    /// What is wrong.
    pub says: String,
    /// What to do.
    pub remedy: String,
}

/// Spreads the courses above each plane's highest reading anew. Pure, as [`crate::plan()`] is.
///
/// # Errors
/// Every reading that names no plane or course of this job, or lies below another of a lower course.
pub fn relay(job: &Job, catalog: &Catalog, readings: &[CourseRead]) -> Result<Relay, Vec<Misread>> {
    let catalog = &as_job_has_it(job, catalog);
    let Surveyed { roof, mut problems, .. } = survey(job);
    let chosen = catalog.get(&job.covering.sheet).map(|covering| layout::as_set_out(covering, &job.setting_out));
    let covering = chosen.as_deref();
    if covering.is_none() {
        problems.push(unknown_sheet(job, catalog));
    }
    let ridge_vent = job.attic.and_then(|attic| attic.ridge_vent);
    let slotted = covering.map(|covering| details::with_vent_slot(covering, ridge_vent.as_ref()));
    let covering_of = |plane: &Surface| slotted.as_deref().filter(|_| !openings::is_cricket(&roof, plane));
    let laying = layout::lay_roof(&roof, covering_of, &job.setting_out);
    let by_plane = by_plane(&roof, &laying, readings)?;
    let relaying = Relaying { roof: &roof, layout: &laying, setting_out: &job.setting_out };
    let relaid = by_plane.values().filter_map(|readings| layout::relay(relaying, covering_of, readings));
    let planes = relaid.map(|relaid| told(&roof, &relaid, covering)).collect();
    Ok(Relay { format: FORMAT, name: job.name.clone(), problems, planes })
}

fn by_plane(
    roof: &Shape,
    laying: &layout::Layout,
    readings: &[CourseRead],
) -> Result<BTreeMap<usize, Vec<Reading>>, Vec<Misread>> {
    let found = readings.iter().enumerate().map(|(at, read)| (at, reading(roof, laying, at, read)));
    let (mut planes, mut wrong) = (BTreeMap::<usize, Vec<(usize, Reading)>>::new(), Vec::new());
    for (at, reading) in found {
        match reading {
            Ok(reading) => planes.entry(reading.plane).or_default().push((at, reading)),
            Err(misread) => wrong.push(misread),
        }
    }
    for readings in planes.values_mut() {
        readings.sort_by_key(|(_, reading)| reading.course);
        wrong.extend(readings.windows(2).filter_map(|pair| out_of_order(&pair[0], &pair[1])));
    }
    wrong.sort_by_key(|misread| misread.reading);
    if !wrong.is_empty() {
        return Err(wrong);
    }
    Ok(planes.into_iter().map(|(plane, readings)| (plane, readings.into_iter().map(|of| of.1).collect())).collect())
}

fn reading(roof: &Shape, laying: &layout::Layout, at: usize, read: &CourseRead) -> Result<Reading, Misread> {
    let misread = |says: String, remedy: String| Misread { reading: at, says, remedy };
    let is_named = |plane: &Surface| plane.id == read.plane || plane.name == read.plane;
    let laid = laying.planes.iter().find(|laid| roof.planes.get(laid.plane).is_some_and(is_named));
    let Some(laid) = laid.filter(|laid| !laid.courses.is_empty()) else {
        let known = laying.planes.iter().filter(|laid| !laid.courses.is_empty());
        let known: Vec<String> = known.map(|laid| id_of(roof, laid.plane)).collect();
        let remedy =
            if known.is_empty() { "nothing is laid on this roof".into() } else { format!("laid are {}", known.join(", ")) };
        return Err(misread(format!("no plane \"{}\" is laid", read.plane), remedy));
    };
    let count = laid.courses.len();
    let Some(course) = read.course.checked_sub(1).filter(|&course| course < count) else {
        let says = format!("{} has no course {}", read.plane, read.course);
        return Err(misread(says, format!("its courses are 1, at the eave, to {count}")));
    };
    let ends = [read.left, read.right].map(Length::to_inches);
    let most = 2.0 * (laid.top - laid.first_butt) + 1000.0;
    if ends.iter().any(|end| !end.is_finite() || end.abs() > most) {
        let says = format!("{}, course {}: so far up there is no roof", read.plane, read.course);
        return Err(misread(says, "measure from the pole's zero, the first butts, to the course's butts".into()));
    }
    Ok(Reading { plane: laid.plane, course, ends })
}

/// A course lies above those below it.
fn out_of_order((_, low): &(usize, Reading), (at, high): &(usize, Reading)) -> Option<Misread> {
    let says = if low.course == high.course {
        format!("course {} of one plane is read twice", high.course + 1)
    } else if low.ends.iter().zip(&high.ends).any(|(low, high)| low >= high) {
        format!("course {} is read no higher than course {} below it", high.course + 1, low.course + 1)
    } else {
        return None;
    };
    Some(Misread { reading: *at, says, remedy: "look at the tape and count the courses again".into() })
}

fn told(roof: &Shape, relaid: &Relaid, covering: Option<&Covering>) -> RelaidPlane {
    let mut told = RelaidPlane {
        id: id_of(roof, relaid.plane),
        name: roof.planes.get(relaid.plane).map_or_else(String::new, |plane| plane.name.clone()),
        course: relaid.course,
        planned_in: relaid.planned,
        laid: relaid.laid.iter().map(so_far).collect(),
        outcome: Outcome::NoRoom,
        in_the_way: Vec::new(),
        ways: Vec::new(),
        courses: Vec::new(),
        top_in: [0.0; 2],
        more_courses: 0,
        more_pieces: 0,
        room_in: [0.0; 2],
        poles: Vec::new(),
        neighbours: Vec::new(),
        cautions: cautions(relaid, covering),
    };
    match &relaid.outcome {
        Ok(spread) => spread_told(&mut told, roof, relaid, spread),
        Err(no_room) => no_room_told(&mut told, no_room),
    }
    told
}

fn so_far(laid: &layout::Checked) -> LaidSoFar {
    LaidSoFar { course: laid.course, read_in: laid.read, drift_in: laid.drift, shows_in: laid.shows }
}

fn spread_told(told: &mut RelaidPlane, roof: &Shape, relaid: &Relaid, spread: &Spread) {
    let above = spread.butts.iter().skip(1).chain([&spread.top]);
    let course = |(nth, (butts, above)): (usize, (&[f64; 2], &[f64; 2]))| NewCourse {
        course: relaid.course + nth,
        butts_in: *butts,
        shows_in: [0, 1].map(|end| above[end] - butts[end]),
    };
    told.outcome = if spread.as_planned { Outcome::AsPlanned } else { Outcome::Spread };
    told.courses = spread.butts.iter().zip(above).enumerate().map(course).collect();
    told.top_in = spread.top;
    (told.more_courses, told.more_pieces) = (spread.more, spread.pieces);
    told.room_in = spread.room;
    told.cautions.extend(
        spread.missed.iter().map(|station| {
            format!("No line lands at the {} any more: look what is left of the course there.", station.name())
        }),
    );
    told.poles = spread.poles.iter().map(courses::pole).collect();
    told.neighbours = spread.neighbours.iter().filter(|of| of.off.abs() > 0.0).map(|of| parted(roof, of)).collect();
}

fn parted(roof: &Shape, of: &layout::Neighbour) -> PartedNeighbour {
    let name = |plane: usize| roof.planes.get(plane).map_or("", |plane| plane.name.as_str());
    let [least, greatest] = of.shows.map(exact);
    let shows = if least == greatest { least } else { format!("{least} to {greatest}") };
    let kept = of.shows[0] >= of.allowed[0] - 1e-6 && of.shows[1] <= of.allowed[1] + 1e-6;
    let verdict = if kept {
        "within what the sheet allows".into()
    } else {
        format!("where the sheet allows from {} to {}", exact(of.allowed[0]), exact(of.allowed[1]))
    };
    let says = format!(
        "At the {} courses no longer meet those of {}: they come to lie up to {} {}. Spread {} anew too from its course {}, if \
         it is laid no higher, and they meet again; it then shows {shows}, {verdict}.",
        of.kind.name(),
        name(of.plane),
        tape(of.off.abs()),
        if of.off > 0.0 { "higher" } else { "lower" },
        name(of.plane),
        of.course + 1,
    );
    PartedNeighbour {
        plane: id_of(roof, of.plane),
        off_in: of.off,
        says,
        keeps_limits: kept,
        marks: of.marks.iter().map(courses::mark).collect(),
    }
}

fn no_room_told(told: &mut RelaidPlane, no_room: &NoRoom) {
    told.top_in = [0, 1].map(|end| told.laid.last().map_or(0.0, |laid| laid.read_in[end]) + no_room.heights[end]);
    told.in_the_way = no_room.in_the_way.iter().map(in_the_way).collect();
    told.ways = no_room.ways.iter().map(|way| way_out(told.course, *way)).collect();
}

fn in_the_way(of: &InTheWay) -> String {
    let end = match of.end {
        layout::End::Left => "left",
        layout::End::Right => "right",
    };
    let courses = if of.courses == 1 { "1 course".into() } else { format!("{} courses", of.courses) };
    match of.limit {
        Limit::Greatest(by) => {
            format!(
                "{courses} at the greatest exposure, which headlap and sheet set, end {} below the top line at the {end}",
                off(by)
            )
        }
        Limit::Least(by) => {
            format!("{courses} at the least exposure would end {} over the top line at the {end}", off(by))
        }
        Limit::Sight(by) => format!(
            "{courses}, each changed from the one below by the sight limit, miss the top line by {} at the {end}",
            off(by)
        ),
    }
}

fn way_out(course: usize, way: Way) -> String {
    match way {
        Way::TakeUp { from } if from == course => format!("take up course {}, and spread from the one below it", course + 1),
        Way::TakeUp { from } => format!(
            "take up courses {} to {}, and spread from course {} (its place reckoned between the readings: measure it)",
            from + 1,
            course + 1,
            from
        ),
        Way::CoverMore { by } => format!("cover {} more at the top, with wider caps or a wider apron", off(by)),
        Way::ShortTop { courses, shows } => format!(
            "lay {courses} courses from course {} up, the top one showing {} only, under caps or apron",
            course + 1,
            tape(shows)
        ),
        Way::SeenChange { limit } => {
            format!("let exposures change by up to {} from course to course; it is seen", tape(limit))
        }
    }
}

fn cautions(relaid: &Relaid, covering: Option<&Covering>) -> Vec<String> {
    let mut cautions = Vec::new();
    if let Some(nearer) = relaid.nearer {
        let [own, other] = [relaid.course + 1, nearer + 1];
        cautions.push(format!("What was read lies nearer to the mark of course {other} than of course {own}: count again."));
    }
    let mut from = 1;
    for laid in &relaid.laid {
        let shows = laid.shows.map_or(0.0, |[left, right]| left.max(right));
        if shows > relaid.greatest + 1e-6 {
            let lap = covering.map_or_else(String::new, |covering| {
                let lap = relaid.length - shows * f64::from(covering.lap.courses());
                format!(", a headlap of {}", Length::inches(lap).in_inches())
            });
            let those = match laid.course {
                one if one == from => format!("Course {one} shows {}", exact(shows)),
                to => format!("Courses {from} to {to} show {} on the mean", exact(shows)),
            };
            cautions.push(format!(
                "{those}{lap}; the sheet allows {}. New marks above do not cure what is laid: take it up, or ask the maker.",
                exact(relaid.greatest)
            ));
        }
        from = laid.course + 1;
    }
    if let Some(in_10_ft) = relaid.out_of_parallel {
        cautions.push(format!(
            "Its line runs {} in 10 ft out of parallel with the eave, and more than 1/2\" is seen.",
            tape(in_10_ft)
        ));
    }
    cautions
}

fn tape(inches: f64) -> String {
    Length::inches(inches).in_inches()
}

/// As the tape has it, where it has it.
fn off(inches: f64) -> String {
    if inches < 1.0 / 32.0 { "less than 1/16\"".into() } else { tape(inches) }
}

/// Exposures are told closer than the tape: a limit passed by less than a mark is passed.
fn exact(inches: f64) -> String {
    format!("{inches:.3} in")
}
