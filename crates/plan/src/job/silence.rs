//! Findings that somebody accepts: as typed, and as meant.

use reader::{nearest, quoted};
use schemars::JsonSchema;
use serde::Deserialize;

use super::resolve::Desk;

/// A finding that somebody has looked at and accepts. It stays in the plan and is printed with the reason.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SilenceTable {
    /// Name of the rule: "piece-too-small". `headlap rules` lists them.
    pub rule: String,
    /// Why the finding is accepted.
    pub reason: String,
    /// Id of the only plane for which it is accepted, as the plan tells it: "house.0". Absent: everywhere.
    pub plane: Option<String>,
}

/// A finding that somebody accepts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Silence {
    /// Name of a rule that there is.
    pub rule: &'static str,
    /// Why.
    pub reason: String,
    /// Id of the only plane; everywhere if absent.
    pub plane: Option<String>,
}

/// Path in the job file: `silence[0]`.
#[must_use]
pub fn silence_path(index: usize) -> String {
    format!("silence[{index}]")
}

pub(super) fn silences(desk: &mut Desk, tables: &[SilenceTable]) -> Vec<Silence> {
    let each = tables.iter().enumerate();
    each.filter_map(|(index, table)| silence(desk, table, &silence_path(index))).collect()
}

fn silence(desk: &mut Desk, table: &SilenceTable, path: &str) -> Option<Silence> {
    let reason = table.reason.trim();
    let says = || "nothing is said why this finding is accepted".into();
    desk.expect(!reason.is_empty(), &format!("{path}.reason"), says, "Write the reason; it is printed with the finding.");
    let known = || checks::RULES.iter().map(|rule| rule.name);
    let Some(rule) = known().find(|name| *name == table.rule.trim()) else {
        let remedy = match nearest(&table.rule, known()) {
            Some(meant) => format!("Did you mean \"{meant}\"?"),
            None => "`headlap rules` lists them.".into(),
        };
        desk.mistake(&format!("{path}.rule"), format!("no rule is called {}", quoted(&table.rule)), &remedy);
        return None;
    };
    Some(Silence { rule, reason: reason.into(), plane: table.plane.clone() })
}
