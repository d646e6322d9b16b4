//! The chart of a day of use: the battery's charge and the voltage at its posts over the hours, behind them
//! the parts of the day, below them what is on. Takes the day as the study stepped through it, gives one sheet.
//!
//! Everything stands in its place before anything is drawn, as in the circuit diagram.

mod compose;
mod key;
mod list;
mod names;
mod plots;
mod rows;
mod scale;
mod told;

#[cfg(test)]
mod tests;

use crate::chart::{Fill, Ink};
use crate::{Sheet, Title};
use plan::SupplyState;

/// The chart of a day; `reserve` is the charge below which the battery is not to fall, 0 to 1.
pub fn day(day: &study::Day, reserve: f64, title: &Title) -> Sheet {
    let heading = format!("{}: a day of use", title.title);
    compose::chart(day, reserve, title).sheet("day", SHOWS.to_owned(), &heading)
}

/// What the sheet shows.
const SHOWS: &str = "A day of use";

/// Charge of the battery.
const CHARGE: Ink = Ink::curve("black", 0.7);
/// Voltage at its posts.
const VOLTS: Ink = Ink::curve("#001f4d", 0.8).dashed("3 0.9");
/// The charge that is to be left.
const RESERVE: Ink = Ink::curve("#a01818", 0.6).dashed("3 1.6");
/// Where a part of the day follows one of the same tint.
const PART: Ink = Ink::rule("#333333", 0.2).dashed("0.8 0.8");

/// A circuit that is switched on.
const ON: Fill = Fill {
    colour: "#33475b",
    over: true,
};

/// The tint of a part of the day, by what the supply does: each lighter or darker than the others, so that they are
/// told apart without colour; the lighter, the more the alternator gives.
fn tint(supply: SupplyState) -> Fill {
    Fill::tint(match supply {
        SupplyState::Parked => "#a9b5c8",
        SupplyState::KeyOn => "#cdc8de",
        SupplyState::Idling => "#efe3c6",
        SupplyState::Driving => "#fdfcf6",
        SupplyState::Cranking => "#b0624f",
    })
}
