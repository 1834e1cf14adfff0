//! The order of work: only the steps that this roof needs, and what must be seen before the next is begun.

use covering::Covering;
use roof::{EdgeKind, OpeningKind};
use units::Length;

use crate::strip::{Kind, Lies, Rolls, Strip};
use crate::vents::Vents;
use crate::{Deck, DryIn, Given};

/// A stage of the work. At a hold point the next stages wait until somebody has looked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// Unchanging short name, `dry-in`.
    pub id: &'static str,
    /// What is done.
    pub title: &'static str,
    /// Nothing that waits for it is begun before it is seen and signed.
    pub hold_point: bool,
    /// Ids of the steps that must be done before.
    pub after: Vec<&'static str>,
    /// What must be seen, a sentence each.
    pub see: Vec<String>,
    /// Who looks.
    pub who: Who,
    /// The photo to take.
    pub photo: String,
}

/// Who looks at a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Who {
    /// The crew lead.
    CrewLead,
    /// The sheet-metal hand.
    SheetMetalHand,
    /// The building official, where the place inspects it; the crew lead in any case.
    BuildingOfficial,
}

impl Who {
    /// The trade's word.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::CrewLead => "crew lead",
            Self::SheetMetalHand => "sheet-metal hand",
            Self::BuildingOfficial => "crew lead, and the building official where the place inspects it",
        }
    }
}

/// The steps of this roof, in the order in which they are done.
pub(crate) fn order_of_work(given: &Given<'_>, dry_in: &DryIn, vents: Option<&Vents>) -> Vec<Step> {
    let Some((_, _, covering)) = given.covered().next() else { return Vec::new() };
    let steps = [
        tear_off(&given.deck),
        Some(deck(&given.deck)),
        Some(dry_in_step(given, dry_in)),
        metals(given),
        Some(first_courses(covering)),
        Some(field()),
        ridge(given, vents),
    ];
    let mut steps: Vec<Step> = steps.into_iter().flatten().collect();
    for at in 1..steps.len() {
        steps[at].after = vec![steps[at - 1].id];
    }
    steps
}

fn step(id: &'static str, title: &'static str, who: Who, photo: &str, see: Vec<String>) -> Step {
    Step { id, title, hold_point: true, after: Vec::new(), see, who, photo: photo.into() }
}

fn tear_off(deck: &Deck) -> Option<Step> {
    let layers = deck.old_layers.filter(|&layers| layers > 0)?;
    let see = vec![match layers {
        1 => "The old covering is off, nails and all; no more is opened than can be dried in the same day.".into(),
        _ => format!("{layers} old layers are off, nails and all; no more is opened than can be dried in the same day."),
    }];
    Some(Step { hold_point: false, ..step("tear-off", "Old layers off", Who::CrewLead, "each plane before and after", see) })
}

fn deck(deck: &Deck) -> Step {
    let mut see = vec![match (deck.kind, deck.thickness) {
        (Some(kind), Some(thickness)) => format!("The deck is {kind}, {thickness} thick."),
        (Some(kind), None) => format!("The deck is {kind}; measure its thickness."),
        _ => "Kind and thickness of the deck: not told, measure them.".into(),
    }];
    see.push(match deck.joints {
        Some(joints) => format!("Joints between its sheets are held by {joints}."),
        None => "Joints between its sheets lie on framing, blocking or clips: not told.".into(),
    });
    see.extend([
        found("flat: no step and no hollow shows under a straightedge", deck.flat),
        found("sound: nothing gives underfoot, nothing is rotten", deck.sound),
        found("dry", deck.dry),
        found("draining: water stands nowhere", deck.drains),
    ]);
    if deck.old_layers.is_none() {
        see.push("Old layers are off: not told.".into());
    }
    step("deck", "The deck", Who::BuildingOfficial, "each plane bare; every replaced sheet with a tape on it", see)
}

fn found(what: &str, seen: Option<bool>) -> String {
    match seen {
        Some(true) => format!("It is {what}: found so."),
        Some(false) => format!("It is {what}: FOUND NOT SO. Mend it before anything is laid."),
        None => format!("It is {what}: to be seen."),
    }
}

fn dry_in_step(given: &Given<'_>, dry_in: &DryIn) -> Step {
    let of = |kind: Kind| dry_in.rolls.iter().filter(move |rolls| rolls.kind == kind);
    let [eaves, rakes] = [EdgeKind::Eave, EdgeKind::Rake].map(|kind| is_edge_metal_over(given, dry_in, kind));
    let mut see = Vec::new();
    if eaves == Some(false) {
        see.push("Drip edge of the eaves lies on the deck, under the sheets; pieces lap.".into());
    }
    if rakes == Some(false) {
        see.push("Drip edge of the rakes lies on the deck, under the sheets.".into());
    }
    see.extend(of(Kind::IceBarrier).map(|rolls| {
        let roll = &rolls.roll;
        format!("Ice barrier is stuck down without wrinkles, laps {} at sides and {} at ends.", roll.side_lap, roll.end_lap)
    }));
    see.extend(of(Kind::Underlayment).map(laps));
    if eaves == Some(true) {
        see.push("Drip edge of the eaves lies over the underlayment; pieces lap.".into());
    }
    if rakes == Some(true) {
        see.push("Drip edge of the rakes lies over the underlayment.".into());
    }
    let photo =
        "barrier's upper end with a tape from the roof edge; one side lap and one end lap with a tape; the edge metal";
    step("dry-in", "Dry-in", Who::BuildingOfficial, photo, see)
}

