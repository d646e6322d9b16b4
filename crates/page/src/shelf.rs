//! Where a plan lies. The page knows no file: a shelf is handed in, which reads it, keeps what it was before, and takes a new
//! text only from somebody who has seen the one that is there.

use crate::Texts;
use job::record::{Entry, Noted};

/// A plan before one of its changes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Version {
    /// Its number, rising.
    pub number: u32,
    /// When it was put away, in words, if that is known.
    pub when: String,
}

/// Why a text was not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refused {
    /// The plan is no longer what the writer saw; this is it now.
    Changed(String),
    /// It could not be written; what was there is there still.
    Failed(String),
}

/// Whether a text is a change of its own, or goes on with the one before: letter after letter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stroke {
    /// What was there is put away.
    Anew,
    /// What was there before the first stroke is put away already.
    GoesOn,
}

/// The plan with what lies beside it.
pub trait Shelf: Send + Sync {
    /// The texts as they are now, or why they can't be had.
    fn read(&self) -> Texts;
    /// Takes a text if what is there was `seen` by whoever wrote it: whole or not at all.
    ///
    /// # Errors
    /// If the plan has changed since, or can't be written.
    fn write(&self, seen: &dyn Fn(&str) -> bool, text: &str, stroke: Stroke)
    -> Result<(), Refused>;
    /// What the plan was before, the newest first.
    fn versions(&self) -> Vec<Version>;
    /// The text of one of them.
    fn version(&self, number: u32) -> Option<String>;
    /// What was done and read at the vehicle, in order.
    fn record(&self) -> Vec<Entry>;
    /// Notes something of it, by somebody.
    ///
    /// # Errors
    /// Why it can't be noted.
    fn note(&self, noted: Noted, who: &str) -> Result<(), String>;
}
