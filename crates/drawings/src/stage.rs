//! The stage map: where on the roof units are set down, how many, and in which order.

use plan::{Pile, Plan};

use crate::clear::{Taken, boxed};
use crate::lettering::{LINE, SMALL, centred, centred_strong, fitted, small, wrap};
use crate::listing::{Listing, scenes};
use crate::page::MARGIN;
use crate::roof_plan::{Overhead, View, line_of};
use crate::setting_out::surface_name;
use crate::surface::Surface;
use crate::title_block::{self, ROW};
use crate::{Anchor, English, Figure, Fill, Item, LineType, Page, Point, Scale, Scene, Words, heading, scale_bar};

/// The box of a pile, mm: its number over its units.
const BOX: [f64; 2] = [11.0, 7.4];
/// Round the roof, mm.
const AROUND: f64 = 5.0;

/// The map, and the list of the piles on as many papers as it takes; none where nothing is staged.
#[must_use]
pub fn stage(plan: &Plan) -> Vec<Scene> {
    let Some(overhead) = Overhead::of(plan, &English).filter(|_| !plan.loads.piles.is_empty()) else { return Vec::new() };
    let map = spot(&overhead).map(|spot| draw(&overhead, &spot));
    map.into_iter().chain(scenes(&[list(plan)], &plan.name, "Stage list")).collect()
}

/// Draws the map alone, as large as the room allows: width and height in mm. `None` if nothing is staged, if there is no room, or, where
/// `crowded` is not allowed, if the box of one pile would lie over another's.
#[must_use]
pub fn stage_figure(plan: &Plan, within: [f64; 2], crowded: bool, words: &dyn Words) -> Option<Figure> {
    let overhead = Overhead::of(plan, words).filter(|_| !plan.loads.piles.is_empty())?;
    let around = |scale: Scale| View::of(&overhead, scale).size.map(|long| long + 2.0 * AROUND + BOX[1]);
    let fits = |scale: &Scale| {
        let [width, height] = around(*scale);
        width.max(scale_bar::ROOM[0]) <= within[0] && height + scale_bar::ROOM[1] <= within[1]
    };
    let scale = words.scales().into_iter().find(fits)?;
    if !crowded && !is_clear(&overhead, scale) {
        return None;
    }
    let [width, height] = around(scale);
    let margin = AROUND + BOX[1] / 2.0;
    let mut items: Vec<Item> =
        map(&overhead, &View::of(&overhead, scale)).map(|item| item.shifted([margin, margin])).collect();
    items.extend(scale_bar::draw(scale, [margin, height + scale_bar::ROOM[1] - 2.0], words));
    let page = Page::of_figure([width.max(scale_bar::ROOM[0]), height + scale_bar::ROOM[1]]);
    let (title, description) = (plan.name.clone(), plan.name.clone());
    Some(Figure { scene: Scene { page, title, description, items }, scale, keyed: Vec::new() })
}

/// Lines of the roof and piles.
fn map<'a>(overhead: &'a Overhead, view: &View) -> impl Iterator<Item = Item> + use<'a> {
    let lines = overhead.stretches.iter().filter_map(|stretch| {
        let points = stretch.ends.map(|end| view.point(end)).to_vec();
        Some(Item::Line { points, line: line_of(stretch)? })
    });
    let lines: Vec<Item> = lines.collect();
    let piles = middles(overhead, view);
    let boxes = apart(&piles);
    let patches: Vec<Item> = piles.iter().filter_map(|&(pile, _)| draw_patch(overhead, view, pile)).collect();
    let is_off = |from: Point, to: Point| libm::hypot(to[0] - from[0], to[1] - from[1]) > BOX[1] / 2.0;
    let moved = piles.iter().zip(&boxes).filter(|((_, from), to)| is_off(*from, **to));
    let leaders: Vec<Item> =
        moved.map(|(&(_, from), &to)| Item::Line { points: vec![from, to], line: LineType::Piece }).collect();
    let numbered = piles.into_iter().zip(boxes).flat_map(|((pile, _), at)| draw_pile(pile, at));
    lines.into_iter().chain(patches).chain(leaders).chain(numbered)
}

