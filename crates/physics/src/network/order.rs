//! The order that the unknowns of a symmetric matrix are eliminated in. Takes a pattern, gives the
//! unknowns in that order, each with those that it still hangs together with when its turn comes:
//! its column of the factor.
//!
//! Minimum degree (Tinney and Walker 1967, their second scheme): always the unknown with the fewest
//! neighbours, of several the one that has had so few for longest. A loom's branches thus go from
//! their ends inwards and add nothing to the pattern; only what closes a loop does.

use std::collections::VecDeque;

/// An unknown, and the later ones that its elimination ties together.
pub(super) struct Step {
    pub(super) unknown: u32,
    pub(super) later: Vec<u32>,
}

/// Orders a pattern of off-diagonal pairs (any order, repeats allowed).
pub(super) fn eliminate(size: usize, pairs: &[(u32, u32)]) -> Vec<Step> {
    let mut near = neighbours(size, pairs);
    let mut queues = Queues::default();
    for (unknown, near) in near.iter().enumerate() {
        queues.put(unknown as u32, near.len());
    }
    let mut gone = vec![false; size];
    let mut steps = Vec::with_capacity(size);
    while let Some((unknown, degree)) = queues.take() {
        let at = unknown as usize;
        // It may have moved on since it was put there.
        if gone[at] || near[at].len() != degree {
            continue;
        }
        gone[at] = true;
        let later = std::mem::take(&mut near[at]);
        for &other in &later {
            let list = &mut near[other as usize];
            tie(list, unknown, other, &later);
            queues.put(other, list.len());
        }
        steps.push(Step { unknown, later });
    }
    steps
}

/// The neighbours of each unknown, rising.
fn neighbours(size: usize, pairs: &[(u32, u32)]) -> Vec<Vec<u32>> {
    let mut near: Vec<Vec<u32>> = vec![Vec::new(); size];
    for &(i, j) in pairs {
        near[i as usize].push(j);
        near[j as usize].push(i);
    }
    for list in &mut near {
        list.sort_unstable();
        list.dedup();
    }
    near
}

/// Takes an unknown out of a neighbour's list and puts its other neighbours in.
fn tie(list: &mut Vec<u32>, unknown: u32, owner: u32, later: &[u32]) {
    if let Ok(at) = list.binary_search(&unknown) {
        list.remove(at);
    }
    for &other in later {
        if let (true, Err(at)) = (other != owner, list.binary_search(&other)) {
            list.insert(at, other);
        }
    }
}

/// Unknowns waiting, by their number of neighbours.
#[derive(Default)]
struct Queues {
    by_degree: Vec<VecDeque<u32>>,
    /// None wait below this.
    least: usize,
}

impl Queues {
    fn put(&mut self, unknown: u32, degree: usize) {
        if degree >= self.by_degree.len() {
            self.by_degree.resize(degree + 1, VecDeque::new());
        }
        self.by_degree[degree].push_back(unknown);
        self.least = self.least.min(degree);
    }

    /// The next, and the degree that it waited at.
    fn take(&mut self) -> Option<(u32, usize)> {
        while let Some(queue) = self.by_degree.get_mut(self.least) {
            if let Some(unknown) = queue.pop_front() {
                return Some((unknown, self.least));
            }
            self.least += 1;
        }
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn order(size: usize, pairs: &[(u32, u32)]) -> Vec<u32> {
        let steps = eliminate(size, pairs);
        steps.iter().map(|step| step.unknown).collect()
    }

    #[test]
    fn branches_go_from_their_ends_inwards_and_add_nothing() {
        // Two branches of three from the bus, 0.
        let pairs = [(0, 1), (1, 2), (2, 3), (0, 4), (4, 5), (5, 6)];
        assert_eq!(order(7, &pairs), [3, 6, 2, 5, 1, 4, 0]);
        let most = eliminate(7, &pairs).iter().map(|s| s.later.len()).max();
        assert_eq!(most, Some(1));
    }

    #[test]
    fn a_ring_is_closed_behind_what_leaves_it() {
        let steps = eliminate(4, &[(0, 1), (1, 2), (2, 3), (3, 0), (1, 0)]);
        let counts: Vec<usize> = steps.iter().map(|step| step.later.len()).collect();
        assert_eq!(counts, [2, 2, 1, 0]);
        assert_eq!(steps[0].later, [1, 3]);
    }

    #[test]
    fn every_unknown_has_its_turn_also_where_nothing_hangs_together() {
        assert_eq!(order(3, &[]), [0, 1, 2]);
        assert_eq!(order(0, &[]), [0_u32; 0]);
    }
}
