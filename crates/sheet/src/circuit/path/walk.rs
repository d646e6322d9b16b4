//! The walk: from a source pin along wires, through parts, down to earth. A splice on the way to
//! several loads opens new columns to the right; a column that reaches a splice already walked ends there.

mod rank;
use super::{Column, Face, Foot, Item, Stand, Top};
use loom::{Loom, PartKind, PinId, WireId};
use std::collections::BTreeSet;

/// Where the walk of a column starts.
#[derive(Clone, Copy, Debug)]
pub(super) struct Entry {
    /// The source's pin.
    pub source: PinId,
    /// The wire that leaves it; none when the first part is plugged onto it.
    pub wire: Option<WireId>,
    /// The first pin reached.
    pub to: PinId,
}

/// Walks one circuit, or the supply side.
pub(super) struct Walker<'a> {
    loom: &'a Loom,
    circuit: Option<usize>,
    met: BTreeSet<PinId>,
    /// The columns walked so far.
    pub columns: Vec<Column>,
}

impl<'a> Walker<'a> {
    pub fn new(loom: &'a Loom, circuit: Option<usize>) -> Self {
        Self {
            loom,
            circuit,
            met: BTreeSet::new(),
            columns: Vec::new(),
        }
    }

    /// The ways into this circuit: what is plugged onto a source, and wires that leave one.
    pub fn entries(&self) -> Vec<Entry> {
        let loom = self.loom;
        let plugged = loom.mates.iter().filter(|m| {
            let far = loom.part_of(m.far);
            matches!(far.kind, PartKind::Fuse(_)) && far.circuit == self.circuit
        });
        let plugged = plugged.map(|m| Entry {
            source: m.live,
            wire: None,
            to: m.far,
        });
        let wired = loom.each_wire().filter(|(_, w)| {
            let from = &loom.part_of(w.from).kind;
            let source = matches!(
                from,
                PartKind::Battery { .. }
                    | PartKind::Feed(_)
                    | PartKind::Signal(_)
                    | PartKind::Earth(_)
            );
            w.circuit == self.circuit && source
        });
        let wired = wired.map(|(id, w)| Entry {
            source: w.from,
            wire: Some(id),
            to: w.to,
        });
        plugged.chain(wired).collect()
    }

    /// Walks a column from an entry.
    pub fn walk(&mut self, entry: Entry, top: Top) {
        let at = self.columns.len();
        self.columns.push(Column::new(top));
        self.columns[at].items.extend(entry.wire.map(Item::Wire));
        self.arrive(at, entry.to);
    }

    fn put(&mut self, at: usize, item: Item) {
        self.columns[at].items.push(item);
    }

    fn end(&mut self, at: usize, foot: Foot) {
        self.columns[at].foot = foot;
    }

    /// The column has come to a pin from outside.
    fn arrive(&mut self, at: usize, pin: PinId) {
        let part = self.loom.part_of(pin);
        match &part.kind {
            PartKind::Battery { .. }
            | PartKind::Earth(_)
            | PartKind::Feed(_)
            | PartKind::Signal(_) => {
                self.end(at, Foot::Earth(pin));
            }
            PartKind::Box(_) => self.end(at, Foot::Bus(pin)),
            PartKind::Splice if self.met.insert(pin) => {
                self.put(at, Item::Node(pin));
                self.leave(at, pin);
            }
            PartKind::Splice => self.end(at, Foot::Join(pin)),
            PartKind::Connector { .. } => self.plug(at, pin),
            PartKind::Fuse(_) => self.through(at, Face::Fuse, pin, &["1", "2"]),
            PartKind::Load(_) => self.through(at, Face::Load, pin, &["+", "31"]),
            PartKind::Switch(s) if s.positions == 3 => self.throw(at, pin),
            PartKind::Switch(_) => self.through(at, Face::Switch, pin, &["82", "82a"]),
            PartKind::Relay(r) => self.relay(at, pin, r.contact),
            PartKind::Cutout(_) => self.cutout(at, pin),
        }
    }