/// Whether the metal of one kind of edge lies over the underlayment; none where there is no such edge.
fn is_edge_metal_over(given: &Given<'_>, dry_in: &DryIn, kind: EdgeKind) -> Option<bool> {
    let rolls = dry_in.rolls.iter().filter(|rolls| rolls.kind == Kind::DripEdge);
    let is_along = |strip: &&Strip| match strip.lies {
        Lies::Line { line } => given.roof.lines.get(line).is_some_and(|line| line.kind == kind),
        _ => false,
    };
    rolls.flat_map(|rolls| &rolls.strips).find(is_along).map(|strip| strip.over_underlayment)
}

fn laps(rolls: &Rolls) -> String {
    let roll = &rolls.roll;
    format!(
        "Underlayment ({}) lies flat, each course over the one below: {} at top laps, {} at end laps; carried over hips, ridges and valleys.",
        roll.name, roll.side_lap, roll.end_lap
    )
}

/// Valleys, walls and whatever comes through the roof; none where there are none.
fn metals(given: &Given<'_>) -> Option<Step> {
    use EdgeKind::{DeadValley, Headwall, Sidewall, Valley};
    let has = |kind: EdgeKind| given.lines(kind).next().is_some();
    let mut see = Vec::new();
    if has(Valley) || has(DeadValley) {
        see.push("Valleys are lined, laps away from the water.".into());
    }
    let widens =
        |covering: &Covering| covering.edges.valley_clear > Length::ZERO && covering.edges.valley_growth > Length::ZERO;
    if has(Valley) && given.covered().any(|(_, _, covering)| widens(covering)) {
        see.push("Valley metal is trimmed so that it narrows upwards with the valley, clear of every nail.".into());
    }
    if has(Sidewall) || has(Headwall) {
        see.push("Flashings at walls are cut and at hand, one for each course along a sidewall.".into());
    }
    see.extend(given.roof.openings.iter().map(|opening| match opening.kind {
        OpeningKind::Chimney if opening.cricket.is_some() => format!("{}: cricket and back pan are in place.", opening.name),
        OpeningKind::Chimney => format!("{}: apron and back pan are at hand.", opening.name),
        OpeningKind::Skylight => format!("{}: its curb or frame and its flashing are in place.", opening.name),
        OpeningKind::Pipe | OpeningKind::Vent => {
            format!("{}: it comes through the deck where it stays, flange at hand.", opening.name)
        }
    }));
    let photo = "each valley, wall and opening before it is covered";
    (!see.is_empty()).then(|| step("metals", "Metals and all that comes through the roof", Who::SheetMetalHand, photo, see))
}

fn first_courses(covering: &Covering) -> Step {
    let see = vec![
        format!("Starter and first course are straight; their joints are {} apart at least.", covering.starter.joint_offset),
        format!("Joints of the first three courses are {} apart at least from course to course.", covering.joint_offset),
        format!("{} nails in each unit, flush, where the sheet wants them.", covering.nails.each),
    ];
    step(
        "first-courses",
        "First three courses",
        Who::CrewLead,
        "the first three courses with a tape on exposure and headlap",
        see,
    )
}

fn field() -> Step {
    let see = vec!["Courses keep to the marks at both ends.".into()];
    Step {
        hold_point: false,
        ..step("field", "Courses up to the ridge", Who::CrewLead, "each plane when half of it is laid", see)
    }
}

/// The slot, the vent and the caps; none where there is neither ridge nor hip.
fn ridge(given: &Given<'_>, vents: Option<&Vents>) -> Option<Step> {
    let mut see = Vec::new();
    if let Some(vents) = vents.filter(|vents| !vents.ridges.is_empty()) {
        let slot = vents.slot.map_or_else(|| "as the vent asks".to_owned(), |slot| format!("{slot} in all"));
        see.push(format!("The slot is cut {slot} and stays closed at its ends; the vent runs in one direction."));
    }
    let has = |kind: EdgeKind| given.lines(kind).next().is_some();
    let any = |is: fn(&Covering) -> bool| given.covered().any(|(_, _, covering)| is(covering));
    let has_caps =
        has(EdgeKind::Ridge) && any(Covering::has_ridge_caps) || has(EdgeKind::Hip) && any(Covering::has_hip_caps);
    if has_caps {
        see.push("Caps are straight, lap alike and are nailed at both sides.".into());
    }
    let has_metal = has(EdgeKind::Ridge) && any(|covering| !covering.has_ridge_caps())
        || has(EdgeKind::Hip) && any(Covering::has_hip_metal);
    if has_metal {
        see.push("Ridge and hip metal is straight, its laps sealed and away from the weather, nailed at both sides.".into());
    }
    (!see.is_empty()).then(|| step("ridge", "Ridges and hips", Who::CrewLead, "the ridge open, and capped", see))
}
