//! The lists of the examples and of plans drawn by lot: what is bought is enough for what is cut, what is fitted fits, and
//! nothing is left without being told.

use crate::walk::Walk;
use loom::PartKind;
use quantity::{Quantity, in_mm2};
use std::collections::BTreeMap;
use study::{Amount, How, Lists, Termination};

const EXAMPLES: [&str; 3] = [
    include_str!("../examples/farm.toml"),
    include_str!("../examples/camper.toml"),
    include_str!("../examples/lorry.toml"),
];

fn lists(walk: &Walk) -> &Lists {
    let lists = walk.job().lists();
    lists.unwrap_or_else(|| panic!("no lists: {:#?}", walk.errors()))
}

fn each(mut check: impl FnMut(&Walk, &Lists)) {
    let drawn = [5, 10, 20].map(bench::plan_text);
    let drawn = drawn.iter().map(String::as_str);
    for plan in EXAMPLES.into_iter().chain(drawn) {
        let walk = Walk::of(plan);
        check(&walk, lists(&walk));
    }
}

#[test]
fn more_wire_is_bought_than_is_cut_and_not_much_more() {
    each(|walk, l| {
        let mut cut: BTreeMap<String, f64> = BTreeMap::new();
        for (i, w) in walk.loom().wires.iter().enumerate() {
            let conductor = &walk.stock().conductors[walk.answers().choice.wires[i]];
            *cut.entry(format!("{}, {}", conductor.id, w.colour))
                .or_default() += w.cut.si();
        }
        let rows: Vec<_> = l.buy.iter().filter(|b| b.group == "wire").collect();
        assert_eq!(rows.len(), cut.len());
        for row in rows {
            let Amount::Metres(bought) = row.amount else {
                panic!("{row:?}")
            };
            let needed = cut[&row.what];
            // A tenth more, and up to the next tenth of a metre.
            assert!(bought >= 1.1 * needed - 1e-9, "{row:?}: {needed}");
            assert!(bought <= 1.1 * needed + 0.1 + 1e-9, "{row:?}: {needed}");
        }
    });
}

#[test]
fn every_end_gets_what_takes_its_wire_or_a_finding() {
    each(|walk, l| {
        let (loom, stock) = (walk.loom(), walk.stock());
        assert_eq!(l.fit.ends.len(), loom.wires.len());
        for (i, (w, ends)) in loom.wires.iter().zip(&l.fit.ends).enumerate() {
            let conductor = &stock.conductors[walk.answers().choice.wires[i]];
            for end in ends {
                match &end.gets {
                    Termination::Terminal(t) => {
                        let t = &stock.terminals[*t];
                        assert!(t.wire_min <= conductor.area && conductor.area <= t.wire_max);
                    }
                    // With others: no less than its own.
                    Termination::Shared(t) => {
                        assert!(conductor.area <= stock.terminals[*t].wire_max, "{}", w.name);
                    }
                    Termination::Contact { plug, seal } => {
                        let class = l.fit.class(stock, *plug);
                        let class = class.unwrap_or_else(|| panic!("{} has no class", w.name));
                        assert!(
                            class.wire_min <= conductor.area && conductor.area <= class.wire_max
                        );
                        assert_eq!(class.sealed, seal.is_some(), "{}", w.name);
                        if let Some(seal) = seal.map(|s| &class.seals[s]) {
                            let outside = conductor.outside_d;
                            assert!(seal.od_min <= outside && outside <= seal.od_max);
                        }
                    }
                    Termination::Its(what) => assert!(!what.is_empty()),
                    Termination::Nothing(what) => {
                        let told = walk.findings().iter().any(|f| {
                            f.id == "no-terminal"
                                && f.says.contains(what)
                                && f.names().contains(&w.name)
                        });
                        assert!(told, "{}: {what}", w.name);
                    }
                }
            }
        }
    });
}

