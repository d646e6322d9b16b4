//! From loom and state to a network: which elements there are, between which nodes, by which law.
//! The battery's negative post is the reference. What no current can reach is left out, so that no
//! node floats.

use crate::design::Design;
use crate::load::{self, Frame};
use crate::state::{Position, State, SupplyState};
use loom::{LoadPart, PartId, PartKind, PinId, WireId};
use physics::network::Law;
use physics::{battery, coil, conductor};
use plan::{Chemistry, EarthReturn, FeedKind};
use quantity::Quantity;

/// What an element stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Piece {
    /// A wire with the joints at its ends.
    Wire(WireId),
    /// A plugged pair of pins, by index.
    Mate(usize),
    /// A fuse.
    Fuse(PartId),
    /// A relay's coil.
    Coil(PartId),
    /// A closed contact of a relay or a switch.
    Contact(PartId),
    /// A load.
    Load(PartId),
    /// The battery.
    Battery,
    /// The alternator.
    Alternator,
    /// What the vehicle itself draws.
    Vehicle,
    /// What the spare ways of a box are to carry later.
    Spare(PartId),
    /// The vehicle's wiring up to a feed or a signal.
    Feed(PartId),
    /// The body between an earth point and the battery.
    Body(PartId),
}

/// One element.
#[derive(Clone, Copy, Debug)]
pub struct Element {
    /// What it stands for.
    pub piece: Piece,
    /// Node that current enters by in normal use; 0 is the reference.
    pub a: usize,
    /// Node that it leaves by.
    pub b: usize,
    /// Its law.
    pub law: Law,
}

/// The network of a loom in a state.
#[derive(Clone, Debug)]
pub struct Model {
    /// How many nodes, the reference included.
    pub nodes: usize,
    /// By pin: its node, if any current can reach it.
    pub node_of_pin: Vec<Option<usize>>,
    /// Elements.
    pub elements: Vec<Element>,
}

/// What a model depends on besides design and state.
pub(crate) struct Inner<'a> {
    /// By part: whether a relay's coil has pulled in.
    pub energised: &'a [bool],
    /// By wire: its mean temperature, K.
    pub mean_k: &'a [f64],
    /// By part: current through a fuse, A.
    pub fuse_amps: &'a [f64],
}

/// Builds the model.
pub(crate) fn model(design: &Design, state: &State, inner: &Inner) -> Model {
    let mut draft = Draft {
        design,
        state,
        inner,
        elements: Vec::new(),
    };
    draft.supply();
    for (id, _) in design.loom.each_wire() {
        draft.wire(id);
    }
    for (i, m) in design.loom.mates.iter().enumerate() {
        let ohms = design.joint(m.joint);
        draft.join(Piece::Mate(i), (m.live, m.far), Law::Resistor { ohms });
    }
    for (id, _) in design.loom.each_part() {
        draft.part(id);
    }
    draft.finish()
}

struct Draft<'a> {
    design: &'a Design<'a>,
    state: &'a State,
    inner: &'a Inner<'a>,
    /// Nodes are pins, numbered from 1; 0 is the reference.
    elements: Vec<Element>,
}

fn node(pin: PinId) -> usize {
    pin.0 as usize + 1
}

