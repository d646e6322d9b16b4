//! `finding`: what Spurline has to tell, and the reader that tells it of a text. Takes TOML text,
//! gives values with their spans and *all* errors; defines the one shape that plan errors, stock
//! errors and study's findings share (id, weight, span or names, what, mend, source).
//!
//! Absent from this room: what a plan or a stock table means, anything electrical, how a face
//! renders a finding.

mod joined;
mod keys;
mod near;
mod read;
mod tell;

pub use joined::joined;
pub use keys::Keys;
pub use near::{nearest, word_of};
pub use read::read_toml;
pub use tell::{At, Basis, Finding, Span, Spanned, Weight};
