//! When a fuse opens: a band, not a number.
//!
//! Each gate promises `min_s ≤ t ≤ max_s` at a multiple of the rating. Between gates both edges run
//! straight on log-log paper. For a varying current the clock is `∫ dt / t_open(I(t))`, which
//! reaches 1 when the fuse opens, once for each edge. Hot resistance `R = R₀ (1 + 0.46 x²)`.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | multiple, x | current over rating | 1 |
//! | min_s, max_s | soonest and latest opening | s |
//!
//! Range: no latest is promised below the first gate that has one (1.35 for blades). Beyond the
//! last gate both fall as I²t: an element that has less time to shed heat melts on no more of it than at
//! the gate; but the latest no further than the arc takes. Before the first gate, the soonest is
//! held. Sources: gates, reference `protection/01` (read) and `02`; re-rating, `07`; hot
//! resistance 1.46 at rated current derived in `06` from 86 mV at 25 A and 2.36 mΩ.

/// One row of a fuse class's opening times. Rows stand in rising order of `multiple`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gate {
    /// Current over rating.
    pub multiple: f64,
    /// It must not open sooner, s.
    pub min_s: f64,
    /// It must be open by then, s, if anything is promised.
    pub max_s: Option<f64>,
}

/// The least time in which a current is broken, s, however large: from memory, a few milliseconds at the rated
/// breaking capacity; the I²t of the last gate already is some 2.6 times what melts an element (reference `06`).
const ARC_S: f64 = 2e-3;
/// How much more an element resists at rated current.
const HOT_GAIN: f64 = 0.46;
/// Zinc just short of melting (419 °C) over zinc at 20 °C, from memory: it cannot rise further.
const MOST_HOT: f64 = 2.5;

/// Soonest and latest opening, s, at a multiple of the rating; infinite where nothing is promised.
pub fn opening_band(gates: &[Gate], multiple: f64) -> (f64, f64) {
    (soonest(gates, multiple), latest(gates, multiple))
}

fn soonest(gates: &[Gate], multiple: f64) -> f64 {
    let (Some(first), Some(last)) = (gates.first(), gates.last()) else {
        return 0.0;
    };
    if multiple <= first.multiple {
        return first.min_s;
    }
    if multiple >= last.multiple {
        return last.min_s * (last.multiple / multiple).powi(2);
    }
    between(
        gates.iter().map(|gate| (gate.multiple, gate.min_s)),
        multiple,
    )
    .unwrap_or(0.0)
}

fn latest(gates: &[Gate], multiple: f64) -> f64 {
    let promised = || {
        gates
            .iter()
            .filter_map(|gate| Some((gate.multiple, gate.max_s?)))
    };
    let (Some(first), Some(last)) = (promised().next(), promised().next_back()) else {
        return f64::INFINITY;
    };
    // Callers work multiples out from amps: 33.75 A over 25 A must still count as the gate at 1.35.
    if multiple < first.0 * (1.0 - 1e-12) {
        return f64::INFINITY;
    }
    if multiple >= last.0 {
        return (last.1 * (last.0 / multiple).powi(2)).max(ARC_S.min(last.1));
    }
    between(promised(), multiple).unwrap_or(first.1)
}

/// Log-log interpolation; a time of 0 at the far gate promises nothing, so it is 0 all the way.
fn between(mut points: impl Iterator<Item = (f64, f64)>, multiple: f64) -> Option<f64> {
    let mut low = points.next()?;
    for high in points {
        if multiple >= low.0 && multiple <= high.0 {
            if high.1 <= 0.0 || low.1 <= 0.0 {
                return Some(low.1.min(high.1));
            }
            let t = (multiple / low.0).ln() / (high.0 / low.0).ln();
            return Some(low.1 * (high.1 / low.1).powf(t));
        }
        low = high;
    }
    None
}

/// How far the fuse's clock has run after stretches of (multiple, seconds): first by the soonest
/// edge (at 1 it may have opened), then by the latest (at 1 it must have).
pub fn clock(gates: &[Gate], history: &[(f64, f64)]) -> (f64, f64) {
    history
        .iter()
        .fold((0.0, 0.0), |(may, must), &(multiple, seconds)| {
            if seconds <= 0.0 {
                return (may, must);
            }
            let (soonest, latest) = opening_band(gates, multiple);
            (may + seconds / soonest, must + seconds / latest)
        })
}

