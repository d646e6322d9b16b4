//! The way of current from the battery through each load and back: which wires it passes.

use loom::{Loom, PartId, PartKind, PinId, Role, WireId};
use std::collections::{BTreeMap, VecDeque};

/// The wires between the battery and each load.
#[derive(Clone, Debug, Default)]
pub(crate) struct Paths {
    /// By part, for loads: wires out to it.
    out: BTreeMap<PartId, Vec<WireId>>,
    /// By part, for loads: wires back from it.
    back: BTreeMap<PartId, Vec<WireId>>,
    /// By wire: the loads whose current it carries.
    loads: Vec<Vec<PartId>>,
}

impl Paths {
    pub(crate) fn new(loom: &Loom) -> Self {
        let roads = Roads::new(loom);
        let mut paths = Self {
            loads: vec![Vec::new(); loom.wires.len()],
            ..Self::default()
        };
        for (id, part) in loom.each_part() {
            if !matches!(part.kind, PartKind::Load(_)) {
                continue;
            }
            let out = roads.to_battery(part.pins[0]);
            let back = roads.to_battery(part.pins[1]);
            for w in out.iter().chain(&back) {
                paths.loads[w.0 as usize].push(id);
            }
            paths.out.insert(id, out);
            paths.back.insert(id, back);
        }
        paths
    }

    /// Wires from the battery to a load.
    pub(crate) fn out(&self, load: PartId) -> &[WireId] {
        self.out.get(&load).map_or(&[], Vec::as_slice)
    }

    /// Wires from a load back to the battery, the body aside.
    pub(crate) fn back(&self, load: PartId) -> &[WireId] {
        self.back.get(&load).map_or(&[], Vec::as_slice)
    }

    /// All wires on a load's way, from the battery out and back.
    pub(crate) fn way(&self, load: PartId) -> impl Iterator<Item = &WireId> {
        self.out(load).iter().chain(self.back(load).iter().rev())
    }

    /// Loads whose current a wire carries.
    pub(crate) fn loads(&self, wire: WireId) -> &[PartId] {
        &self.loads[wire.0 as usize]
    }
}

/// What joins pins on the way of the main current: wires, plugs, fuses, contacts and switches, but no
/// coil and no load.
struct Roads {
    next: Vec<Vec<(PinId, Option<WireId>)>>,
    home: Vec<PinId>,
}

impl Roads {
    fn new(loom: &Loom) -> Self {
        let mut next = vec![Vec::new(); loom.pins.len()];
        let mut join = |a: PinId, b: PinId, w: Option<WireId>| {
            next[a.0 as usize].push((b, w));
            next[b.0 as usize].push((a, w));
        };
        // Coils hang beside the way, not on it.
        let on_way = |w: &loom::Wire| !matches!(w.role, Role::Coil | Role::CoilEarth);
        for (id, w) in loom.each_wire().filter(|(_, w)| on_way(w)) {
            join(w.from, w.to, Some(id));
        }
        for m in &loom.mates {
            join(m.live, m.far, None);
        }
        let mut home = Vec::new();
        for part in &loom.parts {
            match &part.kind {
                PartKind::Fuse(_) | PartKind::Relay(_) | PartKind::Cutout(_) => {
                    join(part.pins[0], part.pins[1], None);
                }
                PartKind::Switch(s) if s.breaks.is_none() => join(part.pins[0], part.pins[1], None),
                PartKind::Battery { .. } => home.extend(&part.pins),
                // The vehicle's own wiring and its body lead to the battery.
                PartKind::Feed(_) => home.push(part.pins[0]),
                PartKind::Earth(e) if e.to == plan::EarthReturn::Body => home.push(part.pins[0]),
                _ => {}
            }
        }
        Self { next, home }
    }

    /// The wires on the shortest road from a pin to the battery.
    fn to_battery(&self, from: PinId) -> Vec<WireId> {
        let mut came: Vec<Option<(PinId, Option<WireId>)>> = vec![None; self.next.len()];
        let mut seen = vec![false; self.next.len()];
        let mut queue = VecDeque::from([from]);
        seen[from.0 as usize] = true;
        while let Some(here) = queue.pop_front() {
            if self.home.contains(&here) {
                let mut wires = Vec::new();
                let mut at = here;
                while let Some((before, wire)) = came[at.0 as usize] {
                    wires.extend(wire);
                    at = before;
                }
                return wires;
            }
            for &(to, wire) in &self.next[here.0 as usize] {
                if !seen[to.0 as usize] {
                    seen[to.0 as usize] = true;
                    came[to.0 as usize] = Some((here, wire));
                    queue.push_back(to);
                }
            }
        }
        Vec::new()
    }
}
