//! Wires together (17): what is left of each one's free-air current, in the bands that documents
//! leave; and the harness example that fits our model (07).

use super::bench::ZERO;
use super::case::Case;
use super::ledger::Run;
use super::reference::{Look, reference};
use super::tolerance::Tolerance::Relative;
use physics::bundle::{BundleWire, steady_kelvin};
use physics::root;
use physics::wire_heat::{WireBody, steady_amps};

pub(crate) const RUNS: &[Run] = &[Run {
    ids: &["FAA-HB"],
    check: twelve_aircraft_wires,
}];

/// A wire, the temperature it may reach and that around it, K.
#[derive(Clone, Copy)]
struct Sample {
    name: &'static str,
    wire: BundleWire,
    limit: f64,
    around: f64,
}

fn sample(
    name: &'static str,
    (d, over, k): (f64, f64, f64),
    milliohm: f64,
    (limit, around): (f64, f64),
) -> Sample {
    Sample {
        name,
        wire: BundleWire {
            body: WireBody {
                conductor_d: d * 1e-3,
                outside_d: over * 1e-3,
                k_insulation: k,
                emissivity: 0.9,
            },
            r20_per_m: milliohm * 1e-3,
            amps: 0.0,
        },
        limit: ZERO + limit,
        around: ZERO + around,
    }
}

/// Aircraft wire, thin-wall PVC and cross-linked vehicle wire, thin and thick: geometry of 31 and 10.
fn samples() -> [Sample; 5] {
    [
        sample("12 AWG aircraft", (2.2, 2.77, 0.24), 6.6273, (200.0, 25.0)),
        sample(
            "14 AWG aircraft",
            (1.75, 2.29, 0.24),
            10.0394,
            (200.0, 25.0),
        ),
        sample("14 AWG PVC", (1.85, 2.8, 0.17), 8.4709, (105.0, 40.0)),
        sample("1 mm² PVC", (1.5, 2.1, 0.17), 18.5, (105.0, 50.0)),
        sample("4 mm² cross-linked", (2.8, 3.7, 0.286), 4.71, (125.0, 80.0)),
    ]
}

impl Sample {
    fn alone(self) -> f64 {
        steady_amps(
            &self.wire.body,
            self.wire.r20_per_m,
            self.limit,
            self.around,
        )
    }

    /// The current that brings each of `count` loaded wires to the limit, A.
    fn together(self, count: usize) -> f64 {
        let over = |amps: f64| {
            let wires = vec![BundleWire { amps, ..self.wire }; count];
            let hottest = steady_kelvin(&wires, None, self.around);
            hottest.into_iter().fold(0.0, f64::max) - self.limit
        };
        root::bracketed(over, 0.05 * self.alone(), 1.3 * self.alone(), 1e-6)
    }

    fn factor(self, count: usize) -> f64 {
        self.together(count) / self.alone()
    }
}

#[test]
fn twelve_wires_in_the_published_band() {
    let table = reference!("conductors/17_bundle_factors.toml");
    let band = table.at("band_12_wires_full_load");
    for s in samples() {
        let factor = s.factor(12);
        println!("{:<20} 12 wires {factor:.3}", s.name);
        assert!(
            (band.num("min")..=band.num("max")).contains(&factor),
            "{}: {factor}",
            s.name
        );
    }
}

#[test]
fn three_wires_between_the_strictest_and_the_most_lenient_document() {
    let table = reference!("conductors/17_bundle_factors.toml");
    let of = |id: &str, n: &str| {
        let set = table
            .rows("set")
            .iter()
            .find(|s| s.word("id") == id)
            .unwrap_or_else(|| panic!("no {id}"));
        let at = set
            .rows("n")
            .iter()
            .position(|x| x.as_str() == Some(n))
            .unwrap_or_else(|| panic!("{id} has no {n}"));
        set.nums("factor")[at]
    };
    let (strict, lenient) = (of("cfr183_abyc", "3"), of("mil_w_5088b", "3"));
    for s in samples() {
        let factor = s.factor(3);
        println!("{:<20} 3 wires {factor:.3}", s.name);
        assert!((strict..=lenient).contains(&factor), "{}: {factor}", s.name);
    }
}

#[test]
fn more_wires_leave_each_less_and_follow_the_bunched_cables_of_iec() {
    let table = reference!("conductors/17_bundle_factors.toml");
    let iec = table
        .rows("set")
        .iter()
        .find(|s| s.word("id") == "iec60364_5_52_bunched");
    let iec = iec.unwrap_or_else(|| panic!("no IEC set"));
    let counts = iec
        .rows("n")
        .iter()
        .filter_map(|n| n.as_str()?.parse::<usize>().ok());
    for s in samples() {
        let mut last = 1.01;
        for (n, published) in counts.clone().zip(iec.nums("factor")) {
            let factor = if n == 1 { 1.0 } else { s.factor(n) };
            assert!(factor < last, "{}: {n} wires {factor}", s.name);
            // Documents differ by as much among themselves: 0.70 and 0.89 for three wires.
            assert!(
                (factor / published - 1.0).abs() < 0.25,
                "{}: {n} wires {factor}, IEC {published}",
                s.name
            );
            last = factor;
        }
    }
}

/// Twelve loaded 12 AWG wires, 200 °C, in air at 25 °C: 29.2 A each by the FAA's curves.
fn twelve_aircraft_wires(c: &mut Case) {
    let ours = samples()[0].together(c.num("n") as usize);
    // Only the first of each pair: the second is at altitude, which is not modelled.
    let why = "both factors are read off curves, and documents leave 0.43 to 0.52 for twelve wires";
    c.one_of("a", 0, ours, Relative(0.12), why);
    c.one_of("total", 0, ours * c.num("n"), Relative(0.12), why);
}
