use schemars::JsonSchema;
use serde::Deserialize;
use units::{Expansion, Length, Mass, Measure, Pitch, Temperature};

use crate::desk::Desk;
use crate::sheet::SheetFile;

/// What a sheet says beyond sizes: by what it was tested, in what weather it is laid, where its nails go. Each may be absent.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Conditions {
    /// Below this pitch the lapped unit itself must not lie.
    pub least_true_pitch: Option<Pitch>,
    /// Where the nails of a field unit go.
    pub nail_line: Option<NailLine>,
    /// How it was made, of wood.
    pub wood: Option<Wood>,
    /// How it moves with warmth.
    pub movement: Option<Movement>,
    /// When it may be stored and laid.
    pub temperatures: Temperatures,
    /// By what it was tested.
    pub tested: Tested,
    /// Colours of chalk that stain it.
    pub stained_by: Vec<String>,
    /// Part of the units that break in handling and cutting, 0 to 0.5.
    pub breakage: Option<f64>,
    /// How it is stored and stacked.
    pub storage: Option<Storage>,
}

/// Where the nails of a field unit go.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NailLine {
    /// From each side.
    pub side: Length,
    /// Up from the butt.
    pub up: Length,
    /// Least distance along the course to a joint of the course above; nothing if the sheet does not say.
    pub off_joint: Option<Length>,
}

/// How wood was made into units, `[wood]`.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Wood {
    /// Grade: 1, 2 or 3.
    pub grade: u32,
    /// How it was parted.
    pub parted: Parted,
    /// Treated with a preservative.
    #[serde(default)]
    pub treated: bool,
    /// Where this comes from.
    pub source: String,
}

/// How wood was parted into units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Parted {
    /// Sawn on both faces.
    Sawn,
    /// Sawn from a tapered block, a shake on both faces.
    TaperSawn,
    /// Split and then sawn through: one split face.
    Handsplit,
    /// Split to a taper, turning the block end for end.
    TaperSplit,
    /// Split without taper.
    StraightSplit,
}

/// How a unit moves with warmth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Movement {
    /// Of its length and width.
    pub expansion: Expansion,
    /// The hottest it gets in the sun.
    pub hottest: Temperature,
    /// The widest a gap may open.
    pub greatest_gap: Option<Length>,
}

/// When a unit may be stored and laid, `[temperatures]`. What is absent the sheet does not say.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Temperatures {
    /// Stored between these.
    pub stored: Option<[Temperature; 2]>,
    /// Before laying, warmed to this at least.
    pub conditioned_from: Option<Temperature>,
    /// For so many hours.
    pub conditioned_hours: Option<f64>,
    /// Laid by hand from here up.
    pub by_hand_from: Option<Temperature>,
    /// Nailed by gun from here up.
    pub by_gun_from: Option<Temperature>,
}

/// By what a covering was tested, `[tested]`.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Tested {
    /// With the layers it was burnt on.
    pub fire: Vec<FireTest>,
    /// By falling balls of steel or ice.
    pub impact: Option<ImpactTest>,
    /// By wind.
    pub wind: Option<WindTest>,
}

/// Class of roof under fire from outside, the best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, JsonSchema)]
pub enum FireClass {
    /// Severe exposure.
    A,
    /// Moderate exposure.
    B,
    /// Light exposure.
    C,
}

impl FireClass {
    /// `A`, `B` or `C`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::A => "A",
            Self::B => "B",
            Self::C => "C",
        }
    }
}

/// A fire test, of these layers and no others.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FireTest {
    /// What it reached.
    pub class: FireClass,
    /// The test's name.
    pub test: String,
    /// From the covering down to the deck.
    pub layers: Vec<String>,
}

/// An impact test.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ImpactTest {
    /// 1 to 4; 4 is the hardest.
    pub class: u32,
    /// The test's name.
    pub test: String,
}

/// A wind test.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WindTest {
    /// What it stood, miles an hour.
    pub mph: f64,
    /// Which wind speed of the code the figure is to be compared with.
    pub speed: WindSpeed,
    /// The test's name, with its class.
    pub test: String,
}

