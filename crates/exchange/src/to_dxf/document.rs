//! What stands round the drawn things: header, tables, blocks and objects. Handles below 100 (hexadecimal) are given here.

use std::fmt::{Display, Write as _};

use super::layer::{Layer, LineKind};
use super::model::{Model, OWNER, real};

/// Handles that are named more than once.
const PAPER: &str = "1B";
const LAYOUTS: &str = "D";
const MODEL_LAYOUT: &str = "1A";
const PAPER_LAYOUT: &str = "1E";

/// Group codes and their values, a line each.
struct Pairs(String);

impl Pairs {
    fn pair(&mut self, code: u32, value: impl Display) {
        // Writing into a String cannot fail.
        let _ = write!(self.0, "{code}\n{value}\n");
    }

    fn all(&mut self, pairs: &[(u32, &str)]) {
        pairs.iter().for_each(|(code, value)| self.pair(*code, value));
    }

    fn section(&mut self, name: &str) {
        self.all(&[(0, "SECTION"), (2, name)]);
    }

    fn end(&mut self) {
        self.pair(0, "ENDSEC");
    }

    /// The head of a table that is to hold so many records.
    fn table(&mut self, name: &str, handle: &str, count: usize) {
        self.all(&[(0, "TABLE"), (2, name), (5, handle), (330, "0"), (100, "AcDbSymbolTable")]);
        self.pair(70, count);
    }

    fn record(&mut self, kind: &str, handle: &str, table: &str, class: &str, name: &str) {
        // Dimension styles have another group for their handle.
        let code = if kind == "DIMSTYLE" { 105 } else { 5 };
        self.all(&[(0, kind), (code, handle), (330, table), (100, "AcDbSymbolTableRecord"), (100, class), (2, name)]);
    }

    fn end_table(&mut self) {
        self.pair(0, "ENDTAB");
    }
}

pub(super) fn document(model: &Model) -> String {
    let mut pairs = Pairs(String::with_capacity(model.entities.len() + 16_384));
    header(&mut pairs, model);
    pairs.section("CLASSES");
    pairs.end();
    tables(&mut pairs, model);
    blocks(&mut pairs);
    pairs.section("ENTITIES");
    pairs.0.push_str(&model.entities);
    pairs.end();
    objects(&mut pairs);
    pairs.pair(0, "EOF");
    pairs.0
}

/// Release 2000, inches, drawn at true scale.
fn header(pairs: &mut Pairs, model: &Model) {
    pairs.section("HEADER");
    pairs.all(&[(9, "$ACADVER"), (1, "AC1015"), (9, "$DWGCODEPAGE"), (3, "ANSI_1252")]);
    for (name, at) in ["$EXTMIN", "$EXTMAX"].into_iter().zip(model.extent()) {
        pairs.pair(9, name);
        pairs.all(&[(10, &real(at[0])), (20, &real(at[1])), (30, "0.0")]);
    }
    pairs.all(&[(9, "$LTSCALE"), (40, "1.0"), (9, "$HANDSEED")]);
    pairs.pair(5, format!("{:X}", model.next_handle()));
    pairs.all(&[
        (9, "$INSUNITS"),
        (70, "1"),
        (9, "$LUNITS"),
        (70, "4"),
        (9, "$LUPREC"),
        (70, "4"),
        (9, "$MEASUREMENT"),
        (70, "0"),
    ]);
    pairs.end();
}

