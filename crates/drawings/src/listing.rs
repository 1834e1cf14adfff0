//! Long tables on as many papers as they take.

use crate::page::MARGIN;
use crate::table::{BETWEEN, Table, rows_in};
use crate::{Page, Scene, heading};

/// A table however long.
pub(crate) struct Listing {
    pub(crate) title: &'static str,
    pub(crate) headings: Vec<&'static str>,
    pub(crate) rows: Vec<Vec<String>>,
    /// One line over the table.
    pub(crate) summary: String,
}

/// What of a listing stands on one paper.
struct Paper {
    table: Table,
    rows: usize,
    summary: String,
}

/// Papers of one kind, numbered through.
pub(crate) fn scenes(listings: &[Listing], job: &str, kind: &str) -> Vec<Scene> {
    let papers: Vec<Paper> = listings.iter().flat_map(Listing::papers).collect();
    let count = papers.len();
    papers
        .into_iter()
        .enumerate()
        .map(|(index, paper)| paper.draw(job, &format!("{kind} {} of {count}", index + 1)))
        .collect()
}

fn page() -> Page {
    Page::LETTER
}

impl Listing {
    fn papers(&self) -> Vec<Paper> {
        let [width, height] = page().size();
        let rows = rows_in(height - 2.0 * MARGIN - heading::HEIGHT);
        let all = Table::new(self.title, self.headings.clone(), self.rows.clone());
        let room = width - 2.0 * MARGIN + BETWEEN;
        let blocks = ((room / (all.block_width() + BETWEEN)) as usize).max(1);
        let paper = |rows_here: &[Vec<String>]| Paper {
            table: Table::new(self.title, self.headings.clone(), rows_here.to_vec()),
            rows,
            summary: self.summary.clone(),
        };
        self.rows.chunks((rows * blocks).max(1)).map(paper).collect()
    }
}

impl Paper {
    fn draw(self, job: &str, kind: &str) -> Scene {
        let mut items = heading::draw(page(), &format!("{job} — {}", self.summary), kind);
        items.extend(self.table.draw([MARGIN, MARGIN + heading::HEIGHT], self.rows));
        let description = format!("{}. A table of {} lines.", self.summary, self.table.lines());
        Scene { page: page(), title: format!("{kind}: {job}"), description, items }
    }
}
