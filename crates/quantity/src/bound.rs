//! The least and the most of every bounded input, each defined once. Messages and tests use these.

use crate::kinds::Quantity;
use crate::read::Misread;
use crate::{
    ElectricCharge, ElectricCurrent, ElectricPotential, ElectricalResistance, Length, Power, Ratio,
    TemperatureInterval, ThermodynamicTemperature, Time,
};
use std::marker::PhantomData;

/// A value that is written as its bound is told ("95 %") may differ from it in the last bits. Far above
/// what one product rounds off (1e-16), far below what anybody writes. Our own, no source.
const ROUNDING: f64 = 1e-12;

/// What a bounded input may be, in SI.
pub struct Bound<Q> {
    /// What it is, without article: "length of a stretch".
    pub what: &'static str,
    /// Least value, SI, inclusive.
    pub least: f64,
    /// Most, SI, inclusive.
    pub most: f64,
    kind: PhantomData<Q>,
}

impl<Q: Quantity> Bound<Q> {
    const fn new(what: &'static str, least: f64, most: f64) -> Self {
        Self {
            what,
            least,
            most,
            kind: PhantomData,
        }
    }

    /// The value itself when it lies within, or why it can't be right.
    pub fn check(&self, value: Q) -> Result<Q, Misread> {
        let si = value.si();
        if si >= self.least - self.least.abs() * ROUNDING
            && si <= self.most + self.most.abs() * ROUNDING
        {
            return Ok(value);
        }
        let side = if si < self.least { "small" } else { "large" };
        Err(Misread {
            what: format!("{} is too {side} for the {}", value.show(), self.what),
            mend: format!(
                "it must lie between {} and {}: check the number and its unit",
                Q::from_si(self.least).show(),
                Q::from_si(self.most).show()
            ),
        })
    }

    /// A value within, spread by `u` in 0..1: a generator for tests.
    pub fn at(&self, u: f64) -> Q {
        Q::from_si(self.least + (self.most - self.least) * u.clamp(0.0, 1.0))
    }
}

/// Every bounded input of a plan.
pub mod bounds {
    use super::*;

    const C: f64 = 273.15;
    const DAY: f64 = 86_400.0;

