//! The rings around a wire in the middle, for one order of the loaded wires.
//! Takes heat made ring by ring, gives how much hotter than the bundle's outside each wire is.
//!
//! For wire i of share s in the middle, the others around it in their order, by shares of area (radius
//! squared): a ring from `a` to `b` that makes `q` evenly around `Q` adds
//! `[Q L + q (1/2 − a L / (b − a))] / 2πk` with `L = ½ ln(b/a)`. The order is the same for all, so all
//! that lies outside wire i's own place is common to every wire, and all that lies inside is common to
//! the wires of its kind: one walk outwards with a sum a kind, one walk inwards. Idle wires make no heat
//! and lie outermost, as one ring.

use super::body::Body;
use std::f64::consts::TAU;

/// What a ring adds for each W/m made within it, and for each W/m of its own; times 2πk.
#[derive(Clone, Copy)]
struct Ring {
    around: f64,
    own: f64,
}

impl Ring {
    /// By shares of area inside its inner and outer edge; `log` is `ln(outer / inner)`.
    fn new(inner: f64, outer: f64, log: f64) -> Self {
        let around = 0.5 * log;
        Self {
            around,
            own: 0.5 - inner / (outer - inner) * around,
        }
    }
}

/// The rings of one order. Sums are `2πk` times a temperature.
pub(super) struct Rings {
    /// The kind of the wire in each ring.
    kinds: Vec<usize>,
    /// What a wire in its own place adds for each W/m of its own: itself, and the room within it.
    alone: Vec<f64>,
    /// Ring by ring, around the rings before it.
    outwards: Vec<Ring>,
    /// Ring by ring and kind by kind, around a wire of that kind and the rings before it.
    inwards: Vec<Ring>,
    /// Of the idle wires, around all.
    idle: f64,
    /// Of the other idle wires, around an idle wire of each kind and all loaded ones.
    idle_apart: Vec<f64>,
    two_pi_k: f64,
}

impl Rings {
    /// For loaded wires of these kinds, innermost first.
    pub(super) fn new(body: &Body, order: impl Iterator<Item = usize>) -> Self {
        let two_pi_k = TAU * body.k;
        let kinds: Vec<usize> = order.collect();
        let mut alone = Vec::with_capacity(kinds.len());
        let mut outwards = Vec::with_capacity(kinds.len());
        let mut inwards = Vec::with_capacity(kinds.len() * body.kinds.len());
        let own: Vec<f64> = body.kinds.iter().map(|kind| kind.share.ln()).collect();
        // ln of the area so far, alone and with a wire of each kind in the middle. The innermost ring
        // has nothing within it, and no wire is there to feel it.
        let mut log = kinds.first().map_or(0.0, |&kind| own[kind]);
        let mut logs = own.clone();
        let mut inner = 0.0;
        for &kind in &kinds {
            let outer = inner + body.kinds[kind].share;
            let further = outer.ln();
            outwards.push(Ring::new(inner, outer, further - log));
            log = further;
            alone.push(body.kinds[kind].middle * two_pi_k + 0.5 * (further - own[kind]));
            for (kind, log) in body.kinds.iter().zip(&mut logs) {
                let further = (outer + kind.share).ln();
                let ring = Ring::new(inner + kind.share, outer + kind.share, further - *log);
                inwards.push(ring);
                *log = further;
            }
            inner = outer;
        }
        Self {
            kinds,
            alone,
            outwards,
            inwards,
            idle: (-0.5 * log).max(0.0),
            idle_apart: logs.iter().map(|log| (-0.5 * log).max(0.0)).collect(),
            two_pi_k,
        }
    }

    /// Rises of the loaded wires, K, from their heat (W/m), both ring by ring. Gives what the rings
    /// sum up to around a wire of each kind that lies within them all.
    pub(super) fn rises(&self, heat: &[f64], rise: &mut [f64]) -> Vec<f64> {
        let mut within = 0.0;
        let mut sums = vec![0.0; self.idle_apart.len()];
        let rings = self.inwards.chunks_exact(sums.len());
        for ((((rise, &made), &kind), alone), rings) in rise
            .iter_mut()
            .zip(heat)
            .zip(&self.kinds)
            .zip(&self.alone)
            .zip(rings)
        {
            *rise = sums[kind] + made * alone;
            for (sum, ring) in sums.iter_mut().zip(rings) {
                *sum += within * ring.around + made * ring.own;
            }
            within += made;
        }
        let mut outside = within * self.idle;
        let rings = rise.iter_mut().zip(heat).zip(&self.outwards).rev();
        for ((rise, &made), ring) in rings {
            *rise = (*rise + outside) / self.two_pi_k;
            within -= made;
            outside += within * ring.around + made * ring.own;
        }
        sums
    }

    /// Rises of idle wires, K, kind by kind, from the sums that [`Self::rises`] gave and all heat made.
    pub(super) fn idle_rises(&self, sums: &[f64], made: f64) -> Vec<f64> {
        let apart = sums.iter().zip(&self.idle_apart);
        apart
            .map(|(sum, log)| (sum + made * log) / self.two_pi_k)
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    /// `2πk` times what a ring adds that makes `heat` around `within`.
    fn ring_rise(inner: f64, outer: f64, within: f64, heat: f64) -> f64 {
        let ring = Ring::new(inner, outer, (outer / inner).ln());
        within * ring.around + heat * ring.own
    }

    #[test]
    fn a_ring_that_makes_nothing_is_a_shell() {
        let rise = ring_rise(0.25, 1.0, 7.0, 0.0);
        assert!((rise - 7.0 * 2.0_f64.ln()).abs() < 1e-12);
    }

    #[test]
    fn a_whole_round_of_even_heat_rises_by_q_over_four_pi_k() {
        // A vanishing middle, all heat in the ring: the textbook solid cylinder.
        let rise = ring_rise(1e-12, 1.0, 0.0, 10.0) / (TAU * 0.4);
        assert!((rise - 10.0 / (4.0 * PI * 0.4)).abs() < 1e-6);
    }

    #[test]
    fn rings_join_without_a_seam() {
        let whole = ring_rise(0.1, 1.0, 2.0, 9.0);
        let parts = ring_rise(0.1, 0.4, 2.0, 3.0) + ring_rise(0.4, 1.0, 5.0, 6.0);
        assert!((whole - parts).abs() < 1e-12);
    }
}
