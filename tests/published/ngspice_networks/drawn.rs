//! Networks drawn by lot that look like a vehicle's: a battery, an alternator perhaps, boxes on
//! feeders, earth points, switched branches with a load each, and second ways that make meshes.

use physics::network::{Law, Network, Node};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;

/// A network and what its nodes are.
#[derive(Clone, Debug)]
pub(super) struct Drawn {
    pub(super) network: Network,
    /// By node: whether it stands before the load.
    pub(super) live: Vec<bool>,
    /// Nodes on both sides of a driver that gets so little that it is near giving up.
    pub(super) starved: Vec<[Node; 2]>,
}

/// A branch: its wires, the switch, the load, and which box and earth point it hangs from.
#[derive(Clone, Debug)]
struct Branch {
    wires: Vec<f64>,
    switch: Law,
    load: Law,
    starved: bool,
    at: [usize; 2],
}

fn log(least: f64, most: f64) -> impl Strategy<Value = f64> + Clone {
    (least.ln()..most.ln()).prop_map(f64::exp)
}

fn closed() -> impl Strategy<Value = Law> {
    log(1e-3, 2e-2).prop_map(|ohms| Law::Resistor { ohms })
}

fn tungsten() -> impl Strategy<Value = Law> {
    log(0.2, 8.0).prop_map(|rated_amps| Law::Tungsten {
        rated_volts: 12.0,
        rated_amps,
    })
}

fn constant_power() -> impl Strategy<Value = Law> {
    (log(2.0, 70.0), 7.0..10.0).prop_map(|(watts, lowest_volts)| Law::ConstantPower {
        watts,
        lowest_volts,
        highest_volts: 32.0,
    })
}

fn any_load() -> impl Strategy<Value = Law> {
    let motor = (log(0.5, 10.0), 0.05..0.4).prop_map(|(rated_amps, armature_ohms)| Law::Motor {
        rated_volts: 12.0,
        rated_amps,
        armature_ohms,
    });
    let heater = log(1.5, 60.0).prop_map(|ohms| Law::Resistor { ohms });
    prop_oneof![3 => tungsten(), 3 => constant_power(), 3 => motor, 1 => heater]
}

fn branch(
    switch: impl Strategy<Value = Law>,
    load: impl Strategy<Value = Law>,
) -> impl Strategy<Value = Branch> {
    let parts = (vec(log(1e-3, 6e-2), 1..4), switch, load, [0..8_usize, 0..8]);
    parts.prop_map(|(wires, switch, load, at)| Branch {
        wires,
        switch,
        load,
        starved: false,
        at,
    })
}

/// A driver at the end of so long a wire that it takes most of what could come through it at all. It
/// gives up below 6 V: at that voltage more would come than it takes, so that it can't rest there, and
/// holding out is the one answer.
#[derive(Clone, Copy, Debug)]
struct Starved {
    ohms: f64,
    /// Its power, over the most that could come.
    part: f64,
    at: [usize; 2],
}

impl Starved {
    fn any() -> impl Strategy<Value = Self> {
        let parts = (0.4..1.5_f64, 0.75..0.92_f64, [0..8_usize, 0..8]);
        parts.prop_map(|(ohms, part, at)| Self { ohms, part, at })
    }

    fn branch(self, supplies: &[Law]) -> Branch {
        Branch {
            wires: vec![self.ohms / 3.0, self.ohms * 2.0 / 3.0],
            switch: Law::Resistor { ohms: 5e-3 },
            load: Law::ConstantPower {
                watts: self.part * about(supplies).powi(2) / (4.0 * self.ohms),
                lowest_volts: 6.0,
                highest_volts: 32.0,
            },
            starved: true,
            at: self.at,
        }
    }
}

/// About what the supplies hold: an alternator's voltage if it is no small one, else the battery's.
fn about(supplies: &[Law]) -> f64 {
    let volts = supplies.iter().map(|law| match *law {
        Law::Regulated {
            volts, limit_amps, ..
        } if limit_amps > 100.0 => volts,
        Law::Source { volts, .. } => volts,
        _ => 0.0,
    });
    volts.fold(0.0, f64::max) - 0.3
}