/// A paper and a scale.
struct Spot {
    page: Page,
    scale: Scale,
}

/// The smallest paper on which no pile's box lies over another; failing that, a large one that a copy shop has.
fn spot(overhead: &Overhead) -> Option<Spot> {
    let clear = spots(overhead).take(8).find(|spot| is_clear(overhead, spot.scale));
    clear.or_else(|| spots(overhead).nth(5)).or_else(|| spots(overhead).next())
}

/// Papers, lying and upright, each with the largest scale at which the roof finds room.
fn spots(overhead: &Overhead) -> impl Iterator<Item = Spot> {
    let spot = move |page: Page| {
        let scale = Scale::series().find(|&scale| fits(overhead, page, scale))?;
        Some(Spot { page, scale })
    };
    Page::series().flat_map(|page| [page, page.turned()]).filter_map(spot)
}

fn fits(overhead: &Overhead, page: Page, scale: Scale) -> bool {
    let [width, height] = View::of(overhead, scale).size.map(|long| long + 2.0 * AROUND);
    let [room_width, room_height] = room(overhead.plan, page);
    width <= room_width && height <= room_height
}

/// Between heading and foot, mm.
fn room(plan: &Plan, page: Page) -> [f64; 2] {
    let [width, height] = page.size();
    [width - 2.0 * MARGIN, height - 2.0 * MARGIN - heading::HEIGHT - foot(plan, page)]
}

/// Scale bar, notes and title block with the space over them, mm.
fn foot(plan: &Plan, page: Page) -> f64 {
    scale_bar::ROOM[1] + LINE * notes(plan, page).len() as f64 + 6.0 + 2.0 * ROW
}

fn is_clear(overhead: &Overhead, scale: Scale) -> bool {
    let mut taken = Taken::default();
    middles(overhead, &View::of(overhead, scale)).iter().all(|&(_, middle)| {
        let corners = boxed(middle, BOX, 0.0);
        let clear = taken.is_clear(&corners);
        taken.add(&corners);
        clear
    })
}

/// Every pile with its middle on the paper.
fn middles<'a>(overhead: &'a Overhead, view: &View) -> Vec<(&'a Pile, Point)> {
    let surface = |id: &str| overhead.surfaces.iter().find(|surface: &&Surface| surface.plane.id == id);
    let piles = overhead.plan.loads.piles.iter();
    piles.filter_map(|pile| Some((pile, view.point(surface(&pile.plane)?.place(pile.at_in))))).collect()
}

/// A box is moved no further off its pile, steps of 1 mm.
const FURTHEST: i32 = 14;

/// Middles of the boxes, those that would lie over one another moved apart as little as it takes; one that finds no clear place
/// stays.
fn apart(piles: &[(&Pile, Point)]) -> Vec<Point> {
    let mut taken = Taken::default();
    let mut place = |[x, y]: Point| {
        let mut moved = steps().map(|[right, down]| [x + f64::from(right), y + f64::from(down)]);
        let at = moved.find(|&at| taken.is_clear(&boxed(at, BOX, 0.0))).unwrap_or([x, y]);
        taken.add(&boxed(at, BOX, 0.0));
        at
    };
    piles.iter().map(|&(_, middle)| place(middle)).collect()
}

/// Steps to the right and down, the shortest first.
fn steps() -> impl Iterator<Item = [i32; 2]> {
    let across = || -FURTHEST..=FURTHEST;
    let mut all: Vec<[i32; 2]> = across().flat_map(|down| across().map(move |right| [right, down])).collect();
    all.sort_by_key(|[right, down]| right * right + down * down);
    all.retain(|[right, down]| right * right + down * down <= FURTHEST * FURTHEST);
    all.into_iter()
}

