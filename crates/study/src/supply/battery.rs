//! The battery as a store of charge: what it can give at this temperature and age, how fast it empties and
//! how fast it fills.

use crate::design::Design;
use crate::network::chemistry;
use crate::supply_side::RATED_HOURS;
use finding::Basis;
use loom::{Assumed, Assumption};
use physics::battery::{Chemistry, capacity_factor};
use physics::{charging, discharge};
use quantity::Quantity;

/// What `physics::charging` takes for every battery of a kind: what, how much, on whose word.
const CHARGING: [(&str, &str, &str); 3] = [
    (
        "how fast the battery takes charge",
        "0.2–0.35 of its capacity an hour for lead, 0.5 for lithium, less when nearly full",
        "usual acceptance by kind; no document",
    ),
    (
        "what of the charge stays",
        "85 % for lead, 95 % for lithium",
        "usual charge efficiency; no document",
    ),
    (
        "what the battery loses by itself",
        "5 % a month flooded, 3 % others",
        "upper figures by kind",
    ),
];

/// The store.
pub(super) struct Store {
    chemistry: Chemistry,
    /// What a full battery holds at 25 °C at its age, Ah.
    pub whole_ah: f64,
    /// What of that it gives at this temperature, at its rated current, Ah.
    pub usable_ah: f64,
    /// The charge at which it gives no more at this temperature: the cold keeps the rest from being drawn.
    pub empty_at: f64,
    exponent: f64,
    /// Its temperature, K.
    pub kelvin: f64,
}

impl Store {
    pub fn new(d: &Design, kelvin: f64, assumed: &Assumed, heard: &mut Vec<Assumption>) -> Self {
        let b = &d.loom.supply.battery;
        let health = match b.health {
            Some(h) => h.si(),
            None => assumed.number("age allowance", heard),
        };
        let kind = chemistry(b.chemistry);
        let exponent = b.peukert.unwrap_or_else(|| {
            let name = match kind {
                Chemistry::Flooded => "Peukert exponent, flooded",
                Chemistry::Agm => "Peukert exponent, AGM",
                Chemistry::Gel => "Peukert exponent, gel",
                Chemistry::LithiumIron => "Peukert exponent, lithium",
            };
            assumed.number(name, heard)
        });
        heard.extend(CHARGING.map(|(what, value, source)| Assumption {
            what: what.into(),
            value: value.into(),
            source: source.into(),
            basis: Basis::Memory,
            set: "nothing yet: measure how long your own takes".into(),
        }));
        let whole_ah = b.capacity.si() / 3600.0 * health;
        // Lithium keeps its charge in the cold; the published factors are of lead.
        let warmth = match kind {
            Chemistry::LithiumIron => 1.0,
            _ => capacity_factor(kelvin),
        };
        if warmth < 1.0 {
            heard.push(Assumption {
                what: "what the cold leaves of the capacity".into(),
                value: format!("{} %", quantity::figures(warmth * 100.0, 3)),
                source: "army battery manual: 75 % at 0 °C, 40 % at −18 °C".into(),
                basis: Basis::Read,
                set: "say how warm the battery is".into(),
            });
        }
        Self {
            chemistry: kind,
            whole_ah,
            usable_ah: whole_ah * warmth,
            empty_at: 1.0 - warmth,
            exponent,
            kelvin,
        }
    }

    /// Part of the full charge that a current takes in an hour.
    pub fn taken_per_hour(&self, amps: f64) -> f64 {
        if amps <= 0.0 {
            return 0.0;
        }
        discharge::rate(self.whole_ah, RATED_HOURS, self.exponent, amps)
    }

    /// Current that the battery takes of what is offered, A.
    pub fn accepts(&self, charge: f64, offered: f64) -> f64 {
        // Charged below freezing, lithium is spoilt: its management circuit does not let it.
        if self.chemistry == Chemistry::LithiumIron && self.kelvin < physics::conductor::T0 {
            return 0.0;
        }
        let most = charging::acceptance_amps(self.chemistry, self.whole_ah, charge);
        offered.min(most).max(0.0)
    }

    /// Part of the full charge that a charging current puts back in an hour.
    pub fn put_back_per_hour(&self, amps: f64) -> f64 {
        amps * charging::charge_efficiency(self.chemistry) / self.whole_ah
    }

    /// What it loses by itself, A.
    pub fn self_amps(&self) -> f64 {
        charging::self_discharge_per_day(self.chemistry) * self.whole_ah / 24.0
    }
}
