//! Nothing is lost, and no window overwrites another.

use std::path::PathBuf;

use store::{Saved, Store, Trouble};

fn file(name: &str) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).expect("a folder for the test");
    folder.join("jobs.sqlite")
}

fn store() -> Store {
    Store::in_memory().expect("memory")
}

#[test]
fn every_edit_is_there_after_the_program_is_gone() {
    let path = file("every-edit");
    let id = {
        let store = Store::open(&path).expect("a new file");
        let (id, first) = store.begin(r#"{"name":"Heron house"}"#, "new").expect("kept");
        assert_eq!(first.version, 1);
        store.save(id, 1, r#"{"name":"Heron hall"}"#, "named").expect("kept");
        id
    };
    let again = Store::open(&path).expect("the same file");
    assert_eq!(again.newest(id).unwrap().unwrap().text, r#"{"name":"Heron hall"}"#);
    assert_eq!(again.revision(id, 1).unwrap().unwrap().text, r#"{"name":"Heron house"}"#);
    let told: Vec<_> = again.revisions(id).unwrap().into_iter().map(|r| (r.version, r.what, r.text)).collect();
    assert_eq!(told, [(2, "named".into(), String::new()), (1, "new".into(), String::new())]);
    assert_eq!(again.list().unwrap()[0].name, "Heron hall");
}

#[test]
fn of_two_windows_the_second_is_told_what_the_first_kept() {
    let path = file("two-windows");
    let [one, two] = [Store::open(&path).unwrap(), Store::open(&path).unwrap()];
    let (id, _) = one.begin("{}", "new").unwrap();
    let Some(Saved::Kept(kept)) = one.save(id, 1, r#"{"a":1}"#, "one").unwrap() else { panic!("nobody was faster") };
    assert_eq!(kept.version, 2);
    let Some(Saved::Newer(theirs)) = two.save(id, 1, r#"{"a":2}"#, "two").unwrap() else { panic!("it overwrote") };
    assert_eq!((theirs.version, theirs.text.as_str()), (2, r#"{"a":1}"#));
    assert!(matches!(two.save(id, 2, r#"{"a":2}"#, "two").unwrap(), Some(Saved::Kept(_))));
    assert_eq!(one.revisions(id).unwrap().len(), 3);
}

#[test]
fn many_windows_at_once_keep_one_row_of_versions() {
    let path = file("many-windows");
    let (id, _) = Store::open(&path).unwrap().begin("{}", "new").unwrap();
    let save_ten = |_| {
        let path = path.clone();
        std::thread::spawn(move || {
            let store = Store::open(&path).expect("the same file");
            for _ in 0..10 {
                let mut base = store.newest(id).unwrap().unwrap().version;
                while let Some(Saved::Newer(theirs)) = store.save(id, base, "{}", "edit").unwrap() {
                    base = theirs.version;
                }
            }
        })
    };
    let windows: Vec<_> = (0..4).map(save_ten).collect();
    windows.into_iter().for_each(|window| window.join().expect("no window fails"));
    let versions: Vec<i64> = Store::open(&path).unwrap().revisions(id).unwrap().iter().map(|r| r.version).collect();
    assert_eq!(versions, (1..=41).rev().collect::<Vec<_>>());
}

#[test]
fn a_job_put_away_can_be_taken_back() {
    let store = store();
    let (id, _) = store.begin("{}", "new").unwrap();
    assert!(store.put_away(id, true).unwrap());
    assert!(store.list().unwrap().is_empty());
    assert_eq!(store.put_away_jobs().unwrap().len(), 1);
    assert!(store.put_away(id, false).unwrap());
    assert_eq!(store.list().unwrap().len(), 1);
    assert!(!store.put_away(99, true).unwrap());
}

#[test]
fn what_is_not_there_is_said() {
    let store = store();
    assert_eq!(store.newest(1).unwrap(), None);
    assert_eq!(store.revision(1, 1).unwrap(), None);
    assert_eq!(store.save(1, 1, "{}", "edit").unwrap(), None);
}

#[test]
fn a_name_that_is_no_text_is_no_name() {
    let store = store();
    store.begin(r#"{"name":[1]}"#, "new").unwrap();
    store.begin(r#"{"name":7}"#, "new").unwrap();
    assert!(store.list().unwrap().iter().all(|job| job.name.is_empty() || job.name == "[1]"));
}

#[test]
fn what_is_no_json_is_refused_and_nothing_is_begun() {
    let store = store();
    assert!(matches!(store.begin("name = 1", "new"), Err(Trouble::Sqlite(_))));
    assert!(store.list().unwrap().is_empty());
}

#[test]
fn a_newer_programs_file_is_left_alone() {
    let path = file("newer");
    drop(Store::open(&path).unwrap());
    let connection = rusqlite::Connection::open(&path).unwrap();
    connection.pragma_update(None, "user_version", 99).unwrap();
    assert!(matches!(Store::open(&path), Err(Trouble::Newer(99))));
}
