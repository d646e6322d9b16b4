//! The supply side: places, battery, feeds, signals, boxes with their feeders, and the wires back
//! to the battery.

use super::Builder;
use super::run::Trace;
use crate::{
    Assumption, BoxPart, EarthPart, FeedPart, FusePart, LoomPanel, LoomPlace, LoomStretch, PartId,
    PartKind, PinId, PlaceId, Role, SignalPart, StretchId,
};
use finding::{At, Basis, Finding, Span, Weight};
use plan::{EarthReturn, FeedKind, MainFuse, Surface, Zone};
use quantity::Quantity;

/// What the plan calls the battery's own post.
const BATTERY: &str = "battery";

impl Builder<'_> {
    /// Places and stretches, with heat said or assumed.
    pub(super) fn add_places(&mut self) {
        for p in &self.plan.places {
            let (heat, wet, assumption) = self.assumed.zone(p.zone, &p.name.value);
            if p.heat.is_none() {
                self.loom.assumptions.push(assumption);
            }
            self.loom.places.push(LoomPlace {
                name: p.name.value.clone(),
                zone: p.zone,
                heat: p.heat.unwrap_or(heat),
                wet: p.wet.unwrap_or(wet),
                comes_out: p.comes_out,
                at: p.at,
            });
        }
        for s in &self.plan.stretches {
            let ends = [
                self.place(&s.between[0].value),
                self.place(&s.between[1].value),
            ];
            let [a, b] = ends.map(|e| self.loom.place(e));
            let hotter = if a.heat.si() >= b.heat.si() {
                a.heat
            } else {
                b.heat
            };
            let engine =
                |z: Zone| matches!(z, Zone::EngineBay | Zone::EngineSpace | Zone::NearExhaust);
            let engine_space = engine(a.zone) || engine(b.zone);
            let panel = s.through.as_ref().map(|p| {
                let assumed = &mut self.loom.assumptions;
                let thickness = p
                    .thickness
                    .unwrap_or_else(|| self.assumed.length("panel thickness", assumed));
                LoomPanel {
                    name: p.name.clone(),
                    thickness,
                    grommet: p.grommet,
                }
            });
            if s.guessed {
                let [a, b] = [&s.between[0].value, &s.between[1].value];
                self.loom.assumptions.push(Assumption {
                    what: format!("length from {a} to {b}"),
                    value: s.length.show(),
                    source: "a guess in the plan".to_owned(),
                    basis: Basis::User,
                    set: format!("length of the stretch “{a}”–“{b}”, measured, without guessed"),
                });
            }
            self.loom.stretches.push(LoomStretch {
                ends,
                length: s.length,
                guessed: s.guessed,
                panel,
                sleeve: s.sleeve,
                heat: s.heat.unwrap_or(hotter),
                engine_space,
                wires: Vec::new(),
            });
        }
        self.note_circle();
    }

    /// Where stretches form a circle the loom takes the shorter way; the installer should know.
    fn note_circle(&mut self) {
        let Some(circle) = self.ways.circle() else {
            return;
        };
        let names: Vec<String> = circle
            .iter()
            .map(|p| self.loom.place(*p).name.clone())
            .collect();
        self.errors.push(Finding {
            id: "two-ways",
            weight: Weight::Note,
            says: format!("the stretches form a circle: {}", names.join(" – ")),
            at: At::Names(names),
            mend: "wires take the shorter way; give a wire its route = [\"…\"] to send it the other way".into(),
            source: "routes are shortest ways over the stretches".into(),
        });
    }

    /// Battery, feeds and signals.
    pub(super) fn add_supply(&mut self) {
        let b = &self.plan.supply.battery;
        let place = self.place(&b.place.value);
        let battery = self.add_part(
            "G1".into(),
            BATTERY.into(),
            PartKind::Battery { cover: b.cover },
            (place, None, b.span),
        );
        self.add_pin(battery, "30");
        self.add_pin(battery, "31");
        self.feeds.insert(BATTERY.into(), battery);
        for f in &self.plan.feeds {
            let place = self.place(&f.place.value);
            let resistance = match f.resistance {
                Some(r) => r,
                None if f.kind == FeedKind::BatteryPost => quantity::ohms(0.0),
                None => self
                    .assumed
                    .resistance("feed resistance", &mut self.loom.assumptions),
            };
            let kind = PartKind::Feed(FeedPart {
                kind: f.kind,
                fused: f.fused.as_ref().map(|a| a.value),
                gives: f.gives,
                resistance,
                cover: f.cover,
            });
            let name = self.next_name(0, "X");
            let part = self.add_part(name, f.name.value.clone(), kind, (place, None, f.span));
            self.add_pin(
                part,
                if f.kind == FeedKind::IgnitionTap {
                    "15"
                } else {
                    "30"
                },
            );
            self.feeds.insert(f.name.value.clone(), part);
        }
        for s in &self.plan.signals {
            let place = self.place(&s.place.value);
            let name = self.next_name(0, "X");
            let kind = PartKind::Signal(SignalPart {
                gives: s.gives,
                fused: s.fused,
                when: s.when.clone(),
                lamp: s.lamp,
            });
            let part = self.add_part(name, s.name.value.clone(), kind, (place, None, s.span));
            self.add_pin(part, "1");
            self.signals.insert(s.name.value.clone(), part);
        }
    }

    /// A box, its main fuse and its feeder.
    pub(super) fn add_box(&mut self, index: usize) {
        let b = &self.plan.boxes[index];
        let Some(feed) = self.feeds.get(&b.feed.value).copied() else {
            return;
        };
        let (out, main) = self.tap(feed, &b.fuse, None, &b.name.value, 0);
        let place = self.place(&b.place.value);
        let name = self.next_name(0, "A");
        let kind = PartKind::Box(BoxPart {
            ways: b.ways,
            main,
            spare: b.spare,
            cover: b.cover,
        });
        let part = self.add_part(name, b.name.value.clone(), kind, (place, None, b.span));
        let bus = self.add_pin(part, "30");
        let trace = Trace {
            role: if main.is_some() {
                Role::Feeder
            } else {
                Role::Lead
            },
            circuit: None,
            number: 0,
            fuse: main,
            bounded: false,
        };
        self.run(out, bus, trace);
        let taken: Vec<u32> = self
            .plan
            .circuits
            .iter()
            .filter_map(|c| match &c.source {
                plan::Source::Box { name, way } if name.value == b.name.value => {
                    way.map(|w| w.value)
                }
                _ => None,
            })
            .collect();
        let free = (1..=b.ways).filter(|w| !taken.contains(w)).collect();
        self.boxes.insert(b.name.value.clone(), (part, free));
    }

    /// Takes power from a feed through its fuse, if one is fitted: the pin to go on from, and the fuse.
    pub(super) fn tap(
        &mut self,
        feed: PartId,
        wish: &MainFuse,
        circuit: Option<usize>,
        label: &str,
        number: u32,
    ) -> (PinId, Option<PartId>) {
        let source = self.loom.part(feed).pins[0];
        if !wish.fitted {
            return (source, None);
        }
        let place = self.loom.part(feed).place;
        let (kind, fused) = match &self.loom.part(feed).kind {
            PartKind::Feed(f) => (f.kind, f.fused),
            _ => (FeedKind::BatteryPost, None),
        };
        let feed_span = self.loom.part(feed).span;
        let spare = kind == FeedKind::SpareWay;
        let allowed = fused
            .filter(|_| spare)
            .map(|a| finding::Spanned::new(a, feed_span));
        // A spare way and an ignition tap hold the fuse themselves: no wire lies before it.
        let in_the_box = matches!(kind, FeedKind::SpareWay | FeedKind::IgnitionTap);
        let within = if in_the_box {
            None
        } else {
            Some(match wish.within {
                Some(w) => w,
                None => self
                    .assumed
                    .length("fuse distance", &mut self.loom.assumptions),
            })
        };
        let name = if circuit.is_some() {
            format!("F{number}")
        } else {
            self.next_name(0, "F")
        };
        let part = PartKind::Fuse(FusePart {
            way: None,
            kind: wish.kind.clone(),
            // A spare way takes the fuse that the vehicle allows it.
            rating: wish.rating.or(allowed),
            from_source: within,
            sheathed: wish.sheathed,
            at_battery: kind == FeedKind::BatteryPost,
        });
        let span = wish.span.unwrap_or(self.loom.part(feed).span);
        let fuse = self.add_part(name, format!("{label} fuse"), part, (place, circuit, span));
        let before = self.add_pin(fuse, "1");
        let after = self.add_pin(fuse, "2");
        let Some(within) = within else {
            self.mate_bus(source, before);
            return (after, Some(fuse));
        };
        let lead = Trace {
            role: Role::Lead,
            circuit,
            number,
            fuse: None,
            bounded: false,
        };
        self.run(source, before, lead);
        // The lead is as long as the fuse is away, not the allowance of an ordinary wire.
        if let Some(w) = self.loom.wires.last_mut() {
            w.length = within;
            w.cut = within;
            // The sleeve that lets the fuse sit further away is bought and put on like any other.
            w.set.sheathed = wish.sheathed;
        }
        (after, Some(fuse))
    }

    /// Joins two pins inside a part of the vehicle or a box, without a wire.
    pub(super) fn mate_bus(&mut self, live: PinId, far: PinId) {
        self.loom.mates.push(crate::Mate {
            live,
            far,
            joint: "fuse contact",
        });
    }

    /// The earth of this name: an `[[earth]]`, a place (then a body earth is made there), or the
    /// battery's negative post.
    pub(super) fn earth(&mut self, name: &str) -> PinId {
        if name == BATTERY && !self.plan.earths.iter().any(|e| e.name.value == BATTERY) {
            let battery = self.feeds[BATTERY];
            return self.pin(battery, "31");
        }
        if let Some(part) = self.earths.get(name) {
            return self.loom.part(*part).pins[0];
        }
        let said = self.plan.earths.iter().find(|e| e.name.value == name);
        let place = self.place(said.map_or(name, |e| &e.place.value));
        let kind = PartKind::Earth(EarthPart {
            to: said.map_or(EarthReturn::Body, |e| e.to),
            surface: said.map_or(Surface::Bare, |e| e.surface.value),
        });
        let span = said.map_or(Span::default(), |e| e.surface.span);
        let n = self.earths.len() + 1;
        let label = if said.is_some() {
            name.to_owned()
        } else {
            format!("earth at {name}")
        };
        let part = self.add_part(format!("XE{n}"), label, kind, (place, None, span));
        self.earths.insert(name.to_owned(), part);
        self.add_pin(part, "31")
    }

    /// The wire back from each earth that returns to the battery.
    pub(super) fn add_returns(&mut self) {
        let battery = self.feeds[BATTERY];
        let post = self.pin(battery, "31");
        let studs: Vec<PinId> = self
            .loom
            .parts
            .iter()
            .filter(|p| matches!(&p.kind, PartKind::Earth(e) if e.to == EarthReturn::Battery))
            .map(|p| p.pins[0])
            .collect();
        for stud in studs {
            let trace = Trace {
                role: Role::Return,
                circuit: None,
                number: 0,
                fuse: None,
                bounded: false,
            };
            self.run(stud, post, trace);
        }
    }

    /// Lists in each stretch the wires that lie in it.
    pub(super) fn lay_bundles(&mut self) {
        for s in &mut self.loom.stretches {
            s.wires.clear();
        }
        let laid: Vec<(crate::WireId, Vec<StretchId>)> = self
            .loom
            .each_wire()
            .map(|(id, w)| (id, w.stretches.clone()))
            .collect();
        for (wire, stretches) in laid {
            for s in stretches {
                self.loom.stretches[s.0 as usize].wires.push(wire);
            }
        }
    }

    /// The index of a place, for parts that stand where another part stands.
    pub(super) fn place_of(&self, part: PartId) -> PlaceId {
        self.loom.part(part).place
    }
}