/// Wires that meet on one tab are crimped into one receptacle: no tab takes two.
#[test]
fn a_tab_gets_one_receptacle_however_many_wires_meet_there() {
    let walk = Walk::of(EXAMPLES[0]);
    let l = lists(&walk);
    let loom = walk.loom();
    let end = |wire: &str, pin: &str| {
        let at = loom.wire_named(wire).unwrap_or_else(|| panic!("no {wire}"));
        let ends = &l.fit.ends[at.0 as usize];
        let found = ends.iter().find(|e| loom.pin_name(e.pin) == pin);
        found
            .unwrap_or_else(|| panic!("{wire} does not end at {pin}"))
            .gets
            .clone()
    };
    let (one, other) = (end("W1.1", "K1:30"), end("W1.2", "K1:30"));
    assert_eq!(one, other);
    assert!(matches!(one, Termination::Shared(_)), "{one:?}");
}

/// Common practice, no source.
#[test]
fn connectors_have_ways_enough_and_sealed_ones_stand_where_it_is_wet() {
    each(|walk, l| {
        let (loom, stock) = (walk.loom(), walk.stock());
        for plug in &l.fit.plugs {
            let Ok((class, ways)) = &plug.class else {
                continue;
            };
            let class = &stock.connectors[*class];
            assert!(*ways >= plug.used && class.ways.contains(ways));
            assert_eq!(class.sealed, loom.place(loom.part(plug.part).place).wet);
        }
    });
}

#[test]
fn every_wire_is_cut_once_from_a_roll_that_holds_it() {
    each(|walk, l| {
        let loom = walk.loom();
        let pieces = l.spools.iter().flat_map(|r| r.rolls.concat());
        let mut met: Vec<String> = pieces.map(|p| p.name).collect();
        met.retain(|name| loom.wire_named(name).is_some());
        met.extend(l.too_long.iter().map(|w| loom.wire(*w).name.clone()));
        met.sort_unstable();
        // Thicker wire is bought by the metre.
        let thin = |(id, _): &(loom::WireId, &loom::Wire)| {
            let conductor = walk.answers().choice.wires[id.0 as usize];
            in_mm2(walk.stock().conductors[conductor].area) < 10.5
        };
        let all = loom.each_wire().filter(thin);
        let mut all: Vec<String> = all.map(|(_, w)| w.name.clone()).collect();
        all.sort_unstable();
        assert_eq!(met, all);
        for kind in &l.spools {
            assert!(kind.least <= kind.rolls.len());
            for roll in &kind.rolls {
                // The last cut needs no kerf where it ends at the roll's end.
                let cuts = roll.len().saturating_sub(1) as f64;
                let used: f64 = roll.iter().map(|p| p.metres).sum();
                let lost = cuts * kind.kerf_mm * 1e-3;
                assert!(used + lost <= kind.metres + 1e-9, "{}", kind.what);
            }
        }
    });
}

#[test]
fn sleeve_is_bought_for_every_piece_that_is_cut() {
    each(|walk, l| {
        for spools in l
            .spools
            .iter()
            .filter(|s| walk.stock().sleeves.iter().any(|x| x.name == s.what))
        {
            let cut: f64 = spools.rolls.iter().flatten().map(|p| p.metres).sum();
            let row = l.buy.iter().find(|b| b.what == spools.what);
            let row = row.unwrap_or_else(|| panic!("{} is not bought", spools.what));
            let Amount::Metres(bought) = row.amount else {
                panic!("{row:?}")
            };
            assert!(
                bought >= 1.05 * cut - 1e-9 && bought <= 1.05 * cut + 0.1 + 1e-9,
                "{row:?}: {cut}"
            );
        }
    });
}

