//! A probing in words: what is switched on, where the tips go, what is read, and between what a reading lies.

use loom::{Loom, PartId, PartKind, PinId};
use quantity::figures;
use study::SupplyState;
use study::prove::{Bench, Probe};

/// Words with a capital to begin with.
pub fn capital(words: &str) -> String {
    let mut chars = words.chars();
    chars.next().map_or_else(String::new, |c| {
        c.to_uppercase().collect::<String>() + chars.as_str()
    })
}

/// What is done for a probing, in a sentence.
pub fn words(bench: &Bench, test: usize) -> String {
    let t = bench.tests[test];
    format!(
        "#{} in “{}”: {}",
        test + 1,
        setting_words(bench, t.setting),
        probe_words(bench.loom(), t.probe)
    )
}

/// What a setting is, to whoever brings it about: nobody measures while driving.
pub fn setting_words(bench: &Bench, setting: usize) -> String {
    let state = &bench.settings[setting].state;
    match state.supply {
        SupplyState::Driving => format!("{}: the engine fast, the vehicle standing", state.name),
        SupplyState::Idling => format!("{}: the engine idling", state.name),
        SupplyState::KeyOn => format!("{}: the engine off", state.name),
        _ => state.name.clone(),
    }
}

/// Where the tips go, in a phrase.
pub fn probe_words(loom: &Loom, probe: Probe) -> String {
    let at = |id: PartId| {
        format!(
            "{}, {}",
            part_words(loom, id),
            loom.place(loom.part(id).place).name
        )
    };
    match probe {
        Probe::Volts(a, b) if loom.pin(a).part == loom.pin(b).part => {
            let [x, y] = [a, b].map(|p| terminal_words(loom, p));
            let of = loom.pin(a).part;
            match of == PartId(0) {
                true => "volts at the battery’s posts".to_owned(),
                false => format!("volts across {}: red on {x}, black on {y}", at(of)),
            }
        }
        Probe::Volts(a, b) => {
            let [x, y] = [a, b].map(|p| pin_words(loom, p));
            format!("volts: red on {x}, black on {y}")
        }
        Probe::Amps(w) => {
            let w = loom.wire(w);
            let ends = [w.from, w.to].map(|p| {
                let part = loom.part_of(p);
                format!("{} at {}", part.name, loom.place(part.place).name)
            });
            format!("clamp around {}, {}, from {} to {}", w.name, w.colour, ends[0], ends[1])
        }
        Probe::Drain => "the meter in the battery’s negative lead, amperes, after everything has gone to sleep; nothing is switched on with it there".to_owned(),
        Probe::Ohms(p) => format!("battery off, {} out, the loads behind it unplugged: ohms from {} to the battery’s negative post", part_words(loom, loom.pin(p).part), pin_words(loom, p)),
        Probe::NewFuse(f) => format!("a new fuse in {}: does it hold or open?", at(f)),
        Probe::NewFuseAlone(f) => format!("the loads behind it unplugged, a new fuse in {}: does it hold or open?", at(f)),
    }
}

fn part_words(loom: &Loom, id: PartId) -> String {
    let p = loom.part(id);
    match p.label.is_empty() {
        true => p.name.clone(),
        false => format!("{} ({})", p.name, p.label),
    }
}

/// A terminal of a part that is named already.
fn terminal_words(loom: &Loom, pin: PinId) -> String {
    let p = loom.pin(pin);
    match (&loom.part(p.part).kind, p.terminal.as_str()) {
        (PartKind::Fuse(_), "1") => "the side that is fed".to_owned(),
        (PartKind::Fuse(_), _) => "the side of the load".to_owned(),
        (_, terminal) => terminal.to_owned(),
    }
}

/// A terminal with its part and place, as somebody finds it who did not build it.
fn pin_words(loom: &Loom, pin: PinId) -> String {
    let p = loom.pin(pin);
    let part = loom.part(p.part);
    let place = &loom.place(part.place).name;
    let of = part_words(loom, p.part);
    match &part.kind {
        PartKind::Battery { .. } => format!(
            "the battery’s {} post",
            if p.terminal == "30" {
                "positive"
            } else {
                "negative"
            }
        ),
        PartKind::Earth(_) => format!("the ring of {of} itself, {place}"),
        PartKind::Connector { .. } => {
            let way = p.terminal.trim_end_matches('\'');
            let half = match p.terminal.ends_with('\'') {
                true => "from the wire side of the half that is fed by the other",
                false => "from the wire side of the half that feeds",
            };
            format!("way {way} of the plug {of}, {place}, pushed together, {half}")
        }
        _ => format!("{} of {of}, {place}", terminal_words(loom, pin)),
    }
}

/// A reading with its unit: "12.4 V", "holds".
pub fn reading(probe: Probe, value: f64) -> String {
    match probe {
        Probe::Volts(..) => match value.abs() < 1.0 {
            true => format!("{:.0} mV", value * 1e3),
            false => format!("{value:.2} V"),
        },
        Probe::Amps(_) | Probe::Drain => match value.abs() < 0.995 {
            true => format!("{:.0} mA", value * 1e3),
            false => format!("{value:.1} A"),
        },
        Probe::Ohms(_) if value > 1e5 => "open".to_owned(),
        Probe::Ohms(_) => format!("{} Ω", figures(value, 2)),
        Probe::NewFuse(_) | Probe::NewFuseAlone(_) => {
            if value > 0.5 { "holds" } else { "opens" }.to_owned()
        }
    }
}

/// A band: "12.1 to 12.6 V".
pub fn band_words(probe: Probe, low: f64, high: f64) -> String {
    match probe {
        Probe::NewFuse(_) | Probe::NewFuseAlone(_) => {
            match high.is_finite() && high < 0.9 || low < 0.0 {
                true => reading(probe, 0.0),
                false => reading(probe, 1.0),
            }
        }
        _ if !low.is_finite() => format!("less than {}", reading(probe, high)),
        _ if !high.is_finite() => format!("more than {}", reading(probe, low)),
        _ => {
            let (low, high) = (reading(probe, low), reading(probe, high));
            if low == high {
                low
            } else {
                format!("{low} to {high}")
            }
        }
    }
}
