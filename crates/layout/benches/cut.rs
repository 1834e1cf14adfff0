//! Cutting of houses with hips and valleys: as many squares as stand there, 12-in units at 7 in.

#[path = "../tests/common/mod.rs"]
mod common;

use common::{inches, moulded, plane};
use covering::{Covering, CuttingRules, CuttingTool, MadeSides};
use layout::{LaidPlane, SettingOut, cut_units};
use roof::{EdgeKind, Plane};

fn main() {
    divan::main();
}

fn sheet() -> Covering {
    let rules = CuttingRules {
        tool: CuttingTool::Saw,
        kerf: inches(0.125),
        made_sides: MadeSides::Nowhere,
        least_offcut: inches(3.0),
        even: false,
        turned: false,
    };
    Covering { cutting: Some(rules), ..moulded() }
}

/// Two long hipped planes, two hipped ends, and two planes of a wing between a hip and a valley.
fn house(squares: usize) -> Vec<Plane> {
    use EdgeKind::{Eave, Hip, Ridge, Valley};
    // The six planes of a house with a rafter of 1 have an area of 12.2.
    let rafter = (squares as f64 * 14_400.0 / 12.2).sqrt();
    let lean = 0.832;
    let long = |length: f64| {
        let corners = [[0.0, 0.0], [length, 0.0], [length - lean, 1.0], [lean, 1.0]];
        (corners.to_vec(), vec![Eave, Hip, Ridge, Hip])
    };
    let wing = |mirror: f64| {
        let corners = [[0.0, 0.0], [1.0, 0.0], [1.0 + lean, 1.0], [lean, 1.0]].map(|[u, v]| [u * mirror, v]);
        let (mut corners, mut edges) = (corners.to_vec(), vec![Eave, Valley, Ridge, Hip]);
        if mirror < 0.0 {
            corners.reverse();
            edges = vec![Ridge, Valley, Eave, Hip];
        }
        (corners, edges)
    };
    let end = (vec![[0.0, 0.0], [2.0 * lean, 0.0], [lean, 1.0]], vec![Eave, Hip, Hip]);
    let shapes = [long(5.0), long(4.5), end.clone(), end, wing(1.0), wing(-1.0)];
    let scaled = |corners: Vec<[f64; 2]>| corners.into_iter().map(|at| at.map(|part| part * rafter)).collect::<Vec<_>>();
    shapes.into_iter().map(|(corners, edges)| plane(&[(&scaled(corners), &edges)])).collect()
}

fn laid(planes: &[Plane], sheet: &Covering) -> Vec<LaidPlane> {
    planes.iter().enumerate().map(|(at, plane)| layout::lay(at, plane, sheet, &SettingOut::default())).collect()
}

#[divan::bench(args = [5, 30, 300, 10_000])]
fn cutting(bencher: divan::Bencher<'_, '_>, squares: usize) {
    let sheet = sheet();
    let laid = laid(&house(squares), &sheet);
    let planes: Vec<&LaidPlane> = laid.iter().collect();
    let cutting = cut_units(&planes, &sheet).remove(0);
    let kinds = cutting.kinds.len();
    let cut: u64 = cutting.kinds.iter().map(|kind| kind.count).sum();
    eprintln!(
        "{squares} squares: {} pieces, {cut} cut, {kinds} kinds, stock {}, bound {}",
        cutting.pieces(),
        cutting.stock(),
        cutting.bound
    );
    bencher.bench(|| cut_units(divan::black_box(&planes), &sheet));
}

#[divan::bench(args = [5, 30, 300, 10_000])]
fn laying_and_cutting(bencher: divan::Bencher<'_, '_>, squares: usize) {
    let sheet = sheet();
    let planes = house(squares);
    bencher.bench(|| {
        let laid = laid(divan::black_box(&planes), &sheet);
        cut_units(&laid.iter().collect::<Vec<_>>(), &sheet)
    });
}
