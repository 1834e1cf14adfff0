//! Which slopes lean against each other and are loaded together.

use std::collections::BTreeMap;

use layout::Layout;
use roof::{EdgeKind, Line, Roof};

/// Planes of one side, the highest first: piles are set down from the top.
pub(crate) type Side = Vec<usize>;

/// The laid planes in groups of sides that are loaded together. Planes that a break joins are one side. Sides that a ridge joins
/// lean against each other, and so do those of one block that no ridge joins: the ends of a hip roof, the slopes of a turret.
pub(crate) fn leaning(roof: &Roof, layout: &Layout) -> Vec<Vec<Side>> {
    let planes = layout.planes.iter().map(|laid| vec![laid.plane]).collect();
    let at_breaks = of_kind(roof, EdgeKind::Break);
    let sides: Vec<Side> = at_breaks.fold(planes, |sides, line| merged(sides, |plane| line.planes.contains(plane)));
    let sides = sides.into_iter().map(|side| vec![highest_first(roof, side)]).collect();
    let at_ridges = of_kind(roof, EdgeKind::Ridge);
    let leans = |side: &Side, line: &Line| side.iter().any(|plane| line.planes.contains(plane));
    let groups: Vec<Vec<Side>> = at_ridges.fold(sides, |groups, line| merged(groups, |side| leans(side, line)));
    let (mut groups, alone): (Vec<_>, Vec<_>) = groups.into_iter().partition(|group| group.len() > 1);
    let mut of_blocks: BTreeMap<&str, Vec<Side>> = BTreeMap::new();
    for side in alone.concat() {
        match block(roof, &side) {
            "" => groups.push(vec![side]),
            block => of_blocks.entry(block).or_default().push(side),
        }
    }
    groups.extend(of_blocks.into_values());
    groups.iter_mut().for_each(|group| group.sort_by_key(|side| side.iter().min().copied()));
    groups.sort_by_key(|group| group.iter().flatten().min().copied());
    groups
}

fn of_kind(roof: &Roof, kind: EdgeKind) -> impl Iterator<Item = &Line> {
    roof.lines.iter().filter(move |line| line.kind == kind)
}

/// Groups that have something of the same in them are one.
fn merged<T>(groups: Vec<Vec<T>>, is_one: impl Fn(&T) -> bool) -> Vec<Vec<T>> {
    let (joined, mut rest): (Vec<_>, Vec<_>) = groups.into_iter().partition(|group| group.iter().any(&is_one));
    let joined: Vec<T> = joined.into_iter().flatten().collect();
    rest.extend((!joined.is_empty()).then_some(joined));
    rest
}

/// The block of a side; nothing of planes that were measured by themselves.
fn block<'a>(roof: &'a Roof, side: &Side) -> &'a str {
    side.first().and_then(|&plane| roof.planes.get(plane)).map_or("", |plane| plane.block.as_str())
}

fn highest_first(roof: &Roof, mut side: Side) -> Side {
    let top = |plane: &usize| {
        let corners = roof.planes.get(*plane).into_iter().flat_map(|plane| &plane.rings).flat_map(|ring| &ring.corners);
        corners.map(|corner| corner[2]).fold(f64::NEG_INFINITY, f64::max)
    };
    side.sort_by(|a, b| top(b).total_cmp(&top(a)).then(a.cmp(b)));
    side
}
