//! A network as a deck for ngspice. The laws are written here once more, from their descriptions, as
//! functions of the deck, so that no line of ours stands on both sides.

use super::drawn::Drawn;
use physics::network::Law;
use std::fmt::Write;

/// Equations as the laws' files describe them: `ramp` is a corner rounded by a parabola, `cold` what a
/// filament does below the small voltage `vc`, `fade` a driver that gives up, `over` what a motor that
/// turns takes less than one that stands. All have a slope at nothing, where an open circuit rests.
const LAWS: &str = "\
.func bend(y,w) {(y+w)*(y+w)/(4*w)}
.func ramp(x,w) {max(x-w,0) + bend(min(max(x,-w),w),w)}
.func supply(v,e,r,most,w) {ramp((e-v)/r,w) - ramp((e-v)/r-most,w)}
.func cold(y) {1.225*y - 0.225*y*y*y}
.func filament(v,v0,i0,vc) {i0*pow(max(abs(v),vc)/v0,0.55)*cold(min(max(v/vc,-1),1))}
.func fade(t) {t*t*(3-2*t)}
.func on(v,least) {fade(min(max((v-0.95*least)/(0.05*least),0),1))}
.func driver(v,p,least) {on(v,least)*p/max(v,0.9*least) + (1-on(v,least))*1e-6*v}
.func over(v,v0,i0,ra) {ramp(v/ra-i0*(0.9+0.1*v/v0),0.02*i0)}
.func motor(v,v0,i0,ra) {v/ra - over(v,v0,i0,ra) + over(-v,v0,i0,ra)}
";

/// The deck, started where anybody would guess (all that is live at the highest supply's voltage), or
/// at given voltages.
pub(super) fn deck(drawn: &Drawn, start: Option<&[f64]>) -> String {
    let mut out = format!("* drawn\n{LAWS}");
    for (n, element) in drawn.network.elements().iter().enumerate() {
        let ends = format!("{} {}", element.a.0, element.b.0);
        out += &line(n, &ends, element.law);
    }
    let highest = drawn.network.elements().iter().map(|e| match e.law {
        Law::Source { volts, .. } | Law::Regulated { volts, .. } => volts,
        _ => 0.0,
    });
    let highest = highest.fold(0.0, f64::max);
    for node in 1..drawn.network.nodes() {
        let guess = if drawn.live[node] { highest - 0.1 } else { 0.0 };
        let volts = start.map_or(guess, |volts| volts[node]);
        let _ = writeln!(out, ".nodeset v({node})={volts:.6}");
    }
    // Its own tolerance is a thousandth, which is all that is allowed here.
    out + ".options reltol=1e-6 vntol=1e-9\n.op\n.print op all\n.end\n"
}

fn line(n: usize, ends: &str, law: Law) -> String {
    let v = format!("v({})", ends.replace(' ', ","));
    let amps = match law {
        Law::Resistor { ohms } => return format!("R{n} {ends} {ohms:e}\n"),
        Law::Current { amps } => return format!("I{n} {ends} {amps:e}\n"),
        Law::Open => return format!("* R{n} {ends} is open\n"),
        Law::Source { volts, ohms } => format!("({v}-{volts:e})/{ohms:e}"),
        Law::Regulated {
            volts,
            ohms,
            limit_amps: most,
        } => {
            let corner = (0.01 * most).min(1.0);
            format!("-supply({v},{volts:e},{ohms:e},{most:e},{corner:e})")
        }
        Law::Tungsten {
            rated_volts,
            rated_amps,
        } => {
            // Where the cubic's slope at nothing, 1.225 over what stands there, is twelve times hot.
            let cold = rated_volts * (1.225_f64 / 12.0).powf(1.0 / 0.45);
            format!("filament({v},{rated_volts:e},{rated_amps:e},{cold:e})")
        }
        Law::ConstantPower {
            watts,
            lowest_volts,
            ..
        } => format!("driver({v},{watts:e},{lowest_volts:e})"),
        Law::Motor {
            rated_volts,
            rated_amps,
            armature_ohms,
        } => format!("motor({v},{rated_volts:e},{rated_amps:e},{armature_ohms:e})"),
    };
    format!("B{n} {ends} I={amps}\n")
}
