//! A state that asks more than the loom bears, and that sizing did not get round to.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};

pub(super) const ABOUT: About = About {
    id: "not-sized",
    weight: Weight::Stop,
    asks: "Was the loom sized for every state that asks most of something?",
    source: "every state looked at, and those that ask more sized for, round after round",
    find,
};

fn find(_: &Design, answers: &Answers) -> Vec<Finding> {
    let Some(first) = answers.unsized_for.first() else {
        return Vec::new();
    };
    let name = &answers.states[*first].state.name;
    vec![ABOUT.at(
        [name.clone()],
        format!("“{name}” asks more of a wire, a fuse or a bundle than it bears, and was not sized for"),
        "a switch, fuse or wire that is set in the plan may be too small: leave it out and check again",
    )]
}

#[cfg(test)]
mod tests {
    use super::super::by_hand::studied_farm;
    use super::*;

    /// No plan is known that sizing does not get round to, so a state is put in by hand.
    #[test]
    fn a_state_that_was_left_out_stops() {
        studied_farm(|design, answers| {
            assert_eq!(find(design, answers), []);
            answers.unsized_for = vec![3];
            let name = answers.states[3].state.name.clone();
            assert_eq!(find(design, answers)[0].names(), [name]);
        });
    }
}
