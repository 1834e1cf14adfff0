//! What came of setting out the courses, in the plan's words, and what a person must decide.

use covering::{Bond, Covering};
use layout::{Fault, Graduated, LaidPlane as Laid, Layout as Laying, Remedy, Why};
use roof::Roof as Shape;
use units::Length;

use crate::job::{block_path, dormer_path};
use crate::make::{id_of, place_in_file};
use crate::{
    GradedCourses, Guide, Job, Mark, Matched, OddCourse, OffTheMarks, OutOfSquare, Pole, PoleStation, Problem, ProblemPlace,
    Severity, Station, Unmatched, WayOut,
};

pub(crate) fn stations(laid: &Laid) -> Vec<Station> {
    let station = |station: &layout::Station| Station {
        name: station.name(),
        v_in: station.v,
        met: station.shows.is_none(),
        shows_in: station.shows.unwrap_or(0.0),
    };
    laid.stations.iter().map(station).collect()
}

pub(crate) fn pole(pole: &layout::Pole) -> Pole {
    let station = |at: &layout::PoleStation| PoleStation { name: at.station.name(), mark_in: at.mark };
    Pole {
        side: match pole.side {
            layout::PoleSide::Left => "left",
            layout::PoleSide::Right => "right",
            layout::PoleSide::Middle => "middle",
        },
        u_in: pole.u,
        top_in: pole.top,
        marks: pole.marks.iter().map(mark).collect(),
        stations: pole.stations.iter().map(station).collect(),
        starts_in: pole.starts.clone(),
    }
}

pub(crate) fn mark(mark: &layout::Mark) -> Mark {
    Mark { course: mark.course, butt_in: mark.butt, hang_in: mark.hang, head_in: mark.head }
}

pub(crate) fn guide(guide: &layout::Guide) -> Guide {
    Guide { kind: guide.kind.name(), line_in: guide.line, off_in: guide.off }
}

pub(crate) fn out_of_square(is: layout::OutOfSquare) -> OutOfSquare {
    OutOfSquare { slopes_in: is.slopes, headlaps_in: is.headlaps, in_10_ft: is.in_10_ft }
}

pub(crate) fn off_the_marks(laid: &Laid) -> Option<OffTheMarks> {
    laid.findings.iter().find_map(|finding| {
        let Fault::OffTheMarks { is, mark } = finding.fault else { return None };
        Some(OffTheMarks { course: finding.course, exposure_in: is.to_inches(), mark_in: mark.to_inches() })
    })
}

pub(crate) fn matched(roof: &Shape, of: &layout::Matched) -> Matched {
    let odd = |odd: &layout::OddCourse| OddCourse {
        plane: id_of(roof, odd.plane),
        shows_in: odd.shows,
        usual_in: odd.usual,
        courses: odd.courses,
    };
    Matched {
        planes: of.planes.iter().map(|&plane| id_of(roof, plane)).collect(),
        rise_in: of.rise,
        courses: of.courses,
        pieces: of.pieces,
        odd: of.odd.iter().map(odd).collect(),
    }
}

pub(crate) fn unmatched(roof: &Shape, of: &layout::Unmatched) -> Unmatched {
    let way = |way: &layout::WayOut| WayOut { says: remedy(roof, way.remedy), courses: way.courses, pieces: way.pieces };
    Unmatched {
        planes: of.planes.map(|plane| id_of(roof, plane)),
        kind: of.kind.name(),
        why: why(of.why),
        ways: of.ways.iter().map(way).collect(),
    }
}

fn why(why: Why) -> String {
    match why {
        Why::HeightUnknown => "a plane measured by tape alone has no known height".into(),
        Why::NoCommonRise { greatest, least } => format!(
            "no rise per course suits both: the flatter plane allows at most {}, the steeper one asks for at least {}",
            Length::inches(greatest),
            Length::inches(least)
        ),
    }
}

fn remedy(roof: &Shape, remedy: Remedy) -> String {
    let name = |plane: usize| roof.planes.get(plane).map_or("", |plane| plane.name.as_str());
    match remedy {
        Remedy::CapHip => "cap the hip: its sides need not meet".into(),
        Remedy::OpenValley => "leave the valley open: its sides need not meet".into(),
        Remedy::ShorterExposure { plane, exposure } => {
            format!("lay {} at {}, below the least exposure", name(plane), Length::inches(exposure))
        }
        Remedy::OtherUnit { plane, least } => format!(
            "choose a unit whose least exposure on {} is no more than {} and whose greatest on the flatter plane is no less",
            name(plane),
            Length::inches(least)
        ),
    }
}

/// All that the layout leaves for a person to decide about courses.
pub(crate) fn problems(job: &Job, roof: &Shape, laying: &Laying) -> Vec<Problem> {
    let findings = laying.planes.iter().flat_map(|laid| laid.findings.iter().map(move |finding| (laid.plane, finding)));
    let of_planes = findings.filter_map(|(plane, finding)| of_plane(job, roof, plane, finding.fault));
    let odd = laying.matched.iter().flat_map(|matched| &matched.odd).map(|odd| odd_course(job, roof, odd));
    let unmatched = laying.unmatched.iter().map(|of| cannot_match(job, roof, of));
    of_planes.chain(odd).chain(unmatched).chain(unknown_planes(job, roof)).chain(unknown_turrets(job)).collect()
}

