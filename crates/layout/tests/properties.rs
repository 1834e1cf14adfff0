//! What holds for every layout, proved over random planes by means that share no code with the layout: each claim is
//! asked again of general polygon operations on every single place.

#![allow(clippy::unwrap_used, reason = "tests only")]

mod common;

use common::{graduated, inches, moulded, plain_slate, plane, random_shingle, random_slate, shingle};
use covering::{Bond, Covering, Lap};
use i_overlay::core::{fill_rule::FillRule, overlay_rule::OverlayRule};
use i_overlay::float::scale::FixedScaleFloatOverlay;
use layout::{Course, Fault, Graduated, Hanging, LaidPlane, Run, SettingOut, Starters};
use proptest::prelude::*;
use roof::{EdgeKind, Place, Plane};

type Rings = Vec<Vec<Place>>;

/// Of general polygon operations on a grid of 2^-24 in over a piece's outline, sq in.
const ROUNDING: f64 = 2e-5;

fn overlay(subject: &Rings, clip: &Rings, rule: OverlayRule) -> Rings {
    // The operation is not made for shapes smaller than its grid.
    if area(subject) < 1e-8 {
        return Rings::new();
    }
    let shapes = subject.overlay_with_fixed_scale_as::<i64>(clip, rule, FillRule::NonZero, 16_777_216.0);
    shapes.unwrap().into_iter().flatten().collect()
}

fn area(rings: &Rings) -> f64 {
    let twice = |ring: &Vec<Place>| -> f64 {
        ring.iter().zip(ring.iter().cycle().skip(1)).map(|(a, b)| a[0] * b[1] - b[0] * a[1]).sum()
    };
    rings.iter().map(twice).sum::<f64>() / 2.0
}

fn rectangle([left, right]: [f64; 2], [low, high]: [f64; 2]) -> Vec<Place> {
    vec![[left, low], [right, low], [right, high], [left, high]]
}

fn inside(rings: &Rings, [u, v]: Place) -> bool {
    let crossings = rings
        .iter()
        .flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)))
        .filter(|(a, b)| (a[1] > v) != (b[1] > v) && a[0] + (b[0] - a[0]) * (v - a[1]) / (b[1] - a[1]) < u);
    crossings.count() % 2 == 1
}

/// Places of the pieces of a course, left to right, with their runs, which tell of the one piece whether it hangs.
fn places(course: &Course) -> Vec<([f64; 2], Run)> {
    let single =
        |run: &Run, index| Run { hangs: if run.hangs.hangs(index) { Hanging::First } else { Hanging::None }, ..*run };
    let of_run = |run: &Run| -> Vec<([f64; 2], Run)> {
        (0..).zip(run.lefts()).map(|(index, left)| ([left, left + run.width], single(run, index))).collect()
    };
    course.runs.iter().flat_map(of_run).collect()
}

/// The sheet, with butts staggered if it gives a step, and in all the lengths that it gives.
fn lay(plane: &Plane, sheet: &Covering) -> LaidPlane {
    let staggered = sheet.bonds.step.is_some();
    layout::lay(0, plane, sheet, &SettingOut { staggered, graduated: Graduated::BySheet, ..SettingOut::default() })
}

fn starter_zone(starters: &[Starters]) -> Rings {
    starters.iter().map(|row| rectangle([row.from, row.to], [row.butt, row.butt + row.height])).collect()
}

struct Sane<'a> {
    sheet: &'a Covering,
    laid: &'a LaidPlane,
    width: f64,
    gap: f64,
    weathered: Rings,
}

/// Everything that must hold.
fn sane(plane: &Plane, sheet: &Covering) {
    let laid = lay(plane, sheet);
    let [width, gap] = [sheet.unit.width, sheet.gap].map(units::Length::to_inches);
    let weathered = layout::weathered(plane, sheet);
    let sane = Sane { sheet, laid: &laid, width, gap, weathered };
    assert!(area(&laid.laid) > 0.0);
    for course in &laid.courses {
        sane.pieces_are_what_the_outline_leaves(course);
        sane.places_keep_their_gaps_and_leave_no_more_bare(course);
        sane.joints_are_gaps_within_the_outline(course);
        sane.nails_hold_and_keep_off_edges(course);
    }
    sane.counts_are_those_of_every_cell_tried();
    sane.joints_miss_joints();
    sane.every_other_unit_hangs();
    sane.exposures_and_headlaps_are_kept();
    sane.the_longest_lie_lowest();
    sane.pieces_are_of_the_mix();
    sane.small_pieces_are_named();
    sane.loose_pieces_are_named();
    sane.starters_cover_low_edges_and_break_joint();
    sane.layers(&sane.weathered);
}

