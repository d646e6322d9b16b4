//! The order of the work, each step with its picture.

use super::Whole;
use crate::content::{Block, Section};

const SAYS: &str = "In this order. In the pictures what a step brings is marked, what is there already is drawn full, what is still to come is faint. \
Tick a step when its check is passed, not before.";

pub(super) fn section(w: &Whole) -> Section {
    let mut blocks = vec![Block::Text(SAYS.to_owned())];
    let mut stage = None;
    for (i, step) in w.steps.iter().enumerate() {
        if stage != Some(step.stage) {
            blocks.push(Block::Break);
            blocks.push(Block::Heading(step.stage.words().to_owned()));
            stage = Some(step.stage);
        }
        blocks.push(Block::Heading(format!("☐ {}  {}", i + 1, step.title)));
        let pictures = w.pictures.get(i).into_iter().flatten();
        blocks.extend(pictures.cloned().map(Block::Picture));
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
        blocks.push(Block::Terms(terms.collect()));
    }
    Section {
        id: "steps",
        title: "Build steps".to_owned(),
        blocks,
    }
}
