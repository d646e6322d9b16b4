//! Proving with a meter, in a person's words: the verdict, what may be amiss and what to measure next, the test sheet.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Content, Section, Table};
use crate::probing::{band_words, capital, probe_words, reading, setting_words, words};
use crate::report::{self, Subject};
use crate::tables::columns;
use quantity::figures;
use sheet::Sheet;
use study::Limits;
use study::prove::{
    Advice, Answered, Bench, Outcome, Probe, Proof, Ranked, Row, STANDS_OUT, Sheet as TestSheet,
    Symptom, Verdict,
};

/// What is told.
pub struct Proving<'a> {
    /// The bench.
    pub bench: &'a Bench<'a>,
    /// The test sheet.
    pub sheet: &'a TestSheet,
    /// What was worked out.
    pub answered: &'a Answered,
    /// What the record names that this plan does not have.
    pub passed_over: &'a [String],
    /// How many entries were made of another version of the plan.
    pub of_another: usize,
    /// What was seen without a meter.
    pub seen: &'a [Symptom],
    /// Where the next tips go.
    pub pictures: &'a [Sheet],
}

const HOW: &str = "Volts at the battery’s, the loads’ and the parts’ own terminals, the red tip on the first, the black on the second. \
Amperes by a clamp that was zeroed. What a sound installation reads lies within the band nearly always: it follows from how far lengths, \
copper, joints, contacts, loads, the battery’s charge and the meter itself may be from what is worked out. Small voltages want the meter’s millivolt range. \
Plugs stay pushed together: the tips go in from behind, beside the wires. Only what a line names is switched on.";
const FIRST: &str = "Before the battery is connected: pull at every crimp, look along every wire, see that nothing live can touch the body. \
First power through a small fuse or a test lamp in place of the main fuse.";

/// The drops that service practice allows, for a first glance.
fn service() -> String {
    let limits = Limits::default();
    let [connection, cable, switch] =
        ["connection", "cable", "switch"].map(|of| limits.row(&format!("service drop, {of}")));
    format!(
        "Service practice, for a first glance under load: {} V over a connection, {} V over a cable, {} V over a switch or a contact ({}; {}). Where the band says otherwise the band rules: it knows how long the wire is and what flows.",
        connection.value, cable.value, switch.value, connection.source, connection.basis
    )
}

/// The whole of it.
pub fn proving(s: &Subject, p: &Proving) -> Content {
    let mut sections = vec![verdict(p)];
    if !p.answered.causes.is_empty() {
        sections.push(causes(p));
    }
    if let Some(advice) = &p.answered.next {
        sections.push(next(p, advice));
    }
    sections.push(test_sheet(p));
    sections.push(hidden(p));
    sections.push(report::cautions());
    s.content(Some("proved with a meter"), sections)
}

fn verdict(p: &Proving) -> Section {
    let a = p.answered;
    let made = p.sheet.tests.len()
        - match &a.proof {
            Proof::NotYet(missing) | Proof::NotProved { missing, .. } => missing.len(),
            _ => 0,
        };
    let mut says = vec![format!(
        "{}: {made} of {} tests of the sheet made.",
        capital(a.proof.word()),
        p.sheet.tests.len()
    )];
    if let Proof::Except(out) | Proof::NotProved { out, .. } = &a.proof {
        let words: Vec<String> = out.iter().map(|t| words(p.bench, *t)).collect();
        says.push(format!("Out: {}.", words.join("; ")));
    }
    let symptoms = &p.seen;
    if !symptoms.is_empty() {
        let loom = p.bench.loom();
        let each: Vec<String> = symptoms.iter().map(|s| s.says(loom)).collect();
        says.push(format!("Seen: {}.", each.join("; ")));
    }
    if let Some(test) = a.again {
        says.push(format!("Measure again first: {}.", words(p.bench, test)));
    }
    if a.fits_nothing {
        says.push("What was read fits nothing that is known here, not even two things amiss at once: measure again what is furthest out, and look whether what was built is what the plan says.".to_owned());
    }
    if p.of_another > 0 {
        says.push(format!("{} of what is counted here was noted of another version of the plan, and found again by its names.", p.of_another));
    }
    if !p.passed_over.is_empty() {
        says.push(format!(
            "Passed over, since the plan does not have it any more: {}.",
            p.passed_over.join("; ")
        ));
    }
    Section {
        id: "verdict",
        title: "Verdict".into(),
        blocks: says.into_iter().map(Block::Text).collect(),
    }
}

