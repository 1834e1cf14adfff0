use std::cmp::Ordering;
use std::collections::BinaryHeap;

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
pub(super) struct Event {
    pub(super) time: f64,
    pub(super) kind: Kind,
}

impl PartialEq for Event {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Event {}

impl PartialOrd for Event {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Event {
    /// The earliest is the greatest, because the heap gives the greatest first.
    fn cmp(&self, other: &Self) -> Ordering {
        other.time.total_cmp(&self.time).then_with(|| other.kind.cmp(&self.kind))
    }
}

pub(super) type Queue = BinaryHeap<Event>;
