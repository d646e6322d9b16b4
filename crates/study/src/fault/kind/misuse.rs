//! What is done to the whole supply: battery reversed, a 24 V jump start, charging at 16 V, load dump, the
//! cranking profile. Levels per 12 V; a 24 V vehicle has twice as much, and is not jump-started with more.

use super::{Each, Kind};
use crate::change::{Change, Foreign};
use crate::design::Design;
use crate::fault::{Case, Supplies};
use quantity::figures;

pub(super) const REVERSED: Kind = Kind {
    id: "battery-reversed",
    what: "the battery connected the wrong way round",
    source: "ISO 16750-2 reverse voltage: −14 V for 60 s, from memory",
    each: |d| {
        let volts = -d.limits.value("reversed volts") * blocks(d);
        let says = "the battery is connected the wrong way round".to_owned();
        one(d, says, (volts, Some("misuse lasts")), Supplies::Off)
    },
};

pub(super) const JUMP: Kind = Kind {
    id: "jump-start",
    what: "a 12 V vehicle jump-started with 24 V",
    source: "ISO 16750-2 jump start: 24 V for 1 min, read in makers' varistor guides",
    each: |d| match blocks(d) > 1.5 {
        // Nobody jump-starts a 24 V vehicle with more.
        true => Each::of(Vec::new()),
        false => {
            let says = "the vehicle is jump-started with 24 V".to_owned();
            let volts = d.limits.value("jump start volts");
            one(d, says, (volts, Some("misuse lasts")), Supplies::Off)
        }
    },
};

pub(super) const CHARGING: Kind = Kind {
    id: "charged-too-high",
    what: "a regulator that lets the voltage rise to 16 V per 12 V",
    source: "ISO 16750-2 codes A to D: most supply voltage 16 V, read",
    each: |d| {
        let volts = d.limits.value("highest volts of equipment") * blocks(d);
        let says = format!(
            "the regulator lets the voltage rise to {} V",
            figures(volts, 3)
        );
        one(d, says, (volts, None), Supplies::Running)
    },
};

pub(super) const DUMP: Kind = Kind {
    id: "load-dump",
    what: "the battery comes off while the alternator charges it",
    source: "ISO 16750-2 load dump, test B (clamped by the alternator), read in a makers' manual",
    each: |d| {
        let name = match blocks(d) > 1.5 {
            true => "load dump clamped, 24 V",
            false => "load dump clamped, 12 V",
        };
        let volts = d.limits.value(name);
        let says = format!(
            "the battery comes off while it is charged: {} V for up to 0.4 s, if the alternator clamps it",
            figures(volts, 3)
        );
        one(d, says, (volts, Some("load dump lasts")), Supplies::Running)
    },
};

pub(super) const CRANKING: Kind = Kind {
    id: "cranking-dip",
    what: "the engine cranked, by the profiles of ISO 16750-2",
    source: "ISO 16750-2 starting profile, levels I to IV, from memory",
    each: |d| {
        let mut cases = Vec::new();
        for level in ["I", "II", "III", "IV"] {
            let system = if blocks(d) > 1.5 { 24 } else { 12 };
            let Some(volts) = d.limits.find(&format!("cranking {level}, {system} V")) else {
                continue;
            };
            let says = format!(
                "the engine is cranked and the supply dips to {} V (level {level})",
                figures(volts, 3)
            );
            let mut case = supplied(d, says, volts, Supplies::Cranking);
            case.lasts = Some(d.limits.value("cranking lasts"));
            case.at = format!("supply, level {level}");
            cases.push(case);
        }
        Each::of(cases)
    },
};

/// How many 12 V the vehicle is made of.
fn blocks(d: &Design) -> f64 {
    d.nominal() / 12.0
}

/// One that lasts as long as a row of the table says, if one does.
fn one(d: &Design, says: String, (volts, lasts): (f64, Option<&str>), supplies: Supplies) -> Each {
    let mut case = supplied(d, says, volts, supplies);
    case.lasts = lasts.map(|name| d.limits.value(name));
    Each::of(vec![case])
}

fn supplied(d: &Design, says: String, volts: f64, supplies: Supplies) -> Case {
    let change = Change {
        foreign: Some(Foreign {
            volts,
            ohms: d.limits.value("foreign supply"),
        }),
        ..Change::default()
    };
    let mut case = Case::new("supply".to_owned(), says, vec![change]);
    case.names = vec![d.loom.parts[0].name.clone()];
    case.supplies = supplies;
    case
}
