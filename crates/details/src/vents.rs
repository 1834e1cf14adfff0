//! Vents of the attic, from its floor and the ridges and eaves that there are. NFA is net free area.

use std::borrow::Cow;

use covering::Covering;
use units::{Area, Length};

use crate::{Attic, Edition, Framing, Given, Missing, RidgeVent};

/// What lets the attic breathe.
#[derive(Debug, Clone, PartialEq)]
pub struct Vents {
    /// Of the attic floor.
    pub floor: Area,
    /// NFA is the floor over this: 150 or 300.
    pub share: u32,
    /// Why this share, with the code edition.
    pub why: String,
    /// NFA in all.
    pub needed: Area,
    /// Of it in the upper part of the attic: least and most.
    pub upper: [Area; 2],
    /// Of it at the eaves: the rest, and no less than the ridge lets out.
    pub lower: Area,
    /// Every ridge that can be vented.
    pub ridges: Vec<RidgeRun>,
    /// Length of one section of the ridge vent; none where no ridge vent is described.
    pub section: Option<Length>,
    /// NFA that the ridges give.
    pub ridge_gives: Area,
    /// To be cut out of the deck at the ridge, both sides and the ridge board together; none where it is not known.
    pub slot: Option<Length>,
    /// Soffit vent needed for the lower share; none where no soffit vent is described.
    pub soffit: Option<Length>,
    /// Eaves there are.
    pub eaves: Length,
    /// What falls short and what to do, a sentence each.
    pub notes: Vec<String>,
}

/// A ridge with its vent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RidgeRun {
    /// Index in [`roof::Roof::lines`].
    pub line: usize,
    /// Where slot and vent begin, in inches from the line's first end.
    pub from: f64,
    /// Where they end.
    pub to: f64,
    /// Sections of vent, laid from the first end on; the last one is cut.
    pub sections: u32,
}

/// How much of the NFA lies in the upper part, least and most: 40 to 50 % (International Residential Code 2012 R806.2, as a
/// page quotes it, and later editions from memory, not read), 50 to 80 % in 2009 (as another page quotes it).
const fn upper_share(code: Option<Edition>) -> [f64; 2] {
    match code {
        Some(Edition::Of2009) => [0.5, 0.8],
        _ => [0.4, 0.5],
    }
}

/// The colder zones, in which a vapour retarder is asked for before the lesser share is allowed.
const COLD_ZONES: u32 = 6;

/// 150 or 300, and why.
///
/// International Residential Code R806.2. 2012: the lesser share if the vents are balanced *or* a vapour retarder is there
/// (as a page quotes it); 2015 on: balanced *and*, in climate zones 6 to 8, a vapour retarder (from memory, not read). No
/// edition known: as the later ones, which ask for more.
#[must_use]
pub fn vent_share(attic: &Attic, code: Option<Edition>, climate_zone: Option<u32>) -> (u32, String) {
    let balanced = attic.balanced == Some(true);
    let retarder = attic.vapor_retarder == Some(true);
    let warm = climate_zone.is_some_and(|zone| zone < COLD_ZONES);
    let either_will_do = matches!(code, Some(Edition::Of2009 | Edition::Of2012));
    match (balanced, retarder) {
        (true, true) => (300, "vents are balanced and a vapour retarder is there".into()),
        (true, false) if either_will_do => (300, "vents are balanced".into()),
        (false, true) if either_will_do => (300, "a vapour retarder is there".into()),
        (true, false) if warm => (300, "vents are balanced, and the climate zone asks for no vapour retarder".into()),
        (true, false) => (150, "no vapour retarder is told of, nor a climate zone from 1 to 5".into()),
        (false, _) => (150, "the vents are not told to be balanced".into()),
    }
}

/// Works out the vents of an attic, or says what is missing.
pub(crate) fn vents(given: &Given<'_>, attic: &Attic) -> Result<Vents, Missing> {
    let floor = attic.area.or(given.floor_area).ok_or_else(no_floor)?;
    let (share, why) = vent_share(attic, given.climate.code, given.climate.zone);
    let needed = part(floor, 1.0 / f64::from(share));
    let upper = upper_share(given.climate.code).map(|of| part(needed, of));
    let ridges = attic.ridge_vent.map_or_else(Vec::new, |vent| ridges(given, &vent));
    let gives = ridge_gives(&ridges, attic.ridge_vent.as_ref());
    let lower = lower(needed, upper, gives);
    let mut vents = Vents {
        slot: attic.ridge_vent.and_then(|vent| slot(given, &vent)).filter(|_| !ridges.is_empty()),
        soffit: attic.soffit_vent.map(|vent| Length::feet(lower.to_square_inches() / vent.nfa_per_foot.to_square_inches())),
        eaves: given.eaves().map(|(_, line)| line.length()).fold(Length::ZERO, |sum, length| sum + length),
        notes: Vec::new(),
        section: attic.ridge_vent.map(|vent| vent.section),
        ridge_gives: gives,
        floor,
        share,
        why,
        needed,
        upper,
        lower,
        ridges,
    };
    vents.notes = notes(given, attic, &vents);
    Ok(vents)
}

fn no_floor() -> Missing {
    Missing {
        what: "vents".into(),
        says: "the attic's floor is not known, as some overhang is not given".into(),
        remedy: "write the overhangs, or area_sqft under [attic]".into(),
    }
}

