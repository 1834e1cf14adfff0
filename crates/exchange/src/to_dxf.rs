//! The plan as a DXF drawing, release 2000, one inch of the roof to one unit: the roof seen from above with true heights, beside it
//! every plane unfolded with its pieces, under these every kind of cut piece. Group codes after the published "DXF Reference".

mod document;
mod from_above;
mod layer;
mod model;
mod saw;
mod unfolded;

use plan::Plan;

use crate::refused::Refused;
use model::Model;

/// Between the parts of the drawing, inches.
const APART: f64 = 96.0;

pub(crate) fn drawing(plan: &Plan) -> Result<Vec<u8>, Refused> {
    if plan.roof.planes.is_empty() {
        return Err(Refused::new("the roof has no planes", "Mend what the problems of the plan name."));
    }
    let mut model = Model::new();
    from_above::draw(&mut model, plan);
    let [[_, low], [right, _]] = model.extent();
    unfolded::draw(&mut model, plan, [right + APART, low]);
    let [[left, low], _] = model.extent();
    saw::draw(&mut model, plan, [left, low - APART]);
    Ok(in_code_page(&document::document(&model)))
}

/// Of the code page 1252 only what it has in common with Latin 1 is written: a byte a character.
fn in_code_page(text: &str) -> Vec<u8> {
    text.chars().map(|c| u8::try_from(u32::from(c)).unwrap_or(b'?')).collect()
}
