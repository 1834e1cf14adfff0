//! Edges that the person says are one line.

use super::stretch::Stretch;
use super::{EdgeName, Face, MeasuredPlane, Meeting, apart, problem, told};
use crate::EdgeKind;
use crate::problem::{MeasuredPart, Problem, Severity};

/// Two tapes of one line agree if they differ by no more.
const AGREE: f64 = 1.0;

/// Ties stretches as told, and says what cannot be tied. Edges whose plane could not be worked out stay alone.
pub(super) fn tie(planes: &[MeasuredPlane], faces: &[Face], stretches: &mut [Stretch]) -> Vec<Problem> {
    let mut found = Vec::new();
    for (index, plane) in planes.iter().enumerate() {
        for (&name, meeting) in &plane.meets {
            let tied = Tie { planes, faces, from: (index, name), to: meeting }.make(stretches);
            found.extend(tied.err().map(|fault| fault.problem(plane, index, name)));
        }
    }
    found
}

/// One tie to be made.
struct Tie<'a> {
    planes: &'a [MeasuredPlane],
    faces: &'a [Face],
    from: (usize, EdgeName),
    to: &'a Meeting,
}

/// Why a tie is not made.
struct Fault {
    code: &'static str,
    says: String,
    remedy: &'static str,
}

impl Fault {
    fn problem(self, plane: &MeasuredPlane, index: usize, name: EdgeName) -> Problem {
        problem(plane, index, MeasuredPart::Meets(name), (self.code, Severity::Error), &self.says, self.remedy)
    }
}

