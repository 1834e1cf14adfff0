//! What will happen: when edges shrink to nothing and when reflex vertices run into edges.

use super::{Edge, Event, Front, Kind, Vertex};
use crate::{Number, dot, sub};

impl<N: Number> Front<N> {
    /// Looks ahead from vertices just born.
    pub(super) fn expect_around(&mut self, born: &[u32]) {
        self.forget_dead_reflex();
        for &vertex in born {
            let Vertex { before, after, reflex, .. } = self.vertices[vertex as usize];
            for edge in [before, after] {
                self.expect_collapse(edge);
                for index in 0..self.reflex.len() {
                    self.expect_hit(self.reflex[index], edge);
                }
            }
            if reflex {
                self.expect_hits_of(vertex);
            }
        }
    }

    fn forget_dead_reflex(&mut self) {
        let vertices = &self.vertices;
        self.reflex.retain(|&vertex| vertices[vertex as usize].alive);
    }

    pub(super) fn expect_collapse(&mut self, index: u32) {
        let edge = self.edges[index as usize];
        let (start, end) = (&self.vertices[edge.start as usize], &self.vertices[edge.end as usize]);
        if start.jumping || end.jumping {
            return;
        }
        let along = self.line_of(index).along;
        let growth = dot(along, sub(end.velocity, start.velocity));
        if growth < -self.care.still {
            let time = -dot(along, sub(end.base, start.base)) / growth;
            let kind = Kind::Collapse { edge: index, start: edge.start, end: edge.end };
            self.queue.push(Event { time: time.or_later(self.now), kind });
        }
    }

    /// Finds the earliest hit of a reflex vertex among all edges.
    pub(super) fn expect_hits_of(&mut self, vertex: u32) {
        self.vertices[vertex as usize].next_hit = N::INFINITY;
        let hits = self.living_edges.iter().filter_map(|&edge| Some((self.hit(vertex, edge)?, edge)));
        if let Some((time, edge)) = hits.min_by(|a, b| a.0.order(b.0)) {
            self.await_hit(vertex, edge, time);
        }
    }

    /// Notes the hit of a reflex vertex on an edge that is new to it, if it comes before all the others.
    fn expect_hit(&mut self, vertex: u32, edge: u32) {
        if let Some(time) = self.hit(vertex, edge).filter(|&time| time < self.vertices[vertex as usize].next_hit) {
            self.await_hit(vertex, edge, time);
        }
    }

    fn await_hit(&mut self, vertex: u32, edge: u32, time: N) {
        self.vertices[vertex as usize].next_hit = time;
        let Edge { start, end, .. } = self.edges[edge as usize];
        self.queue.push(Event { time, kind: Kind::Hit { vertex, edge, start, end } });
    }

    /// Where the edge that a vertex would have hit is no longer what it was, the vertex looks for its next hit.
    pub(super) fn look_again(&mut self, event: Event<N>) {
        if let Kind::Hit { vertex, .. } = event.kind {
            let Vertex { alive, next_hit, .. } = self.vertices[vertex as usize];
            if alive && event.time >= next_hit {
                self.expect_hits_of(vertex);
            }
        }
    }

    /// When a reflex vertex runs into an edge, if it does.
    #[inline]
    fn hit(&self, index: u32, edge_index: u32) -> Option<N> {
        let vertex = &self.vertices[index as usize];
        let edge = &self.edges[edge_index as usize];
        let line = &self.lines[edge.face as usize];
        let closing = line.run - dot(line.normal, vertex.velocity);
        let gap = dot(line.normal, vertex.base) - line.offset;
        let gap_now = gap - closing * self.now;
        // What touches a vertex at its birth was joined there; it moves into its own part of the plane.
        let least = if vertex.born < self.now { -self.care.near } else { self.care.near };
        if closing <= self.care.still
            || gap_now <= least
            || !edge.alive
            || edge_index == vertex.before
            || edge_index == vertex.after
        {
            return None;
        }
        let time = (gap / closing).or_later(self.now);
        let (start, end) = (&self.vertices[edge.start as usize], &self.vertices[edge.end as usize]);
        let at = |vertex: &Vertex<N>| dot(line.along, vertex.base) + time * dot(line.along, vertex.velocity);
        let here = at(vertex);
        let within = here >= at(start) - self.care.near && here <= at(end) + self.care.near;
        (within && !start.jumping && !end.jumping).then_some(time)
    }
}
