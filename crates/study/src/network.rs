//! From loom and state to a network: which elements there are, between which nodes, by which law.
//! The battery's negative post is the reference. What no current can reach is left out, so that no
//! node floats.

use crate::change::{Change, Poor, Spot, Touching};
use crate::design::Design;
use crate::lost::Lost;
use crate::settle::View;
use crate::state::{Position, State};
use crate::supply_side::{alternator_law, battery_law, steady_draw, vehicle_amps};
use loom::{PartId, PartKind, PinId, WireId};
use petgraph::unionfind::UnionFind;
use physics::network::Law;
use physics::{battery, coil, conductor};
use plan::{Chemistry, EarthReturn, FeedKind, SupplyState};
use quantity::Quantity;

/// What an element stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
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
    /// What a full battery takes while it is charged.
    Float,
    /// What the vehicle itself draws.
    Vehicle,
    /// What the spare ways of a box are to carry later.
    Spare(PartId),
    /// The vehicle's wiring up to a feed or a signal.
    Feed(PartId),
    /// The vehicle's own lamps on a signal that is not there.
    OwnLamp(PartId),
    /// What a cut-out draws for itself.
    Sense(PartId),
    /// Where a wire has chafed through to the body.
    Chafe,
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
    /// By element: amperes from its `a` to its `b`; empty before the network is solved.
    pub amps: Vec<f64>,
}

/// What a model depends on besides design and state.
pub(crate) struct Inner<'a> {
    /// By part: whether a relay's coil has pulled in.
    pub energised: &'a [bool],
    /// By wire: its mean temperature, K.
    pub mean_k: &'a [f64],
    /// By part: current through a fuse, A.
    pub fuse_amps: &'a [f64],
    /// How it is looked at.
    pub view: View,
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
        let plug = Lost::Connector(design.loom.pin(m.live).part);
        let far = Lost::Connector(design.loom.pin(m.far).part);
        if !draft.is_lost(plug) && !draft.is_lost(far) {
            let more = draft.more_ohms(Poor::Mate(i));
            let ohms = design.fixed.mate_ohms[i] + more;
            draft.join(Piece::Mate(i), (m.live, m.far), Law::Resistor { ohms });
        }
    }
    for (id, _) in design.loom.each_part() {
        draft.part(id);
    }
    draft.touch();
    draft.finish()
}

