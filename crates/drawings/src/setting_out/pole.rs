use super::sheet::Sheet;
use super::view::{EDGE_LABEL, View};
use crate::lettering::{SMALL, centred, small, width};
use crate::{Anchor, Fill, Item, LineType, Scale};

/// Room for the words over a pole and its topmost label, mm.
pub(crate) const HEADING: f64 = 5.5;
/// Of the pole itself, mm.
const POLE: f64 = 2.0;
/// Least distance between two labels, mm.
const LABELS_APART: f64 = 3.9;

/// Paper that a pole with its labels takes beside the plane, mm.
pub(crate) fn room(sheet: &Sheet, scale: Scale) -> f64 {
    let last = sheet.laid.courses.len().saturating_sub(1);
    let longest_mark = (sheet.height() / 12.0).floor() * 12.0 + 11.9375;
    let labels = width(&label(sheet, scale, last, longest_mark), SMALL);
    POLE + (1.0 + labels).max(width(&sheet.words.word("heads"), SMALL) / 2.0)
}

/// Course number and mark, or the number alone where marks would touch.
fn label(sheet: &Sheet, scale: Scale, index: usize, mark: f64) -> String {
    if step(sheet, scale) == 1 { format!("{}:  {}", index + 1, sheet.words.length(mark)) } else { (index + 1).to_string() }
}

/// Each how many-th course is labelled.
fn step(sheet: &Sheet, scale: Scale) -> usize {
    let spacing = scale.paper(sheet.least_exposure());
    let steps = (0..6).flat_map(|power| [1, 2, 5].map(|digit| digit * 10_usize.pow(power)));
    steps.into_iter().find(|&step| step as f64 * spacing >= LABELS_APART).unwrap_or(1_000_000)
}

/// Every so many-th course, and the first where its label keeps clear of the next.
fn is_labelled(sheet: &Sheet, scale: Scale, index: usize) -> bool {
    let step = step(sheet, scale);
    let first_is_clear = (step - 1) as f64 * scale.paper(sheet.least_exposure()) >= LABELS_APART;
    (index + 1).is_multiple_of(step) || (index == 0 && first_is_clear)
}

/// The same pole at both sides of the plane: butts shown at the left, heads at the right.
pub(crate) fn draw(sheet: &Sheet, view: &View) -> Vec<Item> {
    let mut items =
        Side::left(view).draw(sheet, view, &sheet.words.word("butts"), |course| Some(sheet.butt_mark("left", course)));
    items.extend(Side::right(view).draw(sheet, view, &sheet.words.word("heads"), |course| sheet.head_mark("right", course)));
    items
}

/// Where a pole stands and to which side its labels go.
struct Side {
    middle: f64,
    outward: f64,
    anchor: Anchor,
}

impl Side {
    fn left(view: &View) -> Self {
        Self { middle: view.corner[0] - EDGE_LABEL - 1.0 - POLE / 2.0, outward: -1.0, anchor: Anchor::End }
    }

    fn right(view: &View) -> Self {
        let right = view.point([view.bounds[2], view.bounds[1]])[0];
        Self { middle: right + EDGE_LABEL + 1.0 + POLE / 2.0, outward: 1.0, anchor: Anchor::Start }
    }

    fn draw(&self, sheet: &Sheet, view: &View, heading: &str, mark: impl Fn(usize) -> Option<f64>) -> Vec<Item> {
        let top = view.point([0.0, sheet.laid.top_in])[1];
        let zero = view.point([0.0, sheet.laid.first_butt_in])[1];
        let mut items = vec![self.rod(top, zero), centred([self.middle, top - HEADING + SMALL / 2.0], 0.0, heading)];
        items.extend(sheet.laid.stations.iter().map(|station| self.station(view.point([0.0, station.v_in])[1])));
        for index in 0..sheet.laid.courses.len() {
            let Some(mark) = mark(index) else { continue };
            let y = view.point([0.0, sheet.laid.first_butt_in + mark])[1];
            items.extend(self.tick(y, index.is_multiple_of(super::pieces::line_step(sheet, view))));
            if is_labelled(sheet, view.scale, index) {
                items.push(self.words(y, label(sheet, view.scale, index, mark)));
            }
        }
        items
    }

    fn rod(&self, top: f64, base: f64) -> Item {
        let [left, right] = [self.middle - POLE / 2.0, self.middle + POLE / 2.0];
        Item::Shape {
            rings: vec![vec![[left, top], [right, top], [right, base], [left, base]]],
            line: LineType::Course,
            fill: Fill::Paper,
        }
    }

    fn tick(&self, y: f64, shown: bool) -> Option<Item> {
        let [from, to] = [self.middle - POLE / 2.0, self.middle + POLE / 2.0];
        shown.then(|| Item::Line { points: vec![[from, y], [to, y]], line: LineType::Piece })
    }

    /// A fixed height: a tick that stands out towards the plane; the notes name it.
    fn station(&self, y: f64) -> Item {
        let points = vec![[self.middle, y], [self.middle - self.outward * POLE, y]];
        Item::Line { points, line: LineType::Course }
    }

    fn words(&self, y: f64, words: String) -> Item {
        small([self.middle + self.outward * (POLE / 2.0 + 1.0), y + SMALL / 2.0], self.anchor, words)
    }
}
