//! Outlines that are hard on a skeleton, by kind. Inches; a few feet to a hundred feet wide.

use geom::skeleton::{Change, Contour, Side};
use geom::{Point, TOLERANCE, add, distance, polygon, scale, sub};

/// Numbers that look random and are the same everywhere.
pub(crate) struct Chance(u64);

impl Chance {
    /// A sequence of its own for each seed.
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ 0x2545_f491_4f6c_dd1d)
    }

    fn bits(&mut self) -> u64 {
        // SplitMix64: Steele, Lea and Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014.
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.bits() >> 11) as f64 / (1u64 << 53) as f64
    }

    fn whole(&mut self, low: usize, high: usize) -> usize {
        low + (self.bits() % (high - low + 1) as u64) as usize
    }

    fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        from[self.whole(0, from.len() - 1)]
    }

    /// As often small as large: ten to a power between two.
    fn small(&mut self, low: f64, high: f64) -> f64 {
        libm::pow(10.0, self.between(low, high))
    }
}

/// How one kind is made.
pub(crate) type Make = fn(&mut Chance) -> Vec<Contour>;

/// Every kind.
pub(crate) const KINDS: [(&str, Make); 14] = [
    ("grid, one run", |chance| one_run(vec![grid(chance)], chance)),
    ("grid, turned, mixed runs", |chance| {
        let outline = turned(&grid(chance), chance);
        mixed_runs(vec![outline], chance)
    }),
    ("nearly parallel sides", |chance| {
        let by = chance.small(-10.0, -1.0);
        let outline = turned(&grid(chance), chance);
        let outline = shaken(&outline, by, chance);
        mixed_runs(vec![outline], chance)
    }),
    ("nearly regular polygons", |chance| {
        let (count, by) = (chance.whole(3, 40), chance.small(-10.0, -1.0));
        let outline = shaken(&regular(count, 200.0), by, chance);
        one_run(vec![outline], chance)
    }),
    ("very short sides", |chance| {
        let (outline, by) = (grid(chance), chance.small(-5.0, 0.5));
        let outline = turned(&cut_corners(&outline, by), chance);
        one_run(vec![outline], chance)
    }),
    ("nearly straight corners", |chance| {
        let (outline, by) = (star(chance), chance.small(-5.0, 0.5));
        let outline = bent(&outline, by, chance);
        wild_runs(vec![outline], chance)
    }),
    ("jogs", |chance| {
        let (outline, by) = (grid(chance), chance.small(-5.0, 0.5));
        let outline = turned(&jogged(&outline, by), chance);
        mixed_runs(vec![outline], chance)
    }),
    ("runs of 1/100 to 100", |chance| {
        let outline = star(chance);
        wild_runs(vec![outline], chance)
    }),
    ("late starts and breaks", |chance| {
        let outline = grid(chance);
        late_starts(outline, chance)
    }),
    ("the same, turned and shaken", |chance| {
        let (outline, by) = (grid(chance), chance.small(-10.0, -1.0));
        let outline = shaken(&turned(&outline, chance), by, chance);
        late_starts(outline, chance)
    }),
    ("long rows in 1/65536 in", |chance| {
        let outline = turned(&columns(20, 60, chance), chance);
        let outline =
            outline.into_iter().map(|corner| corner.map(|value| (value / TOLERANCE).round() * TOLERANCE)).collect();
        mixed_runs(vec![outline], chance)
    }),
    ("holes that close", |chance| {
        let by = chance.small(-10.0, -1.0);
        let hole = shaken(&cee(48.0), by, chance);
        let outer = shaken(&rectangle(-60.0, -60.0, 300.0, 240.0), by, chance);
        one_run(vec![outer, hole], chance)
    }),
    ("holes that nearly touch", |chance| {
        let gap = chance.small(-4.0, 0.0);
        let outer = rectangle(0.0, 0.0, 400.0, 300.0);
        let hole = rectangle(gap, 80.0, chance.between(60.0, 300.0), chance.between(100.0, 290.0));
        mixed_runs(vec![outer, reversed(hole)], chance)
    }),
    ("narrow mouths", |chance| {
        let mouth = chance.small(-3.0, 0.5);
        let outline = turned(&reversed(cee(mouth)), chance);
        one_run(vec![outline], chance)
    }),
];

// Outlines.

fn rectangle(x: f64, y: f64, to_x: f64, to_y: f64) -> Vec<Point> {
    vec![[x, y], [to_x, y], [to_x, to_y], [x, to_y]]
}

fn reversed(mut corners: Vec<Point>) -> Vec<Point> {
    corners.reverse();
    corners
}

fn grid(chance: &mut Chance) -> Vec<Point> {
    columns(2, 7, chance)
}

/// Columns side by side on a grid of 2 ft.
fn columns(least: usize, most: usize, chance: &mut Chance) -> Vec<Point> {
    let (mut below, mut above, mut x) = (vec![], vec![], 0.0);
    for _ in 0..chance.whole(least, most) {
        let next = x + 24.0 * chance.whole(1, 5) as f64;
        let (low, high) = (-24.0 * chance.whole(0, 2) as f64, 24.0 * chance.whole(1, 5) as f64);
        below.extend([[x, low], [next, low]]);
        above.extend([[x, high], [next, high]]);
        x = next;
    }
    below.extend(reversed(above));
    tidy(&below)
}

