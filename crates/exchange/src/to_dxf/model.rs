use std::collections::BTreeSet;
use std::fmt::Write as _;

use roof::Point3;

use super::layer::Layer;

/// Where entities of the model belong; the handle stands in [`super::document`].
pub(super) const OWNER: &str = "17";
/// Handles below this are the document's own.
const FIRST_HANDLE: u32 = 0x100;

/// Width of a character over its height, about: what makes room for words.
const CHARACTER: f64 = 0.75;

/// The height of lettering that fits a width, inches; at most so much.
pub(super) fn fitting(words: &str, width: f64, most: f64) -> f64 {
    (width / (CHARACTER * words.chars().count().max(1) as f64)).clamp(1.0, most)
}

/// Room that words take, inches.
pub(super) fn width(words: &str, height: f64) -> f64 {
    CHARACTER * height * words.chars().count() as f64
}

/// Which point of its words stands at a text's place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Anchor {
    Left,
    Middle,
    Right,
}

/// What is drawn.
pub(super) struct Model {
    pub(super) entities: String,
    pub(super) layers: BTreeSet<Layer>,
    next_handle: u32,
    low: [f64; 2],
    high: [f64; 2],
}

impl Model {
    pub(super) fn new() -> Self {
        let (low, high) = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
        Self { entities: String::new(), layers: BTreeSet::new(), next_handle: FIRST_HANDLE, low, high }
    }

    /// Lower left and upper right corner of everything.
    pub(super) fn extent(&self) -> [[f64; 2]; 2] {
        if self.low[0] <= self.high[0] { [self.low, self.high] } else { [[0.0; 2]; 2] }
    }

    /// The first handle that is free.
    pub(super) const fn next_handle(&self) -> u32 {
        self.next_handle
    }

    /// A closed line in plan.
    pub(super) fn ring(&mut self, layer: Layer, ring: &[[f64; 2]]) {
        self.begin("LWPOLYLINE", layer, "AcDbPolyline");
        self.pair(90, ring.len());
        self.pair(70, 1);
        for &[x, y] in ring {
            self.place([x, y]);
            self.number(10, x);
            self.number(20, y);
        }
    }

    /// A closed line in space.
    pub(super) fn ring_in_space(&mut self, layer: Layer, ring: &[Point3]) {
        let polyline = self.begin("POLYLINE", layer, "AcDb3dPolyline");
        self.pair(66, 1);
        self.corner(10, [0.0; 3]);
        self.pair(70, 9);
        for &corner in ring {
            self.begin("VERTEX", layer, "AcDbVertex");
            self.pair(100, "AcDb3dPolylineVertex");
            self.place([corner[0], corner[1]]);
            self.corner(10, corner);
            self.pair(70, 32);
        }
        self.pair(0, "SEQEND");
        self.handle();
        self.pair(330, polyline);
        self.pair(100, "AcDbEntity");
        self.pair(8, layer.name);
    }

    pub(super) fn line(&mut self, layer: Layer, ends: [Point3; 2]) {
        self.begin("LINE", layer, "AcDbLine");
        for (code, end) in [10, 11].into_iter().zip(ends) {
            self.place([end[0], end[1]]);
            self.corner(code, end);
        }
    }

    /// A line in plan.
    pub(super) fn flat_line(&mut self, layer: Layer, ends: [[f64; 2]; 2]) {
        self.line(layer, ends.map(|[x, y]| [x, y, 0.0]));
    }

    /// A line of words of a height in inches of the roof.
    pub(super) fn text(&mut self, layer: Layer, [x, y]: [f64; 2], height: f64, anchor: Anchor, words: &str) {
        self.begin("TEXT", layer, "AcDbText");
        self.place([x, y]);
        self.corner(10, [x, y, 0.0]);
        self.number(40, height);
        self.pair(1, lettering(words));
        let level = match anchor {
            Anchor::Left => 0,
            Anchor::Middle => 1,
            Anchor::Right => 2,
        };
        self.pair(72, level);
        self.corner(11, [x, y, 0.0]);
        self.pair(100, "AcDbText");
        // In the middle of the height of its capitals.
        self.pair(73, 2);
    }

    /// The head of an entity; its handle.
    fn begin(&mut self, kind: &str, layer: Layer, class: &str) -> String {
        self.layers.insert(layer);
        self.pair(0, kind);
        let handle = self.handle();
        self.pair(330, OWNER);
        self.pair(100, "AcDbEntity");
        self.pair(8, layer.name);
        self.pair(100, class);
        handle
    }

    fn handle(&mut self) -> String {
        let handle = format!("{:X}", self.next_handle);
        self.next_handle += 1;
        self.pair(5, &handle);
        handle
    }

    fn place(&mut self, at: [f64; 2]) {
        self.low = std::array::from_fn(|axis| self.low[axis].min(at[axis]));
        self.high = std::array::from_fn(|axis| self.high[axis].max(at[axis]));
    }

    fn corner(&mut self, first: u32, [x, y, z]: Point3) {
        self.number(first, x);
        self.number(first + 10, y);
        self.number(first + 20, z);
    }

    fn number(&mut self, code: u32, value: f64) {
        self.pair(code, real(value));
    }

    fn pair(&mut self, code: u32, value: impl std::fmt::Display) {
        // Writing into a String cannot fail.
        let _ = write!(self.entities, "{code}\n{value}\n");
    }
}

/// To a millionth of an inch, always with a point.
pub(super) fn real(value: f64) -> String {
    let rounded = (value * 1e6).round() / 1e6 + 0.0;
    if rounded.fract() == 0.0 { format!("{rounded:.1}") } else { format!("{rounded}") }
}

/// One line of the code page that the header names: the letters of Latin 1 as they are, others by their number, `\U+2033`. A caret or
/// two percent signs would begin a code of the format.
fn lettering(words: &str) -> String {
    let mut written = String::new();
    for c in words.chars() {
        match c {
            c if c.is_control() => written.push(' '),
            '^' => written.push_str("^ "),
            '%' if written.ends_with('%') => written.push_str(" %"),
            c if c.is_ascii() || ('\u{a0}'..='\u{ff}').contains(&c) => written.push(c),
            c => c.encode_utf16(&mut [0; 2]).iter().for_each(|part| written.push_str(&format!("\\U+{part:04X}"))),
        }
    }
    written
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_one_line_of_the_code_page() {
        assert_eq!(lettering("7-1/2″ × 18\n0\nEOF"), "7-1/2\\U+2033 × 18 0 EOF");
        assert_eq!(lettering("50%%d ^J"), "50% %d ^ J");
        assert!(!lettering("%%%%").contains("%%"));
    }

    #[test]
    fn numbers_have_a_point_and_no_exponent() {
        for (value, written) in
            [(5.0, "5.0"), (0.062_5, "0.0625"), (-1e-9, "0.0"), (1e-6, "0.000001"), (1e15, "1000000000000000.0")]
        {
            assert_eq!(real(value), written);
        }
    }
}