/// Nothing bare is left in the open: every end has an insulated barrel in the dry, a sealed one, a housing, a slip-on cover, or
/// shrink that slides over it and its wires and closes on the thinnest (NASA-STD-8739.4 9.8.1, read: expanded over the largest,
/// recovered below the smallest).
#[test]
fn every_bare_end_is_covered_by_what_slides_over_it_and_closes_on_the_wire() {
    let (mut shrinks, mut others) = (0, 0);
    each(|walk, l| {
        let (loom, stock) = (walk.loom(), walk.stock());
        for (i, ends) in l.fit.ends.iter().enumerate() {
            let wire = &stock.conductors[walk.answers().choice.wires[i]];
            for end in ends {
                let (Termination::Terminal(t) | Termination::Shared(t)) = &end.gets else {
                    continue;
                };
                let t = &stock.terminals[*t];
                let part = loom.part_of(end.pin);
                let first = loom
                    .wires
                    .iter()
                    .position(|w| w.from == end.pin || w.to == end.pin);
                let socketed = matches!(part.kind, PartKind::Relay(_)) && t.kind == "tab";
                let dry = t.insulated && (!loom.place(part.place).wet || t.kind == "tab");
                let Some(cover) = &end.cover else {
                    let told_before =
                        matches!(end.gets, Termination::Shared(_)) && first != Some(i);
                    let covered = t.sealed || socketed || dry || end.slip_on || told_before;
                    assert!(
                        covered,
                        "{} at {}",
                        loom.wires[i].name,
                        loom.pin_name(end.pin)
                    );
                    others += 1;
                    continue;
                };
                let sleeve = cover.sleeve.as_ref().map(|s| &stock.sleeves[*s]);
                let sleeve = sleeve.unwrap_or_else(|what| panic!("none: {what}"));
                assert!(
                    Some(sleeve.bore) > t.barrel && sleeve.bore > wire.outside_d,
                    "{}",
                    sleeve.name
                );
                // At a splice the thickest wire may lie on the other side.
                let ours = sleeve.recovered < Some(wire.outside_d);
                assert!(ours || t.kind == "splice", "{}", sleeve.name);
                if t.kind != "butt" && t.kind != "splice" {
                    assert_eq!(!cover.before, Some(sleeve.bundle_max) >= t.across);
                }
                shrinks += 1;
            }
        }
    });
    assert!(shrinks > 15 && others > 100, "{shrinks} {others}");
}

/// What lies in a panel goes through it once; what is told to pass does, beside the wires that lie there by then, by the area
/// that all need at least, and nothing is told to be crimped behind the panel that would go through as the first.
#[test]
fn everything_that_lies_in_a_panel_goes_through_it_once() {
    let mut met: BTreeMap<How, usize> = BTreeMap::new();
    each(|walk, l| {
        let loom = walk.loom();
        let outside = |w: &loom::WireId| {
            let conductor = walk.answers().choice.wires[w.0 as usize];
            walk.stock().conductors[conductor].outside_d.si()
        };
        for p in &l.passings {
            let mut wires: Vec<_> = p.passes.iter().flat_map(|p| p.wires.clone()).collect();
            wires.sort_unstable();
            let mut lie = loom.stretch(p.stretch).wires.clone();
            lie.sort_unstable();
            assert_eq!(wires, lie);
            let laid = l
                .laid
                .iter()
                .find(|l| l.stretch == p.stretch)
                .expect("a bundle");
            let hole = laid
                .hole
                .as_ref()
                .and_then(|h| h.across)
                .expect("a hole")
                .si();
            let mut area = 0.0;
            for pass in &p.passes {
                let opening = if pass.how == How::GrommetFirst {
                    hole
                } else {
                    p.bore.si()
                };
                let own: f64 = pass.wires.iter().map(|w| outside(w).powi(2)).sum();
                if let Some(across) = pass.across {
                    assert!(across.si() <= opening * (1.0 + 1e-6), "{pass:?}");
                    assert!(
                        area + across.si().powi(2) <= opening.powi(2) * (1.0 + 1e-6),
                        "{pass:?}"
                    );
                }
                assert_eq!(
                    pass.across.is_none(),
                    pass.how == How::CrimpAfter,
                    "{pass:?}"
                );
                area += own;
                *met.entry(pass.how).or_default() += 1;
            }
            let last = p.passes.iter().position(|p| p.how == How::CrimpAfter);
            let behind = &p.passes[last.unwrap_or(p.passes.len())..];
            assert!(behind.iter().all(|p| p.how == How::CrimpAfter));
        }
    });
    assert!(
        met.get(&How::Whole) > Some(&3) && met.get(&How::GrommetFirst) > Some(&3),
        "{met:?}"
    );
    assert!(met.get(&How::CrimpAfter) > Some(&3), "{met:?}");
}

/// Common practice, no source: a clip beside each end of a stretch, and none farther from the next than is said.
#[test]
fn clips_hold_every_stretch() {
    each(|walk, l| {
        for laid in &l.laid {
            let run = walk.loom().stretch(laid.stretch).length.si();
            let spans = f64::from(laid.clips) + 1.0;
            assert!(
                laid.clips >= 1 && run / spans <= laid.every.si() + 1e-9,
                "{laid:?}"
            );
        }
    });
}
