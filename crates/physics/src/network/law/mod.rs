//! The laws of elements, one a file: current and slope from voltage.
//!
//! Every law takes the voltage `v = v_a − v_b` and gives the current from `a` to `b` with its
//! slope, both continuous, so that Newton's method can follow. Corners are rounded, over a width
//! that each file states.

pub mod constant_power;
pub mod current;
pub mod motor;
pub mod open;
pub mod regulated;
pub mod resistor;
pub mod source;
pub mod tungsten;

/// Resistance that counts as none, Ω: a thousandth of the best joint. Below it the nodes are
/// joined.
pub const LEAST_OHMS: f64 = 1e-9;

/// Current from `a` to `b` and its slope.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flow {
    /// Current, A.
    pub amps: f64,
    /// Slope of current by voltage, S.
    pub siemens: f64,
}

/// How current follows from voltage.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Law {
    /// A wire, joint, contact, heater or coil: [`resistor`].
    Resistor {
        /// Resistance, Ω; 0 joins its nodes.
        ohms: f64,
    },
    /// A voltage behind a resistance, `a` positive: [`source`].
    Source {
        /// Voltage without current, V.
        volts: f64,
        /// Internal resistance, Ω; 0 is a perfect source.
        ohms: f64,
    },
    /// An alternator, `a` positive: [`regulated`].
    Regulated {
        /// Regulated voltage, V.
        volts: f64,
        /// Fall of voltage with current, Ω.
        ohms: f64,
        /// The most it delivers, A.
        limit_amps: f64,
    },
    /// A current that nothing changes: [`current`].
    Current {
        /// From `a` to `b`, A.
        amps: f64,
    },
    /// A lamp with a hot filament: [`tungsten`].
    Tungsten {
        /// Rated voltage, V.
        rated_volts: f64,
        /// Current at rated voltage, A.
        rated_amps: f64,
    },
    /// Electronics or a light with a driver, `a` positive: [`constant_power`].
    ConstantPower {
        /// Power, W.
        watts: f64,
        /// Below this it gives up, V.
        lowest_volts: f64,
        /// Above this it may be harmed, V; its current goes on as before.
        highest_volts: f64,
    },
    /// A running motor: [`motor`].
    Motor {
        /// Rated voltage, V.
        rated_volts: f64,
        /// Running current at rated voltage, A.
        rated_amps: f64,
        /// Armature with brushes, Ω.
        armature_ohms: f64,
    },
    /// Nothing: [`open`]. Keeps an element's id while it is switched off.
    Open,
}

/// What an element does for the shape of a network.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Tie {
    /// Carries no path.
    Blind,
    /// Current follows from voltage.
    Conducts,
    /// No resistance: its nodes are one.
    Joins,
}

impl Law {
    /// Current and slope at `v`, V. An element without resistance has no such answer: it joins.
    pub fn flow(&self, v: f64) -> Flow {
        match *self {
            Self::Resistor { ohms } => resistor::flow(v, ohms),
            Self::Source { volts, ohms } => source::flow(v, volts, ohms),
            Self::Regulated {
                volts,
                ohms,
                limit_amps,
            } => regulated::flow(v, volts, ohms, limit_amps),
            Self::Current { amps } => current::flow(amps),
            Self::Tungsten {
                rated_volts,
                rated_amps,
            } => tungsten::flow(v, rated_volts, rated_amps),
            Self::ConstantPower {
                watts,
                lowest_volts,
                ..
            } => constant_power::flow(v, watts, lowest_volts),
            Self::Motor {
                rated_volts,
                rated_amps,
                armature_ohms,
            } => motor::flow(v, rated_volts, rated_amps, armature_ohms),
            Self::Open => open::flow(),
        }
    }

    /// The straight line that a first guess is made with: full voltage, electronics and fixed
    /// currents not yet drawing.
    pub(super) fn straight(&self, v: f64) -> Flow {
        match *self {
            Self::Regulated { volts, ohms, .. } => source::flow(v, volts, ohms),
            Self::Tungsten {
                rated_volts,
                rated_amps,
            }
            | Self::Motor {
                rated_volts,
                rated_amps,
                ..
            } => resistor::flow(v, rated_volts / rated_amps),
            Self::ConstantPower { .. } => resistor::flow(v, 1.0 / constant_power::LEAK_SIEMENS),
            Self::Current { .. } => open::flow(),
            _ => self.flow(v),
        }
    }

