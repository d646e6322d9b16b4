//! The design under study: the loom, what stock offers for it, and what is chosen so far.

use crate::answers::Answers;
use crate::fit::Table;
use crate::fixed::Fixed;
use crate::insulation::Insulated;
use crate::limits::Limits;
use crate::paths::Paths;
use crate::state::State;
use crate::supply_side::SupplySide;
use loom::{Assumed, Assumption, Loom, PartId, PartKind, PlaceId, WireId};
use plan::{Aim, DayPart, Plan, Rules, SupplyState, WireFamily};
use quantity::{Quantity, WireSize};
use stock::{AmpacityTable, Conductor, Family, FuseKind, FuseRating, Insulation, RelayKind, Stock};

/// The plan's habits that a study needs: rules, wire family, margins.
#[derive(Clone, Debug)]
pub struct Habits {
    /// Rule set.
    pub rules: Rules,
    /// What sizing seeks the least of.
    pub aim: Aim,
    /// Wire family.
    pub family: WireFamily,
    /// Insulation by stock name.
    pub insulation: Option<String>,
    /// Whether any insulation of the family will do, and none is settled yet.
    pub any_insulation: bool,
    /// The insulations that were sized with, the one taken first; empty where the plan names one or none.
    pub insulations: Vec<Insulated>,
    /// Insulation wall by stock word.
    pub wall: Option<String>,
    /// The sizes to choose from; empty for the usual series.
    pub sizes: Vec<WireSize>,
    /// Kept below the class temperature, K.
    pub margin_k: f64,
    /// How the vehicle is used, in the order in which the day goes; empty where the plan does not say.
    pub day: Vec<DayPart>,
    /// Whether the best sizes are sought; else the first that hold are taken, in a tenth of the time.
    pub seek: bool,
    /// Whether every state is looked at, and everything lost; else, of many, the few that mostly tell.
    pub survey: bool,
}

impl Habits {
    /// From the plan's `[job]`, the insulation not settled where the plan leaves it open.
    pub(crate) fn said(plan: &Plan) -> Self {
        Self {
            rules: plan.job.rules,
            aim: plan.job.aim,
            family: plan.job.family,
            any_insulation: plan.job.any_insulation(),
            insulations: Vec::new(),
            insulation: plan
                .job
                .insulation
                .as_ref()
                .filter(|_| !plan.job.any_insulation())
                .map(|i| i.value.clone()),
            wall: plan.job.wall.as_ref().map(|w| w.value.clone()),
            sizes: plan.job.sizes.iter().map(|s| s.value).collect(),
            margin_k: plan.job.margin.si(),
            day: plan.day.clone(),
            seek: true,
            survey: true,
        }
    }

    /// The same, but for an answer at once: the first sizes that hold.
    pub fn quick(self) -> Self {
        Self {
            seek: false,
            ..self
        }
    }

    /// The stock family of the plan's word.
    pub(crate) fn stock_family(&self) -> Family {
        match self.family {
            WireFamily::Metric => Family::Metric,
            WireFamily::Sae => Family::Sae,
            WireFamily::Boat => Family::Boat,
        }
    }
}

/// A fuse chosen for a position: indices into stock.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FuseChoice {
    /// Which class.
    pub kind: usize,
    /// Which rating of it.
    pub rating: usize,
}

/// What is chosen: for every wire a conductor of stock, for every fuse position a fuse, for every
/// switch its class.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Choice {
    /// By wire: index into `stock.conductors`.
    pub wires: Vec<usize>,
    /// By part: the fuse, for fuse positions.
    pub fuses: Vec<Option<FuseChoice>>,
    /// By part: index into `stock.switches`, for switches.
    pub switches: Vec<Option<usize>>,
}

