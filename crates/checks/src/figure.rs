//! Figures of rules, each from its source.
//!
//! A figure is written `figure!(30.0)`. `make mutate` finds them by this word and changes one at a time while the tests run,
//! so that a figure that no test holds is known; nothing is compiled anew for it.

/// A figure of a rule or a formula.
macro_rules! figure {
    ($value:expr) => {
        $crate::figure::value_of($value, file!(), line!(), column!())
    };
}

pub(crate) use figure;

#[cfg(not(test))]
pub(crate) const fn value_of(value: f64, _: &str, _: u32, _: u32) -> f64 {
    value
}

/// `HEADLAP_FIGURE=crates/checks/src/rules/x.rs:30:12*1.01` makes the figure there one per cent greater.
#[cfg(test)]
pub(crate) fn value_of(value: f64, file: &str, line: u32, column: u32) -> f64 {
    use std::sync::OnceLock;
    static CHANGED: OnceLock<Option<(String, f64)>> = OnceLock::new();
    let changed = CHANGED.get_or_init(|| {
        let asked = std::env::var("HEADLAP_FIGURE").ok()?;
        let (place, factor) = asked.rsplit_once('*')?;
        Some((place.to_owned(), factor.parse().ok()?))
    });
    match changed {
        Some((place, factor)) if *place == format!("{file}:{line}:{column}") => value * factor,
        _ => value,
    }
}
