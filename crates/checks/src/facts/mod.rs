pub(crate) mod attic;
mod deck;
pub(crate) mod drip;
mod fastener;
pub(crate) mod joints;
mod laying;
pub(crate) mod metal;
pub(crate) mod sheets;
mod site;
pub(crate) mod stack;

use crate::{Place, Rule};
use covering::{Band, Covering, Material};
use details::{Attic, Details, DryInChoices, FlashingChoices};
use layout::{LaidPlane, Layout};
use roof::{Plane, Roof};
use units::Length;

pub use deck::{Deck, DeckKind};
pub use fastener::{Drive, Fastener, FastenerKind, Metal};
pub use laying::Laying;
pub use site::{Site, WindExposure};

/// What the rules look at: plain values, filled by whoever plans.
#[derive(Debug, Clone, Copy)]
pub struct Facts<'a> {
    /// Planes and lines.
    pub roof: &'a Roof,
    /// Units on them.
    pub layout: &'a Layout,
    /// The covering of each of `roof.planes`; none for planes that are measured only.
    pub covering_of: &'a [Option<&'a Covering>],
    /// What goes under and around the units.
    pub details: &'a Details,
    /// What was chosen for it.
    pub dry_in: &'a DryInChoices,
    /// How flashings are bent, lapped and held.
    pub flashing: &'a FlashingChoices,
    /// How far each of `roof.lines` that is an eave stands out past the wall, in plan; none where it is not known.
    pub overhang_of: &'a [Option<Length>],
    /// What is to breathe.
    pub attic: Option<Attic>,
    /// What the units are nailed to.
    pub deck: &'a Deck,
    /// What they are fastened with.
    pub fastener: &'a Fastener,
    /// Where the house stands.
    pub site: &'a Site,
    /// The day on which the units are laid.
    pub laying: &'a Laying,
}

/// A plane with its units and the sheet they are laid by.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Laid<'a> {
    pub(crate) index: usize,
    pub(crate) plane: &'a Plane,
    pub(crate) units: &'a LaidPlane,
    pub(crate) covering: &'a Covering,
}

impl<'a> Facts<'a> {
    pub(crate) fn covering(&self, plane: usize) -> Option<&'a Covering> {
        *self.covering_of.get(plane)?
    }

    /// Planes to be covered, laid or not.
    pub(crate) fn covered(&self) -> impl Iterator<Item = (usize, &'a Plane, &'a Covering)> + '_ {
        let planes = self.roof.planes.iter().enumerate();
        planes.filter_map(|(index, plane)| Some((index, plane, self.covering(index)?)))
    }

    pub(crate) fn laid(&self) -> impl Iterator<Item = Laid<'a>> + '_ {
        self.layout.planes.iter().filter_map(|units| {
            let index = units.plane;
            Some(Laid { index, plane: self.roof.planes.get(index)?, units, covering: self.covering(index)? })
        })
    }

    /// Planes to be covered in one material.
    pub(crate) fn covered_in(&self, material: Material) -> impl Iterator<Item = (usize, &'a Plane, &'a Covering)> + '_ {
        self.covered().filter(move |(_, _, covering)| covering.material == material)
    }

    /// Coverings in use, each once.
    pub(crate) fn coverings(&self) -> Vec<(usize, &'a Covering)> {
        let mut seen: Vec<(usize, &Covering)> = Vec::new();
        for (plane, _, covering) in self.covered() {
            if !seen.iter().any(|(_, other)| std::ptr::eq(*other, covering)) {
                seen.push((plane, covering));
            }
        }
        seen
    }

    /// `house, south, course 3`, courses counted from 1 as on a story pole.
    pub(crate) fn name_of(&self, place: Place) -> String {
        format!("{}, course {}", self.plane_name(place), place.course + 1)
    }

    /// What the course at a place shows, in inches.
    pub(crate) fn exposure_at(&self, place: Place) -> f64 {
        let laid = self.laid().find(|laid| laid.index == place.plane);
        laid.and_then(|laid| laid.units.courses.get(place.course)).map_or(0.0, |course| course.exposure)
    }

    pub(crate) fn plane_name(&self, place: Place) -> &'a str {
        self.roof.planes.get(place.plane).map_or("", |plane| &plane.name)
    }

    /// The source, and what the sheets in use say about where they have the figures from that the rule uses.
    pub(crate) fn source_of(&self, source: &str, rule: &Rule) -> String {
        let sheets = self.covered().filter(|_| !rule.groups.is_empty());
        let sheets = once_each(sheets.map(|(_, _, covering)| sheet_source(covering, rule.groups)));
        let source = source.trim_end_matches('.');
        if sheets.is_empty() { format!("{source}.") } else { format!("{source}: {}", sheets.join(" ")) }
    }
}

