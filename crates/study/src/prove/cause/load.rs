//! Loads that are dead, shorted, or draw too much or too little.

use super::{Cause, Version, place_times};
use crate::change::Change;
use crate::design::Design;
use loom::{LoadPart, PartId, PartKind};
use physics::network::Law;
use plan::{LampKind, LoadKind};

/// Filaments burn out so many times as often.
const FILAMENT: f64 = 4.0;
/// What a load that is otherwise draws, as parts of what it should: our own.
const PARTS: [f64; 4] = [0.3, 0.5, 1.5, 2.0];
/// What is left of a shorted load, Ω: our own.
const SHORTED: f64 = 0.05;

pub(super) fn all(d: &Design) -> Vec<Cause> {
    let mut found = Vec::new();
    for (id, p) in d.loom.each_part() {
        let PartKind::Load(l) = &p.kind else { continue };
        let of = format!("{} ({})", p.name, p.label);
        let times = place_times(d, p.place);
        let often = match l.kind {
            LoadKind::Lamp(LampKind::Tungsten) => FILAMENT,
            _ => 1.0,
        };
        let dead = Change {
            dead: Some(id),
            ..Change::default()
        };
        let shorted = Change {
            shorted: Some((id, SHORTED)),
            ..Change::default()
        };
        found.push(
            Cause::new("load-dead", &p.name, format!("{of} itself is dead"), dead)
                .of(p.circuit)
                .often(d, "load dead", often * times)
                .mended("try it on the battery by two wires and a fuse, or replace it"),
        );
        found.push(
            Cause::new(
                "load-shorted",
                &p.name,
                format!("{of} is shorted inside"),
                shorted,
            )
            .of(p.circuit)
            .often(d, "load shorted", times)
            .mended("unplug it and see whether a new fuse holds; replace it"),
        );
        found.extend(otherwise(d, id, l).map(|versions| {
            Cause {
                versions,
                ..Cause::new(
                    "load-otherwise",
                    &p.name,
                    format!("{of} draws what it should not: too much or too little"),
                    Change::default(),
                )
                .of(p.circuit)
                .often(d, "load otherwise", times)
                .mended("see what is really fitted, and whether it sticks or runs dry")
            }
        }));
    }
    found
}

/// What it draws then: a current, which is only told of what has one in its law.
fn otherwise(d: &Design, id: PartId, _: &LoadPart) -> Option<Vec<Version>> {
    let volts = d.nominal();
    let amps = match d.fixed.laws[id.0 as usize]? {
        Law::Resistor { ohms } => volts / ohms,
        Law::Tungsten { rated_amps, .. } | Law::Motor { rated_amps, .. } => rated_amps,
        Law::ConstantPower { watts, .. } => watts / volts,
        _ => return None,
    };
    let version = |part: f64| Version {
        change: Change {
            draws: Some((id, part * amps)),
            ..Change::default()
        },
        ohms: None,
    };
    Some(PARTS.map(version).to_vec())
}
