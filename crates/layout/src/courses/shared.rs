//! Course lines that run on round hips and valleys: equal rise per course, e₁ sin θ₁ = e₂ sin θ₂, and lines at one height.

use std::collections::BTreeMap;

use roof::{EdgeKind, Ring, Roof};

use super::ROUNDING;
use super::grade::{Grade, by_course};
use super::lines::{CourseLines, Slope};
use super::matched::{Matched, OddCourse, Remedy, Unmatched, WayOut, Why};
use super::solve::{Courses, Wanted, solve};
use super::station::STRIP;
use crate::bond::NIL;
use crate::{MatchHips, SettingOut};

/// What it costs not to begin a plane on a common line.
const FIRST: u32 = 8;
/// What it costs not to end a plane on a common line.
const TOP: u32 = 4;

/// Course lines of all planes, and what came of matching.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Shared {
    /// By plane.
    pub(crate) lines: BTreeMap<usize, CourseLines>,
    /// Planes whose courses meet.
    pub(crate) matched: Vec<Matched>,
    /// Hips and valleys at which they cannot.
    pub(crate) unmatched: Vec<Unmatched>,
}

/// Planes that share course lines, and the rise per course that suits them all.
#[derive(Debug, Clone, PartialEq)]
struct Group {
    planes: Vec<usize>,
    least: f64,
    greatest: f64,
}

/// A hip or valley at which courses should meet.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Link {
    planes: [usize; 2],
    kind: EdgeKind,
}

/// Course lines of every plane that has a slope: with those that it should meet, else alone.
pub(crate) fn set_out(roof: &Roof, slopes: &BTreeMap<usize, Slope>, setting_out: &SettingOut) -> Shared {
    let mut shared = Shared::default();
    let mut groups: Vec<Group> = slopes.iter().map(|(&plane, slope)| Group::of(plane, slope)).collect();
    for link in links(roof, slopes, &setting_out.match_hips) {
        if let Some(why) = join(&mut groups, link, slopes) {
            let ways = ways_out(link, why, slopes);
            shared.unmatched.push(Unmatched { planes: link.planes, kind: link.kind, why, ways });
        }
    }
    for group in groups {
        let alone = |plane: &usize| Some((*plane, slopes.get(plane)?.alone(setting_out)));
        let alone: BTreeMap<usize, CourseLines> = group.planes.iter().filter_map(alone).collect();
        if group.planes.len() < 2 {
            shared.lines.extend(alone);
            continue;
        }
        let lines = group.lines(slopes, setting_out);
        shared.matched.push(group.matched(slopes, setting_out, &lines, &alone));
        shared.lines.extend(lines);
    }
    shared
}

/// Each pair of planes that meet at a sloping hip or valley and are asked for, those of equal pitch first.
fn links(roof: &Roof, slopes: &BTreeMap<usize, Slope>, asked: &MatchHips) -> Vec<Link> {
    let is_asked = |plane: usize| slopes.contains_key(&plane) && asked.asks(&roof.planes[plane].id);
    let mut links: Vec<Link> = Vec::new();
    for (plane, surface) in roof.planes.iter().enumerate().filter(|(plane, _)| is_asked(*plane)) {
        for (kind, other) in surface.rings.iter().flat_map(sloping).filter(|(_, other)| *other > plane && is_asked(*other)) {
            let link = Link { planes: [plane, other], kind };
            if !links.contains(&link) {
                links.push(link);
            }
        }
    }
    let apart = |link: &Link| link.planes.map(|plane| slopes[&plane].rise);
    links.sort_by_key(|link| {
        let [a, b] = apart(link);
        (a - b).abs() > NIL
    });
    links
}

/// The hips and valleys of a ring that are not level, with the planes beyond.
fn sloping(ring: &Ring) -> impl Iterator<Item = (EdgeKind, usize)> + '_ {
    let after = ring.corners.iter().cycle().skip(1);
    let edges = ring.edges.iter().zip(ring.corners.iter().zip(after));
    edges.filter_map(|(edge, (from, to))| {
        let is_sloping = (from[2] - to[2]).abs() > NIL && matches!(edge.kind, EdgeKind::Hip | EdgeKind::Valley);
        edge.meets.filter(|_| is_sloping).map(|other| (edge.kind, other))
    })
}

