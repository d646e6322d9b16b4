//! Where the least margin stands: between the fuse's slow edge and the wire's curve, at its current.

use quantity::figures;
use study::Coordination;

/// The least margin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Margin {
    pub times: f64,
    pub amps: f64,
    /// The latest opening, s.
    pub slow: f64,
    /// When the wire is harmed, s.
    pub harm: f64,
}

impl Margin {
    /// Of a pair, if there is one that can be shown.
    pub fn of(c: &Coordination) -> Option<Self> {
        let (times, amps) = c.margin?;
        let latest = c.band.iter().filter_map(|(a, _, l)| l.map(|l| (*a, l)));
        let latest: Vec<(f64, f64)> = latest.collect();
        let (slow, harm) = match (along(&latest, amps), along(&c.damage, amps)) {
            (Some(slow), Some(harm)) => (slow, harm),
            (Some(slow), None) => (slow, slow * times),
            (None, Some(harm)) => (harm / times, harm),
            (None, None) => return None,
        };
        let known = [times, slow, harm]
            .iter()
            .all(|v| v.is_finite() && *v > 0.0);
        known.then_some(Self {
            times,
            amps,
            slow,
            harm,
        })
    }

    /// "least margin 3.2 × at 41 A".
    pub fn told(&self) -> String {
        let (times, amps) = (figures(self.times, 2), figures(self.amps, 3));
        format!("least margin {times} × at {amps} A")
    }
}

/// The time at a current, between the points of a curve straight on scales of tenfolds.
fn along(curve: &[(f64, f64)], amps: f64) -> Option<f64> {
    let beside = |p: &&[(f64, f64)]| p[0].0 <= amps && amps <= p[1].0;
    let pair = curve.windows(2).find(beside)?;
    let ((a, s), (b, t)) = (pair[0], pair[1]);
    let part = match b > a {
        true => (amps / a).ln() / (b / a).ln(),
        false => 0.0,
    };
    Some(s * (t / s).powf(part))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn between_two_points_a_curve_is_straight_in_tenfolds() {
        let curve = [(10.0, 100.0), (1000.0, 1.0)];
        assert!((along(&curve, 100.0).unwrap() - 10.0).abs() < 1e-9);
        assert_eq!(along(&curve, 5.0), None);
    }
}
