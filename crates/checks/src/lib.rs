//! Rules, one file each: what a roofer, an official or a maker would look at, with the figures and the source.
//!
//! The licensed designer, the maker's sheet and the local code decide; a rule tells, it permits nothing.

mod facts;
mod family;
mod figure;
#[cfg(test)]
mod measured;
mod rule;
mod rules;
mod snow;
mod snow_on;
mod tally;
mod text;
#[cfg(test)]
mod trial;
mod wind;
mod withdrawal;

pub use details::Edition;
pub use facts::{Deck, DeckKind, Drive, Facts, Fastener, FastenerKind, Laying, Metal, Site, WindExposure};
pub use family::Family;
pub use rule::{Danger, Kind, Rule};
pub use rules::RULES;
pub use text::Reading;
pub use wind::{WindOn, WindOnPlane, wind_on};

use rule::Verdict;

/// What a rule found.
#[derive(Debug, Clone, PartialEq)]
pub struct Checked {
    /// The rule.
    pub rule: &'static Rule,
    /// What came of it.
    pub outcome: Outcome,
    /// Everything measured keeps the rule, though what it rests on was not read.
    pub kept: bool,
    /// The figures in one sentence.
    pub says: String,
    /// Where the rule comes from, with the sheets it was read from.
    pub source: String,
    /// That source was read, not remembered; of a code, in the edition that the job names.
    pub read_source: bool,
    /// Of a code: the edition that the job names.
    pub edition: Option<Edition>,
    /// Places at fault, or to look at; none for a pass.
    pub places: Vec<Place>,
}

/// How a rule came out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// Everything measured keeps the rule.
    Pass,
    /// Something does not.
    Fail,
    /// A person must look: nothing is known to be wrong, and not everything could be judged.
    Attention,
    /// There is nothing to judge, or what it would be judged by is absent; the sentence names it.
    NotApplicable,
}

impl Outcome {
    /// As it stands in the plan file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Pass => "pass",
            Self::Fail => "fail",
            Self::Attention => "attention",
            Self::NotApplicable => "not-applicable",
        }
    }
}

/// A place on the roof.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Index in [`roof::Roof::planes`].
    pub plane: usize,
    /// Counted from 0 at the eave.
    pub course: usize,
    /// Along the course, inches in the plane's frame.
    pub u: f64,
    /// Up the slope, inches in the plane's frame.
    pub v: f64,
}

/// Every rule on a finished layout, in the order of [`RULES`].
#[must_use]
pub fn check(facts: &Facts) -> Vec<Checked> {
    RULES.iter().map(|rule| checked(rule, facts)).collect()
}

