use super::event::{Event, Kind, Queue};
use super::faces::{Arc, assemble};
use super::line::{Care, Line, PARALLEL, straightened};
use super::{Contour, Face, Skeleton, Stuck};
use crate::{Point, add, cross, distance, dot, scale, sub};

/// A corner of the front: at `time` it is at `base + time · velocity`.
#[derive(Debug, Clone, Copy)]
struct Vertex {
    base: Point,
    velocity: Point,
    before: u32,
    after: u32,
    node: u32,
    born: f64,
    alive: bool,
    reflex: bool,
    /// On its way along a closed pair of edges; its neighbours are settled when it arrives.
    jumping: bool,
    /// Time of the earliest hit that waits in the queue; later ones are looked for when this one is out of date.
    next_hit: f64,
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
struct Meeting {
    place: Point,
    vertices: [u32; 2],
}

struct Front {
    lines: Vec<Line>,
    faces: Vec<Face>,
    vertices: Vec<Vertex>,
    edges: Vec<Edge>,
    /// Indices of edges and reflex vertices that may be alive.
    living_edges: Vec<u32>,
    reflex: Vec<u32>,
    queue: Queue,
    nodes: Vec<[f64; 3]>,
    arcs: Vec<Arc>,
    /// Height, face that ends, face that begins; the next one last.
    changes: Vec<(f64, u32, u32)>,
    now: f64,
    care: Care,
    touching: Touching,
}

/// What meets at one place; kept to reuse its memory.
#[derive(Default)]
struct Touching {
    /// Edges whose line passes the place.
    near: Vec<u32>,
    vertices: Vec<u32>,
    rays: Vec<Ray>,
    born: Vec<u32>,
}

/// An edge that leaves a place: `incoming` when the front runs along it towards the place.
#[derive(Debug, Clone, Copy)]
struct Ray {
    edge: u32,
    angle: f64,
    incoming: bool,
}

pub(super) fn trace(contours: &[Contour], start: f64, care: Care) -> Result<Skeleton, Stuck> {
    let mut front = Front::new(contours, start, care);
    let mut patience = 64 + 64 * front.edges.len();
    while let Some(event) = front.queue.pop() {
        front.now = front.now.max(event.time);
        patience -= 1;
        match front.meeting_of(event.kind) {
            Some(meeting) if patience == 0 => return Err(Stuck::Unresolved(meeting.place)),
            Some(meeting) => front.resolve(meeting),
            None if event.kind == Kind::Change => front.change_runs(),
            None => {
                front.look_again(event);
                patience += 1;
            }
        }
    }
    match front.edges.iter().find(|edge| edge.alive) {
        Some(edge) => Err(Stuck::NeverCovered(front.position(edge.start))),
        None => Ok(assemble(front.nodes, front.faces, front.arcs)),
    }
}

impl Front {
    fn new(contours: &[Contour], start: f64, care: Care) -> Self {
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
            now: start,
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
            let (this, next) = (first + index, first + (index + 1) % count);
            let run = contour.sides[index as usize].run;
            self.faces.push(Face { side: this as usize, stage: 0, run, rings: Vec::new() });
            self.edges.push(Edge { face: this, start: this, end: next, alive: true });
            self.nodes.push([a[0], a[1], self.now]);
            let before = first + (index + count - 1) % count;
            self.vertices.push(Vertex {
                base: a,
                velocity: [0.0, 0.0],
                before,
                after: this,
                node: this,
                born: self.now,
                alive: true,
                reflex: false,
                jumping: false,
                next_hit: f64::INFINITY,
            });
            self.arcs.push(Arc { face: this, from: this, to: next, other: None });
        }
    }

    fn add_changes(&mut self, contours: &[Contour]) {
        for (side, spec) in contours.iter().flat_map(|contour| &contour.sides).enumerate() {
            let mut ends = side as u32;
            for (stage, change) in spec.changes.iter().enumerate() {
                let begins = self.faces.len() as u32;
                self.lines.push(self.lines[ends as usize].changed(change.at, change.run));
                self.faces.push(Face { side, stage: stage + 1, run: change.run, rings: Vec::new() });
                self.changes.push((change.at, ends, begins));
                self.queue.push(Event { time: change.at, kind: Kind::Change });
                ends = begins;
            }
        }
        self.changes.sort_by(|a, b| b.0.total_cmp(&a.0).then(b.1.cmp(&a.1)));
    }

