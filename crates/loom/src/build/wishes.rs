//! What the installer asked for by name or number, and stock does not have: told, never silently
//! replaced by something else.

use super::Builder;
use finding::{Basis, Span, Spanned, nearest};
use plan::{MainFuse, SwitchWish, WireFamily, WireWish};
use quantity::{Quantity, WireSize};
use stock::{Conductor, Family};

impl Builder<'_> {
    /// Checks every wish of the plan against stock.
    pub(super) fn check_wishes(&mut self) {
        let plan = self.plan;
        self.check_wire_habits();
        for b in &plan.boxes {
            if let Some(kind) = &b.kind {
                self.check_fuse_kind(kind);
            }
            self.check_fuse(&b.fuse, None);
        }
        for c in &plan.circuits {
            let of_box = plan.boxes.iter().find(|b| match &c.source {
                plan::Source::Box { name, .. } => name.value == b.name.value,
                plan::Source::Feed { .. } => false,
            });
            self.check_fuse(&c.fuse, of_box.and_then(|b| b.kind.as_ref()));
            if let Some(switch) = &c.switch {
                self.check_switch(switch);
            }
            for class in c.loads.iter().filter_map(|l| l.class.as_ref()) {
                self.check_class(class);
            }
        }
    }

    /// Lists the habits that the plan does not say.
    pub(super) fn note_habits(&mut self) {
        let job = &self.plan.job;
        let mut note = |assumed: bool, what: &str, value: String, source: &str, set: &str| {
            let assumption = crate::Assumption {
                what: what.into(),
                value,
                source: source.into(),
                basis: Basis::Common,
                set: format!("{set} of [job]"),
            };
            self.loom
                .assumptions
                .extend(Some(assumption).filter(|_| assumed));
        };
        note(
            job.ends_assumed,
            "length at each end of a wire, to strip, crimp and turn, and to crimp anew",
            job.ends.show(),
            "no document claimed",
            "ends = \"…\"",
        );
        note(
            job.margin_assumed,
            "kept below the temperature of the insulation",
            job.margin.show(),
            "our own: heat models err by about as much",
            "margin = \"…\"",
        );
        note(
            job.colours_assumed,
            "habit of the wires’ colours",
            job.colours.word().into(),
            "our own: most work is on road vehicles",
            "colours = \"…\"",
        );
    }

    fn family(&self) -> Family {
        match self.plan.job.family {
            WireFamily::Metric => Family::Metric,
            WireFamily::Sae => Family::Sae,
            WireFamily::Boat => Family::Boat,
        }
    }

    fn unknown<'n>(
        &mut self,
        what: &str,
        wish: &Spanned<String>,
        known: impl Iterator<Item = &'n str>,
    ) {
        let mut names: Vec<&str> = Vec::new();
        for name in known {
            if !names.contains(&name) {
                names.push(name);
            }
        }
        let list = names.join(", ");
        let mend = match nearest(&wish.value, names.iter().copied()) {
            Some(near) => format!("did you mean “{near}”? Stock has {list}"),
            None => format!("stock has {list}; add yours in a stock file"),
        };
        let says = format!("stock has no {what} “{}”", wish.value);
        self.error("not-in-stock", wish.span, says, &mend);
    }

    /// The class of a load must be one of this vehicle's voltage.
    fn check_class(&mut self, wish: &Spanned<String>) {
        let stock = self.stock;
        let volts = self.plan.supply.system.volts();
        let known = || stock.supply_classes.iter().filter(|c| c.volts == volts);
        if !known().any(|c| c.code == wish.value) {
            let what = format!("supply-voltage class of {volts} V");
            self.unknown(&what, wish, known().map(|c| c.code.as_str()));
        }
    }

    /// `[job]`: insulation, wall and sizes must exist in the wire family.
    fn check_wire_habits(&mut self) {
        let (plan, stock, family) = (self.plan, self.stock, self.family());
        let of_family = || stock.conductors.iter().filter(move |c| c.family == family);
        if let Some(wish) = &plan.job.insulation
            && !plan.job.any_insulation()
            && !of_family().any(|c| c.insulation == wish.value)
        {
            let what = format!("{} wire with insulation", family.word());
            let known = of_family().map(|c| c.insulation.as_str());
            // Leaves it open: the best of them is taken.
            self.unknown(&what, wish, known.chain(["any"]));
        }
        if let Some(wish) = &plan.job.wall
            && !of_family().any(|c| c.wall == wish.value)
        {
            let what = format!("{} wire with wall", family.word());
            self.unknown(&what, wish, of_family().map(|c| c.wall.as_str()));
        }
        for size in &plan.job.sizes {
            self.check_size(size.value, size.span);
        }
        for wish in &plan.wires {
            if let Some(size) = &wish.size {
                self.check_wire(wish, size);
            }
        }
    }

    /// A size to choose from must exist in the wire family.
    fn check_size(&mut self, size: WireSize, span: Span) {
        let (stock, family) = (self.stock, self.family());
        let of_family = || stock.conductors.iter().filter(move |c| c.family == family);
        if !of_family().any(|c| c.size.is(size)) {
            self.no_such_wire(
                format!("{} wire of {size}", family.word()),
                span,
                of_family(),
            );
        }
    }

    /// The size of a single wire may come from any family, with its insulation if that is set too.
    fn check_wire(&mut self, wish: &WireWish, size: &Spanned<WireSize>) {
        let stock = self.stock;
        let wanted = wish.insulation.as_ref().map(|i| i.value.as_str());
        let known = wanted.filter(|w| stock.insulation(w).is_some());
        let fits = move |c: &&Conductor| known.is_none_or(|w| c.insulation == w);
        if !stock
            .conductors
            .iter()
            .filter(fits)
            .any(|c| c.size.is(size.value))
        {
            let with = known.map_or_else(String::new, |w| format!(" with {w} insulation"));
            let what = format!("wire of {}{with}", size.value);
            self.no_such_wire(what, size.span, stock.conductors.iter().filter(fits));
        }
    }

    fn no_such_wire<'c>(
        &mut self,
        what: String,
        span: Span,
        there: impl Iterator<Item = &'c Conductor>,
    ) {
        let mut sizes: Vec<String> = Vec::new();
        for size in there.map(|c| c.size.to_string()) {
            if !sizes.contains(&size) {
                sizes.push(size);
            }
        }
        let mend = format!("it has {}", sizes.join(", "));
        self.error("not-in-stock", span, format!("stock has no {what}"), &mend);
    }

    fn check_fuse_kind(&mut self, wish: &Spanned<String>) -> bool {
        let known = self.stock.fuse_kind(&wish.value).is_some();
        if !known {
            let stock = self.stock;
            self.unknown(
                "fuse of the kind",
                wish,
                stock.fuses.iter().map(|f| f.name.as_str()),
            );
        }
        known
    }

    /// A fuse's kind and rating must exist, the rating in that kind.
    fn check_fuse(&mut self, wish: &MainFuse, of_box: Option<&Spanned<String>>) {
        if let Some(kind) = &wish.kind
            && !self.check_fuse_kind(kind)
        {
            return;
        }
        let Some(rating) = &wish.rating else { return };
        let named = wish.kind.as_ref().or(of_box).map(|k| k.value.as_str());
        let stock = self.stock;
        let kinds = || {
            stock
                .fuses
                .iter()
                .filter(move |f| named.is_none_or(|n| f.name == n))
        };
        if kinds().next().is_none() || kinds().any(|f| f.rating(rating.value.si()).is_some()) {
            return;
        }
        let mut amps: Vec<f64> = kinds()
            .flat_map(|f| &f.ratings)
            .map(|r| r.amps.si())
            .collect();
        amps.sort_by(f64::total_cmp);
        amps.dedup();
        let list = amps
            .iter()
            .map(|a| quantity::figures(*a, 3))
            .collect::<Vec<_>>()
            .join(", ");
        let what = named.map_or_else(|| "fuse".to_owned(), str::to_owned);
        self.error(
            "not-in-stock",
            rating.span,
            format!("stock has no {what} of {}", rating.value.show()),
            &format!("there are {list} A"),
        );
    }

    /// A switch's kind must exist at this voltage with as many positions.
    fn check_switch(&mut self, wish: &SwitchWish) {
        let (stock, volts) = (self.stock, self.plan.supply.system.volts());
        let Some(kind) = &wish.kind else { return };
        let positions = if wish.auto.is_some() { 3 } else { 2 };
        let fits = move |s: &&stock::SwitchKind| s.volts == volts && s.positions == positions;
        if !stock
            .switches
            .iter()
            .filter(fits)
            .any(|s| s.name == kind.value)
        {
            let what = format!("{positions}-position switch of the kind");
            self.unknown(
                &what,
                kind,
                stock.switches.iter().filter(fits).map(|s| s.name.as_str()),
            );
        }
    }
}
