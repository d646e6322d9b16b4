//! The order of the work, each step with its picture.

use super::Whole;
use crate::content::{Block, Section};
use sheet::Sheet;
use study::StepSight;

const SAYS: &str = "In this order. In the pictures what a step brings is marked, what is there already is drawn full, what is still to come is faint; the loom board and the view from above are shown as they are. \
Tick a step when its check is passed, not before.";

/// A page holds so many lines; a picture is as tall as so many; a line holds so many letters.
const PAGE: usize = 60;
const PICTURE: usize = 37;
const LETTERS: usize = 100;

/// How many lines terms take.
fn tall(terms: &[(&'static str, Vec<String>)]) -> usize {
    let lines = terms.iter().flat_map(|(_, lines)| lines);
    lines
        .map(|line| line.chars().count().div_ceil(LETTERS))
        .sum()
}

/// Everything that some step wants, to be laid out beforehand.
fn tools(w: &Whole) -> String {
    let mut tools: Vec<&str> = Vec::new();
    for tool in w.steps.iter().flat_map(|s| &s.tools) {
        if !tools.contains(tool) {
            tools.push(tool);
        }
    }
    format!("Lay out before you begin: {}.", tools.join(", "))
}

/// A sheet once more: its ids may stand in a page once only.
fn again(sheet: &Sheet, step: usize) -> Sheet {
    let name = match sheet.name.starts_with("step-") {
        true => sheet.name.clone(),
        false => format!("step-{}-{}", step + 1, sheet.name),
    };
    let id = |stem: &str, what: &str| format!("{stem}-{what}");
    let mut svg = sheet.svg.clone();
    for what in ["title", "desc"] {
        svg = svg.replace(&id(&sheet.name, what), &id(&name, what));
    }
    Sheet {
        name,
        svg,
        ..sheet.clone()
    }
}

pub(super) fn section(w: &Whole) -> Section {
    let mut blocks = vec![Block::Text(SAYS.to_owned())];
    blocks.push(Block::Text(tools(w)));
    let mut stage = None;
    for (i, step) in w.steps.iter().enumerate() {
        if stage != Some(step.stage) {
            if stage.is_some() {
                blocks.push(Block::Break);
            }
            blocks.push(Block::Heading(step.stage.words().to_owned()));
            stage = Some(step.stage);
        }
        let mut one = vec![Block::Heading(format!("☐ {}  {}", i + 1, step.title))];
        let pictures: Vec<&Sheet> = match step.sight {
            StepSight::Circuit => w.pictures.get(i).into_iter().flatten().collect(),
            // The first shows the loom, the others the halves of its plugs.
            StepSight::Board => w.board.iter().take(1).collect(),
            StepSight::Route => w.route.iter().collect(),
        };
        one.extend(pictures.into_iter().map(|s| Block::Picture(again(s, i))));
        let care = step.cautions.iter().map(|c| (*c).to_owned()).collect();
        let with = match &step.tools[..] {
            [] => Vec::new(),
            tools => vec![tools.join(", ")],
        };
        let terms = [
            ("Care", care),
            ("Take", step.take.clone()),
            ("With", with),
            ("Do", step.act.clone()),
            ("Check", step.checks.clone()),
        ];
        let terms = terms
            .into_iter()
            .filter(|(_, lines): &(_, Vec<String>)| !lines.is_empty());
        let terms: Vec<_> = terms.collect();
        let tall = tall(&terms) + (one.len() - 1) * PICTURE;
        one.push(Block::Terms(terms));
        match tall <= PAGE {
            true => blocks.push(Block::Together(one)),
            false => blocks.extend(one),
        }
    }
    Section {
        id: "steps",
        title: "Build steps".to_owned(),
        blocks,
    }
}
