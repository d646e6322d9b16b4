//! What a study answers: the choice, the settled states, and for each wire, fuse, load and part what
//! it sees and why it is as it is.

use crate::Raised;
use crate::amiss::Amiss;
use crate::bundles::{self, Bundle};
use crate::combine::Tried;
use crate::design::{Choice, Design};
use crate::fuse;
use crate::heat::Heat;
use crate::recalled::{self, Recalled};
use crate::settle::Settled;
use crate::size::{Case, Sizing, Verdict, judge, lost};
use crate::slow::Slow;
use crate::sneak::Sneak;
use crate::state::State;
use crate::survey::{self, Seen};
use crate::why;
use finding::Finding;
use loom::{Assumption, PartId, PartKind, WireId};
use quantity::Quantity;
use std::sync::Arc;

/// A state and how it settled.
#[derive(Clone, Debug)]
pub struct StateAnswer {
    /// The state.
    pub state: State,
    /// What it settled to.
    pub settled: Settled,
}

/// A wire, in its worst state.
#[derive(Clone, Debug)]
pub struct WireAnswer {
    /// The wire.
    pub wire: WireId,
    /// Its conductor: index into `stock.conductors`.
    pub conductor: usize,
    /// Most current, A.
    pub amps: f64,
    /// Hottest, °C.
    pub celsius: f64,
    /// What its insulation may reach, °C.
    pub limit_celsius: f64,
    /// Heat around it where it is hottest, °C.
    pub around_celsius: f64,
    /// Volts lost along it with its joints, at most.
    pub drop_v: f64,
    /// Every rule, the tightest first.
    pub verdicts: Vec<Verdict>,
    /// The rule that would break one size smaller; or that the installer set it, or that stock has none smaller.
    pub governed_by: String,
    /// The next smaller conductor, and the rules it would break.
    pub smaller: Option<(usize, Vec<Verdict>)>,
}

/// A fuse position.
#[derive(Clone, Debug)]
pub struct FuseAnswer {
    /// The position.
    pub part: PartId,
    /// Its class, index into `stock.fuses`.
    pub kind: usize,
    /// Its rating, A.
    pub rating_a: f64,
    /// Most steady current, A.
    pub amps: f64,
    /// What it may carry for ever at the heat around it, A.
    pub bears_a: f64,
    /// Heat around it, °C.
    pub celsius: f64,
    /// The wires that it protects.
    pub protects: Vec<WireId>,
    /// Why this rating, in sentences.
    pub why: Vec<String>,
}

/// A load, in the state in which it loses most.
#[derive(Clone, Debug)]
pub struct LoadAnswer {
    /// The load.
    pub part: PartId,
    /// The state, index into `states`.
    pub state: usize,
    /// Volts at its own pins.
    pub volts: f64,
    /// Amperes.
    pub amps: f64,
    /// Lost on the way out and back, % of nominal.
    pub drop_percent: f64,
    /// Allowed, %.
    pub limit_percent: f64,
    /// The wires on its way out and back, each with the volts that it and its joints lose.
    pub way: Vec<(WireId, f64)>,
    /// What it sees over all states that ask for it; none if none does.
    pub seen: Option<Seen>,
}

/// A relay or switch.
#[derive(Clone, Debug)]
pub struct PartAnswer {
    /// The part.
    pub part: PartId,
    /// What is to be bought: "rocker switch 10 A".
    pub class: String,
    /// Most current through its contact, A.
    pub amps: f64,
    /// What the contact may carry of this kind of load at its heat, A.
    pub bears_a: f64,
    /// Why, in sentences.
    pub why: Vec<String>,
}

/// Everything a study answers.
#[derive(Clone, Debug)]
pub struct Answers {
    /// What was chosen.
    pub choice: Choice,
    /// How the sizes were found, and whether they were proved the best.
    pub sizing: Sizing,
    /// The states tried, those that sized the loom first.
    pub states: Vec<StateAnswer>,
    /// How many states sized the loom.
    pub sized: usize,
    /// How the states were chosen.
    pub tried: Tried,
    /// What is on unasked, and by what path.
    pub sneaks: Vec<Sneak>,
    /// Looks beside these states that gave no answer: at some charge of the battery, with something lost.
    pub amiss: Vec<Amiss>,
    /// States that ask more than the loom bears and were not sized for, by index.
    pub unsized_for: Vec<usize>,
    /// Temperatures of the wires, each in its worst state.
    pub heat: Arc<Heat>,
    /// By wire, in the loom's order.
    pub wires: Vec<WireAnswer>,
    /// Fuses.
    pub fuses: Vec<FuseAnswer>,
    /// Loads.
    pub loads: Vec<LoadAnswer>,
    /// Relays and switches.
    pub parts: Vec<PartAnswer>,
    /// Bundles, by stretch.
    pub bundles: Vec<Bundle>,
    /// Findings, the heaviest first.
    pub findings: Vec<Finding>,
    /// Everything assumed.
    pub assumptions: Vec<Assumption>,
    /// Figures of the chosen rows that were recalled, not read.
    pub recalled: Vec<Recalled>,
}

