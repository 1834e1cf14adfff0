//! Roofs, sheets and choices made for tests. All figures of sheets and rolls are invented.
#![allow(dead_code, unused_imports, reason = "each test file uses its part")]
#![allow(clippy::unwrap_used, reason = "tests only")]

#[path = "../../../layout/tests/common/mod.rs"]
mod sheets;

use covering::Covering;
use details::{
    Attic, Climate, Deck, Details, DryInChoices, FastenerGrid, FlashingChoices, Given, NailChoices, Roll, Sealant,
    SheetMetal, SheetStock, place,
};
use layout::{Layout, lay_roof};
use roof::{Block, Opening, OpeningKind, OutlineAt, Roof, Side, SideKind, Spot, build, cut_out, overhangs};
use units::{Area, Length, Mass, Temperature};

pub(crate) use sheets::{inches, moulded, pitch, plain_slate};

pub(crate) fn roll(name: &str, width: f64, length: f64, side_lap: f64, end_lap: f64) -> Roll {
    let [width, length, side_lap, end_lap] = [width, length, side_lap, end_lap].map(Length::inches);
    Roll { name: name.into(), width, length, side_lap, end_lap, weight: Mass::pounds(10.0) }
}

/// Laps of common practice: 3 in at the top, 6 in at the ends, 3 in over the barrier.
pub(crate) fn choices() -> DryInChoices {
    DryInChoices {
        ice_barrier: roll("barrier", 36.0, 800.0, 4.0, 6.0),
        past_wall: inches(24.0),
        wall_face: None,
        wall_thickness: None,
        overhang: None,
        at_valleys: None,
        at_rakes: None,
        round_openings: None,
        over_barrier: inches(3.0),
        end_lap_offset: inches(72.0),
        carried_over: inches(6.0),
        interlayment: roll("felt, 18 in", 18.0, 1440.0, 0.0, 6.0),
        drip_edge: roll("drip edge", 0.0, 120.0, 0.0, 2.0),
        drip_edge_nails: inches(12.0),
        drip_edge_over_at_eaves: false,
        drip_edge_over_at_rakes: true,
        drip_edge_metal: None,
        thickness: inches(1.0 / 32.0),
        fasteners: FastenerGrid { at_laps: inches(6.0), in_field: inches(12.0), box_count: 1000 },
    }
}

/// 26-gauge sheet of 3 × 10 ft, 1 lb to the square foot.
pub(crate) fn sheet_metal() -> SheetStock {
    SheetStock {
        metal: SheetMetal::GalvanizedSteel,
        thickness: inches(0.019),
        length: inches(120.0),
        width: inches(36.0),
        weight: Mass::pounds(1.0),
    }
}

/// Legs of 4 in, step flashing at least 10 in long and lapped 2 in, valley joints lapped 8 in, cleats 24 in apart: common
/// practice, no published source.
pub(crate) fn flashing() -> FlashingChoices {
    FlashingChoices {
        wall_leg: inches(4.0),
        roof_leg: inches(4.0),
        step_length: inches(10.0),
        step_lap: inches(2.0),
        step_hem: inches(0.0),
        above_butt: inches(0.5),
        hem: inches(0.5),
        valley_lap: inches(8.0),
        cleats_apart: inches(24.0),
        rib: inches(1.0),
        area_ratio: 2.0,
        course_lap: inches(3.0),
        joint_lap: inches(4.0),
        past_end: inches(4.0),
        back_leg: inches(12.0),
        counter_leg: inches(4.0),
        raglet: inches(1.0),
        counter_at_walls: false,
        step_nails: 1,
        nails_apart: inches(12.0),
        nail_box: 1000,
        sealant: Sealant { bead: inches(0.25), in_joint: 2, on_nail: inches(1.0), tube_fl_oz: 10.1 },
    }
}

pub(crate) fn cold() -> Climate {
    Climate { winter: Some(Temperature::fahrenheit(20.0)), ..Climate::default() }
}

