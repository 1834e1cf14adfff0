use std::fs;
use std::io::{ErrorKind, Write};
use std::path::Path;

use crate::Ending;
use crate::note::Note;

/// Prints a result. A reader that has seen enough and closes the pipe is no error.
pub(crate) fn print(result: &str) -> Ending {
    let mut out = std::io::stdout().lock();
    match out.write_all(result.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => {
            tell(&[Note::plain(
                format!("the result cannot be written: {error}"),
                "Look at the disk or the pipe it goes to.",
            )]);
            Ending::NotAll
        }
        _ => Ending::Done,
    }
}

/// Writes a file.
///
/// # Errors
/// The note that tells why it is not there.
pub(crate) fn write_file(path: &Path, bytes: impl AsRef<[u8]>) -> Result<(), Box<Note>> {
    fs::write(path, bytes).map_err(|error| unwritten(path, &error))
}

/// What is said of a file or a folder that could not be made.
pub(crate) fn unwritten(path: &Path, error: &std::io::Error) -> Box<Note> {
    let says = format!("{} cannot be written: {error}", path.display());
    Box::new(Note::plain(says, "Name a folder in which you may write."))
}

/// Shows notes to the person, on standard error.
pub(crate) fn tell(notes: &[Note]) {
    for note in notes {
        say(&(note.shown() + "\n"));
    }
}

/// One line to the person, on standard error.
pub(crate) fn say(line: &str) {
    // Where nobody listens to errors there is nobody to tell.
    let _ = writeln!(std::io::stderr(), "{}", line.trim_end());
}
