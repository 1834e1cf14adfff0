use std::collections::BTreeSet;
use std::fmt::Write;

use crate::lettering::CAP_PER_EM;
use crate::{Anchor, Fill, Item, LineType, Point, Scene, Text};

/// The scene as an SVG file in real size: one user unit is a millimetre. The same scene gives the same bytes.
#[must_use]
pub fn svg(scene: &Scene) -> String {
    let [width, height] = scene.page.size().map(number);
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\" \
         role=\"img\" aria-labelledby=\"title desc\">\n<title id=\"title\">{}</title>\n<desc id=\"desc\">{}</desc>\n",
        escaped(&scene.title),
        escaped(&scene.description)
    );
    out += &style(scene);
    let _ = writeln!(out, "<rect width=\"{width}\" height=\"{height}\" class=\"unseen paper\"/>");
    for item in &scene.items {
        write_item(&mut out, item);
    }
    out + "</svg>\n"
}

/// Slanting lines 1.1 mm apart, on paper so that they hide what lies below.
const HATCH: &str = "<defs><pattern id=\"hatch\" width=\"1.1\" height=\"1.1\" patternUnits=\"userSpaceOnUse\" \
                     patternTransform=\"rotate(45)\"><rect width=\"1.1\" height=\"1.1\" fill=\"#fff\"/>\
                     <path d=\"M0 0V1.1\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.25\"/></pattern></defs>\n";

/// Only what the sheet uses.
fn style(scene: &Scene) -> String {
    let mut rules = String::from("<style>text{font-family:Arial,Helvetica,'DejaVu Sans',sans-serif;fill:#000;stroke:none}");
    for line in lines(scene) {
        let width = line.width();
        let _ = write!(rules, ".{}{{stroke:#000;stroke-width:{width}", class(line));
        if !line.dashes().is_empty() {
            let dashes: Vec<String> = line.dashes().iter().map(|dash| number(dash * width)).collect();
            let _ = write!(rules, ";stroke-dasharray:{}", dashes.join(" "));
        }
        rules.push('}');
    }
    let hatch = if scene.items.iter().any(is_hatched) { HATCH } else { "" };
    rules
        + ".unseen{stroke:none}.open{fill:none}.paper{fill:#fff}.ink{fill:#000}.hatch{fill:url(#hatch)}\
             path{stroke-linejoin:round}.strong{font-weight:bold}</style>\n"
        + hatch
}

fn lines(scene: &Scene) -> BTreeSet<LineType> {
    let of = |item: &Item| match item {
        Item::Line { line, .. } | Item::Shape { line, .. } => Some(*line),
        Item::Text(_) => None,
    };
    scene.items.iter().filter_map(of).filter(|line| *line != LineType::Unseen).collect()
}

const fn is_hatched(item: &Item) -> bool {
    matches!(item, Item::Shape { fill: Fill::Hatch, .. })
}

const fn class(line: LineType) -> &'static str {
    match line {
        LineType::PlaneEdge => "plane-edge",
        LineType::Piece => "piece",
        LineType::Course => "course",
        LineType::Hidden => "hidden",
        LineType::Limit => "limit",
        LineType::Eave => "eave",
        LineType::Rake => "rake",
        LineType::Ridge => "ridge",
        LineType::Hip => "hip",
        LineType::Valley => "valley",
        LineType::Sidewall => "sidewall",
        LineType::Headwall => "headwall",
        LineType::Break => "break",
        LineType::HighEdge => "high-edge",
        LineType::DeadValley => "dead-valley",
        LineType::Unseen => "unseen",
    }
}

fn write_item(out: &mut String, item: &Item) {
    let _ = match item {
        Item::Line { points, line } => writeln!(out, "<path class=\"{} open\" d=\"{}\"/>", class(*line), path(points)),
        Item::Shape { rings, line, fill } => {
            let closed: String = rings.iter().map(|ring| path(ring) + "z").collect();
            writeln!(out, "<path class=\"{} {}\" fill-rule=\"evenodd\" d=\"{closed}\"/>", class(*line), fill_class(*fill))
        }
        Item::Text(text) => write_text(out, text),
    };
}

