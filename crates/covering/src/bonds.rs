use schemars::JsonSchema;
use serde::Deserialize;
use units::{Length, Measure};

use crate::desk::Desk;
use crate::{Covering, Lap};

/// Slack for figures that came from millimetres, in.
const SLACK: Length = Length::inches(1e-9);
/// Shares in percent sum to 100 within this.
const ROUNDED: f64 = 0.5;

/// How the joints of one course stand to those of the next.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Bond {
    /// Each course half a unit further: joints stand in line with those two courses down.
    Half,
    /// Each course a third of a unit further: joints stand in line with those three courses down.
    Third,
    /// Units of several widths, each chosen so that its joint misses those below.
    Random,
}

impl Bond {
    /// As it is typed.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Half => "half",
            Self::Third => "third",
            Self::Random => "random",
        }
    }
}

/// What a sheet leaves open about how units stand beside and over each other.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Bonds {
    /// What is allowed; the first is laid where the job chooses none. Empty: half bond, third bond at triple lap.
    pub allows: Vec<Bond>,
    /// Least distance to the joints two courses down, where they must be missed; as to those one down, if none is given.
    pub two_down: Option<Length>,
    /// Every other unit may hang so much below the course line; none where butts lie straight only.
    pub step: Option<Length>,
    /// The mix of random widths, from the narrowest up.
    pub widths: Vec<MixedWidth>,
    /// How far the laid share of a width may part from its own, as a part of all pieces.
    pub share_within: f64,
    /// Random widths are sold mixed, by the running width of a bundle, not each width by itself.
    pub sold_mixed: bool,
    /// Graduated lengths, from the longest, which is the unit's own, down; empty where all units have one length.
    pub lengths: Vec<GradedLength>,
}

/// A width of the mix.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MixedWidth {
    /// Along the course.
    pub width: Length,
    /// Part of all pieces, 0 to 1.
    pub share: f64,
}

/// A length of a graduated roof.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GradedLength {
    /// From butt to head.
    pub length: Length,
    /// At the butt.
    pub thickness: Length,
    /// Part of the slope that it covers, 0 to 1.
    pub share: f64,
}

impl Covering {
    /// The bond that is laid: the one asked for if the sheet allows it, else the sheet's first.
    #[must_use]
    pub fn bond(&self, asked: Option<Bond>) -> Bond {
        let by_lap = if self.lap == Lap::Triple { Bond::Third } else { Bond::Half };
        let own = self.bonds.allows.first().copied().unwrap_or(by_lap);
        asked.filter(|asked| *asked == own || self.bonds.allows.contains(asked)).unwrap_or(own)
    }

    /// Least distance from a joint to those so many courses down; none where they need not be missed.
    #[must_use]
    pub fn joint_offset_down(&self, courses: u32) -> Option<Length> {
        let two_down = self.bonds.two_down.unwrap_or(self.joint_offset);
        match courses {
            1 => Some(self.joint_offset),
            2 if self.lap == Lap::Triple => Some(two_down),
            2 => self.bonds.two_down,
            _ => None,
        }
    }
}

/// What the sheet leaves open about how units stand beside and over each other.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BondGroup {
    /// Bonds that may be chosen; the first is laid where the job chooses none. Absent: half bond, or third bond at triple
    /// lap.
    #[serde(default)]
    pub allows: Vec<Bond>,
    /// Least distance along the course from a joint to the joints two courses down. Absent: at triple lap as to the course
    /// below, else those need not be missed.
    pub two_down: Option<Measure>,
    /// How far every other unit may hang below the course line. Absent: butts lie straight.
    pub step: Option<Measure>,
    /// The mix of random widths.
    #[serde(default)]
    pub widths: Vec<MixedWidthTable>,
    /// Points of percent by which the laid share of a width may part from its own. Absent: 5.
    pub share_within: Option<f64>,
    /// True where random widths are sold mixed: a bundle holds as much running width as its count of units of the unit's
    /// own width. Absent: each width by itself.
    #[serde(default)]
    pub sold_mixed: bool,
    /// Graduated lengths, from the longest down; the first is the unit's own. Absent: all units have one length.
    #[serde(default)]
    pub lengths: Vec<GradedLengthTable>,
    /// Where these figures come from.
    pub source: String,
}

