//! One plan that is open: its job as it was last read, first with the sizes that hold, then with the best; what it was
//! before each change, so that changes can be taken back; and who is to be told that something changed.
//!
//! | file | what |
//! |---|---|
//! | `change` | a text put in place of another, taken back, brought back |

mod change;

#[cfg(test)]
mod tests;

use crate::making::{Made, Making};
use crate::{Shelf, Texts};
pub(crate) use change::{Change, Sent};
use job::study::Resized;
use job::{Job, Source};
use std::collections::BTreeMap;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, Weak};
use std::time::{Duration, Instant};
use tokio::sync::watch;

/// Tells one text from another. Whoever saves says which text was seen.
pub(crate) fn revision(text: &str) -> String {
    let mut hasher = DefaultHasher::new();
    text.hash(&mut hasher);
    format!("{:016x}-{:x}", hasher.finish(), text.len())
}

/// A plan as it was read.
struct Last {
    texts: (Source, Vec<Source>),
    /// With the first sizes that hold.
    at_once: Arc<Job>,
    /// With the best.
    best: Arc<Job>,
    /// Whether the best are known.
    known: Arc<AtomicBool>,
    /// What was there before what was changed last.
    before: Option<Before>,
}

/// A plan as it was, with what was known of it then.
#[derive(Clone)]
struct Before {
    at_once: Arc<Job>,
    best: Arc<Job>,
    known: bool,
}

impl Before {
    /// The job of the same kind as one that is shown now; none if it would have to be worked out.
    fn beside(&self, best: bool) -> Option<&Arc<Job>> {
        match best {
            true => Some(&self.best).filter(|_| self.known),
            false => Some(&self.at_once).filter(|job| job.is_answered()),
        }
    }
}

/// What is there of a plan to be shown.
#[derive(Clone)]
pub(crate) struct Seen {
    /// The job, with the best sizes if they are known already.
    pub job: Arc<Job>,
    /// Which text.
    pub revision: String,
    /// Whether its sizes are the best.
    pub best: bool,
    /// What the last change that can be taken back was.
    pub undo: Option<String>,
    /// What the last one that was taken back was.
    pub redo: Option<String>,
    /// What came of what was last asked for.
    pub said: Option<String>,
    /// What a form to which nothing was added is told: its list, and why.
    pub refused: Option<(String, String)>,
    /// What the last change made of the sizes.
    pub resized: Vec<Resized>,
    /// Of every fault: how many findings stop and how many are to be mended; none before it is tried on this plan.
    pub faults: Option<[usize; 2]>,
}

impl Seen {
    /// Tells whether there is something else to be seen.
    pub fn tag(&self) -> String {
        tag(&self.revision, self.best)
    }
}

fn tag(revision: &str, best: bool) -> String {
    format!("{revision}{}", if best { "" } else { "?" })
}

#[derive(Default)]
struct Inner {
    last: Option<Last>,
    history: change::History,
    /// Whether somebody seeks the best sizes: one after the other, never two at once.
    seeking: bool,
    said: Option<Said>,
    /// Whether what is written next goes on with what was typed before it.
    goes_on: bool,
}

/// What came of something, of which text, and when it was said.
struct Said {
    of: String,
    words: String,
    /// The list that it was not added to.
    list: Option<String>,
    when: Instant,
}

/// So long it is shown.
const FRESH: Duration = Duration::from_secs(90);

/// One plan that is open.
pub(crate) struct Kept {
    shelf: Box<dyn Shelf>,
    inner: Mutex<Inner>,
    changed: watch::Sender<u64>,
    under_way: Mutex<BTreeMap<&'static str, Arc<Making>>>,
}

/// Whoever panicked while holding it left it as it was.
fn held<T>(lock: &Mutex<T>) -> MutexGuard<'_, T> {
    lock.lock().unwrap_or_else(PoisonError::into_inner)
}

