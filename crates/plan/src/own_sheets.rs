use std::borrow::Cow;

use covering::{Catalog, Covering};
use units::Length;

use crate::Job;

/// The catalogue with the job's own sheets in it, each in the place of another with its id.
pub(crate) fn with_own_sheets<'a>(job: &Job, catalog: &'a Catalog) -> Cow<'a, Catalog> {
    let mut catalog = Cow::Borrowed(catalog);
    for sheet in &job.sheets {
        catalog.to_mut().add(sheet.clone());
    }
    catalog
}

/// The same, with no course of the sheet that is laid showing more than the job wants.
pub(crate) fn as_job_has_it<'a>(job: &Job, catalog: &'a Catalog) -> Cow<'a, Catalog> {
    let mut catalog = with_own_sheets(job, catalog);
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
