//! The courses that are still to be laid, spread anew from where the last one lies.

use super::ROUNDING;
use super::solve::Courses;

/// What is left of a plane above a course that is laid. All along one end of the courses, inches. Exposures are those of the
/// sheet's own unit, of which shorter ones show so much less as `asked` tells.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Rest {
    /// From the butts of that course to the top line, with what the sheet and the eye allow.
    pub(crate) asked: Courses,
    /// Its planned lines, the first of them at 0, stretched to that height.
    pub(crate) planned: Vec<f64>,
    /// What that course may show: within sight of the one below it, and no more than its headlap leaves.
    pub(crate) lowest: [f64; 2],
    /// The plan lets the top course end where it may, under its cap or apron.
    pub(crate) free_top: bool,
}

/// Which limit stands in the way of so many courses.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Limit {
    /// So many inches are left over when every course shows the most that exposure and headlap allow.
    Greatest(f64),
    /// So many inches are wanting when every course shows the least that the sheet prefers.
    Least(f64),
    /// So many inches are left over or wanting when each course changes from the one below by the sight limit.
    Sight(f64),
}

impl Limit {
    /// By how much, inches.
    #[must_use]
    pub const fn by(self) -> f64 {
        match self {
            Self::Greatest(by) | Self::Least(by) | Self::Sight(by) => by,
        }
    }
}

impl Rest {
    /// Whether any legal exposures of so many courses add up to the height.
    pub(crate) fn holds(&self, count: usize) -> bool {
        let slack = ROUNDING * self.asked.greatest;
        self.reach(count).is_some_and(|[low, high]| low - slack <= self.asked.height && self.asked.height <= high + slack)
    }

    /// The least and the greatest height that so many courses can take, every course after the lowest within sight of the
    /// one below. Any height between can be reached, as each bound is itself a legal spread and so is any mean of two.
    pub(crate) fn reach(&self, count: usize) -> Option<[f64; 2]> {
        let [low, high] = [self.bound(count, 0)?, self.bound(count, 1)?];
        Some([low, high].map(|exposures| exposures.iter().sum()))
    }

    /// What courses show, each as little (0) or as much (1) as can be; `None` if the lowest has none.
    fn bound(&self, count: usize, end: usize) -> Option<Vec<f64>> {
        let Courses { least, greatest, sight, .. } = self.asked;
        let [low, high] = self.lowest;
        let nth = |course: usize| match end {
            0 => (low - course as f64 * sight).max(least),
            _ => (high + course as f64 * sight).min(greatest),
        };
        let mut exposures: Vec<f64> = (0..count).map(nth).collect();
        if let Some(top) = exposures.last_mut().filter(|_| self.free_top) {
            *top = match (end, count) {
                (0, _) => 0.0,
                (_, 1) => high,
                _ => greatest,
            };
        }
        let is_free = |course: usize| self.free_top && end == 0 && course + 1 == count;
        for (course, less) in self.asked.shorter(count).into_iter().enumerate().filter(|(course, _)| !is_free(*course)) {
            exposures[course] -= less;
        }
        (low <= high * (1.0 + ROUNDING)).then_some(exposures)
    }

    /// The lines of so many courses, the first at 0: as planned or evenly, unless courses on the tape meet more stations or
    /// are the only ones that keep the limits.
    pub(crate) fn over(&self, count: usize) -> Option<Vec<f64>> {
        let even = || self.even(count);
        let plain = if count == self.planned.len() { self.planned.clone() } else { even() };
        let plain = Some(plain).filter(|lines| self.is_legal(lines));
        let missed = plain.as_ref().map(|lines| self.asked.missed(lines));
        if missed == Some(0) || count < 2 || self.free_top {
            return plain.or_else(|| self.blended(count));
        }
        match self.asked.above(count, self.lowest) {
            Some((cost, lines)) if missed.is_none_or(|missed| cost.stations < missed) => Some(lines),
            _ => plain.or_else(|| self.blended(count)),
        }
    }

    /// All courses alike, save for the lengths of their units.
    fn even(&self, count: usize) -> Vec<f64> {
        let shorter = self.asked.shorter(count);
        let each = (self.asked.height + shorter.iter().sum::<f64>()) / count as f64;
        let mut line = 0.0;
        let lines = shorter.into_iter().map(|less| {
            let butt = line;
            line += each - less;
            butt
        });
        lines.collect()
    }

    /// Between the least and the greatest of every course, in one proportion.
    fn blended(&self, count: usize) -> Option<Vec<f64>> {
        let [low, high] = [self.bound(count, 0)?, self.bound(count, 1)?];
        let [least, most]: [f64; 2] = [&low, &high].map(|exposures| exposures.iter().sum());
        let part = if most > least { ((self.asked.height - least) / (most - least)).clamp(0.0, 1.0) } else { 0.0 };
        let mut line = 0.0;
        let lines = low.iter().zip(&high).map(|(low, high)| {
            let butt = line;
            line += low + part * (high - low);
            butt
        });
        Some(lines.collect())
    }

