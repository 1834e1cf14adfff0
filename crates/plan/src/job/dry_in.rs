//! What goes under the units: as typed, and as meant. What is not typed is as below.

use checks::DeckKind;
use details::{Climate, DryInChoices, FastenerGrid, Roll, WallFace};
use schemars::JsonSchema;
use serde::Deserialize;
use units::{Length, Mass, Measure};

use super::file::DeckTable;
use super::metal::{SheetMetalWord, metal};
use super::resolve::Desk;
use super::side::WIDEST_OVERHANG;
use super::site::SiteTable;

/// What is laid under the units, and how. Every key may be absent; the figures that then count stand with it.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DryInTable {
    /// Overhang of eaves for which none is given.
    pub overhang: Option<Measure>,
    /// How far the ice barrier reaches past the wall, level. Absent: 24 in (International Residential Code R905.1.2, as code
    /// officials quote it).
    pub past_wall: Option<Measure>,
    /// From which face of the wall that is measured. Absent: the inner one, which makes the barrier longer.
    pub wall_face: Option<WallFaceWord>,
    /// Thickness of the outside walls, for the inner face. Absent: nothing is added for the wall.
    pub wall_thickness: Option<Measure>,
    /// Whether a width of ice barrier is centred on every valley. Absent: where the site asks for a barrier.
    pub at_valleys: Option<bool>,
    /// Whether a width of it lies along every rake. Absent: where the site asks for a barrier.
    pub at_rakes: Option<bool>,
    /// Whether a width of it lies round every opening. Absent: where the site asks for a barrier.
    pub round_openings: Option<bool>,
    /// Underlayment over the top of the barrier. Absent: 3 in (common practice, no published source).
    pub over_barrier: Option<Measure>,
    /// Least distance between end laps of neighbouring courses. Absent: 6 ft (International Residential Code, underlayment, as
    /// an adopting code's page quotes it).
    pub end_lap_offset: Option<Measure>,
    /// How far courses are carried over hips, ridges, valleys and breaks, and up walls. Absent: 6 in (from memory, not read).
    pub carried_over: Option<Measure>,
    /// The ice barrier's roll. Absent: 36 in × 66 ft 8 in, two squares (invented).
    pub ice_barrier: Option<RollTable>,
    /// The felt between courses of shakes. Absent: 18 in wide (wood shakes, placement, read in an adopting code's text),
    /// 120 ft long (from memory, not read).
    pub interlayment: Option<RollTable>,
    /// Edge metal of eaves and rakes.
    pub drip_edge: Option<DripEdgeTable>,
    /// Of one layer of underlayment or interlayment, which nails pass. Absent: 1/32 in (from memory, not read).
    pub thickness: Option<Measure>,
    /// Fasteners of the underlayment.
    pub fasteners: Option<FastenerGridTable>,
}

/// A face of the outside wall.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum WallFaceWord {
    /// Towards the weather.
    Outer,
    /// Towards the room.
    Inner,
}

/// A roll as it is sold.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RollTable {
    /// What it is called on the order.
    pub name: String,
    /// Across.
    pub width: Measure,
    /// Along.
    pub length: Measure,
    /// Over the strip below. Absent: 4 in for an ice barrier (from memory, not read).
    pub side_lap: Option<Measure>,
    /// At an end. Absent: 6 in (common practice, no published source).
    pub end_lap: Option<Measure>,
    /// Of one roll, pounds. Absent: not told.
    pub weight_lb: Option<f64>,
}

/// Edge metal in lengths.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DripEdgeTable {
    /// What it is called on the order. Absent: "drip edge".
    pub name: Option<String>,
    /// Of one piece. Absent: 10 ft (from memory, not read).
    pub length: Option<Measure>,
    /// Of a piece over the one before it. Absent: 2 in (International Residential Code 2015 R905.2.8.5, as a guide quotes it).
    pub lap: Option<Measure>,
    /// Nails along it are so far apart at most. Absent: 12 in (International Residential Code 2015 R905.2.8.5, as a guide quotes
    /// it).
    pub nails_apart: Option<Measure>,
    /// At eaves, over or under the underlayment. Absent: under (as above).
    pub at_eaves: Option<OverOrUnder>,
    /// At rakes, over or under the underlayment. Absent: over (as above).
    pub at_rakes: Option<OverOrUnder>,
    /// What it is made of. Absent: not told.
    pub metal: Option<SheetMetalWord>,
}

