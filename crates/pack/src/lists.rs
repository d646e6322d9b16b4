//! What to buy and what to cut: tables for every face, and the same as comma-separated files.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Content, Section, Table};
use crate::report::{self, Subject};
use crate::tables::columns;
use loom::WireId;
use quantity::{Quantity, figures};
use study::{Amount, Buy, Lists, WireEnd};

/// What the pull is for.
const PULL: &str = "Crimp one of each kind first and pull it: a sound crimp stands the pull of its column for a minute \
(UL 486A, as makers' data sheets print it; `spurline stock pull` says which rows were read). A wire that is stripped for \
a contact is stripped as that contact's maker says.";

/// What is not on the lists.
const NOT_LISTED: &str = "Not on these lists: shrink sleeve (over the crimp of every bare terminal, adhesive-lined where it is \
wet), boots, ties, clamps, tape, labels, screws and washers.";

/// All lists.
pub fn lists(s: &Subject, l: &Lists) -> Content {
    let mut sections = Vec::new();
    let missing = l.fit.missing(s.loom);
    if !missing.is_empty() {
        let line = |(what, names): (String, Vec<String>)| format!("{what}: {}", names.join(", "));
        let lines = Block::List(missing.into_iter().map(line).collect());
        sections.push(Section::of(
            "missing",
            "Not in stock: look for these",
            lines,
        ));
    }
    let mut to_buy = Section::of("buy", "To buy", Block::Table(buy(l)));
    to_buy.blocks.extend(total(&l.buy).map(Block::Text));
    sections.push(to_buy);
    let mut to_cut = Section::of("cut", "To cut", Block::Text(PULL.into()));
    to_cut.blocks.push(Block::Table(cut(s, l)));
    sections.push(to_cut);
    sections.extend(studs(s, l));
    sections.extend(plugs(s, l));
    sections.push(rolls(s, l));
    let taken = l.allowed.iter().chain(&l.fit.assumed).cloned().collect();
    let mut granted = Section::of("taken", "Taken for granted", Block::List(taken));
    granted.blocks.push(Block::Text(NOT_LISTED.into()));
    sections.push(granted);
    sections.push(report::cautions());
    s.content(Some("what to buy and cut"), sections)
}

/// The tables as comma-separated files: name and text.
///
/// # Errors
/// What the writer says, which writes to memory only.
pub fn lists_csv(s: &Subject, l: &Lists) -> Result<Vec<(&'static str, Vec<u8>)>, csv::Error> {
    Ok(vec![
        ("buy.csv", comma_separated(&buy(l))?),
        ("cut.csv", comma_separated(&cut(s, l))?),
    ])
}

fn comma_separated(t: &Table) -> Result<Vec<u8>, csv::Error> {
    let mut out = csv::Writer::from_writer(Vec::new());
    out.write_record(t.columns.iter().map(|c| c.title.as_ref()))?;
    for row in &t.rows {
        out.write_record(row)?;
    }
    out.into_inner().map_err(|e| e.into_error().into())
}

fn buy(l: &Lists) -> Table {
    let row = |b: &Buy| {
        let (amount, unit) = match b.amount {
            Amount::Metres(m) => (format!("{m:.1}"), "m"),
            Amount::Pieces(n) => (n.to_string(), "pieces"),
        };
        let price = b.price.map_or_else(String::new, |p| format!("{p:.2}"));
        vec![
            b.what.clone(),
            b.group.to_owned(),
            amount,
            unit.to_owned(),
            price,
            b.used_by.join(", "),
        ]
    };
    Table {
        columns: columns(&[
            ("what", L),
            ("kind", L),
            ("amount", R),
            ("unit", L),
            ("price", R),
            ("for", L),
        ]),
        rows: l.buy.iter().map(row).collect(),
    }
}

/// What all that has a price costs, and how much has none.
fn total(rows: &[Buy]) -> Option<String> {
    let priced: Vec<f64> = rows.iter().filter_map(|b| b.price).collect();
    if priced.is_empty() {
        return None;
    }
    let sum: f64 = priced.iter().sum();
    Some(format!(
        "Together {sum:.2}, in the money of your stock file, for {} of {} rows; the others have no price there.",
        priced.len(),
        rows.len()
    ))
}

fn cut(s: &Subject, l: &Lists) -> Table {
    let rows = s.loom.wires.iter().zip(&l.fit.ends).enumerate();
    let rows = rows.map(|(i, (w, ends))| {
        let c = &s.stock.conductors[s.answers.choice.wires[i]];
        let mut row = vec![
            w.name.clone(),
            c.id.clone(),
            w.colour.to_string(),
            format!("{:.2}", w.cut.si()),
        ];
        for end in ends {
            row.extend(end_cells(s, l, end));
        }
        row
    });
    Table {
        columns: columns(&[
            ("wire", L),
            ("kind", L),
            ("colour", L),
            ("cut, m", R),
            ("one end at", L),
            ("strip, mm", R),
            ("gets", L),
            ("pull, N", R),
            ("other end at", L),
            ("strip, mm", R),
            ("gets", L),
            ("pull, N", R),
        ]),
        rows: rows.collect(),
    }
}

