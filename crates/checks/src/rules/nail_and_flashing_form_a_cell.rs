//! # Nail and flashing form a cell
//!
//! ## What it finds
//! Nails of a metal that, nailed through the flashing of this roof, would eat it or be eaten: it wants a look at what flashing
//! is fixed with.
//! ## Why it matters
//! Two metals that touch in the wet are a battery; the less noble one goes, and a nail goes first because it is small.
//! ## Remedy
//! Fix flashing with nails and cleats of its own metal; keep the units' nails out of it.
//! ## Source
//! Metal Roof and Wall Cladding Code of Practice 3.0 (New Zealand), 4.9.1: order of metals, stainless steel in zinc-coated sheet; copper with steel nails as trade pages tell. Such orders hold for sea water; long exposure found exceptions.

use details::SheetMetal;

use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family, Metal};

pub(crate) const RULE: Rule = Rule {
    name: "nail-and-flashing-form-a-cell",
    kind: Kind::Practice,
    family: Family::Metals,
    endangers: &[Danger::Leak, Danger::Warranty],
    reading: Reading::Read,
    about: "fastener.metal",
    groups: &[],
    file: include_str!("nail_and_flashing_form_a_cell.rs"),
    run: nail_and_flashing_form_a_cell,
};

fn nail_and_flashing_form_a_cell(facts: &Facts) -> Verdict {
    let Some(sheet) = facts.details.metal.as_ref().map(|metal| metal.stock.metal) else {
        return Verdict::not_applicable("No metal is laid.");
    };
    let Some(nail) = facts.fastener.metal else { return Verdict::missing(&["[fastener] metal"]) };
    let names = format!("The flashing is {}, the nails are {}", sheet.name(), nail.name());
    match eaten(sheet, nail) {
        Some(which) => Verdict::attention(format!("{names}: where they touch, the {which} goes.")),
        None => Verdict::pass(format!("{names}.")),
    }
}

/// What goes where the two touch: of metals far apart in the order zinc, zinc-coated steel, aluminum, copper, bronze, stainless
/// steel the one that stands first.
const fn eaten(sheet: SheetMetal, nail: Metal) -> Option<&'static str> {
    use Metal::{Aluminum, Bronze, Copper, HotDipGalvanized, StainlessSteel};
    match (sheet, nail) {
        (SheetMetal::Copper | SheetMetal::StainlessSteel, HotDipGalvanized | Aluminum) => Some("nail"),
        (SheetMetal::Zinc | SheetMetal::GalvanizedSteel, Copper | Bronze | StainlessSteel)
        | (SheetMetal::Aluminum, Copper | Bronze) => Some("flashing"),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use details::MetalKind;

    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    const NAME: &str = "nail-and-flashing-form-a-cell";

    fn with(sheet: SheetMetal, nail: Metal) -> Trial {
        let mut trial = Trial::sound();
        trial.metal(MetalKind::OpenValley, &[[[0.0, 0.0], [60.0, 80.0]]], 17.0);
        trial.details.metal.iter_mut().for_each(|metal| metal.stock.metal = sheet);
        trial.fastener.metal = Some(nail);
        trial
    }

    /// Order of metals, and what is said of stainless steel in zinc-coated sheet and of copper with steel nails: the sources above.
    #[test]
    fn the_less_noble_goes() {
        let says = |sheet, nail| with(sheet, nail).says(NAME);
        let stainless =
            "The flashing is galvanized steel, the nails are stainless steel: where they touch, the flashing goes.";
        assert_eq!(says(SheetMetal::GalvanizedSteel, Metal::StainlessSteel), stainless);
        let copper = "The flashing is copper, the nails are hot-dip galvanized steel: where they touch, the nail goes.";
        assert_eq!(says(SheetMetal::Copper, Metal::HotDipGalvanized), copper);
        for (sheet, nail) in [(SheetMetal::Zinc, Metal::Copper), (SheetMetal::Aluminum, Metal::Bronze)] {
            assert_eq!(with(sheet, nail).outcome(NAME), Outcome::Attention);
        }
        for (sheet, nail) in [
            (SheetMetal::Copper, Metal::Copper),
            (SheetMetal::Copper, Metal::Bronze),
            (SheetMetal::GalvanizedSteel, Metal::HotDipGalvanized),
            (SheetMetal::Aluminum, Metal::Aluminum),
            (SheetMetal::StainlessSteel, Metal::StainlessSteel),
        ] {
            assert_eq!(with(sheet, nail).outcome(NAME), Outcome::Pass, "{sheet:?} {nail:?}");
        }
        let spoiled = with(SheetMetal::GalvanizedSteel, Metal::Copper);
        assert_eq!(spoiled.adds(&with(SheetMetal::Copper, Metal::Copper)), [NAME]);
        assert_eq!(Trial::sound().says(NAME), "No metal is laid.");
    }
}
