//! The cut list as rows: one for every cut of every plane, in the order of the saw.

use plan::{CutKind, CutPlace, Cutting, Plan};
use units::Length;

/// Equal cut pieces of one plane.
pub(crate) struct CutRow<'a> {
    /// What they are cut from.
    pub(crate) cutting: &'a Cutting,
    /// Counted from 1 through the cutting, as the papers number it.
    pub(crate) number: usize,
    pub(crate) kind: &'a CutKind,
    pub(crate) place: &'a CutPlace,
    /// Name of the plane.
    pub(crate) plane: &'a str,
}

pub(crate) fn cut_rows(plan: &Plan) -> Vec<CutRow<'_>> {
    let kinds = plan
        .layout
        .cutting
        .iter()
        .flat_map(|cutting| cutting.kinds.iter().enumerate().map(move |(index, kind)| (cutting, index + 1, kind)));
    let row =
        |(cutting, number, kind): (_, usize, _), place| CutRow { cutting, number, kind, place, plane: name(plan, place) };
    kinds.flat_map(|of: (&Cutting, usize, &CutKind)| of.2.places.iter().map(move |place| row(of, place))).collect()
}

fn name<'a>(plan: &'a Plan, place: &'a CutPlace) -> &'a str {
    let plane = plan.roof.planes.iter().find(|plane| plane.id == place.plane);
    plane.map_or(&place.plane, |plane| &plane.name)
}

/// The sheet and the size of the unit, `composite-slate, 12" × 18"`.
pub(crate) fn cut_from(cutting: &Cutting) -> String {
    let [width, length] = [cutting.width_in, cutting.length_in].map(|inches| Length::inches(inches).in_inches());
    format!("{}, {width} × {length}", cutting.sheet)
}