impl Draft<'_> {
    fn join(&mut self, piece: Piece, (a, b): (PinId, PinId), law: Law) {
        self.elements.push(Element {
            piece,
            a: node(a),
            b: node(b),
            law,
        });
    }

    fn earthed(&mut self, piece: Piece, a: PinId, law: Law) {
        self.elements.push(Element {
            piece,
            a: node(a),
            b: 0,
            law,
        });
    }

    /// The battery's pins: positive and negative.
    fn posts(&self) -> (PinId, PinId) {
        let pins = &self.design.loom.parts[0].pins;
        (pins[0], pins[1])
    }

    fn supply(&mut self) {
        let d = self.design;
        let s = &d.loom.supply;
        let (plus, _) = self.posts();
        let charge = match self.state.supply {
            SupplyState::KeyOn => d.limits.value("engine-off charge"),
            SupplyState::Driving => 1.0,
        };
        let volts =
            battery::open_circuit_volts(chemistry(s.battery.chemistry), charge, d.nominal());
        let place = d.loom.parts[0].place;
        let ohms = battery_ohms(d, volts, d.heat_at(place));
        // A battery on charge takes what it is given; here it only gives.
        let charged = self.state.supply == SupplyState::Driving && s.alternator.is_some();
        let law = match charged {
            false => Law::Source { volts, ohms },
            true => Law::Regulated {
                volts,
                ohms,
                limit_amps: battery::short_circuit_amps(volts, ohms),
            },
        };
        self.earthed(Piece::Battery, plus, law);
        if let (SupplyState::Driving, Some(alternator)) = (self.state.supply, &s.alternator) {
            let usual = d.limits.value("regulated volts") * d.nominal() / 12.0;
            let law = Law::Regulated {
                volts: alternator.volts.map_or(usual, |v| v.si()),
                ohms: d.limits.value("regulation"),
                limit_amps: alternator.rated.si(),
            };
            self.earthed(Piece::Alternator, plus, law);
        }
        let draw = match self.state.supply {
            SupplyState::KeyOn => s.vehicle.key_on,
            SupplyState::Driving => s.vehicle.driving,
        };
        if let Some(amps) = draw.map(Quantity::si).filter(|a| *a > 0.0) {
            self.earthed(Piece::Vehicle, plus, steady_draw(amps, d.nominal()));
        }
    }

    fn wire(&mut self, id: WireId) {
        let d = self.design;
        let w = d.loom.wire(id);
        let mean = self.inner.mean_k[id.0 as usize];
        let ohms = d.copper_ohms(id, d.conductor(id), mean) + d.joint_ohms(id);
        self.join(Piece::Wire(id), (w.from, w.to), Law::Resistor { ohms });
    }

    fn part(&mut self, id: PartId) {
        let d = self.design;
        let part = d.loom.part(id);
        let pins = &part.pins;
        let position = part
            .circuit
            .map_or(Position::Off, |c| self.state.positions[c]);
        match &part.kind {
            PartKind::Fuse(_) => {
                let load = self.inner.fuse_amps[id.0 as usize];
                if let Some((_, rating)) = d.fuse(id) {
                    let ohms = physics::fuse_clock::hot_resistance(
                        rating.cold_ohms,
                        load / rating.amps.si(),
                    );
                    self.join(Piece::Fuse(id), (pins[0], pins[1]), Law::Resistor { ohms });
                }
            }
            PartKind::Box(b) => self.spares(id, b),
            PartKind::Relay(r) => self.relay(id, r),
            PartKind::Switch(s) => {
                let ohms = d.choice.switches[id.0 as usize]
                    .map_or(d.limits.value("switch contact"), |k| {
                        d.stock.switches[k].contact_ohms
                    });
                let closed = match (s.positions, position) {
                    (_, Position::Off) | (2, Position::Auto) => return,
                    (3, Position::Auto) => (pins[0], pins[2]),
                    (3, Position::On) => (pins[1], pins[2]),
                    _ => (pins[0], pins[1]),
                };
                self.join(Piece::Contact(id), closed, Law::Resistor { ohms });
            }
            PartKind::Load(l) => {
                let law = load_law(d, l);
                self.join(Piece::Load(id), (pins[0], pins[1]), law);
            }
            PartKind::Feed(f) => self.feed(id, f),
            PartKind::Signal(_) => {
                if self.state.signals.contains(&id) {
                    let (plus, _) = self.posts();
                    let law = Law::Resistor {
                        ohms: d.signal_ohms,
                    };
                    self.join(Piece::Feed(id), (plus, pins[0]), law);
                }
            }
            PartKind::Earth(e) if e.to == EarthReturn::Body => {
                let law = Law::Resistor { ohms: d.body_ohms };
                self.earthed(Piece::Body(id), pins[0], law);
            }
            PartKind::Battery { .. }
            | PartKind::Earth(_)
            | PartKind::Splice
            | PartKind::Connector { .. } => {}
        }
    }

    fn feed(&mut self, id: PartId, f: &loom::FeedPart) {
        // The ignition is on in both supply states that are tried here.
        let (plus, _) = self.posts();
        let ohms = match f.kind {
            FeedKind::BatteryPost => f
                .resistance
                .si()
                .max(self.design.limits.value("post clamp")),
            _ => f.resistance.si(),
        };
        let pin = self.design.loom.part(id).pins[0];
        self.join(Piece::Feed(id), (plus, pin), Law::Resistor { ohms });
    }

    fn spares(&mut self, id: PartId, b: &loom::BoxPart) {
        let d = self.design;
        let Some(each) = b.spare else { return };
        let used = crate::design::ways_used(d.loom, id);
        let amps = each.si() * f64::from(b.ways.saturating_sub(used));
        if amps > 0.0 {
            let bus = d.loom.part(id).pins[0];
            self.earthed(Piece::Spare(id), bus, steady_draw(amps, d.nominal()));
        }
    }

    fn relay(&mut self, id: PartId, r: &loom::RelayPart) {
        let d = self.design;
        let part = d.loom.part(id);
        let Some(kind) = d.stock.relay(&r.kind, d.loom.supply.system.volts()) else {
            return;
        };
        let on = self.inner.energised[id.0 as usize];
        let ohms = coil_ohms(kind, coil_kelvin(d, part.place, on));
        self.join(
            Piece::Coil(id),
            (part.pins[2], part.pins[3]),
            Law::Resistor { ohms },
        );
        if on == (r.contact == "87") {
            let law = Law::Resistor {
                ohms: kind.contact_ohms,
            };
            self.join(Piece::Contact(id), (part.pins[0], part.pins[1]), law);
        }
    }

    /// Leaves out what no current can reach, and numbers the nodes that remain.
    fn finish(self) -> Model {
        let loom = self.design.loom;
        let count = loom.pins.len() + 1;
        let (_, minus) = self.posts();
        let mut elements = self.elements;
        // The negative post is the reference.
        for e in &mut elements {
            for n in [&mut e.a, &mut e.b] {
                if *n == node(minus) {
                    *n = 0;
                }
            }
        }
        let mut next: Vec<Vec<usize>> = vec![Vec::new(); count];
        for e in &elements {
            next[e.a].push(e.b);
            next[e.b].push(e.a);
        }
        let mut number: Vec<Option<usize>> = vec![None; count];
        let mut order = vec![0];
        number[0] = Some(0);
        let mut at = 0;
        while at < order.len() {
            for &n in &next[order[at]] {
                if number[n].is_none() {
                    number[n] = Some(order.len());
                    order.push(n);
                }
            }
            at += 1;
        }
        number[node(minus)] = Some(0);
        let kept = |e: Element| {
            let (a, b) = (number[e.a]?, number[e.b]?);
            Some(Element { a, b, ..e })
        };
        Model {
            nodes: order.len(),
            elements: elements.into_iter().filter_map(kept).collect(),
            node_of_pin: number[1..].to_vec(),
        }
    }
}

