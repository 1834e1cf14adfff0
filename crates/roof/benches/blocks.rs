//! How the roof's cost grows with blocks and with corners.

use roof::{Block, OutlineAt, Side, SideKind, build};
use units::{Length, Pitch};

fn main() {
    divan::main();
}

fn side(rise: f64) -> Side {
    let kind = Pitch::per_12(rise).map_or(SideKind::Gable, SideKind::Eave);
    Side { overhang: Some(Length::inches(12.0)), ..Side::new(kind) }
}

/// A gabled or hipped rectangle; inches.
fn block(index: usize, [x, y]: [f64; 2], [w, d]: [f64; 2], rises: [f64; 4]) -> Block {
    Block {
        name: format!("b{index}"),
        outline: vec![[x, y], [x + w, y], [x + w, y + d], [x, y + d]],
        outline_at: OutlineAt::DripLine,
        sides: rises.map(side).to_vec(),
        holes: vec![],
        eave_height: 100.0 + 24.0 * (index % 3) as f64,
    }
}

/// A main house with wings on both sides, each dying into its slopes.
fn house(count: usize) -> Vec<Block> {
    let length = 240.0 * count as f64;
    let main = block(0, [0.0, 0.0], [length, 360.0], [8.0, 0.0, 8.0, 0.0]);
    let wing = |index: usize| {
        let x = 40.0 + 220.0 * index as f64;
        let y = if index.is_multiple_of(2) { -120.0 } else { 190.0 };
        block(index, [x, y], [160.0, 300.0], [0.0, 8.0, 0.0, 8.0])
    };
    std::iter::once(main).chain((1..count).map(wing)).collect()
}

#[divan::bench(args = [1, 3, 10, 30])]
fn house_of_blocks(bencher: divan::Bencher<'_, '_>, count: usize) {
    let blocks = house(count);
    bencher.bench_local(|| build(divan::black_box(&blocks), 0.0));
}

/// Row houses, wall to wall, every third one higher.
#[divan::bench(args = [25, 50, 100, 200])]
fn row_of_blocks(bencher: divan::Bencher<'_, '_>, count: usize) {
    let blocks: Vec<Block> =
        (0..count).map(|at| block(at, [240.0 * at as f64, 0.0], [240.0, 400.0], [7.0, 0.0, 7.0, 0.0])).collect();
    bencher.bench_local(|| build(divan::black_box(&blocks), 0.0));
}

#[divan::bench(args = [100, 1_000, 5_000])]
fn one_block_of_corners(bencher: divan::Bencher<'_, '_>, count: usize) {
    let mut seed = 0x2545_f491_4f6c_dd1d_u64;
    let outline: Vec<[f64; 2]> = (0..count)
        .map(|i| {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            let radius = 3000.0 + (seed >> 40) as f64 / f64::from(1 << 24) * 7000.0;
            let angle = std::f64::consts::TAU * i as f64 / count as f64;
            [radius * libm::cos(angle), radius * libm::sin(angle)]
        })
        .collect();
    let star = Block { sides: vec![side(8.0); count], outline, ..block(0, [0.0; 2], [1.0; 2], [8.0; 4]) };
    bencher.bench_local(|| build(std::slice::from_ref(divan::black_box(&star)), 0.0));
}
