//! One file a rule.

use crate::Rule;

mod attic_vents_too_small;
mod boards_off_the_nails;
mod chalk_stains_units;
mod closed_valley_gathers;
mod courses_miss_at_hip;
mod covering_over_framing;
mod cricket_missing;
mod cut_piece_loses_its_nails;
mod dead_valley;
mod dust_from_sawing;
mod eave_drips_on_roof_below;
mod edge_metal_lap_too_short;
mod edge_metal_out_of_order;
mod end_lap_too_short;
mod end_laps_in_line;
mod exposure_not_a_mark;
mod exposure_over_code;
mod exposure_too_great;
mod falls_from_roof;
mod fire_class_below_site;
mod frost_on_roof;
mod gap_opens_too_wide;
mod gap_outside_code;
mod gap_too_tight;
mod headlap_below_code;
mod headlap_too_short;
mod heat_on_roof;
mod ice_barrier_left_out;
mod ice_barrier_too_short;
mod impact_class_below_site;
mod interlayment_misplaced;
mod joint_over_joint;
mod ladder_too_short;
mod laid_too_cold;
mod nail_and_flashing_form_a_cell;
mod nail_in_valley_metal;
mod nail_metal_unfit;
mod nail_misses_code_penetration;
mod nail_near_joint;
mod nail_points_show;
mod nail_smaller_than_code;
mod nail_too_short;
mod nails_draw_in_wind;
mod nails_outlived_by_units;
mod old_roof_may_poison;
mod opening_near_valley;
mod piece_too_small;
mod pitch_below_code;
mod pitch_too_low;
mod ridge_vent_longer_than_ridge;
mod run_off_eats_metal;
mod sidelap_below_code;
mod slate_sidelap_too_short;
mod snow_over_framing;
mod snow_slides_onto_roof_below;
mod snow_slides_unheld;
mod spaced_deck_not_allowed;
mod step_flashing_laps_too_little;
mod step_flashing_too_small;
mod stored_outside_limits;
mod tile_lifts_in_wind;
mod too_few_nails;
mod top_course_too_short;
mod top_out_of_parallel;
mod underlayment_held_too_loosely;
mod underlayment_lap_too_short;
mod underlayment_of_too_few_layers;
mod unit_lies_too_flat;
mod units_close_the_slot;
mod units_not_conditioned;
mod valley_dies_at_wall;
mod valley_flows_unequal;
mod valley_metal_laps_too_little;
mod valley_metal_too_narrow;
mod vents_out_of_balance;
mod wind_class_below_site;
mod wind_uplift_undesigned;

