//! Job in, plan out: the only room that gathers the others.

mod cautions;
mod checked;
mod compare;
mod courses;
mod cutting;
mod details_told;
mod job;
mod loads;
mod make;
mod metal_told;
mod openings;
mod order_told;
mod ordering;
mod placing;
mod plan;
mod plan_details;
mod plan_metal;
mod pricing;
mod relay;
mod relay_told;
mod set_out;
mod waste;

pub use compare::{BondChoice, Choices, Compared, Comparison, HipChoice, compare};
pub use cutting::{CutKind, CutPlace, CutUnit, Cutout, Cutting};
pub use job::*;
pub use loads::{Balance, Loads, Pallets, Pile, PlaneLoad};
pub use make::plan;
pub use order_told::{CountedPlace, Delivery, OrderLine, PacksOf, Spare, SpareChoice};
pub use plan::*;
pub use plan_details::*;
pub use plan_metal::*;
pub use pricing::{Priced, price};
pub use relay::{CourseRead, Misread, relay};
pub use relay_told::*;
pub use set_out::*;
pub use waste::{CutOff, Waste};
