//! reader
