//! What probes read on a loom in a state, with whatever is amiss in it, and what each reading hangs on.

use super::probe::{OPEN_OHMS, Probe};
use super::spread::{Param, Spread};
use crate::change::{Change, MOST_BLOWN};
use crate::design::Design;
use crate::heat::Heat;
use crate::network::{Element, Model, Piece};
use crate::settle::{Settled, View, glance_as};
use crate::solve::{Laid, run};
use crate::state::State;
use loom::{PartId, PartKind, PinId};
use physics::network::{ElementId, Knobs, Law, Slopes, Solver};
use std::collections::BTreeMap;
use std::sync::Arc;

/// What a probe reads, in the scale that is weighed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Reads {
    /// Expected.
    pub value: f64,
    /// By each thing that is not known exactly: what one standard deviation of it adds.
    pub moves: Vec<(Param, f64)>,
    /// Standard deviation of the meter.
    pub meter: f64,
}

impl Reads {
    /// Standard deviation of all together.
    pub fn sd(&self) -> f64 {
        let moves = self.moves.iter().map(|(_, m)| m * m).sum::<f64>();
        (moves + self.meter * self.meter).sqrt()
    }

    /// What two readings share, as a covariance.
    pub fn shared(&self, other: &Self) -> f64 {
        let other: BTreeMap<Param, f64> = other.moves.iter().copied().collect();
        let each = self.moves.iter();
        each.filter_map(|(param, m)| Some(m * other.get(param)?))
            .sum()
    }
}

/// A loom in a state with what is amiss in it, solved to the end: fuses that open have opened.
pub(crate) struct Found<'a> {
    pub d: &'a Design<'a>,
    pub state: &'a State,
    pub changes: Vec<Change>,
    pub settled: Settled,
    /// Fuses that opened, with how many times their rating they carried.
    pub opened: Vec<(PartId, f64)>,
}

/// So little counts for nothing, in the scale that is weighed.
const NOTHING: f64 = 1e-9;
/// An ohmmeter’s own source: volts behind ohms.
const OHMMETER: (f64, f64) = (0.5, 1000.0);

impl<'a> Found<'a> {
    /// Solves it.
    pub fn new(d: &'a Design<'a>, state: &'a State, changes: &[Change], heat: &Arc<Heat>) -> Self {
        let mut changes = changes.to_vec();
        let mut opened = Vec::new();
        loop {
            let settled = look(d, state, &changes, heat);
            let next = overloaded(d, &settled).filter(|_| opened.len() < MOST_BLOWN);
            let Some((fuse, times)) = next else {
                return Self {
                    d,
                    state,
                    changes,
                    settled,
                    opened,
                };
            };
            opened.push((fuse, times));
            match changes.first_mut() {
                Some(first) => *first = first.blow(fuse).unwrap_or(*first),
                None => changes.extend(Change::default().blow(fuse)),
            }
        }
    }

    /// What probes read in it.
    pub fn read(&self, probes: &[Probe]) -> Vec<Reads> {
        let nothing = |p: &Probe| Reads {
            meter: p.meter(&self.d.limits, 0.0),
            ..Reads::default()
        };
        let Some(model) = self.settled.model.as_ref() else {
            return probes.iter().map(nothing).collect();
        };
        let laid = Laid::new(model);
        let mut solver = Solver::new();
        let start = laid.start(model, &self.settled.volts);
        let solution = solver.solve_from(&laid.network, &Knobs::default(), &start);
        let slopes = solution
            .as_ref()
            .ok()
            .and_then(|s| Slopes::new(&mut solver, &laid.network, s));
        let amps = solution
            .as_ref()
            .map(|s| s.amps.clone())
            .unwrap_or_default();
        let mut ground = Ground {
            found: self,
            model,
            laid: &laid,
            beyond: slopes
                .as_ref()
                .map_or_else(Vec::new, |slopes| self.beyond(&laid, &amps, slopes)),
            amps,
            slopes,
        };
        probes.iter().map(|p| ground.read(*p)).collect()
    }

    /// By element of the network: what one standard deviation of each thing that it hangs on is, as current beyond its law.
    fn beyond(&self, laid: &Laid, amps: &[f64], slopes: &Slopes) -> Vec<(usize, Param, f64)> {
        let spread = Spread {
            d: self.d,
            changes: &self.changes,
        };
        let elements = self
            .settled
            .model
            .iter()
            .flat_map(|m| m.elements.iter().enumerate());
        let kept = elements.filter_map(|(i, e)| Some((laid.id(i)?, e)));
        let each = kept.flat_map(|(id, e)| {
            let of = spread.beyond(e, amps[id.index()], slopes.siemens(id));
            of.into_iter()
                .map(move |(param, amps)| (id.index(), param, amps))
        });
        each.filter(|(.., amps)| amps.abs() > NOTHING).collect()
    }

