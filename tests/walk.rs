//! A plan walked through the whole program, with short ways to what a check asks for. Everything goes
//! through `job`, as a face would.

use finding::{Finding, Weight};
use job::{Job, Source};
use loom::{Loom, PartId, Wire, WireId};
use std::cell::OnceCell;
use stock::Stock;
use study::{Answers, FuseAnswer, LoadAnswer, PartAnswer, WireAnswer};

/// A plan and what became of it.
pub(crate) struct Walk {
    text: String,
    job: Job,
    /// What trying every fault finds, once somebody asks.
    tried: OnceCell<Vec<Finding>>,
}

fn source(name: &str, text: &str) -> Source {
    Source {
        name: name.to_owned(),
        text: text.to_owned(),
    }
}

impl Walk {
    /// Walks a plan with the stock that comes with the program.
    pub(crate) fn of(plan: &str) -> Self {
        Self::with_stock(plan, &[])
    }

    /// Walks a plan with the user's own stock files laid over.
    pub(crate) fn with_stock(plan: &str, files: &[String]) -> Self {
        let files = files.iter().map(|text| source("stock", text)).collect();
        Self {
            text: plan.to_owned(),
            job: Job::read(source("plan", plan), files),
            tried: OnceCell::new(),
        }
    }

    pub(crate) fn job(&self) -> &Job {
        &self.job
    }

    pub(crate) fn stock(&self) -> &Stock {
        self.job.stock()
    }

    /// The errors of all texts.
    pub(crate) fn errors(&self) -> Vec<&Finding> {
        self.job.errors().into_iter().map(|t| &t.finding).collect()
    }

    pub(crate) fn has_error(&self, id: &str) -> bool {
        self.errors().iter().any(|e| e.id == id)
    }

    /// The loom; a plan that has none is a mistake in the check.
    pub(crate) fn loom(&self) -> &Loom {
        self.job
            .loom()
            .unwrap_or_else(|| panic!("no loom: {:#?}", self.errors()))
    }

    pub(crate) fn answers(&self) -> &Answers {
        self.job
            .answers()
            .unwrap_or_else(|| panic!("no answers: {:#?}", self.errors()))
    }

    pub(crate) fn findings(&self) -> &[Finding] {
        &self.answers().findings
    }

    /// What trying every fault finds, with the mends that were tried.
    pub(crate) fn found_by_trying(&self) -> &[Finding] {
        self.tried.get_or_init(|| {
            let tries = self.job.tries(&|_, _| {});
            let tries = tries.unwrap_or_else(|| panic!("no faults tried: {:#?}", self.errors()));
            let mended = self.job.mended(&tries, &|_, _| {});
            mended.into_iter().map(|m| m.finding).collect()
        })
    }

    pub(crate) fn finds(&self, id: &str) -> bool {
        self.findings().iter().any(|f| f.id == id)
    }

    pub(crate) fn wire(&self, name: &str) -> &Wire {
        let found = self.loom().wire_named(name).map(|id| self.loom().wire(id));
        found.unwrap_or_else(|| panic!("no wire {name}"))
    }

    pub(crate) fn fuse(&self, name: &str) -> &FuseAnswer {
        self.fuse_of(name)
            .unwrap_or_else(|| panic!("no fuse {name}"))
    }

    /// The answer for a wire, if there is one of that name.
    pub(crate) fn wire_of(&self, name: &str) -> Option<(&Wire, &WireAnswer)> {
        let id: WireId = self.loom().wire_named(name)?;
        let answer = self.answers().wires.iter().find(|w| w.wire == id)?;
        Some((self.loom().wire(id), answer))
    }

    pub(crate) fn part_of(&self, name: &str) -> Option<PartId> {
        self.loom().part_named(name)
    }

    pub(crate) fn fuse_of(&self, name: &str) -> Option<&FuseAnswer> {
        let id = self.part_of(name)?;
        self.answers().fuses.iter().find(|f| f.part == id)
    }

    pub(crate) fn load_of(&self, name: &str) -> Option<&LoadAnswer> {
        let id = self.part_of(name)?;
        self.answers().loads.iter().find(|l| l.part == id)
    }

    pub(crate) fn switchgear_of(&self, name: &str) -> Option<&PartAnswer> {
        let id = self.part_of(name)?;
        self.answers().parts.iter().find(|p| p.part == id)
    }

    /// The lines of the plan, from 1, that a finding speaks of.
    pub(crate) fn lines(&self, f: &Finding) -> Vec<usize> {
        let line = |s: finding::Span| s.line_column(&self.text).0;
        if let Some(span) = f.span() {
            return vec![line(span)];
        }
        let (Some(loom), Some(plan)) = (self.job.loom(), self.job.plan()) else {
            return Vec::new();
        };
        let mut lines = Vec::new();
        for name in f.names() {
            let part = loom.part_named(name).map(|p| loom.part(p).span);
            let wire = plan
                .wires
                .iter()
                .find(|w| w.name.value == *name)
                .map(|w| w.name.span);
            let place = plan
                .places
                .iter()
                .find(|p| p.name.value == *name)
                .map(|p| p.name.span);
            let panels = plan.stretches.iter().filter_map(|s| s.through.as_ref());
            let panel = panels.into_iter().find(|p| p.name == *name).map(|p| p.span);
            lines.extend([part, wire, place, panel].into_iter().flatten().map(line));
        }
        lines
    }

    /// Whether anything found stops.
    pub(crate) fn stops(&self) -> Vec<&Finding> {
        self.findings()
            .iter()
            .filter(|f| f.weight == Weight::Stop)
            .collect()
    }
}

#[test]
fn a_plan_made_of_a_few_answers_and_three_lamps_is_sound_on_every_vehicle() {
    use job::plan::form::{Edit, Start, edited, start};
    use job::plan::{Chemistry, Outline};
    for (word, outline) in Outline::WORDS {
        let begun = start(&Start {
            title: word.to_owned(),
            vehicle: String::new(),
            outline,
            volts: 12,
            capacity: "70 Ah".to_owned(),
            chemistry: Chemistry::Flooded,
            cranking: String::new(),
            alternator: "90 A".to_owned(),
        });
        let (at, earth, dash) = match outline {
            Outline::Car => ("boot", "boot", "dash"),
            Outline::Boat => ("mast", "negative bar", "helm"),
            Outline::Trailer => ("rear", "negative bar", "front wall"),
            _ => ("rear", "rear", "dash"),
        };
        let answers = [
            ("name", "lamps"),
            ("load.kind", "LED lamp"),
            ("load.rated", "20 W"),
            ("load.count", "3"),
            ("load.place", at),
            ("box", "fuse box"),
            ("how", "relay"),
            ("switch.place", dash),
            ("earth", earth),
        ];
        let answers = answers.map(|(k, v)| (k.to_owned(), vec![v.to_owned()]));
        let list = "circuit".to_owned();
        let add = Edit::Add {
            list,
            answers: answers.to_vec(),
        };
        let text = edited(&begun, &add).expect("it takes a circuit");
        let name = word.to_owned();
        let job = job::Job::read(job::Source { name, text }, Vec::new());
        let answers = job.answers().expect("it can be worked out");
        let heavy: Vec<&str> = answers
            .findings
            .iter()
            .filter(|f| f.weight != job::Weight::Note)
            .map(|f| f.says.as_str())
            .collect();
        assert!(heavy.is_empty(), "{word}: {heavy:?}");
    }
}
