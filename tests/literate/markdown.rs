//! Markdown as far as cases need it: headings, prose, and fenced blocks with their info string.

/// A fenced block.
#[derive(Clone, Debug)]
pub(super) struct Block {
    /// The words after the fence: "toml", "expect", "toml base one lamp".
    pub info: String,
    /// Line of the fence, from 1.
    pub line: usize,
    /// Its lines.
    pub text: String,
}

/// A heading with all that stands under it, up to the next heading.
#[derive(Clone, Debug)]
pub(super) struct Section {
    /// The heading's words.
    pub title: String,
    /// Its line, from 1.
    pub line: usize,
    /// Whether there is any prose.
    pub prose: bool,
    /// Its fenced blocks, in order.
    pub blocks: Vec<Block>,
}

/// The sections of a text, or what is wrong with its Markdown.
pub(super) fn sections(text: &str) -> Result<Vec<Section>, String> {
    let mut found: Vec<Section> = Vec::new();
    let mut open: Option<Block> = None;
    for (i, line) in text.lines().enumerate() {
        if let Some(block) = &mut open {
            if line.trim_end() == "```" {
                let done = open.take();
                found
                    .last_mut()
                    .ok_or("a block stands before any heading")?
                    .blocks
                    .extend(done);
            } else {
                block.text += line;
                block.text += "\n";
            }
        } else if let Some(info) = line.strip_prefix("```") {
            open = Some(Block {
                info: info.trim().to_owned(),
                line: i + 1,
                text: String::new(),
            });
        } else if line.starts_with('#') {
            found.push(Section {
                title: line.trim_start_matches('#').trim().to_owned(),
                line: i + 1,
                prose: false,
                blocks: Vec::new(),
            });
        } else if let Some(section) = found.last_mut() {
            section.prose |= line.chars().any(char::is_alphabetic);
        }
    }
    match open {
        Some(block) => Err(format!("the block of line {} is never closed", block.line)),
        None => Ok(found),
    }
}

#[test]
fn blocks_keep_their_lines_and_what_they_hold() {
    let text = "# One\nwords\n```toml\na = 1\n# no heading\n```\n## Two\n```expect\nreads\n```\n";
    let found = sections(text).unwrap_or_else(|e| panic!("{e}"));
    assert_eq!(found.len(), 2);
    assert!(found[0].prose && !found[1].prose);
    assert_eq!(
        (found[0].blocks[0].line, found[0].blocks[0].text.as_str()),
        (3, "a = 1\n# no heading\n")
    );
    assert_eq!((found[1].title.as_str(), found[1].line), ("Two", 7));
    assert!(sections("# x\n```toml\n").is_err());
    assert!(sections("```toml\n```\n").is_err());
}