/// The design under study.
pub(crate) struct Design<'a> {
    pub loom: &'a Loom,
    pub stock: &'a Stock,
    pub habits: &'a Habits,
    pub limits: Limits,
    pub table: Option<&'a AmpacityTable>,
    pub paths: Paths,
    /// By wire: the conductors it may be, by rising area; one alone when the installer set it.
    pub candidates: Vec<Vec<usize>>,
    pub choice: Choice,
    /// Resistance from an earth point through the body to the battery, Ω.
    pub body_ohms: f64,
    /// Resistance of the vehicle's wiring up to a signal, Ω.
    pub signal_ohms: f64,
    /// The vehicle's own consumers where the plan does not say them, W: on a signal, on an ignition tap.
    pub own_watts: [f64; 2],
    /// The supply's own figures.
    pub supply: SupplySide,
    /// What never changes while conductors and fuses are chosen.
    pub fixed: Fixed<'a>,
    pub assumptions: Vec<Assumption>,
}

impl<'a> Design<'a> {
    pub(crate) fn new(loom: &'a Loom, stock: &'a Stock, habits: &'a Habits) -> Self {
        let limits = Limits::default();
        let assumed = Assumed::default();
        let mut assumptions = loom.assumptions.clone();
        let supply = SupplySide::new(loom, &limits, &mut assumptions);
        let candidates: Vec<Vec<usize>> = loom
            .wires
            .iter()
            .map(|w| candidates(w, stock, habits, &limits))
            .collect();
        let studs = Table::default();
        let candidates: Vec<Vec<usize>> = candidates
            .into_iter()
            .enumerate()
            .map(|(i, list)| terminable((loom, stock, &studs), WireId(i as u32), list))
            .collect();
        let choice = Choice {
            wires: candidates.iter().map(|c| c[0]).collect(),
            fuses: vec![None; loom.parts.len()],
            switches: vec![None; loom.parts.len()],
        };
        let uses = |test: fn(&PartKind) -> bool| loom.parts.iter().any(|p| test(&p.kind));
        let mut body_ohms = 0.0;
        if uses(|k| matches!(k, PartKind::Earth(e) if e.to == plan::EarthReturn::Body)) {
            body_ohms = assumed.resistance("body return", &mut assumptions).si();
        }
        let mut signal_ohms = 0.0;
        if uses(|k| matches!(k, PartKind::Signal(_))) {
            signal_ohms = assumed
                .resistance("signal resistance", &mut assumptions)
                .si();
        }
        let signal_watts = match uses(|k| matches!(k, PartKind::Signal(s) if s.lamp.is_none())) {
            true => assumed.number("signal lamp", &mut assumptions),
            false => 0.0,
        };
        let tapped =
            |k: &PartKind| matches!(k, PartKind::Feed(f) if f.kind == plan::FeedKind::IgnitionTap);
        let key_watts = match uses(tapped) {
            true => assumed.number("key consumers", &mut assumptions),
            false => 0.0,
        };
        Self {
            own_watts: [signal_watts, key_watts],
            loom,
            stock,
            habits,
            table: stock.currents(habits.rules.name()),
            paths: Paths::new(loom),
            candidates,
            choice,
            body_ohms,
            signal_ohms,
            supply,
            fixed: Fixed::new(loom, stock, &limits),
            limits,
            assumptions,
        }
    }

    /// With what was chosen for a loom that is answered.
    pub(crate) fn answered(
        loom: &'a Loom,
        stock: &'a Stock,
        habits: &'a Habits,
        answers: &Answers,
    ) -> Self {
        Self {
            choice: answers.choice.clone(),
            ..Self::new(loom, stock, habits)
        }
    }

    /// Leaves only this conductor and thicker ones to choose from for a wire.
    pub(crate) fn at_least(&mut self, wire: WireId, conductor: usize) {
        let list = &mut self.candidates[wire.0 as usize];
        let from = list.iter().position(|c| *c == conductor).unwrap_or(0);
        list.drain(..from);
        self.choice.wires[wire.0 as usize] = list[0];
    }

