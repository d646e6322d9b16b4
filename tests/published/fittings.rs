//! Sleeves, shrink, seals, studs, barrels and tabs of stock against the tables as they were handed over.

use super::reference::{Look, reference};
use finding::Basis;
use quantity::{Quantity, in_mm2, millimetres};
use stock::{Sleeve, Stock};
use toml::Value;

fn sleeves<'a>(stock: &'a Stock, kind: &str) -> Vec<&'a Sleeve> {
    let all = stock.sleeves.iter();
    all.filter(|s| s.kind == kind).collect()
}

fn mm(l: quantity::Length) -> f64 {
    l.si() * 1e3
}

/// Every row of the tables has its sleeve, with its bores, its wall and its basis; stock has no other.
#[test]
fn shrink() {
    let thin = reference!("workmanship/heatshrink_2to1_thinwall.toml");
    let lined = reference!("workmanship/heatshrink_adhesive_3to1_4to1.toml");
    let stock = Stock::embedded();
    let tables = [
        ("plain shrink", thin.rows("size"), "wall_nom"),
        ("adhesive shrink", lined.rows("size_3to1"), "wall_total_nom"),
        ("adhesive shrink", lined.rows("size_4to1"), "wall_total_nom"),
    ];
    let mut met = 0;
    for (kind, rows, wall) in tables {
        for row in rows {
            let bores = (row.num("id_expanded_min"), row.num("id_recovered_max"));
            let Some(ours) = sleeves(&stock, kind).into_iter().find(|s| {
                (mm(s.bore) - bores.0).abs() < 0.01
                    && s.recovered.is_some_and(|r| (mm(r) - bores.1).abs() < 0.01)
            }) else {
                // The largest is for cables thicker than any of ours.
                assert!(bores.0 > 100.0, "no {kind} as {row}");
                continue;
            };
            assert!((mm(ours.wall) - row.num(wall)).abs() < 0.01, "{row}");
            assert_eq!(
                ours.origin.basis == Basis::Read,
                row.word("basis") == "READ",
                "{row}"
            );
            met += 1;
        }
    }
    let ours = stock.sleeves.iter().filter(|s| s.recovered.is_some());
    assert_eq!(met, ours.count());
}

/// Cases SL01 and SL02 of the list of checks: over a 4.0 mm wire and a 5.5 mm connector the quarter-inch sleeve; over 2.0 mm
/// and 6.0 mm nothing of the 2:1 class. SL02 goes on to the 4:1 class, and there too none of the table closes on 2.0 mm with a
/// tenth to spare; on 2.3 mm one does.
#[test]
fn shrink_is_chosen_by_the_largest_and_the_smallest() {
    let stock = Stock::embedded();
    let chosen = |kind, largest, smallest| {
        let found = stock.shrink_for(kind, millimetres(largest), millimetres(smallest));
        found.map(|s| {
            (
                mm(stock.sleeves[s].bore),
                stock.sleeves[s].recovered.map(mm),
            )
        })
    };
    let close = |a: Option<(f64, Option<f64>)>, bore: f64, recovered: f64| {
        let (b, r) = a.unwrap_or_else(|| panic!("none for {bore}"));
        (b - bore).abs() < 0.01 && r.is_some_and(|r| (r - recovered).abs() < 0.01)
    };
    assert!(close(chosen("plain shrink", 5.5, 4.0), 6.35, 3.18));
    assert_eq!(chosen("plain shrink", 6.0, 2.0), None);
    let lined = chosen("adhesive shrink", 6.0, 2.0);
    assert_eq!(
        lined, None,
        "4:1 comes as 8 to 2 mm, which does not close on 2 mm with a tenth to spare: {lined:?}"
    );
    assert!(close(chosen("adhesive shrink", 6.0, 2.3), 8.0, 2.0));
}

/// Every convolute, braid and PVC sleeve of the tables that stock has is as they say; from memory, all of them.
#[test]
fn open_sleeves() {
    let stock = Stock::embedded();
    let convolute = reference!("workmanship/loom_convolute.toml");
    let braid = reference!("workmanship/sleeve_braid_pvc.toml");
    let find = |kind: &str, bore: f64| {
        let found = sleeves(&stock, kind)
            .into_iter()
            .find(|s| (mm(s.bore) - bore).abs() < 0.06);
        found.unwrap_or_else(|| panic!("no {kind} of {bore} mm"))
    };
    let memory = |s: &Sleeve, row: &Value| {
        assert_eq!(s.origin.basis, Basis::Memory, "{row}");
        assert_eq!(row.word("basis"), "MEMORY");
    };
    let mut met = 0;
    for row in convolute.rows("inch").iter().chain(convolute.rows("nw")) {
        let ours = find("convolute", row.num("id_mm"));
        let outside = mm(ours.bore) + 2.0 * mm(ours.wall);
        // Makers differ by half a millimetre.
        assert!(
            (outside - row.num("od_mm")).abs() <= 0.5,
            "{row}: {outside}"
        );
        memory(ours, row);
        met += 1;
    }
    for row in braid.rows("braid") {
        let ours = find("braided", row.num("bundle_max"));
        assert!(
            (mm(ours.bundle_min) - row.num("bundle_min")).abs() < 1e-6,
            "{row}"
        );
        memory(ours, row);
        met += 1;
    }
    for row in braid.rows("pvc") {
        let ours = find("PVC sleeve", row.num("id"));
        assert!((mm(ours.wall) - row.num("wall")).abs() < 0.01, "{row}");
        memory(ours, row);
        met += 1;
    }
    assert!(met > 30, "{met}");
}

