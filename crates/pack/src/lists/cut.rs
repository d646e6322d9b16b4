//! Each wire with its length, and each of its ends with what goes on it.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Section, Table};
use crate::report::Subject;
use crate::tables::columns;
use quantity::{Quantity, figures};
use study::{Cover, Lists, WireEnd};

/// What the pull is for.
const PULL: &str = "Crimp one of each kind first and pull it: a sound crimp stands the pull of its column for a minute \
(UL 486A, as makers' data sheets print it; some rows from memory, as the stock list says). No strand is cut, and none is tinned \
before it is crimped. Strip lengths are those of the class, from memory: the sheet of the terminal that you buy wins.";

/// What shrink is for.
const SHRINK: &str = "Shrink marked “first” goes onto the wire before the crimp: afterwards it does not pass the terminal. \
It is shrunk last, adhesive-lined until adhesive shows at both ends. At a splice the wires come in from both sides, as evenly thick as can be, and one piece covers it.";

pub(super) fn wires(s: &Subject, l: &Lists) -> Section {
    let p = &s.loom.palette;
    let colours = format!(
        "Colours, {} habit: {}. On the word of {}.",
        p.habit, p.says, p.source
    );
    let set: Vec<&str> = s
        .loom
        .wires
        .iter()
        .filter(|w| w.set.length)
        .map(|w| w.name.as_str())
        .collect();
    let by_hand = match set.is_empty() {
        true => String::new(),
        false => format!(
            " Cut as the plan sets it, not by its way: {}.",
            set.join(", ")
        ),
    };
    let labels = "A label sleeve near each end says the wire and the pin that the end goes to, as the next table has it; a long wire has more between, a short one has one (AC 43.13-1B 11-208). \
Label sleeves, boots and a sleeve of a wire’s own go on before its second end is crimped. Lengths that the plan does not say are assumed, and stand among the findings; a place has no size here, so measure before you cut what stays within one.";
    Section {
        id: "cut",
        title: "To cut".into(),
        blocks: vec![
            Block::Text(colours),
            Block::Table(wire_table(s, l)),
            Block::Text(format!("{labels}{by_hand}")),
        ],
    }
}

pub(super) fn wire_table(s: &Subject, l: &Lists) -> Table {
    let rows = s.loom.wires.iter().zip(&l.labels).enumerate();
    let rows = rows.map(|(i, (w, labels))| {
        let c = &s.stock.conductors[s.answers.choice.wires[i]];
        vec![
            w.name.clone(),
            c.id.clone(),
            w.colour.to_string(),
            format!("{:.2}", w.cut.si()),
            s.loom.pin_name(w.from),
            s.loom.pin_name(w.to),
            labels.to_string(),
        ]
    });
    Table {
        columns: columns(&[
            ("wire", L),
            ("kind", L),
            ("colour", L),
            ("cut, m", R),
            ("from", L),
            ("to", L),
            ("labels", R),
        ]),
        rows: rows.collect(),
    }
}

pub(super) fn ends(s: &Subject, l: &Lists) -> Section {
    let [least, small] = study::insulation_gap(quantity::Area::from_si(0.5e-6));
    let [_, large] = study::insulation_gap(quantity::Area::from_si(1e-6));
    let mm = |l: quantity::Length| figures(l.si() * 1e3, 3);
    let gap = format!(
        "Between the insulation and the conductor’s crimp {} to {} mm stay bare, to {} mm on wires larger than 20 AWG (NASA-STD-8739.4, for crimped contacts).",
        mm(least),
        mm(small),
        mm(large)
    );
    Section {
        id: "ends",
        title: "What goes on each end".into(),
        blocks: vec![
            Block::Text(format!("{PULL} {gap} {SHRINK}")),
            Block::Table(end_table(s, l)),
        ],
    }
}

pub(super) fn end_table(s: &Subject, l: &Lists) -> Table {
    let mut rows = Vec::new();
    for (w, ends) in s.loom.wires.iter().zip(&l.fit.ends) {
        for end in ends {
            rows.push(end_row(s, l, (&w.name, end)));
        }
    }
    rows.extend(l.fit.plugs.iter().flat_map(|plug| own_leads(s, l, plug)));
    Table {
        columns: columns(&[
            ("label", L),
            ("strip, mm", R),
            ("gets", L),
            ("pull, N", R),
            ("shrink", L),
        ]),
        rows,
    }
}

fn end_row(s: &Subject, l: &Lists, (wire, end): (&str, &WireEnd)) -> Vec<String> {
    let strip = end
        .strip
        .map_or_else(String::new, |m| figures(m.si() * 1e3, 3));
    let pull = end.pull.map_or_else(String::new, |n| format!("{n:.0}"));
    vec![
        study::label_words(s.loom, wire, end.pin),
        strip,
        study::end_words(s.stock, &l.fit, s.loom, end),
        pull,
        end.cover
            .as_ref()
            .map_or_else(String::new, |c| shrink(s, c)),
    ]
}

/// The leads of loads that are plugged: what goes on them, whose thickness nobody has measured yet.
fn own_leads(s: &Subject, l: &Lists, plug: &study::Plug) -> Vec<Vec<String>> {
    let name = &s.loom.part(plug.part).name;
    let class = l.fit.class(s.stock, plug.part);
    let mut rows = Vec::new();
    for way in study::ways(s.loom, plug) {
        let (Some(part), Some(class)) = (way.own, class) else {
            continue;
        };
        let half = if way.live.is_empty() { "socket" } else { "pin" };
        let seal = if class.sealed {
            ", seal by its outside diameter"
        } else {
            ""
        };
        let strip = class
            .strip
            .map_or_else(String::new, |m| figures(m.si() * 1e3, 3));
        rows.push(vec![
            format!(
                "{}’s own lead, {name}:{}",
                s.loom.part(part).name,
                way.number
            ),
            strip,
            format!("{half} contact{seal}: measure the lead"),
            String::new(),
            String::new(),
        ]);
    }
    rows
}

fn shrink(s: &Subject, c: &Cover) -> String {
    let what = match &c.sleeve {
        Ok(sleeve) => s.stock.sleeves[*sleeve].name.clone(),
        Err(what) => format!("not in stock: {what}"),
    };
    let first = if c.before { ", first" } else { "" };
    format!("{what}, {}{first}", c.cut.show())
}
