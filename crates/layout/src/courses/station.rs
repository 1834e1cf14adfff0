//! Fixed heights of a plane, where a course line should land.

use covering::Covering;
use roof::{EdgeKind, Place, Plane};

use crate::cut::sides;
use crate::outline::{is_level, projection, weather_line};

/// A height of a plane at which a course line should land, so that no narrow strip of a course is left there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Station {
    /// The edge that asks for it.
    pub kind: EdgeKind,
    /// On which side of the height the courses are that end there.
    pub side: StationSide,
    /// v where a line should land: of the butts over a low edge; of the lower edge of an apron, a cap or metal at a high one.
    pub v: f64,
    /// What the course shows that ends there, inches; `None` where a line lands within half a tape step.
    pub shows: Option<f64>,
}

/// On which side of a station the courses are that it ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StationSide {
    /// They begin there and go on above: an eave, the head of an opening, the top of a dormer's valleys.
    Above,
    /// They end there from below: a sill, a headwall, a lower ridge.
    Below,
}

impl Station {
    /// What it costs not to land there; a strip narrower than half the least exposure costs [`STRIP`] times as much.
    pub(crate) const fn weight(&self) -> u32 {
        match (self.kind, self.side) {
            // Where the eye looks first, and where starters would have to be cut.
            (EdgeKind::Eave | EdgeKind::Break, _) => 8,
            // Seen from the ground below an apron or a cap.
            (EdgeKind::Headwall | EdgeKind::Sill | EdgeKind::Ridge | EdgeKind::HighEdge, _) => 4,
            // Behind an opening or over a dormer, hardly seen.
            _ => 2,
        }
    }

    /// Along a level edge a course is cut to a strip; where valleys meet there is only a point.
    pub(crate) fn leaves_strips(&self) -> bool {
        self.kind != EdgeKind::Valley
    }

    /// A strip there is seen from below, and its starters would have to be cut low.
    pub(crate) const fn is_low_edge(&self) -> bool {
        matches!((self.kind, self.side), (EdgeKind::Eave | EdgeKind::Break, StationSide::Above))
    }

    /// What people call it.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        match self.kind {
            EdgeKind::Valley => "top of valleys",
            kind => kind.name(),
        }
    }
}

/// How many times worse a narrow strip is than a course that merely ends between lines.
pub(crate) const STRIP: u32 = 4;

/// The stations of a plane from the lowest up, each height and kind once.
pub(crate) fn stations(plane: &Plane, covering: &Covering) -> Vec<Station> {
    let rings = plane.places().into_iter().zip(&plane.rings);
    let mut stations: Vec<Station> = rings
        .flat_map(|(places, ring)| {
            let kinds: Vec<EdgeKind> = ring.edges.iter().map(|edge| edge.kind).collect();
            of_ring(&places, &kinds, covering)
        })
        .collect();
    stations.sort_by(|a, b| a.v.total_cmp(&b.v).then(a.kind.cmp(&b.kind)));
    stations.dedup_by(|b, a| is_level([[0.0, a.v], [0.0, b.v]]) && (a.kind, a.side) == (b.kind, b.side));
    stations
}

fn of_ring(places: &[Place], kinds: &[EdgeKind], covering: &Covering) -> Vec<Station> {
    let edges: Vec<([Place; 2], EdgeKind)> = sides(places).zip(kinds.iter().copied()).collect();
    let level = edges.iter().filter(|(side, _)| is_level(*side)).map(|&(side, kind)| of_level(side, kind, covering));
    let before = edges.iter().cycle().skip(edges.len().saturating_sub(1));
    let tops = before.zip(&edges).filter_map(|(&before, &after)| over_valleys(before, after, covering));
    level.chain(tops).collect()
}

/// The plane lies on an edge's left: a level one to the right has it above.
fn of_level([from, to]: [Place; 2], kind: EdgeKind, covering: &Covering) -> Station {
    let (side, up) = if from[0] < to[0] {
        (StationSide::Above, -projection(covering, kind))
    } else {
        (StationSide::Below, weather_line(covering, kind))
    };
    Station { kind, side, v: from[1] + up, shows: None }
}

/// Where two valleys meet under the courses that run on over a dormer or a cricket.
fn over_valleys(
    (before, a): ([Place; 2], EdgeKind),
    (after, b): ([Place; 2], EdgeKind),
    covering: &Covering,
) -> Option<Station> {
    let [rise, fall] = [before, after].map(|[from, to]| [to[0] - from[0], to[1] - from[1]]);
    let is_top = rise[1] > 0.0 && fall[1] < 0.0 && rise[0] * fall[1] - rise[1] * fall[0] < 0.0;
    let valleys = a == EdgeKind::Valley && b == EdgeKind::Valley && !is_level(before) && !is_level(after);
    // Both clear lines lie as far off their valleys; on a slope of run to rise they meet higher by that over cos β.
    let slope = |[u, v]: Place| libm::hypot(u, v) / u.abs().max(1e-9);
    let up = -projection(covering, EdgeKind::Valley) * f64::midpoint(slope(rise), slope(fall));
    (is_top && valleys).then_some(Station {
        kind: EdgeKind::Valley,
        side: StationSide::Above,
        v: after[0][1] + up,
        shows: None,
    })
}