fn tables(pairs: &mut Pairs, model: &Model) {
    pairs.section("TABLES");
    viewport(pairs, model);
    line_kinds(pairs);
    layers(pairs, model);
    pairs.table("STYLE", "5", 1);
    pairs.record("STYLE", "29", "5", "AcDbTextStyleTableRecord", "Standard");
    pairs.all(&[(70, "0"), (40, "0.0"), (41, "1.0"), (50, "0.0"), (71, "0"), (42, "2.0"), (3, "txt"), (4, "")]);
    pairs.end_table();
    for (name, handle) in [("VIEW", "7"), ("UCS", "6")] {
        pairs.table(name, handle, 0);
        pairs.end_table();
    }
    pairs.table("APPID", "3", 1);
    pairs.record("APPID", "2A", "3", "AcDbRegAppTableRecord", "ACAD");
    pairs.pair(70, 0);
    pairs.end_table();
    pairs.table("DIMSTYLE", "4", 1);
    pairs.pair(100, "AcDbDimStyleTable");
    pairs.record("DIMSTYLE", "2B", "4", "AcDbDimStyleTableRecord", "Standard");
    pairs.pair(70, 0);
    pairs.end_table();
    pairs.table("BLOCK_RECORD", "9", 2);
    for (handle, name, layout) in [(OWNER, "*Model_Space", MODEL_LAYOUT), (PAPER, "*Paper_Space", PAPER_LAYOUT)] {
        pairs.record("BLOCK_RECORD", handle, "9", "AcDbBlockTableRecord", name);
        pairs.pair(340, layout);
    }
    pairs.end_table();
    pairs.end();
}

/// It shows all that is drawn.
fn viewport(pairs: &mut Pairs, model: &Model) {
    let [low, high] = model.extent();
    let [width, height] = [high[0] - low[0], high[1] - low[1]];
    pairs.table("VPORT", "8", 1);
    pairs.record("VPORT", "23", "8", "AcDbViewportTableRecord", "*Active");
    pairs.pair(70, 0);
    pairs.all(&[(10, "0.0"), (20, "0.0"), (11, "1.0"), (21, "1.0")]);
    pairs.pair(12, real((low[0] + high[0]) / 2.0));
    pairs.pair(22, real((low[1] + high[1]) / 2.0));
    pairs.all(&[(13, "0.0"), (23, "0.0"), (14, "12.0"), (24, "12.0"), (15, "12.0"), (25, "12.0")]);
    pairs.all(&[(16, "0.0"), (26, "0.0"), (36, "1.0"), (17, "0.0"), (27, "0.0"), (37, "0.0")]);
    pairs.pair(40, real(height.max(width / 1.5).max(1.0) * 1.05));
    pairs.all(&[(41, "1.5"), (42, "50.0"), (43, "0.0"), (44, "0.0"), (50, "0.0"), (51, "0.0")]);
    pairs.all(&[(71, "0"), (72, "1000"), (73, "1"), (74, "3"), (75, "0"), (76, "0"), (77, "0"), (78, "0")]);
    pairs.end_table();
}

fn line_kinds(pairs: &mut Pairs) {
    pairs.table("LTYPE", "2", LineKind::ALL.len() + 2);
    let own = LineKind::ALL.map(|kind| (kind.name(), kind.dashes()));
    for (at, (name, dashes)) in [("ByBlock", [].as_slice()), ("ByLayer", &[])].into_iter().chain(own).enumerate() {
        pairs.record("LTYPE", &format!("{:X}", 0x40 + at), "2", "AcDbLinetypeTableRecord", name);
        pairs.all(&[(70, "0"), (3, ""), (72, "65")]);
        pairs.pair(73, dashes.len());
        pairs.pair(40, real(dashes.iter().map(|dash| dash.abs()).sum()));
        for dash in dashes {
            pairs.pair(49, real(*dash));
            pairs.pair(74, 0);
        }
    }
    pairs.end_table();
}

fn layers(pairs: &mut Pairs, model: &Model) {
    let zero = Layer { name: "0", colour: 7, line: LineKind::Continuous };
    pairs.table("LAYER", "1", model.layers.len() + 1);
    for (at, layer) in std::iter::once(&zero).chain(&model.layers).enumerate() {
        pairs.record("LAYER", &format!("{:X}", 0x50 + at), "1", "AcDbLayerTableRecord", layer.name);
        pairs.pair(70, 0);
        pairs.pair(62, layer.colour);
        pairs.pair(6, layer.line.name());
        pairs.pair(370, -3);
    }
    pairs.end_table();
}

