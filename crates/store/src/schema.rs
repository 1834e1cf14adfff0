//! The tables, and how an older file is brought up to them.

use rusqlite::{Connection, TransactionBehavior};

use crate::Trouble;

/// Each step brings a file one form further; the number of steps done is the file's `user_version`.
const STEPS: [&str; 1] = ["
    CREATE TABLE job (
        id       INTEGER PRIMARY KEY AUTOINCREMENT,
        put_away INTEGER NOT NULL DEFAULT 0
    ) STRICT;
    CREATE TABLE revision (
        job     INTEGER NOT NULL REFERENCES job (id),
        version INTEGER NOT NULL,
        what    TEXT NOT NULL,
        kept_at TEXT NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%SZ', 'now')),
        text    TEXT NOT NULL CHECK (json_valid(text)),
        PRIMARY KEY (job, version)
    ) STRICT;
"];

pub(crate) fn bring_up(connection: &mut Connection) -> Result<(), Trouble> {
    // A write-ahead log lets one window read while another writes; FULL keeps the last edit when the power fails.
    connection.pragma_update(None, "journal_mode", "wal")?;
    connection.pragma_update(None, "synchronous", "full")?;
    connection.pragma_update(None, "foreign_keys", true)?;
    let work = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let done: i64 = work.query_row("PRAGMA user_version", [], |row| row.get(0))?;
    let to_do = usize::try_from(done).ok().and_then(|done| STEPS.get(done..)).ok_or(Trouble::Newer(done))?;
    for step in to_do {
        work.execute_batch(step)?;
    }
    work.pragma_update(None, "user_version", STEPS.len() as i64)?;
    work.commit()?;
    Ok(())
}
