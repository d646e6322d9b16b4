//! How a loom is laid, against the tables as they were handed over: bends, supports, marks; and the colours of each habit.

use super::reference::{Look, reference};
use crate::walk::Walk;
use loom::Role;
use quantity::Quantity;
use toml::Value;

fn rule<'a>(table: &'a Value, id: &str) -> &'a Value {
    let found = table.rows("rule").iter().find(|r| r.word("id") == id);
    found.unwrap_or_else(|| panic!("no rule “{id}”"))
}

fn farm() -> &'static str {
    include_str!("../../examples/farm.toml")
}

/// Ten times the largest wire, and three where it is held.
#[test]
fn bends_are_those_of_aircraft_practice() {
    let table = reference!("workmanship/routing_bend_radius.toml");
    let multiples = ["faa_largest", "faa_supported"].map(|id| rule(&table, id).num("multiple"));
    let walk = Walk::of(farm());
    let lists = walk.job().lists().expect("lists");
    for laid in &lists.laid {
        let wires = walk.loom().stretch(laid.stretch).wires.iter();
        let outside = wires.map(|w| {
            let conductor = walk.answers().choice.wires[w.0 as usize];
            walk.stock().conductors[conductor].outside_d.si()
        });
        let largest = outside.fold(0.0, f64::max);
        for (bend, multiple) in laid.bends.iter().zip(multiples) {
            assert!((bend.si() - multiple * largest).abs() < 1e-9);
        }
    }
    assert!(lists.laid.len() > 3);
}

/// Clips on a road vehicle and on a boat by the rules of each.
#[test]
fn supports_stand_as_close_as_the_rules_say() {
    let table = reference!("workmanship/routing_support_spacing.toml");
    let apart = |plan: &str| -> Vec<f64> {
        let walk = Walk::of(plan);
        let lists = walk.job().lists().expect("lists");
        let each = lists.laid.iter().map(|l| (l.every.si() * 1e3).round());
        each.collect()
    };
    let road = apart(farm());
    let (body, engine) = (
        rule(&table, "vehicle").num("max_mm"),
        rule(&table, "vehicle_engine").num("max_mm"),
    );
    assert!(road.contains(&body) && road.contains(&engine));
    assert!(road.iter().all(|mm| [body, engine].contains(mm)));
    for (rules, id) in [
        ("ISO 10133", "iso10133_general"),
        ("boat practice", "abyc_18in"),
    ] {
        let job = format!("[job]\nrules = \"{rules}\"\ninsulation = \"cross-linked\"");
        let plan = farm()
            .replace("insulation = \"cross-linked\"", "")
            .replacen("[job]", &job, 1);
        let mut boat = apart(&plan);
        // Battery conductors stand closer on a small craft.
        if rules == "ISO 10133" {
            let battery = rule(&table, "iso10133_battery").num("max_mm");
            let all = boat.len();
            boat.retain(|mm| *mm != battery);
            assert_eq!(all - boat.len(), 1);
        }
        assert!(
            !boat.is_empty() && boat.iter().all(|mm| *mm == rule(&table, id).num("max_mm")),
            "{boat:?}"
        );
    }
}

/// Label sleeves as the circular has them; how far apart is read without its unit, which is from memory.
#[test]
fn labels_stand_where_the_circular_says() {
    let table = reference!("workmanship/wire_marking.toml");
    let (end, sleeve, centre) = (
        rule(&table, "end_distance"),
        rule(&table, "sleeve"),
        rule(&table, "centre"),
    );
    let limits = (
        end.num("distance_mm"),
        centre.num("to_mm"),
        sleeve.num("max_interval_mm"),
    );
    assert_eq!(rule(&table, "none_below").num("below_mm"), limits.0);
    let walk = Walk::of(farm());
    let lists = walk.job().lists().expect("lists");
    for (w, n) in walk.loom().wires.iter().zip(&lists.labels) {
        assert_eq!(*n, study::labels(w.cut.si() * 1e3, limits), "{}", w.name);
    }
}

