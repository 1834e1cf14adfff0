use plan::{Plane, Pole};

use super::desk::Desk;
use crate::content::{Block, Picture, Sheet};

/// The poles of every plane in full size; poles with the same marks once, and those of planes alike.
pub(crate) fn sheets(desk: &Desk) -> Vec<Sheet> {
    desk.with_sheets().enumerate().flat_map(|(index, (plane, laid))| of_plane(desk, index, plane, &laid.poles)).collect()
}

/// Room for the note over the strips, mm.
const NOTE: f64 = 9.0;

fn of_plane(desk: &Desk, number: usize, plane: &Plane, poles: &[Pole]) -> Vec<Sheet> {
    let alike = matches!(poles, [left, right] if left.marks == right.marks);
    let shown = if alike { &poles[..1] } else { poles };
    let sheet = |(index, pole): (usize, &Pole)| {
        let side = if alike { "both" } else { pole.side };
        sheet(desk, plane, index, side, &format!("pole-{number}-{index}"))
    };
    shown.iter().enumerate().filter_map(sheet).collect()
}

fn sheet(desk: &Desk, plane: &Plane, index: usize, side: &str, name: &str) -> Option<Sheet> {
    let [width, height] = desk.room();
    let figures = drawings::pole_strips(&desk.plan, &plane.id, index, [width, height - NOTE], desk.tongue);
    let pages = figures.len();
    let title = desk.with(&format!("poles-{side}"), &[("plane", desk.sheet_name(&plane.id).into())]);
    let mut blocks = vec![Block::Words { words: desk.say("poles-note") }];
    for (number, figure) in figures.iter().enumerate() {
        let alt = desk.with(
            "poles-alt",
            &[
                ("pole", title.as_str().into()),
                ("number", (number + 1).to_string().into()),
                ("pages", pages.to_string().into()),
            ],
        );
        blocks.push(Block::Figure(Picture::of(&format!("{name}-{number}"), figure, alt, String::new())));
    }
    (pages > 0).then(|| Sheet { scale: "1:1".into(), ..Sheet::new(title, desk.say("poles"), blocks) })
}
