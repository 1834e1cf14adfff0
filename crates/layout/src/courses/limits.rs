use covering::{Band, Covering};
use units::Pitch;

/// Exposures that a sheet allows at a pitch, inches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Limits {
    /// A preference.
    pub(crate) least: f64,
    /// A limit: the sheet's greatest, or less where its headlap asks for less.
    pub(crate) greatest: f64,
}

impl Limits {
    /// Outside the sheet's pitches both are the shortest exposure that the sheet knows. `None` where they are no numbers
    /// to lay by.
    pub(crate) fn of(covering: &Covering, pitch: Pitch) -> Option<Self> {
        let shortest = covering.shortest_exposure().to_inches();
        let [least, greatest] = covering.band(pitch).map_or([shortest; 2], |band| {
            // A unit that hangs shows its step more, and covers so much less.
            let greatest = (band.greatest_exposure - covering.bonds.step.unwrap_or_default()).to_inches();
            [band.least_exposure.to_inches(), greatest.min(by_headlap(covering, band))]
        });
        let limits = Self { least: least.min(greatest), greatest };
        (limits.least > 0.0 && limits.greatest.is_finite()).then_some(limits)
    }
}

/// The exposure at which the headlap is the band's least. If no course shows more, every two (three) courses together
/// leave that headlap, however their exposures differ. A headlap that no exposure leaves is left to the checks.
fn by_headlap(covering: &Covering, band: &Band) -> f64 {
    let step = covering.bonds.step.unwrap_or_default();
    let greatest = (covering.unit.length - band.headlap - step).to_inches() / f64::from(covering.lap.courses());
    if greatest > 0.0 { greatest } else { f64::INFINITY }
}