const fn fill_class(fill: Fill) -> &'static str {
    match fill {
        Fill::Paper => "paper",
        Fill::Ink => "ink",
        Fill::Hatch => "hatch",
    }
}

fn path(points: &[Point]) -> String {
    let mut out = String::new();
    for (index, &[x, y]) in points.iter().enumerate() {
        let _ = write!(out, "{}{} {}", if index == 0 { 'M' } else { 'L' }, number(x), number(y));
    }
    out
}

fn write_text(out: &mut String, text: &Text) -> std::fmt::Result {
    let [x, y] = text.at.map(number);
    write!(out, "<text x=\"{x}\" y=\"{y}\" font-size=\"{}\"", number(text.cap / CAP_PER_EM))?;
    match text.anchor {
        Anchor::Start => {}
        Anchor::Middle => out.push_str(" text-anchor=\"middle\""),
        Anchor::End => out.push_str(" text-anchor=\"end\""),
    }
    if text.turn != 0.0 {
        write!(out, " transform=\"rotate({} {x} {y})\"", number(text.turn))?;
    }
    if text.strong {
        out.push_str(" class=\"strong\"");
    }
    writeln!(out, ">{}</text>", escaped(&text.words))
}

/// Hundredths at most, without needless zeros. What is not a number becomes 0, so that the file stays readable.
fn number(value: f64) -> String {
    let hundredths = (value * 100.0).round() as i64;
    let sign = if hundredths < 0 { "-" } else { "" };
    let (whole, part) = (hundredths.unsigned_abs() / 100, hundredths.unsigned_abs() % 100);
    match part {
        0 => format!("{sign}{whole}"),
        part if part % 10 == 0 => format!("{sign}{whole}.{}", part / 10),
        part => format!("{sign}{whole}.{part:02}"),
    }
}

/// Character data of XML 1.0, section 2.2 and 2.4: no markup, and no characters that the standard forbids.
fn escaped(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    for c in words.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '\u{fffe}' | '\u{ffff}' => out.push('\u{fffd}'),
            c if c < ' ' && !matches!(c, '\t' | '\n' | '\r') => out.push('\u{fffd}'),
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Page;

    #[test]
    fn numbers_are_short_and_never_minus_nothing() {
        for (value, shown) in
            [(0.0, "0"), (-0.001, "0"), (1.5, "1.5"), (-12.046, "-12.05"), (0.049, "0.05"), (f64::NAN, "0")]
        {
            assert_eq!(number(value), shown);
        }
    }

    #[test]
    fn words_cannot_break_the_file() {
        let words = "<b> & \"12'\" \u{1} > \u{ffff}".to_owned();
        let text = Text { at: [1.0, 2.0], cap: 2.5, anchor: Anchor::End, turn: -90.0, strong: true, words };
        let scene =
            Scene { page: Page::LETTER, title: "a < b".into(), description: "c & d".into(), items: vec![Item::Text(text)] };
        let file = svg(&scene);
        assert!(file.contains("<title id=\"title\">a &lt; b</title>"));
        assert!(file.contains("<desc id=\"desc\">c &amp; d</desc>"));
        assert!(file.contains(
            "<text x=\"1\" y=\"2\" font-size=\"3.47\" text-anchor=\"end\" transform=\"rotate(-90 1 2)\" class=\"strong\">\
             &lt;b&gt; &amp; \"12'\" \u{fffd} &gt; \u{fffd}</text>"
        ));
    }

    #[test]
    fn the_paper_has_its_real_size() {
        let scene = Scene { page: Page::LETTER, title: String::new(), description: String::new(), items: vec![] };
        assert!(svg(&scene).starts_with(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"279.4mm\" height=\"215.9mm\" viewBox=\"0 0 279.4 215.9\""
        ));
    }
}
