//! What is lost of the units that are taken, in counted units and in sentences.

use schemars::JsonSchema;
use serde::Serialize;

use crate::OrderLine;

/// What one sheet's units come to. All areas in units of the field unit's size: `taken` − `on_roof` = `lost` = the sum of
/// `cut_off` − `used_again`.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Waste {
    /// The covering sheet's short name.
    pub sheet: String,
    /// Units that are taken.
    pub stock: u64,
    /// Their area.
    pub taken: f64,
    /// Of the pieces as they are laid.
    pub on_roof: f64,
    /// What is cut off and not used again.
    pub lost: f64,
    /// What the saw takes of it; the rest lies in offcuts that nothing is made of.
    pub kerf: f64,
    /// By what cuts it.
    pub cut_off: Vec<CutOff>,
    /// Pieces that are made of what is cut off others.
    pub from_offcuts: u64,
    /// The area of the units that they save.
    pub used_again: f64,
    /// Field units that are ordered beyond these.
    pub over: u64,
    /// Packs of them that are spare for what breaks.
    pub spare_packs: u64,
    /// Field units by the trade's rule: a square more for every 100 ft of hip and valley.
    pub by_rule: u64,
    /// The same in sentences.
    pub says: Vec<String>,
}

/// What one kind of edge cuts off.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct CutOff {
    /// As for [`crate::Edge::kind`], or `moved joint`.
    pub by: &'static str,
    /// Pieces that it cuts.
    pub pieces: u64,
    /// In units of the field unit's size.
    pub units: f64,
}

pub(crate) fn told(of: &takeoff::Waste, order: &[OrderLine], pack: u32) -> Waste {
    let is_field = |line: &&OrderLine| {
        // Of more widths or lengths than one each has a line; a sheet's id follows where there are several sheets.
        let rest = line.id.strip_prefix("field-units");
        rest.is_some_and(|rest| rest.split_once(':').is_none_or(|(_, sheet)| sheet == of.sheet))
    };
    let over = |line: &OrderLine| (line.packs * u64::from(pack)).saturating_sub(line.quantity as u64);
    let cut_off = |cut: &takeoff::CutOff| CutOff {
        by: cut.by.map_or("moved joint", roof::EdgeKind::name),
        pieces: cut.pieces,
        units: cut.units,
    };
    let mut told = Waste {
        sheet: of.sheet.clone(),
        stock: of.stock,
        taken: of.taken,
        on_roof: of.on_roof,
        lost: of.taken - of.on_roof,
        kerf: of.kerf,
        cut_off: of.cut_off.iter().map(cut_off).collect(),
        from_offcuts: of.from_offcuts,
        used_again: of.used_again,
        over: order.iter().filter(is_field).map(over).sum(),
        spare_packs: order.iter().filter(is_field).filter_map(|line| line.spare.as_ref()).map(|spare| spare.packs).sum(),
        by_rule: (of.by_rule * (1.0 - 1e-9)).ceil() as u64,
        says: Vec::new(),
    };
    told.cut_off.sort_by(|a, b| b.units.total_cmp(&a.units));
    told.says = sentences(&told);
    told
}

fn sentences(of: &Waste) -> Vec<String> {
    let wide = if (of.taken - of.stock as f64).abs() < 0.05 {
        String::new()
    } else {
        format!(", wide ones among them, the worth of {:.1} field units", of.taken)
    };
    let kerf = match of.kerf {
        dust if dust >= 0.05 => format!(", {dust:.1} of it in the kerf of the saw"),
        _ => String::new(),
    };
    let mut says = vec![format!(
        "{} are taken{wide}; {:.1} units' worth of them comes to lie on the roof, {:.1} is cut off and lost{kerf}.",
        units(of.stock),
        of.on_roof,
        of.lost
    )];
    if !of.cut_off.is_empty() {
        says.push(format!("Cut off, in units' worth: {}.", parts(&of.cut_off).join("; ")));
        says.push(match of.from_offcuts {
            0 => "No offcut makes another piece by the sheet's rules.".into(),
            1 => format!("{:.1} comes back: 1 piece is made of what is cut off another.", of.used_again),
            many => format!("{:.1} come back: {many} pieces are made of what is cut off others.", of.used_again),
        });
    }
    says.push(match of.spare_packs {
        0 => format!("Whole packs leave {} over, and no pack more is ordered for what breaks.", units(of.over)),
        1 => format!("{} more are ordered: 1 pack for what breaks, and what fills the last one.", units(of.over)),
        packs => format!("{} more are ordered: {packs} packs for what breaks, and what fills the last one.", units(of.over)),
    });
    says.push(rule(of));
    says
}

/// Where it is cut off, each place once.
fn parts(cut_off: &[CutOff]) -> Vec<String> {
    let mut parts: Vec<(&str, f64, u64)> = Vec::new();
    for cut in cut_off {
        match parts.iter_mut().find(|part| part.0 == why(cut.by)) {
            Some(part) => (part.1, part.2) = (part.1 + cut.units, part.2 + cut.pieces),
            None => parts.push((why(cut.by), cut.units, cut.pieces)),
        }
    }
    let told = |(why, worth, pieces): &(&str, f64, u64)| {
        let pieces = if *pieces == 1 { "1 piece".into() } else { format!("{pieces} pieces") };
        format!("{worth:.1} {why} ({pieces})")
    };
    parts.iter().map(told).collect()
}

fn why(by: &str) -> &'static str {
    match by {
        "eave" => "under higher eaves",
        "rake" => "at rakes",
        "ridge" => "at ridges, where heads are trimmed",
        "hip" => "at hips",
        "valley" => "at valleys",
        "sidewall" => "at sidewalls",
        "headwall" => "at headwalls, where heads are trimmed",
        "break" => "at breaks of the pitch, where heads are trimmed",
        "high edge" => "at high edges, where heads are trimmed",
        "dead valley" => "at dead valleys",
        "sill" | "side" | "head" => "round openings",
        _ => "beside joints, where units are cut narrower",
    }
}

fn rule(of: &Waste) -> String {
    let off = match of.by_rule.cmp(&of.stock) {
        std::cmp::Ordering::Less => format!("{} too few", of.stock - of.by_rule),
        std::cmp::Ordering::Equal => "as many".into(),
        std::cmp::Ordering::Greater => format!("{} too many", of.by_rule - of.stock),
    };
    format!(
        "The trade's rule, the roof's area with its small openings and a square more for every 100 ft of hip and valley, takes {}: {off}.",
        units(of.by_rule)
    )
}

fn units(count: u64) -> String {
    if count == 1 { "1 unit".into() } else { format!("{count} units") }
}
