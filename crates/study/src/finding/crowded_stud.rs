//! More rings than one stud takes.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use crate::fit::{MOST_RINGS, fit, studs};
use finding::{Finding, Weight};

pub(super) const ABOUT: About = About {
    id: "crowded-stud",
    weight: Weight::Mend,
    asks: "Does any stud bear more rings than hold on it?",
    source: "makers' data sheets for this class: four lugs on a stud at most (read)",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let studs = studs(d, answers, &fit(d, answers));
    let crowded = studs.iter().filter(|s| s.is_crowded(d.loom));
    let tell = |stud: &crate::fit::Stud| {
        let name = d.loom.pin_name(stud.pin);
        let names = stud.rings.iter().map(|w| d.loom.wire(*w).name.as_str());
        let names: Vec<&str> = names.collect();
        ABOUT.at(
            [name.clone()],
            format!(
                "{} rings lie on {name} ({}): {}; one stud takes {MOST_RINGS}",
                stud.rings.len(),
                d.loom.part_of(stud.pin).label,
                names.join(", ")
            ),
            "spread them over several earth points, or bring them to a bar: an [[earth]] of its own with to = \"battery\"",
        )
    };
    crowded.map(tell).collect()
}
