use units::Pitch;

use crate::clear::boxed;
use crate::lettering::{LINE, SMALL, centred, centred_strong, strong_width, width};
use crate::{Item, Point};

/// Blank paper around lettering, mm.
const CLEAR: f64 = 1.2;

/// Words about a plane: its name, or the letter that stands for it, then its pitch.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Label {
    /// Heavy lines.
    name: Vec<String>,
    /// Light line.
    pitch: Option<String>,
    /// Degrees clockwise.
    turn: f64,
}

impl Label {
    /// The ways in which a name and a pitch may be written, the best to read first.
    pub(crate) fn ways(plane: &plan::Plane) -> Vec<Self> {
        let whole = vec![plane.name.clone()];
        let broken: Vec<String> = plane.name.split_inclusive(", ").map(|part| part.trim_end().to_owned()).collect();
        let way = |name: &Vec<String>, turn: f64| Self { name: name.clone(), pitch: Some(pitch(plane)), turn };
        vec![way(&whole, 0.0), way(&broken, 0.0), way(&whole, -90.0), way(&broken, -90.0)]
    }

    pub(crate) fn letter(letter: &str) -> Self {
        Self { name: vec![letter.to_owned()], pitch: None, turn: 0.0 }
    }

    fn size(&self) -> [f64; 2] {
        let names = self.name.iter().map(|line| strong_width(line, SMALL));
        let pitch = self.pitch.iter().map(|line| width(line, SMALL));
        let lines = self.name.len() + usize::from(self.pitch.is_some());
        [names.chain(pitch).fold(0.0, f64::max), LINE * (lines as f64 - 1.0) + SMALL]
    }

    /// The box that it takes about its middle.
    pub(crate) fn room(&self, middle: Point) -> [Point; 4] {
        boxed(middle, self.size().map(|long| long + 2.0 * CLEAR), self.turn)
    }

    /// How far its box reaches from its middle in a direction, mm.
    pub(crate) fn reach(&self, along: Point) -> f64 {
        let corners = self.room([0.0; 2]);
        corners.iter().map(|corner| corner[0] * along[0] + corner[1] * along[1]).fold(0.0, f64::max)
    }

    pub(crate) fn draw(&self, middle: Point) -> Vec<Item> {
        let [sin, cos] = [libm::sin(self.turn.to_radians()), libm::cos(self.turn.to_radians())];
        let top = SMALL / 2.0 - self.size()[1] / 2.0;
        let at = |index: usize| {
            let down = top + LINE * index as f64;
            [middle[0] - down * sin, middle[1] + down * cos]
        };
        let names = self.name.iter().enumerate().map(|(index, line)| centred_strong(at(index), self.turn, line));
        let pitch = self.pitch.iter().map(|line| centred(at(self.name.len()), self.turn, line));
        names.chain(pitch).collect()
    }
}

pub(crate) fn pitch(plane: &plan::Plane) -> String {
    Pitch::per_12(plane.pitch).map(|pitch| pitch.to_string()).unwrap_or_default()
}
