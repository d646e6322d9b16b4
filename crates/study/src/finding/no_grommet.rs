//! A hole through a panel without a grommet.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use quantity::Quantity;

pub(super) const ABOUT: About = About {
    id: "no-grommet",
    weight: Weight::Mend,
    asks: "Does every panel crossing have a grommet?",
    source: "common practice, no source: sheet metal cuts insulation; AC 43.13-1B 11-115 (read) asks for clearance or protection",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    for (i, s) in d.loom.stretches.iter().enumerate() {
        let Some(panel) = &s.panel else { continue };
        if panel.grommet || s.wires.is_empty() {
            continue;
        }
        let bundle = answers.bundles[i].laid;
        let fits = d.stock.grommet_for(bundle, panel.thickness);
        let mend = match fits {
            Some(g) => format!(
                "a grommet of {} bore in a hole of {}, deburred and painted",
                g.bore.show(),
                g.hole.show()
            ),
            None => format!(
                "a grommet for a bundle of {}: stock has none that fits",
                bundle.show()
            ),
        };
        let ends = s.ends.map(|e| d.loom.place(e).name.clone());
        found.push(ABOUT.at(
            [panel.name.clone()],
            format!(
                "{} wires pass the {} between {} and {} without a grommet",
                s.wires.len(),
                panel.name,
                ends[0],
                ends[1]
            ),
            mend,
        ));
    }
    found
}