/// `Trial unit (figures invented). A roofer's note.`
fn sheet_source(covering: &Covering, groups: &[&str]) -> String {
    // A group that comes several times has its number in brackets.
    let used = |path: &str| groups.contains(&path.split('[').next().unwrap_or_default());
    let texts = once_each(covering.sources.iter().filter(|(path, _)| used(path)).map(|(_, text)| format!(" {text}")));
    let invented = if covering.invented { " (figures invented)" } else { "" };
    format!("{}{invented}.{}", covering.name, texts.concat())
}

fn once_each(texts: impl Iterator<Item = String>) -> Vec<String> {
    let mut seen = Vec::new();
    texts.for_each(|text| {
        if !seen.contains(&text) {
            seen.push(text);
        }
    });
    seen
}

impl<'a> Laid<'a> {
    /// The left end of a course.
    pub(crate) fn place(&self, course: usize) -> Place {
        let start = self.units.courses.get(course);
        let u = start.and_then(|course| course.runs.first()).map_or(0.0, |run| run.left);
        self.place_at(course, u)
    }

    pub(crate) fn place_at(&self, course: usize, u: f64) -> Place {
        let v = self.units.courses.get(course).map_or(self.units.first_butt, |course| course.butt);
        Place { plane: self.index, course, u, v }
    }

    pub(crate) fn is_wood(&self) -> bool {
        matches!(self.covering.material, Material::WoodShingle | Material::WoodShake)
    }

    /// How much less a course may show than one of the sheet's own unit, whose exposures the sheet gives.
    pub(crate) fn shorter(&self, place: Place) -> f64 {
        let of = |course: &layout::Course| self.covering.shortened(Length::inches(course.length)).to_inches();
        self.units.courses.get(place.course).map_or(0.0, of)
    }

    pub(crate) fn band(&self) -> Option<&'a Band> {
        self.covering.band(self.plane.pitch)
    }
}

/// Length of the unit two courses down, three in triple lap, less the distance to its butts.
pub(crate) fn over_courses<'a>(laid: &Laid<'a>) -> impl Iterator<Item = (f64, Place)> + use<'a> {
    let laid = *laid;
    let (down, courses) = (laid.covering.lap.courses() as usize, &laid.units.courses);
    (down..courses.len()).map(move |course| {
        let below = course - down;
        let apart = courses[course].butt - courses[below].butt + laid.units.hangs(below);
        (courses[below].length - apart, laid.place(course))
    })
}

/// What each course shows, from its butts to the next ones, the last up to the top line.
pub(crate) fn shown<'a>(laid: &Laid<'a>) -> impl Iterator<Item = (f64, Place)> + use<'a> {
    let laid = *laid;
    let butts = laid.units.courses.iter().map(|course| course.butt);
    let ends = butts.clone().skip(1).chain([laid.units.top]);
    let shows = butts.zip(ends).enumerate();
    shows.map(move |(course, (butt, end))| (end - butt + laid.units.hangs(course), laid.place(course)))
}
