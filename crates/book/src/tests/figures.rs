//! Every figure on the sheets stands in the plan: a book reckons nothing.

use std::collections::BTreeSet;

use plan::Plan;
use serde_json::Value;
use units::Pitch;

use super::{PARTS, binding, examples, lines};
use crate::measure::grouped;
use crate::{Language, Measures};

/// The figures in a line: words with a digit, feet together with their inches.
fn figures(line: &str) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    let mut feet = false;
    for word in line.split(|c: char| c.is_whitespace() || "();:–".contains(c)) {
        let word = word.trim_matches(|c: char| ",.…«»[]→".contains(c));
        if !word.contains(|c: char| c.is_ascii_digit()) {
            feet = false;
            continue;
        }
        match all.last_mut() {
            Some(last) if feet && word.ends_with('"') => *last += &format!(" {word}"),
            _ => all.push(word.to_owned()),
        }
        feet = word.ends_with('\'');
    }
    all
}

/// Every way in which the plan's figures may be printed.
struct Allowed {
    measures: Measures,
    printed: BTreeSet<String>,
}

impl Allowed {
    fn of(plan: &Plan, measures: Measures) -> Self {
        let mut allowed = Self { measures, printed: BTreeSet::new() };
        allowed.walk("", &serde_json::to_value(plan).unwrap());
        allowed.derived(plan);
        for text in [include_str!("../../text/en.ftl"), include_str!("../../text/es.ftl")] {
            text.lines().for_each(|line| allowed.words(line));
        }
        // Scales are the paper's own, and so are the names of strips and of the check line.
        drawings::Scale::series().for_each(|scale| allowed.words(&scale.to_string()));
        drawings::Scale::metric_series().for_each(|scale| allowed.words(&format!("1:{} {}", scale.ratio, scale.ratio)));
        allowed.words("6\" 150 mm 1 2 4 8 10 20 40 80 100 200 400 500 1000");
        allowed
    }

    fn words(&mut self, words: &str) {
        self.printed.extend(figures(words));
    }

    fn inches(&mut self, inches: f64) {
        let forms = [self.measures.long(inches), self.measures.short(inches), self.measures.mark(inches)];
        forms.iter().for_each(|form| self.words(form));
    }

    /// Keys tell units.
    fn walk(&mut self, key: &str, value: &Value) {
        match value {
            Value::Object(fields) => fields.iter().for_each(|(key, value)| self.walk(key, value)),
            Value::Array(items) => {
                self.words(&format!("{} {}", items.len(), grouped(items.len() as f64, 0)));
                items.iter().enumerate().for_each(|(index, item)| {
                    if item.is_object() {
                        self.words(&(index + 1).to_string());
                    }
                    self.walk(key, item);
                });
            }
            Value::Number(number) => self.number(key, number.as_f64().unwrap()),
            Value::String(words) => {
                self.words(words);
                self.lengths_in(words);
            }
            _ => {}
        }
    }

    /// Lengths in the plan's own sentences are printed in the reader's measures.
    fn lengths_in(&mut self, words: &str) {
        for figure in figures(words) {
            if let Ok(length) = figure.parse::<units::Length>() {
                self.inches(length.to_inches());
            }
        }
    }

    fn number(&mut self, key: &str, value: f64) {
        self.words(&format!("{value} {} {} {}", grouped(value, 0), grouped(value, 1), grouped(value, 2)));
        match key.rsplit('_').next().unwrap_or(key) {
            "in" => self.inches(value),
            "ft" => {
                self.inches(value * 12.0);
                self.words(&grouped(value * 0.3048, 1));
            }
            "sqft" => {
                self.words(&self.measures.area(value));
                self.words(&format!("{:.2}", value / 100.0));
            }
            "sqin" => self.words(&self.measures.vent(value)),
            "lb" => self.words(&self.measures.weight(value)),
            "deg" => self.words(&format!("{value:.1}°")),
            // Quantities of the order.
            "quantity" => self.words(&format!("{} {}", grouped(value * 0.3048, 1), grouped(value * 0.092_903_04, 1))),
            "pitch" => {
                let pitch = Pitch::per_12(value).unwrap();
                self.words(&format!("{pitch} {:.1}°", pitch.degrees()));
            }
            "short" | "taken" => self.words(&grouped(100.0 * value, 1)),
            "share" => self.words(&format!("1/{value}")),
            // Places and ordinals are counted from 0 in the plan and from 1 on paper.
            "course" | "courses" | "cut" | "kind" => self.words(&(value + 1.0).to_string()),
            _ => {}
        }
    }

