//! Proving: the bench of a job, its test sheet, and what a record comes to.

use crate::Job;
use crate::record::{Entry, Heard, hear};
use loom::{Loom, PinId};
use pack::{Content, ToBeMade};
use sheet::{Sheet, Tip};
use study::prove::{Answered, Bench, Kept, Probe, Sheet as TestSheet, answer, sheet};

/// What a record comes to on a job.
pub struct Proved<'a> {
    /// The bench.
    pub bench: Bench<'a>,
    /// The test sheet.
    pub sheet: &'a TestSheet,
    /// What the record says.
    pub heard: Heard,
    /// What that comes to.
    pub answered: Answered,
}

impl Job {
    /// The bench of this job; what it solves is kept with the job.
    pub fn bench(&self) -> Option<Bench<'_>> {
        let (loom, habits, answers) = (self.loom()?, self.habits()?, self.answers()?);
        let kept: &Kept = &self.solved;
        Some(Bench::new(loom, self.stock(), habits, answers).knowing(kept))
    }

    /// The test sheet, worked out when first asked for.
    pub fn test_sheet(&self, tell: &(dyn Fn(usize, usize) + Sync)) -> Option<&TestSheet> {
        let bench = self.bench()?;
        Some(self.test_sheet.get_or_init(|| sheet(&bench, tell)))
    }

    /// What a record comes to.
    pub fn proved(&self, entries: &[Entry]) -> Option<Proved<'_>> {
        let bench = self.bench()?;
        let sheet = self.test_sheet(&|_, _| {})?;
        let text = self.sources().first().map_or("", |s| s.text.as_str());
        let heard = hear(&bench, text, entries);
        let answered = answer(&bench, sheet, &heard.evidence);
        Some(Proved {
            bench,
            sheet,
            heard,
            answered,
        })
    }

    /// The same in words and tables; with the drawings of where the next tips go, if they are handed in.
    pub fn proof_report(&self, proved: &Proved, pictures: &[Sheet]) -> Option<Content> {
        let told = pack::Proving {
            bench: &proved.bench,
            sheet: proved.sheet,
            answered: &proved.answered,
            passed_over: &proved.heard.passed_over,
            of_another: proved.heard.of_another,
            seen: &proved.heard.evidence.symptoms,
            pictures,
        };
        Some(pack::proving(&self.subject()?, &told))
    }

    /// The test sheet to be filled in by hand, with a drawing for each setting on which all that is measured in it is marked.
    pub(crate) fn to_be_proved<'a>(&'a self, bench: &'a Bench<'a>) -> Option<ToBeMade<'a>> {
        let sheet = self.test_sheet(&|_, _| {})?;
        let settings = bench.settings.iter().enumerate();
        let pictures = settings.map(|(setting, s)| {
            let tests = sheet.tests.iter().map(|t| bench.tests[*t]);
            let here = tests.filter(|t| t.setting == setting);
            let mut names: Vec<String> = here.flat_map(|t| t.probe.names(bench.loom())).collect();
            names.sort();
            names.dedup();
            match names.is_empty() {
                true => Vec::new(),
                false => self.marked(&s.state, &names, &[]),
            }
        });
        Some(ToBeMade {
            bench,
            sheet,
            pictures: pictures.collect(),
        })
    }

    /// Where the tips of a probing go, on the circuit diagram.
    pub fn probing_picture(&self, bench: &Bench, test: usize) -> Vec<Sheet> {
        let Some(t) = bench.tests.get(test) else {
            return Vec::new();
        };
        let names = t.probe.names(bench.loom());
        let tips = tips(bench.loom(), t.probe);
        self.marked(&bench.settings[t.setting].state, &names, &tips)
    }
}

/// Where the tips of a probe go, by part and wire.
fn tips(loom: &Loom, probe: Probe) -> Vec<Tip> {
    let at = |pin: PinId, letter| {
        let part = loom.part_of(pin);
        let on_it = |w: &&loom::Wire| w.from == pin || w.to == pin;
        let wires = loom.wires.iter().filter(on_it).map(|w| w.name.clone());
        Tip {
            part: Some(part.name.clone()),
            wires: wires.collect(),
            low: part.pins.first() != Some(&pin),
            letter,
        }
    };
    match probe {
        Probe::Volts(a, b) => vec![at(a, "R"), at(b, "B")],
        Probe::Ohms(a) => vec![at(a, "Ω")],
        Probe::Amps(w) => vec![Tip {
            part: None,
            wires: vec![loom.wire(w).name.clone()],
            low: false,
            letter: "A",
        }],
        Probe::Drain | Probe::NewFuse(_) | Probe::NewFuseAlone(_) => Vec::new(),
    }
}
