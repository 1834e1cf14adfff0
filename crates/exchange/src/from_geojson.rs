//! GeoJSON, RFC 7946: "The GeoJSON Format", IETF, 2016. Coordinates are longitude and latitude in degrees on WGS 84
//! (section 4); a third number, the height, is not used, since an outline has none.

mod ground;

use geojson::{Error, Feature, GeoJson, Geometry, GeometryValue, JsonObject, feature};
use roof::Point3;

use crate::Options;
use crate::epsg;
use crate::json::broken;
use crate::names::choice_of;
use crate::raw::{Footprint, Found, Surface};
use crate::refused::Refused;
use crate::scale::{Scale, choose};
use crate::to_geojson::OUTLINE;
use ground::Ground;

/// Rings of two numbers, and how people call them.
struct Polygon {
    name: String,
    rings: Vec<Vec<[f64; 2]>>,
}

/// What the two numbers of a position are.
enum Meaning {
    Plan(Scale),
    LongitudeLatitude,
}

pub(crate) fn read(bytes: &[u8], options: &Options) -> Result<Found, Refused> {
    let text = std::str::from_utf8(bytes).map_err(|_| Refused::new("the file is not in UTF-8", "Save it as UTF-8."))?;
    let file: GeoJson = text.parse().map_err(|error| unlike_geojson(&error))?;
    let mut found = Found::default();
    let meaning = meaning(&file, options, &mut found.notes)?;
    let polygons = polygons(file, options.layer.as_deref(), &mut found.notes)?;
    found.outlines = match meaning {
        Meaning::Plan(scale) => polygons.iter().map(|polygon| footprint(polygon, |at| scaled(at, scale))).collect(),
        Meaning::LongitudeLatitude => on_the_ground(&polygons, &mut found.notes)?,
    };
    Ok(found)
}

fn unlike_geojson(error: &Error) -> Refused {
    match error {
        Error::MalformedGeoJson(error) => broken(error),
        other => {
            let words: String = other.to_string().chars().take(200).collect();
            Refused::new(format!("the file is not GeoJSON as RFC 7946 has it: {words}"), "Write the file again as GeoJSON.")
        }
    }
}

/// A unit that was told makes plan coordinates. So does the `crs` of the format's older version (2008), unless it names
/// longitude and latitude; where it is null nothing is known of the reference system, and an export of ours tells its unit.
fn meaning(file: &GeoJson, options: &Options, notes: &mut Vec<String>) -> Result<Meaning, Refused> {
    if foreign(file).is_some_and(|members| members.get("crs").is_some_and(serde_json::Value::is_null)) {
        return choose(options.units, own_unit(file), notes).map(Meaning::Plan);
    }
    let system = named_system(file).filter(|name| !name.contains("CRS84") && epsg::code(name) != Some(4326));
    match (options.units, system) {
        (None, None) => Ok(Meaning::LongitudeLatitude),
        (Some(told), None) => Ok(Meaning::Plan(Scale::told(told))),
        (told, Some(name)) => choose(told, epsg::scale(name), notes).map(Meaning::Plan),
    }
}

fn foreign(file: &GeoJson) -> Option<&JsonObject> {
    match file {
        GeoJson::Geometry(geometry) => geometry.foreign_members.as_ref(),
        GeoJson::Feature(feature) => feature.foreign_members.as_ref(),
        GeoJson::FeatureCollection(features) => features.foreign_members.as_ref(),
    }
}

fn own_unit(file: &GeoJson) -> Result<Scale, Refused> {
    match foreign(file).and_then(|members| members.get("units")?.as_str()) {
        Some("m") => Ok(Scale::METRE),
        _ => Err(Refused::new("the file has no reference system, so its unit is unknown", "Tell the unit with --units.")),
    }
}

fn named_system(file: &GeoJson) -> Option<&str> {
    foreign(file)?.get("crs")?.get("properties")?.get("name")?.as_str()
}

