use covering::Covering;
use roof::{EdgeKind, Place, Plane};

use crate::cut::sides;
use crate::outline::{edges, is_level, weather_line, weathered_top};

/// The highest line up to which courses are seen.
pub(super) fn top(plane: &Plane, covering: &Covering) -> Option<f64> {
    let places = plane.places();
    let level = edges(plane).filter(|&(side, _)| is_level(side) && side[1][0] < side[0][0]);
    let lines = level.map(|([from, _], kind)| from[1] + weather_line(covering, kind));
    let peaks = places.iter().zip(&plane.rings).flat_map(|(places, ring)| {
        let kinds: Vec<EdgeKind> = ring.edges.iter().map(|edge| edge.kind).collect();
        hip_peaks(places, &kinds)
    });
    let peaks = peaks.map(|v| v + weather_line(covering, EdgeKind::Hip));
    lines.chain(peaks).chain(weathered_top(plane, covering)).reduce(f64::max)
}

/// v of the corners where a hip ends and nothing rises further.
fn hip_peaks(places: &[Place], kinds: &[EdgeKind]) -> Vec<f64> {
    let sides: Vec<[Place; 2]> = sides(places).collect();
    let before = |index: usize| (index + sides.len() - 1) % sides.len();
    (0..sides.len().min(kinds.len()))
        .filter(|&index| [index, before(index)].iter().any(|&side| kinds.get(side) == Some(&EdgeKind::Hip)))
        .filter(|&index| rises(sides[before(index)]) && falls(sides[index]))
        .map(|index| places[index][1])
        .collect()
}

fn rises(side: [Place; 2]) -> bool {
    !is_level(side) && side[1][1] > side[0][1]
}

fn falls(side: [Place; 2]) -> bool {
    !is_level(side) && side[1][1] < side[0][1]
}
