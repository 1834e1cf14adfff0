use std::collections::BTreeSet;
use std::path::PathBuf;

use plan::{Edge, Job, Plan, Plane, UnfinishedPlane};
use roof::{Block, Dormer, DormerKind, EdgeName, MeasuredPlane, Side, SideKind, Taken};
use units::{Length, Pitch};

use super::plan::{is_all_planned, problems, read};
use crate::Ending;
use crate::ink::Ink;
use crate::output::{print, tell};
use crate::page::text::Page;

/// Print a sheet of the tapes that a roof still needs, with blanks to fill in on the ladder
#[derive(clap::Args)]
pub(crate) struct Arguments {
    /// The job file, TOML or, if its name ends in .json, JSON
    job: PathBuf,
}

pub(crate) fn run(arguments: &Arguments) -> Ending {
    match read(&arguments.job) {
        Ok((source, job, catalog)) => {
            let plan = plan::plan(&job, &catalog);
            tell(&problems(&source, &job, &plan));
            let printed = print(&sheet(&job, &plan, Ink::on(&std::io::stdout())));
            if is_all_planned(&plan) { printed } else { Ending::NotAll }
        }
        Err(notes) => {
            tell(&notes);
            Ending::Unread
        }
    }
}

/// For feet, inches and sixteenths.
const LENGTH: &str = "____' ____ __/16";
const PITCH: &str = "________ in 12";
const WORD: &str = "________________";

fn sheet(job: &Job, plan: &Plan, ink: Ink) -> String {
    let mut sheet = Sheet { page: Page::new(ink), plan, done: BTreeSet::new() };
    sheet.head(&job.name);
    job.blocks.iter().for_each(|block| sheet.block(block));
    job.dormers.iter().for_each(|dormer| sheet.dormer(dormer));
    job.planes.iter().for_each(|plane| sheet.measured(plane));
    job.unfinished.iter().for_each(|plane| sheet.unfinished(plane));
    sheet.deck_and_nails(job);
    sheet.on_the_roof(job);
    sheet.page.finished()
}

/// A sheet under way, in the order of a walk round the house.
struct Sheet<'a> {
    page: Page,
    plan: &'a Plan,
    /// Ids of planes that are done with: what they share with others is asked already.
    done: BTreeSet<&'a str>,
}

impl<'a> Sheet<'a> {
    fn head(&mut self, name: &str) {
        self.page.title(&format!("{name}: tapes to take"));
        self.page.wrapped(
            0,
            "The middle column is what the job makes of it. Where your tape differs by more than an inch, look why before \
             you come down. Left and right as you face the plane from the ground.",
        );
    }

    fn block(&mut self, block: &Block) {
        self.page.heading(&block.name);
        // A job that gives no height has its eaves at the datum.
        if block.eave_height.abs() <= 0.0 {
            self.page.blank_to_fill("eave above the ground", "", LENGTH);
        }
        for (index, side) in block.sides.iter().enumerate() {
            self.overhang(block, index, side);
            // Above a break of the pitch the plane over the same side is `house.0/1`.
            let own = format!("{}.{index}", block.name);
            self.planes(|id| id.strip_prefix(&own).is_some_and(|rest| rest.is_empty() || rest.starts_with('/')));
        }
        self.planes(|id| id.strip_prefix(&block.name).is_some_and(|rest| rest.starts_with(".hole")));
    }

    fn dormer(&mut self, dormer: &Dormer) {
        self.page.heading(&dormer.name);
        if dormer.overhang.is_none() {
            self.page.blank_to_fill("overhang at its eaves", "", LENGTH);
        }
        if dormer.rake_overhang.is_none() && dormer.kind != DormerKind::Hip {
            self.page.blank_to_fill("overhang at its rakes", "", LENGTH);
        }
        self.planes(|id| id.rsplit_once('.').is_some_and(|(block, _)| block == dormer.name));
    }

    fn overhang(&mut self, block: &Block, index: usize, side: &Side) {
        let word = match side.kind {
            SideKind::Eave(_) => "eave",
            SideKind::Gable => "gable",
            SideKind::Wall => return,
        };
        if side.overhang.is_some() {
            return;
        }
        let [from, to] = [index, index + 1].map(|at| block.outline.get(at % block.outline.len().max(1)));
        let long = from.zip(to).map(|(&from, &to)| Length::inches(geom::distance(from, to)));
        let long = long.map_or_else(String::new, |long| format!(", {long} long"));
        self.page.blank_to_fill(&format!("overhang, side {index} ({word}{long})"), "", LENGTH);
    }

