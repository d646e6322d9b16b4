//! Text to quantity. Never panics; every refusal says what is wrong and how to write it.

use crate::kinds::{Quantity, Unit};

/// Why a text is no quantity of the kind asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Misread {
    /// The fault in one phrase.
    pub what: String,
    /// What to write instead.
    pub mend: String,
}

/// Reads a quantity such as "1.9 m", "2 ft 4 in", "80 °C". A decimal comma is taken as a point.
/// Parts add up ("2 ft 4 in"), each with its own unit, the larger unit first.
pub fn read<Q: Quantity>(text: &str) -> Result<Q, Misread> {
    let mut rest = text.trim();
    if rest.is_empty() {
        return Err(misread::<Q>("nothing is written here".into()));
    }
    let mut total = 0.0;
    let mut last_scale = f64::INFINITY;
    while !rest.is_empty() {
        let (number, after) = split_number::<Q>(rest)?;
        let (unit, after) = split_unit::<Q>(after.trim_start(), text)?;
        if unit.scale >= last_scale
            || (last_scale.is_finite() && (number < 0.0 || unit.offset != 0.0))
        {
            return Err(misread::<Q>(format!(
                "the parts of “{}” don't add up to {}",
                text.trim(),
                Q::WHAT
            )));
        }
        last_scale = unit.scale;
        total += number * unit.scale + unit.offset;
        rest = after.trim_start();
    }
    if !total.is_finite() {
        return Err(misread::<Q>(format!(
            "“{}” is too large to be a number",
            text.trim()
        )));
    }
    Ok(Q::from_si(total))
}

fn misread<Q: Quantity>(what: String) -> Misread {
    Misread {
        what,
        mend: format!("write {} like \"{}\"", Q::WHAT, Q::EXAMPLE),
    }
}

/// Takes the number off the front, and gives what follows it.
fn split_number<Q: Quantity>(text: &str) -> Result<(f64, &str), Misread> {
    let end = text
        .char_indices()
        .find(|&(i, c)| {
            !(c.is_ascii_digit() || c == '.' || c == ',' || (i == 0 && (c == '-' || c == '+')))
        })
        .map_or(text.len(), |(i, _)| i);
    let (digits, rest) = text.split_at(end);
    let number = digits.replace(',', ".").parse::<f64>();
    match number {
        Ok(v) if v.is_finite() => Ok((v, rest)),
        _ => Err(misread::<Q>(if digits.is_empty() {
            format!("“{text}” does not start with a number")
        } else {
            format!("“{digits}” is not a number")
        })),
    }
}

