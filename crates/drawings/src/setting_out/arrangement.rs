use super::sheet::Sheet;
use super::view::room;
use super::{course_table, cut_list, notes, title_block};
use crate::page::MARGIN;
use crate::rect::Rect;
use crate::table::{BETWEEN, Table, height, rows_in};
use crate::{Page, Point, Scale, heading};

/// Fewest lines of the cut list worth printing.
const FEWEST_CUT_LINES: usize = 6;
/// Papers that a copy shop has: Letter, Tabloid, ANSI C.
const READABLE_PAGES: usize = 3;

/// Where everything stands on the paper; nothing overlaps because each part has room of its own.
pub(crate) struct Arrangement {
    pub(crate) page: Page,
    pub(crate) scale: Scale,
    pub(crate) drawing: Rect,
    pub(crate) courses_at: Point,
    /// Rows to a block of the course table.
    pub(crate) course_rows: usize,
    pub(crate) cuts_at: Point,
    /// Rows to a block of the cut list.
    pub(crate) cut_rows: usize,
    /// Lines that the cut list may have in all.
    pub(crate) cut_lines: usize,
}

/// The tables as wide as they can become.
struct Tables {
    courses: Table,
    cuts: Table,
}

impl Tables {
    fn of(sheet: &Sheet) -> Self {
        Self { courses: course_table::table(sheet), cuts: cut_list::table(sheet, usize::MAX) }
    }

    /// Lines of the cut list below which a paper is too small.
    fn least_cut_lines(&self) -> usize {
        self.cuts.lines().min(FEWEST_CUT_LINES)
    }
}

/// The smallest paper on which every mark of the pole finds room and the plane is drawn large enough to read; failing that, the
/// smallest on which the marks find room. `None` beyond any paper.
pub(crate) fn arrange(sheet: &Sheet) -> Option<Arrangement> {
    let tables = Tables::of(sheet);
    let on_page = |page| best(sheet, page, &tables);
    let readable = Page::series().take(READABLE_PAGES).filter_map(on_page).find(|found| found.is_readable(sheet));
    readable.or_else(|| Page::series().find_map(on_page))
}

/// The arrangement that draws the plane largest; among equals the one with most of the cut list.
fn best(sheet: &Sheet, page: Page, tables: &Tables) -> Option<Arrangement> {
    let ways = [stacked(sheet, page, tables), beside(sheet, page, tables), below(sheet, page, tables)];
    let worth = |a: &Arrangement| (-a.scale.ratio, a.cut_lines.min(tables.cuts.lines()) as f64);
    ways.into_iter().flatten().max_by(|a, b| {
        let ((scale_a, cuts_a), (scale_b, cuts_b)) = (worth(a), worth(b));
        scale_a.total_cmp(&scale_b).then(cuts_a.total_cmp(&cuts_b))
    })
}

impl Arrangement {
    /// Courses are far enough apart to follow with a finger, or the plane takes a quarter of the paper's width or half of the height
    /// left for it.
    fn is_readable(&self, sheet: &Sheet) -> bool {
        let body = body(sheet, self.page);
        let [width, height] = [self.scale.paper(sheet.width()), self.scale.paper(sheet.height())];
        self.scale.paper(sheet.least_exposure()) >= 2.5 || width >= body.width / 4.0 || height >= body.height / 2.0
    }
}

/// The paper between heading and notes.
fn body(sheet: &Sheet, page: Page) -> Rect {
    let [width, height] = page.size();
    let top = MARGIN + heading::HEIGHT;
    let bottom = height - MARGIN - title_block::HEIGHT - notes::height(sheet);
    Rect { left: MARGIN, top, width: width - 2.0 * MARGIN, height: bottom - top }
}

fn largest_scale(sheet: &Sheet, rect: Rect) -> Option<Scale> {
    Scale::series().find(|&scale| {
        let [width, height] = room(sheet, scale);
        width <= rect.width && height <= rect.height
    })
}

/// The plane at the left, and at its right the course table with the cut list under it.
fn stacked(sheet: &Sheet, page: Page, tables: &Tables) -> Option<Arrangement> {
    let body = body(sheet, page);
    let courses = tables.courses.lines();
    let cut_rows = rows_in(body.height - height_of(courses) - BETWEEN);
    if courses > rows_in(body.height) || tables.least_cut_lines() > cut_rows {
        return None;
    }
    let width = tables.courses.block_width().max(tables.cuts.block_width());
    let drawing = Rect { width: body.width - width - BETWEEN, ..body };
    let left = body.left + body.width - width;
    Some(Arrangement {
        page,
        scale: largest_scale(sheet, drawing)?,
        drawing,
        courses_at: [left, body.top],
        course_rows: courses,
        cuts_at: [left, body.top + height_of(courses) + BETWEEN],
        cut_rows,
        cut_lines: cut_rows,
    })
}

/// The plane at the left, at its right the course table, then the cut list.
fn beside(sheet: &Sheet, page: Page, tables: &Tables) -> Option<Arrangement> {
    let body = body(sheet, page);
    let rows = rows_in(body.height);
    let courses = tables.courses.width(tables.courses.blocks(rows));
    let cuts = tables.cuts.block_width();
    let drawing = Rect { width: body.width - courses - cuts - 2.0 * BETWEEN, ..body };
    let left = body.left + drawing.width + BETWEEN;
    Some(Arrangement {
        page,
        scale: largest_scale(sheet, drawing)?,
        drawing,
        courses_at: [left, body.top],
        course_rows: rows,
        cuts_at: [left + courses + BETWEEN, body.top],
        cut_rows: rows,
        cut_lines: rows,
    })
}

/// The plane across the paper, the tables under it; the largest scale that leaves room for them.
fn below(sheet: &Sheet, page: Page, tables: &Tables) -> Option<Arrangement> {
    let body = body(sheet, page);
    Scale::series().find_map(|scale| {
        let [width, height] = room(sheet, scale);
        let rows = rows_in(body.height - height);
        let courses = tables.courses.width(tables.courses.blocks(rows));
        let blocks = tables.cuts.blocks(rows).min(blocks_in(body.width - courses, &tables.cuts));
        let room_for_cuts = blocks * rows >= tables.least_cut_lines();
        let fits = width <= body.width && courses <= body.width && rows > 0 && room_for_cuts;
        let top = body.top + height;
        fits.then(|| Arrangement {
            page,
            scale,
            drawing: Rect { height, ..body },
            courses_at: [body.left, top],
            course_rows: rows,
            cuts_at: [body.left + courses + BETWEEN, top],
            cut_rows: rows,
            cut_lines: blocks * rows,
        })
    })
}

/// Blocks of a table that fit in a width beside another table.
fn blocks_in(width: f64, table: &Table) -> usize {
    (width / (table.block_width() + BETWEEN)).max(0.0) as usize
}

/// Of a table with so many rows, mm.
fn height_of(rows: usize) -> f64 {
    if rows == 0 { 0.0 } else { height(rows) }
}