    fn planes(&mut self, asked: impl Fn(&str) -> bool) {
        let plan = self.plan;
        plan.roof.planes.iter().filter(|plane| asked(&plane.id)).for_each(|plane| self.plane(plane));
    }

    /// What the job computes of a plane, to be proved with the tape.
    fn plane(&mut self, plane: &'a Plane) {
        self.page.wrapped(2, &plane.name);
        self.pitch(plane);
        // What is cut out of a plane is measured with the dormer or the chimney that stands there.
        for (ring, edges) in rings(plane).filter(|(ring, _)| geom::polygon::area(ring) > 0.0) {
            self.edges(ring, edges);
            self.diagonals(ring, |_| true);
        }
        self.done.insert(&plane.id);
    }

    /// The rafter stands beside the pitch because a tape proves it better than a level does.
    fn pitch(&mut self, plane: &Plane) {
        let pitch = Pitch::per_12(plane.pitch).map(|pitch| pitch.to_string()).unwrap_or_default();
        self.page.blank_to_fill("  pitch", &pitch, PITCH);
        let heights = || plane.outlines_in.iter().flatten().map(|&[_, v]| v);
        let rafter = heights().fold(f64::NEG_INFINITY, f64::max) - heights().fold(f64::INFINITY, f64::min);
        let told = Length::inches(rafter).to_string();
        self.page.blank_to_fill("  rafter: low edge to top, up the slope", &told, LENGTH);
    }

    fn edges(&mut self, ring: &[[f64; 2]], edges: &[Edge]) {
        for (at, edge) in edges.iter().enumerate().filter(|(_, edge)| edge.kind != "eave") {
            if !self.done.contains(edge.meets.as_str()) {
                let label = format!("  {}", edge_label(ring, at, edge.kind));
                self.page.blank_to_fill(&label, &Length::feet(edge.length_ft).to_string(), LENGTH);
            }
        }
    }

    fn diagonals(&mut self, ring: &[[f64; 2]], asked: impl Fn(usize) -> bool) {
        for (index, [from, to]) in diagonals(ring.len()).into_iter().enumerate().filter(|&(index, _)| asked(index)) {
            let label = match (ring.len(), index) {
                (4, 0) => "  diagonal, lower left to upper right".into(),
                (4, _) => "  diagonal, lower right to upper left".into(),
                _ => format!("  diagonal, corner {} to {}", from + 1, to + 1),
            };
            let told = Length::inches(geom::distance(ring[from], ring[to])).to_string();
            self.page.blank_to_fill(&label, &told, LENGTH);
        }
    }

    fn measured(&mut self, plane: &MeasuredPlane) {
        let id = format!("plane.{}", plane.name);
        let Some(found) = self.plan.roof.planes.iter().find(|found| found.id == id) else {
            return self.page.heading(&format!("{}: to be taped again, see what is wrong with it", plane.name));
        };
        match &plane.taken {
            Taken::ByCorners { .. } => {
                self.page.blank();
                self.plane(found);
            }
            Taken::ByTape(tape) => {
                self.page.heading(&plane.name);
                self.pitch(found);
                if tape.facing_deg.is_none() {
                    self.page.blank_to_fill("  which way it faces", "", WORD);
                }
                let missing = [tape.diagonal_left.is_none(), tape.diagonal_right.is_none()];
                let ring = found.outlines_in.first().map_or(&[][..], Vec::as_slice);
                self.diagonals(ring, |index| missing[index % 2]);
                self.lone_edges(plane, found);
            }
        }
    }

    /// Every tape, with what is there of them: the plane cannot be computed, and so not proved, before all are there.
    fn unfinished(&mut self, plane: &UnfinishedPlane) {
        self.page.heading(&plane.name);
        let pitch = plane.pitch.map(|pitch| pitch.to_string()).unwrap_or_default();
        self.page.blank_to_fill("  pitch", &pitch, PITCH);
        for (key, tape) in plane.needed {
            let told = tape.map(|tape| tape.to_string()).unwrap_or_default();
            let label = match key {
                "top" => "  top (0 for a triangle)".into(),
                _ => format!("  {}", key.replace('_', " ")),
            };
            self.page.blank_to_fill(&label, &told, LENGTH);
        }
        for diagonal in ["  diagonal, lower left to upper right", "  diagonal, lower right to upper left"] {
            self.page.blank_to_fill(diagonal, "", LENGTH);
        }
    }