/// A plan of so many circuits is sized at its best while somebody waits; a larger one is first shown with sizes that hold.
const SMALL: usize = 6;

/// So long a larger one is left alone before the best is sought: whoever types is not done yet.
const QUIET: Duration = Duration::from_millis(900);

/// A study that fails is told where it is asked for; the next text is sought for anew.
struct Fails<'a>(&'a Weak<Kept>);

impl Drop for Fails<'_> {
    fn drop(&mut self) {
        if std::thread::panicking()
            && let Some(kept) = self.0.upgrade()
        {
            held(&kept.inner).seeking = false;
        }
    }
}

/// Works out the best of what is there, until nothing newer is.
fn seek(kept: &Weak<Kept>) {
    let _fails = Fails(kept);
    let mut quiet = None;
    loop {
        let Some(kept) = kept.upgrade() else { return };
        let mut inner = held(&kept.inner);
        let Some(last) = inner
            .last
            .as_ref()
            .filter(|l| !l.known.load(Ordering::Acquire))
        else {
            inner.seeking = false;
            return;
        };
        let (best, known) = (Arc::clone(&last.best), Arc::clone(&last.known));
        drop(inner);
        let large = best.loom().map_or(0, |l| l.circuits.len()) > SMALL;
        // Whoever types is not done yet: a large one has to have been left alone.
        if large && !quiet.as_ref().is_some_and(|q| Arc::ptr_eq(q, &best)) {
            quiet = Some(best);
            drop(kept);
            std::thread::sleep(QUIET);
            continue;
        }
        // Worked out once; whoever asks meanwhile waits for it. One core is left to whoever types.
        let cores = std::thread::available_parallelism().map_or(1, usize::from);
        let aside = rayon::ThreadPoolBuilder::new().num_threads(cores.saturating_sub(1).max(1));
        let pool = aside.build().ok().filter(|_| large);
        let work = || best.answers().is_some();
        pool.map_or_else(work, |pool| pool.install(work));
        known.store(true, Ordering::Release);
        kept.tell();
    }
}

impl Kept {
    pub fn new(shelf: Box<dyn Shelf>) -> Self {
        Self {
            shelf,
            inner: Mutex::default(),
            changed: watch::Sender::new(0),
            under_way: Mutex::default(),
        }
    }

    /// What takes a while, by kind.
    pub fn under_way(&self) -> MutexGuard<'_, BTreeMap<&'static str, Arc<Making>>> {
        held(&self.under_way)
    }

    /// Where it lies.
    pub fn shelf(&self) -> &dyn Shelf {
        &*self.shelf
    }

    /// Hears of changes.
    pub fn listen(&self) -> watch::Receiver<u64> {
        self.changed.subscribe()
    }

    fn tell(&self) {
        self.changed.send_modify(|n| *n += 1);
    }

    /// Reads the texts, and what follows from them if they are others than before.
    fn last(self: &Arc<Self>, inner: &mut Inner) -> Result<(), String> {
        let texts: Texts = self.shelf.read();
        let texts = texts?;
        if inner.last.as_ref().is_some_and(|l| l.texts == texts) {
            return Ok(());
        }
        let read = || Job::read(texts.0.clone(), texts.1.clone());
        let best = Arc::new(read());
        let known = Arc::new(AtomicBool::new(false));
        let circuits = best.loom().map_or(0, |l| l.circuits.len());
        let at_once = match circuits {
            0..=SMALL => Arc::clone(&best),
            _ => Arc::new(read().at_once()),
        };
        let last = inner.last.take();
        if let Some(last) = &last {
            inner.history.noticed(&last.texts.0.text, &texts.0.text);
        }
        let goes_on = std::mem::take(&mut inner.goes_on);
        let before = last.and_then(|last| match goes_on {
            true => last.before,
            false => Some(Before {
                known: last.known.load(Ordering::Acquire),
                at_once: last.at_once,
                best: last.best,
            }),
        });
        inner.last = Some(Last {
            before,
            texts,
            at_once,
            best,
            known,
        });
        if !std::mem::replace(&mut inner.seeking, true) {
            let kept = Arc::downgrade(self);
            std::thread::spawn(move || seek(&kept));
        }
        self.tell();
        Ok(())
    }

