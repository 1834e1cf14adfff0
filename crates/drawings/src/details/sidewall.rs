use plan::{Course, LaidPlane, MetalPiece, MetalRun, Plan, Plane};

use super::section::{Along, Section, framed};
use crate::{Figure, Fill, Item, LineType, Words};

/// Of a unit as drawn, mm.
const UNIT: f64 = 1.7;
/// Height of the leg on the wall as drawn, mm: the plan has the blank, not the bends.
const LEG: f64 = 11.0;
/// Steps shown.
const SHOWN: usize = 3;

/// A cut up the slope beside a wall, seen square to the wall: each step lies on its course and under the one above.
pub(super) fn draw(
    plan: &Plan,
    plane: &Plane,
    laid: &LaidPlane,
    run: &MetalRun,
    width: f64,
    words: &dyn Words,
) -> Option<Figure> {
    let steps = shown(laid, run);
    let (first, last) = (steps.first()?, steps.last()?);
    let zero = first.0.butt_in;
    let length = plan.covering.length_in;
    let high = (last.0.butt_in + length).max(head(last.1)) - zero;
    let section = Section::up_slope(plane, high + 8.0, width - 34.0, words)?;
    let mut items = vec![section.band([-2.0, high + 2.0], [-4.0, 0.0], [-4.0, 0.0], Fill::Hatch)];
    items.extend(steps.iter().map(|(_, step)| wall_leg(&section, [foot(step) - zero, head(step) - zero])));
    for (course, step) in steps.iter().rev() {
        let at = course.butt_in - zero;
        items.push(section.band([at, at + length], [2.0 * UNIT, 3.0 * UNIT], [0.0, UNIT], Fill::Paper));
        // Under the unit, whose lower face falls from its butt to its head.
        let under = |v: f64| 2.0 * UNIT * (1.0 - (v - at) / length).max(0.0) - 0.5;
        let ends = [foot(step) - zero, head(step) - zero];
        items.push(section.line(&ends.map(|v| [v, under(v)]), LineType::Course));
    }
    items.extend(measures(&section, &steps, zero, words));
    let (numbers, keyed) = key(&section, &steps, zero, run, words);
    items.extend(numbers);
    Some(framed(items, section.scale, keyed))
}

/// The first steps with a whole course under them, each with its course.
fn shown<'a>(laid: &'a LaidPlane, run: &'a MetalRun) -> Vec<(&'a Course, &'a MetalPiece)> {
    let steps = run.pieces.iter().filter_map(|step| Some((laid.courses.get(step.course? as usize)?, step)));
    steps.take(SHOWN).collect()
}

fn foot(step: &MetalPiece) -> f64 {
    step.ends_in[0][1]
}

fn head(step: &MetalPiece) -> f64 {
    step.ends_in[1][1]
}

fn wall_leg(section: &Section, [from, to]: [f64; 2]) -> Item {
    section.line(&[[from, 0.0], [from, LEG], [to, LEG], [to, 0.0]], LineType::Hidden)
}

fn measures(section: &Section, steps: &[(&Course, &MetalPiece)], zero: f64, words: &dyn Words) -> Vec<Item> {
    let told = |name: &str, inches: f64| format!("{} {}", words.word(name), words.length(inches));
    let mut items = Vec::new();
    if let [(course, low), (_, high), ..] = steps {
        items.extend(section.measure(
            [foot(low) - zero, head(low) - zero],
            LEG + 3.5,
            &told("step flashing", low.length_in),
        ));
        let lap = head(low) - foot(high);
        if lap > 0.0 {
            items.extend(section.measure([foot(high) - zero, head(low) - zero], LEG + 10.5, &told("lap", lap)));
        }
        items.extend(section.measure([0.0, course.exposure_in], LEG + 17.5, &told("exposure", course.exposure_in)));
    }
    items
}

fn key(
    section: &Section,
    steps: &[(&Course, &MetalPiece)],
    zero: f64,
    run: &MetalRun,
    words: &dyn Words,
) -> (Vec<Item>, Vec<String>) {
    let (course, step) = steps[0];
    let size = format!("{} {} × {}", words.word("blank"), words.length(step.girth_in), words.length(step.length_in));
    let first = [foot(step) - zero + 1.0, 2.0 * UNIT - 0.5];
    let leg = [f64::midpoint(foot(step), head(step)) - zero, LEG * 0.8];
    let over = [course.butt_in - zero + 0.5, 2.5 * UNIT];
    let below = |part: Along, along: f64| [part[0] + along, -15.0];
    section.key(vec![
        (first, below(first, 1.5), format!("{}: {}; {size}", words.word("one step a course"), run.pieces.len())),
        (leg, below(leg, 6.0), words.word("leg on the wall")),
        (over, below(over, 6.0), words.word("unit over it")),
    ])
}