fn draw(overhead: &Overhead, spot: &Spot) -> Scene {
    let (plan, page) = (overhead.plan, spot.page);
    let view = View::of(overhead, spot.scale);
    let [room_width, room_height] = room(plan, page);
    let left = MARGIN + (room_width - view.size[0]) / 2.0;
    let top = MARGIN + heading::HEIGHT + (room_height - view.size[1]) / 2.0;
    let mut items = heading::draw(page, &plan.name, "Stage map");
    items.extend(map(overhead, &view).map(|item| item.shifted([left, top])));
    items.extend(scale_bar::draw(
        spot.scale,
        [MARGIN, MARGIN + heading::HEIGHT + room_height + scale_bar::ROOM[1] - 2.0],
        overhead.words,
    ));
    items.extend(draw_notes(plan, page));
    items.extend(title_block::draw(
        page,
        &title_block::of_whole_roof(plan, "Stage map", ("Piles", plan.loads.piles.len()), spot.scale, spot.page),
    ));
    let description = format!("The roof seen from above at {}, with {} piles of units.", spot.scale, plan.loads.piles.len());
    Scene { page, title: format!("Stage map: {}", plan.name), description, items }
}

/// The patch of deck under it, to scale.
fn draw_patch(overhead: &Overhead, view: &View, pile: &Pile) -> Option<Item> {
    let surface = overhead.surfaces.iter().find(|surface| surface.plane.id == pile.plane)?;
    let [half_u, half_v] = pile.patch_in.map(|side| side / 2.0);
    let corners = [[-half_u, -half_v], [half_u, -half_v], [half_u, half_v], [-half_u, half_v]];
    let mut points = corners.map(|[u, v]| view.point(surface.place([pile.at_in[0] + u, pile.at_in[1] + v]))).to_vec();
    points.push(points[0]);
    Some(Item::Line { points, line: LineType::Piece })
}

/// Its number, and under it the units that are set down at once; more than once, how often.
fn draw_pile(pile: &Pile, middle: Point) -> [Item; 3] {
    let [half_width, half_height] = BOX.map(|long| long / 2.0 - 0.3);
    let ring = boxed(middle, [2.0 * half_width, 2.0 * half_height], 0.0).to_vec();
    let times = if pile.times > 1 { format!("{}×{}", pile.times, pile.at_once) } else { pile.at_once.to_string() };
    [
        Item::Shape { rings: vec![ring], line: LineType::Piece, fill: Fill::Paper },
        centred_strong([middle[0], middle[1] - 1.65], 0.0, pile.number.to_string()),
        centred([middle[0], middle[1] + 1.65], 0.0, fitted(&times, SMALL, BOX[0] - 1.0)),
    ]
}

/// From the lowest line up.
fn notes(plan: &Plan, page: Page) -> Vec<String> {
    let [width, _] = page.size();
    let how = "In each box: the number of the pile, in the order in which piles are set down, and its units; 2×40 is 40 now and \
               as many again when they are laid. The thin outline is the patch of deck over which boards spread it.";
    let sentences = [how].into_iter().chain(plan.loads.cautions.iter().map(String::as_str));
    let mut lines: Vec<String> = sentences.flat_map(|words| wrap(words, SMALL, width - 2.0 * MARGIN)).collect();
    lines.reverse();
    lines
}

fn draw_notes(plan: &Plan, page: Page) -> Vec<Item> {
    let [_, height] = page.size();
    let line = |(index, words): (usize, String)| {
        small([MARGIN, height - MARGIN - 2.0 * ROW - 3.5 - LINE * index as f64], Anchor::Start, words)
    };
    notes(plan, page).into_iter().enumerate().map(line).collect()
}

fn list(plan: &Plan) -> Listing {
    Listing {
        title: "Piles in the order in which they are set down",
        headings: vec!["Pile", "Plane", "Courses", "Units", "At once", "Times", "lb", "psf"],
        rows: plan.loads.piles.iter().map(|pile| row(plan, pile)).collect(),
        summary: format!("{} piles", plan.loads.piles.len()),
    }
}

fn row(plan: &Plan, pile: &Pile) -> Vec<String> {
    let [first, last] = pile.courses.map(|course| course + 1);
    let courses = if first == last { first.to_string() } else { format!("{first}-{last}") };
    vec![
        pile.number.to_string(),
        surface_name(plan, &pile.plane),
        courses,
        pile.units.to_string(),
        pile.at_once.to_string(),
        pile.times.to_string(),
        format!("{:.0}", pile.weight_lb),
        format!("{:.1}", pile.patch_psf),
    ]
}
