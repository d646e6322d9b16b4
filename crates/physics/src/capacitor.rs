//! A capacitor at the instant of switching on.
//!
//! `I = U / R`, `τ = R C`, `I²t = U² C / (2 R)`.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | U | voltage that it is switched on to, empty | V |
//! | R | everything in the loop: wiring, contacts, the capacitor's own | Ω |
//! | C | capacitance | F |
//!
//! Range: no inductance, so the peak is a little high; R above zero. Source: textbook; the I²t of an
//! exponential pulse was read (reference `protection/90`, E02).

/// Current at the first instant, A.
pub fn inrush_amps(volts: f64, loop_ohms: f64) -> f64 {
    volts / loop_ohms
}

/// Time constant, s.
pub fn time_constant(farads: f64, loop_ohms: f64) -> f64 {
    farads * loop_ohms
}

/// What the whole pulse is worth to a fuse, A²s.
pub fn square_seconds(volts: f64, farads: f64, loop_ohms: f64) -> f64 {
    volts * volts * farads / (2.0 * loop_ohms)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_the_square_of_the_peak_for_one_time_constant() {
        let (volts, farads, ohms) = (14.0, 1e-3, 0.05);
        let peak = inrush_amps(volts, ohms);
        let pulse = 0.5 * peak * peak * time_constant(farads, ohms);
        assert!((peak - 280.0).abs() < 1e-9);
        assert!((square_seconds(volts, farads, ohms) - pulse).abs() < 1e-12);
    }
}
