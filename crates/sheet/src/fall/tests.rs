//! Whole charts of made-up ways: no two words overlap, nothing lies outside the border, whatever the way.

use super::compose::chart;
use super::{FallChart, FallKind, FallRow, fall};
use crate::Title;
use crate::chart::check::faults;
use proptest::prelude::*;

fn title() -> Title {
    Title {
        title: "Farm ute: auxiliary circuits".to_owned(),
        vehicle: "two-seat farm utility, 12 V".to_owned(),
        owner: Some("Lower Orchard".to_owned()),
    }
}

fn row(kind: FallKind, name: &str, what: &str, volts: f64) -> FallRow {
    FallRow {
        kind,
        name: name.to_owned(),
        what: what.to_owned(),
        volts,
    }
}

fn usual() -> FallChart {
    FallChart {
        heading: "E1.1, rack lamps lamp 1".to_owned(),
        says: "It gets 11.64 V of the 12.10 V at the battery; 0.46 V is lost.".to_owned(),
        rows: vec![
            row(FallKind::Wire, "W0.1", "10 mm², 0.4 m", 0.012),
            row(FallKind::Part, "F0.1", "", 0.03),
            row(FallKind::Wire, "W1.1", "2.5 mm², 1.2 m", 0.11),
            row(FallKind::Load, "E1.1", "", 11.64),
            row(FallKind::Wire, "W1.9", "2.5 mm², 3.2 m", 0.288),
            row(FallKind::Vehicle, "body", "tray side to battery tray", 0.02),
        ],
        limit: (0.36, "allowed: 0.36 V, 3 % of 12 V".to_owned()),
    }
}

#[test]
fn a_usual_way() {
    let f = usual();
    assert_eq!(faults(&chart(&f, &title())), Vec::<String>::new());
    let sheet = fall(&f, &title());
    assert_eq!(sheet.name, "drop-e1.1");
    assert!(sheet.svg.contains("gets 11.64 V") && sheet.svg.contains("0.288 V"));
}

#[test]
fn bars_follow_one_another_as_long_as_their_volts() {
    let c = chart(&usual(), &title());
    let bars: Vec<_> = c.bands.iter().take(5).map(|b| b.frame).collect();
    for pair in bars.windows(2) {
        assert!((pair[0].right - pair[1].left).abs() < 1e-9);
    }
    let long = |i: usize| bars[i].right - bars[i].left;
    assert!((long(2) / long(1) - 0.11 / 0.03).abs() < 1e-6);
}

proptest! {
    #[test]
    fn no_way_has_words_on_words(
        rows in prop::collection::vec((0usize..3, 0usize..4, 0.0f64..2.0), 1..30),
        limit in 0.01f64..3.0,
    ) {
        let words = ["2.5 mm²", "", "behind the passenger’s left kick panel, 12.4 m", "contact"];
        let kinds = [FallKind::Wire, FallKind::Part, FallKind::Vehicle];
        let mut f = usual();
        f.rows = rows.iter().map(|(k, w, v)| row(kinds[*k], "W12.14", words[*w], *v)).collect();
        f.rows.push(row(FallKind::Load, "E1.1", "", 11.0));
        f.limit.0 = limit;
        prop_assert_eq!(faults(&chart(&f, &title())), Vec::<String>::new());
    }
}
