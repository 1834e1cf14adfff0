//! Where no unit gives three pieces: most pairs, so fewest units.

use petgraph::algo::maximum_matching;
use petgraph::graph::{NodeIndex, UnGraph};

use super::fill::Filled;
use super::table::Table;

/// Pieces and pairs of pieces for which it is worth the time.
const MOST: [u64; 2] = [250, 6_000];

/// Units with most pairs among them; `None` where there are too many.
pub(crate) fn pairs(table: &Table) -> Option<Filled> {
    let social: Vec<usize> = (0..table.kinds.len()).filter(|&kind| !table.mates[kind].is_empty()).collect();
    let pieces: u64 = social.iter().map(|&kind| table.kinds[kind].count).sum();
    let edges: u64 = social
        .iter()
        .flat_map(|&a| table.mates[a].iter().map(move |&b| [a, b as usize]))
        .map(|[a, b]| table.kinds[a].count * table.kinds[b].count)
        .sum();
    if pieces > MOST[0] || edges > 2 * MOST[1] || !table.complete {
        return None;
    }
    let owners: Vec<usize> =
        social.iter().flat_map(|&kind| std::iter::repeat_n(kind, table.kinds[kind].count as usize)).collect();
    let mut graph = UnGraph::<(), (), u32>::with_capacity(owners.len(), edges as usize / 2);
    for _ in &owners {
        graph.add_node(());
    }
    for (a, &one) in owners.iter().enumerate() {
        for (b, &other) in owners.iter().enumerate().skip(a + 1) {
            if table.are_mates(one, other) && table.fits(&[one, other]) {
                graph.add_edge(NodeIndex::new(a), NodeIndex::new(b), ());
            }
        }
    }
    Some(units(table, &owners, &maximum_matching(&graph).edges().map(|(a, b)| [a.index(), b.index()]).collect::<Vec<_>>()))
}

/// The pairs and, one to a unit, all pieces that found no mate.
fn units(table: &Table, owners: &[usize], pairs: &[[usize; 2]]) -> Filled {
    let mut left: Vec<u64> = table.kinds.iter().map(|kind| kind.count).collect();
    let mut sets: Vec<Vec<usize>> = Vec::new();
    for pair in pairs {
        let mut set = pair.map(|piece| owners[piece]);
        set.sort_unstable();
        set.iter().for_each(|&kind| left[kind] -= 1);
        sets.push(set.to_vec());
    }
    sets.sort_unstable();
    let alone = left.iter().enumerate().filter(|(_, left)| **left > 0).map(|(kind, &left)| (vec![kind], left));
    sets.chunk_by(|a, b| a == b).map(|same| (same[0].clone(), same.len() as u64)).chain(alone).collect()
}
