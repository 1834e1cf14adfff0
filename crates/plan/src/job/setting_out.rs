use std::fmt;

use covering::Bond;
use layout::{Graduated, Hips, MatchHips, SettingOut, Valleys};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::Deserialize;
use serde::de::{Deserializer, SeqAccess, Visitor};
use units::{Length, Measure};

use super::resolve::Desk;

/// How the courses are set out, where the sheet leaves it open.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SettingOutTable {
    /// Marks of the tape: exposures are whole numbers of these. Absent: 1/16 in.
    pub tape_step: Option<Measure>,
    /// The greatest change from one course's exposure to the next that nobody sees from the ground. Absent: 1/8 in.
    pub sight_limit: Option<Measure>,
    /// Courses meet at hips and valleys: `true` on the whole roof, or the ids of the planes concerned. Absent: every plane is
    /// set out by itself.
    pub match_hips: Option<MatchWord>,
    /// How valleys are laid. Absent: as the sheet has it, closed where its clear width is 0.
    pub valleys: Option<ValleysWord>,
    /// How hips are finished. Absent: as the sheet has it.
    pub hips: Option<HipsWord>,
    /// Which of the bonds that the sheet allows is laid. Absent: the sheet's first.
    pub bond: Option<Bond>,
    /// How butts lie. Absent: straight.
    pub butts: Option<ButtsWord>,
    /// The most that any course shows, 1 in to 36 in; the sheet's own limit stays where it is lower. Absent: the sheet's.
    pub exposure: Option<Measure>,
    /// Lengths from the longest at the eave to the shortest at the top: `true` by the sheet's shares, or the lengths of the sheet
    /// that are laid, each with its percentage of the slope. Absent: all units have the sheet's own length.
    pub graduated: Option<GraduatedWord>,
    /// The names of blocks, turrets all, on whose planes units are cut narrower towards the peak and every joint points at it.
    /// Absent: units are laid as on any plane.
    #[serde(default)]
    pub tapered: Vec<String>,
}

/// `true`, `false`, or lengths with their shares.
#[derive(Debug, Clone)]
pub enum GraduatedWord {
    /// By the sheet, or not at all.
    BySheet(bool),
    /// Lengths of the sheet.
    Lengths(Vec<GradedShare>),
}

/// A length of a graduated slope.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GradedShare {
    /// From butt to head, one of the sheet's.
    pub length: Measure,
    /// Percent of the slope that it covers.
    pub share: f64,
}

impl<'de> Deserialize<'de> for GraduatedWord {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(GraduatedVisitor)
    }
}

struct GraduatedVisitor;

impl<'de> Visitor<'de> for GraduatedVisitor {
    type Value = GraduatedWord;

    fn expecting(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str("true, false or a list of lengths with their shares")
    }

    fn visit_bool<E>(self, by_sheet: bool) -> Result<GraduatedWord, E> {
        Ok(GraduatedWord::BySheet(by_sheet))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<GraduatedWord, A::Error> {
        let mut lengths = Vec::new();
        while let Some(length) = list.next_element()? {
            lengths.push(length);
        }
        Ok(GraduatedWord::Lengths(lengths))
    }
}

impl JsonSchema for GraduatedWord {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Graduated".into()
    }

    fn json_schema(schemas: &mut SchemaGenerator) -> Schema {
        let length = schemas.subschema_for::<GradedShare>();
        json_schema!({
            "description": "true for the sheet's lengths and shares, false, or a list of lengths with their shares.",
            "type": ["boolean", "array"],
            "items": length
        })
    }
}

/// `true`, `false`, or the ids of planes.
#[derive(Debug, Clone)]
pub struct MatchWord(pub MatchHips);

impl<'de> Deserialize<'de> for MatchWord {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(MatchVisitor)
    }
}

struct MatchVisitor;

impl<'de> Visitor<'de> for MatchVisitor {
    type Value = MatchWord;

    fn expecting(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str("true, false or a list of the ids of planes")
    }

