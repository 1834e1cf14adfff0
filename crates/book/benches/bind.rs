//! How long a book takes once the roof is planned. The figures are in `docs/speed.md`.

use book::{Binding, Language, Measures, Paper, Part, bind};
use covering::Catalog;
use reader::Format;

fn main() {
    divan::main();
}

const WHOLE: Binding = Binding {
    language: Language::English,
    measures: Measures::Customary,
    paper: Paper::Letter,
    part: Part::Whole,
    date: None,
};

/// Four blocks, seven planes, 5,700 pieces: more than 30 pages.
#[divan::bench]
fn manor(bencher: divan::Bencher) {
    let (job, _) = plan::read_job(include_str!("../../../examples/manor.toml"), Format::Toml);
    let plan = job.map(|job| plan::plan(&job, &Catalog::shipped()));
    // The job's name makes every book a new one to the typesetter, which otherwise remembers the last.
    let mut times = 0;
    bencher
        .with_inputs(|| {
            times += 1;
            plan.clone().map(|plan| plan::Plan { name: format!("{} {times}", plan.name), ..plan })
        })
        .bench_local_values(|plan| plan.and_then(|plan| bind(&plan, &WHOLE, &mut |_| {}).ok()));
}
