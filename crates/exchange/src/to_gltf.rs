//! The roof in space as binary glTF 2.0 (Khronos Group, "glTF 2.0 Specification", 2021, ISO/IEC 12113:2022): a node for every
//! plane, in it one for every course, in that one for every piece. Pieces of one shape share a mesh, which every viewer reads.

mod file;
mod solid;

use std::collections::BTreeMap;

use plan::{Course, LaidPlane, Line, Plan, Plane};
use serde_json::{Value, json};

use crate::laid_piece::{LaidPiece, pieces_of};
use crate::pose::Pose;
use crate::refused::Refused;
use file::{File, Material, Node};
use solid::{Solid, flat, segment, unit};

/// Metres in an inch.
const INCH: f64 = 0.0254;
/// Cosine of 45°: the quaternion that turns z up into y up.
const HALF: f64 = std::f64::consts::FRAC_1_SQRT_2;
/// Lines of the roof are drawn so far over it, inches.
const OVER: f64 = 2.0;

pub(crate) fn scene(plan: &Plan) -> Result<Vec<u8>, Refused> {
    if plan.roof.planes.is_empty() {
        return Err(Refused::new("the roof has no planes", "Mend what the problems of the plan name."));
    }
    let mut file = File::default();
    let planes: Vec<usize> = plan.roof.planes.iter().filter_map(|of| plane(&mut file, plan, of)).collect();
    let lines: Vec<usize> = plan.roof.lines.iter().enumerate().map(|(index, of)| line(&mut file, index, of)).collect();
    let lines = file.node(Node { name: "lines".into(), children: lines, ..Node::default() });
    let extras = json!({
        "covering": plan.covering.name,
        "covering_is_invented": plan.covering.invented,
        "north_deg": plan.roof.north_deg,
        "pieces": plan.layout.pieces,
    });
    let root = file.node(Node {
        name: plan.name.clone(),
        rotation: Some([-HALF, 0.0, 0.0, HALF]),
        scale: Some([INCH; 3]),
        children: planes.into_iter().chain([lines]).collect(),
        extras: Some(extras),
        ..Node::default()
    });
    let unwritten =
        |error: serde_json::Error| Refused::new(format!("the scene cannot be written: {error}"), "Report the job file.");
    file.written(root).map_err(unwritten)
}

fn plane(file: &mut File, plan: &Plan, plane: &Plane) -> Option<usize> {
    let pose = Pose::of(&plan.roof, plane)?;
    let deck = file.mesh("deck", Material::Deck, &flat(&plane.outlines_in), None);
    let deck = file.node(Node { name: "deck".into(), mesh: deck, ..Node::default() });
    let laid = plan.layout.planes.iter().find(|laid| laid.id == plane.id);
    let courses = laid.map_or_else(Vec::new, |laid| courses(file, laid));
    let column = |[x, y, z]: [f64; 3], last: f64| [x, y, z, last];
    let matrix = [column(pose.right, 0.0), column(pose.up, 0.0), column(pose.out, 0.0), column(pose.origin, 1.0)];
    let extras = json!({
        "id": plane.id,
        "pitch": plane.pitch,
        "facing_deg": plane.facing_deg,
        "area_sqft": plane.area_sqft,
        "known_by": plane.known_by,
    });
    Some(file.node(Node {
        name: plane.name.clone(),
        matrix: Some(matrix.concat()),
        children: [deck].into_iter().chain(courses).collect(),
        extras: Some(extras),
        ..Node::default()
    }))
}

/// Meshes of a plane by cut, kind of unit and width; nothing where a shape has no extent.
type Meshes = BTreeMap<(Option<u32>, u32, u64), Option<usize>>;

fn courses(file: &mut File, laid: &LaidPlane) -> Vec<usize> {
    let mut meshes = Meshes::new();
    let layers = layers(laid);
    laid.courses.iter().enumerate().map(|(index, of)| course(file, laid, (index, of), layers, &mut meshes)).collect()
}

/// Units that lie under a butt: as many as a length holds exposures.
fn layers(laid: &LaidPlane) -> f64 {
    let longest = laid.courses.iter().map(|course| course.exposure_in).fold(0.0, f64::max);
    let length = laid.units.first().map_or(0.0, |unit| unit.length_in);
    if longest > 0.0 { (length / longest).floor().clamp(1.0, 3.0) } else { 1.0 }
}

fn course(file: &mut File, laid: &LaidPlane, (index, course): (usize, &Course), layers: f64, meshes: &mut Meshes) -> usize {
    let mut pieces = Vec::new();
    for (number, piece) in pieces_of(laid, course).enumerate() {
        let key = (piece.run.cut, piece.run.unit, piece.run.width_in.to_bits());
        let mesh = *meshes.entry(key).or_insert_with(|| mesh(file, &piece, layers));
        let name = format!("{}.{}", index + 1, number + 1);
        let translation = Some([rounded(piece.at[0]), 0.0, 0.0]);
        pieces.push(file.node(Node { name, mesh, translation, ..Node::default() }));
    }
    let extras = json!({
        "course": index + 1,
        "butt_in": course.butt_in,
        "exposure_in": course.exposure_in,
        "headlap_in": course.headlap_in,
    });
    file.node(Node {
        name: format!("course {}", index + 1),
        translation: Some([0.0, rounded(course.butt_in), 0.0]),
        children: pieces,
        extras: Some(extras),
        ..Node::default()
    })
}

fn mesh(file: &mut File, piece: &LaidPiece, layers: f64) -> Option<usize> {
    let solid = unit(&piece.shape(), piece.unit, layers);
    let (name, material, extras): (String, Material, Value) = match (piece.run.cut, piece.cut) {
        (Some(number), Some(cut)) => {
            let extras = json!({ "cut": u64::from(number) + 1, "hand": cut.hand, "width_in": cut.width_in, "area_sqin": cut.area_sqin });
            (format!("cut {}", u64::from(number) + 1), Material::Cut, extras)
        }
        _ => {
            let plan::Unit { length_in, width_in, thickness_in, wide, .. } = piece.unit;
            let extras = json!({ "length_in": length_in, "width_in": width_in, "thickness_in": thickness_in, "wide": wide });
            ("unit".into(), Material::Unit, extras)
        }
    };
    file.mesh(&name, material, &solid, Some(extras))
}

fn line(file: &mut File, index: usize, line: &Line) -> usize {
    let ends = line.ends_ft.map(|[x, y, z]| [x * 12.0, y * 12.0, z * 12.0 + OVER]);
    let extras = json!({ "kind": line.kind, "length_ft": line.length_ft, "planes": line.planes });
    let mesh = file.mesh(line.kind, Material::Line, &segment(ends), Some(extras));
    file.node(Node { name: format!("{} {}", line.kind, index + 1), mesh, ..Node::default() })
}

/// To a millionth of an inch.
fn rounded(inches: f64) -> f64 {
    (inches * 1e6).round() / 1e6 + 0.0
}
