//! Everything that can be measured, and the minutes it takes: across each load, its way out and its way back; across whatever
//! can be reached on that way; each spot against the battery; the current by clamp; ohms with the fuse out.

use super::probe::Probe;
use super::setting::Setting;
use crate::design::Design;
use loom::{PartId, PartKind, PinId, WireId};
use std::collections::BTreeSet;

/// A probing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Test {
    /// Which setting it is made in.
    pub setting: usize,
    /// What is measured.
    pub probe: Probe,
    /// How long it takes once the setting is there, min.
    pub minutes: f64,
}

/// Reading a meter and noting it; a long lead to another place; a fuse pulled and the loads unplugged, min: our own.
const READ: f64 = 0.3;
const LONG_LEAD: f64 = 0.5;
const UNPLUG: f64 = 2.0;
/// The meter brought into the battery’s lead, and everything gone to sleep, min: our own.
const IN_LINE: f64 = 4.0;
/// A new fuse put in, and what it costs, min: our own.
const NEW_FUSE: f64 = 2.0;

/// All probings, setting by setting.
pub(super) fn all(d: &Design, settings: &[Setting]) -> Vec<Test> {
    let mut found = Vec::new();
    for (setting, s) in settings.iter().enumerate() {
        let mut here = Here {
            d,
            setting,
            probes: BTreeSet::new(),
            found: &mut found,
        };
        match s.circuit {
            Some(circuit) => here.circuit(circuit),
            None => here.whole(s.state.supply.runs()),
        }
    }
    found
}

/// How long it takes to get a tip onto a part, min; none where it can't be reached: our own.
fn reach(d: &Design, part: PartId) -> Option<f64> {
    let p = d.loom.part(part);
    Some(match &p.kind {
        PartKind::Battery { .. } => 0.2,
        PartKind::Fuse(_) => 0.3,
        PartKind::Box(_) | PartKind::Feed(_) => 0.5,
        PartKind::Earth(_) => 0.7,
        PartKind::Relay(_) | PartKind::Load(_) | PartKind::Cutout(_) | PartKind::Signal(_) => 1.0,
        PartKind::Connector { .. } => 1.5,
        PartKind::Switch(_) => 2.0,
        // Under its sleeve.
        PartKind::Splice => return None,
    })
}

struct Here<'a> {
    d: &'a Design<'a>,
    setting: usize,
    probes: BTreeSet<Probe>,
    found: &'a mut Vec<Test>,
}

impl Here<'_> {
    fn posts(&self) -> (PinId, PinId) {
        let pins = &self.d.loom.parts[0].pins;
        (pins[0], pins[1])
    }

    fn add(&mut self, probe: Probe, minutes: f64) {
        if self.probes.insert(probe) {
            self.found.push(Test {
                setting: self.setting,
                probe,
                minutes: minutes + READ,
            });
        }
    }

    fn volts(&mut self, a: PinId, b: PinId) {
        let loom = self.d.loom;
        let [pa, pb] = [a, b].map(|pin| loom.pin(pin).part);
        let (Some(one), Some(other)) = (reach(self.d, pa), reach(self.d, pb)) else {
            return;
        };
        let same = loom.part(pa).place == loom.part(pb).place;
        let minutes = match pa == pb {
            true => one,
            false => one + other + if same { 0.0 } else { LONG_LEAD },
        };
        self.add(Probe::Volts(a, b), minutes);
    }

    /// The battery at rest, or everything with the engine running.
    fn whole(&mut self, running: bool) {
        let (plus, minus) = self.posts();
        self.volts(plus, minus);
        if !running {
            self.add(Probe::Drain, IN_LINE);
        }
        for (_, p) in self.d.loom.each_part() {
            match &p.kind {
                PartKind::Box(_) => {
                    self.volts(p.pins[0], minus);
                    self.volts(plus, p.pins[0]);
                }
                PartKind::Fuse(_) if p.circuit.is_none() => {
                    self.volts(p.pins[0], p.pins[1]);
                    if !running {
                        self.add(Probe::Ohms(p.pins[1]), UNPLUG);
                    }
                }
                // What is to be dead when everything is off.
                PartKind::Load(_) if !running => self.volts(p.pins[0], p.pins[1]),
                _ => {}
            }
        }
        if running {
            let feeders = self.d.loom.each_wire().filter(|(_, w)| w.circuit.is_none());
            let feeders: Vec<WireId> = feeders.map(|(id, _)| id).collect();
            for id in feeders {
                self.add(Probe::Amps(id), 0.7);
            }
        }
    }

    fn circuit(&mut self, circuit: usize) {
        let d = self.d;
        let (plus, minus) = self.posts();
        let c = &d.loom.circuits[circuit];
        for load in &c.loads {
            let pins = &d.loom.part(*load).pins;
            self.volts(pins[0], pins[1]);
            self.volts(plus, pins[0]);
            self.volts(pins[1], minus);
            let last = d.paths.out(*load).last();
            if let Some(last) = last {
                self.add(Probe::Amps(*last), 1.0);
            }
        }
        let mut way: Vec<WireId> = c
            .loads
            .iter()
            .flat_map(|l| d.paths.way(*l).copied())
            .collect();
        let own = d
            .loom
            .each_wire()
            .filter(|(_, w)| w.circuit == Some(circuit));
        way.extend(own.map(|(id, _)| id));
        way.sort_unstable();
        way.dedup();
        if let Some(first) = c.loads.first().and_then(|l| {
            d.paths
                .out(*l)
                .iter()
                .find(|w| d.loom.wire(**w).circuit == Some(circuit))
        }) {
            self.add(Probe::Amps(*first), 0.7);
        }
        for id in &way {
            let w = d.loom.wire(*id);
            self.volts(w.from, w.to);
        }
        let parts: BTreeSet<PartId> = way
            .iter()
            .flat_map(|id| [d.loom.wire(*id).from, d.loom.wire(*id).to])
            .map(|pin| d.loom.pin(pin).part)
            .collect();
        for id in parts {
            self.part(id, minus);
        }
    }

    /// Across a part that is on the way, and each of its pins against the battery.
    fn part(&mut self, id: PartId, minus: PinId) {
        let p = self.d.loom.part(id);
        let pins = p.pins.clone();
        match &p.kind {
            PartKind::Relay(_) => {
                self.volts(pins[0], pins[1]);
                self.volts(pins[2], pins[3]);
            }
            PartKind::Fuse(_) => {
                self.volts(pins[0], pins[1]);
                if p.circuit.is_some() {
                    self.add(Probe::Ohms(pins[1]), UNPLUG);
                    self.add(Probe::NewFuse(id), NEW_FUSE);
                    self.add(Probe::NewFuseAlone(id), NEW_FUSE + UNPLUG);
                }
            }
            PartKind::Switch(s) if s.positions == 2 => self.volts(pins[0], pins[1]),
            PartKind::Cutout(_) => self.volts(pins[0], pins[1]),
            PartKind::Battery { .. } => {
                self.volts(pins[0], pins[1]);
                return;
            }
            _ => {}
        }
        for pin in pins {
            if pin != minus {
                self.volts(pin, minus);
            }
        }
    }
}
