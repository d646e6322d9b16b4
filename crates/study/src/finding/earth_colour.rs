//! A wire whose colour was set by hand and says the opposite of what it carries.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use loom::{PartKind, Role};

pub(super) const ABOUT: About = About {
    id: "earth-colour",
    weight: Weight::Mend,
    asks: "Is any live wire in the colour of earth, or an earth in the colour of supply?",
    source: "the colours of the plan's habit (`colours` in [job])",
    find,
};

fn find(d: &Design, _: &Answers) -> Vec<Finding> {
    let palette = &d.loom.palette;
    let set = d.loom.wires.iter().filter(|w| w.set.colour);
    let earthed = |pin| matches!(d.loom.part_of(pin).kind, PartKind::Earth(_));
    let wrong = set.filter_map(|w| {
        let earths = matches!(w.role, Role::Earth | Role::Return)
            || w.role == Role::CoilEarth && (earthed(w.to) || earthed(w.from));
        let (carries, colour_of) = match w.role {
            _ if earths && palette.live.contains(&w.colour.base) => ("earth", "what is live"),
            _ if earths => return None,
            // A switched earth is at the battery's voltage until its switch closes: earth's colour with a stripe is its habit.
            Role::CoilEarth => return None,
            _ if w.colour.base == palette.earth => ("live", "earth"),
            _ => return None,
        };
        Some(ABOUT.at(
            [w.name.clone()],
            format!(
                "{} is {carries} and has the colour of {colour_of}, {}: whoever opens the loom takes it for the other",
                w.name, w.colour.base
            ),
            "give it another colour, or leave its `colour` out of the plan",
        ))
    });
    wrong.collect()
}
