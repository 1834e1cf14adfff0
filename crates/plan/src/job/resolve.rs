//! From the file as typed to the job as meant; what cannot be meant is a mistake at its place.

use std::collections::BTreeSet;

use reader::{Mistake, Places, quoted};
use roof::{Block, Hole, OutlineAt, Side, SideKind};
use units::{Length, LengthUnit, Measure};

use super::file::{BlockTable, DeckTable, EdgeTable, FastenerTable, JobFile, OutlineAtWord, SiteTable};
use super::opening::openings;
use super::{CoveringChoice, Deck, FORMAT, Fastener, Job, block_path};

/// No roof lies farther from its datum.
pub(super) const FARTHEST: Length = Length::feet(10_000.0);
/// No outline of a roof has more corners.
const MOST_CORNERS: usize = 2000;
/// No overhang is wider.
const WIDEST_OVERHANG: Length = Length::feet(20.0);

pub(super) struct Desk<'a> {
    units: LengthUnit,
    places: &'a Places,
    mistakes: Vec<Mistake>,
}

pub(super) fn job(file: &JobFile, places: &Places) -> (Job, Vec<Mistake>) {
    let mut desk = Desk { units: file.units, places, mistakes: Vec::new() };
    let says = || format!("format {} is not known; this program reads format {FORMAT}", file.format);
    desk.expect(file.format == FORMAT, "format", says, "Write format = 1.");
    desk.expect(!file.name.trim().is_empty(), "name", || "the job has no name".into(), "Write the name of the house.");
    desk.expect(!file.block.is_empty(), "block", || "the job has no roof".into(), "Give one [[block]] at least.");
    names_differ(&mut desk, &file.block);
    let job = Job {
        name: file.name.trim().into(),
        covering: covering(&mut desk, &file.covering.sheet),
        blocks: file.block.iter().enumerate().map(|(index, table)| block(&mut desk, table, &block_path(index))).collect(),
        openings: openings(&mut desk, &file.opening),
        deck: file.deck.as_ref().map(|table| deck(&mut desk, table)),
        fastener: file.fastener.as_ref().map(|table| fastener(&mut desk, table)),
        north_deg: file.site.as_ref().map_or(0.0, |table| north(&mut desk, table)),
        places: places.clone(),
    };
    (job, desk.mistakes)
}

impl Desk<'_> {
    pub(super) fn mistake(&mut self, path: &str, says: impl Into<String>, remedy: &str) {
        self.mistakes.push(self.places.mistake(path, says, remedy));
    }

    pub(super) fn expect(&mut self, sound: bool, path: &str, says: impl FnOnce() -> String, remedy: &str) {
        if !sound {
            self.mistake(path, says(), remedy);
        }
    }

    pub(super) fn length(&mut self, path: &str, value: Measure, least: Length, most: Length) -> Length {
        let is = value.in_unit(self.units);
        let says = || format!("{is} is not a length from {least} to {most}");
        self.expect(is >= least && is <= most, path, says, "Type the figure with its unit, such as \"16 in\".");
        is
    }
}

fn names_differ(desk: &mut Desk, blocks: &[BlockTable]) {
    let mut names = BTreeSet::new();
    for (index, block) in blocks.iter().enumerate() {
        let path = format!("{}.name", block_path(index));
        let name = block.name.trim();
        desk.expect(!name.is_empty(), &path, || "the block has no name".into(), "Name it: \"house\", \"porch\".");
        let says = || format!("two blocks are called {}", quoted(name));
        desk.expect(names.insert(name), &path, says, "Give each block a name of its own.");
    }
}

fn covering(desk: &mut Desk, sheet: &str) -> CoveringChoice {
    let path = "covering.sheet";
    desk.expect(!sheet.trim().is_empty(), path, || "no sheet is named".into(), "Name one of `headlap sheets`.");
    let is_file = sheet.contains(['/', '\\']) || sheet.ends_with(".toml") || sheet.ends_with(".json");
    CoveringChoice { sheet: sheet.trim().into(), is_file, path: path.into() }
}

fn block(desk: &mut Desk, table: &BlockTable, path: &str) -> Block {
    let hole = |(index, hole): (usize, &super::file::HoleTable)| {
        let path = format!("{path}.holes[{index}]");
        Hole { outline: outline(desk, &hole.outline, &path), sides: sides(desk, &hole.edges, hole.outline.len(), &path) }
    };
    let holes = table.holes.iter().enumerate().map(hole).collect();
    Block {
        name: table.name.trim().into(),
        outline: outline(desk, &table.outline, path),
        outline_at: match table.outline_at {
            OutlineAtWord::DripLine => OutlineAt::DripLine,
            OutlineAtWord::Walls => OutlineAt::Walls,
        },
        sides: sides(desk, &table.edges, table.outline.len(), path),
        holes,
        eave_height: table.eave_height.map_or(0.0, |height| coordinate(desk, height, &format!("{path}.eave_height"))),
    }
}

