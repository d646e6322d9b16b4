//! The pack: everything that goes to the vehicle, in the order in which it is wanted. What is in it is decided here once;
//! paper and phone show the same.
//!
//! | file | part |
//! |---|---|
//! | `steps` | the order of the work |
//! | `proof` | readings to expect, with room for those that are had |
//! | `card` | one side for the glovebox |
//! | `labels` | labels to cut out |
//! | `print` | sheets that are larger than the paper |

mod card;
mod labels;
mod print;
mod steps;

use crate::content::{Block, Content, Paper, Section};
use crate::lists;
use crate::proving::ToBeMade;
use crate::report::{self, Subject};
use sheet::Sheet;
use study::{BuildStep, Lists};

/// What a pack is made of.
#[derive(Clone)]
pub struct Whole<'a> {
    /// The job.
    pub subject: Subject<'a>,
    /// What to buy and cut.
    pub lists: &'a Lists,
    /// The order of the work.
    pub steps: &'a [BuildStep],
    /// The circuit diagram.
    pub circuit: &'a [Sheet],
    /// The loom board.
    pub board: &'a [Sheet],
    /// Where the loom runs.
    pub route: &'a [Sheet],
    /// Charts of what has least to spare.
    pub charts: &'a [Sheet],
    /// What the day comes to, in a sentence.
    pub day: Option<String>,
    /// The test sheet, if it is wanted.
    pub proof: Option<ToBeMade<'a>>,
    /// By step: the circuits as far as they have come.
    pub pictures: &'a [Vec<Sheet>],
    /// When it was made, in the words of whoever made it.
    pub date: Option<&'a str>,
    /// What it is printed on.
    pub paper: Paper,
}

/// A part that can be had alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// What can hurt; what was checked and what was not; findings with their reasons.
    Findings,
    /// The circuit diagram.
    Circuit,
    /// The loom board.
    Board,
    /// Where the loom runs.
    Route,
    /// What to buy and what to cut.
    Lists,
    /// The order of the work.
    Steps,
    /// Readings to expect.
    Proof,
    /// Where the volts go, each fuse and its wire, the day: what has least to spare of each.
    Charts,
    /// What was worked out; what was assumed, and from which sources.
    Figures,
    /// The glovebox card.
    Card,
    /// Labels.
    Labels,
}

/// All parts, in the pack's order.
pub const PARTS: [Part; 11] = [
    Part::Findings,
    Part::Circuit,
    Part::Board,
    Part::Route,
    Part::Lists,
    Part::Steps,
    Part::Proof,
    Part::Charts,
    Part::Figures,
    Part::Card,
    Part::Labels,
];

impl Part {
    /// Its word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Findings => "findings",
            Self::Circuit => "circuit",
            Self::Board => "board",
            Self::Route => "route",
            Self::Lists => "lists",
            Self::Steps => "steps",
            Self::Proof => "tests",
            Self::Charts => "charts",
            Self::Figures => "figures",
            Self::Card => "card",
            Self::Labels => "labels",
        }
    }
}

/// Said where no date was handed in.
const NO_DATE: &str = "Date: ____________    Made by: ____________";

/// The pack, or these parts of it.
pub fn whole(w: &Whole, parts: &[Part]) -> Content {
    let mut sections = Vec::new();
    for part in PARTS.iter().filter(|p| parts.contains(p)) {
        sections.extend(part_of(w, *part));
    }
    let all = parts.len() == PARTS.len();
    let date = w.date.map_or_else(
        || NO_DATE.to_owned(),
        |d| format!("Date: {d}    Made by: ____________"),
    );
    Content {
        date: all.then_some(date),
        paper: w.paper,
        ..w.subject.content(None, sections)
    }
}

fn drawn(id: &'static str, title: &str, sheets: &[Sheet]) -> Option<Section> {
    (!sheets.is_empty()).then(|| Section {
        id,
        title: title.to_owned(),
        blocks: sheets.iter().cloned().map(Block::Drawing).collect(),
    })
}

/// What is said above the charts.
const CHARTS: &str = "Those that have least to spare: where the volts of a circuit go from the battery out and back; how long a fuse takes to open beside how \
long its wire bears that; and the day, where one was planned.";

fn charts(sheets: &[Sheet], day: Option<&str>) -> Vec<Section> {
    if sheets.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![Block::Text(CHARTS.to_owned())];
    blocks.extend(day.map(|says| Block::Text(says.to_owned())));
    blocks.extend(sheets.iter().cloned().map(Block::Picture));
    vec![Section {
        id: "charts",
        title: "Charts".to_owned(),
        blocks,
    }]
}

fn part_of(w: &Whole, part: Part) -> Vec<Section> {
    let s = &w.subject;
    match part {
        Part::Findings => {
            let mut found: Vec<Section> = report::care(s).into();
            found.push(Section {
                id: "findings",
                title: report::tally(&s.answers.findings),
                blocks: vec![Block::Findings(s.answers.findings.clone())],
            });
            found.extend(print::section(w));
            found
        }
        Part::Circuit => drawn("diagram", "Circuit diagram", w.circuit)
            .into_iter()
            .collect(),
        Part::Board => drawn("board", "Loom board", w.board).into_iter().collect(),
        Part::Route => drawn("route", "Where it runs", w.route)
            .into_iter()
            .collect(),
        Part::Lists => lists::sections(s, w.lists)
            .into_iter()
            // Findings stand before everything already.
            .filter(|section| section.id != "heed")
            .collect(),
        Part::Steps => vec![steps::section(w)],
        Part::Proof => w
            .proof
            .iter()
            .map(|t| crate::proving::to_be_made(s, t))
            .collect(),
        Part::Charts => charts(w.charts, w.day.as_deref()),
        Part::Figures => report::figures(s).into(),
        Part::Card => vec![card::section(s)],
        Part::Labels => vec![labels::section(w)],
    }
}
