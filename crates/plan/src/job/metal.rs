//! Sheet metal and how it is bent: as typed, and as meant. What is not typed is as below.

use details::{FlashingChoices, Sealant, SheetMetal, SheetStock};
use schemars::JsonSchema;
use serde::Deserialize;
use units::{Length, Mass, Measure};

use super::resolve::Desk;

/// The sheet from which flashings and valleys are bent.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MetalTable {
    /// What it is made of. Absent: galvanized steel.
    pub kind: Option<SheetMetalWord>,
    /// Of the sheet. Absent: 0.019 in of steel (International Residential Code 2018, base and cap flashing); 0.0216 in of
    /// copper, which is 16 oz to the square foot, 0.018 in of stainless steel, 0.024 in of aluminum, 0.028 in of zinc (from
    /// memory, not read).
    pub thickness: Option<Measure>,
    /// Along the sheet; no piece is longer. Absent: 10 ft (from memory, not read).
    pub length: Option<Measure>,
    /// Across the sheet. Absent: 3 ft (from memory, not read).
    pub width: Option<Measure>,
    /// Of a square foot, pounds. Absent: by thickness and the metal's density (from memory, not read).
    pub weight_psf: Option<f64>,
}

/// The metal of a sheet.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum SheetMetalWord {
    /// Copper.
    Copper,
    /// Steel with a coat of zinc.
    GalvanizedSteel,
    /// Stainless steel.
    StainlessSteel,
    /// Aluminium.
    Aluminum,
    /// Zinc.
    Zinc,
}

/// How flashings and valleys are bent, lapped and held. Figures that are absent are common practice without a published
/// source, unless another source stands with them.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FlashingTable {
    /// Up a wall. Absent: 4 in.
    pub wall_leg: Option<Measure>,
    /// Of step flashing, under the units. Absent: 4 in.
    pub roof_leg: Option<Measure>,
    /// A piece of step flashing is at least so long. Absent: 10 in.
    pub step_length: Option<Measure>,
    /// A piece of step flashing laps the one below by so much at least. Absent: 2 in.
    pub step_lap: Option<Measure>,
    /// Turned back along the edge of step flashing. Absent: 0.
    pub step_hem: Option<Measure>,
    /// The foot of step flashing stays so far above the butts of its course. Absent: 1/2 in (from memory, not read).
    pub above_butt: Option<Measure>,
    /// Turned back along the free edges of everything else. Absent: 1/2 in (Copper Flashings: A Manual, Copper and Brass
    /// Research Association, 1920s, specification 33).
    pub hem: Option<Measure>,
    /// Joints of valley metal lap by so much and are sealed. Absent: 8 in.
    pub valley_lap: Option<Measure>,
    /// Cleats along each edge of valley metal are so far apart. Absent: 24 in.
    pub cleats_apart: Option<Measure>,
    /// Height of the W or crimp along a valley whose sides differ in pitch or area. Absent: 1 in (Copper Flashings, as above).
    pub rib: Option<Measure>,
    /// One side of a valley may drain so many times the area of the other before a rib is raised. Absent: 2 (invented).
    pub area_ratio: Option<f64>,
    /// A piece of a closed valley or under a mitred hip laps the one below by so much. Absent: 3 in (Copper Flashings,
    /// specification 34).
    pub course_lap: Option<Measure>,
    /// Joints of aprons, pans and counterflashing lap by so much. Absent: 4 in (from memory, not read).
    pub joint_lap: Option<Measure>,
    /// Aprons and pans run past the end of a wall by so much. Absent: 4 in (from memory, not read).
    pub past_end: Option<Measure>,
    /// Of pans, crickets and dead valleys, up the slope under the units. Absent: 12 in (from memory, not read).
    pub back_leg: Option<Measure>,
    /// Of counterflashing, over the upturned leg. Absent: 4 in.
    pub counter_leg: Option<Measure>,
    /// Of counterflashing, let into the masonry. Absent: 1 in (A Treatise on Architecture and Building Construction, volume 3,
    /// 1899, hips and valleys).
    pub raglet: Option<Measure>,
    /// Whether walls too get counterflashing. Absent: false, as siding covers the legs.
    pub counter_at_walls: Option<bool>,
    /// Nails of a piece of step flashing, into the roof or into the wall. Absent: 1 (from memory, not read).
    pub step_nails: Option<u32>,
    /// Nails along aprons, pans and the metal of level edges are so far apart. Absent: 12 in (from memory, not read).
    pub nails_apart: Option<Measure>,
    /// Nails of metal and drip edge sold in one box. Absent: 1000 (invented).
    pub nail_box: Option<u32>,
    /// Diameter of a bead of sealant. Absent: 1/4 in.
    pub bead: Option<Measure>,
    /// Beads across a joint that is sealed. Absent: 2 (from memory, not read).
    pub beads_in_joint: Option<u32>,
    /// Length of bead on the head of a face nail. Absent: 1 in (invented).
    pub bead_on_nail: Option<Measure>,
    /// What a tube of sealant holds, US fluid ounces. Absent: 10.1 (from memory, not read).
    pub tube_fl_oz: Option<f64>,
}

