//! What the tests of several formats share.
#![allow(dead_code, reason = "each test file uses a part")]

use exchange::{Facet, ImportFormat, Imported, Options, Refused, read};
use units::LengthUnit;

pub(crate) fn told(units: LengthUnit) -> Options {
    Options { units: Some(units), layer: None }
}

pub(crate) fn on_layer(layer: &str) -> Options {
    Options { units: None, layer: Some(layer.into()) }
}

pub(crate) fn json(text: &str, options: &Options) -> Result<Imported, Refused> {
    read(text.as_bytes(), ImportFormat::Json, options)
}

pub(crate) fn dxf(text: &str, options: &Options) -> Result<Imported, Refused> {
    read(text.as_bytes(), ImportFormat::Dxf, options)
}

/// Square feet on the slope, by triangles from the first corner; holes are taken off.
pub(crate) fn area(plane: &Facet) -> f64 {
    let ring = |corners: &Vec<[f64; 3]>| {
        let from = |i: usize| -> [f64; 3] { std::array::from_fn(|k| corners[i][k] - corners[0][k]) };
        let mut sum = [0.0; 3];
        for i in 1..corners.len() - 1 {
            let (a, b) = (from(i), from(i + 1));
            sum[0] += a[1] * b[2] - a[2] * b[1];
            sum[1] += a[2] * b[0] - a[0] * b[2];
            sum[2] += a[0] * b[1] - a[1] * b[0];
        }
        sum.iter().map(|part| part * part).sum::<f64>().sqrt() / 2.0 / 144.0
    };
    ring(&plane.corners) - plane.holes.iter().map(ring).sum::<f64>()
}

/// Begun at the lowest-left corner, so that rings can be compared.
pub(crate) fn from_lowest<const N: usize>(ring: &[[f64; N]]) -> Vec<[f64; N]> {
    let lower = |&a: &usize, &b: &usize| ring[a].partial_cmp(&ring[b]).expect("ordinary numbers");
    let start = (0..ring.len()).min_by(lower).expect("a corner");
    (0..ring.len()).map(|at| ring[(start + at) % ring.len()]).collect()
}