    /// Sides called hip or valley run along another plane: which one is asked until it is told from either side.
    fn lone_edges(&mut self, plane: &MeasuredPlane, found: &Plane) {
        let joints = [EdgeName::Left, EdgeName::Right]
            .into_iter()
            .filter(|name| plane.kinds.get(name).is_some_and(|kind| matches!(kind.name(), "hip" | "valley")));
        let untied = found.edges.iter().filter(|edge| matches!(edge.kind, "hip" | "valley") && edge.meets.is_empty());
        if untied.count() > 0 {
            for name in joints.filter(|name| !plane.meets.contains_key(name)) {
                self.page.blank_to_fill(&format!("  plane and edge that its {name} side meets"), "", WORD);
            }
        }
    }

    fn deck_and_nails(&mut self, job: &Job) {
        let thickness = job.deck.and_then(|deck| deck.thickness);
        let soffit = job.deck.and_then(|deck| deck.exposed_soffit);
        let nail = job.fastener.and_then(|fastener| fastener.length);
        let asked = [
            (thickness.is_none(), "thickness of the bare deck", LENGTH),
            (soffit.is_none(), "underside of the deck seen at the eaves?", WORD),
            (nail.is_none(), "length of the nails", LENGTH),
        ];
        if asked.iter().any(|(asked, ..)| *asked) {
            self.page.heading("Deck and nails");
        }
        for (_, label, blank) in asked.into_iter().filter(|(asked, ..)| *asked) {
            self.page.blank_to_fill(label, "", blank);
        }
    }

    fn on_the_roof(&mut self, job: &Job) {
        let known: Vec<&str> = job.openings.iter().map(|opening| opening.name.as_str()).collect();
        let besides = if known.is_empty() { String::new() } else { format!(", besides {}", known.join(", ")) };
        self.page.heading(&format!("What stands on the roof{besides}: for each, once"));
        for (label, blank) in [
            ("chimney, skylight, pipe or vent", WORD),
            ("  on which plane", WORD),
            ("  width across the slope", LENGTH),
            ("  length up the slope", LENGTH),
            ("  from the eave up the slope to its middle", LENGTH),
            ("  from the plane's left end to its middle", LENGTH),
        ] {
            self.page.blank_to_fill(label, "", blank);
        }
    }
}

/// Each ring with its edges.
fn rings(plane: &Plane) -> impl Iterator<Item = (&[[f64; 2]], &[Edge])> {
    let mut rest = plane.edges.as_slice();
    plane.outlines_in.iter().map(move |ring| {
        let (own, after) = rest.split_at(ring.len().min(rest.len()));
        rest = after;
        (ring.as_slice(), own)
    })
}

/// Both diagonals of four corners; of more, those from the first corner, which fix the shape. Rings begin at the lower left
/// and run to the right.
fn diagonals(corners: usize) -> Vec<[usize; 2]> {
    match corners {
        4 => vec![[0, 2], [1, 3]],
        _ => (2..corners.max(3) - 1).map(|to| [0, to]).collect(),
    }
}

fn edge_label(ring: &[[f64; 2]], at: usize, kind: &str) -> String {
    let [a, b] = [ring[at], ring[(at + 1) % ring.len()]];
    let is_level = (a[1] - b[1]).abs() < 0.01 * (a[0] - b[0]).abs();
    match (ring.len(), is_level, b[1] > a[1]) {
        (5.., ..) => format!("{kind}, corner {} to {}", at + 1, (at + 1) % ring.len() + 1),
        (_, true, _) => kind.into(),
        // The plane lies to the left of its edges: an edge that climbs is its right side.
        (_, false, true) => format!("right {kind}"),
        (_, false, false) => format!("left {kind}"),
    }
}

#[cfg(test)]
mod tests {
    use covering::Catalog;
    use reader::Format;

    use super::*;

    fn sheet_of(text: &str) -> String {
        let (job, mistakes) = plan::read_job(text, Format::Toml);
        assert_eq!(mistakes, []);
        let job = job.expect("a sound job");
        let sheet = sheet(&job, &plan::plan(&job, &Catalog::shipped()), Ink::Plain);
        assert!(sheet.lines().all(|line| line.chars().count() <= 80), "{sheet}");
        sheet
    }

