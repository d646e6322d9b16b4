//! What takes a while: worked out beside the threads that serve, its progress told meanwhile, kept until the plan changes.

use crate::kept::Kept;
use job::Job;
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

/// How far something has come.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Progress {
    /// What is being done.
    pub what: String,
    /// How much of it is done, 0 to 1.
    pub part: f64,
}

/// What comes of it.
#[derive(Clone, Debug)]
pub(crate) enum Made {
    /// A page of every fault, with how many findings of it stop and how many are to be mended.
    Tried(Arc<String>, [usize; 2]),
    /// The test sheet, which stays with the job.
    Sheet,
    /// Files, each with its name and kind.
    Files(Arc<Vec<File>>),
    /// Why nothing did.
    Nothing(String),
}

/// A file to be saved.
#[derive(Debug)]
pub(crate) struct File {
    pub name: &'static str,
    pub kind: &'static str,
    pub bytes: Vec<u8>,
}

struct State {
    progress: Progress,
    made: Option<Made>,
}

/// Something under way, or done.
pub(crate) struct Making {
    /// Of which text, and what.
    pub of: String,
    state: Mutex<State>,
    done: Condvar,
}

impl Making {
    fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Tells how far it has come.
    pub fn tell(&self, what: &str, part: f64) {
        self.state().progress = Progress {
            what: what.to_owned(),
            part,
        };
    }

    /// How far it has come, and what came of it.
    pub fn look(&self) -> (Progress, Option<Made>) {
        let state = self.state();
        (state.progress.clone(), state.made.clone())
    }

    /// The same, once it is done or a while has passed.
    pub fn wait(&self, time: Duration) -> (Progress, Option<Made>) {
        let until = Instant::now() + time;
        let mut state = self.state();
        while state.made.is_none() {
            let left = until.saturating_duration_since(Instant::now());
            if left.is_zero() {
                break;
            }
            let waited = self.done.wait_timeout(state, left);
            state = waited.unwrap_or_else(PoisonError::into_inner).0;
        }
        (state.progress.clone(), state.made.clone())
    }
}

/// Ends something under way with a word, should it fail.
struct Ends<'a>(&'a Making);

impl Drop for Ends<'_> {
    fn drop(&mut self) {
        let mut state = self.0.state();
        if state.made.is_none() {
            let says = "The program failed on this plan, which is a defect: please report it with the plan.";
            state.made = Some(Made::Nothing(says.to_owned()));
        }
        self.0.done.notify_all();
    }
}

impl Kept {
    /// Begins something unless it is under way, or done, of the same text already.
    pub fn making(
        self: &Arc<Self>,
        what: &'static str,
        how: &str,
        make: impl FnOnce(&Job, &Making) -> Made + Send + 'static,
    ) -> Result<Arc<Making>, String> {
        let job = self.best()?;
        let text = job.sources().first().map_or("", |s| s.text.as_str());
        let of = format!("{} {how}", crate::kept::revision(text));
        let mut all = self.under_way();
        if let Some(known) = all.get(what)
            && known.of == of
        {
            return Ok(Arc::clone(known));
        }
        let progress = Progress {
            what: "working out the loom".to_owned(),
            part: 0.0,
        };
        let making = Arc::new(Making {
            of,
            state: Mutex::new(State {
                progress,
                made: None,
            }),
            done: Condvar::new(),
        });
        all.insert(what, Arc::clone(&making));
        let mine = Arc::clone(&making);
        std::thread::spawn(move || {
            let ends = Ends(&mine);
            let made = make(&job, &mine);
            mine.state().made = Some(made);
            drop(ends);
        });
        Ok(making)
    }

    /// What was last begun of a kind.
    pub fn begun(&self, what: &str) -> Option<Arc<Making>> {
        self.under_way().get(what).cloned()
    }
}