pub(super) const fn metal(word: SheetMetalWord) -> SheetMetal {
    match word {
        SheetMetalWord::Copper => SheetMetal::Copper,
        SheetMetalWord::GalvanizedSteel => SheetMetal::GalvanizedSteel,
        SheetMetalWord::StainlessSteel => SheetMetal::StainlessSteel,
        SheetMetalWord::Aluminum => SheetMetal::Aluminum,
        SheetMetalWord::Zinc => SheetMetal::Zinc,
    }
}

/// Of a sheet of which only the metal is told; the sources stand with [`MetalTable::thickness`].
const fn usual_thickness(metal: SheetMetal) -> Length {
    Length::inches(match metal {
        SheetMetal::Copper => 0.0216,
        SheetMetal::GalvanizedSteel => 0.019,
        SheetMetal::StainlessSteel => 0.018,
        SheetMetal::Aluminum => 0.024,
        SheetMetal::Zinc => 0.028,
    })
}

/// The sheet.
pub(super) fn sheet_metal(desk: &mut Desk, table: &MetalTable) -> SheetStock {
    let metal = table.kind.map_or(SheetMetal::GalvanizedSteel, metal);
    let mut length = |key: &str, value: Option<Measure>, default: Length, [least, most]: [f64; 2]| {
        let [least, most] = [least, most].map(Length::inches);
        value.map_or(default, |value| desk.length(&format!("metal.{key}"), value, least, most))
    };
    let thickness = length("thickness", table.thickness, usual_thickness(metal), [0.005, 0.25]);
    let long = length("length", table.length, Length::feet(10.0), [36.0, 1200.0]);
    let width = length("width", table.width, Length::feet(3.0), [10.0, 120.0]);
    let weight = desk.number("metal.weight_psf", table.weight_psf, [0.05, 20.0]).map(Mass::pounds);
    SheetStock { metal, thickness, length: long, width, weight: weight.unwrap_or_else(|| metal.weight(thickness)) }
}

/// How it is bent.
pub(super) fn flashing(desk: &mut Desk, table: &FlashingTable) -> FlashingChoices {
    let mut length = |key: &str, value: Option<Measure>, default: f64, [least, most]: [f64; 2]| {
        let [least, most] = [least, most].map(Length::inches);
        value.map_or(Length::inches(default), |value| desk.length(&format!("flashing.{key}"), value, least, most))
    };
    let choices = FlashingChoices {
        wall_leg: length("wall_leg", table.wall_leg, 4.0, [1.0, 24.0]),
        roof_leg: length("roof_leg", table.roof_leg, 4.0, [1.0, 24.0]),
        step_length: length("step_length", table.step_length, 10.0, [3.0, 36.0]),
        step_lap: length("step_lap", table.step_lap, 2.0, [0.0, 12.0]),
        step_hem: length("step_hem", table.step_hem, 0.0, [0.0, 2.0]),
        above_butt: length("above_butt", table.above_butt, 0.5, [0.0, 3.0]),
        hem: length("hem", table.hem, 0.5, [0.0, 2.0]),
        valley_lap: length("valley_lap", table.valley_lap, 8.0, [1.0, 30.0]),
        cleats_apart: length("cleats_apart", table.cleats_apart, 24.0, [4.0, 120.0]),
        rib: length("rib", table.rib, 1.0, [0.25, 4.0]),
        area_ratio: 2.0,
        course_lap: length("course_lap", table.course_lap, 3.0, [0.0, 12.0]),
        joint_lap: length("joint_lap", table.joint_lap, 4.0, [0.0, 24.0]),
        past_end: length("past_end", table.past_end, 4.0, [0.0, 24.0]),
        back_leg: length("back_leg", table.back_leg, 12.0, [2.0, 60.0]),
        counter_leg: length("counter_leg", table.counter_leg, 4.0, [1.0, 24.0]),
        raglet: length("raglet", table.raglet, 1.0, [0.0, 6.0]),
        counter_at_walls: table.counter_at_walls.unwrap_or(false),
        nails_apart: length("nails_apart", table.nails_apart, 12.0, [1.0, 48.0]),
        step_nails: 1,
        nail_box: 1000,
        sealant: Sealant {
            bead: length("bead", table.bead, 0.25, [0.0625, 1.0]),
            in_joint: 2,
            on_nail: length("bead_on_nail", table.bead_on_nail, 1.0, [0.0, 12.0]),
            tube_fl_oz: 10.1,
        },
    };
    let area_ratio = desk.number("flashing.area_ratio", table.area_ratio, [1.0, 100.0]);
    let step_nails = desk.whole("flashing.step_nails", table.step_nails, [1, 4]);
    let nail_box = desk.whole("flashing.nail_box", table.nail_box, [1, 100_000]);
    let in_joint = desk.whole("flashing.beads_in_joint", table.beads_in_joint, [1, 5]);
    let tube = desk.number("flashing.tube_fl_oz", table.tube_fl_oz, [1.0, 1000.0]);
    FlashingChoices {
        sealant: Sealant {
            in_joint: in_joint.unwrap_or(choices.sealant.in_joint),
            tube_fl_oz: tube.unwrap_or(choices.sealant.tube_fl_oz),
            ..choices.sealant
        },
        area_ratio: area_ratio.unwrap_or(choices.area_ratio),
        step_nails: step_nails.unwrap_or(choices.step_nails),
        nail_box: nail_box.unwrap_or(choices.nail_box),
        ..choices
    }
}