impl Sane<'_> {
    /// From the lowest butts of a course to its highest heads.
    fn band(&self, course: &Course) -> [f64; 2] {
        let hangs = course.runs.iter().any(|run| run.hangs != Hanging::None);
        [course.butt - if hangs { self.laid.step } else { 0.0 }, course.butt + course.length]
    }

    /// v of a single piece's butt.
    fn butt(&self, course: &Course, run: &Run) -> f64 {
        course.butt - if run.hangs.hangs(0) { self.laid.step } else { 0.0 }
    }

    /// From its butt to its head.
    fn of_piece(&self, course: &Course, run: &Run) -> [f64; 2] {
        let butt = self.butt(course, run);
        [butt, butt + course.length]
    }

    /// At the sheet's greatest exposure, less for shorter units, with what hangs; and never less than its headlap.
    fn exposures_and_headlaps_are_kept(&self) {
        let band = self.sheet.bands[0];
        for (index, course) in self.laid.courses.iter().enumerate() {
            let shorter = (self.sheet.unit.length.to_inches() - course.length) / f64::from(self.sheet.lap.courses());
            assert!(course.exposure + self.laid.step + shorter < band.greatest_exposure.to_inches() + 1e-6);
            let headlap = self.laid.headlap(index, self.sheet).to_inches();
            assert!(headlap > band.headlap.to_inches() - 1e-6, "headlap {headlap} in course {index}");
        }
    }

    /// Units of a course are as long as the course, and no longer than those of the course below.
    fn the_longest_lie_lowest(&self) {
        let lengths = self.sheet.bonds.lengths.iter().map(|graded| graded.length);
        let lengths: Vec<f64> = lengths.chain([self.sheet.unit.length]).map(units::Length::to_inches).collect();
        for course in &self.laid.courses {
            assert!(lengths.iter().any(|length| (length - course.length).abs() < 1e-9));
            let units = course.runs.iter().map(|run| self.laid.units[run.unit as usize]);
            assert!(units.into_iter().all(|unit| (unit.length - course.length).abs() < 1e-9));
        }
        assert!(self.laid.courses.is_sorted_by(|below, above| below.length >= above.length));
    }

    /// Of every other unit of a course, and of the first course none, one hangs.
    fn every_other_unit_hangs(&self) {
        let step = self.sheet.bonds.step.map_or(0.0, units::Length::to_inches);
        assert!((self.laid.step - step).abs() < 1e-12);
        for (index, course) in self.laid.courses.iter().enumerate() {
            let hang: Vec<bool> = places(course).iter().map(|(_, run)| run.hangs.hangs(0)).collect();
            if index == 0 || step <= 0.0 {
                assert!(!hang.contains(&true));
                continue;
            }
            for run in &course.runs {
                assert!(run.count == 1 || run.hangs != Hanging::None, "{run:?}");
            }
        }
    }

    fn pieces_are_what_the_outline_leaves(&self, course: &Course) {
        for (place, run) in places(course) {
            let band = self.of_piece(course, &run);
            let left = overlay(&vec![rectangle(place, band)], &self.laid.laid, OverlayRule::Intersect);
            let Some(cut) = run.cut else {
                assert!(
                    (area(&left) - self.laid.units[run.unit as usize].width * course.length).abs() < ROUNDING,
                    "a whole unit lies inside: {place:?} {course:?}"
                );
                continue;
            };
            let cut = &self.laid.cuts[cut as usize];
            let shape: Rings =
                cut.parts.iter().map(|part| part.iter().map(|at| [at[0] + place[0], at[1] + band[0]]).collect()).collect();
            assert!((area(&shape) - cut.area).abs() < ROUNDING);
            // Equal shapes agree to 2^-16 in along their outline.
            let xor = area(&overlay(&shape, &left, OverlayRule::Xor));
            assert!(xor < 100.0 / 65_536.0 && (cut.area - area(&left)).abs() < 100.0 / 65_536.0, "{xor} {shape:?} {left:?}");
            let widest = sampled_width(&left);
            assert!((cut.width - widest).abs() < 1e-2, "{} {widest} {left:?}", cut.width);
        }
    }

    fn places_keep_their_gaps_and_leave_no_more_bare(&self, course: &Course) {
        let places = places(course);
        for pair in places.windows(2) {
            assert!(pair[1].0[0] - pair[0].0[1] > self.gap - 1e-6);
        }
        let [low, high] = self.band(course);
        // What each unit reaches, whether it hangs or not.
        let band = band_of(&self.laid.laid, [course.butt, high - (course.butt - low)]);
        let band = overlay(&vec![band], &self.laid.laid, OverlayRule::Intersect);
        let reached = |([left, right], run): &([f64; 2], Run)| {
            rectangle([left - self.gap - 1e-6, right + self.gap + 1e-6], self.of_piece(course, run))
        };
        let bare = overlay(&band, &places.iter().map(reached).collect(), OverlayRule::Difference);
        let bare = overlay(&bare, &starter_zone(&self.laid.starters), OverlayRule::Difference);
        // What only a cap would see may be left out.
        let bare = overlay(&bare, &self.weathered, OverlayRule::Intersect);
        assert!(area(&bare) < 100.0 * ROUNDING, "bare: {bare:?} in {course:?}");
    }

    fn joints_are_gaps_within_the_outline(&self, course: &Course) {
        let joints = course.joints();
        assert_eq!(course.pieces() as usize, joints.len() + course.spans(&self.laid.cuts).len());
        assert!(joints.is_sorted());
        for pair in places(course).windows(2) {
            let [left, right] = [pair[0].0[1], pair[1].0[0]];
            let middle = f64::midpoint(left, right);
            let is_joint = joints.iter().any(|joint| (joint - middle).abs() < 1e-6);
            // Share of the height that is laid just left of the gap and just right of it.
            let shares = [[left - 0.05, left], [right, right + 0.05]].map(|strip| {
                let strip = vec![rectangle(strip, self.band(course))];
                let [low, high] = self.band(course);
                area(&overlay(&strip, &self.laid.laid, OverlayRule::Intersect)) / (0.05 * (high - low))
            });
            let share = shares[0].min(shares[1]);
            if right - left > self.gap + 1e-6 || share < 1e-6 {
                assert!(!is_joint, "no joint at {middle}, {share}: {course:?}");
            } else if share > 0.6 {
                assert!(is_joint, "a joint at {middle}: {course:?} {:?}", self.laid.laid);
            }
        }
    }

    /// The residue of whole units' left sides is the start offset; then every cell of every course is clipped.
    fn counts_are_those_of_every_cell_tried(&self) {
        let step = self.width + self.gap;
        let bond = match self.sheet.bond(None) {
            Bond::Half => 2,
            Bond::Third => 3,
            Bond::Random => return,
        };
        if self.laid.step > 0.0 {
            return;
        }
        let shift = |course: usize| (course as u32 % bond) as f64 * step / f64::from(bond);
        let runs =
            self.laid.courses.iter().enumerate().flat_map(|(index, course)| course.runs.iter().map(move |run| (index, run)));
        let origins: Vec<(f64, u32)> = runs
            .filter(|(_, run)| run.cut.is_none() && run.unit == 0)
            .map(|(index, run)| ((run.left - shift(index)).rem_euclid(step), run.count))
            .collect();
        let Some((origin, _)) = origins.iter().max_by_key(|(_, count)| count) else { return };
        for (index, course) in self.laid.courses.iter().enumerate() {
            let [least, most] = self.tried(course, origin + shift(index), step);
            let pieces = course.pieces();
            // A piece that was put in for others reaches over several cells.
            let cell = |u: f64| ((u - origin - shift(index)) / step).floor();
            let over = |([left, right], _): &([f64; 2], Run)| cell(right - 1e-6) - cell(left + 1e-6);
            let merged = places(course).iter().map(over).sum::<f64>() as u64;
            assert!(least <= pieces + merged && pieces <= most, "course {index}: {pieces}, tried {least} to {most}");
        }
    }

    /// Cells of a course with something left; fewest and most, as remains of nearly no area can count or not.
    fn tried(&self, course: &Course, origin: f64, step: f64) -> [u64; 2] {
        let us = || self.laid.laid.iter().flatten().map(|at| at[0]);
        let [from, to] = [us().fold(f64::INFINITY, f64::min), us().fold(f64::NEG_INFINITY, f64::max)];
        let [first, last] = [((from - origin) / step).floor() as i64 - 1, ((to - origin) / step).ceil() as i64 + 1];
        let mut count = [0, 0];
        for cell in first..=last {
            let left = origin + cell as f64 * step;
            let place = vec![rectangle([left, left + self.width], self.band(course))];
            let left = overlay(&place, &self.laid.laid, OverlayRule::Intersect);
            let beyond_starters = area(&overlay(&left, &starter_zone(&self.laid.starters), OverlayRule::Difference));
            let lowest = left.iter().flatten().map(|at| at[1]).fold(f64::INFINITY, f64::min);
            let is_behind = |slack: f64| lowest > course.butt + course.exposure - slack && beyond_starters < slack;
            let is_seen = area(&overlay(&left, &self.weathered, OverlayRule::Intersect)) > 1e-4;
            count[0] += u64::from(is_seen && !is_behind(1e-3));
            count[1] += u64::from(area(&left) > 1e-8 && !is_behind(0.0));
        }
        count
    }

    fn joints_miss_joints(&self) {
        let mut too_near = 0;
        let one_down = Some(self.sheet.joint_offset);
        let two_down = match self.sheet.lap {
            Lap::Triple => self.sheet.bonds.two_down.or(one_down),
            Lap::Double | Lap::Shake => self.sheet.bonds.two_down,
        };
        let joints: Vec<Vec<f64>> = self.laid.courses.iter().map(|course| self.joints_seen(course)).collect();
        for (down, least) in [(1, one_down), (2, two_down)] {
            let Some(least) = least.map(units::Length::to_inches) else { continue };
            for index in down..joints.len() {
                let beside = |u: &&f64| joints[index - down].iter().any(|other| (*u - other).abs() < least - 1e-5);
                too_near += joints[index].iter().filter(beside).count();
            }
        }
        let named = self.laid.findings.iter().filter(|finding| matches!(finding.fault, Fault::JointOverJoint { .. }));
        assert_eq!(named.count() > 0, too_near > 0, "{too_near} joints over joints");
        assert!(too_near == 0 || self.sheet.bond(None) == Bond::Random, "{too_near} joints over joints");
    }

    /// The middles of the gaps between places that stand a gap apart, where both pieces reach some height together.
    fn joints_seen(&self, course: &Course) -> Vec<f64> {
        let reach = |place: &([f64; 2], Run)| {
            let cut = place.1.cut.map(|cut| &self.laid.cuts[cut as usize].parts);
            let vs = |which: fn(f64, f64) -> f64, start: f64| {
                cut.map(|parts| parts.iter().flatten().map(|at| at[1]).fold(start, which))
            };
            [vs(f64::min, f64::INFINITY).unwrap_or(0.0), vs(f64::max, 0.0).unwrap_or(course.length)]
        };
        let all = course.joints();
        let seen: Vec<f64> = places(course)
            .windows(2)
            .filter(|pair| {
                let [a, b] = [reach(&pair[0]), reach(&pair[1])];
                pair[1].0[0] - pair[0].0[1] < self.gap + 1e-6 && a[0] < b[1] && b[0] < a[1]
            })
            .map(|pair| f64::midpoint(pair[0].0[1], pair[1].0[0]))
            .filter(|u| all.iter().any(|joint| (joint - u).abs() < 1e-6))
            .collect();
        assert_eq!(seen.len(), all.len(), "every joint lies between two places");
        seen
    }

    /// Whole units have the widths of the mix; what is narrower at a joint is a cut piece.
    fn pieces_are_of_the_mix(&self) {
        let widths = || self.sheet.bonds.widths.iter().map(|mixed| mixed.width.to_inches());
        if self.sheet.bond(None) != Bond::Random {
            return;
        }
        for run in self.laid.courses.iter().flat_map(|course| &course.runs) {
            let unit = self.laid.units[run.unit as usize];
            assert!(run.width < unit.width + 1e-9 && (run.cut.is_some() || run.width > unit.width - 1e-6), "{run:?}");
            assert!(unit.wide || widths().any(|width| (width - unit.width).abs() < 1e-9), "{unit:?}");
        }
    }

    fn small_pieces_are_named(&self) {
        let least = self.sheet.least_piece.to_inches();
        let runs = self.laid.courses.iter().flat_map(|course| &course.runs);
        let is_small = |run: &&Run| run.cut.is_some_and(|cut| self.laid.cuts[cut as usize].width < least - 1e-6);
        let small: u32 = runs.filter(is_small).map(|run| run.count).sum();
        let named = self.laid.findings.iter().filter(|finding| matches!(finding.fault, Fault::PieceTooSmall { .. }));
        assert_eq!(named.count(), small as usize);
    }

    /// A piece of each course with its nails, on the plane.
    fn nailed<'b>(&'b self, course: &'b Course) -> impl Iterator<Item = (Rings, Vec<Place>)> + 'b {
        places(course).into_iter().map(|([left, _], run)| {
            let butt = self.butt(course, &run);
            let at = move |[u, v]: &Place| [u + left, v + butt];
            let unit = &self.laid.units[run.unit as usize];
            let whole = vec![rectangle([0.0, unit.width], [0.0, unit.length])];
            let cut = run.cut.map(|cut| &self.laid.cuts[cut as usize]);
            let parts: Rings =
                cut.map_or(&whole, |cut| &cut.parts).iter().map(|part| part.iter().map(at).collect()).collect();
            let nails = cut.map_or(&self.laid.nails[run.unit as usize], |cut| &cut.nails);
            (parts, nails.iter().map(at).collect())
        })
    }

    fn nails_hold_and_keep_off_edges(&self, course: &Course) {
        let Some(line) = self.sheet.conditions.nail_line else { return };
        let edge = line.side.to_inches();
        for (parts, nails) in self.nailed(course) {
            for nail in &nails {
                assert!(inside(&parts, *nail), "{nail:?} is outside {parts:?}");
                let sides = parts.iter().flat_map(|part| part.iter().zip(part.iter().cycle().skip(1)));
                let near = sides.map(|(a, b)| off_stretch([*a, *b], *nail)).fold(f64::INFINITY, f64::min);
                assert!(near > edge - 1e-3, "{nail:?} is {near} off an edge of {parts:?}");
            }
            if let [a, .., b] = nails[..] {
                assert!(b[0] - a[0] > edge - 1e-9);
            }
        }
    }

    fn loose_pieces_are_named(&self) {
        let Some(_) = self.sheet.conditions.nail_line else { return };
        let least = self.sheet.least_piece.to_inches();
        let runs = self.laid.courses.iter().flat_map(|course| &course.runs);
        let is_loose = |run: &&Run| {
            let cut = run.cut.map(|cut| &self.laid.cuts[cut as usize]);
            cut.is_some_and(|cut| cut.width > least - 1e-6 && cut.nails.len() < 2)
        };
        let loose: u32 = runs.filter(is_loose).map(|run| run.count).sum();
        let named = self.laid.findings.iter().filter(|finding| finding.fault == Fault::CannotBeNailed);
        assert_eq!(named.count(), loose as usize);
    }

    fn starters_cover_low_edges_and_break_joint(&self) {
        for row in &self.laid.starters {
            assert!((row.left - row.from).abs() < 1e-9 && f64::from(row.count) * row.step > row.to - row.from - 1e-6);
            let first = self.laid.courses.iter().rfind(|course| course.butt < row.butt + 1e-6).unwrap();
            for index in 0..row.count {
                let joint = row.left + f64::from(index + 1) * row.step - self.gap / 2.0;
                let near = first.joints().iter().map(|other| (joint - other).abs()).fold(f64::INFINITY, f64::min);
                let least = self.sheet.starter.joint_offset.to_inches();
                assert!(joint > row.to - 1e-6 || near > least - 1e-6, "starter joint {joint} near {near}");
            }
        }
    }

    /// Every point of the weathered outline shows one course, and has under it the layers that the lap demands, save
    /// where no course can lie under: in the first courses over a place that is no low edge. A starter is one layer, so
    /// triple lap has two in the first course over a low edge.
    fn layers(&self, weathered: &Rings) {
        for step in 1..400 {
            // A low-discrepancy walk over the plane, so that a failure comes back.
            let [a, b] = [0.754_877_666, 0.569_840_296].map(|by: f64| (f64::from(step) * by).fract());
            let [low, high] = [self.laid.first_butt, self.laid.top];
            let us = || self.laid.laid.iter().flatten().map(|at| at[0]);
            let [from, to] = [us().fold(f64::INFINITY, f64::min), us().fold(f64::NEG_INFINITY, f64::max)];
            let at = [from + a * (to - from), low + b * (high - low)];
            if inside(weathered, at) {
                self.has_layers(at);
            }
        }
    }

    fn has_layers(&self, at: Place) {
        let within = |course: &Course, slack: f64| {
            places(course).iter().any(|([left, right], run)| {
                let [butt, head] = self.of_piece(course, run);
                at[1] > butt && at[1] < head && at[0] > left - slack && at[0] < right + slack
            })
        };
        let over = |course: &Course| within(course, 0.0);
        let near = |course: &Course| within(course, self.gap + 1e-6);
        let reaching: Vec<(usize, &Course)> =
            self.laid.courses.iter().enumerate().filter(|(_, course)| near(course)).collect();
        let Some(&(shown, top)) = reaching.last() else { panic!("bare at {at:?}") };
        assert!(at[1] < top.butt + top.exposure + 1e-6, "bare at {at:?}");
        let in_gap = reaching.iter().any(|(_, course)| !over(course) && near(course));
        let zone = self.laid.starters.iter().filter(|row| at[0] > row.from && at[0] < row.to);
        let zone: Vec<_> = zone.filter(|row| at[1] > row.butt && at[1] < row.butt + row.height).collect();
        let lap = self.sheet.lap.courses() as usize;
        if in_gap || (shown + 1 < lap && zone.is_empty()) {
            return;
        }
        let first_over_edge = zone.iter().any(|row| row.butt > top.butt - 1e-6);
        let demanded = if first_over_edge { 2 } else { lap };
        let layers = reaching.iter().filter(|(_, course)| over(course)).count() + usize::from(!zone.is_empty());
        assert!(layers >= demanded, "{layers} layers at {at:?}, course {shown}");
    }
}

