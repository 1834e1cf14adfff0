//! Choices side by side: the same roof planned once for each.

use std::collections::BTreeSet;

use covering::{Bond, Catalog, Covering};
use layout::{Graduated, Hips, MatchHips, SettingOut, Valleys};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use units::Length;

use crate::own_sheets::with_own_sheets;
use crate::{Cutting, FORMAT, Job, OptionWanted, Plan, Severity, plan};

/// What may be chosen otherwise than the job has it. An empty list leaves it as the job has it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Choices {
    /// Ids of sheets, or paths under which the catalogue has them.
    pub coverings: Vec<String>,
    /// The most that any course shows.
    pub exposures: Vec<Length>,
    /// How hips are finished.
    pub hips: Vec<HipChoice>,
    /// How units stand beside and over each other; what a sheet does not allow is told.
    pub bonds: Vec<BondChoice>,
}

/// How units stand beside and over each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BondChoice {
    /// One of the sheet's bonds, with butts and lengths as the job has them.
    Of(Bond),
    /// Every other unit lower by the sheet's step.
    Staggered,
    /// The sheet's lengths, from the longest at the eave up.
    Graduated,
}

impl BondChoice {
    /// As it is told.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Of(Bond::Half) => "half bond",
            Self::Of(Bond::Third) => "third bond",
            Self::Of(Bond::Random) => "random widths",
            Self::Staggered => "staggered butts",
            Self::Graduated => "graduated lengths",
        }
    }

    /// All that a sheet allows beside what is laid.
    fn others(covering: &Covering, setting_out: &SettingOut) -> Vec<Self> {
        let own = covering.bond(setting_out.bond);
        let bonds = covering.bonds.allows.iter().filter(|bond| **bond != own).map(|bond| Self::Of(*bond));
        let staggers = covering.bonds.step.is_some() && own != Bond::Random && !setting_out.staggered;
        let grades = !covering.bonds.lengths.is_empty() && setting_out.graduated == Graduated::No;
        bonds.chain(staggers.then_some(Self::Staggered)).chain(grades.then_some(Self::Graduated)).collect()
    }

    fn choose(self, setting_out: &mut SettingOut) {
        match self {
            Self::Of(bond) => setting_out.bond = Some(bond),
            Self::Staggered => setting_out.staggered = true,
            Self::Graduated => setting_out.graduated = Graduated::BySheet,
        }
    }
}

/// How hips are finished and whether courses meet there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum HipChoice {
    /// Caps cover both sides, and every plane is set out by itself.
    Capped,
    /// Courses meet at hips and valleys; caps as the sheet and the job have them.
    Matched,
    /// Courses meet, and units of both sides are cut to the hip line.
    Mitred,
}

impl HipChoice {
    /// As it is told.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Capped => "capped",
            Self::Matched => "matched",
            Self::Mitred => "mitred",
        }
    }
}

/// One roof, planned for each choice.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Comparison {
    /// [`FORMAT`].
    pub format: u32,
    /// The job's name.
    pub name: String,
    /// True area of the roof.
    pub area_sqft: f64,
    /// The choices in the order in which they were named; what the job has first, where none is.
    pub options: Vec<Compared>,
}

/// What a choice comes to.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Compared {
    /// The choice in a few words.
    pub choice: String,
    /// The covering sheet's short name, or its path.
    pub covering: String,
    /// Its figures are invented.
    pub invented: bool,
    /// The most that any course may show, where that is chosen.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub exposure_in: Option<f64>,
    /// `capped`, `matched` or `mitred`, where that is chosen.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hips: Option<&'static str>,
    /// `half bond`, `random widths`, `staggered butts` and so on, where that is chosen.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bond: Option<&'static str>,
    /// The least and the greatest exposure below the top courses.
    pub exposures_in: [f64; 2],
    /// Of all planes.
    pub courses: u64,
    /// Field pieces.
    pub pieces: u64,
    /// Of them cut.
    pub cut: u64,
    /// Units from which they are cut.
    pub stock: u64,
    /// A proven lower bound on `stock`.
    pub stock_bound: u64,
    /// Of the units taken, the worth of so many is cut off and not used again.
    pub lost: f64,
    /// What is taken, cut off and ordered beyond, and why, a sentence each.
    pub lost_why: Vec<String>,
    /// Field units ordered beyond these, spare packs for what breaks among them.
    pub over: u64,
    /// Of everything in the order that has a weight on its sheet, whole packs.
    pub weight_lb: f64,
    /// Rules that fail and that the job does not silence.
    pub fails: Vec<String>,
    /// Why something is not laid, or courses do not meet where they should.
    pub says: Vec<String>,
}

