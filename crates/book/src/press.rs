//! From the content to the bytes of a PDF.

use typst::LibraryExt;
use typst::diag::{FileError, FileResult, SourceDiagnostic};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, World};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};

use crate::BookError;
use crate::content::{Block, Content, Picture};
use crate::letters::Letters;
use crate::tail;

const TEMPLATE: &str = include_str!("template.typ");
const MAIN: &str = "/book.typ";
const DATA: &str = "/book.json";

const FONTS: [&[u8]; 3] = [
    include_bytes!("../fonts/Inter-Regular.otf"),
    include_bytes!("../fonts/Inter-Bold.otf"),
    include_bytes!("../fonts/Inter-Italic.otf"),
];

/// Sets and prints. The same content gives the same bytes.
pub(crate) fn print(content: &Content) -> Result<Vec<u8>, BookError> {
    let document = set(content)?;
    let standards = PdfStandards::new(&[PdfStandard::A_2a, PdfStandard::Ua_1])
        .map_err(|fault| BookError::Press { says: fault.message().to_string() })?;
    let options = PdfOptions { standards, ..PdfOptions::default() };
    let bytes = typst_pdf::pdf(&document, &options).map_err(|faults| failed(&faults))?;
    // Whoever prints many books must not keep the parts of all of them.
    typst::comemo::evict(10);
    Ok(bytes)
}

/// The pages. Sheets that run over by a few lines are set closer.
pub(crate) fn set(content: &Content) -> Result<PagedDocument, BookError> {
    let document = set_once(content)?;
    let running_over = tail::nearly_empty(&document);
    if running_over.is_empty() {
        return Ok(document);
    }
    let mut closer = content.clone();
    for (index, sheet) in closer.sheets.iter_mut().enumerate() {
        sheet.close = running_over.contains(&index);
    }
    set_once(&closer)
}

/// As they fall.
pub(crate) fn set_once(content: &Content) -> Result<PagedDocument, BookError> {
    let shop = Shop::new(content)?;
    let set = typst::compile::<PagedDocument>(&shop);
    let document = set.output.map_err(|faults| failed(&faults))?;
    // A font or a picture that is not there is only a warning to the typesetter.
    if set.warnings.is_empty() { Ok(document) } else { Err(failed(&set.warnings)) }
}

fn failed(faults: &[SourceDiagnostic]) -> BookError {
    let says: Vec<&str> = faults.iter().map(|fault| fault.message.as_str()).collect();
    BookError::Press { says: says.join("; ") }
}

/// The files and fonts that the typesetter can reach: nothing else, no disk and no network.
struct Shop {
    library: LazyHash<Library>,
    book: LazyHash<FontBook>,
    fonts: Vec<Font>,
    main: FileId,
    source: Source,
    files: Vec<(FileId, Bytes)>,
}

impl Shop {
    fn new(content: &Content) -> Result<Self, BookError> {
        let fonts: Vec<Font> = FONTS.iter().flat_map(|&data| Font::iter(Bytes::new(data))).collect();
        let main = file(MAIN)?;
        let letters = Letters::of(&fonts);
        let mut files = vec![(file(DATA)?, Bytes::new(letters.json(content)?))];
        for picture in pictures(content) {
            files.push((file(&picture.file)?, Bytes::new(letters.only(&picture.svg).into_bytes())));
        }
        Ok(Self {
            library: LazyHash::new(Library::default()),
            book: LazyHash::new(FontBook::from_fonts(&fonts)),
            fonts,
            main,
            source: Source::new(main, TEMPLATE.to_owned()),
            files,
        })
    }
}

fn file(path: &str) -> Result<FileId, BookError> {
    let path = VirtualPath::new(path).map_err(|fault| BookError::Press { says: format!("{path}: {fault:?}") })?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}

/// Every picture, also in columns.
pub(crate) fn pictures(content: &Content) -> Vec<&Picture> {
    content.sheets.iter().flat_map(|sheet| within(&sheet.blocks)).collect()
}

fn within(blocks: &[Block]) -> Vec<&Picture> {
    blocks.iter().flat_map(in_block).collect()
}

fn in_block(block: &Block) -> Vec<&Picture> {
    match block {
        Block::Figure(picture) => vec![picture],
        Block::Columns { blocks, .. } | Block::Together { blocks } => within(blocks),
        Block::Beside { left, right } => within(left).into_iter().chain(within(right)).collect(),
        _ => Vec::new(),
    }
}

impl World for Shop {
    fn library(&self) -> &LazyHash<Library> {
        &self.library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &self.book
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        if id == self.main { Ok(self.source.clone()) } else { Err(FileError::AccessDenied) }
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        let found = self.files.iter().find(|(file, _)| *file == id);
        found.map(|(_, bytes)| bytes.clone()).ok_or(FileError::AccessDenied)
    }

    fn font(&self, index: usize) -> Option<Font> {
        self.fonts.get(index).cloned()
    }

    /// There is no clock in the press.
    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}
