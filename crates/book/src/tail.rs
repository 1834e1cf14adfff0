//! A sheet that runs over by a few lines leaves a page with next to nothing on it: it is found here, so that it can be set closer.

use std::num::NonZeroUsize;

use typst::foundations::{NativeElement, Selector, StyleChain};
use typst::introspection::Introspector;
use typst::layout::{Abs, Frame, FrameItem};
use typst::model::HeadingElem;
use typst_layout::PagedDocument;

/// A last page filled to less than this share of its height holds next to nothing.
const LITTLE: f64 = 0.2;

/// Height of head and foot of every page, mm; the template's.
const HEAD: f64 = 17.0;
const FOOT: f64 = 27.0;

/// Sheets of several pages, by their place in the book, whose last page holds next to nothing.
pub(crate) fn nearly_empty(document: &PagedDocument) -> Vec<usize> {
    let begins = first_pages(document);
    let ends = begins.iter().skip(1).map(|next| next - 1).chain([document.pages().len()]);
    let several = begins.iter().zip(ends).enumerate().filter(|(_, (begins, last))| *begins < last);
    several.filter(|(_, (_, last))| is_nearly_empty(document, *last)).map(|(sheet, _)| sheet).collect()
}

/// Numbers of the pages on which a sheet begins, counted from 1.
pub(crate) fn first_pages(document: &PagedDocument) -> Vec<usize> {
    let introspector = document.introspector();
    let headings = introspector.query(&Selector::Elem(HeadingElem::ELEM, None));
    let is_title = |heading: &HeadingElem| heading.resolve_level(StyleChain::default()).get() == 1;
    let titles = headings.iter().filter(|heading| heading.to_packed::<HeadingElem>().is_some_and(|it| is_title(it)));
    titles.filter_map(|title| introspector.page(title.location()?)).map(NonZeroUsize::get).collect()
}

fn is_nearly_empty(document: &PagedDocument, number: usize) -> bool {
    let Some(page) = document.pages().get(number - 1) else { return false };
    let [top, base] = [Abs::mm(HEAD), page.frame.height() - Abs::mm(FOOT)];
    let lowest = lowest(&page.frame, Abs::zero(), [top, base]);
    lowest - top < (base - top) * LITTLE
}

/// Down to where anything stands between head and foot.
fn lowest(frame: &Frame, offset: Abs, within: [Abs; 2]) -> Abs {
    let mut lowest = within[0];
    for (at, item) in frame.items() {
        let y = offset + at.y;
        let down_to = match item {
            FrameItem::Group(group) => self::lowest(&group.frame, y, within),
            FrameItem::Text(_) => y,
            FrameItem::Image(_, size, _) => y + size.y,
            _ => continue,
        };
        if down_to <= within[1] {
            lowest = lowest.max(down_to);
        }
    }
    lowest
}