/// What a class of causes is, in a phrase.
pub fn cause_words(bench: &Bench, causes: &[usize]) -> String {
    let each: Vec<&str> = causes
        .iter()
        .map(|c| bench.causes[*c].says.as_str())
        .collect();
    match each.is_empty() {
        true => "nothing is amiss, or so little that no reading tells it".to_owned(),
        false => each.join(", and "),
    }
}

/// How likely, as a person reads it: "97 %", "under 1 %".
pub fn percent(p: f64) -> String {
    match p * 100.0 {
        p if p > 99.5 => "over 99 %".to_owned(),
        p if p < 1.0 => "under 1 %".to_owned(),
        p => format!("{p:.0} %"),
    }
}

/// "0.48 Ω (0.41 to 0.55)".
pub fn ohms_words((likely, low, high): (f64, f64, f64)) -> String {
    format!(
        "{} Ω ({} to {})",
        figures(likely, 2),
        figures(low, 2),
        figures(high, 2)
    )
}

fn causes(p: &Proving) -> Section {
    let mut rows = Vec::new();
    for class in &p.answered.causes {
        for (i, m) in class.members.iter().enumerate() {
            let mends: Vec<&str> = m.causes.iter().map(|c| p.bench.causes[*c].mend).collect();
            rows.push(vec![
                if i == 0 {
                    percent(class.probability)
                } else {
                    String::new()
                },
                if i == 0 {
                    String::new()
                } else {
                    "or ".to_owned()
                } + &cause_words(p.bench, &m.causes),
                m.ohms.map(ohms_words).unwrap_or_default(),
                mends.join("; "),
            ]);
        }
    }
    let stands = p
        .answered
        .causes
        .first()
        .is_some_and(|c: &Ranked| c.probability >= STANDS_OUT);
    let says = match stands {
        true => {
            "One stands out: mend it, then measure again what was out. What no reading tells apart stands together, with “or”."
        }
        false => "None stands out yet. What no reading tells apart stands together, with “or”.",
    };
    Section {
        id: "causes",
        title: "What may be amiss".into(),
        blocks: vec![
            Block::Text(says.into()),
            Block::Table(Table {
                columns: columns(&[("likely", R), ("what", L), ("resists by, from and to", L), ("what to do", L)]),
                rows,
            }),
            Block::Text("How often such things happen is taken from common practice, without a document: earths and joints first, more where it is wet, hot or handled.".into()),
        ],
    }
}

fn next(p: &Proving, advice: &Advice) -> Section {
    let probe = p.bench.tests[advice.test].probe;
    let says = format!(
        "{}. It takes some {} min.",
        capital(&words(p.bench, advice.test)),
        figures(advice.minutes, 2),
    );
    let mut blocks = vec![Block::Text(says)];
    let rows = advice.outcomes.iter().map(|o: &Outcome| {
        let speaks: Vec<String> = o
            .causes
            .iter()
            .take(3)
            .map(|c| cause_words(p.bench, c))
            .collect();
        let more = if o.causes.len() > 3 {
            format!("; and {} more", o.causes.len() - 3)
        } else {
            String::new()
        };
        vec![
            band_words(probe, o.low, o.high),
            percent(o.probability),
            speaks.join("; or ") + &more,
        ]
    });
    blocks.push(Block::Table(Table {
        columns: columns(&[("if it reads", L), ("likely", R), ("it speaks for", L)]),
        rows: rows.collect(),
    }));
    blocks.extend(p.pictures.iter().cloned().map(Block::Picture));
    Section {
        id: "next",
        title: "Measure next".into(),
        blocks,
    }
}

fn test_sheet(p: &Proving) -> Section {
    Section {
        id: "sheet",
        title: "Test sheet".into(),
        blocks: sheet_blocks(p.bench, p.sheet, (&p.answered.rows, &[])),
    }
}

/// A test sheet to be filled in by hand.
#[derive(Clone)]
pub struct ToBeMade<'a> {
    /// The bench.
    pub bench: &'a Bench<'a>,
    /// The test sheet.
    pub sheet: &'a TestSheet,
    /// By setting: the circuits as they then are, with all that is measured marked.
    pub pictures: Vec<Vec<Sheet>>,
}

/// The test sheet alone, with nothing read yet, and what comes before the battery is connected.
pub(crate) fn to_be_made(s: &Subject, of: &ToBeMade) -> Section {
    let ToBeMade {
        bench,
        sheet,
        pictures,
    } = of;
    let rows: Vec<Row> = sheet
        .tests
        .iter()
        .map(|t| Row {
            test: *t,
            band: bench.band(*t),
            had: None,
        })
        .collect();
    let mut blocks = before_power(s, bench);
    blocks.extend(sheet_blocks(bench, sheet, (&rows, pictures)));
    Section {
        id: "tests",
        title: "Test sheet".into(),
        blocks,
    }
}

