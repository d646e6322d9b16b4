//! Proving with a meter, in a person's words: the verdict, what may be amiss and what to measure next, the test sheet.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Content, Section, Table};
use crate::report::{self, Subject};
use crate::tables::columns;
use loom::{Loom, PartId, PinId};
use quantity::figures;
use sheet::Sheet;
use study::Limits;
use study::prove::{
    Advice, Answered, Bench, Outcome, Probe, Proof, Ranked, Row, STANDS_OUT, Sheet as TestSheet,
    Verdict,
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
    /// Where the next tips go.
    pub pictures: &'a [Sheet],
}

const HOW: &str = "Volts at the battery’s, the loads’ and the parts’ own terminals, the red tip on the first, the black on the second. \
Amperes by a clamp that was zeroed. What a sound installation reads lies within the band nearly always: it follows from how far lengths, \
copper, joints, contacts, loads, the battery’s charge and the meter itself may be from what is worked out. Only what a line names is switched on.";
const FIRST: &str = "Before the battery is connected: pull at every crimp, look along every wire, see that nothing live can touch the body. \
First power through a small fuse or a test lamp in place of the main fuse.";
/// The drops that service practice allows, for a first glance.
fn service() -> String {
    let limits = Limits::default();
    let [connection, cable, switch] =
        ["connection", "cable", "switch"].map(|of| limits.row(&format!("service drop, {of}")));
    format!(
        "Service practice, for a first glance under load: {} V over a connection, {} V over a cable, {} V over a switch or a contact ({}; {}).",
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

fn capital(words: &str) -> String {
    let mut chars = words.chars();
    chars.next().map_or_else(String::new, |c| {
        c.to_uppercase().collect::<String>() + chars.as_str()
    })
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
        true => "One stands out. What no reading tells apart stands together, with “or”.",
        false => "None stands out yet. What no reading tells apart stands together, with “or”.",
    };
    Section {
        id: "causes",
        title: "What may be amiss".into(),
        blocks: vec![
            Block::Text(says.into()),
            Block::Table(Table {
                columns: columns(&[("likely", R), ("what", L), ("it resists by, nine times in ten", L), ("what to do", L)]),
                rows,
            }),
            Block::Text("How often such things happen is taken from common practice, without a document: earths and joints first, more where it is wet, hot or handled.".into()),
        ],
    }
}

/// What is done for a probing, in a sentence.
pub fn words(bench: &Bench, test: usize) -> String {
    let t = bench.tests[test];
    format!(
        "#{} in “{}”: {}",
        test + 1,
        bench.settings[t.setting].state.name,
        probe_words(bench.loom(), t.probe)
    )
}

/// Where the tips go, in a phrase.
pub fn probe_words(loom: &Loom, probe: Probe) -> String {
    let part = |id: PartId| {
        let p = loom.part(id);
        match p.label.is_empty() {
            true => p.name.clone(),
            false => format!("{} ({})", p.name, p.label),
        }
    };
    let pin = |id: PinId| {
        let p = loom.pin(id);
        let at = loom.part(p.part);
        match p.part == PartId(0) {
            true => format!(
                "the battery’s {} post",
                if p.terminal == "30" {
                    "positive"
                } else {
                    "negative"
                }
            ),
            false => format!(
                "{} of {} ({}), {}",
                p.terminal,
                at.name,
                at.label,
                loom.place(at.place).name
            ),
        }
    };
    match probe {
        Probe::Volts(a, b) if loom.pin(a).part == loom.pin(b).part => {
            let [x, y] = [a, b].map(|p| loom.pin(p).terminal.clone());
            let of = loom.pin(a).part;
            match of == PartId(0) {
                true => "volts at the battery’s posts".to_owned(),
                false => format!("volts across {}, red on {x}, black on {y}", part(of)),
            }
        }
        Probe::Volts(a, b) => format!("volts, red on {}, black on {}", pin(a), pin(b)),
        Probe::Amps(w) => {
            let w = loom.wire(w);
            format!(
                "clamp around {} ({} to {})",
                w.name,
                loom.pin_name(w.from),
                loom.pin_name(w.to)
            )
        }
        Probe::Drain => {
            "the meter in the battery’s negative lead, amperes, after everything has gone to sleep; nothing is switched on with it there"
                .to_owned()
        }
        Probe::Ohms(p) => format!(
            "battery off, {} out, the loads behind it unplugged: ohms from {} to the battery’s negative post",
            part(loom.pin(p).part),
            pin(p)
        ),
        Probe::NewFuse(f) => format!("a new fuse in {}: does it hold (1) or open (0)?", part(f)),
        Probe::NewFuseAlone(f) => format!(
            "the loads behind it unplugged, a new fuse in {}: does it hold (1) or open (0)?",
            part(f)
        ),
    }
}

/// A reading with its unit: "12.4 V", "holds".
pub fn reading(probe: Probe, value: f64) -> String {
    match probe {
        Probe::Volts(..) => match value.abs() < 1.0 {
            true => format!("{:.0} mV", value * 1e3),
            false => format!("{value:.2} V"),
        },
        Probe::Amps(_) | Probe::Drain => match value.abs() < 0.995 {
            true => format!("{:.0} mA", value * 1e3),
            false => format!("{value:.1} A"),
        },
        Probe::Ohms(_) if value > 1e5 => "open".to_owned(),
        Probe::Ohms(_) => format!("{} Ω", figures(value, 2)),
        Probe::NewFuse(_) | Probe::NewFuseAlone(_) => {
            if value > 0.5 { "holds" } else { "opens" }.to_owned()
        }
    }
}

/// A band: "12.1 to 12.6 V".
pub fn band_words(probe: Probe, low: f64, high: f64) -> String {
    match probe {
        Probe::NewFuse(_) | Probe::NewFuseAlone(_) => reading(probe, 0.5 * (low + high)),
        _ => {
            let (low, high) = (reading(probe, low), reading(probe, high));
            if low == high {
                low
            } else {
                format!("{low} to {high}")
            }
        }
    }
}

fn next(p: &Proving, advice: &Advice) -> Section {
    let probe = p.bench.tests[advice.test].probe;
    let says = format!(
        "{}. It takes some {} min, and is expected to tell most per minute: {} bit of which cause it is.",
        capital(&words(p.bench, advice.test)),
        figures(advice.minutes, 2),
        figures(advice.bits, 2)
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
        blocks: sheet_blocks(p.bench, p.sheet, &p.answered.rows),
    }
}

/// The test sheet alone, with nothing read yet, to be filled in by hand; and what comes before the battery is connected.
pub(crate) fn to_be_made(s: &Subject, bench: &Bench, sheet: &TestSheet) -> Section {
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
    blocks.extend(sheet_blocks(bench, sheet, &rows));
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
            String::new(),
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

fn sheet_blocks(bench: &Bench, sheet: &TestSheet, all: &[Row]) -> Vec<Block> {
    let mut blocks = vec![Block::Text(HOW.into()), Block::Text(service())];
    for (setting, s) in bench.settings.iter().enumerate() {
        let here = all
            .iter()
            .filter(|r| bench.tests[r.test].setting == setting);
        let rows: Vec<Vec<String>> = here.map(|r| row(bench, r)).collect();
        if rows.is_empty() {
            continue;
        }
        blocks.push(Block::Heading(s.state.name.clone()));
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

fn row(bench: &Bench, r: &Row) -> Vec<String> {
    let probe = bench.tests[r.test].probe;
    vec![
        (r.test + 1).to_string(),
        probe_words(bench.loom(), probe),
        reading(probe, r.band.expected),
        band_words(probe, r.band.low, r.band.high),
        r.had.map(|(v, _)| reading(probe, v)).unwrap_or_default(),
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
