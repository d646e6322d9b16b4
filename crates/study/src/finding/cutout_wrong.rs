//! Battery protection that is set so that it protects nothing, or never lets its circuit in.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use loom::PartKind;
use quantity::{Quantity, figures};

pub(super) const ABOUT: About = About {
    id: "cutout-wrong",
    weight: Weight::Mend,
    asks: "Is every cut-out set between a battery that is nearly empty and one that is charging?",
    source: "the battery's rested voltages by kind and charge; the alternator's set-point",
    find,
};

fn find(d: &Design, _: &Answers) -> Vec<Finding> {
    let (empty, charging) = (d.rested_volts(0.1), d.supply.regulated);
    let resting = d.rested_volts(d.supply.charge);
    let mut found = Vec::new();
    for p in &d.loom.parts {
        let PartKind::Cutout(c) = &p.kind else {
            continue;
        };
        let back = match d.supply.alternator {
            Some(_) => charging,
            None => d.rested_volts(1.0),
        };
        let what = if c.opens.si() < empty - 0.1 * d.nominal() {
            format!(
                "opens at {}, and even a battery at a tenth of its charge rests at {} V: it protects nothing",
                c.opens.show(),
                figures(empty, 3)
            )
        } else if c.closes.si() > back {
            format!(
                "closes above {}, and the supply never gets above {} V: once out it stays out",
                c.closes.show(),
                figures(back, 3)
            )
        } else if c.opens.si() > resting {
            format!(
                "opens at {}, and the battery rests at {} V with the engine off: it is out as soon as the engine stops",
                c.opens.show(),
                figures(resting, 3)
            )
        } else {
            continue;
        };
        let blocks = d.nominal() / 12.0;
        found.push(ABOUT.at(
            [p.name.clone()],
            format!("{} ({}) {what}", p.name, p.label),
            format!(
                "about opens = \"{} V\", closes = \"{} V\" on this vehicle",
                figures(11.8 * blocks, 3),
                figures(12.8 * blocks, 3)
            ),
        ));
    }
    found
}