/// Battery, alternator if any, the vehicle's own draw. A battery beside an alternator takes a charge,
/// or it is full and only gives.
fn supplies() -> impl Strategy<Value = Vec<Law>> {
    let charging = (12.3..12.9, log(3e-3, 1.5e-2));
    let battery = charging.prop_map(|(volts, ohms)| Law::Source { volts, ohms });
    let full = (12.7..12.9, log(3e-3, 1.5e-2)).prop_map(|(volts, ohms)| Law::Regulated {
        volts,
        ohms,
        limit_amps: volts / ohms,
    });
    // From one that only just turns, at its limit, to one that carries everything.
    let alternator =
        (13.8..14.5, log(10.0, 300.0)).prop_map(|(volts, limit_amps)| Law::Regulated {
            volts,
            ohms: 5e-3,
            limit_amps,
        });
    let pair = prop_oneof![
        2 => battery.clone().prop_map(|battery| vec![battery]),
        2 => (battery, alternator.clone()).prop_map(|(a, b)| vec![a, b]),
        3 => (full, alternator).prop_map(|(a, b)| vec![a, b]),
    ];
    (pair, 1.0..25.0).prop_map(|(mut supplies, amps)| {
        supplies.push(Law::Current { amps });
        supplies
    })
}

/// Branches besides a starved one: a driver, a filament, a switch that is open, and more of any.
fn branches() -> impl Strategy<Value = Vec<Branch>> {
    let switch = || prop_oneof![4 => closed(), 1 => Just(Law::Open)];
    let first = (
        branch(closed(), constant_power()),
        branch(closed(), tungsten()),
        branch(Just(Law::Open), any_load()),
    );
    (first, vec(branch(switch(), any_load()), 0..6))
        .prop_map(|((a, b, c), more)| [vec![a, b, c], more].concat())
}

/// Networks of 8 to 60 nodes, each with a driver, a filament, a switch that is closed and one open.
pub(super) fn networks() -> impl Strategy<Value = Drawn> {
    let groups = [vec(log(5e-4, 8e-3), 1..4), vec(log(3e-4, 4e-3), 1..4)];
    let ways = vec((0.0..1.0, 0.0..1.0, any::<bool>(), log(2e-3, 0.2)), 1..5);
    let starved = option::weighted(0.6, Starved::any());
    (supplies(), groups, branches(), starved, ways).prop_map(
        |(supplies, groups, mut branches, starved, ways)| {
            branches.extend(starved.map(|starved| starved.branch(&supplies)));
            let mut drawn = Drawn::new();
            drawn.build(&supplies, &groups, &branches);
            for (a, b, live, ohms) in ways {
                drawn.second_way([a, b], live, ohms);
            }
            drawn
        },
    )
}

impl Drawn {
    fn new() -> Self {
        Self {
            network: Network::new(),
            live: vec![false],
            starved: Vec::new(),
        }
    }

    fn node(&mut self, live: bool) -> Node {
        self.live.push(live);
        self.network.node()
    }

    /// A new node behind an element.
    fn behind(&mut self, from: Node, law: Law) -> Node {
        let node = self.node(self.live[from.index()]);
        self.network.element(from, node, law);
        node
    }

    fn build(&mut self, supplies: &[Law], groups: &[Vec<f64>; 2], branches: &[Branch]) {
        let bus = self.node(true);
        for &law in supplies {
            self.network.element(bus, Node::GROUND, law);
        }
        let mut ends = [bus, Node::GROUND]
            .into_iter()
            .zip(groups)
            .map(|(from, group)| {
                let wires = group.iter().map(|&ohms| Law::Resistor { ohms });
                wires.map(|wire| self.behind(from, wire)).collect()
            });
        let mut next = || -> Vec<Node> { ends.next().unwrap_or_default() };
        let (boxes, earths) = (next(), next());
        for branch in branches {
            let [feed, earth] = branch.at;
            self.branch(
                boxes[feed % boxes.len()],
                earths[earth % earths.len()],
                branch,
            );
        }
    }

    fn branch(&mut self, feed: Node, earth: Node, branch: &Branch) {
        let mut at = feed;
        for (n, &ohms) in branch.wires.iter().enumerate() {
            at = self.behind(at, Law::Resistor { ohms });
            if n == 0 {
                at = self.behind(at, branch.switch);
            }
        }
        let low = self.behind(earth, Law::Resistor { ohms: 8e-3 });
        self.network.element(at, low, branch.load);
        if branch.starved {
            self.starved.push([at, low]);
        }
    }

    /// A wire between two nodes on the same side of the loads, which are given as parts of all.
    fn second_way(&mut self, ends: [f64; 2], live: bool, ohms: f64) {
        let nodes: Vec<u32> = (0..self.live.len() as u32)
            .filter(|&node| self.live[node as usize] == live)
            .collect();
        let [a, b] = ends.map(|part| Node(nodes[(part * nodes.len() as f64) as usize]));
        if a != b {
            self.network.element(a, b, Law::Resistor { ohms });
        }
    }
}
