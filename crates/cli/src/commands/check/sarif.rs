//! Static Analysis Results Interchange Format, OASIS Standard, version 2.1.0: findings on the lines of the job file.

use checks::{Kind, RULES, Rule};
use plan::{Check, CheckedPlace, Job, Plan, Problem, Severity};
use serde_json::{Value, json};

use crate::input::Source;

/// The whole log: one run, every rule, and what was found by those that did not pass.
pub(super) fn log(source: &Source, job: &Job, plan: &Plan) -> Value {
    let file = File { source, job };
    let found = plan.checks.iter().filter(|check| level(check.outcome).is_some()).map(|check| finding(&file, check));
    let problems = plan.problems.iter().map(|problem| of_problem(&file, problem));
    json!({
        "$schema": "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
        "version": "2.1.0",
        "runs": [{
            "tool": { "driver": {
                "name": "headlap",
                "version": env!("CARGO_PKG_VERSION"),
                "rules": RULES.iter().map(rule).collect::<Vec<_>>(),
            } },
            "columnKind": "unicodeCodePoints",
            "results": problems.chain(found).collect::<Vec<_>>(),
        }],
    })
}

/// The job file, in which everything has a place.
struct File<'a> {
    source: &'a Source,
    job: &'a Job,
}

/// How loud a finding is; none for what is no finding.
fn level(outcome: &str) -> Option<&'static str> {
    match outcome {
        "fail" => Some("error"),
        "attention" => Some("warning"),
        _ => None,
    }
}

fn rule(rule: &Rule) -> Value {
    json!({
        "id": rule.name,
        "shortDescription": { "text": rule.title() },
        "help": { "text": rule.page(), "markdown": rule.page() },
        "defaultConfiguration": { "level": if rule.kind == Kind::Practice { "warning" } else { "error" } },
        "properties": {
            "tags": [rule.kind.name(), rule.family.name()],
            "source": rule.source(),
            "read_source": rule.read_source(),
        },
    })
}

fn finding(file: &File, check: &Check) -> Value {
    let index = RULES.iter().position(|rule| rule.name == check.rule);
    let mut result = json!({
        "ruleId": check.rule,
        "ruleIndex": index,
        "level": level(check.outcome),
        "message": { "text": format!("{} Remedy: {} Source: {}", check.says, check.remedy, check.source) },
        "locations": [file.location(&check.path)],
        "relatedLocations": check.places.iter().enumerate().map(|(id, place)| file.related(id, place)).collect::<Vec<_>>(),
        "properties": { "kind": check.kind, "edition": check.edition, "endangers": check.endangers },
    });
    if let Some(reason) = &check.silenced {
        result["suppressions"] = json!([{ "kind": "inSource", "status": "accepted", "justification": reason }]);
    }
    result
}

fn of_problem(file: &File, problem: &Problem) -> Value {
    json!({
        "ruleId": problem.code,
        "level": if problem.severity == Severity::Error { "error" } else { "warning" },
        "message": { "text": format!("{}: {}", problem.says, problem.remedy) },
        "locations": [file.location(&problem.place.path)],
    })
}

impl File<'_> {
    fn location(&self, path: &str) -> Value {
        json!({ "physicalLocation": {
            "artifactLocation": { "uri": uri(&self.source.name) },
            "region": self.region(path),
        } })
    }

    /// A place on the roof, with the line of its plane in the file.
    fn related(&self, id: usize, place: &CheckedPlace) -> Value {
        let mut location = self.location(&place.path);
        let says =
            format!("{}, course {}, {:.2} in along, {:.2} in up", place.plane, place.course + 1, place.u_in, place.v_in);
        location["id"] = json!(id);
        location["message"] = json!({ "text": says });
        location
    }

    /// Line and columns, counted from 1 in characters; the first line for what stands nowhere in the file.
    fn region(&self, path: &str) -> Value {
        let Some(span) = self.job.places.span(path) else { return json!({ "startLine": 1 }) };
        let text = &self.source.text;
        let line_start = text[..span.start].rfind('\n').map_or(0, |at| at + 1);
        let line_end = text[span.start..].find('\n').map_or(text.len(), |at| span.start + at);
        let column = |at: usize| text[line_start..at.min(line_end)].chars().count() + 1;
        json!({
            "startLine": text[..span.start].matches('\n').count() + 1,
            "startColumn": column(span.start),
            "endColumn": column(span.end.max(span.start)).max(column(span.start) + 1),
        })
    }
}

/// A relative path as a URI: slashes, and what a URI does not hold written as bytes.
fn uri(name: &str) -> String {
    let plain = |byte: u8| byte.is_ascii_alphanumeric() || b"-._~/".contains(&byte);
    let bytes = name.bytes().map(|byte| if byte == b'\\' { b'/' } else { byte });
    bytes.map(|byte| if plain(byte) { char::from(byte).to_string() } else { format!("%{byte:02X}") }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Percent-encoding: RFC 3986, sections 2.1 and 2.3.
    #[test]
    fn a_name_becomes_a_uri() {
        assert_eq!(uri("jobs/heron house.toml"), "jobs/heron%20house.toml");
        assert_eq!(uri("a%½"), "a%25%C2%BD");
    }
}
