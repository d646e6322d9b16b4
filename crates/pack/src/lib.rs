//! `pack`: the documents. Takes loom, answers and sheets, decides once what is told and in which
//! order ([`Content`]), and gives it as one HTML page or, with the feature `pdf`, as a PDF. Faces
//! that show the same in a terminal or on a page read the content too.
//!
//! Absent from this room: the command line, the page, files, how anything was worked out.

mod cautions;
mod comparison;
mod content;
mod faults;
mod html;
mod lists;
#[cfg(feature = "pdf")]
mod pdf;
mod probing;
mod proving;
mod report;
mod seen;
mod sized;
mod supply;
mod tables;
mod tried;
mod whole;
mod why;
mod words;

pub use cautions::{CAUTIONS, CHECKED, NOT_CHECKED};
pub use comparison::comparison;
pub use content::{Align, Block, Column, Content, Paper, Section, Table};
pub use faults::{closely, faults, rows as fault_rows};
pub use html::{STYLE, around, fragment, page, section};
pub use lists::{lists, lists_csv};
#[cfg(feature = "pdf")]
pub use pdf::{PdfError, pdf};
pub use probing::{
    band_words, capital, probe_words, reading, setting_words, words as probing_words,
};
pub use proving::{Proving, ToBeMade, cause_words, ohms_words, percent, proving};
pub use report::{Subject, report, tally};
pub use supply::{day_says, supply};
pub use whole::{PARTS, Part, Whole, whole};
pub use why::why;
