//! One build at a time in a folder.

use std::fs::{File, TryLockError};
use std::io;
use std::path::Path;
use std::thread::sleep;
use std::time::Duration;

/// How often, and how long each time, to wait for another build to finish writing: ten seconds in all.
const TRIES: (u32, Duration) = (200, Duration::from_millis(50));

/// Held while a folder is written to; given back when dropped, also when the process dies.
#[derive(Debug)]
pub(super) struct Lock {
    /// None where the file system has no locks.
    _held: Option<File>,
}

/// What stands in the way of a lock.
#[derive(Debug)]
pub(super) enum Busy {
    /// Another build is writing.
    Other,
    /// The folder cannot be opened.
    Closed(io::Error),
}

/// Takes the lock of a folder, waiting a little for a build that is just writing.
pub(super) fn lock(folder: &Path) -> Result<Lock, Busy> {
    lock_within(folder, TRIES)
}

fn lock_within(folder: &Path, (tries, pause): (u32, Duration)) -> Result<Lock, Busy> {
    let file = open(folder).map_err(Busy::Closed)?;
    for _ in 0..tries {
        match file.try_lock() {
            Ok(()) => return Ok(Lock { _held: Some(file) }),
            Err(TryLockError::WouldBlock) => sleep(pause),
            Err(TryLockError::Error(_)) => return Ok(Lock { _held: None }),
        }
    }
    Err(Busy::Other)
}

/// The folder itself carries the lock, so that nothing is left lying in it.
#[cfg(unix)]
fn open(folder: &Path) -> io::Result<File> {
    File::open(folder)
}

#[cfg(not(unix))]
fn open(folder: &Path) -> io::Result<File> {
    File::create(folder.join(".furbelow-lock"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_at_a_time() {
        let home = tempfile::tempdir().unwrap();
        let quick = (2, Duration::from_millis(1));
        let first = lock_within(home.path(), quick).unwrap();
        assert!(matches!(lock_within(home.path(), quick), Err(Busy::Other)));
        drop(first);
        assert!(lock_within(home.path(), quick).is_ok());
        assert!(matches!(lock_within(&home.path().join("none"), quick), Err(Busy::Closed(_))));
    }
}
