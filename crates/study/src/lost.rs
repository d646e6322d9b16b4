//! One thing that has come off: an earth, a wire, a connector.

use loom::{Loom, PartId, PartKind, WireId};

/// What is lost.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lost {
    /// Nothing.
    #[default]
    Nothing,
    /// A wire is open.
    Wire(WireId),
    /// An earth point has come off the body.
    Earth(PartId),
    /// A connector is unplugged.
    Connector(PartId),
}

impl Lost {
    /// Everything that can come off, one at a time.
    pub(crate) fn each(loom: &Loom) -> Vec<Self> {
        let earths = loom.each_part().filter_map(|(id, p)| match &p.kind {
            PartKind::Earth(e) if e.to == plan::EarthReturn::Body => Some(Self::Earth(id)),
            PartKind::Connector { .. } => Some(Self::Connector(id)),
            _ => None,
        });
        let wires = loom.each_wire().map(|(id, _)| Self::Wire(id));
        earths.chain(wires).collect()
    }

    /// Its name: "E3", "W1.2".
    pub(crate) fn name(self, loom: &Loom) -> &str {
        match self {
            Self::Nothing => "",
            Self::Wire(w) => &loom.wire(w).name,
            Self::Earth(p) | Self::Connector(p) => &loom.part(p).name,
        }
    }

    /// What happened, in a phrase: "with earth XE3 (rack) come off".
    pub(crate) fn says(self, loom: &Loom) -> String {
        match self {
            Self::Nothing => String::new(),
            Self::Wire(w) => format!("with wire {} open", loom.wire(w).name),
            Self::Earth(p) => {
                let part = loom.part(p);
                format!("with earth {} ({}) come off", part.name, part.label)
            }
            Self::Connector(p) => {
                let part = loom.part(p);
                format!("with connector {} ({}) unplugged", part.name, part.label)
            }
        }
    }
}
