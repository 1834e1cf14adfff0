//! `docs/rules.md` is made from the rules' own pages. `HEADLAP_BLESS=1 cargo test -p checks --test pages` writes it anew.

use std::fmt::Write;
use std::{env, fs};

use checks::{Danger, RULES, Rule};

const PATH: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/rules.md");
const HEAD: &str = "\
# The rules

Made from the first lines of each file in `crates/checks/src/rules`; change it there.

A rule's *kind* tells who asks for it: a building code, the maker's sheet, or the practice of the trade. It passes, fails,
asks for attention (nothing is known to be wrong, and not everything could be judged), or does not apply and names what is
missing. A code whose text was not read never passes. The licensed designer, the maker's sheet and the local code decide.
";

fn pages() -> String {
    RULES.iter().fold(HEAD.to_owned(), |page, rule| page + "\n" + &section(rule))
}

/// The page one heading lower, with a line of facts under its title.
fn section(rule: &Rule) -> String {
    let dangers: Vec<&str> = rule.endangers.iter().copied().map(Danger::name).collect();
    let facts = format!("`{}` · {} · endangers: {}", rule.name, rule.kind.name(), dangers.join(", "));
    let mut section = String::new();
    for line in rule.page().lines() {
        let _ = match line.strip_prefix("# ") {
            Some(title) => writeln!(section, "## {title}\n\n{facts}"),
            None if line.starts_with("## ") => writeln!(section, "#{line}"),
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