    /// A stretch between two places of one vehicle, towed units included.
    pub const STRETCH: Bound<Length> = Bound::new("length of a stretch", 0.01, 60.0);
    /// A hand-set cut length.
    pub const WIRE_LENGTH: Bound<Length> = Bound::new("length of a wire", 0.02, 100.0);
    /// Allowance at each wire end.
    pub const END: Bound<Length> = Bound::new("allowance at a wire end", 0.0, 2.0);
    /// Lead of a load from the loom to its terminals.
    pub const TAIL: Bound<Length> = Bound::new("tail of a load", 0.02, 20.0);
    /// Thickness of a panel that a stretch crosses.
    pub const PANEL: Bound<Length> = Bound::new("thickness of a panel", 0.0003, 0.06);
    /// Distance along the wire from the source to its fuse.
    pub const FUSE_DISTANCE: Bound<Length> =
        Bound::new("distance from the source to its fuse", 0.0, 10.0);
    /// Rated power of one load. A 4 kA lamp is a slip of the pen.
    pub const LOAD_POWER: Bound<Power> = Bound::new("rated power of a load", 0.05, 6000.0);
    /// Rated current of one load.
    pub const LOAD_CURRENT: Bound<ElectricCurrent> =
        Bound::new("rated current of a load", 0.005, 500.0);
    /// Starting current of a motor.
    pub const START_CURRENT: Bound<ElectricCurrent> =
        Bound::new("starting current of a load", 0.005, 2000.0);
    /// A fuse rating.
    pub const FUSE: Bound<ElectricCurrent> = Bound::new("rating of a fuse", 0.5, 500.0);
    /// A switch rating.
    pub const SWITCH: Bound<ElectricCurrent> = Bound::new("rating of a switch", 0.01, 300.0);
    /// Current that a feed or a signal can give.
    pub const GIVES: Bound<ElectricCurrent> =
        Bound::new("current that can be taken", 0.001, 1000.0);
    /// Current allowed for each spare way.
    pub const SPARE: Bound<ElectricCurrent> = Bound::new("allowance for a spare way", 0.5, 500.0);
    /// Battery capacity.
    pub const CAPACITY: Bound<ElectricCharge> =
        Bound::new("capacity of a battery", 1.0 * 3600.0, 2000.0 * 3600.0);
    /// Cranking rating of a battery.
    pub const CRANKING: Bound<ElectricCurrent> =
        Bound::new("cranking rating of a battery", 20.0, 3000.0);
    /// What is left of a battery's rated capacity. Below a fifth it is scrap, and a slip of the pen.
    pub const HEALTH: Bound<Ratio> = Bound::new("health of a battery", 0.2, 1.0);
    /// The least charge at which a battery still starts the engine.
    pub const CRANKS_AT: Bound<Ratio> =
        Bound::new("charge at which the engine still starts", 0.0, 0.95);
    /// Alternator rating.
    pub const ALTERNATOR: Bound<ElectricCurrent> =
        Bound::new("output of an alternator", 1.0, 600.0);
    /// What the vehicle itself draws.
    pub const VEHICLE_DRAW: Bound<ElectricCurrent> = Bound::new("draw of the vehicle", 0.0, 3000.0);
    /// Regulated or rated voltage.
    pub const VOLTAGE: Bound<ElectricPotential> = Bound::new("voltage", 4.0, 36.0);
    /// Temperature around a wire.
    pub const HEAT: Bound<ThermodynamicTemperature> =
        Bound::new("temperature of a place", C - 50.0, C + 200.0);
    /// Temperature of a battery in use: colder or hotter ones are not charged or drawn from.
    pub const BATTERY_HEAT: Bound<ThermodynamicTemperature> =
        Bound::new("temperature of a battery", C - 40.0, C + 60.0);
    /// Margin kept below an insulation's class temperature.
    pub const MARGIN: Bound<TemperatureInterval> = Bound::new("heat margin", 0.0, 60.0);
    /// Where a place is, as a part of the vehicle's length or width.
    pub const SHARE: Bound<Ratio> = Bound::new("part of the vehicle", 0.0, 1.0);
    /// Allowed voltage drop.
    pub const DROP: Bound<Ratio> = Bound::new("allowed voltage drop", 0.002, 0.25);
    /// A resistance in a feed's own lead or in a joint.
    pub const FEED_RESISTANCE: Bound<ElectricalResistance> =
        Bound::new("resistance of a feed", 0.0, 2.0);
    /// How long a load is on at a time. The least is a flash of a beacon.
    pub const DUTY_ON: Bound<Time> = Bound::new("time that a load is on", 0.05, 7.0 * DAY);
    /// From one start of a load to the next.
    pub const DUTY_EVERY: Bound<Time> =
        Bound::new("time from one start of a load to the next", 0.05, 7.0 * DAY);
    /// The vehicle's own lamps on a signal's wire.
    pub const SIGNAL_LAMP: Bound<Power> = Bound::new("power of the lamps on a signal", 0.1, 500.0);
    /// What a battery protection device carries at most.
    pub const CUTOUT: Bound<ElectricCurrent> = Bound::new("rating of a cutout", 0.5, 500.0);
    /// What a battery protection device draws itself.
    pub const CUTOUT_DRAW: Bound<ElectricCurrent> = Bound::new("draw of a cutout", 0.0, 2.0);
    /// A part of the day.
    pub const DAY_PART: Bound<Time> = Bound::new("length of a part of the day", 60.0, 14.0 * DAY);
    /// A part of the day in which the engine is cranked; a plan's reader tells of one that is too long.
    pub const CRANKED: Bound<Time> = Bound::new("time that the engine is cranked", 0.1, 14.0 * DAY);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::amperes;

    #[test]
    fn a_bound_written_as_it_is_told_lies_within() {
        let per_cent = |text| crate::read(text).and_then(|q| bounds::CRANKS_AT.check(q));
        assert!(per_cent("95 %").is_ok() && per_cent("0 %").is_ok());
        assert!(per_cent("95.01 %").is_err() && per_cent("-0.01 %").is_err());
        let fortnight = bounds::DAY_PART.check(crate::hours(14.0 * 24.0));
        assert!(fortnight.is_ok() && bounds::DAY_PART.check(crate::hours(337.0)).is_err());
    }

    #[test]
    fn four_kiloamp_lamp_is_caught() {
        let e = bounds::LOAD_CURRENT.check(amperes(4000.0)).unwrap_err();
        assert!(e.what.contains("too large"), "{}", e.what);
        assert!(e.mend.contains("500 A"), "{}", e.mend);
        assert!(
            bounds::LOAD_CURRENT
                .check(bounds::LOAD_CURRENT.at(0.5))
                .is_ok()
        );
    }
}
