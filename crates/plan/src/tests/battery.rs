//! What a plan says of how its battery is used: its health, duties, signals, cutouts, days.

use super::*;
use quantity::{hours, percent, volts, watts};

fn read(text: &str) -> Plan {
    let (plan, errors) = Plan::read(text);
    assert_eq!(errors, []);
    plan.unwrap()
}

#[test]
fn a_battery_says_its_health_its_cranking_charge_and_its_exponent() {
    let battery = |keys: &str| {
        with(
            "cranking = \"640 A\"",
            &format!("cranking = \"640 A\", {keys}"),
        )
    };
    let b = read(&battery(
        "health = \"80 %\", cranks_at = \"60 %\", peukert = 1.2",
    ))
    .supply
    .battery;
    assert_eq!(
        (b.health, b.cranks, b.peukert),
        (Some(percent(80.0)), Some(percent(60.0)), Some(1.2))
    );
    for edge in ["20 %", "100 %"] {
        read(&battery(&format!("health = \"{edge}\"")));
    }
    for edge in ["0 %", "95 %"] {
        read(&battery(&format!("cranks_at = \"{edge}\"")));
    }
    assert_eq!(ids(&battery("health = \"19 %\"")), ["bad-value"]);
    assert_eq!(ids(&battery("health = 0.8")), ["bad-value"]);
    assert_eq!(ids(&battery("cranks_at = \"96 %\"")), ["bad-value"]);
    assert_eq!(ids(&battery("peukert = 2.1")), ["out-of-range"]);
}

#[test]
fn a_load_that_switches_itself_says_its_duty() {
    let duty = |keys: &str| {
        with(
            "rated = \"40 W\"",
            &format!("rated = \"40 W\", duty = {keys}"),
        )
    };
    let plan = read(&duty("{ on = \"15 min\", every = \"1 h\" }"));
    let part = plan.circuits[0].loads[0].duty.map(|d| d.part());
    assert_eq!(part, Some(0.25));
    assert_eq!(ids(&duty("{ on = \"1 h\", every = \"60 min\" }")), ["duty"]);
    assert_eq!(ids(&duty("{ on = \"1 h\" }")), ["missing-key"]);
    assert_eq!(ids(&duty("{ on = 15, every = \"1 h\" }")), ["bad-value"]);
}

#[test]
fn a_signal_says_when_it_can_be_there() {
    let signal =
        |keys: &str| format!("{SMALL}[[signal]]\nname = \"starter\"\nplace = \"dash\"\n{keys}\n");
    assert_eq!(read(&signal("")).signals[0].when, []);
    let one = read(&signal("when = \"cranking\"\nlamp = \"21 W\""));
    assert_eq!(one.signals[0].when, [SupplyState::Cranking]);
    assert_eq!(one.signals[0].lamp, Some(watts(21.0)));
    let two = read(&signal("when = [\"key on\", \"driving\"]"));
    assert_eq!(
        two.signals[0].when,
        [SupplyState::KeyOn, SupplyState::Driving]
    );
    let (_, errors) = Plan::read(&signal("when = [\"crankin\", \"driving\"]"));
    assert_eq!(errors[0].id, "unknown-word");
    assert!(errors[0].mend.contains("did you mean \"cranking\""));
}

#[test]
fn a_cutout_closes_above_where_it_opens() {
    let cutout = |keys: &str| {
        with(
            "earth = \"rack\"",
            &format!("earth = \"rack\"\ncutout = {{ {keys} }}"),
        )
    };
    let plan = read(&cutout(
        "place = \"dash\", opens = \"11.5 V\", closes = \"12.5 V\", rating = \"40 A\", draws = \"5 mA\", earth = \"battery\"",
    ));
    let wish = plan.circuits[0].cutout.as_ref().unwrap();
    assert_eq!(wish.opens.value, volts(11.5));
    assert_eq!(
        ids(&cutout(
            "place = \"dash\", opens = \"12.5 V\", closes = \"12.5 V\""
        )),
        ["cutout"]
    );
    let (_, errors) = Plan::read(&cutout("place = \"dash\", closes = \"12.5 V\""));
    assert_eq!(errors[0].id, "missing-key");
    assert!(errors[0].mend.contains("opens = \"11.5 V\""));
    assert_eq!(
        ids(&cutout(
            "place = \"dsh\", opens = \"11.5 V\", closes = \"12.5 V\", earth = \"rock\""
        )),
        ["unknown-name", "unknown-name"]
    );
}

fn day(keys: &str) -> String {
    format!("{SMALL}[[day]]\n{keys}\n")
}

#[test]
fn a_day_is_read_part_after_part() {
    let plan = read(&day(
        "hours = \"1 h 30 min\"\nsupply = \"driving\"\non = \"lamps\"\n[[day]]\nwhat = \"start\"\nhours = \"10 s\"\nsupply = \"cranking\"",
    ));
    let [drive, start] = plan.day.as_slice() else {
        panic!("{:?}", plan.day)
    };
    assert_eq!(
        (drive.what.as_str(), drive.hours.value),
        ("driving", hours(1.5))
    );
    assert_eq!(drive.on[0].value, "lamps");
    assert_eq!(
        (start.what.as_str(), start.supply),
        ("start", SupplyState::Cranking)
    );
}

#[test]
fn each_slip_of_a_day_is_named() {
    let slips = [
        ("supply = \"parked\"", "missing-key"),
        ("hours = \"2 h\"", "missing-key"),
        ("hours = 2\nsupply = \"parked\"", "bad-value"),
        ("hours = \"30 s\"\nsupply = \"parked\"", "bad-value"),
        ("hours = \"15 days\"\nsupply = \"parked\"", "bad-value"),
        ("hours = \"2 min\"\nsupply = \"cranking\"", "day"),
        ("hours = \"2 h\"\nsupply = \"sleeping\"", "unknown-word"),
        (
            "hours = \"2 h\"\nsupply = \"parked\"\non = [\"lmps\"]",
            "unknown-name",
        ),
    ];
    for (keys, id) in slips {
        assert_eq!(ids(&day(keys)), [id], "{keys}");
    }
}

#[test]
fn a_day_may_name_a_circuit_that_can_not_be_read() {
    let text = day("hours = \"2 h\"\nsupply = \"parked\"\non = [\"lamps\"]")
        .replace("box = \"aux\"\n", "");
    assert_eq!(ids(&text), ["missing-key"]);
}

#[test]
fn every_supply_state_has_its_word() {
    for state in SupplyState::ALL {
        assert!(SupplyState::WORDS.contains(&(state.word(), state)));
        assert_eq!(state.ignition(), state != SupplyState::Parked);
    }
}