fn outline(desk: &mut Desk, corners: &[[Measure; 2]], path: &str) -> Vec<[f64; 2]> {
    let path = format!("{path}.outline");
    let count = corners.len();
    let says = || format!("too few corners for an outline: {count}, where 3 is the least");
    desk.expect(count >= 3, &path, says, "List every corner once, [x, y], all the way round.");
    let says = || format!("too many corners for an outline: {count}, where {MOST_CORNERS} is the most");
    desk.expect(count <= MOST_CORNERS, &path, says, "Leave out corners on straight stretches.");
    let corner = |(index, &[x, y]): (usize, &[Measure; 2])| {
        [coordinate(desk, x, &format!("{path}[{index}][0]")), coordinate(desk, y, &format!("{path}[{index}][1]"))]
    };
    corners.iter().enumerate().map(corner).collect()
}

/// Inches from the datum.
pub(super) fn coordinate(desk: &mut Desk, value: Measure, path: &str) -> f64 {
    desk.length(path, value, -FARTHEST, FARTHEST).to_inches()
}

fn sides(desk: &mut Desk, edges: &[EdgeTable], corners: usize, path: &str) -> Vec<Side> {
    let path = format!("{path}.edges");
    let says = || format!("the numbers of edges and corners differ: {} and {corners}", edges.len());
    let remedy = "Give one edge for each corner: edges[i] runs from corner i to the next, the last one back to the first.";
    desk.expect(edges.len() == corners, &path, says, remedy);
    edges.iter().enumerate().filter_map(|(index, edge)| side(desk, edge, &format!("{path}[{index}]"))).collect()
}

fn side(desk: &mut Desk, edge: &EdgeTable, path: &str) -> Option<Side> {
    let kind = side_kind(desk, edge, path);
    let overhang = edge.overhang.map(|width| desk.length(&format!("{path}.overhang"), width, Length::ZERO, WIDEST_OVERHANG));
    if kind == Some(SideKind::Wall) && overhang.is_some() {
        let says = "a side that stands against a wall has no overhang";
        desk.mistake(&format!("{path}.overhang"), says, "Remove the overhang, or write gable = true.");
    }
    Some(Side { kind: kind?, overhang })
}

fn side_kind(desk: &mut Desk, edge: &EdgeTable, path: &str) -> Option<SideKind> {
    const ONE_OF: &str = "Write exactly one of eave = \"8/12\", gable = true and wall = true.";
    for (key, value) in [("gable", edge.gable), ("wall", edge.wall)] {
        let says = || format!("{key} = false says nothing about this side");
        desk.expect(value != Some(false), &format!("{path}.{key}"), says, ONE_OF);
    }
    match (edge.eave, edge.gable, edge.wall) {
        (Some(pitch), None, None) => Some(SideKind::Eave(pitch)),
        (None, Some(true), None) => Some(SideKind::Gable),
        (None, None, Some(true)) => Some(SideKind::Wall),
        (None, None, None) => {
            desk.mistake(path, "this side is neither an eave nor a gable nor a wall", ONE_OF);
            None
        }
        (None, Some(false), None) | (None, None, Some(false)) => None,
        _ => {
            desk.mistake(path, "this side is more than one of eave, gable and wall", ONE_OF);
            None
        }
    }
}

fn deck(desk: &mut Desk, table: &DeckTable) -> Deck {
    let [thinnest, thickest] = [0.25, 4.0].map(Length::inches);
    let thickness = table.thickness.map(|value| desk.length("deck.thickness", value, thinnest, thickest));
    Deck { kind: table.kind, thickness, exposed_soffit: table.exposed_soffit }
}

fn fastener(desk: &mut Desk, table: &FastenerTable) -> Fastener {
    let [shortest, longest, thinnest, thickest] = [0.5, 8.0, 1.0 / 32.0, 0.5].map(Length::inches);
    Fastener {
        kind: table.kind,
        metal: table.metal,
        length: table.length.map(|value| desk.length("fastener.length", value, shortest, longest)),
        shank: table.shank.map(|value| desk.length("fastener.shank", value, thinnest, thickest)),
        drive: table.drive,
    }
}

fn north(desk: &mut Desk, table: &SiteTable) -> f64 {
    let degrees = table.north_deg.unwrap_or(0.0);
    let says = || format!("{degrees} is not a direction from -360 to 360 degrees");
    desk.expect((-360.0..=360.0).contains(&degrees), "site.north_deg", says, "Type degrees clockwise from +y.");
    degrees
}
