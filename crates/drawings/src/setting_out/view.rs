use super::pole;
use super::sheet::Sheet;
use super::starters;
use crate::lettering::{SMALL, small};
use crate::{Anchor, Fill, Item, LineType, Point, Scale};

/// A part of the paper, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Rect {
    pub(crate) left: f64,
    pub(crate) top: f64,
    pub(crate) width: f64,
    pub(crate) height: f64,
}

/// Room for the label of an edge beside it, mm.
pub(crate) const EDGE_LABEL: f64 = 6.5;
/// Room for the scale bar and its words, mm.
const SCALE_BAR: [f64; 2] = [85.0, 10.0];

/// The plane on the paper.
pub(crate) struct View {
    pub(crate) scale: Scale,
    /// In inches of the plane's frame: left, low, right, high.
    pub(crate) bounds: [f64; 4],
    /// Where the lower left corner of the bounds lies on the paper.
    pub(crate) corner: Point,
    /// Lowest part of the drawing, where the scale bar stands.
    bar_at: Point,
}

/// Paper that a plane takes at a scale, with poles, labels and scale bar, mm.
pub(crate) fn room(sheet: &Sheet, scale: Scale) -> [f64; 2] {
    let [width, height] = [scale.paper(sheet.width()), scale.paper(sheet.height())];
    let sides = 2.0 * side(sheet, scale);
    [(width + sides).max(SCALE_BAR[0]), EDGE_LABEL + pole::HEADING + height + below(sheet, scale) + SCALE_BAR[1]]
}

fn side(sheet: &Sheet, scale: Scale) -> f64 {
    EDGE_LABEL + 1.0 + pole::room(sheet, scale)
}

fn below(sheet: &Sheet, scale: Scale) -> f64 {
    starters::height(sheet, scale) + EDGE_LABEL
}

impl View {
    pub(crate) fn in_middle_of(rect: Rect, sheet: &Sheet, scale: Scale) -> Self {
        let [width, height] = room(sheet, scale);
        let left = rect.left + (rect.width - scale.paper(sheet.width())) / 2.0;
        let base = rect.top + (rect.height + height) / 2.0;
        let bar_left = left.min((rect.left + (rect.width + width) / 2.0) - SCALE_BAR[0]);
        let corner = [left, base - SCALE_BAR[1] - below(sheet, scale)];
        Self { scale, bounds: sheet.bounds(), corner, bar_at: [bar_left, base - 2.0] }
    }

    /// Where a place on the plane lies on the paper.
    pub(crate) fn point(&self, [u, v]: Point) -> Point {
        let [left, low, ..] = self.bounds;
        [self.corner[0] + self.scale.paper(u - left), self.corner[1] - self.scale.paper(v - low)]
    }

    pub(crate) fn points(&self, places: &[Point]) -> Vec<Point> {
        places.iter().map(|&place| self.point(place)).collect()
    }

    /// A bar of the largest round length that takes at most 45 mm of paper, in four parts of black and white.
    pub(crate) fn scale_bar(&self) -> Vec<Item> {
        let feet = [1000, 500, 400, 200, 100, 80, 40, 20, 10, 8, 4, 2];
        let long = feet.into_iter().find(|&feet| self.scale.paper(f64::from(feet) * 12.0) <= 45.0).unwrap_or(1);
        let part = self.scale.paper(f64::from(long) * 12.0) / 4.0;
        let [left, base] = self.bar_at;
        let mut items: Vec<Item> =
            (0..4).map(|index| bar_part([left + f64::from(index) * part, base - 1.5], part, index % 2 == 0)).collect();
        let words = format!("{long} ft at {}", self.scale);
        items.push(small([left + 4.0 * part + 2.0, base - 0.2], Anchor::Start, words));
        items
    }
}

fn bar_part([left, top]: Point, width: f64, black: bool) -> Item {
    let right = left + width;
    Item::Shape {
        rings: vec![vec![[left, top], [right, top], [right, top + SMALL / 2.0], [left, top + SMALL / 2.0]]],
        line: LineType::Piece,
        fill: if black { Fill::Ink } else { Fill::Paper },
    }
}