/// The band across the whole plane.
fn band_of(rings: &Rings, band: [f64; 2]) -> Vec<Place> {
    let us = || rings.iter().flatten().map(|at| at[0]);
    rectangle([us().fold(f64::INFINITY, f64::min), us().fold(f64::NEG_INFINITY, f64::max)], band)
}

/// The widest of many level lines, among them one just above and one just below each corner.
fn sampled_width(rings: &Rings) -> f64 {
    let vs: Vec<f64> = rings.iter().flatten().map(|at| at[1]).collect();
    let [low, high] =
        [vs.iter().copied().fold(f64::INFINITY, f64::min), vs.iter().copied().fold(f64::NEG_INFINITY, f64::max)];
    let spread = (0..50).map(|step| low + (high - low) * (f64::from(step) + 0.5) / 50.0);
    let levels = vs.iter().flat_map(|v| [v - 1e-5, v + 1e-5]).chain(spread);
    levels.map(|v| widest_at(rings, v)).fold(0.0, f64::max)
}

fn widest_at(rings: &Rings, v: f64) -> f64 {
    let sides = rings.iter().flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)));
    let crossing = sides.filter(|(a, b)| (a[1] > v) != (b[1] > v));
    let mut us: Vec<f64> = crossing.map(|(a, b)| a[0] + (b[0] - a[0]) * (v - a[1]) / (b[1] - a[1])).collect();
    us.sort_by(f64::total_cmp);
    us.chunks_exact(2).map(|pair| pair[1] - pair[0]).fold(0.0, f64::max)
}

