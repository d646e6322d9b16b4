//! What tidy looks at: every text file of the workspace, and its Rust sources parsed.

use super::Violation;
use super::source::Source;
use std::path::Path;

/// The workspace, read once.
pub(super) struct House {
    /// Paths of all files, of whatever kind.
    files: Vec<String>,
    /// Text files that are no Rust, as path and text.
    pub texts: Vec<(String, String)>,
    /// Rust sources.
    pub sources: Vec<Source>,
    /// Rust sources that could not be parsed.
    pub unread: Vec<Violation>,
}

impl House {
    /// Reads it from its root.
    pub fn read(root: &Path) -> Self {
        let files = walk(root);
        let texts = files.iter().filter_map(|path| {
            let text = std::fs::read_to_string(root.join(path)).ok()?;
            Some((path.clone(), text))
        });
        let mut house = Self::of(texts);
        house.files = files;
        house
    }

    /// From paths and texts.
    pub fn of(files: impl IntoIterator<Item = (String, String)>) -> Self {
        let mut house = Self {
            files: Vec::new(),
            texts: Vec::new(),
            sources: Vec::new(),
            unread: Vec::new(),
        };
        for (path, text) in files {
            house.files.push(path.clone());
            if !path.ends_with(".rs") {
                house.texts.push((path, text));
                continue;
            }
            match Source::parse(&path, text) {
                Ok(source) => house.sources.push(source),
                Err((line, what)) => {
                    house
                        .unread
                        .push(Violation::new(&path, line, what, "make it compile first"))
                }
            }
        }
        let tests: Vec<String> = house
            .sources
            .iter()
            .flat_map(Source::test_modules)
            .collect();
        for source in &mut house.sources {
            source.is_test |= tests.iter().any(|t| source.path.starts_with(t.as_str()));
        }
        house
    }

    /// Whether there is such a file, or a folder with files in it.
    pub fn has(&self, path: &str) -> bool {
        let leads = |f: &String| {
            f.strip_prefix(path)
                .is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
        };
        self.files.iter().any(leads)
    }

    /// The text of a file that is no Rust.
    pub fn text(&self, path: &str) -> Option<&str> {
        self.texts
            .iter()
            .find(|(p, _)| p == path)
            .map(|(_, t)| t.as_str())
    }
}

/// Every file below the root, sorted, as paths from it; without what is built and what git keeps.
pub fn walk(root: &Path) -> Vec<String> {
    let mut found = Vec::new();
    walk_into(root, "", &mut found);
    found.sort();
    found
}

fn walk_into(root: &Path, below: &str, found: &mut Vec<String>) {
    let Ok(entries) = std::fs::read_dir(root.join(below)) else {
        return;
    };
    for entry in entries.flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        let path = if below.is_empty() {
            name.clone()
        } else {
            format!("{below}/{name}")
        };
        match entry.file_type() {
            Ok(kind)
                if kind.is_dir()
                    && !["target", ".git", "node_modules"].contains(&name.as_str()) =>
            {
                walk_into(root, &path, found);
            }
            Ok(kind) if kind.is_file() => found.push(path),
            _ => {}
        }
    }
}
