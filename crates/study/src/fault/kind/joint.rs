//! A joint that resists ten and a hundred times as much as it should.

use super::{Each, Kind};
use crate::change::Change;
use crate::design::Design;
use crate::fault::Case;

pub(super) const KIND: Kind = Kind {
    id: "joint-poor",
    what: "the joints of a wire at 10 and 100 times their resistance",
    source: "what installers count on going wrong: common practice",
    each,
};

/// How many times its resistance.
const TIMES: [f64; 2] = [10.0, 100.0];

fn each(d: &Design) -> Each {
    let mut each = Each::of(Vec::new());
    for (id, w) in d.loom.each_wire() {
        let own = d.joint_ohms(id);
        // The joints of a wire lie in a row with it: which of its two ends it is changes nothing.
        each.alike += TIMES.len() * w.joints.iter().flatten().count().saturating_sub(1);
        for times in TIMES.into_iter().filter(|_| own > 0.0) {
            let change = Change {
                joint: Some((id, own * (times - 1.0))),
                ..Change::default()
            };
            let at = format!("{}, joints × {times}", w.name);
            let says = format!("the joints of {} resist {times} times as much", w.name);
            let case = Case::new(at, says, vec![change]).named([w.name.clone()]);
            each.cases.push(case.of_circuits(w.circuit));
        }
    }
    each
}
