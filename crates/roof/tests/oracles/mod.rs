//! What a roof must be where a short formula says so. Shares no code with the product, on purpose.
//!
//! Plan coordinates and heights in inches, heights above the eaves; a slope is rise over run, pitch / 12.

#![allow(dead_code, reason = "each test file uses a part of this")]

/// A corner in plan.
pub(crate) type Corner = [f64; 2];

/// Height of the roof over a convex outline at a point inside it: the lowest of the planes that rise from its sides.
/// Corners either way round; `slopes[i]` belongs to the side from corner `i` to corner `i + 1`, and a side without a
/// plane, a gable, has `None`.
///
/// The lower envelope of the planes: Aichholzer, Aurenhammer, Alberts and Gaertner, "A novel type of skeleton for
/// polygons", 1995, for convex polygons; Biedl, Held, Huber, Kaaser and Palfrader, "Weighted straight skeletons in the
/// plane", 2015, for unequal slopes.
pub(crate) fn convex_height(corners: &[Corner], slopes: &[Option<f64>], [x, y]: Corner) -> f64 {
    sides(corners)
        .zip(slopes)
        .filter_map(|((a, b), slope)| slope.map(|slope| slope * distance_to_line([x, y], a, b)))
        .fold(f64::INFINITY, f64::min)
}

/// Height of a roof of one slope over an outline with sides along the axes, at a point inside it: over all rectangles
/// that fit into the outline the greatest of the distances to the nearest side of the rectangle, times the slope.
///
/// Where all sides move at one speed the front of the skeleton is the outline eroded by a square, and an axis-parallel
/// outline is the union of the rectangles that fit into it, so the roof is the upper envelope of their hip roofs.
pub(crate) fn rectilinear_height(corners: &[Corner], slope: f64, at: Corner) -> f64 {
    let rectangles = rectangles(corners);
    slope * rectangles.iter().map(|rectangle| depth(*rectangle, at)).fold(0.0, f64::max)
}

/// Every rectangle inside the outline whose sides lie on lines through corners; the maximal ones are among them.
fn rectangles(corners: &[Corner]) -> Vec<[Corner; 2]> {
    let (xs, ys) = (marks(corners, 0), marks(corners, 1));
    let mut found = Vec::new();
    for (i, &west) in xs.iter().enumerate() {
        for &east in &xs[i + 1..] {
            for (j, &south) in ys.iter().enumerate() {
                let inside = |north: &&f64| covered(corners, &xs, &ys, [[west, south], [east, **north]]);
                found.extend(ys[j + 1..].iter().take_while(inside).map(|&north| [[west, south], [east, north]]));
            }
        }
    }
    found
}

/// A rectangle on lines through corners lies inside if the middle of each of its cells does.
fn covered(corners: &[Corner], xs: &[f64], ys: &[f64], [[west, south], [east, north]]: [Corner; 2]) -> bool {
    let middles = |marks: &[f64], low: f64, high: f64| -> Vec<f64> {
        marks.windows(2).filter(|cell| low <= cell[0] && cell[1] <= high).map(|cell| (cell[0] + cell[1]) / 2.0).collect()
    };
    let columns = middles(xs, west, east);
    middles(ys, south, north).iter().all(|&y| columns.iter().all(|&x| inside(corners, [x, y])))
}

fn marks(corners: &[Corner], axis: usize) -> Vec<f64> {
    let mut marks: Vec<f64> = corners.iter().map(|corner| corner[axis]).collect();
    marks.sort_by(f64::total_cmp);
    marks.dedup();
    marks
}

/// Distance from a point to the nearest side of a rectangle around it; negative outside.
fn depth([[west, south], [east, north]]: [Corner; 2], [x, y]: Corner) -> f64 {
    (x - west).min(east - x).min(y - south).min(north - y)
}

/// Even-odd rule; points on a side may fall either way.
pub(crate) fn inside(corners: &[Corner], [x, y]: Corner) -> bool {
    let crossed = sides(corners)
        .filter(|([ax, ay], [bx, by])| (*ay > y) != (*by > y) && x < ax + (y - ay) / (by - ay) * (bx - ax))
        .count();
    crossed % 2 == 1
}

