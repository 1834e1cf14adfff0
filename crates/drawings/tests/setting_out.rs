//! The setting-out sheet as a whole: its bytes, its room, its marks.

mod lettering;
mod support;

use drawings::{English, Item, OnSheet, Scene, Text, on_sheet, setting_out, svg};
use lettering::{extent, overlap, texts};
use plan::Plan;
use proptest::prelude::*;
use support::{gable, hip_and_valley, plan};

fn scene(plan: &Plan) -> Scene {
    setting_out(plan, "house.0").expect("the plane is laid")
}

fn has(scene: &Scene, words: &str) -> bool {
    texts(scene).any(|text| text.words == words)
}

fn tells(scene: &Scene, words: &str) -> bool {
    texts(scene).any(|text| text.words.contains(words))
}

/// `HEADLAP_BLESS=1 cargo test -p drawings` writes the drawings anew; look at them before you keep them.
#[test]
fn drawings_stay_as_they_were_looked_at() {
    for (name, shape) in [("gable", gable(14.0, 9.5)), ("hip-and-valley", hip_and_valley())] {
        let path = format!("{}/tests/golden/{name}.svg", env!("CARGO_MANIFEST_DIR"));
        let drawn = svg(&scene(&plan(&shape)));
        if std::env::var_os("HEADLAP_BLESS").is_some() {
            std::fs::write(&path, &drawn).unwrap();
        }
        assert!(
            drawn == std::fs::read_to_string(&path).unwrap(),
            "{name} has changed; bless it if the new drawing is right"
        );
    }
}

/// 24 courses of 8.4125 in: 23 of them are 193.4875 in, on a tape 16' 1-1/2". Marks added up from a rounded 8-7/16" would reach
/// 16' 2-1/16".
#[test]
fn marks_are_rounded_one_by_one_from_the_running_value() {
    let mut plan = plan(&gable(10.0, 16.0));
    let laid = &mut plan.layout.planes[0];
    let course = laid.courses[0].clone();
    laid.first_butt_in = -1.0;
    laid.courses = (0..24)
        .map(|index| plan::Course {
            butt_in: -1.0 + 8.4125 * f64::from(index),
            exposure_in: 8.4125,
            length_in: 20.0,
            ..course.clone()
        })
        .collect();
    laid.top_in = 200.9;
    plan.covering.length_in = 20.0;
    let scene = scene(&plan);
    assert!(has(&scene, "16' 1-1/2\""), "butts of course 24");
    assert!(has(&scene, "10' 15/16\""), "heads of course 13: 12 × 8.4125 + 20 = 120.95 in");
    assert!(!has(&scene, "16' 2-1/16\""));
}

#[test]
fn a_rake_gives_one_offset_for_odd_and_one_for_even_courses() {
    let scene = scene(&plan(&gable(14.0, 9.5)));
    assert!(tells(&scene, "odd courses 12-1/8\", even courses 6\""));
}

#[test]
fn a_place_on_the_plane_is_found_on_its_sheet() {
    let plan = plan(&gable(14.0, 9.5));
    let OnSheet { page, drawing, origin, mm_per_inch } = on_sheet(&plan, "house.0", &English).expect("it has a sheet");
    let drawn: Vec<[f64; 2]> = scene(&plan)
        .items
        .into_iter()
        .flat_map(|item| match item {
            Item::Line { points, .. } => points,
            Item::Shape { rings, .. } => rings.concat(),
            Item::Text(_) => Vec::new(),
        })
        .collect();
    for [u, v] in plan.roof.planes[0].outlines_in.concat() {
        let at = [origin[0] + u * mm_per_inch, origin[1] - v * mm_per_inch];
        assert!(drawn.iter().any(|point| (0..2).all(|axis| (point[axis] - at[axis]).abs() < 1e-6)), "{at:?}");
        let [left, top, width, height] = drawing;
        assert!(at[0] > left && at[0] < left + width && at[1] > top && at[1] < top + height, "{at:?} in {drawing:?}");
        assert!(left + width <= page[0] && top + height <= page[1]);
    }
    assert_eq!(on_sheet(&plan, "barn.7", &English), None);
}

#[test]
fn what_is_not_in_the_plan_has_no_sheet() {
    let plan = plan(&gable(10.0, 8.0));
    assert!(setting_out(&plan, "house.1").is_none());
}

#[test]
fn a_plane_without_courses_has_a_sheet_that_says_so() {
    let mut plan = plan(&gable(10.0, 8.0));
    plan.layout.planes[0].courses.clear();
    plan.layout.planes[0].cuts.clear();
    let drawn = svg(&scene(&plan));
    assert!(drawn.ends_with("</svg>\n") && !drawn.contains("inf") && !drawn.contains("NaN"));
}

#[test]
fn many_pieces_become_course_lines_and_the_sheet_says_so() {
    let scene = scene(&plan(&gable(120.0, 60.0)));
    assert!(tells(&scene, "drawn are course lines"));
    assert!(svg(&scene).len() < 600_000);
}

#[test]
fn a_long_cut_list_ends_with_the_number_of_kinds_left_out() {
    let scene = scene(&plan(&hip_and_valley()));
    assert!(
        texts(&scene).any(|text| text.words.starts_with("and ") && text.words.ends_with(" more kinds: see the cut list"))
    );
}

/// The chimney of the example is 42 in wide and 24 in deep, level: on a slope of 8 in 12 that is 24 × √(1 + 64/144) = 28.84 in.
#[test]
fn openings_are_told_by_size_and_place() {
    let (job, _) = plan::read_job(include_str!("../../../examples/chimney.toml"), reader::Format::Toml);
    let plan = plan::plan(&job.expect("the example is sound"), &covering::Catalog::shipped());
    let scene = scene(&plan);
    assert!(tells(&scene, "1: kitchen chimney, 42\" wide, 28-7/8\" on the slope, at 11' 3\" and 8' 6\""));
    assert!(has(&scene, "1"), "the number stands in the opening");
    assert!(!texts(&scene).any(|text| text.words.starts_with("sill ")), "its edges have no labels of their own");
}

#[test]
fn no_lettering_is_smaller_than_can_be_read_at_arms_length() {
    let scene = scene(&plan(&hip_and_valley()));
    assert!(texts(&scene).all(|text| text.cap >= 2.5));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn lettering_stays_on_the_paper_and_apart(width in 2.0..60.0f64, slope in 2.0..40.0f64) {
        let scene = scene(&plan(&gable(width, slope)));
        let [right, bottom] = scene.page.size();
        let level: Vec<&Text> = texts(&scene).filter(|text| text.turn == 0.0).collect();
        for (index, text) in level.iter().enumerate() {
            let extent = extent(text);
            prop_assert!(extent[0] >= 0.0 && extent[1] >= 0.0 && extent[2] <= right && extent[3] <= bottom, "{}", text.words);
            for other in &level[index + 1..] {
                prop_assert!(!overlap(extent, self::extent(other)), "{} over {}", text.words, other.words);
            }
        }
    }
}
