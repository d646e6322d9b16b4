//! `supply --json`: what the supply answers over time. A time that never ends is null.

use super::{AssumedJson, assumed, ending, percent, rounded};
use job::SupplyAnswers;
use job::loom::{Loom, PartId};
use job::study::{self, ReserveRule, RunEnd};
use serde::Serialize;

/// `supply --json`.
#[derive(Serialize)]
pub struct SupplyJson {
    celsius: f64,
    usable_ah: f64,
    reserve: ReserveJson,
    balance: Vec<BalanceJson>,
    endurance: Vec<EnduranceJson>,
    parked: ParkedJson,
    recharge: Vec<RechargeJson>,
    day: Option<DayJson>,
    assumed: Vec<AssumedJson>,
    files: Vec<String>,
}

#[derive(Serialize)]
struct ReserveJson {
    percent: f64,
    rule: &'static str,
    cranking_volts: Option<f64>,
    source: String,
}

#[derive(Serialize)]
struct BalanceJson {
    supply: &'static str,
    gives_a: f64,
    vehicle_a: f64,
    added_a: f64,
    left_a: f64,
    volts: f64,
}

#[derive(Serialize)]
struct EnduranceJson {
    what: String,
    circuits: Vec<String>,
    supply: &'static str,
    amps: f64,
    hours: Option<f64>,
    to_percent: f64,
    ends: &'static str,
    cutout: Option<String>,
    load: Option<String>,
}

#[derive(Serialize)]
struct ParkedJson {
    vehicle_a: f64,
    added_a: f64,
    self_a: f64,
    days: Option<f64>,
    days_without: Option<f64>,
}

#[derive(Serialize)]
struct RechargeJson {
    supply: &'static str,
    from_percent: f64,
    to_percent: f64,
    amps: f64,
    hours: Option<f64>,
}

#[derive(Serialize)]
struct DayJson {
    parts: Vec<PartJson>,
    from_percent: f64,
    to_percent: f64,
    lowest_percent: f64,
    lowest_hour: f64,
    flat_hour: Option<f64>,
    no_start: Vec<NoStartJson>,
    cut_out: Vec<CutOutJson>,
    points: Vec<PointJson>,
}

#[derive(Serialize)]
struct PartJson {
    what: String,
    supply: &'static str,
    from_hour: f64,
    to_hour: f64,
    on: Vec<String>,
    amps: f64,
    to_percent: f64,
}

#[derive(Serialize)]
struct NoStartJson {
    hour: f64,
    what: String,
}

#[derive(Serialize)]
struct CutOutJson {
    hour: f64,
    circuit: String,
}

#[derive(Serialize)]
struct PointJson {
    hour: f64,
    percent: f64,
    volts: f64,
    amps: f64,
}

/// The object, with the files that were written beside it.
pub fn supply(loom: &Loom, a: &SupplyAnswers, files: Vec<String>) -> SupplyJson {
    let p = &a.parked;
    SupplyJson {
        celsius: rounded(a.celsius),
        usable_ah: rounded(a.usable_ah),
        reserve: reserve(&a.reserve),
        balance: a.balance.iter().map(balance).collect(),
        endurance: a.endurance.iter().map(|e| endurance(loom, e)).collect(),
        parked: ParkedJson {
            vehicle_a: rounded(p.vehicle_a),
            added_a: rounded(p.added_a),
            self_a: rounded(p.self_a),
            days: ending(p.days),
            days_without: p.days_without.and_then(ending),
        },
        recharge: a.recharge.iter().map(recharge).collect(),
        day: a.day.as_ref().map(day),
        assumed: a.assumptions.iter().map(assumed).collect(),
        files,
    }
}

fn reserve(r: &study::Reserve) -> ReserveJson {
    ReserveJson {
        percent: percent(r.charge),
        rule: match r.rule {
            ReserveRule::Said => "said",
            ReserveRule::Starter => "starter",
            ReserveRule::Practice => "practice",
            ReserveRule::Wear => "wear",
            ReserveRule::Never => "never",
        },
        cranking_volts: r.cranking_volts.map(rounded),
        source: r.source.clone(),
    }
}

fn balance(b: &study::Balance) -> BalanceJson {
    BalanceJson {
        supply: b.supply.word(),
        gives_a: rounded(b.gives_a),
        vehicle_a: rounded(b.vehicle_a),
        added_a: rounded(b.added_a),
        left_a: rounded(b.left_a),
        volts: rounded(b.volts),
    }
}

fn endurance(loom: &Loom, e: &study::Endurance) -> EnduranceJson {
    let circuits = e.circuits.iter().map(|c| loom.circuits[*c].name.clone());
    let name = |p: PartId| Some(loom.part(p).name.clone());
    let (ends, cutout, load) = match e.end {
        RunEnd::Reserve => ("reserve", None, None),
        RunEnd::CutOut(part) => ("cutout", name(part), None),
        RunEnd::TooLow(load) => ("too-low", None, name(load)),
        RunEnd::AtOnce => ("at-once", None, None),
        RunEnd::Never => ("never", None, None),
    };
    EnduranceJson {
        what: e.what.clone(),
        circuits: circuits.collect(),
        supply: e.supply.word(),
        amps: rounded(e.amps),
        hours: ending(e.hours),
        to_percent: percent(e.to_charge),
        ends,
        cutout,
        load,
    }
}

fn recharge(r: &study::Recharge) -> RechargeJson {
    RechargeJson {
        supply: r.supply.word(),
        from_percent: percent(r.from),
        to_percent: percent(r.to),
        amps: rounded(r.amps),
        hours: ending(r.hours),
    }
}

fn day(d: &study::Day) -> DayJson {
    let (charge, hour) = d.lowest;
    let no_start = d.no_start.iter().map(|(hour, what)| NoStartJson {
        hour: rounded(*hour),
        what: what.clone(),
    });
    let cut_out = d.cut_out.iter().map(|(hour, circuit)| CutOutJson {
        hour: rounded(*hour),
        circuit: circuit.clone(),
    });
    let points = d.points.iter().map(|p| PointJson {
        hour: rounded(p.hour),
        percent: percent(p.charge),
        volts: rounded(p.volts),
        amps: rounded(p.amps),
    });
    DayJson {
        parts: d.parts.iter().map(part).collect(),
        from_percent: percent(d.from),
        to_percent: percent(d.to),
        lowest_percent: percent(charge),
        lowest_hour: rounded(hour),
        flat_hour: d.flat.map(rounded),
        no_start: no_start.collect(),
        cut_out: cut_out.collect(),
        points: points.collect(),
    }
}

fn part(p: &study::DayPart) -> PartJson {
    PartJson {
        what: p.what.clone(),
        supply: p.supply.word(),
        from_hour: rounded(p.from_h),
        to_hour: rounded(p.to_h),
        on: p.on.clone(),
        amps: rounded(p.amps),
        to_percent: percent(p.charge),
    }
}
