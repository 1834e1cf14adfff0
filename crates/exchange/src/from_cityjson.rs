//! CityJSON 1.0 to 2.0 and CityJSONSeq: "CityJSON Specifications", CityJSON team and Open Geospatial Consortium (OGC
//! Community Standard 20-072): objects, boundaries of indices, semantics, `transform`.

mod building;
mod file;
mod geometry;

use std::collections::BTreeMap;

use crate::Options;
use crate::epsg;
use crate::json::broken;
use crate::names::{choice_of, some_of};
use crate::raw::{Footprint, Found, Surface};
use crate::refused::Refused;
use crate::scale::{Scale, choose};
use building::{Building, buildings};
use file::{Document, Transform, Vertices};

const NO_TRANSFORM: Transform = Transform { scale: [1.0; 3], translate: [0.0; 3] };

pub(crate) fn read(bytes: &[u8], options: &Options) -> Result<Found, Refused> {
    let mut documents = serde_json::Deserializer::from_slice(bytes).into_iter::<Document>();
    let Some(first) = documents.next() else { return Err(Refused::new("the file is empty", "Write the file again.")) };
    let first = first.map_err(|error| broken(&error))?;
    is_known(first.version.as_deref())?;
    let mut found = Found::default();
    let scale = choose(options.units, stated_scale(&first), &mut found.notes)?;
    let transform = first.transform.unwrap_or(NO_TRANSFORM);
    let mut all = Vec::new();
    for document in std::iter::once(Ok(first)).chain(documents) {
        let document = document.map_err(|error| broken(&error))?;
        let vertices = Vertices { corners: &document.vertices, transform, scale };
        all.extend(buildings(&document.objects, &vertices));
    }
    gather(chosen(all, options.layer.as_deref())?, &mut found)?;
    Ok(found)
}

fn is_known(version: Option<&str>) -> Result<(), Refused> {
    let known = version.is_some_and(|version| ["1.0", "1.1", "2.0"].iter().any(|known| version.starts_with(known)));
    let says =
        || format!("CityJSON of version {:?} is not read", version.unwrap_or("none").chars().take(20).collect::<String>());
    if known { Ok(()) } else { Err(Refused::new(says(), "Upgrade the file to CityJSON 2.0.")) }
}

fn stated_scale(document: &Document) -> Result<Scale, Refused> {
    let system = document.metadata.as_ref().and_then(|metadata| metadata.get("referenceSystem")?.as_str());
    let unstated = || Refused::new("the file does not tell its reference system, so its unit is unknown", TELL);
    epsg::scale(system.ok_or_else(unstated)?)
}

const TELL: &str = "Tell the unit of the coordinates with --units; CityJSON is nearly always in metres.";

/// One building by its id or the id of one of its parts, or all.
fn chosen(all: Vec<Building>, layer: Option<&str>) -> Result<Vec<Building>, Refused> {
    if all.is_empty() {
        return Err(Refused::new("the file holds no building", "Choose a file with objects of the type Building."));
    }
    let Some(layer) = layer else { return Ok(all) };
    let has: Vec<String> = all.iter().map(|building| building.id.clone()).collect();
    let found: Vec<Building> = all.into_iter().filter(|building| building.goes_by(layer)).collect();
    if !found.is_empty() {
        return Ok(found);
    }
    let says = format!("no building has the id {layer:?}; the file has: {}", choice_of(&has));
    Err(Refused::new(says, "Name one of these with --layer, or leave it out for all."))
}

fn gather(buildings: Vec<Building>, found: &mut Found) -> Result<(), Refused> {
    let mut refused: BTreeMap<String, Vec<String>> = BTreeMap::new();
    let mut without_planes = Vec::new();
    for building in buildings {
        match building.parts {
            Ok(parts) => {
                if parts.roofs.is_empty() {
                    without_planes.push(building.id.clone());
                }
                add(&building.id, parts, found);
            }
            Err(why) => refused.entry(why).or_default().push(building.id),
        }
    }
    let reasons = refused.iter().map(|(why, ids)| format!("Left out, since it {why}: {}.", some_of(ids)));
    if found.outlines.is_empty() && found.planes.is_empty() {
        let says = format!("no building can be used. {}", reasons.collect::<Vec<_>>().join(" "));
        return Err(Refused::new(says.trim_end_matches('.'), "Choose a file with roof surfaces (LoD 2) or footprints."));
    }
    found.notes.extend(reasons);
    if !without_planes.is_empty() {
        found.notes.push(format!("Only the footprint, no roof surfaces of LoD 2 or 3: {}.", some_of(&without_planes)));
    }
    Ok(())
}

fn add(id: &str, parts: building::Parts, found: &mut Found) {
    let heights = parts.roofs.iter().flatten().flatten().map(|corner| corner[2]);
    let roof_from = heights.min_by(f64::total_cmp);
    let footprint = |rings| Footprint { surface: Surface { part_of: id.to_owned(), name: id.to_owned(), rings }, roof_from };
    found.outlines.extend(parts.grounds.into_iter().map(footprint));
    let roof = |(at, rings)| Surface { part_of: id.to_owned(), name: format!("{id}, plane {}", at + 1), rings };
    found.planes.extend(parts.roofs.into_iter().enumerate().map(roof));
}
