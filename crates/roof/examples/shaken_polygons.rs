//! How nearly regular polygons, as tapes and drawing programs give them, come out as whole roofs: counts by kind. The argument is
//! the number of roofs of each kind. `docs/skeleton.md` keeps what it prints.

use geom::{Point, polygon};
use roof::{Block, Built, Hole, OutlineAt, Severity, Side, SideKind, build, turret_outline};
use units::{Length, Pitch};

#[allow(clippy::print_stdout, reason = "it is what the program is for")]
fn main() {
    let each = std::env::args().nth(1).and_then(|each| each.parse().ok()).unwrap_or(1000);
    println!("| roofs | proven | no roof, with the reason | not proven |");
    println!("|---|---:|---:|---:|");
    for (seed, (kind, make)) in KINDS.into_iter().enumerate() {
        let [proven, refused, not_proven] = counts(make, seed, each);
        println!("| {kind} | {proven} | {refused} | {not_proven} |");
    }
}

/// How many roofs of one kind are proven, refused with a reason of their own, or fail their proof.
fn counts(make: Make, seed: usize, each: usize) -> [usize; 3] {
    let mut chance = Chance::new(seed as u64);
    let mut counts = [0; 3];
    for _ in 0..each {
        let blocks = make(&mut chance);
        let built = build(&blocks, 0.0);
        let mut errors =
            built.problems.iter().filter(|problem| problem.severity == Severity::Error).map(|problem| problem.code);
        counts[match errors.next() {
            None if covers(&built, &blocks) => 0,
            Some(code) if code != "roof-not-proven" => 1,
            _ => 2,
        }] += 1;
    }
    counts
}

/// A block alone at its drip line is covered to the last square inch; several hide parts of each other.
fn covers(built: &Built, blocks: &[Block]) -> bool {
    let [Block { outline_at: OutlineAt::DripLine, outline, holes, .. }] = blocks else { return true };
    let ground = polygon::area(outline).abs() - holes.iter().map(|hole| polygon::area(&hole.outline).abs()).sum::<f64>();
    (built.roof.plan_area.to_square_inches() - ground).abs() < 1.0
}

type Make = fn(&mut Chance) -> Vec<Block>;

const KINDS: [(&str, Make); 9] = [
    ("one pitch", |chance| {
        let outline = shaken(chance);
        vec![one_pitch(outline, chance)]
    }),
    ("one pitch, shaken by 1e-6 to 0.1 in", |chance| {
        let by = libm::pow(10.0, chance.between(-6.0, -1.0));
        let outline = shaken_by(by, &regular(chance, 60.0, 240.0), chance);
        vec![one_pitch(outline, chance)]
    }),
    ("one pitch, typed in 1/16 in", |chance| {
        let outline = typed(regular(chance, 60.0, 240.0));
        vec![one_pitch(outline, chance)]
    }),
    ("a pitch for each side", |chance| {
        let outline = shaken(chance);
        vec![pitches(outline, chance)]
    }),
    ("a pitch for each side, typed in 1/16 in", |chance| {
        let outline = typed(regular(chance, 60.0, 240.0));
        vec![pitches(outline, chance)]
    }),
    ("one pitch about a courtyard", |chance| {
        let outline = shaken(chance);
        let house = one_pitch(outline, chance);
        let hole = shaken_by(0.1, &regular(chance, 10.0, 40.0), chance);
        let sides = vec![house.sides[0].clone(); hole.len()];
        vec![Block { holes: vec![Hole { outline: hole, sides }], ..house }]
    }),
    ("the same, typed in 1/16 in", |chance| {
        let outline = typed(regular(chance, 60.0, 240.0));
        let house = one_pitch(outline, chance);
        let hole = typed(regular(chance, 10.0, 40.0));
        let sides = vec![house.sides[0].clone(); hole.len()];
        vec![Block { holes: vec![Hole { outline: hole, sides }], ..house }]
    }),
    ("walls with overhangs, typed in 1/16 in", |chance| {
        let outline = typed(regular(chance, 60.0, 240.0));
        let mut turret = one_pitch(outline, chance);
        for side in &mut turret.sides {
            side.overhang = Some(Length::inches(12.0));
        }
        vec![Block { outline_at: OutlineAt::Walls, ..turret }]
    }),
    ("turret in the slope of a house, typed in 1/16 in", |chance| {
        let outline = typed(regular(chance, 60.0, 120.0));
        let (east, north) = (chance.between(-60.0, 60.0), chance.between(-60.0, 60.0));
        let outline = outline.iter().map(|[x, y]| [x + east, y + north]).collect();
        let turret =
            Block { name: "turret".into(), eave_height: 108.0 + chance.between(0.0, 60.0), ..one_pitch(outline, chance) };
        let house = one_pitch(vec![[-300.0, 0.0], [300.0, 0.0], [300.0, 360.0], [-300.0, 360.0]], chance);
        vec![house, turret]
    }),
];

// Outlines, in inches.

fn regular(chance: &mut Chance, least: f64, most: f64) -> Vec<Point> {
    let (sides, across) = (chance.whole(6, 24), chance.between(least, most));
    turret_outline([0.0, 0.0], sides, across)
}

/// Every corner put off by up to 1/10 in each way.
fn shaken(chance: &mut Chance) -> Vec<Point> {
    shaken_by(0.1, &regular(chance, 60.0, 240.0), chance)
}

fn shaken_by(by: f64, outline: &[Point], chance: &mut Chance) -> Vec<Point> {
    outline.iter().map(|corner| corner.map(|value| value + chance.between(-by, by))).collect()
}

fn typed(outline: Vec<Point>) -> Vec<Point> {
    outline.into_iter().map(|corner| corner.map(|value| (value * 16.0).round() / 16.0)).collect()
}

// Blocks.

fn block(outline: Vec<Point>, sides: Vec<Side>) -> Block {
    let outline_at = OutlineAt::DripLine;
    Block { name: "house".into(), outline, outline_at, sides, holes: vec![], eave_height: 108.0 }
}

fn eave(rise: f64) -> Side {
    let pitch = Pitch::per_12(rise).unwrap_or_else(|_| unreachable!("every rise here is a pitch"));
    Side { overhang: Some(Length::inches(0.0)), ..Side::new(SideKind::Eave(pitch)) }
}

fn one_pitch(outline: Vec<Point>, chance: &mut Chance) -> Block {
    let sides = vec![eave(f64::from(chance.whole(4, 18))); outline.len()];
    block(outline, sides)
}

fn pitches(outline: Vec<Point>, chance: &mut Chance) -> Block {
    let sides = outline.iter().map(|_| eave(f64::from(chance.whole(4, 18)))).collect();
    block(outline, sides)
}

/// Numbers that look random and are the same everywhere.
struct Chance(u64);

impl Chance {
    /// A sequence of its own for each seed.
    fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ 0x2545_f491_4f6c_dd1d)
    }

    fn bits(&mut self) -> u64 {
        // SplitMix64: Steele, Lea and Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014.
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.bits() >> 11) as f64 / (1u64 << 53) as f64
    }

    fn whole(&mut self, low: u32, high: u32) -> u32 {
        low + (self.bits() % u64::from(high - low + 1)) as u32
    }
}
