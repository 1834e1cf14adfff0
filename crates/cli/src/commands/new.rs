use std::fs::OpenOptions;
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};

use crate::Ending;
use crate::note::Note;
use crate::output::{print, say, tell};

/// Print a job file to fill in, or write it to NAME.toml; a file that is there stays as it is
#[derive(clap::Args)]
pub(crate) struct Arguments {
    /// What the job is called
    name: Option<PathBuf>,
}

const STARTER: &str = include_str!("starter.toml");

pub(crate) fn run(arguments: &Arguments) -> Ending {
    let Some(name) = &arguments.name else { return print(STARTER) };
    let path = if name.extension().is_some_and(|ending| ending == "toml") { name.clone() } else { with_ending(name) };
    match write(&path, &named(&path)) {
        Ok(()) => {
            say(&format!("wrote {}", path.display()));
            Ending::Done
        }
        Err(note) => {
            tell(&[*note]);
            Ending::Unread
        }
    }
}

fn with_ending(name: &Path) -> PathBuf {
    let mut name = name.as_os_str().to_owned();
    name.push(".toml");
    name.into()
}

/// The starter with the job's name in it.
fn named(path: &Path) -> String {
    let name = path.file_stem().unwrap_or_default().to_string_lossy();
    let kept: String = name.chars().filter(|&c| c != '"' && c != '\\' && !c.is_control()).collect();
    STARTER.replacen("\"My roof\"", &format!("\"{kept}\""), 1)
}

fn write(path: &Path, text: &str) -> Result<(), Box<Note>> {
    let file = OpenOptions::new().write(true).create_new(true).open(path);
    file.and_then(|mut file| file.write_all(text.as_bytes())).map_err(|error| {
        Box::new(match error.kind() {
            ErrorKind::AlreadyExists => {
                Note::plain(format!("{} is there already and stays as it is", path.display()), "Choose another name.")
            }
            _ => Note::plain(
                format!("{} cannot be written: {error}", path.display()),
                "Name a folder in which you may write.",
            ),
        })
    })
}
