//! Puts the built front end into the program: one line for each file of `web/dist/app`, none where it has not been built.

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::{env, fs, io};

fn main() -> io::Result<()> {
    let dist = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../web/dist");
    println!("cargo:rerun-if-changed={}", dist.display());
    let app = dist.join("app");
    let mut list = String::from("pub(crate) const FILES: &[(&str, &[u8])] = &[\n");
    for path in files(&app)? {
        let name = path.strip_prefix(&app).unwrap_or(&path).to_string_lossy().replace('\\', "/");
        let _ = writeln!(list, "    ({name:?}, include_bytes!({:?})),", path.canonicalize()?.display().to_string());
    }
    list.push_str("];\n");
    fs::write(Path::new(&env::var("OUT_DIR").unwrap_or_default()).join("front_end.rs"), list)
}

/// Every file below a folder, in order; none if there is no such folder.
fn files(folder: &Path) -> io::Result<Vec<PathBuf>> {
    if !folder.is_dir() {
        return Ok(Vec::new());
    }
    let mut found = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() { found.extend(files(&path)?) } else { found.push(path) }
    }
    found.sort();
    Ok(found)
}
