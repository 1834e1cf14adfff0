//! A kind of piece with every way in which it may lie in a unit, and whether some kinds fit one unit together.

use super::kinds::PieceKind;
use super::shape::{Blank, Kept, SNUG, Shape, is_convex};

/// A kind of piece, ready to be tried in units.
#[derive(Debug, Clone)]
pub(crate) struct Candidate {
    /// One for every height and turn that can matter.
    pub(crate) shapes: Vec<Shape>,
    pub(crate) area: f64,
    pub(crate) width: f64,
    pub(crate) count: u64,
    /// Width on the butt line.
    pub(crate) foot: f64,
    /// Whether trying its shapes settles where it fits. A piece with notches may also reach into another's; one without a
    /// butt may lie at any height between the lowest and the highest, and only beside one other do those two decide.
    pub(crate) settled: bool,
    /// Two that are convex fit together if they fit at their ends of the unit.
    pub(crate) convex: bool,
}

impl Candidate {
    pub(crate) fn of(kind: &PieceKind, blank: &Blank) -> Self {
        let convex = matches!(&kind.parts[..], [ring] if is_convex(ring));
        let roams = !kind.kept.butt && blank.even && convex;
        let top = (blank.length - kind.height).max(0.0);
        let mut lows = if roams { vec![0.0, top, kind.low] } else { vec![kind.low] };
        lows.dedup_by(|a, b| (*a - *b).abs() < SNUG);
        let upright = lows.iter().map(|&low| Shape::new(&kind.parts, kind.kept, low, blank));
        let mut shapes: Vec<Shape> = upright.collect();
        if blank.turned {
            shapes.extend(lows.iter().map(|&low| turned(kind, low, blank)));
        }
        let foot = if blank.turned { 0.0 } else { shapes.iter().map(|shape| shape.width_at(0.0)).fold(0.0, f64::max) };
        let foot = if roams { 0.0 } else { foot };
        let (area, width, count) = (kind.area, kind.width, kind.count);
        Self { shapes, area, width, count, foot, settled: convex && !roams, convex }
    }

    pub(crate) fn is_narrow(&self, blank: &Blank) -> bool {
        self.width < blank.least_offcut - SNUG
    }
}

/// Head for tail: what was left lies right, what was low lies high.
fn turned(kind: &PieceKind, low: f64, blank: &Blank) -> Shape {
    let parts: Vec<Vec<_>> =
        kind.parts.iter().map(|ring| ring.iter().map(|&[u, v]| [kind.width - u, kind.height - v]).collect()).collect();
    let kept = Kept { left: kind.kept.right, right: kind.kept.left, ..kind.kept };
    Shape { turned: true, ..Shape::new(&parts, kept, blank.length - kind.height - low, blank) }
}

/// Where a piece lies in a unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Seat {
    /// Which of the pieces.
    pub(crate) piece: usize,
    /// Which of its shapes.
    pub(crate) shape: usize,
    /// Of its leftmost point.
    pub(crate) u: f64,
}

/// Seats the pieces side by side in one unit, each as far left as those left of it allow; `None` if no order and no choice
/// of shapes fits.
///
/// For convex pieces at set heights that is all there is: where they lie apart, each is left of another or right of it
/// at every height that they share; what is left of what never runs round in a circle; and pushed left one by one in that
/// order, each stays within the unit.
pub(crate) fn seats(pieces: &[&Candidate], blank: &Blank) -> Option<Vec<Seat>> {
    let mut seated = Vec::with_capacity(pieces.len());
    seat_next(pieces, blank, &mut seated).then_some(seated)
}

fn seat_next(pieces: &[&Candidate], blank: &Blank, seated: &mut Vec<Seat>) -> bool {
    if seated.len() == pieces.len() {
        return true;
    }
    for piece in 0..pieces.len() {
        let same = |other: usize| std::ptr::eq(pieces[other], pieces[piece]);
        let tried = seated.iter().any(|seat| seat.piece == piece)
            || (0..piece).any(|other| same(other) && !seated.iter().any(|seat| seat.piece == other));
        if tried {
            continue;
        }
        for (index, shape) in pieces[piece].shapes.iter().enumerate() {
            let right_of = |seat: &Seat| Some(seat.u + pieces[seat.piece].shapes[seat.shape].reach(shape, blank.kerf)?);
            let u = seated.iter().filter_map(right_of).fold(shape.from, f64::max);
            if u <= shape.to + SNUG {
                seated.push(Seat { piece, shape: index, u });
                if seat_next(pieces, blank, seated) {
                    return true;
                }
                seated.pop();
            }
        }
    }
    false
}

/// Whether one unit can give all these pieces, as far as can be told: never false where it can.
pub(crate) fn may_fit(pieces: &[&Candidate], blank: &Blank) -> bool {
    let settled = pieces.iter().all(|piece| piece.settled) || pieces.len() == 2 && pieces.iter().all(|piece| piece.convex);
    let area: f64 = pieces.iter().map(|piece| piece.area).sum();
    area <= blank.area() && (!settled || seats(pieces, blank).is_some())
}
