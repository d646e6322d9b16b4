//! Numbers as a person reads them: few figures, no trailing zeros, no exponent.

/// `v` rounded to `n` significant figures, without an exponent and without trailing zeros.
pub fn figures(v: f64, n: usize) -> String {
    if v == 0.0 {
        return "0".to_owned();
    }
    if !v.is_finite() {
        return v.to_string();
    }
    let magnitude = v.abs().log10().floor() as i32;
    let decimals = (n as i32 - 1 - magnitude).clamp(0, 9) as usize;
    let shown = format!("{v:.decimals$}");
    // Rounding may have carried into a new figure (9.996 -> 10.00).
    let carried = shown.parse::<f64>().map_or(0, |r| {
        if r == 0.0 {
            0
        } else {
            r.abs().log10().floor() as i32
        }
    });
    if carried > magnitude && decimals > 0 {
        let fewer = decimals - 1;
        return trim_zeros(&format!("{v:.fewer$}"));
    }
    trim_zeros(&shown)
}

/// Drops trailing zeros after a decimal point: "2.50" becomes "2.5", "4.0" becomes "4".
pub fn trim_zeros(text: &str) -> String {
    let kept = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        text
    };
    if kept == "-0" {
        "0".to_owned()
    } else {
        kept.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_figures_without_trailing_zeros() {
        assert_eq!(figures(4.5, 3), "4.5");
        assert_eq!(figures(9.996, 3), "10");
        assert_eq!(figures(0.012345, 3), "0.0123");
        assert_eq!(figures(123_456.0, 3), "123456");
        assert_eq!(figures(0.0, 3), "0");
    }
}
