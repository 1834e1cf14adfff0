//! A house end to end: from the text of the job file to the plan.

use covering::Catalog;
use reader::Format;

fn main() {
    divan::main();
}

const HOUSES: [(&str, &str); 3] = [
    ("gable", include_str!("../../../examples/gable.toml")),
    ("hip", include_str!("../../../examples/hip.toml")),
    ("ell", include_str!("../../../examples/ell.toml")),
];

fn text(name: &str) -> &'static str {
    HOUSES.iter().find(|house| house.0 == name).map_or("", |house| house.1)
}

/// Reading and planning.
#[divan::bench(args = ["gable", "hip", "ell"])]
fn from_text_to_plan(bencher: divan::Bencher<'_, '_>, name: &str) {
    let catalog = Catalog::shipped();
    bencher.bench_local(|| {
        let (job, _) = plan::read_job(divan::black_box(text(name)), Format::Toml);
        job.map(|job| plan::plan(&job, &catalog))
    });
}

/// A hip house of about 30 squares in natural slate, 22 × 11 in.
#[divan::bench]
fn thirty_squares(bencher: divan::Bencher<'_, '_>) {
    let catalog = Catalog::shipped();
    let text = text("hip").replace("47' 3", "60' 3").replace("29' 5", "36' 5");
    let (job, _) = plan::read_job(&text, Format::Toml);
    let job = job.expect("the example reads clean");
    bencher.bench_local(|| plan::plan(divan::black_box(&job), &catalog));
}
