use super::drawing::{AROUND, Drawing, draw, line_of};
use super::kinds::KINDS;
use super::legend::{Entry, Legend, Sign};
use super::overhead::Overhead;
use super::view::View;
use super::{foot, north};
use crate::page::MARGIN;
use crate::rect::Rect;
use crate::{LineType, Page, Point, Scale, heading, scale_bar};

/// Between the parts of the sheet, mm.
const BETWEEN: f64 = 8.0;
/// Papers that a copy shop has: Letter, Tabloid, ANSI C.
const READABLE_PAGES: usize = 3;

/// Where everything stands on the paper; nothing overlaps because each part has room of its own.
pub(crate) struct Arrangement {
    pub(crate) page: Page,
    pub(crate) scale: Scale,
    pub(crate) drawing: Drawing,
    pub(crate) drawing_at: Point,
    pub(crate) bar_at: Point,
    pub(crate) north_at: Point,
    pub(crate) key: Legend,
    /// Planes with a letter for their name, and openings.
    pub(crate) list: Option<Legend>,
}

/// The smallest paper on which most planes find room for their names; failing that, the smallest on which all find room for letters.
pub(crate) fn arrange(overhead: &Overhead) -> Option<Arrangement> {
    let key = key(overhead);
    let on_page = |page| on_page(overhead, &key, page);
    let openings = overhead.plan.roof.openings.len();
    let letters = |found: &Arrangement| found.drawing.listed.len() - openings;
    let most_are_named = |found: &Arrangement| letters(found) * 3 <= overhead.surfaces.len();
    let readable = Page::series().take(READABLE_PAGES).filter_map(on_page).find(most_are_named);
    readable.or_else(|| Page::series().find_map(on_page))
}

/// What stands in the drawing, in the order of [`KINDS`].
fn key(overhead: &Overhead) -> Legend {
    let drawn = |line: LineType| overhead.stretches.iter().any(|stretch| line_of(stretch) == Some(line));
    let entry = |sign: Sign, words: String| Entry { sign, words };
    let words = |name: &str| overhead.words.word(name);
    let kinds = KINDS.iter().filter(|(_, line)| drawn(*line)).map(|(kind, line)| entry(Sign::Line(*line), words(kind)));
    let hidden = drawn(LineType::Hidden).then(|| entry(Sign::Line(LineType::Hidden), words("under another plane")));
    let start = !overhead.plan.layout.planes.is_empty();
    let start = start.then(|| entry(Sign::Start, words("laying starts")));
    let fall = entry(Sign::Fall, words("water runs"));
    let opening = (!overhead.plan.roof.openings.is_empty()).then(|| entry(Sign::Opening, words("opening")));
    let zone = |feet: f64| format!("{}, {}", words("wind zone"), overhead.words.length(feet * 12.0));
    let wind = overhead.plan.wind.as_ref();
    let wind = wind.map(|wind| entry(Sign::Line(LineType::Limit), zone(wind.zone_width_ft)));
    Legend::new(words("key"), kinds.chain(hidden).chain(wind).chain(opening).chain([fall]).chain(start).collect())
}

/// The largest drawing that finds room on a paper, lying or upright.
fn on_page(overhead: &Overhead, key: &Legend, page: Page) -> Option<Arrangement> {
    largest(overhead, key, &[page, page.turned()].map(|page| Blank::of(overhead, page)), Listed::Drawn)
}

/// The largest drawing with its key that finds room in a rectangle, mm, and nothing else on the paper.
pub(crate) fn arrange_within(overhead: &Overhead, [width, height]: [f64; 2]) -> Option<Arrangement> {
    let body = Rect { left: 0.0, top: 0.0, width, height };
    let blank = [Blank { page: Page::of_figure([width, height]), body }];
    let key = key(overhead);
    largest(overhead, &key, &blank, Listed::Drawn).or_else(|| largest(overhead, &key, &blank, Listed::Told))
}

/// Whether what the letters stand for is drawn beside the roof, or told elsewhere.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Listed {
    Drawn,
    Told,
}

fn largest(overhead: &Overhead, key: &Legend, blanks: &[Blank], listed: Listed) -> Option<Arrangement> {
    let ways = |size, list: &Legend| {
        blanks.iter().flat_map(|blank| [blank.beside(size, key, list), blank.below(size, key, list)]).flatten().next()
    };
    let none = Legend::new(String::new(), vec![]);
    for scale in overhead.words.scales() {
        let size = room(overhead, scale);
        if ways(size, &none).is_none() {
            continue;
        }
        let drawing = draw(overhead, scale)?;
        let entries = if listed == Listed::Drawn { drawing.listed.clone() } else { vec![] };
        let list = Legend::new(list_title(overhead, &drawing), entries);
        if let Some(spots) = ways(size, &list) {
            return Some(spots.arranged(overhead, scale, drawing));
        }
    }
    None
}

