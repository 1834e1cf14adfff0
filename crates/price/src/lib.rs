//! The price: what is counted times rates of a file, with overhead, margin and tax, and what an owner signs.
//!
//! Money is whole cents and never floating. Every line is rounded once, a half away from zero; lines sum exactly.

mod desk;
mod file;
mod quote;
mod rates;
mod work;

pub use file::{
    CostTable, CrewTable, DrawTable, ExtraTable, LaborTable, MaterialTable, ProposalTable, RatesFile, TaxTable, TaxedWord,
    UnitPriceTable, rates_schema,
};
pub use quote::{Bought, Draw, Hours, Quote, Sums, Unpriced, draws, quote};
pub use rates::{Rates, SHIPPED, UnitPrice, read_rates, shipped, sound_rates};
pub use work::{Counted, Material, Of, Work};
