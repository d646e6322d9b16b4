//! Errors of a text: file, line and column, the line itself, what is wrong, how to mend it; all of
//! them.

use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};
use job::{Job, Source, Told};

/// Prints every error of a job's texts to standard error.
pub fn errors(job: &Job) {
    let told: Vec<Told> = job.errors().into_iter().cloned().collect();
    errors_in(job.sources(), &told);
}

/// Prints every error told of these texts to standard error.
pub fn errors_in(sources: &[Source], told: &[Told]) {
    let shown: Vec<String> = told.iter().map(|t| one(sources, t)).collect();
    anstream::eprintln!("{}", shown.join("\n\n"));
    let many = if told.len() == 1 {
        "1 error".to_owned()
    } else {
        format!("{} errors", told.len())
    };
    anstream::eprintln!("\n{many}; nothing was worked out.");
}

fn one(sources: &[Source], told: &Told) -> String {
    let source = &sources[told.source];
    let f = &told.finding;
    let range = range(&source.text, f.span().unwrap_or_default().range());
    let snippet = Snippet::source(source.text.as_str())
        .path(source.name.as_str())
        .annotation(AnnotationKind::Primary.span(range).label(f.mend.as_str()));
    let group =
        Group::with_title(Level::ERROR.primary_title(f.says.as_str()).id(f.id)).element(snippet);
    Renderer::styled()
        .decor_style(DecorStyle::Ascii)
        .render(&[group])
}

/// A span that lies in the text, on character boundaries, and shows one line only: the first of a
/// long table.
fn range(text: &str, span: std::ops::Range<usize>) -> std::ops::Range<usize> {
    let floor = |mut at: usize| {
        at = at.min(text.len());
        while !text.is_char_boundary(at) {
            at -= 1;
        }
        at
    };
    let start = floor(span.start);
    let line_end = text[start..].find('\n').map_or(text.len(), |i| start + i);
    start..floor(span.end).clamp(start, line_end)
}
