//! The cricket behind a chimney.
//!
//! Its planes have the pitch of the main slope and fall to either side of a level ridge, so they rise over half the
//! chimney's width: height = width / 2 × pitch / 12. The main slope climbs as fast, so the ridge meets it half the width
//! behind the chimney, and seen in plan the valleys run at 45°.
//!
//! The *International Residential Code*, R1003.20, asks for one where the chimney is more than 30 in wide along the ridge
//! and does not intersect the ridge, and tables these heights for five pitches (from memory, not read).

use geom::{Point, TOLERANCE};
use units::{Area, Length, Pitch};

use crate::classify::height;
use crate::opening::{Footprint, OpeningKind};
use crate::{Cricket, Edge, EdgeKind, Frame, Line, Plane, Ring, Roof};

/// A chimney no wider than this, in inches, needs none.
const WIDEST_WITHOUT: f64 = 30.0;

/// Whether an opening with so long a head asks for a cricket.
pub(crate) fn is_needed(kind: OpeningKind, head: f64) -> bool {
    kind == OpeningKind::Chimney && head > WIDEST_WITHOUT + TOLERANCE
}

/// Where the ridge of the cricket dies into the slope.
pub(crate) fn apex(footprint: &Footprint) -> Point {
    let [left, right] = footprint.across;
    footprint.point([f64::midpoint(left, right), footprint.up[1] + (right - left) / 2.0])
}

/// Sizes of a cricket `width` inches wide on a slope.
pub(crate) fn cricket(width: f64, pitch: Pitch, planes: [usize; 2]) -> Cricket {
    let half = width / 2.0;
    let rise = half * pitch.rise() / 12.0;
    Cricket {
        width: Length::inches(width),
        height: Length::inches(rise),
        ridge: Length::inches(half),
        valley: Length::inches(libm::sqrt(2.0 * half * half + rise * rise)),
        area: Area::square_inches(half * half * pitch.slope_factor()),
        planes,
    }
}

/// Adds the two planes and their lines. `main` is the plane that the chimney stands in.
pub(crate) fn raise(roof: &mut Roof, main: usize, name: &str, footprint: &Footprint) -> [usize; 2] {
    let planes = [roof.planes.len(), roof.planes.len() + 1];
    let halves = [Half::left(footprint), Half::right(footprint)];
    let built = [0, 1].map(|at| halves[at].plane(&roof.planes[main], name, [main, planes[1 - at]]));
    roof.lines.extend(lines(&built, planes));
    roof.planes.extend(built);
    planes
}

/// Half a cricket in plan.
struct Half {
    hand: &'static str,
    /// Counter-clockwise from the lowest: the corner of the chimney's back.
    corners: [Point; 3],
    /// What the edge from each corner is.
    kinds: [EdgeKind; 3],
    /// Left end of the level line through the lowest corner, and the other end of it.
    bearing: [Point; 2],
    /// From the main plane's facing, degrees.
    turned: f64,
}

impl Half {
    fn left(footprint: &Footprint) -> Self {
        let ([left, right], high) = (footprint.across, footprint.up[1]);
        let low = footprint.point([left, high]);
        let back = footprint.point([f64::midpoint(left, right), high]);
        Self {
            hand: "left",
            corners: [low, back, apex(footprint)],
            kinds: [EdgeKind::Head, EdgeKind::Ridge, EdgeKind::Valley],
            bearing: [footprint.point([left, high + (right - left) / 2.0]), low],
            turned: 90.0,
        }
    }

    fn right(footprint: &Footprint) -> Self {
        let ([left, right], high) = (footprint.across, footprint.up[1]);
        let low = footprint.point([right, high]);
        let back = footprint.point([f64::midpoint(left, right), high]);
        Self {
            hand: "right",
            corners: [low, apex(footprint), back],
            kinds: [EdgeKind::Valley, EdgeKind::Ridge, EdgeKind::Head],
            bearing: [low, footprint.point([right, high + (right - left) / 2.0])],
            turned: 270.0,
        }
    }

    /// `meets` are the main plane and the other half.
    fn plane(&self, main: &Plane, name: &str, meets: [usize; 2]) -> Plane {
        let [from, to] = self.bearing;
        let long = geom::distance(from, to);
        let right = geom::scale(geom::sub(to, from), 1.0 / long);
        let origin = [from[0], from[1], height(&main.frame, self.corners[0])];
        let frame = Frame { origin, right, pitch: main.pitch };
        Plane {
            id: format!("{name}.{}", self.hand),
            name: format!("{name}, cricket {}", self.hand),
            facing_deg: (main.facing_deg + self.turned).rem_euclid(360.0),
            frame,
            rings: vec![self.ring(&frame, meets)],
            ..main.clone()
        }
    }

    fn ring(&self, frame: &Frame, [slope, other]: [usize; 2]) -> Ring {
        let edge = |kind| Edge {
            kind,
            meets: match kind {
                EdgeKind::Valley => Some(slope),
                EdgeKind::Ridge => Some(other),
                _ => None,
            },
        };
        let corners = self.corners.iter().map(|&p| [p[0], p[1], height(frame, p)]).collect();
        Ring { corners, edges: self.kinds.into_iter().map(edge).collect() }
    }
}

/// Two valleys, the ridge once, and the chimney's back in two halves.
fn lines(halves: &[Plane; 2], planes: [usize; 2]) -> Vec<Line> {
    let mut lines = Vec::new();
    for (plane, half) in planes.into_iter().zip(halves) {
        for ring in &half.rings {
            let ends = ring.corners.iter().zip(ring.corners.iter().cycle().skip(1));
            for ((&from, &to), edge) in ends.zip(&ring.edges).filter(|(_, edge)| edge.meets != Some(planes[0])) {
                let mut planes: Vec<usize> = edge.meets.into_iter().chain([plane]).collect();
                planes.sort_unstable();
                lines.push(Line { kind: edge.kind, ends: [from, to], planes });
            }
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sized(width: f64, pitch: f64) -> Cricket {
        cricket(width, Pitch::per_12(pitch).unwrap(), [0, 1])
    }

    /// International Residential Code, table R1003.20 (from memory, not read): height of a cricket as a share of its width.
    #[test]
    fn heights_of_the_table() {
        for (pitch, share) in [(12.0, 1.0 / 2.0), (8.0, 1.0 / 3.0), (6.0, 1.0 / 4.0), (4.0, 1.0 / 6.0), (3.0, 1.0 / 8.0)] {
            assert!((sized(48.0, pitch).height.to_inches() - 48.0 * share).abs() < 1e-12, "{pitch}");
        }
    }

    #[test]
    fn a_chimney_wider_than_30_in_needs_one() {
        assert!(!is_needed(OpeningKind::Chimney, 30.0));
        assert!(is_needed(OpeningKind::Chimney, 30.0 + 1.0 / 16.0));
        assert!(!is_needed(OpeningKind::Skylight, 48.0));
    }

    /// 12 in 12: half of a 48-in cricket rises 24 in over 24 in and runs 24 in back; each valley is the diagonal of a cube
    /// of 24 in, each plane half of a rectangle 24 in by 24 × √2 in.
    #[test]
    fn sizes_at_12_in_12() {
        let Cricket { height, ridge, valley, area, .. } = sized(48.0, 12.0);
        assert!((height.to_inches() - 24.0).abs() < 1e-12 && (ridge.to_inches() - 24.0).abs() < 1e-12);
        assert!((valley.to_inches() - 24.0 * 3f64.sqrt()).abs() < 1e-9);
        assert!((area.to_square_inches() - 24.0 * 24.0 * 2f64.sqrt()).abs() < 1e-9);
    }
}