    fn is_legal(&self, lines: &[f64]) -> bool {
        let Courses { least, greatest, sight, height, .. } = self.asked;
        let slack = ROUNDING * greatest;
        let within = |exposure: f64, [low, high]: [f64; 2]| exposure >= low - slack && exposure <= high + slack;
        let above = lines.iter().skip(1).chain([&height]);
        let courses = lines.iter().zip(above).zip(self.asked.shorter(lines.len()));
        let mut exposures: Vec<f64> = courses.map(|((low, high), less)| high - low + less).collect();
        if self.free_top && exposures.pop().is_some_and(|top| !within(top, [0.0, greatest])) {
            return false;
        }
        exposures.first().is_none_or(|lowest| within(*lowest, self.lowest))
            && exposures.iter().all(|exposure| within(*exposure, [least, greatest]))
            && exposures.windows(2).all(|pair| (pair[1] - pair[0]).abs() <= sight + slack)
    }

    /// What stands in the way of so many courses.
    pub(crate) fn limit(&self, count: usize) -> Option<Limit> {
        let Courses { least, greatest, height, .. } = self.asked;
        let shorter: f64 = self.asked.shorter(count).iter().sum();
        let courses = count as f64;
        let [low, high] = self.reach(count)?;
        if height > high {
            let over = height + shorter - courses * greatest;
            return Some(if over > 0.0 { Limit::Greatest(over) } else { Limit::Sight(height - high) });
        }
        let wanting = courses * least - shorter - height;
        let short = if wanting > 0.0 { Limit::Least(wanting) } else { Limit::Sight(low - height) };
        (height < low).then_some(short)
    }

    /// The most courses that do not reach the top line at their greatest, if any number of courses is wanting.
    pub(crate) fn too_few(&self) -> usize {
        let shortest =
            self.asked.shorter.iter().fold(self.asked.least, |shortest, less| shortest.min(self.asked.least - less));
        let most = (self.asked.height / shortest.max(f64::MIN_POSITIVE)).min(1e6) as usize + 1;
        let reaches = |count: usize| self.reach(count).is_some_and(|[_, high]| high >= self.asked.height);
        (1..=most).find(|&count| reaches(count)).unwrap_or(most + 1) - 1
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// In steps of 1 in: all limits and the height are whole and a change is at least one step, so what any exposures reach is
    /// reached by whole ones too.
    fn small() -> impl Strategy<Value = (Rest, usize)> {
        (2..5u32, 0..4u32, 1..4u32, 0..3u32, 0..3u32, 4..36u32, any::<bool>(), (1..6usize, 0..6usize)).prop_map(
            |(least, range, sight, low, width, height, free_top, (count, longs))| {
                let [least, greatest, sight, height] = [least, least + range, sight, height].map(f64::from);
                let low = (least + f64::from(low)).min(greatest);
                let high = (low + f64::from(width)).min(greatest);
                let shorter = (0..count).map(|course| if course < longs { 0.0 } else { 1.0 }).collect();
                let asked = Courses { height, least, greatest, step: 1.0, sight, wanted: vec![], shorter };
                let planned = (0..count).map(|course| height * course as f64 / count as f64).collect();
                (Rest { asked, planned, lowest: [low, high], free_top }, count)
            },
        )
    }

    /// Every way in whole inches, one by one.
    fn ways(rest: &Rest, count: usize) -> Vec<Vec<f64>> {
        let mut ways: Vec<Vec<f64>> = vec![vec![]];
        for _ in 0..count {
            let longer = |way: &Vec<f64>| {
                (0..=rest.asked.greatest as u32).map(|e| [way.clone(), vec![f64::from(e)]].concat()).collect::<Vec<_>>()
            };
            ways = ways.iter().flat_map(longer).collect();
        }
        ways.retain(|way| (way.iter().sum::<f64>() - rest.asked.height).abs() < 1e-9 && keeps_limits(rest, way));
        ways
    }

    fn keeps_limits(rest: &Rest, exposures: &[f64]) -> bool {
        let held = exposures.len() - usize::from(rest.free_top);
        let is_positive = exposures.iter().all(|exposure| *exposure >= -1e-6);
        let exposures: Vec<f64> = exposures.iter().zip(&rest.asked.shorter).map(|(shows, less)| shows + less).collect();
        is_positive && as_own_keep_limits(rest, &exposures, held)
    }

    /// As of the sheet's own unit.
    fn as_own_keep_limits(rest: &Rest, exposures: &[f64], held: usize) -> bool {
        exposures[0] <= rest.lowest[1] + 1e-6
            && (held == 0 || exposures[0] >= rest.lowest[0] - 1e-6)
            && exposures.iter().all(|exposure| *exposure <= rest.asked.greatest + 1e-6 && *exposure >= -1e-6)
            && exposures[..held].iter().all(|exposure| *exposure >= rest.asked.least - 1e-6)
            && exposures[..held].windows(2).all(|pair| (pair[1] - pair[0]).abs() <= rest.asked.sight + 1e-6)
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(ProptestConfig::default().cases.max(1000)))]
        #[test]
        fn there_is_room_exactly_where_some_way_of_all_ways_fits((rest, count) in small()) {
            prop_assert_eq!(rest.holds(count), !ways(&rest, count).is_empty(), "{:?}", rest.reach(count));
            if rest.holds(count) {
                let lines = rest.over(count);
                prop_assert!(lines.is_some());
                let lines = lines.unwrap_or_default();
                let above = lines.iter().skip(1).chain([&rest.asked.height]);
                let exposures: Vec<f64> = lines.iter().zip(above).map(|(low, high)| high - low).collect();
                prop_assert_eq!(exposures.len(), count);
                prop_assert!(keeps_limits(&rest, &exposures), "{:?}", exposures);
            } else {
                prop_assert!(rest.limit(count).is_some_and(|limit| limit.by() > 0.0));
            }
        }
    }
}
