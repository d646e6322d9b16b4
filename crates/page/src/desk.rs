//! Everything that is open: plans by their names, and who may ask for them.

use crate::Cabinet;
use crate::kept::Kept;
use crate::pair::Pairing;
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

/// What the pages are served from.
pub(crate) struct Desk {
    /// Where plans are found.
    pub cabinet: Box<dyn Cabinet>,
    /// Who may ask from another machine; nobody without it.
    pub pairing: Option<Pairing>,
    /// How many asked lately.
    pub rates: crate::rate::Rates,
    open: Mutex<BTreeMap<String, Arc<Kept>>>,
}

impl Desk {
    pub fn new(cabinet: Box<dyn Cabinet>, pairing: Option<Pairing>) -> Self {
        Self {
            cabinet,
            pairing,
            rates: crate::rate::Rates::default(),
            open: Mutex::default(),
        }
    }

    /// A plan by its name. A name is only compared with those that are there; no path is made of it here.
    pub fn plan(&self, name: &str) -> Option<Arc<Kept>> {
        let mut open = self.open.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(kept) = open.get(name) {
            return Some(Arc::clone(kept));
        }
        let kept = Arc::new(Kept::new(self.cabinet.open(name)?));
        open.insert(name.to_owned(), Arc::clone(&kept));
        Some(kept)
    }
}