/// Which of two layers is laid last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum OverOrUnder {
    /// Over the other.
    Over,
    /// Under the other.
    Under,
}

/// Where fasteners of the underlayment go.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FastenerGridTable {
    /// Apart along side and end laps. Absent: 6 in, as the International Building Code 2018 table 1507.1.1(3) asks for winds
    /// of 140 mph and more.
    pub at_laps: Option<Measure>,
    /// Apart in the field, both ways. Absent: 12 in, by the same table.
    pub in_field: Option<Measure>,
    /// Sold in one box. Absent: 2000 (invented).
    pub box_count: Option<u32>,
}

/// How joints between the sheets of a deck are held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum DeckJoints {
    /// They lie on rafters or trusses.
    Framing,
    /// Blocking between rafters.
    Blocking,
    /// Metal clips.
    Clips,
}

/// What is laid under the units.
pub(super) fn dry_in(desk: &mut Desk, table: &DryInTable) -> DryInChoices {
    let mut length = |key: &str, value: Option<Measure>, default: f64, most: Length| {
        let is = value.map(|value| desk.length(&format!("dry_in.{key}"), value, Length::ZERO, most));
        is.unwrap_or(Length::inches(default))
    };
    let widest = Length::feet(10.0);
    let past_wall = length("past_wall", table.past_wall, 24.0, widest);
    let over_barrier = length("over_barrier", table.over_barrier, 3.0, Length::inches(12.0));
    let end_lap_offset = length("end_lap_offset", table.end_lap_offset, 72.0, Length::feet(20.0));
    let thickness = length("thickness", table.thickness, 1.0 / 32.0, Length::inches(1.0));
    let carried_over = length("carried_over", table.carried_over, 6.0, Length::feet(3.0));
    let wall_thickness =
        table.wall_thickness.map(|value| desk.length("dry_in.wall_thickness", value, Length::ZERO, Length::feet(5.0)));
    let edge = table.drip_edge.as_ref();
    DryInChoices {
        ice_barrier: roll(desk, table.ice_barrier.as_ref(), "dry_in.ice_barrier", ice_barrier()),
        past_wall,
        wall_face: table.wall_face.map(|face| match face {
            WallFaceWord::Outer => WallFace::Outer,
            WallFaceWord::Inner => WallFace::Inner,
        }),
        wall_thickness,
        overhang: table.overhang.map(|value| desk.length("dry_in.overhang", value, Length::ZERO, WIDEST_OVERHANG)),
        at_valleys: table.at_valleys,
        at_rakes: table.at_rakes,
        round_openings: table.round_openings,
        over_barrier,
        end_lap_offset,
        carried_over,
        interlayment: roll(desk, table.interlayment.as_ref(), "dry_in.interlayment", interlayment()),
        drip_edge: drip_edge(desk, edge),
        drip_edge_nails: drip_edge_nails(desk, edge),
        drip_edge_over_at_eaves: edge.and_then(|edge| edge.at_eaves) == Some(OverOrUnder::Over),
        drip_edge_over_at_rakes: edge.and_then(|edge| edge.at_rakes) != Some(OverOrUnder::Under),
        drip_edge_metal: edge.and_then(|edge| edge.metal).map(metal),
        thickness,
        fasteners: fasteners(desk, table.fasteners.as_ref()),
    }
}

fn plain_roll(name: &str, width: f64, length: f64, side_lap: f64, end_lap: f64) -> Roll {
    let [width, length, side_lap, end_lap] = [width, length, side_lap, end_lap].map(Length::inches);
    Roll { name: name.into(), width, length, side_lap, end_lap, weight: Mass::pounds(0.0) }
}

fn ice_barrier() -> Roll {
    plain_roll("self-adhered ice barrier", 36.0, 800.0, 4.0, 6.0)
}

fn interlayment() -> Roll {
    plain_roll("30-lb felt, 18 in", 18.0, 1440.0, 0.0, 6.0)
}

