//! How outlines that are hard on a skeleton are traced: counts by kind of outline and by way. The argument is the number of
//! outlines of each kind. `docs/skeleton.md` keeps what it prints.

mod outlines;

use geom::polygon::{area, first_crossing, first_fold};
use geom::skeleton::{Contour, Stuck, Traced, skeleton};
use outlines::{Chance, KINDS, Make};

#[allow(clippy::print_stdout, reason = "it is what the program is for")]
fn main() {
    let each = std::env::args().nth(1).and_then(|each| each.parse().ok()).unwrap_or(1000);
    println!("| outlines | f64 | wide | coarse | never covered | unresolved |");
    println!("|---|---:|---:|---:|---:|---:|");
    for (seed, (kind, make)) in KINDS.into_iter().enumerate() {
        let counts = counts(make, seed, each).map(|count| count.to_string());
        println!("| {kind} | {} |", counts.join(" | "));
    }
}

/// How many outlines of one kind end in each column.
fn counts(make: Make, seed: usize, each: usize) -> [usize; 5] {
    let mut chance = Chance::new(seed as u64);
    let mut counts = [0; 5];
    for _ in 0..each {
        counts[column(&sound(make, &mut chance))] += 1;
    }
    counts
}

fn column(contours: &[Contour]) -> usize {
    match skeleton(contours, 0.0) {
        Ok(skeleton) => match skeleton.traced {
            Traced::Narrow => 0,
            Traced::Wide => 1,
            Traced::Coarse => 2,
        },
        Err(Stuck::NeverCovered(_)) => 3,
        Err(Stuck::Unresolved(_)) => 4,
    }
}

/// The next that crosses nothing and runs the right way round.
fn sound(make: Make, chance: &mut Chance) -> Vec<Contour> {
    loop {
        let contours = make(chance);
        let rings: Vec<_> = contours.iter().map(|contour| contour.corners.as_slice()).collect();
        if first_crossing(&rings).is_none() && rings.iter().all(|ring| first_fold(ring).is_none()) && area(rings[0]) > 0.0 {
            return contours;
        }
    }
}