/// What is tried before the battery is connected: nothing live touches the body, every way goes through.
fn before_power(s: &Subject, bench: &Bench) -> Vec<Block> {
    let ohms = (0..bench.tests.len()).filter(|t| matches!(bench.tests[*t].probe, Probe::Ohms(_)));
    let rows = ohms.map(|t| {
        let (probe, band) = (bench.tests[t].probe, bench.band(t));
        let least = match band.expected > 1e5 {
            true => "over 1 MΩ".to_owned(),
            false => band_words(probe, band.low, band.high),
        };
        vec![
            (t + 1).to_string(),
            probe_words(bench.loom(), probe),
            least,
            TO_WRITE.to_owned(),
        ]
    });
    let most = s
        .answers
        .wires
        .iter()
        .map(|w| bench.wire_ohms(w.wire))
        .fold(0.0, f64::max);
    vec![
        Block::Heading("Before the battery is connected".into()),
        Block::Text(FIRST.into()),
        Block::Text(format!(
            "Every wire from end to end: no more than {} Ω above what the leads alone read; an ohmmeter tells an open wire from a whole one, and no more. \
At every plug and load: the supply on the pin that is drawn so, before it is pushed together.",
            figures((most * 1.5).max(0.1), 1)
        )),
        Block::Table(Table {
            columns: columns(&[("#", R), ("what", L), ("sound", R), ("had", R)]),
            rows: rows.collect(),
        }),
        Block::Heading("With the battery connected".into()),
    ]
}

fn sheet_blocks(
    bench: &Bench,
    sheet: &TestSheet,
    (all, pictures): (&[Row], &[Vec<Sheet>]),
) -> Vec<Block> {
    let mut blocks = vec![Block::Text(HOW.into()), Block::Text(service())];
    for setting in 0..bench.settings.len() {
        let here = all
            .iter()
            .filter(|r| bench.tests[r.test].setting == setting);
        let rows: Vec<Vec<String>> = here.map(|r| row(bench, r)).collect();
        if rows.is_empty() {
            continue;
        }
        blocks.push(Block::Heading(capital(&setting_words(bench, setting))));
        blocks.push(Block::Table(Table {
            columns: columns(&[
                ("#", R),
                ("what", L),
                ("expect", R),
                ("sound from … to", R),
                ("had", R),
                ("verdict", L),
            ]),
            rows,
        }));
        let warm = bench.warmest(setting).map(|(wire, rise)| {
            format!(
                "After 20 minutes of it the warmest wire, {wire}, is some {} K above what is around it; no terminal more than 30 K (UL 310, read).",
                figures(rise, 2)
            )
        });
        blocks.extend(warm.map(Block::Text));
        let marked = pictures.get(setting).into_iter().flatten().cloned();
        blocks.extend(marked.map(Block::Picture));
    }
    let how = match sheet.proved {
        true => {
            "These tests together reveal everything that any reading here reveals; no fewer minutes would do, proved."
        }
        false => {
            "These tests together reveal everything that any reading here reveals; that no fewer minutes would do is not proved."
        }
    };
    blocks.push(Block::Text(how.into()));
    blocks
}

/// Room for a figure by hand.
const TO_WRITE: &str = "__________";

fn row(bench: &Bench, r: &Row) -> Vec<String> {
    let probe = bench.tests[r.test].probe;
    vec![
        (r.test + 1).to_string(),
        probe_words(bench.loom(), probe),
        reading(probe, r.band.expected),
        band_words(probe, r.band.low, r.band.high),
        r.had
            .map_or_else(|| TO_WRITE.to_owned(), |(v, _)| reading(probe, v)),
        r.had
            .map(|(_, v): (f64, Verdict)| v.word().to_owned())
            .unwrap_or_default(),
    ]
}

fn hidden(p: &Proving) -> Section {
    let list: Vec<String> = p
        .sheet
        .hidden
        .iter()
        .map(|c| p.bench.causes[*c].says.clone())
        .collect();
    let blocks = match list.is_empty() {
        true => vec![Block::Text("None: every single thing that may be amiss shows in some reading.".into())],
        false => vec![
            Block::Text("These show in no reading while everything else is sound: only looking at them tells.".into()),
            Block::List(list),
        ],
    };
    Section {
        id: "hidden",
        title: "What no reading reveals".into(),
        blocks,
    }
}
