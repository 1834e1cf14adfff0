//! Takeoff: what to order, counted from the layout and the lines of the roof, never from a percentage of an area.
//!
//! Every line of the order knows the places that it counts. The formulas and their reasons are in `docs/takeoff.md`.

mod caps;
mod count;
mod dry_in;
mod field;
mod laying;
mod nails;
mod order;
mod ridge_vent;
mod starters;
mod stock;
mod wide;

pub use caps::caps_along;
pub use count::count;
pub use order::{CountedPlace, Order, OrderLine};
pub use stock::{Stock, stock};
