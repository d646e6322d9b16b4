//! Labels of every wire's ends, each as often as it is wanted.

use super::Whole;
use crate::content::{Block, Section};

const SAYS: &str = "One for each end, which says the wire and the pin that the end goes to; wires with more labels get the rest along their way. \
Print, cut out, and put under clear shrink; or set them on a label printer.";

pub(super) fn section(w: &Whole) -> Section {
    let loom = w.subject.loom;
    let mut labels = Vec::new();
    for (wire, n) in loom.wires.iter().zip(&w.lists.labels) {
        let ends = [wire.from, wire.to].map(|pin| study::label_words(loom, &wire.name, pin));
        // A short wire has one, which names it alone.
        match *n as usize {
            0 => {}
            1 => labels.push(wire.name.clone()),
            n => {
                labels.extend(ends);
                labels.extend(std::iter::repeat_n(wire.name.clone(), n - 2));
            }
        }
    }
    Section {
        id: "labels",
        title: "Labels".to_owned(),
        blocks: vec![Block::Text(SAYS.to_owned()), Block::Labels(labels)],
    }
}
