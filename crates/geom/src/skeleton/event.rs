use std::cmp::Ordering;
use std::collections::BinaryHeap;

use crate::Number;

/// Something that will happen to the front, unless one of those who take part is gone by then.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Kind {
    /// A vertex that jumped along a closed pair of edges arrives.
    Arrival { vertex: u32 },
    /// An edge shrinks to nothing.
    Collapse { edge: u32, start: u32, end: u32 },
    /// A reflex vertex runs into an edge.
    Hit { vertex: u32, edge: u32, start: u32, end: u32 },
    /// Sides change their run; kept last, so that what else happens at that height is settled before.
    Change,
}

#[derive(Debug, Clone, Copy)]
pub(super) struct Event<N> {
    pub(super) time: N,
    pub(super) kind: Kind,
}

impl<N: Number> PartialEq for Event<N> {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl<N: Number> Eq for Event<N> {}

impl<N: Number> PartialOrd for Event<N> {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl<N: Number> Ord for Event<N> {
    /// The earliest is the greatest, because the heap gives the greatest first.
    fn cmp(&self, other: &Self) -> Ordering {
        other.time.order(self.time).then_with(|| other.kind.cmp(&self.kind))
    }
}

pub(super) type Queue<N> = BinaryHeap<Event<N>>;
