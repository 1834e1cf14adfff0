//! Sealant: beads across the laps of metal that water runs over, along raglets, and a dab on every nail through a unit's face.

use units::Length;

use super::{FlashingChoices, MetalKind, MetalPiece, MetalRun};

/// Sealant as it is laid and sold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sealant {
    /// Diameter of a bead.
    pub bead: Length,
    /// Beads across a joint.
    pub in_joint: u32,
    /// Length of bead that goes on the head of a face nail.
    pub on_nail: Length,
    /// What a tube holds, US fluid ounces.
    pub tube_fl_oz: f64,
}

/// Cubic inches in a US fluid ounce: a gallon is 231 cu in and 128 fl oz.
const CUBIC_INCHES: f64 = 231.0 / 128.0;

impl Sealant {
    /// Length of bead that a tube gives: its volume over the round of the bead.
    #[must_use]
    pub fn from_tube(&self) -> Length {
        let bead = self.bead.to_inches();
        Length::inches(self.tube_fl_oz * CUBIC_INCHES / (core::f64::consts::FRAC_PI_4 * bead * bead))
    }
}

/// The run with its sealed joints and all its sealant, as one length of bead.
pub(crate) fn sealed(kind: MetalKind, run: MetalRun, flashing: &FlashingChoices) -> MetalRun {
    let sealant = &flashing.sealant;
    let (joints, along) = joints(kind, &run);
    let raglet = match kind {
        MetalKind::Counterflashing if flashing.raglet > Length::ZERO => long(&run.pieces),
        _ => 0.0,
    };
    let bead = f64::from(sealant.in_joint) * along + f64::from(run.face_nails) * sealant.on_nail.to_inches() + raglet;
    MetalRun { sealed_joints: joints, sealant: Length::inches(bead), ..run }
}

/// Joints of a run that are sealed, and how long they are together.
fn joints(kind: MetalKind, run: &MetalRun) -> (u32, f64) {
    use MetalKind::{Apron, BackPan, Break, Corner, Cricket, DeadValley, HipMetal, OpenValley, RidgeMetal};
    match kind {
        // Across the piece that lies on top, which is the narrower one in a valley.
        OpenValley | DeadValley | BackPan | Apron | Break | RidgeMetal | HipMetal => {
            let over = run.pieces.windows(2).map(|pair| pair[0].girth.to_inches().min(pair[1].girth.to_inches()));
            (over.len() as u32, over.sum())
        }
        // Each corner piece on the end of its apron.
        Corner => (run.pieces.len() as u32, run.pieces.iter().map(|piece| piece.girth.to_inches()).sum()),
        // Its two planes, along the ridge between them.
        Cricket => (run.sealed_joints, f64::from(run.sealed_joints) * long(&run.pieces)),
        _ => (0, 0.0),
    }
}

fn long(pieces: &[MetalPiece]) -> f64 {
    pieces.iter().map(|piece| piece.length.to_inches()).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 231 / 128 × 10.1 = 18.23 cu in; a round of 1/4 in is 0.0491 sq in: 371.3 in, 30.9 ft.
    #[test]
    fn a_tube_gives_thirty_feet_of_quarter_inch_bead() {
        let sealant = Sealant { bead: Length::inches(0.25), in_joint: 2, on_nail: Length::inches(1.0), tube_fl_oz: 10.1 };
        assert!((sealant.from_tube().to_feet() - 30.94).abs() < 0.01);
    }
}
