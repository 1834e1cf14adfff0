use std::env;
use std::net::SocketAddr;
use std::path::PathBuf;
use std::process::{Command, Stdio};

use server::Settings;

use crate::Ending;
use crate::note::Note;
use crate::output::{say, tell};

/// Open the app in a browser: measure, choose, lay out, check, order. For this machine only
#[derive(clap::Args)]
pub(crate) struct Arguments {
    /// The port on this machine; 0 for any that is free
    #[arg(long, default_value_t = 7412)]
    port: u16,
    /// Only print the address
    #[arg(long)]
    no_open: bool,
    /// The folder that keeps the jobs, with every revision
    #[arg(long, value_name = "DIR")]
    data: Option<PathBuf>,
}

pub(crate) fn run(arguments: &Arguments) -> Ending {
    let Some(data) = arguments.data.clone().or_else(own_folder) else {
        tell(&[Note::plain("this system does not tell where programs keep their data", "Name a folder: --data DIR.")]);
        return Ending::Unread;
    };
    let opened = |at: SocketAddr| {
        let address = format!("http://{at}/");
        say(&format!("open at {address} until you press Ctrl+C; jobs are kept in {}", data.display()));
        if !arguments.no_open {
            open(&address);
        }
    };
    match server::serve(&Settings { port: arguments.port, data: data.clone() }, opened) {
        Ok(()) => Ending::Done,
        Err(closed) => {
            tell(&[Note::plain(closed.to_string(), remedy(&closed))]);
            Ending::Unread
        }
    }
}

fn remedy(closed: &server::Closed) -> &'static str {
    match closed {
        server::Closed::Port(..) => "Perhaps the app is open already. Otherwise choose another port: --port 0.",
        _ => "Name a folder in which you may write: --data DIR.",
    }
}

/// Where this system's programs keep what a person made with them.
fn own_folder() -> Option<PathBuf> {
    let folder = |name: &str| env::var_os(name).map(PathBuf::from).filter(|path| path.is_absolute());
    let base = if cfg!(windows) {
        folder("APPDATA")
    } else if cfg!(target_os = "macos") {
        folder("HOME").map(|home| home.join("Library/Application Support"))
    } else {
        folder("XDG_DATA_HOME").or_else(|| folder("HOME").map(|home| home.join(".local/share")))
    };
    base.map(|base| base.join("headlap"))
}

/// The address has been printed, so a system without a browser loses nothing.
fn open(address: &str) {
    let (program, first): (&str, &[&str]) = if cfg!(windows) {
        ("rundll32", &["url.dll,FileProtocolHandler"])
    } else if cfg!(target_os = "macos") {
        ("open", &[])
    } else {
        ("xdg-open", &[])
    };
    let quiet = Command::new(program)
        .args(first)
        .arg(address)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn();
    drop(quiet);
}