/// From a point to the nearest of a stretch.
fn off_stretch([a, b]: [Place; 2], nail: Place) -> f64 {
    let from_to = |from: Place, to: Place| [to[0] - from[0], to[1] - from[1]];
    let dot = |a: Place, b: Place| a[0] * b[0] + a[1] * b[1];
    let length = |a: Place| dot(a, a).sqrt();
    let (along, to) = (from_to(a, b), from_to(a, nail));
    match dot(along, to) / dot(along, along) {
        behind if behind < 0.0 => length(to),
        beyond if beyond > 1.0 => length(from_to(b, nail)),
        _ => (along[0] * to[1] - along[1] * to[0]).abs() / length(along),
    }
}

fn sheets() -> impl Strategy<Value = Covering> {
    let plain = (10u32..24, 6u32..14).prop_map(|(length, width)| plain_slate(f64::from(length), f64::from(width), 3.0));
    let shake = moulded();
    let shake = Covering { lap: Lap::Shake, gap: inches(0.5), ..shake };
    let two_down = random_slate();
    let two_down =
        Covering { bonds: covering::Bonds { two_down: Some(inches(0.75)), ..two_down.bonds.clone() }, ..two_down };
    let random = prop_oneof![Just(random_slate()), Just(two_down), Just(random_shingle())];
    let staggered = (0.25..2.0f64).prop_map(staggered);
    let one_length =
        prop_oneof![plain.clone(), Just(moulded()), Just(shingle()), Just(shake.clone()), random.clone(), staggered.clone()];
    let lengths = (0.5..2.0f64, 0.5..2.0f64, 10.0..80.0f64, any::<bool>());
    let many = prop_oneof![plain, Just(moulded()), Just(shake), random, staggered];
    let graduated =
        (many, lengths).prop_map(|(sheet, (first, second, share, three))| graded(sheet, [first, second], share, three));
    prop_oneof![2 => one_length, 1 => graduated]
}

