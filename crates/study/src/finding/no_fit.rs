//! A bundle or a panel for which stock has no sleeve or grommet.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use plan::SleeveWish;
use quantity::Quantity;

pub(super) const ABOUT: About = About {
    id: "no-fit",
    weight: Weight::Note,
    asks: "Does stock have a sleeve for every bundle and a grommet for every panel?",
    source: "sizes in stock against the least diameter of the bundle and a tenth for hands (common practice)",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    for (i, s) in d
        .loom
        .stretches
        .iter()
        .enumerate()
        .filter(|(_, s)| !s.wires.is_empty())
    {
        let bundle = answers.bundles[i].laid;
        let ends = s.ends.map(|e| d.loom.place(e).name.clone());
        let way = format!("between {} and {}", ends[0], ends[1]);
        if s.sleeve != SleeveWish::Open && d.stock.sleeve_for(s.sleeve.word(), bundle).is_none() {
            found.push(ABOUT.at(
                ends.clone(),
                format!(
                    "stock has no {} for the bundle of {} {way}; its heat is worked out without",
                    s.sleeve.word(),
                    bundle.show()
                ),
                "choose another sleeve for the stretch, or add yours to a stock file",
            ));
        }
        let Some(panel) = s.panel.as_ref().filter(|p| p.grommet) else {
            continue;
        };
        let thickness = panel.thickness;
        if d.stock.grommet_for(bundle, thickness).is_none() {
            found.push(ABOUT.at(
                [panel.name.clone()],
                format!(
                    "stock has no grommet for a bundle of {} through {} of {}",
                    bundle.show(),
                    thickness.show(),
                    panel.name
                ),
                "a cable gland or a bulkhead fitting; or two smaller holes",
            ));
        }
    }
    found
}
