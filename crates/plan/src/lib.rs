//! Job in, plan out: the only room that gathers the others.

mod cautions;
mod checked;
mod courses;
mod job;
mod make;
mod openings;
mod plan;
mod set_out;

pub use job::*;
pub use make::plan;
pub use plan::*;
pub use set_out::*;
