//! Relays and cut-outs decided by the voltage that they really get, until nothing changes. What never
//! comes to rest chatters, and its loop is told.

use crate::design::Design;
use crate::network::coil_kelvin;
use crate::settle::{Hold, Settled};
use crate::state::State;
use loom::{PartId, PartKind};
use physics::coil;
use physics::conductor::T20;
use quantity::Quantity;

/// One turn of a relay or a cut-out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flip {
    /// The relay or cut-out.
    pub part: PartId,
    /// What it turns to: pulled in, or letting current through.
    pub on: bool,
    /// The voltage that makes it turn, V.
    pub volts: f64,
}

/// Rounds in which all turn at once; a loom whose relays wait for one another needs one each.
const ROUNDS: usize = 24;
/// Turns one at a time, after turning all at once went round in a circle.
const TURNS: usize = 200;

/// Solves with `solve` and turns relays until none wants to turn, or tells the circle they go round in.
pub(crate) fn settle<E>(
    d: &Design,
    (state, hold): (&State, Hold),
    s: &mut Settled,
    mut solve: impl FnMut(&mut Settled) -> Result<(), E>,
) -> Result<(), E> {
    s.chatter.clear();
    let mut met: Vec<Vec<bool>> = Vec::new();
    for _ in 0..ROUNDS {
        solve(s)?;
        let flips = wishes(d, (state, hold), s);
        if flips.is_empty() {
            return Ok(());
        }
        if met.contains(&s.energised) {
            return one_by_one(d, (state, hold), s, solve);
        }
        met.push(s.energised.clone());
        for f in flips {
            s.energised[f.part.0 as usize] = f.on;
        }
    }
    one_by_one(d, (state, hold), s, solve)
}

/// Relays that turn at the very same moment may go round in a circle that real ones leave, one being
/// quicker: so the circle counts only when they go round one at a time as well.
fn one_by_one<E>(
    d: &Design,
    (state, hold): (&State, Hold),
    s: &mut Settled,
    mut solve: impl FnMut(&mut Settled) -> Result<(), E>,
) -> Result<(), E> {
    let mut met: Vec<Vec<bool>> = Vec::new();
    let mut turned: Vec<Flip> = Vec::new();
    for _ in 0..TURNS {
        solve(s)?;
        let Some(flip) = wishes(d, (state, hold), s).first().copied() else {
            return Ok(());
        };
        if let Some(since) = met.iter().position(|m| *m == s.energised) {
            s.chatter = turned[since..].to_vec();
            return Ok(());
        }
        met.push(s.energised.clone());
        turned.push(flip);
        s.energised[flip.part.0 as usize] = flip.on;
    }
    s.chatter = turned;
    Ok(())
}

/// What wants to turn. A relay that rests pulls in at its pull-in voltage, one that holds lets go below
/// its drop-out voltage, both at the temperature of its coil; a cut-out goes by its own two voltages.
fn wishes(d: &Design, (state, hold): (&State, Hold), s: &Settled) -> Vec<Flip> {
    let mut flips = Vec::new();
    for (id, part) in d.loom.each_part() {
        let held = match hold {
            Hold::Nothing => false,
            Hold::CutOuts => matches!(part.kind, PartKind::Cutout(_)),
            Hold::Everything => true,
        };
        if held {
            continue;
        }
        let on = s.energised[id.0 as usize];
        let Some((volts, needed)) = decided(d, state, s, (id, on)) else {
            continue;
        };
        if (volts >= needed) != on {
            flips.push(Flip {
                part: id,
                on: !on,
                volts,
            });
        }
    }
    flips
}

/// What wants to turn where the pins have these voltages and relays stand as in `s`.
pub(crate) fn restless(
    d: &Design,
    (state, hold): (&State, Hold),
    s: &Settled,
    volts: Vec<Option<f64>>,
) -> Vec<Flip> {
    if hold == Hold::Everything {
        return Vec::new();
    }
    let now = Settled {
        volts,
        energised: s.energised.clone(),
        ..Settled::default()
    };
    wishes(d, (state, hold), &now)
}

/// Whether every relay and cut-out that is in would come in by itself as things stand, and no other would:
/// where they stand so, they came so from rest.
pub(crate) fn would_come(d: &Design, state: &State, s: &Settled) -> bool {
    d.loom.each_part().all(|(id, _)| {
        let on = s.energised[id.0 as usize];
        decided(d, state, s, (id, false)).is_none_or(|(volts, needed)| (volts >= needed) == on)
    })
}

/// The voltage that a relay or cut-out gets, and the one that it needs to come in, or to stay in once it is.
fn decided(d: &Design, state: &State, s: &Settled, (id, on): (PartId, bool)) -> Option<(f64, f64)> {
    let part = d.loom.part(id);
    match &part.kind {
        PartKind::Relay(_) => {
            let kind = d.relay(id)?;
            // A coil with a resistor across it pulls in either way round.
            let volts = s.across(part.pins[2], part.pins[3]).abs();
            let needed = if on { kind.drop_out } else { kind.pull_in };
            let kelvin = coil_kelvin(d, state.supply, part.place, on);
            Some((volts, coil::pull_in_volts(needed.si(), T20, kelvin)))
        }
        PartKind::Cutout(c) => {
            let volts = s.across(part.pins[0], part.pins[2]);
            let needed = if on { c.opens } else { c.closes };
            Some((volts, needed.si()))
        }
        _ => None,
    }
}

/// How relays and cut-outs stand before anything is switched on.
pub(crate) fn at_rest(d: &Design) -> Vec<bool> {
    let closed = |p: &loom::Part| matches!(p.kind, PartKind::Cutout(_));
    d.loom.parts.iter().map(closed).collect()
}
