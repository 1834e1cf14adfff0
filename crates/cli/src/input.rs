use std::fs::File;
use std::io::{ErrorKind, Read};
use std::path::Path;

use reader::{Format, LARGEST, decode};

use crate::note::Note;

/// A file that a person wrote.
#[derive(Debug)]
pub(crate) struct Source {
    /// As the person named it.
    pub(crate) name: String,
    pub(crate) text: String,
    /// By the name's ending: JSON for `.json`, TOML for any other.
    pub(crate) format: Format,
}

/// Reads a whole text file.
pub(crate) fn read(path: &Path) -> Result<Source, Box<Note>> {
    let name = path.display().to_string();
    let bytes = bytes(path, LARGEST, "nobody types that much")?;
    let text = decode(&bytes).map_err(|mistake| {
        Box::new(Note::plain(format!("{name}, line {}: {}", mistake.line, mistake.says), mistake.remedy))
    })?;
    // Some editors begin a file with a mark of its encoding.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text).to_owned();
    Ok(Source { name, text, format: format(path) })
}

fn format(path: &Path) -> Format {
    let is_json = path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("json"));
    if is_json { Format::Json } else { Format::Toml }
}

/// Reads a whole file, unless it is larger than `most` bytes; `then` says what that means.
pub(crate) fn bytes(path: &Path, most: usize, then: &str) -> Result<Vec<u8>, Box<Note>> {
    let name = path.display();
    if path.is_dir() {
        return Err(Box::new(Note::plain(format!("{name} is a folder, not a file"), "Name the file in it.")));
    }
    let mut bytes = Vec::new();
    // One byte more than is allowed tells that there is too much, without reading it all.
    let read = File::open(path).and_then(|file| file.take(most as u64 + 1).read_to_end(&mut bytes));
    match read {
        Err(error) if error.kind() == ErrorKind::NotFound => {
            Err(Box::new(Note::plain(format!("there is no file {name}"), "Check the name and the folder you are in.")))
        }
        Err(error) => Err(Box::new(Note::plain(format!("{name} cannot be read: {error}"), "Check that you may read it."))),
        Ok(_) if bytes.len() > most => {
            let says = format!("{name} is larger than {} MB: {then}", most >> 20);
            Err(Box::new(Note::plain(says, "Check that this is the right file.")))
        }
        Ok(_) => Ok(bytes),
    }
}
