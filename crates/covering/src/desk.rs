use reader::{Mistake, Places};
use units::{Length, LengthUnit, Mass, Measure};

/// Where the figures of one sheet are looked at, one after the other.
pub(crate) struct Desk<'a> {
    pub(crate) units: LengthUnit,
    pub(crate) places: &'a Places,
    pub(crate) mistakes: Vec<Mistake>,
}

/// No unit of a roof, nor anything that it keeps from another, is longer than this.
const LONGEST: Length = Length::feet(10.0);

/// No roll is longer than this.
const LONGEST_ROLL: Length = Length::feet(2000.0);

impl Desk<'_> {
    pub(crate) fn mistake(&mut self, path: &str, says: impl Into<String>, remedy: &str) {
        self.mistakes.push(self.places.mistake(path, says, remedy));
    }

    /// Notes a mistake unless `sound`.
    pub(crate) fn expect(&mut self, sound: bool, path: &str, says: impl FnOnce() -> String, remedy: &str) {
        if !sound {
            self.mistake(path, says(), remedy);
        }
    }

    fn between(&mut self, path: &str, value: Measure, least: Length, most: Length) -> Length {
        let is = value.in_unit(self.units);
        let says = || format!("{is} is not a length from {least} to {most}");
        self.expect(is >= least && is <= most, path, says, "Type the figure with its unit, such as \"16 in\".");
        is
    }

    /// A length along which pieces are counted: below an inch their number would run away.
    pub(crate) fn size(&mut self, path: &str, value: Measure) -> Length {
        self.between(path, value, Length::inches(1.0), LONGEST)
    }

    /// A thickness or a cover: more than nothing.
    pub(crate) fn some(&mut self, path: &str, value: Measure) -> Length {
        self.between(path, value, Length::TAPE_STEP, LONGEST)
    }

    /// A gap, a lap, a projection: nothing or more.
    pub(crate) fn nil_or_more(&mut self, path: &str, value: Measure) -> Length {
        self.between(path, value, Length::ZERO, LONGEST)
    }

    pub(crate) fn roll(&mut self, path: &str, value: Measure) -> Length {
        self.between(path, value, Length::inches(1.0), LONGEST_ROLL)
    }

    pub(crate) fn mass(&mut self, path: &str, pounds: f64) -> Mass {
        let says = || format!("{pounds} is not a weight from 0 to 1000 lb");
        self.expect((0.0..=1000.0).contains(&pounds), path, says, "Type pounds for one piece.");
        Mass::pounds(pounds)
    }

    pub(crate) fn count(&mut self, path: &str, count: u32) -> u32 {
        let says = || format!("{count} is not a count from 1 to 100,000");
        self.expect((1..=100_000).contains(&count), path, says, "Type how many there are.");
        count
    }

    pub(crate) fn words(&mut self, path: &str, text: &str) -> String {
        self.expect(!text.trim().is_empty(), path, || "nothing is written here".into(), "Write at least a word.");
        text.trim().into()
    }
}
