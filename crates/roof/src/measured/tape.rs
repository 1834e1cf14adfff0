//! A plane from its tapes.

use geom::{Point, distance};

use super::quadrilateral::{
    DIAGONAL_LEFT, DIAGONAL_RIGHT, EAVE, KEYS, LEFT, RIGHT, TOP, Tapes, apex, corners, needed, spread, unreached,
};
use super::{Corner, Desk, EdgeName, Face, Tape, told};
use crate::problem::MeasuredPart;
use crate::{EdgeKind, Frame, KnownBy};

/// Tapes that miss each other by no more are as good as tapes get on a roof; more is a slip that somebody must find.
const SPREAD: f64 = 0.5;
/// Six tapes read to sixteenths miss each other by about as much without anybody's fault.
const READING: f64 = 1.0 / 8.0;
/// A slip of a whole foot is told from chance if what is left is less.
const SLIP: f64 = 0.25;
/// An eave and a top that differ by less cannot tell how far the top stands to one side: the tapes are not that good.
const TELLING: f64 = 12.0;
/// A top out of level by more than this is worth a word.
const OUT_OF_LEVEL: f64 = 0.25;

/// The plane with its corners on the slope, the eave's left end at the origin of everything.
pub(super) fn face(desk: &mut Desk, tape: &Tape, north_deg: f64) -> Option<Face> {
    let places = if tape.top > 0.0 { four(desk, tape)? } else { three(desk, tape)? };
    desk.very_steep(tape.pitch, MeasuredPart::Key("pitch"));
    let facing_deg = tape.facing_deg.unwrap_or(180.0);
    let frame = Frame { origin: [0.0; 3], right: right(facing_deg + north_deg), pitch: tape.pitch };
    let plane = desk.bare_plane(frame, facing_deg.rem_euclid(360.0), KnownBy::Tape);
    let names = [EdgeName::Eave, EdgeName::Right, EdgeName::Top, EdgeName::Left];
    let names = names.into_iter().filter(|&name| places.len() > 3 || name != EdgeName::Top);
    let corner = |(&at, name): (&Point, EdgeName)| {
        let kind = desk.plane.kinds.get(&name).copied().unwrap_or(by_custom(name));
        Corner { at, measured: frame.point(at), name: Some(name), kind: Some(kind) }
    };
    let ring = places.iter().zip(names).map(corner).collect();
    Some(Face { of: desk.index, plane, rings: vec![ring] })
}

/// What an edge is where nothing is told.
pub(super) fn by_custom(name: EdgeName) -> EdgeKind {
    match name {
        EdgeName::Top => EdgeKind::Ridge,
        EdgeName::Left | EdgeName::Right => EdgeKind::Rake,
        EdgeName::Eave | EdgeName::From(_) => EdgeKind::Eave,
    }
}

/// Unit vector in plan along the eave of a plane that sheds its water towards `bearing`, degrees clockwise from +y.
fn right(bearing: f64) -> Point {
    let quarters = (bearing / 90.0).round();
    let (sin, cos) =
        (libm::sin((bearing - quarters * 90.0).to_radians()), libm::cos((bearing - quarters * 90.0).to_radians()));
    // Turning by whole quarters apart keeps planes that face south exactly along x.
    match quarters.rem_euclid(4.0) as u8 {
        0 => [-cos, sin],
        1 => [sin, cos],
        2 => [cos, -sin],
        _ => [-sin, -cos],
    }
}

fn three(desk: &mut Desk, tape: &Tape) -> Option<Vec<Point>> {
    let tapes = [tape.eave, tape.right_rake, 0.0, tape.left_rake, 0.0, 0.0];
    let found = apex(tape.eave, tape.left_rake, tape.right_rake).map(|top| vec![[0.0; 2], [tape.eave, 0.0], top]);
    if found.is_none() {
        does_not_reach(desk, &tapes, [EAVE, LEFT, RIGHT], "");
    }
    found
}

fn four(desk: &mut Desk, tape: &Tape) -> Option<Vec<Point>> {
    let sides = [tape.eave, tape.right_rake, tape.top, tape.left_rake, 0.0, 0.0];
    let places = match (tape.diagonal_left, tape.diagonal_right) {
        (Some(left), Some(right)) => both_diagonals(desk, &with(with(sides, DIAGONAL_LEFT, left), DIAGONAL_RIGHT, right)),
        (Some(left), None) => one_diagonal(desk, &with(sides, DIAGONAL_LEFT, left), DIAGONAL_RIGHT),
        (None, Some(right)) => one_diagonal(desk, &with(sides, DIAGONAL_RIGHT, right), DIAGONAL_LEFT),
        (None, None) => no_diagonal(desk, &sides, tape.left_offset),
    }?;
    out_of_square(desk, &places);
    Some(places.to_vec())
}

