//! What was done and read at the vehicle: entries in the order in which they were made, by the names that the plan had then.
//! How they are written to a file is the faces' own.

use study::prove::{Bench, Evidence, Measured, Symptom};

/// One thing that was noted.
#[derive(Clone, Debug, PartialEq)]
pub enum Noted {
    /// A step of the work was ticked, or its tick taken back.
    Tick {
        /// What it is called.
        what: String,
        /// Whether it is done.
        done: bool,
    },
    /// A reading.
    Reading {
        /// The probing by its name: "parked, rack lamps on | V F1:1 F1:2".
        test: String,
        /// What was read, in the unit of its probe.
        value: f64,
    },
    /// Something that was seen, by its word: "dead E1.1".
    Seen(String),
    /// Something was mended or a search begins anew: readings before it no longer count.
    Fresh,
    /// What was really fitted, put into the plan.
    Built {
        /// Where: "wire.\"W1.3\".size".
        path: String,
        /// What the plan said there; empty if nothing.
        was: String,
        /// What it says now.
        is: String,
    },
    /// In somebody's own words.
    Note(String),
}

/// An entry.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Seconds since 1970 by the clock of whoever noted it.
    pub time_s: u64,
    /// Who; empty if nobody said.
    pub who: String,
    /// Which version of the plan; empty of entries from before that was noted.
    pub plan: String,
    /// What.
    pub noted: Noted,
}

/// Tells one version of a plan from another (FNV-1a, 64 bits).
pub fn fingerprint(plan: &str) -> String {
    let bytes = plan.bytes();
    let hash = bytes.fold(0xcbf2_9ce4_8422_2325_u64, |h, b| {
        (h ^ u64::from(b)).wrapping_mul(0x0100_0000_01b3)
    });
    format!("{hash:016x}")
}

/// What a record comes to on a plan.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Heard {
    /// What counts, since a search began anew.
    pub evidence: Evidence,
    /// What names something that this plan does not have, in the words of the record.
    pub passed_over: Vec<String>,
    /// How many entries that count were made of another version of the plan.
    pub of_another: usize,
}

/// Finds what a record says by the names that a plan has now.
pub fn hear(bench: &Bench, plan: &str, entries: &[Entry]) -> Heard {
    let now = fingerprint(plan);
    let begin = entries
        .iter()
        .rposition(|e| e.noted == Noted::Fresh)
        .map_or(0, |at| at + 1);
    let mut heard = Heard::default();
    for e in &entries[begin..] {
        match &e.noted {
            Noted::Reading { test, value } => match bench.named(test) {
                Some(test) => heard.evidence.readings.push(Measured {
                    test,
                    value: *value,
                }),
                None => {
                    heard.passed_over.push(test.clone());
                    continue;
                }
            },
            Noted::Seen(word) => match Symptom::read(bench.loom(), word) {
                Some(symptom) if !heard.evidence.symptoms.contains(&symptom) => {
                    heard.evidence.symptoms.push(symptom)
                }
                Some(_) => {}
                None => {
                    heard.passed_over.push(word.clone());
                    continue;
                }
            },
            _ => continue,
        }
        heard.of_another += usize::from(e.plan != now);
    }
    // Of a probing that was made again the last reading counts.
    let readings = std::mem::take(&mut heard.evidence.readings);
    for (i, r) in readings.iter().enumerate() {
        if !readings[i + 1..].iter().any(|later| later.test == r.test) {
            heard.evidence.readings.push(*r);
        }
    }
    heard
}

/// What is ticked as done.
pub fn ticks(entries: &[Entry]) -> std::collections::BTreeSet<String> {
    let mut done = std::collections::BTreeSet::new();
    for e in entries {
        match &e.noted {
            Noted::Tick { what, done: true } => done.insert(what.clone()),
            Noted::Tick { what, done: false } => done.remove(what),
            _ => false,
        };
    }
    done
}
