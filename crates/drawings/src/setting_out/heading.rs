use super::arrangement::{Arrangement, MARGIN};
use super::sheet::Sheet;
use crate::lettering::{LARGE, fitted, small, strong};
use crate::{Anchor, Item};

/// Of the heading and the space under it, mm.
pub(crate) const HEIGHT: f64 = 9.0;

/// The plane's name at the left, what the sheet is at the right.
pub(crate) fn draw(sheet: &Sheet, arrangement: &Arrangement) -> Vec<Item> {
    let [width, _] = arrangement.page.size();
    let base = MARGIN + LARGE;
    let name = fitted(&format!("{} — {}", sheet.plan.name, sheet.plane.name), LARGE, width - 2.0 * MARGIN - 50.0);
    vec![strong([MARGIN, base], LARGE, Anchor::Start, name), small([width - MARGIN, base], Anchor::End, "Setting-out sheet")]
}
