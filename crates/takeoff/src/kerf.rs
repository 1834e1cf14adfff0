//! What the saw itself takes of the units.

use geom::{distance, sub};
use layout::{CutUnit, Cutout, Cutting};
use roof::Place;

/// Edges nearer than this, in, are one.
const SAME: f64 = 1e-3;
/// Two cuts are one where their edges lie a kerf apart to so much, in; pieces are set apart with some slack.
const SLACK: f64 = 1.0 / 64.0;

/// Area of saw cuts, sq in: kerf × length of the cut edges, a cut between two pieces of one unit once, and no more than what is
/// cut off at all.
pub(crate) fn sawn_away(cutting: &Cutting, kerf: f64) -> f64 {
    let of_unit = |unit: &CutUnit| {
        let cuts: Vec<Vec<[Place; 2]>> = unit.pieces.iter().map(|piece| cut_edges(cutting, piece)).collect();
        let all: f64 = cuts.iter().flatten().map(|&[from, to]| distance(from, to)).sum();
        let on_roof: f64 = unit.pieces.iter().filter_map(|piece| cutting.kinds.get(piece.kind)).map(|kind| kind.area).sum();
        let left = (cutting.unit.length * cutting.unit.width - on_roof).max(0.0);
        unit.count as f64 * (kerf * (all - shared(&cuts, kerf))).min(left)
    };
    cutting.units.iter().map(of_unit).sum()
}

/// The edges of a piece that are not the unit's own, where they lie in the unit.
fn cut_edges(cutting: &Cutting, piece: &Cutout) -> Vec<[Place; 2]> {
    let Some(kind) = cutting.kinds.get(piece.kind) else { return Vec::new() };
    let own = [cutting.unit.width, cutting.unit.length];
    let place = |[u, v]: Place| {
        let [u, v] = if piece.turned { [kind.width - u, kind.height - v] } else { [u, v] };
        [piece.at[0] + u, piece.at[1] + v]
    };
    let is_own = |[from, to]: &[Place; 2]| {
        (0..2).any(|axis| [0.0, own[axis]].iter().any(|side| [from, to].iter().all(|end| (end[axis] - side).abs() < SAME)))
    };
    let edges = kind.parts.iter().flat_map(|part| geom::polygon::sides(part).map(|(a, b)| [place(a), place(b)]));
    edges.filter(|edge| !is_own(edge)).collect()
}

/// Length of the cuts that have a piece on either side.
fn shared(cuts: &[Vec<[Place; 2]>], kerf: f64) -> f64 {
    let pairs = cuts.iter().enumerate().flat_map(|(at, own)| cuts[at + 1..].iter().map(move |other| (own, other)));
    pairs.flat_map(|(own, other)| own.iter().flat_map(move |a| other.iter().map(move |b| beside(a, b, kerf)))).sum()
}

/// How long two edges run beside each other, a kerf apart.
fn beside(&[from, to]: &[Place; 2], other: &[Place; 2], kerf: f64) -> f64 {
    let long = distance(from, to);
    if long < SAME {
        return 0.0;
    }
    let way = sub(to, from).map(|part| part / long);
    let along = other.map(|end| sub(end, from)).map(|[u, v]| [u * way[0] + v * way[1], u * way[1] - v * way[0]]);
    let is_beside = along.iter().all(|[_, off]| (off.abs() - kerf).abs() < SLACK);
    let [low, high] = [along[0][0].min(along[1][0]), along[0][0].max(along[1][0])];
    if is_beside { (high.min(long) - low.max(0.0)).max(0.0) } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use layout::{Hand, Kept, PieceKind, Saw, UnitKind};

    use super::*;

    fn kind(width: f64) -> PieceKind {
        PieceKind {
            parts: vec![vec![[0.0, 0.0], [width, 0.0], [width, 20.0], [0.0, 20.0]]],
            low: 0.0,
            kept: Kept::default(),
            saw: Saw { bevel: 90.0, hand: Hand::None },
            bin: "A".into(),
            width,
            height: 20.0,
            area: width * 20.0,
            count: 3,
            from: Vec::new(),
        }
    }

    fn cutting(width: f64, at: &[f64]) -> Cutting {
        let pieces = at.iter().map(|&u| Cutout { kind: 0, at: [u, 0.0], turned: false }).collect();
        Cutting {
            sheet: "test".into(),
            unit: UnitKind { length: 20.0, width: 12.0, thickness: 0.25, wide: false },
            whole: 7,
            kinds: vec![kind(width)],
            units: vec![CutUnit { count: 3, pieces }],
            bound: 10,
        }
    }

    /// By hand, of a unit of 12 × 20 in and a kerf of 1/8 in: pieces of 5 in at 0 and 5-1/8 in take two cuts of 20 in, 5 sq in.
    #[test]
    fn a_cut_between_two_pieces_counts_once() {
        assert!((sawn_away(&cutting(5.0, &[0.0, 5.125]), 0.125) - 3.0 * 5.0).abs() < 1e-9);
        // Apart from each other the second is cut at both sides.
        assert!((sawn_away(&cutting(5.0, &[0.0, 6.0]), 0.125) - 3.0 * 7.5).abs() < 1e-9);
        assert!(sawn_away(&cutting(5.0, &[0.0, 5.0]), 0.0).abs() < 1e-12);
    }

    /// Of a unit narrowed by 1/16 in the saw takes no more than there was.
    #[test]
    fn no_more_than_is_cut_off() {
        assert!((sawn_away(&cutting(12.0 - 0.0625, &[0.0]), 0.125) - 3.0 * 0.0625 * 20.0).abs() < 1e-9);
    }
}
