//! What somebody types of a reading: "11.8 V", "320 mV", "open", "holds", or a bare figure in the unit of the probe.

use quantity::{ElectricCurrent, ElectricPotential, ElectricalResistance, Quantity, figures};
use study::prove::Probe;

/// No clamp reads more, A.
const MOST_AMPS: f64 = 3000.0;
/// Ohms of what an ohmmeter calls open.
const OPEN: f64 = 1e6;

/// The reading in the unit of its probe.
///
/// # Errors
/// What is wrong with it, and what to type: also where it is more than a vehicle of so many volts can have.
pub fn reading(probe: Probe, text: &str, nominal: f64) -> Result<f64, String> {
    let read = typed(probe, text.trim())?;
    let most = match probe {
        Probe::Volts(..) => 2.0 * nominal,
        Probe::Amps(_) | Probe::Drain => MOST_AMPS,
        _ => f64::INFINITY,
    };
    match read.abs() <= most {
        true => Ok(read),
        false => Err(format!(
            "{} {} is more than this vehicle has: is it m{}?",
            figures(read, 4),
            probe.unit(),
            probe.unit()
        )),
    }
}

fn typed(probe: Probe, text: &str) -> Result<f64, String> {
    let lower = text.to_lowercase();
    if let Ok(bare) = lower.replace(',', ".").parse::<f64>()
        && bare.is_finite()
    {
        return Ok(bare);
    }
    let read = match probe {
        Probe::Volts(..) => quantity::read::<ElectricPotential>(text).map(Quantity::si),
        Probe::Amps(_) | Probe::Drain => quantity::read::<ElectricCurrent>(text).map(Quantity::si),
        Probe::Ohms(_) => match lower.as_str() {
            "open" | "ol" | "o.l" | "∞" => return Ok(OPEN),
            "short" => return Ok(0.0),
            _ => quantity::read::<ElectricalResistance>(text).map(Quantity::si),
        },
        Probe::NewFuse(_) | Probe::NewFuseAlone(_) => match lower.as_str() {
            "holds" | "yes" => return Ok(1.0),
            "opens" | "no" => return Ok(0.0),
            _ => return Err(format!("“{text}” is no answer: write “holds” or “opens”")),
        },
    };
    read.map_err(|e| format!("“{text}”: {}; {}", e.what, e.mend))
}

#[cfg(test)]
mod tests {
    use super::*;
    use loom::{PartId, PinId};

    #[test]
    fn readings_are_typed_as_meters_show_them() {
        let volts = Probe::Volts(PinId(0), PinId(1));
        assert_eq!(reading(volts, "11.8 V", 12.0), Ok(11.8));
        assert_eq!(reading(volts, "320 mV", 12.0), Ok(0.32));
        assert_eq!(reading(volts, "-0,5", 12.0), Ok(-0.5));
        assert!(reading(volts, "3650", 12.0).is_err_and(|e| e.contains("mV")));
        assert!(reading(volts, "3 A", 12.0).is_err() && reading(volts, "inf", 12.0).is_err());
        assert_eq!(reading(Probe::Ohms(PinId(0)), "OL", 12.0), Ok(OPEN));
        assert_eq!(reading(Probe::NewFuse(PartId(1)), "holds", 12.0), Ok(1.0));
    }
}
