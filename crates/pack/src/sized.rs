//! How the sizes were found, in a sentence or two.

use plan::Aim;
use quantity::figures;
use study::{Insulated, Sizing, Weighed};

/// What the sizes are, and how far they are from the best; and which insulation they are of, where that was left open.
pub(crate) fn says(s: &Sizing) -> String {
    format!("{}{}", sizes(s), insulation(s))
}

/// "Of the insulations in stock cross-linked does best …".
fn insulation(s: &Sizing) -> String {
    let [taken, others @ ..] = s.insulations.as_slice() else {
        return String::new();
    };
    let other = |i: &Insulated| match (i.broken, s.aim) {
        (broken, _) if broken > taken.broken => {
            let more = broken - taken.broken;
            let rules = if more == 1 { "rule" } else { "rules" };
            format!("with {} {more} {rules} more would be broken", i.name)
        }
        (_, Aim::Mass) => format!(
            "{} would weigh {} kg",
            i.name,
            figures(i.weighed.kilograms, 3)
        ),
        (_, Aim::Kinds) => format!("{} would take {} kinds", i.name, i.weighed.kinds),
        (_, Aim::Cost) => format!("{} would come to {}", i.name, figures(i.weighed.money, 3)),
    };
    let others: Vec<String> = others.iter().map(other).collect();
    match others.is_empty() {
        true => format!(" {} is the only insulation of the family.", taken.name),
        false => format!(
            " Insulation of all wires: {}; {}.",
            taken.name,
            others.join(", ")
        ),
    }
}

fn sizes(s: &Sizing) -> String {
    let unit = match s.priced {
        true => "in your stock’s prices",
        false => "by the prices taken for granted below",
    };
    let weighed = |w: &Weighed| {
        format!(
            "{} for wire, ends, fuses and rolls ({unit}), {} kg, {}",
            figures(w.money, 3),
            figures(w.kilograms, 2),
            match w.kinds {
                1 => "1 kind".to_owned(),
                n => format!("{n} kinds by size and colour"),
            }
        )
    };
    let aim = s.aim.words();
    let found = format!(
        "Sizes of wires and fuses for the {aim}: {}.",
        weighed(&s.found)
    );
    let Some(why) = &s.unproved else {
        return format!(
            "{found} Proved: with fuses of these classes, nothing in stock that keeps every rule that can be kept {}. {}",
            match s.aim {
                Aim::Cost => "costs less",
                Aim::Mass => "weighs less",
                Aim::Kinds => "takes fewer kinds, or as many and costs less",
            },
            tried(s)
        );
    };
    if s.bound > 0.0 {
        let off = figures(((1.0 - s.bound) * 100.0).max(0.0), 2);
        return format!(
            "{found} Not proved: at most {off} % is left to gain ({why}). {}",
            tried(s)
        );
    }
    format!("{found} Not proved to be the best: {why}.")
}

fn tried(s: &Sizing) -> String {
    let saved = match s.aim {
        Aim::Cost => part(s.rough.money, s.found.money),
        Aim::Mass => part(s.rough.kilograms, s.found.kilograms),
        Aim::Kinds => None,
    };
    let choices = match s.tried {
        1 => "1 choice was".to_owned(),
        n => format!("{n} choices were"),
    };
    let saved = saved.map(|saved| format!("; wire by wire they would have come to {saved} % more"));
    format!("{choices} tried in full{}.", saved.unwrap_or_default())
}

/// By how many per cent the first is more, if by so many that one would say it.
fn part(more: f64, less: f64) -> Option<String> {
    let percent = (more / less - 1.0) * 100.0;
    (percent >= 0.1).then(|| figures(percent, 2))
}
