/// Words longer than this are noise, not slips of the finger.
const LONGEST_WORD: usize = 40;

/// The known word that was probably meant: a third of its letters may be wrong, and one letter in any case.
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    if word.len() > LONGEST_WORD {
        return None;
    }
    let typed = plain(word);
    known
        .into_iter()
        .map(|candidate| (strsim::damerau_levenshtein(&typed, &plain(candidate)), candidate))
        .filter(|&(wrong, candidate)| wrong <= (candidate.chars().count().max(typed.chars().count()) / 3).max(1))
        .min_by_key(|&(wrong, _)| wrong)
        .map(|(_, candidate)| candidate)
}

/// Capitals, blanks and hyphens are no difference.
fn plain(word: &str) -> String {
    word.trim().to_lowercase().replace([' ', '-'], "_")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_are_recognised_and_noise_is_not() {
        let known = ["eave", "gable", "overhang", "eave_height", "north_deg"];
        let meant = |word| nearest(word, known);
        assert_eq!(meant("Eaves"), Some("eave"));
        assert_eq!(meant("overhnag"), Some("overhang"));
        assert_eq!(meant("eave-hieght"), Some("eave_height"));
        assert_eq!(meant("chimney"), None);
        assert_eq!(meant(&"e".repeat(1000)), None);
    }
}
