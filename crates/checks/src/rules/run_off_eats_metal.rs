//! # Run-off eats metal
//!
//! ## What it finds
//! Drip edge of zinc, zinc-coated steel or aluminum on planes whose valleys and flashings are copper; and valleys and flashings of
//! anything but stainless steel that wood shingles or shakes drain on.
//! ## Why it matters
//! Rain carries copper down onto the lesser metal and eats it through; acids that rain washes out of cedar, and salts out of treated
//! wood, eat metal where the drops fall, long before the wood is worn.
//! ## Remedy
//! Take edge metal of the flashing's own metal; under wood, line the valley with stainless steel or coat the metal.
//! ## Source
//! Metal Roof and Wall Cladding Code of Practice 3.0 (New Zealand), 4.9.1: copper above zinc, zinc-coated steel or aluminum; aluminum against wet and treated wood: United States Navy criteria; other metals under wood: common practice, no published source.

use details::{Kind as Goods, SheetMetal};

use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::{Reading, Text};
use crate::{Facts, Family, Outcome, Place};

pub(crate) const RULE: Rule = Rule {
    name: "run-off-eats-metal",
    kind: Kind::Practice,
    family: Family::Metals,
    endangers: &[Danger::Leak],
    reading: Reading::Memory,
    about: "metal",
    groups: &[],
    file: include_str!("run_off_eats_metal.rs"),
    run: run_off_eats_metal,
};

fn run_off_eats_metal(facts: &Facts) -> Verdict {
    let Some(metal) = &facts.details.metal else { return Verdict::not_applicable("No metal is laid.") };
    let runs = metal.items.iter().flat_map(|item| item.runs.iter().map(|run| run.along.plane));
    let mut planes: Vec<usize> = runs.collect();
    planes.sort_unstable();
    planes.dedup();
    on_edges(facts, metal.stock.metal, &planes)
        .or_else(|| off_wood(facts, metal.stock.metal, &planes))
        .unwrap_or_else(|| Verdict::pass("Nothing drains on metal that it eats."))
}

/// Copper whose water leaves over edge metal; none where that is known to bear it.
fn on_edges(facts: &Facts, sheet: SheetMetal, planes: &[usize]) -> Option<Verdict> {
    let below = |place: &Place| planes.contains(&place.plane);
    let edges = facts.strips(Goods::DripEdge).filter_map(|(_, strip)| facts.place_along(strip, 0.0)).filter(below);
    let edges: Vec<Place> = edges.collect();
    let first = *edges.first().filter(|_| sheet == SheetMetal::Copper)?;
    let Some(edge) = facts.dry_in.drip_edge_metal else {
        return Some(Verdict::missing(&["[dry_in.drip_edge] metal"]));
    };
    let text =
        Text { source: "Metal Roof and Wall Cladding Code of Practice 3.0 (New Zealand), 4.9.1.", reading: Reading::Read };
    let (plane, name) = (facts.plane_name(first), edge.name());
    let says = format!("The copper of {plane} drains over drip edge of {name}, which it eats");
    let is_eaten = matches!(edge, SheetMetal::Zinc | SheetMetal::GalvanizedSteel | SheetMetal::Aluminum);
    is_eaten.then(|| Verdict::found(Outcome::Fail, says, edges).by(Some(text)))
}

/// Wood that drains on metal which its acids eat.
fn off_wood(facts: &Facts, sheet: SheetMetal, planes: &[usize]) -> Option<Verdict> {
    let wood = facts.laid().filter(|laid| laid.is_wood() && planes.contains(&laid.index));
    let places: Vec<Place> = wood.map(|laid| laid.place(0)).collect();
    let first = *places.first().filter(|_| sheet != SheetMetal::StainlessSteel)?;
    let says = format!("The wood of {} drains on {}, which its acids eat", facts.plane_name(first), sheet.name());
    let text = match sheet {
        SheetMetal::Aluminum => Text {
            source: "United States Navy criteria: aluminum is kept apart from wet and treated wood.",
            reading: Reading::Read,
        },
        _ => Text { source: "Common practice, no published source.", reading: Reading::Memory },
    };
    Some(Verdict::found(Outcome::Attention, says, places).by(Some(text)))
}

#[cfg(test)]
mod tests {
    use covering::Material;
    use details::{Lies, MetalKind};

    use super::*;
    use crate::trial::{Trial, strip};

    const NAME: &str = "run-off-eats-metal";

    /// Step flashing above drip edge.
    fn with(material: Material, sheet: SheetMetal, edge: Option<SheetMetal>) -> Trial {
        let mut trial = Trial::of(material);
        trial.metal(MetalKind::StepFlashing, &[[[0.0, 1.0], [0.0, 10.0]]], 8.5);
        trial.details.metal.iter_mut().for_each(|metal| metal.stock.metal = sheet);
        let along = strip(Lies::Line { line: 0 }, 0, [0.0, 120.0], [0.0, 0.0], &[[0.0, 120.0]]);
        trial.roll(Goods::DripEdge, 0.0, vec![along]);
        trial.dry_in.drip_edge_metal = edge;
        trial
    }

    /// Order of metals and what copper does to those above it: the source named in the rule.
    #[test]
    fn copper_above_lesser_metal() {
        use SheetMetal::{Aluminum, Copper, GalvanizedSteel, StainlessSteel, Zinc};
        let slate = |sheet, edge| with(Material::NaturalSlate, sheet, Some(edge));
        for edge in [Zinc, GalvanizedSteel, Aluminum] {
            assert_eq!(slate(Copper, edge).outcome(NAME), Outcome::Fail, "{edge:?}");
            assert_eq!(slate(edge, Copper).outcome(NAME), Outcome::Pass, "{edge:?} above copper");
        }
        assert_eq!([Copper, StainlessSteel].map(|edge| slate(Copper, edge).outcome(NAME)), [Outcome::Pass; 2]);
        let found = slate(Copper, GalvanizedSteel).one(NAME);
        assert_eq!(found.says, "The copper of house, south drains over drip edge of galvanized steel, which it eats.");
        assert!(found.read_source);
        assert_eq!(slate(Copper, Zinc).adds(&slate(Copper, Copper)), [NAME]);
        let untold = with(Material::NaturalSlate, Copper, None);
        assert_eq!(untold.says(NAME), "The job does not give [dry_in.drip_edge] metal.");
        assert_eq!(Trial::sound().says(NAME), "No metal is laid.");
    }

    #[test]
    fn wood_over_metal() {
        let on = |sheet| with(Material::WoodShingle, sheet, Some(SheetMetal::StainlessSteel));
        let copper = on(SheetMetal::Copper);
        assert_eq!(copper.says(NAME), "The wood of house, south drains on copper, which its acids eat.");
        assert!(!copper.one(NAME).read_source && on(SheetMetal::Aluminum).one(NAME).read_source);
        assert_eq!([SheetMetal::Aluminum, SheetMetal::Zinc].map(|sheet| on(sheet).outcome(NAME)), [Outcome::Attention; 2]);
        assert_eq!(on(SheetMetal::StainlessSteel).outcome(NAME), Outcome::Pass);
        assert_eq!(copper.adds(&on(SheetMetal::StainlessSteel)), [NAME]);
    }
}