/// Every rule, family by family. A new one is a new file and its line here.
pub const RULES: &[Rule] = &[
    boards_off_the_nails::RULE,
    spaced_deck_not_allowed::RULE,
    pitch_too_low::RULE,
    exposure_too_great::RULE,
    courses_miss_at_hip::RULE,
    exposure_not_a_mark::RULE,
    exposure_over_code::RULE,
    pitch_below_code::RULE,
    top_course_too_short::RULE,
    top_out_of_parallel::RULE,
    unit_lies_too_flat::RULE,
    headlap_too_short::RULE,
    joint_over_joint::RULE,
    gap_opens_too_wide::RULE,
    gap_outside_code::RULE,
    gap_too_tight::RULE,
    headlap_below_code::RULE,
    sidelap_below_code::RULE,
    slate_sidelap_too_short::RULE,
    piece_too_small::RULE,
    cut_piece_loses_its_nails::RULE,
    nail_too_short::RULE,
    nail_misses_code_penetration::RULE,
    nail_near_joint::RULE,
    nail_points_show::RULE,
    nail_smaller_than_code::RULE,
    too_few_nails::RULE,
    nail_metal_unfit::RULE,
    nail_and_flashing_form_a_cell::RULE,
    run_off_eats_metal::RULE,
    ice_barrier_left_out::RULE,
    ice_barrier_too_short::RULE,
    underlayment_of_too_few_layers::RULE,
    underlayment_lap_too_short::RULE,
    end_lap_too_short::RULE,
    end_laps_in_line::RULE,
    underlayment_held_too_loosely::RULE,
    edge_metal_lap_too_short::RULE,
    edge_metal_out_of_order::RULE,
    interlayment_misplaced::RULE,
    attic_vents_too_small::RULE,
    vents_out_of_balance::RULE,
    ridge_vent_longer_than_ridge::RULE,
    units_close_the_slot::RULE,
    closed_valley_gathers::RULE,
    nail_in_valley_metal::RULE,
    step_flashing_laps_too_little::RULE,
    step_flashing_too_small::RULE,
    valley_metal_laps_too_little::RULE,
    valley_metal_too_narrow::RULE,
    cricket_missing::RULE,
    dead_valley::RULE,
    eave_drips_on_roof_below::RULE,
    opening_near_valley::RULE,
    valley_dies_at_wall::RULE,
    valley_flows_unequal::RULE,
    fire_class_below_site::RULE,
    impact_class_below_site::RULE,
    nails_draw_in_wind::RULE,
    tile_lifts_in_wind::RULE,
    wind_class_below_site::RULE,
    wind_uplift_undesigned::RULE,
    snow_over_framing::RULE,
    snow_slides_onto_roof_below::RULE,
    snow_slides_unheld::RULE,
    covering_over_framing::RULE,
    chalk_stains_units::RULE,
    laid_too_cold::RULE,
    stored_outside_limits::RULE,
    units_not_conditioned::RULE,
    nails_outlived_by_units::RULE,
    dust_from_sawing::RULE,
    falls_from_roof::RULE,
    frost_on_roof::RULE,
    heat_on_roof::RULE,
    ladder_too_short::RULE,
    old_roof_may_poison::RULE,
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Family, Kind, Reading};

    /// No rule without a page, a source, a remedy and a test. Remedy and source are printed, so each is one line.
    #[test]
    fn every_rule_is_whole() {
        for rule in RULES {
            for heading in ["What it finds", "Why it matters", "Remedy", "Source"] {
                let last = rule.lines_under(heading).last().unwrap_or_default();
                assert!(last.ends_with('.'), "{}: sentences under {heading}", rule.name);
            }
            for heading in ["Remedy", "Source"] {
                assert_eq!(rule.lines_under(heading).count(), 1, "{}: {heading} is one line", rule.name);
            }
            assert_eq!(rule.title().to_lowercase().replace(' ', "-"), rule.name, "a rule is named after its fault");
            assert!(rule.file.contains("#[test]"), "{}: a test", rule.name);
            assert!(!rule.endangers.is_empty(), "{}: what it endangers", rule.name);
            assert!(!rule.about.is_empty(), "{}: where in the job it points", rule.name);
        }
    }

    /// What rests on memory, or on nothing published, says so.
    #[test]
    fn memory_says_so() {
        for rule in RULES.iter().filter(|rule| !rule.read_source()) {
            let source = rule.source();
            let says_so = source.contains("from memory, not read") || source.contains("no published source");
            assert!(says_so || source.contains("quoted"), "{}: {source}", rule.name);
        }
    }

    /// A maker's rule rests on the sheet in use, a code on editions.
    #[test]
    fn a_kind_has_its_source() {
        for rule in RULES {
            match rule.kind {
                Kind::Maker => assert_eq!(rule.reading, Reading::Read, "{}", rule.name),
                Kind::Code => assert_ne!(rule.reading, Reading::Read, "{}", rule.name),
                Kind::Practice => assert!(rule.reading.editions().is_empty(), "{}", rule.name),
            }
            assert_eq!(rule.kind == Kind::Maker, !rule.groups.is_empty(), "{}", rule.name);
        }
    }

    /// By families, so that the list reads like the pages.
    #[test]
    fn the_list_is_in_the_order_of_the_pages() {
        assert!(RULES.is_sorted_by_key(|rule| rule.family));
        let names: std::collections::BTreeSet<&str> = RULES.iter().map(|rule| rule.name).collect();
        assert_eq!(names.len(), RULES.len());
        for rule in RULES {
            assert!(Family::ALL.contains(&rule.family));
        }
    }

    #[test]
    fn every_file_is_a_rule() {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/src/rules");
        let names = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap());
        let mut files: Vec<String> = names.filter(|name| name != "mod.rs").collect();
        let mut rules: Vec<String> = RULES.iter().map(|rule| format!("{}.rs", rule.name.replace('-', "_"))).collect();
        files.sort();
        rules.sort();
        assert_eq!(files, rules);
    }
}