fn caution(code: &str, says: String, remedy: String, place: ProblemPlace) -> Problem {
    Problem { code: code.into(), severity: Severity::Caution, says, remedy, place }
}

fn of_plane(job: &Job, roof: &Shape, plane: usize, fault: Fault) -> Option<Problem> {
    let name = &roof.planes[plane].name;
    let (code, says, remedy) = match fault {
        Fault::ShortTopCourse { is, least } => (
            "top-course-short",
            format!("{name}: the top course shows {is}, less than the sheet's least exposure of {least}"),
            "lay it so under the cap, or hide it by a wider cap or apron",
        ),
        Fault::OutOfParallel { is, most } => (
            "lines-out-of-parallel",
            format!("{name}: course lines run {is} out of parallel in 10 ft, where {most} is not seen"),
            "cut the taper under the ridge caps or at a rake instead, and tell the owner",
        ),
        Fault::NarrowStrip { kind, is, least } => (
            "course-strip-narrow",
            format!(
                "{name}: the first course over a higher {} shows {is} only, less than half the least exposure, {least}",
                kind.name()
            ),
            "let its first butts stand out more or less, so that a line lands there",
        ),
        Fault::NotTapered => (
            "not-tapered",
            format!(
                "{name}: no units narrow towards a peak here: no two hips meet in one, or they lean further than the sheet's \
                 units are wide"
            ),
            "lay these planes as others, or choose a wider unit",
        ),
        Fault::MixNotKept { width, is, share } => (
            "mix-not-kept",
            format!(
                "{name}: units {width} wide are {:.0} percent of the pieces, where the sheet's mix has {:.0}",
                is * 100.0,
                share * 100.0
            ),
            "order what is laid, or ask for a mix of which more fit over each other: wider units, or less offset",
        ),
        _ => return None,
    };
    Some(caution(code, says, remedy.into(), place_of(job, roof, plane)))
}

/// Where the job describes a plane: its block, its dormer, or its own table.
fn place_of(job: &Job, roof: &Shape, plane: usize) -> ProblemPlace {
    let plane = &roof.planes[plane];
    let block = job.blocks.iter().position(|block| block.name == plane.block).map(block_path);
    let dormer = || job.dormers.iter().position(|dormer| dormer.name == plane.block).map(dormer_path);
    let measured = || {
        let found = job.planes.iter().position(|of| of.name == plane.name);
        found.map(|plane| job.path_of_measured(plane))
    };
    let path = block.or_else(dormer).or_else(measured).unwrap_or_default();
    place_in_file(job, &path, &plane.block, &plane.id)
}

fn odd_course(job: &Job, roof: &Shape, odd: &layout::OddCourse) -> Problem {
    let [shows, usual, off] = [odd.shows, odd.usual, (odd.shows - odd.usual).abs()].map(Length::inches);
    let name = &roof.planes[odd.plane].name;
    let says = format!(
        "{name}: courses meet their neighbours' after one odd course at the eave, {shows} where others show {usual}"
    );
    let way = if odd.shows < odd.usual / 2.0 {
        format!("{shows} less, and the odd course is gone")
    } else if odd.shows < odd.usual {
        format!("{off} more, and all courses are alike")
    } else {
        format!("{off} less, and all courses are alike")
    };
    let remedy = format!("lay it so; or let the first butts stand out {way}");
    caution("odd-course-at-eave", says, remedy, place_of(job, roof, odd.plane))
}

fn cannot_match(job: &Job, roof: &Shape, of: &layout::Unmatched) -> Problem {
    let told = unmatched(roof, of);
    let [a, b] = of.planes.map(|plane| roof.planes[plane].name.clone());
    let says = format!("courses of {a} and {b} cannot meet at the {}: {}", told.kind, told.why);
    let ways: Vec<String> = told.ways.iter().map(priced).collect();
    let place = place_in_file(job, "setting_out.match_hips", "", &id_of(roof, of.planes[0]));
    caution("courses-cannot-meet", says, ways.join("; or "), place)
}

fn priced(way: &WayOut) -> String {
    match (way.courses, way.pieces) {
        (Some(0), Some(0)) => format!("{} (laid so)", way.says),
        (Some(courses), Some(pieces)) => format!("{} ({courses} more courses, about {pieces} more pieces)", way.says),
        _ => way.says.clone(),
    }
}