/// Without repeated corners and those on a straight line.
fn tidy(corners: &[Point]) -> Vec<Point> {
    let count = corners.len();
    let turns = |&at: &usize| {
        let (before, after) =
            (sub(corners[at], corners[(at + count - 1) % count]), sub(corners[(at + 1) % count], corners[at]));
        geom::cross(before, after).abs() > 1e-9
    };
    let kept: Vec<Point> = (0..count).filter(turns).map(|at| corners[at]).collect();
    if kept.len() == count { kept } else { tidy(&kept) }
}

fn star(chance: &mut Chance) -> Vec<Point> {
    let count = chance.whole(4, 24);
    let corner = |at| {
        let (angle, radius) =
            ((at as f64 + chance.between(-0.4, 0.4)) / count as f64 * std::f64::consts::TAU, chance.between(80.0, 430.0));
        [radius * libm::cos(angle), radius * libm::sin(angle)]
    };
    (0..count).map(corner).collect()
}

fn regular(count: usize, radius: f64) -> Vec<Point> {
    let angle = |at| at as f64 / count as f64 * std::f64::consts::TAU;
    (0..count).map(|at| [radius * libm::cos(angle(at)), radius * libm::sin(angle(at))]).collect()
}

/// A ring of 48 in, open in the east by `mouth`, clockwise as a hole runs.
fn cee(mouth: f64) -> Vec<Point> {
    let (low, high) = (90.0 - mouth / 2.0, 90.0 + mouth / 2.0);
    let outer = [[240.0, high], [240.0, 180.0], [0.0, 180.0], [0.0, 0.0], [240.0, 0.0], [240.0, low]];
    let inner = [[192.0, low], [192.0, 48.0], [48.0, 48.0], [48.0, 132.0], [192.0, 132.0], [192.0, high]];
    reversed([outer, inner].concat())
}

// What is done to them.

fn turned(corners: &[Point], chance: &mut Chance) -> Vec<Point> {
    let angle = chance.between(0.0, std::f64::consts::TAU);
    let (sin, cos) = (libm::sin(angle), libm::cos(angle));
    corners.iter().map(|[x, y]| [x * cos - y * sin, x * sin + y * cos]).collect()
}

fn shaken(corners: &[Point], by: f64, chance: &mut Chance) -> Vec<Point> {
    corners.iter().map(|corner| corner.map(|value| value + chance.between(-by, by))).collect()
}

/// Every corner cut off by a side that begins and ends `by` from it.
fn cut_corners(corners: &[Point], by: f64) -> Vec<Point> {
    let ends = |(a, b): (Point, Point)| {
        let way = scale(sub(b, a), by / distance(a, b));
        [add(a, way), sub(b, way)]
    };
    polygon::sides(corners).flat_map(ends).collect()
}

/// Every side bent in its middle by up to `by`.
fn bent(corners: &[Point], by: f64, chance: &mut Chance) -> Vec<Point> {
    let halves = |(a, b): (Point, Point)| {
        let middle = scale(add(a, b), 0.5);
        [a, middle.map(|value| value + chance.between(-by, by))]
    };
    polygon::sides(corners).flat_map(halves).collect()
}

/// Every side set back in its middle by `by`.
fn jogged(corners: &[Point], by: f64) -> Vec<Point> {
    let halves = |(a, b): (Point, Point)| {
        let (middle, along) = (scale(add(a, b), 0.5), scale(sub(b, a), by / distance(a, b)));
        let across = [-along[1], along[0]];
        [a, middle, add(middle, across), add(b, across)]
    };
    tidy(&polygon::sides(corners).flat_map(halves).collect::<Vec<_>>())
}

// Runs.

fn contours(rings: Vec<Vec<Point>>, mut run: impl FnMut() -> f64) -> Vec<Contour> {
    let ring = |corners: Vec<Point>| {
        let sides = corners.iter().map(|_| Side::running(run())).collect();
        Contour { corners, sides }
    };
    rings.into_iter().map(ring).collect()
}

fn one_run(rings: Vec<Vec<Point>>, chance: &mut Chance) -> Vec<Contour> {
    let run = chance.pick(&[0.5, 1.0, 1.5, 2.0, 4.0]);
    contours(rings, || run)
}

fn mixed_runs(rings: Vec<Vec<Point>>, chance: &mut Chance) -> Vec<Contour> {
    contours(rings, || chance.pick(&[1.0, 1.0, 1.5, 2.0, 0.0]))
}

fn wild_runs(rings: Vec<Vec<Point>>, chance: &mut Chance) -> Vec<Contour> {
    contours(rings, || chance.small(-2.0, 2.0))
}

/// Sides that begin to run at a foot, break there, or run from the start, all on the grid.
fn late_starts(outline: Vec<Point>, chance: &mut Chance) -> Vec<Contour> {
    let mut found = contours(vec![outline], || 1.0);
    for side in &mut found[0].sides {
        let change = |at: usize, run: f64| Change { at: 12.0 * at as f64, run };
        *side = match chance.whole(0, 3) {
            0 => Side { run: 0.0, changes: vec![change(chance.whole(1, 2), 1.0)] },
            1 => Side { run: 0.5, changes: vec![change(1, 2.0)] },
            2 => Side { run: 1.0, changes: vec![change(chance.whole(1, 3), 0.0)] },
            _ => Side::running(1.0),
        };
    }
    found[0].sides[0] = Side::running(1.0);
    found
}