/// Every row of the quick-connect table has its row in stock, continuous amperes and all.
#[test]
fn tabs_bear_what_the_test_currents_say() {
    let table = reference!("workmanship/quick_connect_ul310.toml");
    let stock = Stock::embedded();
    let mut met = 0;
    for row in table.rows("row") {
        let width = match row.word("series") {
            "250" => 6.3,
            _ => 2.8,
        };
        let ours = stock
            .tabs
            .iter()
            .find(|t| (t.tab_mm - width).abs() < 1e-6 && t.awg == row.word("awg"));
        let ours = ours.unwrap_or_else(|| panic!("no {row}"));
        assert_eq!(ours.amps.si(), row.num("continuous_a"), "{row}");
        let gauge = quantity::Gauge::read(row.word("awg")).expect("a gauge");
        assert!(
            (in_mm2(ours.area) / gauge.area_mm2() - 1.0).abs() < 5e-3,
            "{row}"
        );
        met += 1;
    }
    // 4.8 mm stands with 6.3 mm, as the sheet groups them, and has no row of its own to be held against.
    let own = stock.tabs.iter().filter(|t| (t.tab_mm - 4.8).abs() > 1e-6);
    assert_eq!(met, own.count());
}

/// No terminal claims more than the width's class bears at most, and every width is one that the trade has a name for.
#[test]
fn tab_widths() {
    let widths = reference!("workmanship/tab_width_current.toml");
    let names = reference!("workmanship/tab_width_names.toml");
    let stock = Stock::embedded();
    for t in stock.terminals.iter().filter(|t| t.kind == "tab") {
        let mm = t.tab_mm.expect("a width");
        let same = |key: &'static str| move |r: &&Value| (r.num(key) - mm).abs() < 1e-6;
        let class = widths.rows("tab").iter().find(same("width_mm"));
        let class = class.unwrap_or_else(|| panic!("no tab of {mm} mm"));
        assert_eq!(t.most.map(|a| a.si()), Some(class.num("max_a")));
        assert!(t.amps.is_some_and(|a| a.si() <= class.num("max_a")));
        assert!(names.rows("series").iter().any(|r| same("width_mm")(&r)));
    }
}

/// Seals close on the diameters that the classes say (all from memory), each on some of its copper.
#[test]
fn seals() {
    let table = reference!("workmanship/sealed_connector_classes.toml");
    let stock = Stock::embedded();
    let range = |row: &Value| -> [f64; 2] {
        let text = row.word("seal_od_mm").split_once('-').expect("a range");
        [text.0, text.1].map(|t| t.parse().expect("a number"))
    };
    let mut met = 0;
    for row in table
        .rows("blade_seal")
        .iter()
        .chain(table.rows("round_contact"))
    {
        let name = match row.get_at("class") {
            Some(_) => format!(
                "sealed, {} mm contacts",
                row.word("class").trim_end_matches(" blade")
            ),
            None => format!("sealed, round contacts size {}", row.word("contact_size")),
        };
        let Some(class) = stock.connectors.iter().find(|c| c.name == name) else {
            assert!(name.contains("0.64"), "no {name}");
            continue;
        };
        let [from, to] = range(row);
        let ours = class
            .seals
            .iter()
            .find(|s| (mm(s.od_min) - from).abs() < 0.01 && (mm(s.od_max) - to).abs() < 0.01);
        assert!(ours.is_some(), "{name}: no seal of {from}–{to} mm");
        assert_eq!(row.word("basis"), "MEMORY");
        met += 1;
    }
    assert!(met > 10, "{met}");
}

/// Barrels by their colour: the wires that every source gives a colour are in its range.
#[test]
fn barrels() {
    let table = reference!("workmanship/insulated_barrel_colours.toml");
    let stock = Stock::embedded();
    let plain = |row: &&Value| row.get_at("series").is_none() && row.get_at("mm2_min").is_some();
    for row in table.rows("barrel").iter().filter(plain) {
        let colour = row.word("colour");
        let barrels = stock.terminals.iter();
        let barrels: Vec<_> = barrels
            .filter(|t| t.insulated && t.colour.as_deref() == Some(colour))
            .collect();
        assert!(!barrels.is_empty(), "{colour}");
        for t in barrels {
            let (from, to) = (in_mm2(t.wire_min), in_mm2(t.wire_max));
            // Ranges of ours reach to the gauges that the barrel is sold for, half a square millimetre below or above the metric
            // ranges; where sources differ the wider is taken.
            let (least, most) = (row.num("mm2_min"), row.num("mm2_max"));
            assert!(
                from <= least + 1e-9 && from >= least - 1.5 - 1e-9,
                "{row}: from {from}"
            );
            assert!(
                to >= most - 1e-9 && to <= most + 0.5 + 1e-9,
                "{row}: to {to}"
            );
        }
    }
}

/// Every stud that a ring of stock goes onto is one of the table, and no palm is narrower than its hole with metal around it.
#[test]
fn rings_are_wider_than_their_holes() {
    let table = reference!("workmanship/stud_holes.toml");
    let stock = Stock::embedded();
    let mut met = 0;
    for t in stock.terminals.iter().filter(|t| t.kind == "ring") {
        let stud = t.stud.as_deref().expect("a stud");
        let row = table.rows("stud").iter().find(|r| r.word("stud") == stud);
        let hole = row.unwrap_or_else(|| panic!("no {stud}")).num("hole_mm");
        assert!(
            t.across.is_some_and(|a| mm(a) > 1.5 * hole),
            "{stud}: {:?}",
            t.across
        );
        met += 1;
    }
    assert!(met > 60);
}
