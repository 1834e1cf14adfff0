//! A house end to end: from the text of the job file to the plan.

use covering::Catalog;
use reader::Format;

#[global_allocator]
static MEMORY: divan::AllocProfiler = divan::AllocProfiler::system();

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

/// A hip house of so many squares in natural slate, 22 × 11 in, with all that the plan holds: the best cutting that is found,
/// dry-in, metal, order, piles, rules. The most memory it held at a time stands beside it.
#[divan::bench(args = [30, 300, 10_000], max_time = 10)]
fn squares(bencher: divan::Bencher<'_, '_>, squares: u32) {
    let catalog = Catalog::shipped();
    let job = hip_house(squares);
    bencher.bench_local(|| plan::plan(divan::black_box(&job), &catalog));
}

/// The example's 47'-3" by 29'-5" with its overhangs is 20 squares; sides grow by the root.
fn hip_house(squares: u32) -> plan::Job {
    let grown = |feet: f64| format!("{:.0}' 0", feet * (f64::from(squares) / 20.0).sqrt());
    let text = text("hip").replace("47' 3", &grown(47.25)).replace("29' 5", &grown(29.4));
    plan::read_job(&text, Format::Toml).0.expect("the example reads clean at any size")
}
