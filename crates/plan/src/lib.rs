//! Job in, plan out: the only room that gathers the others.

mod job;
mod plan;

pub use job::*;
pub use plan::*;
