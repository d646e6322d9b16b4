//! A relay contact that carries more than its rating for that kind of load.

use super::{About, overloaded};
use crate::answers::{Answers, PartAnswer};
use crate::design::Design;
use crate::why::contact_bears;
use finding::{Finding, Weight};
use loom::{Part, PartKind};
use quantity::{figures, in_celsius};

pub(super) const ABOUT: About = About {
    id: "contact-overloaded",
    weight: Weight::Mend,
    asks: "Does every relay contact stay within its rating for the kind of load and the heat?",
    source: "contact ratings of the class by kind of load, in the stock row",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    overloaded(d, answers, |k| matches!(k, PartKind::Relay(_)))
        .map(|(part, a)| {
            let mend = match larger(d, part, a) {
                Some(kind) => format!("a larger relay (`kind = \"{kind}\"`), or a cooler place"),
                None => "no relay in stock carries it there: a cooler place, two relays, or one of your own in a stock file".into(),
            };
            ABOUT.at(
                [part.name.clone()],
                format!(
                    "{} ({}) switches {} A, and its contact may carry {} A of this load at this heat",
                    part.name,
                    a.class,
                    figures(a.amps, 4),
                    figures(a.bears_a, 4)
                ),
                mend,
            )
        })
        .collect()
}

/// The smallest kind of relay whose contact carries it, at this place's heat.
fn larger(d: &Design, part: &Part, a: &PartAnswer) -> Option<String> {
    let PartKind::Relay(r) = &part.kind else {
        return None;
    };
    let breaks = r.contact == "87a";
    let celsius = in_celsius(d.loom.place(part.place).heat);
    let id = d.loom.part_named(&part.name)?;
    let load = crate::switchgear::carried(d, &[] as &[crate::Settled], id).load;
    let volts = d.loom.supply.system.volts();
    let bears = |k: &stock::RelayKind| contact_bears(k, breaks, load, celsius);
    let able = d
        .stock
        .relays
        .iter()
        .filter(|k| k.volts == volts && bears(k) >= a.amps);
    able.min_by(|x, y| bears(x).total_cmp(&bears(y)))
        .map(|k| k.name.clone())
}
