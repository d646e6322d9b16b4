//! A switch that stays where it stands, whichever way it is turned.

use super::{Each, Kind};
use crate::change::Change;
use crate::design::Design;
use crate::fault::Case;
use crate::state::Position;
use loom::PartKind;

pub(super) const KIND: Kind = Kind {
    id: "switch-stuck",
    what: "a switch stuck in one of its positions",
    source: super::INSTALLERS,
    each,
};

fn each(d: &Design) -> Each {
    let mut cases = Vec::new();
    for (id, p) in d.loom.each_part() {
        let PartKind::Switch(s) = &p.kind else {
            continue;
        };
        let mut positions = vec![("off", Position::Off), ("on", Position::On)];
        if s.positions == 3 {
            positions.insert(1, ("auto", Position::Auto));
        }
        for (word, position) in positions {
            let change = Change {
                turned: Some((id, position)),
                ..Change::default()
            };
            let says = format!("switch {} ({}) is stuck {word}", p.name, p.label);
            let case = Case::new(format!("{}, {word}", p.name), says, vec![change]);
            cases.push(case.named([p.name.clone()]).of_circuits(p.circuit));
        }
    }
    Each::of(cases)
}
