//! # Fire class below site
//!
//! ## What it finds
//! Coverings whose best tested class under fire from outside is below the one that the place asks for; and planes whose layers,
//! from the units down to the deck, are no list on which that class was reached. Lists are compared layer by layer: every word
//! of the test's name must stand in the other's.
//! ## Why it matters
//! A roof without its class is refused where brands fly, and the class belongs to the whole build-up, not to the unit.
//! ## Remedy
//! Lay exactly the layers of the test, or choose a covering or build-up of the class that is asked for.
//! ## Source
//! The covering's data sheet, tested fire classes.

use std::collections::BTreeSet;

use covering::{FireClass, FireTest};
use details::{Layer, LayerKind, Layers};

use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "fire-class-below-site",
    kind: Kind::Maker,
    family: Family::Tested,
    endangers: &[Danger::Code, Danger::Safety],
    reading: Reading::Read,
    about: "site.fire_class",
    groups: &["tested"],
    file: include_str!("fire_class_below_site.rs"),
    run: fire_class_below_site,
};

fn fire_class_below_site(facts: &Facts) -> Verdict {
    let Some(asked) = facts.site.fire_class else {
        return Verdict::missing(&["[site] fire_class"]);
    };
    let coverings = facts.coverings();
    let tests = coverings.iter().flat_map(|(_, covering)| &covering.conditions.tested.fire);
    let Some(best) = tests.min_by_key(|test| test.class) else {
        return Verdict::not_in_sheet("a class under fire, [tested] fire");
    };
    let told = |test: &FireTest| format!("Class {} by {}, {}", test.class.name(), test.test, layers(test));
    let asks = format!("class {} is asked for.", asked.name());
    let lists = &facts.details.layers;
    if best.class > asked || lists.is_empty() {
        return Verdict::judged(best.class <= asked, format!("{}; {asks}", told(best))).at_best_attention();
    }
    match lists.iter().find(|list| burnt(facts, list, asked).is_none()) {
        Some(other) => Verdict::attention(format!("{}; {}; {asks}", told(best), told_list(facts, other))),
        None => {
            let test = lists.first().and_then(|list| burnt(facts, list, asked)).unwrap_or(best);
            Verdict::pass(format!("{}, as they lie here; {asks}", told(test)))
        }
    }
}

fn layers(test: &FireTest) -> String {
    format!("with {} and no other layers", test.layers.join(" over "))
}

/// The test of the class, or of a better one, that was burnt on these layers.
fn burnt<'a>(facts: &Facts<'a>, list: &Layers, asked: FireClass) -> Option<&'a FireTest> {
    let covering = facts.covering(*list.planes.first()?)?;
    let laid = from_the_top(facts, list);
    covering.conditions.tested.fire.iter().find(|test| test.class <= asked && is_same(&test.layers, &laid))
}

fn told_list(facts: &Facts, list: &Layers) -> String {
    let plane = list.planes.first().and_then(|&plane| facts.roof.planes.get(plane));
    format!("{} has {}", plane.map_or("", |plane| &plane.name), from_the_top(facts, list).join(" over "))
}

/// What lies on a plane from the units down, each layer as often as it lies there.
fn from_the_top(facts: &Facts, list: &Layers) -> Vec<String> {
    let named = |layer: &Layer| match (layer.kind, facts.deck.thickness) {
        (LayerKind::Deck, Some(thickness)) => format!("{} {}", layer.name, thickness.in_inches().replace('"', " in")),
        _ => layer.name.clone(),
    };
    let each = |layer: &Layer| std::iter::repeat_n(named(layer), layer.times as usize);
    list.layers.iter().rev().flat_map(each).collect()
}

/// Layer by layer every word of the test's name stands in the other's.
fn is_same(tested: &[String], laid: &[String]) -> bool {
    let is_in = |(tested, laid): (&String, &String)| words(tested).is_subset(&words(laid));
    tested.len() == laid.len() && tested.iter().zip(laid).all(is_in)
}