impl Answers {
    /// Whether any finding stops.
    pub fn stops(&self) -> bool {
        self.findings
            .iter()
            .any(|f| f.weight == finding::Weight::Stop)
    }
}

/// Every state with what it settled to, and which of them sized the loom.
pub(crate) struct Studied {
    pub states: Vec<State>,
    pub settled: Vec<Settled>,
    /// The first of them as they sized the loom: with heat, and with every cut-out in.
    pub sizing: Vec<Settled>,
    /// How the sizes were found.
    pub found: Sizing,
    pub tried: Tried,
    pub sneaks: Vec<Sneak>,
    pub amiss: Vec<Amiss>,
    pub unsized_for: Vec<usize>,
    /// Wires that their fuse is too slow for, and those that were made thicker for it.
    pub slow: Vec<Slow>,
    pub raised: Raised,
    pub heat: Arc<Heat>,
}

/// Gathers the answers of a sized design.
pub(crate) fn gather(d: &Design, studied: Studied) -> Answers {
    let Studied {
        states,
        settled: all,
        sizing,
        found,
        tried,
        sneaks,
        amiss,
        unsized_for,
        slow,
        raised,
        heat,
    } = studied;
    let mut assumptions = d.assumptions.clone();
    assumptions.extend(found.assumed.iter().cloned());
    let (settled, sized) = (&sizing[..], sizing.len());
    // A cut-out that is out lets nothing through that the loom must bear all the same.
    let mut lasting = lasting(&states, &all);
    lasting.extend(&sizing);
    let wires: Vec<WireAnswer> = d
        .loom
        .each_wire()
        .map(|(id, _)| wire(d, (settled, &heat), &lasting, id))
        .collect();
    let wires = against_slow_fuses(d, wires, &slow, &raised);
    let parts = d.loom.each_part();
    let fuses = parts
        .filter(|(_, p)| matches!(p.kind, PartKind::Fuse(_)))
        .filter_map(|(id, _)| fused(d, &lasting, id));
    let fuses: Vec<FuseAnswer> = fuses.collect();
    let recalled = recalled::gather(d, &wires, &fuses);
    let loads = d
        .loom
        .circuits
        .iter()
        .flat_map(|c| &c.loads)
        .filter_map(|id| load(d, &states, &all, *id))
        .collect();
    let parts = d
        .loom
        .each_part()
        .filter_map(|(id, _)| why::part(d, &lasting, id))
        .collect();
    Answers {
        choice: d.choice.clone(),
        sizing: found,
        states: states
            .into_iter()
            .zip(all)
            .map(|(state, settled)| StateAnswer { state, settled })
            .collect(),
        sized,
        tried,
        sneaks,
        amiss,
        unsized_for,
        heat,
        wires,
        fuses,
        loads,
        parts,
        bundles: bundles::all(d),
        findings: Vec::new(),
        assumptions,
        recalled,
    }
}

/// What came to rest and lasts.
fn lasting<'a>(states: &[State], all: &'a [Settled]) -> Vec<&'a Settled> {
    let both = states.iter().zip(all);
    both.filter(|(state, s)| survey::lasts(state, s))
        .map(|(_, s)| s)
        .collect()
}

fn wire(
    d: &Design,
    (settled, heat): (&[Settled], &Heat),
    lasting: &[&Settled],
    id: WireId,
) -> WireAnswer {
    let at = id.0 as usize;
    let over = |f: fn(&Settled, usize) -> f64| settled.iter().map(|s| f(s, at)).fold(0.0, f64::max);
    let most = |of: &mut dyn Iterator<Item = &Settled>| {
        of.map(|s| s.wire_amps[at].abs()).fold(0.0, f64::max)
    };
    let (sized, seen) = (
        most(&mut settled.iter()),
        most(&mut lasting.iter().copied()),
    );
    // States that were only looked at agree with those that sized the loom to a ten-thousandth.
    let amps = if seen > sized * 1.001 { seen } else { sized };
    let conductor = d.choice.wires[at];
    let case = |index: usize| Case {
        design: d,
        settled,
        wire: id,
        conductor: &d.stock.conductors[index],
        quiet: false,
    };
    let mut verdicts = judge(&case(conductor));
    verdicts.sort_by(|a, b| a.margin.total_cmp(&b.margin));
    let list = &d.candidates[at];
    let place = list.iter().position(|c| *c == conductor).unwrap_or(0);
    let smaller = place.checked_sub(1).map(|p| {
        let mut broken: Vec<Verdict> = judge(&case(list[p]))
            .into_iter()
            .filter(|v| !v.holds())
            .collect();
        broken.sort_by(|a, b| a.margin.total_cmp(&b.margin));
        (list[p], broken)
    });
    let governed_by = match (&d.loom.wire(id).set.size, &smaller) {
        (Some(_), _) => "set in the plan".to_owned(),
        (None, None) => "least size".to_owned(),
        (None, Some((_, broken))) => broken
            .first()
            .map_or(whole(d, list[..place].last(), id), |v| v.rule)
            .to_owned(),
    };
    let w = d.loom.wire(id);
    let lost = |s: &Settled| (s.at(w.from) - s.at(w.to)).abs();
    WireAnswer {
        wire: id,
        conductor,
        amps,
        celsius: case(conductor).kelvin_at(amps).max(heat.hottest[at]) - 273.15,
        limit_celsius: d.insulation(d.conductor(id)).limit.si() - 273.15,
        around_celsius: over(|s, i| s.heat.around[i]) - 273.15,
        drop_v: lasting.iter().map(|s| lost(s)).fold(0.0, f64::max),
        verdicts,
        governed_by,
        smaller,
    }
}

