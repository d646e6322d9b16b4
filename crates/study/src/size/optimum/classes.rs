//! Things that are of the same kinds, and what they cost together at the least: by every set of kinds that may be bought,
//! where these are few. Wires of one colour are a class: what one of them buys, another may use.

use super::program::{Open, Program};
use std::collections::BTreeMap;

/// Kinds of a class above which its sets are too many to go through; then one kind's cost is counted.
const FEW: usize = 8;

/// Things that share kinds with one another, and with no others.
pub(super) struct Class {
    /// The things.
    pub things: Vec<usize>,
    /// By thing: its options that are left, each with the kinds that it is of, as bits.
    options: Vec<Vec<(usize, u32)>>,
    /// Sets of kinds, as bits, no larger than there are things, with what they cost together.
    sets: Vec<(u32, f64)>,
    /// What is counted beside the sets.
    beside: f64,
}

/// What a class costs at the least.
pub(super) struct Least {
    pub cost: f64,
    /// By thing of the class: what it takes then.
    pub taken: Vec<usize>,
}

/// The classes of a problem of whose options some are left; a thing of no kind is one by itself.
pub(super) fn classes(p: &Program, open: &Open) -> Vec<Class> {
    let mut joined = petgraph::unionfind::UnionFind::new(p.things.len());
    let left = |kind: &super::Kind| {
        let left = kind.options.iter().filter(|(t, k)| open[*t][*k]);
        left.copied().collect::<Vec<_>>()
    };
    let kinds: Vec<(f64, Vec<(usize, usize)>)> =
        p.kinds.iter().map(|kind| (kind.cost, left(kind))).collect();
    for (_, options) in &kinds {
        for pair in options.windows(2) {
            joined.union(pair[0].0, pair[1].0);
        }
    }
    let mut by_root: BTreeMap<usize, (Vec<usize>, Vec<usize>)> = BTreeMap::new();
    for t in 0..p.things.len() {
        by_root.entry(joined.find(t)).or_default().0.push(t);
    }
    for (n, (_, options)) in kinds.iter().enumerate() {
        if let Some((t, _)) = options.first() {
            by_root.entry(joined.find(*t)).or_default().1.push(n);
        }
    }
    let class = |(things, of): (Vec<usize>, Vec<usize>)| {
        let few = of.len() <= FEW;
        let mut bits: BTreeMap<(usize, usize), u32> = BTreeMap::new();
        for (i, n) in of.iter().enumerate().filter(|_| few) {
            for option in &kinds[*n].1 {
                *bits.entry(*option).or_default() |= 1 << i;
            }
        }
        let options = things.iter().map(|t| {
            let left = (0..p.things[*t].len()).filter(|k| open[*t][*k]);
            left.map(|k| (k, bits.get(&(*t, k)).copied().unwrap_or(0)))
                .collect()
        });
        let cost = |set: u32| {
            let each = of.iter().enumerate().filter(|(i, _)| set >> i & 1 == 1);
            each.map(|(_, n)| kinds[*n].0).sum()
        };
        Class {
            options: options.collect(),
            sets: match few {
                true => (0..1_u32 << of.len())
                    .filter(|set| set.count_ones() as usize <= things.len())
                    .map(|set| (set, cost(set)))
                    .collect(),
                false => vec![(0, 0.0)],
            },
            beside: match few {
                true => 0.0,
                false => one(
                    p,
                    &things,
                    &of.iter().map(|n| &kinds[*n]).collect::<Vec<_>>(),
                    open,
                ),
            },
            things,
        }
    };
    by_root.into_values().map(class).collect()
}

/// What the cheapest kind costs, where some thing is of one whatever it takes.
fn one(p: &Program, things: &[usize], kinds: &[&(f64, Vec<(usize, usize)>)], open: &Open) -> f64 {
    let of_one = |t: usize, k: usize| kinds.iter().any(|(_, o)| o.contains(&(t, k)));
    let always = |t: &&usize| {
        let mut left = (0..p.things[**t].len()).filter(|k| open[**t][*k]);
        left.all(|k| of_one(**t, k))
    };
    match things.iter().find(always) {
        Some(_) => kinds
            .iter()
            .map(|(cost, _)| *cost)
            .fold(f64::INFINITY, f64::min),
        None => 0.0,
    }
}

impl Class {
    /// The least that the class costs, at these prices by thing and option. Nothing where a thing has no option left.
    pub fn least(&self, prices: &[Vec<f64>]) -> Option<Least> {
        let mut best: Option<(f64, u32)> = None;
        for (set, kinds) in &self.sets {
            let each = (0..self.things.len()).map(|i| self.cheapest(prices, i, *set).1);
            let cost = kinds + self.beside + each.sum::<f64>();
            if cost.is_finite() && best.is_none_or(|(least, _)| cost < least) {
                best = Some((cost, *set));
            }
        }
        let (cost, set) = best?;
        let taken = (0..self.things.len()).map(|i| self.cheapest(prices, i, set).0);
        Some(Least {
            cost,
            taken: taken.collect(),
        })
    }

    /// What a thing takes of what a set of kinds gives, and its price; endless where there is nothing.
    fn cheapest(&self, prices: &[Vec<f64>], i: usize, set: u32) -> (usize, f64) {
        let prices = &prices[self.things[i]];
        let mut least = (0, f64::INFINITY);
        for (k, kinds) in &self.options[i] {
            if kinds & !set == 0 && prices[*k] < least.1 {
                least = (*k, prices[*k]);
            }
        }
        least
    }

    /// Thing, option, and what the class costs more at the least if that is taken.
    pub fn above(&self, prices: &[Vec<f64>], least: &Least) -> Vec<(usize, usize, f64)> {
        let mut with: Vec<Vec<f64>> = self
            .options
            .iter()
            .map(|of| vec![f64::INFINITY; of.len()])
            .collect();
        for (set, kinds) in &self.sets {
            let each = (0..self.things.len()).map(|i| self.cheapest(prices, i, *set).1);
            let each: Vec<f64> = each.collect();
            let cost = kinds + self.beside + each.iter().sum::<f64>();
            if !cost.is_finite() {
                continue;
            }
            for ((of, with), (t, now)) in self
                .options
                .iter()
                .zip(&mut with)
                .zip(self.things.iter().zip(&each))
            {
                for ((k, kinds), with) in of.iter().zip(with) {
                    if kinds & !set == 0 {
                        *with = with.min(cost - now + prices[*t][*k]);
                    }
                }
            }
        }
        let each = self.things.iter().zip(&self.options).zip(&with);
        let each = each.flat_map(|((t, of), with)| {
            let each = of.iter().zip(with);
            each.map(|((k, _), with)| (*t, *k, with - least.cost))
        });
        each.collect()
    }
}
