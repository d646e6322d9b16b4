//! The numeric cases of workmanship, run whole: bundles, pull, cutting, bends, supports, marks, sleeves, gaps, tabs. A kind of
//! case that another check runs from its own table, or that is no rule of ours, is named with its reason.

use super::reference::{Look, reference};
use physics::packing::pack;
use quantity::{Area, Quantity, millimetres};
use stock::Stock;
use toml::Value;

/// Newtons in a pound-force.
const LBF: f64 = 4.448_221_6;
/// Marks written on the wire itself stand no farther apart than 15 in (AC 43.13-1B 11-208, read).
const DIRECT_MM: (f64, f64, f64) = (76.0, 178.0, 381.0);

fn near(row: &Value, ours: f64, key: &str) {
    let (theirs, within) = (row.num(key), row.num("tol"));
    assert!((ours - theirs).abs() <= within, "{row}: {ours}");
}

/// Within so much of the published diameter, and never below it.
fn packed(row: &Value, radii: &[f64], (theirs, part): (f64, f64)) {
    let ours = pack(radii, 300).radius;
    assert!(ours >= theirs * (1.0 - 1e-6), "{row}: {ours}");
    assert!(ours <= theirs * (1.0 + part), "{row}: {ours}");
}

fn area_of(awg: &str) -> Area {
    let gauge = quantity::Gauge::read(awg).unwrap_or_else(|| panic!("no gauge {awg}"));
    Area::from_si(gauge.area_mm2() * 1e-6)
}

/// Whether a case is run here; what is not is run elsewhere or is no rule of ours.
fn run(row: &Value, stock: &Stock) -> Result<(), &'static str> {
    match row.word("kind") {
        "bundle_equal" => {
            let n = row.num("n") as usize;
            let radii = vec![row.num("wire_od") / 2.0; n];
            packed(row, &radii, (row.num("expect_od") / 2.0, 1e-3));
        }
        // Within the tolerance of the case; `packing` holds them to more.
        "bundle_unequal" => {
            let expect = (row.num("expect_container_r"), row.num("tol"));
            packed(row, &row.nums("radii"), expect);
        }
        "pull_min" if row.word("table") != "ul" => {
            return Err("the table that is printed is UL 486A's");
        }
        "pull_min" => {
            let Some(ours) = stock.pulls.iter().find(|p| p.awg == row.word("awg")) else {
                return Err("thinner wire is not crimped by hand here");
            };
            near(row, ours.newton, "expect_n");
            assert!((ours.newton - row.num("expect_lbf") * LBF).abs() < 0.5);
        }
        "cutting" => return Err("`cutting` runs every instance from its own table"),
        "bend_radius" => near(
            row,
            study::bend_radius(row.num("od"), row.num("multiple")),
            "expect_mm",
        ),
        "intermediate_supports" => {
            let n = study::supports_between(row.num("run_mm"), row.num("max_span_mm"));
            near(row, f64::from(n), "expect");
        }
        "marks_direct" => near(
            row,
            f64::from(study::labels(row.num("wire_mm"), DIRECT_MM)),
            "expect",
        ),
        "sleeve_cut" => {
            let overlaps = 2.0 * row.num("overlap_mm");
            let cut = study::shrink_cut(row.num("covered_mm"), overlaps, row.num("shrink"));
            near(row, cut, "expect_mm");
        }
        // The least bore that a bundle goes into: every convolute and PVC sleeve that is chosen for it has it, and the next
        // smaller has not.
        "conduit_id_min" => {
            let bundle = millimetres(row.num("bundle_od"));
            for kind in ["convolute", "PVC sleeve"] {
                let (fit, not): (Vec<_>, Vec<_>) = stock
                    .sleeves
                    .iter()
                    .filter(|s| s.kind == kind)
                    .partition(|s| s.bundle_max >= bundle);
                let bore = |s: &stock::Sleeve| s.bore.si() * 1e3;
                let least = row.num("expect_mm");
                assert!(fit.iter().all(|s| bore(s) >= least - 1e-9), "{row}");
                assert!(not.iter().all(|s| bore(s) < least + 1e-9), "{row}");
                // The largest PVC sleeve of stock holds a bundle of 16 mm.
                assert!(
                    !not.is_empty() && (!fit.is_empty() || kind == "PVC sleeve"),
                    "{row}"
                );
            }
        }
        "insulation_gap_ok" => {
            let [least, most] =
                study::insulation_gap(area_of(row.word("awg"))).map(|l| l.si() * 1e3);
            let ok = (least..=most).contains(&row.num("gap_mm"));
            assert_eq!(Some(ok), row.at("expect_ok").as_bool(), "{row}");
        }
        "quick_connect_ok" => {
            let width = match row.word("series") {
                "250" => 6.3,
                _ => 2.8,
            };
            let area = area_of(row.word("awg"));
            let t = stock.terminal_for("tab", area, stock::Onto::Tab(width), false);
            let bears = t.and_then(|t| stock.terminal_bears(t, area));
            let ok = bears.is_some_and(|a| row.num("amps") <= a.si() + 1e-9);
            assert_eq!(Some(ok), row.at("expect_ok").as_bool(), "{row}: {bears:?}");
        }
        other => panic!("nothing runs cases of “{other}”"),
    }
    Ok(())
}

#[test]
fn every_numeric_case_is_run_or_named() {
    let table = reference!("workmanship/check_numeric.toml");
    let stock = Stock::embedded();
    let (mut met, mut left) = (0, 0);
    for row in table.rows("case") {
        match run(row, &stock) {
            Ok(()) => met += 1,
            Err(_) => left += 1,
        }
    }
    assert_eq!((met, left), (86, 29));
}
