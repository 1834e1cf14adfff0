//! `docs/rules.md` is made from the rules' own pages. `HEADLAP_BLESS=1 cargo test -p checks --test pages` writes it anew.

use std::fmt::Write;
use std::{env, fs};

use checks::{Danger, Edition, Family, RULES, Rule};

const PATH: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/rules.md");
const HEAD: &str = r#"# The rules

Made from the first lines of each file in `crates/checks/src/rules`; change it there.

A rule's *kind* tells who asks for it: a building code, the maker's sheet, or the practice of the trade. It passes, fails,
asks for attention (nothing is known to be wrong, and not everything could be judged), or does not apply and names what is
missing. A finding by a code names the edition that the job names ([site] code); where the words of that edition were not
read, the rule never passes. A rule that rests on memory, or on practice that nobody has published, says so in its source.
The licensed designer, the maker's sheet and the local code decide.

`headlap explain RULE` prints one page, `headlap rules` the list, `headlap check JOB` what they find. A finding that somebody
has looked at and accepts is silenced in the job file, with the reason; it stays in the plan and is printed with it:

```toml
[[silence]]
rule   = "piece-too-small"
plane  = "house.0"                # leave out for every plane
reason = "The owner wants the old joint line kept; two screws in each."
```
"#;

fn pages() -> String {
    let families = Family::ALL.iter().map(|&family| RULES.iter().filter(move |rule| rule.family == family).peekable());
    families.fold(HEAD.to_owned(), |mut page, mut rules| {
        if let Some(first) = rules.peek() {
            let _ = writeln!(page, "\n## {}", capital(first.family.name()));
            rules.for_each(|rule| page += &("\n".to_owned() + &section(rule)));
        }
        page
    })
}

fn capital(words: &str) -> String {
    let (first, rest) = words.split_at(1);
    first.to_uppercase() + rest
}

fn reading(rule: &Rule) -> String {
    let editions: Vec<&str> = rule.reading.editions().iter().copied().map(Edition::name).collect();
    match rule.reading {
        checks::Reading::Memory => " · source not read".to_owned(),
        checks::Reading::Read => String::new(),
        checks::Reading::In(_) => format!(" · read in the edition of {}", editions.join(", ")),
    }
}

/// The page two headings lower, with a line of facts under its title.
fn section(rule: &Rule) -> String {
    let dangers: Vec<&str> = rule.endangers.iter().copied().map(Danger::name).collect();
    let facts = format!("`{}` · {} · endangers: {}{}", rule.name, rule.kind.name(), dangers.join(", "), reading(rule));
    let mut section = String::new();
    for line in rule.page().lines() {
        let _ = match line.strip_prefix("# ") {
            Some(title) => writeln!(section, "### {title}\n\n{facts}"),
            None if line.starts_with("## ") => writeln!(section, "##{line}"),
            None => writeln!(section, "{line}"),
        };
    }
    section
}

#[test]
fn the_rules_page_is_current() {
    if env::var_os("HEADLAP_BLESS").is_some() {
        fs::write(PATH, pages()).unwrap();
    }
    let written = fs::read_to_string(PATH).unwrap_or_default();
    assert!(written == pages(), "docs/rules.md is old; write it anew with HEADLAP_BLESS=1");
}