    /// The same element with its source at `part` of full.
    pub(super) fn at_part(&self, part: f64) -> Self {
        match *self {
            Self::Source { volts, ohms } => Self::Source {
                volts: volts * part,
                ohms,
            },
            Self::Regulated {
                volts,
                ohms,
                limit_amps,
            } => Self::Regulated {
                volts: volts * part,
                ohms,
                limit_amps,
            },
            Self::Current { amps } => Self::Current { amps: amps * part },
            other => other,
        }
    }

    pub(super) fn tie(&self) -> Tie {
        match *self {
            Self::Resistor { ohms } | Self::Source { ohms, .. } if ohms < LEAST_OHMS => Tie::Joins,
            Self::Current { .. } | Self::Open => Tie::Blind,
            _ => Tie::Conducts,
        }
    }

    /// Whether its values are ones the law has a meaning for.
    pub(super) fn is_sound(&self) -> bool {
        let above = |least: f64, values: &[f64]| {
            values
                .iter()
                .all(|value| value.is_finite() && *value > least)
        };
        let some = |values: &[f64]| above(0.0, values);
        match *self {
            Self::Resistor { ohms } => ohms.is_finite() && ohms >= 0.0,
            Self::Source { volts, ohms } => volts.is_finite() && ohms.is_finite() && ohms >= 0.0,
            Self::Regulated {
                volts,
                ohms,
                limit_amps,
            } => {
                above(LEAST_OHMS, &[ohms])
                    && some(&[volts])
                    && limit_amps.is_finite()
                    && limit_amps >= 0.0
            }
            Self::Current { amps } => amps.is_finite(),
            Self::Tungsten {
                rated_volts,
                rated_amps,
            } => some(&[rated_volts, rated_amps]),
            Self::ConstantPower {
                watts,
                lowest_volts,
                highest_volts,
            } => some(&[watts]) && lowest_volts >= 0.0 && highest_volts >= lowest_volts,
            Self::Motor {
                rated_volts,
                rated_amps,
                armature_ohms,
            } => some(&[rated_volts, rated_amps]) && above(LEAST_OHMS, &[armature_ohms]),
            Self::Open => true,
        }
    }
}

/// `max(0, x)` with its corner rounded by a parabola from −w to w, and its slope. Exact outside.
fn ramp(x: f64, w: f64) -> (f64, f64) {
    if x <= -w {
        (0.0, 0.0)
    } else if x >= w {
        (x, 1.0)
    } else {
        ((x + w).powi(2) / (4.0 * w), (x + w) / (2.0 * w))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Each law, over voltages of both signs, has the slope it says it has and never jumps.
    #[test]
    fn every_slope_is_the_slope() {
        let laws = [
            Law::Resistor { ohms: 0.3 },
            Law::Source {
                volts: 12.6,
                ohms: 0.01,
            },
            Law::Regulated {
                volts: 14.2,
                ohms: 0.01,
                limit_amps: 55.0,
            },
            Law::Current { amps: 3.0 },
            Law::Tungsten {
                rated_volts: 12.0,
                rated_amps: 4.6,
            },
            Law::ConstantPower {
                watts: 48.0,
                lowest_volts: 9.0,
                highest_volts: 32.0,
            },
            Law::Motor {
                rated_volts: 12.0,
                rated_amps: 8.0,
                armature_ohms: 0.25,
            },
            Law::Open,
        ];
        for law in laws {
            let mut v = -20.0;
            while v < 40.0 {
                let h = 1e-6;
                let (below, above) = (law.flow(v - h), law.flow(v + h));
                let slope = (above.amps - below.amps) / (2.0 * h);
                let said = law.flow(v).siemens;
                let bend = (above.siemens - below.siemens).abs();
                assert!(
                    (slope - said).abs() <= 1e-4 * said.abs() + bend + 1e-5,
                    "{law:?} at {v}"
                );
                v += 0.003_7;
            }
        }
    }

    #[test]
    fn the_ramp_meets_its_lines() {
        assert_eq!(ramp(-1.0, 1.0), (0.0, 0.0));
        assert_eq!(ramp(1.0, 1.0), (1.0, 1.0));
        assert_eq!(ramp(0.0, 1.0), (0.25, 0.5));
    }
}
