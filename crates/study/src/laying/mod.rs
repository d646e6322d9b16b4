//! How a loom is laid, covered and labelled: one table with a source on every row, and its rules as plain sums (`rules`).

mod rules;

use finding::{Finding, Keys, read_toml};
use plan::{Rules, Zone};
use quantity::figures;
pub use rules::{bare_hole, bend_radius, labels, shrink_cut, supports_between};

/// A length with on whose word.
#[derive(Clone, Debug)]
pub(crate) struct Spacing {
    /// Millimetres.
    pub mm: f64,
    /// On whose word.
    pub cite: String,
}

#[derive(Clone, Debug)]
struct Support {
    zone: Option<Zone>,
    rules: Option<Rules>,
    /// Of conductors between the battery and their fuse box.
    battery: bool,
    every: Spacing,
}

#[derive(Clone, Debug)]
struct Rule {
    name: String,
    value: f64,
    unit: String,
    cite: String,
}

/// What sleeve of a kind is sold in.
#[derive(Clone, Debug)]
pub(crate) struct Stick {
    /// "convolute".
    pub kind: String,
    /// Length of one, m.
    pub metres: f64,
    /// What a cut loses, mm.
    pub kerf_mm: f64,
    /// On whose word.
    pub cite: String,
}

/// The table.
#[derive(Clone, Debug)]
pub(crate) struct Laying {
    supports: Vec<Support>,
    /// Largest bundle, mm, and how far apart its ties stand, rising.
    ties: Vec<(f64, Spacing)>,
    rules: Vec<Rule>,
    sticks: Vec<Stick>,
}

impl Default for Laying {
    fn default() -> Self {
        read(include_str!("../../tables/laying.toml")).0
    }
}

fn spacing(k: &Keys) -> Option<Spacing> {
    Some(Spacing {
        mm: k.number("mm", 1.0..=5000.0)?.value,
        cite: k.cite()?,
    })
}

fn read(text: &str) -> (Laying, Vec<Finding>) {
    read_toml(text, "table of laying", |k| Laying {
        supports: k.tables("support", "support", |k| {
            Some(Support {
                zone: k.choice("zone", &Zone::WORDS).map(|z| z.value),
                rules: k.choice("rules", &Rules::WORDS).map(|r| r.value),
                battery: k.flag("battery").is_some_and(|b| b.value),
                every: spacing(k)?,
            })
        }),
        ties: k.tables("tie", "tie", |k| {
            let most = k.number("bundle_most_mm", 1.0..=1000.0)?.value;
            Some((most, spacing(k)?))
        }),
        rules: k.tables("rule", "rule", |k| {
            Some(Rule {
                name: k.need_text("name", "…")?.value,
                value: k.number("value", 0.0..=10_000.0)?.value,
                unit: k.need_text("unit", "…")?.value,
                cite: k.cite()?,
            })
        }),
        sticks: k.tables("stick", "stick", |k| {
            Some(Stick {
                kind: k.need_text("kind", "…")?.value,
                metres: k.number("metres", 0.1..=1000.0)?.value,
                kerf_mm: k.number("kerf_mm", 0.0..=50.0)?.value,
                cite: k.cite()?,
            })
        }),
    })
}

impl Laying {
    fn rule(&self, name: &str) -> &Rule {
        let found = self.rules.iter().find(|r| r.name == name);
        found.unwrap_or_else(|| panic!("the table of laying has no “{name}”"))
    }

    /// A value that the table is tested to have, in the unit of its row.
    pub fn value(&self, name: &str) -> f64 {
        self.rule(name).value
    }

    /// Every rule with its value and on whose word it is.
    pub fn told(&self) -> impl Iterator<Item = String> {
        let rule = |r: &Rule| format!("{}: {} {}, {}", r.name, figures(r.value, 4), r.unit, r.cite);
        self.rules.iter().map(rule)
    }

    /// How far apart supports stand: as the rule set says, or the closest that the zones of both ends ask for.
    pub fn support(&self, (rules, battery): (Rules, bool), zones: [Zone; 2]) -> &Spacing {
        let by_rules = self.supports.iter().filter(|s| s.rules == Some(rules));
        let by_rules = by_rules.filter(|s| battery || !s.battery);
        let by_rules = by_rules.min_by(|a, b| a.every.mm.total_cmp(&b.every.mm));
        let by_zone = self.supports.iter();
        let by_zone = by_zone.filter(|s| s.zone.is_some_and(|z| zones.contains(&z)));
        let closest = by_zone.min_by(|a, b| a.every.mm.total_cmp(&b.every.mm));
        let found = by_rules.or(closest).map(|s| &s.every);
        found.unwrap_or_else(|| panic!("the table of laying has no support for {zones:?}"))
    }

    /// How far apart ties stand on an open bundle of this diameter, mm.
    pub fn tie(&self, bundle_mm: f64) -> &Spacing {
        let found = self.ties.iter().find(|(most, _)| bundle_mm <= *most);
        &found.or(self.ties.last()).expect("a row of ties").1
    }

    /// What sleeve of a kind is sold in.
    pub fn stick(&self, kind: &str) -> Option<&Stick> {
        self.sticks.iter().find(|s| s.kind == kind)
    }
}

#[test]
fn every_row_reads_and_every_zone_has_its_support() {
    let (table, errors) = read(include_str!("../../tables/laying.toml"));
    assert_eq!(errors, []);
    for (_, zone) in Zone::WORDS {
        assert!(table.support((Rules::HeatOnly, true), [zone, zone]).mm > 0.0);
    }
    assert!(
        table
            .supports
            .iter()
            .all(|s| s.zone.is_some() != s.rules.is_some())
    );
    assert!(table.ties.is_sorted_by(|a, b| a.0 < b.0));
    let asked = [
        "bend",
        "bend, supported",
        "first support",
        "clear of a bare hole",
        "end label",
        "one label",
        "label sleeves",
        "shrinks in length",
        "over a joint",
        "over a lug",
        "contact over its blade",
        "seal over its wire",
        "gap, least",
        "gap, most for 20 AWG and smaller",
        "gap, most for larger",
        "tape at an end",
    ];
    for name in asked {
        assert!(table.value(name) > 0.0);
    }
    assert_eq!(table.rules.len(), asked.len());
    for kind in [
        "plain shrink",
        "adhesive shrink",
        "convolute",
        "braided",
        "PVC sleeve",
    ] {
        assert!(table.stick(kind).is_some(), "{kind}");
    }
}
