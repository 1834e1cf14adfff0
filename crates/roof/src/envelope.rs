//! What is seen of each block's planes where several blocks cover the same ground.
//!
//! Inside the walls of a higher block a lower roof is hidden. Under the higher one's overhang but inside the lower one's
//! own walls both are there and both are laid. Where both are overhangs the higher one counts, save that a slope runs on under
//! the overhang of a dormer down to its own eave. Planes at one height are
//! one plane; it is kept for the block that comes first.

use geom::region::{Region, bounds, common, contains, less};
use geom::{Point, add, cross, dot, scale, sub};

use crate::classify::{JOINED, height};
use crate::overhang::OVERHANG_NOT_GIVEN;
use crate::problem::{Problem, Severity};
use crate::raise::Raised;
use crate::{Frame, Plane};

/// A plane of one block with its ground and the walls of its block.
struct Piece<'a> {
    block: usize,
    frame: &'a Frame,
    region: &'a Region,
    walls: &'a Region,
    is_dormer: bool,
    bounds: [Point; 2],
}

/// What is seen of every plane, in the order of blocks and planes; planes that are hidden altogether have no rings.
pub(crate) fn visible(blocks: &[Raised], problems: &mut Vec<Problem>) -> Vec<Region> {
    let pieces: Vec<Piece> = blocks.iter().enumerate().flat_map(|(at, block)| pieces_of(at, block)).collect();
    let mut hidden: Vec<Region> = vec![Region::new(); pieces.len()];
    let mut unsure = vec![false; blocks.len()];
    for (first, second) in neighbours(&pieces) {
        let (a, b) = (&pieces[first], &pieces[second]);
        let shared = common(a.region, b.region);
        if shared.is_empty() {
            continue;
        }
        unsure[a.block] = true;
        unsure[b.block] = true;
        hidden[second].append(&mut covered(a, b, &shared));
        hidden[first].append(&mut covered(b, a, &shared));
    }
    problems.extend(blocks.iter().zip(unsure).filter(|(_, unsure)| *unsure).filter_map(|(block, _)| overhang_needed(block)));
    let seen = |(piece, hidden): (&Piece, &Region)| {
        if hidden.is_empty() { piece.region.clone() } else { less(piece.region, hidden) }
    };
    pieces.iter().zip(&hidden).map(seen).collect()
}

fn pieces_of(at: usize, block: &Raised) -> impl Iterator<Item = Piece<'_>> {
    block.planes.iter().zip(&block.pieces).map(move |(plane, region)| Piece {
        block: at,
        frame: &plane.frame,
        region,
        walls: &block.walls,
        is_dormer: block.is_dormer,
        bounds: bounds(region),
    })
}

/// Pairs of pieces of different blocks whose upright bounds overlap; sorted by their left ends, so that only pieces
/// that overlap in x are compared.
fn neighbours(pieces: &[Piece]) -> Vec<(usize, usize)> {
    let mut order: Vec<usize> = (0..pieces.len()).collect();
    order.sort_by(|&a, &b| pieces[a].bounds[0][0].total_cmp(&pieces[b].bounds[0][0]).then(a.cmp(&b)));
    let mut pairs = Vec::new();
    let mut open: Vec<usize> = Vec::new();
    for this in order {
        let [low, high] = pieces[this].bounds;
        open.retain(|&other| pieces[other].bounds[1][0] > low[0]);
        let overlaps = |other: &&usize| {
            let [other_low, other_high] = pieces[**other].bounds;
            pieces[**other].block != pieces[this].block && other_low[1] < high[1] && low[1] < other_high[1]
        };
        pairs.extend(open.iter().filter(overlaps).map(|&other| (this.min(other), this.max(other))));
        open.push(this);
    }
    pairs.sort_unstable();
    pairs
}

/// The part of `shared` in which the roof of `upper` hides that of `lower`: where it is above, and of planes at one height
/// all of it if its block comes first.
fn covered(upper: &Piece, lower: &Piece, shared: &Region) -> Region {
    let rise = |p: &Point| height(upper.frame, *p) - height(lower.frame, *p);
    let heights: Vec<f64> = shared.iter().flatten().map(rise).collect();
    let least = heights.iter().copied().fold(f64::INFINITY, f64::min);
    let most = heights.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    match (least >= -JOINED, most <= JOINED) {
        (true, true) if upper.block < lower.block => shared.clone(),
        (_, true) => Region::new(),
        (true, false) => unless_under_overhang(upper, lower, shared),
        (false, false) => {
            unless_under_overhang(upper, lower, &common(shared, &[half_plane(upper.frame, lower.frame, shared)]))
        }
    }
}

