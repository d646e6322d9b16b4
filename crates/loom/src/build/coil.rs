//! The coil of a circuit's relay: where its supply comes from, the conditions it passes, the switch
//! in its supply or in its earth.

use super::Builder;
use super::run::Trace;
use crate::{LoomCircuit, PartId, PinId, Role};
use plan::{EarthReturn, FeedKind, Live, Name, SwitchBreaks};

/// Conditions beyond the first are held by change-over relays.
const CONDITION_RELAY: &str = "mini";

impl Builder<'_> {
    /// Wires the coil of `relay`.
    pub(super) fn add_coil(
        &mut self,
        index: usize,
        relay: PartId,
        switch: Option<PartId>,
        made: &mut LoomCircuit,
    ) {
        let plan = self.plan;
        let c = &plan.circuits[index];
        let breaks = c
            .switch
            .as_ref()
            .and_then(|s| s.breaks)
            .map_or(SwitchBreaks::Supply, |b| b.value);
        let (mut live, fuse) = self.coil_supply(index, relay, made);
        let coil = self.trace(index, Role::Coil, fuse);
        if let Some(switch) = switch.filter(|_| breaks == SwitchBreaks::Supply) {
            live = self.through_switch(switch, live, made.auto, coil);
        }
        for (signal, contact) in self.conditions(index, made) {
            live = self.through_condition(index, relay, (signal, contact, live), coil, made);
        }
        let plus = self.pin(relay, "86");
        self.run(live, plus, coil);

        let earthed = Trace {
            role: Role::CoilEarth,
            bounded: true,
            fuse,
            ..coil
        };
        let mut minus = self.pin(relay, "85");
        let relay_wish = c.relay.as_ref().map(|r| (&r.place, r.earth.as_ref()));
        let mut stands = relay_wish;
        if let Some(switch) = switch.filter(|_| breaks == SwitchBreaks::Earth) {
            let input = self.pin(switch, "82");
            self.run(minus, input, earthed);
            minus = self.pin(switch, "82a");
            stands = c.switch.as_ref().map(|s| (&s.place, s.earth.as_ref()));
        }
        let earth = self.coil_earth(&c.earth, stands);
        let ground = self.earth(&earth);
        self.run(minus, ground, earthed);
    }

    /// The earth of a coil: as said, or the body where it stands; where the circuit has a wire back
    /// to the battery there may be no body to use, and the coil shares that wire.
    pub(super) fn coil_earth(
        &self,
        circuit: &Name,
        stands: Option<(&Name, Option<&Name>)>,
    ) -> String {
        let wired_back = circuit.value == "battery"
            || self
                .plan
                .earths
                .iter()
                .any(|e| e.name.value == circuit.value && e.to == EarthReturn::Battery);
        match stands {
            Some((_, Some(said))) => said.value.clone(),
            Some((place, None)) if !wired_back => self.earth_at(&place.value, &circuit.value),
            _ => circuit.value.clone(),
        }
    }

    /// A body earth at this place: the circuit's own or another that the plan has there, or a new one.
    fn earth_at(&self, place: &str, circuit: &str) -> String {
        let here = |e: &&plan::Earth| e.place.value == place && e.to == EarthReturn::Body;
        let own = self
            .plan
            .earths
            .iter()
            .filter(here)
            .find(|e| e.name.value == circuit);
        own.or_else(|| self.plan.earths.iter().find(here))
            .map_or_else(|| place.to_owned(), |e| e.name.value.clone())
    }

    /// The pin that supplies the coil, and the fuse before it: a signal, a feed, or the circuit's
    /// own fuse by a bridge at the relay's socket.
    fn coil_supply(
        &mut self,
        index: usize,
        relay: PartId,
        made: &LoomCircuit,
    ) -> (PinId, Option<PartId>) {
        let plan = self.plan;
        let c = &plan.circuits[index];
        if let Some(signal) = self.supplying_signal(index, made) {
            return (self.loom.part(signal).pins[0], None);
        }
        let named = c.control.as_ref().map(|n| n.value.as_str());
        let tap = || {
            let mut taps = plan
                .feeds
                .iter()
                .filter(|f| f.kind == FeedKind::IgnitionTap);
            taps.next().map(|f| f.name.value.as_str())
        };
        let wants_ignition = c.live.is_some_and(|l| l.value == Live::Ignition);
        let feed = named.or_else(|| if wants_ignition { tap() } else { None });
        match feed.and_then(|name| self.feeds.get(name)) {
            Some(feed) => (self.loom.part(*feed).pins[0], None),
            None => (self.pin(relay, "30"), made.fuse),
        }
    }

    /// The signal that itself supplies the coil: the first condition, unless a feed is asked for.
    fn supplying_signal(&self, index: usize, made: &LoomCircuit) -> Option<PartId> {
        let c = &self.plan.circuits[index];
        let from_feed = c.control.is_some() || c.live.is_some_and(|l| l.value == Live::Ignition);
        made.only.first().copied().filter(|_| !from_feed)
    }

    /// Takes the coil's supply through the switch; with three positions the signal comes in beside it.
    fn through_switch(
        &mut self,
        switch: PartId,
        live: PinId,
        auto: Option<PartId>,
        coil: Trace,
    ) -> PinId {
        let Some(signal) = auto else {
            let input = self.pin(switch, "82");
            self.run(live, input, coil);
            return self.pin(switch, "82a");
        };
        let from_signal = self.loom.part(signal).pins[0];
        let (a, b) = (self.pin(switch, "83a"), self.pin(switch, "83b"));
        self.run(from_signal, a, Trace { fuse: None, ..coil });
        self.run(live, b, coil);
        self.pin(switch, "83")
    }

    /// The conditions that need a relay of their own: every “only” that does not itself supply the
    /// coil, and every “unless”.
    fn conditions(&self, index: usize, made: &LoomCircuit) -> Vec<(PartId, &'static str)> {
        let supplies = usize::from(self.supplying_signal(index, made).is_some());
        let more = made.only.iter().skip(supplies).map(|s| (*s, "87"));
        more.chain(made.unless.iter().map(|s| (*s, "87a")))
            .collect()
    }

    /// Takes the coil's supply through the contact of a relay that the signal works.
    fn through_condition(
        &mut self,
        index: usize,
        relay: PartId,
        (signal, contact, live): (PartId, &'static str, PinId),
        coil: Trace,
        made: &mut LoomCircuit,
    ) -> PinId {
        let plan = self.plan;
        let c = &plan.circuits[index];
        let name = format!("K{}.{}", c.number, made.conditions.len() + 1);
        let place = self.place_of(relay);
        let holds = self.add_relay(
            index,
            (name, contact),
            CONDITION_RELAY,
            (place, c.name.span),
        );
        made.conditions.push(holds);
        let [common, out, plus, minus] = ["30", contact, "86", "85"].map(|t| self.pin(holds, t));
        self.run(live, common, coil);
        let from_signal = self.loom.part(signal).pins[0];
        self.run(from_signal, plus, Trace { fuse: None, ..coil });
        let earth = self.coil_earth(
            &c.earth,
            c.relay.as_ref().map(|r| (&r.place, r.earth.as_ref())),
        );
        let ground = self.earth(&earth);
        let earthed = Trace {
            role: Role::CoilEarth,
            bounded: true,
            fuse: None,
            ..coil
        };
        self.run(minus, ground, earthed);
        out
    }
}