/// The sheet with one or two lengths more, each so much shorter than the one before.
fn graded(sheet: Covering, drops: [f64; 2], share: f64, three: bool) -> Covering {
    let own = sheet.unit.length.to_inches();
    let lengths = [(own, share), (own - drops[0], 15.0), (own - drops[0] - drops[1], 85.0 - share)];
    if three { graduated(sheet, &lengths) } else { graduated(sheet, &[(own, share), (own - drops[0], 100.0 - share)]) }
}

/// The moulded unit, every other one hanging by so much.
fn staggered(step: f64) -> Covering {
    let sheet = moulded();
    Covering { bonds: covering::Bonds { step: Some(inches(step)), ..sheet.bonds.clone() }, ..sheet }
}

fn side() -> impl Strategy<Value = EdgeKind> {
    use EdgeKind::{Hip, Rake, Sidewall, Valley};
    prop::sample::select(vec![Hip, Rake, Sidewall, Valley])
}

fn high() -> impl Strategy<Value = EdgeKind> {
    use EdgeKind::{Break, Headwall, HighEdge, Ridge};
    prop::sample::select(vec![Break, Headwall, HighEdge, Ridge])
}

fn low() -> impl Strategy<Value = EdgeKind> {
    use EdgeKind::{Break, DeadValley, Eave};
    prop::sample::select(vec![Break, DeadValley, Eave])
}