struct Draft<'a> {
    design: &'a Design<'a>,
    state: &'a State,
    inner: &'a Inner<'a>,
    /// Nodes are pins, numbered from 1; 0 is the reference. The last two are halfway along wires that touch.
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

    /// What is otherwise than planned: one thing, or two.
    fn changes(&self) -> impl Iterator<Item = &Change> {
        let view = &self.inner.view;
        std::iter::once(&view.change).chain(view.also.as_ref())
    }

    /// What one of them says, if one does.
    fn said<T>(&self, says: impl Fn(&Change) -> Option<T>) -> Option<T> {
        self.changes().find_map(says)
    }

    fn is_lost(&self, lost: Lost) -> bool {
        self.changes().any(|c| c.lost == lost)
    }

    fn is_blown(&self, part: PartId) -> bool {
        self.changes().any(|c| c.is_blown(part))
    }

    fn is_dead(&self, part: PartId) -> bool {
        self.changes().any(|c| c.dead == Some(part))
    }

    fn more_ohms(&self, poor: Poor) -> f64 {
        self.changes().map(|c| c.more_ohms(poor)).sum()
    }

    /// What touches: of two changes at most one is a touch.
    fn touching(&self) -> Option<Touching> {
        self.said(|c| c.touch)
    }

    fn splits(&self, wire: WireId) -> bool {
        self.changes().any(|c| c.splits(wire))
    }

    /// The node halfway along a wire: the second of the two where both spots of a touch are halfway along.
    fn middle(&self, wire: WireId) -> usize {
        let first = self.touching().is_some_and(|t| t.a == Spot::Middle(wire));
        self.design.loom.pins.len() + if first { 1 } else { 2 }
    }

    /// What has chafed through, to the body or to another wire.
    fn touch(&mut self) {
        let Some(touch) = self.touching() else {
            return;
        };
        let place = |d: &Self, spot| match spot {
            Spot::Pin(pin) => node(pin),
            Spot::Middle(wire) => d.middle(wire),
        };
        let a = place(self, touch.a);
        let b = touch.b.map_or(0, |b| place(self, b));
        let law = Law::Resistor { ohms: touch.ohms };
        let piece = Piece::Chafe;
        self.elements.push(Element { piece, a, b, law });
    }

    /// The battery's pins: positive and negative.
    fn posts(&self) -> (PinId, PinId) {
        let pins = &self.design.loom.parts[0].pins;
        (pins[0], pins[1])
    }

    fn supply(&mut self) {
        let d = self.design;
        let supply = self.state.supply;
        let (plus, _) = self.posts();
        let charge = match supply {
            SupplyState::Idling | SupplyState::Driving => 1.0,
            _ => d.supply.charge,
        };
        let charge = self.said(|c| c.charge).unwrap_or(charge);
        let usual = (charge, d.around(supply, d.loom.parts[0].place));
        let at = self.inner.view.battery.unwrap_or(usual);
        if let Some(f) = self.said(|c| c.foreign) {
            let (volts, ohms) = (f.volts, f.ohms);
            self.earthed(Piece::Battery, plus, Law::Source { volts, ohms });
            return;
        }
        self.earthed(Piece::Battery, plus, battery_law(d, supply, at));
        let uncharged = self.changes().any(|c| c.uncharged);
        if let Some(law) = alternator_law(d, supply).filter(|_| !uncharged) {
            self.earthed(Piece::Alternator, plus, law);
            let ohms = d.nominal() / d.limits.value("float charge");
            self.earthed(Piece::Float, plus, Law::Resistor { ohms });
        }
        let amps = vehicle_amps(d, supply) + self.inner.view.unsaid;
        if amps > 0.0 {
            self.earthed(Piece::Vehicle, plus, steady_draw(amps, d.nominal()));
        }
    }

    fn wire(&mut self, id: WireId) {
        let d = self.design;
        if self.is_lost(Lost::Wire(id)) {
            return;
        }
        let w = d.loom.wire(id);
        let mean = self.inner.mean_k[id.0 as usize];
        let joints = d.joint_ohms(id) + self.more_ohms(Poor::Wire(id));
        let ohms = d.copper_ohms(id, d.conductor(id), mean) + joints;
        let piece = Piece::Wire(id);
        if !self.splits(id) {
            self.join(piece, (w.from, w.to), Law::Resistor { ohms });
            return;
        }
        let (from, middle, to) = (node(w.from), self.middle(id), node(w.to));
        let law = Law::Resistor { ohms: 0.5 * ohms };
        for (a, b) in [(from, middle), (middle, to)] {
            self.elements.push(Element { piece, a, b, law });
        }
    }

    fn part(&mut self, id: PartId) {
        let d = self.design;
        let part = d.loom.part(id);
        let pins = &part.pins;
        let position = part
            .circuit
            .map_or(Position::Off, |c| self.state.positions[c]);
        let stuck = self.said(|c| c.turned.filter(|t| t.0 == id));
        let position = stuck.map_or(position, |t| t.1);
        match &part.kind {
            PartKind::Fuse(_) if self.is_blown(id) => {}
            PartKind::Fuse(_) => {
                let load = self.inner.fuse_amps[id.0 as usize];
                if let Some((_, rating)) = d.fuse(id) {
                    let ohms = physics::fuse_clock::hot_resistance(
                        rating.cold_ohms,
                        load / rating.amps.si(),
                    );
                    let ohms = ohms + self.more_ohms(Poor::Fuse(id));
                    self.join(Piece::Fuse(id), (pins[0], pins[1]), Law::Resistor { ohms });
                }
            }
            PartKind::Box(b) => self.spares(id, b),
            PartKind::Relay(r) => self.relay(id, r),
            PartKind::Switch(s) => {
                let ohms = d.choice.switches[id.0 as usize]
                    .map_or(d.fixed.switch_ohms, |k| d.stock.switches[k].contact_ohms);
                let closed = match (s.positions, position) {
                    (_, Position::Auto) if s.isolator => (pins[0], pins[1]),
                    (_, Position::Off) | (2, Position::Auto) => return,
                    (3, Position::Auto) => (pins[0], pins[2]),
                    (3, Position::On) => (pins[1], pins[2]),
                    _ => (pins[0], pins[1]),
                };
                let ohms = ohms + self.more_ohms(Poor::Contact(id));
                self.join(Piece::Contact(id), closed, Law::Resistor { ohms });
            }
            PartKind::Load(l) => {
                let Some(law) = d.fixed.laws[id.0 as usize] else {
                    return;
                };
                if self.is_dead(id) {
                    return;
                }
                let shorted = self.said(|c| c.shorted.filter(|s| s.0 == id));
                let law = shorted.map_or(law, |s| Law::Resistor { ohms: s.1 });
                let drawn = self.said(|c| c.draws.filter(|s| s.0 == id));
                let law = drawn.map_or(law, |s| steady_draw(s.1, d.nominal()));
                let law = match l.duty.filter(|_| self.inner.view.mean_loads) {
                    Some(duty) => scaled(law, duty.part()),
                    None => law,
                };
                self.join(Piece::Load(id), (pins[0], pins[1]), law);
            }
            PartKind::Feed(f) => self.feed(id, f),
            PartKind::Signal(s) => self.signal(id, s),
            PartKind::Cutout(c) => self.cutout(id, c),
            PartKind::Earth(e) if e.to == EarthReturn::Body => {
                if !self.is_lost(Lost::Earth(id)) {
                    let ohms = d.body_ohms + self.more_ohms(Poor::Earth(id));
                    let law = Law::Resistor { ohms };
                    self.earthed(Piece::Body(id), pins[0], law);
                }
            }
            PartKind::Battery { .. }
            | PartKind::Earth(_)
            | PartKind::Splice
            | PartKind::Connector { .. } => {}
        }
    }

    fn feed(&mut self, id: PartId, f: &loom::FeedPart) {
        if self.is_blown(id) {
            return;
        }
        if f.kind == FeedKind::IgnitionTap && !self.state.supply.ignition() {
            return self.own_consumers(id, self.design.own_watts[1]);
        }
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

    /// A signal that is there comes from the battery; one that is not is held to earth by the vehicle's
    /// own lamps on that wire.
    fn signal(&mut self, id: PartId, s: &loom::SignalPart) {
        let d = self.design;
        let pin = d.loom.part(id).pins[0];
        if self.is_blown(id) {
            return;
        }
        if self.state.signals.contains(&id) {
            let (plus, _) = self.posts();
            let ohms = d.signal_ohms;
            self.join(Piece::Feed(id), (plus, pin), Law::Resistor { ohms });
        } else {
            let watts = s.lamp.map_or(d.own_watts[0], Quantity::si);
            self.own_consumers(id, watts);
        }
    }

    /// What of the vehicle hangs on a wire that is not live: its way to earth.
    fn own_consumers(&mut self, id: PartId, watts: f64) {
        let d = self.design;
        let rated_volts = d.nominal() / 12.0 * d.limits.value("lamp volts");
        let law = Law::Tungsten {
            rated_volts,
            rated_amps: watts / rated_volts,
        };
        self.earthed(Piece::OwnLamp(id), d.loom.part(id).pins[0], law);
    }

    fn cutout(&mut self, id: PartId, c: &loom::CutoutPart) {
        let d = self.design;
        let pins = &d.loom.part(id).pins;
        let held = self.said(|c| c.held.filter(|h| h.0 == id));
        if held.map_or(self.inner.energised[id.0 as usize], |h| h.1) {
            let ohms = d.limits.value("cut-out contact") + self.more_ohms(Poor::Contact(id));
            self.join(
                Piece::Contact(id),
                (pins[0], pins[1]),
                Law::Resistor { ohms },
            );
        }
        let draw = steady_draw(c.draws.si(), d.nominal());
        self.join(Piece::Sense(id), (pins[0], pins[2]), draw);
    }

    fn spares(&mut self, id: PartId, b: &loom::BoxPart) {
        let d = self.design;
        // What is to come later draws nothing from the battery today.
        let today = self.inner.view.mean_loads || self.inner.view.today;
        let Some(each) = b.spare.filter(|_| !today) else {
            return;
        };
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
        let Some(kind) = d.relay(id) else {
            return;
        };
        let on = self.inner.energised[id.0 as usize];
        let ohms = coil_ohms(kind, coil_kelvin(d, self.state.supply, part.place, on));
        if !self.is_dead(id) {
            let coil = (part.pins[2], part.pins[3]);
            self.join(Piece::Coil(id), coil, Law::Resistor { ohms });
        }
        let held = self.said(|c| c.held.filter(|h| h.0 == id));
        if held.map_or(on == (r.contact == "87"), |h| h.1) {
            let law = Law::Resistor {
                ohms: kind.contact_ohms + self.more_ohms(Poor::Contact(id)),
            };
            self.join(Piece::Contact(id), (part.pins[0], part.pins[1]), law);
        }
    }

    /// Leaves out what no current can reach, and numbers the nodes that remain.
    fn finish(self) -> Model {
        let loom = self.design.loom;
        let pins = loom.pins.len();
        let count = pins + 1 + 2;
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
        let mut groups = UnionFind::new(count);
        for e in &elements {
            groups.union(e.a, e.b);
        }
        let mut number: Vec<Option<usize>> = vec![None; count];
        number[0] = Some(0);
        let mut nodes = 1;
        for (n, place) in number.iter_mut().enumerate().skip(1) {
            if n != node(minus) && groups.equiv(n, 0) {
                *place = Some(nodes);
                nodes += 1;
            }
        }
        number[node(minus)] = Some(0);
        let kept = |e: Element| {
            let (a, b) = (number[e.a]?, number[e.b]?);
            Some(Element { a, b, ..e })
        };
        Model {
            nodes,
            elements: elements.into_iter().filter_map(kept).collect(),
            node_of_pin: number[1..=pins].to_vec(),
            amps: Vec::new(),
        }
    }
}

