//! What a side does from its roof edge up: the stages in which it rises, stands still, or rises otherwise.

use geom::TOLERANCE;
use geom::skeleton::{Change, Side as Moving};
use units::{Length, Pitch};

use crate::outline::{OutlineSide, fault};
use crate::problem::{Part, Problem};
use crate::{Block, OutlineAt};

/// A stretch of a side's profile.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Stage {
    /// Height above the block's eave height.
    pub(crate) begins: f64,
    /// Plan distance of its lowest line inside the roof edge.
    pub(crate) inset: f64,
    /// None where the side is upright.
    pub(crate) pitch: Option<Pitch>,
}

/// The stages of a side, lowest first. The overhang carries the lowest plane outwards and down at its own pitch; breaks
/// stay where they are over the outline as measured.
pub(crate) fn stages(block: &Block, side: &OutlineSide) -> Vec<Stage> {
    let side = &side.side;
    let base = side.eave_height.map_or(0.0, |height| height - block.eave_height);
    let carried = side.overhang.filter(|_| block.outline_at == OutlineAt::Walls).map_or(0.0, Length::to_inches);
    let drop = |pitch: Option<Pitch>| pitch.map_or(0.0, |pitch| carried * pitch.rise() / 12.0);
    let pitch = side.kind.pitch();
    let mut stages = vec![Stage { begins: base - drop(pitch), inset: 0.0, pitch }];
    for change in &side.changes {
        let last = stages[stages.len() - 1];
        let from_the_wall = stages.len() == 1 && pitch.is_none();
        let begins = base + change.rise.to_inches() - if from_the_wall { drop(change.pitch) } else { 0.0 };
        let inset = last.inset + last.pitch.map_or(0.0, |pitch| (begins - last.begins) * 12.0 / pitch.rise());
        stages.push(Stage { begins, inset, pitch: change.pitch });
    }
    stages
}

/// Height of the lowest roof edge of all sides above the block's eave height.
pub(crate) fn lowest(profiles: &[Vec<Stage>]) -> f64 {
    let first = profiles.iter().map(|stages| stages[0]).filter(|stage| stage.pitch.is_some());
    let lowest = first.map(|stage| stage.begins).fold(f64::INFINITY, f64::min);
    if lowest.is_finite() { lowest } else { 0.0 }
}

/// A plane whose edge lies higher than the lowest one begins to rise only there.
pub(crate) fn begin_late(stages: &mut Vec<Stage>, start: f64) {
    if stages[0].pitch.is_some() && stages[0].begins - start > TOLERANCE {
        stages.insert(0, Stage { begins: start, inset: 0.0, pitch: None });
    }
}

/// The side as the skeleton moves it.
pub(crate) fn moving(stages: &[Stage]) -> Moving {
    let run = |stage: &Stage| stage.pitch.map_or(0.0, |pitch| 12.0 / pitch.rise());
    let changes = stages[1..].iter().map(|stage| Change { at: stage.begins, run: run(stage) }).collect();
    Moving { run: run(&stages[0]), changes }
}

/// Changes that do not lie above what comes before them.
pub(crate) fn change_too_low(
    block: &Block,
    hole: Option<usize>,
    side: &OutlineSide,
    stages: &[Stage],
    start: f64,
) -> Option<Problem> {
    let floor = |before: &Stage| before.begins.max(start) + TOLERANCE;
    let at = (1..stages.len()).find(|&at| stages[at].begins <= floor(&stages[at - 1]))?;
    let rise = side.side.changes[at - 1].rise;
    let below = if at == 1 { "the roof edge" } else { "the change before it" };
    let says = format!("side {} changes at a rise of {rise}, which is not above {below}", side.index);
    let remedy = "measure the rise from the eave height of this side, and give the changes from the lowest to the highest";
    Some(fault(block, "change-too-low", Part::Side { hole, side: side.index }, says, remedy))
}
