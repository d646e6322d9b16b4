//! How a circuit is switched: one choice for a person, several keys in a plan.

use super::{value, walk};
use crate::{EditError, Editor, Node, Written};

/// How a circuit is turned on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum How {
    /// A small switch works a relay.
    Relay,
    /// A switch carries the whole current.
    Switch,
    /// It is live always.
    Always,
    /// It is live with the ignition.
    Ignition,
    /// A signal of the vehicle's turns it on, through a relay.
    Signal,
}

impl How {
    /// Each with its word, and what it is in a phrase.
    pub const WORDS: [(&'static str, &'static str, Self); 5] = [
        ("relay", "by a small switch that works a relay", Self::Relay),
        (
            "switch",
            "by a switch that carries the whole current",
            Self::Switch,
        ),
        ("always", "not at all: it is live always", Self::Always),
        ("ignition", "with the ignition", Self::Ignition),
        (
            "signal",
            "by a signal of the vehicle’s, through a relay",
            Self::Signal,
        ),
    ];

    /// What a circuit's keys say.
    pub fn of(circuit: &Node) -> Self {
        let has = |key: &str| circuit.get(key).is_some();
        let live = circuit.get("live").and_then(|(n, _)| n.typed());
        match live.as_deref() {
            Some("ignition") => Self::Ignition,
            Some(_) => Self::Always,
            None if has("trigger") => Self::Signal,
            None if has("relay") => Self::Relay,
            None => Self::Switch,
        }
    }

    /// Its word.
    pub fn word(self) -> &'static str {
        let found = Self::WORDS.iter().find(|(.., how)| *how == self);
        found.map_or("switch", |(word, ..)| word)
    }
}

/// Where a relay, switch or cut-out of a circuit most likely goes; the battery's place for anything else.
pub(super) fn likely_place(written: &Written, path: &str) -> String {
    let said = |path: &str| walk::at(written, path).and_then(Node::typed);
    let battery = || said("supply.battery.place").unwrap_or_default();
    let (circuit, part) = path.rsplit_once('.').unwrap_or((path, ""));
    let of_box = || {
        let name = said(&format!("{circuit}.box"))?;
        said(&format!("{}.place", crate::edit::entry("box", &name)))
    };
    match part {
        "switch" | "isolator" => {
            let of_others = || {
                let circuits = written.top().entries("", "circuit");
                circuits
                    .iter()
                    .find_map(|c| said(&format!("{}.switch.place", c.path)))
            };
            let in_the_cabin = || {
                let places = written.top().named("place");
                let cabin = |n: &Node| {
                    n.get("zone").and_then(|(z, _)| z.typed()).as_deref() == Some("cabin")
                };
                places
                    .iter()
                    .find(|p| cabin(p.node))
                    .and_then(|p| p.name.map(str::to_owned))
            };
            of_others().or_else(in_the_cabin).unwrap_or_else(battery)
        }
        "relay" => of_box().unwrap_or_else(battery),
        _ => battery(),
    }
}

/// Something that is live with the key, if the plan names none yet: where a switch would be, until somebody says otherwise.
fn tap(editor: &mut Editor, written: &Written) -> Result<(), EditError> {
    let feeds = written.top().entries("", "feed");
    let is_tap =
        |n: &Node| n.get("kind").and_then(|(k, _)| k.typed()).as_deref() == Some("ignition tap");
    if feeds.iter().any(|f| is_tap(f.node)) {
        return Ok(());
    }
    let place = value::text(&likely_place(written, "circuit.switch"));
    editor.add(
        "feed",
        &format!("name = \"live with the key\"\nkind = \"ignition tap\"\nplace = {place}   # where is it? which fuse is before it: fused = \"…\"\n"),
    )
}

/// Switches a circuit another way: what the new way does not know goes, what it needs comes.
pub(super) fn turn(
    editor: &mut Editor,
    written: &Written,
    circuit: &str,
    how: How,
) -> Result<(), EditError> {
    let node =
        walk::at(written, circuit).ok_or_else(|| EditError::NoSuchPlace(format!("“{circuit}”")))?;
    let has = |key: &str| node.get(key).is_some();
    let gone: &[&str] = match how {
        How::Relay => &["live", "trigger"],
        How::Switch => &["live", "trigger", "relay", "only", "unless", "control"],
        How::Always => &["switch", "trigger", "relay", "only", "unless", "control"],
        How::Ignition => &["switch", "trigger"],
        How::Signal => &["switch", "live"],
    };
    for key in gone.iter().filter(|k| has(k)) {
        editor.remove(&format!("{circuit}.{key}"))?;
    }
    let mut need = |key: &str| match has(key) {
        true => Ok(()),
        false => {
            let path = format!("{circuit}.{key}");
            let place = value::text(&likely_place(written, &path));
            editor.set(&path, &format!("{{ place = {place} }}"))
        }
    };
    if matches!(how, How::Relay | How::Ignition | How::Signal) {
        need("relay")?;
    }
    if matches!(how, How::Relay | How::Switch) {
        need("switch")?;
    }
    match how {
        How::Always => editor.set(&format!("{circuit}.live"), "\"always\"")?,
        How::Ignition => {
            editor.set(&format!("{circuit}.live"), "\"ignition\"")?;
            tap(editor, written)?;
        }
        How::Signal if !has("trigger") => {
            let signals = written.top().entries("", "signal");
            let first = signals
                .iter()
                .find_map(|s| s.name)
                .unwrap_or("which signal?");
            editor.set(&format!("{circuit}.trigger"), &value::text(first))?;
        }
        How::Switch => {
            for key in ["breaks", "auto"] {
                if node
                    .get("switch")
                    .is_some_and(|(s, _)| s.get(key).is_some())
                {
                    editor.remove(&format!("{circuit}.switch.{key}"))?;
                }
            }
        }
        _ => {}
    }
    Ok(())
}
