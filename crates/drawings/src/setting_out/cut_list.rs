use geom::region::level_width;
use plan::{Cut, Plan};

use super::sheet::{Sheet, in_inches};
use crate::English;
use crate::table::Table;

/// How often and where a cut is needed.
#[derive(Clone, Copy, Default)]
struct Use {
    count: u64,
    /// Counted from 1.
    first: usize,
    last: usize,
    /// What it is cut from.
    unit: u32,
}

const HEADINGS: [&str; 8] = ["Cut", "Pieces", "Courses", "Butt", "Head", "Widest", "Length", "At"];
const WIDEST: usize = 5;

/// The cut pieces by kind, the most frequent first, on so many lines at most.
pub(crate) fn table(sheet: &Sheet, lines: usize) -> Table {
    let uses = uses(sheet);
    let mut order: Vec<usize> = (0..uses.len()).collect();
    order.sort_by_key(|&cut| (std::cmp::Reverse(uses[cut].count), cut));
    let shown = if order.len() <= lines { order.len() } else { lines.saturating_sub(1) };
    let rest = order.len() - shown;
    let columns: Vec<usize> = (0..HEADINGS.len()).filter(|&column| column != WIDEST || tells_more(sheet)).collect();
    let cells = |cut: usize| row(sheet, cut, uses[cut]);
    let rows = order
        .iter()
        .take(shown)
        .map(|&cut| cells(cut))
        .map(|row| columns.iter().map(|&column| row[column].clone()).collect());
    let table = Table::new("Cut list", columns.iter().map(|&column| HEADINGS[column]).collect(), rows.collect());
    if rest == 0 { table } else { table.ending(format!("and {rest} more kinds: see the cut list")) }
}

/// Whether the greatest width of any piece is neither at its butt nor at its head.
fn tells_more(sheet: &Sheet) -> bool {
    !sheet.laid.cuts.iter().all(is_widest_at_an_end)
}

/// Butt and head alone tell the width.
fn is_widest_at_an_end(cut: &Cut) -> bool {
    let ends = reach(cut).map(|height| level_width(&cut.parts_in, height));
    ends[0].max(ends[1]) > cut.width_in - SAME
}

fn uses(sheet: &Sheet) -> Vec<Use> {
    let mut uses = vec![Use::default(); sheet.laid.cuts.len()];
    for (index, course) in sheet.laid.courses.iter().enumerate() {
        for run in &course.runs {
            let Some(used) = run.cut.and_then(|cut| uses.get_mut(cut as usize)) else { continue };
            used.count += u64::from(run.count);
            used.first = if used.first == 0 { index + 1 } else { used.first };
            used.last = index + 1;
            used.unit = run.unit;
        }
    }
    uses
}

fn row(sheet: &Sheet, index: usize, used: Use) -> Vec<String> {
    let cut = cut_use(sheet, index, used);
    vec![
        (index + 1).to_string(),
        used.count.to_string(),
        courses(used),
        in_inches(cut.butt_in),
        in_inches(cut.head_in),
        in_inches(cut.widest_in),
        in_inches(cut.length_in),
        cut.at.to_owned(),
    ]
}

/// One kind of cut piece of a plane, as a line of its cut list.
#[derive(Debug, Clone, PartialEq)]
pub struct CutUse {
    /// Index in [`plan::LaidPlane::cuts`].
    pub cut: usize,
    /// How many.
    pub count: u64,
    /// First and last course, counted from 1.
    pub courses: [usize; 2],
    /// Width at its low end.
    pub butt_in: f64,
    /// Width at its high end.
    pub head_in: f64,
    /// Greatest width.
    pub widest_in: f64,
    /// Up the slope.
    pub length_in: f64,
    /// Which sides are cut: `head`, `left`, `right`, `both`, or `parts` where it falls into several.
    pub at: &'static str,
}

/// The cut pieces of a plane by kind, the most frequent first; none where nothing is laid.
#[must_use]
pub fn cut_uses(plan: &Plan, plane_id: &str) -> Vec<CutUse> {
    let Some(sheet) = Sheet::of(plan, plane_id, &English) else { return Vec::new() };
    let used = uses(&sheet).into_iter().enumerate().filter(|(_, used)| used.count > 0);
    let mut cuts: Vec<CutUse> = used.map(|(index, used)| cut_use(&sheet, index, used)).collect();
    cuts.sort_by_key(|cut| (std::cmp::Reverse(cut.count), cut.cut));
    cuts
}

fn cut_use(sheet: &Sheet, index: usize, used: Use) -> CutUse {
    let cut = &sheet.laid.cuts[index];
    let [low, high] = reach(cut);
    CutUse {
        cut: index,
        count: used.count,
        courses: [used.first, used.last],
        butt_in: level_width(&cut.parts_in, low),
        head_in: level_width(&cut.parts_in, high),
        widest_in: cut.width_in,
        length_in: high - low,
        at: cut_at(sheet, cut, used.unit),
    }
}

fn courses(used: Use) -> String {
    match used {
        Use { count: 0, .. } => String::new(),
        Use { first, last, .. } if first == last => first.to_string(),
        Use { first, last, .. } => format!("{first}-{last}"),
    }
}

/// Lowest and highest over all parts.
fn reach(cut: &Cut) -> [f64; 2] {
    let values = cut.parts_in.iter().flatten().map(|corner| corner[1]);
    let [least, greatest] = values.fold([f64::INFINITY, f64::NEG_INFINITY], |[a, b], value| [a.min(value), b.max(value)]);
    if least <= greatest { [least, greatest] } else { [0.0; 2] }
}

/// Two places nearer than this are one, inches.
const SAME: f64 = 1e-3;

/// Which sides of the unit are cut, seen as it lies on the roof: a hip's piece shows its hand by it.
fn cut_at(sheet: &Sheet, cut: &Cut, unit: u32) -> &'static str {
    if cut.parts_in.len() > 1 {
        return "parts";
    }
    let width = sheet.laid.units.get(unit as usize).map_or(sheet.plan.covering.width_in, |unit| unit.width_in);
    match (keeps_side(cut, 0.0), keeps_side(cut, width)) {
        (true, true) => "head",
        (true, false) => "right",
        (false, true) => "left",
        (false, false) => "both",
    }
}

/// Whether the piece keeps the unit's own side at `u` over its whole height.
fn keeps_side(cut: &Cut, u: f64) -> bool {
    let corner_at = |height: f64| {
        let same = |corner: &[f64; 2]| (corner[0] - u).abs() < SAME && (corner[1] - height).abs() < SAME;
        cut.parts_in.iter().flatten().any(same)
    };
    reach(cut).into_iter().all(corner_at)
}