/// Plans a job once for each combination of what is named; where nothing is, as it is, with its hips otherwise if it has any,
/// in every other bond that its sheet allows, and in every other sheet of the catalogue. Pure, as [`crate::plan()`] is.
#[must_use]
pub fn compare(job: &Job, catalog: &Catalog, choices: &Choices) -> Comparison {
    let catalog = &with_own_sheets(job, catalog);
    let first = plan(job, catalog);
    let options = if *choices == Choices::default() { usual(job, catalog, &first) } else { named(job, choices) };
    Comparison {
        format: FORMAT,
        name: job.name.clone(),
        area_sqft: first.roof.totals.area_sqft,
        options: options.into_iter().map(|option| option.compared(job, catalog)).collect(),
    }
}

/// One combination.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Choice {
    covering: String,
    exposure: Option<Length>,
    hips: Option<HipChoice>,
    valleys: Option<Valleys>,
    bond: Option<BondChoice>,
}

fn usual(job: &Job, catalog: &Catalog, first: &Plan) -> Vec<Choice> {
    let own = &job.covering.sheet;
    let choice = |covering: &String, hips, bond| Choice { hips, bond, ..Choice::of(covering) };
    let hips = [HipChoice::Capped, HipChoice::Matched, HipChoice::Mitred].map(Some);
    let hips = hips.into_iter().filter(|_| first.roof.totals.hip_ft > 0.0);
    let others = catalog.sheets.keys().filter(|id| *id != own);
    let bonds = catalog.get(own).map_or_else(Vec::new, |sheet| BondChoice::others(sheet, &job.setting_out));
    let bonds = bonds.into_iter().map(|bond| choice(own, None, Some(bond)));
    let own = [None].into_iter().chain(hips).map(|hips| choice(own, hips, None));
    own.chain(bonds).chain(others.map(|other| choice(other, None, None))).collect()
}

fn named(job: &Job, choices: &Choices) -> Vec<Choice> {
    let coverings = if choices.coverings.is_empty() { vec![job.covering.sheet.clone()] } else { choices.coverings.clone() };
    let exposures = or_none(&choices.exposures);
    let ways: Vec<(Option<HipChoice>, Option<BondChoice>)> = or_none(&choices.hips)
        .into_iter()
        .flat_map(|hips| or_none(&choices.bonds).into_iter().map(move |bond| (hips, bond)))
        .collect();
    let mut all = Vec::new();
    for covering in &coverings {
        for &exposure in &exposures {
            all.extend(ways.iter().map(|&(hips, bond)| Choice { exposure, hips, bond, ..Choice::of(covering) }));
        }
    }
    all
}

fn or_none<T: Copy>(values: &[T]) -> Vec<Option<T>> {
    if values.is_empty() { vec![None] } else { values.iter().copied().map(Some).collect() }
}

impl Choice {
    /// In a sheet, and else as the job has it.
    pub(crate) fn of(covering: &str) -> Self {
        Self { covering: covering.into(), exposure: None, hips: None, valleys: None, bond: None }
    }

    /// As an option of the job has it.
    pub(crate) fn of_option(job: &Job, option: &OptionWanted) -> Self {
        let covering = option.covering.as_ref().unwrap_or(&job.covering);
        let OptionWanted { exposure, hips, valleys, bond, .. } = *option;
        Self { covering: covering.sheet.clone(), exposure, hips, valleys, bond: bond.map(BondChoice::Of) }
    }

    /// The job with what is chosen.
    pub(crate) fn applied(&self, job: &Job) -> Job {
        let mut job = job.clone();
        job.covering.sheet.clone_from(&self.covering);
        if let Some(hips) = self.hips {
            choose_hips(&mut job, hips);
        }
        if let Some(bond) = self.bond {
            bond.choose(&mut job.setting_out);
        }
        job.exposure = self.exposure.or(job.exposure);
        job.setting_out.valleys = self.valleys.or(job.setting_out.valleys);
        job
    }

