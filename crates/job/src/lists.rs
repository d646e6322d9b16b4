//! What to buy and what to cut.

use crate::Job;
use pack::Content;
use study::Lists;

impl Job {
    /// What to buy, and what goes on each end of every wire, worked out when first asked for.
    pub fn lists(&self) -> Option<&Lists> {
        let habits = self.habits()?;
        let (loom, answers) = (self.loom()?, self.answers()?);
        let work_out = || study::lists(loom, self.stock(), habits, answers);
        Some(self.lists.get_or_init(work_out))
    }

    /// The lists in tables.
    pub fn lists_report(&self) -> Option<Content> {
        Some(pack::lists(&self.subject()?, self.lists()?))
    }

    /// The same tables as comma-separated files, each with its name; none of a plan that can't be read.
    ///
    /// # Errors
    /// Why a table could not be written.
    pub fn lists_csv(&self) -> Result<Vec<(&'static str, Vec<u8>)>, String> {
        let (Some(subject), Some(lists)) = (self.subject(), self.lists()) else {
            return Ok(Vec::new());
        };
        pack::lists_csv(&subject, lists).map_err(|e| e.to_string())
    }
}
