//! The network of a settled state as a deck for a circuit simulator of the SPICE family, with every
//! law written as its own equation, so that another program can check the node voltages.

use crate::answers::StateAnswer;
use crate::network::Piece;
use loom::Loom;
use physics::network::Law;
use std::fmt::Write;

/// Writes the deck.
pub(crate) fn write(loom: &Loom, answer: &StateAnswer) -> String {
    let mut out = format!("* {}\n", answer.state.name);
    let Some(model) = &answer.settled.model else {
        return out;
    };
    for (i, e) in model.elements.iter().enumerate() {
        let _ = writeln!(out, "* {}", name(loom, e.piece));
        out += &element(i + 1, e.a, e.b, e.law);
    }
    // A starting point to a millivolt: simulators lose their way among supplies with corners.
    for (pin, node) in model.node_of_pin.iter().enumerate() {
        if let (Some(n @ 1..), Some(volts)) = (node, answer.settled.volts[pin]) {
            let _ = writeln!(out, ".nodeset v({n})={volts:.3}");
        }
    }
    out += ".op\n.print op all\n.end\n";
    out
}

fn name(loom: &Loom, piece: Piece) -> String {
    match piece {
        Piece::Wire(w) => format!("wire {}", loom.wire(w).name),
        Piece::Mate(i) => format!("plug {}", loom.pin_name(loom.mates[i].live)),
        Piece::Fuse(p)
        | Piece::Coil(p)
        | Piece::Contact(p)
        | Piece::Load(p)
        | Piece::Feed(p)
        | Piece::Body(p)
        | Piece::OwnLamp(p)
        | Piece::Sense(p)
        | Piece::Spare(p) => {
            format!("{} {}", loom.part(p).name, loom.part(p).label)
        }
        Piece::Battery => "battery".into(),
        Piece::Chafe => "chafed wire".into(),
        Piece::Alternator => "alternator".into(),
        Piece::Float => "what a full battery takes".into(),
        Piece::Vehicle => "the vehicle's own draw".into(),
    }
}

/// One element; what is not linear is written as a behavioural current source.
fn element(n: usize, a: usize, b: usize, law: Law) -> String {
    let v = format!("v({a},{b})");
    let current = match law {
        Law::Resistor { ohms } => return format!("R{n} {a} {b} {ohms:e}\n"),
        Law::Source { volts, ohms } => {
            return format!("R{n} {a} s{n} {ohms:e}\nV{n} s{n} {b} {volts:e}\n");
        }
        Law::Current { amps } => return format!("I{n} {a} {b} {amps:e}\n"),
        Law::Open => return String::new(),
        Law::Regulated {
            volts,
            ohms,
            limit_amps,
        } => format!("-min(max(({volts:e}-{v})/{ohms:e},0),{limit_amps:e})"),
        Law::Tungsten {
            rated_volts,
            rated_amps,
        } => {
            // Straight through zero below a hundredth of the rated voltage: a simulator's power law
            // has no slope there.
            let size = format!("max(abs({v}),{:e})", rated_volts * 0.01);
            format!("{rated_amps:e}*({v}/{size})*pow({size}/{rated_volts:e},0.55)")
        }
        Law::ConstantPower {
            watts,
            lowest_volts,
            ..
        } => {
            // Full above the lowest voltage, gone 5 % below it, a smooth step between.
            let band = 0.05 * lowest_volts;
            let t = format!("min(max(({v}-{:e})/{band:e},0),1)", lowest_volts - band);
            let on = format!("{t}*{t}*(3-2*{t})");
            format!("{on}*{watts:e}/max({v},0.5)+(1-{on})*1e-6*{v}")
        }
        Law::Motor {
            rated_volts,
            rated_amps,
            armature_ohms,
        } => format!("min({v}/{armature_ohms:e},{rated_amps:e}*(1+0.1*({v}/{rated_volts:e}-1)))"),
    };
    format!("B{n} {a} {b} I={current}\n")
}
