//! Drawings and the pack as files, read by programs that others wrote: `qpdf` finds the PDF sound, `pdffonts` its fonts embedded,
//! `pdftotext` its words.

use crate::run::{examples, spurline, status};
use std::path::Path;
use std::process::Command;

/// The pack of an example, in a folder.
fn packed(name: &str, more: &[&str]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = examples().join(name);
    let mut args = vec!["pack", plan.to_str().expect("a path"), "--into", "."];
    args.extend(more);
    // 0 or 1: a finding may stop the plan, and the pack says so.
    assert!(status(&spurline(folder.path(), &args)) < 2, "{name}");
    folder
}

/// What a program says of the PDF in a folder.
fn asked(program: &str, args: &[&str], folder: &Path) -> String {
    let out = Command::new(program)
        .args(args)
        .current_dir(folder)
        .output();
    let out = out.unwrap_or_else(|e| panic!("{program}: {e}; `cargo xtask ci` installs it"));
    assert!(out.status.success(), "{program}: {out:?}");
    String::from_utf8_lossy(&out.stdout).into_owned()
}

#[test]
fn packs_of_the_examples_are_sound_and_hold_every_part() {
    for name in ["farm.toml", "camper.toml", "lorry.toml"] {
        let folder = packed(name, &[]);
        let said = asked("qpdf", &["--check", "pack.pdf"], folder.path());
        assert!(
            said.contains("No syntax or stream encoding errors"),
            "{said}"
        );
        let fonts = asked("pdffonts", &["pack.pdf"], folder.path());
        let mut fonts = fonts.lines().skip(2).peekable();
        assert!(fonts.peek().is_some());
        // From the end: object ID (two), unicode, subset, embedded.
        let embedded = |line: &str| line.split_whitespace().rev().nth(4) == Some("yes");
        assert!(fonts.all(embedded), "{name}");
        let text = asked("pdftotext", &["-layout", "pack.pdf", "-"], folder.path());
        for heading in [
            "Contents",
            "Before you start",
            "What was checked, and what was not",
            "To buy",
            "Build steps",
            "At the bench",
            "Power on",
            "Test sheet",
            "Assumed, and how to set it",
            "Labels",
            "To isolate",
        ] {
            assert!(text.contains(heading), "{name}: {heading}");
        }
        let page = std::fs::read_to_string(folder.path().join("pack.html")).expect("a page");
        for id in [
            "diagram", "board", "route", "steps", "tests", "card", "labels",
        ] {
            assert!(page.contains(&format!("id=\"{id}\"")), "{name}: {id}");
        }
        // It asks no other host.
        for asks in ["src=\"http", "href=\"http", "url(http"] {
            assert!(!page.contains(asks), "{name}: {asks}");
        }
    }
}

#[test]
fn every_wire_of_the_farm_is_in_the_words_of_the_pack() {
    let folder = packed("farm.toml", &[]);
    let text = asked("pdftotext", &["pack.pdf", "-"], folder.path());
    for wire in ["W0.1", "W0.2", "W1.1", "W1.12", "W2.1", "W2.8"] {
        assert!(text.matches(wire).count() > 3, "{wire}");
    }
}

#[test]
fn the_same_plan_gives_the_same_bytes() {
    let [a, b] = [packed("farm.toml", &[]), packed("farm.toml", &[])];
    for file in ["pack.pdf", "pack.html", "board-1.svg", "route-1.svg"] {
        let read =
            |folder: &tempfile::TempDir| std::fs::read(folder.path().join(file)).expect(file);
        assert!(read(&a) == read(&b), "{file}");
    }
}

#[test]
fn one_part_alone_on_other_paper_with_a_date() {
    let folder = packed("farm.toml", &["--only", "card"]);
    let pages = asked("pdfinfo", &["pack.pdf"], folder.path());
    // A6: 105 × 148 mm in points of 1/72 inch.
    assert!(pages.contains("297.638 x 419.528"), "{pages}");
    assert!(!folder.path().join("circuit-1.svg").exists());
    let folder = packed("farm.toml", &["--paper", "letter", "--date", "1 May"]);
    let pages = asked("pdfinfo", &["pack.pdf"], folder.path());
    assert!(pages.contains("612 x 792"), "{pages}");
    let text = asked("pdftotext", &["-l", "1", "pack.pdf", "-"], folder.path());
    assert!(text.contains("Date: 1 May"), "{text}");
    let folder = packed("farm.toml", &["--html"]);
    assert!(folder.path().join("pack.html").exists() && !folder.path().join("pack.pdf").exists());
}

#[test]
fn the_loom_board_comes_as_large_as_the_loom() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = examples().join("farm.toml");
    let plan = plan.to_str().expect("a path");
    let args = ["draw", plan, "--into", ".", "--full-size"];
    assert_eq!(status(&spurline(folder.path(), &args)), 0);
    let tiles = std::fs::read_dir(folder.path())
        .expect("the folder")
        .flatten();
    let tiles = tiles.filter(|f| f.file_name().to_string_lossy().starts_with("board-full-"));
    assert!(tiles.count() > 10);
    // Nothing is written over without a word.
    assert_eq!(status(&spurline(folder.path(), &args)), 2);
}
