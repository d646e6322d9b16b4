//! What lies on each stud, in which order, and how hard its nut is drawn.

use super::{Fit, Table, Termination};
use crate::answers::Answers;
use crate::design::Design;
use crate::ends::stud_of;
use loom::{Loom, PartKind, PinId, WireId};
use plan::EarthReturn;

/// More rings than this on one stud are too many: makers' data sheets for this class, read.
pub const MOST_RINGS: usize = 4;

/// A stud with what lies on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Stud {
    /// The pin that it is.
    pub pin: PinId,
    /// "M8".
    pub stud: String,
    /// Wires whose rings lie on it, the first against the metal: that which carries most.
    pub rings: Vec<WireId>,
    /// How hard its nut is drawn: index into `stock.torques`.
    pub torque: Option<usize>,
}

impl Stud {
    /// An earth that returns by wire may be a bar with a stud for each ring.
    pub fn is_bar(&self, loom: &Loom) -> bool {
        let earth = matches!(&loom.part_of(self.pin).kind, PartKind::Earth(e) if e.to == EarthReturn::Battery);
        earth && self.rings.len() > MOST_RINGS
    }

    /// More rings than one stud takes, and no bar.
    pub fn is_crowded(&self, loom: &Loom) -> bool {
        self.rings.len() > MOST_RINGS && !self.is_bar(loom)
    }
}

/// What a pin is a stud of, as the tables call it, and its thread; nothing where it is none.
fn thread(d: &Design, table: &Table, pin: PinId) -> Option<(&'static str, String)> {
    let id = d.loom.pin(pin).part;
    let kind = &d.loom.part(id).kind;
    if let Some(on) = stud_of(kind) {
        let drawn_as = match on {
            "battery" => "battery stud",
            "earth" => "body earth",
            _ => "terminal screw",
        };
        return Some((drawn_as, table.stud(on).stud.clone()));
    }
    Some(match kind {
        PartKind::Relay(_) => ("terminal screw", d.relay(id)?.stud.clone()?),
        PartKind::Fuse(f) if f.way.is_none() => {
            let class = &d.fuse(id)?.0.name;
            (
                "fuse holder",
                class.strip_prefix("bolt-in strip ")?.to_owned(),
            )
        }
        _ => return None,
    })
}

/// Every stud on which a ring lies, in the loom's order.
pub(crate) fn all(d: &Design, answers: &Answers, fit: &Fit) -> Vec<Stud> {
    let table = Table::default();
    let ring = |end: &super::WireEnd| match end.gets {
        Termination::Terminal(t) => d.stock.terminals[t].stud.is_some(),
        _ => false,
    };
    let mut studs: Vec<Stud> = Vec::new();
    for ((wire, _), ends) in d.loom.each_wire().zip(&fit.ends) {
        for end in ends.iter().filter(|end| ring(end)) {
            match studs.iter_mut().find(|s| s.pin == end.pin) {
                Some(stud) => stud.rings.push(wire),
                None => {
                    let Some((of, stud)) = thread(d, &table, end.pin) else {
                        continue;
                    };
                    let torques = &d.stock.torques;
                    let torque = torques.iter().position(|t| t.of == of && t.stud == stud);
                    studs.push(Stud {
                        pin: end.pin,
                        stud,
                        rings: vec![wire],
                        torque,
                    });
                }
            }
        }
    }
    let amps = |w: &WireId| answers.wires[w.0 as usize].amps;
    for stud in &mut studs {
        let rings = &mut stud.rings;
        rings.sort_by(|a, b| amps(b).total_cmp(&amps(a)).then(a.cmp(b)));
    }
    studs
}
