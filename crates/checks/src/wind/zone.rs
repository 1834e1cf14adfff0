use crate::figure::figure;

/// Width a of the zones along the edges, feet: a tenth of the least width of the building or 0.4 of its height, whichever is
/// less, but not less than 4 % of that width nor 3 ft. ASCE 7, the figures of components and cladding, as a designers' handbook
/// gives them from ASCE 7-02.
pub(crate) fn zone_width(least_width_ft: f64, height_ft: f64) -> f64 {
    let width = (figure!(0.1) * least_width_ft).min(figure!(0.4) * height_ft);
    width.max(figure!(0.04) * least_width_ft).max(figure!(3.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The rule of ASCE 7-02 as a designers' handbook gives it, worked by hand.
    #[test]
    fn widths_worked_by_hand() {
        for (width, height, a) in [
            (30.0, 20.0, 3.0),  // 10 % of 30 ft
            (60.0, 25.0, 6.0),  // 10 % of 60 ft; 0.4 h is 10 ft
            (40.0, 8.0, 3.2),   // 0.4 h
            (20.0, 10.0, 3.0),  // 3 ft is the least
            (200.0, 10.0, 8.0), // 4 % of 200 ft is more than 0.4 h
        ] {
            assert!((zone_width(width, height) - a).abs() < 1e-12, "{width} by {height}");
        }
    }
}
