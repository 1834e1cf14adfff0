mod ahead;
mod change;
mod settle;

use super::event::{Event, Kind, Queue};
use super::faces::{Arc, assemble};
use super::line::{Care, Line, straightened};
use super::ray::Ray;
use super::{Contour, Face, Skeleton, Stuck};
use crate::{Number, Point, add, cross, dot, scale, sub};

/// A corner of the front: at `time` it is at `base + time · velocity`.
#[derive(Debug, Clone, Copy)]
struct Vertex<N> {
    base: Point<N>,
    velocity: Point<N>,
    before: u32,
    after: u32,
    node: u32,
    born: N,
    alive: bool,
    reflex: bool,
    /// On its way along a closed pair of edges; its neighbours are settled when it arrives.
    jumping: bool,
    /// Time of the earliest hit that waits in the queue; later ones are looked for when this one is out of date.
    next_hit: N,
}

/// A moving stretch of one face's line.
#[derive(Debug, Clone, Copy)]
struct Edge {
    face: u32,
    start: u32,
    end: u32,
    alive: bool,
}

/// An event that is about to be settled. Its vertices belong to it even where, being fast, they miss it by a hair.
#[derive(Debug, Clone, Copy)]
struct Meeting<N> {
    place: Point<N>,
    vertices: [u32; 2],
}

impl<N: Number> Meeting<N> {
    fn stuck(&self) -> Stuck {
        Stuck::Unresolved(self.place.map(N::to_f64))
    }
}

struct Front<N> {
    lines: Vec<Line<N>>,
    faces: Vec<Face>,
    vertices: Vec<Vertex<N>>,
    edges: Vec<Edge>,
    /// Indices of edges and reflex vertices that may be alive.
    living_edges: Vec<u32>,
    reflex: Vec<u32>,
    queue: Queue<N>,
    nodes: Vec<[N; 3]>,
    arcs: Vec<Arc>,
    /// Height, face that ends, face that begins; the next one last.
    changes: Vec<(N, u32, u32)>,
    now: N,
    care: Care<N>,
    touching: Touching<N>,
}

/// What meets at one place; kept to reuse its memory.
#[derive(Default)]
struct Touching<N> {
    /// Edges whose line passes the place.
    near: Vec<u32>,
    vertices: Vec<u32>,
    rays: Vec<Ray<N>>,
    born: Vec<u32>,
}

pub(super) fn trace<N: Number>(contours: &[Contour], start: f64, care: Care<N>) -> Result<Skeleton, Stuck> {
    let mut front = Front::new(contours, start, care);
    let mut patience = 64 + 64 * front.edges.len();
    while let Some(event) = front.queue.pop() {
        front.now = front.now.or_later(event.time);
        patience -= 1;
        match front.meeting_of(event.kind) {
            Some(meeting) if patience == 0 => return Err(meeting.stuck()),
            Some(meeting) => front.resolve(meeting)?,
            None if event.kind == Kind::Change => front.change_runs(),
            None => {
                front.look_again(event);
                patience += 1;
            }
        }
    }
    match front.edges.iter().find(|edge| edge.alive) {
        Some(edge) => Err(Stuck::NeverCovered(front.position(edge.start).map(N::to_f64))),
        None => {
            let nodes = front.nodes.into_iter().map(|node| node.map(N::to_f64)).collect();
            Ok(assemble(nodes, front.faces, front.arcs))
        }
    }
}

impl<N: Number> Front<N> {
    fn new(contours: &[Contour], start: f64, care: Care<N>) -> Self {
        let count: usize = contours.iter().map(|contour| contour.corners.len()).sum();
        let mut front = Self {
            lines: straightened(contours, start, care),
            faces: Vec::with_capacity(count),
            vertices: Vec::with_capacity(4 * count),
            edges: Vec::with_capacity(2 * count),
            living_edges: (0..count as u32).collect(),
            reflex: Vec::new(),
            queue: Queue::with_capacity(4 * count),
            nodes: Vec::with_capacity(3 * count),
            arcs: Vec::with_capacity(8 * count),
            changes: Vec::new(),
            now: start.into(),
            care,
            touching: Touching::default(),
        };
        for contour in contours {
            front.add_contour(contour);
        }
        front.add_changes(contours);
        for vertex in 0..count as u32 {
            front.set_motion(vertex);
        }
        for edge in 0..count as u32 {
            front.expect_collapse(edge);
        }
        for index in 0..front.reflex.len() {
            front.expect_hits_of(front.reflex[index]);
        }
        front
    }

    fn add_contour(&mut self, contour: &Contour) {
        let first = self.edges.len() as u32;
        let count = contour.corners.len() as u32;
        for (index, &a) in (0..count).zip(&contour.corners) {
            let a = a.map(N::from);
            let (this, next) = (first + index, first + (index + 1) % count);
            let run = contour.sides[index as usize].run;
            self.faces.push(Face { side: this as usize, stage: 0, run, rings: Vec::new() });
            self.edges.push(Edge { face: this, start: this, end: next, alive: true });
            self.nodes.push([a[0], a[1], self.now]);
            let before = first + (index + count - 1) % count;
            self.vertices.push(Vertex {
                base: a,
                velocity: [N::ZERO; 2],
                before,
                after: this,
                node: this,
                born: self.now,
                alive: true,
                reflex: false,
                jumping: false,
                next_hit: N::INFINITY,
            });
            self.arcs.push(Arc { face: this, from: this, to: next, other: None });
        }
    }