fn part(of: Area, share: f64) -> Area {
    Area::square_inches(of.to_square_inches() * share)
}

/// The rest of what is needed, and no less than goes out at the ridge; half where the ridge falls short.
fn lower(needed: Area, upper: [Area; 2], gives: Area) -> Area {
    let [needed, least, gives] = [needed, upper[0], gives].map(Area::to_square_inches);
    Area::square_inches(if gives < least { needed / 2.0 } else { gives.max(needed - gives) })
}

/// Every ridge, less what stays closed at its ends. A ridge too short for that is not vented.
fn ridges(given: &Given<'_>, vent: &RidgeVent) -> Vec<RidgeRun> {
    let end = vent.end.to_inches();
    let run = |(line, of): (usize, &roof::Line)| {
        let [from, to] = [end, of.length().to_inches() - end];
        let sections = ((to - from) / vent.section.to_inches() - 1e-9).ceil() as u32;
        (sections > 0).then_some(RidgeRun { line, from, to, sections })
    };
    given.lines(roof::EdgeKind::Ridge).filter_map(run).collect()
}

fn ridge_gives(ridges: &[RidgeRun], vent: Option<&RidgeVent>) -> Area {
    let length: f64 = ridges.iter().map(|run| run.to - run.from).sum();
    Area::square_inches(vent.map_or(0.0, |vent| length / 12.0 * vent.nfa_per_foot.to_square_inches()))
}

/// The sheet with the whole slot of a ridge vent in it, the ridge board included, so that units stay back from both its edges.
/// What stands at the peak must be known; else the sheet's own slot stays.
#[must_use]
pub fn with_vent_slot<'a>(covering: &'a Covering, vent: Option<&RidgeVent>) -> Cow<'a, Covering> {
    let board = match vent.and_then(|vent| vent.framing) {
        Some(Framing::RidgeBoard(thickness)) => thickness,
        Some(Framing::Truss) => Length::ZERO,
        None => return Cow::Borrowed(covering),
    };
    let mut sheet = covering.clone();
    sheet.edges.ridge_slot = clear_slot(covering) + board;
    Cow::Owned(sheet)
}

/// The clear slot of the sheet, and the ridge board where there is one.
fn slot(given: &Given<'_>, vent: &RidgeVent) -> Option<Length> {
    let clear = given.covered().map(|(_, _, covering)| clear_slot(covering)).reduce(|a, b| if b > a { b } else { a })?;
    match vent.framing? {
        Framing::Truss => Some(clear),
        Framing::RidgeBoard(thickness) => Some(clear + thickness),
    }
}

/// Where the sheet cuts no slot, an inch each side (from memory, not read).
fn clear_slot(covering: &Covering) -> Length {
    let slot = covering.edges.ridge_slot;
    if slot > Length::ZERO { slot } else { Length::inches(2.0) }
}

fn notes(given: &Given<'_>, attic: &Attic, vents: &Vents) -> Vec<String> {
    let inches = |area: Area| format!("{:.0} sq in", area.to_square_inches());
    let mut notes = Vec::new();
    match attic.ridge_vent {
        None => notes
            .push("No ridge vent is described: write nfa_per_foot, section and framing under [attic.ridge_vent].".into()),
        Some(vent) if vents.ridge_gives < vents.upper[0] => notes.push(too_short(vents, &vent)),
        Some(vent) if vent.framing.is_none() => {
            notes.push(
                "The slot is not known: write framing = \"truss\" or \"ridge-board\" under [attic.ridge_vent].".into(),
            );
        }
        Some(_) => {}
    }
    if vents.soffit.is_some_and(|soffit| soffit > vents.eaves) {
        notes.push(format!(
            "{} of soffit vent are needed and the eaves are {} long: take a vent with more NFA to the foot.",
            vents.soffit.unwrap_or(Length::ZERO),
            vents.eaves
        ));
    }
    let no_slot = given.covered().any(|(_, _, covering)| covering.edges.ridge_slot == Length::ZERO);
    if !vents.ridges.is_empty() && vents.slot.is_none() && no_slot {
        notes.push(
            "The sheet cuts no slot at the ridge, so its units are laid up to the ridge line: cut them back with the deck."
                .into(),
        );
    }
    if vents.ridge_gives > vents.upper[1] {
        notes.push(format!("The whole ridge lets out {}, so the soffits must let in as much.", inches(vents.ridge_gives)));
    }
    notes
}

/// What to do when the ridges are too short for the upper share.
fn too_short(vents: &Vents, vent: &RidgeVent) -> String {
    let [least, gives] = [vents.upper[0], vents.ridge_gives].map(Area::to_square_inches);
    let feet: f64 = vents.ridges.iter().map(|run| (run.to - run.from) / 12.0).sum();
    let stronger = if feet > 0.0 {
        format!(
            "a ridge vent of {:.1} sq in to the foot instead of {:.1}, or ",
            least / feet,
            vent.nfa_per_foot.to_square_inches()
        )
    } else {
        String::new()
    };
    format!(
        "The ridges give {gives:.0} of the {least:.0} sq in needed in the upper part: take {stronger}{:.0} sq in of roof vents no \
         more than 3 ft below the ridge. Do not add gable vents: they draw from the ridge instead of the eaves.",
        least - gives
    )
}