fn blocks(pairs: &mut Pairs) {
    pairs.section("BLOCKS");
    for (record, begins, ends, name) in [(OWNER, "18", "19", "*Model_Space"), (PAPER, "1C", "1D", "*Paper_Space")] {
        pairs.all(&[(0, "BLOCK"), (5, begins), (330, record), (100, "AcDbEntity"), (8, "0"), (100, "AcDbBlockBegin")]);
        pairs.all(&[(2, name), (70, "0"), (10, "0.0"), (20, "0.0"), (30, "0.0"), (3, name), (1, "")]);
        pairs.all(&[(0, "ENDBLK"), (5, ends), (330, record), (100, "AcDbEntity"), (8, "0"), (100, "AcDbBlockEnd")]);
    }
    pairs.end();
}

fn objects(pairs: &mut Pairs) {
    pairs.section("OBJECTS");
    dictionary(pairs, "A", "0", &[("ACAD_GROUP", "C"), ("ACAD_LAYOUT", LAYOUTS)]);
    dictionary(pairs, "C", "A", &[]);
    dictionary(pairs, LAYOUTS, "A", &[("Model", MODEL_LAYOUT), ("Layout1", PAPER_LAYOUT)]);
    layout(pairs, MODEL_LAYOUT, "Model", OWNER, ["1024", "0"]);
    layout(pairs, PAPER_LAYOUT, "Layout1", PAPER, ["0", "1"]);
    pairs.end();
}

fn dictionary(pairs: &mut Pairs, handle: &str, owner: &str, entries: &[(&str, &str)]) {
    pairs.all(&[(0, "DICTIONARY"), (5, handle), (330, owner), (100, "AcDbDictionary"), (281, "1")]);
    entries.iter().for_each(|(name, of)| pairs.all(&[(3, name), (350, of)]));
}

/// Letter paper, which nothing is laid out on.
fn layout(pairs: &mut Pairs, handle: &str, name: &str, block: &str, [flags, order]: [&str; 2]) {
    pairs.all(&[
        (0, "LAYOUT"),
        (5, handle),
        (330, LAYOUTS),
        (100, "AcDbPlotSettings"),
        (1, ""),
        (2, "none_device"),
        (4, ""),
        (6, ""),
    ]);
    pairs.all(&[(40, "0.0"), (41, "0.0"), (42, "0.0"), (43, "0.0"), (44, "279.4"), (45, "215.9"), (46, "0.0"), (47, "0.0")]);
    pairs.all(&[
        (48, "0.0"),
        (49, "0.0"),
        (140, "0.0"),
        (141, "0.0"),
        (142, "1.0"),
        (143, "1.0"),
        (70, flags),
        (72, "0"),
        (73, "0"),
    ]);
    pairs.all(&[
        (74, "5"),
        (7, ""),
        (75, "16"),
        (147, "1.0"),
        (148, "0.0"),
        (149, "0.0"),
        (100, "AcDbLayout"),
        (1, name),
        (70, "1"),
    ]);
    pairs.all(&[(71, order), (10, "0.0"), (20, "0.0"), (11, "11.0"), (21, "8.5"), (12, "0.0"), (22, "0.0"), (32, "0.0")]);
    pairs.all(&[(14, "0.0"), (24, "0.0"), (34, "0.0"), (15, "0.0"), (25, "0.0"), (35, "0.0"), (146, "0.0")]);
    pairs.all(&[
        (13, "0.0"),
        (23, "0.0"),
        (33, "0.0"),
        (16, "1.0"),
        (26, "0.0"),
        (36, "0.0"),
        (17, "0.0"),
        (27, "1.0"),
        (37, "0.0"),
    ]);
    pairs.all(&[(76, "0"), (330, block)]);
}
