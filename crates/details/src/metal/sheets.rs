//! Cutting pieces from sheets: the sheet is ripped into strips as wide as the girths, and these are cut to length.

use units::Length;

use super::{MetalItem, SheetStock};

/// Less than this, in, is rounding.
const NIL: f64 = 1e-6;

/// A blank: girth across the sheet, length along it.
type Blank = [f64; 2];

/// Sheets that all pieces are cut from, and a number below which no way of cutting them lengthwise can go.
pub(crate) fn sheets(items: &[MetalItem], stock: &SheetStock) -> [u32; 2] {
    let sheet = [stock.width, stock.length].map(Length::to_inches);
    let pieces = items.iter().flat_map(MetalItem::pieces);
    let blanks: Vec<Blank> =
        pieces.flat_map(|piece| parts([piece.girth.to_inches(), piece.length.to_inches()], sheet)).collect();
    [packed(&blanks, sheet), bound(&blanks, sheet)]
}

/// How many pieces of one size a sheet gives, ripped and cut alike.
#[must_use]
pub fn pieces_per_sheet(girth: Length, length: Length, stock: &SheetStock) -> u32 {
    let fit = |of: Length, one: Length| (of.to_inches() / one.to_inches() + 1e-9).floor().max(0.0) as u32;
    fit(stock.width, girth) * fit(stock.length, length)
}

/// A piece larger than the sheet is seamed of several, each with a seam's lap.
fn parts([girth, length]: Blank, [width, long]: Blank) -> Vec<Blank> {
    let split = |of: f64, most: f64| {
        let count = ((of - most) / (most - SEAM) - NIL).ceil().max(0.0) + 1.0;
        (count as usize, (of + (count - 1.0) * SEAM) / count)
    };
    let ((across, girth), (along, length)) = (split(girth, width), split(length, long));
    vec![[girth, length]; across * along]
}

/// Taken up by a seam between two parts of a piece, in (from memory, not read).
const SEAM: f64 = 1.0;

/// The widest first; each goes into the remainder that it fills best, else a new strip is ripped, and strips into sheets the
/// same way.
fn packed(blanks: &[Blank], [width, long]: Blank) -> u32 {
    let mut sorted = blanks.to_vec();
    sorted.sort_by(|a, b| b[0].total_cmp(&a[0]).then(b[1].total_cmp(&a[1])));
    let mut strips: Vec<Blank> = Vec::new();
    let mut ripped: Vec<f64> = Vec::new();
    for [girth, length] in sorted {
        match tightest(&strips, |&[_, left]| left - length) {
            Some(strip) => strips[strip][1] -= length,
            None => {
                strips.push([girth, long - length]);
                ripped.push(girth);
            }
        }
    }
    let mut sheets: Vec<f64> = Vec::new();
    for girth in ripped {
        match tightest(&sheets, |left| left - girth) {
            Some(sheet) => sheets[sheet] -= girth,
            None => sheets.push(width - girth),
        }
    }
    sheets.len() as u32
}

/// The one of which least is left over, if any is large enough.
fn tightest<T>(open: &[T], left_over: impl Fn(&T) -> f64) -> Option<usize> {
    let fitting = open.iter().map(left_over).enumerate().filter(|(_, left)| *left >= -NIL);
    fitting.min_by(|(_, a), (_, b)| a.total_cmp(b)).map(|(at, _)| at)
}

/// Anywhere along a sheet no more than k pieces of a girth above width / (k + 1) lie beside each other, so that all of them
/// together are no longer than k times the sheets; and all pieces together are no larger than the sheets.
fn bound(blanks: &[Blank], [width, long]: Blank) -> u32 {
    let area: f64 = blanks.iter().map(|[girth, length]| girth * length).sum();
    let abreast = |k: u32| {
        let wide = blanks.iter().filter(|[girth, _]| *girth > width / f64::from(k + 1) + NIL);
        wide.map(|blank| blank[1]).sum::<f64>() / (f64::from(k) * long)
    };
    let most = (1..=MOST_ABREAST).map(abreast).fold(area / (width * long), f64::max);
    (most * (1.0 - 1e-9)).ceil() as u32
}

/// Narrower pieces are covered by the bound on area.
const MOST_ABREAST: u32 = 8;

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use units::Mass;

    use super::*;
    use crate::SheetMetal;

    const SHEET: Blank = [36.0, 120.0];

    fn stock() -> SheetStock {
        SheetStock {
            metal: SheetMetal::Copper,
            thickness: Length::inches(0.02),
            length: Length::inches(120.0),
            width: Length::inches(36.0),
            weight: Mass::pounds(1.0),
        }
    }

    /// Four strips of 8 in are ripped from 36 in, and each gives 12 pieces of 10 in.
    #[test]
    fn forty_eight_step_flashings_from_a_sheet() {
        assert_eq!([packed(&[[8.0, 10.0]; 48], SHEET), packed(&[[8.0, 10.0]; 49], SHEET)], [1, 2]);
        assert_eq!(pieces_per_sheet(Length::inches(8.0), Length::inches(10.0), &stock()), 48);
    }

    /// Two linings of 18 in fill a sheet; narrow pieces use what is left beside wide ones.
    #[test]
    fn wide_pieces_share_sheets_with_narrow_ones() {
        assert_eq!([packed(&[[18.0, 120.0]; 4], SHEET), bound(&[[18.0, 120.0]; 4], SHEET)], [2, 2]);
        let mut blanks = vec![[20.0, 120.0]; 2];
        blanks.extend([[8.0, 10.0]; 48]);
        assert_eq!([packed(&blanks, SHEET), bound(&blanks, SHEET)], [2, 2]);
    }

    #[test]
    fn a_piece_larger_than_the_sheet_is_seamed() {
        assert_eq!(parts([70.0, 100.0], SHEET), vec![[35.5, 100.0]; 2]);
        assert_eq!(parts([36.0, 120.0], SHEET), vec![SHEET]);
    }

    proptest! {
        #[test]
        fn sheets_lie_above_the_bound_and_hold_every_piece(
            blanks in proptest::collection::vec([1.0..90.0f64, 1.0..400.0f64], 0..60),
        ) {
            let blanks: Vec<Blank> = blanks.into_iter().flat_map(|blank| parts(blank, SHEET)).collect();
            prop_assert!(blanks.iter().all(|&[girth, length]| girth <= SHEET[0] + NIL && length <= SHEET[1] + NIL));
            let [sheets, bound] = [packed(&blanks, SHEET), bound(&blanks, SHEET)];
            prop_assert!(bound <= sheets && sheets as usize <= blanks.len());
        }

        /// Alike pieces fill sheet after sheet.
        #[test]
        fn alike_pieces_fill_whole_sheets(girth in 1.0..36.0f64, length in 1.0..120.0f64, count in 1usize..200) {
            let stock = stock();
            let each = pieces_per_sheet(Length::inches(girth), Length::inches(length), &stock) as usize;
            prop_assert_eq!(packed(&vec![[girth, length]; count], SHEET) as usize, count.div_ceil(each));
        }
    }
}
