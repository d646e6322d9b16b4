//! The job as it was last read: a look at the same texts does not work everything out again.

use crate::Shelf;
use job::{Job, Source};
use std::sync::{Arc, Mutex, PoisonError};

/// What was read last, with its texts.
type Last = Option<((Source, Vec<Source>), Arc<Job>)>;

/// Hands texts in, and keeps the job that was read from them.
pub(crate) struct Kept {
    pub shelf: Box<dyn Shelf>,
    last: Mutex<Last>,
}

impl Kept {
    pub fn new(shelf: Box<dyn Shelf>) -> Self {
        Self {
            shelf,
            last: Mutex::new(None),
        }
    }

    /// The job of the texts as they are now, or why they can't be had.
    pub fn job(&self) -> Result<Arc<Job>, String> {
        let texts = self.shelf.read()?;
        // Whoever panicked while holding it left it as it was.
        let mut last = self.last.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((known, job)) = &*last
            && *known == texts
        {
            return Ok(Arc::clone(job));
        }
        let job = Arc::new(Job::read(texts.0.clone(), texts.1.clone()));
        *last = Some((texts, Arc::clone(&job)));
        Ok(job)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::atomic::{AtomicUsize, Ordering};

    /// Gives another text from the third look on.
    struct Changing(AtomicUsize);

    impl Shelf for Changing {
        fn read(&self) -> crate::Texts {
            let n = self.0.fetch_add(1, Ordering::SeqCst);
            let text = if n < 2 { "a = 1" } else { "b = 2" }.to_owned();
            let name = "plan".to_owned();
            Ok((Source { name, text }, Vec::new()))
        }

        fn write(&self, _: &dyn Fn(&str) -> bool, _: &str) -> Result<(), crate::Refused> {
            Err(crate::Refused::Failed("it takes nothing".to_owned()))
        }

        fn versions(&self) -> Vec<crate::Version> {
            Vec::new()
        }

        fn version(&self, _: u32) -> Option<String> {
            None
        }
    }

    #[test]
    fn the_same_texts_are_read_once_and_changed_ones_anew() {
        let kept = Kept::new(Box::new(Changing(AtomicUsize::new(0))));
        let (one, two, three) = (
            kept.job().unwrap(),
            kept.job().unwrap(),
            kept.job().unwrap(),
        );
        assert!(Arc::ptr_eq(&one, &two) && !Arc::ptr_eq(&two, &three));
    }
}