    fn add_changes(&mut self, contours: &[Contour]) {
        for (side, spec) in contours.iter().flat_map(|contour| &contour.sides).enumerate() {
            let mut ends = side as u32;
            for (stage, change) in spec.changes.iter().enumerate() {
                let begins = self.faces.len() as u32;
                self.lines.push(self.lines[ends as usize].changed(change.at.into(), change.run.into()));
                self.faces.push(Face { side, stage: stage + 1, run: change.run, rings: Vec::new() });
                self.changes.push((change.at.into(), ends, begins));
                self.queue.push(Event { time: change.at.into(), kind: Kind::Change });
                ends = begins;
            }
        }
        self.changes.sort_by(|a, b| b.0.order(a.0).then(b.1.cmp(&a.1)));
    }

    #[inline]
    fn position(&self, vertex: u32) -> Point<N> {
        let vertex = &self.vertices[vertex as usize];
        add(vertex.base, scale(vertex.velocity, self.now))
    }

    fn is_near(&self, a: Point<N>, b: Point<N>) -> bool {
        squared_distance(a, b) < self.care.near * self.care.near
    }

    fn line_of(&self, edge: u32) -> &Line<N> {
        &self.lines[self.edges[edge as usize].face as usize]
    }

    /// Where an event happens and who takes part, unless it is out of date or has no one place.
    fn meeting_of(&self, kind: Kind) -> Option<Meeting<N>> {
        let as_it_was = |edge: u32, start: u32, end: u32| {
            let edge = &self.edges[edge as usize];
            edge.alive && edge.start == start && edge.end == end
        };
        let (vertices, valid) = match kind {
            Kind::Arrival { vertex } => ([vertex, vertex], true),
            Kind::Collapse { edge, start, end } => ([start, end], as_it_was(edge, start, end)),
            Kind::Hit { vertex, edge, start, end } => ([vertex, vertex], as_it_was(edge, start, end)),
            Kind::Change => return None,
        };
        let alive = vertices.iter().all(|&vertex| self.vertices[vertex as usize].alive);
        (valid && alive).then(|| Meeting { place: self.position(self.slower(vertices)), vertices })
    }

    /// The slower of two vertices, whose position is surer.
    fn slower(&self, [first, second]: [u32; 2]) -> u32 {
        let speed = |vertex: u32| {
            let velocity = self.vertices[vertex as usize].velocity;
            dot(velocity, velocity)
        };
        if speed(second) < speed(first) { second } else { first }
    }

    /// Gives a vertex between two edges its motion. Edges that lie on each other close at once: the vertex jumps to the
    /// nearer of their far ends. Of two edges on one line that run at different speeds the faster one takes over the
    /// line, so the vertex jumps to the far end of the slower one: the lower of the two planes is the roof.
    fn set_motion(&mut self, index: u32) {
        let vertex = self.vertices[index as usize];
        let place = self.position(index);
        let (before, after) = (*self.line_of(vertex.before), *self.line_of(vertex.after));
        let one_way = self.care.one_way;
        let (sum, difference) = (add(before.normal, after.normal), sub(before.normal, after.normal));
        if dot(sum, sum) < one_way * one_way {
            return self.jump(index, place, None);
        }
        // Solves normal · x = value for both lines at once, in a form that loses nothing where they are nearly parallel.
        let mean = scale(sum, N::ONE / dot(sum, sum));
        let on_one_line = dot(difference, difference) < one_way * one_way;
        let skew = if on_one_line { [N::ZERO; 2] } else { scale(difference, N::ONE / dot(difference, difference)) };
        let solve = |first: N, second: N| add(scale(mean, first + second), scale(skew, first - second));
        if on_one_line && (before.run - after.run).magnitude() > one_way * (before.run + after.run) {
            return self.jump(index, place, Some(before.run < after.run));
        }
        let off = [before, after].map(|line| dot(line.normal, place) - line.offset - line.run * self.now);
        let place = sub(place, solve(off[0], off[1]));
        let moved = &mut self.vertices[index as usize];
        moved.velocity = solve(before.run, after.run);
        moved.base = sub(place, scale(moved.velocity, self.now));
        moved.reflex = cross(before.along, after.along) < N::ZERO;
        if moved.reflex {
            self.reflex.push(index);
        }
    }

    /// Sends a vertex to the far end of its edge before (`Some(true)`), its edge after (`Some(false)`), or the nearer.
    fn jump(&mut self, index: u32, place: Point<N>, along_before: Option<bool>) {
        let vertex = self.vertices[index as usize];
        let back = self.position(self.edges[vertex.before as usize].start);
        let ahead = self.position(self.edges[vertex.after as usize].end);
        let to_back = along_before.unwrap_or_else(|| squared_distance(place, back) <= squared_distance(place, ahead));
        let vertex = &mut self.vertices[index as usize];
        vertex.base = if to_back { back } else { ahead };
        vertex.velocity = [N::ZERO; 2];
        vertex.jumping = true;
        self.queue.push(Event { time: self.now, kind: Kind::Arrival { vertex: index } });
    }
}

fn squared_distance<N: Number>(a: Point<N>, b: Point<N>) -> N {
    let way = sub(a, b);
    dot(way, way)
}
