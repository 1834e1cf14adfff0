//! Takeoff: what to order, counted from the layout and the lines of the roof, never from a percentage of an area.
//!
//! Every line of the order knows the places that it counts. What breaks is a distribution: the spare packs keep to a stated
//! chance of running short. The formulas and their reasons are in `docs/takeoff.md`.

mod binomial;
mod breakage;
mod caps;
mod count;
mod delivery;
mod dry_in;
mod field;
mod footing;
mod kerf;
mod laying;
mod leaning;
mod loads;
mod metal;
mod nails;
mod order;
mod pallets;
mod piles;
mod ridge_vent;
mod stage;
mod starters;
mod stock;
mod waste;
mod wide;

pub use binomial::chance_of_more;
pub use breakage::{Breakage, OrderChoices, PlannedDelivery, Spare, SpareChoice, ToldBy};
pub use caps::caps_along;
pub use count::count;
pub use delivery::Delivery;
pub use loads::{PlaneLoad, dead_loads};
pub use order::{CountedPlace, Order, OrderLine, Wanted};
pub use pallets::{Pallets, pallets};
pub use stage::{Balance, Pile, Stage, StageChoices, stage};
pub use stock::{Stock, stock};
pub use waste::{CutOff, Waste, waste};
