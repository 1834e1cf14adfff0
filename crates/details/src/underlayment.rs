//! Underlayment in courses across the slope, and interlayment between courses of shakes.

use covering::{Covering, Lap};
use geom::region::{Region, less};
use roof::Plane;
use units::Length;

use crate::ice_barrier::Shelter;
use crate::strip::{Lies, Strip};
use crate::surface::{ANYWHERE, carried, height, stretches, upright};
use crate::{Given, Roll};

/// Heights nearer than this, in, are one.
const NIL: f64 = 1e-6;

/// How many layers of underlayment a plane gets by its sheet.
#[must_use]
pub fn underlayment_layers(covering: &Covering, plane: &Plane) -> u32 {
    if covering.underlayment.double_below.is_some_and(|below| plane.pitch < below) { 2 } else { 1 }
}

/// The sheet's roll.
pub(crate) fn roll(covering: &Covering) -> Roll {
    let roll = &covering.underlayment;
    Roll {
        name: roll.name.clone(),
        width: roll.width,
        length: roll.length,
        side_lap: roll.top_lap,
        end_lap: roll.end_lap,
        weight: roll.weight,
    }
}

/// Underlayment of one plane: everywhere but where the ice barrier stands in for it, carried over to the next planes.
pub(crate) fn lay(given: &Given<'_>, index: usize, plane: &Plane, covering: &Covering, shelters: &[Shelter]) -> Vec<Strip> {
    let sheltered: Region = shelters
        .iter()
        .filter(|shelter| shelter.plane == index)
        .map(|shelter| upright(shelter.u, shelter.v).to_vec())
        .collect();
    let open = less(&carried(plane, |kind| given.carried_over(kind)), &sheltered);
    let roll = roll(covering);
    let Some([low, high]) = height(&open) else { return Vec::new() };
    let bands = bands([low, high], roll.width.to_inches(), roll.side_lap.to_inches(), underlayment_layers(covering, plane));
    let strips = bands.into_iter().enumerate().flat_map(|(course, v)| {
        let lies = Lies::Course { course: course as u32 };
        stretches(&open, ANYWHERE, v).into_iter().map(move |u| Strip::across(lies, index, u, v))
    });
    strips.collect()
}

/// Bands that cover everything between two heights in so many layers, each lapped over the one below.
///
/// They advance by (width − lap) / layers. Laid double, the first band is only as high as what the second leaves single:
/// width − advance, which is 19 in of a 36-in roll with a 2-in lap. Every height lies in as many bands as layers.
pub(crate) fn bands([low, high]: [f64; 2], width: f64, lap: f64, layers: u32) -> Vec<[f64; 2]> {
    let advance = (width - lap) / f64::from(layers);
    let first = 1.0 - f64::from(layers);
    // So many from the top down reach the top.
    let topmost = ((high - low - width) / advance - NIL).ceil();
    let count = (topmost - first + f64::from(layers)) as u32;
    let band = |at: u32| {
        let foot = low + (first + f64::from(at)) * advance;
        [foot.max(low), foot + width]
    };
    (0..count.max(layers)).map(band).collect()
}

/// Strips of felt between courses of shakes: the lower edge of each lies twice the exposure above the butts that it
/// belongs to (wood shakes, placement, read in an adopting code's text).
pub(crate) fn interlay(given: &Given<'_>, index: usize, plane: &Plane, covering: &Covering) -> Vec<Strip> {
    let laid = given.layout.planes.iter().find(|laid| laid.plane == index);
    let Some(laid) = laid.filter(|_| covering.lap == Lap::Shake) else { return Vec::new() };
    let width = given.dry_in.interlayment.width.to_inches();
    let region = plane.places();
    let strips = laid.courses.iter().enumerate().flat_map(|(course, row)| {
        let low = interlayment_edge(Length::inches(row.butt), Length::inches(row.exposure)).to_inches();
        let v = [low, low + width];
        let lies = Lies::Course { course: course as u32 };
        stretches(&region, ANYWHERE, v).into_iter().map(move |u| Strip::across(lies, index, u, v))
    });
    strips.collect()
}

/// Where the lower edge of a strip lies: twice the exposure above the butts.
#[must_use]
pub fn interlayment_edge(butt: Length, exposure: Length) -> Length {
    butt + exposure * 2.0
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn layers_at(bands: &[[f64; 2]], v: f64) -> usize {
        bands.iter().filter(|[low, high]| (low - 1e-9..=high + 1e-9).contains(&v)).count()
    }

    /// A 19-in strip at the eave, then 36-in sheets lapped 19 in (International Residential Code, double underlayment, read
    /// in an adopting code's text).
    #[test]
    fn double_layer_begins_with_19_in() {
        let bands = bands([0.0, 100.0], 36.0, 2.0, 2);
        assert_eq!(bands[..3], [[0.0, 19.0], [0.0, 36.0], [17.0, 53.0]]);
    }

    #[test]
    fn a_single_width_is_one_band() {
        assert_eq!(bands([0.0, 36.0], 36.0, 3.0, 1), [[0.0, 36.0]]);
        assert_eq!(bands([0.0, 36.5], 36.0, 3.0, 1), [[0.0, 36.0], [33.0, 69.0]]);
    }

    proptest! {
        #[test]
        fn every_height_is_covered_and_the_last_band_is_needed(
            high in 0.5..600.0f64, width in 20.0..60.0f64, lap in 1.0..8.0f64, layers in 1u32..4, share in 0.0..1.0f64,
        ) {
            let all = bands([0.0, high], width, lap, layers);
            for v in [0.0, share * high, high] {
                prop_assert!(layers_at(&all, v) >= layers as usize, "{v} in {all:?}");
            }
            let fewer = &all[..all.len() - 1];
            prop_assert!(layers_at(fewer, high) < layers as usize);
            for pair in all.windows(layers as usize + 1) {
                prop_assert!(pair[0][1] - pair[layers as usize][0] >= lap - 1e-6);
            }
        }
    }
}
