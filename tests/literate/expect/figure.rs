//! Expectations of figures: amperes, volts, volts lost, degrees. Each has its tolerance: `± 1 %`, `± 0.1 V`.

use super::{Outcome, unknown};
use crate::walk::Walk;
use quantity::{
    ElectricCurrent, ElectricPotential, Quantity, Ratio, TemperatureInterval,
    ThermodynamicTemperature,
};

/// A value with how far ours may lie from it, both in the unit of the value.
struct Wanted {
    value: f64,
    most: f64,
}

/// Reads "8.4 A ± 1 %" or "13.4 V ± 0.1 V"; `D` is what a difference of `Q` is.
fn wanted<Q: Quantity, D: Quantity>(text: &str) -> Result<Wanted, String> {
    let told =
        |e: quantity::Misread| format!("the expectation can't be read: {} ({})", e.what, e.mend);
    let (value, most) = text
        .split_once('±')
        .ok_or("a figure needs its tolerance: ± 1 % or ± 0.1 V")?;
    let value = quantity::read::<Q>(value).map_err(told)?.si();
    let most = match quantity::read::<Ratio>(most) {
        Ok(part) => part.si() * value.abs(),
        Err(_) => quantity::read::<D>(most).map_err(told)?.si(),
    };
    Ok(Wanted { value, most })
}

fn near<Q: Quantity, D: Quantity>(ours: f64, text: &str) -> Outcome {
    let wanted = wanted::<Q, D>(text)?;
    if (ours - wanted.value).abs() <= wanted.most + 1e-12 {
        return Ok(());
    }
    Err(format!(
        "it is {} ({ours:.4} in SI units)",
        Q::from_si(ours).show()
    ))
}

fn no_figure(walk: &Walk, name: &str) -> String {
    let loom = walk.loom();
    let names = loom
        .parts
        .iter()
        .map(|p| p.name.clone())
        .chain(loom.wires.iter().map(|w| w.name.clone()));
    unknown("figure for", name, names)
}

/// Most current of a wire, a fuse, a load, a contact.
pub(super) fn amps(walk: &Walk, name: &str, text: &str) -> Outcome {
    let wire = walk.wire_of(name).map(|(_, w)| w.amps);
    let fuse = walk.fuse_of(name).map(|f| f.amps);
    let load = walk.load_of(name).map(|l| l.amps);
    let contact = walk.switchgear_of(name).map(|p| p.amps);
    let ours = wire
        .or(fuse)
        .or(load)
        .or(contact)
        .ok_or_else(|| no_figure(walk, name))?;
    near::<ElectricCurrent, ElectricCurrent>(ours, text)
}

/// What a fuse may carry for ever, or a contact of this load.
pub(super) fn bears(walk: &Walk, name: &str, text: &str) -> Outcome {
    let fuse = walk.fuse_of(name).map(|f| f.bears_a);
    let contact = walk.switchgear_of(name).map(|p| p.bears_a);
    let ours = fuse.or(contact).ok_or_else(|| no_figure(walk, name))?;
    near::<ElectricCurrent, ElectricCurrent>(ours, text)
}

/// Volts at a load's pins in its worst state.
pub(super) fn volts(walk: &Walk, name: &str, text: &str) -> Outcome {
    let load = walk.load_of(name).ok_or_else(|| no_figure(walk, name))?;
    near::<ElectricPotential, ElectricPotential>(load.volts, text)
}

/// What a load loses on its way, in per cent of nominal, or a wire with its joints, in volts. A load's
/// tolerance is in the same per cent: 3 % ± 0.2 % is 2.8 to 3.2 %.
pub(super) fn lost(walk: &Walk, name: &str, text: &str) -> Outcome {
    if let Some(load) = walk.load_of(name) {
        let parts: Vec<Ratio> = text
            .split('±')
            .filter_map(|t| quantity::read(t).ok())
            .collect();
        let [wanted, most] = parts[..] else {
            return Err("write it like 3 % ± 0.2 %".to_owned());
        };
        let off = load.drop_percent / 100.0 - wanted.si();
        let says = format!("it is {:.3} %", load.drop_percent);
        return if off.abs() <= most.si() + 1e-12 {
            Ok(())
        } else {
            Err(says)
        };
    }
    let (_, wire) = walk.wire_of(name).ok_or_else(|| no_figure(walk, name))?;
    near::<ElectricPotential, ElectricPotential>(wire.drop_v, text)
}

/// The hottest that a wire gets.
pub(super) fn heat(walk: &Walk, name: &str, text: &str) -> Outcome {
    let (_, wire) = walk.wire_of(name).ok_or_else(|| no_figure(walk, name))?;
    near::<ThermodynamicTemperature, TemperatureInterval>(wire.celsius + 273.15, text)
}

#[test]
fn tolerances_are_read_in_both_forms() {
    let amps = |t: &str| wanted::<ElectricCurrent, ElectricCurrent>(t).map(|w| (w.value, w.most));
    assert_eq!(amps("8 A ± 5 %"), Ok((8.0, 0.4)));
    assert_eq!(amps("8 A ± 100 mA"), Ok((8.0, 0.1)));
    assert!(amps("8 A").is_err() && amps("8 V ± 1 %").is_err());
    let heat =
        wanted::<ThermodynamicTemperature, TemperatureInterval>("60 °C ± 2 K").map(|w| w.most);
    assert_eq!(heat, Ok(2.0));
}
