//! What the roof carries: dead loads, pallets, and the piles while it is laid.

use covering::Covering;
use layout::Layout;
use roof::{Plane, Roof as Shape};
use schemars::JsonSchema;
use serde::Serialize;

use crate::Job;
use crate::make::id_of;

/// Loads on the roof. A licensed engineer decides what the framing carries.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct Loads {
    /// For good, plane by plane.
    pub planes: Vec<PlaneLoad>,
    /// Pallets of field units; absent where the sheet does not tell how many packs lie on one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pallets: Option<Pallets>,
    /// What the sheet says about storing, a sentence each.
    pub storage: Vec<String>,
    /// Live load that the framing was designed for, pounds a square foot of plan, if the job tells it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub live_load_psf: Option<f64>,
    /// Side of the patch over which a pile is spread where it has as much room, on the slope.
    pub patch_ft: f64,
    /// In the order in which they are set down.
    pub piles: Vec<Pile>,
    /// Sides that lean on each other.
    pub balances: Vec<Balance>,
    /// Planes on which no pile finds room.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub handed_up: Vec<HandedUp>,
    /// What to mind before anything is set down, a sentence each.
    pub cautions: Vec<String>,
}

/// What lies on a plane for good. Nails, caps and metal are not in it.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct PlaneLoad {
    /// The plane's id.
    pub plane: String,
    /// Units, whole and cut, and starters.
    pub units_lb: f64,
    /// What lies under them, where the sheets give weights.
    pub under_lb: f64,
    /// A square foot of slope.
    pub slope_psf: f64,
    /// A square foot of plan, as snow and live loads are told.
    pub plan_psf: f64,
    /// The old covering that comes off, a square foot of slope, if the job tells it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub old_slope_psf: Option<f64>,
    /// The same, a square foot of plan.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub old_plan_psf: Option<f64>,
}

/// Pallets of field units, each lifted once.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Pallets {
    /// How many.
    pub count: u64,
    /// Packs on a full one.
    pub packs_each: u64,
    /// Of a full one, its own weight included.
    pub full_lb: f64,
    /// Of the last one.
    pub last_lb: f64,
}

/// Units set down beside the pieces that are laid from them.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Pile {
    /// Counted from 1, in the order in which they are set down.
    pub number: usize,
    /// The plane's id.
    pub plane: String,
    /// Band of courses that are laid from one line of planks, counted from 0 at the eave.
    pub band: usize,
    /// First and last course laid from it, counted from 0.
    pub courses: [usize; 2],
    /// Its middle, in the plane's own frame.
    pub at_in: [f64; 2],
    /// The patch of deck over which it is spread: across the slope and up it.
    pub patch_in: [f64; 2],
    /// Pieces laid from it, each as a unit.
    pub units: u64,
    /// Units set down at once, at most; 0 if the patch carries not even one.
    pub at_once: u64,
    /// How often units are set down here.
    pub times: u64,
    /// Of the units set down at once.
    pub weight_lb: f64,
    /// Of those, over the patch, a square foot of plan.
    pub patch_psf: f64,
}

/// How evenly sides are loaded that lean on each other, while each pile is set down once.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Balance {
    /// Over a ridge, or across a block.
    pub sides: Vec<BalancedSide>,
    /// The greatest difference between two of them while both have piles to come.
    pub greatest_difference_lb: f64,
}

/// One of the sides that are loaded alike.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct BalancedSide {
    /// Ids of its planes, the highest first.
    pub planes: Vec<String>,
    /// On it, when every pile stands.
    pub at_end_lb: f64,
}

/// Units that are handed up to a plane on which no pile finds room.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct HandedUp {
    /// The plane's id.
    pub plane: String,
    /// How many.
    pub units: u64,
}

