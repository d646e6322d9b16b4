//! Every Markdown file under this folder, read once: bases by name, and cases.

use super::case::{Base, Bases, Case};
use super::markdown::{Section, sections};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

/// All that the folders hold.
pub(super) struct Library {
    pub bases: Bases,
    pub cases: Vec<Case>,
}

/// Where the cases lie.
pub(super) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("literate")
}

/// The files under a folder with this ending, in the order of their names.
pub(super) fn files(under: &Path, ending: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let entries = fs::read_dir(under).unwrap_or_else(|e| panic!("{}: {e}", under.display()));
    for entry in entries {
        let path = entry.unwrap_or_else(|e| panic!("{e}")).path();
        if path.is_dir() {
            found.extend(files(&path, ending));
        } else if path.extension().is_some_and(|e| e == ending) {
            found.push(path);
        }
    }
    found.sort();
    found
}

pub(super) fn library() -> &'static Library {
    static LIBRARY: OnceLock<Library> = OnceLock::new();
    LIBRARY.get_or_init(read)
}

fn read() -> Library {
    let mut library = Library {
        bases: BTreeMap::new(),
        cases: Vec::new(),
    };
    for path in files(&root(), "md") {
        let text = fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
        let file = path
            .strip_prefix(root())
            .unwrap_or(&path)
            .display()
            .to_string();
        let found = sections(&text).unwrap_or_else(|e| panic!("tests/literate/{file}: {e}"));
        for section in found {
            library.put(&file, &section);
        }
    }
    library
}

impl Library {
    fn put(&mut self, file: &str, section: &Section) {
        let at = format!("tests/literate/{file}:{}", section.line);
        for block in &section.blocks {
            let Some(name) = block.info.strip_prefix("toml base ") else {
                continue;
            };
            let base = Base {
                text: block.text.clone(),
                at: at.clone(),
            };
            let before = self.bases.insert(name.to_owned(), base);
            assert!(before.is_none(), "{at}: there is another base “{name}”");
        }
        if section.blocks.iter().any(|b| b.info == "toml") {
            let case = Case::new(file, section);
            let twin = self
                .cases
                .iter()
                .find(|c| c.title == case.title && c.file == case.file);
            assert!(
                twin.is_none(),
                "{at}: there is another case “{}” in this file",
                case.title
            );
            self.cases.push(case);
        }
    }
}
