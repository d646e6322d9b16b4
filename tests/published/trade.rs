//! Facts of the trade: common practice that every electrician checks a first drawing for. No document
//! is claimed, but where a table is named.

use crate::walk::Walk;
use loom::{Loom, PartId, PartKind, PinId, Role};
use quantity::Quantity;
use std::collections::BTreeSet;

/// A lamp on the rack, switched on the dash.
fn rack_lamp(load: &str, more: &str) -> Walk {
    let boxed = "[[box]]\nname = \"box\"\nplace = \"tray\"\nways = 1\nfeed = \"battery\"\n";
    let circuit = format!(
        "[[circuit]]\nname = \"lamp\"\nload = {{ {load}, place = \"rack\" }}\nbox = \"box\"\nswitch = {{ place = \"tray\" }}\n{more}earth = \"rack\"\n"
    );
    Walk::of(&format!(
        "{}\n{boxed}{circuit}",
        include_str!("plans/vehicle.toml")
    ))
}

/// 30 A of lamp are no thing for a dash switch: it needs a relay, and is worked from 30 to 87.
#[test]
fn a_lamp_of_30_amperes_needs_a_relay() {
    let lamp = "lamp = \"tungsten\", rated = \"30 A\", at = \"12 V\"";
    let bare = rack_lamp(lamp, "");
    assert!(bare.finds("switch-overloaded"), "{:?}", bare.findings());
    let relayed = rack_lamp(lamp, "relay = { place = \"tray\", kind = \"power\" }\n");
    assert!(!relayed.finds("switch-overloaded"));
    let loom = relayed.loom();
    let pin = |name: &str| {
        let relay = loom.part_named("K1").unwrap_or_else(|| panic!("no relay"));
        loom.terminal(relay, name)
            .unwrap_or_else(|| panic!("no terminal {name}"))
    };
    let into = loom
        .wires
        .iter()
        .find(|w| w.to == pin("30"))
        .unwrap_or_else(|| panic!("nothing feeds 30"));
    let out = loom
        .wires
        .iter()
        .find(|w| w.from == pin("87"))
        .unwrap_or_else(|| panic!("nothing hangs on 87"));
    assert_eq!((into.role, out.role), (Role::Supply, Role::Switched));
    // The lamp's current passes there, and the switch works the coil only.
    let amps = |name: &str| relayed.wire_of(name).map_or(0.0, |(_, w)| w.amps);
    assert!(amps(&into.name) > 28.0 && amps(&out.name) > 28.0);
    assert!(relayed.switchgear_of("S1").is_some_and(|s| s.amps < 0.3));
}

/// A pump of 30.5 A on boat cable of 105 °C, on deck or in the engine space.
fn boat_pump(zone: &str, heat: &str, size: &str) -> Walk {
    let plan = format!(
        "[job]\ntitle = \"pump\"\nrules = \"33 CFR 183.425\"\nwire = \"AWG boat\"\ndrop = \"10 %\"\n\
         [supply]\nsystem = \"12 V\"\nbattery = {{ chemistry = \"AGM\", capacity = \"100 Ah\", place = \"locker\" }}\n\
         [place]\n\"locker\" = {{ zone = \"{zone}\", heat = \"{heat}\" }}\n\"bilge\" = {{ zone = \"{zone}\", heat = \"{heat}\" }}\n\
         [[stretch]]\nbetween = [\"locker\", \"bilge\"]\nlength = \"0.5 m\"\nsleeve = \"none\"\n\
         [[box]]\nname = \"panel\"\nplace = \"locker\"\nways = 1\nfeed = \"battery\"\n\
         [[circuit]]\nname = \"pump\"\nload = {{ motor = \"pump\", rated = \"30.5 A\", at = \"12.6 V\", place = \"bilge\" }}\n\
         box = \"panel\"\nlive = \"always\"\nearth = \"battery\"\n[wire.\"W1.1\"]\nsize = \"{size}\"\n"
    );
    Walk::of(&plan)
}

/// 33 CFR 183.425 gives 14 AWG with 105 °C insulation 35 A outside engine spaces and 29.75 A inside.
#[test]
fn fourteen_gauge_carries_35_amperes_on_deck_and_29_75_in_the_engine_space() {
    let refused = |walk: &Walk| {
        walk.findings()
            .iter()
            .any(|f| f.id == "above-table" && f.names().contains(&"W1.1".to_owned()))
    };
    let table = |walk: &Walk| {
        let (_, w) = walk.wire_of("W1.1").unwrap_or_else(|| panic!("no W1.1"));
        assert!(
            (30.0..31.5).contains(&w.amps),
            "{} A are not between the two limits",
            w.amps
        );
        let verdict = w
            .verdicts
            .iter()
            .find(|v| v.rule == "table")
            .unwrap_or_else(|| panic!("no verdict by table"));
        w.amps / (1.0 - verdict.margin)
    };
    let (deck, engine) = (("outside", "30 °C"), ("engine space", "50 °C"));
    let walk = boat_pump(deck.0, deck.1, "14 AWG");
    assert!(
        (table(&walk) - 35.0).abs() < 1e-6 && !refused(&walk),
        "{:?}",
        walk.findings()
    );
    let walk = boat_pump(engine.0, engine.1, "14 AWG");
    assert!(
        (table(&walk) - 29.75).abs() < 1e-6 && refused(&walk),
        "{:?}",
        walk.findings()
    );
    for (zone, heat) in [deck, engine] {
        let walk = boat_pump(zone, heat, "12 AWG");
        assert!(!refused(&walk), "12 AWG in {zone}: {:?}", walk.findings());
    }
}