/// A width of the mix.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MixedWidthTable {
    /// Along the course.
    pub width: Measure,
    /// Percent of all pieces.
    pub share: f64,
}

/// A length of a graduated roof.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GradedLengthTable {
    /// From butt to head.
    pub length: Measure,
    /// At the butt.
    pub thickness: Measure,
    /// Percent of the slope that it covers.
    pub share: f64,
}

pub(crate) fn bonds(desk: &mut Desk, group: &BondGroup) -> Bonds {
    let percent = group.share_within.unwrap_or(5.0);
    let says = || format!("{percent} is not a figure from 0 to 100");
    desk.expect((0.0..=100.0).contains(&percent), "bond.share_within", says, "Type points of percent, such as 5.");
    Bonds {
        allows: group.allows.clone(),
        two_down: group.two_down.map(|offset| desk.nil_or_more("bond.two_down", offset)),
        step: group.step.map(|step| desk.some("bond.step", step)),
        widths: widths(desk, &group.widths),
        share_within: percent / 100.0,
        sold_mixed: group.sold_mixed,
        lengths: lengths(desk, &group.lengths),
    }
}

fn widths(desk: &mut Desk, tables: &[MixedWidthTable]) -> Vec<MixedWidth> {
    shares(desk, "bond.widths", tables.iter().map(|table| table.share));
    let path = |index: usize| format!("bond.widths[{index}].width");
    let mut widths: Vec<MixedWidth> = Vec::new();
    for (index, table) in tables.iter().enumerate() {
        let width = desk.size(&path(index), table.width);
        let says = || format!("{width} is not more than the width before it");
        let wider = widths.last().is_none_or(|before| before.width < width);
        desk.expect(wider, &path(index), says, "Give the widths from the narrowest up, each once.");
        widths.push(MixedWidth { width, share: table.share / 100.0 });
    }
    widths
}

fn lengths(desk: &mut Desk, tables: &[GradedLengthTable]) -> Vec<GradedLength> {
    shares(desk, "bond.lengths", tables.iter().map(|table| table.share));
    let mut lengths: Vec<GradedLength> = Vec::new();
    for (index, table) in tables.iter().enumerate() {
        let path = format!("bond.lengths[{index}]");
        let length = desk.size(&format!("{path}.length"), table.length);
        let says = || format!("{length} is not less than the length before it");
        let shorter = lengths.last().is_none_or(|before| before.length > length);
        desk.expect(shorter, &format!("{path}.length"), says, "Give the lengths from the longest down, each once.");
        let thickness = desk.some(&format!("{path}.thickness"), table.thickness);
        let says = || format!("{thickness} is more than the thickness of the longer units before it");
        let thinner = lengths.last().is_none_or(|before| before.thickness >= thickness);
        desk.expect(thinner, &format!("{path}.thickness"), says, "The thickest lie lowest.");
        lengths.push(GradedLength { length, thickness, share: table.share / 100.0 });
    }
    lengths
}

/// Percentages above 0 that sum to 100, where there are any.
fn shares(desk: &mut Desk, path: &str, shares: impl Iterator<Item = f64>) {
    let shares: Vec<f64> = shares.collect();
    for (index, share) in shares.iter().enumerate() {
        let says = || format!("{share} is not a share from 1 to 100 percent");
        desk.expect((1.0..=100.0).contains(share), &format!("{path}[{index}].share"), says, "Type percent.");
    }
    let sum: f64 = shares.iter().sum();
    let says = || format!("the shares sum to {sum}, not to 100");
    desk.expect(shares.is_empty() || (sum - 100.0).abs() <= ROUNDED, path, says, "Mend a share.");
}

