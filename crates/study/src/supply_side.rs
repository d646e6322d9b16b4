//! The supply in each of its states: the battery at its charge and heat, the alternator up to what it
//! gives at this speed when hot, what the vehicle itself draws, and the starter.

use crate::design::Design;
use crate::network::chemistry;
use loom::{Assumed, Assumption, Loom};
use physics::network::Law;
use physics::{alternator, battery};
use plan::SupplyState;
use quantity::Quantity;

/// Hours of the rated discharge: capacities are printed at the 20-hour rate.
pub(crate) const RATED_HOURS: f64 = 20.0;

/// What the plan says of the supply, with what was assumed where it is silent.
#[derive(Clone, Copy, Debug)]
pub(crate) struct SupplySide {
    /// Cranking rating of the battery, A.
    pub cranking: f64,
    /// What the starter draws, A; nothing when the battery starts no engine.
    pub starter: f64,
    /// Charge of the battery with the engine off.
    pub charge: f64,
    /// What the alternator gives hot, A: idling and driving. None where there is no alternator.
    pub alternator: Option<[f64; 2]>,
    /// Its regulated voltage in this vehicle's heat, V.
    pub regulated: f64,
    /// The most it regulates to on a cold morning, V.
    pub regulated_cold: f64,
    /// Temperature of a cold morning, K.
    pub cold_k: f64,
}

impl SupplySide {
    pub(crate) fn new(loom: &Loom, limits: &crate::Limits, heard: &mut Vec<Assumption>) -> Self {
        let assumed = Assumed::default();
        let s = &loom.supply;
        let amp_hours = s.battery.capacity.si() / 3600.0;
        let lithium = s.battery.chemistry == plan::Chemistry::LithiumIron;
        let cranking = s.battery.cranking.map_or_else(
            || {
                let name = match lithium {
                    true => "lithium rating per ampere-hour",
                    false => "cranking rating per ampere-hour",
                };
                assumed.number(name, heard) * amp_hours
            },
            Quantity::si,
        );
        heard.push(resistance(s, cranking));
        heard.extend(rested(s));
        let starter = match (s.vehicle.cranking, &s.alternator) {
            (Some(said), _) => said.si(),
            // Nothing says that this battery starts an engine.
            (None, None) => 0.0,
            // A lithium battery is hardly ever the one that starts the engine.
            (None, Some(_)) if lithium => 0.0,
            (None, Some(_)) => assumed.number("starter", heard) * battery::load_test_amps(cranking),
        };
        let alternator = s.alternator.as_ref().map(|a| {
            let idle = a.idling.map_or_else(
                || assumed.number("alternator at idle", heard) * a.rated.si(),
                Quantity::si,
            );
            let machine = alternator::Alternator {
                rated_amps: a.rated.si(),
                idling_amps: idle,
            };
            let speeds = [alternator::Speed::Idling, alternator::Speed::Driving];
            speeds.map(|speed| alternator::limit_amps(&machine, speed, true))
        });
        let blocks = s.system.nominal() / 12.0;
        let at_20 = limits.value("regulated volts") * blocks;
        let heat = loom.place(loom.parts[0].place).heat.si();
        let cold_k = limits.value("cold morning") + 273.15;
        let said = s
            .alternator
            .as_ref()
            .and_then(|a| a.volts)
            .map(Quantity::si);
        let spread = limits.value("regulated spread") * blocks;
        Self {
            cranking,
            starter,
            charge: limits.value("engine-off charge"),
            alternator,
            regulated: said.unwrap_or(alternator::regulated_volts(at_20, heat, blocks)),
            regulated_cold: said
                .unwrap_or(alternator::regulated_volts(at_20, cold_k, blocks) + spread),
            cold_k,
        }
    }

    /// Most the alternator gives in a supply state, A.
    pub(crate) fn alternator_amps(&self, supply: SupplyState) -> Option<f64> {
        let [idling, driving] = self.alternator?;
        match supply {
            SupplyState::Idling => Some(idling),
            SupplyState::Driving => Some(driving),
            _ => None,
        }
    }
}

