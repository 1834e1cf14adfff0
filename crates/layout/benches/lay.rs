//! Planes of about 1,000, 100,000 and 1,000,000 pieces, and the start of a house of 5,000.

#[path = "../tests/common/mod.rs"]
mod common;

use common::{gable, moulded, plane, random_shingle};
use roof::{EdgeKind, Plane};

fn main() {
    divan::main();
}

/// Sides in the ratio 3 to 2 that hold about this many pieces of a 12-in unit at 7 in.
fn sides(pieces: usize) -> [f64; 2] {
    let area = pieces as f64 * 12.25 * 7.0;
    [(area * 1.5).sqrt(), (area / 1.5).sqrt()]
}

fn hipped(pieces: usize) -> Plane {
    use EdgeKind::{Eave, Hip, Ridge};
    let [width, height] = sides(pieces);
    let corners = [[0.0, 0.0], [width + height, 0.0], [width, height], [height, height]];
    plane(&[(&corners, &[Eave, Hip, Ridge, Hip])])
}

#[divan::bench(args = [1_000, 100_000, 1_000_000])]
fn gabled_plane(bencher: divan::Bencher<'_, '_>, pieces: usize) {
    let [width, height] = sides(pieces);
    let (plane, sheet) = (gable(width, height), moulded());
    let count = layout::lay(0, &plane, &sheet, &layout::SettingOut::default()).counts().pieces();
    bencher
        .counter(divan::counter::ItemsCount::new(count))
        .bench(|| layout::lay(0, &plane, &sheet, &layout::SettingOut::default()));
}

#[divan::bench(args = [1_000, 100_000, 1_000_000])]
fn hipped_plane(bencher: divan::Bencher<'_, '_>, pieces: usize) {
    let (plane, sheet) = (hipped(pieces), moulded());
    let count = layout::lay(0, &plane, &sheet, &layout::SettingOut::default()).counts().pieces();
    bencher
        .counter(divan::counter::ItemsCount::new(count))
        .bench(|| layout::lay(0, &plane, &sheet, &layout::SettingOut::default()));
}

/// Shingles of random widths at triple lap between hips: every piece is a run of its own.
#[divan::bench(args = [1_000, 10_000, 100_000, 1_000_000], max_time = 5)]
fn random_widths(bencher: divan::Bencher<'_, '_>, pieces: usize) {
    let (plane, sheet) = (hipped(pieces), random_shingle());
    let count = layout::lay(0, &plane, &sheet, &layout::SettingOut::default()).counts().pieces();
    bencher
        .counter(divan::counter::ItemsCount::new(count))
        .bench(|| layout::lay(0, &plane, &sheet, &layout::SettingOut::default()));
}

/// Two hipped and two gabled planes.
#[divan::bench]
fn house_of_5000(bencher: divan::Bencher<'_, '_>) {
    let [width, height] = sides(1_250);
    let (hip, gable, sheet) = (hipped(1_250), gable(width, height), moulded());
    bencher
        .bench(|| [&hip, &hip, &gable, &gable].map(|plane| layout::lay(0, plane, &sheet, &layout::SettingOut::default())));
}

/// A narrow plane of few pieces with a jog, a sill, a head and a lower ridge: most of its time is the search for course lines.
#[divan::bench]
fn plane_with_stations(bencher: divan::Bencher<'_, '_>) {
    use EdgeKind::{Eave, Head, Rake, Ridge, Side, Sill};
    let outline =
        [[0.0, 31.0], [30.0, 31.0], [30.0, 0.0], [90.0, 0.0], [90.0, 231.0], [20.0, 231.0], [20.0, 190.0], [0.0, 190.0]];
    let opening = [[50.0, 80.0], [50.0, 128.0], [70.0, 128.0], [70.0, 80.0]];
    let plane =
        plane(&[(&outline, &[Eave, Rake, Eave, Rake, Ridge, Rake, Ridge, Rake]), (&opening, &[Side, Head, Side, Sill])]);
    let sheet = moulded();
    bencher.bench(|| layout::lay(0, &plane, &sheet, &layout::SettingOut::default()));
}