    /// What is a sum or a difference of the plan's figures, reckoned here again.
    fn derived(&mut self, plan: &Plan) {
        self.alike(plan);
        let weight: f64 = plan.order.iter().map(|line| line.weight_lb).sum();
        self.words(&self.measures.weight(weight));
        for laid in &plan.layout.planes {
            let runs = || laid.courses.iter().flat_map(|course| &course.runs);
            let all: u32 = runs().map(|run| run.count).sum();
            let cut: u32 = runs().filter(|run| run.cut.is_some()).map(|run| run.count).sum();
            self.words(&format!("{} {}", grouped(f64::from(all), 0), grouped(f64::from(cut), 0)));
            for cut in 0..laid.cuts.len() {
                let times: u32 = runs().filter(|run| run.cut == Some(cut as u32)).map(|run| run.count).sum();
                self.words(&times.to_string());
            }
            self.inches(-laid.first_butt_in);
            self.inches(laid.top_in - laid.first_butt_in);
            laid.starters.iter().for_each(|row| self.inches(row.butt_in - laid.first_butt_in));
            for row in &laid.starters {
                let same = laid.starters.iter().filter(|other| (other.butt_in - row.butt_in).abs() < 1e-6);
                let all: u32 = same.map(|row| row.count).sum();
                self.words(&all.to_string());
            }
            laid.stations.iter().for_each(|station| self.inches(station.v_in - laid.first_butt_in));
            for course in &laid.courses {
                let left = course.spans_in.first().map_or(0.0, |span| span[0]);
                course.joints_in.iter().for_each(|joint| self.inches(joint - left));
            }
            laid.cuts.iter().for_each(|cut| self.sides(&cut.parts_in));
            plan.roof.planes.iter().filter(|plane| plane.id == laid.id).for_each(|plane| self.edges(plane, laid));
            let strips = laid.poles.iter().map(|pole| (pole.top_in / 9.0).ceil() as usize);
            (1..=strips.max().unwrap_or(0)).for_each(|strip| self.words(&strip.to_string()));
        }
        let again = plan.loads.piles.iter().filter(|pile| pile.times > 1);
        again.for_each(|pile| self.words(&format!("{}×{}", pile.times, pile.at_once)));
        for cutting in &plan.layout.cutting {
            cutting.kinds.iter().for_each(|kind| self.sides(&kind.parts_in));
            let pieces: u64 = cutting.kinds.iter().map(|kind| kind.count).sum();
            self.words(&grouped(pieces as f64, 0));
        }
        for outcome in ["fail", "attention", "pass"] {
            self.words(&plan.checks.iter().filter(|check| check.outcome == outcome).count().to_string());
        }
        self.words(&plan.details.order_of_work.iter().filter(|step| step.hold_point).count().to_string());
    }

    /// How many planes of one outline take as many pieces, and how many they take together.
    fn alike(&mut self, plan: &Plan) {
        let counted = |laid: &plan::LaidPlane| {
            let runs = || laid.courses.iter().flat_map(|course| &course.runs);
            let all: u32 = runs().map(|run| run.count).sum();
            [all, runs().filter(|run| run.cut.is_some()).map(|run| run.count).sum()]
        };
        let area = |id: &str| plan.roof.planes.iter().find(|plane| plane.id == id).map(|plane| plane.area_sqft).unwrap();
        for laid in &plan.layout.planes {
            let is_like = |other: &&plan::LaidPlane| {
                counted(other) == counted(laid) && (area(&other.id) - area(&laid.id)).abs() < 1e-3
            };
            let like: Vec<&plan::LaidPlane> = plan.layout.planes.iter().filter(is_like).collect();
            self.words(&format!("{} {}", like.len(), like.len() - 1));
            for kind in [0, 1] {
                let together: u32 = like.iter().map(|laid| counted(laid)[kind]).sum();
                self.words(&grouped(f64::from(together), 0));
            }
        }
    }

    /// How far the laid outline stands out past the plane at its left, and off its valleys.
    fn edges(&mut self, plane: &plan::Plane, laid: &plan::LaidPlane) {
        let left = |rings: &[Vec<[f64; 2]>]| rings.iter().flatten().map(|corner| corner[0]).fold(f64::INFINITY, f64::min);
        self.inches(left(&plane.outlines_in) - left(&laid.laid_in));
        let sides = plane.outlines_in.iter().flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)));
        for ((a, b), _) in sides.zip(&plane.edges).filter(|(_, edge)| edge.kind == "valley") {
            let [dx, dy] = [b[0] - a[0], b[1] - a[1]];
            for [x, y] in laid.laid_in.iter().flatten() {
                self.inches(((x - a[0]) * dy - (y - a[1]) * dx).abs() / (dx * dx + dy * dy).sqrt());
            }
        }
    }

    /// Widths and lengths of a piece: between two of its corners, across or along.
    fn sides(&mut self, parts: &[Vec<[f64; 2]>]) {
        let corners: Vec<[f64; 2]> = parts.iter().flatten().copied().collect();
        for a in &corners {
            for b in &corners {
                self.inches((a[0] - b[0]).abs());
                self.inches((a[1] - b[1]).abs());
            }
        }
    }
}

#[test]
fn every_printed_figure_stands_in_the_plan() {
    for (name, plan) in examples() {
        for (language, measures) in [(Language::English, Measures::Customary), (Language::Spanish, Measures::Metric)] {
            let allowed = Allowed::of(&plan, measures);
            for part in PARTS {
                let content = crate::content(&plan, &binding(language, measures, part)).unwrap();
                let printed: BTreeSet<String> = lines(&content).iter().flat_map(|line| figures(line)).collect();
                let unknown: Vec<&String> = printed.difference(&allowed.printed).collect();
                assert_eq!(unknown, Vec::<&String>::new(), "{name}, {part:?}, {measures:?}");
            }
        }
    }
}

#[test]
fn a_figure_that_is_not_in_the_plan_is_caught() {
    let (_, plan) = examples().swap_remove(0);
    let allowed = Allowed::of(&plan, Measures::Customary);
    for wrong in ["123' 4-5/16\"", "98,765", "77.7°"] {
        assert!(figures(wrong).iter().all(|figure| !allowed.printed.contains(figure)), "{wrong}");
    }
}