/// Two ways in which codes give the wind of a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum WindSpeed {
    /// The basic (ultimate) design wind speed of the maps.
    Basic,
    /// The nominal (allowable stress) speed: basic × √0.6.
    Nominal,
}

/// How units are stored and stacked.
#[derive(Debug, Clone, PartialEq)]
pub struct Storage {
    /// Packs of field units on a pallet.
    pub pallet_packs: Option<u32>,
    /// Of an empty pallet.
    pub pallet_weight: Mass,
    /// Packs that may lie over each other in a pile.
    pub stack_packs: Option<u32>,
    /// Further rules, a sentence each.
    pub rules: Vec<String>,
}

/// How units are stored and stacked; leave out what the sheet does not say.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StorageGroup {
    /// Packs of field units on a pallet.
    pub pallet_packs: Option<u32>,
    /// Of an empty pallet, pounds. Absent: 0.
    pub pallet_lb: Option<f64>,
    /// Packs that may lie over each other in a pile on the roof.
    pub stack_packs: Option<u32>,
    /// Further rules, a sentence each: "Under cover, off the ground."
    #[serde(default)]
    pub rules: Vec<String>,
    /// Where this comes from.
    pub source: String,
}

/// How a unit moves with warmth.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MovementGroup {
    /// Change of length over length for a degree, with its scale: "45e-6 per F".
    pub expansion: Expansion,
    /// The hottest a unit gets in the sun.
    pub hottest: Temperature,
    /// The widest a gap may open in the cold.
    pub greatest_gap: Option<Measure>,
    /// Where these figures come from.
    pub source: String,
}

/// When units may be stored and laid; leave out what the sheet does not say.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TemperaturesGroup {
    /// Stored between these.
    pub stored: Option<[Temperature; 2]>,
    /// Before laying, units are warmed to this at least.
    pub conditioned_from: Option<Temperature>,
    /// For so many hours.
    pub conditioned_hours: Option<f64>,
    /// Laid by hand from here up.
    pub by_hand_from: Option<Temperature>,
    /// Nailed by gun from here up.
    pub by_gun_from: Option<Temperature>,
    /// Where these figures come from.
    pub source: String,
}

/// By what the covering was tested; leave out what the sheet does not say.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TestedGroup {
    /// One for each list of layers.
    #[serde(default)]
    pub fire: Vec<FireTest>,
    /// By falling balls.
    pub impact: Option<ImpactTest>,
    /// By wind.
    pub wind: Option<WindTest>,
    /// Where these figures come from.
    pub source: String,
}

/// Chalk for lines on the units.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ChalkGroup {
    /// Colours that stain the units for good: "red".
    pub stains: Vec<String>,
    /// Where this comes from.
    pub source: String,
}

pub(crate) fn conditions(desk: &mut Desk, sheet: &SheetFile) -> Conditions {
    let line = sheet.nails.side.zip(sheet.nails.up);
    let is_whole = sheet.nails.side.is_some() == sheet.nails.up.is_some();
    let says = || "the place of a nail needs both its distances".into();
    desk.expect(is_whole, "nails", says, "Write side, from each side, and up, from the butt; or neither.");
    Conditions {
        least_true_pitch: sheet.lap.least_true_pitch,
        nail_line: line.map(|(side, up)| NailLine {
            side: desk.nil_or_more("nails.side", side),
            up: desk.nil_or_more("nails.up", up),
            off_joint: sheet.nails.off_joint.map(|off| desk.nil_or_more("nails.off_joint", off)),
        }),
        wood: sheet.wood.as_ref().map(|group| wood(desk, group)),
        movement: sheet.movement.as_ref().map(|group| Movement {
            expansion: group.expansion,
            hottest: group.hottest,
            greatest_gap: group.greatest_gap.map(|gap| desk.nil_or_more("movement.greatest_gap", gap)),
        }),
        temperatures: sheet.temperatures.as_ref().map_or_else(Temperatures::default, |group| temperatures(desk, group)),
        tested: sheet.tested.as_ref().map_or_else(Tested::default, |group| tested(desk, group)),
        stained_by: sheet.chalk.as_ref().map_or_else(Vec::new, |group| group.stains.clone()),
        breakage: sheet.pack.breakage_percent.map(|percent| breakage(desk, percent)),
        storage: sheet.storage.as_ref().map(|group| storage(desk, group)),
    }
}

