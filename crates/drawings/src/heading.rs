use crate::lettering::{LARGE, fitted_strong, small, strong};
use crate::page::MARGIN;
use crate::{Anchor, Item, Page};

/// Of the heading and the space under it, mm.
pub(crate) const HEIGHT: f64 = 9.0;

/// What is drawn at the left, which kind of sheet it is at the right.
pub(crate) fn draw(page: Page, of: &str, kind: &str) -> Vec<Item> {
    let [width, _] = page.size();
    let base = MARGIN + LARGE;
    let of = fitted_strong(of, LARGE, width - 2.0 * MARGIN - 50.0);
    vec![strong([MARGIN, base], LARGE, Anchor::Start, of), small([width - MARGIN, base], Anchor::End, kind)]
}
