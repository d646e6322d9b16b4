//! What to buy and what to cut.

use crate::Job;
use pack::Content;
use study::Lists;

impl Job {
    /// What to buy, and what goes on each end of every wire.
    pub fn lists(&self) -> Option<Lists> {
        let habits = self.habits()?;
        let (loom, answers) = (self.loom()?, self.answers()?);
        Some(study::lists(loom, self.stock(), habits, answers))
    }

    /// The lists in tables.
    pub fn lists_report(&self, lists: &Lists) -> Option<Content> {
        Some(pack::lists(&self.subject()?, lists))
    }

    /// The same tables as comma-separated files, each with its name; none of a plan that can't be read.
    ///
    /// # Errors
    /// Why a table could not be written.
    pub fn lists_csv(&self, lists: &Lists) -> Result<Vec<(&'static str, Vec<u8>)>, String> {
        let Some(subject) = self.subject() else {
            return Ok(Vec::new());
        };
        pack::lists_csv(&subject, lists).map_err(|e| e.to_string())
    }
}
