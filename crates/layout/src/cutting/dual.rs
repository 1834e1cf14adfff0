//! A price for every piece, such that no unit gives pieces of more than one unit's price: all pieces' prices together
//! are then a lower bound on the units.

use microlp::{ComparisonOp, OptimizationDirection, Problem, Variable};

use super::search::{ONE, Search};
use super::table::Table;

/// Rounds of finding sets that cost too much.
const ROUNDS: usize = 24;
/// Sets looked at in each search for one that costs too much, at first and when none was found; and for the proof.
const NODES: [u64; 3] = [40, 160, 4_000];

/// Prices of the kinds, [`ONE`] for a unit. They are a guess to be proved by [`proven`], and a guide for filling units.
pub(crate) fn prices(table: &Table, seeds: &[Vec<usize>]) -> Option<Vec<u64>> {
    let social: Vec<usize> = (0..table.kinds.len()).filter(|&kind| !table.mates[kind].is_empty()).collect();
    if !table.complete {
        return None;
    }
    let mut prices = vec![ONE; table.kinds.len()];
    let mut sets: Vec<Vec<usize>> = seeds.iter().filter(|set| set.len() > 1).cloned().collect();
    for _ in 0..ROUNDS {
        let solved = solve(table, &social, &sets)?;
        for (&kind, price) in social.iter().zip(solved) {
            prices[kind] = (price.clamp(0.0, 1.0) * ONE as f64) as u64;
        }
        let mut dear = too_dear(table, &social, &prices, NODES[0]);
        if dear.is_empty() {
            dear = too_dear(table, &social, &prices, NODES[1]);
        }
        if dear.is_empty() {
            break;
        }
        sets.extend(dear);
    }
    Some(prices)
}

/// The highest prices for which none of these sets costs more than a unit.
fn solve(table: &Table, social: &[usize], sets: &[Vec<usize>]) -> Option<Vec<f64>> {
    let mut problem = Problem::new(OptimizationDirection::Maximize);
    let mut variables: Vec<Option<Variable>> = vec![None; table.kinds.len()];
    for &kind in social {
        variables[kind] = Some(problem.add_var(table.kinds[kind].count as f64, (0.0, 1.0)));
    }
    for set in sets {
        let mut kinds = set.clone();
        kinds.sort_unstable();
        let terms = kinds.chunk_by(|a, b| a == b).filter_map(|same| Some((variables[same[0]]?, same.len() as f64)));
        problem.add_constraint(terms.collect::<Vec<_>>(), ComparisonOp::Le, 1.0);
    }
    let solution = problem.solve().ok()?.into_solution().ok()?;
    Some(variables.into_iter().flatten().map(|variable| solution.var_value(variable)).collect())
}

/// For each kind the dearest set with it that costs more than a unit.
fn too_dear(table: &Table, social: &[usize], prices: &[u64], nodes: u64) -> Vec<Vec<usize>> {
    let left: Vec<u64> = table.kinds.iter().map(|kind| kind.count).collect();
    let mut dear: Vec<Vec<usize>> = Vec::new();
    for &kind in social {
        let mates = table.mates[kind].iter().map(|&mate| mate as usize);
        let best = Search { table, values: prices, left: &left, known: false, nodes }.with(kind, mates);
        if best.value > ONE + ONE / 1_000_000 {
            let mut pieces = best.pieces;
            pieces.sort_unstable();
            dear.push(pieces);
        }
    }
    dear.sort_unstable();
    dear.dedup();
    dear
}

/// The bound that prices prove: all of them over the most that one unit's pieces can cost, in whole numbers. Every set is
/// looked at, or counted at a limit that it can't pass.
pub(crate) fn proven(table: &Table, prices: &[u64]) -> u64 {
    let left: Vec<u64> = table.kinds.iter().map(|kind| kind.count).collect();
    let mut dearest = 1;
    for kind in 0..prices.len() {
        let mates = table.mates[kind].iter().map(|&mate| mate as usize).filter(|&mate| mate >= kind);
        let best = Search { table, values: prices, left: &left, known: false, nodes: NODES[2] }.with(kind, mates);
        dearest = dearest.max(best.limit);
    }
    let all: u128 = prices.iter().zip(&left).map(|(&price, &count)| u128::from(price) * u128::from(count)).sum();
    all.div_ceil(u128::from(dearest)) as u64
}