/// The battery's resistance as it is assumed, for the list.
fn resistance(s: &plan::Supply, cranking: f64) -> Assumption {
    let kind = chemistry(s.battery.chemistry);
    let full = battery::open_circuit_volts(kind, 1.0, s.system.nominal());
    let ohms = battery::internal_ohms(kind, cranking, full, 1.0, 298.15);
    Assumption {
        what: "internal resistance of the full battery at 25 °C".into(),
        value: format!("{} mΩ", quantity::figures(ohms * 1e3, 3)),
        source: "half of what its cranking rating says at −18 °C (common practice), rising to twice when flat, and to 10.5 V at the rated current when empty".into(),
        basis: finding::Basis::Memory,
        set: "cranking = \"…\" of the battery".into(),
    }
}

/// Rested voltages of a kind of which no table was read.
fn rested(s: &plan::Supply) -> Option<Assumption> {
    let recalled = s.battery.chemistry != plan::Chemistry::Agm;
    let kind = chemistry(s.battery.chemistry);
    let at = |charge| battery::open_circuit_volts(kind, charge, s.system.nominal());
    let shown = |charge| quantity::figures(at(charge), 4);
    recalled.then(|| Assumption {
        what: "rested voltage of the battery, full, half and nearly empty".into(),
        value: format!("{}, {} and {} V", shown(1.0), shown(0.5), shown(0.1)),
        source: "common handbook tables; published ones differ by 0.2 V and more".into(),
        basis: finding::Basis::Memory,
        set: "nothing yet: measure yours rested for a night".into(),
    })
}

/// What the vehicle itself draws in a supply state as the plan says it, A. Idling it draws what it does driving.
pub(crate) fn vehicle_amps(d: &Design, supply: SupplyState) -> f64 {
    let v = &d.loom.supply.vehicle;
    let said = match supply {
        SupplyState::Parked => v.parked,
        SupplyState::KeyOn => v.key_on,
        SupplyState::Idling => v.idling.or(v.driving),
        SupplyState::Driving => v.driving,
        SupplyState::Cranking => return d.supply.starter,
    };
    said.map_or(0.0, Quantity::si)
}

/// The battery's two laws: its open-circuit voltage and its resistance, at a charge and a heat.
pub(crate) fn battery_at(d: &Design, charge: f64, kelvin: f64) -> (f64, f64) {
    let kind = chemistry(d.loom.supply.battery.chemistry);
    let volts = battery::open_circuit_volts(kind, charge, d.nominal())
        + battery::rested_shift_volts(kind, d.nominal(), kelvin);
    (volts, battery_ohms(d, charge, kelvin))
}

/// Internal resistance of the battery, Ω. The cranking rating belongs to 12 V: a 24 V system has two
/// batteries in series.
pub(crate) fn battery_ohms(d: &Design, charge: f64, kelvin: f64) -> f64 {
    let kind = chemistry(d.loom.supply.battery.chemistry);
    let full = battery::open_circuit_volts(kind, 1.0, d.nominal());
    let ohms = battery::internal_ohms(kind, d.supply.cranking, full, charge, kelvin);
    if kind == battery::Chemistry::LithiumIron {
        return ohms;
    }
    let flat = battery::open_circuit_volts(kind, 0.0, d.nominal());
    let rated = d.loom.supply.battery.capacity.si() / 3600.0 / RATED_HOURS;
    ohms + battery::knee_ohms(flat, d.nominal() / 12.0, rated, charge)
}

/// Law of the battery in a supply state, at this charge and temperature.
pub(crate) fn battery_law(d: &Design, supply: SupplyState, (charge, kelvin): (f64, f64)) -> Law {
    let (volts, ohms) = battery_at(d, charge, kelvin);
    let charged = d.supply.alternator_amps(supply).is_some();
    match charged {
        false => Law::Source { volts, ohms },
        // A battery on charge takes what it is given; here it only gives.
        true => Law::Regulated {
            volts,
            ohms,
            limit_amps: battery::short_circuit_amps(volts, ohms),
        },
    }
}

/// Law of the alternator in a supply state, if it turns.
pub(crate) fn alternator_law(d: &Design, supply: SupplyState) -> Option<Law> {
    Some(Law::Regulated {
        volts: d.supply.regulated,
        ohms: d.limits.value("regulation"),
        limit_amps: d.supply.alternator_amps(supply)?,
    })
}

/// A draw of which only the current is known: it keeps to it down to a tenth of the nominal voltage, so that
/// it can't pull a supply below nothing.
pub(crate) fn steady_draw(amps: f64, nominal: f64) -> Law {
    Law::Motor {
        rated_volts: nominal,
        rated_amps: amps,
        armature_ohms: nominal / (10.0 * amps),
    }
}
