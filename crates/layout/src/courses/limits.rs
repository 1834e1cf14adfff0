use covering::Covering;
use units::Pitch;

/// Exposures that a sheet allows at a pitch, inches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Limits {
    /// A preference.
    pub(crate) least: f64,
    /// A limit.
    pub(crate) greatest: f64,
}

impl Limits {
    /// Outside the sheet's pitches both are the shortest exposure that the sheet knows. `None` where they are no numbers
    /// to lay by.
    pub(crate) fn of(covering: &Covering, pitch: Pitch) -> Option<Self> {
        let shortest = covering.shortest_exposure();
        let [least, greatest] =
            covering.band(pitch).map_or([shortest; 2], |band| [band.least_exposure, band.greatest_exposure]);
        let limits = Self { least: least.to_inches().min(greatest.to_inches()), greatest: greatest.to_inches() };
        (limits.least > 0.0 && limits.greatest.is_finite()).then_some(limits)
    }
}
