//! One run of wire between two pins: its route, its cut length, its joints, and the connectors it
//! passes where something must come out.

use super::Builder;
use super::ways::Way;
use crate::{Colour, Mate, PartId, PartKind, PinId, PlaceId, Role, Wire, WireSet};
use finding::Span;
use plan::{EarthReturn, FeedKind, Zone};
use quantity::{Length, Quantity, metres};

/// What the wires of a run have in common.
#[derive(Clone, Copy, Debug)]
pub(super) struct Trace {
    pub role: Role,
    pub circuit: Option<usize>,
    /// Number that names start with.
    pub number: u32,
    pub fuse: Option<PartId>,
    pub bounded: bool,
}

/// Cut lengths are rounded up to whole centimetres: nobody cuts finer.
fn round_up(length: f64) -> Length {
    metres((length * 100.0 - 1e-9).ceil() / 100.0)
}

impl Builder<'_> {
    /// The shortest way between two places, or an error at `span`.
    pub(super) fn way(&mut self, from: PlaceId, to: PlaceId, span: Span) -> Option<Way> {
        let way = self.ways.shortest(from, to);
        if way.is_none() {
            let (a, b) = (
                self.loom.place(from).name.clone(),
                self.loom.place(to).name.clone(),
            );
            self.error(
                "unreachable",
                span,
                format!("no stretch leads from “{a}” to “{b}”"),
                "add the [[stretch]] that is missing between them",
            );
        }
        way
    }

    /// Runs wire from one pin to another by the shortest way.
    pub(super) fn run(&mut self, from: PinId, to: PinId, trace: Trace) {
        let (a, b) = (self.loom.part_of(from).place, self.loom.part_of(to).place);
        let span = self.loom.part_of(to).span;
        if let Some(way) = self.way(a, b, span) {
            self.run_along(from, to, &way, metres(0.0), trace);
        }
    }

    /// Runs wire along a given way, through a connector at an end whose part must come out.
    pub(super) fn run_along(
        &mut self,
        from: PinId,
        to: PinId,
        way: &Way,
        mut tail: Length,
        trace: Trace,
    ) {
        // Two parts of one panel stay joined when it comes out; anything else must part there.
        let parts = !way.stretches.is_empty() || self.comes_out(from) != self.comes_out(to);
        let mut start = from;
        if parts && self.comes_out(from) {
            let (inside, outside) = self.cavity(way.places[0]);
            let stub = Way {
                places: vec![way.places[0]],
                stretches: Vec::new(),
            };
            // A load's own lead is at the load.
            let lead = match &self.loom.part_of(from).kind {
                PartKind::Load(_) => std::mem::replace(&mut tail, metres(0.0)),
                _ => metres(0.0),
            };
            self.wire(from, inside, &stub, lead, trace);
            start = outside;
        }
        if parts && self.comes_out(to) {
            let last = *way.places.last().unwrap_or(&way.places[0]);
            let (inside, outside) = self.cavity(last);
            self.wire(start, outside, way, metres(0.0), trace);
            let stub = Way {
                places: vec![last],
                stretches: Vec::new(),
            };
            self.wire(inside, to, &stub, tail, trace);
        } else {
            self.wire(start, to, way, tail, trace);
        }
    }

    /// Whether a part sits in what must come out. The vehicle's own feeds, signals and earths stay,
    /// and so do the loom's splices and fuses in the line.
    fn comes_out(&self, pin: PinId) -> bool {
        let part = self.loom.part_of(pin);
        let movable = match &part.kind {
            PartKind::Relay(_)
            | PartKind::Switch(_)
            | PartKind::Cutout(_)
            | PartKind::Load(_)
            | PartKind::Box(_) => true,
            PartKind::Fuse(f) => f.way.is_some(),
            _ => false,
        };
        movable && self.loom.place(part.place).comes_out
    }

    /// The next free cavity of the connector at a place: the pins of the half that comes out and of
    /// the half that stays.
    fn cavity(&mut self, place: PlaceId) -> (PinId, PinId) {
        let connector = match self.connectors.get(&place) {
            Some(c) => *c,
            None => {
                let name = self.next_name(0, "X");
                let at = &self.loom.place(place).name;
                let (label, span) = (
                    format!("{at} connector"),
                    self.plan.places[place.0 as usize].name.span,
                );
                let kind = PartKind::Connector {
                    unplugs_load: false,
                };
                let made = self.add_part(name, label, kind, (place, None, span));
                self.connectors.insert(place, made);
                made
            }
        };
        let n = self.loom.part(connector).pins.len() / 2 + 1;
        let outside = self.add_pin(connector, &n.to_string());
        let inside = self.add_pin(connector, &format!("{n}'"));
        self.mate(outside, inside, place);
        (inside, outside)
    }

    /// Plugs two pins together.
    pub(super) fn mate(&mut self, live: PinId, far: PinId, place: PlaceId) {
        let wet = self.loom.place(place).wet;
        self.loom.mates.push(Mate {
            live,
            far,
            joint: if wet { "mated sealed" } else { "mated open" },
        });
    }

    fn wire(&mut self, from: PinId, to: PinId, way: &Way, tail: Length, trace: Trace) {
        let name = self.next_name(trace.number, "W");
        let length: f64 = way
            .stretches
            .iter()
            .map(|s| self.loom.stretch(*s).length.si())
            .sum();
        let laid = !way.stretches.is_empty();
        let spare: f64 = [from, to]
            .map(|pin| self.beyond(pin, laid).si())
            .iter()
            .sum();
        let cut = length + 2.0 * self.plan.job.ends.si() + tail.si() + spare;
        let wire = Wire {
            name,
            from,
            to,
            places: way.places.clone(),
            stretches: way.stretches.clone(),
            length: metres(length),
            cut: round_up(cut),
            circuit: trace.circuit,
            role: trace.role,
            colour: Colour::default(),
            fuse: trace.fuse,
            bounded: trace.bounded,
            joints: [self.joints(from), self.joints(to)],
            set: WireSet::default(),
        };
        self.loom.wires.push(wire);
    }

    /// What an end gets beyond its allowance: a drip loop where a wire that comes from elsewhere could lead water into what it
    /// enters; and in the cabin enough to draw a switch's panel forward, or to reach the plug of what comes out.
    fn beyond(&mut self, pin: PinId, laid: bool) -> Length {
        let part = self.loom.part_of(pin);
        let place = self.loom.place(part.place);
        let entered = match &part.kind {
            PartKind::Fuse(f) => f.way.is_some(),
            PartKind::Connector { .. }
            | PartKind::Box(_)
            | PartKind::Relay(_)
            | PartKind::Switch(_) => true,
            PartKind::Cutout(_) => true,
            // A load's own lead is joined under a sealed barrel; the rest is bolted or crimped in the open.
            PartKind::Load(_) | PartKind::Battery { .. } | PartKind::Feed(_) => false,
            PartKind::Signal(_) | PartKind::Earth(_) | PartKind::Splice => false,
        };
        let drawn = match &part.kind {
            PartKind::Switch(_) => !place.comes_out,
            // The half that stays; the marks of the other have a prime.
            PartKind::Connector { unplugs_load } => {
                place.comes_out && !unplugs_load && !self.loom.pin(pin).terminal.ends_with('\'')
            }
            _ => false,
        };
        let at_dash = drawn && place.zone == Zone::Cabin;
        let drip = match laid && entered && place.wet {
            true => self.length(self.plan.job.drip_loop, "drip loop"),
            false => metres(0.0),
        };
        match at_dash {
            true => drip + self.length(self.plan.job.spare, "spare at the dash"),
            false => drip,
        }
    }

    /// What the plan says, or what is assumed.
    fn length(&mut self, said: Option<Length>, name: &str) -> Length {
        said.unwrap_or_else(|| self.assumed.length(name, &mut self.loom.assumptions))
    }

    /// The joints between a wire's end and the pin it serves, by stock name.
    fn joints(&self, pin: PinId) -> Vec<&'static str> {
        match &self.loom.part_of(pin).kind {
            PartKind::Battery { .. } | PartKind::Box(_) => vec!["crimp", "ring on stud"],
            PartKind::Feed(f)
                if f.kind == FeedKind::PowerStud || f.kind == FeedKind::BatteryPost =>
            {
                vec!["crimp", "ring on stud"]
            }
            PartKind::Earth(e) if e.to == EarthReturn::Body => vec!["crimp", "earth ring on body"],
            PartKind::Earth(_) => vec!["crimp", "ring on stud"],
            PartKind::Fuse(f) if f.way.is_none() => vec!["crimp"],
            PartKind::Feed(_) | PartKind::Fuse(_) | PartKind::Switch(_) | PartKind::Cutout(_) => {
                vec!["crimp", "tab"]
            }
            PartKind::Relay(_) => vec!["crimp", "relay socket contact"],
            PartKind::Splice | PartKind::Load(_) | PartKind::Signal(_) => vec!["splice crimp"],
            PartKind::Connector { .. } => vec!["crimp"],
        }
    }
}
