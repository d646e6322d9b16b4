//! The circuit diagram in current-path form: rails at the top, the body at the bottom, every way of the
//! current straight down between them. Takes loom, answers and stock, gives sheets.

#[cfg(test)]
mod check;
mod draw;
mod layout;
mod live;
mod path;
mod symbol;
mod tips;

#[cfg(test)]
pub(crate) mod tests;

use crate::{Sheet, Title};
use loom::Loom;
use stock::Stock;
use study::Answers;

pub use draw::Shown;
pub use live::{Going, Worked};
pub use tips::Tip;

/// A picture of the work under way.
pub struct Picture<'a> {
    /// Begins the names of its sheets: "step-3".
    pub name: String,
    /// How far the work has come with each wire and part.
    pub shown: &'a dyn Fn(&str) -> Shown,
}

/// By picture: the circuits as far as the work has come, of each sheet on which something is new; the first where nothing is.
pub fn circuit_so_far(
    (loom, answers, stock): (&Loom, &Answers, &Stock),
    title: &Title,
    pictures: &[Picture],
) -> Vec<Vec<Sheet>> {
    let blocks = path::blocks(loom);
    let words = layout::Words::new(loom, answers, stock);
    let sheets = layout::layouts(&blocks, &words, title);
    let picture = |picture: &Picture| {
        let draw = |layout: &layout::Layout| {
            let name = format!("{}-{}", picture.name, layout.number);
            let heading = format!("{}: circuits so far, sheet {}", title.title, layout.number);
            draw::so_far(layout, &name, &heading, picture.shown)
        };
        let new = |layout: &&layout::Layout| draw::any_new(layout, picture.shown);
        let brings: Vec<Sheet> = sheets.iter().filter(new).map(draw).collect();
        match brings.is_empty() {
            true => sheets.iter().take(1).map(draw).collect(),
            false => brings,
        }
    };
    pictures.iter().map(picture).collect()
}

/// The circuit diagram: as many sheets as it takes, in order.
pub fn circuit(loom: &Loom, answers: &Answers, stock: &Stock, title: &Title) -> Vec<Sheet> {
    let blocks = path::blocks(loom);
    let words = layout::Words::new(loom, answers, stock);
    let sheets = layout::layouts(&blocks, &words, title);
    sheets.iter().map(|s| draw::sheet(s, title)).collect()
}

/// The circuit diagram as it is in a state, without what stands beside the circuits: by name of wire or part, what is to be
/// seen of it. `tips`: where a meter is held.
pub fn circuit_live(
    (loom, answers, stock): (&Loom, &Answers, &Stock),
    title: &Title,
    going: &dyn Fn(&str) -> Going,
    tips: &[Tip],
) -> Vec<Sheet> {
    let blocks = path::blocks(loom);
    let words = layout::Words::new(loom, answers, stock);
    let sheets = layout::layouts(&blocks, &words, title);
    let sheet = |s: &layout::Layout| live::sheet(s, title, going, tips);
    sheets.iter().map(sheet).collect()
}
