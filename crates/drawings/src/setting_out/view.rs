use super::pole;
use super::sheet::Sheet;
use super::starters;
use crate::rect::Rect;
use crate::{Item, Point, Scale, scale_bar};

/// Room for the label of an edge beside it, mm.
pub(crate) const EDGE_LABEL: f64 = 6.5;

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
    [(width + sides).max(scale_bar::ROOM[0]), EDGE_LABEL + pole::HEADING + height + below(sheet, scale) + scale_bar::ROOM[1]]
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
        let bar_left = left.min((rect.left + (rect.width + width) / 2.0) - scale_bar::ROOM[0]);
        let corner = [left, base - scale_bar::ROOM[1] - below(sheet, scale)];
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

    pub(crate) fn scale_bar(&self, sheet: &Sheet) -> Vec<Item> {
        scale_bar::draw(self.scale, self.bar_at, sheet.words)
    }
}