/// Joins the groups of two planes; else tells why not.
fn join(groups: &mut Vec<Group>, link: Link, slopes: &BTreeMap<usize, Slope>) -> Option<Why> {
    let [a, b] = link.planes.map(|plane| groups.iter().position(|group| group.planes.contains(&plane)));
    let (a, b) = (a?, b?);
    if a == b {
        return None;
    }
    if link.planes.iter().any(|plane| slopes[plane].foot.is_none()) {
        return Some(Why::HeightUnknown);
    }
    let [least, greatest] = [groups[a].least.max(groups[b].least), groups[a].greatest.min(groups[b].greatest)];
    if least > greatest * (1.0 + ROUNDING) {
        return Some(Why::NoCommonRise { greatest, least });
    }
    let [keep, gone] = [a.min(b), a.max(b)];
    let other = groups.remove(gone);
    let group = &mut groups[keep];
    group.planes.extend(other.planes);
    group.planes.sort_unstable();
    (group.least, group.greatest) = (least.min(greatest), greatest);
    None
}

impl Group {
    fn of(plane: usize, slope: &Slope) -> Self {
        let [least, greatest] = [slope.limits.least, slope.limits.greatest].map(|exposure| exposure * slope.rise);
        Self { planes: vec![plane], least, greatest }
    }

    /// Lines at common heights; where a plane's own line would pass the greatest exposure by landing a little off a common
    /// one, with that little kept in reserve.
    fn lines(&self, slopes: &BTreeMap<usize, Slope>, setting_out: &SettingOut) -> BTreeMap<usize, CourseLines> {
        let members: Vec<(usize, &Slope)> = self.planes.iter().map(|plane| (*plane, &slopes[plane])).collect();
        let (asked, grades) = asked(&members, self, setting_out);
        let reserved = Courses { greatest: (asked.greatest - asked.step / 2.0).max(asked.least), ..asked.clone() };
        let half_step = setting_out.tape_step.to_inches() / 2.0;
        let laid = |asked: &Courses, near: f64| -> BTreeMap<usize, CourseLines> {
            let base = base(&members);
            let of_course = |course: usize| grades.get(course).or(grades.last()).copied().unwrap_or_default();
            let lines = solve(asked).into_iter().enumerate();
            let heights: Vec<(f64, Grade)> = lines.map(|(course, line)| (base + line, of_course(course))).collect();
            let lines = |&(plane, slope): &(usize, &Slope)| (plane, slope.at_heights(&heights, near, setting_out));
            members.iter().map(lines).collect()
        };
        let is_legal = |lines: &BTreeMap<usize, CourseLines>| {
            let within = |(_, slope): &(usize, &Slope), lines: &CourseLines| {
                (0..lines.count()).all(|course| lines.shows_as_own(course) <= slope.limits.greatest * (1.0 + ROUNDING))
            };
            members.iter().zip(lines.values()).all(|(member, lines)| within(member, lines))
        };
        let tries = [laid(&asked, half_step), laid(&reserved, half_step)];
        tries.into_iter().find(is_legal).unwrap_or_else(|| laid(&asked, NIL))
    }

    fn matched(
        &self,
        slopes: &BTreeMap<usize, Slope>,
        setting_out: &SettingOut,
        lines: &BTreeMap<usize, CourseLines>,
        alone: &BTreeMap<usize, CourseLines>,
    ) -> Matched {
        let count = |lines: &BTreeMap<usize, CourseLines>| lines.values().map(CourseLines::count).sum::<usize>() as i64;
        let pieces = |lines: &BTreeMap<usize, CourseLines>| -> f64 {
            lines.iter().map(|(plane, lines)| slopes[plane].pieces(lines.count())).sum()
        };
        let odd = lines.iter().filter_map(|(&plane, lines)| {
            let [shows, usual] = (lines.count() > 1).then(|| [lines.shows_as_own(0), lines.shows_as_own(1)])?;
            let more = lines.count() as i64 - alone[&plane].count() as i64;
            let is_seen = (shows - usual).abs() > setting_out.sight_limit.to_inches() * (1.0 + ROUNDING);
            is_seen.then_some(OddCourse { plane, shows, usual, courses: more })
        });
        let rise = self.planes.first().map_or(0.0, |plane| lines[plane].middle() * slopes[plane].rise);
        Matched {
            planes: self.planes.clone(),
            rise,
            courses: count(lines) - count(alone),
            pieces: (pieces(lines) - pieces(alone)).round() as i64,
            odd: odd.collect(),
        }
    }
}