/// In small letters; a thickness of 1/2 is a word, whether inches are written in, \" or not at all.
fn words(name: &str) -> BTreeSet<String> {
    let parts = name.to_lowercase();
    let parts = parts.split(|c: char| !(c.is_alphanumeric() || c == '/' || c == '.')).map(str::to_owned);
    parts.filter(|word| !["", "in", "inch", "inches"].contains(&word.as_str())).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    fn tested(is: FireClass, asked: FireClass) -> Trial {
        let mut trial = Trial::sound();
        let layers = ["unit", "cap sheet", "plywood"].map(str::to_owned).to_vec();
        trial.covering.conditions.tested.fire = vec![FireTest { class: is, test: "ASTM E108".into(), layers }];
        trial.site.fire_class = Some(asked);
        trial
    }

    /// A is the best, C the least (ASTM E108, from memory, not read).
    #[test]
    fn a_better_class_will_do() {
        use FireClass::{A, B, C};
        let outcome = |is, asked| tested(is, asked).outcome("fire-class-below-site");
        assert_eq!([outcome(A, A), outcome(A, C), outcome(B, B)], [Outcome::Attention; 3]);
        assert_eq!([outcome(B, A), outcome(C, B)], [Outcome::Fail; 2]);
        let says = "Class B by ASTM E108, with unit over cap sheet over plywood and no other layers; class A is asked for.";
        assert_eq!(tested(B, A).says("fire-class-below-site"), says);
        assert_eq!(tested(B, A).adds(&tested(A, A)), ["fire-class-below-site"]);
    }

    /// Deck, felt and units as they lie, from the deck up; the sheet's test on the same, from the units down.
    fn laid(names: &[&str]) -> Trial {
        let mut trial = tested(FireClass::A, FireClass::A);
        trial.covering.name = "Trial unit, generic".into();
        let kinds = [LayerKind::Deck, LayerKind::Underlayment, LayerKind::Underlayment, LayerKind::Units];
        let layer = |(kind, name): (LayerKind, &&str)| Layer { kind, name: (*name).into(), times: 1, in_part: false };
        let last = names.len() - 1;
        let kind = |at: usize| if at == last { LayerKind::Units } else { kinds[at] };
        let layers = names.iter().enumerate().map(|(at, name)| layer((kind(at), name))).collect();
        trial.details.layers = vec![Layers { planes: vec![0], layers, fire: Vec::new() }];
        trial.covering.conditions.tested.fire[0].layers = ["unit", "Cap sheet", "plywood 1/2\""].map(str::to_owned).to_vec();
        trial
    }

    #[test]
    fn a_class_holds_for_its_layers_only() {
        let rule = "fire-class-below-site";
        let same = laid(&["plywood", "mineral cap sheet", "Trial unit, generic"]);
        let says = "Class A by ASTM E108, with unit over Cap sheet over plywood 1/2\" and no other layers, as they lie here; class A \
                    is asked for.";
        assert_eq!((same.outcome(rule), same.says(rule).as_str()), (Outcome::Pass, says));
        let other = laid(&["plywood", "felt", "Trial unit, generic"]);
        let says = "Class A by ASTM E108, with unit over Cap sheet over plywood 1/2\" and no other layers; house, south has Trial \
                    unit, generic over felt over plywood 1/2 in; class A is asked for.";
        assert_eq!((other.outcome(rule), other.says(rule).as_str()), (Outcome::Attention, says));
        assert_eq!(other.adds(&same), [rule]);
        let mut thick = laid(&["plywood", "mineral cap sheet", "Trial unit, generic"]);
        thick.deck.thickness = Some(units::Length::inches(0.625));
        assert_eq!(thick.outcome(rule), Outcome::Attention);
        let more = laid(&["plywood", "mineral cap sheet", "mineral cap sheet", "Trial unit, generic"]);
        assert_eq!(more.outcome(rule), Outcome::Attention);
        let mut twice = laid(&["plywood", "mineral cap sheet", "Trial unit, generic"]);
        twice.details.layers[0].layers[1].times = 2;
        assert_eq!(twice.outcome(rule), Outcome::Attention);
    }

    #[test]
    fn what_is_absent_is_named() {
        let mut trial = tested(FireClass::A, FireClass::A);
        trial.covering.conditions.tested.fire.clear();
        let says = "The covering's sheet does not give a class under fire, [tested] fire.";
        assert_eq!(trial.says("fire-class-below-site"), says);
        assert_eq!(Trial::sound().says("fire-class-below-site"), "The job does not give [site] fire_class.");
    }
}
