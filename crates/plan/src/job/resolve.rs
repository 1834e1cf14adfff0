//! From the file as typed to the job as meant; what cannot be meant is a mistake at its place.

use std::collections::BTreeSet;

use covering::{Covering, SheetFile, sound_sheet};
use layout::SettingOut;
use reader::{Mistake, Places, quoted};
use roof::{Block, Hole, OutlineAt, Side};
use units::{Length, LengthUnit, Measure};

use super::attic::attic;
use super::dormer::dormers;
use super::dry_in::{climate, deck_found, dry_in};
use super::file::{BlockTable, DeckTable, EdgeTable, FastenerTable, JobFile, OutlineAtWord};
use super::laying::laying;
use super::metal::{flashing, sheet_metal};
use super::opening::openings;
use super::order::order;
use super::pricing::price;
use super::setting_out::{exposure, setting_out};
use super::side::side;
use super::silence::silences;
use super::site::{north, site};
use super::stage::stage;
use super::{CoveringChoice, Deck, FORMAT, Fastener, Job, block_path, measured, turret};

/// No roof lies farther from its datum.
pub(super) const FARTHEST: Length = Length::feet(10_000.0);
/// No outline of a roof has more corners.
pub(super) const MOST_CORNERS: usize = 2000;

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
    let has_roof = !file.block.is_empty() || !file.plane.is_empty();
    desk.expect(has_roof, "block", || "the job has no roof".into(), "Give one [[block]] or one [[plane]] at least.");
    names_differ(&mut desk, &file.block);
    let job = Job {
        name: file.name.trim().into(),
        covering: sheet_choice(&mut desk, &file.covering.sheet, "covering.sheet"),
        blocks: file.block.iter().enumerate().map(|(index, table)| block(&mut desk, table, &block_path(index))).collect(),
        dormers: dormers(&mut desk, &file.dormer, &file.block),
        openings: openings(&mut desk, &file.opening),
        planes: measured::planes(&mut desk, &file.plane),
        unfinished: measured::unfinished(&mut desk, &file.plane),
        setting_out: file.setting_out.as_ref().map_or_else(SettingOut::default, |table| setting_out(&mut desk, table)),
        exposure: file.setting_out.as_ref().and_then(|table| exposure(&mut desk, table.exposure, "setting_out.exposure")),
        deck: file.deck.as_ref().map(|table| deck(&mut desk, table)),
        deck_found: file.deck.as_ref().map_or_else(Default::default, |table| deck_found(&mut desk, table)),
        dry_in: dry_in(&mut desk, &file.dry_in.clone().unwrap_or_default()),
        sheet_metal: sheet_metal(&mut desk, &file.metal.clone().unwrap_or_default()),
        flashing: flashing(&mut desk, &file.flashing.clone().unwrap_or_default()),
        attic: file.attic.as_ref().map(|table| attic(&mut desk, table)),
        climate: file.site.as_ref().map_or_else(Default::default, |table| climate(&mut desk, table)),
        fastener: file.fastener.as_ref().map(|table| fastener(&mut desk, table)),
        nails_per_pound: nails_per_pound(&mut desk, file.fastener.as_ref()),
        north_deg: file.site.as_ref().map_or(0.0, |table| north(&mut desk, table)),
        site: file.site.as_ref().map_or_else(Default::default, |table| site(&mut desk, table)),
        laying: file.laying.as_ref().map_or_else(Default::default, |table| laying(&mut desk, table)),
        order: order(&mut desk, &file.order.clone().unwrap_or_default()),
        stage: stage(
            &mut desk,
            &file.stage.clone().unwrap_or_default(),
            file.deck.as_ref().and_then(|deck| deck.live_load_psf),
        ),
        old_psf: file.deck.as_ref().and_then(|deck| desk.number("deck.old_psf", deck.old_psf, [0.0, 200.0])),
        price: price(&mut desk, &file.price.clone().unwrap_or_default()),
        sheets: sheets(&mut desk, &file.sheet),
        silences: silences(&mut desk, &file.silence),
        places: places.clone(),
    };
    (job, desk.mistakes)
}

