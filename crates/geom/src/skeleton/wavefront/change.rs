//! Sides that run otherwise from a height on.

use super::{Edge, Front, Vertex};
use crate::Number;

impl<N: Number> Front<N> {
    /// Ends the faces that change at this height and begins the next ones, all together.
    pub(super) fn change_runs(&mut self) {
        let mut changed = Vec::new();
        while let Some(&(at, ends, begins)) = self.changes.last().filter(|change| change.0 <= self.now) {
            self.changes.pop();
            debug_assert!(at <= self.now);
            let edges = (0..self.edges.len() as u32).filter(|&edge| {
                let edge = &self.edges[edge as usize];
                edge.alive && edge.face == ends
            });
            changed.extend(edges.map(|edge| (edge, ends, begins)));
        }
        let mut born = Vec::new();
        for &(edge, ..) in &changed {
            for vertex in [self.edges[edge as usize].start, self.edges[edge as usize].end] {
                self.renew(vertex, &mut born);
            }
        }
        for &(edge, ends, begins) in &changed {
            let Edge { start, end, .. } = self.edges[edge as usize];
            let (from, to) = (self.vertices[start as usize].node, self.vertices[end as usize].node);
            self.record(begins, ends, from, to);
            self.edges[edge as usize].face = begins;
        }
        for &vertex in &born {
            self.set_motion(vertex);
        }
        self.expect_around(&born);
    }

    /// Replaces a vertex by a new one at the same place, born now.
    fn renew(&mut self, index: u32, born: &mut Vec<u32>) {
        if born.contains(&index) {
            return;
        }
        let place = self.position(index);
        let node = self.node_at(place, &[index]);
        let Vertex { before, after, .. } = self.vertices[index as usize];
        self.retire(index, node);
        self.join(before, after, node, born);
    }
}
