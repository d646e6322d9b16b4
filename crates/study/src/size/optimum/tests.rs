//! Every choice of small looms, tried in the full model.

use super::price::Prices;
use super::{best, cuts, options, rows};
use crate::design::{Choice, Design, FuseChoice, Habits};
use crate::settle::Settled;
use crate::size::{as_load, rough, settle_all};
use crate::state::State;
use crate::{combine, switchgear};
use loom::{Loom, PartId, WireId};
use plan::{Aim, Plan};
use quantity::Quantity;
use rayon::prelude::*;
use stock::Stock;

/// How many looms are tried.
const LOOMS: u64 = 200;

/// Numbers that look like chance and are the same each time.
pub(super) struct Dice(pub u64);

impl Dice {
    /// The next, below `n`.
    pub fn roll(&mut self, n: u64) -> u64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % n
    }

    fn one<'a, T>(&mut self, of: &'a [T]) -> &'a T {
        &of[self.roll(of.len() as u64) as usize]
    }

    /// Between two figures, in hundredths of the way.
    pub fn between(&mut self, from: f64, to: f64) -> f64 {
        from + (to - from) * self.roll(101) as f64 / 100.0
    }
}

/// A plan that nobody would draw, all of whose rules bind now and then: long ways, hot places, little drop.
fn plan_text(seed: u64) -> String {
    let mut dice = Dice(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) + 1);
    let series = ["0.75", "1", "1.5", "2.5", "4", "6", "10"];
    let from = dice.roll(3) as usize;
    let sizes: Vec<String> = series[from..from + 2 + dice.roll(3) as usize]
        .iter()
        .map(|s| format!("\"{s} mm²\""))
        .collect();
    let aim = dice.one(&["least cost", "least cost", "least mass", "fewest kinds"]);
    let insulation = dice.one(&["PVC", "cross-linked"]);
    let heat = dice.between(35.0, 75.0);
    let mut text = format!(
        "[job]\ntitle = \"dice {seed}\"\naim = \"{aim}\"\ninsulation = \"{insulation}\"\nsizes = [{}]\n\
         [supply]\nsystem = \"12 V\"\n\
         battery = {{ chemistry = \"flooded\", capacity = \"70 Ah\", cranking = \"600 A\", place = \"tray\" }}\n\
         [place]\n\"tray\" = {{ zone = \"engine bay\", heat = \"{heat:.0} °C\" }}\n\
         \"dash\" = {{ zone = \"cabin\", heat = \"45 °C\" }}\n\"rear\" = {{ zone = \"outside\", heat = \"45 °C\" }}\n",
        sizes.join(", "),
    );
    for (a, b) in [("tray", "dash"), ("dash", "rear")] {
        let metres = dice.between(0.4, 4.0);
        text += &format!("[[stretch]]\nbetween = [\"{a}\", \"{b}\"]\nlength = \"{metres:.2} m\"\n");
    }
    let boxed = dice.roll(3) == 0;
    if boxed {
        text += "[[box]]\nname = \"box\"\nplace = \"tray\"\nways = 2\nfeed = \"battery\"\n";
    }
    for i in 0..=dice.roll(2) {
        let watts = dice.between(15.0, 110.0);
        let load = match dice.roll(4) {
            0 => format!("lamp = \"tungsten\", rated = \"{watts:.0} W\""),
            1 => format!("lamp = \"LED\", rated = \"{watts:.0} W\""),
            2 => format!("heater = \"pad\", rated = \"{watts:.0} W\""),
            _ => format!("motor = \"fan\", rated = \"{:.1} A\"", watts / 12.0),
        };
        let place = dice.one(&["dash", "rear"]);
        let feed = if boxed {
            "box = \"box\""
        } else {
            "feed = \"battery\""
        };
        let drop = dice.between(2.0, 7.0);
        let unplug = ["", ", unplug = true"][usize::from(dice.roll(3) == 0)];
        text += &format!(
            "[[circuit]]\nname = \"c{i}\"\nload = [{{ {load}, place = \"{place}\"{unplug} }}]\n{feed}\n\
             switch = {{ place = \"dash\" }}\nearth = \"{place}\"\ndrop = \"{drop:.1} %\"\n"
        );
    }
    text
}

