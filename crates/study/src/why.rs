//! The whole reason of a fuse, a relay or a switch, in sentences.

use crate::answers::PartAnswer;
use crate::design::Design;
use crate::fuse::{self, Demand};
use crate::settle::Settled;
use crate::switchgear;
use loom::{PartId, PartKind};
use quantity::{Quantity, amperes, figures, in_celsius};
use stock::{ContactLoad, RelayKind};

/// Why a fuse is what it is.
pub(crate) fn fuse(d: &Design, part: PartId, ask: &Demand) -> Vec<String> {
    let Some((kind, rating)) = d.fuse(part) else {
        return Vec::new();
    };
    let amps = rating.amps.si();
    let factor = fuse::continuous(kind, ask.celsius);
    let mut why = vec![format!(
        "{} flow; at {} °C a {} A {} may carry {} for ever ({} of its rating for continuous load, {}; {} for the heat, {})",
        amperes(ask.amps).show(),
        figures(ask.celsius, 3),
        figures(amps, 3),
        kind.name,
        amperes(amps * factor).show(),
        figures(kind.continuous_factor, 3),
        kind.continuous_origin,
        figures(kind.ambient(ask.celsius), 3),
        kind.ambient_origin
    )];
    let smaller = kind
        .ratings
        .iter()
        .rev()
        .find(|r| r.amps.si() < amps - 1e-9);
    if let Some(s) = smaller {
        let next = s.amps.si();
        let reason = if ask.amps > next * factor {
            format!("could carry {} only", amperes(next * factor).show())
        } else if !fuse::stands_start(kind, next, ask) {
            "could open while the loads start".to_owned()
        } else {
            "would do as well: the plan or another state asks for this one".to_owned()
        };
        why.push(format!(
            "the next smaller, {} A, {reason}",
            figures(next, 3)
        ));
    }
    for start in &ask.starts {
        why.push(format!(
            "a load behind it starts with {} for {} s",
            amperes(start.amps).show(),
            figures(start.seconds, 2)
        ));
    }
    why.push(format!(
        "it can break {}; up to {} may flow ({})",
        kind.breaking.show(),
        amperes(ask.prospective).show(),
        fuse::breaking_source(d)
    ));
    why
}

/// What a relay or switch must bear and does.
pub(crate) fn part(
    d: &Design,
    settled: &[impl std::borrow::Borrow<Settled>],
    id: PartId,
) -> Option<PartAnswer> {
    match &d.loom.part(id).kind {
        PartKind::Relay(r) => {
            let kind = d.stock.relay(&r.kind, d.loom.supply.system.volts())?;
            Some(relay(d, settled, id, kind))
        }
        PartKind::Switch(s) => Some(switch(d, settled, id, s)),
        _ => None,
    }
}

/// What a relay's contact bears of a kind of load at this heat, A: the rating for the kind, and no
/// more than the resistive rating interpolated between 20 and 85 °C.
pub(crate) fn contact_bears(
    kind: &RelayKind,
    breaks: bool,
    load: ContactLoad,
    celsius: f64,
) -> f64 {
    let rating = match (&kind.break_, breaks) {
        (Some(b), true) => b,
        _ => &kind.make,
    };
    let t = ((celsius - 20.0) / 65.0).max(0.0);
    let hot = rating.resistive.si() + (rating.hot.si() - rating.resistive.si()) * t;
    rating.of(load).si().min(hot).max(0.0)
}

fn relay(
    d: &Design,
    settled: &[impl std::borrow::Borrow<Settled>],
    id: PartId,
    kind: &RelayKind,
) -> PartAnswer {
    let c = switchgear::carried(d, settled, id);
    let p = d.loom.part(id);
    let celsius = in_celsius(d.loom.place(p.place).heat);
    let breaks = matches!(&p.kind, PartKind::Relay(r) if r.contact == "87a");
    let bears = contact_bears(kind, breaks, c.load, celsius);
    let kelvin = crate::network::coil_kelvin(d, plan::SupplyState::Driving, p.place, true);
    let warm = physics::coil::pull_in_volts(kind.pull_in.si(), physics::conductor::T20, kelvin);
    PartAnswer {
        part: id,
        class: format!("{} relay, {} V", kind.name, kind.volts),
        amps: c.amps,
        bears_a: bears,
        why: vec![
            format!(
                "its contact carries {} of {} load; at {} °C it may carry {} ({})",
                amperes(c.amps).show(),
                c.load.word(),
                figures(celsius, 3),
                amperes(bears).show(),
                kind.make.load_origin
            ),
            format!(
                "it pulls in at {} with its coil at 20 °C, and needs {} once the coil is warm ({})",
                kind.pull_in.show(),
                quantity::volts(warm).show(),
                kind.coil_origin
            ),
        ],
    }
}

fn switch(
    d: &Design,
    settled: &[impl std::borrow::Borrow<Settled>],
    id: PartId,
    s: &loom::SwitchPart,
) -> PartAnswer {
    let c = switchgear::carried(d, settled, id);
    let factor = switchgear::factor(d, c.load);
    let chosen = d.choice.switches[id.0 as usize].map(|i| &d.stock.switches[i]);
    let rating = s
        .rating
        .or(chosen.map(|k| k.rating))
        .map_or(0.0, |r| r.si());
    let name = chosen.map_or("switch", |k| k.name.as_str());
    let source = d
        .stock
        .derating(d.loom.supply.system.volts(), c.load)
        .map(|r| r.origin.to_string());
    PartAnswer {
        part: id,
        class: format!(
            "{name} switch, {} positions, {} A",
            s.positions,
            figures(rating, 3)
        ),
        amps: c.amps,
        bears_a: rating / factor,
        why: vec![format!(
            "it switches {} of {} load, which asks for {} times the rating: {} of its {} ({})",
            amperes(c.amps).show(),
            c.load.word(),
            figures(factor, 3),
            amperes(c.amps * factor).show(),
            amperes(rating).show(),
            source.unwrap_or_default()
        )],
    }
}
