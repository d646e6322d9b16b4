//! Starts other programs. Takes a command line, passes its output through, gives how it ended.

use super::{Outcome, say};
use std::path::Path;
use std::process::{Command, Stdio};

/// Runs `cargo` with these words, which hold no blanks themselves, and these variables.
pub fn cargo(root: &Path, words: &str, variables: &[(&str, &str)]) -> Outcome {
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let mut command = Command::new(cargo);
    command
        .args(words.split(' '))
        .envs(variables.iter().copied())
        .current_dir(root);
    through(command, &format!("cargo {words}"))
}

/// Runs a program with these words.
pub fn program(root: &Path, program: &str, words: &[&str]) -> Outcome {
    let mut command = Command::new(program);
    command.args(words).current_dir(root);
    through(command, &format!("{program} {}", words.join(" ")))
}

fn through(mut command: Command, shown: &str) -> Outcome {
    say(&format!("$ {shown}"));
    match command.status() {
        Ok(status) if status.success() => Ok(()),
        Ok(status) => Err(format!("`{shown}` ended with {status}")),
        Err(e) => Err(format!("`{shown}` could not be started: {e}")),
    }
}

/// What a program prints, if it starts and ends well.
pub fn printed(root: &Path, program: &str, words: &[&str]) -> Option<String> {
    let mut command = Command::new(program);
    let output = command
        .args(words)
        .current_dir(root)
        .stderr(Stdio::null())
        .output()
        .ok()?;
    output
        .status
        .success()
        .then(|| String::from_utf8_lossy(&output.stdout).trim().to_owned())
}

/// Whether a program stands on the search path.
pub fn there_is(program: &str) -> bool {
    let path = std::env::var_os("PATH").unwrap_or_default();
    std::env::split_paths(&path).any(|dir| dir.join(program).is_file())
}