    /// Through a part from one of its pins to the other.
    fn through(&mut self, at: usize, face: Face, upper: PinId, pins: &[&str; 2]) {
        let part = self.loom.pin(upper).part;
        let far = if self.loom.pin(upper).terminal == pins[0] {
            pins[1]
        } else {
            pins[0]
        };
        let Some(lower) = self.loom.terminal(part, far) else {
            return;
        };
        self.put(
            at,
            Item::Part(Stand {
                part,
                face,
                upper,
                lower,
            }),
        );
        self.leave(at, lower);
    }

    fn relay(&mut self, at: usize, pin: PinId, contact: &str) {
        if self.loom.pin(pin).terminal != "30" {
            return self.through(at, Face::Coil, pin, &["86", "85"]);
        }
        // A wire that leaves from the same terminal feeds the coil.
        let bridges = self.wires_from(pin);
        if !bridges.is_empty() {
            self.put(at, Item::Node(pin));
        }
        self.through(at, Face::Contact, pin, &["30", contact]);
        for wire in bridges {
            self.branch(pin, wire);
        }
    }

    /// A cut-out: its thin earth wire goes a way of its own, from a column that starts at the part.
    fn cutout(&mut self, at: usize, pin: PinId) {
        let part = self.loom.pin(pin).part;
        let Some(earth) = self.loom.terminal(part, "31") else {
            return;
        };
        self.through(at, Face::Cutout { earth }, pin, &["30", "87"]);
        for wire in self.wires_from(earth) {
            self.branch(earth, wire);
        }
    }

    /// A three-position switch: the live input carries on, the signal's ends there.
    fn throw(&mut self, at: usize, pin: PinId) {
        if self.loom.pin(pin).terminal == "83a" {
            return self.end(at, Foot::Throw(pin));
        }
        self.through(at, Face::Throw, pin, &["83b", "83"]);
    }

    /// Through a pair of connector halves.
    fn plug(&mut self, at: usize, pin: PinId) {
        let Some((partner, socket_above)) = self.partner(pin) else {
            return;
        };
        let part = self.loom.pin(pin).part;
        let face = Face::Connector { socket_above };
        self.put(
            at,
            Item::Part(Stand {
                part,
                face,
                upper: pin,
                lower: partner,
            }),
        );
        if self.loom.pin(partner).part == part {
            self.leave(at, partner);
        } else {
            self.arrive(at, partner);
        }
    }

    /// The pin that this one is plugged into, and whether this one is the socket.
    fn partner(&self, pin: PinId) -> Option<(PinId, bool)> {
        self.loom.mates.iter().find_map(|m| match pin {
            p if p == m.live => Some((m.far, true)),
            p if p == m.far => Some((m.live, false)),
            _ => None,
        })
    }

    fn wires_from(&self, pin: PinId) -> Vec<WireId> {
        let mine = self
            .loom
            .each_wire()
            .filter(|(_, w)| w.from == pin && w.circuit == self.circuit);
        mine.map(|(id, _)| id).collect()
    }

    fn branch(&mut self, pin: PinId, wire: WireId) {
        let at = self.columns.len();
        self.columns.push(Column::new(Top::Branch(pin)));
        self.put(at, Item::Wire(wire));
        self.arrive(at, self.loom.wire(wire).to);
    }

    /// The column leaves a part by this pin.
    fn leave(&mut self, at: usize, pin: PinId) {
        let mut pin = pin;
        if let (PartKind::Load(_), Some((partner, socket_above))) =
            (&self.loom.part_of(pin).kind, self.partner(pin))
        {
            let part = self.loom.pin(partner).part;
            let face = Face::Connector { socket_above };
            self.put(
                at,
                Item::Part(Stand {
                    part,
                    face,
                    upper: pin,
                    lower: partner,
                }),
            );
            pin = partner;
        }
        let mut wires = self.wires_from(pin);
        wires.sort_by_key(|w| self.rank(*w));
        if wires.len() > 1 && self.columns[at].items.last() != Some(&Item::Node(pin)) {
            self.put(at, Item::Node(pin));
        }
        let Some((first, others)) = wires.split_first() else {
            return;
        };
        self.put(at, Item::Wire(*first));
        self.arrive(at, self.loom.wire(*first).to);
        for wire in others {
            self.branch(pin, *wire);
        }
    }
}
