//! From the details as placed to the plan.

use details as placed;
use roof::Roof;
use units::{Area, Length};

use crate::make::id_of;
use crate::metal_told::metal;
use crate::{
    Details, EaveBarrier, Layer, Layers, Missing, NailNeed, Passed, Patch, Piece, RidgeRun, Rolls, Step, Strip, Vents,
};

/// Everything with its plane's id and in plain numbers.
pub(crate) fn details(roof: &Roof, placed: &placed::Details) -> Details {
    Details {
        order_of_work: placed.order_of_work.iter().map(step).collect(),
        layers: placed.layers.iter().map(|list| layers(roof, list)).collect(),
        ice_barrier: placed.dry_in.ice_barrier.clone(),
        eaves: placed.dry_in.eaves.iter().map(|of| eave(roof, of)).collect(),
        rolls: placed.dry_in.rolls.iter().map(|of| rolls(roof, of)).collect(),
        metal: placed.metal.as_ref().map(|of| metal(roof, of)),
        nails: placed.nails.iter().map(nails).collect(),
        vents: placed.vents.as_ref().map(vents),
        missing: placed.missing.iter().map(missing).collect(),
    }
}

fn step(step: &placed::Step) -> Step {
    Step {
        id: step.id,
        title: step.title,
        hold_point: step.hold_point,
        after: step.after.clone(),
        see: step.see.clone(),
        who: step.who.name(),
        photo: step.photo.clone(),
    }
}

fn layers(roof: &Roof, list: &placed::Layers) -> Layers {
    let layer = |layer: &placed::Layer| Layer {
        kind: layer.kind.name(),
        name: layer.name.clone(),
        times: layer.times,
        in_part: layer.in_part,
    };
    Layers {
        planes: list.planes.iter().map(|&plane| id_of(roof, plane)).collect(),
        layers: list.layers.iter().map(layer).collect(),
        fire: list.fire.clone(),
    }
}

fn eave(roof: &Roof, eave: &placed::EaveBarrier) -> EaveBarrier {
    let plane = roof.lines.get(eave.line).and_then(|line| line.planes.first());
    EaveBarrier {
        line: eave.line,
        plane: plane.map_or_else(String::new, |&plane| id_of(roof, plane)),
        needed_in: eave.needed.to_inches(),
        laid_in: eave.laid.to_inches(),
    }
}

fn rolls(roof: &Roof, of: &placed::Rolls) -> Rolls {
    let [width_in, length_in, side_lap_in, end_lap_in] =
        [of.roll.width, of.roll.length, of.roll.side_lap, of.roll.end_lap].map(Length::to_inches);
    Rolls {
        kind: of.kind.name(),
        sheet: of.sheet.clone(),
        name: of.roll.name.clone(),
        width_in,
        length_in,
        side_lap_in,
        end_lap_in,
        count: of.count,
        bound: of.bound,
        strips: of.strips.iter().map(|of| strip(roof, of)).collect(),
    }
}

fn strip(roof: &Roof, strip: &placed::Strip) -> Strip {
    let patch = |patch: &placed::Patch| Patch {
        plane: id_of(roof, patch.plane),
        u_in: patch.u(),
        v_in: patch.v(),
        corners_in: patch.corners,
    };
    let piece = |piece: &placed::Piece| Piece { roll: piece.roll, from_in: piece.from, length_in: piece.length };
    Strip {
        at: strip.name(roof),
        patches: strip.patches.iter().map(patch).collect(),
        length_in: strip.length,
        pieces: strip.pieces.iter().map(piece).collect(),
        fasteners: strip.fasteners,
        over_underlayment: strip.over_underlayment,
    }
}

fn nails(need: &placed::NailNeed) -> NailNeed {
    let passed = |passed: &placed::Passed| Passed {
        what: passed.what,
        layers: passed.layers,
        thickness_in: passed.thickness.to_inches(),
    };
    NailNeed {
        holds: need.holds.name(),
        sheet: need.sheet.clone(),
        passes: need.passes.iter().map(passed).collect(),
        least_in: need.least.to_inches(),
        most_in: need.most.map(Length::to_inches),
        take_in: need.take.to_inches(),
        given_in: need.given.map(Length::to_inches),
    }
}

fn vents(vents: &placed::Vents) -> Vents {
    let run = |run: &placed::RidgeRun| RidgeRun { line: run.line, from_in: run.from, to_in: run.to, sections: run.sections };
    Vents {
        floor_sqft: vents.floor.to_square_feet(),
        share: vents.share,
        why: vents.why.clone(),
        needed_sqin: vents.needed.to_square_inches(),
        upper_sqin: vents.upper.map(Area::to_square_inches),
        lower_sqin: vents.lower.to_square_inches(),
        ridge_gives_sqin: vents.ridge_gives.to_square_inches(),
        ridges: vents.ridges.iter().map(run).collect(),
        slot_in: vents.slot.map(Length::to_inches),
        soffit_ft: vents.soffit.map(Length::to_feet),
        eaves_ft: vents.eaves.to_feet(),
        notes: vents.notes.clone(),
    }
}

fn missing(missing: &placed::Missing) -> Missing {
    Missing { what: missing.what.clone(), says: missing.says.clone(), remedy: missing.remedy.clone() }
}
