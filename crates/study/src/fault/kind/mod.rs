//! The kinds of fault, one a file: what can go wrong in a loom.

mod body;
mod charged_too_high;
mod contact;
mod cranking_dip;
mod earth;
mod joint;
mod jump_start;
mod load;
mod load_dump;
mod open;
pub(super) mod overload;
mod plug;
mod relay_stuck;
mod relay_welded;
mod reversed;
mod supplied;
mod switch;
mod touching;
mod wrong_fuse;

use super::{Case, Supplies};
use crate::change::{Change, Spot};
use crate::design::Design;
use loom::{PartId, WireId};

/// A kind of fault.
pub struct Kind {
    /// Stable short name: "wire-to-body".
    pub id: &'static str,
    /// What has gone wrong, as a person asks for it.
    pub what: &'static str,
    /// On whose word it is tried as it is.
    pub source: &'static str,
    pub(crate) each: fn(&Design) -> Each,
}

/// The cases of a kind in a loom.
pub(crate) struct Each {
    pub cases: Vec<Case>,
    /// How many more there are that are the same to the circuit.
    pub alike: usize,
}

/// The source of the usual faults.
const INSTALLERS: &str = "what installers count on going wrong: common practice";

/// Every kind, in the order in which equals are told.
pub const KINDS: [&Kind; 17] = [
    &body::KIND,
    &touching::KIND,
    &load::KIND,
    &overload::KIND,
    &wrong_fuse::KIND,
    &relay_welded::KIND,
    &relay_stuck::KIND,
    &switch::KIND,
    &earth::KIND,
    &plug::KIND,
    &open::KIND,
    &joint::KIND,
    &reversed::KIND,
    &jump_start::KIND,
    &charged_too_high::KIND,
    &load_dump::KIND,
    &cranking_dip::KIND,
];

/// Every case of every kind, and how many more are the same to the circuit.
pub(crate) fn all(d: &Design) -> (Vec<Case>, usize) {
    let mut cases = Vec::new();
    let mut alike = 0;
    for (index, kind) in KINDS.iter().enumerate() {
        let each = (kind.each)(d);
        alike += each.alike;
        cases.extend(each.cases.into_iter().map(|c| Case { kind: index, ..c }));
    }
    (cases, alike)
}

impl Each {
    fn of(cases: Vec<Case>) -> Self {
        Self { cases, alike: 0 }
    }
}

impl Case {
    /// A case with one change, at one thing, in the states that last.
    fn new(at: String, says: String, changes: Vec<Change>) -> Self {
        Self {
            kind: 0,
            names: vec![at.clone()],
            at,
            says,
            changes,
            circuits: Vec::new(),
            fuses: Vec::new(),
            slow: false,
            lasts: None,
            supplies: Supplies::Lasting,
            swapped: None,
        }
    }

    fn of_circuits(mut self, circuits: impl IntoIterator<Item = usize>) -> Self {
        self.circuits = circuits.into_iter().collect();
        self.circuits.sort_unstable();
        self.circuits.dedup();
        self
    }

    fn guarded(mut self, fuses: impl IntoIterator<Item = PartId>) -> Self {
        self.fuses = fuses.into_iter().collect();
        self
    }

    fn named(mut self, names: impl IntoIterator<Item = String>) -> Self {
        self.names = names.into_iter().collect();
        self
    }
}

/// Resistances that a touch is tried with, Ω: the least and the most of the range, and one between them for where those
/// two end differently: two fuses in a row may be slowest there.
fn touch_range(d: &Design) -> [f64; 3] {
    ["least touch", "most touch", "middle touch"].map(|name| d.limits.value(name))
}

/// "WIRE (from → to)": a wire with what it joins.
fn wire_words(d: &Design, wire: WireId) -> String {
    let w = d.loom.wire(wire);
    format!(
        "{} ({} → {})",
        w.name,
        d.loom.pin_name(w.from),
        d.loom.pin_name(w.to)
    )
}

/// The fuse that is to open for a short behind a part: the last on the way to it. A load's is that of the wires out to it.
fn fuse_before(d: &Design, part: PartId) -> Option<PartId> {
    let out = d.paths.out(part);
    out.iter().rev().find_map(|w| d.loom.wire(*w).fuse)
}

/// The same, or the vehicle's own before the feed or signal that it comes from.
fn fuse_of_load(d: &Design, part: PartId) -> Option<PartId> {
    let last = d.paths.out(part).last();
    fuse_before(d, part).or_else(|| guard(d, *last?))
}

/// The fuse before a wire: of the loom, or the vehicle's own before the feed or signal that it comes from.
pub(crate) fn guard(d: &Design, wire: WireId) -> Option<PartId> {
    let w = d.loom.wire(wire);
    let vehicles = || {
        let source = crate::fixed::rooted_at(d.loom, w.from)?;
        crate::fault::hot::clock(d, source).map(|_| source)
    };
    w.fuse.or_else(vehicles)
}

/// A spot on the body, through what the body itself resists.
fn to_body(d: &Design, spot: Spot, ohms: f64) -> Change {
    Change::to_body(spot, ohms + d.body_return())
}
