//! Whether a loss could turn anything on, without solving: current flows only in what lies on a way from
//! the battery's one post to the other that passes no point twice (in one ring with the battery).

use crate::design::Design;
use crate::lost::Lost;
use crate::network::{Inner, Model, Piece, model};
use crate::settle::{Settled, View};
use crate::state::State;
use loom::{PartId, PartKind};

/// What an element would mean if current reached it.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Meaning {
    /// Nothing of note.
    Plain,
    /// Something that nobody asks for: a load, a coil, the vehicle's own lamps.
    Unasked,
    /// The coil of a relay that is held, whose contact closes when it lets go.
    Holds(u32),
}

/// A state's network, ready to be asked about one loss after another.
pub(super) struct Reach {
    model: Model,
    meanings: Vec<Meaning>,
    /// How many relays are held whose contact closes when they let go.
    held: u32,
    rings: Rings,
}

impl Reach {
    pub fn new(d: &Design, state: &State, s: &Settled) -> Self {
        let inner = Inner {
            energised: &s.energised,
            mean_k: &s.heat.mean,
            fuse_amps: &s.part_amps,
            view: View::default(),
        };
        let model = model(d, state, &inner);
        let asked = d.asked(state);
        let mut held = 0;
        let meanings = model.elements.iter().map(|e| match e.piece {
            Piece::Coil(relay) if !asked.contains(&relay) => Meaning::Unasked,
            Piece::Coil(relay) if closes_at_rest(d, relay) && s.energised[relay.0 as usize] => {
                held += 1;
                Meaning::Holds(held - 1)
            }
            Piece::Load(load) => {
                let of = d.loom.part(load).circuit;
                match of.is_some_and(|c| state.asks(d.loom, c)) {
                    true => Meaning::Plain,
                    false => Meaning::Unasked,
                }
            }
            Piece::OwnLamp(_) => Meaning::Unasked,
            _ => Meaning::Plain,
        });
        let meanings = meanings.collect();
        let rings = Rings::new(&model);
        Self {
            model,
            meanings,
            held,
            rings,
        }
    }

    /// Whether, with this lost, current could reach a load or a coil that nobody asks for, or a relay would
    /// let go whose contact then closes.
    pub fn may_wake(&mut self, d: &Design, lost: Lost) -> bool {
        let gone = |piece: Piece| match (piece, lost) {
            (Piece::Wire(w), Lost::Wire(l)) => w == l,
            (Piece::Body(p), Lost::Earth(l)) => p == l,
            (Piece::Mate(i), Lost::Connector(l)) => {
                let m = &d.loom.mates[i];
                [m.live, m.far].iter().any(|pin| d.loom.pin(*pin).part == l)
            }
            _ => false,
        };
        let live = self.rings.with_battery(&self.model, &gone);
        let mut holding = 0;
        for (meaning, live) in self.meanings.iter().zip(live) {
            match meaning {
                Meaning::Unasked if *live => return true,
                Meaning::Holds(_) if *live => holding += 1,
                _ => {}
            }
        }
        holding < self.held
    }
}

fn closes_at_rest(d: &Design, relay: PartId) -> bool {
    matches!(&d.loom.part(relay).kind, PartKind::Relay(r) if r.contact == "87a")
}

/// A node being walked: it, the element it was entered by, how many of its neighbours are done, and how
/// high the stack stood when it was entered.
struct Here {
    node: usize,
    by: usize,
    done: usize,
    height: usize,
}

/// Finds the battery's ring: Tarjan's way of finding the parts of a graph that no single point cuts, walked
/// from the battery. Its memory is kept from one loss to the next.
struct Rings {
    /// By node: where its neighbours start in `next`.
    starts: Vec<usize>,
    /// Neighbour and element.
    next: Vec<(usize, usize)>,
    /// By node: when it was met, 0 for not yet.
    met: Vec<u32>,
    /// By node: the earliest that a way on from it comes back to.
    low: Vec<u32>,
    /// Elements not yet put down to a ring.
    stack: Vec<usize>,
    live: Vec<bool>,
}

