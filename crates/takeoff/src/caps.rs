use std::collections::BTreeSet;

use covering::Cap;
use roof::{EdgeKind, Line, Roof};
use units::Length;

use crate::laying::Laying;
use crate::{CountedPlace, OrderLine};

/// Caps along a hip or a ridge. The first covers its own length, each further one its exposure:
/// 1 if `length` ≤ cap, else 1 + ⌈(`length` − cap) / exposure⌉. Exposures shrink evenly to land at the end.
/// A remainder within a billionth of the line is rounding and adds none.
#[must_use]
pub fn caps_along(length: Length, cap: &Cap) -> u64 {
    let bare = length.to_inches() * (1.0 - 1e-9) - cap.length.to_inches();
    match length.to_inches() {
        nothing if nothing <= 0.0 => 0,
        _ => 1 + (bare.max(0.0) / cap.exposure.to_inches()).ceil() as u64,
    }
}

/// Caps along every ridge and every hip that is neither mitred nor covered in metal, whose first laid plane is of this sheet.
/// `laid` are the planes laid in any sheet.
pub(crate) fn line(roof: &Roof, laying: &Laying<'_>, laid: &BTreeSet<usize>) -> OrderLine {
    let cap = laying.covering.cap;
    let is_capped = |line: &Line| match line.kind {
        EdgeKind::Hip => laying.covering.has_hip_caps(),
        kind => kind == EdgeKind::Ridge && laying.covering.has_ridge_caps(),
    };
    let is_of_sheet =
        |line: &Line| line.planes.iter().find(|plane| laid.contains(plane)).is_some_and(|first| laying.has(*first));
    let capped = roof.lines.iter().enumerate().filter(|(_, line)| is_capped(line) && is_of_sheet(line));
    let places =
        capped.map(|(index, line)| CountedPlace::along(roof, index, line, caps_along(line.length(), &cap) as f64)).collect();
    let item = format!("{}, hip and ridge cap", laying.covering.name);
    OrderLine::in_bundles("caps", item, places, cap.pack, cap.weight)
}
