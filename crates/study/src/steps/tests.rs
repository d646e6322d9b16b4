//! The order of the work holds in every example: everything comes once, and nothing before what it needs.

use super::*;
use crate::design::Habits;
use crate::lists::lists;
use crate::study;
use loom::PartKind;
use plan::Plan;

const EXAMPLES: [&str; 3] = [
    include_str!("../../../../examples/farm.toml"),
    include_str!("../../../../examples/camper.toml"),
    include_str!("../../../../examples/lorry.toml"),
];

fn worked(text: &str) -> (Loom, Vec<Step>) {
    let stock = Stock::embedded();
    let plan = Plan::read(text).0.expect("the example reads");
    let loom = loom::build(&plan, &stock).0.expect("the example builds");
    let habits = Habits::of(&plan, &loom, &stock);
    let answers = study(&loom, &stock, &habits);
    let lists = lists(&loom, &stock, &habits, &answers);
    let all = steps(&loom, &stock, &answers, &lists);
    (loom, all)
}

/// Number of the step that brings a name.
fn when(all: &[Step], name: &str) -> Option<usize> {
    all.iter().position(|s| s.brings.iter().any(|b| b == name))
}

#[test]
fn everything_comes_once() {
    for text in EXAMPLES {
        let (loom, all) = worked(text);
        let ends = |part: &loom::Part| {
            let mut wires = loom.wires.iter();
            wires.any(|w| part.pins.contains(&w.from) || part.pins.contains(&w.to))
        };
        let parts = loom.parts.iter().filter(|p| ends(p)).map(|p| &p.name);
        for name in loom.wires.iter().map(|w| &w.name).chain(parts) {
            let each = all.iter().flat_map(|s| &s.brings);
            assert_eq!(each.filter(|b| *b == name).count(), 1, "{name}");
        }
    }
}

#[test]
fn earths_then_loads_then_switches_then_boxes_then_the_battery_then_fuses() {
    for text in EXAMPLES {
        let (loom, all) = worked(text);
        let rank = |kind: &PartKind| match kind {
            PartKind::Splice | PartKind::Connector { .. } => Some(1),
            PartKind::Earth(_) => Some(2),
            PartKind::Load(_) => Some(3),
            PartKind::Switch(_) => Some(4),
            PartKind::Box(_) => Some(5),
            PartKind::Battery { .. } => Some(6),
            PartKind::Fuse(f) if f.way.is_some() => Some(7),
            _ => None,
        };
        let mut by_rank: Vec<(u32, usize)> = Vec::new();
        for part in &loom.parts {
            by_rank.extend(rank(&part.kind).zip(when(&all, &part.name)));
        }
        for (a, at_a) in &by_rank {
            for (b, at_b) in &by_rank {
                assert!(a >= b || at_a < at_b, "{a} at {at_a}, {b} at {at_b}");
            }
        }
        let stages: Vec<Stage> = all.iter().map(|s| s.stage).collect();
        assert!(stages.is_sorted());
    }
}

#[test]
fn shrink_that_must_be_on_first_is() {
    let mut seen = 0;
    for text in EXAMPLES {
        for act in worked(text).1.iter().flat_map(|s| &s.act) {
            if let Some(thread) = act.find("thread ") {
                let crimp = act.find("crimp");
                assert!(crimp.is_some_and(|crimp| thread < crimp), "{act}");
                seen += 1;
            }
        }
    }
    assert!(seen > 3, "{seen}");
}
