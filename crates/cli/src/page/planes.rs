use plan::{Plan, Plane};
use units::{Area, Length, Pitch};

use super::text::{Page, count};

/// Names, pitches, facings and areas; apart from them the walls measured with the roof.
pub(crate) fn write(page: &mut Page, plan: &Plan) {
    page.heading("Planes");
    plan.roof.planes.iter().for_each(|plane| page.hanging(2, "", &row(plane)));
    let totals = &plan.roof.totals;
    let squares = Area::square_inches(totals.area_sqft * 144.0).to_squares();
    page.wrapped(
        2,
        &format!(
            "In all {}: {:.1} sq ft on the slope ({squares:.2} squares), {:.1} sq ft in plan, {} high.",
            count(plan.roof.planes.len() as u64, "plane"),
            totals.area_sqft,
            totals.plan_area_sqft,
            Length::feet(totals.height_ft)
        ),
    );
    for wall in &plan.roof.walls {
        page.hanging(2, "", &format!("{}: a wall of {:.1} sq ft, not in the area of the roof", wall.name, wall.area_sqft));
    }
}

fn row(plane: &Plane) -> String {
    let pitch = Pitch::per_12(plane.pitch).map(|pitch| format!("{pitch} ({:.1}°)", pitch.degrees())).unwrap_or_default();
    let known = if plane.known_by == "tape" { "; by tape, its place in plan unknown" } else { "" };
    let (name, id, area) = (&plane.name, &plane.id, plane.area_sqft);
    format!("{name} ({id}): pitch {pitch}, faces {}, {area:.1} sq ft{known}", facing(plane.facing_deg))
}

/// The nearest of the eight winds, and the degrees where they are not exactly its own.
fn facing(degrees: f64) -> String {
    const WINDS: [&str; 8] = ["north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest"];
    let turned = degrees.rem_euclid(360.0);
    let wind = WINDS[(turned / 45.0).round() as usize % 8];
    let off = (turned - (turned / 45.0).round() * 45.0).abs();
    if off < 0.05 { wind.to_owned() } else { format!("{wind} ({turned:.1}°)") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn facings_are_named_by_their_wind() {
        assert_eq!(facing(0.0), "north");
        assert_eq!(facing(360.0), "north");
        assert_eq!(facing(350.0), "north (350.0°)");
        assert_eq!(facing(225.0), "southwest");
        assert_eq!(facing(f64::NAN), "north (NaN°)");
    }
}
