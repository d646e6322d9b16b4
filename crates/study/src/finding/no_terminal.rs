//! A wire's end that stock has no terminal, contact or barrel for.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use crate::fit::fit;
use finding::{Finding, Weight};

pub(super) const ABOUT: About = About {
    id: "no-terminal",
    weight: Weight::Mend,
    asks: "Does stock have a terminal, a contact or a barrel for every end of every wire?",
    source: "wire ranges, studs, tabs and seals of the terminals and connectors in stock",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let missing = fit(d, answers).missing(d.loom).into_iter();
    let tell = |(what, wires): (String, Vec<String>)| {
        let says = format!("stock has nothing that fits {}: {what}", wires.join(", "));
        ABOUT.at(
            wires,
            says,
            "another size of wire or another stud, or look for one and add it to a stock file",
        )
    };
    missing.map(tell).collect()
}
