//! A wire hotter than its insulation may be.

use super::{About, broken};
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};

pub(super) const ABOUT: About = About {
    id: "wire-hot",
    weight: Weight::Stop,
    asks: "Does every wire stay below its insulation's temperature, in its bundle and zone?",
    source: "heat balance in the bundle against the insulation's class",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    broken(d, answers, "heat")
        .map(|(name, v)| {
            let answer = answers
                .wires
                .iter()
                .find(|w| d.loom.wire(w.wire).name == name);
            let within_class = answer.is_some_and(|w| w.celsius <= w.limit_celsius);
            let mut f = ABOUT.at(
                [name.to_owned()],
                format!("{name} gets too hot: {}", v.says),
                "a larger wire, insulation of a higher class, a cooler way, or a sleeve of its own",
            );
            // Between the margin and the class it is tight, not dangerous.
            if within_class {
                f.weight = Weight::Mend;
            }
            f.source.clone_from(&v.source);
            f
        })
        .collect()
}
