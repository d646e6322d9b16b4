//! What a plan asks an installer: every key of every table, as a question, with why it is asked and what it takes. Forms are
//! made of it, and names are followed by it from where they are given to where they are used.
//!
//! | file | asks about |
//! |---|---|
//! | `job` | the work and its habits |
//! | `supply` | battery, alternator, the vehicle's own draw |
//! | `place` | places and the ways between them |
//! | `feed` | feeds, boxes, earths, signals |
//! | `circuit` | circuits |
//! | `load` | loads |
//! | `control` | relays, switches, cut-outs, isolators |
//! | `habit` | the day, and single wires |

mod circuit;
mod control;
mod feed;
mod habit;
mod job;
mod load;
mod place;
mod supply;

/// What names are given to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Of {
    /// Places.
    Place,
    /// Feeds, and the battery.
    Feed,
    /// Boxes.
    Box,
    /// Earths, places, and the battery.
    Earth,
    /// Signals.
    Signal,
    /// Circuits.
    Circuit,
}

/// What an answer is.
#[derive(Clone, Copy, Debug)]
pub enum Takes {
    /// Words of the installer's own; an example.
    Words(&'static str),
    /// A figure with its unit; an example.
    Amount(&'static str),
    /// One of a few words.
    One(fn() -> Vec<&'static str>),
    /// Some of a few words.
    Some(fn() -> Vec<&'static str>),
    /// A list of words of the installer's own; an example of one.
    Listed(&'static str),
    /// Yes or no, and which if nothing is said.
    YesNo(bool),
    /// Yes or no, and what decides if nothing is said.
    Either(&'static str),
    /// A whole number from one to another.
    Whole(u32, u32),
    /// A plain number; an example.
    Number(&'static str),
    /// A name that the plan gives.
    Named(Of),
    /// Names that the plan gives.
    AllNamed(Of),
    /// A name from a list of the stock.
    Stocked(&'static str),
    /// A table of its own, which is there or not.
    Table(&'static [Ask]),
    /// A fuse: a rating, none, or a table of its own.
    Fuse(&'static [Ask]),
}

/// How much hangs on an answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Asked {
    /// The plan can't be read without it.
    Always,
    /// Worth asking everybody.
    Often,
    /// For who knows why.
    Seldom,
}

/// One question.
#[derive(Clone, Copy, Debug)]
pub struct Ask {
    /// The key that holds the answer.
    pub key: &'static str,
    /// The question.
    pub question: &'static str,
    /// Why it is asked, and what follows from it.
    pub why: &'static str,
    /// What the answer is.
    pub takes: Takes,
    /// How much hangs on it.
    pub asked: Asked,
}

const fn always(key: &'static str, question: &'static str, takes: Takes, why: &'static str) -> Ask {
    Ask {
        key,
        question,
        why,
        takes,
        asked: Asked::Always,
    }
}

const fn often(key: &'static str, question: &'static str, takes: Takes, why: &'static str) -> Ask {
    Ask {
        key,
        question,
        why,
        takes,
        asked: Asked::Often,
    }
}

const fn seldom(key: &'static str, question: &'static str, takes: Takes, why: &'static str) -> Ask {
    Ask {
        key,
        question,
        why,
        takes,
        asked: Asked::Seldom,
    }
}

/// The words of a closed list.
fn words<T>(list: &[(&'static str, T)]) -> Vec<&'static str> {
    list.iter().map(|(word, _)| *word).collect()
}

/// How the entries of a table stand in a plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stands {
    /// Once: `[job]`.
    Once,
    /// As a list: `[[circuit]]`.
    Listed,
    /// By the installer's names: `[place]`.
    Named,
}

/// A table at the top of a plan.
#[derive(Clone, Copy, Debug)]
pub struct AskTable {
    /// Its key.
    pub key: &'static str,
    /// What one of it is called.
    pub what: &'static str,
    /// How it stands there.
    pub stands: Stands,
    /// What it is, to somebody who has never seen one.
    pub is: &'static str,
    /// Its questions.
    pub asks: &'static [Ask],
}

/// Every table of a plan, in the order in which an installer thinks of them.
pub const TABLES: [AskTable; 11] = [
    AskTable {
        key: "job",
        what: "job",
        stands: Stands::Once,
        is: "What the work is called, and the habits that hold where nothing else is said.",
        asks: job::ASKS,
    },
    AskTable {
        key: "supply",
        what: "supply",
        stands: Stands::Once,
        is: "The battery, what charges it, and what the vehicle draws by itself.",
        asks: supply::ASKS,
    },
    AskTable {
        key: "place",
        what: "place",
        stands: Stands::Named,
        is: "A spot in the vehicle that you would point at: where the battery is, the dash, the rack.",
        asks: place::PLACE,
    },
    AskTable {
        key: "stretch",
        what: "stretch",
        stands: Stands::Listed,
        is: "The way a wire takes from one place to the next, as long as a string laid along it.",
        asks: place::STRETCH,
    },
    AskTable {
        key: "feed",
        what: "feed",
        stands: Stands::Listed,
        is: "Somewhere that power may be taken besides the battery’s own post: a stud, a spare way, something live with the key.",
        asks: feed::FEED,
    },
    AskTable {
        key: "box",
        what: "fuse box",
        stands: Stands::Listed,
        is: "A box of fuses that one thick wire feeds; each circuit takes one way of it.",
        asks: feed::BOX,
    },
    AskTable {
        key: "earth",
        what: "earth point",
        stands: Stands::Listed,
        is: "Where current returns: a bolt to the body, or a bar that a wire joins to the battery. A place alone serves as one too.",
        asks: feed::EARTH,
    },
    AskTable {
        key: "signal",
        what: "signal",
        stands: Stands::Listed,
        is: "A wire of the vehicle’s own that tells something: main beam, reverse, starter. A relay’s coil may hang on it.",
        asks: feed::SIGNAL,
    },
    AskTable {
        key: "circuit",
        what: "circuit",
        stands: Stands::Listed,
        is: "What is switched together: its loads, what feeds it, what switches it, where it returns.",
        asks: circuit::ASKS,
    },
    AskTable {
        key: "day",
        what: "part of the day",
        stands: Stands::Listed,
        is: "What is on for how long, so that it is seen whether the battery bears the day.",
        asks: habit::DAY,
    },
    AskTable {
        key: "wire",
        what: "wire",
        stands: Stands::Named,
        is: "One wire as you want it, instead of as it would be chosen.",
        asks: habit::WIRE,
    },
];

/// The questions about a load.
pub const LOAD: &[Ask] = load::ASKS;

/// The table of a key.
pub fn table(key: &str) -> Option<&'static AskTable> {
    TABLES.iter().find(|t| t.key == key)
}

#[cfg(test)]
mod tests;
