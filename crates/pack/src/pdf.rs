//! The content as a PDF, typeset by `typst` as a library. No file, clock or network is touched:
//! fonts are embedded, drawings are handed over in memory. The same content gives the same bytes.

mod markup;

use crate::content::Content;
use std::collections::BTreeMap;
use std::fmt;
use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration, Smart};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};
use typst_layout::PagedDocument;
use typst_pdf::PdfOptions;

/// Why a PDF could not be made: what the typesetter said.
#[derive(Debug)]
pub struct PdfError(String);

impl fmt::Display for PdfError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the pack could not be typeset: {}", self.0)
    }
}

impl std::error::Error for PdfError {}

/// Typesets the content.
pub fn pdf(content: &Content) -> Result<Vec<u8>, PdfError> {
    let mut files = BTreeMap::new();
    let text = markup::write(content, &mut files);
    let desk = Desk::new(text, files)?;
    let said = |errors: typst::ecow::EcoVec<typst::diag::SourceDiagnostic>| {
        PdfError(
            errors
                .iter()
                .map(|e| e.message.to_string())
                .collect::<Vec<_>>()
                .join("; "),
        )
    };
    let document: PagedDocument = typst::compile(&desk).output.map_err(said)?;
    let options = PdfOptions {
        ident: Smart::Custom(content.title.clone()),
        creator: Smart::Custom(Some("Spurline".into())),
        ..PdfOptions::default()
    };
    typst_pdf::pdf(&document, &options).map_err(said)
}

/// All that the typesetter sees of the world: one text, the drawings, the fonts.
struct Desk {
    library: LazyHash<Library>,
    book: LazyHash<FontBook>,
    fonts: Vec<Font>,
    main: Source,
    /// By id; there are a handful, so a list will do.
    files: Vec<(FileId, Bytes)>,
}

fn id(name: &str) -> Result<FileId, PdfError> {
    let path = VirtualPath::new(name).map_err(|e| PdfError(format!("{name}: {e:?}")))?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}

impl Desk {
    fn new(text: String, drawings: BTreeMap<String, String>) -> Result<Self, PdfError> {
        let data = [
            dejavu::sans::regular(),
            dejavu::sans::bold(),
            dejavu::sans_mono::regular(),
        ];
        let fonts: Vec<Font> = data
            .into_iter()
            .flat_map(|d| Font::iter(Bytes::new(d)))
            .collect();
        let mut files = Vec::new();
        for (name, svg) in drawings {
            files.push((id(&name)?, Bytes::from_string(svg)));
        }
        Ok(Self {
            library: LazyHash::new(Library::default()),
            book: LazyHash::new(FontBook::from_fonts(&fonts)),
            fonts,
            main: Source::new(id("pack.typ")?, text),
            files,
        })
    }
}

impl World for Desk {
    fn library(&self) -> &LazyHash<Library> {
        &self.library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &self.book
    }

    fn main(&self) -> FileId {
        self.main.id()
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        if id == self.main.id() {
            return Ok(self.main.clone());
        }
        Err(FileError::AccessDenied)
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        let found = self.files.iter().find(|(known, _)| *known == id);
        found
            .map(|(_, bytes)| bytes.clone())
            .ok_or(FileError::AccessDenied)
    }

    fn font(&self, index: usize) -> Option<Font> {
        self.fonts.get(index).cloned()
    }

    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        // The pack has no clock; a date comes in the content or not at all.
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::content::{Align, Block, Column, Section, Table};

    fn sample(text: &str) -> Content {
        let column = Column {
            title: "wire".into(),
            align: Align::Left,
        };
        let table = Table {
            columns: vec![column],
            rows: vec![vec![text.to_owned()]],
        };
        Content {
            date: None,
            paper: crate::Paper::A4,
            title: text.to_owned(),
            vehicle: text.to_owned(),
            owner: None,
            sections: vec![Section {
                id: "wires",
                title: "Wires".into(),
                blocks: vec![Block::Text(text.to_owned()), Block::Table(table)],
            }],
        }
    }

    #[test]
    fn the_same_content_gives_the_same_bytes() {
        let content = sample("rack lamps");
        let first = pdf(&content).unwrap();
        assert!(first.starts_with(b"%PDF"));
        assert_eq!(first, pdf(&content).unwrap());
    }

    #[test]
    fn text_is_never_taken_for_markup() {
        for hostile in [
            "#panic()",
            "\"]) #import \"x\"",
            "a\\b \u{7} $x$ *y* [z]",
            "=\n\n= 中文 ٪",
        ] {
            assert!(pdf(&sample(hostile)).is_ok(), "{hostile}");
        }
    }
}
