//! `try --json`.

use super::{FindingJson, finding, rounded};
use job::study::{FAULTS, FaultDetail, Trial};
use job::{Job, Mended, Tries};
use serde::Serialize;

#[derive(Serialize)]
pub struct TriesJson {
    tried: usize,
    collapsed: usize,
    faults: Vec<FaultJson>,
    unasked: Vec<FaultJson>,
    findings: Vec<FindingJson>,
    mends: Vec<MendJson>,
    files: Vec<String>,
}

#[derive(Serialize)]
struct FaultJson {
    fault: String,
    at: String,
    state: String,
    outcome: String,
    opens: Option<String>,
    seconds: Option<f64>,
    peak_celsius: Option<f64>,
    peak_wire: Option<String>,
    says: String,
    /// Wire that is harmed.
    harmed: Option<String>,
    on_unasked: Vec<String>,
    lost: Vec<String>,
    /// Fuses that may open before the first that must.
    may_open_before: Vec<String>,
}

#[derive(Serialize)]
struct MendJson {
    at: Vec<String>,
    says: String,
    /// The first of what it changes in the plan.
    path: Option<String>,
    value: Option<String>,
    /// All that it changes, one after the other.
    changes: Vec<ChangeJson>,
    cures: bool,
}

#[derive(Serialize)]
struct ChangeJson {
    path: String,
    value: Option<String>,
}

#[derive(Serialize)]
pub struct CloselyJson {
    tried: usize,
    faults: Vec<CloseJson>,
    findings: Vec<FindingJson>,
    files: Vec<String>,
}

#[derive(Serialize)]
struct CloseJson {
    #[serde(flatten)]
    fault: FaultJson,
    moments: Vec<MomentJson>,
}

#[derive(Serialize)]
struct MomentJson {
    seconds: f64,
    fuses_a: Vec<(String, f64)>,
    wires_celsius: Vec<(String, f64)>,
    wires_a: Vec<(String, f64)>,
    loads_v: Vec<(String, f64)>,
}

fn change(c: &job::Change) -> ChangeJson {
    ChangeJson {
        path: c.path.clone(),
        value: c.value.clone(),
    }
}

/// Every fault.
pub fn tries(job: &Job, tries: &Tries, mended: &[Mended], files: Vec<String>) -> TriesJson {
    let all = tries.by_outcome();
    let of = |t: &&Trial| fault(job, &tries.cases[t.case], t);
    let mends = mended.iter().flat_map(|m| {
        m.mends.iter().map(|tried| MendJson {
            at: m.finding.names().to_vec(),
            says: tried.says.clone(),
            path: tried.changes.first().map(|c| c.path.clone()),
            value: tried.changes.first().and_then(|c| c.value.clone()),
            changes: tried.changes.iter().map(change).collect(),
            cures: tried.cures,
        })
    });
    TriesJson {
        tried: tries.tried,
        collapsed: tries.collapsed,
        unasked: all
            .iter()
            .filter(|t| !t.unasked.is_empty())
            .map(of)
            .collect(),
        faults: all.iter().map(of).collect(),
        findings: mended.iter().map(|m| finding(&m.finding)).collect(),
        mends: mends.collect(),
        files,
    }
}

/// Faults moment by moment.
pub fn closely(
    job: &Job,
    (tries, details): (&Tries, &[FaultDetail]),
    mended: &[Mended],
    files: Vec<String>,
) -> CloselyJson {
    let each = details.iter().map(|d| CloseJson {
        fault: fault(job, &d.case, &d.trial),
        moments: d.moments.iter().map(|m| moment(job, m)).collect(),
    });
    CloselyJson {
        tried: tries.tried,
        faults: each.collect(),
        findings: mended.iter().map(|m| finding(&m.finding)).collect(),
        files,
    }
}

fn fault(job: &Job, case: &job::study::FaultCase, t: &Trial) -> FaultJson {
    let part = |p: &job::loom::PartId| {
        job.loom()
            .map_or_else(String::new, |l| l.part(*p).name.clone())
    };
    let wire = |w: job::loom::WireId| {
        job.loom()
            .map_or_else(String::new, |l| l.wire(w).name.clone())
    };
    let state = job
        .answers()
        .map_or_else(String::new, |a| a.states[t.state].state.name.clone());
    FaultJson {
        fault: FAULTS[case.kind].id.to_owned(),
        at: case.at.clone(),
        state,
        outcome: t.outcome.word().to_owned(),
        opens: t.opens.as_ref().map(part),
        seconds: t.seconds.map(rounded),
        peak_celsius: t.peak.map(|p| rounded(p.1)),
        peak_wire: t.peak.map(|p| wire(p.0)),
        says: t.says.clone(),
        harmed: t.harmed.map(wire),
        on_unasked: t.unasked.iter().map(part).collect(),
        lost: t.dead.iter().map(part).collect(),
        may_open_before: t.sooner.iter().map(part).collect(),
    }
}

fn moment(job: &Job, m: &job::study::Moment) -> MomentJson {
    let part = |p: job::loom::PartId| {
        job.loom()
            .map_or_else(String::new, |l| l.part(p).name.clone())
    };
    let wire = |w: job::loom::WireId| {
        job.loom()
            .map_or_else(String::new, |l| l.wire(w).name.clone())
    };
    MomentJson {
        seconds: rounded(m.seconds),
        fuses_a: m
            .fuses
            .iter()
            .map(|(p, a)| (part(*p), rounded(*a)))
            .collect(),
        wires_celsius: m
            .wires
            .iter()
            .map(|(w, k, _)| (wire(*w), rounded(k - 273.15)))
            .collect(),
        wires_a: m
            .wires
            .iter()
            .map(|(w, _, a)| (wire(*w), rounded(*a)))
            .collect(),
        loads_v: m
            .loads
            .iter()
            .map(|(p, v)| (part(*p), rounded(*v)))
            .collect(),
    }
}
