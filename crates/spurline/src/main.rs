//! `spurline`: the command line. Takes arguments and files, hands them to `job`, shows what it gives
//! and exits 0 when nothing stops, 1 when a finding does, 2 when a file can't be read or written.
//!
//! Absent from this room: how anything is worked out.

mod args;
mod command;
mod drawer;
mod files;
mod json;
mod record;
mod shelf;
mod show;

use args::{Args, Command};
use clap::Parser;
use std::process::ExitCode;

/// How a command ended, as its exit status.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ended {
    /// Nothing stops.
    Well = 0,
    /// A finding stops.
    Stops = 1,
    /// A text can't be read, a file can't be written, a name isn't known.
    Unread = 2,
}

fn main() -> ExitCode {
    let args = Args::parse();
    let ended = match &args.command {
        Command::New(a) => command::new::run(a),
        Command::Check(a) => command::check::run(a),
        Command::Draw(a) => command::draw::run(a),
        Command::Supply(a) => command::supply::run(a),
        Command::Prove(a) => command::prove::run(a),
        Command::Try(a) => command::try_faults::run(a),
        Command::Lists(a) => command::lists::run(a),
        Command::Pack(a) => command::pack::run(a),
        Command::Compare(a) => command::compare::run(a),
        Command::Stock(a) => command::stock::run(a),
        Command::Open(a) => command::open::run(a),
    };
    ExitCode::from(ended as u8)
}
