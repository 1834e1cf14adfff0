//! Edge metal: under the underlayment at eaves, over it at rakes, unless the job tells otherwise.

use roof::EdgeKind;

use crate::Given;
use crate::strip::{Patch, Strip};

/// A strip along every eave and every rake of a covered plane. Its patch has no width.
pub(crate) fn lay(given: &Given<'_>) -> Vec<Strip> {
    let choices = given.dry_in;
    let kinds = [(EdgeKind::Eave, choices.drip_edge_over_at_eaves), (EdgeKind::Rake, choices.drip_edge_over_at_rakes)];
    let lines = kinds.into_iter().flat_map(|(kind, over)| given.lines(kind).map(move |line| (line, over)));
    let strips = lines.filter_map(|((index, line), over_underlayment)| {
        let &plane = line.planes.first()?;
        let frame = &given.roof.planes.get(plane)?.frame;
        let [from, to] = line.ends.map(|[x, y, _]| frame.place(x, y));
        let patches = vec![Patch { plane, corners: [from, to, to, from] }];
        Some(Strip { over_underlayment, ..Strip::along(index, patches, line.length().to_inches()) })
    });
    strips.collect()
}
