//! What can't be built as written although every name is right: a switch without anything to
//! switch, a way taken twice, a stretch that goes nowhere.

use crate::names::BATTERY;
use crate::{Circuit, FeedKind, Live, Plan, Source, SwitchBreaks};
use finding::Finding;

/// Checks what the parts of the plan say together.
pub(crate) fn check(plan: &Plan) -> Vec<Finding> {
    let mut errors = Vec::new();
    stretches(plan, &mut errors);
    ways(plan, &mut errors);
    for f in &plan.feeds {
        if f.name.value == BATTERY {
            errors.push(Finding::error(
                "name-twice",
                f.name.span,
                "“battery” is the battery's own post and needs no [[feed]]",
                "leave this feed out, or give it another name",
            ));
        }
    }
    for c in &plan.circuits {
        let mut says =
            |id, span, what: &str, mend: &str| errors.push(Finding::error(id, span, what, mend));
        control(c, &mut says);
        relayless(c, &mut says);
        ignition(plan, c, &mut says);
        three_position(c, &mut says);
    }
    errors
}

fn stretches(plan: &Plan, errors: &mut Vec<Finding>) {
    let mut seen: Vec<[&str; 2]> = Vec::new();
    for s in &plan.stretches {
        let mut ends = [s.between[0].value.as_str(), s.between[1].value.as_str()];
        ends.sort_unstable();
        if ends[0] == ends[1] {
            errors.push(Finding::error(
                "stretch-to-itself",
                s.between[1].span,
                format!("this stretch goes from “{}” back to itself", ends[0]),
                "name the two different places that it joins",
            ));
        } else if seen.contains(&ends) {
            errors.push(Finding::error(
                "stretch-twice",
                s.span,
                format!(
                    "“{}” and “{}” are already joined by a stretch",
                    ends[0], ends[1]
                ),
                "keep the one that the loom is to take, or put a place in the middle of the other",
            ));
        }
        seen.push(ends);
    }
}

fn ways(plan: &Plan, errors: &mut Vec<Finding>) {
    for b in &plan.boxes {
        let mut taken: Vec<u32> = Vec::new();
        let mut count = 0;
        for c in &plan.circuits {
            let Source::Box { name, way } = &c.source else {
                continue;
            };
            if name.value != b.name.value {
                continue;
            }
            count += 1;
            if count == b.ways + 1 {
                errors.push(Finding::error(
                    "box-full",
                    name.span,
                    format!(
                        "“{}” has {} ways, and this circuit needs one more",
                        b.name.value, b.ways
                    ),
                    "take a box with more ways, or feed this circuit from elsewhere",
                ));
            }
            let Some(way) = way else { continue };
            if way.value > b.ways {
                errors.push(Finding::error(
                    "no-such-way",
                    way.span,
                    format!("“{}” has no way {}", b.name.value, way.value),
                    format!("its ways are 1 to {}", b.ways),
                ));
            } else if taken.contains(&way.value) {
                errors.push(Finding::error(
                    "way-taken",
                    way.span,
                    format!(
                        "way {} of “{}” is taken by another circuit",
                        way.value, b.name.value
                    ),
                    "each way holds one fuse: choose another, or leave way out",
                ));
            }
            taken.push(way.value);
        }
    }
}

type Says<'a> = dyn FnMut(&'static str, finding::Span, &str, &str) + 'a;

