//! The job file as a text for people to edit.

use std::fmt::{self, Write as _};

use units::Length;

use crate::imported::{Facet, Imported, Outline};
use crate::names::plain;

/// The pitch every side begins with, in the words of a job file.
const PITCH: &str = "6/12";

/// The text of a job file with everything that was imported. Every pitch in it is invented and marked as one to be
/// measured.
#[must_use]
pub fn job_file(imported: &Imported, name: &str) -> String {
    let mut text = String::new();
    // Writing into a String cannot fail.
    let _ = write_job(&mut text, imported, name);
    text
}

fn write_job(text: &mut String, imported: &Imported, name: &str) -> fmt::Result {
    let name = plain(name);
    writeln!(text, "# Imported. Measure one side on the house and compare, before you order from this file.")?;
    imported.notes.iter().try_for_each(|note| writeln!(text, "# - {}", one_line(note)))?;
    writeln!(text, "format = 1")?;
    writeln!(text, "name   = {}", quoted(if name.is_empty() { "house" } else { &name }))?;
    writeln!(text, "units  = \"ft\"\n\n[covering]")?;
    writeln!(text, "sheet = \"composite-slate\"   # choose yours: headlap sheets")?;
    imported.outlines.iter().try_for_each(|outline| write_outline(text, outline))?;
    imported.planes.iter().try_for_each(|plane| write_plane(text, plane))
}

/// As a block; as a comment when its planes are there already.
fn write_outline(text: &mut String, outline: &Outline) -> fmt::Result {
    let mut block = String::new();
    write_block(&mut block, outline)?;
    if !outline.has_planes {
        return write!(text, "\n{block}");
    }
    writeln!(text, "\n# The footprint of planes below, which may be the walls'. To raise a roof from it instead, take the")?;
    writeln!(text, "# planes out and the # away.")?;
    block.lines().try_for_each(|line| writeln!(text, "# {line}"))
}

fn write_block(text: &mut String, outline: &Outline) -> fmt::Result {
    writeln!(text, "[[block]]")?;
    writeln!(text, "name        = {}", quoted(&outline.name))?;
    writeln!(text, "outline     = {}", corners(&outline.corners))?;
    writeln!(text, "eave_height = {}", length(outline.eave_height))?;
    write!(text, "edges       = ")?;
    write_edges(text, &outline.corners)?;
    for hole in &outline.holes {
        writeln!(text, "\n[[block.holes]]\noutline = {}", corners(hole))?;
        write!(text, "edges   = ")?;
        write_edges(text, hole)?;
    }
    Ok(())
}

/// A side a line, with its length to be compared with the tape.
fn write_edges(text: &mut String, corners: &[[f64; 2]]) -> fmt::Result {
    writeln!(text, "[")?;
    for (a, b) in geom::polygon::sides(corners) {
        let side = Length::inches(geom::distance(a, b));
        writeln!(text, "  {{ eave = \"{PITCH}\" }},   # pitch to be measured; this side is {side} long")?;
    }
    writeln!(text, "]")
}

fn write_plane(text: &mut String, plane: &Facet) -> fmt::Result {
    writeln!(text, "\n[[plane]]\nname    = {}\ncorners = {}", quoted(&plane.name), places(&plane.corners))?;
    if plane.holes.is_empty() {
        return Ok(());
    }
    let holes: Vec<String> = plane.holes.iter().map(|hole| places(hole)).collect();
    writeln!(text, "holes   = [{}]", holes.join(", "))
}

fn corners(ring: &[[f64; 2]]) -> String {
    let each: Vec<String> = ring.iter().map(|&[x, y]| format!("[{}, {}]", length(x), length(y))).collect();
    format!("[{}]", each.join(", "))
}

/// As a tape shows it; it is a multiple of 1/16 in.
fn length(inches: f64) -> String {
    if inches == 0.0 { "0".into() } else { quoted(&Length::inches(inches).to_string()) }
}

fn places(ring: &[[f64; 3]]) -> String {
    let each: Vec<String> = ring.iter().map(|&[x, y, z]| format!("[{}, {}, {}]", feet(x), feet(y), feet(z))).collect();
    format!("[{}]", each.join(", "))
}

/// Feet with at most four decimals.
fn feet(inches: f64) -> f64 {
    (inches / 12.0 * 10_000.0).round() / 10_000.0 + 0.0
}

/// A basic string of TOML 1.0.
fn quoted(text: &str) -> String {
    let mut quoted = String::from("\"");
    for c in text.chars() {
        match c {
            '"' | '\\' => quoted.extend(['\\', c]),
            c if c.is_control() => quoted.extend(format!("\\u{:04X}", u32::from(c)).chars()),
            c => quoted.push(c),
        }
    }
    quoted.push('"');
    quoted
}

/// A comment ends with its line, and holds no control characters.
fn one_line(note: &str) -> String {
    note.chars().map(|c| if c.is_control() { ' ' } else { c }).collect()
}
