//! What a person sees in a terminal: colour when a person looks, plain when piped.

mod errors;
mod progress;
mod report;

pub use errors::{errors, errors_in};
pub use progress::Progress;
pub use report::{content, section, text};

use anstyle::{AnsiColor, Style};

/// Style of what stops.
pub const STOP: Style = AnsiColor::Red.on_default().bold();
/// Style of what is to be mended.
pub const MEND: Style = AnsiColor::Yellow.on_default().bold();
/// Style of what is to be known.
pub const NOTE: Style = AnsiColor::Cyan.on_default().bold();
/// Style of headings.
pub const HEAD: Style = Style::new().bold().underline();
/// Style of what matters least.
pub const FAINT: Style = Style::new().dimmed();

/// Says what went wrong with a file or an argument, and the mend, to standard error.
pub fn complain(what: &str, mend: &str) {
    anstream::eprintln!("{STOP}stop{STOP:#} {what}\n     {mend}");
}

/// Width to wrap at: the terminal's, or what fits a page when piped.
pub fn width() -> usize {
    terminal_size::terminal_size()
        .map_or(110, |(w, _)| usize::from(w.0))
        .clamp(60, 160)
}

/// Says what is being done, to a person who waits for it; says nothing where nobody looks.
pub fn under_way(what: &str) {
    if std::io::IsTerminal::is_terminal(&std::io::stderr()) {
        anstream::eprintln!("{FAINT}{what} …{FAINT:#}");
    }
}