/// Height of the lowest first butts.
fn base(members: &[(usize, &Slope)]) -> f64 {
    members.iter().map(|(_, slope)| slope.height(slope.first)).fold(f64::INFINITY, f64::min)
}

/// The one stack of courses, in inches of rise, that suits all these planes, and the units of each.
fn asked(members: &[(usize, &Slope)], group: &Group, setting_out: &SettingOut) -> (Courses, Vec<Grade>) {
    let base = base(members);
    let top = members.iter().map(|(_, slope)| slope.height(slope.top)).fold(base, f64::max);
    let flattest = members.iter().map(|(_, slope)| slope.rise).fold(1.0, f64::min);
    let height = top - base;
    let mut wanted: Vec<Wanted> = members.iter().flat_map(|(_, slope)| wanted_of(slope, base)).collect();
    wanted.retain(|wanted| wanted.height > NIL && wanted.height < height - NIL);
    // What shorter units show less is most of rise on the steepest plane; then they keep the limit on all.
    let steepest = members.iter().map(|(_, slope)| slope.rise).fold(0.0, f64::max);
    let lengths = members.first().map_or(&[][..], |(_, slope)| &slope.grades);
    let grades = by_course(lengths, height, group.greatest, steepest);
    let shorter = grades.iter().filter(|_| lengths.len() > 1).map(|grade| grade.shorter * steepest).collect();
    let courses = Courses {
        height,
        least: group.least,
        greatest: group.greatest,
        step: setting_out.tape_step.to_inches() * flattest,
        sight: setting_out.sight_limit.to_inches() * flattest,
        wanted,
        shorter,
    };
    (courses, grades)
}

/// A plane's stations, its first butts and its top line, as heights above a base.
fn wanted_of(slope: &Slope, base: f64) -> Vec<Wanted> {
    let end = |v: f64, is_above: bool, miss: u32| Wanted {
        height: slope.height(v) - base,
        is_above,
        miss,
        least_strip: slope.limits.least * slope.rise * (1.0 - ROUNDING),
        strip: miss * STRIP,
    };
    let stations = slope.stations.iter().map(|station| {
        let wanted = slope.wanted(station);
        Wanted { height: slope.height(station.v) - base, least_strip: wanted.least_strip * slope.rise, ..wanted }
    });
    [end(slope.first, true, FIRST), end(slope.top, false, TOP)].into_iter().chain(stations).collect()
}

/// What can be done where the courses of two planes cannot meet.
fn ways_out(link: Link, why: Why, slopes: &BTreeMap<usize, Slope>) -> Vec<WayOut> {
    let cover = if link.kind == EdgeKind::Hip { Remedy::CapHip } else { Remedy::OpenValley };
    let mut ways = vec![WayOut { remedy: cover, courses: Some(0), pieces: Some(0) }];
    let [a, b] = link.planes.map(|plane| (plane, &slopes[&plane]));
    let (plane, steep) = if a.1.rise > b.1.rise { a } else { b };
    if let Why::NoCommonRise { greatest, .. } = why {
        let exposure = greatest / steep.rise;
        let [alone, forced] = [steep.limits.greatest, exposure].map(|exposure| steep.fewest(exposure));
        ways.push(WayOut {
            remedy: Remedy::ShorterExposure { plane, exposure },
            courses: Some(forced as i64 - alone as i64),
            pieces: Some((steep.pieces(forced) - steep.pieces(alone)).round() as i64),
        });
        ways.push(WayOut { remedy: Remedy::OtherUnit { plane, least: exposure }, courses: None, pieces: None });
    }
    ways
}
