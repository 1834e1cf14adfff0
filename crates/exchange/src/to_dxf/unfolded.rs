use plan::{LaidPlane, Plan, Plane, Pole};
use units::Length;

use super::APART;
use super::layer::{
    FLAT_COURSE, FLAT_CUT, FLAT_EDGE, FLAT_LAID, FLAT_MARK, FLAT_NAME, FLAT_NUMBER, FLAT_STARTER, FLAT_WHOLE,
};
use super::model::{Anchor, Model, width};
use crate::laid_piece::{LaidPiece, moved, pieces_of, rectangle};

/// Heights of lettering, inches.
const NAME: f64 = 8.0;
const MARK: f64 = 2.0;
const NUMBER: f64 = 1.5;
/// From the foot of the rake to the pole, and the length of a tick, inches.
const BESIDE: f64 = 12.0;
const TICK: f64 = 2.0;

/// Every plane as if it lay flat, u to the right and v up, in rows that begin at a place.
pub(super) fn draw(model: &mut Model, plan: &Plan, from: [f64; 2]) {
    let boxes: Vec<[f64; 4]> = plan.roof.planes.iter().map(|plane| around(plane, laid_of(plan, plane))).collect();
    let area: f64 = boxes.iter().map(|[left, low, right, high]| (right - left + APART) * (high - low + APART)).sum();
    let widest = boxes.iter().map(|[left, _, right, _]| right - left).fold(libm::sqrt(area) * 1.5, f64::max);
    let (mut at, mut tallest) = (from, 0.0_f64);
    for (plane, [left, low, right, high]) in plan.roof.planes.iter().zip(boxes) {
        if at[0] > from[0] && at[0] + right - left > from[0] + widest {
            at = [from[0], at[1] + tallest + APART];
            tallest = 0.0;
        }
        let page = Flat { plane, laid: laid_of(plan, plane), gap: plan.covering.gap_in, by: [at[0] - left, at[1] - low] };
        page.draw(model, low);
        at[0] += right - left + APART;
        tallest = tallest.max(high - low);
    }
}

fn laid_of<'a>(plan: &'a Plan, plane: &Plane) -> Option<&'a LaidPlane> {
    plan.layout.planes.iter().find(|laid| laid.id == plane.id)
}

fn title(plane: &Plane) -> String {
    let pitch = (plane.pitch * 100.0).round() / 100.0;
    format!("{} ({}), {pitch}/12", plane.name, plane.id)
}

/// Left, low, right, high of a plane with its title and what is laid on it.
fn around(plane: &Plane, laid: Option<&LaidPlane>) -> [f64; 4] {
    let rings: Vec<Vec<[f64; 2]>> =
        plane.outlines_in.iter().chain(laid.iter().flat_map(|laid| &laid.laid_in)).cloned().collect();
    let [[left, low], [right, high]] = geom::region::bounds(&rings);
    if left > right {
        return [0.0; 4];
    }
    [left, low, right.max(left + width(&title(plane), NAME)), high]
}

/// One plane on the drawing.
struct Flat<'a> {
    plane: &'a Plane,
    laid: Option<&'a LaidPlane>,
    /// Between neighbours, inches.
    gap: f64,
    /// From the plane's own frame to the drawing.
    by: [f64; 2],
}

impl Flat<'_> {
    fn draw(&self, model: &mut Model, low: f64) {
        self.plane.outlines_in.iter().for_each(|ring| self.ring(model, FLAT_EDGE, ring));
        let left = self.plane.outlines_in.iter().flatten().map(|corner| corner[0]).fold(f64::INFINITY, f64::min);
        model.text(FLAT_NAME, self.at([left, low - 3.0 * NAME]), NAME, Anchor::Left, &title(self.plane));
        let Some(laid) = self.laid else { return };
        laid.laid_in.iter().for_each(|ring| self.ring(model, FLAT_LAID, ring));
        self.starters(model, laid);
        self.courses(model, laid);
        laid.poles.iter().for_each(|pole| self.pole(model, laid, pole));
    }

    fn at(&self, [u, v]: [f64; 2]) -> [f64; 2] {
        [u + self.by[0], v + self.by[1]]
    }

    fn ring(&self, model: &mut Model, layer: super::layer::Layer, ring: &[[f64; 2]]) {
        model.ring(layer, &moved(ring, self.by));
    }

    fn starters(&self, model: &mut Model, laid: &LaidPlane) {
        for row in &laid.starters {
            for index in 0..row.count {
                let left = row.left_in + f64::from(index) * row.step_in;
                let [from, to] = [left.max(row.span_in[0]), (left + row.step_in - self.gap).min(row.span_in[1])];
                if from < to {
                    self.ring(model, FLAT_STARTER, &rectangle([from, row.butt_in], [to, row.butt_in + row.height_in]));
                }
            }
        }
    }

    fn courses(&self, model: &mut Model, laid: &LaidPlane) {
        for course in &laid.courses {
            pieces_of(laid, course).for_each(|piece| self.piece(model, &piece, course.exposure_in));
            for &[from, to] in &course.spans_in {
                model.flat_line(FLAT_COURSE, [[from, course.butt_in], [to, course.butt_in]].map(|end| self.at(end)));
            }
        }
    }

    fn piece(&self, model: &mut Model, piece: &LaidPiece, exposure: f64) {
        let (layer, shape) = (if piece.cut.is_some() { FLAT_CUT } else { FLAT_WHOLE }, piece.shape());
        shape.iter().for_each(|part| self.ring(model, layer, &moved(part, piece.at)));
        let Some(number) = piece.run.cut else { return };
        let [low, high] = geom::region::bounds(&shape);
        let place = [piece.at[0] + (low[0] + high[0]) / 2.0, piece.at[1] + low[1] + (high[1] - low[1]).min(exposure) / 2.0];
        model.text(FLAT_NUMBER, self.at(place), NUMBER, Anchor::Middle, &(u64::from(number) + 1).to_string());
    }

    /// The rod with the marks of the butts, course by course.
    fn pole(&self, model: &mut Model, laid: &LaidPlane, pole: &Pole) {
        let (outward, anchor) = if pole.side == "right" { (1.0, Anchor::Left) } else { (-1.0, Anchor::Right) };
        let u = pole.u_in + outward * BESIDE;
        let mark = |mark: f64| laid.first_butt_in + mark;
        model.flat_line(FLAT_MARK, [[u, mark(0.0)], [u, mark(pole.top_in)]].map(|end| self.at(end)));
        for course in &pole.marks {
            let v = mark(course.butt_in);
            model.flat_line(FLAT_MARK, [[u, v], [u + outward * TICK, v]].map(|end| self.at(end)));
            let words = format!("{}: {}", course.course + 1, Length::inches(course.butt_in).to_tape());
            model.text(FLAT_MARK, self.at([u + outward * 2.0 * TICK, v]), MARK, anchor, &words);
        }
    }
}
