//! The course solver: the fewest courses between two fixed lines, then as many stations met as can be, then the evenest.
//!
//! Exact, by dynamic programming from the first line up. Were all courses as great as the tape allows, lines would climb
//! past the top; every tape step that a course shows less brings them down. A state is a course, the steps given up so
//! far, and the steps given up by that course: steps given up only add up, and in all they are fewer than one course has,
//! which keeps the states few however long the slope is.

use std::ops::RangeInclusive;

use super::ROUNDING;

/// The most states of one search. Beyond it the search goes by coarser steps.
const MOST_STATES: usize = 1_000_000;

/// A height at which a line should land.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Wanted {
    /// Above the first line.
    pub(crate) height: f64,
    /// The strip that counts lies between it and the line above, not the one below.
    pub(crate) is_above: bool,
    /// The cost of not landing there.
    pub(crate) miss: u32,
    /// A strip lower than this costs `strip`.
    pub(crate) least_strip: f64,
    /// The cost of a strip too low.
    pub(crate) strip: u32,
}

/// What is asked of the courses between two lines. All in one measure, inches on the slope or of rise.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Courses {
    /// From the first line to the top line.
    pub(crate) height: f64,
    /// A preference.
    pub(crate) least: f64,
    /// A limit.
    pub(crate) greatest: f64,
    /// A course differs from the even spread by whole numbers of these.
    pub(crate) step: f64,
    /// The greatest change from one course to the next.
    pub(crate) sight: f64,
    /// In any order.
    pub(crate) wanted: Vec<Wanted>,
    /// What each course shows less than the sheet's own unit would, as its units are shorter, from the lowest up; empty where
    /// all are the sheet's own. `least`, `greatest`, `sight` and what courses give up are of the sheet's own unit, so that a
    /// change of length is no change that is seen.
    pub(crate) shorter: Vec<f64>,
}

/// Less is better, the first figure first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(crate) struct Cost {
    /// Of stations not met.
    pub(crate) stations: u64,
    /// Squares of the changes from course to course, in steps.
    pub(crate) changes: u64,
    /// Squares of what courses show less than the greatest, in steps.
    pub(crate) spread: u64,
}

/// The lines of the courses above the first line, which is at 0, from that one up; at least that one.
pub(crate) fn solve(courses: &Courses) -> Vec<f64> {
    let (exposure, even) = courses.even();
    let missed = courses.missed(&even);
    if even.len() < 2 || exposure <= courses.least || missed == 0 {
        return even;
    }
    match courses.on_the_tape(even.len()) {
        Some((cost, lines)) if cost.stations < missed => lines,
        _ => even,
    }
}

impl Courses {
    /// n = ⌈S / greatest⌉ courses of S / n each; where that is below the least, courses of the least and a short one. Courses
    /// of shorter units show less by what they are told to.
    fn even(&self) -> (f64, Vec<f64>) {
        let count = match self.shorter.len() {
            0 => (self.height / self.greatest * (1.0 - ROUNDING)).ceil().max(1.0),
            count => count as f64,
        };
        let down = self.down(count as usize);
        let exposure = ((self.height + down[count as usize]) / count).clamp(self.least, self.greatest);
        (exposure, (0..count as u32).zip(down).map(|(course, down)| f64::from(course) * exposure - down).collect())
    }

    /// What so many courses show less each: a course more is of the length of the lowest, a course less leaves out the one next
    /// to it.
    pub(crate) fn shorter(&self, count: usize) -> Vec<f64> {
        let planned = self.shorter.len();
        let of = |course: usize| match (course + planned).checked_sub(count) {
            Some(planned) if course > 0 => self.shorter[planned],
            _ => self.shorter.first().copied().unwrap_or_default(),
        };
        (0..count).map(of).collect()
    }

    /// How much lower the line below each of so many courses lies than with units of one length, and last the top line.
    fn down(&self, count: usize) -> Vec<f64> {
        let sums = self.shorter(count).into_iter().scan(0.0, |sum, shorter| {
            *sum += shorter;
            Some(*sum)
        });
        [0.0].into_iter().chain(sums).collect()
    }

    /// The cost of the stations that these lines do not meet.
    pub(crate) fn missed(&self, lines: &[f64]) -> u64 {
        let above = lines.iter().skip(1).chain([&self.height]);
        let between = |(&below, &above)| self.wanted.iter().map(|wanted| self.miss(wanted, [below, above])).sum::<u64>();
        lines.iter().zip(above).map(between).sum()
    }