fn breakage(desk: &mut Desk, percent: f64) -> f64 {
    let says = || format!("{percent} is not a breakage from 0 to 50 percent");
    desk.expect((0.0..=50.0).contains(&percent), "pack.breakage_percent", says, "Type percent, such as 3.");
    percent / 100.0
}

fn storage(desk: &mut Desk, group: &StorageGroup) -> Storage {
    let rules = group.rules.iter().enumerate();
    Storage {
        pallet_packs: group.pallet_packs.map(|count| desk.count("storage.pallet_packs", count)),
        pallet_weight: desk.mass("storage.pallet_lb", group.pallet_lb.unwrap_or(0.0)),
        stack_packs: group.stack_packs.map(|count| desk.count("storage.stack_packs", count)),
        rules: rules.map(|(index, rule)| desk.words(&format!("storage.rules[{index}]"), rule)).collect(),
    }
}

fn wood(desk: &mut Desk, group: &Wood) -> Wood {
    let says = || format!("grade {} is not known", group.grade);
    desk.expect((1..=3).contains(&group.grade), "wood.grade", says, "Write 1, 2 or 3.");
    group.clone()
}

fn temperatures(desk: &mut Desk, group: &TemperaturesGroup) -> Temperatures {
    let says = || "the storing temperatures are the wrong way round".into();
    let is_ordered = group.stored.is_none_or(|[least, most]| least < most);
    desk.expect(is_ordered, "temperatures.stored", says, "Write the lower one first.");
    let hours = group.conditioned_hours.unwrap_or(1.0);
    let says = || format!("{hours} is not a number of hours from 0 to 1000");
    desk.expect((0.0..=1000.0).contains(&hours), "temperatures.conditioned_hours", says, "Type hours, such as 24.");
    Temperatures {
        stored: group.stored,
        conditioned_from: group.conditioned_from,
        conditioned_hours: group.conditioned_hours,
        by_hand_from: group.by_hand_from,
        by_gun_from: group.by_gun_from,
    }
}

fn tested(desk: &mut Desk, group: &TestedGroup) -> Tested {
    if let Some(impact) = &group.impact {
        let says = || format!("impact class {} is not known", impact.class);
        desk.expect((1..=4).contains(&impact.class), "tested.impact.class", says, "Write 1 to 4.");
        desk.words("tested.impact.test", &impact.test);
    }
    if let Some(wind) = &group.wind {
        let says = || format!("{} is not a wind speed from 1 to 300 miles an hour", wind.mph);
        desk.expect((1.0..=300.0).contains(&wind.mph), "tested.wind.mph", says, "Type miles an hour.");
        desk.words("tested.wind.test", &wind.test);
    }
    for (index, fire) in group.fire.iter().enumerate() {
        desk.words(&format!("tested.fire[{index}].test"), &fire.test);
        let says = || "a fire class is worth nothing without its layers".into();
        let path = format!("tested.fire[{index}].layers");
        desk.expect(!fire.layers.is_empty(), &path, says, "List them from the covering down to the deck.");
    }
    Tested { fire: group.fire.clone(), impact: group.impact.clone(), wind: group.wind.clone() }
}

/// Of the groups that may be absent.
pub(crate) fn sources(sheet: &SheetFile) -> Vec<(String, &String)> {
    [
        ("wood", sheet.wood.as_ref().map(|group| &group.source)),
        ("movement", sheet.movement.as_ref().map(|group| &group.source)),
        ("temperatures", sheet.temperatures.as_ref().map(|group| &group.source)),
        ("tested", sheet.tested.as_ref().map(|group| &group.source)),
        ("chalk", sheet.chalk.as_ref().map(|group| &group.source)),
        ("storage", sheet.storage.as_ref().map(|group| &group.source)),
    ]
    .into_iter()
    .filter_map(|(group, source)| Some((group.to_owned(), source?)))
    .collect()
}
