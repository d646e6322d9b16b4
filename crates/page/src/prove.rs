//! Proving at the vehicle: one test a screen with where the tips go and what to expect, large enough for gloves; what is seen
//! without a meter; what may be amiss, the likeliest first, and the next test.

use crate::view;
use job::pack::{
    band_words, capital, cause_words, ohms_words, percent, probe_words, reading, setting_words,
};
use job::study::prove::{Bench, Probe, Ranked, Row, STANDS_OUT, Symptom, Verdict};
use job::{Job, Proved};
use maud::{Markup, PreEscaped, html};
use std::collections::BTreeMap;

/// The whole of it: the verdict, what is seen, what may be amiss, the next test, the sheet.
pub(crate) fn all(job: &Job, proved: &Proved) -> Option<String> {
    let title = &job.plan()?.job.title;
    let bench = &proved.bench;
    // Once something stands out it is mended before anything else is measured.
    let next = go_on(proved, usize::MAX).filter(|_| standing(proved).is_none());
    let body = html! {
        (view::rooms("prove", Some(job)))
        header { h1 { (title) ": proved with a meter" } }
        main {
            (verdict(proved))
            @if let Some(test) = next { p { a.big href={ "test?n=" (test + 1) } { @if proved.answered.next.is_some() { "Measure next: " } @else { "Next on the sheet: " } (probe_words(bench.loom(), bench.tests[test].probe)) } } }
            (causes(proved))
            (seen(proved))
            (sheet(proved))
            (built(proved))
            (afresh(proved))
        }
    };
    Some(view::around(
        &format!("{title}: proved with a meter"),
        &body,
    ))
}

/// What comes after a test that was made.
fn go_on(proved: &Proved, made: usize) -> Option<usize> {
    let next = proved.answered.next.as_ref().map(|n| n.test);
    next.or(to_be_made(proved)).filter(|t| *t != made)
}

/// The first test of the sheet that was not made.
fn to_be_made(proved: &Proved) -> Option<usize> {
    let row = proved.answered.rows.iter().find(|r| r.had.is_none())?;
    Some(row.test)
}

fn verdict(proved: &Proved) -> Markup {
    let a = &proved.answered;
    let of_sheet = |r: &&Row| proved.sheet.tests.contains(&r.test);
    let made = a
        .rows
        .iter()
        .filter(of_sheet)
        .filter(|r| r.had.is_some())
        .count();
    let out = a
        .rows
        .iter()
        .filter(|r| r.had.is_some_and(|(_, v)| v != Verdict::Sound))
        .count();
    html! {
        p.state role="status" { strong { (a.proof.word()) } ": " (made) " of " (proved.sheet.tests.len()) " tests of the sheet made" @if out > 0 { ", " (out) " out" } }
        @if let Some(test) = a.again { p { a.big href={ "test?n=" (test + 1) } { "Measure again: " (probe_words(proved.bench.loom(), proved.bench.tests[test].probe)) } } }
        @if a.fits_nothing { p.wrong { "What was read fits nothing that is known here, not even two things amiss at once: measure again what is furthest out, and look whether what was built is what the plan says." } }
        @if proved.heard.of_another > 0 { p.source { (proved.heard.of_another) " of what counts here was noted of another version of the plan, and found again by its names." } }
        @if !proved.heard.passed_over.is_empty() { p.source { "Passed over, since the plan does not have it any more: " (proved.heard.passed_over.join("; ")) } }
    }
}

/// What may be amiss; each leads to where it is on the drawing.
fn causes(proved: &Proved) -> Markup {
    let bench = &proved.bench;
    let a = &proved.answered;
    html! {
        @if !a.causes.is_empty() {
            section id="causes" aria-label="What may be amiss" {
                h2 { "What may be amiss" }
                ol.bare { @for class in &a.causes { li { (cause(bench, class)) } } }
                p.source { "What no reading tells apart stands together. How often such things happen is taken from common practice, without a document." }
            }
        }
    }
}

fn cause(bench: &Bench, class: &Ranked) -> Markup {
    let names: Vec<String> = class
        .members
        .iter()
        .flat_map(|m| &m.causes)
        .flat_map(|c| bench.causes[*c].names.clone())
        .collect();
    html! {
        article.finding {
            p.says { strong { (percent(class.probability)) } }
            @for (i, m) in class.members.iter().enumerate() {
                p.says { @if i > 0 { "or " } (cause_words(bench, &m.causes)) @if let Some(ohms) = m.ohms { ": " (ohms_words(ohms)) } }
                @for c in &m.causes { p.mend { (bench.causes[*c].mend) } }
            }
            @if !names.is_empty() { p.deeds { a.deed href={ "./?find=" (crate::asked::encoded(&names.join("|"))) "#left" } { "Show on the drawing" } } }
        }
    }
}

