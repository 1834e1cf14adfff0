use plan::{LaidPlane, PipeFlange};

use super::section::{between, framed, numbered, scale_for};
use crate::{Figure, Fill, Item, LineType, Point, Words};

/// A pipe with its flange, seen square to the slope; the fall is down the paper.
pub(super) fn draw(laid: &LaidPlane, pipe: &PipeFlange, width: f64, words: &dyn Words) -> Option<Figure> {
    let [across, up] = pipe.plate_in;
    let scale = scale_for(across * 2.0, width * 0.6, words)?;
    let [half, half_up, radius] = [across / 2.0, up / 2.0, pipe.diameter_in / 2.0].map(|inches| scale.paper(inches));
    let reach = 1.8 * half;
    let line = |points: Vec<Point>, line: LineType| Item::Line { points, line };
    let butt = |course: Option<u32>| {
        let v = laid.courses.get(course? as usize)?.butt_in;
        Some(scale.paper(pipe.at_in[1] - v))
    };
    // From here up it lies under the units of the course over its head.
    let covered = butt(pipe.under).map_or(-half_up, |y| y.clamp(-half_up, -radius));
    let mut items = vec![
        line(vec![[-half, covered], [-half, half_up], [half, half_up], [half, covered]], LineType::Course),
        line(vec![[-half, covered], [-half, -half_up], [half, -half_up], [half, covered]], LineType::Hidden),
    ];
    if let Some(y) = butt(pipe.under) {
        items.push(line(vec![[-reach, y], [reach, y]], LineType::Piece));
    }
    // The plate hides the butts of the course under its foot.
    if let Some(y) = butt(pipe.over) {
        items.extend([[-reach, -half], [half, reach]].map(|[from, to]| line(vec![[from, y], [to, y]], LineType::Piece)));
    }
    items.push(Item::Shape { rings: vec![circle(radius)], line: LineType::PlaneEdge, fill: Fill::Hatch });
    items.extend(between([[-half, half_up + 8.0], [half, half_up + 8.0]], &words.length(across)));
    items.extend(between([[reach + 5.0, -half_up], [reach + 5.0, half_up]], &words.length(up)));
    items.extend(numbered(1, [0.0, 0.0], [-reach, 0.0]));
    items.extend(numbered(2, [half * 0.6, -half_up * 0.8], [reach * 0.85, -half_up - 5.0]));
    items.extend(numbered(3, [-half * 0.6, half_up * 0.8], [-reach, half_up + 3.0]));
    let course = |index: Option<u32>| index.map_or_else(|| "–".to_owned(), |index| (index + 1).to_string());
    let keyed = vec![
        format!("1  {} {}", words.word("pipe across"), words.length(pipe.diameter_in)),
        format!("2  {} {}", words.word("head under course"), course(pipe.under)),
        format!("3  {} {}", words.word("foot over course"), course(pipe.over)),
    ];
    Some(framed(items, scale, keyed))
}

fn circle(radius: f64) -> Vec<Point> {
    let turns = (0..32).map(|step| f64::from(step) * 11.25_f64.to_radians());
    turns.map(|turn| [radius * libm::cos(turn), radius * libm::sin(turn)]).collect()
}