    /// What is there to be shown now, or why the texts can't be had.
    pub fn seen(self: &Arc<Self>) -> Result<Seen, String> {
        let mut inner = held(&self.inner);
        self.last(&mut inner)?;
        let (undo, redo) = inner.history.words(&*self.shelf);
        let Inner { last, said, .. } = &*inner;
        let last = last.as_ref().ok_or("nothing was read")?;
        let revision = revision(&last.texts.0.text);
        let fresh = |s: &&Said| s.of == revision && s.when.elapsed() < FRESH;
        let said = said.as_ref().filter(fresh);
        let refused = said.and_then(|s| Some((s.list.clone()?, s.words.clone())));
        let said = said.filter(|s| s.list.is_none()).map(|s| s.words.clone());
        let before = last.before.clone();
        let (at_once, best, known) = (
            Arc::clone(&last.at_once),
            Arc::clone(&last.best),
            Arc::clone(&last.known),
        );
        drop(inner);
        let circuits = best.loom().map_or(0, |l| l.circuits.len());
        let ready = match circuits {
            0..=SMALL => {
                let _ = best.answers();
                known.store(true, Ordering::Release);
                true
            }
            _ => known.load(Ordering::Acquire),
        };
        let job = if ready { best } else { at_once };
        let before = before.as_ref().and_then(|b| b.beside(ready));
        Ok(Seen {
            faults: self.tried(&revision),
            resized: before.map(|b| job.resized(b)).unwrap_or_default(),
            job,
            revision,
            best: ready,
            undo,
            redo,
            said,
            refused,
        })
    }

    /// What came of every fault, if it was tried on this text.
    pub fn tried(&self, revision: &str) -> Option<[usize; 2]> {
        let making = self.begun("faults")?;
        if !making.of.starts_with(revision) {
            return None;
        }
        match making.look().1 {
            Some(Made::Tried(_, worst)) => Some(worst),
            _ => None,
        }
    }

    /// The job with the best sizes, however long that takes; or why the texts can't be had.
    pub fn best(self: &Arc<Self>) -> Result<Arc<Job>, String> {
        let mut inner = held(&self.inner);
        self.last(&mut inner)?;
        let last = inner.last.as_ref().ok_or("nothing was read")?;
        Ok(Arc::clone(&last.best))
    }

    /// Looks whether an editor has changed the plan.
    pub fn look(self: &Arc<Self>) {
        let mut inner = held(&self.inner);
        let _ = self.last(&mut inner);
    }

    /// What is there now, as [`Seen::tag`] tells it, without working anything out.
    pub fn tag(&self) -> String {
        let inner = held(&self.inner);
        let Some(last) = &inner.last else {
            return String::new();
        };
        let best = last.known.load(Ordering::Acquire);
        tag(&revision(&last.texts.0.text), best)
    }

    /// What came of something, to be shown with the text that is there now.
    pub fn say(&self, words: &str) {
        self.say_of(None, words);
    }

    /// Why nothing was added to a list.
    pub fn refuse(&self, list: &str, words: &str) {
        self.say_of(Some(list.to_owned()), words);
    }

    /// It was shown: whoever asks again knows it.
    pub fn heard(&self) {
        held(&self.inner).said = None;
    }

    fn say_of(&self, list: Option<String>, words: &str) {
        let mut inner = held(&self.inner);
        let of = inner.last.as_ref().map(|l| revision(&l.texts.0.text));
        inner.said = of.map(|of| Said {
            of,
            words: words.to_owned(),
            list,
            when: Instant::now(),
        });
    }
}