    /// The cost of a station if it lies in a course between these lines.
    fn miss(&self, wanted: &Wanted, [below, above]: [f64; 2]) -> u64 {
        if wanted.height < below || wanted.height >= above {
            return 0;
        }
        let [under, over] = [wanted.height - below, above - wanted.height];
        let strip = if wanted.is_above { over } else { under };
        let lands = under.min(over) <= self.step / 2.0 * (1.0 + ROUNDING);
        let cost = if strip < wanted.least_strip { wanted.strip } else { wanted.miss };
        if lands { 0 } else { u64::from(cost) }
    }

    /// The best of all ways with exposures in whole steps; the top course takes what is left. `None` if there is none.
    fn on_the_tape(&self, count: usize) -> Option<(Cost, Vec<f64>)> {
        self.above(count, [self.least, self.greatest])
    }

    /// As [`Courses::on_the_tape`], for two courses or more of which the lowest shows no less and no more than this.
    pub(crate) fn above(&self, count: usize, lowest: [f64; 2]) -> Option<(Cost, Vec<f64>)> {
        let mut step = self.step;
        let mut search = Search::new(self, count, step, lowest)?;
        while search.states() > MOST_STATES {
            step *= 2.0;
            search = Search::new(self, count, step, lowest)?;
        }
        search.run()
    }
}

/// One search with a fixed number of courses.
struct Search<'a> {
    courses: &'a Courses,
    count: usize,
    step: f64,
    /// Steps of the greatest exposure.
    greatest: usize,
    /// The most steps that a course may give up.
    most_less: usize,
    /// What the lowest course may give up.
    lowest: RangeInclusive<usize>,
    /// The greatest change from course to course, in steps.
    change: usize,
    /// The most steps that all courses but the top one may give up.
    most_given: usize,
    /// How much lower each line lies for shorter units, the top line last.
    down: Vec<f64>,
}

const NEVER: Cost = Cost { stations: u64::MAX, changes: 0, spread: 0 };

impl<'a> Search<'a> {
    fn new(courses: &'a Courses, count: usize, step: f64, lowest: [f64; 2]) -> Option<Self> {
        let steps = |inches: f64| inches / step;
        let greatest = (steps(courses.greatest) + ROUNDING).floor();
        let least = (steps(courses.least) - ROUNDING).ceil();
        let change = (steps(courses.sight) + ROUNDING).floor().min(greatest);
        let down = courses.down(count);
        // The lines below the top one may come down until the top course shows the greatest exposure.
        let most_given = (count as f64 - 1.0) * greatest - steps(courses.height + down[count] - courses.greatest) + ROUNDING;
        let low = (steps(lowest[0]) - ROUNDING).ceil().max(least);
        let high = (steps(lowest[1]) + ROUNDING).floor().min(greatest);
        (least <= greatest && low <= high && change >= 1.0 && most_given >= 0.0).then_some(Self {
            courses,
            count,
            step,
            greatest: greatest as usize,
            most_less: (greatest - least) as usize,
            lowest: (greatest - high) as usize..=(greatest - low) as usize,
            change: change as usize,
            most_given: most_given as usize,
            down,
        })
    }

    fn states(&self) -> usize {
        self.count * self.layer()
    }

    /// States of one course.
    fn layer(&self) -> usize {
        (self.most_given + 1) * (self.most_less + 1)
    }

    /// The line below a course when the courses under it have given up so many steps.
    fn line(&self, course: usize, given: usize) -> f64 {
        (course * self.greatest) as f64 * self.step - given as f64 * self.step - self.down[course]
    }

    /// What a course gives up next to one that gave up `less`.
    fn next(&self, less: usize) -> RangeInclusive<usize> {
        less.saturating_sub(self.change)..=(less + self.change).min(self.most_less)
    }

