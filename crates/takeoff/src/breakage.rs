use crate::chance_of_more;

/// What is chosen for an order beyond the count.
#[derive(Debug, Clone, PartialEq)]
pub struct OrderChoices {
    /// Part of the units that break in handling and cutting, told by the job; it rules over the sheets'.
    pub breakage: Option<f64>,
    /// The chance of running short that is taken, more than 0.
    pub chance_short: f64,
    /// Field units of each sheet that are left with the owner.
    pub attic_stock: u64,
    /// In the order of the days; empty where all comes at once.
    pub deliveries: Vec<PlannedDelivery>,
}

/// A delivery as planned. Planes that none names come with the last one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlannedDelivery {
    /// Counted from 1.
    pub day: u32,
    /// Indices in [`roof::Roof::planes`].
    pub planes: Vec<usize>,
}

impl OrderChoices {
    /// A choice, not a fact: short once in twenty orders.
    pub const CHANCE_SHORT: f64 = 0.05;
}

impl Default for OrderChoices {
    fn default() -> Self {
        Self { breakage: None, chance_short: Self::CHANCE_SHORT, attic_stock: 0, deliveries: Vec::new() }
    }
}

/// Part of the units that break.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Breakage {
    /// 0 to 0.5.
    pub rate: f64,
    /// Who tells it.
    pub told_by: ToldBy,
}

/// Who tells how many units break.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ToldBy {
    /// The job.
    Job,
    /// The covering's sheet.
    Sheet,
    /// Nobody.
    Invented,
}

impl Breakage {
    /// Stands where neither job nor sheet tells a rate. Invented: no published figure is known.
    pub const INVENTED: f64 = 0.03;

    /// The job's figure, else the sheet's, else [`Breakage::INVENTED`].
    #[must_use]
    pub fn of(job: Option<f64>, sheet: Option<f64>) -> Self {
        match (job, sheet) {
            (Some(rate), _) => Self { rate, told_by: ToldBy::Job },
            (None, Some(rate)) => Self { rate, told_by: ToldBy::Sheet },
            (None, None) => Self { rate: Self::INVENTED, told_by: ToldBy::Invented },
        }
    }
}

/// What is ordered beyond the count because units break.
#[derive(Debug, Clone, PartialEq)]
pub struct Spare {
    /// Each unit breaks by itself at this rate.
    pub breakage: Breakage,
    /// The chance of running short that was taken.
    pub chance_taken: f64,
    /// Units that are left with the owner.
    pub attic_stock: u64,
    /// Packs beyond those that hold the count.
    pub packs: u64,
    /// Of running short with these.
    pub chance: f64,
    /// From no spare pack to one more than chosen; where those are many, in equal steps.
    pub choices: Vec<SpareChoice>,
}

/// A choice of spare packs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpareChoice {
    /// Packs beyond those that hold the count.
    pub packs: u64,
    /// That fewer units stay whole than are needed.
    pub chance: f64,
}

/// Units that must stay whole, and how they are sold.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Need {
    pub(crate) units: u64,
    pub(crate) in_pack: u64,
    pub(crate) rate: f64,
}

impl Need {
    /// Packs that hold the count.
    pub(crate) const fn counted(self) -> u64 {
        self.units.div_ceil(self.in_pack)
    }

    /// That fewer units of so many packs stay whole than are needed.
    pub(crate) fn chance_short(self, packs: u64) -> f64 {
        let bought = packs * self.in_pack;
        match bought.checked_sub(self.units) {
            Some(may_break) => chance_of_more(bought, self.rate, may_break),
            None => 1.0,
        }
    }

    /// The fewest packs whose chance of running short is not above `chance`.
    pub(crate) fn packs(self, chance: f64) -> u64 {
        let mut short = self.counted();
        if self.chance_short(short) <= chance {
            return short;
        }
        let mut step = 1;
        while self.chance_short(short + step) > chance {
            short += step;
            step *= 2;
        }
        let mut enough = short + step;
        while enough - short > 1 {
            let middle = u64::midpoint(short, enough);
            if self.chance_short(middle) <= chance { enough = middle } else { short = middle }
        }
        enough
    }
}

/// Rows of choices that a person reads at a glance.
const ROWS: u64 = 12;

/// Packs to order, and what of them is spare.
pub(crate) fn spare(need: Need, breakage: Breakage, chance_taken: f64, attic_stock: u64) -> (u64, Spare) {
    let counted = need.counted();
    let kept = Need { units: need.units + attic_stock, ..need };
    let packs = kept.packs(chance_taken);
    let choice = |spare: u64| SpareChoice { packs: spare, chance: kept.chance_short(counted + spare) };
    let chosen = packs - counted;
    let step = (chosen + 1).div_ceil(ROWS).max(1) as usize;
    let mut choices: Vec<SpareChoice> = (0..=chosen).step_by(step).map(choice).collect();
    choices.extend((!chosen.is_multiple_of(step as u64)).then(|| choice(chosen)));
    choices.push(choice(chosen + 1));
    let spare = Spare { breakage, chance_taken, attic_stock, packs: chosen, chance: kept.chance_short(packs), choices };
    (packs, spare)
}
