//! Whole charts of made-up pairs: no two words overlap, nothing lies outside the border, whatever the pair.

use super::compose::chart;
use super::{CoordinationNames, coordination};
use crate::Title;
use crate::chart::check::faults;
use crate::chart::{Chart, Fill, Sign};
use loom::{PartId, WireId};
use study::Coordination;

fn title() -> Title {
    Title {
        title: "Farm ute: auxiliary circuits".to_owned(),
        vehicle: "two-seat farm utility, 12 V".to_owned(),
        owner: Some("Lower Orchard".to_owned()),
    }
}

fn names() -> CoordinationNames {
    CoordinationNames {
        fuse: "F1, 15 A miniature blade".to_owned(),
        wire: "W1.3, 2.5 mm² PVC".to_owned(),
        load: "work lamps".to_owned(),
    }
}

fn long_names() -> CoordinationNames {
    CoordinationNames {
        fuse: "F12, 15 A miniature blade in the box behind the passenger’s kick panel".to_owned(),
        wire: "W12.3, 2.5 mm² thin-walled PVC in the bundle between the bulkhead and the tray".to_owned(),
        load: "work lamps at the rear of the tray, compressor of the rear axle’s differential lock, pump of the sprayer, UHF and fridge".to_owned(),
    }
}

/// A pair with a fuse of this rating before a wire that bears this steadily, with so many points of the band.
fn made(rating: f64, bears: f64, points: usize) -> Coordination {
    let amps = |n: usize| rating * 1.1 * (25.0_f64 / 1.1).powf(n as f64 / (points - 1) as f64);
    let over = |a: f64| (a / rating).powi(2) - 1.0;
    let latest = |a: f64| (a >= 1.35 * rating).then(|| 120.0 / over(a).powf(1.6) + 0.004);
    let band = (0..points).map(amps);
    let damage = (1..60).map(|n| bears * 1.002 * 1.12_f64.powi(n - 1));
    let harm = |a: f64| 90.0 * -(1.0 - (bears / a).powi(2)).ln();
    Coordination {
        fuse: PartId(0),
        wire: WireId(0),
        rating,
        band: band
            .map(|a| (a, 4.0 / over(a).powf(1.4) + 0.001, latest(a)))
            .collect(),
        damage: damage.map(|a| (a, harm(a))).collect(),
        load: rating * 0.55,
        start: (0..40)
            .map(|n| f64::from(n) * 0.02)
            .map(|t| (t, rating * (0.55 + 3.0 * (-t / 0.15).exp())))
            .collect(),
        faults: Some((rating * 2.7, rating * 21.0)),
        gap: (rating, rating * 1.35),
        margin: Some((
            harm(rating * 2.7) / latest(rating * 2.7).unwrap(),
            rating * 2.7,
        )),
    }
}

/// The pairs that are tried: usual, all but nothing known, far apart, close together, upside down.
fn pairs() -> Vec<(&'static str, Coordination)> {
    let usual = made(15.0, 29.0, 30);
    let bare = Coordination {
        band: Vec::new(),
        damage: Vec::new(),
        load: 0.0,
        start: Vec::new(),
        faults: None,
        margin: None,
        ..usual.clone()
    };
    let far = Coordination {
        load: 0.02,
        faults: Some((0.4, 9000.0)),
        ..usual.clone()
    };
    let close = Coordination {
        load: 14.9,
        faults: Some((20.0, 20.4)),
        ..usual.clone()
    };
    let unpromised = Coordination {
        band: usual.band.iter().map(|b| (b.0, b.1, None)).collect(),
        ..usual.clone()
    };
    let steep = Coordination {
        start: vec![(0.0, 90.0), (0.4, 90.0), (0.4, 8.0), (1.0, 8.0)],
        ..usual.clone()
    };
    vec![
        ("usual", usual),
        ("bare", bare),
        ("far", far),
        ("close", close),
        ("unpromised", unpromised),
        ("steep", steep),
        ("harmed first", made(30.0, 18.0, 30)),
        ("many points", made(7.5, 60.0, 900)),
        ("large", made(300.0, 280.0, 12)),
    ]
}

fn texts(chart: &Chart) -> Vec<&str> {
    let level = chart.labels.iter().map(|l| l.text.as_str());
    level
        .chain(chart.uprights.iter().map(|u| u.text.as_str()))
        .collect()
}

#[test]
fn no_words_overlap_and_nothing_lies_outside_the_border() {
    for (name, pair) in pairs() {
        for names in [names(), long_names()] {
            let chart = chart(&pair, &names, &title());
            assert_eq!(faults(&chart), Vec::<String>::new(), "{name}");
        }
    }
}

#[test]
fn a_usual_pair_is_told_in_the_plot_itself() {
    let pair = made(15.0, 29.0, 30);
    let chart = chart(&pair, &names(), &title());
    let texts = texts(&chart);
    let joined = texts.join(" ");
    for text in [
        "no opening is promised",
        "work lamps, 8.25 A",
        "lowest fault 40.5 A",
        "highest fault 315 A",
        "least margin 10 × at 40.5 A",
        "W1.3, 2.5 mm² PVC F1, 15 A miniature blade start",
    ] {
        assert!(joined.contains(text), "{text} in {joined}");
    }
    assert_eq!(chart.marks.len(), 1);
    assert_eq!(chart.marks[0].sign, Sign::Diamond);
}

#[test]
fn a_band_with_no_latest_is_open_upwards() {
    let (_, pair) = pairs().remove(4);
    let chart = chart(&pair, &names(), &title());
    let areas: Vec<Fill> = chart.areas.iter().map(|a| a.fill).collect();
    assert!(areas.contains(&super::OPEN) && !areas.contains(&super::BAND));
    assert!(chart.lines.iter().any(|l| l.ink == super::HATCH));
}

#[test]
fn a_load_with_a_long_name_is_told_in_the_key() {
    let chart = chart(&made(15.0, 29.0, 30), &long_names(), &title());
    let texts = texts(&chart).join(" ");
    assert!(texts.contains("load, 8.25 A"), "{texts}");
    assert!(texts.contains("differential lock"), "{texts}");
}

#[test]
fn a_pair_has_a_name_of_its_own() {
    let sheet = coordination(&made(15.0, 29.0, 30), &names(), &title());
    assert_eq!(sheet.name, "coordination-f1-and-w1.3");
    assert!(roxmltree::Document::parse(&sheet.svg).is_ok());
}

#[test]
fn a_fuse_and_its_wire() {
    let sheet = coordination(&made(15.0, 29.0, 12), &names(), &title());
    insta::assert_snapshot!(sheet.svg);
}
