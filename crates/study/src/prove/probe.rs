//! What is measured: where the tips go, or the clamp; and how well a meter tells it.

use crate::limits::Limits;
use loom::{Loom, PartId, PinId, WireId};

/// One thing that is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Probe {
    /// Volts, red tip on the first pin, black on the second.
    Volts(PinId, PinId),
    /// Amperes in a wire by clamp, towards its far end.
    Amps(WireId),
    /// What the battery gives, A, by the meter in its negative lead.
    Drain,
    /// Ohms from a pin to the battery’s negative post: the fuse before it out, the loads unplugged.
    Ohms(PinId),
    /// Whether a new fuse holds, 1, or opens at once, 0.
    NewFuse(PartId),
    /// The same with the loads behind it unplugged.
    NewFuseAlone(PartId),
}

/// A range of a meter of 6000 counts: below so many volts a count is so much.
const RANGES: [(f64, f64); 4] = [(0.6, 1e-4), (6.0, 1e-3), (60.0, 1e-2), (600.0, 0.1)];
/// A count of the clamp, A.
const CLAMP_COUNT: f64 = 0.01;
/// A count of a meter in line, A.
const IN_LINE_COUNT: f64 = 1e-4;
/// What an ohmmeter calls open, Ω.
pub(crate) const OPEN_OHMS: f64 = 1e6;
/// How far an ohmmeter that is held to a loom may be out, as a part: tips and leads.
const OHMS_PART: f64 = 0.1;
/// What is yes or no is weighed as 1 or 0, with so much between.
const YES_OR_NO: f64 = 0.15;

/// The most that a meter is out whose maker promises so many per cent of the reading and so many counts, in the unit of the
/// reading.
pub fn meter_error(reading: f64, percent: f64, counts: f64, count: f64) -> f64 {
    percent / 100.0 * reading.abs() + counts * count
}

impl Probe {
    /// The unit that it is told in.
    pub fn unit(self) -> &'static str {
        match self {
            Self::Volts(..) => "V",
            Self::Amps(_) | Self::Drain => "A",
            Self::Ohms(_) => "Ω",
            Self::NewFuse(_) | Self::NewFuseAlone(_) => "holds",
        }
    }

    /// Where it is held, as it is written and read: "V E1.1:58 G1:31", "A W1.2", "A battery", "Ω F1:2".
    pub fn name(self, loom: &Loom) -> String {
        match self {
            Self::Volts(a, b) => format!("V {} {}", loom.pin_name(a), loom.pin_name(b)),
            Self::Amps(w) => format!("A {}", loom.wire(w).name),
            Self::Drain => "A battery".to_owned(),
            Self::Ohms(p) => format!("Ω {}", loom.pin_name(p)),
            Self::NewFuse(p) => format!("new {}", loom.part(p).name),
            Self::NewFuseAlone(p) => format!("new {} unplugged", loom.part(p).name),
        }
    }

    /// The parts and wires that it is held to.
    pub fn names(self, loom: &Loom) -> Vec<String> {
        let part = |pin: PinId| loom.part_of(pin).name.clone();
        match self {
            Self::Volts(a, b) => vec![part(a), part(b)],
            Self::Amps(w) => vec![loom.wire(w).name.clone()],
            Self::Drain => vec![loom.part(PartId(0)).name.clone()],
            Self::Ohms(p) => vec![part(p)],
            Self::NewFuse(p) | Self::NewFuseAlone(p) => vec![loom.part(p).name.clone()],
        }
    }

    /// What is weighed for what is read: volts and amperes as they are; ohms by their logarithm, the leads added, since an
    /// ohmmeter that is held to a loom tells sizes, not figures.
    pub fn scale(self, limits: &Limits, read: f64) -> f64 {
        match self {
            Self::Ohms(_) => (read.clamp(0.0, OPEN_OHMS) + limits.value("leads")).ln(),
            _ => read,
        }
    }

    /// How wide all is that may be read at all on a vehicle of so many volts, in the scale that is weighed: our own.
    pub(crate) fn width(self, nominal: f64) -> f64 {
        match self {
            Self::Volts(..) => 1.25 * nominal,
            Self::Amps(_) | Self::Drain => 100.0,
            Self::Ohms(_) => 15.0,
            Self::NewFuse(_) | Self::NewFuseAlone(_) => 2.0,
        }
    }

    /// What was read, from what is weighed.
    pub fn unscale(self, limits: &Limits, weighed: f64) -> f64 {
        match self {
            Self::Ohms(_) => (weighed.exp() - limits.value("leads")).max(0.0),
            _ => weighed,
        }
    }

    /// Standard deviation of what a meter says of a value, in the scale that is weighed. What its maker promises is the most
    /// that it is out, taken as equally likely all over.
    pub fn meter(self, limits: &Limits, value: f64) -> f64 {
        let even = 3.0_f64.sqrt();
        let promised = |part: &str, counts: &str| [part, counts].map(|name| limits.value(name));
        match self {
            Self::Volts(..) => {
                let range = RANGES.iter().find(|(most, _)| value.abs() < *most);
                let count = range.map_or(0.1, |r| r.1);
                let [percent, counts] = promised("meter volts", "meter volts counts");
                let most = meter_error(value, percent, counts, count);
                (most / even).hypot(limits.value("probe contact"))
            }
            Self::Drain => {
                let [percent, counts] = promised("meter amperes", "meter amperes counts");
                meter_error(value, percent, counts, IN_LINE_COUNT) / even
            }
            Self::Amps(_) => {
                let [percent, counts] = promised("clamp", "clamp counts");
                meter_error(value, percent, counts, CLAMP_COUNT) / even
            }
            Self::Ohms(_) => OHMS_PART,
            Self::NewFuse(_) | Self::NewFuseAlone(_) => YES_OR_NO,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Meters of the reference table, read: 0.5 % and 2 counts of 1 mV at 2.005 V is 1.993 to 2.017.
    #[test]
    fn a_meter_is_out_by_what_its_maker_allows() {
        let limits = Limits::default();
        let sd = Probe::Volts(PinId(0), PinId(1)).meter(&limits, 2.005);
        let most = (sd.powi(2) - limits.value("probe contact").powi(2)).sqrt() * 3.0_f64.sqrt();
        assert!(
            (2.005 - most - 1.993).abs() < 5e-4 && (2.005 + most - 2.017).abs() < 5e-4,
            "{most}"
        );
    }
}
