//! The lists of the examples and of plans drawn by lot: what is bought is enough for what is cut, what is fitted fits, and
//! nothing is left without being told.

use crate::walk::Walk;
use quantity::Quantity;
use std::collections::BTreeMap;
use study::{Amount, How, Lists, Termination};

const EXAMPLES: [&str; 3] = [
    include_str!("../examples/farm.toml"),
    include_str!("../examples/camper.toml"),
    include_str!("../examples/lorry.toml"),
];

fn lists(walk: &Walk) -> Lists {
    let lists = walk.job().lists();
    lists.unwrap_or_else(|| panic!("no lists: {:#?}", walk.errors()))
}

fn each(mut check: impl FnMut(&Walk, &Lists)) {
    let drawn = [5, 10, 20].map(bench::plan_text);
    let drawn = drawn.iter().map(String::as_str);
    for plan in EXAMPLES.into_iter().chain(drawn) {
        let walk = Walk::of(plan);
        check(&walk, &lists(&walk));
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
        let mut all: Vec<String> = loom.wires.iter().map(|w| w.name.clone()).collect();
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

/// Nothing bare is left in the open: an end has its insulated or sealed barrel, its housing, or shrink that slides over it
/// and closes on its wire (NASA-STD-8739.4 9.8.1, read: expanded over the largest, recovered below the smallest).
#[test]
fn shrink_slides_over_the_barrel_and_closes_on_the_wire() {
    let mut met = 0;
    each(|walk, l| {
        for (i, ends) in l.fit.ends.iter().enumerate() {
            let wire = &walk.stock().conductors[walk.answers().choice.wires[i]];
            for end in ends {
                let (Termination::Terminal(t), Some(cover)) = (&end.gets, &end.cover) else {
                    continue;
                };
                let t = &walk.stock().terminals[*t];
                let sleeve = cover.sleeve.as_ref().map(|s| &walk.stock().sleeves[*s]);
                let sleeve = sleeve.unwrap_or_else(|what| panic!("none: {what}"));
                assert!(!t.sealed);
                assert!(Some(sleeve.bore) > t.barrel, "{}", sleeve.name);
                assert!(sleeve.recovered < Some(wire.outside_d), "{}", sleeve.name);
                assert_eq!(
                    !cover.before,
                    t.kind != "butt" && Some(sleeve.bundle_max) >= t.across
                );
                met += 1;
            }
        }
    });
    assert!(met > 10, "{met}");
}

/// Every pass is told once, with a way that its width allows.
#[test]
fn everything_that_lies_in_a_panel_goes_through_it_once() {
    each(|walk, l| {
        let loom = walk.loom();
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
            let hole = laid.hole.as_ref().and_then(|h| h.across).expect("a hole");
            for pass in &p.passes {
                match pass.how {
                    How::Whole | How::GrommetFirst => {
                        assert!(pass.across.is_some_and(|a| a <= hole), "{pass:?}")
                    }
                    How::HousingAfter => assert!(loom.mates.len() > 1),
                    How::CrimpAfter => {}
                }
            }
        }
    });
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