/// The loads of a laid roof; nothing where nothing is laid. `packs` are those of field units.
pub(crate) fn loads<'a>(
    job: &Job,
    roof: &'a Shape,
    layout: &'a Layout,
    details: &details::Details,
    covering: Option<&'a Covering>,
    packs: u64,
) -> Loads {
    let Some(covering) = covering.filter(|_| !layout.planes.is_empty()) else { return Loads::default() };
    let covering_of = |plane: &Plane| Some(covering).filter(|_| !crate::openings::is_cricket(roof, plane));
    let dead = takeoff::dead_loads(roof, layout, details, covering_of);
    let stage = takeoff::stage(roof, layout, &job.stage, covering_of);
    let handed = |&(plane, units): &(usize, u64)| HandedUp { plane: id_of(roof, plane), units };
    let handed_up: Vec<HandedUp> = stage.handed_up.iter().map(handed).collect();
    let piles: Vec<Pile> = stage.piles.iter().enumerate().map(|(index, of)| pile(roof, index, of)).collect();
    Loads {
        planes: dead.iter().map(|of| plane_load(job, roof, of)).collect(),
        pallets: takeoff::pallets(covering, packs).map(|of| Pallets {
            count: of.count,
            packs_each: of.packs,
            full_lb: of.full.to_pounds(),
            last_lb: of.last.to_pounds(),
        }),
        storage: covering.conditions.storage.as_ref().map_or_else(Vec::new, |storage| storage.rules.clone()),
        live_load_psf: job.stage.live_load_psf,
        patch_ft: job.stage.patch.to_feet(),
        balances: stage.balances.iter().map(|of| balance(roof, of)).collect(),
        cautions: cautions(job, &piles, &handed_up),
        handed_up,
        piles,
    }
}

fn plane_load(job: &Job, roof: &Shape, load: &takeoff::PlaneLoad) -> PlaneLoad {
    PlaneLoad {
        plane: id_of(roof, load.plane),
        units_lb: load.units.to_pounds(),
        under_lb: load.under.to_pounds(),
        slope_psf: load.slope_psf(),
        plan_psf: load.plan_psf(),
        old_slope_psf: job.old_psf,
        old_plan_psf: job.old_psf.map(|psf| psf * load.slope_factor),
    }
}

fn pile(roof: &Shape, index: usize, pile: &takeoff::Pile) -> Pile {
    Pile {
        number: index + 1,
        plane: id_of(roof, pile.plane),
        band: pile.band,
        courses: pile.courses,
        at_in: pile.at,
        patch_in: pile.patch.map(units::Length::to_inches),
        units: pile.units,
        at_once: pile.at_once,
        times: pile.times,
        weight_lb: pile.weight.to_pounds(),
        patch_psf: pile.patch_psf,
    }
}

fn balance(roof: &Shape, balance: &takeoff::Balance) -> Balance {
    let side = |(planes, weight): &(Vec<usize>, units::Mass)| BalancedSide {
        planes: planes.iter().map(|&plane| id_of(roof, plane)).collect(),
        at_end_lb: weight.to_pounds(),
    };
    Balance {
        sides: balance.sides.iter().map(side).collect(),
        greatest_difference_lb: balance.greatest_difference.to_pounds(),
    }
}

fn cautions(job: &Job, piles: &[Pile], handed_up: &[HandedUp]) -> Vec<String> {
    let most = piles.iter().map(|pile| pile.patch_psf).fold(0.0, f64::max);
    let live = match job.stage.live_load_psf {
        _ if piles.is_empty() && handed_up.is_empty() => {
            "Too large for one map: no piles are told. Stage it in parts, or give [stage] a greater reach and apart.".into()
        }
        None => format!(
            "How much the framing carries is NOT TOLD ([deck] live_load_psf): piles of up to {most:.0} psf are compared with \
             nothing."
        ),
        Some(live) => format!(
            "Piles stay within {live} psf over their patches, {most:.1} psf at most; people, tools and snow come on top and are \
             not in it."
        ),
    };
    let crushed = piles.iter().any(|pile| pile.at_once == 0);
    let crushed = crushed.then(|| "Where 0 units are told not even one may be set down: hand them up.".to_owned());
    let standing = [
        "A licensed engineer decides what the framing carries, old wood and trusses above all; trusses are braced first.",
        "Boards across the rafters spread each pile over its patch; nothing stands free on a steep slope: roof brackets or hooks \
         hold it.",
        "Never a pallet on the roof, never a pallet on a pallet (common practice, no published source). Nobody stands under a lift.",
    ];
    let handed: u64 = handed_up.iter().map(|of| of.units).sum();
    let handed =
        (handed > 0).then(|| format!("{handed} units have no pile, as none finds room on their planes: hand them up."));
    [live].into_iter().chain(crushed).chain(handed).chain(standing.map(str::to_owned)).collect()
}
