//! `job`: the façade. Takes the text of a plan and of the user's stock files, walks it through every
//! room, gives what any face shows: findings, answers, drawings, pages. Every face and every test goes
//! through here.
//!
//! Absent from this room: how anything is worked out; files, clock and network; how a face shows it.

mod built;
mod drawings;
mod fall;
mod fault_charts;
mod faults;
mod lists;
mod live;
mod mend;
mod prove;
mod read;
pub mod record;
mod strike;
mod whole;

use std::sync::OnceLock;

pub use built::Built;
pub use fault_charts::FaultDrawings;
pub use finding::{At, Basis, Finding, Span, Weight, nearest};
pub use live::{Aim, Live, Press};
pub use loom::Loom;
pub use mend::{Change, Mend, Mended, Question, Remedied, Remedy};
pub use plan::{EditError, Editor, Plan};
pub use prove::Proved;
pub use read::reading;
pub use stock::{Listing, Stock, WHATS, list};
pub use strike::{Blow, Struck};
pub use study::{
    Answers, Comparison, LIST as FINDINGS, SupplyAnswers, TOLD as FAULT_FINDINGS, Tries,
};
pub use {finding, loom, pack, plan, quantity, sheet, stock, study};

pub use pack::Paper;
use pack::{Content, Section, Subject};
use sheet::{Sheet, Title};
use study::{Habits, Lists, Side, StateAnswer};

/// A text with its name, as a face hands it in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// Its name for messages, usually a path.
    pub name: String,
    /// Its text.
    pub text: String,
}

/// A finding in one of the texts.
#[derive(Clone, Debug)]
pub struct Told {
    /// Which source, 0 for the plan.
    pub source: usize,
    /// What.
    pub finding: Finding,
}

/// The embedded stock with the user's files laid over it in order, and every error in them.
pub fn laid_over(files: &[Source]) -> (Stock, Vec<Told>) {
    let mut stock = Stock::embedded();
    let mut told = Vec::new();
    for (source, file) in files.iter().enumerate() {
        told.extend(
            stock
                .overlay(&file.text)
                .into_iter()
                .map(|finding| Told { source, finding }),
        );
    }
    (stock, told)
}

/// One plan, walked as far as it goes.
pub struct Job {
    sources: Vec<Source>,
    told: Vec<Told>,
    stock: Stock,
    plan: Option<Plan>,
    loom: Option<Loom>,
    /// Whether the first sizes that hold are taken.
    at_once: bool,
    habits: OnceLock<Habits>,
    answers: OnceLock<Answers>,
    test_sheet: OnceLock<study::prove::Sheet>,
    /// What was solved for proving.
    solved: study::prove::Kept,
    lists: OnceLock<Lists>,
}

impl Job {
    /// Reads a plan and the user's stock files, and builds the loom if nothing stops it.
    pub fn read(plan: Source, stock_files: Vec<Source>) -> Self {
        let (stock, mut told) = laid_over(&stock_files);
        // The plan is source 0, so the stock files come one later.
        for t in &mut told {
            t.source += 1;
        }
        let (read, errors) = Plan::read(&plan.text);
        told.extend(
            errors
                .into_iter()
                .map(|finding| Told { source: 0, finding }),
        );
        let mut built = None;
        if let Some(plan) = &read {
            let (loom, found) = loom::build(plan, &stock);
            told.extend(found.into_iter().map(|finding| Told { source: 0, finding }));
            built = loom;
        }
        let mut sources = vec![plan];
        sources.extend(stock_files);
        Self {
            sources,
            told,
            stock,
            plan: read,
            loom: built,
            at_once: false,
            habits: OnceLock::new(),
            answers: OnceLock::new(),
            test_sheet: OnceLock::new(),
            solved: study::prove::Kept::default(),
            lists: OnceLock::new(),
        }
    }

    /// The same, for an answer at once: with the first sizes that hold, instead of the best.
    pub fn at_once(self) -> Self {
        Self {
            at_once: true,
            habits: OnceLock::new(),
            answers: OnceLock::new(),
            test_sheet: OnceLock::new(),
            solved: study::prove::Kept::default(),
            lists: OnceLock::new(),
            ..self
        }
    }

    /// Whether its sizes are the first that hold.
    pub fn is_at_once(&self) -> bool {
        self.at_once
    }

    /// The texts that were read, the plan first.
    pub fn sources(&self) -> &[Source] {
        &self.sources
    }

    /// What is wrong with the texts. When anything here stops, there is no loom and there are no answers.
    pub fn errors(&self) -> Vec<&Told> {
        self.told
            .iter()
            .filter(|t| t.finding.weight == Weight::Stop)
            .collect()
    }

    /// The stock, with the user's own laid over it.
    pub fn stock(&self) -> &Stock {
        &self.stock
    }

    /// The plan, if it could be read.
    pub fn plan(&self) -> Option<&Plan> {
        self.plan.as_ref()
    }

    /// The loom, if it could be built and no text has an error.
    pub fn loom(&self) -> Option<&Loom> {
        self.loom.as_ref().filter(|_| self.errors().is_empty())
    }

