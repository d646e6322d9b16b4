//! The faces as people and tools meet them: one binary for the command line and the page.

mod browser;
mod cli;
mod compare;
mod documents;
mod lists;
mod prove;
mod rendered;
mod run;
mod served;
mod supply;
mod tries;
