//! The wire that each plan takes.

use super::{Two, beside};
use crate::content::{Block, Section};
use quantity::figures;

/// Wires, metres, copper, sizes, and what goes through panels.
pub(super) fn section(two: &Two) -> Section {
    let c = two.compared;
    let [first, second] = two.names;
    let [a, b] = c.metres;
    let (more, less) = if a < b {
        (second, first)
    } else {
        (first, second)
    };
    let apart = figures((a - b).abs(), 3);
    let says = if (a - b).abs() < super::NO_WIRE {
        format!("Both take {} m of wire.", figures(a, 3))
    } else {
        format!("“{more}” takes {apart} m of wire more than “{less}”.")
    };
    let whole = |what: &str, n: [usize; 2]| row(what, n.map(|n| n.to_string()));
    let mut rows = vec![
        whole("wires", c.wires),
        row("wire to cut, m", c.metres.map(|m| figures(m, 3))),
        row("copper in it, kg", c.copper_kg.map(|kg| figures(kg, 3))),
        whole("wires through a panel", c.through_panels),
        whole("of these live with every switch off", c.live_through_panels),
    ];
    let sizes = c.sizes.iter().map(|(size, metres)| {
        let each = metres.map(|m| match m {
            0.0 => "–".into(),
            m => figures(m, 3),
        });
        row(&format!("of {size}, m"), each)
    });
    rows.extend(sizes);
    Section {
        id: "wire",
        title: "What each takes of wire".into(),
        blocks: vec![Block::Text(says), Block::Table(beside(two.names, rows))],
    }
}

fn row(what: &str, each: [String; 2]) -> Vec<String> {
    let [a, b] = each;
    vec![what.to_owned(), a, b]
}
