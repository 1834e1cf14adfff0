use super::desk::{Desk, sentence};
use crate::content::{Block, Column, Sheet, Table};

/// Which photos are taken, and what each must show.
pub(crate) fn sheets(desk: &Desk) -> Vec<Sheet> {
    let steps = desk.plan.details.order_of_work.iter().enumerate();
    let rows: Vec<Vec<String>> = steps
        .filter(|(_, step)| !step.photo.is_empty())
        .map(|(index, step)| {
            vec![
                (index + 1).to_string(),
                desk.words(step.title),
                sentence(&desk.words(&step.photo)),
                "□".into(),
                String::new(),
            ]
        })
        .collect();
    if rows.is_empty() {
        return Vec::new();
    }
    let columns = vec![
        Column::right(desk.say("photos-step")),
        Column::wide(desk.say("photos-when"), 3),
        Column::wide(desk.say("photos-shows"), 6),
        Column::left(desk.say("photos-taken")),
        Column::wide(desk.say("photos-file"), 3),
    ];
    let table = Block::Table(Table { columns, rows, size: 9.5 });
    vec![desk.sheet("photos", vec![Block::Words { words: desk.say("photos-note") }, table])]
}
