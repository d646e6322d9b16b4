//! What may be amiss, one family a file: each with how often it happens, against others, where it is.
//!
//! | file | family |
//! |---|---|
//! | `resist` | joints, plugs, earths, fuse holders, contacts that resist |
//! | `broken` | wires open, plugs and earths off, fuses open |
//! | `stuck` | relays and switches that stand |
//! | `load` | loads that are dead, shorted, or draw what they should not |
//! | `touch` | wires that touch the body |
//! | `supply` | battery and alternator |

mod broken;
mod load;
mod resist;
mod stuck;
mod supply;
mod touch;

use crate::change::Change;
use crate::design::Design;
use loom::{PartId, PinId, PlaceId};
use plan::Zone;
use std::collections::BTreeSet;

/// Something that may be amiss.
#[derive(Clone, Debug)]
pub struct Cause {
    /// Its kind: "joint-poor".
    pub kind: &'static str,
    /// Where: "W1.3", "XE1", "K1".
    pub at: String,
    /// Wires and parts to be marked on a drawing.
    pub names: Vec<String>,
    /// In a phrase: "a joint of W1.3 resists".
    pub says: String,
    /// The circuits that it is in; none of what concerns the whole supply.
    pub circuits: Vec<usize>,
    /// Whether it shows while its circuit is off, too.
    pub shows_off: bool,
    /// What to do about it.
    pub mend: &'static str,
    /// How likely it is before anything is known, 0 to 1.
    pub prior: f64,
    /// The ways in which it shows; of a resistance, several sizes of it.
    pub versions: Vec<Version>,
}

/// One way in which a cause shows.
#[derive(Clone, Debug)]
pub struct Version {
    /// What it changes.
    pub change: Change,
    /// Resistance that it adds, Ω, if it is one.
    pub ohms: Option<f64>,
}

/// Resistances that are tried, Ω: from what is hardly seen at ten amperes to what lets a lamp glow no more. Our own.
pub(crate) const SIZES: [f64; 9] = [0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 20.0];
/// From here up a place is hot, °C.
const HOT: f64 = 70.0;

/// Everything that may be amiss in a loom.
pub(super) fn all(d: &Design) -> Vec<Cause> {
    let families: [fn(&Design) -> Vec<Cause>; 6] = [
        resist::all,
        broken::all,
        stuck::all,
        load::all,
        touch::all,
        supply::all,
    ];
    families.iter().flat_map(|all| all(d)).collect()
}

impl Cause {
    /// One that shows in one way.
    fn new(kind: &'static str, at: &str, says: String, change: Change) -> Self {
        Self {
            kind,
            at: at.to_owned(),
            names: vec![at.to_owned()],
            says,
            circuits: Vec::new(),
            shows_off: false,
            mend: "",
            prior: 0.0,
            versions: vec![Version { change, ohms: None }],
        }
    }

    fn of(mut self, circuits: impl IntoIterator<Item = usize>) -> Self {
        self.circuits = circuits.into_iter().collect();
        self
    }

    fn also_off(mut self) -> Self {
        self.shows_off = true;
        self
    }

    fn mended(mut self, mend: &'static str) -> Self {
        self.mend = mend;
        self
    }

    /// So often: a row of the table, times how much more often it is where it is.
    fn often(mut self, d: &Design, row: &str, times: f64) -> Self {
        self.prior = d.limits.value(row) / 100.0 * times;
        self
    }
}

/// The circuits of a part: its own, or those of the wires on it; none where a wire of the supply side is.
fn circuits_of(d: &Design, id: PartId) -> Vec<usize> {
    let part = d.loom.part(id);
    if let Some(own) = part.circuit {
        return vec![own];
    }
    let on_it = |w: &loom::Wire| [w.from, w.to].iter().any(|pin| d.loom.pin(*pin).part == id);
    let wires = d.loom.wires.iter().filter(|w| on_it(w));
    let circuits: Option<BTreeSet<usize>> = wires.map(|w| w.circuit).collect();
    circuits.unwrap_or_default().into_iter().collect()
}

/// How much more often something goes wrong at a place.
fn place_times(d: &Design, place: PlaceId) -> f64 {
    let p = d.loom.place(place);
    let hot = p.zone == Zone::EngineBay || d.heat_at(place) - 273.15 >= HOT;
    let mut times = 1.0;
    for (is, row) in [(p.wet, "wet"), (hot, "hot"), (p.comes_out, "moving")] {
        if is {
            times *= d.limits.value(row);
        }
    }
    times
}

/// The same at the place of a pin.
fn pin_times(d: &Design, pin: PinId) -> f64 {
    place_times(d, d.loom.part_of(pin).place)
}