/// What is seen, and what can be said.
fn seen(proved: &Proved) -> Markup {
    let loom = proved.bench.loom();
    let all = Symptom::all(loom);
    let said = &proved.heard.evidence.symptoms;
    html! {
        section id="seen" aria-label="What is seen" {
            h2 { "What is seen without a meter" }
            @if !said.is_empty() { ul { @for s in said { li { (s.says(loom)) } } } }
            form method="post" action="seen" {
                div.field {
                    label for="symptom" { "What do you see?" }
                    select id="symptom" name="symptom" {
                        option value="" { "choose" }
                        @for s in &all { option value=(s.word(loom)) { (s.says(loom)) } }
                    }
                }
                button type="submit" { "Note it" }
            }
        }
    }
}

fn sheet(proved: &Proved) -> Markup {
    let bench = &proved.bench;
    let mut by: BTreeMap<usize, Vec<&Row>> = BTreeMap::new();
    for r in &proved.answered.rows {
        by.entry(bench.tests[r.test].setting).or_default().push(r);
    }
    html! {
        section id="sheet" aria-label="Test sheet" {
            h2 { "Test sheet" }
            p.source { "Together these reveal everything that any reading here reveals. Before the battery is connected: pull at every crimp, look along every wire; first power through a small fuse or a test lamp." }
            @for (setting, rows) in by {
                h3 { (capital(&setting_words(bench, setting))) }
                @for r in rows { (line(bench, r)) }
            }
            @if !proved.sheet.hidden.is_empty() {
                details { summary { "What no reading reveals (" (proved.sheet.hidden.len()) ")" } ul { @for c in &proved.sheet.hidden { li { (bench.causes[*c].says) } } } }
            }
        }
    }
}

fn line(bench: &Bench, r: &Row) -> Markup {
    let probe = bench.tests[r.test].probe;
    html! {
        a.line href={ "test?n=" (r.test + 1) } {
            @match r.had {
                Some((_, Verdict::Sound)) => "☑ ",
                Some(_) => strong.wrong { "✗ " },
                None => "☐ ",
            }
            span.head { (probe_words(bench.loom(), probe)) } " "
            span.rest { (band_words(probe, r.band.low, r.band.high)) @if let Some((v, verdict)) = r.had { ", had " (reading(probe, v)) ": " (verdict.word()) } }
        }
    }
}

/// What was really fitted: it goes into the plan, and the record keeps what it was.
fn built(proved: &Proved) -> Markup {
    let wires = &proved.bench.loom().wires;
    html! {
        details id="built" {
            summary { "Something was built otherwise than planned" }
            p.source { "It goes into the plan, and everything is worked out again; the record keeps what it was." }
            form method="post" action="built" {
                div.field {
                    label for="wire" { "Which wire?" }
                    select id="wire" name="wire" { @for w in wires { option value=(w.name) { (w.name) } } }
                }
                div.field {
                    label for="what" { "What of it?" }
                    select id="what" name="what" { option value="size" { "its size" } option value="length" { "its length" } option value="colour" { "its colour" } }
                }
                div.field {
                    label for="is" { "What was fitted?" }
                    input id="is" name="is" placeholder="like 6 mm², or 2.4 m" required autocomplete="off" autocapitalize="off";
                }
                button type="submit" { "Put it into the plan" }
            }
            p.source { "Anything else that is otherwise, a fuse, a place, an earth, is changed in the plan’s own forms." }
        }
    }
}

fn afresh(proved: &Proved) -> Markup {
    let evidence = &proved.heard.evidence;
    html! {
        @if !evidence.readings.is_empty() || !evidence.symptoms.is_empty() {
            form method="post" action="afresh" {
                p.source { "Something was mended, or another search begins: what was noted so far stays in the record, and no longer counts." }
                button.away type="submit" { "Begin afresh" }
            }
        }
    }
}