impl Rings {
    fn new(m: &Model) -> Self {
        let mut starts = vec![0; m.nodes + 1];
        for e in &m.elements {
            starts[e.a + 1] += 1;
            starts[e.b + 1] += 1;
        }
        for n in 0..m.nodes {
            starts[n + 1] += starts[n];
        }
        let mut at = starts.clone();
        let mut next = vec![(0, 0); 2 * m.elements.len()];
        for (i, e) in m.elements.iter().enumerate() {
            for (from, to) in [(e.a, e.b), (e.b, e.a)] {
                next[at[from]] = (to, i);
                at[from] += 1;
            }
        }
        Self {
            starts,
            next,
            met: Vec::new(),
            low: Vec::new(),
            stack: Vec::new(),
            live: Vec::new(),
        }
    }

    /// By element: whether it lies in one ring with the battery when some are gone.
    fn with_battery(&mut self, m: &Model, gone: &dyn Fn(Piece) -> bool) -> &[bool] {
        for (list, len) in [(&mut self.met, m.nodes), (&mut self.low, m.nodes)] {
            list.clear();
            list.resize(len, 0);
        }
        self.live.clear();
        self.live.resize(m.elements.len(), false);
        let battery = m.elements.iter().position(|e| e.piece == Piece::Battery);
        if let Some(first) = battery {
            self.stack.clear();
            self.stack.push(first);
            (self.met[0], self.low[0]) = (1, 1);
            self.walk(m, first, gone);
            for element in self.stack.drain(..) {
                self.live[element] = true;
            }
        }
        &self.live
    }

    /// Walks from the battery's positive post; the reference has been met. What is left on the stack at
    /// the end is the battery's own ring.
    fn walk(&mut self, m: &Model, first: usize, gone: &dyn Fn(Piece) -> bool) {
        let plus = m.elements[first].a;
        let mut clock = 2;
        (self.met[plus], self.low[plus]) = (clock, clock);
        let enter = |node, by, height| Here {
            node,
            by,
            done: 0,
            height,
        };
        let mut road = vec![enter(plus, first, 0)];
        while let Some(here) = road.last_mut() {
            let (node, by) = (here.node, here.by);
            let at = self.starts[node] + here.done;
            if at == self.starts[node + 1] {
                let height = here.height;
                road.pop();
                self.leave(node, height, road.last());
                continue;
            }
            here.done += 1;
            let (to, element) = self.next[at];
            if element == by || gone(m.elements[element].piece) {
                continue;
            }
            if self.met[to] == 0 {
                clock += 1;
                (self.met[to], self.low[to]) = (clock, clock);
                let height = self.stack.len();
                self.stack.push(element);
                road.push(enter(to, element, height));
            } else if self.met[to] < self.met[node] {
                self.stack.push(element);
                self.low[node] = self.low[node].min(self.met[to]);
            }
        }
    }

    /// Leaves a node: what comes back no earlier than to the node before it is a ring of its own, or a
    /// dead end.
    fn leave(&mut self, node: usize, height: usize, before: Option<&Here>) {
        let Some(before) = before else { return };
        if self.low[node] >= self.met[before.node] {
            self.stack.truncate(height);
        } else {
            self.low[before.node] = self.low[before.node].min(self.low[node]);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::network::Element;
    use physics::network::Law;

    fn in_circuit(nodes: usize, pairs: &[(usize, usize)]) -> Vec<bool> {
        let law = Law::Resistor { ohms: 1.0 };
        let element = |piece, (a, b): (usize, usize)| Element { piece, a, b, law };
        let mut elements = vec![element(Piece::Battery, (1, 0))];
        elements.extend(pairs.iter().map(|p| element(Piece::Vehicle, *p)));
        let m = Model {
            nodes,
            elements,
            node_of_pin: Vec::new(),
            amps: Vec::new(),
        };
        Rings::new(&m).with_battery(&m, &|_| false).to_vec()
    }

    #[test]
    fn a_ring_is_live_and_what_hangs_on_it_is_not() {
        // 1–2–0 is a ring; 2–3–4–2 is a ring that hangs at 2; 3–5 is a dead end.
        let live = in_circuit(6, &[(1, 2), (2, 0), (2, 3), (3, 4), (4, 2), (3, 5)]);
        assert_eq!(live, [true, true, true, false, false, false, false]);
    }

    #[test]
    fn a_bridge_between_two_arms_is_live() {
        assert_eq!(
            in_circuit(4, &[(1, 2), (2, 0), (1, 3), (3, 0), (2, 3)]),
            [true; 6]
        );
    }

    #[test]
    fn without_a_way_home_only_the_battery_is_left() {
        assert_eq!(in_circuit(3, &[(1, 2)]), [true, false]);
    }
}