/// Triangles, trapezoids and parallelograms, wider or narrower at the top.
fn four_sided() -> impl Strategy<Value = Plane> {
    let sizes = (90.0..260.0f64, 50.0..180.0f64, -1.1..1.1f64, -1.1..1.1f64);
    (sizes, low(), side(), high(), side()).prop_map(|((width, height, left, right), low, right_kind, top, left_kind)| {
        let [a, b] = [left * height, width + right * height];
        if b - a < 30.0 {
            // Sides that meet below the top: a peak.
            let peak = height * width / (width - (b - a));
            let apex = [a / height * peak, peak];
            return plane(&[(&[[0.0, 0.0], [width, 0.0], apex], &[low, right_kind, left_kind])]);
        }
        plane(&[(&[[0.0, 0.0], [width, 0.0], [b, height], [a, height]], &[low, right_kind, top, left_kind])])
    })
}

/// A plane whose eave has a jog.
fn jogged() -> impl Strategy<Value = Plane> {
    let sizes = (60.0..120.0f64, 60.0..120.0f64, 10.0..50.0f64, 60.0..120.0f64);
    (sizes, low(), low(), side(), high(), any::<bool>()).prop_map(
        |((left, right, jog, height), a, b, between, top, mirrored)| {
            let width = left + right;
            let corners = [[0.0, jog], [left, jog], [left, 0.0], [width, 0.0], [width, jog + height], [0.0, jog + height]];
            let kinds = [a, between, b, EdgeKind::Rake, top, EdgeKind::Rake];
            if !mirrored {
                return plane(&[(&corners, &kinds)]);
            }
            let mirror: Vec<Place> = corners.iter().rev().map(|at| [width - at[0], at[1]]).collect();
            let kinds: Vec<EdgeKind> = (0..6).map(|index| kinds[(10 - index) % 6]).collect();
            plane(&[(&mirror, &kinds)])
        },
    )
}