    #[inline]
    fn position(&self, vertex: u32) -> Point {
        let vertex = &self.vertices[vertex as usize];
        add(vertex.base, scale(vertex.velocity, self.now))
    }

    fn line_of(&self, edge: u32) -> &Line {
        &self.lines[self.edges[edge as usize].face as usize]
    }

    /// Where an event happens and who takes part, unless it is out of date or has no one place.
    fn meeting_of(&self, kind: Kind) -> Option<Meeting> {
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
        let (sum, difference) = (add(before.normal, after.normal), sub(before.normal, after.normal));
        if dot(sum, sum) < PARALLEL * PARALLEL {
            return self.jump(index, place, None);
        }
        // Solves normal · x = value for both lines at once, in a form that loses nothing where they are nearly parallel.
        let mean = scale(sum, 1.0 / dot(sum, sum));
        let on_one_line = dot(difference, difference) < PARALLEL * PARALLEL;
        let skew = if on_one_line { [0.0, 0.0] } else { scale(difference, 1.0 / dot(difference, difference)) };
        let solve = |first: f64, second: f64| add(scale(mean, first + second), scale(skew, first - second));
        if on_one_line && (before.run - after.run).abs() > PARALLEL * (before.run + after.run) {
            return self.jump(index, place, Some(before.run < after.run));
        }
        let off = [before, after].map(|line| dot(line.normal, place) - line.offset - line.run * self.now);
        let place = sub(place, solve(off[0], off[1]));
        let moved = &mut self.vertices[index as usize];
        moved.velocity = solve(before.run, after.run);
        moved.base = sub(place, scale(moved.velocity, self.now));
        moved.reflex = cross(before.along, after.along) < 0.0;
        if moved.reflex {
            self.reflex.push(index);
        }
    }

    /// Sends a vertex to the far end of its edge before (`Some(true)`), its edge after (`Some(false)`), or the nearer.
    fn jump(&mut self, index: u32, place: Point, along_before: Option<bool>) {
        let vertex = self.vertices[index as usize];
        let back = self.position(self.edges[vertex.before as usize].start);
        let ahead = self.position(self.edges[vertex.after as usize].end);
        let to_back = along_before.unwrap_or_else(|| distance(place, back) <= distance(place, ahead));
        let vertex = &mut self.vertices[index as usize];
        vertex.base = if to_back { back } else { ahead };
        vertex.velocity = [0.0, 0.0];
        vertex.jumping = true;
        self.queue.push(Event { time: self.now, kind: Kind::Arrival { vertex: index } });
    }

    fn expect_collapse(&mut self, index: u32) {
        let edge = self.edges[index as usize];
        let (start, end) = (&self.vertices[edge.start as usize], &self.vertices[edge.end as usize]);
        if start.jumping || end.jumping {
            return;
        }
        let along = self.line_of(index).along;
        let growth = dot(along, sub(end.velocity, start.velocity));
        if growth < -1e-12 {
            let time = -dot(along, sub(end.base, start.base)) / growth;
            let kind = Kind::Collapse { edge: index, start: edge.start, end: edge.end };
            self.queue.push(Event { time: time.max(self.now), kind });
        }
    }

    /// Finds the earliest hit of a reflex vertex among all edges.
    fn expect_hits_of(&mut self, vertex: u32) {
        self.vertices[vertex as usize].next_hit = f64::INFINITY;
        let hits = self.living_edges.iter().filter_map(|&edge| Some((self.hit(vertex, edge)?, edge)));
        if let Some((time, edge)) = hits.min_by(|a, b| a.0.total_cmp(&b.0)) {
            self.await_hit(vertex, edge, time);
        }
    }

