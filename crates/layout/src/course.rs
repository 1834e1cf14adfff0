use crate::Cut;

/// One row of units.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    /// v of the butts.
    pub butt: f64,
    /// To the next course's butts, or to the top line.
    pub exposure: f64,
    /// From butt to head of its units.
    pub length: f64,
    /// Pieces from left to right.
    pub runs: Vec<Run>,
}

/// Equal neighbouring pieces of a course.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Run {
    /// Left side of the first unit before it is cut to the outline.
    pub left: f64,
    /// Width of each place along the course: the unit's own, or less where a joint was moved.
    pub width: f64,
    /// From one unit's left side to the next one's: width + gap.
    pub step: f64,
    /// How many.
    pub count: u32,
    /// What the pieces are made from: index in [`crate::LaidPlane::units`].
    pub unit: u32,
    /// `None` for whole units, else the index in [`crate::LaidPlane::cuts`].
    pub cut: Option<u32>,
    /// This run starts right after its left neighbour with a joint between; false at the start of a span.
    pub joint_before: bool,
    /// Which of the units hang below the course line.
    pub hangs: Hanging,
}

impl Run {
    /// Left sides of the units, before cutting.
    pub fn lefts(&self) -> impl Iterator<Item = f64> + use<> {
        let Self { left, step, count, .. } = *self;
        (0..count).map(move |index| left + f64::from(index) * step)
    }

    /// Left side of the last unit, before cutting.
    #[must_use]
    pub fn last_left(&self) -> f64 {
        self.left + f64::from(self.count.saturating_sub(1)) * self.step
    }

    /// Right side of the last unit, before cutting.
    #[must_use]
    pub fn right(&self) -> f64 {
        self.last_left() + self.width
    }

    /// From the first unit's leftmost point to the last one's rightmost, after cutting.
    #[must_use]
    pub fn extent(&self, cuts: &[Cut]) -> [f64; 2] {
        match self.cut.and_then(|cut| cuts.get(cut as usize)) {
            Some(cut) => [self.left + cut.extent()[0], self.last_left() + cut.extent()[1]],
            None => [self.left, self.right()],
        }
    }
}

/// Which units of a run hang below the course line, by [`crate::LaidPlane::step`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Hanging {
    /// All butts lie on the line.
    #[default]
    None,
    /// The first, the third and so on.
    First,
    /// The second, the fourth and so on.
    Second,
}

impl Hanging {
    /// Of a run whose first unit hangs or does not, where every other one hangs.
    pub(crate) const fn from(first: bool) -> Self {
        if first { Self::First } else { Self::Second }
    }

    /// Of the same row without so many of its units at the left.
    pub(crate) const fn without(self, units: u32) -> Self {
        match self {
            Self::None => Self::None,
            Self::First | Self::Second => Self::from(self.hangs(units)),
        }
    }

    /// Whether a unit hangs, counted from 0.
    #[must_use]
    pub const fn hangs(self, unit: u32) -> bool {
        match self {
            Self::None => false,
            Self::First => unit.is_multiple_of(2),
            Self::Second => !unit.is_multiple_of(2),
        }
    }
}

/// Joints that follow each other at equal steps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Joints {
    /// u of the middle of the leftmost one.
    pub first: f64,
    /// From one to the next.
    pub step: f64,
    /// How many, at least one.
    pub count: u32,
}

impl Joints {
    /// u of the rightmost one.
    #[must_use]
    pub fn last(&self) -> f64 {
        self.first + f64::from(self.count - 1) * self.step
    }

    /// u of each, ascending.
    pub fn each(&self) -> impl Iterator<Item = f64> + use<> {
        let Self { first, step, count } = *self;
        (0..count).map(move |index| first + f64::from(index) * step)
    }
}

impl Course {
    /// Pieces in the course.
    #[must_use]
    pub fn pieces(&self) -> u64 {
        self.runs.iter().map(|run| u64::from(run.count)).sum()
    }

    /// The joints as rows of equal steps, ascending.
    pub fn joint_rows(&self) -> impl Iterator<Item = Joints> + '_ {
        self.runs.iter().enumerate().flat_map(|(index, run)| {
            let before = index.checked_sub(1).filter(|_| run.joint_before).map(|left| Joints {
                first: f64::midpoint(self.runs[left].right(), run.left),
                step: run.step,
                count: 1,
            });
            let within = (run.count > 1).then(|| Joints {
                first: run.left + f64::midpoint(run.width, run.step),
                step: run.step,
                count: run.count - 1,
            });
            before.into_iter().chain(within)
        })
    }

    /// u of the middle of each gap between two neighbours, ascending.
    #[must_use]
    pub fn joints(&self) -> Vec<f64> {
        self.joint_rows().flat_map(|row| row.each()).collect()
    }

    /// From and to of every unbroken row of pieces. Pieces in a course = joints + spans.
    #[must_use]
    pub fn spans(&self, cuts: &[Cut]) -> Vec<[f64; 2]> {
        let mut spans: Vec<[f64; 2]> = Vec::new();
        for run in &self.runs {
            let [from, to] = run.extent(cuts);
            match spans.last_mut().filter(|_| run.joint_before) {
                Some(span) => span[1] = to,
                None => spans.push([from, to]),
            }
        }
        spans
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pieces_are_joints_and_spans() {
        let run = |left, count, joint_before| Run {
            left,
            width: 10.0,
            step: 10.25,
            count,
            unit: 0,
            cut: None,
            joint_before,
            hangs: Hanging::None,
        };
        let course = Course {
            butt: 0.0,
            exposure: 7.0,
            length: 18.0,
            runs: vec![run(0.0, 3, false), run(30.75, 1, true), run(60.0, 2, false)],
        };
        assert_eq!(course.joints(), [10.125, 20.375, 30.625, 70.125]);
        assert_eq!(course.spans(&[]), [[0.0, 40.75], [60.0, 80.25]]);
        assert_eq!(course.pieces(), 6);
    }
}