    fn visit_bool<E>(self, all: bool) -> Result<MatchWord, E> {
        Ok(MatchWord(if all { MatchHips::All } else { MatchHips::None }))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<MatchWord, A::Error> {
        let mut ids = std::collections::BTreeSet::new();
        while let Some(id) = list.next_element::<String>()? {
            ids.insert(id.trim().into());
        }
        Ok(MatchWord(MatchHips::Planes(ids)))
    }
}

impl JsonSchema for MatchWord {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "MatchHips".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "true for the whole roof, false, or a list of the ids of planes.",
            "type": ["boolean", "array"],
            "items": { "type": "string" }
        })
    }
}

/// How valleys are laid.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum ValleysWord {
    /// Clear of units at the sheet's width, on metal that is seen.
    Open,
    /// Units of both planes are cut to the valley's rib.
    Closed,
}

/// How butts lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum ButtsWord {
    /// All on the course line.
    Straight,
    /// Every other one lower by the sheet's step, save in the first course.
    Staggered,
}

impl ValleysWord {
    pub(super) const fn meant(self) -> Valleys {
        match self {
            Self::Open => Valleys::Open,
            Self::Closed => Valleys::Closed,
        }
    }
}

/// How hips are finished.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum HipsWord {
    /// Caps cover both sides.
    Capped,
    /// Units of both planes are cut to the hip line and are seen up to it.
    Mitred,
}

/// The most that any course shows, at a path of the job file.
pub(super) fn exposure(desk: &mut Desk, value: Option<Measure>, path: &str) -> Option<Length> {
    let [least, most] = [1.0, 36.0].map(Length::inches);
    value.map(|value| desk.length(path, value, least, most))
}

/// Shares in percent sum to 100 within this.
const ROUNDED: f64 = 0.5;

fn graduated(desk: &mut Desk, word: Option<&GraduatedWord>) -> Graduated {
    match word {
        None | Some(GraduatedWord::BySheet(false)) => Graduated::No,
        Some(GraduatedWord::BySheet(true)) => Graduated::BySheet,
        Some(GraduatedWord::Lengths(lengths)) => Graduated::Lengths(shares(desk, lengths)),
    }
}

fn shares(desk: &mut Desk, lengths: &[GradedShare]) -> Vec<(Length, f64)> {
    let path = "setting_out.graduated";
    let sum: f64 = lengths.iter().map(|graded| graded.share).sum();
    let says = || format!("the shares sum to {sum}, not to 100");
    desk.expect((sum - 100.0).abs() <= ROUNDED, path, says, "Mend a share.");
    let mut chosen: Vec<(Length, f64)> = Vec::new();
    for (index, graded) in lengths.iter().enumerate() {
        let of = format!("{path}[{index}]");
        let length = desk.length(&format!("{of}.length"), graded.length, Length::inches(4.0), Length::inches(60.0));
        let is_new = chosen.iter().all(|(other, _)| *other != length);
        desk.expect(is_new, &format!("{of}.length"), || format!("{length} is there twice"), "Give each length once.");
        desk.number(&format!("{of}.share"), Some(graded.share), [1.0, 100.0]);
        chosen.push((length, graded.share / 100.0));
    }
    chosen
}

pub(super) fn setting_out(desk: &mut Desk, table: &SettingOutTable) -> SettingOut {
    let absent = SettingOut::default();
    let graduated = graduated(desk, table.graduated.as_ref());
    let [finest, coarsest, most] = [1.0 / 64.0, 0.5, 2.0].map(Length::inches);
    let mut length = |key: &str, value: Option<Measure>, least, most, absent| {
        value.map_or(absent, |value| desk.length(&format!("setting_out.{key}"), value, least, most))
    };
    SettingOut {
        tape_step: length("tape_step", table.tape_step, finest, coarsest, absent.tape_step),
        sight_limit: length("sight_limit", table.sight_limit, Length::default(), most, absent.sight_limit),
        match_hips: table.match_hips.as_ref().map_or(MatchHips::None, |word| word.0.clone()),
        valleys: table.valleys.map(ValleysWord::meant),
        hips: table.hips.map(|word| match word {
            HipsWord::Capped => Hips::Capped,
            HipsWord::Mitred => Hips::Mitred,
        }),
        bond: table.bond,
        staggered: table.butts == Some(ButtsWord::Staggered),
        graduated,
        tapered: table.tapered.iter().map(|block| block.trim().into()).collect(),
    }
}
