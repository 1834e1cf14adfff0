use crate::Point;

/// Where a level line meets a ring, from left to right.
pub(crate) fn crossings(ring: &[Point], height: f64) -> Vec<f64> {
    let sides = ring.iter().zip(ring.iter().cycle().skip(1));
    let meets = |(a, b): (&Point, &Point)| {
        ((a[1] > height) != (b[1] > height)).then(|| a[0] + (b[0] - a[0]) * (height - a[1]) / (b[1] - a[1]))
    };
    let mut us: Vec<f64> = sides.filter_map(meets).collect();
    us.sort_by(f64::total_cmp);
    us
}
