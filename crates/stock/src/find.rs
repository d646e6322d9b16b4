//! Questions of the stock: by name, and what fits.

use crate::{
    AmpacityTable, Conductor, Connector, ContactLoad, Derating, Family, FuseKind, Grommet,
    Insulation, JointKind, Pull, RelayKind, Sleeve, Stock, SwitchKind, Tab, Terminal,
};
use quantity::{Area, ElectricCurrent, Length, Quantity};
use std::cmp::Ordering;

/// What a terminal goes onto.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Onto<'a> {
    /// A stud: "M6".
    Stud(&'a str),
    /// A tab of this width, mm.
    Tab(f64),
    /// Another wire's end.
    Wire,
}

impl Onto<'_> {
    fn takes(self, terminal: &Terminal) -> bool {
        match self {
            Self::Stud(stud) => terminal.stud.as_deref() == Some(stud),
            Self::Tab(mm) => terminal.tab_mm.is_some_and(|t| (t - mm).abs() < 1e-6),
            Self::Wire => terminal.stud.is_none() && terminal.tab_mm.is_none(),
        }
    }
}

fn order<T: PartialOrd>(a: T, b: T) -> Ordering {
    a.partial_cmp(&b).unwrap_or(Ordering::Equal)
}

/// On the straight lines between rows of rising copper; beyond them the nearest row.
fn between(mut rows: Vec<&Tab>, area: f64) -> Option<ElectricCurrent> {
    // A user's own rows come last in the table.
    rows.sort_by(|a, b| order(a.area, b.area));
    let above = rows.iter().position(|t| t.area.si() >= area);
    let amps = match above {
        None => rows.last()?.amps.si(),
        Some(0) => rows[0].amps.si(),
        Some(i) => {
            let (a, b) = (rows[i - 1], rows[i]);
            let part = (area - a.area.si()) / (b.area.si() - a.area.si());
            a.amps.si() + part * (b.amps.si() - a.amps.si())
        }
    };
    Some(ElectricCurrent::from_si(amps))
}

impl Stock {
    /// The wires of one family, insulation and wall, by rising area.
    pub fn conductors_of(&self, family: Family, insulation: &str, wall: &str) -> Vec<&Conductor> {
        let wanted =
            |c: &&Conductor| c.family == family && c.insulation == insulation && c.wall == wall;
        self.conductors.iter().filter(wanted).collect()
    }

    /// The supply-voltage class of this letter in a vehicle of this nominal voltage.
    pub fn supply_class(&self, code: &str, volts: u32) -> Option<&crate::SupplyClass> {
        let wanted = |c: &&crate::SupplyClass| c.code == code && c.volts == volts;
        self.supply_classes.iter().find(wanted)
    }

    /// The wire with this id.
    pub fn conductor(&self, id: &str) -> Option<&Conductor> {
        self.conductors.iter().find(|c| c.id == id)
    }

    /// An insulation.
    pub fn insulation(&self, name: &str) -> Option<&Insulation> {
        self.insulations.iter().find(|i| i.name == name)
    }

    /// A fuse class.
    pub fn fuse_kind(&self, name: &str) -> Option<&FuseKind> {
        self.fuses.iter().find(|f| f.name == name)
    }

    /// A relay class for a system voltage.
    pub fn relay(&self, name: &str, volts: u32) -> Option<&RelayKind> {
        self.relays
            .iter()
            .find(|r| r.name == name && r.volts == volts)
    }

    /// The smallest switch of a class with at least this rating.
    pub fn switch_for(
        &self,
        name: &str,
        positions: u32,
        volts: u32,
        amps: f64,
    ) -> Option<&SwitchKind> {
        let fits = |s: &&SwitchKind| {
            s.name == name && s.positions == positions && s.volts == volts && s.rating.si() >= amps
        };
        self.switches
            .iter()
            .filter(fits)
            .min_by(|a, b| order(a.rating, b.rating))
    }

    /// How much larger a switch must be than a load of this kind.
    pub fn derating(&self, volts: u32, load: ContactLoad) -> Option<&Derating> {
        self.deratings
            .iter()
            .find(|d| d.volts == volts && d.load == load)
    }

    /// A kind of joint.
    pub fn joint(&self, name: &str) -> Option<&JointKind> {
        self.joints.iter().find(|j| j.name == name)
    }

    /// The closest-fitting terminal of a kind. `sealed`: only one that seals itself; otherwise a
    /// plain one is preferred.
    pub fn terminal_for(
        &self,
        kind: &str,
        area: Area,
        onto: Onto,
        sealed: bool,
    ) -> Option<&Terminal> {
        let fits = |t: &&Terminal| {
            t.kind == kind
                && (t.wire_min..=t.wire_max).contains(&area)
                && onto.takes(t)
                && (t.sealed || !sealed)
        };
        let closest = |a: &&Terminal, b: &&Terminal| {
            a.sealed.cmp(&b.sealed).then(order(a.wire_max, b.wire_max))
        };
        self.terminals.iter().filter(fits).min_by(closest)
    }

