//! One stick filled as much worth as can be (a bounded knapsack, by lengths), and sticks filled one after the other.

use super::{Sizes, Way};

/// The pieces of one stick that are worth most, and what they are worth.
pub(super) fn worthiest(s: &Sizes, prices: &[f64]) -> (Way, f64) {
    let all = s.lengths.iter().chain([&s.room]);
    let unit = all.fold(0, |a, b| common(a, *b)).max(1);
    let room = (s.room / unit) as usize;
    let mut best = vec![0.0_f64; room + 1];
    // By size: how many are taken where so much room is left.
    let mut taken: Vec<Vec<usize>> = Vec::new();
    for (i, length) in s.lengths.iter().enumerate() {
        let length = (length / unit) as usize;
        let most = (s.counts[i] as usize).min(room / length);
        let mut next = best.clone();
        let mut times = vec![0; room + 1];
        for used in 0..=room {
            for n in 1..=most.min(used / length) {
                let worth = best[used - n * length] + n as f64 * prices[i];
                if worth > next[used] + 1e-12 {
                    (next[used], times[used]) = (worth, n);
                }
            }
        }
        best = next;
        taken.push(times);
    }
    let mut left = room;
    let mut way = vec![0; s.lengths.len()];
    for i in (0..way.len()).rev() {
        let n = taken[i][left];
        way[i] = n as u64;
        left -= n * (s.lengths[i] / unit) as usize;
    }
    (way, best[room])
}

/// The greatest length that divides both.
fn common(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { common(b, a % b) }
}

/// Stick by stick: the longest piece that is left, and with it what fills the stick best.
pub(super) fn one_after_the_other(s: &Sizes) -> Vec<Way> {
    let mut rest = s.clone();
    let lengths: Vec<f64> = s.lengths.iter().map(|l| *l as f64).collect();
    let mut sticks = Vec::new();
    while let Some(first) = rest.counts.iter().position(|c| *c > 0) {
        rest.counts[first] -= 1;
        rest.room = s.room - s.lengths[first];
        let (mut way, _) = worthiest(&rest, &lengths);
        rest.take(&way);
        way[first] += 1;
        sticks.push(way);
    }
    sticks
}

impl Sizes {
    /// Takes the pieces of a stick off what is wanted.
    pub(super) fn take(&mut self, way: &Way) {
        for (count, n) in self.counts.iter_mut().zip(way) {
            *count -= n;
        }
    }
}
