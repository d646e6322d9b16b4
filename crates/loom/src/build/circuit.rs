//! One circuit: from its source through fuse, relay or switch to its loads, and from them to earth.

use super::Builder;
use super::run::Trace;
use super::tree::{Flow, Leaf};
use crate::{
    FusePart, LoadPart, LoomCircuit, PartId, PartKind, PinId, RelayPart, Role, SwitchPart,
};
use finding::Span;
use plan::{Circuit, Live, Load, LoadKind, Rated, Source, SwitchWish};
use quantity::{ElectricPotential, Quantity, metres, volts};

/// The relay taken when the plan names none.
const USUAL_RELAY: &str = "mini";

impl Builder<'_> {
    /// Adds a circuit of the plan.
    pub(super) fn add_circuit(&mut self, index: usize) {
        let plan = self.plan;
        let c = &plan.circuits[index];
        let Some((mut out, fuse)) = self.source(index) else {
            return;
        };
        let supply = self.trace(index, Role::Supply, fuse);
        let mut made = LoomCircuit {
            name: c.name.value.clone(),
            number: c.number,
            fuse,
            relay: None,
            conditions: Vec::new(),
            switch: None,
            cutout: None,
            only: self.signals_of(&c.only),
            unless: self.signals_of(&c.unless),
            auto: None,
            ignition_on_auto: false,
            ignition: c.live.is_some_and(|l| l.value == Live::Ignition),
            loads: Vec::new(),
            drop: c.drop.map_or(plan.job.drop, |d| d.value).si(),
        };
        made.only.extend(self.signals_of(c.trigger.as_slice()));
        made.auto = c
            .switch
            .as_ref()
            .and_then(|s| self.signals_of(s.auto.as_slice()).pop());
        if let Some(wish) = &c.cutout {
            let cutout = self.add_cutout(index, wish, supply, out);
            made.cutout = Some(cutout);
            out = self.pin(cutout, "87");
        }
        if let Some(wish) = &c.isolator {
            out = self.add_isolator(index, wish, supply, out);
        }
        let switch = c.switch.as_ref().map(|s| self.add_switch(index, s));
        made.switch = switch;
        let root = if let Some(wish) = &c.relay {
            let kind = wish.kind.as_ref().map_or(USUAL_RELAY, |k| k.value.as_str());
            let place = self.place(&wish.place.value);
            let relay = self.add_relay(
                index,
                (format!("K{}", c.number), "87"),
                kind,
                (place, wish.place.span),
            );
            made.relay = Some(relay);
            let contact = self.pin(relay, "30");
            self.run(out, contact, supply);
            self.add_coil(index, relay, switch, &mut made);
            self.pin(relay, "87")
        } else if let Some(switch) = switch {
            let input = self.pin(switch, "82");
            self.run(out, input, supply);
            self.pin(switch, "82a")
        } else {
            out
        };
        self.add_loads(index, root, fuse, &mut made);
        self.loom.circuits.push(made);
    }

    pub(super) fn trace(&self, index: usize, role: Role, fuse: Option<PartId>) -> Trace {
        Trace {
            role,
            circuit: Some(index),
            number: self.plan.circuits[index].number,
            fuse,
            bounded: false,
        }
    }

    fn signals_of(&self, names: &[plan::Name]) -> Vec<PartId> {
        names
            .iter()
            .filter_map(|n| self.signals.get(&n.value).copied())
            .collect()
    }

    /// The pin that power comes from, and the fuse before it.
    fn source(&mut self, index: usize) -> Option<(PinId, Option<PartId>)> {
        let plan = self.plan;
        let c = &plan.circuits[index];
        match &c.source {
            Source::Feed { name } => {
                let feed = *self.feeds.get(&name.value)?;
                Some(self.tap(feed, &c.fuse, Some(index), &c.name.value, c.number))
            }
            Source::Box { name, way } => {
                let (part, free) = self.boxes.get_mut(&name.value)?;
                let part = *part;
                let way = match way {
                    Some(w) => w.value,
                    None if free.is_empty() => return None,
                    None => free.remove(0),
                };
                let fuse = self.add_way(index, part, way);
                let bus = self.loom.part(part).pins[0];
                let before = self.pin(fuse, "1");
                self.mate_bus(bus, before);
                Some((self.pin(fuse, "2"), Some(fuse)))
            }
        }
    }

    fn add_way(&mut self, index: usize, box_part: PartId, way: u32) -> PartId {
        let plan = self.plan;
        let c = &plan.circuits[index];
        let of_box = plan
            .boxes
            .iter()
            .find(|b| b.name.value == self.loom.part(box_part).label);
        let kind = c
            .fuse
            .kind
            .clone()
            .or_else(|| of_box.and_then(|b| b.kind.clone()));
        let fuse = PartKind::Fuse(FusePart {
            way: Some((box_part, way)),
            kind,
            rating: c.fuse.rating,
            from_source: None,
            sheathed: false,
            at_battery: false,
        });
        let at = (
            self.place_of(box_part),
            Some(index),
            c.fuse.span.unwrap_or(c.span),
        );
        let part = self.add_part(
            format!("F{}", c.number),
            format!("{} fuse", c.name.value),
            fuse,
            at,
        );
        self.add_pin(part, "1");
        self.add_pin(part, "2");
        part
    }

    fn add_switch(&mut self, index: usize, wish: &SwitchWish) -> PartId {
        let c = &self.plan.circuits[index];
        let three = wish.auto.is_some();
        let kind = PartKind::Switch(SwitchPart {
            positions: if three { 3 } else { 2 },
            breaks: c
                .relay
                .as_ref()
                .map(|_| wish.breaks.map_or(plan::SwitchBreaks::Supply, |b| b.value)),
            kind: wish.kind.clone(),
            rating: wish.rating.map(|r| r.value),
            bare: wish.bare,
            isolator: false,
        });
        let name = format!("S{}", c.number);
        let label = format!("{} switch", c.name.value);
        let at = (self.place(&wish.place.value), Some(index), wish.span);
        let part = self.add_part(name, label, kind, at);
        for terminal in if three {
            &["83a", "83b", "83"][..]
        } else {
            &["82", "82a"][..]
        } {
            self.add_pin(part, terminal);
        }
        part
    }

    /// A relay with the pins that its contact needs.
    pub(super) fn add_relay(
        &mut self,
        index: usize,
        (name, contact): (String, &'static str),
        kind: &str,
        (place, span): (crate::PlaceId, Span),
    ) -> PartId {
        let plan = self.plan;
        let c = &plan.circuits[index];
        if self.stock.relay(kind, plan.supply.system.volts()).is_none() {
            self.error(
                "unknown-relay",
                span,
                format!(
                    "stock has no relay “{kind}” for {} V",
                    plan.supply.system.nominal()
                ),
                "see `spurline stock relays` for the kinds there are, or add yours to a stock file",
            );
        }
        let condition = name.contains('.');
        let label = format!(
            "{} {}",
            c.name.value,
            if condition {
                "condition relay"
            } else {
                "relay"
            }
        );
        let part = PartKind::Relay(RelayPart {
            kind: kind.to_owned(),
            contact,
            condition,
            bare: c.relay.as_ref().is_some_and(|r| r.bare),
        });
        let made = self.add_part(name, label, part, (place, Some(index), span));
        for terminal in ["30", contact, "86", "85"] {
            self.add_pin(made, terminal);
        }
        made
    }

    /// The loads, the wires to them and the wires from them to earth.
    fn add_loads(
        &mut self,
        index: usize,
        root: PinId,
        fuse: Option<PartId>,
        made: &mut LoomCircuit,
    ) {
        let plan = self.plan;
        let c = &plan.circuits[index];
        let mut supplied = Vec::new();
        let mut earthed: Vec<(&str, Vec<Leaf>)> = Vec::new();
        for load in &c.loads {
            for n in 1..=load.count {
                let part = self.add_load(c, index, load, n);
                made.loads.push(part);
                let [plus, minus] = self.ends_of_load(part, load, c.number);
                supplied.push(plus);
                let earth = load.earth.as_ref().unwrap_or(&c.earth).value.as_str();
                match earthed.iter_mut().find(|(name, _)| *name == earth) {
                    Some((_, leaves)) => leaves.push(minus),
                    None => earthed.push((earth, vec![minus])),
                }
            }
        }
        let switched = self.trace(index, Role::Switched, fuse);
        self.tree(root, &supplied, Flow::Out, switched);
        let back = Trace {
            role: Role::Earth,
            ..switched
        };
        for (earth, leaves) in earthed {
            let pin = self.earth(earth);
            self.tree(pin, &leaves, Flow::Back, back);
        }
    }

    fn add_load(&mut self, c: &Circuit, index: usize, load: &Load, n: u32) -> PartId {
        let letter = match load.kind {
            LoadKind::Lamp(_) | LoadKind::Heater => "E",
            LoadKind::Motor => "M",
            LoadKind::Electronics => "A",
            LoadKind::Socket => "X",
        };
        let alike =
            |l: &Load| std::mem::discriminant(&l.kind) == std::mem::discriminant(&load.kind);
        let many: u32 = c.loads.iter().filter(|l| alike(l)).map(|l| l.count).sum();
        let plain =
            many == 1 && letter != "X" && !c.loads.iter().any(|l| l.kind == LoadKind::Heater);
        let name = if plain {
            format!("{letter}{}", c.number)
        } else {
            self.next_name(c.number, letter)
        };
        let base = load
            .name
            .as_ref()
            .map_or_else(|| label_of(c, load), |n| n.value.clone());
        let label = if load.count > 1 {
            format!("{base} {n}")
        } else {
            base
        };
        let volts = self.plan.supply.system.volts();
        let class = load.class.as_ref();
        let class = class.and_then(|c| self.stock.supply_class(&c.value, volts));
        let kind = PartKind::Load(LoadPart {
            kind: load.kind,
            rated: load.rated,
            at: self.rated_volts(load),
            start: load.start,
            lowest: load.lowest.or(class.map(|c| c.lowest)),
            highest: load.highest.or(class.map(|c| c.highest)),
            drop: load.drop.map_or_else(
                || c.drop.map_or(self.plan.job.drop, |d| d.value),
                |d| d.value,
            ),
            hazard: load.hazard,
            duty: load.duty,
        });
        let at = (self.place(&load.place.value), Some(index), load.span);
        let part = self.add_part(name, label, kind, at);
        self.add_pin(part, "+");
        self.add_pin(part, "31");
        part
    }

    /// The voltage that a load's rating holds at: as printed, or assumed on the side of more current.
    fn rated_volts(&mut self, load: &Load) -> ElectricPotential {
        if let Some(said) = load.at {
            return said;
        }
        let per_12 = self
            .assumed
            .number("rated volts", &mut self.loom.assumptions);
        let nominal = self.plan.supply.system.nominal();
        let in_watts = matches!(load.rated, Rated::Power(_));
        match load.kind {
            LoadKind::Heater | LoadKind::Motor if in_watts => volts(nominal),
            _ => volts(nominal / 12.0 * per_12),
        }
    }

    /// Where the wires of a load end: its own pins, or the connector before them.
    fn ends_of_load(&mut self, part: PartId, load: &Load, number: u32) -> [Leaf; 2] {
        let place = self.place_of(part);
        let tail = match load.tail {
            Some(t) => t,
            None if load.unplug => metres(0.0),
            None => self.assumed.length("tail", &mut self.loom.assumptions),
        };
        let pins = ["+", "31"].map(|t| self.pin(part, t));
        let ends = if load.unplug {
            let name = self.next_name(number, "X");
            let label = format!("{} connector", self.loom.part(part).label);
            let circuit = self.loom.part(part).circuit;
            let kind = PartKind::Connector { unplugs_load: true };
            let connector = self.add_part(name, label, kind, (place, circuit, load.span));
            let halves = ["1", "2"].map(|t| self.add_pin(connector, t));
            for (half, pin) in halves.into_iter().zip(pins) {
                self.mate(half, pin, place);
            }
            halves
        } else {
            pins
        };
        ends.map(|pin| Leaf {
            pin,
            place,
            tail,
            span: load.span,
        })
    }
}

/// What a load is called that has no name of its own: by circuit and word, each said once.
fn label_of(c: &Circuit, load: &Load) -> String {
    let circuit = &c.name.value;
    let last = load.word.split_whitespace().last().unwrap_or(&load.word);
    let said = circuit
        .split_whitespace()
        .any(|w| w.eq_ignore_ascii_case(last));
    if said {
        circuit.clone()
    } else {
        format!("{circuit} {}", load.word)
    }
}
