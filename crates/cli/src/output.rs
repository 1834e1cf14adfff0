use std::io::{ErrorKind, Write};

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
