use crate::{Number, Point, scale};

/// An edge that leaves a place: `incoming` when the front runs along it towards the place.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ray<N> {
    edge: u32,
    angle: N,
    incoming: bool,
}

impl<N: Number> Ray<N> {
    pub(super) fn outgoing(edge: u32, along: Point<N>, parallel: N) -> Self {
        Self { edge, angle: angle(along, parallel), incoming: false }
    }

    pub(super) fn incoming(edge: u32, along: Point<N>, parallel: N) -> Self {
        Self { edge, angle: angle(scale(along, -N::ONE), parallel), incoming: true }
    }
}

/// A measure that grows with the direction, in (−2, 2], 1 to a right angle, so that the two ways of writing "due west" are
/// one.
fn angle<N: Number>([x, y]: Point<N>, parallel: N) -> N {
    let two = N::ONE + N::ONE;
    let share = y / (x.magnitude() + y.magnitude());
    match (x < N::ZERO, y < N::ZERO) {
        (false, _) => share,
        (true, true) if share > -parallel => two - share,
        (true, true) => -two - share,
        (true, false) => two - share,
    }
}

/// Sorts clockwise; of two that lie on each other the incoming one first, so that they are joined and close.
pub(super) fn sort_rays<N: Number>(rays: &mut [Ray<N>], parallel: N) {
    if rays.len() <= 2 {
        return;
    }
    rays.sort_by(|a, b| b.angle.order(a.angle).then(a.edge.cmp(&b.edge)));
    for _ in 0..rays.len() {
        for at in 1..rays.len() {
            let (first, second) = (rays[at - 1], rays[at]);
            if first.angle - second.angle < parallel && second.incoming && !first.incoming {
                rays.swap(at - 1, at);
            }
        }
    }
}

/// Whether as many rays arrive as leave.
pub(super) fn is_balanced<N>(rays: &[Ray<N>]) -> bool {
    2 * rays.iter().filter(|ray| ray.incoming).count() == rays.len()
}

/// Joins every incoming ray with the outgoing one that bounds the same part of the plane: the next one clockwise, pairs
/// nested like brackets.
pub(super) fn pairs<N: Number>(rays: &[Ray<N>]) -> Vec<(u32, u32)> {
    if let [a, b] = rays {
        return if a.incoming { vec![(a.edge, b.edge)] } else { vec![(b.edge, a.edge)] };
    }
    let mut waiting = Vec::new();
    let mut found = Vec::with_capacity(rays.len() / 2);
    // The second round serves those that wait across the seam of the circle.
    for ray in rays.iter().chain(rays) {
        if ray.incoming {
            if !found.iter().any(|&(edge, _)| edge == ray.edge) && !waiting.contains(&ray.edge) {
                waiting.push(ray.edge);
            }
        } else if !found.iter().any(|&(_, edge)| edge == ray.edge)
            && let Some(edge) = waiting.pop()
        {
            found.push((edge, ray.edge));
        }
    }
    found
}
