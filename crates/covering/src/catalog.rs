use std::collections::BTreeMap;

use reader::Format;

use crate::{Covering, read_sheet};

/// The texts of the sheets that ship, by id: a roofer copies one and types in the maker's figures.
pub const SHIPPED: [(&str, &str); 5] = [
    ("composite-slate", include_str!("../../../coverings/composite-slate.toml")),
    ("natural-slate", include_str!("../../../coverings/natural-slate.toml")),
    ("plain-tile", include_str!("../../../coverings/plain-tile.toml")),
    ("sawn-shake", include_str!("../../../coverings/sawn-shake.toml")),
    ("wood-shingle", include_str!("../../../coverings/wood-shingle.toml")),
];

/// The coverings a job can choose from, by id.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Catalog {
    /// By id. A sheet of one's own with the id of a shipped one takes its place.
    pub sheets: BTreeMap<String, Covering>,
}

impl Catalog {
    /// The generic sheets that ship, all with invented figures.
    #[must_use]
    pub fn shipped() -> Self {
        let read = |(_, text)| read_sheet(text, Format::Toml).value;
        let mut catalog = Self::default();
        SHIPPED.into_iter().filter_map(read).for_each(|covering| catalog.add(covering));
        catalog
    }

    /// Adds a covering under its id.
    pub fn add(&mut self, covering: Covering) {
        self.sheets.insert(covering.id.clone(), covering);
    }

    /// The covering with an id.
    #[must_use]
    pub fn get(&self, id: &str) -> Option<&Covering> {
        self.sheets.get(id)
    }

    /// The id that was probably meant by a name that is none.
    #[must_use]
    pub fn nearest(&self, id: &str) -> Option<&str> {
        reader::nearest(id, self.sheets.keys().map(String::as_str))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_shipped_sheet_reads_clean_and_stands_under_its_own_id() {
        for (id, text) in SHIPPED {
            let read = read_sheet(text, Format::Toml);
            assert_eq!(read.mistakes, [], "{id}");
            let covering = read.value.unwrap();
            assert_eq!(covering.id, id);
            assert!(covering.invented && covering.name.contains("generic"), "{id} must say that it is no product");
            assert!(covering.sources.iter().all(|(_, source)| source.contains("nvented") || source.contains("from memory")));
        }
        assert_eq!(Catalog::shipped().sheets.len(), SHIPPED.len());
    }

    #[test]
    fn a_slip_in_a_name_finds_the_sheet() {
        let catalog = Catalog::shipped();
        assert_eq!(catalog.nearest("composit slate"), Some("composite-slate"));
        assert_eq!(catalog.nearest("thatch"), None);
        assert!(catalog.get("natural-slate").is_some() && catalog.get("slate").is_none());
    }

    #[test]
    fn a_sheet_of_ones_own_joins_the_catalogue() {
        let text = SHIPPED[0].1.replace("id       = \"composite-slate\"", "id = \"my-slate\"");
        let mut catalog = Catalog::shipped();
        catalog.add(read_sheet(&text, Format::Toml).value.unwrap());
        assert_eq!(catalog.get("my-slate").unwrap().unit, catalog.get("composite-slate").unwrap().unit);
    }
}
