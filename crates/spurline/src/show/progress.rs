//! How far a long work has come, on the terminal's error side; nothing where nobody looks.

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

/// A bar.
pub struct Progress {
    bar: ProgressBar,
}

impl Progress {
    /// For so many of `what`; it shows itself once there is something to tell.
    pub fn new(what: &'static str) -> Self {
        let bar = ProgressBar::with_draw_target(None, ProgressDrawTarget::stderr());
        let style = ProgressStyle::with_template("{bar:30} {pos} of {len} {msg}, {eta} left");
        if let Ok(style) = style {
            bar.set_style(style);
        }
        bar.set_message(what);
        Self { bar }
    }

    /// So many are done.
    pub fn at(&self, done: usize, all: usize) {
        self.bar.set_length(all as u64);
        self.bar.set_position(done as u64);
    }

    /// Takes it off the terminal.
    pub fn over(&self) {
        self.bar.finish_and_clear();
    }
}
