//! Where the work can hurt somebody: what the rules about people found on this very roof, in short. Local law and licensed
//! practice decide.

use checks::Family;

use crate::Check;

/// What the rules about people ask for, with what to do.
pub(crate) fn cautions(checks: &[Check]) -> Vec<String> {
    let people = checks.iter().filter(|check| check.family == Family::People.name());
    let found = people.filter(|check| matches!(check.outcome, "fail" | "attention"));
    found.map(|check| format!("{} {}", check.says, check.remedy)).collect()
}
