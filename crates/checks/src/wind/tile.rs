use crate::figure::figure;

/// A rigid tile, feet; its butt in inches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Tile {
    pub(crate) length: f64,
    /// Exposed width.
    pub(crate) width: f64,
    /// Thickness of the tail, inches.
    pub(crate) tail: f64,
}

/// Why the method does not hold for a tile.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum TileOutside {
    Length,
    Width,
    Tail,
}

/// Moment that raises the tail of a tile, ft-lb: Ma = q CL b L La (1 − GCp), with CL = 0.2 and La = 0.76 L for tiles nailed at
/// the head. International Building Code 2018, 1609.5.3, from memory, not read.
///
/// # Errors
/// Outside a length of 1.0 to 1.75 ft, an exposed width of 0.67 to 1.25 ft, a tail of 1.3 in. A wind-tunnel test decides there.
pub(crate) fn uplift_moment(velocity_pressure: f64, tile: Tile, external: f64) -> Result<f64, TileOutside> {
    within(tile)?;
    let arm = figure!(0.76) * tile.length;
    Ok(velocity_pressure * figure!(0.2) * tile.width * tile.length * arm * (1.0 - external))
}

fn within(tile: Tile) -> Result<(), TileOutside> {
    if !(figure!(1.0)..=figure!(1.75)).contains(&tile.length) {
        Err(TileOutside::Length)
    } else if !(figure!(0.67)..=figure!(1.25)).contains(&tile.width) {
        Err(TileOutside::Width)
    } else if tile.tail > figure!(1.3) {
        Err(TileOutside::Tail)
    } else {
        Ok(())
    }
}

/// What the weight of a tile leaves to its fastening, ft-lb, as Florida's Roofing Application Standard 127 reckons it.
pub(crate) fn left_to_fastening(uplift: f64, weight: f64) -> f64 {
    (uplift - weight).max(0.0)
}

impl TileOutside {
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::Length => "its length is not from 12 in to 21 in",
            Self::Width => "its width is not from 8 in to 15 in",
            Self::Tail => "its tail is thicker than 1.3 in",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TILE: Tile = Tile { length: 1.25, width: 1.0, tail: 1.0 };

    /// q = 20 psf, CL = 0.2, b = 1.0, L = 1.25, La = 0.76 L = 0.95, GCp = −2.0: 20 × 0.2 × 1.0 × 1.25 × 0.95 × 3 = 14.25 ft-lb,
    /// worked by hand; the formula of the International Building Code is from memory, not read.
    #[test]
    fn a_tile_worked_by_hand() {
        assert!((uplift_moment(20.0, TILE, -2.0).unwrap() - 14.25).abs() < 1e-9);
    }

    /// A county's form by Roofing Application Standard 127: 160 × 0.205 − 6.21 = 26.59 ft-lb (an arithmetic check alone).
    #[test]
    fn weight_helps() {
        assert!((left_to_fastening(160.0 * 0.205, 6.21) - 26.59).abs() < 1e-9);
        assert!(left_to_fastening(5.0, 6.21) < 1e-12);
    }

    /// Limits of the method, from memory, not read.
    #[test]
    fn outside_its_limits_the_method_says_nothing() {
        let of = |length, width, tail| uplift_moment(20.0, Tile { length, width, tail }, -2.0).err();
        assert_eq!(of(0.99, 1.0, 1.0), Some(TileOutside::Length));
        assert_eq!(of(1.76, 1.0, 1.0), Some(TileOutside::Length));
        assert_eq!(of(1.25, 0.665, 1.0), Some(TileOutside::Width));
        assert_eq!(of(1.25, 1.26, 1.0), Some(TileOutside::Width));
        assert_eq!(of(1.25, 1.0, 1.31), Some(TileOutside::Tail));
        for sound in [(1.0, 1.0, 1.0), (1.75, 1.0, 1.0), (1.25, 0.67, 1.0), (1.25, 1.25, 1.0), (1.25, 1.0, 1.3)] {
            assert_eq!(of(sound.0, sound.1, sound.2), None);
        }
    }
}
