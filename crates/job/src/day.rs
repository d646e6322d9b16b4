//! The plan's day in a few sentences, for whoever does not ask for all of it.

use crate::Job;
use quantity::{Quantity, ThermodynamicTemperature};

/// What comes of the day.
#[derive(Clone, Debug)]
pub struct DayTold {
    /// Whether the battery falls below what must be left in it.
    pub short: bool,
    /// In sentences.
    pub says: String,
}

/// The battery's temperature, K: 25 °C, at which capacities are told.
pub(crate) const BATTERY: f64 = 298.15;

impl Job {
    /// What comes of the plan's day with a battery at 25 °C, worked out when first asked for; none of a plan without one.
    pub fn day_told(&self) -> Option<&DayTold> {
        let work_out = || {
            if self.plan()?.day.is_empty() {
                return None;
            }
            let at = ThermodynamicTemperature::from_si(BATTERY);
            let supply = self.supply(at)?.ok()?;
            let day = supply.day.as_ref()?;
            Some(DayTold {
                short: day.lowest.0 < supply.reserve.charge || day.flat.is_some(),
                says: pack::day_says(&supply)?,
            })
        };
        self.day.get_or_init(work_out).as_ref()
    }
}