fn with(mut tapes: Tapes, at: usize, tape: f64) -> Tapes {
    tapes[at] = tape;
    tapes
}

/// The two triangles on a diagonal.
fn triangles(diagonal: usize) -> [[usize; 3]; 2] {
    if diagonal == DIAGONAL_LEFT {
        [[EAVE, RIGHT, diagonal], [TOP, LEFT, diagonal]]
    } else {
        [[EAVE, LEFT, diagonal], [TOP, RIGHT, diagonal]]
    }
}

fn reaches(desk: &mut Desk, tapes: &Tapes, diagonal: usize) -> Option<()> {
    let fails = triangles(diagonal).into_iter().find(|&triangle| unreached(tapes, triangle).is_some());
    fails.is_none_or(|triangle| does_not_reach(desk, tapes, triangle, "")).then_some(())
}

/// Says which two tapes do not reach over the third; false.
fn does_not_reach(desk: &mut Desk, tapes: &Tapes, triangle: [usize; 3], given: &str) -> bool {
    if let Some([longest, b, c]) = unreached(tapes, triangle) {
        let [one, two, over] = [b, c, longest].map(|at| format!("{} {}", KEYS[at], told(tapes[at])));
        let says = format!("closes no triangle{given}: {one} and {two} together do not reach over {over}");
        let at = MeasuredPart::Key(KEYS[longest]);
        desk.error("tapes-do-not-reach", at, &says, "tape these three again; a slip of a whole foot is the commonest");
    }
    false
}

fn one_diagonal(desk: &mut Desk, tapes: &Tapes, missing: usize) -> Option<[Point; 4]> {
    let given = if missing == DIAGONAL_LEFT { DIAGONAL_RIGHT } else { DIAGONAL_LEFT };
    reaches(desk, tapes, given)?;
    let found = needed(tapes, missing).and_then(|tape| corners(&with(*tapes, missing, tape)));
    if found.is_none() {
        turns_inwards(desk, given);
    }
    found
}

fn turns_inwards(desk: &mut Desk, given: usize) {
    let says = "gets a corner that turns inwards from these tapes";
    let remedy = "tape the sides and the diagonal again, or give such a plane by its corners";
    desk.error("tapes-turn-inwards", MeasuredPart::Key(KEYS[given]), says, remedy);
}

fn both_diagonals(desk: &mut Desk, tapes: &Tapes) -> Option<[Point; 4]> {
    reaches(desk, tapes, DIAGONAL_LEFT)?;
    reaches(desk, tapes, DIAGONAL_RIGHT)?;
    one_diagonal(desk, tapes, DIAGONAL_RIGHT)?;
    let asked = Asked::of(tapes);
    let miss = asked.least()?;
    if miss.off().abs() > SPREAD {
        disagree(desk, &asked);
        return None;
    }
    let fitted = spread(tapes).and_then(|fitted| Some((fitted, corners(&fitted)?)));
    let Some((fitted, corners)) = fitted else {
        turns_inwards(desk, DIAGONAL_RIGHT);
        return None;
    };
    if miss.off().abs() > READING {
        say_spread(desk, tapes, &fitted, miss);
    }
    Some(corners)
}

/// A tape, and what the other five ask for in its place.
#[derive(Debug, Clone, Copy)]
struct Ask {
    tape: usize,
    is: f64,
    should: f64,
}

impl Ask {
    fn off(&self) -> f64 {
        self.should - self.is
    }

    /// How far the change is from whole feet.
    fn off_whole_feet(&self) -> f64 {
        let feet = self.off() / 12.0;
        (feet - feet.round()).abs() * 12.0
    }

    fn says(&self) -> String {
        format!("{} is {}, and the other five tapes ask for {}", KEYS[self.tape], told(self.is), told(self.should))
    }
}

struct Asked(Vec<Ask>);

impl Asked {
    fn of(tapes: &Tapes) -> Self {
        let ask = |tape: usize| Some(Ask { tape, is: tapes[tape], should: needed(tapes, tape)? });
        Self((0..6).filter_map(ask).collect())
    }

    /// The tape that would have to change least. By how much is the miss of the six.
    fn least(&self) -> Option<Ask> {
        self.0.iter().copied().min_by(|a, b| a.off().abs().total_cmp(&b.off().abs()))
    }

