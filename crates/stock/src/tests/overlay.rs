//! A user's own table over the stock: what it changes, and every fault in it told.

use super::*;

const OWN_TABLE: &str = r#"
[[conductor]]
id = "2.5 mm² thin-wall PVC"
family = "metric"
size = "2.5 mm²"
insulation = "PVC"
wall = "thin"
area_mm2 = 2.4
mohm_per_m = 7.5
conductor_mm = 2.1
outside_mm = 2.9

[[insulation]]
name = "silicone"
limit_c = 180
lowest_c = -60
damage_c = 350
table_column_c = 125
k_w_mk = 0.2
emissivity = 0.9
heat_j_m3k = 2e6

[[price]]
conductor = "4 mm² thin-wall PVC"
per_m = 1.4

[[price]]
fuse = "miniature blade"
amps = 15
each = 0.3
"#;

#[test]
fn a_users_table_replaces_adds_and_prices() {
    let mut stock = Stock::embedded();
    let before = stock.conductors.len();
    assert_eq!(stock.overlay(OWN_TABLE), []);
    assert_eq!(stock.conductors.len(), before);
    let own = stock.conductor("2.5 mm² thin-wall PVC").unwrap();
    assert_eq!((own.area, own.origin.basis), (mm2(2.4), Basis::User));
    assert_eq!(
        stock.insulation("silicone").map(|i| i.limit),
        Some(celsius(180.0))
    );
    assert_eq!(
        stock.conductor("4 mm² thin-wall PVC").unwrap().price_per_m,
        Some(1.4)
    );
    assert_eq!(
        stock
            .fuse_kind("miniature blade")
            .unwrap()
            .rating(15.0)
            .unwrap()
            .price,
        Some(0.3)
    );
    assert_eq!(
        in_celsius(stock.insulation("PVC").unwrap().limit).round(),
        105.0
    );
}

#[test]
fn every_fault_of_a_users_table_is_told_with_its_place() {
    let mut stock = Stock::embedded();
    let text = "[[joint]]\nname = \"crimp\"\nmhom = 0.4\nlife_factor = 3\n\n[[grommet]]\nbore_mm = 6\nhole_mm = -3\n\
                panel_min_mm = 1\npanel_max_mm = 2\n\n[[price]]\nconductor = \"2.5 mm² thin-wal PVC\"\nper_m = 1\n";
    let found = stock.overlay(text);
    let ids: Vec<_> = found.iter().map(|f| f.id).collect();
    assert_eq!(
        ids,
        ["missing-key", "unknown-key", "out-of-range", "unknown-word"],
        "{found:#?}"
    );
    assert!(found[1].mend.contains("“mohm”"), "{}", found[1].mend);
    assert!(
        found[3].mend.contains("2.5 mm² thin-wall PVC"),
        "{}",
        found[3].mend
    );
    assert!(
        found
            .iter()
            .all(|f| f.span().is_some_and(|s| s.end > s.start))
    );
    assert_eq!(stock, Stock::embedded());
}

#[test]
fn a_wire_of_unknown_insulation_is_told() {
    let mut stock = Stock::embedded();
    let text = "[[conductor]]\nfamily = \"metric\"\nsize = \"9 AWG\"\ninsulation = \"cross-link\"\nwall = \"thin\"\n\
                area_mm2 = 2\nmohm_per_m = 9\nconductor_mm = 2\noutside_mm = 3\n";
    assert_eq!(stock.overlay(text)[0].id, "mixed-family");
    let found = stock.overlay(&text.replace("9 AWG", "7 mm²"));
    assert_eq!(found.len(), 1);
    assert!(
        found[0].mend.contains("did you mean \"cross-linked\""),
        "{}",
        found[0].mend
    );
}

#[test]
fn a_users_own_seals_say_their_colour_and_own_tabs_stand_in_their_order() {
    let mut stock = Stock::embedded();
    let tab = |stock: &Stock, area: f64| {
        let t = stock
            .terminal_for("tab", mm2(area), Onto::Tab(6.3), false)
            .expect("a receptacle");
        stock.terminal_bears(t, mm2(area)).map(|a| a.si())
    };
    let before = tab(&stock, 6.0);
    let own = r#"
[[connector]]
name = "mine"
sealed = true
contact_mm = 2.8
ways = [2]
wire_min_mm2 = 0.5
wire_max_mm2 = 2.5
amps = 15
seals = [{ od_min_mm = 1.6, od_max_mm = 2.2, wire_min_mm2 = 0.5, wire_max_mm2 = 1.0, colour = "white" }]

[[tab]]
tab_mm = 6.3
awg = "17"
wire_mm2 = 1.04
amps = 8
"#;
    assert_eq!(stock.overlay(own), []);
    let mine = stock.connectors.iter().find(|c| c.name == "mine").unwrap();
    let seal = mine.seal(mm2(0.75), millimetres(1.9)).unwrap();
    assert_eq!(
        seal.words(),
        "white seal for wires of 1.6 mm to 2.2 mm outside"
    );
    // A row laid over in the middle does not become the last.
    assert_eq!(tab(&stock, 6.0), before);
    assert_eq!(tab(&stock, 1.04), Some(8.0));
}