pub(crate) fn chemistry(c: Chemistry) -> battery::Chemistry {
    match c {
        Chemistry::Flooded => battery::Chemistry::Flooded,
        Chemistry::Agm => battery::Chemistry::Agm,
        Chemistry::Gel => battery::Chemistry::Gel,
        Chemistry::LithiumIron => battery::Chemistry::LithiumIron,
    }
}

/// Temperature of a coil: its place's, and its own rise once it has been on.
pub(crate) fn coil_kelvin(d: &Design, supply: SupplyState, place: loom::PlaceId, on: bool) -> f64 {
    d.around(supply, place) + if on { coil::RISE_AT_NOMINAL_K } else { 0.0 }
}

/// A law with a part of its current.
fn scaled(law: Law, part: f64) -> Law {
    match law {
        Law::Resistor { ohms } => Law::Resistor { ohms: ohms / part },
        Law::Tungsten {
            rated_volts,
            rated_amps,
        } => Law::Tungsten {
            rated_volts,
            rated_amps: rated_amps * part,
        },
        Law::ConstantPower {
            watts,
            lowest_volts,
            highest_volts,
        } => Law::ConstantPower {
            watts: watts * part,
            lowest_volts,
            highest_volts,
        },
        Law::Motor {
            rated_volts,
            rated_amps,
            armature_ohms,
        } => Law::Motor {
            rated_volts,
            rated_amps: rated_amps * part,
            armature_ohms: armature_ohms / part,
        },
        other => other,
    }
}

/// Resistance of a coil with what stands across it, Ω.
pub(crate) fn coil_ohms(kind: &stock::RelayKind, kelvin: f64) -> f64 {
    let coil = coil::resistance_at(kind.coil_ohms, conductor::T20, kelvin);
    match kind.suppression_ohms {
        Some(r) => coil * r / (coil + r),
        None => coil,
    }
}
