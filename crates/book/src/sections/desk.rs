use plan::{LaidPlane, Plan, Plane};

use super::alike::alike;
use crate::Binding;
use crate::content::{Block, Sheet};
use crate::measure::grouped;
use crate::tongue::{Tongue, Value};

/// Blank border of every page, mm.
pub(crate) const MARGIN: f64 = 14.0;
/// Of the heading of a sheet with the space under it, mm.
pub(crate) const HEAD: f64 = 13.0;
/// Of the fields at the foot of a sheet with the space over them, mm.
pub(crate) const FOOT: f64 = 13.0;

/// Letters that have room in a line from margin to margin, on either paper.
const LETTERS: usize = 140;

/// Of a paragraph beside a drawing, with the space about it, mm.
pub(crate) fn note_height(words: &str) -> f64 {
    2.5 + 4.5 * words.chars().count().div_ceil(LETTERS) as f64
}

/// What the writer of a sheet has before him.
pub(crate) struct Desk<'a> {
    /// With the names of planes in the reader's language.
    pub(crate) plan: Plan,
    pub(crate) binding: &'a Binding,
    pub(crate) tongue: &'a Tongue,
    /// Ids of the laid planes in the order of the plan, those alike together.
    alike: Vec<Vec<String>>,
}

impl<'a> Desk<'a> {
    pub(crate) fn new(plan: &Plan, binding: &'a Binding, tongue: &'a Tongue) -> Self {
        let mut plan = plan.clone();
        for plane in &mut plan.roof.planes {
            plane.name = tongue.plane(&plane.name);
        }
        let alike = alike(&plan);
        Self { plan, binding, tongue, alike }
    }

    pub(crate) fn say(&self, name: &str) -> String {
        self.tongue.say(name)
    }

    pub(crate) fn with(&self, name: &str, values: &[(&str, Value)]) -> String {
        self.tongue.with(name, values)
    }

    /// What the plan says, in the reader's language as far as the book knows the phrase.
    pub(crate) fn words(&self, says: &str) -> String {
        self.tongue.local(says)
    }

    /// A message and a value, to stand among facts.
    pub(crate) fn fact(&self, name: &str, value: impl Into<String>) -> [String; 2] {
        [self.say(name), value.into()]
    }

    pub(crate) fn sheet(&self, title: &str, blocks: Vec<Block>) -> Sheet {
        Sheet::new(self.say(title), self.say("book"), blocks)
    }

    /// Width and height of a page between heading and foot, mm.
    pub(crate) fn room(&self) -> [f64; 2] {
        within(self.binding.paper.size())
    }

    /// As [`Self::room`], on the sheet twice as large.
    pub(crate) fn large_room(&self) -> [f64; 2] {
        within(self.binding.paper.large_size())
    }

    pub(crate) fn plane(&self, id: &str) -> Option<&Plane> {
        self.plan.roof.planes.iter().find(|plane| plane.id == id)
    }

    /// Its name, or its id where the plan has no such plane.
    pub(crate) fn plane_name(&self, id: &str) -> String {
        self.plane(id).map_or_else(|| id.to_owned(), |plane| plane.name.clone())
    }

    /// Ids of the laid planes, those alike together; each has a sheet under the name of its first.
    pub(crate) fn alike(&self) -> &[Vec<String>] {
        &self.alike
    }

    /// The planes that have a sheet, in the order of the plan.
    pub(crate) fn with_sheets(&self) -> impl Iterator<Item = (&Plane, &LaidPlane)> {
        let first = self.alike.iter().filter_map(|ids| ids.first());
        first.filter_map(|id| Some((self.plane(id)?, self.plan.layout.planes.iter().find(|laid| &laid.id == id)?)))
    }

    /// The planes laid like this one, itself among them.
    pub(crate) fn like(&self, id: &str) -> &[String] {
        self.alike.iter().find(|ids| ids.iter().any(|like| like == id)).map_or(&[], Vec::as_slice)
    }

    /// The name of the sheet that a plane is laid by.
    pub(crate) fn sheet_name(&self, id: &str) -> String {
        match self.like(id) {
            [first, others @ ..] if !others.is_empty() => {
                self.with("plane-and-alike", &[("plane", self.plane_name(first).into()), ("others", others.len().into())])
            }
            _ => self.plane_name(id),
        }
    }

    /// Names, one after the other.
    pub(crate) fn plane_names(&self, ids: &[String]) -> String {
        ids.iter().map(|id| self.plane_name(id)).collect::<Vec<_>>().join("; ")
    }
}

const fn within([width, height]: [f64; 2]) -> [f64; 2] {
    [width - 2.0 * MARGIN, height - 2.0 * MARGIN - HEAD - FOOT]
}

/// A clause of the plan as a sentence of its own.
pub(crate) fn sentence(clause: &str) -> String {
    let mut letters = clause.chars();
    let first: String = letters.next().into_iter().flat_map(char::to_uppercase).collect();
    let end = if clause.ends_with('.') { "" } else { "." };
    format!("{first}{}{end}", letters.as_str())
}

/// A count, with commas between thousands.
pub(crate) fn count(number: u64) -> String {
    grouped(number as f64, 0)
}
