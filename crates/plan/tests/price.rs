//! What a price counts, and what a job keeps in its own file: rates, sheets, options. Figures are invented.
#![allow(clippy::unwrap_used, reason = "tests only")]

use covering::{Catalog, SHIPPED};
use plan::{HipChoice, Job, Priced, price, read_job};
use reader::Format;

const HIP: &str = include_str!("../../../examples/hip.toml");
const CHIMNEY: &str = include_str!("../../../examples/chimney.toml");

fn job(text: &str) -> Job {
    let (job, mistakes) = read_job(text, Format::Toml);
    job.unwrap_or_else(|| panic!("{mistakes:?}"))
}

fn priced(text: &str) -> Vec<Priced> {
    let job = job(text);
    let rates = job.price.own.clone().or_else(price::shipped).unwrap();
    price(&job, &Catalog::shipped(), &rates)
}

/// A shipped sheet as a table of a job file, under another id.
fn own_sheet(id: &str, text: &str) -> String {
    let group = |line: &str| match line.strip_prefix("[[").or_else(|| line.strip_prefix('[')) {
        Some(rest) if line.starts_with("[[") => format!("[[sheet.{rest}"),
        Some(rest) => format!("[sheet.{rest}"),
        None => line.to_owned(),
    };
    let sheet: Vec<String> = text.lines().map(group).collect();
    format!("\n[[sheet]]\n{}\n", sheet.join("\n")).replace("\"composite-slate\"\nname", &format!("\"{id}\"\nname"))
}

/// The places of a line sum to what the line counts, to the printed thousandth.
#[test]
fn every_line_leads_to_all_that_it_counts() {
    for way in priced(CHIMNEY) {
        let bought = way.quote.costs.iter().map(|line| (&*line.counts, &line.quantity));
        let hours = way.quote.labor.iter().filter(|line| line.task != "More for a steep slope");
        for (counts, quantity) in bought.chain(hours.map(|line| (line.counts, &line.quantity))) {
            let sum: f64 = way.places.get(counts).into_iter().flatten().map(|place| place.quantity).sum();
            let is: f64 = quantity.parse().unwrap();
            let lies_nowhere = ["job", "pallets"].contains(&counts);
            assert!(if lies_nowhere { sum == 0.0 } else { (sum - is).abs() < 1e-3 }, "{counts}: {sum}, counted {is}");
        }
        for line in &way.quote.materials {
            assert!(way.places.contains_key(&line.counts), "{} leads nowhere", line.counts);
        }
    }
}

#[test]
fn rates_and_sheets_in_the_job_file_are_read_with_their_places() {
    let own = own_sheet("hill-slate", SHIPPED[0].1);
    let text = HIP.to_owned() + &own;
    let kept = job(&text);
    assert_eq!(kept.sheets[0].id, "hill-slate");
    let rates =
        format!("\n[price.own]\n{}", price::SHIPPED.replace("\n[[", "\n[[price.own.").replace("\n[", "\n[price.own."))
            .replace("[price.own.[price.own.", "[[price.own.");
    let with_rates = text.clone() + &rates;
    assert!(job(&with_rates).price.own.unwrap().invented);
    let (_, mistakes) = read_job(&with_rates.replace("margin_percent   = 11", "margin_percent = 95"), Format::Toml);
    assert_eq!(mistakes.iter().map(|mistake| &*mistake.path).collect::<Vec<_>>(), ["price.own.margin_percent"]);
    let (_, mistakes) = read_job(&text.replace("each          = 2", "each = 0"), Format::Toml);
    assert_eq!(mistakes.iter().map(|mistake| &*mistake.path).collect::<Vec<_>>(), ["sheet[0].nails.each"]);
}

/// A sheet in the job file is the same covering as one in the catalogue.
#[test]
fn a_sheet_of_the_job_is_laid_as_one_of_the_catalogue() {
    let of_catalogue = job(HIP);
    let named = HIP.replace(&format!("\"{}\"", of_catalogue.covering.sheet), "\"hill-slate\"");
    let own = own_sheet("hill-slate", SHIPPED[0].1);
    let of = |text: &str| {
        let plan = plan::plan(&job(text), &Catalog::shipped());
        serde_json::to_string(&plan).unwrap().replace("hill-slate", "composite-slate")
    };
    let in_composite = HIP.replace(&format!("\"{}\"", of_catalogue.covering.sheet), "\"composite-slate\"");
    assert!(of(&(named + &own)) == of(&in_composite), "the plans differ");
}

/// What an option shows at most is its own, also where the job asks for less.
#[test]
fn an_option_may_show_more_than_the_job() {
    let close = HIP.replace("[deck]", "[setting_out]\nexposure = \"6 in\"\n\n[deck]");
    let ways = priced(&(close + "\n[[price.option]]\nname = \"wide\"\nexposure = \"8 in\"\n"));
    let [job, wide] = [0, 1].map(|way| ways[way].compared.exposures_in[1]);
    assert!(job <= 6.0 && wide > 6.0 && wide <= 8.0, "{job} {wide}");
}

/// The shipped rates have a price for every line that an example orders; what the job does not tell is asked.
#[test]
fn the_shipped_rates_know_every_line_of_the_examples() {
    const COTTAGE: &str = include_str!("../../../examples/cottage.toml");
    const MANOR: &str = include_str!("../../../examples/manor.toml");
    for text in [HIP, CHIMNEY, COTTAGE, MANOR] {
        let missing: Vec<String> =
            priced(text).iter().flat_map(|way| &way.quote.unpriced).map(|of| of.says.clone()).collect();
        assert!(missing.iter().all(|says| says.contains("old_layers")), "{missing:?}");
    }
}

#[test]
fn an_option_has_its_own_hips_exposure_and_bond() {
    let options = "\n[[price.option]]\nname = \"mitred\"\nhips = \"mitred\"\n[[price.option]]\nname = \"close\"\nexposure = \"6 in\"\n";
    let ways = priced(&(HIP.to_owned() + options));
    assert_eq!(ways.iter().map(|way| way.compared.hips).collect::<Vec<_>>(), [None, Some(HipChoice::Mitred.name()), None]);
    let caps = |way: &Priced| way.quote.materials.iter().any(|line| line.counts.starts_with("caps"));
    assert!(caps(&ways[0]));
    assert_ne!(ways[0].quote.sums.total, ways[1].quote.sums.total);
    assert!(ways[2].compared.exposures_in[1] <= 6.0 && ways[0].compared.exposures_in[1] > 6.0);
    assert!(ways.iter().all(|way| !way.compared.lost_why.is_empty()));
}