    /// One tape too many tells that one is wrong but not which. A slip is mostly a whole foot, so the tape that whole feet
    /// mend is named; else the one that the least change mends.
    fn suspect(&self) -> Option<Ask> {
        let slips = self.0.iter().copied().filter(|ask| ask.off().abs() > 6.0 && ask.off_whole_feet() < SLIP);
        slips.min_by(|a, b| a.off_whole_feet().total_cmp(&b.off_whole_feet())).or_else(|| self.least())
    }
}

fn say_spread(desk: &mut Desk, tapes: &Tapes, fitted: &Tapes, miss: Ask) {
    let most = tapes.iter().zip(fitted).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
    let says = format!(
        "is taped once more than it needs, and the tapes miss by {}: {}; the miss is spread over all six, {} at most",
        told(miss.off().abs()),
        miss.says(),
        told(most)
    );
    let remedy = "nothing, if that is as near as the roof can be taped";
    desk.caution("tapes-miss", MeasuredPart::Key(KEYS[miss.tape]), &says, remedy);
}

fn disagree(desk: &mut Desk, asked: &Asked) {
    let Some(suspect) = asked.suspect() else { return };
    let says = format!(
        "cannot close with both diagonals: {}, {} {}",
        suspect.says(),
        told(suspect.off().abs()),
        if suspect.off() > 0.0 { "more" } else { "less" },
    );
    let others = asked.0.iter().filter(|ask| ask.tape != suspect.tape);
    let others: Vec<String> = others.map(|ask| format!("{} {}", KEYS[ask.tape], told(ask.should))).collect();
    let remedy = format!("tape it again; if it is right, one of these would mend it alone: {}", others.join(", "));
    desk.error("tapes-disagree", MeasuredPart::Key(KEYS[suspect.tape]), &says, remedy);
}

/// Four sides alone leave the figure loose like a gate without a brace; the rule that holds it is said.
fn no_diagonal(desk: &mut Desk, sides: &Tapes, left_offset: Option<f64>) -> Option<[Point; 4]> {
    let difference = sides[EAVE] - sides[TOP];
    let (offset, taken) = match left_offset {
        Some(offset) => (offset, None),
        None if difference.abs() < TELLING => (0.0, Some("standing square on the left end of its eave")),
        None => (level_top(desk, sides, difference)?, Some("having a top level with its eave")),
    };
    let up = (sides[LEFT] - offset) * (sides[LEFT] + offset);
    if up <= 0.0 {
        let says = format!("has a left_offset of {} and a left_rake of only {}", told(offset), told(sides[LEFT]));
        desk.error("tapes-do-not-reach", MeasuredPart::Key("left_offset"), &says, "the rake is longer than its offset");
        return None;
    }
    let right = distance([sides[EAVE], 0.0], [offset, up.sqrt()]);
    let found = one_diagonal(desk, &with(*sides, DIAGONAL_RIGHT, right), DIAGONAL_LEFT)?;
    if let Some(taken) = taken {
        let says = format!("has no diagonal, so it is taken as {taken}");
        let [a, b, c, d] = found;
        let remedy = format!(
            "tape both; if so, diagonal_left is {} and diagonal_right {}",
            told(distance(a, c)),
            told(distance(b, d))
        );
        desk.caution("no-diagonal", MeasuredPart::Key(KEYS[EAVE]), &says, remedy);
    }
    Some(found)
}

/// How far the upper left corner stands along the eave if the top is level: the rakes close a triangle on what the eave is
/// longer than the top.
fn level_top(desk: &mut Desk, sides: &Tapes, difference: f64) -> Option<f64> {
    let closed = apex(difference, sides[LEFT], sides[RIGHT]).map(|[offset, _]| offset);
    if closed.is_none() {
        let says = format!(
            "has no diagonal, and with a top level with its eave left_rake {}, right_rake {} and the {} between eave and top \
             close no triangle",
            told(sides[LEFT]),
            told(sides[RIGHT]),
            told(difference.abs())
        );
        desk.error("tapes-do-not-reach", MeasuredPart::Key(KEYS[LEFT]), &says, "tape a diagonal, or check these figures");
    }
    closed
}

fn out_of_square(desk: &mut Desk, [_, _, [_, right], [_, left]]: &[Point; 4]) {
    if (right - left).abs() > OUT_OF_LEVEL {
        let says = format!(
            "is out of square: its top stands {} above the eave at the left and {} at the right",
            told(*left),
            told(*right)
        );
        let remedy = "courses are laid parallel to the eave and run out at the top; shift them by hand if that would show";
        desk.caution("out-of-square", MeasuredPart::Key(KEYS[TOP]), &says, remedy);
    }
}
