//! Which wire goes into which way of a connector, on both halves.

use super::plugs::mates;
use super::{Plug, at};
use loom::{Loom, PartId, PinId, WireId};

/// One way of a connector.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Way {
    /// Its number.
    pub number: u32,
    /// Wires at the source half: live when unplugged, in the shrouded socket contact.
    pub live: Vec<WireId>,
    /// Wires at the far half, in the pin contact.
    pub far: Vec<WireId>,
    /// The part whose own lead is in the half that has no wire: a load's.
    pub own: Option<PartId>,
}

impl Way {
    /// Whether anything is in it.
    pub fn used(&self) -> bool {
        !self.live.is_empty() || !self.far.is_empty()
    }
}

/// The ways of a connector as it is sold: what is in each, and the empty ones that want a blanking plug where it is sealed.
pub fn ways(loom: &Loom, plug: &Plug) -> Vec<Way> {
    let sold = plug.class.as_ref().map_or(plug.used, |(_, sold)| *sold);
    let mates: Vec<&loom::Mate> = mates(loom, plug.part).collect();
    let way = |n: u32| {
        let mate = mates.get(n as usize);
        let of =
            |pin: PinId| -> (Vec<WireId>, PartId) { (at(loom, pin).collect(), loom.pin(pin).part) };
        let [live, far] = match mate {
            Some(m) => [m.live, m.far].map(of),
            None => [(Vec::new(), plug.part), (Vec::new(), plug.part)],
        };
        let own = [&live, &far]
            .into_iter()
            .find(|(wires, part)| wires.is_empty() && *part != plug.part);
        Way {
            number: n + 1,
            own: own.map(|(_, part)| *part),
            live: live.0,
            far: far.0,
        }
    };
    (0..sold).map(way).collect()
}
