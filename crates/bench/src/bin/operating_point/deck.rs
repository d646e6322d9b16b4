//! The measured network as a deck for ngspice that finds one operating point again and again, and
//! what ngspice then prints.

use physics::network::{Law, Network};
use std::collections::BTreeMap;
use std::fmt::Write;

/// The deck: `times` operating points in one process, then every voltage. With voltages to start
/// near, it gives them to the millivolt.
pub fn deck(network: &Network, near: Option<&[f64]>, times: u32) -> String {
    let mut out = String::from("* one operating point, again and again\n");
    for (n, element) in network.elements().iter().enumerate() {
        out += &line(n, element.a.0, element.b.0, element.law);
    }
    for (node, volts) in near.unwrap_or_default().iter().enumerate().skip(1) {
        let _ = writeln!(out, ".nodeset v({node})={volts:.3}");
    }
    // Each `op` leaves its answers behind. Taken away at once, or a long run grows slower and slower.
    let _ = write!(
        out,
        ".control\nset numdgt=9\nrepeat {times}\nop\ndestroy\nend\nop\nprint all\nquit\n.endc\n.end\n"
    );
    out
}

/// One element; what is not linear is a current written as an equation.
fn line(n: usize, a: u32, b: u32, law: Law) -> String {
    let v = format!("v({a},{b})");
    let amps = match law {
        Law::Resistor { ohms } => return format!("R{n} {a} {b} {ohms:e}\n"),
        Law::Source { volts, ohms } => {
            return format!("V{n} s{n} {b} {volts:e}\nR{n} s{n} {a} {ohms:e}\n");
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
            // A power law has no slope at nothing, and ngspice starts there.
            let size = format!("max(abs({v}),{:e})", 0.01 * rated_volts);
            format!("{rated_amps:e}*({v}/{size})*pow({size}/{rated_volts:e},0.55)")
        }
        Law::ConstantPower {
            watts,
            lowest_volts,
            ..
        } => {
            let faded = 0.95 * lowest_volts;
            let width = lowest_volts - faded;
            let t = format!("min(max(({v}-{faded:e})/{width:e},0),1)");
            format!("{t}*{t}*(3-2*{t})*{watts:e}/max({v},0.5)+1e-6*{v}")
        }
        Law::Motor {
            rated_volts,
            rated_amps,
            armature_ohms,
        } => format!("min({v}/{armature_ohms:e},{rated_amps:e}*(0.9+0.1*{v}/{rated_volts:e}))"),
    };
    format!("B{n} {a} {b} I={amps}\n")
}

/// The voltages that ngspice printed, by node: “v(250) = 1.178679885e+01”.
pub fn printed(text: &str) -> BTreeMap<usize, f64> {
    let voltage = |line: &str| {
        let (name, volts) = line.split_once('=')?;
        let node = name.trim().strip_prefix("v(")?.strip_suffix(')')?;
        Some((node.parse().ok()?, volts.trim().parse().ok()?))
    };
    text.lines().filter_map(voltage).collect()
}
