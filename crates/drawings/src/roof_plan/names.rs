use super::fall::Arrow;
use super::label::{Label, pitch};
use super::legend::{Entry, Sign};
use super::opening::Opening;
use super::region::{Region, distance};
use super::view::direction;
use crate::clear::Taken;
use crate::lettering::letter;
use crate::{Fill, Item, LineType, Point};

/// Lengths of fall arrows, the first that fits is drawn, mm.
const ARROWS: [f64; 3] = [10.0, 7.0, 5.0];

/// Names, pitches and fall arrows of all planes, and the numbers of openings.
#[derive(Default)]
pub(crate) struct Names {
    pub(crate) items: Vec<Item>,
    /// Planes that are too small for their name, by their letter; then openings by number.
    pub(crate) listed: Vec<Entry>,
}

/// What the names have to keep clear of; they add themselves.
pub(crate) struct Paper {
    /// Lines of the roof.
    pub(crate) lines: Taken,
    /// Lettering, arrows and marks.
    pub(crate) words: Taken,
    /// Left, top, right, bottom of what may be written on.
    pub(crate) bounds: [f64; 4],
}

impl Paper {
    /// Blank, from so far left of and above the origin to `end`.
    pub(crate) fn new([right, bottom]: Point, before: f64) -> Self {
        Self { lines: Taken::default(), words: Taken::default(), bounds: [-before, -before, right, bottom] }
    }
}

/// Writes a number at each opening, and each plane's name on it; where that does not fit, a letter, at worst beside the roof. `None`
/// if there is no room even for that.
pub(crate) fn place(regions: &[Region], openings: &[Opening], paper: &mut Paper) -> Option<Names> {
    let mut names = Names::default();
    let numbers = openings.iter().enumerate().map(|(index, opening)| names.number(index + 1, opening, paper));
    let numbered = numbers.collect::<Option<Vec<Entry>>>()?;
    let small: Vec<&Region> = regions.iter().filter(|region| !names.name(region, paper)).collect();
    for region in small {
        names.list(region, paper)?;
    }
    names.listed.extend(numbered);
    Some(names)
}

impl Names {
    /// Whether the plane has room for its name.
    fn name(&mut self, region: &Region, paper: &mut Paper) -> bool {
        if region.under.is_some() {
            return false;
        }
        let found = Label::ways(region.surface.plane).into_iter().find_map(|label| on_plane(region, paper, label));
        found.map(|found| self.keep(found, paper)).is_some()
    }

    fn list(&mut self, region: &Region, paper: &mut Paper) -> Option<()> {
        let name = letter(self.listed.len()).to_uppercase();
        let label = Label::letter(&name);
        let found = on_plane(region, paper, label.clone())
            .or_else(|| without_arrow(region, paper, &label))
            .or_else(|| beside(region.middle, 0.0, paper, &label))?;
        let words = words(region, found.arrow.is_some());
        self.listed.push(Entry { sign: Sign::Letter(name), words });
        self.keep(found, paper);
        Some(())
    }

    fn number(&mut self, number: usize, opening: &Opening, paper: &mut Paper) -> Option<Entry> {
        let name = number.to_string();
        let found = beside(opening.middle(), opening.reach(), paper, &Label::letter(&name))?;
        self.keep(found, paper);
        Some(Entry { sign: Sign::Letter(name), words: opening.name.to_owned() })
    }

    fn keep(&mut self, found: Found, paper: &mut Paper) {
        paper.words.add(&found.label.room(found.at));
        self.items.extend(found.label.draw(found.at));
        if let Some(arrow) = found.arrow {
            paper.words.add(&arrow.room());
            self.items.extend(arrow.draw());
        }
        if let Some(ends) = found.leader {
            paper.words.add(&ends);
            self.items.extend(leader(ends));
        }
    }
}

/// What a letter stands for.
fn words(region: &Region, has_arrow: bool) -> String {
    let plane = region.surface.plane;
    let word = |name: &str| region.words.word(name);
    let fall = if has_arrow { String::new() } else { format!(", {} {}", word("falls"), word(wind(plane.facing_deg))) };
    let under = region.under.as_ref().map_or_else(String::new, |over| format!(", {} {over}", word("under")));
    format!("{}, {}{fall}{under}", plane.name, pitch(plane))
}

fn wind(degrees: f64) -> &'static str {
    const WINDS: [&str; 8] = ["north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest"];
    WINDS[(degrees.rem_euclid(360.0) / 45.0).round() as usize % 8]
}

