//! The file as it is written; what is not read here is passed over.

use std::collections::BTreeMap;

use roof::Point3;
use serde::Deserialize;
use serde_json::Value;

use crate::scale::Scale;

/// A CityJSON file, or one line of a CityJSONSeq file.
#[derive(Deserialize)]
pub(super) struct Document {
    pub(super) version: Option<String>,
    pub(super) transform: Option<Transform>,
    pub(super) metadata: Option<Value>,
    #[serde(rename = "CityObjects", default)]
    pub(super) objects: BTreeMap<String, CityObject>,
    #[serde(default)]
    pub(super) vertices: Vec<Point3>,
}

/// From the whole numbers of the file to coordinates.
#[derive(Deserialize, Clone, Copy)]
pub(super) struct Transform {
    pub(super) scale: [f64; 3],
    pub(super) translate: [f64; 3],
}

#[derive(Deserialize)]
pub(super) struct CityObject {
    #[serde(rename = "type")]
    pub(super) kind: String,
    pub(super) geometry: Option<Vec<Geometry>>,
    pub(super) parents: Option<Vec<String>>,
}

#[derive(Deserialize)]
pub(super) struct Geometry {
    #[serde(rename = "type")]
    pub(super) kind: String,
    /// A string; older files have a number.
    #[serde(default)]
    pub(super) lod: Value,
    #[serde(default)]
    pub(super) boundaries: Value,
    pub(super) semantics: Option<Semantics>,
}

#[derive(Deserialize)]
pub(super) struct Semantics {
    pub(super) surfaces: Vec<SemanticSurface>,
    /// As deep as the boundaries, less the rings and corners; null where nothing is said.
    #[serde(default)]
    pub(super) values: Value,
}

#[derive(Deserialize)]
pub(super) struct SemanticSurface {
    #[serde(rename = "type")]
    pub(super) kind: String,
}

/// The corners of a document, and how to place them.
pub(super) struct Vertices<'a> {
    pub(super) corners: &'a [Point3],
    pub(super) transform: Transform,
    pub(super) scale: Scale,
}

impl Vertices<'_> {
    /// In inches; `None` if there is no such corner.
    pub(super) fn at(&self, index: u64) -> Option<Point3> {
        let corner = self.corners.get(usize::try_from(index).ok()?)?;
        let Transform { scale, translate } = self.transform;
        Some(std::array::from_fn(|i| (corner[i] * scale[i] + translate[i]) * self.scale.inches))
    }
}
