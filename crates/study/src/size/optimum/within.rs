//! Options that a choice no dearer than one in hand can't take. Rows, needs and cuts are put into the cost at a price
//! each; then every thing stands alone, or with those that are of the same kinds ([`classes`](super::classes)); what all
//! cost together at the least is a bound, and what an option costs above that may be no more than what is left to the
//! cost in hand.

use super::classes::classes;
use super::program::{Cut, Need, Open, Program, Row, open};

/// Steps of prices. More move the bound by less than a hundredth of what is left.
const STEPS: usize = 60;
/// Steps without a better bound, until they are halved.
const PATIENCE: usize = 5;
/// A cost that rounding may differ by, as a part.
const ROUNDING: f64 = 1e-9;

/// What a choice that costs no more than another in hand may take.
pub(super) struct Within {
    /// No choice that holds costs less.
    pub bound: f64,
    /// What the one in hand costs.
    most: f64,
    /// By thing and option: no choice that takes it costs less.
    least: Vec<Vec<f64>>,
    /// The prices that gave the bound: of rows, needs and cuts.
    prices: [Vec<f64>; 3],
}

impl Within {
    /// The options that may be taken.
    pub fn open(&self) -> Open {
        self.up_to(self.most)
    }

    /// Those among which the best is likely: that may be in a choice that is better than the one in hand by this part of
    /// all that may be gained.
    pub fn likely(&self, part: f64) -> Open {
        self.up_to(self.most - part * (self.most - self.bound))
    }

    fn up_to(&self, most: f64) -> Open {
        let of = |least: &Vec<f64>| least.iter().map(|l| *l <= most).collect();
        self.least.iter().map(of).collect()
    }
}

/// What a choice that costs no more than `most` may take. Nothing where there is no such choice. `before`: what was found
/// of a like problem, whose prices are begun with.
pub(super) fn within(p: &Program, most: f64, before: Option<&Within>) -> Option<Within> {
    let open = open(p)?;
    let most = most * (1.0 + ROUNDING);
    let mut least: Vec<Vec<f64>> = open
        .iter()
        .map(|of| {
            let each = of.iter().map(|open| match open {
                true => f64::NEG_INFINITY,
                false => f64::INFINITY,
            });
            each.collect()
        })
        .collect();
    let classes = classes(p, &open);
    let asked = rows(p);
    // By thing: the rows it stands in, by their number, with its weights.
    let mut rows: Vec<Vec<(usize, &[f64])>> = vec![Vec::new(); p.things.len()];
    for (r, row) in asked.iter().enumerate() {
        for (t, weights) in &row.weights {
            rows[*t].push((r, weights));
        }
    }
    let mut prices = begin(p, before);
    let mut bests = prices.clone();
    let (mut best, mut since, mut stride) = (f64::NEG_INFINITY, 0, 1.0);
    for _ in 0..STEPS {
        let mut over: Vec<f64> = asked.iter().map(|row| -row.most).collect();
        let limits = prices.iter().zip(&over);
        let mut bound: f64 = limits.map(|(price, most)| price * most).sum();
        let priced: Vec<Vec<f64>> = p
            .things
            .iter()
            .zip(&rows)
            .map(|(costs, rows)| {
                let mut each = costs.clone();
                for (r, weights) in rows.iter().filter(|(r, _)| prices[*r] > 0.0) {
                    let price = prices[*r];
                    each.iter_mut()
                        .zip(*weights)
                        .for_each(|(c, w)| *c += price * w);
                }
                each
            })
            .collect();
        let mut found = Vec::new();
        for class in &classes {
            let least = class.least(&priced)?;
            bound += least.cost;
            for (t, k) in class.things.iter().zip(&least.taken) {
                for (r, weights) in &rows[*t] {
                    over[*r] += weights[*k];
                }
            }
            found.push(least);
        }
        if bound > best {
            (best, since) = (bound, 0);
            bests.clone_from(&prices);
            for (class, found) in classes.iter().zip(&found) {
                for (t, k, more) in class.above(&priced, found) {
                    least[t][k] = least[t][k].max(bound + more);
                }
            }
        } else {
            since += 1;
        }
        if since == PATIENCE {
            (since, stride) = (0, stride / 2.0);
        }
        // Towards the cost in hand, along what is over.
        let up = |(price, over): (&f64, &f64)| *price > 0.0 || *over > 0.0;
        let moved = prices.iter().zip(&over).filter(|p| up(*p));
        let length: f64 = moved.map(|(_, over)| over * over).sum();
        if length < 1e-18 {
            break;
        }
        let step = stride * (most - bound).max(0.0) / length;
        for (price, over) in prices.iter_mut().zip(&over) {
            *price = (*price + step * over).max(0.0);
        }
    }
    let (of_rows, rest) = bests.split_at(p.rows.len());
    let (of_needs, of_cuts) = rest.split_at(p.needs.len());
    let found = Within {
        bound: best,
        most,
        least,
        prices: [of_rows.to_vec(), of_needs.to_vec(), of_cuts.to_vec()],
    };
    let some = found.open().iter().all(|options| options.contains(&true));
    some.then_some(found)
}

