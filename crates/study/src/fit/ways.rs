//! Which wire goes into which way of a connector, on both halves.

use super::plugs::mates;
use super::{Plug, at};
use loom::{Loom, WireId};

/// One way of a connector.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Way {
    /// Its number.
    pub number: u32,
    /// Wires at the source half: live when unplugged, in the shrouded socket contact.
    pub live: Vec<WireId>,
    /// Wires at the far half, in the pin contact; none where the load's own lead comes with it.
    pub far: Vec<WireId>,
}

/// The ways of a connector as it is sold: what is in each, and the empty ones that want a blanking plug where it is sealed.
pub fn ways(loom: &Loom, plug: &Plug) -> Vec<Way> {
    let sold = plug.class.as_ref().map_or(plug.used, |(_, sold)| *sold);
    let mates: Vec<&loom::Mate> = mates(loom, plug.part).collect();
    let way = |n: u32| {
        let mate = mates.get(n as usize);
        Way {
            number: n + 1,
            live: mate.map_or_else(Vec::new, |m| at(loom, m.live).collect()),
            far: mate.map_or_else(Vec::new, |m| at(loom, m.far).collect()),
        }
    };
    (0..sold).map(way).collect()
}
