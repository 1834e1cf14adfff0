//! Jobs as they are edited, and every revision of them, in one SQLite file.
//!
//! A revision is never changed and never thrown away. Saving names the version it was made from: where another window has saved
//! since, nothing is written and the newer revision is handed back.

mod schema;

use std::path::Path;
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use rusqlite::{Connection, OptionalExtension, Row, Transaction, TransactionBehavior, params};

/// How long one program waits for another that writes.
const PATIENCE: Duration = Duration::from_secs(5);

/// The jobs of one data folder.
pub struct Store {
    connection: Mutex<Connection>,
}

/// A job in a list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Listed {
    /// Never used again.
    pub id: i64,
    /// As its newest revision has it; empty if that names none.
    pub name: String,
    /// Of the newest revision, counted from 1.
    pub version: i64,
    /// When that was kept: UTC, `2026-05-04T16:20:00Z`.
    pub kept_at: String,
}

/// A revision of a job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Revision {
    /// Counted from 1.
    pub version: i64,
    /// What was done, in words.
    pub what: String,
    /// UTC, `2026-05-04T16:20:00Z`.
    pub kept_at: String,
    /// The job file.
    pub text: String,
}

/// What came of saving.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Saved {
    /// It is the newest revision now.
    Kept(Revision),
    /// Another window has saved since: this is what it saved, and nothing was written.
    Newer(Revision),
}

/// Why a store cannot be used.
#[derive(Debug, thiserror::Error)]
pub enum Trouble {
    /// The file is another program's, or a newer program's.
    #[error("the file of jobs was written by a newer headlap (its form is {0}); use that one")]
    Newer(i64),
    /// What SQLite said.
    #[error("the file of jobs cannot be used: {0}")]
    Sqlite(#[from] rusqlite::Error),
}

impl Store {
    /// Opens the file, or makes it.
    ///
    /// # Errors
    /// The file cannot be read or written, or a newer program has written it.
    pub fn open(path: &Path) -> Result<Self, Trouble> {
        Self::ready(Connection::open(path)?)
    }

    /// A store that is gone when it is dropped.
    ///
    /// # Errors
    /// There is no memory.
    pub fn in_memory() -> Result<Self, Trouble> {
        Self::ready(Connection::open_in_memory()?)
    }

    fn ready(mut connection: Connection) -> Result<Self, Trouble> {
        connection.busy_timeout(PATIENCE)?;
        schema::bring_up(&mut connection)?;
        Ok(Self { connection: Mutex::new(connection) })
    }

    /// A statement that failed half-way was rolled back, so the connection is sound whatever another thread met.
    fn connection(&self) -> MutexGuard<'_, Connection> {
        self.connection.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Every job that is not put away, the last kept first.
    ///
    /// # Errors
    /// The file cannot be read.
    pub fn list(&self) -> Result<Vec<Listed>, Trouble> {
        self.listed("job.put_away = 0")
    }

    /// Every job that is put away, the last kept first.
    ///
    /// # Errors
    /// The file cannot be read.
    pub fn put_away_jobs(&self) -> Result<Vec<Listed>, Trouble> {
        self.listed("job.put_away = 1")
    }

    fn listed(&self, which: &str) -> Result<Vec<Listed>, Trouble> {
        let connection = self.connection();
        let mut newest = connection.prepare(&format!(
            "SELECT job.id, coalesce(json_extract(revision.text, '$.name'), ''), revision.version, revision.kept_at
             FROM job JOIN revision ON revision.job = job.id
             WHERE {which} AND revision.version = (SELECT max(version) FROM revision AS other WHERE other.job = job.id)
             ORDER BY revision.kept_at DESC, job.id DESC"
        ))?;
        let rows = newest.query_map([], |row| {
            Ok(Listed { id: row.get(0)?, name: text_of(row, 1)?, version: row.get(2)?, kept_at: row.get(3)? })
        })?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    /// Begins a job. `text` must be JSON.
    ///
    /// # Errors
    /// The file cannot be written, or the text is no JSON.
    pub fn begin(&self, text: &str, what: &str) -> Result<(i64, Revision), Trouble> {
        let mut connection = self.connection();
        let work = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        work.execute("INSERT INTO job DEFAULT VALUES", [])?;
        let id = work.last_insert_rowid();
        let revision = write(&work, id, 1, text, what)?;
        work.commit()?;
        Ok((id, revision))
    }

    /// The newest revision, if there is such a job.
    ///
    /// # Errors
    /// The file cannot be read.
    pub fn newest(&self, id: i64) -> Result<Option<Revision>, Trouble> {
        Ok(newest(&self.connection(), id)?)
    }

    /// One revision, if it is there.
    ///
    /// # Errors
    /// The file cannot be read.
    pub fn revision(&self, id: i64, version: i64) -> Result<Option<Revision>, Trouble> {
        let sql = "SELECT version, what, kept_at, text FROM revision WHERE job = ?1 AND version = ?2";
        Ok(self.connection().query_row(sql, [id, version], whole).optional()?)
    }

    /// Every revision without its text, the newest first.
    ///
    /// # Errors
    /// The file cannot be read.
    pub fn revisions(&self, id: i64) -> Result<Vec<Revision>, Trouble> {
        let connection = self.connection();
        let sql = "SELECT version, what, kept_at, '' FROM revision WHERE job = ?1 ORDER BY version DESC";
        let mut every = connection.prepare(sql)?;
        let rows = every.query_map([id], whole)?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    /// Keeps a new revision that was made from version `base`; `None` if there is no such job. `text` must be JSON.
    ///
    /// # Errors
    /// The file cannot be written, or the text is no JSON.
    pub fn save(&self, id: i64, base: i64, text: &str, what: &str) -> Result<Option<Saved>, Trouble> {
        let mut connection = self.connection();
        let work = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let Some(last) = newest(&work, id)? else { return Ok(None) };
        if last.version != base {
            return Ok(Some(Saved::Newer(last)));
        }
        let kept = write(&work, id, base + 1, text, what)?;
        work.commit()?;
        Ok(Some(Saved::Kept(kept)))
    }

    /// Puts a job away, or takes it back; its revisions stay. `false` if there is no such job.
    ///
    /// # Errors
    /// The file cannot be written.
    pub fn put_away(&self, id: i64, away: bool) -> Result<bool, Trouble> {
        let changed = self.connection().execute("UPDATE job SET put_away = ?2 WHERE id = ?1", params![id, away])?;
        Ok(changed == 1)
    }
}

fn newest(connection: &Connection, id: i64) -> rusqlite::Result<Option<Revision>> {
    let sql = "SELECT version, what, kept_at, text FROM revision WHERE job = ?1 ORDER BY version DESC LIMIT 1";
    connection.query_row(sql, [id], whole).optional()
}

fn write(work: &Transaction, id: i64, version: i64, text: &str, what: &str) -> rusqlite::Result<Revision> {
    let sql =
        "INSERT INTO revision (job, version, what, text) VALUES (?1, ?2, ?3, ?4) RETURNING version, what, kept_at, text";
    work.query_row(sql, params![id, version, what, text], whole)
}

fn whole(row: &Row) -> rusqlite::Result<Revision> {
    Ok(Revision { version: row.get(0)?, what: row.get(1)?, kept_at: row.get(2)?, text: row.get(3)? })
}

/// A job's name may be anything in a job that is still being typed.
fn text_of(row: &Row, column: usize) -> rusqlite::Result<String> {
    Ok(match row.get_ref(column)? {
        rusqlite::types::ValueRef::Text(text) => String::from_utf8_lossy(text).into_owned(),
        _ => String::new(),
    })
}
