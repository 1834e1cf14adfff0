use std::fmt::Write;

use crate::mistake::Mistake;
use crate::node::{Entry, Node, Value};
use crate::{Format, Read, read};

/// The same values as JSON text, indented by two spaces, keys in the order of the text; a list of plain values stands on one
/// line.
///
/// # Errors
/// Every mistake of the grammar, with its place.
pub fn to_json(text: &str, format: Format) -> Result<String, Vec<Mistake>> {
    let Read { value, mistakes, places } = read::<serde::de::IgnoredAny>(text, format);
    if value.is_none() {
        return Err(mistakes);
    }
    let mut out = String::new();
    write_value(&mut out, places.root(), 0);
    Ok(out + "\n")
}

fn write_value(out: &mut String, node: &Node, depth: usize) {
    match &node.value {
        Value::Nothing | Value::Date => out.push_str("null"),
        Value::Bool(value) => out.push_str(if *value { "true" } else { "false" }),
        Value::Whole(value) => {
            let _ = write!(out, "{value}");
        }
        Value::Number(value) => out.push_str(&serde_json::Value::from(*value).to_string()),
        Value::Text(text) => out.push_str(&quoted(text)),
        Value::List(items) => write_list(out, items, depth),
        Value::Table(entries) if entries.is_empty() => out.push_str("{}"),
        Value::Table(entries) => write_table(out, entries, depth),
    }
}

fn write_list(out: &mut String, items: &[Node], depth: usize) {
    let is_plain = !items.iter().any(|item| matches!(item.value, Value::List(_) | Value::Table(_)));
    out.push('[');
    for (index, item) in items.iter().enumerate() {
        match (index, is_plain) {
            (0, true) => {}
            (_, true) => out.push_str(", "),
            (0, false) => line(out, depth + 1),
            (_, false) => {
                out.push(',');
                line(out, depth + 1);
            }
        }
        write_value(out, item, depth + 1);
    }
    if !is_plain {
        line(out, depth);
    }
    out.push(']');
}

fn write_table(out: &mut String, entries: &[Entry], depth: usize) {
    let mut entries: Vec<&Entry> = entries.iter().collect();
    // TOML's tables come sorted by key.
    entries.sort_by_key(|entry| entry.key_span.start);
    out.push('{');
    for (index, entry) in entries.into_iter().enumerate() {
        if index > 0 {
            out.push(',');
        }
        line(out, depth + 1);
        out.push_str(&quoted(&entry.key));
        out.push_str(": ");
        write_value(out, &entry.node, depth + 1);
    }
    line(out, depth);
    out.push('}');
}

fn line(out: &mut String, depth: usize) {
    out.push('\n');
    out.extend(std::iter::repeat_n("  ", depth));
}

fn quoted(text: &str) -> String {
    serde_json::Value::from(text).to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_values_stay_and_so_does_their_order() {
        let toml = "name = \"6\\\" house\"\nb = 1\na = [1.5, \"16 in\"]\n[[block]]\nempty = []\non = true\nsides = [{ eave = 8 }]\n";
        let expected = r#"{
  "name": "6\" house",
  "b": 1,
  "a": [1.5, "16 in"],
  "block": [
    {
      "empty": [],
      "on": true,
      "sides": [
        {
          "eave": 8
        }
      ]
    }
  ]
}
"#;
        let json = to_json(toml, Format::Toml).expect("it is TOML");
        assert_eq!(json, expected);
        assert_eq!(to_json(&json, Format::Json).as_deref(), Ok(expected), "what is written reads the same");
    }

    #[test]
    fn a_broken_text_gives_its_mistakes() {
        let mistakes = to_json("a = \n", Format::Toml).expect_err("no value");
        assert_eq!(mistakes[0].line, 1);
    }
}
