//! What an end gets, as one says it at the bench.

use super::{Fit, Termination, WireEnd};
use finding::joined;
use loom::{Loom, PartKind};
use quantity::{figures, in_mm2};
use stock::{Stock, Terminal};

/// "red insulated receptacle, 6.3 mm, for 0.5 to 1.5 mm²".
pub fn terminal_words(t: &Terminal) -> String {
    let mut words: Vec<&str> = Vec::new();
    words.extend(t.colour.as_deref());
    words.extend(t.sealed.then_some("adhesive-lined"));
    words.push(if t.insulated { "insulated" } else { "bare" });
    words.push(match t.kind.as_str() {
        "tab" => "receptacle",
        "butt" => "butt joint",
        "splice" => "splice band",
        kind => kind,
    });
    let onto = t.stud.clone().or(t.tab_mm.map(|mm| format!("{mm} mm")));
    let onto = onto.map_or_else(String::new, |onto| format!(", {onto}"));
    let area = |a| figures(in_mm2(a), 3);
    let together = if t.kind == "splice" { " together" } else { "" };
    format!(
        "{}{onto}, for {} to {} mm²{together}",
        words.join(" "),
        area(t.wire_min),
        area(t.wire_max)
    )
}

/// The whole of one end.
pub fn end_words(stock: &Stock, fit: &Fit, loom: &Loom, end: &WireEnd) -> String {
    let covered = if end.slip_on {
        ", under a slip-on cover"
    } else {
        ""
    };
    match &end.gets {
        Termination::Terminal(t) => {
            let part = loom.part_of(end.pin);
            let lead = match &part.kind {
                PartKind::Load(_) | PartKind::Signal(_) => format!(
                    "; its other side is for {}’s own lead: measure that, and take a step-down joint if it is thinner",
                    part.name
                ),
                _ => String::new(),
            };
            format!("{}{covered}{lead}", terminal_words(&stock.terminals[*t]))
        }
        Termination::Shared(t) => {
            let all: Vec<&str> = super::at(loom, end.pin)
                .map(|w| loom.wire(w).name.as_str())
                .collect();
            let one = terminal_words(&stock.terminals[*t]);
            format!("{one}{covered}, one for {}", joined(&all))
        }
        Termination::Contact { plug, seal } => {
            let seal = match (seal, fit.class(stock, *plug)) {
                (Some(seal), Some(class)) => format!(", {}", class.seals[*seal].words()),
                _ => String::new(),
            };
            // The live half carries the sockets, which nothing can touch.
            let live = loom.mates.iter().any(|m| m.live == end.pin);
            let half = if live { "socket" } else { "pin" };
            format!("{half} contact{seal}")
        }
        Termination::Its(what) => what.clone(),
        Termination::Nothing(what) => format!("not in stock: {what}"),
    }
}

/// What the label at an end says: its wire, and the pin that it goes to.
pub fn label_words(loom: &Loom, wire: &str, pin: loom::PinId) -> String {
    format!("{wire} {}", loom.pin_name(pin))
}