/// What governs a wire of which one size less breaks nothing by itself: the roll that it shares, or what holds for all.
fn whole(d: &Design, smaller: Option<&usize>, id: WireId) -> &'static str {
    let colour = &d.loom.wire(id).colour;
    let bought = d.loom.each_wire().any(|(other, w)| {
        other != id && w.colour == *colour && smaller == Some(&d.choice.wires[other.0 as usize])
    });
    if bought {
        "bundle of the whole"
    } else {
        "one roll"
    }
}

/// Adds what was found by following wires in time: fuses that are too slow for them, and for a size less.
fn against_slow_fuses(
    d: &Design,
    mut wires: Vec<WireAnswer>,
    slow: &[Slow],
    raised: &Raised,
) -> Vec<WireAnswer> {
    for s in slow {
        let verdicts = &mut wires[s.wire.0 as usize].verdicts;
        // What breaks the quick rules already is told by them.
        if verdicts
            .iter()
            .any(|v| v.rule == s.verdict.rule && !v.holds())
        {
            continue;
        }
        verdicts.push(s.verdict.clone());
        verdicts.sort_by(|a, b| a.margin.total_cmp(&b.margin));
    }
    for (wire, (conductor, verdict)) in raised {
        let answer = &mut wires[wire.0 as usize];
        if answer.conductor == *conductor && answer.smaller.is_none() {
            let full = Design::new(d.loom, d.stock, d.habits);
            let list = &full.candidates[wire.0 as usize];
            let at = list.iter().position(|c| c == conductor).unwrap_or(0);
            let smaller = at
                .checked_sub(1)
                .map(|at| (list[at], vec![verdict.clone()]));
            answer.smaller = smaller;
            verdict.rule.clone_into(&mut answer.governed_by);
        }
    }
    wires
}

fn fused(d: &Design, settled: &[&Settled], part: PartId) -> Option<FuseAnswer> {
    let choice = d.choice.fuses[part.0 as usize]?;
    let (kind, rating) = d.fuse(part)?;
    let ask = fuse::demand(d, settled, part);
    let protects = d
        .loom
        .each_wire()
        .filter(|(_, w)| w.fuse == Some(part))
        .map(|(id, _)| id)
        .collect();
    Some(FuseAnswer {
        part,
        kind: choice.kind,
        rating_a: rating.amps.si(),
        amps: ask.amps,
        bears_a: rating.amps.si() * fuse::continuous(kind, ask.celsius),
        celsius: ask.celsius,
        protects,
        why: why::fuse(d, part, &ask),
    })
}

fn load(d: &Design, states: &[State], settled: &[Settled], part: PartId) -> Option<LoadAnswer> {
    let losses = settled
        .iter()
        .enumerate()
        .filter(|(i, s)| survey::lasts(&states[*i], s))
        .filter_map(|(i, s)| lost(d, s, part).map(|l| (i, l)));
    let (state, worst) = losses.max_by(|a, b| a.1.part.total_cmp(&b.1.part).then(b.0.cmp(&a.0)))?;
    let s = &settled[state];
    let pins = &d.loom.part(part).pins;
    let way = d.paths.way(part);
    Some(LoadAnswer {
        part,
        state,
        volts: s.at(pins[0]) - s.at(pins[1]),
        amps: s.part_amps[part.0 as usize],
        drop_percent: worst.part * 100.0,
        limit_percent: worst.limit * 100.0,
        way: way
            .map(|w| {
                (
                    *w,
                    (s.at(d.loom.wire(*w).from) - s.at(d.loom.wire(*w).to)).abs(),
                )
            })
            .collect(),
        seen: survey::seen(d, states, settled, part),
    })
}