fn checked(rule: &'static Rule, facts: &Facts) -> Checked {
    let Verdict { outcome, says, places, text } = (rule.run)(facts);
    let (source, reading) = text.map_or((rule.source(), rule.reading), |text| (text.source, text.reading));
    let edition = facts.site.code.filter(|_| rule.kind == Kind::Code);
    Checked {
        rule,
        outcome: rule.at_best(outcome, reading, edition),
        kept: outcome == Outcome::Pass,
        says: says + &rule.edition_note(outcome, reading, edition),
        source: facts.source_of(source, rule),
        read_source: if rule.kind == Kind::Code { reading.covers(edition) } else { reading.is_read() },
        edition,
        places,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::Trial;

    /// Whatever is told passes; what is not told, or is nothing of this covering, does not apply. Cautions for people stand.
    #[test]
    fn a_sound_roof_passes_every_rule() {
        let found = Trial::sound().check();
        assert_eq!(found.len(), RULES.len());
        for checked in found.iter().filter(|checked| checked.rule.family != Family::People) {
            assert!(matches!(checked.outcome, Outcome::Pass | Outcome::NotApplicable), "{checked:?}");
            assert_eq!(checked.places, [], "{checked:?}");
            assert!(checked.says.ends_with('.'), "{checked:?}");
        }
    }

    /// Sound by the code's figures in every material; a code that was not read still wants a look.
    #[test]
    fn a_sound_roof_fails_in_no_material() {
        use covering::Material::{CompositeSlate, NaturalSlate, PlainTile, WoodShake, WoodShingle};
        for material in [CompositeSlate, NaturalSlate, PlainTile, WoodShake, WoodShingle] {
            for checked in Trial::of(material).check() {
                assert_ne!(checked.outcome, Outcome::Fail, "{material:?}: {checked:?}");
            }
        }
    }

    #[test]
    fn nothing_laid_is_nothing_to_judge() {
        let mut trial = Trial::sound();
        trial.layout.planes.clear();
        for (checked, sound) in trial.check().iter().zip(Trial::sound().check()) {
            let same = checked.outcome == sound.outcome && !checked.says.contains("course");
            assert!(same || checked.outcome == Outcome::NotApplicable, "{checked:?}");
        }
        assert_eq!(trial.outcome("headlap-too-short"), Outcome::NotApplicable);
    }

    /// A job without a roof, or without anything told, is no reason to fail.
    #[test]
    fn nothing_told_fails_nothing() {
        let empty = Trial { roof: roof::Roof::default(), layout: layout::Layout::default(), ..Trial::sound() };
        assert!(empty.check().iter().all(|checked| checked.outcome != Outcome::Fail));
        let silent = Trial {
            deck: Deck::default(),
            fastener: Fastener::default(),
            site: Site::default(),
            laying: Laying::default(),
            ..Trial::sound()
        };
        for checked in silent.check() {
            assert_ne!(checked.outcome, Outcome::Fail, "{checked:?}");
        }
    }

    /// Nothing passes by a code whose words were not read in the edition that the job names, in any material.
    #[test]
    fn a_code_passes_only_where_it_was_read() {
        use covering::Material::{CompositeSlate, NaturalSlate, PlainTile, WoodShake, WoodShingle};
        for material in [CompositeSlate, NaturalSlate, PlainTile, WoodShake, WoodShingle] {
            for code in [None, Some(Edition::Of2015), Some(Edition::Of2018), Some(Edition::Of2024)] {
                let mut trial = Trial::of(material);
                trial.site.code = code;
                for checked in trial.check().iter().filter(|checked| checked.rule.kind == Kind::Code) {
                    assert!(checked.outcome != Outcome::Pass || (checked.read_source && code.is_some()), "{checked:?}");
                }
            }
        }
    }

    /// What a rule does not apply for is named: a key of the job, a group of the sheet, or what there is none of.
    #[test]
    fn what_does_not_apply_names_what_is_absent() {
        let mut silent = Trial::sound();
        (silent.deck, silent.fastener) = (Deck::default(), Fastener::default());
        (silent.site, silent.laying) = (Site::default(), Laying::default());
        let mut bare = Trial::sound();
        bare.layout.planes.clear();
        bare.details = details::Details::default();
        let named = [
            "The job does not give [",
            "The covering's sheet does not give ",
            "No ",
            "There is no ",
            "Nothing is known of ",
        ];
        for checked in [silent, bare].iter().flat_map(Trial::check) {
            let is_absent = checked.outcome == Outcome::NotApplicable;
            let names = named.iter().any(|start| checked.says.starts_with(start)) || checked.says.contains(" is not given.");
            let is_other = [
                "The code ",
                "Every sheet is one piece.",
                "The units carry no marks for an exposure.",
                "These units need no conditioning that is known of.",
            ];
            assert!(!is_absent || names || is_other.iter().any(|start| checked.says.starts_with(start)), "{checked:?}");
        }
    }

    /// A code that was not read is looked at even where it is kept, and that is told apart.
    #[test]
    fn kept_is_told_apart_from_passed() {
        let slate = |exposure| {
            let mut trial = Trial::of(covering::Material::NaturalSlate);
            trial.set_exposure(exposure);
            let Checked { outcome, kept, .. } = trial.one("headlap-below-code");
            (outcome, kept)
        };
        assert_eq!([slate(8.0), slate(9.0)], [(Outcome::Attention, true), (Outcome::Fail, false)]);
    }

    #[test]
    fn invented_figures_are_named_in_the_source() {
        let mut trial = Trial::sound();
        assert!(trial.check().iter().all(|checked| !checked.source.contains("invented")));
        trial.covering.invented = true;
        for checked in trial.check() {
            let is_by_the_sheet = checked.rule.kind == Kind::Maker;
            assert_eq!(checked.source.contains("Trial unit (figures invented)."), is_by_the_sheet, "{checked:?}");
        }
    }

    #[test]
    fn the_sheet_tells_where_it_has_a_figure_from() {
        let mut trial = Trial::sound();
        let source = |group: &str, text: &str| (group.to_owned(), text.to_owned());
        trial.covering.sources =
            vec![source("exposure[0]", "Page 3."), source("exposure[1]", "Page 3."), source("nails", "Page 9.")];
        assert_eq!(trial.one("pitch-too-low").source, "The covering's data sheet, lowest pitch: Trial unit. Page 3.");
        assert_eq!(trial.one("nail-too-short").source, "The covering's data sheet, nails: Trial unit. Page 9.");
        trial.covered = false;
        assert_eq!(trial.one("nail-too-short").source, "The covering's data sheet, nails.");
    }
}
