use std::borrow::Cow;

use covering::{Catalog, Covering};
use units::Length;

use crate::Job;

/// The catalogue as the job has it: its own sheets in it, each in the place of another with its id, and the sheet that is laid
/// with no course showing more than the job wants.
pub(crate) fn as_job_has_it<'a>(job: &Job, catalog: &'a Catalog) -> Cow<'a, Catalog> {
    let mut catalog = Cow::Borrowed(catalog);
    for sheet in &job.sheets {
        catalog.to_mut().add(sheet.clone());
    }
    let laid = &job.covering.sheet;
    if let Some(limited) = job.exposure.and_then(|most| Some(at_most(catalog.get(laid)?, most))) {
        catalog.to_mut().sheets.insert(laid.clone(), limited);
    }
    catalog
}

/// The sheet with no course showing more than this; its own limit stays where it is lower.
fn at_most(covering: &Covering, most: Length) -> Covering {
    let mut sheet = covering.clone();
    for band in &mut sheet.bands {
        if band.greatest_exposure > most {
            band.greatest_exposure = most;
        }
        if band.least_exposure > most {
            band.least_exposure = most;
        }
    }
    sheet
}
