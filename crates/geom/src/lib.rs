//! geom
