//! The supply dips while the engine is cranked: every level that the standard has for this voltage.

use super::supplied::{case, is_24_v};
use super::{Each, Kind};
use crate::fault::Supplies;
use quantity::figures;

pub(super) const KIND: Kind = Kind {
    id: "cranking-dip",
    what: "the engine cranked, by the profiles of ISO 16750-2",
    source: "ISO 16750-2 starting profile, levels I to IV (24 V: I to III), from memory",
    each: |d| {
        let system = if is_24_v(d) { ", 24 V" } else { ", 12 V" };
        let level = |name: &str| {
            let level = name.strip_prefix("cranking ")?.strip_suffix(system)?;
            Some(level.to_owned())
        };
        let rows = d.limits.rows().iter();
        let levels = rows.filter_map(|row| Some((level(&row.name)?, row.value)));
        let cases = levels.map(|(level, volts)| {
            let says = format!(
                "the engine is cranked and the supply dips to {} V (level {level})",
                figures(volts, 3)
            );
            let mut case = case(d, says, volts, Supplies::Cranking);
            case.lasts = Some(d.limits.value("cranking lasts"));
            case.at = format!("supply, level {level}");
            case
        });
        Each::of(cases.collect())
    },
};
