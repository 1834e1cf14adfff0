//! Which of many points are one corner.

use std::collections::BTreeMap;

use geom::{Point, distance};

/// The corner of every point.
pub(crate) struct Corners {
    /// Of each point, the first one at its corner.
    pub(crate) of: Vec<usize>,
}

impl Corners {
    /// Points nearer than `near` to each other are one corner. So is a chain of them, whatever their order: what is one
    /// corner to one plane is one to its neighbours.
    pub(crate) fn of(points: &[Point], near: f64) -> Self {
        let mut leads_to: Vec<usize> = (0..points.len()).collect();
        let mut cells: BTreeMap<[i64; 2], Vec<usize>> = BTreeMap::new();
        for at in 0..points.len() {
            let cell = points[at].map(|value| (value / near).floor() as i64);
            let around = (-1..=1).flat_map(|dx| (-1..=1).map(move |dy| [cell[0] + dx, cell[1] + dy]));
            for &other in around.filter_map(|cell| cells.get(&cell)).flatten() {
                if distance(points[other], points[at]) <= near {
                    let (a, b) = (first(&leads_to, other), first(&leads_to, at));
                    leads_to[a.max(b)] = a.min(b);
                }
            }
            cells.entry(cell).or_default().push(at);
        }
        Self { of: (0..points.len()).map(|at| first(&leads_to, at)).collect() }
    }
}

/// The point that leads on to no other.
fn first(leads_to: &[usize], mut at: usize) -> usize {
    while leads_to[at] != at {
        at = leads_to[at];
    }
    at
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A point between two that are further apart belongs to both, wherever it comes in the order.
    #[test]
    fn a_chain_is_one_corner_in_any_order() {
        let chain = [[0.0, 0.0], [0.9, 0.0], [1.8, 0.0], [0.9, 5.0]];
        for order in [[0, 1, 2, 3], [0, 2, 1, 3], [2, 0, 3, 1], [3, 1, 0, 2]] {
            let of = Corners::of(&order.map(|at| chain[at]), 1.0).of;
            let corner = |at: usize| order.iter().position(|&other| other == at).map(|place| of[place]);
            assert_eq!((corner(0), corner(1)), (corner(1), corner(2)), "{order:?}");
            assert_ne!(corner(0), corner(3), "{order:?}");
        }
    }
}