/// The fuses to try: those that the rough search took, the smallest that bear the load. A larger one would lose less, and
/// is not chosen for that.
fn fuses(d: &Design) -> Vec<(PartId, Vec<FuseChoice>)> {
    let held = d.choice.fuses.iter().enumerate();
    let held = held.filter_map(|(p, held)| Some((PartId(p as u32), (*held)?)));
    held.map(|(part, held)| (part, vec![held])).collect()
}

/// What a choice is worth to the aim: what is sought first, and then.
fn worth(prices: &Prices, aim: Aim, choice: &Choice) -> (f64, f64) {
    let w = prices.weigh(choice);
    let all = choice.wires.iter().enumerate();
    let wires: f64 = all.map(|(w, c)| prices.wire(WireId(w as u32), *c)).sum();
    let fuses: f64 = choice.fuses.iter().flatten().map(|f| prices.fuse(*f)).sum();
    match aim {
        Aim::Cost => (wires + fuses + prices.kind() * w.kinds as f64, 0.0),
        Aim::Mass => (wires + fuses, 0.0),
        Aim::Kinds => (w.kinds as f64, wires + fuses),
    }
}

/// Whether everything holds with a choice, all settled anew.
fn holds(d: &mut Design, states: &[State], choice: &Choice, before: &[Settled]) -> bool {
    d.choice = choice.clone();
    let mut settled = settle_all(d, states, Some(before));
    let switches = d.choice.switches.clone();
    switchgear::choose(d, &settled);
    if d.choice.switches != switches {
        settled = settle_all(d, states, Some(&settled));
    }
    let nothing = options::Options {
        hopeless: vec![Vec::new(); d.loom.wires.len()],
        wires: d.candidates.clone(),
        fuses: fuses(d)
            .into_iter()
            .map(|(p, _)| (p, rising(d, p)))
            .collect(),
        needs: Vec::new(),
        plugs: Vec::new(),
    };
    let parts: Vec<PartId> = d.loom.each_part().map(|(id, _)| id).collect();
    let can_break = |p: &PartId| {
        d.fuse(*p).is_none_or(|(kind, _)| {
            crate::fuse::prospective(d, *p) <= kind.breaking.si() * (1.0 + 1e-6)
        })
    };
    if !parts.iter().all(can_break) {
        return false;
    }
    if !plugs_close(d, &settled) {
        return false;
    }
    let loads = d.loom.circuits.iter().flat_map(|c| &c.loads);
    let limit = |l: &PartId| as_load(d, *l).expect("a load").drop.si() * d.nominal();
    let ask = |l: &PartId| rows::Ask {
        copper: false,
        volts: limit(l),
    };
    let asks: Vec<(PartId, rows::Ask)> = loads.map(|l| (*l, ask(l))).collect();
    cuts::broken(d, &settled, &nothing, &asks).is_empty()
}

/// Whether every connector is of a class that takes all its wires and bears what they carry; nothing is asked where no
/// class takes anything that they may be.
fn plugs_close(d: &Design, settled: &[Settled]) -> bool {
    let connectors = d.loom.each_part();
    let mut connectors =
        connectors.filter(|(_, p)| matches!(p.kind, loom::PartKind::Connector { .. }));
    connectors.all(|(id, _)| {
        let wires = crate::fit::plug_wires(d.loom, id);
        let takes = |class: &stock::Connector, w: &WireId, c: usize| {
            let at = w.0 as usize;
            let amps = settled.iter().map(|s| s.wire_amps[at].abs());
            let c = &d.stock.conductors[c];
            class.takes(c) && d.stock.contact_bears(class, c.area).si() >= amps.fold(0.0, f64::max)
        };
        let mut hope = false;
        for (_, class) in crate::fit::classes(d.loom, d.stock, id) {
            let may = |w: &WireId| {
                let mut list = d.candidates[w.0 as usize].iter();
                list.any(|c| takes(class, w, *c))
            };
            hope |= wires.iter().all(may);
            let now = |w: &WireId| takes(class, w, d.choice.wires[w.0 as usize]);
            if wires.iter().all(now) {
                return true;
            }
        }
        !hope
    })
}

/// All ratings of the class that a position has, the largest first.
fn rising(d: &Design, part: PartId) -> Vec<FuseChoice> {
    let held = d.choice.fuses[part.0 as usize].expect("a fuse");
    let ratings = 0..d.stock.fuses[held.kind].ratings.len();
    let of = |rating| FuseChoice {
        kind: held.kind,
        rating,
    };
    ratings.rev().map(of).collect()
}

