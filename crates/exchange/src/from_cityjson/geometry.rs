//! Surfaces out of nested boundaries.

use roof::Point3;
use serde_json::Value;

use super::file::{Geometry, Vertices};

/// One surface of a geometry.
pub(super) struct Face {
    /// The outer ring first.
    pub(super) rings: Vec<Vec<Point3>>,
    /// `RoofSurface`, `GroundSurface`, or whatever else it is said to be.
    pub(super) meaning: Option<String>,
}

pub(super) type Faces = Result<Vec<Face>, String>;

impl Geometry {
    /// The level of detail as it is written: `2`, `2.2`.
    pub(super) fn detail(&self) -> String {
        match &self.lod {
            Value::String(text) => text.clone(),
            Value::Number(number) => number.to_string(),
            _ => String::new(),
        }
    }

    pub(super) fn has_roof(&self) -> bool {
        self.semantics.as_ref().is_some_and(|semantics| semantics.surfaces.iter().any(|surface| surface.kind == ROOF))
    }

    /// Every surface, or what is wrong with one.
    pub(super) fn faces(&self, vertices: &Vertices) -> Faces {
        let depth = match self.kind.as_str() {
            "MultiSurface" | "CompositeSurface" => 1,
            "Solid" => 2,
            "MultiSolid" | "CompositeSolid" => 3,
            _ => return Ok(Vec::new()),
        };
        let mut faces = Vec::new();
        let meanings = self.semantics.as_ref().map(|semantics| &semantics.values);
        self.gather(&self.boundaries, meanings, depth, vertices, &mut faces)?;
        Ok(faces)
    }

    /// Walks boundaries and meanings together down to single surfaces.
    fn gather(
        &self,
        boundaries: &Value,
        meanings: Option<&Value>,
        depth: usize,
        vertices: &Vertices,
        faces: &mut Vec<Face>,
    ) -> Result<(), String> {
        if depth == 0 {
            let meaning = meanings.and_then(Value::as_u64).and_then(|index| self.meaning(index));
            faces.push(Face { rings: rings(boundaries, vertices)?, meaning });
            return Ok(());
        }
        for (at, inner) in list(boundaries)?.iter().enumerate() {
            self.gather(inner, meanings.and_then(|meanings| meanings.get(at)), depth - 1, vertices, faces)?;
        }
        Ok(())
    }

    fn meaning(&self, index: u64) -> Option<String> {
        let surfaces = &self.semantics.as_ref()?.surfaces;
        surfaces.get(usize::try_from(index).ok()?).map(|surface| surface.kind.clone())
    }
}

pub(super) const ROOF: &str = "RoofSurface";
pub(super) const GROUND: &str = "GroundSurface";

fn rings(surface: &Value, vertices: &Vertices) -> Result<Vec<Vec<Point3>>, String> {
    list(surface)?.iter().map(|ring| list(ring)?.iter().map(|index| corner(index, vertices)).collect()).collect()
}

fn corner(index: &Value, vertices: &Vertices) -> Result<Point3, String> {
    let found = index.as_u64().and_then(|index| vertices.at(index));
    found.ok_or_else(|| "names a corner that the file does not have".to_owned())
}

fn list(value: &Value) -> Result<&Vec<Value>, String> {
    value.as_array().ok_or_else(|| "has boundaries that are not lists in lists".to_owned())
}
