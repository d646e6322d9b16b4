//! A direct-current motor at start and running.
//!
//! `I_start = U / (Ra + R_loop)`, back e.m.f. `E = U − I Ra`.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | U | supply voltage | V |
//! | Ra, R_loop | armature with brushes, wiring | Ω |
//! | I, E | running current, back e.m.f. | A, V |
//!
//! Range: permanent magnet or constant field; inductance left out, so the start is a little high.
//! Source: reference `protection/32` (worked examples, read).

/// Current at the instant of starting or when blocked, A.
pub fn start_amps(supply_volts: f64, armature_ohms: f64, loop_ohms: f64) -> f64 {
    supply_volts / (armature_ohms + loop_ohms)
}

/// Back e.m.f. when running at `amps`, V.
pub fn back_volts(supply_volts: f64, amps: f64, armature_ohms: f64) -> f64 {
    supply_volts - amps * armature_ohms
}

/// Armature resistance from how many times its rated current a motor starts at, Ω.
pub fn armature_ohms(rated_volts: f64, rated_amps: f64, start_multiple: f64) -> f64 {
    rated_volts / (rated_amps * start_multiple)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn six_volt_motor_of_the_worked_example() {
        assert!((start_amps(6.0, 0.5, 0.0) - 12.0).abs() < 1e-12);
        assert!((back_volts(6.0, 3.0, 0.5) - 4.5).abs() < 1e-12);
        assert!((armature_ohms(6.0, 3.0, 4.0) - 0.5).abs() < 1e-12);
    }

    #[test]
    fn mains_motor_of_the_worked_example_held_to_15_amps() {
        assert!((start_amps(120.0, 0.72, 0.0) - 167.0).abs() < 0.5);
        assert!((start_amps(120.0, 0.72, 7.28) - 15.0).abs() < 1e-9);
    }
}
