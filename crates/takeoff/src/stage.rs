use covering::Covering;
use layout::Layout;
use roof::{Place, Plane, Roof};
use units::{Length, Mass};

use crate::leaning::{Side, leaning};
use crate::piles::{OnPlane, of_plane};

/// How units are staged on the roof.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StageChoices {
    /// Up the slope, within the reach of those who lay from one line of planks.
    pub reach: Length,
    /// From pile to pile along the course.
    pub apart: Length,
    /// Side of the square patch of deck, on the slope, over which boards spread a pile where it has as much room.
    pub patch: Length,
    /// What the framing was designed to carry beside its own weight, pounds a square foot of plan.
    pub live_load_psf: Option<f64>,
}

impl Default for StageChoices {
    /// Common practice, no published source: an arm's reach above the planks, a step aside, a patch of 4 by 4 ft.
    fn default() -> Self {
        let [reach, apart, patch] = [4.0, 6.0, 4.0].map(Length::feet);
        Self { reach, apart, patch, live_load_psf: None }
    }
}

/// No crew sets down more piles, nor lays more pieces, in one go.
const MOST_PILES: f64 = 5000.0;
const MOST_PIECES: u64 = 1_000_000;

/// Piles of field units, each beside the pieces that are laid from it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Stage {
    /// In the order in which they are set down.
    pub piles: Vec<Pile>,
    /// Sides that lean on each other, and how evenly they are loaded.
    pub balances: Vec<Balance>,
    /// Planes on which no pile finds room, and the units that are handed up to them.
    pub handed_up: Vec<(usize, u64)>,
}

/// A pile among what is laid from it. Its patch lies on its own plane altogether, on no other pile's, and neither under nor over
/// another roof.
#[derive(Debug, Clone, PartialEq)]
pub struct Pile {
    /// Index in [`Roof::planes`].
    pub plane: usize,
    /// Band of courses that are laid from one line of planks, counted from 0 at the eave.
    pub band: usize,
    /// First and last course laid from it, counted from 0.
    pub courses: [usize; 2],
    /// Its middle, in the plane's own frame, inches.
    pub at: Place,
    /// The patch of deck over which it is spread: across the slope and up it.
    pub patch: [Length; 2],
    /// Pieces laid from it, each as a unit.
    pub units: u64,
    /// Units set down at once, at most; none if the patch carries not even one.
    pub at_once: u64,
    /// How often units are set down here.
    pub times: u64,
    /// Of the units set down at once.
    pub weight: Mass,
    /// Of those, over the patch, pounds a square foot of plan.
    pub patch_psf: f64,
}

/// How evenly sides are loaded that lean on each other, while each pile is set down once.
#[derive(Debug, Clone, PartialEq)]
pub struct Balance {
    /// The planes of each, as indices in [`Roof::planes`], and what it carries when every pile stands.
    pub sides: Vec<(Vec<usize>, Mass)>,
    /// The greatest difference between two of them while both have piles to come.
    pub greatest_difference: Mass,
}

/// Piles for every laid plane: from the top band down, always on the side of a group that carries least, so that while piles are to
/// come on both they differ by no more than a pile. None where they would be more than 5,000, or for more than a million pieces.
#[must_use]
pub fn stage<'a>(
    roof: &'a Roof,
    layout: &'a Layout,
    choices: &StageChoices,
    covering_of: impl Fn(&Plane) -> Option<&'a Covering>,
) -> Stage {
    let mut stage = Stage::default();
    if is_too_large(roof, layout, choices) {
        return stage;
    }
    let on_plane = |index: usize| {
        let laid = layout.planes.iter().find(|laid| laid.plane == index)?;
        Some(of_plane(roof, laid, covering_of(roof.planes.get(index)?)?, choices))
    };
    for sides in leaning(roof, layout) {
        let mut waiting: Vec<Vec<Pile>> = Vec::new();
        for side in &sides {
            let planes: Vec<OnPlane> = side.iter().filter_map(|&plane| on_plane(plane)).collect();
            stage.handed_up.extend(planes.iter().filter(|of| of.handed_up > 0).map(|of| (of.plane, of.handed_up)));
            waiting.push(planes.into_iter().flat_map(|of| of.piles).collect());
        }
        let (piles, balance) = evenly(sides, waiting);
        stage.piles.extend(piles);
        stage.balances.extend(balance);
    }
    stage
}

fn is_too_large(roof: &Roof, layout: &Layout, choices: &StageChoices) -> bool {
    let pieces: u64 = layout.planes.iter().map(|laid| laid.counts().pieces()).sum();
    let areas = layout.planes.iter().filter_map(|laid| roof.planes.get(laid.plane)).map(|plane| plane.area());
    let area: f64 = areas.map(|area| area.to_square_inches()).sum();
    pieces > MOST_PIECES || area / (choices.reach.to_inches() * choices.apart.to_inches()) > MOST_PILES
}

/// Takes the next pile of the side that carries least, again and again.
fn evenly(sides: Vec<Side>, waiting: Vec<Vec<Pile>>) -> (Vec<Pile>, Option<Balance>) {
    let mut waiting: Vec<_> = waiting.into_iter().map(|piles| piles.into_iter().peekable()).collect();
    let mut carried = vec![0.0_f64; sides.len()];
    let mut worst = 0.0_f64;
    let mut piles = Vec::new();
    loop {
        let open: Vec<usize> = (0..sides.len()).filter(|&at| waiting[at].peek().is_some()).collect();
        let Some(&next) = open.iter().min_by(|&&a, &&b| carried[a].total_cmp(&carried[b])) else { break };
        let Some(pile) = waiting[next].next() else { break };
        carried[next] += pile.weight.to_pounds();
        piles.push(pile);
        let [least, most] = open
            .iter()
            .fold([f64::INFINITY, 0.0], |[least, most]: [f64; 2], &at| [least.min(carried[at]), most.max(carried[at])]);
        worst = worst.max(most - least);
    }
    let balance = (sides.len() > 1).then(|| Balance {
        sides: sides.into_iter().zip(carried.into_iter().map(Mass::pounds)).collect(),
        greatest_difference: Mass::pounds(worst),
    });
    (piles, balance)
}
