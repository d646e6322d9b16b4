//! Blocks in the order in which they stand: behind each feed its boxes, behind each box its circuits,
//! so that a rail is one unbroken line. Within a circuit the control stands left of what it controls.

use super::walk::{Entry, Walker};
use super::{Block, Column, Face, Foot, Item, Stand, Top};
use loom::{Loom, LoomCircuit, PartKind, PinId, Role};

/// All blocks of a loom.
pub(crate) fn blocks(loom: &Loom) -> Vec<Block> {
    let feeders = feeders(loom);
    let mut circuits: Vec<(Option<PinId>, Block)> =
        (0..loom.circuits.len()).map(|i| circuit(loom, i)).collect();
    let mut take = |rail: PinId| -> Vec<Block> {
        let (mine, others) = std::mem::take(&mut circuits)
            .into_iter()
            .partition(|(r, _)| *r == Some(rail));
        circuits = others;
        let mine: Vec<(Option<PinId>, Block)> = mine;
        mine.into_iter().map(|(_, b)| b).collect()
    };
    let mut out = Vec::new();
    let feeds = loom
        .parts
        .iter()
        .filter(|p| matches!(p.kind, PartKind::Battery { .. } | PartKind::Feed(_)));
    for feed in feeds {
        let rail = feed.pins[0];
        if matches!(feed.kind, PartKind::Battery { .. }) {
            out.push(battery(loom, feed.pins[0], feed.pins[1]));
        }
        for feeder in feeders.iter().filter(|f| f.top == Top::Rail(rail)) {
            let Foot::Bus(bus) = feeder.foot else {
                continue;
            };
            let served = take(bus);
            out.push(Block {
                heading: loom.part_of(bus).label.clone(),
                columns: vec![feeder.clone()],
                holds_next: !served.is_empty(),
            });
            out.extend(served);
        }
        out.extend(take(rail));
    }
    out.extend(circuits.into_iter().map(|(_, b)| b));
    out
}

/// The columns from feeds to boxes.
fn feeders(loom: &Loom) -> Vec<Column> {
    let mut walker = Walker::new(loom, None);
    for entry in walker.entries() {
        if !matches!(loom.part_of(entry.source).kind, PartKind::Earth(_)) {
            walker.walk(entry, Top::Rail(entry.source));
        }
    }
    walker.columns
}

/// The battery, and beside it the wires that bring current back to it.
fn battery(loom: &Loom, plus: PinId, minus: PinId) -> Block {
    let part = loom.pin(plus).part;
    let cells = Stand {
        part,
        face: Face::Cells,
        upper: plus,
        lower: minus,
    };
    let mut columns = vec![Column {
        top: Top::Rail(plus),
        items: vec![Item::Part(cells)],
        foot: Foot::Earth(minus),
    }];
    let mut walker = Walker::new(loom, None);
    for entry in walker.entries() {
        if matches!(loom.part_of(entry.source).kind, PartKind::Earth(_)) {
            walker.walk(entry, Top::Stub(entry.source));
        }
    }
    columns.extend(walker.columns);
    Block {
        heading: "supply".to_owned(),
        columns,
        holds_next: false,
    }
}

/// A circuit with the rail that its loads are fed from.
fn circuit(loom: &Loom, index: usize) -> (Option<PinId>, Block) {
    let mut walker = Walker::new(loom, Some(index));
    let entries = walker.entries();
    let control = |e: &&Entry| e.wire.is_some_and(|w| loom.wire(w).role == Role::Coil);
    let rail = entries.iter().find(|e| !control(e)).map(|e| e.source);
    // The loads first: they meet the earth's splices in their own order.
    for entry in entries.iter().filter(|e| !control(e)) {
        walker.walk(*entry, Top::Rail(entry.source));
    }
    for entry in entries.iter().filter(control) {
        let on_rail = rail == Some(entry.source);
        walker.walk(
            *entry,
            if on_rail {
                Top::Rail(entry.source)
            } else {
                Top::Stub(entry.source)
            },
        );
    }
    let c = &loom.circuits[index];
    let mut columns = walker.columns;
    columns.sort_by_key(|column| stand(loom, column, c));
    let heading = format!("{} {}", c.number, c.name);
    (
        rail,
        Block {
            heading,
            columns,
            holds_next: false,
        },
    )
}

/// How far to the left a column of a circuit stands. The relay of the last condition stands nearest to
/// the contact that it works, which is the lowest: so no dashed link crosses a wire. The earth wire of a
/// cut-out stands right of all: its way there passes above the loads, which begin below the cut-out.
fn stand(loom: &Loom, column: &Column, c: &LoomCircuit) -> usize {
    let conditions = c.conditions.len();
    let from = |pin: PinId| &loom.part_of(pin).kind;
    if matches!(column.top, Top::Branch(pin) if matches!(from(pin), PartKind::Cutout(_))) {
        return conditions + 3;
    }
    if let Some(n) = c
        .conditions
        .iter()
        .position(|r| column.shows(*r, Face::Coil))
    {
        return n;
    }
    if matches!(column.foot, Foot::Throw(_)) {
        return conditions;
    }
    if c.relay.is_some_and(|r| column.shows(r, Face::Coil)) {
        return conditions + 1;
    }
    conditions + 2
}