fn base_of(table: &Value, function: &str) -> String {
    let found = table
        .rows("use")
        .iter()
        .find(|r| r.word("function").starts_with(function));
    let row = found.unwrap_or_else(|| panic!("nothing is “{function}”"));
    let name = row
        .get_at("base")
        .or(row.get_at("colour"))
        .and_then(Value::as_str)
        .expect("a colour");
    let codes = reference!("workmanship/colour_codes_iec60757.toml");
    let word = name.split(' ').next_back().expect("a word");
    let word = if name.starts_with("black or") {
        "black"
    } else {
        word
    };
    // Boat practice says purple for violet.
    let word = if word == "purple" { "violet" } else { word };
    let code = codes.rows("colour").iter().find(|c| c.word("name") == word);
    code.unwrap_or_else(|| panic!("no code for {name}"))
        .word("code")
        .to_owned()
}

fn plan(habit: &str) -> String {
    let job = format!("[job]\ncolours = \"{habit}\"");
    let ignition = "[[feed]]\nname = \"key\"\nplace = \"dash\"\nkind = \"ignition tap\"\nfused = \"10 A\"\n\
                    [[circuit]]\nname = \"radio\"\nfeed = \"key\"\nlive = \"ignition\"\nearth = \"dash\"\n\
                    load = [{ electronics = \"radio\", rated = \"2 A\", place = \"dash\" }]\n";
    format!("{}\n{ignition}", farm().replacen("[job]", &job, 1))
}

#[test]
fn road_colours_are_those_of_the_lists() {
    let table = reference!("workmanship/colour_function_road_din.toml");
    let walk = Walk::of(&plan("road"));
    assert!(walk.errors().is_empty(), "{:?}", walk.errors());
    let loom = walk.loom();
    assert_eq!(loom.palette.earth, base_of(&table, "ground / 31"));
    assert!(
        loom.palette
            .live
            .contains(&base_of(&table, "permanent positive / 30"))
    );
    let stripe_only = base_of(&table, "stripe colour only");
    let ignition = base_of(&table, "battery to starter; ignition");
    for w in &loom.wires {
        let base = &w.colour.base;
        assert_ne!(*base, stripe_only, "{}", w.name);
        // “Red with brown is hardly separable from red with orange.”
        assert!(
            !(*base == "RD" && ["BN", "OG"].map(Some).contains(&w.colour.stripe.as_deref())),
            "{}",
            w.name
        );
    }
    // From the tap to the radio's fuse and on to the radio, which nothing else switches.
    let radio = loom.circuits.iter().position(|c| c.name == "radio");
    let fed = loom
        .wires
        .iter()
        .filter(|w| w.circuit == radio && !matches!(w.role, Role::Earth));
    let fed: Vec<_> = fed.map(|w| w.colour.base.clone()).collect();
    assert!(
        !fed.is_empty() && fed.iter().all(|b| *b == ignition),
        "{fed:?}"
    );
}

#[test]
fn boat_colours_are_those_of_the_lists() {
    let table = reference!("workmanship/colour_function_boat_abyc.toml");
    let walk = Walk::of(&plan("boat"));
    assert!(walk.errors().is_empty(), "{:?}", walk.errors());
    let loom = walk.loom();
    assert_eq!(loom.palette.earth, base_of(&table, "DC negative"));
    assert!(
        loom.palette
            .live
            .contains(&base_of(&table, "DC positive main"))
    );
    let (feed, pump, lamp) = (
        base_of(&table, "accessory feed"),
        base_of(&table, "pumps"),
        base_of(&table, "cabin and instrument lights"),
    );
    let named = |name: &str| loom.circuits.iter().position(|c| c.name == name);
    let mut met = 0;
    for w in loom.wires.iter().filter(|w| w.circuit.is_some()) {
        let base = &w.colour.base;
        match w.role {
            Role::Supply if w.circuit != named("radio") => assert_eq!(*base, feed, "{}", w.name),
            Role::Switched if w.circuit == named("transfer pump") => {
                assert_eq!(*base, pump, "{}", w.name)
            }
            Role::Switched if w.circuit == named("rack lamps") => {
                assert_eq!(*base, lamp, "{}", w.name)
            }
            _ => continue,
        }
        met += 1;
    }
    assert!(met >= 5, "{met}");
}
