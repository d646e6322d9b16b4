//! Values that are normally distributed and hang together, taken one after another: what each is expected to be once those
//! before it are known.
//!
//! With the covariance as `L Lᵀ` (Cholesky), row by row: the i-th value departs from what the ones before it let expect by
//! `e_i = r_i − Σ_k<i L_ik z_k`, its standard deviation then is `L_ii`, and `z_i = e_i / L_ii`. The density of all is the
//! product of the densities of each. Units: of the values. Source: textbook.

/// A departure that rounding alone makes, as a part of the variance.
const ROUNDING: f64 = 1e-12;

/// By value: how far it is from what the ones before it let expect, and its standard deviation then.
pub fn one_after_another(
    departures: &[f64],
    covariance: impl Fn(usize, usize) -> f64,
) -> Vec<(f64, f64)> {
    let mut rows: Vec<Vec<f64>> = Vec::with_capacity(departures.len());
    let mut told = Vec::with_capacity(departures.len());
    let mut z: Vec<f64> = Vec::with_capacity(departures.len());
    for (i, departure) in departures.iter().enumerate() {
        let mut row = Vec::with_capacity(i + 1);
        for (j, before) in rows.iter().enumerate() {
            let known: f64 = row.iter().zip(before).map(|(a, b)| a * b).sum();
            row.push((covariance(i, j) - known) / before[j]);
        }
        let own = covariance(i, i);
        let known: f64 = row.iter().map(|l: &f64| l * l).sum();
        let sd = (own - known).max(own * ROUNDING).sqrt();
        let expected: f64 = row.iter().zip(&z).map(|(l, z)| l * z).sum();
        let left = departure - expected;
        row.push(sd);
        z.push(left / sd);
        told.push((left, sd));
        rows.push(row);
    }
    told
}

#[cfg(test)]
mod tests {
    use super::one_after_another;

    /// Two that hang together by ρ: the second is expected at ρ of the first, with √(1 − ρ²) left (textbook).
    #[test]
    fn the_first_tells_of_the_second() {
        let rho = 0.8;
        let told = one_after_another(&[2.0, 1.0], |i, j| if i == j { 1.0 } else { rho });
        assert_eq!(told[0], (2.0, 1.0));
        assert!((told[1].0 - (1.0 - 2.0 * rho)).abs() < 1e-12);
        assert!((told[1].1 - (1.0 - rho * rho).sqrt()).abs() < 1e-12);
    }

    #[test]
    fn the_same_twice_leaves_nothing() {
        let told = one_after_another(&[1.0, 1.0], |_, _| 4.0);
        assert!(told[1].0.abs() < 1e-12 && told[1].1 < 1e-5);
    }
}
