//! The supply over time: alternator balance, how long things run with the engine off, how long the vehicle
//! may stand, how long a drive puts it back, a day of use. Takes a studied loom, gives
//! [`SupplyAnswers`]. The battery is followed by its charge; currents come from the whole network, with
//! loads that switch themselves taken at their mean.

mod answers;
mod balance;
mod battery;
mod day;
mod endure;
mod moment;
mod parked;
mod recharge;
mod reserve;
mod unsaid;

pub use answers::*;

use crate::amiss::Amiss;
use crate::answers::Answers;
use crate::design::{Design, Habits};
use battery::Store;
use loom::{Assumed, Assumption, Loom};
use moment::Moments;
use plan::DayPart as Wish;
use quantity::{Quantity, ThermodynamicTemperature};
use std::sync::Arc;
use stock::Stock;
use unsaid::Unsaid;

/// What is asked of the supply.
#[derive(Clone, Copy, Debug)]
pub struct SupplyAsk<'a> {
    /// Temperature of the battery.
    pub battery: ThermodynamicTemperature,
    /// The plan's day.
    pub day: &'a [Wish],
}

/// Studies the supply of a loom that was studied; or tells the moment that could not be solved.
pub fn supply(
    loom: &Loom,
    stock: &Stock,
    habits: &Habits,
    answers: &Answers,
    ask: &SupplyAsk,
) -> Result<SupplyAnswers, Amiss> {
    let mut design = Design::new(loom, stock, habits);
    design.choice = answers.choice.clone();
    let heat = Arc::clone(&answers.heat);
    let mut heard: Vec<Assumption> = Vec::new();
    let assumed = Assumed::default();
    let store = Store::new(&design, ask.battery.si(), &assumed, &mut heard);
    let moments = Moments {
        design: &design,
        heat,
        kelvin: ask.battery.si(),
        unsaid: Unsaid::new(&design, &assumed, &mut heard),
    };
    let reserve = reserve::find(&design, &store, &mut heard);
    let study = Study {
        moments,
        reserve: reserve.charge.max(store.empty_at),
        store,
        never: reserve.rule == ReserveRule::Never,
    };
    Ok(SupplyAnswers {
        celsius: ask.battery.si() - 273.15,
        usable_ah: study.store.usable_ah,
        balance: balance::find(&study)?,
        endurance: endure::find(&study, ask.day)?,
        parked: parked::find(&study)?,
        recharge: recharge::find(&study)?,
        day: day::step_through(&study, ask.day)?,
        reserve,
        assumptions: heard,
    })
}

/// What every question here needs.
struct Study<'a> {
    moments: Moments<'a>,
    store: Store,
    /// Charge that must be left.
    reserve: f64,
    /// Whether even a full battery does not hold the starter.
    never: bool,
}