    /// Notes the hit of a reflex vertex on an edge that is new to it, if it comes before all the others.
    fn expect_hit(&mut self, vertex: u32, edge: u32) {
        if let Some(time) = self.hit(vertex, edge).filter(|&time| time < self.vertices[vertex as usize].next_hit) {
            self.await_hit(vertex, edge, time);
        }
    }

    fn await_hit(&mut self, vertex: u32, edge: u32, time: f64) {
        self.vertices[vertex as usize].next_hit = time;
        let Edge { start, end, .. } = self.edges[edge as usize];
        self.queue.push(Event { time, kind: Kind::Hit { vertex, edge, start, end } });
    }

    /// Where the edge that a vertex would have hit is no longer what it was, the vertex looks for its next hit.
    fn look_again(&mut self, event: Event) {
        if let Kind::Hit { vertex, .. } = event.kind {
            let Vertex { alive, next_hit, .. } = self.vertices[vertex as usize];
            if alive && event.time >= next_hit {
                self.expect_hits_of(vertex);
            }
        }
    }

    /// When a reflex vertex runs into an edge, if it does.
    #[inline]
    fn hit(&self, index: u32, edge_index: u32) -> Option<f64> {
        let vertex = &self.vertices[index as usize];
        let edge = &self.edges[edge_index as usize];
        let line = &self.lines[edge.face as usize];
        let closing = line.run - dot(line.normal, vertex.velocity);
        let gap = dot(line.normal, vertex.base) - line.offset;
        let gap_now = gap - closing * self.now;
        // What touches a vertex at its birth was joined there; it moves into its own part of the plane.
        let least = if vertex.born < self.now { -self.care.near } else { self.care.near };
        if closing <= 1e-12 || gap_now <= least || !edge.alive || edge_index == vertex.before || edge_index == vertex.after {
            return None;
        }
        let time = (gap / closing).max(self.now);
        let (start, end) = (&self.vertices[edge.start as usize], &self.vertices[edge.end as usize]);
        let at = |vertex: &Vertex| dot(line.along, vertex.base) + time * dot(line.along, vertex.velocity);
        let here = at(vertex);
        let within = here >= at(start) - self.care.near && here <= at(end) + self.care.near;
        (within && !start.jumping && !end.jumping).then_some(time)
    }

    /// Settles everything that touches at one place now.
    fn resolve(&mut self, meeting: Meeting) {
        let mut touching = std::mem::take(&mut self.touching);
        self.gather(meeting, &mut touching);
        let node = self.node_at(meeting.place, &touching.vertices);
        for &vertex in &touching.vertices {
            self.retire(vertex, node);
        }
        sort_rays(&mut touching.rays);
        touching.born.clear();
        for (incoming, outgoing) in pairs(&touching.rays) {
            self.join(incoming, outgoing, node, &mut touching.born);
        }
        for &vertex in &touching.born {
            self.set_motion(vertex);
        }
        self.expect_around(&touching.born);
        self.touching = touching;
    }