pub(crate) fn felted() -> Covering {
    let mut sheet = moulded();
    sheet.underlayment.top_lap = inches(3.0);
    sheet.underlayment.end_lap = inches(6.0);
    sheet
}

/// A house as built, with what its blocks tell.
pub(crate) struct House {
    pub(crate) roof: Roof,
    pub(crate) overhangs: Vec<Option<Length>>,
    pub(crate) layout: Layout,
    pub(crate) sheet: Covering,
    pub(crate) choices: DryInChoices,
    pub(crate) sheet_metal: SheetStock,
    pub(crate) flashing: FlashingChoices,
    pub(crate) climate: Climate,
    pub(crate) floor: Option<Area>,
    pub(crate) attic: Option<Attic>,
    pub(crate) deck: Deck,
    pub(crate) nails: NailChoices,
}

impl House {
    pub(crate) fn new(blocks: &[Block], openings: &[Opening], sheet: Covering) -> Self {
        let roof = cut_out(build(blocks, 0.0).roof, openings).roof;
        let layout = lay_roof(&roof, |_| Some(&sheet), &Default::default());
        let overhangs = overhangs(&roof, blocks, &[]);
        let (choices, climate) = (choices(), cold());
        let (sheet_metal, flashing) = (sheet_metal(), flashing());
        Self {
            roof,
            overhangs,
            layout,
            sheet,
            choices,
            sheet_metal,
            flashing,
            climate,
            floor: None,
            attic: None,
            deck: Deck::default(),
            nails: NailChoices::default(),
        }
    }

    pub(crate) fn place(&self) -> Details {
        let coverings = vec![Some(&self.sheet); self.roof.planes.len()];
        place(&Given {
            roof: &self.roof,
            layout: &self.layout,
            covering_of: &coverings,
            overhang_of: &self.overhangs,
            floor_area: self.floor,
            climate: self.climate,
            deck: self.deck,
            nails: self.nails,
            dry_in: &self.choices,
            sheet_metal: &self.sheet_metal,
            flashing: &self.flashing,
            attic: self.attic,
        })
    }
}

fn block(outline: Vec<[f64; 2]>, sides: Vec<Side>) -> Block {
    let (outline_at, holes) = (OutlineAt::DripLine, vec![]);
    Block { name: "house".into(), outline, outline_at, sides, holes, eave_height: 108.0 }
}

pub(crate) fn eave(rise: f64, overhang: f64) -> Side {
    Side { overhang: Some(inches(overhang)), ..Side::new(SideKind::Eave(pitch(rise))) }
}

pub(crate) fn gable_side(overhang: f64) -> Side {
    Side { overhang: Some(inches(overhang)), ..Side::new(SideKind::Gable) }
}

/// Eaves south and north, gables east and west; drip line.
pub(crate) fn gable_block(width: f64, depth: f64, rise: f64, overhang: f64) -> Block {
    let sides = vec![eave(rise, overhang), gable_side(overhang), eave(rise, overhang), gable_side(overhang)];
    block(vec![[0.0, 0.0], [width, 0.0], [width, depth], [0.0, depth]], sides)
}

/// An L whose sides all carry eaves, or gables at the ends of both wings.
pub(crate) fn ell_block(width: f64, depth: f64, wing: f64, out: f64, rise: f64, overhang: f64, gables: bool) -> Block {
    let outline = vec![[0.0, 0.0], [width, 0.0], [width, depth], [wing, depth], [wing, depth + out], [0.0, depth + out]];
    let end = || if gables { gable_side(overhang) } else { eave(rise, overhang) };
    let level = || eave(rise, overhang);
    block(outline, vec![level(), end(), level(), level(), end(), level()])
}

pub(crate) fn opening(kind: OpeningKind, at: [f64; 2], width: f64, height: f64) -> Opening {
    Opening { name: format!("{} at {at:?}", kind.name()), kind, spot: Spot::Over(at), width, height }
}