/// Pins that a live source reaches when one connector is pulled apart: over wires, fuses, contacts,
/// coils and loads, but not over an earth point.
fn live_with_unplugged(loom: &Loom, connector: PartId) -> BTreeSet<PinId> {
    let of = |pin: PinId| loom.pin(pin).part == connector;
    let mut joins: Vec<(PinId, PinId)> = loom.wires.iter().map(|w| (w.from, w.to)).collect();
    joins.extend(
        loom.mates
            .iter()
            .filter(|m| !of(m.live) && !of(m.far))
            .map(|m| (m.live, m.far)),
    );
    let mut live: BTreeSet<PinId> = BTreeSet::new();
    for part in &loom.parts {
        match &part.kind {
            PartKind::Battery { .. } | PartKind::Feed(_) | PartKind::Signal(_) => {
                live.insert(part.pins[0]);
            }
            PartKind::Earth(_) | PartKind::Connector { .. } | PartKind::Box(_) => {}
            _ => joins.extend(part.pins.windows(2).map(|p| (p[0], p[1]))),
        }
    }
    let earthed = |p: PinId| {
        loom.pin(p).terminal == "31" && !matches!(loom.part_of(p).kind, PartKind::Load(_))
    };
    loop {
        let before = live.len();
        for &(a, b) in &joins {
            for (from, to) in [(a, b), (b, a)] {
                if live.contains(&from) && !earthed(to) {
                    live.insert(to);
                }
            }
        }
        if live.len() == before {
            return live;
        }
    }
}

/// An unplugged live end must not touch anything: its half carries the shrouded socket contacts, and
/// no pin of the other half is live.
#[test]
fn the_live_half_of_a_connector_is_the_source_side() {
    let mut seen = 0;
    // The vehicle's own feeds and signals are reached under the bonnet here: they don't come out with
    // the dash, and what leads from them must pass its connector.
    let forms = include_str!("plans/every_form.toml")
        .replace("zone = \"cabin\",", "zone = \"cabin\", comes_out = true,")
        .replace("place = \"dash\"\nfused", "place = \"tray\"\nfused")
        .replace("place = \"dash\"\ngives", "place = \"tray\"\ngives");
    for plan in [include_str!("../../examples/farm.toml"), &forms] {
        let walk = Walk::of(plan);
        let loom = walk.loom();
        for (id, part) in loom.each_part() {
            if !matches!(part.kind, PartKind::Connector { .. }) {
                continue;
            }
            let live = live_with_unplugged(loom, id);
            let mates: Vec<_> = loom
                .mates
                .iter()
                .filter(|m| [m.live, m.far].iter().any(|p| loom.pin(*p).part == id))
                .collect();
            assert!(
                mates.iter().any(|m| live.contains(&m.live)),
                "{}: nothing live on its source half",
                part.name
            );
            for m in mates {
                assert!(
                    !live.contains(&m.far),
                    "{}: {} is live when unplugged",
                    part.name,
                    loom.pin_name(m.far)
                );
                seen += 1;
            }
        }
    }
    assert!(seen >= 12, "only {seen} pairs of contacts were looked at");
}

/// What every circuit shares has to carry them all.
#[test]
fn a_feeder_for_several_lamps_is_much_heavier_than_for_one() {
    let feeder = |count: u32| {
        let load = format!("lamp = \"tungsten\", rated = \"55 W\", count = {count}");
        let walk = rack_lamp(&load, "relay = { place = \"tray\", kind = \"power\" }\n");
        let (wire, answer) = walk.wire_of("W0.2").unwrap_or_else(|| panic!("no feeder"));
        assert_eq!(wire.role, Role::Feeder);
        walk.stock().conductors[answer.conductor].area.si() * 1e6
    };
    let (one, many) = (feeder(1), feeder(16));
    println!("feeder of one lamp {one} mm², of sixteen {many} mm²");
    assert!(
        many >= 2.0 * one,
        "{one} mm² for one, {many} mm² for sixteen"
    );
}

/// Every hole through sheet metal gets a grommet, and the lack of one is found.
#[test]
fn a_hole_through_sheet_metal_gets_a_grommet() {
    let plan = include_str!("../../examples/farm.toml");
    let with = Walk::of(plan);
    assert!(!with.finds("no-grommet"));
    let bare = plan.replacen(
        "thickness = \"1.2 mm\" }",
        "thickness = \"1.2 mm\", grommet = false }",
        1,
    );
    assert_ne!(bare, plan);
    let without = Walk::of(&bare);
    let found = without
        .findings()
        .iter()
        .find(|f| f.id == "no-grommet")
        .unwrap_or_else(|| panic!("not found"));
    assert!(
        found.mend.contains("bore") && found.mend.contains("hole"),
        "{}",
        found.mend
    );
}
