//! The outside's view of a check: keys carry their unit, may be added to, never renamed.

use job::loom::Loom;
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

#[derive(Serialize)]
struct FindingJson {
    id: String,
    weight: String,
    at: Vec<String>,
    says: String,
    mend: String,
    source: String,
}

#[derive(Serialize)]
struct AssumedJson {
    what: String,
    value: String,
    source: String,
    basis: String,
    set: String,
}

/// Figures that mean something: six significant, so that output stays the same to the byte between machines.
fn rounded(v: f64) -> f64 {
    if v == 0.0 || !v.is_finite() {
        return 0.0;
    }
    let scale = 10f64.powi(5 - v.abs().log10().floor() as i32);
    (v * scale).round() / scale
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

fn load(loom: &Loom, answers: &Answers, a: &job::study::LoadAnswer) -> LoadJson {
    let p = loom.part(a.part);
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

fn finding(f: &job::Finding) -> FindingJson {
    FindingJson {
        id: f.id.to_owned(),
        weight: f.weight.to_string(),
        at: f.names().to_vec(),
        says: f.says.clone(),
        mend: f.mend.clone(),
        source: f.source.clone(),
    }
}

fn assumed(a: &job::loom::Assumption) -> AssumedJson {
    AssumedJson {
        what: a.what.clone(),
        value: a.value.clone(),
        source: a.source.clone(),
        basis: a.basis.to_string(),
        set: a.set.clone(),
    }
}

/// Prints an object, or says that it can't.
pub fn print(value: &impl Serialize) {
    match serde_json::to_string_pretty(value) {
        Ok(text) => anstream::println!("{text}"),
        Err(e) => crate::show::complain(
            &format!("the answer can't be written as JSON: {e}"),
            "report this as a defect",
        ),
    }
}