/// What surrounding heat leaves of a rating, from rising points of (kelvin, factor). Held at the
/// cold end, carried on down the last line at the hot end.
pub fn ambient_factor(points: &[(f64, f64)], kelvin: f64) -> f64 {
    let [first, .., last] = points else {
        return points.first().map_or(1.0, |point| point.1);
    };
    if kelvin <= first.0 {
        return first.1;
    }
    let at = points
        .partition_point(|point| point.0 < kelvin)
        .clamp(1, points.len() - 1);
    let (low, high) = (points[at - 1], points[at]);
    let factor = low.1 + (kelvin - low.0) / (high.0 - low.0) * (high.1 - low.1);
    if kelvin > last.0 {
        factor.clamp(0.0, last.1.max(0.0))
    } else {
        factor
    }
}

/// Resistance of a fuse that carries `load` times its rating, Ω, from its cold resistance.
pub fn hot_resistance(cold_ohms: f64, load: f64) -> f64 {
    cold_ohms * (1.0 + HOT_GAIN * load * load).min(MOST_HOT)
}

#[cfg(test)]
mod tests {
    use super::*;

    const fn gate(multiple: f64, min_s: f64, max_s: Option<f64>) -> Gate {
        Gate {
            multiple,
            min_s,
            max_s,
        }
    }

    const MINIATURE: [Gate; 5] = [
        gate(1.10, 360_000.0, None),
        gate(1.35, 0.75, Some(600.0)),
        gate(2.0, 0.15, Some(5.0)),
        gate(3.5, 0.08, Some(0.5)),
        gate(6.0, 0.03, Some(0.1)),
    ];

    #[test]
    fn gates_are_themselves() {
        for row in MINIATURE {
            let (soonest, latest) = opening_band(&MINIATURE, row.multiple);
            assert!(
                (soonest / row.min_s - 1.0).abs() < 1e-9,
                "{row:?} {soonest}"
            );
            match row.max_s {
                Some(max) => assert!((latest / max - 1.0).abs() < 1e-9, "{row:?} {latest}"),
                None => assert_eq!(latest, f64::INFINITY),
            }
        }
    }

    #[test]
    fn nothing_is_promised_between_rating_and_135_percent() {
        assert_eq!(opening_band(&MINIATURE, 1.0), (360_000.0, f64::INFINITY));
        assert_eq!(opening_band(&MINIATURE, 1.34).1, f64::INFINITY);
        assert_eq!(opening_band(&MINIATURE, 33.75 / 25.0).1, 600.0);
    }

    #[test]
    fn halfway_on_log_paper_is_the_geometric_mean() {
        let middle = (2.0_f64 * 3.5).sqrt();
        let (soonest, latest) = opening_band(&MINIATURE, middle);
        assert!((soonest - (0.15_f64 * 0.08).sqrt()).abs() < 1e-12);
        assert!((latest - (5.0_f64 * 0.5).sqrt()).abs() < 1e-12);
    }

    #[test]
    fn beyond_the_ends_it_is_cautious() {
        let (soonest, latest) = opening_band(&MINIATURE, 12.0);
        assert!((soonest - 0.03 / 4.0).abs() < 1e-12);
        assert!((latest - 0.1 / 4.0).abs() < 1e-12);
        assert_eq!(opening_band(&MINIATURE, 900.0).1, 2e-3);
        assert_eq!(opening_band(&[], 2.0), (0.0, f64::INFINITY));
        let glass = [gate(1.1, 14_400.0, None), gate(1.35, 0.0, Some(3600.0))];
        assert_eq!(opening_band(&glass, 1.2).0, 0.0);
    }

    #[test]
    fn the_band_never_crosses_and_both_edges_fall() {
        let mut last = (f64::INFINITY, f64::INFINITY);
        for step in 0..1200 {
            let band = opening_band(&MINIATURE, 0.5 + f64::from(step) * 0.01);
            assert!(band.0 <= band.1 && band.0 <= last.0 && band.1 <= last.1);
            last = band;
        }
    }

    #[test]
    fn a_steady_current_runs_the_clock_out_at_its_own_time() {
        let (may, must) = clock(&MINIATURE, &[(2.0, 2.5), (0.5, 9.0), (2.0, 2.5)]);
        assert!((must - 1.0).abs() < 1e-12);
        assert!(may > 33.0);
    }

    #[test]
    fn heat_takes_from_the_rating() {
        let points = [(298.15, 1.0), (333.15, 0.92), (398.15, 0.72)];
        assert_eq!(ambient_factor(&points, 250.0), 1.0);
        assert!((ambient_factor(&points, 315.65) - 0.96).abs() < 1e-12);
        assert!(ambient_factor(&points, 420.0) < 0.72);
        assert_eq!(ambient_factor(&[], 300.0), 1.0);
    }

    #[test]
    fn a_25_amp_fuse_drops_86_millivolts_at_rated_current() {
        let drop = 25.0 * hot_resistance(2.36e-3, 1.0);
        assert!((drop - 0.086).abs() < 2e-4, "{drop}");
    }
}