    /// Collects the vertices at a place, drops the edges between them, and lists the edges that leave it.
    fn gather(&mut self, meeting: Meeting, touching: &mut Touching) {
        touching.near.clear();
        touching.vertices.clear();
        touching.rays.clear();
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
            if off.abs() < 2.0 * self.care.near
                || meeting.vertices.iter().any(|&vertex| edge.start == vertex || edge.end == vertex)
            {
                touching.near.push(id);
            }
        }
        // Only now, because splitting an edge adds one.
        for index in 0..touching.near.len() {
            self.gather_edge(touching.near[index], meeting, touching);
        }
    }

    fn gather_edge(&mut self, id: u32, meeting: Meeting, touching: &mut Touching) {
        let place = meeting.place;
        let edge = self.edges[id as usize];
        let along = self.line_of(id).along;
        let (start, end) = (self.position(edge.start), self.position(edge.end));
        let at_start = meeting.vertices.contains(&edge.start) || distance(start, place) < self.care.near;
        let at_end = meeting.vertices.contains(&edge.end) || distance(end, place) < self.care.near;
        if at_start {
            // Every vertex is the start of one edge, so each is listed once.
            touching.vertices.push(edge.start);
        }
        let within = dot(along, start) < dot(along, place) && dot(along, place) < dot(along, end);
        match (at_start, at_end) {
            (true, true) => self.edges[id as usize].alive = false,
            (true, false) => touching.rays.push(Ray::outgoing(id, along)),
            (false, true) => touching.rays.push(Ray::incoming(id, along)),
            (false, false) if within => {
                let rest = self.edges.len() as u32;
                self.edges.push(edge);
                self.living_edges.push(rest);
                self.edges[rest as usize].start = u32::MAX;
                self.edges[id as usize].end = u32::MAX;
                self.vertices[edge.end as usize].before = rest;
                touching.rays.push(Ray::incoming(id, along));
                touching.rays.push(Ray::outgoing(rest, along));
            }
            (false, false) => {}
        }
    }

    /// The node at a place: that of a vertex just born there, or a new one.
    fn node_at(&mut self, place: Point, vertices: &[u32]) -> u32 {
        let born_here = vertices.iter().map(|&vertex| &self.vertices[vertex as usize]).find(|vertex| {
            let [x, y, _] = self.nodes[vertex.node as usize];
            vertex.born >= self.now && distance([x, y], place) < self.care.near
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
    fn retire(&mut self, index: u32, node: u32) {
        let vertex = &mut self.vertices[index as usize];
        vertex.alive = false;
        let (from, left, right) = (vertex.node, vertex.before, vertex.after);
        let (left, right) = (self.edges[left as usize].face, self.edges[right as usize].face);
        self.record(left, right, from, node);
    }

    /// A line from a node to another, `left` on its left and `right` on its right.
    fn record(&mut self, left: u32, right: u32, from: u32, to: u32) {
        if from != to && left != right {
            self.arcs.push(Arc { face: left, from, to, other: Some(right) });
            self.arcs.push(Arc { face: right, from: to, to: from, other: Some(left) });
        }
    }

    fn join(&mut self, before: u32, after: u32, node: u32, born: &mut Vec<u32>) {
        let index = self.vertices.len() as u32;
        let [x, y, _] = self.nodes[node as usize];
        self.vertices.push(Vertex {
            base: [x, y],
            velocity: [0.0, 0.0],
            before,
            after,
            node,
            born: self.now,
            alive: true,
            reflex: false,
            jumping: false,
            next_hit: f64::INFINITY,
        });
        self.edges[before as usize].end = index;
        self.edges[after as usize].start = index;
        born.push(index);
    }

    /// Looks ahead from vertices just born.
    fn expect_around(&mut self, born: &[u32]) {
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

    /// Ends the faces that change at this height and begins the next ones, all together.
    fn change_runs(&mut self) {
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

impl Ray {
    fn outgoing(edge: u32, along: Point) -> Self {
        Self { edge, angle: angle(along), incoming: false }
    }

    fn incoming(edge: u32, along: Point) -> Self {
        Self { edge, angle: angle(scale(along, -1.0)), incoming: true }
    }
}

/// Direction in (−π, π], so that the two ways of writing "due west" are one.
fn angle(direction: Point) -> f64 {
    let angle = libm::atan2(direction[1], direction[0]);
    if angle <= -std::f64::consts::PI + PARALLEL { angle + std::f64::consts::TAU } else { angle }
}

/// Sorts clockwise; of two that lie on each other the incoming one first, so that they are joined and close.
fn sort_rays(rays: &mut [Ray]) {
    if rays.len() <= 2 {
        return;
    }
    rays.sort_by(|a, b| b.angle.total_cmp(&a.angle).then(a.edge.cmp(&b.edge)));
    for _ in 0..rays.len() {
        for at in 1..rays.len() {
            let (first, second) = (rays[at - 1], rays[at]);
            if first.angle - second.angle < PARALLEL && second.incoming && !first.incoming {
                rays.swap(at - 1, at);
            }
        }
    }
}

/// Joins every incoming ray with the outgoing one that bounds the same part of the plane: the next one clockwise, pairs
/// nested like brackets.
fn pairs(rays: &[Ray]) -> Vec<(u32, u32)> {
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
