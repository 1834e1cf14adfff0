use layout::Cutting;
use roof::Roof;

use crate::laying::Laying;
use crate::stock::made_of_offcuts;
use crate::{CountedPlace, OrderLine};

/// Field units: one for every piece that is one or is cut from one, less those that are made of offcuts.
pub(crate) fn line(roof: &Roof, laying: &Laying<'_>, cuttings: &[Cutting]) -> OrderLine {
    let covering = laying.covering;
    let on_plane =
        laying.planes.iter().map(|(_, laid)| CountedPlace::on_plane(roof, laid.plane, laid.counts_of(0).pieces() as f64));
    let places: Vec<CountedPlace> = on_plane.chain(made_of_offcuts(laying, cuttings, true)).collect();
    OrderLine::in_bundles("field-units", covering.name.clone(), places, covering.pack, covering.unit.weight)
        .sized(covering.unit.width, covering.unit.length)
}
