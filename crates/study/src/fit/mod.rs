//! What goes onto every wire's end. Takes a studied loom; gives for each end the terminal of stock that fits, for each
//! connector its class with contacts and seals, and whatever stock has nothing for.
//!
//! | file | step |
//! |---|---|
//! | `plugs` | the class of each connector, by all its wires |
//! | `ends` | what each end of each wire gets |
//! | `cover` | the shrink sleeve that an end gets |
//! | `studs` | what lies on each stud, in which order |
//! | `ways` | which wire goes into which way of a connector |
//! | `table` | studs that neither plan nor stock names, and allowances |
//! | `words` | what an end gets, as one says it at the bench |

mod cover;
mod ends;
mod plugs;
mod studs;
mod table;
mod ways;
mod words;

use crate::answers::Answers;
use crate::design::Design;
use crate::laying::Laying;
use loom::{Loom, PartId, PinId, WireId};
use quantity::Length;
use stock::{Connector, Stock};

pub use cover::Cover;
pub(crate) use plugs::{classes, wires as plug_wires};
pub(crate) use studs::all as studs;
pub use studs::{MOST_RINGS, Stud};
pub(crate) use table::Table;
pub use ways::{Way, ways};
pub use words::{end_words, label_words, terminal_words};

/// What every wire's end gets.
#[derive(Clone, Debug)]
pub struct Fit {
    /// By wire: at its source end and at its far end.
    pub ends: Vec<[WireEnd; 2]>,
    /// Connectors, in the loom's order.
    pub plugs: Vec<Plug>,
    /// Studs that were taken for granted, each with on whose word.
    pub assumed: Vec<String>,
}

/// One end of a wire.
#[derive(Clone, Debug)]
pub struct WireEnd {
    /// The pin it serves.
    pub pin: PinId,
    /// What it gets.
    pub gets: Termination,
    /// Insulation to strip, where the table says it.
    pub strip: Option<Length>,
    /// What its crimp is to stand for a minute, N; none where stock has nothing to crimp, or the table no such wire.
    pub pull: Option<f64>,
    /// The shrink sleeve over it, where neither an insulated barrel nor a housing covers it.
    pub cover: Option<Cover>,
    /// It wants a slip-on cover: a bare receptacle that no socket holds.
    pub slip_on: bool,
}

impl WireEnd {
    /// What stock has nothing for: a terminal, or what would cover it.
    fn lacks(&self) -> impl Iterator<Item = &String> {
        let terminal = match &self.gets {
            Termination::Nothing(what) => Some(what),
            _ => None,
        };
        let cover = self.cover.as_ref().and_then(|c| c.sleeve.as_ref().err());
        terminal.into_iter().chain(cover)
    }
}

/// What a wire's end gets.
#[derive(Clone, Debug, PartialEq)]
pub enum Termination {
    /// A terminal of its own, index into stock.
    Terminal(usize),
    /// A contact of a connector, and a seal's place among that connector's, if it is sealed.
    Contact {
        /// The connector's part.
        plug: PartId,
        /// Which of its seals.
        seal: Option<usize>,
    },
    /// One terminal or barrel, index into stock, with the other wires at its pin.
    Shared(usize),
    /// A contact of the thing itself: "contact of a way for miniature blade fuses".
    Its(String),
    /// Stock has nothing that fits: what to look for.
    Nothing(String),
}

/// A connector of the loom with its class.
#[derive(Clone, Debug)]
pub struct Plug {
    /// The part.
    pub part: PartId,
    /// How many of its ways are used.
    pub used: u32,
    /// Class, index into stock, and how many ways that is sold with; what to look for where none fits.
    pub class: Result<(usize, u32), String>,
}

/// Fits everything.
pub(crate) fn fit(d: &Design, answers: &Answers) -> Fit {
    let table = Table::default();
    let laying = Laying::default();
    let plugs = plugs::all(d, answers);
    let mut assumed = Vec::new();
    let mut ends = Vec::new();
    for (id, w) in d.loom.each_wire() {
        let each = [w.from, w.to]
            .map(|pin| ends::end(d, (&table, &laying, &plugs), (id, pin), &mut assumed));
        ends.push(each);
    }
    assumed.sort();
    assumed.dedup();
    Fit {
        ends,
        plugs,
        assumed,
    }
}

/// The wires whose end is at a pin.
pub(crate) fn at<'a>(loom: &'a Loom, pin: PinId) -> impl Iterator<Item = WireId> + 'a {
    let wires = loom.each_wire();
    wires
        .filter(move |(_, w)| w.from == pin || w.to == pin)
        .map(|(id, _)| id)
}

impl Fit {
    /// What stock has nothing for, each with the wires that want it.
    pub fn missing(&self, loom: &Loom) -> Vec<(String, Vec<String>)> {
        let mut found: Vec<(String, Vec<String>)> = Vec::new();
        for (w, ends) in loom.wires.iter().zip(&self.ends) {
            for what in ends.iter().flat_map(WireEnd::lacks) {
                match found.iter_mut().find(|f| f.0 == *what) {
                    Some((_, names)) if names.last() == Some(&w.name) => {}
                    Some((_, names)) => names.push(w.name.clone()),
                    None => found.push((what.clone(), vec![w.name.clone()])),
                }
            }
        }
        found
    }

    /// The class of a connector, where one fits.
    pub fn class<'a>(&self, stock: &'a Stock, plug: PartId) -> Option<&'a Connector> {
        let plug = self.plugs.iter().find(|p| p.part == plug)?;
        let (class, _) = plug.class.as_ref().ok()?;
        stock.connectors.get(*class)
    }
}
