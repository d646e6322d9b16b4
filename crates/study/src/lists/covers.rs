//! Sleeves by the metre and grommets, by the bundles that go in.

use super::{Amount, Buy, Rows, pieces};
use crate::answers::Answers;
use crate::design::Design;
use plan::SleeveWish;
use quantity::Quantity;

/// Sleeve is bought in tenths of a metre.
const STEP_M: f64 = 0.1;
/// What a wire with a sleeve of its own gets.
const OWN: &str = "PVC sleeve";

pub(super) fn rows(d: &Design, answers: &Answers) -> Vec<Buy> {
    let (mut sleeves, mut grommets) = (Rows::default(), Rows::default());
    for (i, s) in d.loom.stretches.iter().enumerate() {
        if s.wires.is_empty() {
            continue;
        }
        let bundle = answers.bundles[i].laid;
        let ends = s.ends.map(|p| d.loom.place(p).name.as_str()).join(" – ");
        if s.sleeve != SleeveWish::Open {
            let kind = s.sleeve.word();
            let what = d.stock.sleeve_for(kind, bundle).map_or_else(
                || {
                    format!(
                        "{kind} for a bundle of {}: none in stock fits",
                        bundle.show()
                    )
                },
                |sleeve| sleeve.name.clone(),
            );
            sleeves.add(what, s.length.si(), &ends);
        }
        if let Some(panel) = s.panel.as_ref().filter(|p| p.grommet) {
            let what = d.stock.grommet_for(bundle, panel.thickness).map_or_else(
                || {
                    format!(
                        "grommet for a bundle of {}: none in stock fits",
                        bundle.show()
                    )
                },
                |g| {
                    format!(
                        "grommet of {} bore, for a hole of {}",
                        g.bore.show(),
                        g.hole.show()
                    )
                },
            );
            grommets.add(what, 1.0, &panel.name);
        }
    }
    for (id, w) in d.loom.each_wire().filter(|(_, w)| w.set.sheathed) {
        let outside = d.conductor(id).outside_d;
        let what = d.stock.sleeve_for(OWN, outside).map_or_else(
            || format!("{OWN} for a wire of {}: none in stock fits", outside.show()),
            |sleeve| sleeve.name.clone(),
        );
        sleeves.add(what, w.length.si(), &w.name);
    }
    let metres = |needed: f64| Amount::Metres((needed / STEP_M - 1e-9).ceil() * STEP_M);
    let mut found = sleeves.of("sleeve", metres);
    found.extend(grommets.of("grommet", pieces));
    found
}