/// A plane with a wall standing in it.
fn pierced() -> impl Strategy<Value = Plane> {
    let hole = (30.0..90.0f64, 20.0..60.0f64, 8.0..50.0f64, 6.0..50.0f64);
    (hole, side(), high()).prop_map(|((u, v, width, height), kind, top)| {
        use EdgeKind::{DeadValley, Eave, Headwall, Sidewall};
        let [right, high] = [u + width, v + height];
        plane(&[
            (&[[0.0, 0.0], [190.0, 0.0], [190.0, 140.0], [0.0, 140.0]], &[Eave, kind, top, kind]),
            (&[[u, v], [u, high], [right, high], [right, v]], &[Sidewall, DeadValley, Sidewall, Headwall]),
        ])
    })
}

/// An opening at `[u, v]` of a plane, with the triangle of a cricket behind it or without. May come near the plane's edges.
fn opened() -> impl Strategy<Value = (Plane, Rings)> {
    let sizes = (3.0..60.0f64, 3.0..40.0f64);
    (2.0..127.0f64, 2.0..60.0f64, sizes, any::<bool>(), side(), high()).prop_map(
        |(u, v, (width, height), has_cricket, kind, top)| {
            use EdgeKind::{Eave, Head, Side, Sill, Valley};
            let outer: [Place; 4] = [[0.0, 0.0], [190.0, 0.0], [190.0, 140.0], [0.0, 140.0]];
            let [right, high] = [u + width, v + height];
            // Seen in plan a cricket reaches back half its width; √(12² + 8²) / 12 as far on the slope.
            let apex = [u + width / 2.0, high + width / 2.0 * 208f64.sqrt() / 12.0];
            let (hole, kinds) = if has_cricket {
                (vec![[u, v], [u, high], apex, [right, high], [right, v]], vec![Side, Valley, Valley, Side, Sill])
            } else {
                (vec![[u, v], [u, high], [right, high], [right, v]], vec![Side, Head, Side, Sill])
            };
            let clear = vec![hole.iter().rev().copied().collect()];
            (plane(&[(&outer, &[Eave, kind, top, kind]), (&hole, &kinds)]), clear)
        },
    )
}

