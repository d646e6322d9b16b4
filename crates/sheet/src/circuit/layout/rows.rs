//! Heights: which things stand level with one another, and how far below one another at least. Solved as
//! longest paths, so that everything stands as high as it can.

use loom::{PartId, PinId};
use std::collections::BTreeMap;

/// What stands on one level.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Key {
    /// The rails of feeds.
    Feeds,
    /// The rails of boxes.
    Buses,
    /// Stubs.
    Stubs,
    /// Everything that meets at a pin.
    Node(PinId),
    /// Coil and contact of a relay.
    Link(PartId),
    /// A three-position switch, and the line on which its second input comes in.
    Throw(PartId),
    ThrowTop(PartId),
    /// The loads of a block.
    Loads(usize),
    /// Ends that are not the body.
    Sinks,
    /// The body.
    Earths,
    /// A thing by itself: column and place in it.
    Free(usize, usize),
}

/// Levels under construction.
#[derive(Clone, Default)]
pub(crate) struct Rows {
    keys: BTreeMap<Key, usize>,
    /// (upper, lower, least distance).
    edges: Vec<(usize, usize, f64)>,
    heights: Vec<f64>,
}

impl Rows {
    fn index(&mut self, key: Key) -> usize {
        let next = self.keys.len();
        let at = *self.keys.entry(key).or_insert(next);
        if at == self.heights.len() {
            self.heights.push(f64::NEG_INFINITY);
        }
        at
    }

    /// `key` stands at `y` or lower.
    pub fn least(&mut self, key: Key, y: f64) {
        let at = self.index(key);
        self.heights[at] = self.heights[at].max(y);
    }

    /// `lower` stands at least `by` below `upper`.
    pub fn below(&mut self, upper: Key, lower: Key, by: f64) {
        let (a, b) = (self.index(upper), self.index(lower));
        self.edges.push((a, b, by));
    }

    /// Moves everything down as far as it must go. The demands of a circuit's columns never run in a
    /// circle; if they did, this stops after as many rounds as there are levels.
    pub fn settle(&mut self) {
        for _ in 0..=self.keys.len() {
            let mut moved = false;
            for (a, b, by) in &self.edges {
                let y = self.heights[*a] + by;
                if y > self.heights[*b] + 1e-9 {
                    self.heights[*b] = y;
                    moved = true;
                }
            }
            if !moved {
                break;
            }
        }
    }

    /// Where a level is.
    pub fn at(&self, key: Key) -> f64 {
        let y = self.keys.get(&key).map_or(0.0, |i| self.heights[*i]);
        if y.is_finite() { y } else { 0.0 }
    }
}