/// A label with a place for it.
struct Found {
    label: Label,
    at: Point,
    arrow: Option<Arrow>,
    /// From the plane to the label.
    leader: Option<[Point; 2]>,
}

/// The label on its plane with its fall arrow beside it, both about the middle; the longest arrow that finds room.
fn on_plane(region: &Region, paper: &Paper, label: Label) -> Option<Found> {
    let taken = near(region, paper);
    let places = region.clear(&taken, |at| label.room(at));
    let (at, arrow) = ARROWS.into_iter().find_map(|length| with_arrow(region, &taken, &label, &places, length))?;
    Some(Found { label, at, arrow: Some(arrow), leader: None })
}

/// Sides of a label at which the arrow may stand, after the side down the slope; each is worse than the one before by as much, mm.
const SIDES: [Point; 4] = [[0.0, 1.0], [0.0, -1.0], [1.0, 0.0], [-1.0, 0.0]];
const WORSE: f64 = 2.0;

/// Of the places for a label the one that, with an arrow at its side, stands nearest to the middle of the plane.
fn with_arrow(region: &Region, taken: &Taken, label: &Label, places: &[Point], length: f64) -> Option<(Point, Arrow)> {
    let along = direction(region.surface.fall);
    let found = [along].into_iter().chain(SIDES).enumerate().filter_map(|(rank, side)| {
        let far = label.reach(side) + Arrow { middle: [0.0; 2], along, length }.reach(side) + 0.01;
        let arrow = |at: Point| Arrow { middle: [at[0] + side[0] * far, at[1] + side[1] * far], along, length };
        let both = |at: Point| [at[0] + side[0] * far / 2.0, at[1] + side[1] * far / 2.0];
        let fits = |at: &Point| region.shows(arrow(*at).middle) && taken.is_clear(&arrow(*at).room());
        let off = |at: Point| distance(both(at), region.middle);
        let best = places.iter().copied().filter(fits).min_by(|a, b| off(*a).total_cmp(&off(*b)))?;
        Some((off(best) + WORSE * rank as f64, best, arrow(best)))
    });
    found.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, at, arrow)| (at, arrow))
}

fn without_arrow(region: &Region, paper: &Paper, label: &Label) -> Option<Found> {
    let places = region.clear(&near(region, paper), |at| label.room(at));
    let off = |at: &Point| distance(*at, region.middle);
    let at = places.into_iter().min_by(|a, b| off(a).total_cmp(&off(b)))?;
    Some(Found { label: label.clone(), at, arrow: None, leader: None })
}

/// What is taken on and about a plane.
fn near(region: &Region, paper: &Paper) -> Taken {
    let mut taken = paper.lines.within(region.bounds());
    taken.join(paper.words.within(region.bounds()));
    taken
}

/// Labels further than this from what they are about have a leader, mm.
const LEADERLESS: f64 = 4.5;

/// The label about a place, off all that reaches so far around it, with a leader if need be.
fn beside(from: Point, reach: f64, paper: &Paper, label: &Label) -> Option<Found> {
    let around =
        (4..60).flat_map(|radius| (0..24).map(move |step| (f64::from(radius), f64::from(step) * 15.0_f64.to_radians())));
    let places = around
        .map(|(radius, turn)| [from[0] + (reach + radius) * libm::cos(turn), from[1] - (reach + radius) * libm::sin(turn)]);
    let fits = |at: &Point| {
        let room = label.room(*at);
        let [left, top, right, bottom] = paper.bounds;
        let inside = room.iter().all(|[x, y]| left <= *x && *x <= right && top <= *y && *y <= bottom);
        inside && paper.lines.is_clear(&room) && paper.words.is_clear(&room) && paper.words.is_clear(&[from, *at])
    };
    let at = { places }.find(fits)?;
    let long = distance(from, at);
    let end = [0, 1].map(|axis| at[axis] + (from[axis] - at[axis]) / long * 2.4);
    let leader = (reach <= 0.0 || long > reach + LEADERLESS).then_some([from, end]);
    Some(Found { label: label.clone(), at, arrow: None, leader })
}

/// A narrow line that ends on the plane in a dot.
fn leader([from, to]: [Point; 2]) -> [Item; 2] {
    let dot = (0..12).map(|step| f64::from(step) * std::f64::consts::TAU / 12.0);
    let dot = dot.map(|turn| [from[0] + 0.5 * libm::cos(turn), from[1] + 0.5 * libm::sin(turn)]).collect();
    [
        Item::Line { points: vec![from, to], line: LineType::Piece },
        Item::Shape { rings: vec![dot], line: LineType::Unseen, fill: Fill::Ink },
    ]
}
