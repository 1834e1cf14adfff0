//! No page is left for a few lines.

use super::{binding, examples};
use crate::{Language, Measures, Part, press, tail};

/// One signature of a hold point, one row of cuts: sheets of these books ran over by so little.
#[test]
fn sheets_that_run_over_by_a_few_lines_are_set_closer() {
    let mut ran_over = 0;
    for (name, plan) in examples().into_iter().filter(|(name, _)| ["chimney", "manor"].contains(&name.as_str())) {
        for language in [Language::English, Language::Spanish] {
            let content = crate::content(&plan, &binding(language, Measures::Customary, Part::Crew)).unwrap();
            ran_over += tail::nearly_empty(&press::set_once(&content).unwrap()).len();
            assert_eq!(tail::nearly_empty(&press::set(&content).unwrap()), Vec::<usize>::new(), "{name}, {language:?}");
        }
    }
    assert!(ran_over > 0, "nothing ran over, so nothing was tried");
}