    /// The conductor chosen for a wire.
    pub(crate) fn conductor(&self, wire: WireId) -> &'a Conductor {
        &self.stock.conductors[self.choice.wires[wire.0 as usize]]
    }

    /// The insulation of a conductor.
    pub(crate) fn insulation(&self, conductor: &Conductor) -> &'a Insulation {
        // Stock leaves out wire whose insulation it lacks.
        let found = self
            .stock
            .insulations
            .iter()
            .find(|i| i.name == conductor.insulation);
        found.unwrap_or_else(|| panic!("stock has no insulation “{}”", conductor.insulation))
    }

    /// The fuse chosen for a position.
    pub(crate) fn fuse(&self, part: PartId) -> Option<(&'a FuseKind, &'a FuseRating)> {
        let choice = self.choice.fuses[part.0 as usize]?;
        let kind = &self.stock.fuses[choice.kind];
        Some((kind, &kind.ratings[choice.rating]))
    }

    /// The rating in amperes that protects a wire: its own fuse, or the one that the vehicle has before
    /// the feed that it comes from, however far back.
    pub(crate) fn protection(&self, wire: WireId) -> Option<f64> {
        let w = self.loom.wire(wire);
        if let Some(part) = w.fuse {
            return self.fuse(part).map(|(_, r)| r.amps.si());
        }
        if w.role == loom::Role::Return {
            // A load that shorts inside sends its fuse's current home this way: the largest counts.
            let loads = self
                .paths
                .loads(wire)
                .iter()
                .filter_map(|l| self.loom.part(*l).circuit);
            let fuses = loads
                .filter_map(|c| self.loom.circuits[c].fuse)
                .filter_map(|f| self.fuse(f));
            return fuses.map(|(_, r)| r.amps.si()).max_by(f64::total_cmp);
        }
        let mut pin = w.from;
        // A step a part at most: sources stand nowhere behind themselves.
        for _ in 0..=self.loom.parts.len() {
            let part = self.loom.part_of(pin);
            match &part.kind {
                PartKind::Feed(f) => return f.fused.map(|a| a.si()),
                PartKind::Signal(s) => return s.fused.map(|a| a.si()),
                _ => {}
            }
            pin = self.loom.before(pin)?;
        }
        None
    }

    /// Resistance of the body between any spot of it and the battery, Ω, whether or not a load returns that way.
    pub(crate) fn body_return(&self) -> f64 {
        match self.body_ohms > 0.0 {
            true => self.body_ohms,
            false => Assumed::default()
                .resistance("body return", &mut Vec::new())
                .si(),
        }
    }

    /// Heat of a place, K.
    pub(crate) fn heat_at(&self, place: PlaceId) -> f64 {
        self.loom.place(place).heat.si()
    }

    /// Temperature around a place in a supply state, K: an engine is hardest to crank on a cold morning.
    pub(crate) fn around(&self, supply: SupplyState, place: PlaceId) -> f64 {
        match supply {
            SupplyState::Cranking => self.cold_k(),
            _ => self.heat_at(place),
        }
    }

    /// Temperature of a cold morning, K.
    pub(crate) fn cold_k(&self) -> f64 {
        self.supply.cold_k
    }

    /// Resistance of a wire's copper at a temperature, with this conductor in its place, Ω.
    pub(crate) fn copper_ohms(&self, wire: WireId, conductor: &Conductor, kelvin: f64) -> f64 {
        let r20 = conductor.ohm_per_m_20 * self.loom.wire(wire).cut.si();
        physics::conductor::resistance_at(r20, kelvin)
    }

    /// Resistance of the joints at both ends of a wire, Ω.
    pub(crate) fn joint_ohms(&self, wire: WireId) -> f64 {
        self.fixed.joint_ohms[wire.0 as usize]
    }

    /// The class of a relay; none for other parts.
    pub(crate) fn relay(&self, part: PartId) -> Option<&'a RelayKind> {
        self.fixed.relays[part.0 as usize]
    }

    /// Relays that are asked to pull in: those of circuits that are on, and those that hold a condition
    /// whose signal is there.
    pub(crate) fn asked(&self, state: &State) -> Vec<PartId> {
        let mut asked = Vec::new();
        for (i, c) in self.loom.circuits.iter().enumerate() {
            asked.extend(c.relay.filter(|_| state.asks(self.loom, i)));
            let live = |relay: &PartId| {
                let signal = self.fixed.works[relay.0 as usize];
                signal.is_some_and(|s| state.signals.contains(&s))
            };
            asked.extend(c.conditions.iter().copied().filter(live));
        }
        asked
    }

    /// Voltage of the rested battery at a charge from 0 to 1, V.
    pub(crate) fn rested_volts(&self, charge: f64) -> f64 {
        let kind = crate::network::chemistry(self.loom.supply.battery.chemistry);
        physics::battery::open_circuit_volts(kind, charge, self.nominal())
    }

    /// The nominal system voltage, V.
    pub(crate) fn nominal(&self) -> f64 {
        self.loom.supply.system.nominal()
    }
}

