//! Every fault: what happens, in time, when any one thing goes wrong. Takes a studied loom; gives for each fault
//! its outcome in the state in which it is worst.
//!
//! | file | step |
//! |---|---|
//! | [`kind`] | the kinds of fault, one a file: what can go wrong in this loom |
//! | `states` | the states that matter to a fault, one for all that are alike to it |
//! | `look` | the network with the fault in it, right after it |
//! | `hot` | what carries more than it was sized for, as heat in time sees it |
//! | `borne` | whether it may stay so for ever |
//! | `grid` | currents of what is hot, as its resistance rises |
//! | `timed` | from the fault until nothing changes: fuses open, relays drop out, wires pass their limits |
//! | `judge` | the outcome |
//! | `words` | the sentence |
//! | `trial` | one fault in one state, by all of these |
//! | `spared` | what need not be tried, because it ends no worse than what was |
//! | `tries` | every fault in every state that matters, and one of them in detail |
//! | `told` | findings of what burns, and of what is on that does harm |

mod borne;
mod grid;
mod hot;
mod judge;
pub mod kind;
mod look;
mod spared;
mod states;
mod timed;
mod told;
mod trial;
mod tries;
mod words;

pub(crate) use hot::{Warm, bears, clock, piece};
pub use judge::Outcome;
pub(crate) use kind::guard;
pub use kind::{KINDS, Kind};
pub(crate) use look::look;
pub use timed::Moment;
pub use told::{FaultFinding, TOLD, Told, is_hazard, told};
pub use trial::Trial;
pub use tries::{Asked, Detail, Tries, cases, detail, tries};
pub use words::{fuse_words, time};

use crate::change::Change;
use loom::PartId;
use plan::SupplyState;

/// One thing that can go wrong, and what of it is tried.
#[derive(Clone, Debug)]
pub struct Case {
    /// Its kind: index into [`KINDS`].
    pub kind: usize,
    /// Where: "W1.3, far end".
    pub at: String,
    /// Names of wires and parts that it is about.
    pub names: Vec<String>,
    /// What happened, in a phrase: "W1.3 chafed through to the body at its far end".
    pub says: String,
    /// What it changes; of several the one that ends worst is kept.
    pub changes: Vec<Change>,
    /// Circuits whose switches matter to it; none where it concerns the whole supply.
    pub circuits: Vec<usize>,
    /// The fuses of which one is to open first; none where there is none, or where none is to.
    pub fuses: Vec<PartId>,
    /// A fuse that takes its time over it is no late one: it is the current that is small.
    pub slow: bool,
    /// How long it lasts, s; none where it stays.
    pub lasts: Option<f64>,
    /// Which states of the supply it is tried in.
    pub supplies: Supplies,
    /// A fuse that the next size up stands in for.
    pub swapped: Option<PartId>,
}

/// Which states of the supply matter to a fault.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Supplies {
    /// Those that last.
    Lasting,
    /// The engine off.
    Off,
    /// The engine running.
    Running,
    /// Cranking.
    Cranking,
}

impl Supplies {
    /// Whether a state of the supply is one of them.
    pub fn includes(self, supply: SupplyState) -> bool {
        let cranked = supply == SupplyState::Cranking;
        match self {
            Self::Lasting => !cranked,
            Self::Off => !cranked && !supply.runs(),
            Self::Running => supply.runs(),
            Self::Cranking => cranked,
        }
    }

    /// When that is, in words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Lasting => "while the engine is not being cranked",
            Self::Off => "while the engine stands",
            Self::Running => "while the engine runs",
            Self::Cranking => "while the engine is cranked",
        }
    }
}

impl Case {
    /// Whether its changes are one touch at rising resistances.
    fn ranges(&self) -> bool {
        let touches = self
            .changes
            .iter()
            .all(|c| c.touch.is_some() || c.shorted.is_some());
        touches && self.swapped.is_none()
    }
}