fn roll(desk: &mut Desk, table: Option<&RollTable>, path: &str, default: Roll) -> Roll {
    let Some(table) = table else { return default };
    let [narrowest, widest, shortest, longest, lap] = [6.0, 240.0, 36.0, 24_000.0, 3.0].map(Length::inches);
    let says = || "the roll has no name".into();
    desk.expect(!table.name.trim().is_empty(), &format!("{path}.name"), says, "Write what it is called on the order.");
    let width = desk.length(&format!("{path}.width"), table.width, narrowest, widest);
    let length = desk.length(&format!("{path}.length"), table.length, shortest, longest);
    let half = |of: Length| of * 0.5;
    let side = table.side_lap.map(|value| desk.length(&format!("{path}.side_lap"), value, Length::ZERO, half(width)));
    let end = table.end_lap.map(|value| desk.length(&format!("{path}.end_lap"), value, Length::ZERO, half(length)));
    let weight = table.weight_lb.unwrap_or(0.0);
    let says = || format!("{weight} is not a weight from 0 to 1000 lb");
    desk.expect((0.0..=1000.0).contains(&weight), &format!("{path}.weight_lb"), says, "Type pounds for one roll.");
    let least = |default: Length| if default > half(width) { lap } else { default };
    Roll {
        name: table.name.trim().into(),
        width,
        length,
        side_lap: side.unwrap_or_else(|| least(default.side_lap)),
        end_lap: end.unwrap_or(default.end_lap),
        weight: Mass::pounds(weight),
    }
}

fn drip_edge(desk: &mut Desk, table: Option<&DripEdgeTable>) -> Roll {
    let mut roll = plain_roll("drip edge", 0.0, 120.0, 0.0, 2.0);
    let Some(table) = table else { return roll };
    let [shortest, longest, widest] = [36.0, 600.0, 12.0].map(Length::inches);
    if let Some(name) = table.name.as_ref().map(|name| name.trim()).filter(|name| !name.is_empty()) {
        roll.name = name.into();
    }
    if let Some(length) = table.length {
        roll.length = desk.length("dry_in.drip_edge.length", length, shortest, longest);
    }
    if let Some(lap) = table.lap {
        roll.end_lap = desk.length("dry_in.drip_edge.lap", lap, Length::ZERO, widest);
    }
    roll
}

fn drip_edge_nails(desk: &mut Desk, table: Option<&DripEdgeTable>) -> Length {
    let [closest, widest] = [1.0, 48.0].map(Length::inches);
    let typed = table.and_then(|table| table.nails_apart);
    typed.map_or(Length::inches(12.0), |apart| desk.length("dry_in.drip_edge.nails_apart", apart, closest, widest))
}

fn fasteners(desk: &mut Desk, table: Option<&FastenerGridTable>) -> FastenerGrid {
    let mut grid = FastenerGrid { at_laps: Length::inches(6.0), in_field: Length::inches(12.0), box_count: 2000 };
    let Some(table) = table else { return grid };
    let [closest, widest] = [1.0, 120.0].map(Length::inches);
    if let Some(at_laps) = table.at_laps {
        grid.at_laps = desk.length("dry_in.fasteners.at_laps", at_laps, closest, widest);
    }
    if let Some(in_field) = table.in_field {
        grid.in_field = desk.length("dry_in.fasteners.in_field", in_field, closest, widest);
    }
    if let Some(count) = table.box_count {
        let says = || format!("{count} is not a count from 1 to 100,000");
        desk.expect((1..=100_000).contains(&count), "dry_in.fasteners.box_count", says, "Type how many are in one box.");
        grid.box_count = count;
    }
    grid
}

/// Cold and code of the site.
pub(super) fn climate(desk: &mut Desk, table: &SiteTable) -> Climate {
    Climate {
        winter: table.winter,
        ice_barrier: table.ice_barrier,
        code: table.code,
        zone: desk.whole("site.climate_zone", table.climate_zone, [1, 8]),
    }
}

/// What was found of the deck. Its thickness is looked at with the deck.
pub(super) fn deck_found(desk: &mut Desk, table: &DeckTable) -> details::Deck {
    if let Some(layers) = table.old_layers {
        let says = || format!("{layers} is not a number of old layers from 0 to 10");
        desk.expect(layers <= 10, "deck.old_layers", says, "Type how many coverings lie on the deck.");
    }
    details::Deck {
        kind: table.kind.map(|kind| match kind {
            DeckKind::Plywood => "plywood",
            DeckKind::Osb => "oriented strand board",
            DeckKind::Boards => "boards laid close",
            DeckKind::SpacedBoards => "spaced boards",
        }),
        thickness: None,
        joints: table.joints.map(|joints| match joints {
            DeckJoints::Framing => "framing",
            DeckJoints::Blocking => "blocking",
            DeckJoints::Clips => "clips",
        }),
        old_layers: table.old_layers,
        flat: table.flat,
        sound: table.sound,
        dry: table.dry,
        drains: table.drains,
    }
}
