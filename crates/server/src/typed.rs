//! Lengths as people type them into a field, where the keyboard of a phone has neither ' nor ".

use units::{Length, LengthUnit};

/// Reads what `units` reads, a bare number in the unit of the job, and feet and inches without marks: `24 9`, `24-9 1/2`.
///
/// # Errors
/// What cannot be read, in words.
pub(crate) fn typed(text: &str, unit: LengthUnit) -> Result<Length, String> {
    let text = text.trim();
    if let Ok(value) = text.parse::<f64>() {
        return if value.is_finite() { Ok(unit.of(value)) } else { Err("a length must be an ordinary number".into()) };
    }
    text.parse::<Length>().or_else(|misread| {
        let marked = (unit == LengthUnit::Ft).then(|| with_feet_marked(text)).flatten();
        marked.and_then(|text| text.parse().ok()).ok_or_else(|| misread.to_string())
    })
}

/// `24 9-1/2` is `24' 9-1/2`. `24 1/2` may be half an inch or half a foot, so it stays unread.
fn with_feet_marked(text: &str) -> Option<String> {
    let (feet, inches) = text.split_once([' ', '-'])?;
    let is_whole = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
    let first = inches.split([' ', '-']).next()?;
    (is_whole(feet) && is_whole(first)).then(|| format!("{feet}' {inches}"))
}

/// As it stands in a job file: to the tape's sixteenth where it lies on one, else in inches.
pub(crate) fn written(inches: f64) -> String {
    let length = Length::inches(inches);
    let off = (length - length.to_tape()).to_inches().abs();
    // Sines and cosines leave such dust; no tape and no saw sees it.
    if off < 1e-9 { length.to_tape().to_string() } else { format!("{inches} in") }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(text: &str) -> Option<f64> {
        typed(text, LengthUnit::Ft).ok().map(Length::to_inches)
    }

    #[test]
    fn feet_and_inches_need_no_marks() {
        assert_eq!(inches("24 9"), Some(297.0));
        assert_eq!(inches("24-9 1/2"), Some(297.5));
        assert_eq!(inches("24 9-1/2\""), Some(297.5));
        assert_eq!(inches("24' 9-1/2\""), Some(297.5));
        assert_eq!(inches("24.5"), Some(294.0));
        assert_eq!(inches("7 1/2\""), Some(7.5));
    }

    #[test]
    fn what_has_two_meanings_is_not_guessed() {
        for text in ["24 1/2", "", "inf", "24 9 6", "two feet", "- 4"] {
            assert_eq!(inches(text), None, "{text}");
        }
        assert!(typed("24 9", LengthUnit::M).is_err());
        assert_eq!(typed("3.2", LengthUnit::M).map(Length::to_millimetres), Ok(3200.0));
    }

    #[test]
    fn what_is_written_reads_the_same() {
        for value in [0.0, 531.5, -297.0, 1.0 / 16.0, 100.123_456_789, 0.03] {
            let read: Length = written(value).parse().expect("a length");
            assert!((read.to_inches() - value).abs() < 1e-9, "{}", written(value));
        }
    }
}
