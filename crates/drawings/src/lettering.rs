//! Sizes of letters, and room for words before a font is known.

use crate::{Anchor, Item, Point, Text};

/// Smallest capital on any sheet, in mm; still read at arm's length.
pub(crate) const SMALL: f64 = 2.5;
/// Capital of main labels, in mm.
pub(crate) const LARGE: f64 = 3.5;
/// Baseline to baseline of small lettering, in mm.
pub(crate) const LINE: f64 = 4.4;

/// Cap height over font size of the usual sans-serif fonts: 0.72 to 0.73.
pub(crate) const CAP_PER_EM: f64 = 0.72;

/// Width in mm that words take in the widest of the usual sans-serif fonts.
pub(crate) fn width(words: &str, cap: f64) -> f64 {
    words.chars().map(char_width).sum::<f64>() * cap / CAP_PER_EM
}

/// As [`width`], of heavy letters.
pub(crate) fn strong_width(words: &str, cap: f64) -> f64 {
    width(words, cap * HEAVY)
}

/// Width of heavy letters over that of others.
const HEAVY: f64 = 1.11;

/// In parts of the font size.
fn char_width(c: char) -> f64 {
    match c {
        ' ' | '\'' | '.' | ',' | ':' | ';' | 'i' | 'j' | 'l' | 'I' | '/' | '|' => 0.34,
        '-' | '(' | ')' | 'f' | 't' | 'r' | '"' => 0.44,
        'm' | 'w' | 'M' | 'W' | '—' => 0.98,
        'A'..='Z' | '#' | '&' => 0.72,
        _ => 0.64,
    }
}

/// Words broken into lines no wider than `room` mm; a longer word stands alone.
pub(crate) fn wrap(words: &str, cap: f64, room: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        match lines.last_mut() {
            Some(line) if width(line, cap) + width(word, cap) + width(" ", cap) <= room => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

/// Words cut off with an ellipsis where they would be wider than `room` mm.
pub(crate) fn fitted(words: &str, cap: f64, room: f64) -> String {
    if width(words, cap) <= room {
        return words.to_owned();
    }
    let mut kept = String::new();
    for c in words.chars() {
        if width(&kept, cap) + width("…", cap) + char_width(c) * cap / CAP_PER_EM > room {
            break;
        }
        kept.push(c);
    }
    kept.trim_end().to_owned() + "…"
}

/// As [`fitted`], for heavy letters.
pub(crate) fn fitted_strong(words: &str, cap: f64, room: f64) -> String {
    fitted(words, cap * HEAVY, room)
}

/// A letter that stands for words told elsewhere: a, b, … z, a1, b1, …
pub(crate) fn letter(index: usize) -> String {
    let letter = char::from(b'a' + (index % 26) as u8);
    if index < 26 { letter.to_string() } else { format!("{letter}{}", index / 26) }
}

/// Level small lettering.
pub(crate) fn small(at: Point, anchor: Anchor, words: impl Into<String>) -> Item {
    Item::Text(Text { at, cap: SMALL, anchor, turn: 0.0, strong: false, words: words.into() })
}

/// Level heavy lettering.
pub(crate) fn strong(at: Point, cap: f64, anchor: Anchor, words: impl Into<String>) -> Item {
    Item::Text(Text { at, cap, anchor, turn: 0.0, strong: true, words: words.into() })
}

/// Small lettering whose middle, across and along, stands at `middle`, turned by `turn` degrees clockwise.
pub(crate) fn centred(middle: Point, turn: f64, words: impl Into<String>) -> Item {
    Item::Text(centred_text(middle, turn, words))
}

/// As [`centred`], heavy.
pub(crate) fn centred_strong(middle: Point, turn: f64, words: impl Into<String>) -> Item {
    Item::Text(Text { strong: true, ..centred_text(middle, turn, words) })
}

fn centred_text(middle: Point, turn: f64, words: impl Into<String>) -> Text {
    let (sin, cos) = (libm::sin(turn.to_radians()), libm::cos(turn.to_radians()));
    let at = [middle[0] - sin * SMALL / 2.0, middle[1] + cos * SMALL / 2.0];
    Text { at, cap: SMALL, anchor: Anchor::Middle, turn, strong: false, words: words.into() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_line_is_wider_than_its_room() {
        let words = "Hatched pieces are cut; the number in a piece is its number in the cut list.";
        for room in [30.0, 60.0, 500.0] {
            let lines = wrap(words, SMALL, room);
            assert!(lines.iter().all(|line| width(line, SMALL) <= room), "{room}");
            assert_eq!(lines.join(" "), words);
        }
    }

    #[test]
    fn words_that_do_not_fit_are_cut_off_visibly() {
        let kept = fitted("natural slate, 20 by 12", SMALL, 20.0);
        assert!(kept.ends_with('…') && width(&kept, SMALL) <= 20.0, "{kept}");
        assert_eq!(fitted("short", SMALL, 20.0), "short");
    }
}
