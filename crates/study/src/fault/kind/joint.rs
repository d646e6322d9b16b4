//! Joints that resist ten and a hundred times as much as they should: those at the ends of a wire, and plugged contacts.

use super::{Each, Kind};
use crate::change::{Change, Poor};
use crate::design::Design;
use crate::fault::Case;

pub(super) const KIND: Kind = Kind {
    id: "joint-poor",
    what: "joints of a wire or of a plug at 10 and 100 times their resistance",
    source: super::INSTALLERS,
    each,
};

/// How many times its resistance: two sizes of poor. Our own, no source.
const TIMES: [f64; 2] = [10.0, 100.0];

fn each(d: &Design) -> Each {
    let mut each = Each::of(Vec::new());
    for (id, w) in d.loom.each_wire() {
        let own = d.joint_ohms(id);
        // The joints of a wire lie in a row with it: which of its two ends it is changes nothing.
        each.alike += TIMES.len() * w.joints.iter().flatten().count().saturating_sub(1);
        let what = (
            format!("{}, joints", w.name),
            format!("the joints of {} resist", w.name),
        );
        each.cases.extend(
            poor((Poor::Wire(id), own), what)
                .map(|case| case.named([w.name.clone()]).of_circuits(w.circuit)),
        );
    }
    for (i, mate) in d.loom.mates.iter().enumerate() {
        let (pin, plug) = (d.loom.pin_name(mate.live), d.loom.part_of(mate.live));
        let what = (
            format!("{pin}, contact"),
            format!("the contact of {pin} resists"),
        );
        let own = d.fixed.mate_ohms[i];
        each.cases
            .extend(poor((Poor::Mate(i), own), what).map(|case| {
                case.named([plug.name.clone(), pin.clone()])
                    .of_circuits(plug.circuit)
            }));
    }
    each
}

/// Some joints, as many times as poor as is tried.
fn poor((which, own): (Poor, f64), (at, says): (String, String)) -> impl Iterator<Item = Case> {
    let times = TIMES.into_iter().filter(move |_| own > 0.0);
    times.map(move |times| {
        let change = Change {
            joint: Some((which, own * (times - 1.0))),
            ..Change::default()
        };
        Case::new(
            format!("{at} × {times}"),
            format!("{says} {times} times as much"),
            vec![change],
        )
    })
}
