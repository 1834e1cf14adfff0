//! DXF as text, releases 10 to 2018: closed polylines are outlines, faces are planes. Group codes after the published
//! "DXF Reference"; the few that matter here are read by ourselves, since the kept crate for the format takes a
//! wrong date in the header for a reason to panic.

mod bulge;
mod entity;
mod pairs;
mod shape;

use std::collections::BTreeMap;

use crate::Options;
use crate::names::{choice_of, plain};
use crate::raw::{Footprint, Found, Surface};
use crate::refused::Refused;
use crate::scale::{Scale, choose};
use entity::entities;
use pairs::{Pair, pairs};
use shape::{Drawn, Shape, shape};

pub(crate) fn read(bytes: &[u8], options: &Options) -> Result<Found, Refused> {
    if bytes.contains(&0) {
        return Err(Refused::new("this is not a DXF file of text", "Save the drawing as DXF in text form, not binary."));
    }
    let text = String::from_utf8_lossy(bytes);
    let pairs = pairs(&text)?;
    let mut found = Found::default();
    let scale = choose(options.units, stated_scale(&pairs), &mut found.notes)?;
    let mut drawn = Vec::new();
    let mut passed: BTreeMap<&'static str, usize> = BTreeMap::new();
    for entity in entities(&pairs) {
        match shape(&entity, scale)? {
            Drawn::Shapes(shapes) => drawn.extend(shapes.into_iter().map(|shape| (entity.layer(), shape))),
            Drawn::Passed(why) => *passed.entry(why).or_default() += 1,
        }
    }
    found.notes.extend(passed.iter().map(|(why, count)| format!("Passed over: {why} ({count}).")));
    let layer = layer(&drawn, options.layer.as_deref(), &found.notes)?;
    drawn.retain(|(on, _)| *on == layer);
    sort(drawn, &plain(&layer), &mut found);
    Ok(found)
}

/// `$INSUNITS` in the header: the unit of drawing, group 70.
fn stated_scale(pairs: &[Pair]) -> Result<Scale, Refused> {
    let named = pairs.iter().position(|pair| pair.code == 9 && pair.value.trim() == "$INSUNITS");
    let value = named.and_then(|at| pairs.get(at + 1)).filter(|pair| pair.code == 70).map(|pair| pair.value.trim());
    let unknown = |says: String| Refused::new(says, "Tell the unit of the drawing with --units: ft, in, m or mm.");
    match value {
        Some("1") => Ok(Scale::INCH),
        Some("2") => Ok(Scale::FOOT),
        Some("4") => Ok(Scale::MILLIMETRE),
        Some("5") => Ok(Scale::CENTIMETRE),
        Some("6") => Ok(Scale::METRE),
        Some("10") => Ok(Scale::YARD),
        Some("14") => Ok(Scale::DECIMETRE),
        Some("21") => Ok(Scale::US_SURVEY_FOOT),
        None | Some("0") => Err(unknown("the drawing does not tell its unit ($INSUNITS)".into())),
        Some(other) => Err(unknown(format!("the drawing's unit ($INSUNITS {}) is none a house is drawn in", plain(other)))),
    }
}

/// The layer that was asked for, or the only one with anything on it.
fn layer(drawn: &[(String, Shape)], wanted: Option<&str>, passed: &[String]) -> Result<String, Refused> {
    let mut layers: BTreeMap<&str, usize> = BTreeMap::new();
    for (layer, _) in drawn {
        *layers.entry(layer).or_default() += 1;
    }
    let list: Vec<String> = layers.iter().map(|(layer, count)| format!("{} ({count})", plain(layer))).collect();
    match (wanted, layers.len()) {
        (_, 0) => {
            let says = format!("the drawing has no closed polyline and no face. {}", passed.join(" "));
            let remedy = "Close the outline of the house, explode blocks, and save the drawing again.";
            Err(Refused::new(says.trim_end_matches(['.', ' ']), remedy))
        }
        (Some(wanted), _) if layers.contains_key(wanted) => Ok(wanted.to_owned()),
        (Some(wanted), _) => {
            let says = format!("the layer {wanted:?} has no closed polyline and no face; these have: {}", choice_of(&list));
            Err(Refused::new(says, "Name one of these with --layer."))
        }
        (None, 1) => Ok(drawn.first().map(|(layer, _)| layer.clone()).unwrap_or_default()),
        (None, _) => {
            let says = format!("closed polylines and faces stand on several layers: {}", choice_of(&list));
            Err(Refused::new(says, "Name the layer of the roof with --layer."))
        }
    }
}

fn sort(drawn: Vec<(String, Shape)>, layer: &str, found: &mut Found) {
    let mut bent = 0;
    for (at, (_, shape)) in drawn.into_iter().enumerate() {
        bent += shape.arcs;
        let surface = Surface { part_of: layer.to_owned(), name: format!("{layer} {}", at + 1), rings: vec![shape.corners] };
        if shape.is_plane {
            found.planes.push(surface);
        } else {
            found.outlines.push(Footprint { surface, roof_from: None });
        }
    }
    if bent > 0 {
        found.notes.push(format!("{bent} arcs became straight sides that lie within 1/16 in of them."));
    }
    let lowest = found.planes.iter().flat_map(|plane| &plane.rings).flatten().map(|corner| corner[2]).min_by(f64::total_cmp);
    found.outlines.iter_mut().for_each(|outline| outline.roof_from = lowest);
}