/// A bond that the sheet does not allow.
pub(crate) fn bond_not_allowed(job: &Job, covering: &Covering) -> Option<Problem> {
    let asked = job.setting_out.bond.filter(|asked| covering.bond(Some(*asked)) != *asked)?;
    let laid = covering.bond(None);
    let allowed: Vec<&str> = covering.bonds.allows.iter().map(|bond| bond.name()).collect();
    let allowed = if allowed.is_empty() { laid.name().into() } else { allowed.join(", ") };
    let says = format!("{} does not allow {} bond; {} bond is laid", covering.name, asked.name(), laid.name());
    let remedy = format!("choose among {allowed}, or another sheet");
    Some(caution("bond-not-allowed", says, remedy, place_in_file(job, "setting_out.bond", "", "")))
}

/// Staggered butts of a sheet without a step, or of random widths, which are laid straight.
pub(crate) fn not_staggered(job: &Job, covering: &Covering) -> Option<Problem> {
    let is_random = covering.bond(job.setting_out.bond) == Bond::Random;
    let why = match covering.bonds.step {
        _ if !job.setting_out.staggered => return None,
        None => format!("{} gives no step for staggered butts", covering.name),
        Some(_) if is_random => "random widths are laid to the line only".into(),
        Some(_) => return None,
    };
    let place = place_in_file(job, "setting_out.butts", "", "");
    let says = format!("{why}; they are laid straight");
    Some(caution("not-staggered", says, "choose straight butts, or another bond or sheet".into(), place))
}

/// Lengths that the sheet does not have.
pub(crate) fn not_graduated(job: &Job, covering: &Covering) -> Option<Problem> {
    let asked = &job.setting_out.graduated;
    let lengths: Vec<String> = covering.bonds.lengths.iter().map(|graded| graded.length.in_inches()).collect();
    let (says, remedy) = match asked.unknown(covering)[..] {
        _ if *asked == Graduated::No => return None,
        _ if lengths.is_empty() => (
            format!("{} gives no graduated lengths; all units have one length", covering.name),
            "choose another sheet, or type the lengths into [bond] of your own".into(),
        ),
        [] => return None,
        [length, ..] => (
            format!("{} has no units {} long; they are left out", covering.name, length.in_inches()),
            format!("choose among {}", lengths.join(", ")),
        ),
    };
    Some(caution("not-graduated", says, remedy, place_in_file(job, "setting_out.graduated", "", "")))
}

/// Stretches of courses of one length, from the eave up; none where all units have one length.
pub(crate) fn lengths(laid: &Laid, covering: Option<&Covering>) -> Vec<GradedCourses> {
    let over = covering.map_or(2, |covering| covering.lap.courses() as usize);
    let numbered: Vec<(usize, &layout::Course)> = laid.courses.iter().enumerate().collect();
    let same = |a: &(usize, &layout::Course), b: &(usize, &layout::Course)| (a.1.length - b.1.length).abs() < 1e-6;
    let stretches: Vec<_> = numbered.chunk_by(same).collect();
    if laid.units.iter().all(|unit| (unit.length - laid.units[0].length).abs() < 1e-6) {
        return Vec::new();
    }
    let stretch = |stretch: &&[(usize, &layout::Course)]| {
        let (first, course) = stretch[0];
        let below = first.checked_sub(1).map(|below| &laid.courses[below]);
        let thickness = laid.units.iter().find(|unit| (unit.length - course.length).abs() < 1e-6);
        // The course that lies over the last of the longer ones below.
        let laps = (first + over - 1 < laid.courses.len()).then_some(covering).flatten();
        GradedCourses {
            length_in: course.length,
            thickness_in: thickness.map_or(0.0, |unit| unit.thickness),
            first_course: first,
            courses: stretch.len(),
            heads_apart_in: below.map(|below| course.butt + course.length - below.butt - below.length),
            headlap_in: below.and(laps).map(|covering| laid.headlap(first + over - 1, covering).to_inches()),
        }
    };
    stretches.iter().map(stretch).collect()
}

/// Blocks that are to have tapered units and are none of this job.
fn unknown_turrets(job: &Job) -> Vec<Problem> {
    let known: Vec<&str> = job.blocks.iter().map(|block| block.name.as_str()).collect();
    let unknown = job.setting_out.tapered.iter().filter(|name| !known.contains(&name.as_str()));
    let told = unknown.map(|name| {
        let says = format!("setting_out.tapered names {name}, which is no block of this job");
        let remedy = format!("the blocks are {}", known.join(", "));
        caution("unknown-block", says, remedy, place_in_file(job, "setting_out.tapered", "", ""))
    });
    told.collect()
}

/// Ids to match that are no planes of this roof.
fn unknown_planes(job: &Job, roof: &Shape) -> Vec<Problem> {
    let layout::MatchHips::Planes(ids) = &job.setting_out.match_hips else { return Vec::new() };
    let unknown = ids.iter().filter(|id| roof.planes.iter().all(|plane| plane.id != **id));
    let known: Vec<&str> = roof.planes.iter().map(|plane| plane.id.as_str()).collect();
    let told = unknown.map(|id| {
        let says = format!("setting_out.match_hips names {id}, which is no plane of this roof");
        caution(
            "unknown-plane",
            says,
            format!("the planes are {}", known.join(", ")),
            place_in_file(job, "setting_out.match_hips", "", ""),
        )
    });
    told.collect()
}