/// All choices, the best first.
fn all(d: &Design, prices: &Prices, start: &Choice) -> Vec<((f64, f64), Choice)> {
    let mut choices = vec![start.clone()];
    for (w, list) in d.candidates.iter().enumerate() {
        choices = choices
            .into_iter()
            .flat_map(|c| {
                list.iter().map(move |k| {
                    let mut c = c.clone();
                    c.wires[w] = *k;
                    c
                })
            })
            .collect();
    }
    for (part, held) in fuses(d) {
        choices = choices
            .into_iter()
            .flat_map(|c| {
                held.clone().into_iter().map(move |f| {
                    let mut c = c.clone();
                    c.fuses[part.0 as usize] = Some(f);
                    c
                })
            })
            .collect();
    }
    let aim = d.habits.aim;
    let mut all: Vec<_> = choices
        .into_iter()
        .map(|c| (worth(prices, aim, &c), c))
        .collect();
    all.sort_by(|a, b| a.0.0.total_cmp(&b.0.0).then(a.0.1.total_cmp(&b.0.1)));
    all
}

/// Most choices of a loom: more would take too long.
const MOST: usize = 1_500;

/// What comparing a loom gave.
#[derive(Debug, PartialEq)]
enum Compared {
    /// Too many choices, or rules that none keeps.
    Left,
    Same,
    /// In words.
    Other(String),
}

fn compare(seed: u64, stock: &Stock) -> Compared {
    let text = plan_text(seed);
    let (plan, errors) = Plan::read(&text);
    let plan = plan.unwrap_or_else(|| panic!("{errors:?}\n{text}"));
    let loom: Loom = loom::build(&plan, stock).0.expect("a loom");
    let habits = Habits::of(&plan, &loom, stock);
    let states = combine::to_size(&loom);
    let mut d = Design::new(&loom, stock, &habits);
    let wires: usize = d.candidates.iter().map(Vec::len).product();
    let first = rough(&mut d, &states);
    let count = fuses(&d).iter().fold(wires, |n, (_, held)| n * held.len());
    if count > MOST {
        return Compared::Left;
    }
    let start = d.choice.clone();
    let (_, sizing) = best(&mut d, &states, first.clone(), &mut 20_000);
    let prices = Prices::new(&d);
    let chosen = (worth(&prices, habits.aim, &d.choice), d.choice.clone());
    let mut tried = all(&d, &prices, &start).into_iter();
    let Some((least, choice)) = tried.find(|(_, c)| holds(&mut d, &states, c, &first)) else {
        return Compared::Left;
    };
    if !sizing.proved() {
        return Compared::Other(format!("{seed}: not proved: {sizing:?}"));
    }
    let near = |a: f64, b: f64| (a - b).abs() <= 1e-6 * a.abs().max(1.0);
    if near(least.0, chosen.0.0) && near(least.1, chosen.0.1) {
        return Compared::Same;
    }
    let words = |c: &Choice| -> Vec<String> {
        let ids = c.wires.iter().zip(&loom.wires);
        ids.map(|(c, w)| format!("{} {}", w.name, stock.conductors[*c].id))
            .collect()
    };
    Compared::Other(format!(
        "{seed}: best {least:?} {:?} {:?}, found {:?} {:?} {:?}",
        words(&choice),
        choice.fuses,
        chosen.0,
        words(&chosen.1),
        chosen.1.fuses
    ))
}

/// The cheapest choice that holds in the full model is the one that is found: every choice of 200 looms tried, the
/// cheapest first. The looms are invented; what they are compared with is the full model itself.
#[test]
fn no_choice_of_small_looms_that_holds_is_better() {
    let stock = Stock::embedded();
    // Many are left: so more are drawn.
    let compared: Vec<Compared> = (0..6 * LOOMS)
        .into_par_iter()
        .map(|s| compare(s, &stock))
        .collect();
    let other: Vec<&Compared> = compared
        .iter()
        .filter(|c| matches!(c, Compared::Other(_)))
        .collect();
    let same = compared.iter().filter(|c| **c == Compared::Same).count();
    assert!(
        other.is_empty(),
        "{} others beside {same}: {other:#?}",
        other.len()
    );
    assert!(same as u64 >= LOOMS, "{same} only");
}
