//! Where the walls stand under the edges of the roof.

use geom::region::Region;
use geom::{Point, add, cross, distance, dot, polygon, scale, sub};
use units::Length;

use crate::classify::JOINED;
use crate::outline::{Outline, outlines};
use crate::overhang::{pushed_out, wall_line};
use crate::{Block, Dormer, EdgeKind, Line, OutlineAt, Roof, SideKind};

/// Plan region inside the walls of a block, rings as in [`geom::region`]; nothing where an overhang that tells it is not
/// known, or where the block has faults.
#[must_use]
pub fn inside_walls(block: &Block) -> Option<Vec<Vec<[f64; 2]>>> {
    let outlines = outlines(block).ok()?;
    let is_known = |outline: &Outline| {
        outline.sides.iter().all(|side| side.side.overhang.is_some() || side.side.kind == SideKind::Wall)
    };
    let known = block.outline_at == OutlineAt::Walls || outlines.iter().all(is_known);
    let region: Region = if known { wall_line(block, &outlines) } else { Region::new() };
    (!region.is_empty()).then_some(region)
}

/// For each of `roof.lines`: how far it stands out past the wall below, in plan. Only of eaves, and only where a side of a
/// block or a dormer tells it; where several lie on one line, the greatest.
#[must_use]
pub fn overhangs(roof: &Roof, blocks: &[Block], dormers: &[Dormer]) -> Vec<Option<Length>> {
    let sides: Vec<(Point, Point, Length)> = blocks.iter().flat_map(drip_sides).collect();
    let of_line = |line: &Line| {
        let plane = roof.planes.get(*line.planes.first()?)?;
        match dormers.iter().find(|dormer| dormer.name == plane.block) {
            Some(dormer) => dormer.overhang,
            None => of_sides(&sides, line),
        }
    };
    roof.lines.iter().map(|line| (line.kind == EdgeKind::Eave).then(|| of_line(line)).flatten()).collect()
}

/// The roof edges of a block in plan whose overhang is known.
fn drip_sides(block: &Block) -> Vec<(Point, Point, Length)> {
    let of_outline = |outline: &Outline| {
        let corners = match block.outline_at {
            OutlineAt::DripLine => outline.corners.clone(),
            OutlineAt::Walls => pushed_out(outline, 1.0),
        };
        let sides: Vec<_> = polygon::sides(&corners)
            .zip(&outline.sides)
            .filter_map(|((a, b), side)| Some((a, b, side.side.overhang?)))
            .collect();
        sides
    };
    outlines(block).unwrap_or_default().iter().flat_map(of_outline).collect()
}

fn of_sides(sides: &[(Point, Point, Length)], line: &Line) -> Option<Length> {
    let [a, b] = line.ends.map(|[x, y, _]| [x, y]);
    let middle = scale(add(a, b), 0.5);
    let on_it = sides.iter().filter(|(from, to, _)| lies_on([*from, *to], middle));
    on_it.map(|&(_, _, overhang)| overhang).reduce(|a, b| if b > a { b } else { a })
}

fn lies_on([from, to]: [Point; 2], p: Point) -> bool {
    let along = scale(sub(to, from), 1.0 / distance(from, to));
    cross(along, sub(p, from)).abs() < JOINED && (0.0..=distance(from, to)).contains(&dot(along, sub(p, from)))
}

#[cfg(test)]
mod tests {
    use units::Pitch;

    use super::*;
    use crate::{Side, build};

    fn house(outline_at: OutlineAt) -> Block {
        let side = |kind, inches| Side { overhang: Some(Length::inches(inches)), ..Side::new(kind) };
        let eave = SideKind::Eave(Pitch::per_12(8.0).expect("a pitch"));
        Block {
            name: "house".into(),
            outline: vec![[0.0, 0.0], [480.0, 0.0], [480.0, 336.0], [0.0, 336.0]],
            outline_at,
            sides: vec![side(eave, 12.0), side(SideKind::Gable, 6.0), side(eave, 16.0), side(SideKind::Gable, 6.0)],
            holes: vec![],
            eave_height: 108.0,
        }
    }

    #[test]
    fn eaves_know_their_overhang_whichever_line_was_measured() {
        for outline_at in [OutlineAt::DripLine, OutlineAt::Walls] {
            let blocks = [house(outline_at)];
            let roof = build(&blocks, 0.0).roof;
            let eaves: Vec<_> = roof.lines.iter().zip(overhangs(&roof, &blocks, &[])).collect();
            let known: Vec<f64> = eaves.iter().filter_map(|(_, overhang)| overhang.map(Length::to_inches)).collect();
            assert_eq!(known, [12.0, 16.0]);
            assert!(eaves.iter().all(|(line, overhang)| overhang.is_none() || line.kind == EdgeKind::Eave));
        }
    }

    #[test]
    fn the_floor_lies_inside_the_walls() {
        let area = |at| geom::region::area(&inside_walls(&house(at)).unwrap_or_default());
        assert!((area(OutlineAt::Walls) - 480.0 * 336.0).abs() < 1e-6);
        assert!((area(OutlineAt::DripLine) - 468.0 * 308.0).abs() < 1e-6);
        let mut unknown = house(OutlineAt::DripLine);
        unknown.sides[0].overhang = None;
        assert_eq!(inside_walls(&unknown), None);
    }
}
