//! What happens at one place at one instant.

use super::super::Stuck;
use super::super::faces::Arc;
use super::super::ray::{Ray, is_balanced, pairs, sort_rays};
use super::{Front, Meeting, Touching, Vertex};
use crate::{Number, Point, dot};

impl<N: Number> Front<N> {
    /// Settles everything that touches at one place now.
    ///
    /// # Errors
    /// Where lost digits make as many edges leave the place as do not arrive there.
    pub(super) fn resolve(&mut self, meeting: Meeting<N>) -> Result<(), Stuck> {
        let mut touching = std::mem::take(&mut self.touching);
        self.gather(meeting, &mut touching);
        if !is_balanced(&touching.rays) {
            return Err(meeting.stuck());
        }
        let node = self.node_at(meeting.place, &touching.vertices);
        for &vertex in &touching.vertices {
            self.retire(vertex, node);
        }
        sort_rays(&mut touching.rays, self.care.one_way);
        touching.born.clear();
        for (incoming, outgoing) in pairs(&touching.rays) {
            self.join(incoming, outgoing, node, &mut touching.born);
        }
        for &vertex in &touching.born {
            self.set_motion(vertex);
        }
        self.expect_around(&touching.born);
        self.touching = touching;
        Ok(())
    }

    /// Collects the vertices at a place, drops the edges between them, and lists the edges that leave it.
    fn gather(&mut self, meeting: Meeting<N>, touching: &mut Touching<N>) {
        touching.near.clear();
        touching.vertices.clear();
        touching.rays.clear();
        let reach = self.care.near + self.care.near;
        let mut index = 0;
        while index < self.living_edges.len() {
            let id = self.living_edges[index];
            let edge = self.edges[id as usize];
            if !edge.alive {
                self.living_edges.swap_remove(index);
                continue;
            }
            index += 1;
            let line = &self.lines[edge.face as usize];
            let off = dot(line.normal, meeting.place) - line.offset - line.run * self.now;
            if off.magnitude() < reach || meeting.vertices.iter().any(|&vertex| edge.start == vertex || edge.end == vertex) {
                touching.near.push(id);
            }
        }
        // Only now, because splitting an edge adds one.
        for index in 0..touching.near.len() {
            self.gather_edge(touching.near[index], meeting, touching);
        }
    }

    fn gather_edge(&mut self, id: u32, meeting: Meeting<N>, touching: &mut Touching<N>) {
        let (place, one_way) = (meeting.place, self.care.one_way);
        let edge = self.edges[id as usize];
        let along = self.line_of(id).along;
        let (start, end) = (self.position(edge.start), self.position(edge.end));
        let at_start = meeting.vertices.contains(&edge.start) || self.is_near(start, place);
        let at_end = meeting.vertices.contains(&edge.end) || self.is_near(end, place);
        if at_start {
            // Every vertex is the start of one edge, so each is listed once.
            touching.vertices.push(edge.start);
        }
        let within = dot(along, start) < dot(along, place) && dot(along, place) < dot(along, end);
        match (at_start, at_end) {
            (true, true) => self.edges[id as usize].alive = false,
            (true, false) => touching.rays.push(Ray::outgoing(id, along, one_way)),
            (false, true) => touching.rays.push(Ray::incoming(id, along, one_way)),
            (false, false) if within => {
                let rest = self.edges.len() as u32;
                self.edges.push(edge);
                self.living_edges.push(rest);
                self.edges[rest as usize].start = u32::MAX;
                self.edges[id as usize].end = u32::MAX;
                self.vertices[edge.end as usize].before = rest;
                touching.rays.push(Ray::incoming(id, along, one_way));
                touching.rays.push(Ray::outgoing(rest, along, one_way));
            }
            (false, false) => {}
        }
    }

    /// The node at a place: that of a vertex just born there, or a new one.
    pub(super) fn node_at(&mut self, place: Point<N>, vertices: &[u32]) -> u32 {
        let born_here = vertices.iter().map(|&vertex| &self.vertices[vertex as usize]).find(|vertex| {
            let [x, y, _] = self.nodes[vertex.node as usize];
            vertex.born >= self.now && self.is_near([x, y], place)
        });
        match born_here {
            Some(vertex) => vertex.node,
            None => {
                self.nodes.push([place[0], place[1], self.now]);
                self.nodes.len() as u32 - 1
            }
        }
    }

    /// Ends a vertex at a node and records the line it traced between its two faces.
    pub(super) fn retire(&mut self, index: u32, node: u32) {
        let vertex = &mut self.vertices[index as usize];
        vertex.alive = false;
        let (from, left, right) = (vertex.node, vertex.before, vertex.after);
        let (left, right) = (self.edges[left as usize].face, self.edges[right as usize].face);
        self.record(left, right, from, node);
    }

    /// A line from a node to another, `left` on its left and `right` on its right.
    pub(super) fn record(&mut self, left: u32, right: u32, from: u32, to: u32) {
        if from != to && left != right {
            self.arcs.push(Arc { face: left, from, to, other: Some(right) });
            self.arcs.push(Arc { face: right, from: to, to: from, other: Some(left) });
        }
    }

    pub(super) fn join(&mut self, before: u32, after: u32, node: u32, born: &mut Vec<u32>) {
        let index = self.vertices.len() as u32;
        let [x, y, _] = self.nodes[node as usize];
        self.vertices.push(Vertex {
            base: [x, y],
            velocity: [N::ZERO; 2],
            before,
            after,
            node,
            born: self.now,
            alive: true,
            reflex: false,
            jumping: false,
            next_hit: N::INFINITY,
        });
        self.edges[before as usize].end = index;
        self.edges[after as usize].start = index;
        born.push(index);
    }
}