    /// The same where each thing that is not known exactly is as it was drawn: a vehicle that stands before one.
    pub fn drawn(&self, probes: &[Probe], by: &impl Fn(Param) -> f64) -> Option<Vec<f64>> {
        let model = self.settled.model.as_ref()?;
        let spread = Spread {
            d: self.d,
            changes: &self.changes,
        };
        let elements = model.elements.iter();
        let elements = elements.map(|e| Element {
            law: spread.drawn(e, by),
            ..*e
        });
        let model = Model {
            elements: elements.collect(),
            ..model.clone()
        };
        let flows = run(&model, &mut Solver::new(), Some(&self.settled.volts)).ok()?;
        let volts = |pin: PinId| model.node_of_pin[pin.0 as usize].map(|n| flows.volts[n]);
        let amps = |piece: Piece| {
            let at = model.elements.iter().position(|e| e.piece == piece);
            at.map_or(0.0, |at| flows.amps[at])
        };
        let read = |probe: &Probe| match *probe {
            Probe::Volts(a, b) => volts(a).zip(volts(b)).map_or(0.0, |(a, b)| a - b),
            Probe::Amps(w) => amps(Piece::Wire(w)),
            Probe::Drain => -amps(Piece::Battery),
            Probe::Ohms(_) | Probe::NewFuse(_) | Probe::NewFuseAlone(_) => 0.0,
        };
        let tried = |p: &Probe| self.tried(*p);
        let each = probes.iter().map(|p| tried(p).unwrap_or_else(|| read(p)));
        Some(each.collect())
    }

    /// What an ohmmeter says, or a new fuse, in the scale that is weighed; none of other probes.
    fn tried(&self, probe: Probe) -> Option<f64> {
        let read = match probe {
            Probe::Ohms(pin) => dead_ohms(self.d, &self.changes, pin),
            Probe::NewFuse(fuse) => self.holds(fuse, &self.changes),
            Probe::NewFuseAlone(fuse) => {
                let unplugged = |c: &Change| Change {
                    shorted: None,
                    draws: None,
                    ..*c
                };
                let changes: Vec<Change> = self.changes.iter().map(unplugged).collect();
                self.holds(fuse, &changes)
            }
            _ => return None,
        };
        Some(probe.scale(&self.d.limits, read))
    }

    /// Whether a new fuse in place of one that is open holds, 1, or opens, 0.
    fn holds(&self, fuse: PartId, changes: &[Change]) -> f64 {
        let renewed: Vec<Change> = changes.iter().map(|c| c.renewed(fuse)).collect();
        let settled = look(self.d, self.state, &renewed, &self.settled.heat);
        let opens = overloaded(self.d, &settled).is_some_and(|(f, _)| f == fuse);
        if opens { 0.0 } else { 1.0 }
    }
}

/// Looks at a state as it is today.
fn look(d: &Design, state: &State, changes: &[Change], heat: &Arc<Heat>) -> Settled {
    let view = View {
        change: changes.first().copied().unwrap_or_default(),
        also: changes.get(1).copied(),
        today: true,
        ..View::default()
    };
    glance_as(d, state, view, heat, None)
}

/// The fuse that opens first of those that carry more than they hold for long.
fn overloaded(d: &Design, s: &Settled) -> Option<(PartId, f64)> {
    let most = d.limits.value("opens at");
    let fuses = d.loom.each_part().filter_map(|(id, part)| {
        matches!(part.kind, PartKind::Fuse(_)).then_some(())?;
        let (_, rating) = d.fuse(id)?;
        let times = s.part_amps[id.0 as usize].abs() / quantity::Quantity::si(rating.amps);
        (times >= most).then_some((id, times))
    });
    fuses.max_by(|a, b| a.1.total_cmp(&b.1))
}

/// A solved network to read from.
struct Ground<'a> {
    found: &'a Found<'a>,
    model: &'a Model,
    laid: &'a Laid,
    /// By element of the network, A.
    amps: Vec<f64>,
    slopes: Option<Slopes<'a>>,
    /// What the network hangs on that is not known exactly: element, what, amperes beyond its law.
    beyond: Vec<(usize, Param, f64)>,
}

