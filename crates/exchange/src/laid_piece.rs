//! Every piece at its place on its plane.

use plan::{Course, Cut, LaidPlane, Run, Unit};

/// One piece.
pub(crate) struct LaidPiece<'a> {
    pub(crate) unit: &'a Unit,
    pub(crate) run: &'a Run,
    /// What is left of the unit; nothing for a whole one.
    pub(crate) cut: Option<&'a Cut>,
    /// Lower left corner of the unit before cutting.
    pub(crate) at: [f64; 2],
}

/// The pieces of a course, left to right.
pub(crate) fn pieces_of<'a>(laid: &'a LaidPlane, course: &'a Course) -> impl Iterator<Item = LaidPiece<'a>> {
    course.runs.iter().filter_map(|run| Some((run, laid.units.get(run.unit as usize)?))).flat_map(move |(run, unit)| {
        let cut = run.cut.and_then(|cut| laid.cuts.get(cut as usize));
        let left = move |index: u32| run.left_in + f64::from(index) * run.step_in;
        (0..run.count).map(move |index| LaidPiece { unit, run, cut, at: [left(index), course.butt_in] })
    })
}

impl LaidPiece<'_> {
    /// Outlines from the unit's lower left corner; a clockwise one is a hole.
    pub(crate) fn shape(&self) -> Vec<Vec<[f64; 2]>> {
        self.cut.map_or_else(
            || vec![rectangle([0.0, 0.0], [self.run.width_in, self.unit.length_in])],
            |cut| cut.parts_in.clone(),
        )
    }
}

/// Counter-clockwise, from the lower left corner to the upper right one.
pub(crate) fn rectangle([left, low]: [f64; 2], [right, high]: [f64; 2]) -> Vec<[f64; 2]> {
    vec![[left, low], [right, low], [right, high], [left, high]]
}

pub(crate) fn moved(ring: &[[f64; 2]], [right, up]: [f64; 2]) -> Vec<[f64; 2]> {
    ring.iter().map(|&[u, v]| [u + right, v + up]).collect()
}