fn polygons(file: GeoJson, layer: Option<&str>, notes: &mut Vec<String>) -> Result<Vec<Polygon>, Refused> {
    let features = match file {
        GeoJson::Geometry(geometry) => vec![Feature::from(geometry)],
        GeoJson::Feature(feature) => vec![feature],
        GeoJson::FeatureCollection(collection) => collection.features,
    };
    let wanted = |feature: &&Feature| layer.is_none_or(|layer| names(feature).iter().any(|name| name == layer));
    let mut chosen: Vec<&Feature> = features.iter().filter(wanted).collect();
    if layer.is_none() && chosen.iter().any(|feature| is_outline(feature)) {
        let count = chosen.len();
        chosen.retain(|feature| is_outline(feature));
        notes.push(format!("Passed over: planes, lines and openings within an outline ({}).", count - chosen.len()));
    }
    if let (Some(layer), true) = (layer, chosen.is_empty()) {
        let has: Vec<String> = features.iter().filter_map(|feature| names(feature).into_iter().next()).collect();
        let says = format!("no feature has the name or id {layer:?}; the file has: {}", choice_of(&has));
        return Err(Refused::new(says, "Name one of these with --layer, or leave it out for all."));
    }
    let mut found = Vec::new();
    for feature in chosen {
        let name = names(feature).into_iter().next().unwrap_or_default();
        feature.geometry.iter().for_each(|geometry| gather(geometry, &name, &mut found));
    }
    if found.is_empty() {
        return Err(Refused::new("the file holds no polygon", "Export the outline of the house as a closed polygon."));
    }
    Ok(found)
}

/// The outline of a roof in an export of ours, which has the planes beside it.
fn is_outline(feature: &Feature) -> bool {
    feature.property("kind").and_then(|kind| kind.as_str()) == Some(OUTLINE)
}

/// Its name among the properties, and its id.
fn names(feature: &Feature) -> Vec<String> {
    let name = feature.property("name").and_then(|name| name.as_str()).map(str::to_owned);
    let id = feature.id.as_ref().map(|id| match id {
        feature::Id::String(text) => text.clone(),
        feature::Id::Number(number) => number.to_string(),
    });
    name.into_iter().chain(id).collect()
}

/// The reader of JSON allows no more than 128 levels, so this ends.
fn gather(geometry: &Geometry, name: &str, found: &mut Vec<Polygon>) {
    let polygon = |rings: &Vec<Vec<geojson::Position>>| Polygon {
        name: name.to_owned(),
        rings: rings.iter().map(|ring| ring.iter().map(two).collect()).collect(),
    };
    match &geometry.value {
        GeometryValue::Polygon { coordinates } => found.push(polygon(coordinates)),
        GeometryValue::MultiPolygon { coordinates } => found.extend(coordinates.iter().map(polygon)),
        GeometryValue::GeometryCollection { geometries } => {
            geometries.iter().for_each(|geometry| gather(geometry, name, found));
        }
        _ => {}
    }
}

/// A position with fewer than two numbers becomes none at all, which is refused with the other impossible places.
fn two(position: &geojson::Position) -> [f64; 2] {
    match position.as_slice() {
        [x, y, ..] => [*x, *y],
        _ => [f64::NAN; 2],
    }
}

fn footprint(polygon: &Polygon, place: impl Fn([f64; 2]) -> Point3) -> Footprint {
    let rings = polygon.rings.iter().map(|ring| ring.iter().map(|&at| place(at)).collect()).collect();
    Footprint { surface: Surface { part_of: polygon.name.clone(), name: polygon.name.clone(), rings }, roof_from: None }
}

fn scaled([x, y]: [f64; 2], scale: Scale) -> Point3 {
    [x * scale.inches, y * scale.inches, 0.0]
}

fn on_the_ground(polygons: &[Polygon], notes: &mut Vec<String>) -> Result<Vec<Footprint>, Refused> {
    let mut corners = polygons.iter().flat_map(|polygon| polygon.rings.iter().flatten().copied());
    let Some(first) = corners.next() else { return Err(Refused::new("the polygon has no corner", "Export it again.")) };
    let ground = Ground::at(first)?;
    corners.try_for_each(|corner| ground.is_near(corner))?;
    notes.push(
        "Longitude and latitude were laid on the level plane that touches the ellipsoid WGS 84 at the first corner, which \
         keeps every length of one house within 1/64 in. The ellipsoid lies near sea level: at 5,000 ft above it real \
         lengths are 1 in 4,000 longer. How well the outline itself was traced, nobody can tell from the file."
            .to_owned(),
    );
    Ok(polygons.iter().map(|polygon| footprint(polygon, |corner| ground.plan(corner))).collect())
}