impl Ground<'_> {
    fn read(&mut self, probe: Probe) -> Reads {
        let limits = &self.found.d.limits;
        let settled = &self.found.settled;
        let (value, by) = match probe {
            Probe::Volts(a, b) => (settled.across(a, b), self.by_volts(a, b)),
            Probe::Amps(w) => self.by_amps(Piece::Wire(w), 1.0),
            Probe::Drain => self.by_amps(Piece::Battery, -1.0),
            Probe::Ohms(_) | Probe::NewFuse(_) | Probe::NewFuseAlone(_) => {
                (self.found.tried(probe).unwrap_or_default(), Vec::new())
            }
        };
        Reads {
            value,
            moves: self.moves(&by),
            meter: probe.meter(limits, value),
        }
    }

    fn by_volts(&mut self, a: PinId, b: PinId) -> Vec<f64> {
        let node = |pin: PinId| {
            let at = self.model.node_of_pin[pin.0 as usize]?;
            self.laid.node(at)
        };
        match (node(a), node(b), &mut self.slopes) {
            (Some(a), Some(b), Some(slopes)) if a != b => slopes.of_volts(a, b),
            _ => Vec::new(),
        }
    }

    fn by_amps(&mut self, piece: Piece, sign: f64) -> (f64, Vec<f64>) {
        let at = self.model.elements.iter().position(|e| e.piece == piece);
        let id = at.and_then(|at| self.laid.id(at));
        match (id, &mut self.slopes) {
            (Some(id), Some(slopes)) => {
                let by = slopes.of_amps(id).into_iter().map(|m| sign * m).collect();
                (sign * self.amps[id.index()], by)
            }
            _ => (0.0, Vec::new()),
        }
    }

    /// What each thing that is not known adds, from what each element's current beyond its law does.
    fn moves(&self, by: &[f64]) -> Vec<(Param, f64)> {
        let mut found: BTreeMap<Param, f64> = BTreeMap::new();
        for (element, param, beyond) in self.beyond.iter().filter(|_| !by.is_empty()) {
            let told = by[*element];
            if told.abs() > NOTHING {
                *found.entry(*param).or_default() += told * beyond;
            }
        }
        found.retain(|_, m| m.abs() > NOTHING);
        found.into_iter().collect()
    }
}

/// Ohms from a pin to the battery’s negative post with the fuse before it out, every switch off and the loads unplugged.
fn dead_ohms(d: &Design, changes: &[Change], pin: PinId) -> f64 {
    let state = crate::look::Chosen::at_rest(d.loom).state(d.loom);
    let part = d.loom.pin(pin).part;
    let mut changes = changes.to_vec();
    match changes.first_mut() {
        Some(first) => *first = first.blow(part).unwrap_or(*first),
        None => changes.extend(Change::default().blow(part)),
    }
    let heat = Arc::new(Heat::even(d.loom.wires.len(), 293.15));
    let settled = look(d, &state, &changes, &heat);
    let Some(mut model) = settled.model else {
        return OPEN_OHMS;
    };
    let Some(node) = model.node_of_pin[pin.0 as usize] else {
        return OPEN_OHMS;
    };
    model.elements.retain(|e| {
        !matches!(
            e.piece,
            Piece::Battery | Piece::Alternator | Piece::Float | Piece::Vehicle | Piece::Load(_)
        )
    });
    for e in &mut model.elements {
        e.law = cold(d, e.law);
    }
    let (volts, ohms) = OHMMETER;
    model.elements.push(Element {
        piece: Piece::Battery,
        a: node,
        b: 0,
        law: Law::Source { volts, ohms },
    });
    let Some((network, at)) = reached(&model, node) else {
        return OPEN_OHMS;
    };
    let Ok(solution) = Solver::new().solve(&network, &Knobs::default()) else {
        return OPEN_OHMS;
    };
    let amps = -solution.amps[at.index()];
    let across = volts - amps * ohms;
    match amps > volts / OPEN_OHMS {
        true => across / amps,
        false => OPEN_OHMS,
    }
}

/// What an ohmmeter finds of a law, which has no voltage to speak of.
fn cold(d: &Design, law: Law) -> Law {
    match law {
        Law::Tungsten {
            rated_volts,
            rated_amps,
        } => Law::Resistor {
            ohms: rated_volts / rated_amps / d.limits.value("cold filament"),
        },
        Law::Motor { armature_ohms, .. } => Law::Resistor {
            ohms: armature_ohms,
        },
        Law::ConstantPower { .. } => Law::Open,
        other => other,
    }
}

/// What current from a node can reach, as a network of its own, with the element that was added last.
fn reached(model: &Model, from: usize) -> Option<(physics::network::Network, ElementId)> {
    let mut groups = petgraph::unionfind::UnionFind::new(model.nodes);
    for e in model.elements.iter().filter(|e| e.law != Law::Open) {
        groups.union(e.a, e.b);
    }
    let mut network = physics::network::Network::new();
    let mut nodes = vec![None; model.nodes];
    nodes[0] = Some(physics::network::Node::GROUND);
    let mut last = None;
    for e in &model.elements {
        if e.law == Law::Open || !groups.equiv(e.a, from) {
            continue;
        }
        let [a, b] = [e.a, e.b].map(|n| *nodes[n].get_or_insert_with(|| network.node()));
        last = Some(network.element(a, b, e.law));
    }
    Some((network, last?))
}
