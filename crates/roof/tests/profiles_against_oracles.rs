//! Sides with profiles against heights that share no code with the product.

#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

mod common;
mod oracles;

use common::{FT, at_height, block, eave, gable, rectangle, then};
use oracles::{Corner, inside, rectilinear_height};
use proptest::prelude::*;
use roof::{Block, Roof, Severity, Side, build, sanity_check};

/// Height of the plane over a plan point.
fn height_at(roof: &Roof, [x, y]: Corner) -> Option<f64> {
    let ring = |ring: &roof::Ring| ring.corners.iter().map(|corner| [corner[0], corner[1]]).collect::<Vec<_>>();
    let over = |plane: &&roof::Plane| plane.rings.iter().filter(|r| inside(&ring(r), [x, y])).count() % 2 == 1;
    roof.planes.iter().find(over).map(|plane| plane.frame.point(plane.frame.place(x, y))[2])
}

fn sound(block: Block) -> Result<Roof, TestCaseError> {
    let built = build(&[block], 0.0);
    prop_assert!(built.problems.iter().all(|problem| problem.severity == Severity::Caution), "{:?}", built.problems);
    prop_assert_eq!(sanity_check(&built.roof), Vec::<String>::new());
    Ok(built.roof)
}

/// A side in feet and rises in 12: a height of its own above the block's, then where each pitch begins; 0 is upright.
#[derive(Debug, Clone)]
struct Profile {
    base: f64,
    stages: Vec<(f64, f64)>,
}

impl Profile {
    fn side(&self) -> Side {
        let first = if self.stages[0].1 > 0.0 { eave(self.stages[0].1) } else { gable() };
        let side = if self.base > 0.0 { at_height(first, 9.0 + self.base) } else { first };
        self.stages[1..].iter().fold(side, |side, &(from, rise)| then(side, from, rise))
    }

    /// Height of the side's surface a distance inside it: every foot of a sloping stage takes 12 / rise of run.
    /// Upright stages take none; past the end of a profile that ends upright there is no limit.
    fn height(&self, distance: f64) -> f64 {
        let mut left = distance;
        for (at, &(from, rise)) in self.stages.iter().enumerate() {
            let to = self.stages.get(at + 1).map_or(f64::INFINITY, |next| next.0);
            let run = (to - from) * 12.0 / rise;
            if rise > 0.0 && left < run {
                return self.base + from + left * rise / 12.0;
            }
            left -= if rise > 0.0 { run } else { 0.0 };
        }
        f64::INFINITY
    }
}

fn profile() -> impl Strategy<Value = Profile> {
    let rise = || prop_oneof![Just(8.0), 3.0f64..30.0];
    let base = || prop_oneof![3 => Just(0.0), 1 => 0.5f64..6.0];
    prop_oneof![
        2 => (base(), rise()).prop_map(|(base, rise)| Profile { base, stages: vec![(0.0, rise)] }),
        2 => Just(Profile { base: 0.0, stages: vec![(0.0, 0.0)] }),
        4 => (base(), prop::collection::vec((0.5f64..5.0, rise()), 2..4)).prop_map(|(base, all)| {
            let mut from = 0.0;
            let stages = all.into_iter().map(|(height, rise)| {
                from += height;
                (from - height, rise)
            });
            Profile { base, stages: stages.collect() }
        }),
        2 => (1.0f64..8.0, rise()).prop_map(|(from, rise)| Profile { base: 0.0, stages: vec![(0.0, 0.0), (from, rise)] }),
        2 => (1.0f64..8.0, rise()).prop_map(|(from, rise)| Profile { base: 0.0, stages: vec![(0.0, rise), (from, 0.0)] }),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: ProptestConfig::default().cases.max(1000), ..ProptestConfig::default() })]

    /// Over a rectangle the roof is the lowest of what rises from its four sides, whatever their profiles: a side leaves
    /// the front only when the two beside it meet, and then the whole front is gone.
    #[test]
    fn any_profiles_over_a_rectangle(
        size in (8.0f64..50.0, 8.0f64..50.0),
        mut sides in prop::collection::vec(profile(), 4),
        spots in prop::collection::vec((0.0f64..1.0, 0.0f64..1.0), 20),
    ) {
        sides[0] = Profile { base: 0.0, stages: vec![(0.0, 8.0)] };
        let (w, d) = size;
        let roof = sound(rectangle(w, d, &sides.iter().map(Profile::side).collect::<Vec<_>>()))?;
        for (s, t) in spots {
            let (x, y) = (s * w, t * d);
            let distances = [y, w - x, d - y, x];
            let should = sides.iter().zip(distances).map(|(side, off)| side.height(off)).fold(f64::INFINITY, f64::min);
            let is = height_at(&roof, [x * FT, y * FT]);
            // Upright ends make the surface jump there: a point within a hair of one may fall to either side.
            let near_a_jump = [-1e-5, 1e-5].iter().any(|by| {
                let moved = sides.iter().zip(distances).map(|(side, off)| side.height(off + by)).fold(f64::INFINITY, f64::min);
                (moved - should).abs() > 1e-3
            });
            prop_assert!(near_a_jump || is.is_some_and(|is| (is / FT - 9.0 - should).abs() < 1e-6), "{:?} {} {} {}", is, should, x, y);
        }
    }

    /// One profile all round any outline: the roof of even slope, its heights bent by the profile.
    #[test]
    fn one_profile_over_square_corners(
        columns in prop::collection::vec((4.0f64..20.0, 6.0f64..25.0, -5.0f64..5.0), 1..5),
        pitches in (3.0f64..30.0, 0.5f64..4.0, 3.0f64..30.0, 0.5f64..4.0, 3.0f64..30.0),
        spots in prop::collection::vec((0.0f64..1.0, 0.0f64..1.0), 12),
    ) {
        let (a, first, b, second, c) = pitches;
        let profile = Profile { base: 0.0, stages: vec![(0.0, a), (first, b), (first + second, c)] };
        let (mut below, mut above, mut x) = (vec![], vec![], 0.0);
        for (width, top, bottom) in columns {
            below.extend([[x, bottom], [x + width, bottom]]);
            above.extend([[x, top], [x + width, top]]);
            x += width;
        }
        below.extend(above.into_iter().rev());
        let jogs = below.iter().zip(&below[1..]);
        prop_assume!(jogs.clone().all(|(p, q)| (p[0] - q[0]).abs().max((p[1] - q[1]).abs()) > 0.01));
        let roof = sound(block("house", &below, 9.0, &vec![profile.side(); below.len()]))?;
        for (s, t) in spots {
            let spot = [s * x, 30.0 * t - 5.0];
            if inside(&below, spot) && let Some(is) = height_at(&roof, spot.map(|c| c * FT)) {
                let should = 9.0 + profile.height(rectilinear_height(&below, 1.0, spot));
                prop_assert!((is / FT - should).abs() < 1e-4, "{} {} {:?}", is / FT, should, spot);
            }
        }
    }
}
