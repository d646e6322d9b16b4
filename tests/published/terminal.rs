//! Terminal numbers of DIN 72552 (22): every mark that a loom uses is one of the standard's, and
//! stands where the standard puts it. Plug-in relays follow trade use: 30 common, 87 make, 87a break.

use super::reference::{Look, reference};
use crate::walk::Walk;
use loom::{Loom, PartKind};

/// Marks that are not the standard's: a load's plus, and the plain numbers of fuses and plugs.
fn is_plain(mark: &str) -> bool {
    mark == "+"
        || mark
            .trim_end_matches('\'')
            .parse::<u32>()
            .is_ok_and(|n| n < 15)
}

fn marks(loom: &Loom) -> Vec<(&PartKind, &str)> {
    loom.pins
        .iter()
        .map(|p| (&loom.part(p.part).kind, p.terminal.as_str()))
        .collect()
}

#[test]
fn every_mark_is_the_standards() {
    let table = reference!("protection/22_din72552.toml");
    // The switch marks stand together in the row of 81, as words of its meaning.
    let known = |mark: &str| {
        let word = |text: &str| {
            text.split([' ', ',', ';', ':', '(', ')'])
                .any(|w| w == mark)
        };
        table
            .rows("t")
            .iter()
            .any(|r| r.word("id") == mark || (r.word("id") == "81" && word(r.word("meaning"))))
    };
    for plan in [
        include_str!("../../examples/farm.toml"),
        include_str!("plans/every_form.toml"),
    ] {
        let walk = Walk::of(plan);
        for (_, mark) in marks(walk.loom()) {
            assert!(
                is_plain(mark) || known(mark),
                "“{mark}” is no terminal of DIN 72552"
            );
        }
    }
}

#[test]
fn every_mark_stands_where_it_belongs() {
    let walk = Walk::of(include_str!("plans/every_form.toml"));
    let loom = walk.loom();
    let mut relays = 0;
    for part in &loom.parts {
        let has: Vec<&str> = part
            .pins
            .iter()
            .map(|p| loom.pin(*p).terminal.as_str())
            .collect();
        match &part.kind {
            PartKind::Battery { .. } => assert_eq!(has, ["30", "31"]),
            PartKind::Earth(_) => assert_eq!(has, ["31"]),
            PartKind::Box(_) => assert_eq!(has, ["30"]),
            PartKind::Feed(f) if f.kind == plan::FeedKind::IgnitionTap => assert_eq!(has, ["15"]),
            PartKind::Feed(_) => assert_eq!(has, ["30"]),
            PartKind::Relay(r) => {
                relays += 1;
                assert_eq!(has, ["30", r.contact, "86", "85"], "{}", part.name);
            }
            PartKind::Switch(s) if s.positions == 3 => assert_eq!(has, ["83a", "83b", "83"]),
            PartKind::Switch(_) => assert_eq!(has, ["82", "82a"]),
            PartKind::Load(_) => assert_eq!(has, ["+", "31"]),
            _ => {}
        }
    }
    assert!(
        relays >= 5,
        "only {relays} relays in the plan of every form"
    );
}

/// Current enters a coil at 86 and leaves it at 85; it enters a contact at 30.
#[test]
fn current_runs_the_way_the_numbers_say() {
    for plan in [
        include_str!("../../examples/farm.toml"),
        include_str!("plans/every_form.toml"),
    ] {
        let walk = Walk::of(plan);
        let loom = walk.loom();
        for w in &loom.wires {
            let ends =
                [w.from, w.to].map(|p| (&loom.part_of(p).kind, loom.pin(p).terminal.as_str()));
            for (i, (kind, mark)) in ends.into_iter().enumerate() {
                let PartKind::Relay(_) = kind else { continue };
                // The coil may be bridged from the contact's own supply: then 30 hands on.
                let enters = i == 1;
                let right = match mark {
                    "86" => enters,
                    "85" | "87" | "87a" => !enters,
                    _ => true,
                };
                assert!(
                    right,
                    "{} {} at {}",
                    w.name,
                    if enters { "enters" } else { "leaves" },
                    loom.pin_name(w.to)
                );
            }
        }
    }
}