    /// Stations that may lie in a course, however the lines fall.
    fn near(&self, course: usize) -> Vec<&'a Wanted> {
        let [low, high] = [self.line(course, self.most_given.min(course * self.most_less)), self.line(course + 1, 0)];
        self.courses.wanted.iter().filter(|wanted| wanted.height >= low && wanted.height < high).collect()
    }

    fn missed(&self, near: &[&Wanted], lines: [f64; 2]) -> u64 {
        near.iter().map(|wanted| self.courses.miss(wanted, lines)).sum()
    }

    /// For two courses or more.
    fn run(&self) -> Option<(Cost, Vec<f64>)> {
        let width = self.most_less + 1;
        let mut layer = vec![NEVER; self.layer()];
        let mut came_from: Vec<Vec<u16>> = Vec::with_capacity(self.count);
        let near = self.near(0);
        for less in self.lowest.clone().take_while(|&less| less <= self.most_given) {
            let missed = self.missed(&near, [0.0, self.line(1, less)]);
            layer[less * width + less] = Cost { stations: missed, changes: 0, spread: (less * less) as u64 };
        }
        for course in 1..self.count - 1 {
            let (next, from) = self.climb(course, &layer);
            layer = next;
            came_from.push(from);
        }
        let (cost, given, less) = self.top(&layer)?;
        Some((cost, self.lines(&came_from, given, less)))
    }

    /// From every state below a course to every state above it.
    fn climb(&self, course: usize, layer: &[Cost]) -> (Vec<Cost>, Vec<u16>) {
        let width = self.most_less + 1;
        let near = self.near(course);
        let mut next = vec![NEVER; layer.len()];
        let mut from = vec![0; layer.len()];
        for (state, &cost) in layer.iter().enumerate().filter(|(_, cost)| **cost != NEVER) {
            let (given, less) = (state / width, state % width);
            let below = self.line(course, given);
            for now in self.next(less).take_while(|now| given + now <= self.most_given) {
                let missed =
                    if near.is_empty() { 0 } else { self.missed(&near, [below, self.line(course + 1, given + now)]) };
                let cost = cost.and(missed, now.abs_diff(less), now);
                let target = (given + now) * width + now;
                if cost < next[target] {
                    next[target] = cost;
                    from[target] = less as u16;
                }
            }
        }
        (next, from)
    }

    /// The best state below the top course, which shows what is left, with the cost of that course.
    fn top(&self, layer: &[Cost]) -> Option<(Cost, usize, usize)> {
        let width = self.most_less + 1;
        let near = self.near(self.count - 1);
        let mut best = None;
        for (state, &cost) in layer.iter().enumerate().filter(|(_, cost)| **cost != NEVER) {
            let (given, less) = (state / width, state % width);
            let below = self.line(self.count - 1, given);
            let shows = self.courses.height - below + self.down[self.count] - self.down[self.count - 1];
            let change = shows / self.step - (self.greatest - less) as f64;
            let slack = ROUNDING * self.courses.greatest;
            let is_legal = shows >= self.courses.least - slack && shows <= self.courses.greatest + slack;
            if is_legal && change.abs() * self.step <= self.courses.sight + slack {
                let missed = self.missed(&near, [below, self.courses.height]);
                let now = (self.greatest as f64 - shows / self.step).round().max(0.0) as usize;
                let cost = cost.and(missed, (change.abs() - ROUNDING).ceil().max(0.0) as usize, now);
                if best.is_none_or(|(least, _, _)| cost < least) {
                    best = Some((cost, given, less));
                }
            }
        }
        best
    }

    /// Back down from the state below the top course.
    fn lines(&self, came_from: &[Vec<u16>], mut given: usize, mut less: usize) -> Vec<f64> {
        let mut lines = vec![self.line(self.count - 1, given)];
        for (index, from) in came_from.iter().enumerate().rev() {
            let below = usize::from(from[given * (self.most_less + 1) + less]);
            given -= less;
            less = below;
            lines.push(self.line(index + 1, given));
        }
        lines.push(0.0);
        lines.reverse();
        lines
    }
}