/// Exactly one of switch, live, trigger turns a circuit on.
fn control(c: &Circuit, says: &mut Says) {
    let mut ways = Vec::new();
    ways.extend(c.switch.as_ref().map(|s| s.span));
    ways.extend(c.live.map(|l| l.span));
    ways.extend(c.trigger.as_ref().map(|t| t.span));
    match ways.as_slice() {
        [] if c.only.is_empty() => says(
            "no-control",
            c.name.span,
            "nothing says when this circuit is on",
            "add switch = { place = \"…\" }, live = \"always\", live = \"ignition\" or trigger = \"a signal\"",
        ),
        [] | [_] => {}
        [_, second, ..] => says(
            "two-controls",
            *second,
            "this circuit is turned on in two ways",
            "keep one of switch, live and trigger; conditions go into only and unless",
        ),
    }
    if let (Source::Box { .. }, false, Some(span)) = (&c.source, c.fuse.fitted, c.fuse.span) {
        says(
            "way-without-fuse",
            span,
            "a way of a box always holds a fuse",
            "leave fuse out to have it chosen, or write its rating",
        );
    }
    if c.loads.is_empty() {
        says(
            "no-load",
            c.name.span,
            "this circuit has no load that could be read",
            "say what it feeds: load = [{ … }]",
        );
    }
}

/// What only a relay can do.
fn relayless(c: &Circuit, says: &mut Says) {
    if c.relay.is_some() {
        return;
    }
    let mend = "add relay = { place = \"…\" }";
    if let Some(breaks) = c.switch.as_ref().and_then(|s| s.breaks) {
        says(
            "needs-relay",
            breaks.span,
            "“breaks” says which side of a relay's coil the switch breaks, and there is no relay",
            mend,
        );
    }
    if let Some(auto) = c.switch.as_ref().and_then(|s| s.auto.as_ref()) {
        says(
            "needs-relay",
            auto.span,
            "a signal can only work a relay's coil: the load would be too much for it",
            mend,
        );
    }
    for signal in c.only.iter().chain(&c.unless).chain(&c.trigger) {
        says(
            "needs-relay",
            signal.span,
            "a signal can only work a relay's coil: the load would be too much for it",
            mend,
        );
    }
    if let Some(control) = &c.control {
        says(
            "needs-relay",
            control.span,
            "“control” is the supply of a relay's coil, and there is no relay",
            mend,
        );
    }
}

fn ignition(plan: &Plan, c: &Circuit, says: &mut Says) {
    let Some(live) = c.live.filter(|l| l.value == Live::Ignition) else {
        return;
    };
    let is_tap = |name: &str| {
        plan.feeds
            .iter()
            .any(|f| f.name.value == name && f.kind == FeedKind::IgnitionTap)
    };
    let taps = plan
        .feeds
        .iter()
        .filter(|f| f.kind == FeedKind::IgnitionTap)
        .count();
    let source_feed = match &c.source {
        Source::Feed { name } => Some(name.value.as_str()),
        Source::Box { name, .. } => plan
            .boxes
            .iter()
            .find(|b| b.name.value == name.value)
            .map(|b| b.feed.value.as_str()),
    };
    if c.relay.is_none() {
        if !source_feed.is_some_and(is_tap) {
            says(
                "no-ignition",
                live.span,
                "nothing here is live with the ignition only",
                "feed the circuit from an ignition tap, or add relay = { place = \"…\" } whose coil the tap works",
            );
        }
    } else if let Some(control) = &c.control {
        if !is_tap(&control.value) {
            says(
                "no-ignition",
                control.span,
                "this feed is not an ignition tap",
                "name a feed of kind \"ignition tap\" as control",
            );
        }
    } else if taps != 1 {
        says(
            "no-ignition",
            live.span,
            if taps == 0 {
                "the plan has no ignition tap"
            } else {
                "the plan has several ignition taps"
            },
            "add a [[feed]] of kind \"ignition tap\", and name it as control if there are several",
        );
    }
}

fn three_position(c: &Circuit, says: &mut Says) {
    let Some(switch) = &c.switch else { return };
    let (Some(auto), Some(breaks)) = (&switch.auto, switch.breaks) else {
        return;
    };
    if breaks.value == SwitchBreaks::Earth {
        says(
            "three-position",
            breaks.span,
            "a three-position switch chooses the coil's supply, so it can't break the coil's earth",
            "leave breaks out, or write breaks = \"supply\"",
        );
    }
    if !c.only.is_empty() {
        says(
            "three-position",
            auto.span,
            "a three-position switch already has its signal",
            "leave “only” out of this circuit",
        );
    }
}
