use std::fmt;

use units::Length;

/// How much smaller the drawing is than the roof, in the customary steps of an architect's and an engineer's rule.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Scale {
    /// Inches of roof in one inch of paper.
    pub ratio: f64,
}

/// Inches of paper in a foot of roof, an architect's rule.
const ARCHITECT: [f64; 11] = [3.0, 1.5, 1.0, 0.75, 0.5, 0.375, 0.25, 0.1875, 0.125, 0.09375, 0.0625];
/// Feet of roof in an inch of paper, an engineer's rule and on.
const ENGINEER: [f64; 11] = [20.0, 30.0, 40.0, 50.0, 60.0, 100.0, 200.0, 300.0, 400.0, 500.0, 1000.0];

/// How many times smaller, after ISO 5455 (from memory, not read), with the 1:25 and 1:75 of the building trades.
const METRIC: [f64; 16] =
    [1.0, 2.0, 5.0, 10.0, 20.0, 25.0, 50.0, 75.0, 100.0, 125.0, 150.0, 200.0, 250.0, 500.0, 1000.0, 5000.0];

impl Scale {
    /// Every step, the largest drawing first.
    pub fn series() -> impl Iterator<Item = Self> {
        let architect = ARCHITECT.into_iter().map(|inches| 12.0 / inches);
        let engineer = ENGINEER.into_iter().map(|feet| feet * 12.0);
        architect.chain(engineer).map(|ratio| Self { ratio })
    }

    /// The customary metric steps, the largest drawing first.
    pub fn metric_series() -> impl Iterator<Item = Self> {
        METRIC.into_iter().map(|ratio| Self { ratio })
    }

    /// The smallest drawing of the series.
    #[must_use]
    pub const fn smallest() -> Self {
        Self { ratio: 12_000.0 }
    }

    /// Inches of roof as millimetres of paper.
    #[must_use]
    pub const fn paper(self, inches: f64) -> f64 {
        inches * 25.4 / self.ratio
    }
}

impl fmt::Display for Scale {
    /// `1/4" = 1'`, `1" = 20'`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let per_foot = 12.0 / self.ratio;
        if per_foot >= 0.0625 {
            let thirty_seconds = (per_foot * 32.0).round();
            if thirty_seconds % 2.0 == 0.0 {
                return write!(f, "{} = 1'", Length::inches(per_foot).in_inches());
            }
            return write!(f, "{thirty_seconds}/32\" = 1'");
        }
        write!(f, "1\" = {}'", self.ratio / 12.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scales_are_named_as_on_the_rule() {
        let names: Vec<String> = Scale::series().map(|scale| scale.to_string()).collect();
        assert_eq!(
            names[..12].join(" | "),
            "3\" = 1' | 1-1/2\" = 1' | 1\" = 1' | 3/4\" = 1' | 1/2\" = 1' | 3/8\" = 1' | 1/4\" = 1' | 3/16\" = 1' \
             | 1/8\" = 1' | 3/32\" = 1' | 1/16\" = 1' | 1\" = 20'"
        );
        assert_eq!(Scale::series().last(), Some(Scale::smallest()));
    }

    #[test]
    fn a_foot_at_a_quarter_inch_is_a_quarter_inch_of_paper() {
        let quarter = Scale::series().find(|scale| scale.to_string() == "1/4\" = 1'").unwrap();
        assert!((quarter.paper(12.0) - 25.4 / 4.0).abs() < 1e-12);
    }
}
