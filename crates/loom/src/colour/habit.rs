//! The colours of each habit, from one table with its source.

use super::{Colour, Palette};
use finding::{Finding, Keys, read_toml};

/// One habit's colours.
#[derive(Clone, Debug)]
pub(super) struct Habit {
    name: String,
    /// Live from the battery, before a fuse of a circuit.
    pub supply: String,
    /// From a circuit's fuse to its switch or relay.
    pub feed: String,
    /// The same where the ignition makes it live.
    pub ignition: String,
    /// Earths and returns.
    pub earth: String,
    /// What works a coil.
    pub coil: String,
    /// Switched wires to motors, where the habit has a colour for them.
    pub motor: Option<String>,
    /// Switched wires to lamps.
    pub lamp: Option<String>,
    /// Switched wires otherwise, by circuit.
    circuits: Vec<String>,
    stripes: Vec<String>,
    /// "RD/BN": pairs that are not used; "GN": a base that is not used without a stripe.
    never: Vec<String>,
    says: String,
    source: String,
}

fn read(text: &str) -> (Vec<Habit>, Vec<Finding>) {
    read_toml(text, "table of wire colours", |k| {
        k.tables("habit", "habit", habit)
    })
}

fn habit(k: &Keys) -> Option<Habit> {
    let text = |key: &'static str| k.text(key).map(|t| t.value);
    let list = |key: &'static str| k.texts(key).into_iter().map(|t| t.value).collect();
    let supply = k.need_text("supply", "RD")?.value;
    Some(Habit {
        name: k.need_text("name", "road")?.value,
        feed: text("feed").unwrap_or_else(|| supply.clone()),
        ignition: text("ignition").unwrap_or_else(|| supply.clone()),
        supply,
        earth: k.need_text("earth", "BN")?.value,
        coil: k.need_text("coil", "BK")?.value,
        motor: text("motor"),
        lamp: text("lamp"),
        circuits: list("circuits"),
        stripes: list("stripes"),
        never: list("never"),
        says: k.need_text("says", "…")?.value,
        source: k.cite()?,
    })
}

/// A base without a stripe.
pub(super) fn plain(base: &str) -> Colour {
    Colour {
        base: base.to_owned(),
        stripe: None,
    }
}

impl Habit {
    /// The habit of a word that the table is tested to have.
    pub(super) fn of(word: &str) -> Self {
        let (habits, _) = read(include_str!("../../tables/colours.toml"));
        let found = habits.into_iter().find(|h| h.name == word);
        found.unwrap_or_else(|| panic!("the table of wire colours lacks “{word}”"))
    }

    pub(super) fn palette(self, habit: &'static str) -> Palette {
        Palette {
            habit,
            earth: self.earth,
            live: vec![self.supply, self.feed, self.ignition],
            says: self.says,
            source: self.source,
        }
    }

    fn may(&self, colour: &Colour) -> bool {
        let itself = colour.stripe.as_ref() == Some(&colour.base);
        !itself && !self.never.contains(&colour.to_string())
    }

    /// A base plain and then with every stripe, or from the stripe of a circuit on, round to it again: a circuit's wires
    /// show its own colour.
    pub(super) fn striped(&self, base: &str, nth: Option<usize>) -> Vec<Colour> {
        let with = |stripe: &String| Colour {
            base: base.to_owned(),
            stripe: Some(stripe.clone()),
        };
        let turn = nth.map_or(0, |n| n % self.stripes.len());
        let (before, from) = self.stripes.split_at(turn);
        let round = from.iter().chain(before).map(with);
        let unstriped = nth.is_none().then(|| plain(base));
        unstriped
            .into_iter()
            .chain(round)
            .filter(|c| self.may(c))
            .collect()
    }

    /// What a switched wire may have: its base plain, then striped, then the other bases in the same way.
    pub(super) fn switched(&self, base: Option<&str>, nth: usize) -> Vec<Colour> {
        let bases: Vec<&str> = match base {
            Some(base) => std::iter::once(base)
                .chain(self.circuits.iter().map(String::as_str))
                .collect(),
            None => {
                let turn = nth % self.circuits.len();
                let (before, from) = self.circuits.split_at(turn);
                from.iter().chain(before).map(String::as_str).collect()
            }
        };
        let plain = bases.iter().map(|base| plain(base)).filter(|c| self.may(c));
        // A circuit beyond the bases takes its own base again, before it takes another's.
        let (own, others): (Vec<Colour>, Vec<Colour>) = plain.partition(|c| c.base == bases[0]);
        let mut found = own;
        found.extend(self.striped_only(bases[0]));
        found.extend(others);
        for base in &bases[1..] {
            found.extend(self.striped_only(base));
        }
        found
    }

    fn striped_only(&self, base: &str) -> impl Iterator<Item = Colour> {
        let all = self.striped(base, None).into_iter();
        all.filter(|c| c.stripe.is_some())
    }
}

#[test]
fn every_habit_reads_and_keeps_earth_and_supply_to_themselves() {
    let (habits, errors) = read(include_str!("../../tables/colours.toml"));
    assert_eq!(errors, []);
    for (word, _) in plan::Colours::WORDS {
        let h = Habit::of(word);
        let kept = [&h.earth, &h.supply];
        let bases = h
            .circuits
            .iter()
            .chain([&h.coil])
            .chain(&h.motor)
            .chain(&h.lamp);
        for base in bases {
            assert!(!kept.contains(&base), "{word}: {base}");
            let choices = h.switched(Some(base), 3);
            assert!(choices.len() > 4, "{word}: {choices:?}");
        }
        assert_ne!(h.earth, h.supply);
        assert!(!h.stripes.contains(&h.earth), "{word}: stripes of earth");
        for never in [
            format!("{}/{}", h.supply, h.earth),
            format!("{}/{}", h.earth, h.supply),
        ] {
            assert!(
                !h.stripes.contains(&h.supply) || h.never.contains(&never),
                "{word}: {never}"
            );
        }
    }
    assert_eq!(habits.len(), plan::Colours::WORDS.len());
}
