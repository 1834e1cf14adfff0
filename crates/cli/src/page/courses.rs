use plan::{Course, LaidPlane, Plan};
use units::Length;

use super::lines::name;
use super::text::{Page, count, thousands};

/// Exposures nearer than this are one, inches.
const SAME: f64 = 1e-6;

/// Plane by plane: how many courses, how far apart, from where to where.
pub(crate) fn write(page: &mut Page, plan: &Plan) {
    page.heading("Courses");
    if plan.layout.planes.is_empty() {
        page.wrapped(2, "Nothing is laid.");
        return;
    }
    plan.layout.planes.iter().for_each(|laid| of_plane(page, plan, laid));
    let layout = &plan.layout;
    page.wrapped(
        2,
        &format!(
            "Field pieces: {}, of them {} whole and {} cut; cut from {} units, and no way of cutting takes fewer than {}.",
            thousands(layout.pieces),
            thousands(layout.whole),
            thousands(layout.cut),
            thousands(layout.stock),
            thousands(layout.stock_bound)
        ),
    );
}

fn of_plane(page: &mut Page, plan: &Plan, laid: &LaidPlane) {
    page.wrapped(2, &format!("{}: {}", name(plan, &laid.id), count(laid.courses.len() as u64, "course")));
    if laid.courses.is_empty() {
        return;
    }
    if !laid.lengths.is_empty() {
        page.wrapped(4, &lengths(laid));
    }
    page.wrapped(4, &exposures(&laid.courses));
    if laid.step_in > 0.0 {
        let step = Length::inches(laid.step_in).in_inches();
        page.wrapped(4, &format!("from course 2 up every other unit hangs {step} lower"));
    }
    let slope = laid.top_in - laid.first_butt_in;
    page.wrapped(
        4,
        &format!("first butts {}, top line {} from there", first_butts(laid.first_butt_in), Length::inches(slope)),
    );
}

/// `courses 1 to 10 of 22" units, 11 to 19 of 20", 20 to 27 of 18"`.
fn lengths(laid: &LaidPlane) -> String {
    let each = laid.lengths.iter().map(|of| {
        let length = Length::inches(of.length_in).in_inches();
        let units = if of.first_course == 0 { " units" } else { "" };
        format!("{} to {} of {length}{units}", of.first_course + 1, of.first_course + of.courses)
    });
    format!("courses {}", each.collect::<Vec<_>>().join(", "))
}

/// One exposure for all, one with another for the top course, or the least and the greatest.
fn exposures(courses: &[Course]) -> String {
    let Some(first) = courses.first() else { return String::new() };
    let differs = |course: &Course| (course.exposure_in - first.exposure_in).abs() > SAME;
    match courses.iter().position(differs) {
        None => exposure(first),
        Some(top) if top + 1 == courses.len() => {
            format!("{}; the top course shows {}", exposure(first), inches(courses[top].exposure_in))
        }
        Some(_) => {
            let by_exposure = |a: &&Course, b: &&Course| a.exposure_in.total_cmp(&b.exposure_in);
            let least = courses.iter().min_by(by_exposure).unwrap_or(first);
            let greatest = courses.iter().max_by(by_exposure).unwrap_or(first);
            format!("exposures from {} to {}", inches(least.exposure_in), exposure(greatest))
        }
    }
}

fn exposure(course: &Course) -> String {
    format!("exposure {}, headlap {}", inches(course.exposure_in), inches(course.headlap_in))
}

/// The exact figure and its tape mark.
fn inches(exact: f64) -> String {
    format!("{exact:.3} in ({})", Length::inches(exact).to_tape().in_inches())
}

fn first_butts(first_butt_in: f64) -> String {
    let length = Length::inches(first_butt_in.abs());
    if first_butt_in < 0.0 { format!("{length} past the low edge") } else { format!("{length} above the low edge") }
}
