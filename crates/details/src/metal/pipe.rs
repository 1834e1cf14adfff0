//! Flanges of pipes, which are bought by diameter and pitch.

use layout::LaidPlane;
use roof::{OpeningKind, Place};
use units::{Length, Pitch};

use super::Along;
use crate::Given;

/// The flange of a pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PipeFlange {
    /// Which pipe, on which plane.
    pub along: Along,
    /// The pipe's middle.
    pub at: Place,
    /// Of the pipe.
    pub diameter: Length,
    /// Of the slope.
    pub pitch: Pitch,
    /// Across the slope and up it.
    pub plate: [Length; 2],
    /// The course over which its foot lies, counted from 0.
    pub over: Option<u32>,
    /// The course whose units lie over its head.
    pub under: Option<u32>,
}

/// A flange for every pipe that comes through a covered plane.
pub(crate) fn flanges(given: &Given<'_>) -> Vec<PipeFlange> {
    let pipes = given.roof.openings.iter().enumerate().filter(|(_, opening)| opening.kind == OpeningKind::Pipe);
    let flange = |(index, pipe): (usize, &roof::PlacedOpening)| {
        let &plane = pipe.planes.iter().find(|&&plane| given.covering(plane).is_some())?;
        let laid = given.layout.planes.iter().find(|laid| laid.plane == plane)?;
        let flashing = given.flashing;
        let at = if pipe.planes.first() == Some(&plane) { pipe.at } else { middle(given, pipe, plane) };
        let foot = at[1] - pipe.height.to_inches() / 2.0;
        let over = course_at(laid, foot);
        Some(PipeFlange {
            along: Along { plane, line: None, opening: Some(index) },
            at,
            diameter: pipe.width,
            pitch: given.roof.planes[plane].pitch,
            plate: [pipe.width + flashing.roof_leg * 2.0, pipe.height + flashing.roof_leg + flashing.back_leg],
            over: over.map(|course| course as u32),
            under: over.map(|course| course + 1).filter(|&course| course < laid.courses.len()).map(|course| course as u32),
        })
    };
    pipes.filter_map(flange).collect()
}

fn middle(given: &Given<'_>, pipe: &roof::PlacedOpening, plane: usize) -> Place {
    let frame = &given.roof.planes[plane].frame;
    let count = pipe.corners.len().max(1) as f64;
    let sum = pipe.corners.iter().fold([0.0; 2], |sum, &[x, y, _]| geom::add(sum, frame.place(x, y)));
    geom::scale(sum, 1.0 / count)
}

/// The course that is seen at a height.
fn course_at(laid: &LaidPlane, v: f64) -> Option<usize> {
    laid.courses.iter().position(|row| row.butt <= v && v < row.butt + row.exposure)
}