fn distance_to_line([x, y]: Corner, [ax, ay]: Corner, [bx, by]: Corner) -> f64 {
    let (dx, dy) = (bx - ax, by - ay);
    (dx * (y - ay) - dy * (x - ax)).abs() / (dx * dx + dy * dy).sqrt()
}

fn sides(corners: &[Corner]) -> impl Iterator<Item = (Corner, Corner)> + '_ {
    corners.iter().copied().zip(corners.iter().copied().cycle().skip(1))
}

#[cfg(test)]
mod tests {
    use super::*;

    const SLOPE: f64 = 8.0 / 12.0;

    fn near(a: f64, b: f64) {
        assert!((a - b).abs() < 1e-9, "{a} is not {b}");
    }

    /// Hip roof of 30 × 50 ft at 8 in 12: rises 10 ft to a ridge 20 ft long (worked out from the hip example of
    /// NAVEDTRA 14044, US Navy, Builder: common run 15 ft, rise 10 ft).
    #[test]
    fn a_hip_roof() {
        let corners = [[0.0, 0.0], [600.0, 0.0], [600.0, 360.0], [0.0, 360.0]];
        for (at, feet) in [([300.0, 180.0], 10.0), ([180.0, 180.0], 10.0), ([420.0, 180.0], 10.0), ([90.0, 180.0], 5.0)] {
            near(convex_height(&corners, &[Some(SLOPE); 4], at), feet * 12.0);
            near(rectilinear_height(&corners, SLOPE, at), feet * 12.0);
        }
    }

    /// With two gables the ridge runs from end to end.
    #[test]
    fn a_gable_roof_of_two_pitches() {
        let corners = [[0.0, 0.0], [600.0, 0.0], [600.0, 360.0], [0.0, 360.0]];
        let slopes = [Some(0.5), None, Some(1.0), None];
        near(convex_height(&corners, &slopes, [5.0, 240.0]), 120.0);
        near(convex_height(&corners, &slopes, [5.0, 60.0]), 30.0);
        near(convex_height(&corners, &slopes, [595.0, 300.0]), 60.0);
    }

    #[test]
    fn the_way_round_does_not_matter() {
        let mut corners = [[0.0, 0.0], [300.0, 40.0], [150.0, 260.0]];
        let height = convex_height(&corners, &[Some(0.75); 3], [150.0, 100.0]);
        corners.reverse();
        near(convex_height(&corners, &[Some(0.75); 3], [150.0, 100.0]), height);
    }

    /// An L of two wings, 20 and 10 ft wide: each ridge is half its wing's width up, and the valley from the inner
    /// corner runs where the distances to both wings' sides are equal.
    #[test]
    fn an_l() {
        let corners = [[0.0, 0.0], [480.0, 0.0], [480.0, 240.0], [120.0, 240.0], [120.0, 480.0], [0.0, 480.0]];
        near(rectilinear_height(&corners, 1.0, [300.0, 120.0]), 120.0);
        near(rectilinear_height(&corners, 1.0, [60.0, 300.0]), 60.0);
        near(rectilinear_height(&corners, 1.0, [90.0, 210.0]), 30.0);
        near(rectilinear_height(&corners, 1.0, [60.0, 470.0]), 10.0);
    }

    /// In a U no rectangle may bridge the court.
    #[test]
    fn a_u() {
        let u = [[0., 0.], [300., 0.], [300., 300.], [200., 300.], [200., 100.], [100., 100.], [100., 300.], [0., 300.]];
        near(rectilinear_height(&u, 1.0, [50.0, 200.0]), 50.0);
        near(rectilinear_height(&u, 1.0, [150.0, 50.0]), 50.0);
        near(rectilinear_height(&u, 1.0, [150.0, 99.0]), 1.0);
        assert!(!inside(&u, [150.0, 200.0]));
    }
}
