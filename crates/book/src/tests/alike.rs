//! Planes laid alike have one sheet, others never.

use plan::Plan;

use super::{binding, examples, lines};
use crate::content::{Block, Content, Sheet};
use crate::{Language, Measures, Part};

fn book(plan: &Plan, language: Language, part: Part) -> Content {
    crate::content(plan, &binding(language, Measures::Customary, part)).unwrap()
}

/// The example with a turret of eight sides.
fn gambrel() -> Plan {
    examples().into_iter().find(|(name, _)| name == "gambrel").unwrap().1
}

/// Of planes of the turret.
fn turret_sheets(content: &Content) -> Vec<&Sheet> {
    content.sheets.iter().filter(|sheet| sheet.title.starts_with("turret")).collect()
}

fn first_words(sheet: &Sheet) -> &str {
    match sheet.blocks.first() {
        Some(Block::Words { words }) => words,
        _ => "",
    }
}

#[test]
fn eight_alike_sides_of_a_turret_have_one_sheet_that_names_them() {
    for (language, title, names) in [
        (Language::English, "turret, south, and 7 like it", ["turret, south;", "turret, northeast", "turret, southwest"]),
        (Language::Spanish, "turret, sur, y 7 iguales", ["turret, sur;", "turret, noreste", "turret, suroeste"]),
    ] {
        let content = book(&gambrel(), language, Part::Whole);
        let sheets = turret_sheets(&content);
        assert_eq!(sheets.iter().map(|sheet| sheet.title.as_str()).collect::<Vec<_>>(), [title]);
        let holds = first_words(sheets[0]);
        assert!(names.iter().all(|name| holds.contains(name)), "{holds}");
        assert_eq!(holds.matches("turret").count(), 8, "{holds}");
        // Roof plan and cut list lead there.
        let lines = lines(&content);
        assert!(lines.iter().any(|line| line.contains(&format!("{title}: "))));
        assert!(lines.iter().any(|line| line.starts_with(&format!("{title}, ")) && !line.contains(';')));
    }
}

#[test]
fn no_plane_is_lost_or_shown_twice() {
    for (name, plan) in examples() {
        let mut ids: Vec<String> = crate::sections::alike(&plan).concat();
        ids.sort();
        let mut laid: Vec<String> = plan.layout.planes.iter().map(|laid| laid.id.clone()).collect();
        laid.sort();
        assert_eq!(ids, laid, "{name}");
    }
}

#[test]
fn a_plane_that_differs_in_one_cut_has_a_sheet_of_its_own() {
    let mut plan = gambrel();
    let other = plan.layout.planes.iter_mut().filter(|laid| laid.id.starts_with("turret")).nth(3).unwrap();
    other.cuts[0].parts_in[0][0][0] += 1.0 / 16.0;
    let id = other.id.clone();
    let own = plan.roof.planes.iter().find(|plane| plane.id == id).unwrap().name.clone();
    let content = book(&plan, Language::English, Part::Crew);
    let titles: Vec<&str> = turret_sheets(&content).iter().map(|sheet| sheet.title.as_str()).collect();
    assert_eq!(titles, ["turret, south, and 6 like it", own.as_str()]);
    let holds = first_words(turret_sheets(&content)[0]);
    assert!(!holds.contains(&own), "{holds}");
    assert_eq!(first_words(turret_sheets(&content)[1]), "");
}

/// Each in its own way is a little otherwise than the others.
#[test]
fn pitch_edge_course_and_opening_make_a_plane_unlike() {
    let sheets = |plan: &Plan| turret_sheets(&book(plan, Language::English, Part::Crew)).len();
    let spoiled = |spoil: fn(&mut Plan, String)| {
        let mut plan = gambrel();
        let id = plan.roof.planes.iter().filter(|plane| plane.id.starts_with("turret")).nth(2).unwrap().id.clone();
        spoil(&mut plan, id);
        sheets(&plan)
    };
    fn plane(plan: &mut Plan, id: String) -> &mut plan::Plane {
        plan.roof.planes.iter_mut().find(|plane| plane.id == id).unwrap()
    }
    fn laid(plan: &mut Plan, id: String) -> &mut plan::LaidPlane {
        plan.layout.planes.iter_mut().find(|laid| laid.id == id).unwrap()
    }
    assert_eq!(spoiled(|_, _| {}), 1);
    assert_eq!(spoiled(|plan, id| plane(plan, id).pitch += 0.25), 2);
    assert_eq!(spoiled(|plan, id| plane(plan, id).edges[1].kind = "valley"), 2);
    assert_eq!(spoiled(|plan, id| plane(plan, id).outlines_in[0][2][1] += 0.1), 2);
    assert_eq!(spoiled(|plan, id| laid(plan, id).courses[1].joints_in[0] += 0.1), 2);
    assert_eq!(spoiled(|plan, id| laid(plan, id).poles[0].marks[2].butt_in += 0.1), 2);
    assert_eq!(
        spoiled(|plan, id| {
            let opening = examples().into_iter().find_map(|(_, plan)| plan.roof.openings.first().cloned()).unwrap();
            plan.roof.openings.push(plan::Opening { planes: vec![id], ..opening });
        }),
        2
    );
}
