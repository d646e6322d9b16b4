//! What no reading tells apart: causes that look the same to every probing stand together, with what they come to together.

use super::bench::{Bench, Suspect};
use super::weigh::Weighed;

/// Readings that lie nearer than so many standard deviations are not told apart.
const TOLD_APART: f64 = 3.0;
/// So many of the likeliest are put together; what comes after them hardly counts.
const MOST: usize = 24;

/// Causes that no reading tells apart.
#[derive(Clone, Debug, PartialEq)]
pub struct Class {
    /// Which weights of what was weighed, the likeliest first.
    pub members: Vec<usize>,
    /// How likely all of them together, 0 to 1.
    pub probability: f64,
}

/// Whether nothing that can be measured tells one from the other.
pub fn alike(bench: &Bench, a: Suspect, b: Suspect) -> bool {
    let mut settings = bench.showing(a);
    settings.extend(bench.showing(b));
    settings.sort_unstable();
    settings.dedup();
    settings.into_iter().all(|setting| {
        let (one, other) = (bench.readings(a, setting), bench.readings(b, setting));
        let each = one.iter().zip(other.iter());
        each.into_iter().all(|(x, y)| {
            let sd = without_size(x).hypot(without_size(y)) / 2.0_f64.sqrt();
            (x.value - y.value).abs() < TOLD_APART * sd
        })
    })
}

/// The spread of a reading where the size of what is amiss is known.
fn without_size(r: &super::Reads) -> f64 {
    let moves = r.moves.iter().filter(|(p, _)| *p != super::Param::Size);
    let moves: f64 = moves.map(|(_, m)| m * m).sum();
    (moves + r.meter * r.meter).sqrt()
}

/// What was weighed, put together where no reading tells it apart; the likeliest first.
pub fn classes(bench: &Bench, weighed: &Weighed) -> Vec<Class> {
    let mut found: Vec<Class> = Vec::new();
    for (i, w) in weighed.weights.iter().enumerate().take(MOST) {
        let like = |c: &&mut Class| {
            let first = &weighed.weights[c.members[0]];
            alike(bench, first.suspect, w.suspect)
        };
        match found.iter_mut().find(like) {
            Some(c) => {
                c.members.push(i);
                c.probability += w.probability;
            }
            None => found.push(Class {
                members: vec![i],
                probability: w.probability,
            }),
        }
    }
    found.sort_by(|a, b| b.probability.total_cmp(&a.probability));
    found
}
