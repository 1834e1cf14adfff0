//! The app's door as the program opens it.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};

/// Ends the program whatever the test does.
struct Open {
    child: Child,
    host: String,
}

impl Drop for Open {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn serve(data: &str, port: &str) -> Command {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(data);
    let mut command = Command::new(env!("CARGO_BIN_EXE_headlap"));
    command.args(["serve", "--no-open", "--port", port, "--data"]).arg(folder).stderr(Stdio::piped());
    command
}

fn open(data: &str) -> Open {
    let mut child = serve(data, "0").spawn().expect("the program starts");
    let mut line = String::new();
    BufReader::new(child.stderr.take().expect("a pipe")).read_line(&mut line).expect("it says where it is");
    let host = line.split("http://").nth(1).and_then(|rest| rest.split('/').next()).expect("an address").to_owned();
    Open { child, host }
}

fn get(at: &str, path: &str, host: &str) -> String {
    let mut stream = TcpStream::connect(at).expect("it listens");
    write!(stream, "GET {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n").expect("sent");
    let mut answer = String::new();
    stream.read_to_string(&mut answer).expect("an answer");
    answer
}

#[test]
fn it_answers_this_machine_only_and_under_its_own_name() {
    let open = open("serve-answers");
    assert!(open.host.starts_with("127.0.0.1:"));
    let own = get(&open.host, "/api/jobs", &open.host);
    assert!(own.starts_with("HTTP/1.1 200 OK") && own.ends_with("[]"), "{own}");
    assert!(get(&open.host, "/api/jobs", "roofs.invalid").starts_with("HTTP/1.1 421"));
}

#[test]
fn a_port_that_is_taken_and_a_folder_that_is_none_are_told_with_a_way_out() {
    let open = open("serve-taken");
    let port = open.host.rsplit(':').next().expect("a port");
    let taken = serve("serve-taken", port).output().expect("it ends");
    assert_eq!(taken.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&taken.stderr).contains("choose another port"));

    let file = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("serve-no-folder");
    std::fs::write(&file, "a file").expect("written");
    let refused = serve("serve-no-folder", "0").output().expect("it ends");
    assert_eq!(refused.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&refused.stderr).contains("--data DIR"));
}