    /// What a terminal bears continuously with this much copper in its barrel: no more than its row says, and on a tab no
    /// more than the table says between its wires, on straight lines. `None`: no less than its wire.
    pub fn terminal_bears(&self, terminal: &Terminal, area: Area) -> Option<ElectricCurrent> {
        let rows = terminal.tab_mm.map_or_else(Vec::new, |mm| {
            let same = |t: &&Tab| (t.tab_mm - mm).abs() < 1e-6;
            self.tabs.iter().filter(same).collect()
        });
        let by_tab = between(rows, area.si());
        match (terminal.amps, by_tab) {
            (Some(own), Some(tab)) if order(tab, own) == Ordering::Less => Some(tab),
            (None, tab) => tab,
            (own, _) => own,
        }
    }

    /// What a contact of a connector bears with this wire: no more than its class, and of a blade no more than a tab of its
    /// width.
    pub fn contact_bears(&self, connector: &Connector, area: Area) -> ElectricCurrent {
        let same = |t: &&Tab| (t.tab_mm - connector.contact_mm).abs() < 1e-6;
        let by_tab = between(self.tabs.iter().filter(same).collect(), area.si());
        match by_tab {
            Some(tab) if order(tab, connector.amps) == Ordering::Less => tab,
            _ => connector.amps,
        }
    }

    /// How hard a crimp on this much copper is to be pulled: as the thickest gauge that is no thicker.
    pub fn pull_for(&self, area: Area) -> Option<&Pull> {
        // A size of a family may be a few hundredths below its gauge.
        let most = area * 1.02;
        let thinner = self.pulls.iter().filter(|p| p.area <= most);
        thinner.max_by(|a, b| order(a.area, b.area))
    }

    /// Every connector that has `ways` or more and takes the wire (and its seal, if sealed), the
    /// smallest contact first.
    pub fn connectors_for(
        &self,
        ways: u32,
        area: Area,
        outside: Length,
        sealed: bool,
    ) -> Vec<&Connector> {
        let fits = |c: &&Connector| {
            c.sealed == sealed
                && c.ways.iter().any(|&w| w >= ways)
                && (c.wire_min..=c.wire_max).contains(&area)
                && (!sealed || c.seal(area, outside).is_some())
        };
        let mut found: Vec<_> = self.connectors.iter().filter(fits).collect();
        found.sort_by(|a, b| a.contact_mm.total_cmp(&b.contact_mm));
        found
    }

    /// Every sleeve of a kind that fits a bundle, the closest first.
    pub fn sleeves_for(&self, kind: &str, bundle: Length) -> Vec<&Sleeve> {
        let fits = |s: &&Sleeve| s.kind == kind && (s.bundle_min..=s.bundle_max).contains(&bundle);
        let mut found: Vec<_> = self.sleeves.iter().filter(fits).collect();
        found.sort_by(|a, b| order(a.bundle_max, b.bundle_max));
        found
    }

    /// The closest-fitting sleeve of a kind.
    pub fn sleeve_for(&self, kind: &str, bundle: Length) -> Option<&Sleeve> {
        self.sleeves_for(kind, bundle).first().copied()
    }

    /// The closest shrink of a kind that slides over the largest thing on its way and closes on the smallest that it is to
    /// grip.
    pub fn shrink_for(&self, kind: &str, largest: Length, smallest: Length) -> Option<usize> {
        let fits =
            |s: &Sleeve| s.kind == kind && s.bundle_max >= largest && s.bundle_min <= smallest;
        let all = self.sleeves.iter().enumerate();
        let found = all.filter(|(_, s)| s.recovered.is_some() && fits(s));
        let closest = found.min_by(|a, b| order(a.1.bundle_max, b.1.bundle_max));
        closest.map(|(i, _)| i)
    }

    /// The smallest grommet that passes a bundle through a panel.
    pub fn grommet_for(&self, bundle: Length, panel: Length) -> Option<&Grommet> {
        let fits =
            |g: &&Grommet| bundle <= g.bundle_max && (g.panel_min..=g.panel_max).contains(&panel);
        self.grommets
            .iter()
            .filter(fits)
            .min_by(|a, b| order(a.hole, b.hole))
    }

    /// A rule set's table of allowed currents.
    pub fn currents(&self, name: &str) -> Option<&AmpacityTable> {
        self.currents.iter().find(|t| t.name == name)
    }
}