/// The conductors that a wire may be.
fn candidates(wire: &loom::Wire, stock: &Stock, habits: &Habits, limits: &Limits) -> Vec<usize> {
    let family = habits.stock_family();
    let usual = stock.conductors.iter().find(|c| c.family == family);
    let wanted = wire.set.insulation.as_ref().or(habits.insulation.as_ref());
    let insulation = wanted
        .map(String::as_str)
        .or(usual.map(|c| c.insulation.as_str()))
        .unwrap_or_default();
    // An insulation that the family lacks, set for one wire: from the family that has it.
    let has = |f: Family| {
        stock
            .conductors
            .iter()
            .any(|c| c.family == f && c.insulation == insulation)
    };
    let other = stock
        .conductors
        .iter()
        .find(|c| c.insulation == insulation)
        .map(|c| c.family);
    let family = if has(family) {
        family
    } else {
        other.unwrap_or(family)
    };
    let of = |c: &&Conductor| c.family == family && c.insulation == insulation;
    let walls: Vec<&str> = stock
        .conductors
        .iter()
        .filter(of)
        .map(|c| c.wall.as_str())
        .collect();
    let wall = habits
        .wall
        .as_deref()
        .filter(|w| walls.contains(w))
        .or(walls.first().copied())
        .unwrap_or_default();
    let least = limits.value("least area") * 1e-6;
    let fits = |c: &Conductor| match wire.set.size {
        Some(set) => set.value.is(c.size),
        None if !habits.sizes.is_empty() => habits.sizes.iter().any(|s| s.is(c.size)),
        None => c.area.si() >= least * 0.999 && limits.is_usual(c.size),
    };
    let mut found: Vec<usize> = stock
        .conductors
        .iter()
        .enumerate()
        .filter(|(_, c)| of(c) && c.wall == wall && fits(c))
        .map(|(i, _)| i)
        .collect();
    if found.is_empty() {
        // A size of another family, set for this wire alone: with the insulation if that family has it.
        let set = |c: &Conductor| wire.set.size.is_none_or(|s| s.value.is(c.size));
        let known = |i: &usize| stock.conductors[*i].insulation == insulation;
        let all: Vec<usize> = (0..stock.conductors.len())
            .filter(|i| set(&stock.conductors[*i]))
            .collect();
        let found_first = all.iter().copied().find(known).or(all.first().copied());
        found.push(found_first.unwrap_or(0));
    }
    found.sort_by(|a, b| {
        stock.conductors[*a]
            .area
            .si()
            .total_cmp(&stock.conductors[*b].area.si())
    });
    found
}

/// Those of a wire's candidates that its terminals take; a size that the installer set stays.
fn terminable(
    (loom, stock, studs): (&Loom, &Stock, &Table),
    wire: WireId,
    list: Vec<usize>,
) -> Vec<usize> {
    if loom.wire(wire).set.size.is_some() {
        return list;
    }
    let takes = |i: &usize| crate::ends::takes(loom, stock, studs, (wire, &stock.conductors[*i]));
    let kept: Vec<usize> = list.iter().copied().filter(takes).collect();
    if kept.is_empty() {
        list[..1].to_vec()
    } else {
        kept
    }
}

/// How many ways of a box hold a fuse.
pub(crate) fn ways_used(loom: &Loom, of: PartId) -> u32 {
    let in_it =
        |k: &PartKind| matches!(k, PartKind::Fuse(f) if f.way.is_some_and(|(b, _)| b == of));
    loom.parts.iter().filter(|p| in_it(&p.kind)).count() as u32
}