/// What lies on each stud.
fn studs(s: &Subject, l: &Lists) -> Option<Section> {
    let rows = l.studs.iter().map(|stud| {
        let part = s.loom.part_of(stud.pin);
        let torque = stud.torque.map(|t| &s.stock.torques[t]);
        let range = torque.map_or_else(
            || "as its own sheet says".to_owned(),
            |t| match t.least == t.most {
                true => figures(t.least, 3),
                false => format!("{} to {}", figures(t.least, 3), figures(t.most, 3)),
            },
        );
        let names = stud.rings.iter().map(|w| s.loom.wire(*w).name.as_str());
        vec![
            format!("{} ({})", s.loom.pin_name(stud.pin), part.label),
            stud.stud.clone(),
            names.collect::<Vec<_>>().join(", "),
            range,
            torque.map_or_else(String::new, |t| t.origin.to_string()),
        ]
    });
    let table = Table {
        columns: columns(&[
            ("stud", L),
            ("thread", L),
            ("rings, from the metal up", L),
            ("N·m", R),
            ("on whose word", L),
        ]),
        rows: rows.collect(),
    };
    let crowded = l.studs.iter().filter(|s| s.rings.len() > study::MOST_RINGS);
    let crowded: Vec<String> = crowded.map(|stud| s.loom.pin_name(stud.pin)).collect();
    let mut says = format!(
        "The ring that carries most lies against the metal, the others on it, {} on one stud at most; washer and nut above them, and nothing between the rings (common practice, no source). The part’s own sheet wins over these torques.",
        study::MOST_RINGS
    );
    if !crowded.is_empty() {
        says += &format!(
            " Too many for one stud: {}. Put a bus bar beside it.",
            crowded.join(", ")
        );
    }
    (!l.studs.is_empty()).then(|| Section {
        id: "studs",
        title: "On which stud, in which order".into(),
        blocks: vec![Block::Text(says), Block::Table(table)],
    })
}

/// Which wire goes into which way of each connector.
fn plugs(s: &Subject, l: &Lists) -> Option<Section> {
    let mut rows = Vec::new();
    for plug in &l.fit.plugs {
        let part = s.loom.part(plug.part);
        let names = |wires: &[WireId], none: &str| match wires {
            [] => none.to_owned(),
            _ => {
                let names = wires.iter().map(|w| s.loom.wire(*w).name.as_str());
                names.collect::<Vec<_>>().join(", ")
            }
        };
        let sealed = matches!(&plug.class, Ok((c, _)) if s.stock.connectors[*c].sealed);
        for way in study::ways(s.loom, plug) {
            let blank = if sealed {
                "empty: blanking plug"
            } else {
                "empty"
            };
            let used = way.number <= plug.used;
            rows.push(vec![
                format!("{} ({})", part.name, part.label),
                way.number.to_string(),
                names(&way.live, if used { "its own lead" } else { blank }),
                names(&way.far, if used { "its own lead" } else { blank }),
            ]);
        }
    }
    let says = "The half towards the source carries the shrouded socket contacts: when it is unplugged it may be live, and nothing can touch it. The other half carries the pins.";
    let table = Table {
        columns: columns(&[
            ("connector", L),
            ("way", R),
            ("source half, sockets", L),
            ("far half, pins", L),
        ]),
        rows,
    };
    (!l.fit.plugs.is_empty()).then(|| Section {
        id: "ways",
        title: "Which wire in which way".into(),
        blocks: vec![Block::Text(says.into()), Block::Table(table)],
    })
}

/// From which rolls the wires are cut.
fn rolls(s: &Subject, l: &Lists) -> Section {
    let cut = |w: &WireId| {
        let w = s.loom.wire(*w);
        (w.name.as_str(), w.cut.si())
    };
    let mut rows = Vec::new();
    for kind in &l.rolls {
        for (n, roll) in kind.rolls.iter().enumerate() {
            let pieces: Vec<(&str, f64)> = roll.iter().map(cut).collect();
            let used: f64 = pieces.iter().map(|p| p.1).sum();
            let pieces = pieces.iter().map(|(name, m)| format!("{name} {m:.2}"));
            rows.push(vec![
                kind.what.clone(),
                format!("{} of {} m", n + 1, figures(kind.metres, 3)),
                pieces.collect::<Vec<_>>().join(", "),
                format!("{:.2}", kind.metres - used),
            ]);
        }
    }
    let open: usize = l.rolls.iter().map(|k| k.rolls.len() - k.least).sum();
    let says = match open {
        0 => "Of each kind and colour these are the fewest rolls of their length that hold every piece: proved.".to_owned(),
        n => format!("{n} fewer rolls may do: that these are the fewest is not proved."),
    };
    let mut blocks = vec![Block::Text(says)];
    if !l.too_long.is_empty() {
        let names: Vec<&str> = l.too_long.iter().map(|w| cut(w).0).collect();
        blocks.push(Block::Text(format!(
            "Longer than any roll: {}.",
            names.join(", ")
        )));
    }
    blocks.push(Block::Table(Table {
        columns: columns(&[("kind", L), ("roll", L), ("pieces, m", L), ("left, m", R)]),
        rows,
    }));
    Section {
        id: "rolls",
        title: "From which roll".into(),
        blocks,
    }
}

fn end_cells(s: &Subject, l: &Lists, end: &WireEnd) -> [String; 4] {
    let strip = end
        .strip
        .map_or_else(String::new, |m| figures(m.si() * 1e3, 3));
    let gets = study::end_words(s.stock, &l.fit, s.loom, end);
    let pull = end.pull.map_or_else(String::new, |n| format!("{n:.0}"));
    [s.loom.pin_name(end.pin), strip, gets, pull]
}
