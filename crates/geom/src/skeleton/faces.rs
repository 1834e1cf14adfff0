use super::{Face, Rim, Skeleton};

/// A directed piece of a face's boundary, the face to its left.
#[derive(Debug, Clone, Copy)]
pub(super) struct Arc {
    pub(super) face: u32,
    pub(super) from: u32,
    pub(super) to: u32,
    pub(super) other: Option<u32>,
}

/// Chains the arcs of every face into rings. Upright faces keep none.
pub(super) fn assemble(nodes: Vec<[f64; 3]>, mut faces: Vec<Face>, mut arcs: Vec<Arc>) -> Skeleton {
    arcs.sort_unstable_by_key(|arc| (arc.face, arc.from, arc.to));
    for of_face in arcs.chunk_by(|a, b| a.face == b.face) {
        let face = &mut faces[of_face[0].face as usize];
        if face.run > 0.0 {
            face.rings = rings(of_face);
        }
    }
    Skeleton { nodes, faces, ..Skeleton::default() }
}

fn rings(arcs: &[Arc]) -> Vec<Vec<Rim>> {
    let mut used = vec![false; arcs.len()];
    let mut rings = Vec::new();
    for first in 0..arcs.len() {
        if !used[first] {
            rings.push(ring_from(first, arcs, &mut used));
        }
    }
    rings
}

fn ring_from(first: usize, arcs: &[Arc], used: &mut [bool]) -> Vec<Rim> {
    let mut ring = Vec::new();
    let mut at = first;
    loop {
        used[at] = true;
        let arc = arcs[at];
        ring.push(Rim { node: arc.from as usize, other: arc.other.map(|face| face as usize) });
        let next = arcs.partition_point(|next| next.from < arc.to);
        let unused = (next..arcs.len()).take_while(|&next| arcs[next].from == arc.to).find(|&next| !used[next]);
        match unused {
            Some(next) => at = next,
            None => return ring,
        }
    }
}