impl Desk<'_> {
    /// What is read by the rules of another room, at a table of this file.
    pub(super) fn within<T>(&mut self, path: &str, read: impl FnOnce(&Places) -> Result<T, Vec<Mistake>>) -> Option<T> {
        let mistakes = &mut self.mistakes;
        read(&self.places.below(path)).map_err(|found| mistakes.extend(found)).ok()
    }

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

impl Desk<'_> {
    /// A number that may be absent.
    pub(super) fn number(&mut self, path: &str, value: Option<f64>, [least, most]: [f64; 2]) -> Option<f64> {
        let is = value?;
        let says = || format!("{is} is not a number from {least} to {most}");
        self.expect((least..=most).contains(&is), path, says, "Correct the number.");
        Some(is)
    }

    /// A whole number that may be absent.
    pub(super) fn whole(&mut self, path: &str, value: Option<u32>, [least, most]: [u32; 2]) -> Option<u32> {
        let is = value?;
        let says = || format!("{is} is not a whole number from {least} to {most}");
        self.expect((least..=most).contains(&is), path, says, "Correct the number.");
        Some(is)
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

/// Sheets that stand in the job file itself.
fn sheets(desk: &mut Desk, tables: &[SheetFile]) -> Vec<Covering> {
    let mut ids = BTreeSet::new();
    let mut sheets = Vec::new();
    for (index, table) in tables.iter().enumerate() {
        let path = format!("sheet[{index}]");
        let says = || format!("two sheets are called {}", quoted(&table.id));
        desk.expect(ids.insert(&table.id), &format!("{path}.id"), says, "Give each sheet an id of its own.");
        sheets.extend(desk.within(&path, |places| sound_sheet(table, places)));
    }
    sheets
}

/// The sheet named at a path of the job file.
pub(super) fn sheet_choice(desk: &mut Desk, sheet: &str, path: &str) -> CoveringChoice {
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
    let (outline, sides) = ring(desk, table, path);
    Block {
        name: table.name.trim().into(),
        outline,
        outline_at: match table.outline_at {
            OutlineAtWord::DripLine => OutlineAt::DripLine,
            OutlineAtWord::Walls => OutlineAt::Walls,
        },
        sides,
        holes,
        eave_height: table.eave_height.map_or(0.0, |height| coordinate(desk, height, &format!("{path}.eave_height"))),
    }
}

/// The outline with its sides, typed or by shorthand.
fn ring(desk: &mut Desk, table: &BlockTable, path: &str) -> (Vec<[f64; 2]>, Vec<Side>) {
    match (table.outline.is_empty(), &table.turret, &table.bay) {
        (true, Some(turret), None) => turret::turret(desk, turret, &table.edges, path),
        (true, None, Some(bay)) => turret::bay(desk, bay, &table.edges, path),
        (_, None, None) => {
            let sides = sides(desk, &table.edges, table.outline.len(), path);
            (outline(desk, &table.outline, path), sides)
        }
        _ => {
            let says = "this block has more than one shape";
            desk.mistake(path, says, "Give exactly one of outline, turret and bay.");
            (Vec::new(), Vec::new())
        }
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

fn deck(desk: &mut Desk, table: &DeckTable) -> Deck {
    let [thinnest, thickest] = [0.25, 4.0].map(Length::inches);
    let thickness = table.thickness.map(|value| desk.length("deck.thickness", value, thinnest, thickest));
    let [closest, widest] = [1.0, 48.0].map(Length::inches);
    Deck {
        kind: table.kind,
        thickness,
        exposed_soffit: table.exposed_soffit,
        board_centers: table.board_centers.map(|value| desk.length("deck.board_centers", value, closest, widest)),
        gravity: desk.number("deck.gravity", table.gravity, [0.2, 1.2]),
        covering_load_psf: desk.number("deck.covering_load_psf", table.covering_load_psf, [0.5, 200.0]),
        snow_load_psf: desk.number("deck.snow_load_psf", table.snow_load_psf, [0.0, 1000.0]),
        old_layers: table.old_layers,
    }
}

fn nails_per_pound(desk: &mut Desk, table: Option<&FastenerTable>) -> Option<f64> {
    desk.number("fastener.per_lb", table?.per_lb, [1.0, 10_000.0])
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
