//! The roof surfaces and the footprint of each building.

use std::collections::BTreeMap;

use roof::Point3;

use super::file::{CityObject, Geometry, Vertices};
use super::geometry::{Face, GROUND, ROOF};

/// Rings of one surface, the outer first.
type Rings = Vec<Vec<Point3>>;

/// A building with everything that names it as its parent.
pub(super) struct Building {
    pub(super) id: String,
    members: Vec<String>,
    /// What of it can be used, or why nothing can.
    pub(super) parts: Result<Parts, String>,
}

/// What an import wants of a building.
#[derive(Default)]
pub(super) struct Parts {
    pub(super) roofs: Vec<Rings>,
    pub(super) grounds: Vec<Rings>,
}

impl Building {
    pub(super) fn goes_by(&self, id: &str) -> bool {
        self.id == id || self.members.iter().any(|member| member == id)
    }
}

/// No building has parts of parts deeper than this.
const GENERATIONS: usize = 8;
/// Corners of a level ring may differ by this much in height, in inches.
const LEVEL: f64 = 1.0;

pub(super) fn buildings(objects: &BTreeMap<String, CityObject>, vertices: &Vertices) -> Vec<Building> {
    let mut families: BTreeMap<&str, Vec<(&String, &CityObject)>> = BTreeMap::new();
    for (id, object) in objects.iter().filter(|(_, object)| is_building(&object.kind)) {
        families.entry(eldest(id, objects)).or_default().push((id, object));
    }
    let building = |(id, family): (&str, Vec<(&String, &CityObject)>)| Building {
        id: id.to_owned(),
        members: family.iter().map(|(id, _)| (*id).clone()).collect(),
        parts: parts(&family, vertices),
    };
    families.into_iter().map(building).collect()
}

fn is_building(kind: &str) -> bool {
    matches!(kind, "Building" | "BuildingPart" | "BuildingInstallation")
}

fn eldest<'a>(id: &'a str, objects: &'a BTreeMap<String, CityObject>) -> &'a str {
    let parent = |id: &&'a str| {
        let object = objects.get(*id)?;
        object.parents.as_ref()?.first().map(String::as_str).filter(|parent| objects.contains_key(*parent))
    };
    std::iter::successors(Some(id), parent).take(GENERATIONS).last().unwrap_or(id)
}

fn parts(family: &[(&String, &CityObject)], vertices: &Vertices) -> Result<Parts, String> {
    let mut parts = Parts::default();
    for geometry in family.iter().filter_map(|(_, object)| with_roof(object)) {
        for face in geometry.faces(vertices)? {
            match face.meaning.as_deref() {
                Some(ROOF) => parts.roofs.push(face.rings),
                Some(GROUND) => parts.grounds.push(face.rings),
                _ => {}
            }
        }
    }
    if parts.grounds.is_empty() {
        parts.grounds = lowest_level(family, vertices)?;
    }
    if parts.roofs.is_empty() && parts.grounds.is_empty() {
        return Err("has neither roof surfaces nor a level footprint".to_owned());
    }
    Ok(parts)
}

/// The geometry of the finest detail below 3 that has roof surfaces, else of 3. LoD 1 has only a lid.
fn with_roof(object: &CityObject) -> Option<&Geometry> {
    let of = |level: &str| {
        let geometries = object.geometry.iter().flatten();
        let fitting = geometries.filter(|geometry| geometry.has_roof() && geometry.detail().starts_with(level));
        fitting.max_by_key(|geometry| geometry.detail())
    };
    of("2").or_else(|| of("3"))
}

/// The lowest level surfaces of the coarsest geometries, when none is said to be ground.
fn lowest_level(family: &[(&String, &CityObject)], vertices: &Vertices) -> Result<Vec<Rings>, String> {
    let geometries = || family.iter().flat_map(|(_, object)| object.geometry.iter().flatten());
    let Some(coarsest) = geometries().map(Geometry::detail).min() else { return Ok(Vec::new()) };
    let mut level = Vec::new();
    for geometry in geometries().filter(|geometry| geometry.detail() == coarsest) {
        level.extend(geometry.faces(vertices)?.into_iter().filter_map(|face| Some((height(&face)?, face.rings))));
    }
    let lowest = level.iter().map(|&(height, _)| height).fold(f64::INFINITY, f64::min);
    Ok(level.into_iter().filter(|(height, _)| *height <= lowest + LEVEL).map(|(_, rings)| rings).collect())
}

/// Of a level surface, its lowest corner's.
fn height(face: &Face) -> Option<f64> {
    let heights = || face.rings.iter().flatten().map(|corner| corner[2]);
    let (low, high) = (heights().min_by(f64::total_cmp)?, heights().max_by(f64::total_cmp)?);
    (high - low <= LEVEL).then_some(low)
}
