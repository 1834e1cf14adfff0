use covering::{Bond as Kind, Covering};

/// Overlaps along the course that are smaller than this, in, are none.
pub(crate) const NIL: f64 = 1e-7;

/// After how many courses joints stand over joints again; of random widths, which never repeat, as of the lap's own bond.
pub(crate) fn every(covering: &Covering) -> u32 {
    match covering.bond(None) {
        Kind::Half => 2,
        Kind::Third => 3,
        Kind::Random => covering.lap.bond(),
    }
}

/// The places of units along one course: cell `k` begins at `origin + k × step`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Bond {
    /// u of the left side of cell 0.
    pub(crate) origin: f64,
    /// Of a unit.
    pub(crate) width: f64,
    /// Between neighbours.
    pub(crate) gap: f64,
    /// After how many courses joints stand over joints again.
    pub(crate) every: u32,
}

impl Bond {
    /// `None` where the sheet's unit has no size to lay by.
    pub(crate) fn of(covering: &Covering) -> Option<Self> {
        let [width, gap, length] = [covering.unit.width, covering.gap, covering.unit.length].map(units::Length::to_inches);
        let sound = width > NIL && length > NIL && gap >= 0.0 && (width + gap + length).is_finite();
        sound.then(|| Self { origin: 0.0, width, gap, every: every(covering) })
    }

    /// From one unit's left side to the next one's.
    pub(crate) fn step(&self) -> f64 {
        self.width + self.gap
    }

    /// The same bond with the first course's cell 0 beginning at `origin`, as it lies in a course.
    pub(crate) fn at(&self, origin: f64, course: u32) -> Self {
        let shift = f64::from(course % self.every) * self.step() / f64::from(self.every);
        Self { origin: origin + shift, ..*self }
    }

    /// Left side of a cell.
    pub(crate) fn left(&self, cell: i64) -> f64 {
        self.origin + cell as f64 * self.step()
    }

    /// The first cell that reaches past `u` to the right.
    pub(crate) fn first_past(&self, u: f64) -> i64 {
        ((u + NIL - self.width - self.origin) / self.step()).floor() as i64 + 1
    }

    /// The last cell that begins before `u`.
    pub(crate) fn last_before(&self, u: f64) -> i64 {
        ((u - NIL - self.origin) / self.step()).ceil() as i64 - 1
    }
}
