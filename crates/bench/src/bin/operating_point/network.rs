//! The network that is measured: a supply, forty branches in boxes of eight with a second way between
//! boxes, and in each branch a load with a law of its own. The same each time.

use physics::network::{ElementId, Law, Network, Node};

/// Branches, each with a load that is not linear.
const BRANCHES: u32 = 40;
/// Branches that share a box and an earth point.
const BOX: u32 = 8;
const G: Node = Node::GROUND;

/// How the vehicle stands, and with it what supplies it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Supply {
    /// The battery alone.
    KeyOn,
    /// A cold battery takes a charge from a large alternator, which holds its voltage.
    Charging,
    /// The battery is full and only gives, the alternator holds its voltage: as `study` writes it.
    Driving,
}

impl Supply {
    /// All of them, with the words they are asked for by.
    pub const ALL: [(&str, Self); 3] = [
        ("key-on", Self::KeyOn),
        ("charging", Self::Charging),
        ("driving", Self::Driving),
    ];

    fn laws(self) -> Vec<Law> {
        let source = |ohms| Law::Source { volts: 12.7, ohms };
        let regulated = |volts, ohms, limit_amps| Law::Regulated {
            volts,
            ohms,
            limit_amps,
        };
        match self {
            Self::KeyOn => vec![source(4.5e-3)],
            Self::Charging => vec![source(20e-3), regulated(14.2, 5e-3, 260.0)],
            Self::Driving => vec![
                regulated(12.7, 4.5e-3, 12.7 / 4.5e-3),
                regulated(14.2, 5e-3, 180.0),
            ],
        }
    }
}

/// The network, and the load that is changed from one solve to the next.
pub struct Measured {
    /// All of it.
    pub network: Network,
    /// The first branch's load, a lamp.
    pub lamp: ElementId,
}

impl Measured {
    /// Builds it.
    pub fn new(supply: Supply) -> Self {
        let mut network = Network::new();
        let bus = supplied(&mut network, supply);
        let mut loads = Vec::new();
        let (mut feeder, mut earth) = (bus, G);
        for branch in 0..BRANCHES {
            if branch % BOX == 0 {
                let last = [feeder, earth];
                feeder = wired(&mut network, bus, 1.5e-3);
                earth = wired(&mut network, G, 1e-3);
                for (a, b) in last.into_iter().zip([feeder, earth]) {
                    if branch > 0 {
                        network.element(a, b, Law::Resistor { ohms: 4e-3 });
                    }
                }
            }
            loads.push(branched(&mut network, branch, feeder, earth));
        }
        let lamp = loads[0];
        Self { network, lamp }
    }

    /// Another lamp in the first branch, a little larger with each step.
    pub fn step(&mut self, step: u32) {
        let size = 1.0 + 1e-4 * f64::from(step);
        self.network.set(self.lamp, load(0, size));
    }
}

/// The supplies and what the vehicle draws by itself.
fn supplied(network: &mut Network, supply: Supply) -> Node {
    let bus = network.node();
    for law in supply
        .laws()
        .into_iter()
        .chain([Law::Current { amps: 20.0 }])
    {
        network.element(bus, G, law);
    }
    bus
}

/// One branch: wire, fuse, wire, switch, plug, wire; the load; the wire back. Gives the load.
fn branched(network: &mut Network, branch: u32, feeder: Node, earth: Node) -> ElementId {
    let ohms = [12e-3, 3e-3, 5e-3, 20e-3, 2e-3, 8e-3];
    let live = ohms
        .into_iter()
        .fold(feeder, |at, ohms| wired(network, at, ohms));
    let low = wired(network, earth, 12e-3);
    let size = 0.4 + 0.02 * f64::from(branch);
    network.element(live, low, load(branch, size))
}

/// A new node at the end of a wire.
fn wired(network: &mut Network, from: Node, ohms: f64) -> Node {
    let end = network.node();
    network.element(from, end, Law::Resistor { ohms });
    end
}

/// The load of a branch, the three kinds in turn.
fn load(branch: u32, size: f64) -> Law {
    match branch % 3 {
        0 => Law::Tungsten {
            rated_volts: 12.0,
            rated_amps: 4.6 * size,
        },
        1 => Law::ConstantPower {
            watts: 40.0 * size,
            lowest_volts: 9.0,
            highest_volts: 32.0,
        },
        _ => Law::Motor {
            rated_volts: 12.0,
            rated_amps: 5.0 * size,
            armature_ohms: 0.3,
        },
    }
}
