//! More current than the rule set's table allows.

use super::{About, broken};
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};

pub(super) const ABOUT: About = About {
    id: "above-table",
    weight: Weight::Mend,
    asks: "Does every wire stay within the rule set's table of currents?",
    source: "the rule set named in [job]",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    broken(d, answers, "table")
        .map(|(name, v)| {
            let mut f = ABOUT.at(
                [name.to_owned()],
                format!("{name} carries more than the rules allow: {}", v.says),
                "a larger wire or insulation of a higher class; or another rule set, if it does not bind you",
            );
            f.source.clone_from(&v.source);
            f
        })
        .collect()
}