impl Cost {
    fn and(self, missed: u64, change: usize, less: usize) -> Self {
        Self {
            stations: self.stations + missed,
            changes: self.changes + (change * change) as u64,
            spread: self.spread + (less * less) as u64,
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn courses(height: f64, least: f64, greatest: f64) -> Courses {
        Courses { height, least, greatest, step: 0.0625, sight: 0.125, wanted: vec![], shorter: vec![] }
    }

    fn eave(height: f64) -> Wanted {
        Wanted { height, is_above: true, miss: 8, least_strip: 3.0, strip: 32 }
    }

    /// Arithmetic: ⌈201.9 / 8.5⌉ = 24 courses of 8.4125 in; a 20-in slate then laps 20 − 2 × 8.4125 = 3.175 in.
    /// 8.5 in is the exposure of a 20-in slate at 3-in lap in US Simplified Practice Recommendation R14-28.
    #[test]
    fn courses_shrink_to_land_at_the_top_line() {
        let lines = solve(&courses(201.9, 8.0, 8.5));
        assert_eq!(lines.len(), 24);
        assert!((lines[1] - 8.4125).abs() < 1e-12);
    }

    #[test]
    fn rounding_adds_no_course() {
        let lines = solve(&courses(10.0 * 7.1 + 1e-12, 6.0, 7.1));
        assert_eq!(lines.len(), 10);
        assert!(lines[1] <= 7.1);
        assert_eq!(solve(&courses(10.0 * 7.1 + 1e-6, 6.0, 7.1)).len(), 11);
    }

    #[test]
    fn below_the_least_exposure_the_top_course_is_short() {
        assert_eq!(solve(&courses(15.0, 7.0, 7.4)), [0.0, 7.0, 14.0]);
    }

    #[test]
    fn a_plane_lower_than_its_caps_still_has_a_course() {
        assert_eq!(solve(&courses(-2.0, 6.0, 7.0)), [0.0]);
    }

    /// Six courses over 46 in are 7-2/3 in each, and the line over the fourth lies at 30-2/3. It lands at a jog at 31 in where
    /// four courses show 7-3/4 on the mean and two 7-1/2 in.
    #[test]
    fn a_line_lands_at_a_jog() {
        let asked = Courses { wanted: vec![eave(31.0)], sight: 0.25, ..courses(46.0, 7.0, 8.0) };
        let lines = solve(&asked);
        assert_eq!((lines.len(), lines[4]), (6, 31.0));
        assert_eq!(asked.missed(&lines), 0);
    }

    /// Every way of courses in whole steps with the top one taking what is left, one by one.
    fn best_of_all(asked: &Courses, count: usize) -> Option<Cost> {
        let steps = |inches: f64| inches / asked.step;
        let [low, high] = [(steps(asked.least) - 1e-6).ceil() as i64, (steps(asked.greatest) + 1e-6).floor() as i64];
        let mut ways: Vec<Vec<i64>> = vec![vec![]];
        for _ in 1..count {
            let longer = |way: &Vec<i64>| (low..=high).map(|last| [way.clone(), vec![last]].concat()).collect::<Vec<_>>();
            ways = ways.iter().flat_map(longer).collect();
        }
        ways.iter().filter_map(|way| cost_of(asked, way, high)).min()
    }

    fn cost_of(asked: &Courses, way: &[i64], high: i64) -> Option<Cost> {
        let mut exposures: Vec<f64> = way.iter().map(|&steps| steps as f64).collect();
        let less: Vec<f64> =
            (0..=exposures.len()).map(|course| asked.shorter.get(course).map_or(0.0, |less| less / asked.step)).collect();
        exposures.push((asked.height / asked.step + less.iter().sum::<f64>()) - exposures.iter().sum::<f64>());
        let [least, greatest, sight] = [asked.least, asked.greatest, asked.sight].map(|inches| inches / asked.step);
        let is_legal = exposures.iter().all(|&e| e >= least - 1e-6 && e <= greatest + 1e-6)
            && exposures.windows(2).all(|pair| (pair[1] - pair[0]).abs() <= sight + 1e-6);
        let lines: Vec<f64> = (0..exposures.len())
            .map(|n| (exposures[..n].iter().sum::<f64>() - less[..n].iter().sum::<f64>()) * asked.step)
            .collect();
        let square = |steps: f64| (steps * steps) as u64;
        is_legal.then(|| Cost {
            stations: asked.missed(&lines),
            changes: exposures.windows(2).map(|pair| square(((pair[1] - pair[0]).abs() - 1e-6).ceil().max(0.0))).sum(),
            spread: exposures.iter().map(|e| square((high as f64 - e).round().max(0.0))).sum(),
        })
    }

    /// A line of `oracles/courses.py`: what is asked, and what a general-purpose solver found.
    fn asked_of_others(line: &str) -> Option<(Courses, usize, Option<[u64; 2]>)> {
        let numbers = |text: &str| text.split_whitespace().filter_map(|word| word.parse().ok()).collect::<Vec<f64>>();
        let [asked, stations, found] = line.split('|').collect::<Vec<_>>().try_into().ok()?;
        let [height, least, greatest, step, sight] = numbers(asked).try_into().ok()?;
        let station = |text: &str| {
            let [height, miss, least_strip, strip] = numbers(text).try_into().ok()?;
            let [miss, strip] = [miss, strip].map(|cost: f64| cost as u32);
            Some(Wanted { height, is_above: text.contains("above"), miss, least_strip, strip })
        };
        let wanted = stations.split(';').filter_map(station).collect();
        let (count, costs) = numbers(found).split_first().map(|(count, costs)| (*count as usize, costs.to_vec()))?;
        let costs = <[f64; 2]>::try_from(costs).ok().map(|costs| costs.map(|cost| cost as u64));
        Some((Courses { height, least, greatest, step, sight, wanted, shorter: vec![] }, count, costs))
    }

    /// Recorded: the same question as a mixed-integer program, solved by HiGHS.
    #[test]
    fn a_general_purpose_solver_finds_nothing_better() {
        let recorded = include_str!("../../tests/data/courses.txt");
        let planes: Vec<_> = recorded.lines().filter_map(asked_of_others).collect();
        assert!(planes.len() >= 50);
        for (asked, count, found) in planes {
            assert_eq!(asked.even().1.len(), count, "{asked:?}");
            let ours = asked.on_the_tape(count).map(|(cost, _)| [cost.stations, cost.changes]);
            assert_eq!(ours, found, "{asked:?}");
        }
    }

    fn wanted() -> impl Strategy<Value = Vec<Wanted>> {
        let one = (1.0..44.0f64, any::<bool>(), 1u32..9, 0.5..6.0f64, 1u32..40)
            .prop_map(|(height, is_above, miss, least_strip, strip)| Wanted { height, is_above, miss, least_strip, strip });
        prop::collection::vec(one, 1..5)
    }

    /// Small planes of one to six courses with up to eight exposures each.
    fn small() -> impl Strategy<Value = Courses> {
        (9.0..45.0f64, 0u32..8, 0u32..4, any::<bool>(), wanted()).prop_map(|(height, range, sight, is_off, wanted)| {
            let greatest = 8.0 + if is_off { 0.1 } else { 0.0 };
            let [least, sight] = [greatest - f64::from(range) * 0.25, f64::from(sight) * 0.25];
            let wanted = wanted.into_iter().filter(|wanted| wanted.height < height).collect();
            Courses { height, least, greatest, step: 0.25, sight, wanted, shorter: vec![] }
        })
    }

    /// Two courses of the longest units and then shorter ones, half an inch and an inch less shown.
    fn small_graduated() -> impl Strategy<Value = Courses> {
        (small(), 2usize..6).prop_map(|(asked, count)| {
            let shorter: Vec<f64> = [0.0, 0.0, 0.5, 0.5, 1.0].into_iter().take(count).collect();
            let height = asked.height.min(count as f64 * asked.greatest - shorter.iter().sum::<f64>());
            let wanted = asked.wanted.iter().copied().filter(|wanted| wanted.height < height).collect();
            // A change of less than a step is none, and then the even spread is all there is.
            Courses { height, wanted, shorter, sight: asked.sight.max(asked.step), ..asked }
        })
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(ProptestConfig::default().cases.max(400)))]
        #[test]
        fn no_way_of_all_ways_is_better(asked in prop_oneof![small(), small_graduated()]) {
            let count = asked.even().1.len();
            prop_assume!(count > 1);
            let found = asked.on_the_tape(count).map(|(cost, lines)| {
                let above = lines.iter().skip(1).chain([&asked.height]);
                let less = |course: usize| asked.shorter.get(course).copied().unwrap_or_default();
                let courses = lines.iter().zip(above).enumerate();
                let steps: Vec<f64> =
                    courses.map(|(course, (low, high))| (high - low + less(course)) / asked.step).collect();
                let way: Vec<i64> = steps[..count - 1].iter().map(|steps| steps.round() as i64).collect();
                let greatest = (asked.greatest / asked.step + 1e-6).floor() as i64;
                (cost, cost_of(&asked, &way, greatest))
            });
            prop_assert_eq!(found.as_ref().map(|found| found.0), best_of_all(&asked, count));
            if let Some((cost, again)) = found {
                prop_assert_eq!(Some(cost), again, "the cost is that of the lines");
            }
        }

        #[test]
        fn courses_are_fewest_and_within_their_limits(
            height in 1.0..900.0f64, least in 3.0..8.0f64, range in 0.0..2.0f64, wanted in wanted(),
        ) {
            let asked = Courses { wanted, ..courses(height, least, least + range) };
            let lines = solve(&asked);
            let above = lines.iter().skip(1).chain([&height]);
            let exposures: Vec<f64> = lines.iter().zip(above).map(|(low, high)| high - low).collect();
            prop_assert_eq!(lines.len(), (height / asked.greatest - 1e-9).ceil() as usize);
            prop_assert!((exposures.iter().sum::<f64>() - height).abs() < 1e-9);
            prop_assert!(exposures.iter().all(|&e| e <= asked.greatest + 1e-6));
            let is_short = height / lines.len() as f64 + 1e-9 < least;
            prop_assert!(is_short || exposures.iter().all(|&e| e >= least - 1e-6));
            prop_assert!(is_short || exposures.windows(2).all(|pair| (pair[1] - pair[0]).abs() <= asked.sight + 1e-6));
            prop_assert!(asked.missed(&lines) <= asked.missed(&asked.even().1), "no worse than evenly spread");
        }
    }
}