    /// The answers, worked out when first asked for.
    pub fn answers(&self) -> Option<&Answers> {
        let (habits, loom) = (self.habits()?, self.loom()?);
        Some(self.answers.get_or_init(|| {
            let mut answers = study::study(loom, &self.stock, habits);
            // What the loom noted on its way stands with what was found in it.
            let noted = self
                .told
                .iter()
                .filter(|t| t.finding.weight != Weight::Stop)
                .map(|t| t.finding.clone());
            answers.findings.extend(noted);
            answers.findings.sort_by_key(|f| f.weight);
            answers
        }))
    }

    /// Whether the answers were worked out already.
    pub fn is_answered(&self) -> bool {
        self.answers.get().is_some()
    }

    /// The plan's habits, its insulation settled.
    fn habits(&self) -> Option<&Habits> {
        let (plan, loom) = (self.plan.as_ref()?, self.loom()?);
        let settle = || match self.at_once {
            true => Habits::at_once(plan, loom, &self.stock),
            false => Habits::of(plan, loom, &self.stock),
        };
        Some(self.habits.get_or_init(settle))
    }

    /// A studied state with its network.
    pub fn network(&self, state: usize) -> Option<StateAnswer> {
        let habits = self.habits()?;
        let (loom, answers) = (self.loom()?, self.answers()?);
        study::with_network(loom, &self.stock, habits, answers, state)
    }

    /// The network of a studied state as a deck for a circuit simulator.
    pub fn deck(&self, state: usize) -> Option<String> {
        Some(study::deck(self.loom()?, &self.network(state)?))
    }

    fn subject(&self) -> Option<Subject<'_>> {
        Some(Subject {
            plan: self.plan.as_ref()?,
            loom: self.loom()?,
            stock: &self.stock,
            answers: self.answers()?,
        })
    }

    fn title(&self) -> Option<Title> {
        let job = &self.plan.as_ref()?.job;
        Some(Title {
            title: job.title.clone(),
            vehicle: job.vehicle.clone(),
            owner: job.owner.clone(),
        })
    }

    /// The report, with or without the drawings in it.
    pub fn report(&self, drawings: bool) -> Option<Content> {
        let sheets = if drawings { self.circuit() } else { Vec::new() };
        Some(pack::report(&self.subject()?, &sheets))
    }

    /// The supply over time, with the battery at a temperature; or the moment that could not be solved. None of a
    /// plan that can't be read or built.
    pub fn supply(
        &self,
        battery: quantity::ThermodynamicTemperature,
    ) -> Option<Result<SupplyAnswers, study::Amiss>> {
        let (loom, answers) = (self.loom()?, self.answers()?);
        Some(study::supply(
            loom,
            &self.stock,
            self.habits()?,
            answers,
            battery,
        ))
    }

    /// The chart of the plan's day.
    pub fn day_chart(&self, supply: &SupplyAnswers) -> Option<Sheet> {
        let title = self.title()?;
        supply
            .day
            .as_ref()
            .map(|day| sheet::day(day, supply.reserve.charge, &title))
    }

    /// What the supply answers, in a person's words, with the chart if it is handed in.
    pub fn supply_report(&self, supply: &SupplyAnswers, chart: Option<&Sheet>) -> Option<Content> {
        Some(pack::supply(&self.subject()?, supply, chart))
    }

    /// Wires and fuses that are others than before, where both could be sized.
    pub fn resized(&self, before: &Self) -> Vec<study::Resized> {
        let sides = before.side().zip(self.side());
        sides.map_or_else(Vec::new, |(before, now)| study::resized(&before, &now))
    }

    /// This plan beside another.
    pub fn compare(&self, other: &Self) -> Option<Comparison> {
        Some(study::compare(&self.side()?, &other.side()?))
    }

    fn side(&self) -> Option<Side<'_>> {
        Some(Side {
            loom: self.loom()?,
            stock: &self.stock,
            habits: self.habits()?,
            answers: self.answers()?,
        })
    }

    /// The name of the plan's file, without its folder.
    fn file_name(&self) -> &str {
        let name = self.sources.first().map_or("", |s| s.name.as_str());
        name.rsplit(['/', '\\']).next().unwrap_or(name)
    }

    /// The same in words and tables.
    pub fn comparison(&self, other: &Self, compared: &Comparison) -> Option<Content> {
        let files = [self.file_name(), other.file_name()];
        let sides = [&self.subject()?, &other.subject()?];
        Some(pack::comparison(sides, files, compared))
    }

    /// The whole reason of one wire, fuse, part or circuit, whatever the case of its name.
    pub fn why(&self, name: &str) -> Option<Section> {
        pack::why(&self.subject()?, name)
    }

    /// The name of a wire, part or circuit most like this one.
    pub fn nearest_name(&self, name: &str) -> Option<&str> {
        let loom = self.loom()?;
        let wires = loom.wires.iter().map(|w| w.name.as_str());
        let parts = loom.parts.iter().map(|p| p.name.as_str());
        let circuits = loom.circuits.iter().map(|c| c.name.as_str());
        nearest(name, wires.chain(parts).chain(circuits))
    }
}
