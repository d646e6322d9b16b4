//! Whether a loss could turn anything on, without solving. Wires, plugs, fuses and contacts hold what they join
//! at one voltage, near enough; a loss matters only where it cuts a piece of those off from both of the battery's
//! posts, so that loads and coils alone decide where the piece goes.

use crate::design::Design;
use crate::lost::Lost;
use crate::network::{Inner, Model, Piece, model};
use crate::settle::{Settled, View};
use crate::state::State;
use loom::{PartId, PartKind};
use petgraph::unionfind::UnionFind;

/// What an element would mean if it hung on a piece that was cut off.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Meaning {
    /// Nothing of note.
    Plain,
    /// It holds what it joins at one voltage.
    Joins,
    /// Something that nobody asks for, or a relay that is held and whose contact closes when it lets go.
    Wakes,
}

/// A state's network, ready to be asked about one loss after another.
pub(super) struct Reach {
    model: Model,
    meanings: Vec<Meaning>,
    /// By node: whether it is held by one of the battery's posts while nothing is lost.
    held: Vec<bool>,
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
        let meaning = |piece: Piece| match piece {
            Piece::Coil(relay) if !asked.contains(&relay) => Meaning::Wakes,
            Piece::Coil(relay) if closes_at_rest(d, relay) && s.energised[relay.0 as usize] => {
                Meaning::Wakes
            }
            Piece::Load(load) => match d.loom.part(load).circuit {
                Some(c) if state.asks(d.loom, c) => Meaning::Plain,
                _ => Meaning::Wakes,
            },
            Piece::OwnLamp(_) => Meaning::Wakes,
            Piece::Wire(_)
            | Piece::Mate(_)
            | Piece::Fuse(_)
            | Piece::Contact(_)
            | Piece::Feed(_)
            | Piece::Body(_) => Meaning::Joins,
            _ => Meaning::Plain,
        };
        let meanings: Vec<Meaning> = model.elements.iter().map(|e| meaning(e.piece)).collect();
        let held = held(&model, &meanings, &|_| false);
        Self {
            model,
            meanings,
            held,
        }
    }

    /// Whether this loss cuts off a piece on which something hangs that could wake.
    pub fn may_wake(&self, d: &Design, lost: Lost) -> bool {
        let gone = |piece: Piece| match (piece, lost) {
            (Piece::Wire(w), Lost::Wire(l)) => w == l,
            (Piece::Body(p), Lost::Earth(l)) => p == l,
            (Piece::Mate(i), Lost::Connector(l)) => {
                let m = &d.loom.mates[i];
                [m.live, m.far].iter().any(|pin| d.loom.pin(*pin).part == l)
            }
            _ => false,
        };
        let after = held(&self.model, &self.meanings, &gone);
        let cut_off = |n: usize| self.held[n] && !after[n];
        let each = self.model.elements.iter().zip(&self.meanings);
        let mut wakes = each.filter(|(_, m)| **m == Meaning::Wakes);
        wakes.any(|(e, _)| cut_off(e.a) || cut_off(e.b))
    }
}

/// By node: whether what joins holds it to one of the battery's posts.
fn held(m: &Model, meanings: &[Meaning], gone: &dyn Fn(Piece) -> bool) -> Vec<bool> {
    let mut groups = UnionFind::new(m.nodes);
    for (e, meaning) in m.elements.iter().zip(meanings) {
        if *meaning == Meaning::Joins && !gone(e.piece) {
            groups.union(e.a, e.b);
        }
    }
    let battery = m.elements.iter().find(|e| e.piece == Piece::Battery);
    let plus = battery.map_or(0, |e| e.a);
    (0..m.nodes)
        .map(|n| groups.equiv(n, 0) || groups.equiv(n, plus))
        .collect()
}

fn closes_at_rest(d: &Design, relay: PartId) -> bool {
    matches!(&d.loom.part(relay).kind, PartKind::Relay(r) if r.contact == "87a")
}
