use crate::LineType;

/// Every kind of line, as the plan names it, and how it is drawn.
pub(crate) const KINDS: [(&str, LineType); 10] = [
    ("eave", LineType::Eave),
    ("rake", LineType::Rake),
    ("ridge", LineType::Ridge),
    ("hip", LineType::Hip),
    ("valley", LineType::Valley),
    ("sidewall", LineType::Sidewall),
    ("headwall", LineType::Headwall),
    ("break", LineType::Break),
    ("high edge", LineType::HighEdge),
    ("dead valley", LineType::DeadValley),
];

/// `None` for the edges of openings, which are drawn as openings.
pub(crate) fn line_type(kind: &str) -> Option<LineType> {
    KINDS.iter().find(|(name, _)| *name == kind).map(|(_, line)| *line)
}

/// Where a lower plane meets a wall, which often stands right under the edge of a higher plane.
pub(crate) fn is_at_wall(kind: &str) -> bool {
    ["sidewall", "headwall", "dead valley"].contains(&kind)
}
