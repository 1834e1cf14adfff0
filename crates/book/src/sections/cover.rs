use units::Pitch;

use super::date;
use super::desk::{Desk, count, sentence};
use crate::Part;
use crate::content::{Block, Sheet};

/// The job in numbers, what is not planned, and what the book does not decide.
pub(crate) fn sheets(desk: &Desk) -> Vec<Sheet> {
    let mut blocks = vec![Block::Banner { words: desk.say(part(desk.binding.part)) }];
    blocks.extend(not_all(desk));
    blocks.push(Block::Heading { words: desk.say("cover") });
    blocks.push(Block::Facts { facts: facts(desk) });
    blocks.extend(problems(desk));
    blocks
        .push(Block::Beside { left: vec![Block::Contents { words: desk.say("cover-contents") }], right: who_decides(desk) });
    vec![Sheet::new(desk.plan.name.clone(), desk.say("book"), blocks)]
}

fn who_decides(desk: &Desk) -> Vec<Block> {
    let figures = if desk.plan.covering.invented { "cover-invented" } else { "cover-sheet" };
    let said = ["cover-defers", figures].map(|name| Block::Words { words: desk.say(name) });
    [Block::Heading { words: desk.say("cover-who-decides") }].into_iter().chain(said).collect()
}

const fn part(part: Part) -> &'static str {
    match part {
        Part::Whole => "part-whole",
        Part::Crew => "part-crew",
        Part::Office => "part-office",
        Part::Official => "part-official",
        Part::Owner => "part-owner",
        Part::Poles => "part-poles",
    }
}

fn not_all(desk: &Desk) -> Option<Block> {
    let absent = desk.plan.problems.iter().any(|problem| problem.severity == plan::Severity::Error);
    absent.then(|| Block::Caution { words: desk.say("cover-not-all") })
}

fn problems(desk: &Desk) -> Option<Block> {
    let items: Vec<String> = desk.plan.problems.iter().map(|problem| problem_line(desk, problem)).collect();
    let heading = Block::Heading { words: desk.say("cover-problems") };
    (!items.is_empty()).then(|| Block::Together { blocks: vec![heading, Block::List { items }] })
}

fn problem_line(desk: &Desk, problem: &plan::Problem) -> String {
    let block = &problem.place.block;
    let place = if problem.says.contains(block.as_str()) { String::new() } else { format!("{block}: ") };
    let [says, remedy] = [&problem.says, &problem.remedy].map(|clause| sentence(&desk.words(clause)));
    format!("{place}{says} {remedy}")
}

fn facts(desk: &Desk) -> Vec<[String; 2]> {
    let (plan, measures) = (&desk.plan, desk.tongue.measures);
    let layout = &plan.layout;
    let weight: f64 = plan.order.iter().map(|line| line.weight_lb).sum();
    let covering = &plan.covering;
    let mut facts = vec![
        desk.fact("fact-covering", desk.words(&covering.name)),
        desk.fact("fact-unit", format!("{} × {}", measures.short(covering.width_in), measures.short(covering.length_in))),
        desk.fact("fact-area", area(desk)),
        desk.fact("fact-plan-area", measures.area(plan.roof.totals.plan_area_sqft)),
        desk.fact("fact-planes", plan.roof.planes.len().to_string()),
        desk.fact("fact-pitches", pitches(desk)),
        desk.fact("fact-height", measures.long(plan.roof.totals.height_ft * 12.0)),
        desk.fact("fact-pieces", count(layout.pieces)),
        desk.fact("fact-cut", count(layout.cut)),
        desk.fact(
            "fact-stock",
            desk.with("at-least", &[("count", count(layout.stock).into()), ("least", count(layout.stock_bound).into())]),
        ),
        desk.fact("fact-weight", measures.weight(weight)),
        desk.fact("fact-hold-points", plan.details.order_of_work.iter().filter(|step| step.hold_point).count().to_string()),
        desk.fact("fact-checks", checks(desk)),
    ];
    facts.push(desk.fact("foot-date", date(desk.binding)));
    facts
}

fn area(desk: &Desk) -> String {
    let square_feet = desk.plan.roof.totals.area_sqft;
    let area = desk.tongue.measures.area(square_feet);
    let squares = format!("{:.2}", units::Area::square_inches(square_feet * 144.0).to_squares());
    match desk.tongue.measures {
        crate::Measures::Customary => desk.with("area-squares", &[("area", area.into()), ("squares", squares.into())]),
        crate::Measures::Metric => area,
    }
}

/// From the flattest to the steepest.
fn pitches(desk: &Desk) -> String {
    let rises = desk.plan.roof.planes.iter().map(|plane| plane.pitch);
    let [least, greatest] = rises.fold([f64::INFINITY, 0.0], |[a, b]: [f64; 2], rise| [a.min(rise), b.max(rise)]);
    match [pitch(least), pitch(greatest)] {
        [least, greatest] if least == greatest => least,
        [least, greatest] => desk.with("from-to", &[("from", least.into()), ("to", greatest.into())]),
    }
}

/// `8/12 (33.7°)`.
pub(crate) fn pitch(rise: f64) -> String {
    Pitch::per_12(rise).map(|pitch| format!("{pitch} ({:.1}°)", pitch.degrees())).unwrap_or_default()
}

fn checks(desk: &Desk) -> String {
    let of = |outcome: &str| desk.plan.checks.iter().filter(|check| check.outcome == outcome).count();
    desk.with(
        "checks-in-numbers",
        &[("fail", of("fail").into()), ("attention", of("attention").into()), ("pass", of("pass").into())],
    )
}