fn list_title(overhead: &Overhead, drawing: &Drawing) -> String {
    overhead.words.word(match (drawing.listed.len(), overhead.plan.roof.openings.len()) {
        (_, 0) => "planes",
        (listed, openings) if listed == openings => "openings",
        _ => "planes and openings",
    })
}

/// Paper that the roof takes at a scale, with its marks and the scale bar, mm.
fn room(overhead: &Overhead, scale: Scale) -> [f64; 2] {
    let [width, height] = View::of(overhead, scale).size;
    [(width + 2.0 * AROUND).max(scale_bar::ROOM[0]), height + 2.0 * AROUND + scale_bar::ROOM[1]]
}

/// Where the parts of the sheet stand.
struct Spots {
    page: Page,
    drawing: Rect,
    north_at: Point,
    key: Legend,
    list: Option<Legend>,
}

impl Spots {
    /// The roof in the middle of its room, the scale bar under its left end.
    fn arranged(self, overhead: &Overhead, scale: Scale, drawing: Drawing) -> Arrangement {
        let [width, height] = View::of(overhead, scale).size;
        let [_, room_height] = room(overhead, scale);
        let left = self.drawing.left + (self.drawing.width - width) / 2.0;
        let top = self.drawing.top + (self.drawing.height - room_height) / 2.0 + AROUND;
        let bar_left = left.min(self.drawing.left + self.drawing.width - scale_bar::ROOM[0]);
        Arrangement {
            page: self.page,
            scale,
            drawing,
            drawing_at: [left, top],
            bar_at: [bar_left, top + height + AROUND + scale_bar::ROOM[1] - 2.0],
            north_at: self.north_at,
            key: self.key,
            list: self.list,
        }
    }
}

/// A paper and what of it lies between heading and notes.
struct Blank {
    page: Page,
    body: Rect,
}

impl Blank {
    fn of(overhead: &Overhead, page: Page) -> Self {
        let [width, height] = page.size();
        let top = MARGIN + heading::HEIGHT;
        let height = height - MARGIN - foot(overhead.plan) - top;
        Self { page, body: Rect { left: MARGIN, top, width: width - 2.0 * MARGIN, height } }
    }

    /// The roof at the left; north, key and list under each other at its right.
    fn beside(&self, size: [f64; 2], key: &Legend, list: &Legend) -> Option<Spots> {
        let Self { page, body } = *self;
        let rows = |legend: &Legend| legend.entries.len();
        let width = key.width(rows(key)).max(list.width(rows(list))).max(north::SIZE);
        let key_top = body.top + north::SIZE + BETWEEN / 2.0;
        let list_top = key_top + Legend::height(rows(key)) + BETWEEN;
        let bottom = if rows(list) == 0 { list_top - BETWEEN } else { list_top + Legend::height(rows(list)) };
        let drawing = Rect { width: body.width - width - BETWEEN, ..body };
        let fits = bottom <= body.top + body.height && size[0] <= drawing.width && size[1] <= drawing.height;
        let left = drawing.left + drawing.width + BETWEEN;
        fits.then(|| Spots {
            page,
            drawing,
            north_at: [left, body.top],
            key: key.clone().standing([left, key_top], rows(key)),
            list: standing(list, [left, list_top], rows(list)),
        })
    }

    /// The roof across the paper; key, list and north beside each other under it.
    fn below(&self, size: [f64; 2], key: &Legend, list: &Legend) -> Option<Spots> {
        let Self { page, body } = *self;
        let most = key.entries.len().max(list.entries.len());
        let list_width = |rows| if list.entries.is_empty() { 0.0 } else { list.width(rows) + BETWEEN };
        let wide = |rows: usize| key.width(rows) + BETWEEN + list_width(rows) + north::SIZE;
        let rows = (3..=most.max(3)).find(|&rows| wide(rows) <= body.width)?;
        let height = Legend::height(rows).max(north::SIZE);
        let drawing = Rect { height: body.height - height - BETWEEN, ..body };
        let fits = size[0] <= drawing.width && size[1] <= drawing.height;
        let top = drawing.top + drawing.height + BETWEEN;
        fits.then(|| Spots {
            page,
            drawing,
            north_at: [body.left + body.width - north::SIZE, top],
            key: key.clone().standing([body.left, top], rows),
            list: standing(list, [body.left + key.width(rows) + BETWEEN, top], rows),
        })
    }
}

fn standing(list: &Legend, at: Point, rows: usize) -> Option<Legend> {
    (!list.entries.is_empty()).then(|| list.clone().standing(at, rows))
}
