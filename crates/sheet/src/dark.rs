//! Dark ground. Takes the colours of a drawing, gives the style by which a screen in the dark shows paper dark and ink
//! light: each colour keeps its hue and turns its lightness. Wires keep their own colours. Paper stays as it is.

use crate::colour::is_wire;
use crate::svg::number;
use std::collections::BTreeSet;
use std::fmt::Write;

/// Lightness of white, and of black, on dark ground.
const PAPER: f64 = 0.11;
const INK: f64 = 0.92;

/// The style for these colours.
pub(crate) fn style(colours: &BTreeSet<String>) -> String {
    let mut out = "@media screen and (prefers-color-scheme: dark) {".to_owned();
    let _ = write!(out, " text {{ fill: {} }}", turned((0.0, 0.0, 0.0)));
    for colour in colours.iter().filter(|c| !is_wire(c)) {
        let Some(parts) = parts(colour) else {
            continue;
        };
        let dark = turned(parts);
        for kind in ["fill", "stroke"] {
            let _ = write!(out, " [{kind}=\"{colour}\"] {{ {kind}: {dark} }}");
        }
    }
    out + " }"
}

/// Red, green and blue, 0 to 1. Nothing of what is no colour.
fn parts(colour: &str) -> Option<(f64, f64, f64)> {
    let hex = match colour {
        "white" => "ffffff",
        "black" => "000000",
        other => other.strip_prefix('#')?,
    };
    let part = |i: usize| {
        let two = hex.get(2 * i..2 * i + 2)?;
        Some(f64::from(u8::from_str_radix(two, 16).ok()?) / 255.0)
    };
    Some((part(0)?, part(1)?, part(2)?))
}

/// The colour with its lightness turned, as CSS writes it.
fn turned((r, g, b): (f64, f64, f64)) -> String {
    let (high, low) = (r.max(g).max(b), r.min(g).min(b));
    let (light, spread) = ((high + low) / 2.0, high - low);
    let hue = match () {
        () if spread == 0.0 => 0.0,
        () if high == r => ((g - b) / spread).rem_euclid(6.0),
        () if high == g => (b - r) / spread + 2.0,
        () => (r - g) / spread + 4.0,
    };
    let full = match light {
        l if l <= 0.0 || l >= 1.0 => 0.0,
        l => spread / (1.0 - (2.0 * l - 1.0).abs()),
    };
    let light = INK + (PAPER - INK) * light;
    format!(
        "hsl({} {}% {}%)",
        number(60.0 * hue),
        number(100.0 * full),
        number(100.0 * light)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    /// WCAG 2.2, relative luminance of a grey: read, not recalled.
    fn luminance(light: f64) -> f64 {
        match light {
            l if l <= 0.04045 => l / 12.92,
            l => ((l + 0.055) / 1.055).powf(2.4),
        }
    }

    #[test]
    fn ink_on_dark_paper_has_the_contrast_of_small_text() {
        let ratio = (luminance(INK) + 0.05) / (luminance(PAPER) + 0.05);
        assert!(ratio >= 7.0, "{ratio}");
    }

    #[test]
    fn paper_turns_dark_and_wires_stay() {
        let colours = ["white", "black", "none", "#8a5a2b"].map(String::from);
        let style = style(&BTreeSet::from(colours));
        assert!(
            style.contains("[fill=\"white\"] { fill: hsl(0 0% 11%) }"),
            "{style}"
        );
        assert!(style.contains("[stroke=\"black\"] { stroke: hsl(0 0% 92%) }"));
        assert!(!style.contains("none") && !style.contains("#8a5a2b"));
    }

    #[test]
    fn hues_are_kept() {
        // Worked by hand: HSL of #7a1414 is 0°, 72 %, 28 %.
        assert_eq!(turned(parts("#7a1414").unwrap()), "hsl(0 71.83% 69.45%)");
    }
}
