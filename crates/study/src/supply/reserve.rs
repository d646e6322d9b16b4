//! What must be left in the battery: enough to hold the starter, by its own resistance at this temperature;
//! and no less than service practice and wear ask.

use super::answers::{Reserve, ReserveRule};
use super::battery::Store;
use crate::design::Design;
use crate::supply_side::battery_at;
use loom::Assumption;
use plan::Chemistry;
use quantity::Quantity;

/// Finds it, at the battery temperature that the store was made for.
pub(super) fn find(d: &Design, store: &Store, heard: &mut Vec<Assumption>) -> Reserve {
    let kelvin = store.kelvin;
    let starter = d.supply.starter;
    let cranking = |charge: f64| {
        let (volts, ohms) = battery_at(d, charge, kelvin);
        volts - starter * ohms
    };
    let told = |charge: f64, rule, source: String| Reserve {
        charge,
        rule,
        cranking_volts: (starter > 0.0).then(|| cranking(charge)),
        source,
    };
    if let Some(said) = d.loom.supply.battery.cranks {
        return told(said.si(), ReserveRule::Said, "the plan's cranks_at".into());
    }
    let lithium = d.loom.supply.battery.chemistry == Chemistry::LithiumIron;
    let name = match (starter > 0.0, lithium) {
        (true, false) => "charge that cranks",
        (false, false) => "least charge of lead",
        (_, true) => "least charge of lithium",
    };
    let row = d.limits.row(name);
    heard.push(Assumption {
        what: "charge that must be left in the battery".into(),
        value: format!("{} %", quantity::figures(row.value * 100.0, 3)),
        source: row.source.clone(),
        basis: row.basis,
        set: "battery = { cranks_at = \"…\" }".into(),
    });
    let rule = if starter > 0.0 && !lithium {
        ReserveRule::Practice
    } else {
        ReserveRule::Wear
    };
    let floor = d.limits.row("volts while cranking");
    let needed = floor.value * d.nominal() / 12.0;
    if starter <= 0.0 || cranking(row.value) >= needed {
        return told(row.value, rule, row.cite());
    }
    let Some(charge) = (0..=100)
        .map(|p| f64::from(p) / 100.0)
        .find(|c| *c > row.value && cranking(*c) >= needed)
    else {
        return told(1.0, ReserveRule::Never, floor.cite());
    };
    told(charge, ReserveRule::Starter, floor.cite())
}
