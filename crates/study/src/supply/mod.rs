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
use quantity::{Quantity, ThermodynamicTemperature};
use std::sync::Arc;
use stock::Stock;
use unsaid::Unsaid;

/// Studies the supply of a loom that was studied, with the battery at a temperature; or tells the moment that could not be
/// solved.
pub fn supply(
    loom: &Loom,
    stock: &Stock,
    habits: &Habits,
    answers: &Answers,
    battery: ThermodynamicTemperature,
) -> Result<SupplyAnswers, Amiss> {
    let mut design = Design::new(loom, stock, habits);
    design.choice = answers.choice.clone();
    let mut heard: Vec<Assumption> = Vec::new();
    let study = Study::of(&design, answers, battery.si(), &mut heard);
    Ok(SupplyAnswers {
        celsius: battery.si() - 273.15,
        usable_ah: study.store.usable_ah,
        balance: balance::find(&study)?,
        endurance: endure::find(&study, &habits.day)?,
        parked: parked::find(&study)?,
        recharge: recharge::find(&study)?,
        day: day::step_through(&study, &habits.day)?,
        reserve: study.reserve,
        assumptions: heard,
    })
}

/// The plan's day alone with the battery at a temperature, K, and the charge that must be left in it.
pub(crate) fn day_of(
    design: &Design,
    answers: &Answers,
    kelvin: f64,
) -> Result<Option<(Day, f64)>, Amiss> {
    let study = Study::of(design, answers, kelvin, &mut Vec::new());
    let day = day::step_through(&study, &design.habits.day)?;
    Ok(day.map(|day| (day, study.reserve.charge)))
}

/// What every question here needs.
struct Study<'a> {
    moments: Moments<'a>,
    store: Store,
    reserve: Reserve,
    /// Charge that must be left: the reserve, or where the battery gives nothing more.
    least: f64,
}

impl<'a> Study<'a> {
    fn of(
        design: &'a Design<'a>,
        answers: &Answers,
        kelvin: f64,
        heard: &mut Vec<Assumption>,
    ) -> Self {
        let assumed = Assumed::default();
        let store = Store::new(design, kelvin, &assumed, heard);
        let moments = Moments {
            design,
            heat: Arc::clone(&answers.heat),
            kelvin,
            unsaid: Unsaid::new(design, &assumed, heard),
        };
        let reserve = reserve::find(design, &store, heard);
        Self {
            moments,
            least: reserve.charge.max(store.empty_at),
            reserve,
            store,
        }
    }

    /// Whether even a full battery does not hold the starter.
    fn never(&self) -> bool {
        self.reserve.rule == ReserveRule::Never
    }
}
