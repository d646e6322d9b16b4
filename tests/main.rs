//! The outside checks, one binary: published figures, another simulator, facts of the trade, and the
//! literate cases that an electrician can read. Nothing here is the program's own word on itself.
//!
//! | folder | what it holds our answers against |
//! |---|---|
//! | `published` | tables and worked examples of documents, ngspice, common practice |
//! | `literate` | Markdown cases: prose, a plan, what must be found |
//! | `lists` | what is bought and fitted for the examples and for plans drawn by lot |
//! | `faults` | what trying every fault says of the examples |
//! | `prove` | what is amiss in plans drawn by lot, searched for: its own word too |
//! | `same_answers` | itself, on one thread and on several: our own word |

// The rooms may not read files; a test suite must.
#![allow(clippy::disallowed_methods, clippy::disallowed_types)]

mod faults;
mod lists;
mod literate;
mod prove;
mod published;
mod same_answers;
mod walk;