/// Takes the unit off the front: the longest spelling that fits and is not cut out of a longer word.
fn split_unit<'a, Q: Quantity>(
    text: &'a str,
    whole: &str,
) -> Result<(&'static Unit, &'a str), Misread> {
    let mut best: Option<(&'static Unit, usize)> = None;
    for unit in Q::UNITS {
        for spelling in unit.spellings {
            let ends_word = |s: &str| {
                !spelling.ends_with(char::is_alphabetic) || !s.starts_with(char::is_alphanumeric)
            };
            if let Some(rest) = text.strip_prefix(spelling)
                && ends_word(rest)
                && best.is_none_or(|(_, len)| spelling.len() > len)
            {
                best = Some((unit, spelling.len()));
            }
        }
    }
    if let Some((unit, len)) = best {
        return Ok((unit, &text[len..]));
    }
    let written = text
        .split(|c: char| c.is_whitespace() || c.is_ascii_digit())
        .next()
        .unwrap_or("");
    if written.is_empty() {
        return Err(Misread {
            what: format!("“{}” has no unit", whole.trim()),
            mend: format!(
                "say which: write {} like \"{}\" ({})",
                Q::WHAT,
                Q::EXAMPLE,
                unit_list::<Q>()
            ),
        });
    }
    Err(Misread {
        what: format!(
            "“{written}” is not a unit of {}",
            Q::WHAT.trim_start_matches("a ")
        ),
        mend: format!("use one of {}, like \"{}\"", unit_list::<Q>(), Q::EXAMPLE),
    })
}

fn unit_list<Q: Quantity>() -> String {
    Q::UNITS
        .iter()
        .map(|u| u.spellings[0])
        .collect::<Vec<_>>()
        .join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        Area, ElectricCharge, ElectricCurrent, Length, Power, Ratio, ThermodynamicTemperature,
        Time, in_celsius,
    };

    fn metres(text: &str) -> f64 {
        read::<Length>(text).unwrap().si()
    }

    #[test]
    fn lengths_as_people_write_them() {
        assert!((metres("2 ft 4 in") - 28.0 * 0.0254).abs() < 1e-12);
        assert!((metres("2'4\"") - 28.0 * 0.0254).abs() < 1e-12);
        assert!((metres("1,9 m") - 1.9).abs() < 1e-12);
        assert!((metres("150mm") - 0.15).abs() < 1e-12);
        assert!((metres(" 7 in ") - 0.1778).abs() < 1e-12);
    }

    #[test]
    fn other_quantities() {
        assert!((read::<Area>("2.5 mm²").unwrap().si() - 2.5e-6).abs() < 1e-18);
        assert!((read::<ElectricCharge>("74 Ah").unwrap().si() - 74.0 * 3600.0).abs() < 1e-6);
        assert!(
            (in_celsius(read::<ThermodynamicTemperature>("212 °F").unwrap()) - 100.0).abs() < 1e-9
        );
        assert!((read::<Ratio>("5%").unwrap().si() - 0.05).abs() < 1e-12);
        assert!((read::<ElectricCurrent>("30 mA").unwrap().si() - 0.03).abs() < 1e-12);
    }

    #[test]
    fn times_as_people_write_them() {
        let written = [
            ("15 min", 900.0),
            ("1 h", 3600.0),
            ("1 h 30 min", 5400.0),
            ("90 s", 90.0),
            ("2 days", 172_800.0),
            ("1 day 12 h", 129_600.0),
            ("2,5 h", 9000.0),
            ("1 min 30 s", 90.0),
        ];
        for (text, si) in written {
            assert_eq!(read::<Time>(text).unwrap().si(), si, "{text}");
        }
        assert!(read::<Time>("15").unwrap_err().what.contains("no unit"));
        assert!(read::<Time>("30 min 1 h").is_err());
        assert!(read::<Time>("15 m").unwrap_err().mend.contains("min"));
    }

    #[test]
    fn refusals_say_what_to_write() {
        assert!(read::<Length>("1.9").unwrap_err().what.contains("no unit"));
        assert!(read::<Length>("1.9 mtr").unwrap_err().mend.contains("ft"));
        assert!(read::<Power>("watts").unwrap_err().what.contains("number"));
        assert!(read::<Length>("4 in 2 ft").is_err());
        assert!(read::<Length>("1e400 m").is_err());
        assert!(read::<ThermodynamicTemperature>("20 °C 5 °F").is_err());
        assert!(read::<Length>("").is_err());
    }

    proptest::proptest! {
        #[test]
        fn never_panics(text in ".{0,40}") {
            let _ = read::<Length>(&text);
            let _ = read::<ThermodynamicTemperature>(&text);
        }

        #[test]
        fn what_is_shown_reads_back(mm in 1.0f64..50_000.0) {
            let shown = Length::from_si(mm * 1e-3).show();
            let back = read::<Length>(&shown).unwrap().si();
            proptest::prop_assert!((back - mm * 1e-3).abs() <= 0.006 * mm.max(1.0) * 1e-3 + 0.005);
        }

        #[test]
        fn a_time_that_is_shown_reads_back(s in 0.1f64..1e6) {
            let back = read::<Time>(&Time::from_si(s).show()).unwrap().si();
            // Three figures below an hour and above two days, whole minutes between.
            let to_the_minute: f64 = if s > 3500.0 { 31.0 } else { 0.0 };
            proptest::prop_assert!((back - s).abs() <= to_the_minute.max(0.006 * s));
        }
    }
}
