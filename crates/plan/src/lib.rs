//! Job in, plan out: the only room that gathers the others.

mod cautions;
mod checked;
mod job;
mod make;
mod openings;
mod plan;

pub use job::*;
pub use make::plan;
pub use plan::*;
