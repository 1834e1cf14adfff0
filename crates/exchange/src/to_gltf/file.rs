use serde::Serialize;
use serde_json::{Value, json};

use super::Solid;

/// What things are made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Material {
    Unit,
    Cut,
    Deck,
    Line,
}

/// Name and colour, linear red, green and blue, of each; in the order of [`Material`].
const MATERIALS: [(&str, [f64; 3]); 4] = [
    ("unit", [0.15, 0.2, 0.26]),
    ("cut unit", [0.2, 0.16, 0.13]),
    ("deck", [0.69, 0.56, 0.37]),
    ("line", [0.01, 0.02, 0.03]),
];

/// A node of the scene.
#[derive(Default, Serialize)]
pub(super) struct Node {
    pub(super) name: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) mesh: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) translation: Option<[f64; 3]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) rotation: Option<[f64; 4]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) scale: Option<[f64; 3]>,
    /// Column by column.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) matrix: Option<Vec<f64>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) children: Vec<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) extras: Option<Value>,
}

/// A scene that grows. All corners stand in one view of the buffer, all indices in the other.
#[derive(Default)]
pub(super) struct File {
    nodes: Vec<Node>,
    meshes: Vec<Value>,
    accessors: Vec<Value>,
    corners: Vec<u8>,
    indices: Vec<u8>,
}

// Numbers of the specification: section 3.6.2.2 and appendix on properties.
const FLOAT: u32 = 5126;
const UNSIGNED_INT: u32 = 5125;
const ARRAY_BUFFER: u32 = 34_962;
const ELEMENT_ARRAY_BUFFER: u32 = 34_963;
const LINES: u32 = 1;
const TRIANGLES: u32 = 4;

impl File {
    pub(super) fn node(&mut self, node: Node) -> usize {
        self.nodes.push(node);
        self.nodes.len() - 1
    }

    /// `None` for a solid without extent, of which the format has none.
    pub(super) fn mesh(&mut self, name: &str, material: Material, solid: &Solid, extras: Option<Value>) -> Option<usize> {
        if solid.indices.is_empty() {
            return None;
        }
        let (positions, indices) = (self.positions(solid), self.indices(solid));
        let mode = if material == Material::Line { LINES } else { TRIANGLES };
        let primitive = json!({ "attributes": { "POSITION": positions }, "indices": indices, "material": material as usize, "mode": mode });
        let mut mesh = json!({ "name": name, "primitives": [primitive] });
        if let Some(extras) = extras {
            mesh["extras"] = extras;
        }
        self.meshes.push(mesh);
        Some(self.meshes.len() - 1)
    }

    fn positions(&mut self, solid: &Solid) -> usize {
        let corners: Vec<[f32; 3]> = solid.corners.iter().map(|corner| corner.map(|at| at as f32)).collect();
        let extreme = |pick: fn(f32, f32) -> f32| -> [f64; 3] {
            std::array::from_fn(|axis| corners.iter().map(|corner| corner[axis]).reduce(pick).unwrap_or_default().into())
        };
        let accessor = json!({
            "bufferView": 0, "byteOffset": self.corners.len(), "componentType": FLOAT, "count": corners.len(), "type": "VEC3",
            "min": extreme(f32::min), "max": extreme(f32::max),
        });
        self.corners.extend(corners.iter().flatten().flat_map(|at| at.to_le_bytes()));
        self.accessors.push(accessor);
        self.accessors.len() - 1
    }

    fn indices(&mut self, solid: &Solid) -> usize {
        let accessor = json!({
            "bufferView": 1, "byteOffset": self.indices.len(), "componentType": UNSIGNED_INT, "count": solid.indices.len(),
            "type": "SCALAR",
        });
        self.indices.extend(solid.indices.iter().flat_map(|index| index.to_le_bytes()));
        self.accessors.push(accessor);
        self.accessors.len() - 1
    }

    /// The bytes of the file, with one scene that holds the root.
    pub(super) fn written(self, root: usize) -> serde_json::Result<Vec<u8>> {
        let material = |(name, [red, green, blue]): (&str, [f64; 3])| {
            json!({
                "name": name,
                "doubleSided": name == "deck",
                "pbrMetallicRoughness": { "baseColorFactor": [red, green, blue, 1.0], "metallicFactor": 0.0, "roughnessFactor": 0.9 },
            })
        };
        let (corners, indices) = (self.corners.len(), self.indices.len());
        let document = json!({
            "asset": { "version": "2.0", "generator": concat!("headlap ", env!("CARGO_PKG_VERSION")) },
            "scene": 0,
            "scenes": [{ "nodes": [root] }],
            "nodes": self.nodes,
            "meshes": self.meshes,
            "materials": MATERIALS.map(material),
            "accessors": self.accessors,
            "bufferViews": [
                { "buffer": 0, "byteOffset": 0, "byteLength": corners, "byteStride": 12, "target": ARRAY_BUFFER },
                { "buffer": 0, "byteOffset": corners, "byteLength": indices, "target": ELEMENT_ARRAY_BUFFER },
            ],
            "buffers": [{ "byteLength": corners + indices }],
        });
        Ok(bound(serde_json::to_vec(&document)?, [self.corners, self.indices].concat()))
    }
}

/// The container: section 4.4, "Binary glTF layout". Chunks are filled up to a multiple of four bytes.
fn bound(mut json: Vec<u8>, mut binary: Vec<u8>) -> Vec<u8> {
    json.resize(json.len().next_multiple_of(4), b' ');
    binary.resize(binary.len().next_multiple_of(4), 0);
    let length = 12 + 8 + json.len() + 8 + binary.len();
    let [version, length, json_length, binary_length] =
        [2, length, json.len(), binary.len()].map(|value| (value as u32).to_le_bytes());
    let head = [b"glTF".as_slice(), &version, &length];
    let chunks = [json_length.as_slice(), b"JSON", &json, &binary_length, b"BIN\0", &binary];
    head.into_iter().chain(chunks).flatten().copied().collect()
}
