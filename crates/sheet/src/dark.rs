//! Dark ground. Takes the colours of a drawing, gives the style by which a screen in the dark shows paper dark and ink
//! light: each colour keeps its hue and turns its lightness. Wires keep their own colours. Paper stays as it is.

use crate::colour::is_wire;
use crate::svg::number;
use std::collections::BTreeSet;
use std::fmt::Write;

/// Lightness of white, and of black, on dark ground.
const PAPER: f64 = 0.11;
const INK: f64 = 0.92;

/// Every colour that anything is drawn in, wires aside.
const ALL: [&str; 54] = [
    "#000000", "#001f4d", "#12552f", "#1c3f73", "#1c4f9c", "#1d6b3a", "#222222", "#2b5d7d",
    "#333333", "#33475b", "#444444", "#555555", "#555b63", "#777777", "#7a1414", "#7a3f91",
    "#7f97bb", "#888888", "#8a8f98", "#8fb3cf", "#999999", "#9aa0a8", "#9c1d1d", "#9fd3f0",
    "#a01818", "#a06d12", "#a9b5c8", "#b0624f", "#b4b9c0", "#b9842f", "#bbbbbb", "#c08a2b",
    "#c3c7cd", "#c3d2e8", "#cdc8de", "#d9d9d9", "#dfe6ee", "#e39a8a", "#e3eef6", "#e6dcec",
    "#e8ebee", "#e9eff7", "#efe3c6", "#f2cf8d", "#f6c3bb", "#f8f1de", "#fbdcc0", "#fdf1d3",
    "#fdfcf6", "#ff9a8f", "#ffcf5c", "#ffe680", "black", "white",
];

/// The style for every drawing, for a page whose policy lets none stand within a drawing.
pub fn dark_style() -> String {
    style(&ALL.iter().map(|c| (*c).to_owned()).collect())
}

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

    /// WCAG 2.2, relative luminance of a grey; from memory.
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

    /// Every colour in the sources of this room.
    #[expect(clippy::disallowed_methods, reason = "the test looks at sources")]
    fn drawn(folder: &std::path::Path, found: &mut BTreeSet<String>) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                drawn(&path, found);
                continue;
            }
            let text = std::fs::read_to_string(&path).unwrap_or_default();
            let quoted = text.split('"').skip(1).step_by(2);
            let colours = quoted.filter(|q| q.len() == 7 && parts(q).is_some());
            found.extend(colours.map(str::to_owned));
        }
    }

    #[test]
    fn no_colour_is_forgotten() {
        let mut found = BTreeSet::new();
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
        for entry in [
            "board",
            "circuit",
            "coordination",
            "day",
            "fall",
            "matrix",
            "route",
            "chart",
            "fault_in_time",
        ] {
            drawn(&folder.join(entry), &mut found);
        }
        assert!(found.len() > 30);
        found.retain(|c| !is_wire(c) && !ALL.contains(&c.as_str()));
        assert_eq!(found, BTreeSet::new());
    }

    #[test]
    fn hues_are_kept() {
        // Worked by hand: HSL of #7a1414 is 0°, 72 %, 28 %.
        assert_eq!(turned(parts("#7a1414").unwrap()), "hsl(0 71.83% 69.45%)");
    }
}
