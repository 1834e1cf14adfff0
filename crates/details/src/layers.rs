use crate::strip::Rolls;
use crate::{Given, Kind, underlayment_layers};

/// What lies on what on some planes. A fire class is tested for such a list as a whole, never for one of its layers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layers {
    /// Indices in [`roof::Roof::planes`].
    pub planes: Vec<usize>,
    /// From the deck up.
    pub layers: Vec<Layer>,
    /// Fire tests of the sheet, each with the layers it was burnt on, to be compared with these: a sentence each.
    pub fire: Vec<String>,
}

/// One layer of a roof.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layer {
    /// Its part in the roof.
    pub kind: LayerKind,
    /// What it is made of, as the sheet or the job names it.
    pub name: String,
    /// How many times it lies over itself, laps apart.
    pub times: u32,
    /// It covers only a part of the plane.
    pub in_part: bool,
}

/// The part that a layer plays.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LayerKind {
    /// What everything is fastened to.
    Deck,
    /// Sticks to the deck where ice backs water up.
    IceBarrier,
    /// Over the whole deck.
    Underlayment,
    /// Between courses of shakes.
    Interlayment,
    /// The covering.
    Units,
}

impl LayerKind {
    /// The trade's word for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Deck => "deck",
            Self::IceBarrier => "ice barrier",
            Self::Underlayment => "underlayment",
            Self::Interlayment => "interlayment",
            Self::Units => "units",
        }
    }
}

/// One list for all planes with the same layers, in the order of their first planes.
pub(crate) fn layers(given: &Given<'_>, rolls: &[Rolls]) -> Vec<Layers> {
    let mut lists: Vec<Layers> = Vec::new();
    for (index, ..) in given.covered() {
        let layers = of_plane(given, rolls, index);
        match lists.iter_mut().find(|list| list.layers == layers) {
            Some(list) => list.planes.push(index),
            None => lists.push(Layers { planes: vec![index], layers, fire: fire(given, index) }),
        }
    }
    lists
}

/// Names are free words on a sheet, so a person compares the lists.
fn fire(given: &Given<'_>, plane: usize) -> Vec<String> {
    let tests = given.covering(plane).map_or(&[][..], |covering| &covering.conditions.tested.fire);
    let says = |test: &covering::FireTest| {
        let down: Vec<&str> = test.layers.iter().rev().map(String::as_str).collect();
        format!(
            "Class {} ({}) was reached on {}, and holds for no other list.",
            test.class.name(),
            test.test,
            down.join(" / ")
        )
    };
    tests.iter().map(says).collect()
}

fn of_plane(given: &Given<'_>, rolls: &[Rolls], plane: usize) -> Vec<Layer> {
    let layer = |kind, name: &str| Layer { kind, name: name.into(), times: 1, in_part: false };
    let on_plane = |kind: Kind| {
        let of_kind = rolls.iter().filter(move |rolls| rolls.kind == kind);
        of_kind.filter(move |rolls| rolls.strips.iter().flat_map(|strip| &strip.patches).any(|patch| patch.plane == plane))
    };
    let mut layers = vec![layer(LayerKind::Deck, given.deck.kind.unwrap_or("not told"))];
    layers.extend(
        on_plane(Kind::IceBarrier).map(|rolls| Layer { in_part: true, ..layer(LayerKind::IceBarrier, &rolls.roll.name) }),
    );
    if let (Some(covering), Some(surface)) = (given.covering(plane), given.roof.planes.get(plane)) {
        let times = underlayment_layers(covering, surface);
        layers.push(Layer { times, ..layer(LayerKind::Underlayment, &covering.underlayment.name) });
        layers.extend(on_plane(Kind::Interlayment).map(|rolls| layer(LayerKind::Interlayment, &rolls.roll.name)));
        layers.push(layer(LayerKind::Units, &covering.name));
    }
    layers
}
