//! pack
