//! `check --json`: every wire, load and fuse, the findings, and how the states were chosen.

use super::{AssumedJson, FindingJson, assumed, finding, rounded};
use job::loom::Loom;
use job::study::{LoadAnswer, Sight, Sizing};
use job::{Answers, Stock};
use quantity::{Gauge, WireSize, in_mm2};
use serde::Serialize;

/// `check --json`.
#[derive(Serialize)]
pub struct CheckJson {
    wires: Vec<WireJson>,
    loads: Vec<LoadJson>,
    fuses: Vec<FuseJson>,
    findings: Vec<FindingJson>,
    assumed: Vec<AssumedJson>,
    tried: TriedJson,
    sizing: SizingJson,
}

/// How the sizes were found.
#[derive(Serialize)]
struct SizingJson {
    aim: &'static str,
    proved: bool,
    /// Why not, if not.
    unproved: Option<String>,
    /// No choice that holds is less than this part of what was found.
    bound_part: f64,
    /// Wire, terminals, fuses and something for each kind, in the money of the stock or, where that has no prices, in none.
    cost: f64,
    priced: bool,
    kilograms: f64,
    kinds: usize,
    /// What a choice wire by wire would have cost.
    rough_cost: f64,
    /// Choices tried in the full model.
    tried: usize,
}

/// How the states were chosen.
#[derive(Serialize)]
struct TriedJson {
    states: usize,
    /// Of so many; with some sixty switches it is as many as the number holds.
    of: u64,
    whole: bool,
    pairs: usize,
    switches: usize,
    signals: usize,
    sized: usize,
}

/// What a load sees in one state.
#[derive(Serialize)]
struct SightJson {
    state: String,
    volts: f64,
    amps: f64,
}

#[derive(Serialize)]
struct WireJson {
    name: String,
    from: String,
    to: String,
    area_mm2: f64,
    awg: Option<String>,
    length_m: f64,
    cut_m: f64,
    amps: f64,
    celsius: f64,
    limit_celsius: f64,
    drop_v: f64,
    fuse: Option<String>,
    governed_by: String,
    colour: String,
    stock: String,
}

#[derive(Serialize)]
struct LoadJson {
    name: String,
    circuit: String,
    state: String,
    volts: f64,
    amps: f64,
    drop_percent: f64,
    limit_percent: f64,
    usual: Option<SightJson>,
    worst: Option<SightJson>,
    best: Option<SightJson>,
}

#[derive(Serialize)]
struct FuseJson {
    name: String,
    #[serde(rename = "box")]
    in_box: Option<String>,
    way: Option<u32>,
    rating_a: f64,
    amps: f64,
    protects: Vec<String>,
}

fn sizing(s: &Sizing) -> SizingJson {
    SizingJson {
        aim: s.aim.words(),
        proved: s.proved(),
        unproved: s.unproved.clone(),
        bound_part: rounded(s.bound),
        cost: rounded(s.found.money),
        priced: s.priced,
        kilograms: rounded(s.found.kilograms),
        kinds: s.found.kinds,
        rough_cost: rounded(s.rough.money),
        tried: s.tried,
    }
}

/// The object for a studied loom.
pub fn check(loom: &Loom, stock: &Stock, answers: &Answers) -> CheckJson {
    CheckJson {
        wires: answers.wires.iter().map(|a| wire(loom, stock, a)).collect(),
        loads: answers
            .loads
            .iter()
            .map(|a| load(loom, answers, a))
            .collect(),
        fuses: answers.fuses.iter().map(|a| fuse(loom, a)).collect(),
        findings: answers.findings.iter().map(finding).collect(),
        assumed: answers.assumptions.iter().map(assumed).collect(),
        sizing: sizing(&answers.sizing),
        tried: tried(answers),
    }
}

fn tried(answers: &Answers) -> TriedJson {
    let t = &answers.tried;
    TriedJson {
        states: t.states,
        of: t.all as u64,
        whole: t.whole,
        pairs: t.pairs,
        switches: t.switches,
        signals: t.signals,
        sized: answers.sized,
    }
}

fn wire(loom: &Loom, stock: &Stock, a: &job::study::WireAnswer) -> WireJson {
    let w = loom.wire(a.wire);
    let c = &stock.conductors[a.conductor];
    let awg = match c.size {
        WireSize::Gauge(Gauge(n)) => Some(Gauge(n).to_string()),
        WireSize::Metric(_) => None,
    };
    WireJson {
        name: w.name.clone(),
        from: loom.pin_name(w.from),
        to: loom.pin_name(w.to),
        area_mm2: rounded(in_mm2(c.area)),
        awg,
        length_m: rounded(quantity::Quantity::si(w.length)),
        cut_m: rounded(quantity::Quantity::si(w.cut)),
        amps: rounded(a.amps),
        celsius: rounded(a.celsius),
        limit_celsius: rounded(a.limit_celsius),
        drop_v: rounded(a.drop_v),
        fuse: w.fuse.map(|f| loom.part(f).name.clone()),
        governed_by: a.governed_by.clone(),
        colour: w.colour.to_string(),
        stock: c.id.clone(),
    }
}

fn load(loom: &Loom, answers: &Answers, a: &LoadAnswer) -> LoadJson {
    let p = loom.part(a.part);
    let sight = |s: &Sight| SightJson {
        state: answers.states[s.state].state.name.clone(),
        volts: rounded(s.volts),
        amps: rounded(s.amps),
    };
    LoadJson {
        name: p.name.clone(),
        circuit: p
            .circuit
            .map_or_else(String::new, |c| loom.circuits[c].name.clone()),
        state: answers.states[a.state].state.name.clone(),
        volts: rounded(a.volts),
        amps: rounded(a.amps),
        drop_percent: rounded(a.drop_percent),
        limit_percent: rounded(a.limit_percent),
        usual: a.seen.map(|s| sight(&s.usual)),
        worst: a.seen.map(|s| sight(&s.worst)),
        best: a.seen.map(|s| sight(&s.best)),
    }
}

fn fuse(loom: &Loom, a: &job::study::FuseAnswer) -> FuseJson {
    let p = loom.part(a.part);
    let seat = match &p.kind {
        job::loom::PartKind::Fuse(f) => f.way,
        _ => None,
    };
    FuseJson {
        name: p.name.clone(),
        in_box: seat.map(|(b, _)| loom.part(b).label.clone()),
        way: seat.map(|(_, w)| w),
        rating_a: rounded(a.rating_a),
        amps: rounded(a.amps),
        protects: a
            .protects
            .iter()
            .map(|w| loom.wire(*w).name.clone())
            .collect(),
    }
}
