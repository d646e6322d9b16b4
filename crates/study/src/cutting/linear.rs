//! The linear problem over ways to cut: its bound and its ways by the dual, its answer rounded, and the whole-numbered
//! problem over the same ways.

use super::fill::{one_after_the_other, worthiest};
use super::{Sizes, Way};
use good_lp::{
    Expression, ProblemVariables, Solution, SolverModel, Variable, constraint, microlp, variable,
};

/// What prices may be off by.
const SLACK: f64 = 1e-7;
/// A bound this little above a whole number is that number.
const WHOLE: f64 = 1e-6;

/// Why the solver gave up.
pub(super) type Unsolved = good_lp::ResolutionError;

/// Ways worth cutting by, and the least number of sticks.
pub(super) fn ways(s: &Sizes) -> Result<(Vec<Way>, usize), Unsolved> {
    let n = s.lengths.len();
    let alone = |i: usize| {
        let mut way = vec![0; n];
        way[i] = (s.room / s.lengths[i]).min(s.counts[i]);
        way
    };
    let mut ways: Vec<Way> = (0..n).map(alone).collect();
    loop {
        let prices = prices(s, &ways)?;
        let all = prices.iter().zip(&s.counts);
        let all: f64 = all.map(|(price, count)| price * *count as f64).sum();
        let (way, worth) = worthiest(s, &prices);
        if worth <= 1.0 + SLACK || ways.contains(&way) {
            // Prices made so much smaller hold for every way: what they sum to is a bound, whatever the rounding.
            let bound = all / worth.max(1.0);
            return Ok((ways, (bound - WHOLE).ceil() as usize));
        }
        ways.push(way);
    }
}

/// Prices of the sizes, worth most together, such that no way known is worth more than a stick.
fn prices(s: &Sizes, ways: &[Way]) -> Result<Vec<f64>, Unsolved> {
    let mut vars = ProblemVariables::new();
    let price: Vec<Variable> = s
        .lengths
        .iter()
        .map(|_| vars.add(variable().min(0.0).max(1.0)))
        .collect();
    let worth: Expression = price
        .iter()
        .zip(&s.counts)
        .map(|(p, c)| *c as f64 * *p)
        .sum();
    let mut model = vars.maximise(worth).using(microlp);
    for way in ways {
        let pieces = price.iter().zip(way).filter(|(_, n)| **n > 0);
        let worth: Expression = pieces.map(|(p, n)| *n as f64 * *p).sum();
        model = model.with(constraint!(worth <= 1.0));
    }
    let found = model.solve()?;
    Ok(price.iter().map(|p| found.value(*p)).collect())
}

/// How often each way is taken: in parts, or whole.
fn times(s: &Sizes, ways: &[Way], whole: bool) -> Result<Vec<f64>, Unsolved> {
    let mut vars = ProblemVariables::new();
    let most = s.counts.iter().sum::<u64>() as f64;
    let one = || variable().min(0.0).max(most);
    let time: Vec<Variable> = ways
        .iter()
        .map(|_| vars.add(if whole { one().integer() } else { one() }))
        .collect();
    let sticks: Expression = time.iter().copied().map(Expression::from).sum();
    let mut model = vars.minimise(sticks).using(microlp);
    for (i, count) in s.counts.iter().enumerate() {
        let having = time.iter().zip(ways).filter(|(_, w)| w[i] > 0);
        let pieces: Expression = having.map(|(t, w)| w[i] as f64 * *t).sum();
        model = model.with(constraint!(pieces >= *count as f64));
    }
    let found = model.solve()?;
    Ok(time.iter().map(|t| found.value(*t)).collect())
}

/// Ways taken so often, each cut down to what is still wanted; and what is left.
fn taken(s: &Sizes, ways: &[Way], times: impl Iterator<Item = u64>) -> (Vec<Way>, Sizes) {
    let mut left = s.clone();
    let mut sticks = Vec::new();
    for (way, n) in ways.iter().zip(times) {
        for _ in 0..n {
            let wanted = way.iter().zip(&left.counts);
            let way: Way = wanted.map(|(n, left)| (*n).min(*left)).collect();
            if way.iter().any(|n| *n > 0) {
                left.take(&way);
                sticks.push(way);
            }
        }
    }
    (sticks, left)
}

/// The linear answer rounded down, and the same again for what is left; or that packed one after the other, if less.
pub(super) fn rounded(s: &Sizes, ways: &[Way]) -> Result<Vec<Way>, Unsolved> {
    let parts = times(s, ways, false)?;
    let down = parts.iter().map(|t| (t + WHOLE).floor() as u64);
    let (mut sticks, left) = taken(s, ways, down);
    let packed = one_after_the_other(&left);
    if sticks.is_empty() || packed.is_empty() {
        sticks.extend(packed);
        return Ok(sticks);
    }
    let kept: Vec<usize> = (0..left.counts.len())
        .filter(|i| left.counts[*i] > 0)
        .collect();
    let rest = Sizes {
        lengths: kept.iter().map(|i| left.lengths[*i]).collect(),
        counts: kept.iter().map(|i| left.counts[*i]).collect(),
        room: left.room,
    };
    let (ways, _) = self::ways(&rest)?;
    let again = rounded(&rest, &ways)?;
    if again.len() >= packed.len() {
        sticks.extend(packed);
        return Ok(sticks);
    }
    sticks.extend(again.into_iter().map(|way| {
        let mut all = vec![0; s.lengths.len()];
        for (n, i) in way.into_iter().zip(&kept) {
            all[*i] = n;
        }
        all
    }));
    Ok(sticks)
}

/// The fewest sticks by the ways found.
pub(super) fn whole(s: &Sizes, ways: &[Way]) -> Result<Vec<Way>, Unsolved> {
    let whole = times(s, ways, true)?;
    let (mut sticks, left) = taken(s, ways, whole.iter().map(|t| t.round() as u64));
    sticks.extend(one_after_the_other(&left));
    Ok(sticks)
}
