use crate::rule::Verdict;
use crate::{Outcome, Place};

/// Lengths that differ by less, in inches, are equal: far below any tape, far above the rounding of sums over a plane.
pub(crate) const SLACK: f64 = 1e-6;

/// What is compared with what, somewhere.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Measured {
    pub(crate) is: f64,
    pub(crate) limit: f64,
    pub(crate) place: Place,
    /// It does not keep its limit.
    pub(crate) breaks: bool,
}

impl Measured {
    /// The two lengths to a sixteenth, or closer where sixteenths would hide why the limit is broken.
    pub(crate) fn inches(&self) -> [String; 2] {
        let told = |value| units::Length::inches(value).in_inches();
        let hides = |a: f64, b: f64| (a - b).abs() > SLACK && told(a) == told(b);
        if self.breaks && (hides(self.is, self.limit) || hides(self.is, 0.0)) {
            return [self.is, self.limit].map(|value| format!("{value:.4}\""));
        }
        [self.is, self.limit].map(told)
    }

    /// Two pitches to a hundredth, or closer where that would hide why a pitch just below the limit fails.
    pub(crate) fn in_12(&self) -> [String; 2] {
        let parts = if (self.is - self.limit).abs() < 0.01 { 1e6 } else { 1e2 };
        [self.is, self.limit].map(|rise| format!("{}/12", (rise * parts).round() / parts))
    }
}

/// Which side of its limit a value must keep to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Bound {
    AtLeast,
    AtMost,
}

/// Comparisons against one kind of limit: the tightest, and the places that break it.
#[derive(Debug)]
pub(crate) struct Tally {
    bound: Bound,
    slack: f64,
    tightest: Option<Measured>,
    broken: Vec<Place>,
    unjudged: Vec<Place>,
}

impl Tally {
    /// Lengths in inches.
    pub(crate) fn lengths(bound: Bound) -> Self {
        Self { bound, slack: SLACK, tightest: None, broken: Vec::new(), unjudged: Vec::new() }
    }

    /// Values that are typed, not summed.
    pub(crate) fn exact(bound: Bound) -> Self {
        Self { slack: 0.0, ..Self::lengths(bound) }
    }

    pub(crate) fn add(&mut self, is: f64, limit: f64, place: Place) {
        if self.breaks(is, limit) {
            self.broken.push(place);
        }
        // Of equal ones the first is told.
        let margin = self.margin(is, limit) + self.slack;
        if self.tightest.is_none_or(|tightest| margin < self.margin(tightest.is, tightest.limit)) {
            self.tightest = Some(Measured { is, limit, place, breaks: self.breaks(is, limit) });
        }
    }

    /// The same value at many places: those are only walked if it breaks the limit.
    pub(crate) fn add_each(&mut self, is: f64, limit: f64, mut places: impl Iterator<Item = Place>) {
        let Some(first) = places.next() else { return };
        self.add(is, limit, first);
        if self.breaks(is, limit) {
            self.broken.extend(places);
        }
    }

    /// The value does not keep its limit.
    pub(crate) fn breaks(&self, is: f64, limit: f64) -> bool {
        self.margin(is, limit) < -self.slack
    }

    /// There is no limit to judge this place by.
    pub(crate) fn cannot_judge(&mut self, place: Place) {
        self.unjudged.push(place);
    }

    fn margin(&self, is: f64, limit: f64) -> f64 {
        match self.bound {
            Bound::AtLeast => is - limit,
            Bound::AtMost => limit - is,
        }
    }

    /// One sentence: the tightest comparison as `tell` puts it, and how many places break the rule; or what is left
    /// unjudged as `untold` puts it; or `nothing` if there was nothing to compare.
    pub(crate) fn verdict(
        self,
        tell: impl FnOnce(&Measured) -> String,
        untold: impl FnOnce(Place) -> String,
        nothing: &str,
    ) -> Verdict {
        let Self { tightest, broken, unjudged, .. } = self;
        match (tightest, unjudged.first()) {
            (Some(tightest), _) if !broken.is_empty() => Verdict::found(Outcome::Fail, tell(&tightest), broken),
            (_, Some(&first)) => Verdict::found(Outcome::Attention, untold(first), unjudged),
            (Some(tightest), None) => Verdict::pass(tell(&tightest) + "."),
            (None, None) => Verdict::not_applicable(nothing),
        }
    }
}

/// A sentence with the number of its places.
pub(crate) fn counted(says: String, places: usize) -> String {
    if places > 1 { format!("{says}; {places} places in all.") } else { says + "." }
}

#[cfg(test)]
mod tests {
    use super::*;

    const HERE: Place = Place { plane: 0, course: 0, u: 0.0, v: 0.0 };
    const THERE: Place = Place { course: 4, ..HERE };

    fn verdict(tally: Tally) -> Verdict {
        tally.verdict(
            |measured| measured.inches().join(" to "),
            |place| format!("course {} unknown", place.course),
            "nothing",
        )
    }

    #[test]
    fn the_tightest_is_told_and_every_break_counted() {
        let mut tally = Tally::lengths(Bound::AtLeast);
        tally.add(3.0, 3.0, HERE);
        tally.add(2.0, 3.0, HERE);
        tally.add(1.5, 3.0, THERE);
        let Verdict { outcome, says, places, .. } = verdict(tally);
        assert_eq!((outcome, says.as_str()), (Outcome::Fail, "1-1/2\" to 3\"; 2 places in all."));
        assert_eq!(places, [HERE, THERE]);
    }

    #[test]
    fn what_cannot_be_judged_is_no_pass_and_hides_no_failure() {
        let mut tally = Tally::lengths(Bound::AtMost);
        tally.add(3.0, 3.0, HERE);
        tally.cannot_judge(THERE);
        assert_eq!(verdict(tally).outcome, Outcome::Attention);
        let mut tally = Tally::lengths(Bound::AtMost);
        tally.add(3.1, 3.0, HERE);
        tally.cannot_judge(THERE);
        assert_eq!(verdict(tally).outcome, Outcome::Fail);
        assert_eq!(verdict(Tally::lengths(Bound::AtMost)).outcome, Outcome::NotApplicable);
    }

    #[test]
    fn sixteenths_do_not_hide_a_difference() {
        let measured = |is, breaks| Measured { is, limit: 7.5, place: HERE, breaks }.inches();
        let told = |is| measured(is, true);
        assert_eq!(told(7.51), ["7.5100\"", "7.5000\""]);
        assert_eq!(measured(7.49, false), ["7-1/2\"", "7-1/2\""]);
        assert_eq!(told(7.5 + SLACK / 2.0), ["7-1/2\"", "7-1/2\""]);
        assert_eq!(told(8.0), ["8\"", "7-1/2\""]);
        assert_eq!(told(0.02), ["0.0200\"", "7.5000\""]);
        assert_eq!(told(0.0), ["0\"", "7-1/2\""]);
    }
}
