//! The short formulas are tested before anything is tested against them.
mod oracles;
