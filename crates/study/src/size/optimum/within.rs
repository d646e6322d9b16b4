//! Options that a choice no dearer than one in hand can't take. Rows are put into the cost at a price each; then every
//! thing stands alone, what all cost together at the least is a bound, and what an option costs above its thing's least
//! may be no more than what is left to the cost in hand.

use super::program::{Open, Program, open};
use std::collections::BTreeSet;

/// Steps of prices. More move the bound by less than a hundredth of what is left.
const STEPS: usize = 150;
/// Steps without a better bound, until they are halved.
const PATIENCE: usize = 8;
/// A cost that rounding may differ by, as a part.
const ROUNDING: f64 = 1e-9;

/// By thing and option: whether a choice that costs no more than `most` may take it. Nothing where no choice may.
pub(super) fn within(p: &Program, most: f64) -> Option<Open> {
    let mut open = open(p)?;
    let most = most * (1.0 + ROUNDING) - kinds(p, &open);
    // By thing: the rows it stands in, by their number, with its weights.
    let mut rows: Vec<Vec<(usize, &[f64])>> = vec![Vec::new(); p.things.len()];
    for (r, row) in p.rows.iter().enumerate() {
        for (t, weights) in &row.weights {
            rows[*t].push((r, weights));
        }
    }
    let mut prices = vec![0.0; p.rows.len()];
    let (mut best, mut since, mut stride) = (f64::NEG_INFINITY, 0, 1.0);
    let mut beyond: Vec<(usize, usize)> = Vec::new();
    for _ in 0..STEPS {
        let mut over: Vec<f64> = p.rows.iter().map(|row| -row.most).collect();
        let mut bound: f64 = prices
            .iter()
            .zip(&over)
            .map(|(price, most)| price * most)
            .sum();
        let mut above: Vec<(usize, usize, f64)> = Vec::new();
        for (t, costs) in p.things.iter().enumerate() {
            let of = |k: usize| {
                let rows = rows[t].iter().map(|(r, weights)| prices[*r] * weights[k]);
                costs[k] + rows.sum::<f64>()
            };
            let all: Vec<(usize, f64)> = (0..costs.len())
                .filter(|k| open[t][*k])
                .map(|k| (k, of(k)))
                .collect();
            let least = all.iter().min_by(|a, b| a.1.total_cmp(&b.1))?;
            bound += least.1;
            for (r, weights) in &rows[t] {
                over[*r] += weights[least.0];
            }
            above.extend(all.iter().map(|(k, cost)| (t, *k, cost - least.1)));
        }
        if bound > best {
            (best, since) = (bound, 0);
        } else {
            since += 1;
        }
        if since == PATIENCE {
            (since, stride) = (0, stride / 2.0);
        }
        let gone = above.iter().filter(|(.., more)| bound + more > most);
        beyond.extend(gone.map(|(t, k, _)| (*t, *k)));
        // Towards the cost in hand, along what is over.
        let up = |(price, over): (&f64, &f64)| *price > 0.0 || *over > 0.0;
        let length: f64 = prices
            .iter()
            .zip(&over)
            .filter(|p| up(*p))
            .map(|(_, o)| o * o)
            .sum();
        if length < 1e-18 {
            break;
        }
        let step = stride * (most - bound).max(0.0) / length;
        for (price, over) in prices.iter_mut().zip(&over) {
            *price = (*price + step * over).max(0.0);
        }
    }
    for (t, k) in beyond {
        open[t][k] = false;
    }
    open.iter()
        .all(|options| options.contains(&true))
        .then_some(open)
}

/// What kinds cost at the least: things that have none in common need one each.
fn kinds(p: &Program, open: &Open) -> f64 {
    let mut by_thing: Vec<BTreeSet<usize>> = vec![BTreeSet::new(); p.things.len()];
    for (kind, of) in p.kinds.iter().enumerate() {
        for (t, _) in of.options.iter().filter(|(t, k)| open[*t][*k]) {
            by_thing[*t].insert(kind);
        }
    }
    by_thing.retain(|kinds| !kinds.is_empty());
    by_thing.sort_by_key(BTreeSet::len);
    let mut had: BTreeSet<usize> = BTreeSet::new();
    let mut cost = 0.0;
    for kinds in by_thing {
        if had.is_disjoint(&kinds) {
            let each = kinds.iter().map(|k| p.kinds[*k].cost);
            cost += each.fold(f64::INFINITY, f64::min);
            had.extend(kinds);
        }
    }
    cost
}
