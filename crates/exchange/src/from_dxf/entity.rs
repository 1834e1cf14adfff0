//! What is drawn: the entities of the model, a polyline together with its vertices.

use super::pairs::Pair;
use crate::refused::Refused;

/// One drawn thing.
pub(super) struct Entity<'a> {
    pub(super) kind: &'a str,
    pub(super) pairs: &'a [Pair<'a>],
    /// Of a polyline, the pairs of each vertex.
    pub(super) vertices: Vec<&'a [Pair<'a>]>,
}

/// Everything of the section ENTITIES, in its order.
pub(super) fn entities<'a>(pairs: &'a [Pair<'a>]) -> Vec<Entity<'a>> {
    let mut found: Vec<Entity> = Vec::new();
    let mut rest = section(pairs);
    while let Some((head, tail)) = rest.split_first() {
        let (own, next) = tail.split_at(tail.iter().position(|pair| pair.code == 0).unwrap_or(tail.len()));
        match (head.value.trim(), found.last_mut()) {
            ("SEQEND", _) => {}
            ("VERTEX", Some(polyline)) if polyline.kind == "POLYLINE" => polyline.vertices.push(own),
            (kind, _) => found.push(Entity { kind, pairs: own, vertices: Vec::new() }),
        }
        rest = next;
    }
    found
}

fn section<'a>(pairs: &'a [Pair<'a>]) -> &'a [Pair<'a>] {
    let is = |pair: &Pair, code: i32, value: &str| pair.code == code && pair.value.trim() == value;
    let starts = |two: &[Pair]| is(&two[0], 0, "SECTION") && is(&two[1], 2, "ENTITIES");
    let Some(start) = pairs.windows(2).position(starts) else { return &[] };
    let section = &pairs[start + 2..];
    &section[..section.iter().position(|pair| is(pair, 0, "ENDSEC")).unwrap_or(section.len())]
}

impl Entity<'_> {
    /// `0` is the layer of what was put on none.
    pub(super) fn layer(&self) -> String {
        self.pairs.iter().find(|pair| pair.code == 8).map_or("0", |pair| pair.value.trim()).to_owned()
    }

    /// Drawn on a sheet rather than in the model.
    pub(super) fn is_on_paper(&self) -> bool {
        self.pairs.iter().any(|pair| pair.code == 67 && pair.value.trim() == "1")
    }
}

/// The first number of a group code, or what is meant when it is absent.
pub(super) fn number(pairs: &[Pair], code: i32, absent: f64) -> Result<f64, Refused> {
    pairs.iter().find(|pair| pair.code == code).map_or(Ok(absent), Pair::number)
}

/// The first whole number of a group code; 0 when it is absent.
pub(super) fn whole(pairs: &[Pair], code: i32) -> Result<i64, Refused> {
    pairs.iter().find(|pair| pair.code == code).map_or(Ok(0), Pair::whole)
}
