//! Job in, plan out: the only room that gathers the others.

mod plan;

pub use plan::*;
