//! Edge metal: under the underlayment at eaves, over it at rakes.

use roof::EdgeKind;

use crate::Given;
use crate::strip::{Patch, Strip};

/// A strip along every eave and every rake of a covered plane. Its patch has no width.
pub(crate) fn lay(given: &Given<'_>) -> Vec<Strip> {
    let kinds = [EdgeKind::Eave, EdgeKind::Rake];
    let lines = kinds.into_iter().flat_map(|kind| given.lines(kind));
    let strips = lines.filter_map(|(index, line)| {
        let &plane = line.planes.first()?;
        let frame = &given.roof.planes.get(plane)?.frame;
        let [from, to] = line.ends.map(|[x, y, _]| frame.place(x, y));
        let patches = vec![Patch { plane, corners: [from, to, to, from] }];
        Some(Strip::along(index, patches, line.length().to_inches()))
    });
    strips.collect()
}
