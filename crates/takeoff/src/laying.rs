use std::collections::BTreeMap;

use covering::Covering;
use layout::{LaidPlane, Layout};
use roof::{Plane, Roof};

/// The planes that are laid in one sheet.
pub(crate) struct Laying<'a> {
    pub(crate) covering: &'a Covering,
    pub(crate) planes: Vec<(&'a Plane, &'a LaidPlane)>,
    /// Their indices in the roof.
    pub(crate) indices: Vec<usize>,
}

impl Laying<'_> {
    /// Whether a plane of the roof is laid in this sheet.
    pub(crate) fn has(&self, plane: usize) -> bool {
        self.indices.contains(&plane)
    }
}

/// The laid planes, apart by sheet, in the order of the sheets' ids.
pub(crate) fn by_sheet<'a>(
    roof: &'a Roof,
    layout: &'a Layout,
    covering_of: impl Fn(&Plane) -> Option<&'a Covering>,
) -> Vec<Laying<'a>> {
    let mut layings: BTreeMap<&str, Laying<'a>> = BTreeMap::new();
    for laid in &layout.planes {
        let Some(plane) = roof.planes.get(laid.plane) else { continue };
        let Some(covering) = covering_of(plane) else { continue };
        let new = || Laying { covering, planes: Vec::new(), indices: Vec::new() };
        let laying = layings.entry(&covering.id).or_insert_with(new);
        laying.planes.push((plane, laid));
        laying.indices.push(laid.plane);
    }
    layings.into_values().collect()
}