    fn compared(&self, job: &Job, catalog: &Catalog) -> Compared {
        self.told(&plan(&self.applied(job), catalog), catalog)
    }

    pub(crate) fn told(&self, plan: &Plan, catalog: &Catalog) -> Compared {
        let pack = catalog.get(&self.covering).map_or(0, |covering| u64::from(covering.pack.count));
        let layout = &plan.layout;
        let shown = || {
            let below_top = layout.planes.iter().flat_map(|laid| laid.courses.split_last().map_or(&[][..], |split| split.1));
            below_top.map(|course| course.exposure_in)
        };
        // Random widths and graduated lengths have a line each.
        let field = plan.order.iter().filter(|line| line.id.starts_with("field-units"));
        Compared {
            choice: self.words(),
            covering: self.covering.clone(),
            invented: plan.covering.invented,
            exposure_in: self.exposure.map(Length::to_inches),
            hips: self.hips.map(HipChoice::name),
            bond: self.bond.map(BondChoice::name),
            exposures_in: [shown().reduce(f64::min).unwrap_or(0.0), shown().fold(0.0, f64::max)],
            courses: layout.planes.iter().map(|laid| laid.courses.len() as u64).sum(),
            pieces: layout.pieces,
            cut: layout.cut,
            stock: layout.stock,
            stock_bound: layout.stock_bound,
            lost: lost(plan),
            lost_why: layout.waste.iter().flat_map(|waste| waste.says.iter().cloned()).collect(),
            over: field.map(|line| (line.packs * pack).saturating_sub(line.quantity as u64)).sum(),
            weight_lb: plan.order.iter().map(|line| line.weight_lb).sum(),
            fails: fails(plan),
            says: says(plan),
        }
    }

    fn words(&self) -> String {
        let exposure = self.exposure.map(|exposure| format!("at most {}", exposure.in_inches()));
        let hips = self.hips.map(|hips| format!("hips {}", hips.name()));
        let valleys = self.valleys.map(|valleys| match valleys {
            Valleys::Open => "valleys open".to_owned(),
            Valleys::Closed => "valleys closed".to_owned(),
        });
        let bond = self.bond.map(|bond| bond.name().to_owned());
        [Some(self.covering.clone()), exposure, hips, valleys, bond].into_iter().flatten().collect::<Vec<_>>().join(", ")
    }
}

fn choose_hips(job: &mut Job, hips: HipChoice) {
    let setting_out = &mut job.setting_out;
    setting_out.match_hips = if hips == HipChoice::Capped { MatchHips::None } else { MatchHips::All };
    match hips {
        HipChoice::Capped => setting_out.hips = Some(Hips::Capped),
        HipChoice::Mitred => setting_out.hips = Some(Hips::Mitred),
        HipChoice::Matched => {}
    }
}

/// What is cut off and not used again, in units of the field unit's size.
fn lost(plan: &Plan) -> f64 {
    let cut_off = |cutting: &Cutting| {
        let unit = cutting.length_in * cutting.width_in;
        let used: f64 = cutting.kinds.iter().map(|kind| kind.area_sqin * kind.count as f64).sum();
        (cutting.stock - cutting.whole) as f64 * unit - used
    };
    let field = plan.covering.length_in * plan.covering.width_in;
    if field > 0.0 { plan.layout.cutting.iter().map(cut_off).sum::<f64>() / field } else { 0.0 }
}

fn fails(plan: &Plan) -> Vec<String> {
    let failing = plan.checks.iter().filter(|check| check.outcome == "fail" && check.silenced.is_none());
    failing.map(|check| check.rule.to_string()).collect::<BTreeSet<_>>().into_iter().collect()
}

fn says(plan: &Plan) -> Vec<String> {
    let told = plan.problems.iter().filter(|problem| {
        let told = ["courses-cannot-meet", "odd-course-at-eave", "bond-not-allowed", "not-staggered", "not-graduated"];
        problem.severity == Severity::Error || told.contains(&problem.code.as_str())
    });
    told.map(|problem| problem.says.clone()).collect()
}