    #[track_caller]
    fn assert_row(sheet: &str, label: &str, value: &str) {
        let row = sheet.lines().find(|line| line.trim_start().starts_with(label));
        let row = row.unwrap_or_else(|| panic!("{label} in\n{sheet}"));
        assert!(row.contains(value) && row.contains("__"), "{row}");
    }

    const HOUSE: &str = r#"format = 1
name = "Plover house"
covering = { sheet = "composite-slate" }
[[block]]
name = "house"
outline = [[0, 0], [40, 0], [40, 24], [0, 24]]
edges = [{ eave = "9/12" }, { gable = true, overhang = "8 in" }, { eave = "9/12", overhang = 1 }, { gable = true }]
"#;

    /// A run of 12 ft at 9/12 is a rafter of 15 ft: 3, 4 and 5. The diagonal: √(40² + 15²) = 42.72 ft.
    #[test]
    fn what_is_computed_stands_beside_the_blank_and_what_is_known_is_not_asked() {
        let sheet = sheet_of(HOUSE);
        assert_row(&sheet, "pitch", "9/12");
        assert_row(&sheet, "rafter", "15' 0\"");
        assert_row(&sheet, "left rake", "15' 0\"");
        assert_row(&sheet, "diagonal, lower left to upper right", "42' 8-5/8\"");
        assert_row(&sheet, "eave above the ground", "");
        assert_row(&sheet, "overhang, side 0 (eave, 40' 0\" long)", "");
        assert_row(&sheet, "thickness of the bare deck", "");
        assert_row(&sheet, "length of the nails", "");
        assert!(!sheet.contains("side 1") && !sheet.contains("side 2") && sheet.contains("side 3"), "{sheet}");
        assert_eq!(sheet.matches("ridge").count(), 1, "shared by two planes and asked once");
        let told = format!(
            "{}eave_height = 9\n[deck]\nthickness = \"5/8 in\"\nexposed_soffit = true\n[fastener]\nlength = \"2 in\"\n",
            HOUSE
                .replace("{ eave = \"9/12\" }", "{ eave = \"9/12\", overhang = 1 }")
                .replace("{ gable = true }", "{ wall = true }")
        );
        let sheet = sheet_of(&told);
        for known in ["above the ground", "overhang", "thickness", "nails", "underside"] {
            assert!(!sheet.contains(known), "{known} in\n{sheet}");
        }
    }

    #[test]
    fn a_taped_plane_is_asked_for_what_it_lacks() {
        let plane = r#"format = 1
name = "Plover barn"
covering = { sheet = "composite-slate" }
[[plane]]
name = "south"
pitch = 9
eave = 4
top = 4
left_rake = 3
right_rake = 3
diagonal_left = 5
edges = { right = "hip" }
"#;
        let sheet = sheet_of(plane);
        assert_row(&sheet, "diagonal, lower right to upper left", "5' 0\"");
        assert_row(&sheet, "which way it faces", "");
        assert_row(&sheet, "plane and edge that its right side meets", "");
        assert!(!sheet.contains("lower left to upper right") && !sheet.contains("rake"), "{sheet}");
        let sheet = sheet_of(&plane.replace("left_rake = 3", "left_rake = 30"));
        assert!(sheet.contains("south: to be taped again"), "{sheet}");
    }

    #[test]
    fn a_plane_that_is_half_taped_is_asked_for_the_other_half() {
        let plane = "[[plane]]\nname = \"front\"\npitch = \"8/12\"\neave = 30\n";
        let sheet = sheet_of(&format!("{HOUSE}{plane}"));
        assert_row(&sheet, "left rake          ", "");
        let front = &sheet[sheet.find("\nfront").expect("its heading")..];
        assert_row(front, "pitch", "8/12");
        assert_row(front, "eave", "30' 0\"");
        assert_row(front, "top (0 for a triangle)", "");
        assert_row(front, "right rake", "");
        assert_row(front, "diagonal, lower left to upper right", "");
    }

    #[test]
    fn shapes_of_many_corners_are_fixed_from_their_first() {
        assert_eq!(diagonals(3), Vec::<[usize; 2]>::new());
        assert_eq!(diagonals(4), [[0, 2], [1, 3]]);
        assert_eq!(diagonals(6), [[0, 2], [0, 3], [0, 4]]);
        assert_eq!(diagonals(0), Vec::<[usize; 2]>::new());
    }
}
