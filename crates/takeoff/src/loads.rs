use covering::Covering;
use details::Details;
use layout::{LaidPlane, Layout, Run, UnitKind};
use roof::{Plane, Roof};
use units::{Area, Mass};

/// What lies on one plane for good. Nails, caps and metal are not in it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlaneLoad {
    /// Index in [`Roof::planes`].
    pub plane: usize,
    /// Of the plane, on the slope.
    pub area: Area,
    /// Field units, whole and cut, and starters.
    pub units: Mass,
    /// What lies under them, where the sheets give weights.
    pub under: Mass,
    /// Plan area over area on the slope: a load per square foot of slope is this much less than per square foot of plan.
    pub slope_factor: f64,
}

impl PlaneLoad {
    /// Pounds a square foot of the slope.
    #[must_use]
    pub fn slope_psf(&self) -> f64 {
        (self.units + self.under).to_pounds() / self.area.to_square_feet()
    }

    /// Pounds a square foot of plan, in which snow and live loads are told.
    #[must_use]
    pub fn plan_psf(&self) -> f64 {
        self.slope_psf() * self.slope_factor
    }
}

/// Dead load of every laid plane. A cut piece weighs its part of the unit's face; a unit of another size than the field unit its
/// part of the field unit's face, a wide one what its sheet says.
#[must_use]
pub fn dead_loads<'a>(
    roof: &'a Roof,
    layout: &'a Layout,
    details: &Details,
    covering_of: impl Fn(&Plane) -> Option<&'a Covering>,
) -> Vec<PlaneLoad> {
    let load = |laid: &LaidPlane| {
        let plane = roof.planes.get(laid.plane)?;
        let covering = covering_of(plane)?;
        Some(PlaneLoad {
            plane: laid.plane,
            area: plane.area(),
            units: units(laid, covering),
            under: under(details, laid.plane),
            slope_factor: plane.pitch.slope_factor(),
        })
    };
    layout.planes.iter().filter_map(load).collect()
}

fn units(laid: &LaidPlane, covering: &Covering) -> Mass {
    let runs = laid.courses.iter().flat_map(|course| &course.runs);
    let pieces: Mass = runs.map(|run| of_run(laid, covering, run)).sum();
    let starters: u32 = laid.starters.iter().map(|row| row.count).sum();
    pieces + covering.starter.weight * f64::from(starters * covering.starter.layers)
}

fn of_run(laid: &LaidPlane, covering: &Covering, run: &Run) -> Mass {
    let Some(unit) = laid.units.get(run.unit as usize) else { return Mass::default() };
    let face = unit.width * unit.length;
    let part = run.cut.and_then(|cut| laid.cuts.get(cut as usize)).map_or(1.0, |cut| cut.area / face);
    of_unit(unit, covering) * (part * f64::from(run.count))
}

fn of_unit(unit: &UnitKind, covering: &Covering) -> Mass {
    let [length, width, thickness] =
        [covering.unit.length, covering.unit.width, covering.unit.thickness].map(units::Length::to_inches);
    let as_long = unit.length * unit.thickness / (length * thickness);
    match covering.wide.filter(|_| unit.wide) {
        Some(wide) => wide.weight * as_long,
        None => covering.unit.weight * (as_long * unit.width / width),
    }
}

/// A strip over two planes lies on each with an equal part.
fn under(details: &Details, plane: usize) -> Mass {
    let mut sum = Mass::default();
    for rolls in &details.dry_in.rolls {
        for strip in &rolls.strips {
            let here = strip.patches.iter().filter(|patch| patch.plane == plane).count() as f64;
            let part = here / strip.patches.len().max(1) as f64;
            sum = sum + rolls.roll.weight * (part * strip.cut_length() / rolls.roll.length.to_inches());
        }
    }
    sum
}