impl Tie<'_> {
    fn make(&self, stretches: &mut [Stretch]) -> Result<(), Fault> {
        let to = self.named()?;
        let (Some(here), Some(there)) = (self.stretch(self.from, stretches)?, self.stretch(to, stretches)?) else {
            return Ok(());
        };
        if stretches[here].twin == Some(there) {
            return Ok(());
        }
        for (stretch, of) in [(here, self.from), (there, to)] {
            if stretches[stretch].twin.is_some() {
                return Err(self.taken(of));
            }
        }
        let lengths = [here, there].map(|stretch| stretches[stretch].length());
        if (lengths[0] - lengths[1]).abs() > AGREE {
            return Err(self.differ(lengths));
        }
        self.is_one_line([here, there].map(|stretch| &stretches[stretch]))?;
        let kind = self.kind(to)?;
        for (one, other) in [(here, there), (there, here)] {
            stretches[one].twin = Some(other);
            stretches[one].kind = kind;
        }
        Ok(())
    }

    /// The other edge.
    fn named(&self) -> Result<(usize, EdgeName), Fault> {
        let Meeting { plane, edge } = self.to;
        let index = self.planes.iter().position(|other| other.name == *plane);
        let Some(index) = index.filter(|&index| index != self.from.0) else {
            let known: Vec<&str> = self.others().collect();
            let says =
                format!("meets {plane}.{edge}, but there is no other measured plane {plane}; there is {}", list(&known));
            return Err(Fault {
                code: "tie-unknown",
                says,
                remedy: "write the other plane's name as it stands in its table",
            });
        };
        Ok((index, *edge))
    }

    fn others(&self) -> impl Iterator<Item = &str> {
        let others = self.planes.iter().enumerate().filter(|(index, _)| *index != self.from.0);
        others.map(|(_, plane)| plane.name.as_str())
    }

    /// The one stretch of an edge; none if its plane could not be worked out.
    fn stretch(&self, (plane, name): (usize, EdgeName), stretches: &[Stretch]) -> Result<Option<usize>, Fault> {
        let Some(face) = self.faces.iter().position(|face| face.of == plane) else { return Ok(None) };
        let is_it = |stretch: &Stretch| stretch.face == face && stretch.name == Some(name);
        let own: Vec<usize> = (0..stretches.len()).filter(|&index| is_it(&stretches[index])).collect();
        match own.as_slice() {
            [one] => Ok(Some(*one)),
            [] => {
                let says = format!("cannot meet there: {} has no edge {name}", self.planes[plane].name);
                Err(Fault { code: "tie-unknown", says, remedy: "a triangle has no top; corners are counted from 0" })
            }
            _ => Err(self.taken((plane, name))),
        }
    }

    fn taken(&self, (plane, name): (usize, EdgeName)) -> Fault {
        let says = format!("cannot meet there: {}.{name} meets another plane already", self.planes[plane].name);
        Fault { code: "tie-taken", says, remedy: "an edge meets one other edge; look which of the two is meant" }
    }

    /// Corners in space know where an edge is, whatever is said of it.
    fn is_one_line(&self, pair: [&Stretch; 2]) -> Result<(), Fault> {
        let placed = pair.iter().all(|stretch| self.faces[stretch.face].plane.has_place());
        let off = apart::between(self.faces, pair);
        if !placed || off <= apart::ONE_LINE {
            return Ok(());
        }
        let Meeting { plane, edge } = self.to;
        let says = format!(
            "meets {plane}.{edge}, but by their corners they lie up to {} off each other, so each is counted for itself",
            told(off)
        );
        Err(Fault { code: "tie-apart", says, remedy: "look which edge is meant, and measure the corners of both again" })
    }

    fn differ(&self, [here, there]: [f64; 2]) -> Fault {
        let says = format!(
            "has an edge {} of {} that meets {}.{} of {}: one line, {} apart, so each is counted for itself",
            self.from.1,
            told(here),
            self.to.plane,
            self.to.edge,
            told(there),
            told((here - there).abs())
        );
        Fault { code: "tie-lengths-differ", says, remedy: "tape that line again; its two lengths must agree within 1 in" }
    }

    /// What the joint is: as told on either side, else by custom where there is only one thing it can be.
    fn kind(&self, to: (usize, EdgeName)) -> Result<EdgeKind, Fault> {
        let [here, there] = [self.from, to].map(|(plane, name)| self.planes[plane].kinds.get(&name).copied());
        let kind = match (here, there) {
            (Some(here), Some(there)) if here != there => return Err(self.named_differently(here, there)),
            (Some(told), _) | (None, Some(told)) => told,
            (None, None) => self.by_custom(to.1)?,
        };
        if matches!(kind, EdgeKind::Hip | EdgeKind::Valley | EdgeKind::Ridge | EdgeKind::Break) {
            return Ok(kind);
        }
        let says = format!("meets {}.{} at a {}, where no other plane can be", self.to.plane, self.to.edge, kind.name());
        Err(Fault { code: "tie-of-a-free-edge", says, remedy: "planes meet at a ridge, hip, valley or break" })
    }

    fn named_differently(&self, here: EdgeKind, there: EdgeKind) -> Fault {
        let Meeting { plane, edge } = self.to;
        let says = format!(
            "calls its edge {} a {}, and {plane}.{edge}, the same line, is called a {}",
            self.from.1,
            here.name(),
            there.name()
        );
        Fault { code: "tie-named-differently", says, remedy: "one line has one name; correct one of the two" }
    }

    fn by_custom(&self, to: EdgeName) -> Result<EdgeKind, Fault> {
        match (self.from.1, to) {
            (EdgeName::Top, EdgeName::Top) => Ok(EdgeKind::Ridge),
            (EdgeName::Top, EdgeName::Eave) | (EdgeName::Eave, EdgeName::Top) => Ok(EdgeKind::Break),
            (EdgeName::Eave, EdgeName::Eave) => Ok(EdgeKind::Valley),
            _ => {
                let says =
                    format!("meets {}.{}, and nothing tells whether that is a hip or a valley", self.to.plane, self.to.edge);
                Err(Fault { code: "tie-unnamed", says, remedy: "write it in edges, as in edges = { right = \"hip\" }" })
            }
        }
    }
}

fn list(names: &[&str]) -> String {
    if names.is_empty() { "none".into() } else { names.join(", ") }
}
