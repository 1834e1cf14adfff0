//! Rings of a region, each hole with the ring round it.

use geom::polygon;

/// Outer rings are counter-clockwise, holes clockwise: the indices of each outer ring and then of its holes. A hole that no ring
/// holds is left out.
pub(crate) fn polygons(rings: &[Vec<[f64; 2]>]) -> Vec<Vec<usize>> {
    let areas: Vec<f64> = rings.iter().map(|ring| polygon::area(ring)).collect();
    let mut found: Vec<Vec<usize>> = (0..rings.len()).filter(|&ring| areas[ring] > 0.0).map(|ring| vec![ring]).collect();
    for hole in (0..rings.len()).filter(|&ring| areas[ring] < 0.0) {
        let within = |outer: usize| rings[hole].iter().filter(|&&corner| polygon::contains(&rings[outer], corner)).count();
        let round = found.iter_mut().filter(|polygon| within(polygon[0]) > 0);
        // The smallest of those that hold most of it.
        if let Some(polygon) = round.min_by(|a, b| within(b[0]).cmp(&within(a[0])).then(areas[a[0]].total_cmp(&areas[b[0]])))
        {
            polygon.push(hole);
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(at: f64, size: f64) -> Vec<[f64; 2]> {
        vec![[at, at], [at + size, at], [at + size, at + size], [at, at + size]]
    }

    #[test]
    fn a_hole_goes_with_the_ring_round_it() {
        let hole = |at, size| square(at, size).into_iter().rev().collect();
        let rings = [
            square(0.0, 100.0),
            square(200.0, 50.0),
            hole(10.0, 80.0),
            square(30.0, 40.0),
            hole(210.0, 5.0),
            hole(40.0, 9.0),
        ];
        assert_eq!(polygons(&rings), [vec![0, 2], vec![1, 4], vec![3, 5]]);
    }
}