/// Prices to begin with: of rows, needs and cuts, one after the other.
fn begin(p: &Program, before: Option<&Within>) -> Vec<f64> {
    let each = [p.rows.len(), p.needs.len(), p.cuts.len()];
    let each = each.iter().enumerate().flat_map(|(i, n)| {
        let had = before.map_or(&[][..], |before| &before.prices[i]);
        let none = std::iter::repeat(0.0);
        had.iter().copied().chain(none).take(*n)
    });
    each.collect()
}

/// Rows, needs and cuts, all as rows.
fn rows(p: &Program) -> Vec<Row> {
    let by = |t: usize, weight: &dyn Fn(usize) -> f64| {
        let each = (0..p.things[t].len()).map(weight);
        (t, each.collect())
    };
    let need = |need: &Need| Row {
        weights: vec![
            by(need.of.0, &|k| f64::from(k == need.of.1)),
            by(need.asks.0, &|k| -f64::from(k >= need.asks.1)),
        ],
        most: 0.0,
    };
    let cut = |cut: &Cut| Row {
        weights: cut
            .0
            .iter()
            .map(|step| by(step.thing(), &|k| -f64::from(step.made(k))))
            .collect(),
        most: -1.0,
    };
    let rows = p.rows.iter().cloned();
    let rows = rows.chain(p.needs.iter().map(need));
    rows.chain(p.cuts.iter().map(cut)).collect()
}

/// Problems by chance, every choice of them tried: what is shut is in none that costs no more than another, no choice costs
/// less than the bound, and what the solver finds is the least.
#[cfg(test)]
mod tests {
    use super::super::program::{Kind, Step};
    use super::super::tests::Dice;
    use super::*;

    /// Four things of three options, a row, a need and a cut between them, and kinds that they share.
    fn by_chance(dice: &mut Dice) -> Program {
        let mut some = |n: usize, from: f64, to: f64| -> Vec<f64> {
            (0..n).map(|_| dice.between(from, to)).collect()
        };
        let rising = |mut costs: Vec<f64>| {
            costs.sort_by(f64::total_cmp);
            costs
        };
        let things: Vec<Vec<f64>> = (0..4).map(|_| rising(some(3, 0.0, 3.0))).collect();
        let falling = |mut weights: Vec<f64>| {
            weights.sort_by(|a, b| b.total_cmp(a));
            weights
        };
        let weights = (0..4).map(|t| (t, falling(some(3, 0.0, 5.0)))).collect();
        let most = some(1, 4.0, 12.0)[0];
        let cost = some(1, 0.0, 2.0)[0];
        let kinds = (0..3).map(|k| {
            let things = (0..4).filter(|t| t % 2 == k % 2 || dice.roll(2) == 0);
            Kind {
                cost,
                options: things.map(|t| (t, k)).collect(),
            }
        });
        Program {
            things,
            rows: vec![Row { weights, most }],
            kinds: kinds.collect(),
            needs: vec![Need {
                of: (0, 0),
                asks: (1, 1 + dice.roll(2) as usize),
            }],
            cuts: vec![Cut(vec![Step::Up(2, 1), Step::Down(3, 1)])],
            may: Open::new(),
        }
    }

    #[test]
    fn nothing_is_shut_that_a_choice_as_cheap_takes() {
        let mut dice = Dice(7);
        let (mut had, mut shut) = (0, 0);
        for round in 0..300 {
            let p = by_chance(&mut dice);
            let all = (0..81).map(|n| vec![n / 27, n / 9 % 3, n / 3 % 3, n % 3]);
            let mut all: Vec<Vec<usize>> = all.filter(|taken| p.keeps(taken)).collect();
            all.sort_by(|a, b| p.cost(a).total_cmp(&p.cost(b)));
            let Some(best) = all.first() else { continue };
            let most = p.cost(&all[all.len() / 4]);
            let found = within(&p, most, None).expect("a choice as cheap");
            assert!(found.bound <= p.cost(best) + 1e-9, "round {round}");
            let open = found.open();
            for taken in all.iter().filter(|taken| p.cost(taken) <= most) {
                assert!(open.iter().zip(taken).all(|(o, k)| o[*k]), "round {round}");
            }
            let likely = found.likely(0.7);
            assert!(
                likely
                    .iter()
                    .flatten()
                    .zip(open.iter().flatten())
                    .all(|(l, o)| o | !l)
            );
            shut += open.iter().flatten().filter(|open| !**open).count();
            let narrowed = Program { may: open, ..p };
            let solved = narrowed.solve(1_000, Some(best)).expect("solved");
            assert!(
                (solved.cost - narrowed.cost(best)).abs() < 1e-6,
                "round {round}"
            );
            had += 1;
        }
        assert!(had > 200 && shut > 500, "{had} problems, {shut} shut");
    }
}