/// What is above hides inside its own walls, and outside the walls of what is below unless that carries it.
fn unless_under_overhang(upper: &Piece, lower: &Piece, above: &Region) -> Region {
    let mut hidden = common(above, upper.walls);
    if !upper.is_dormer || lower.is_dormer {
        hidden.append(&mut less(above, lower.walls));
    }
    hidden
}

/// A square that covers, of the ground of `shared`, just the side on which `upper` is above `lower`.
fn half_plane(upper: &Frame, lower: &Frame, shared: &Region) -> Vec<Point> {
    let slope = |frame: &Frame| scale(frame.inward(), frame.pitch.rise() / 12.0);
    let gradient = sub(slope(upper), slope(lower));
    let steepness = dot(gradient, gradient);
    let [low, high] = bounds(shared);
    let middle = scale(add(low, high), 0.5);
    let gap = height(upper, middle) - height(lower, middle);
    let on_line = sub(middle, scale(gradient, gap / steepness));
    let uphill = scale(gradient, 1.0 / steepness.sqrt());
    let reach = 4.0 * (high[0] - low[0] + high[1] - low[1]) + (gap / steepness.sqrt()).abs();
    let along = [uphill[1] * reach, -uphill[0] * reach];
    let away = scale(uphill, 2.0 * reach);
    let square =
        vec![sub(on_line, along), add(on_line, along), add(add(on_line, along), away), add(sub(on_line, along), away)];
    if cross(along, away) > 0.0 { square } else { square.into_iter().rev().collect() }
}

fn overhang_needed(block: &Raised) -> Option<Problem> {
    let part = block.unknown_overhang?;
    Some(Problem {
        code: OVERHANG_NOT_GIVEN,
        severity: Severity::Caution,
        block: block.planes.first()?.block.clone(),
        part,
        says:
            "this block meets another one, but not all its overhangs are given: its wall is taken to be under the roof edge"
                .into(),
        remedy: "measure them and write overhang = \"...\" on the edges; 0 where the roof is flush".into(),
    })
}

/// Every block's planes as raised, to look up what stands where.
pub(crate) struct Standing {
    blocks: Vec<Raised>,
    /// Of each block's walls.
    bounds: Vec<[Point; 2]>,
}

impl Standing {
    pub(crate) fn of(blocks: Vec<Raised>) -> Self {
        let bounds = blocks.iter().map(|block| bounds(&block.walls)).collect();
        Self { blocks, bounds }
    }

    /// Whether inside the walls of another block than `own`, at a plan point, a roof is higher than `than`.
    pub(crate) fn stands_above(&self, own: &str, p: Point, than: f64) -> bool {
        self.roofs_over(own, p).any(|height| height > than + JOINED)
    }

    /// Whether a plan point lies inside the walls of another block than `own`.
    pub(crate) fn covers(&self, own: &str, p: Point) -> bool {
        self.roofs_over(own, p).next().is_some()
    }

    /// Heights at a plan point of the roofs of blocks other than `own` whose walls stand around it.
    fn roofs_over<'a>(&'a self, own: &'a str, p: Point) -> impl Iterator<Item = f64> + 'a {
        let near = move |[low, high]: &[Point; 2]| (0..2).all(|axis| low[axis] <= p[axis] && p[axis] <= high[axis]);
        let blocks = self.blocks.iter().zip(&self.bounds).filter(move |(_, bounds)| near(bounds)).map(|(block, _)| block);
        let others = blocks.filter(move |block| block.planes.first().is_some_and(|plane| plane.block != own));
        others.filter(move |block| contains(&block.walls, p)).filter_map(move |block| {
            let over = |(_, region): &(&Plane, &Region)| contains(region, p);
            let (plane, _) = block.planes.iter().zip(&block.pieces).find(over)?;
            Some(height(&plane.frame, p))
        })
    }
}
