//! How wide a text is, and where it breaks. Takes words and a width, gives lines; nothing is ever cut off.

use crate::glyph::advance;

/// The fonts of every drawing. The first is the one that is measured.
pub(crate) const FONTS: &str = "DejaVu Sans, Arial, sans-serif";
/// Size of the words of every drawing, mm.
pub(crate) const SIZE: f64 = 3.0;
/// Size of titles, mm.
pub(crate) const LARGE: f64 = 3.5;
/// From one baseline to the next, in font sizes.
pub(crate) const LEADING: f64 = 1.25;
/// From the top of the tallest letter, accents included, to the baseline, in font sizes.
pub(crate) const ASCENT: f64 = 0.95;
/// From the baseline to the lowest descender, in font sizes.
pub(crate) const DESCENT: f64 = 0.25;

/// Width of a text at a font size.
pub(crate) fn width(text: &str, size: f64) -> f64 {
    text.chars().map(|c| f64::from(advance(c))).sum::<f64>() * size / 1000.0
}

/// Units that stay with their figure.
const UNITS: [&str; 9] = ["A", "V", "W", "s", "ms", "µs", "min", "h", "°C"];
/// Holds two words together while a text is broken; no text has it.
const HELD: char = '\u{2060}';

/// The same as [`wrap`], but no figure is parted from its unit.
pub(crate) fn wrap_figures(text: &str, size: f64, most: f64) -> Vec<String> {
    let mut held = String::new();
    for word in text.split_whitespace() {
        let unit = UNITS.contains(&word.trim_end_matches([',', ';', ':', '.', ')']));
        match held.chars().next_back() {
            Some(last) if unit && last.is_ascii_digit() => held.push(HELD),
            Some(_) => held.push(' '),
            None => {}
        }
        held += word;
    }
    let lines = wrap(&held, size, most).into_iter();
    lines.map(|l| l.replace(HELD, " ")).collect()
}

/// Breaks a text into lines no wider than `most`: between words, and inside a word only where the
/// word alone is wider.
pub(crate) fn wrap(text: &str, size: f64, most: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in text.split_whitespace() {
        let joined = if line.is_empty() {
            word.to_owned()
        } else {
            format!("{line} {word}")
        };
        if width(&joined, size) <= most {
            line = joined;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        for c in word.chars() {
            line.push(c);
            if width(&line, size) > most && line.chars().count() > 1 {
                line.pop();
                lines.push(std::mem::take(&mut line));
                line.push(c);
            }
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn breaks_between_words_and_keeps_every_letter() {
        let text = "behind the passenger’s kick panel";
        let lines = wrap(text, 3.0, 24.0);
        assert!(lines.iter().all(|l| width(l, 3.0) <= 24.0), "{lines:?}");
        assert_eq!(lines.join(" "), text);
        let long = wrap("Donaudampfschifffahrtsgesellschaft", 3.0, 20.0);
        assert!(long.iter().all(|l| width(l, 3.0) <= 20.0), "{long:?}");
        assert_eq!(long.concat(), "Donaudampfschifffahrtsgesellschaft");
    }

    #[test]
    fn no_figure_is_parted_from_its_unit() {
        let lines = wrap_figures("lowest fault 40.5 A", 3.0, 24.0);
        assert_eq!(lines, ["lowest fault", "40.5 A"]);
    }
}
