//! The words beside symbols and wires: what a person reads while building. Takes the loom, the answers
//! and the stock, gives short lines; where they stand is decided elsewhere.

use crate::circuit::path::{Face, Item, Stand};
pub(crate) use crate::text::SIZE;
use crate::text::wrap;
use loom::{Loom, Part, PartId, PartKind, PinId, WireId};
use plan::Rated;
use quantity::{Quantity, WireSize, figures};
use stock::Stock;
use study::Answers;

/// Words beside a symbol keep to this width, mm: wide enough for most words, narrow enough that a
/// dozen columns fit a sheet.
pub(crate) const MOST: f64 = 24.0;

/// What there is to say.
pub(crate) struct Words<'a> {
    pub loom: &'a Loom,
    answers: &'a Answers,
    pub(super) stock: &'a Stock,
}

fn lines(texts: &[String]) -> Vec<String> {
    texts.iter().flat_map(|t| wrap(t, SIZE, MOST)).collect()
}

impl<'a> Words<'a> {
    pub fn new(loom: &'a Loom, answers: &'a Answers, stock: &'a Stock) -> Self {
        Self {
            loom,
            answers,
            stock,
        }
    }

    /// Where a part is.
    pub fn place(&self, part: &Part) -> String {
        self.loom.place(part.place).name.clone()
    }

    /// A wire: its name, then colour and size.
    pub fn wire(&self, id: WireId) -> Vec<String> {
        let wire = self.loom.wire(id);
        vec![
            wire.name.clone(),
            format!("{} {}", wire.colour, self.size(id)),
        ]
    }

    /// A wire's size: mm² without the unit, a gauge with its word.
    fn size(&self, id: WireId) -> String {
        let answer = self.answers.wires.get(id.0 as usize);
        let size = answer
            .and_then(|a| self.stock.conductors.get(a.conductor))
            .map(|c| c.size);
        match size.or(self.loom.wire(id).set.size.as_ref().map(|s| s.value)) {
            Some(WireSize::Metric(area)) => figures(quantity::in_mm2(area), 3),
            Some(gauge) => gauge.to_string(),
            None => String::new(),
        }
    }

    /// A fuse's rating: "15 A".
    pub fn rating(&self, part: PartId) -> Option<String> {
        let answer = self.answers.fuses.iter().find(|f| f.part == part);
        answer.map(|f| format!("{} A", figures(f.rating_a, 3)))
    }

    /// The lines beside a symbol.
    pub fn stand(&self, stand: &Stand) -> Vec<String> {
        let part = self.loom.part(stand.part);
        let place = self.place(part);
        let texts = match (&part.kind, stand.face) {
            (PartKind::Battery { .. }, _) => {
                let volts = format!("{} V", self.loom.supply.system.volts());
                vec![
                    part.name.clone(),
                    format!("{volts} {}", self.loom.supply.battery.capacity.show()),
                    place,
                ]
            }
            (PartKind::Fuse(f), _) => {
                let name = match self.rating(stand.part) {
                    Some(rating) => format!("{} {rating}", part.name),
                    None => part.name.clone(),
                };
                let seat = f.way.map_or(place, |(_, way)| format!("way {way}"));
                vec![name, seat]
            }
            (PartKind::Load(l), _) => {
                let rated = match l.rated {
                    Rated::Power(p) => p.show(),
                    Rated::Current(a) => a.show(),
                };
                vec![part.name.clone(), rated, place]
            }
            (PartKind::Cutout(c), _) => {
                // Each on one line: a voltage parted from its word would be misread.
                let out = format!("out below {},", c.opens.show());
                let back = format!("in above {}", c.closes.show());
                return [vec![part.name.clone(), out, back], lines(&[place])].concat();
            }
            (PartKind::Connector { unplugs_load }, _) => {
                let name = self.loom.pin_name(self.cavity(stand));
                if *unplugs_load {
                    vec![name]
                } else {
                    vec![name, place]
                }
            }
            _ => vec![part.name.clone(), place],
        };
        lines(&texts)
    }

    /// The pin of a connector whose cavity number the pair bears: the one without a prime.
    fn cavity(&self, stand: &Stand) -> PinId {
        let own = |p: &PinId| {
            self.loom.pin(*p).part == stand.part && !self.loom.pin(*p).terminal.ends_with('\'')
        };
        [stand.upper, stand.lower]
            .into_iter()
            .find(own)
            .unwrap_or(stand.upper)
    }

    /// The terminal marks above and below a symbol.
    pub fn marks(&self, stand: &Stand) -> [Option<String>; 2] {
        let mark = |pin: PinId| Some(self.loom.pin(pin).terminal.clone());
        match stand.face {
            Face::Fuse | Face::Connector { .. } => [None, None],
            Face::Contact
            | Face::Coil
            | Face::Switch
            | Face::Throw
            | Face::Cutout { .. }
            | Face::Cells
            | Face::Load => [mark(stand.upper), mark(stand.lower)],
        }
    }

    /// A meeting point: a splice by its name, a terminal with its part.
    pub fn node(&self, pin: PinId) -> String {
        let part = self.loom.part_of(pin);
        match part.kind {
            PartKind::Splice => part.name.clone(),
            _ => self.loom.pin_name(pin),
        }
    }

    /// An end at the vehicle or at an earth: name and mark, what it is, where.
    pub fn end(&self, pin: PinId) -> Vec<String> {
        let part = self.loom.part_of(pin);
        let place = self.place(part);
        match part.kind {
            PartKind::Earth(_) | PartKind::Battery { .. } => {
                lines(&[self.loom.pin_name(pin), place])
            }
            PartKind::Signal(_) => lines(&[part.name.clone(), part.label.clone(), place]),
            _ => lines(&[self.loom.pin_name(pin), part.label.clone(), place]),
        }
    }

    /// A rail: its mark, its part, what and where.
    pub fn rail(&self, pin: PinId) -> String {
        let part = self.loom.part_of(pin);
        let mark = &self.loom.pin(pin).terminal;
        let mut text = format!("{mark}  {} {}, {}", part.name, part.label, self.place(part));
        if let PartKind::Feed(f) = &part.kind
            && let Some(fused) = f.fused
        {
            text += &format!(" (vehicle's fuse {})", fused.show());
        }
        text
    }

    /// A thing in a column as a clause, for screen readers: a wire with its ends.
    pub fn told(&self, item: &Item) -> Option<String> {
        let Item::Wire(id) = item else { return None };
        let wire = self.loom.wire(*id);
        let (from, to) = (self.loom.pin_name(wire.from), self.loom.pin_name(wire.to));
        Some(format!(
            "{} {from} to {to}, {} {};",
            wire.name,
            wire.colour,
            self.size(*id)
        ))
    }

    /// What a part is, for the legend.
    pub fn what(&self, id: PartId) -> String {
        let part = self.loom.part(id);
        let kind = match &part.kind {
            PartKind::Fuse(_) => self.answers.fuses.iter().find(|f| f.part == id).map(|f| {
                let kind = self.stock.fuses.get(f.kind).map_or("", |k| k.name.as_str());
                format!("{kind} {} A", figures(f.rating_a, 3))
            }),
            _ => self
                .answers
                .parts
                .iter()
                .find(|p| p.part == id)
                .map(|p| p.class.clone()),
        };
        kind.map_or_else(
            || part.label.clone(),
            |kind| format!("{}, {kind}", part.label),
        )
    }
}
