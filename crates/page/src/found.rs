//! What is found, always in sight, the worst first: touch one and the drawing shows where; press its mend and the plan is
//! changed by it.

use crate::asked::Asked;
use crate::form::field;
use crate::kept::Seen;
use job::{Finding, Job, Told, Weight};
use maud::{Markup, html};

/// How many there are, always in sight, and the way to them.
pub(crate) fn tally(seen: &Seen) -> Markup {
    let errors = seen.job.errors().len();
    let findings = seen.job.answers().map_or(&[][..], |a| &a.findings);
    let worst = findings.first().map(|f| f.weight.to_string());
    html! {
        p id="tally" {
            @match errors {
                0 => {
                    a class=[worst] href="#found" { (job::pack::tally(findings)) }
                    (faults(seen.faults))
                }
                1 => a.stop href="#found" { "1 thing to mend before anything can be worked out" },
                n => a.stop href="#found" { (n) " to mend before anything can be worked out" },
            }
        }
    }
}

/// What came of every fault, or that it is still to be tried.
pub(crate) fn faults(tried: Option<[usize; 2]>) -> Markup {
    html! {
        @match tried {
            None => a.untried href="faults" { "Every fault: not tried on this plan yet" },
            Some([0, 0]) => a.untried href="faults" { "Every fault was tried: nothing burns" },
            Some([stops, mends]) => a class=(if stops > 0 { "stop" } else { "mend" }) href="faults" { "Every fault was tried: " (stops) " stop, " (mends) " to mend" },
        }
    }
}

/// What the last change made of wires and fuses: so many are told.
const TOLD: usize = 6;

fn resized(seen: &Seen) -> Markup {
    let all = &seen.resized;
    let each = |r: &job::study::Resized| format!("{} {}, was {}", r.name, r.is, r.was);
    let told: Vec<String> = all.iter().take(TOLD).map(each).collect();
    let more = all.len().saturating_sub(TOLD);
    html! {
        // There or not, it keeps its place: what is opened after it stays open.
        p.resized role="status" {
            @if !told.is_empty() { "The last change made other sizes: " (told.join("; ")) @if more > 0 { "; and " (more) " more" } "." }
        }
    }
}

/// The findings of a job that can be read, or the errors of one that can't.
pub(crate) fn found(seen: &Seen, asked: &Asked) -> Markup {
    let errors = seen.job.errors();
    let findings = match errors.is_empty() {
        true => seen.job.answers().map_or(&[][..], |a| &a.findings),
        false => &[],
    };
    let worst = findings.iter().filter(|f| f.weight != Weight::Note).count();
    let open = !errors.is_empty() || worst > 0;
    html! {
        section id="found" aria-label="Findings" {
            p.hidden role="status" { @if errors.is_empty() { (job::pack::tally(findings)) } @else { (errors.len()) " to mend in the plan" } }
            (resized(seen))
            details open[open] data-open=(open) {
                summary { "What is found" }
                @if !seen.best && errors.is_empty() { p.source { "A first look: these sizes hold in the states that mostly decide. The best sizes are being sought in every state, and this page then follows." } }
                @for t in &errors { (error(&seen.job, t, asked)) }
                ol.bare { @for (i, f) in findings.iter().enumerate() { li { (finding(seen, asked, i, f)) } } }
            }
        }
    }
}

fn finding(seen: &Seen, asked: &Asked, i: usize, f: &Finding) -> Markup {
    let names = f.names().join("|");
    let shown = !names.is_empty() && asked.get("find") == Some(&names);
    let next = match shown {
        true => asked.with("find", None),
        false => asked.with("find", Some(&names)).with("beside", None),
    };
    let remedies = match f.weight {
        Weight::Note => Vec::new(),
        _ => seen.job.remedies(f),
    };
    html! {
        article class={ "finding " (f.weight) } {
            p.says { strong { (f.weight) } " " (f.says) }
            p.mend { "Mend: " (f.mend) }
            p.deeds {
                @if !names.is_empty() {
                    a.deed href=(next.href()) aria-current=[shown.then_some("true")] { @if shown { "Shown on the drawing" } @else { "Show where" } }
                }
                @if f.id == "day-empties" { a.deed href="supply" { "The whole day" } }
                @for q in seen.job.questions(f) {
                    @let at = q.path.as_ref().map_or_else(|| "plan".to_owned(), |path| field::id(&q.entry, path));
                    a.deed.to href={ (asked.with("edit", Some(&q.entry)).href()) "#" (at) } { (q.of) @if !q.asks.is_empty() { ": " (q.asks) } }
                }
                @if let Some(first) = remedies.first() {
                    form.deed method="post" action={ "mend" (asked.href()) } {
                        input type="hidden" name="seen" value=(seen.revision);
                        input type="hidden" name="finding" value=(i);
                        input type="hidden" name="what" value=(f.id);
                        @match remedies.len() {
                            1 => button type="submit" { "Mend it: " (first.says) },
                            n => button type="submit" title=(remedies.iter().map(|r| r.says.as_str()).collect::<Vec<_>>().join("; ")) { "Mend it: try " (n) " ways, first " (first.says) },
                        }
                    }
                }
            }
        }
    }
}

/// An error of a text, with its line; one of the plan leads there.
pub(crate) fn error(job: &Job, told: &Told, asked: &Asked) -> Markup {
    let source = &job.sources()[told.source];
    let span = told.finding.span().unwrap_or_default();
    let (line, column) = span.line_column(&source.text);
    let text = source.text.lines().nth(line - 1).unwrap_or("");
    let to_text = asked.with("beside", Some("text")).href();
    let entry = (told.source == 0)
        .then(|| crate::form::entry_at(&source.text, span))
        .flatten();
    html! {
        article.finding.stop {
            p.says { strong { "stop" } " " (told.finding.says) }
            p.source {
                @if told.source == 0 { a href={ (to_text) "#line-" (line) } { (source.name) ", line " (line) } } @else { (source.name) ", line " (line) }
                ", column " (column)
            }
            pre tabindex="0" { (text) }
            @if let Some(entry) = entry { p.deeds { a.deed href={ (asked.with("edit", Some(&entry)).href()) "#plan" } { "Open its form" } } }
            p.mend { "Mend: " (told.finding.mend) }
        }
    }
}
