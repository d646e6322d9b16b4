//! Where a function of one number crosses zero inside a bracket.
//!
//! Chandrupatla's method: inverse quadratic interpolation where the three latest points allow it,
//! else bisection. Never leaves the bracket, so it always ends. Source: T. R. Chandrupatla, "A new
//! hybrid quadratic/bisection algorithm", Advances in Engineering Software 28 (1997) 145–149.

/// Double precision runs out long before this many halvings.
const MOST_PASSES: usize = 200;

/// The zero of `f` between `low` and `high`, where `f` must differ in sign, within `within`.
pub fn bracketed(f: impl Fn(f64) -> f64, low: f64, high: f64, within: f64) -> f64 {
    let (mut x1, mut x2) = (low, high);
    let (mut f1, mut f2) = (f(x1), f(x2));
    if f1 == 0.0 {
        return x1;
    }
    let mut t = 0.5;
    let mut best = x1;
    for _ in 0..MOST_PASSES {
        let x = x1 + t * (x2 - x1);
        let fx = f(x);
        let (x3, f3) = if (fx > 0.0) == (f1 > 0.0) {
            (x1, f1)
        } else {
            let third = (x2, f2);
            (x2, f2) = (x1, f1);
            third
        };
        (x1, f1) = (x, fx);
        let smallest = if f2.abs() < f1.abs() { f2 } else { f1 };
        best = if f2.abs() < f1.abs() { x2 } else { x1 };
        let least = (2.0 * f64::EPSILON * best.abs() + within) / (x2 - x1).abs();
        if least > 0.5 || smallest == 0.0 {
            return best;
        }
        t = next_fraction([x1, x2, x3], [f1, f2, f3]).clamp(least, 1.0 - least);
    }
    best
}

/// How far from the first point towards the second to look next.
fn next_fraction(x: [f64; 3], f: [f64; 3]) -> f64 {
    let xi = (x[0] - x[1]) / (x[2] - x[1]);
    let phi = (f[0] - f[1]) / (f[2] - f[1]);
    if phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi {
        f[0] / (f[1] - f[0]) * f[2] / (f[1] - f[2])
            + (x[2] - x[0]) / (x[1] - x[0]) * f[0] / (f[2] - f[0]) * f[1] / (f[2] - f[1])
    } else {
        0.5
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_the_square_root_of_two() {
        let root = bracketed(|x| x * x - 2.0, 0.0, 2.0, 1e-12);
        assert!((root - 2.0_f64.sqrt()).abs() < 1e-11);
    }

    #[test]
    fn ends_on_a_step() {
        let root = bracketed(|x| if x < 0.3 { -1.0 } else { 1.0 }, 0.0, 1.0, 1e-9);
        assert!((root - 0.3).abs() < 2e-9);
    }
}
