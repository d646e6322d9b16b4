//! Runs the binary in a folder, and makes plans to run it on.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

pub fn examples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples")
}

pub fn spurline(folder: &Path, args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_spurline"))
        .current_dir(folder)
        .args(args)
        .output()
        .expect("the binary runs")
}

pub fn status(o: &Output) -> i32 {
    o.status.code().unwrap_or(-1)
}

pub fn out(o: &Output) -> String {
    String::from_utf8(o.stdout.clone()).expect("UTF-8")
}

pub fn err(o: &Output) -> String {
    String::from_utf8(o.stderr.clone()).expect("UTF-8")
}

/// The farm's plan in a folder of its own, with this put in place of that.
pub fn farm_with(folder: &Path, name: &str, that: &str, this: &str) {
    let text = std::fs::read_to_string(examples().join("farm.toml")).expect("the example");
    let changed = text.replace(that, this);
    assert!(that.is_empty() || changed != text, "nothing was changed");
    std::fs::write(folder.join(name), changed).expect("written");
}
