use covering::{Band, Covering};
use layout::{LaidPlane, Layout};
use roof::{Plane, Roof};
use units::Length;

use crate::{Place, Rule};

/// What the rules look at: plain values, filled by whoever plans.
#[derive(Debug, Clone, Copy)]
pub struct Facts<'a> {
    /// Planes and lines.
    pub roof: &'a Roof,
    /// Units on them.
    pub layout: &'a Layout,
    /// The covering of each of `roof.planes`; none for planes that are measured only.
    pub covering_of: &'a [Option<&'a Covering>],
    /// Thickness of the deck, if the job gives it.
    pub deck_thickness: Option<Length>,
    /// Length of the nails, if the job gives it.
    pub nail_length: Option<Length>,
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

    /// `house, south, course 3`, courses counted from 1 as on a story pole.
    pub(crate) fn name_of(&self, place: Place) -> String {
        format!("{}, course {}", self.plane_name(place), place.course + 1)
    }

    pub(crate) fn plane_name(&self, place: Place) -> &'a str {
        self.roof.planes.get(place.plane).map_or("", |plane| &plane.name)
    }

    /// The rule's source with the sheets whose figures it used.
    pub(crate) fn source_of(&self, rule: &Rule) -> String {
        let mut sheets: Vec<String> = Vec::new();
        for (_, _, Covering { name, invented, .. }) in self.covered() {
            let sheet = format!("{name}{}", if *invented { " (figures invented)" } else { "" });
            if !sheets.contains(&sheet) {
                sheets.push(sheet);
            }
        }
        let source = rule.source().trim_end_matches('.');
        if sheets.is_empty() { source.into() } else { format!("{source}: {}", sheets.join(", ")) }
    }
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

    pub(crate) fn band(&self) -> Option<&'a Band> {
        self.covering.band(self.plane.pitch)
    }
}