/// No piece of a layout reaches into an opening, nor nearer to its rectangle than the sheet allows.
fn keeps_clear(plane: &Plane, sheet: &Covering, opening: &Rings) {
    let laid = lay(plane, sheet);
    let off = sheet.edges.off_walls.to_inches() - 1e-6;
    let reach = |axis: usize| {
        let values = opening[0].iter().map(|at| at[axis]);
        [values.clone().fold(f64::INFINITY, f64::min), values.fold(f64::NEG_INFINITY, f64::max)]
    };
    let ([left, right], [low, _]) = (reach(0), reach(1));
    let high = opening[0].iter().filter(|at| at[0] <= left).map(|at| at[1]).fold(low, f64::max);
    // Behind a head it stays off as at the sides; at a cricket's valleys the clear width rules.
    let high = if opening[0].len() == 4 { high + off } else { high };
    let rectangle = vec![rectangle([left - off, right + off], [low - off, high])];
    for course in &laid.courses {
        for (place, run) in places(course) {
            let whole = vec![vec![[0.0, 0.0], [run.width, 0.0], [run.width, course.length], [0.0, course.length]]];
            let parts = run.cut.map_or(&whole, |cut| &laid.cuts[cut as usize].parts);
            let butt = course.butt - if run.hangs.hangs(0) { laid.step } else { 0.0 };
            let shape: Rings =
                parts.iter().map(|part| part.iter().map(|at| [at[0] + place[0], at[1] + butt]).collect()).collect();
            for zone in [opening, &rectangle] {
                let overlap = area(&overlay(&shape, zone, OverlayRule::Intersect));
                assert!(overlap < 100.0 / 65_536.0, "{overlap} of {shape:?} lies in {zone:?}");
            }
        }
    }
    let seen = layout::weathered(plane, sheet);
    let apron = vec![self::rectangle([left, right], [low - sheet.edges.apron_leg.to_inches() + 1e-6, low])];
    assert!(area(&overlay(&seen, &apron, OverlayRule::Intersect)) < 1e-4, "the apron covers what lies below the sill");
    // Starters lie along the eave only.
    assert!(laid.starters.iter().all(|row| row.butt < 1e-6), "{:?}", laid.starters);
}

/// Two pieces of one plane that do not touch, at heights of their own.
fn parted() -> impl Strategy<Value = Plane> {
    (20.0..60.0f64, 40.0..90.0f64, side(), high()).prop_map(|(up, height, kind, top)| {
        use EdgeKind::Eave;
        plane(&[
            (&[[0.0, 0.0], [80.0, 0.0], [60.0, height], [10.0, height]], &[Eave, kind, top, kind]),
            (&[[120.0, up], [230.0, up], [200.0, up + height], [150.0, up + height]], &[Eave, kind, top, kind]),
        ])
    })
}

/// Any outline that a ray from its middle meets once, with any kind of edge anywhere.
fn wild() -> impl Strategy<Value = Plane> {
    let corner = (40.0..120.0f64, prop::sample::select(EdgeKind::ALL.to_vec()));
    prop::collection::vec(corner, 5..9).prop_map(|corners| {
        let count = corners.len() as f64;
        let at = |index: usize, far: f64| {
            let angle = std::f64::consts::TAU * index as f64 / count;
            [150.0 + far * libm::cos(angle), 130.0 + far * libm::sin(angle)]
        };
        let places: Vec<Place> = corners.iter().enumerate().map(|(index, (far, _))| at(index, *far)).collect();
        let kinds: Vec<EdgeKind> = corners.iter().map(|(_, kind)| *kind).collect();
        plane(&[(&places, &kinds)])
    })
}

proptest! {

    #[test]
    fn four_sided_planes_are_sane(plane in four_sided(), sheet in sheets()) {
        sane(&plane, &sheet);
    }

    #[test]
    fn planes_with_a_jog_are_sane(plane in jogged(), sheet in sheets()) {
        sane(&plane, &sheet);
    }

    #[test]
    fn pierced_planes_are_sane(plane in pierced(), sheet in sheets()) {
        sane(&plane, &sheet);
    }

    #[test]
    fn planes_with_an_opening_are_sane_and_keep_clear_of_it((plane, opening) in opened(), sheet in sheets()) {
        sane(&plane, &sheet);
        keeps_clear(&plane, &sheet, &opening);
    }

    #[test]
    fn planes_in_two_parts_are_sane(plane in parted(), sheet in sheets()) {
        sane(&plane, &sheet);
    }

    #[test]
    fn wild_planes_are_sane(plane in wild(), sheet in sheets()) {
        sane(&plane, &sheet);
    }
}
