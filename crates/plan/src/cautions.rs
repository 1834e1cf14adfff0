//! Where the work can hurt somebody: short words for this very roof. Local law and licensed practice decide.

use covering::{Covering, Material};
use roof::Roof;

/// The dangers of laying this roof, the gravest first; none where there is no roof.
pub(crate) fn cautions(roof: &Roof, covering: Option<&Covering>) -> Vec<String> {
    let Some(steepest) = roof.planes.iter().rev().max_by(|a, b| a.pitch.rise().total_cmp(&b.pitch.rise())) else {
        return Vec::new();
    };
    let mut cautions = vec![falls(steepest)];
    cautions.push(
        "Wet, frosted or dusty units are slippery at any pitch: no work on frost, in rain, or before they are dry; \
         do not walk on finished courses, work from ladders and brackets."
            .into(),
    );
    cautions.extend(covering.and_then(|covering| dust(covering.material)));
    cautions.push(
        "Power lines, ladders (1 out for 4 up, 3 ft above the edge), stacked units and the ground below: \
         look before you set up. Local law and your own safety plan decide."
            .into(),
    );
    cautions
}

/// 29 CFR 1926.501(b)(13) as explained on osha.gov; 4 in 12 as the bound of a steep roof from a guide that quotes
/// 29 CFR 1926.500.
fn falls(steepest: &roof::Plane) -> String {
    let steep =
        if steepest.pitch.rise() > 4.0 { "steep (over 4 in 12): guard rails with toe boards" } else { "low: guard rails" };
    format!(
        "Falls: {} at {} is {steep}, nets or personal fall arrest from 6 ft above a lower level \
         (29 CFR 1926.501, United States).",
        steepest.name, steepest.pitch
    )
}

/// 29 CFR 1926.1153, from memory, not read.
fn dust(material: Material) -> Option<String> {
    matches!(material, Material::NaturalSlate | Material::PlainTile).then(|| {
        "Sawing slate or tile makes silica dust: wet saw or shroud, and a respirator \
         (29 CFR 1926.1153, from memory, not read)."
            .into()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_roof_no_cautions() {
        assert_eq!(cautions(&Roof::default(), None), Vec::<String>::new());
    }
}