/// A draw of which only the current is known: it keeps to it down to a tenth of the nominal voltage, so that
/// it can't pull a supply below nothing.
fn steady_draw(amps: f64, nominal: f64) -> Law {
    Law::Motor {
        rated_volts: nominal,
        rated_amps: amps,
        armature_ohms: nominal / (10.0 * amps),
    }
}

/// Internal resistance of the battery, Ω. The cranking rating belongs to 12 V: a 24 V system has two
/// batteries in series.
pub(crate) fn battery_ohms(d: &Design, volts: f64, kelvin: f64) -> f64 {
    let blocks = d.nominal() / 12.0;
    battery::internal_ohms(d.cranking, volts / blocks, kelvin) * blocks
}

pub(crate) fn chemistry(c: Chemistry) -> battery::Chemistry {
    match c {
        Chemistry::Flooded => battery::Chemistry::Flooded,
        Chemistry::Agm => battery::Chemistry::Agm,
        Chemistry::Gel => battery::Chemistry::Gel,
        Chemistry::LithiumIron => battery::Chemistry::LithiumIron,
    }
}

/// The law of a load.
pub(crate) fn load_law(d: &Design, l: &LoadPart) -> Law {
    let frame = Frame {
        load: l,
        limits: &d.limits,
        nominal: d.nominal(),
    };
    (load::model(l.kind).law)(&frame)
}

/// Temperature of a coil: its place's, and its own rise once it has been on.
pub(crate) fn coil_kelvin(d: &Design, place: loom::PlaceId, on: bool) -> f64 {
    d.heat_at(place) + if on { coil::RISE_AT_NOMINAL_K } else { 0.0 }
}

/// Resistance of a coil with what stands across it, Ω.
pub(crate) fn coil_ohms(kind: &stock::RelayKind, kelvin: f64) -> f64 {
    let coil = coil::resistance_at(kind.coil_ohms, conductor::T20, kelvin);
    match kind.suppression_ohms {
        Some(r) => coil * r / (coil + r),
        None => coil,
    }
}
