//! `prove --json`: the tests with what was read, what may be amiss, what to measure next.

use super::{ending, rounded};
use job::Proved;
use job::pack::{cause_words, probing_words};
use serde::Serialize;

/// `prove --json`.
#[derive(Serialize)]
pub struct ProveJson {
    verdict: &'static str,
    readings: Vec<ReadingJson>,
    causes: Vec<CauseJson>,
    fits_nothing: bool,
    next: Option<NextJson>,
    hidden: Vec<String>,
    passed_over: Vec<String>,
    of_another_version: usize,
    /// What is amiss with a vehicle to practise on, if that is asked.
    #[serde(skip_serializing_if = "Option::is_none")]
    amiss: Option<AmissJson>,
}

#[derive(Serialize)]
struct AmissJson {
    fault: &'static str,
    at: String,
    says: String,
}

#[derive(Serialize)]
struct ReadingJson {
    number: usize,
    test: String,
    says: String,
    unit: &'static str,
    expected: f64,
    low: f64,
    high: f64,
    measured: Option<f64>,
    verdict: Option<&'static str>,
}

#[derive(Serialize)]
struct CauseJson {
    fault: String,
    at: String,
    probability: f64,
    /// What no reading tells apart has one number.
    class: usize,
    says: String,
    ohms: Option<f64>,
    ohms_low: Option<f64>,
    ohms_high: Option<f64>,
    mend: String,
}

#[derive(Serialize)]
struct NextJson {
    number: usize,
    test: String,
    says: String,
    why: String,
    bits: f64,
    minutes: f64,
    outcomes: Vec<OutcomeJson>,
}

#[derive(Serialize)]
struct OutcomeJson {
    /// None where it has no end.
    low: Option<f64>,
    high: Option<f64>,
    probability: f64,
    speaks_for: Vec<String>,
}

/// From what was worked out; `amiss` with a vehicle to practise on, if that is asked.
pub fn prove(p: &Proved, amiss: Option<usize>) -> ProveJson {
    let (bench, a) = (&p.bench, &p.answered);
    let readings = a.rows.iter().map(|r| ReadingJson {
        number: r.test + 1,
        test: bench.name(r.test),
        says: probing_words(bench, r.test),
        unit: bench.tests[r.test].probe.unit(),
        expected: rounded(r.band.expected),
        low: rounded(r.band.low),
        high: rounded(r.band.high),
        measured: r.had.map(|(v, _)| rounded(v)),
        verdict: r.had.map(|(_, v)| v.word()),
    });
    let classes = a.causes.iter().enumerate();
    let causes = classes.flat_map(|(class, c)| c.members.iter().map(move |m| cause(p, class, m)));
    let hidden = p.sheet.hidden.iter();
    ProveJson {
        verdict: a.proof.word(),
        readings: readings.collect(),
        causes: causes.collect(),
        fits_nothing: a.fits_nothing,
        next: next(p),
        hidden: hidden.map(|c| bench.causes[*c].says.clone()).collect(),
        passed_over: p.heard.passed_over.clone(),
        of_another_version: p.heard.of_another,
        amiss: amiss.map(|c| &bench.causes[c]).map(|c| AmissJson {
            fault: c.kind,
            at: c.at.clone(),
            says: c.says.clone(),
        }),
    }
}

fn cause(p: &Proved, class: usize, m: &job::study::prove::Member) -> CauseJson {
    let each = |of: fn(&job::study::prove::Cause) -> &str| {
        let all: Vec<&str> = m.causes.iter().map(|c| of(&p.bench.causes[*c])).collect();
        all.join(" + ")
    };
    CauseJson {
        fault: match m.causes.is_empty() {
            true => "nothing".to_owned(),
            false => each(|c| c.kind),
        },
        at: each(|c| &c.at),
        probability: rounded(m.probability),
        class,
        says: cause_words(&p.bench, &m.causes),
        ohms: m.ohms.map(|o| rounded(o.0)),
        ohms_low: m.ohms.map(|o| rounded(o.1)),
        ohms_high: m.ohms.map(|o| rounded(o.2)),
        mend: each(|c| c.mend),
    }
}

fn next(p: &Proved) -> Option<NextJson> {
    let n = p.answered.next.as_ref()?;
    let outcomes = n.outcomes.iter().map(|o| OutcomeJson {
        low: ending(o.low),
        high: ending(o.high),
        probability: rounded(o.probability),
        speaks_for: o.causes.iter().map(|c| cause_words(&p.bench, c)).collect(),
    });
    Some(NextJson {
        number: n.test + 1,
        test: p.bench.name(n.test),
        says: probing_words(&p.bench, n.test),
        why: "expected to tell most per minute of which cause it is".to_owned(),
        bits: rounded(n.bits),
        minutes: rounded(n.minutes),
        outcomes: outcomes.collect(),
    })
}
