//! A day of use that takes more from the battery than may be taken.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use crate::supply::{Day, day_of};
use finding::{Finding, Weight};
use quantity::figures;

pub(super) const ABOUT: About = About {
    id: "day-empties",
    weight: Weight::Mend,
    asks: "Does the battery bear the plan’s day, and what must be left in it?",
    source: "the plan’s `day`, followed with the battery at 25 °C (assumed), at which capacities are told; what must be left as `spurline supply` says",
    find,
};

/// 25 °C, K.
const WARM: f64 = 298.15;

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    if d.habits.day.is_empty() || !d.habits.survey {
        return Vec::new();
    }
    let says = match day_of(d, answers, WARM) {
        Ok(Some((day, least))) => tale(&day, least),
        Ok(None) => None,
        Err(amiss) => Some(format!(
            "the plan’s day can’t be followed: “{}” could not be solved",
            amiss.state
        )),
    };
    let names = [d.loom.parts[0].name.clone()];
    let told = says.map(|says| {
        let mend = "less on while parked, a longer drive, a larger battery, or battery protection for what may go out; `spurline supply` follows the whole day";
        ABOUT.at(names, says, mend)
    });
    told.into_iter().collect()
}

fn tale(day: &Day, least: f64) -> Option<String> {
    let during = |hour: f64| {
        let part = day.parts.iter().find(|p| hour <= p.to_h + 1e-9);
        let what = part.map_or_else(String::new, |p| format!(", in “{}”", p.what));
        format!("after {} h{what}", figures(hour, 3))
    };
    if let Some(hour) = day.flat {
        let when = during(hour);
        return Some(format!(
            "the plan’s day empties the battery: it gives nothing more {when}"
        ));
    }
    let (charge, hour) = day.lowest;
    (charge < least).then(|| {
        format!(
            "the plan’s day takes the battery down to {} % {}; {} % must be left in it",
            figures(charge * 100.0, 2),
            during(hour),
            figures(least * 100.0, 2)
        )
    })
}

#[cfg(test)]
mod tests {
    use stock::Stock;

    /// What is found of the farm with a day of being parked with the rack lamps on.
    fn parked_for(hours: u32) -> Option<String> {
        let stock = Stock::embedded();
        let farm = include_str!("../../../../examples/farm.toml");
        let text = format!(
            "{farm}\n[[day]]\nwhat = \"parked\"\nsupply = \"parked\"\nhours = \"{hours} h\"\non = [\"rack lamps\"]\n"
        );
        let (plan, errors) = plan::Plan::read(&text);
        let plan = plan.unwrap_or_else(|| panic!("{errors:?}"));
        let (loom, _) = loom::build(&plan, &stock);
        let loom = loom.expect("the example builds");
        let habits = crate::Habits::of(&plan, &loom, &stock).quick();
        let answers = crate::study(&loom, &stock, &habits);
        let found = answers.findings.into_iter().find(|f| f.id == "day-empties");
        found.map(|f| f.says)
    }

    #[test]
    fn a_day_is_borne_or_told() {
        assert_eq!(parked_for(1), None);
        let below = parked_for(4).expect("the lamps take a third of the battery");
        assert!(below.contains("must be left"), "{below}");
        let long = parked_for(200).expect("nothing is left");
        assert!(long.contains("empties the battery"), "{long}");
    }
}
