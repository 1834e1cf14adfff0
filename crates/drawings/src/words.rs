use units::Length;

use crate::Scale;

/// The words and measures that a drawing is lettered with.
pub trait Words {
    /// One of [`WORDS`] in the reader's language, by its name.
    fn word(&self, name: &str) -> String;
    /// A length on the roof.
    fn length(&self, inches: f64) -> String;
    /// Whether scales and their bars are metric.
    fn is_metric(&self) -> bool;

    /// What a scale is called.
    fn scale(&self, scale: Scale) -> String {
        if self.is_metric() { format!("1:{}", scale.ratio) } else { scale.to_string() }
    }

    /// The scales to choose from, the largest drawing first.
    fn scales(&self) -> Vec<Scale> {
        if self.is_metric() { Scale::metric_series().collect() } else { Scale::series().collect() }
    }
}

/// Every word of the drawings by its name, with its English. Kinds of lines have the names that the plan gives them.
pub const WORDS: [(&str, &str); 77] = [
    ("eave", "eave"),
    ("rake", "rake"),
    ("ridge", "ridge"),
    ("hip", "hip"),
    ("valley", "valley"),
    ("sidewall", "sidewall"),
    ("headwall", "headwall"),
    ("break", "break"),
    ("high edge", "high edge"),
    ("dead valley", "dead valley"),
    ("butts", "Butts"),
    ("heads", "Heads"),
    ("at", "at"),
    ("key", "Key"),
    ("planes", "Planes"),
    ("openings", "Openings"),
    ("planes and openings", "Planes, openings"),
    ("under another plane", "under another plane"),
    ("laying starts", "laying starts, first butts"),
    ("water runs", "water runs this way"),
    ("opening", "opening"),
    ("wind zone", "wind: edge zone"),
    ("falls", "falls"),
    ("under", "under"),
    ("north", "north"),
    ("northeast", "northeast"),
    ("east", "east"),
    ("southeast", "southeast"),
    ("south", "south"),
    ("southwest", "southwest"),
    ("west", "west"),
    ("northwest", "northwest"),
    ("N", "N"),
    ("strip", "strip"),
    ("butt", "butt"),
    ("low butt", "low butt"),
    ("head", "head"),
    ("zero", "zero, first butts"),
    ("top line", "top line"),
    ("deck", "deck"),
    ("drip edge", "drip edge"),
    ("ice barrier", "ice barrier"),
    ("up to", "up to"),
    ("underlayment", "underlayment"),
    ("starter", "starter, height"),
    ("exposure", "exposure"),
    ("headlap", "headlap"),
    ("unit", "unit"),
    ("projection", "projection"),
    ("gap", "gap"),
    ("cap", "cap"),
    ("cap line", "line for the cap's edge"),
    ("ridge metal", "ridge metal"),
    ("metal line", "line for the metal's edge"),
    ("ridge vent", "ridge vent"),
    ("slot", "slot, in all"),
    ("clear at the top", "clear at the top, one side"),
    ("clear at the foot", "clear at the foot, one side"),
    (
        "half of the valley",
        "Measured on each plane from the middle of the valley, square to it. Snap the line; cut the units to it. Drawn to scale across the valley only.",
    ),
    ("cricket valleys", "valleys of the cricket, each"),
    ("cricket ridge", "its ridge"),
    ("cricket height", "its height at the chimney"),
    ("step flashing", "step flashing"),
    ("lap", "lap"),
    ("blank", "blank"),
    ("one step a course", "one step a course, pieces"),
    ("leg on the wall", "leg on the wall, behind the counterflashing or the siding"),
    ("unit over it", "the unit that lies on it"),
    ("apron", "apron"),
    ("in all", "in all"),
    ("sealed laps", "laps that are sealed"),
    ("face nails", "nails through faces, heads sealed"),
    ("last course cut", "last course, cut to the wall"),
    ("pipe across", "pipe, across"),
    ("head under course", "head under the units of course"),
    ("foot over course", "foot over the units of course"),
    ("check line", "Print at 100 %: on paper this line measures"),
];

/// US English and customary measures: what every sheet has that is drawn without other words.
#[derive(Debug, Clone, Copy)]
pub struct English;

impl Words for English {
    fn word(&self, name: &str) -> String {
        WORDS.iter().find(|(known, _)| *known == name).map_or(name, |(_, english)| english).to_owned()
    }

    fn length(&self, inches: f64) -> String {
        Length::inches(inches).to_tape().to_string()
    }

    fn is_metric(&self) -> bool {
        false
    }
}