/// One test: what is switched on, where the tips go, what to expect, what was read.
pub(crate) fn one(
    job: &Job,
    proved: &Proved,
    number: usize,
    wrong: Option<&str>,
) -> Option<String> {
    let bench = &proved.bench;
    let at = number.clamp(1, bench.tests.len()) - 1;
    let t = bench.tests[at];
    let band = bench.band(at);
    let had = proved
        .heard
        .evidence
        .readings
        .iter()
        .rev()
        .find(|m| m.test == at);
    let state = &bench.settings[t.setting].state;
    let next = proved.answered.next.as_ref().filter(|n| n.test == at);
    let title = format!("Test {}", at + 1);
    let body = html! {
        nav.rooms aria-label="Proving" { a href="prove" { "The whole sheet" } " " a href="./" { "Plan and circuit" } }
        header { p.vehicle { "Test " (at + 1) " · " (state.name) } h1 { (capital(&probe_words(bench.loom(), t.probe))) } }
        main.step {
            p { "Switched on: " strong { (setting_words(bench, t.setting)) } ". Nothing else." }
            p.expect { "A sound one reads " strong { (band_words(t.probe, band.low, band.high)) } @if !matches!(t.probe, Probe::NewFuse(_) | Probe::NewFuseAlone(_)) { ", " (reading(t.probe, band.expected)) " as worked out" } "." }
            @if let Some(m) = had {
                @let verdict = band.verdict(m.value);
                p.state role="status" { "Had " strong { (reading(t.probe, m.value)) } ": " @if verdict == Verdict::Sound { (verdict.word()) } @else { strong.wrong { (verdict.word()) } } }
            }
            @if had.is_some() {
                (found(proved))
                @if let Some(then) = go_on(proved, at) {
                    p { a.big href={ "test?n=" (then + 1) } { "Next: " (probe_words(bench.loom(), bench.tests[then].probe)) } }
                }
            }
            @if let Some(wrong) = wrong { p.told.wrong role="alert" { (wrong) } }
            @match had.is_some() && wrong.is_none() {
                // What comes next is read at another test: this one is closed, to be opened on purpose.
                true => details { summary { "Measure this one again" } (entry(bench, at)) },
                false => (entry(bench, at)),
            }
            @if let Some(next) = next {
                details { summary { "What it would mean" }
                    ul { @for o in &next.outcomes {
                        li { strong { (band_words(t.probe, o.low, o.high)) } " (" (percent(o.probability)) "): " (o.causes.iter().take(3).map(|c| cause_words(bench, c)).collect::<Vec<_>>().join("; or ")) @if o.causes.len() > 3 { "; and " (o.causes.len() - 3) " more" } }
                    } }
                }
            }
            @for sheet in job.probing_picture(bench, at) {
                figure { div.drawing.broad data-marks=(t.probe.names(bench.loom()).join("|")) tabindex="0" role="group" aria-label=(sheet.title) { (PreEscaped(&sheet.svg)) } }
            }
            details { summary { "What can hurt" } ul { @for c in job::pack::CAUTIONS { li { (c) } } } }
        }
        script type="module" src="/sight.js" {}
    };
    Some(view::around(&title, &body))
}

/// Where a reading is typed.
fn entry(bench: &Bench, at: usize) -> Markup {
    html! {
        form method="post" action="read" {
            input type="hidden" name="test" value=(bench.name(at));
            input type="hidden" name="number" value=(at + 1);
            (keys(bench.tests[at].probe, bench.band(at).high))
            div.field {
                label for="who" { "Who reads it? (for the record, if you like)" }
                input id="who" name="who" autocomplete="name";
            }
        }
    }
}

/// The causes that stand out, once they do.
fn standing<'a>(proved: &'a Proved) -> Option<&'a Ranked> {
    let first = proved.answered.causes.first()?;
    let amiss = first.members.iter().any(|m| !m.causes.is_empty());
    let stands = amiss && first.probability >= STANDS_OUT && !proved.answered.fits_nothing;
    stands.then_some(first)
}

/// What stands out, once something does.
fn found(proved: &Proved) -> Markup {
    html! {
        @if let Some(class) = standing(proved) {
            h2 { "It is found" }
            (cause(&proved.bench, class))
            p { "Mend it, then " a href="prove" { "begin afresh" } " and measure again what was out." }
        }
    }
}

/// What the reading is typed into.
fn keys(probe: Probe, most: f64) -> Markup {
    // The unit that a sound reading is told in comes first.
    let units: &[&str] = match probe {
        Probe::Volts(..) if most < 1.0 => &["mV", "V"],
        Probe::Volts(..) => &["V", "mV"],
        Probe::Amps(_) | Probe::Drain if most < 1.0 => &["mA", "A"],
        Probe::Amps(_) | Probe::Drain => &["A", "mA"],
        Probe::Ohms(_) => &["Ω", "mΩ"],
        Probe::NewFuse(_) | Probe::NewFuseAlone(_) => &[],
    };
    html! {
        @if units.is_empty() {
            button.big type="submit" name="reading" value="holds" { "It holds" }
            button.big type="submit" name="reading" value="opens" { "It opens" }
        } @else {
            div.field.read {
                label for="reading" { "What does the meter say?" }
                input id="reading" name="reading" inputmode="decimal" autocomplete="off" required;
                label.hidden for="unit" { "unit" }
                select id="unit" name="unit" { @for u in units { option value=(u) { (u) } } }
            }
            @if matches!(probe, Probe::Ohms(_)) { button.big.plain type="submit" name="open" value="open" formnovalidate { "It is open" } }
            button.big type="submit" { "Note it" }
        }
    }
}
