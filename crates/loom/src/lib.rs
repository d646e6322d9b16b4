//! loom
