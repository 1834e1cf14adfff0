//! Numbers as they are printed, in US customary or in metric measures. Each is rounded by itself from the plan's exact value.

use units::{Length, Mass};

/// The measures that a book is printed in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measures {
    /// Feet, inches and sixteenths; square feet; pounds.
    Customary,
    /// Metres and millimetres; square metres; kilograms.
    Metric,
}

/// Square metres in a square foot, exactly.
const SQUARE_METRES: f64 = 0.092_903_04;
/// Square centimetres in a square inch, exactly.
const SQUARE_CENTIMETRES: f64 = 6.4516;

impl Measures {
    /// A length on the roof: `9' 3-1/8"`, `2.823 m`; below a metre `127 mm`.
    pub(crate) fn long(self, inches: f64) -> String {
        match self {
            Self::Customary => Length::inches(inches).to_tape().to_string(),
            Self::Metric if Length::inches(inches).to_millimetres().abs() < 999.5 => self.short(inches),
            Self::Metric => format!("{:.3} m", Length::inches(inches).to_millimetres() / 1000.0),
        }
    }

    /// A length of a unit or a piece: `11-1/2"`, `292 mm`.
    pub(crate) fn short(self, inches: f64) -> String {
        match self {
            Self::Customary => Length::inches(inches).to_tape().in_inches(),
            Self::Metric => format!("{:.0} mm", zero(Length::inches(inches).to_millimetres().round())),
        }
    }

    /// A running mark on a pole, to the step of the tape: `9' 3-1/8"`, `2823`.
    pub(crate) fn mark(self, inches: f64) -> String {
        match self {
            Self::Customary => self.long(inches),
            Self::Metric => format!("{:.0}", zero(Length::inches(inches).to_millimetres().round())),
        }
    }

    /// Square feet: `724.6 sq ft`, `67.3 m²`.
    pub(crate) fn area(self, square_feet: f64) -> String {
        match self {
            Self::Customary => format!("{} sq ft", grouped(square_feet, 1)),
            Self::Metric => format!("{} m²", grouped(square_feet * SQUARE_METRES, 1)),
        }
    }

    /// Square inches of a vent: `518 sq in`, `3342 cm²`.
    pub(crate) fn vent(self, square_inches: f64) -> String {
        match self {
            Self::Customary => format!("{} sq in", grouped(square_inches, 0)),
            Self::Metric => format!("{} cm²", grouped(square_inches * SQUARE_CENTIMETRES, 0)),
        }
    }

    /// Pounds: `5,508 lb`, `2,498 kg`.
    pub(crate) fn weight(self, pounds: f64) -> String {
        match self {
            Self::Customary => format!("{} lb", grouped(pounds, 0)),
            Self::Metric => format!("{} kg", grouped(Mass::pounds(pounds).to_kilograms(), 0)),
        }
    }
}

/// No sign before nothing.
fn zero(value: f64) -> f64 {
    if value == 0.0 { 0.0 } else { value }
}

/// With so many decimals, and a comma between thousands; the same in both languages, as on sites in the United States.
pub(crate) fn grouped(value: f64, decimals: usize) -> String {
    let shown = format!("{value:.decimals$}");
    let (sign, digits) = shown.strip_prefix('-').map_or(("", shown.as_str()), |digits| ("-", digits));
    let (whole, rest) = digits.find('.').map_or((digits, ""), |at| digits.split_at(at));
    let groups: Vec<&str> = whole.as_bytes().rchunks(3).rev().filter_map(|group| std::str::from_utf8(group).ok()).collect();
    format!("{sign}{}{rest}", groups.join(","))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Inch, pound and foot by the international agreement of 1959: 25.4 mm, 0.45359237 kg, 0.3048 m.
    #[test]
    fn both_kinds_of_measures_say_the_same() {
        let [us, metric] = [Measures::Customary, Measures::Metric];
        assert_eq!([us.long(111.125), metric.long(111.125)], ["9' 3-1/8\"", "2.823 m"]);
        assert_eq!([us.short(11.5), metric.short(11.5)], ["11-1/2\"", "292 mm"]);
        assert_eq!([us.mark(111.125), metric.mark(111.125)], ["9' 3-1/8\"", "2823"]);
        assert_eq!([us.area(1000.0), metric.area(1000.0)], ["1,000.0 sq ft", "92.9 m²"]);
        assert_eq!([us.weight(5508.0), metric.weight(5508.0)], ["5,508 lb", "2,498 kg"]);
        assert_eq!(metric.short(-0.001), "0 mm");
    }

    #[test]
    fn thousands_are_grouped() {
        for (value, decimals, shown) in
            [(0.0, 0, "0"), (999.0, 0, "999"), (1000.0, 0, "1,000"), (-1234567.25, 2, "-1,234,567.25")]
        {
            assert_eq!(grouped(value, decimals), shown);
        }
    }
}