/// What the figures must be to each other, so that each bond that is allowed can be laid.
pub(crate) fn together(desk: &mut Desk, covering: &Covering) {
    even(desk, covering);
    if covering.bonds.allows.contains(&Bond::Random) {
        random(desk, covering);
    }
    graduated(desk, covering);
    staggered(desk, covering);
}

fn graduated(desk: &mut Desk, covering: &Covering) {
    let lengths = covering.bonds.lengths.iter().map(|graded| graded.length);
    if let Some(longest) = lengths.clone().next() {
        let says = || format!("{longest} is not the unit's length, {}", covering.unit.length);
        let same = longest == covering.unit.length;
        desk.expect(same, "bond.lengths[0].length", says, "Give the longest as the unit's length too.");
    }
    for (index, length) in lengths.enumerate() {
        let least = covering.shortest_exposure() - covering.shortened(length);
        let says = || format!("at this length the least exposure would be {least}");
        let path = format!("bond.lengths[{index}].length");
        desk.expect(least >= Length::inches(1.0), &path, says, "Leave this length out, or mend the least exposures.");
    }
}

fn staggered(desk: &mut Desk, covering: &Covering) {
    for band in &covering.bands {
        let [step, greatest] = [covering.bonds.step.unwrap_or_default(), band.greatest_exposure];
        let says = || format!("{step} is not less than half of the greatest exposure, {greatest}");
        desk.expect(step * 2.0 < greatest, "bond.step", says, "Mend the step.");
    }
}

/// Units of one width keep their joints as far apart as the sheet asks.
fn even(desk: &mut Desk, covering: &Covering) {
    let asked = &covering.bonds.allows;
    let own = [covering.bond(None)];
    let allowed = if asked.is_empty() { &own[..] } else { asked };
    for (index, bond) in allowed.iter().enumerate() {
        let Some(every) = every(*bond) else { continue };
        let path = if index == 0 { "lap.joint_offset".into() } else { format!("bond.allows[{index}]") };
        let says = || "half bond puts joints in line with those two courses down, which must be missed".into();
        let in_line = every == 2 && covering.joint_offset_down(2).is_some_and(|offset| offset > SLACK);
        desk.expect(!in_line, &path, says, "Allow third bond or random widths.");
        let apart = (covering.unit.width + covering.gap) / f64::from(every);
        let least = covering.joint_offset;
        let says = || format!("{} bond of this width and gap has joints {apart} apart, less than {least}", bond.name());
        desk.expect(apart + SLACK >= least, &path, says, "Mend the offset, the width or the gap.");
    }
}

/// After how many courses joints of an even bond stand in line.
const fn every(bond: Bond) -> Option<u32> {
    match bond {
        Bond::Half => Some(2),
        Bond::Third => Some(3),
        Bond::Random => None,
    }
}

fn random(desk: &mut Desk, covering: &Covering) {
    let widths = &covering.bonds.widths;
    let says = || "random widths are allowed, and no widths are given".into();
    desk.expect(widths.len() > 1, "bond.widths", says, "Give two widths at least, with their shares.");
    for (index, MixedWidth { width, .. }) in widths.iter().enumerate() {
        let path = format!("bond.widths[{index}].width");
        let says = || format!("{width} is less than the least piece, {}", covering.least_piece);
        desk.expect(*width + SLACK >= covering.least_piece, &path, says, "Leave this width out, or mend the least piece.");
    }
    // A joint needs room over the widest unit, and one over each unit beside it.
    let room = widths.last().map_or(Length::ZERO, |widest| widest.width + covering.gap);
    let least = covering.joint_offset * 2.0;
    let says =
        || format!("the widest unit with its gap, {room}, leaves a joint over it no room: twice the offset is {least}");
    desk.expect(widths.is_empty() || room >= least, "bond.widths", says, "Mend the offset, or add a wider unit.");
}
