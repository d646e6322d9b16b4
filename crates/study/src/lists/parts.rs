//! Fuses with holders and boxes, relays, switches, cut-outs.

use super::{Buy, Rows, pieces};
use crate::answers::Answers;
use crate::design::Design;
use loom::{PartId, PartKind};
use quantity::{Quantity, figures};

pub(super) fn rows(d: &Design, answers: &Answers) -> Vec<Buy> {
    let mut found = fuses(d);
    let (mut boxes, mut relays, mut switches) = (Rows::default(), Rows::default(), Rows::default());
    let mut cutouts = Rows::default();
    for (id, p) in d.loom.each_part() {
        match &p.kind {
            PartKind::Box(b) => {
                let cover = if b.cover { ", with a cover" } else { "" };
                boxes.add(format!("fuse box of {} ways{cover}", b.ways), 1.0, &p.name);
            }
            PartKind::Relay(_) => {
                if let Some(kind) = d.relay(id) {
                    relays.add(
                        format!("{}, {} V, with its socket", kind.name, kind.volts),
                        1.0,
                        &p.name,
                    );
                }
            }
            PartKind::Switch(_) => {
                if let Some(kind) = d.choice.switches[id.0 as usize].map(|k| &d.stock.switches[k]) {
                    let amps = figures(kind.rating.si(), 3);
                    let what = format!(
                        "{}, {} positions, {amps} A at {} V",
                        kind.name, kind.positions, kind.volts
                    );
                    switches.add(what, 1.0, &p.name);
                }
            }
            PartKind::Cutout(c) => {
                let rating = c.rating.map_or_else(
                    || match carried(answers, id) {
                        Some(amps) => format!("rated above the {amps} A that it carries"),
                        None => "rated above what it carries".to_owned(),
                    },
                    |a| format!("rated {}", a.show()),
                );
                let what = format!(
                    "battery protection device, opens at {}, closes at {}, {rating}",
                    c.opens.show(),
                    c.closes.show()
                );
                cutouts.add(what, 1.0, &p.name);
            }
            _ => {}
        }
    }
    found.extend(boxes.of("box", pieces));
    found.extend(relays.of("relay", pieces));
    found.extend(switches.of("switch", pieces));
    found.extend(cutouts.of("cut-out", pieces));
    found
}

/// The most that a part carries in any state, A.
fn carried(answers: &Answers, part: PartId) -> Option<String> {
    let each = answers.states.iter();
    let amps = each.map(|s| s.settled.part_amps[part.0 as usize].abs());
    let most = amps.fold(0.0, f64::max);
    (most > 0.0).then(|| figures(most, 3))
}

fn fuses(d: &Design) -> Vec<Buy> {
    let (mut fuses, mut holders) = (Rows::default(), Rows::default());
    let mut prices: Vec<(String, Option<f64>)> = Vec::new();
    for (id, p) in d.loom.each_part() {
        let PartKind::Fuse(f) = &p.kind else { continue };
        let Some((kind, rating)) = d.fuse(id) else {
            continue;
        };
        let colour = match rating.colour.as_str() {
            "none" => String::new(),
            colour => format!(" ({colour})"),
        };
        let what = format!("{} {} A{colour}", kind.name, figures(rating.amps.si(), 3));
        prices.push((what.clone(), rating.price));
        fuses.add(what, 1.0, &p.name);
        if f.way.is_none() {
            // With no wire before it, it plugs into the vehicle's way or tap itself.
            let wired = d.loom.wires.iter().any(|w| w.to == p.pins[0]);
            let what = match wired {
                true => format!("holder for one {} fuse", kind.name),
                false => format!(
                    "tap with a holder for one {} fuse, to plug into the feed",
                    kind.name
                ),
            };
            holders.add(what, 1.0, &p.name);
        }
    }
    let mut found = fuses.of("fuse", pieces);
    for row in &mut found {
        let each = prices.iter().find(|(what, _)| *what == row.what);
        row.price = each
            .and_then(|(_, price)| *price)
            .map(|price| price * row.used_by.len() as f64);
    }
    found.extend(holders.of("holder", pieces));
    found
}
