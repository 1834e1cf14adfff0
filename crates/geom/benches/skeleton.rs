//! How the skeleton's cost grows with the corners of the outline: star-like random outlines, one pitch.

use geom::skeleton::{Contour, Side, skeleton};

fn main() {
    divan::main();
}

/// A simple outline around a centre, its radii from a fixed sequence.
fn star(count: usize) -> Contour {
    let mut seed = 0x2545_f491_4f6c_dd1d_u64;
    let corners = (0..count)
        .map(|i| {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            let radius = 300.0 + (seed >> 40) as f64 / f64::from(1 << 24) * 700.0;
            let angle = std::f64::consts::TAU * i as f64 / count as f64;
            [radius * libm::cos(angle), radius * libm::sin(angle)]
        })
        .collect();
    Contour { corners, sides: vec![Side::running(1.5); count] }
}

#[divan::bench(args = [10, 100, 1_000, 5_000])]
fn corners(bencher: divan::Bencher<'_, '_>, count: usize) {
    let outline = [star(count)];
    bencher.bench_local(|| skeleton(divan::black_box(&outline), 0.0).expect("a star has a skeleton"));
}
