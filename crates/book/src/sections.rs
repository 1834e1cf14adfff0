//! The sheets of the book, one file each, in the order of the work.

mod alike;
mod cautions;
mod checks;
mod cover;
mod cut_list;
mod desk;
mod details;
mod dry_in;
mod order;
mod order_of_work;
mod photos;
mod plane;
mod poles;
mod roof_plan;
mod sign_off;
mod stage;
mod warranty;

use plan::Plan;

use crate::content::{Content, Sheet};
use crate::tongue::Tongue;
use crate::{Binding, Part};
use desk::Desk;

#[cfg(test)]
pub(crate) use alike::alike;

/// Everything that stands in a book.
pub(crate) fn content(plan: &Plan, binding: &Binding, tongue: &Tongue) -> Content {
    let desk = Desk::new(plan, binding, tongue);
    let say = |name: &str| tongue.say(name);
    let covering = &desk.plan.covering;
    let invented = if covering.invented { say("invented-short") } else { String::new() };
    Content {
        language: binding.language.code(),
        papers: binding.paper.names(),
        date: binding.date.unwrap_or(UNDATED),
        title: tongue.with("book-title", &[("job", desk.plan.name.as_str().into())]),
        foot: vec![
            [say("foot-job"), desk.plan.name.clone()],
            [say("foot-covering"), format!("{}{invented}", desk.words(&covering.name))],
            [say("foot-date"), date(binding)],
        ],
        scale: say("foot-scale"),
        numbering: [say("foot-sheet"), say("foot-of")],
        cover: binding.part != Part::Poles,
        sheets: sheets(&desk),
    }
}

/// PDF/A wants a date of the document. Without one that somebody gave, it is always this, which is before any book.
const UNDATED: [i16; 3] = [2000, 1, 1];

/// As ISO 8601 has it, the same in both languages; blank without one.
pub(crate) fn date(binding: &Binding) -> String {
    binding.date.map_or_else(String::new, |[year, month, day]| format!("{year:04}-{month:02}-{day:02}"))
}

/// A section of the book.
type Section = fn(&Desk) -> Vec<Sheet>;

fn sheets(desk: &Desk) -> Vec<Sheet> {
    sections(desk.binding.part).iter().flat_map(|section| section(desk)).collect()
}

const fn sections(part: Part) -> &'static [Section] {
    match part {
        Part::Whole => &[
            cover::sheets,
            cautions::sheets,
            roof_plan::sheets,
            order_of_work::sheets,
            dry_in::sheets,
            details::sheets,
            plane::sheets,
            cut_list::sheets,
            order::sheets,
            stage::sheets,
            photos::sheets,
            checks::sheets,
            warranty::sheets,
            sign_off::sheets,
        ],
        Part::Crew => &[
            cover::sheets,
            cautions::sheets,
            roof_plan::sheets,
            order_of_work::sheets,
            dry_in::sheets,
            details::sheets,
            plane::sheets,
            cut_list::sheets,
            stage::sheets,
            photos::sheets,
        ],
        Part::Office => &[cover::sheets, roof_plan::sheets, order::sheets, stage::sheets, cut_list::sheets, photos::sheets],
        Part::Official => {
            &[cover::sheets, roof_plan::sheets, dry_in::sheets, checks::sheets, order_of_work::sheets, sign_off::sheets]
        }
        Part::Owner => &[cover::sheets, roof_plan::sheets, warranty::sheets, photos::sheets, sign_off::sheets],
        Part::Poles => &[poles::sheets],
    }
}
