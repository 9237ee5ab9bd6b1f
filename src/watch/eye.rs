//! Noticing that the garment was saved.

use std::path::Path;
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::time::Duration;

use notify::{EventKind, RecommendedWatcher, RecursiveMode, Watcher};

/// Editors save in several strokes; so long after the last one the garment is read.
const SETTLED: Duration = Duration::from_millis(40);
/// But no longer than so many of them in a row.
const STROKES: u32 = 25;

/// Watches a folder.
pub struct Eye {
    saved: Receiver<()>,
    _watcher: RecommendedWatcher,
}

impl Eye {
    /// Begins to watch a folder and what lies in it.
    ///
    /// # Errors
    /// In words, where the system does not let folders be watched.
    pub fn on(folder: &Path) -> Result<Eye, String> {
        let (send, saved) = channel();
        let told = move |event: notify::Result<notify::Event>| {
            // Being read is no change.
            if !matches!(event, Ok(notify::Event { kind: EventKind::Access(_), .. })) {
                let _ = send.send(());
            }
        };
        let cannot = |error: notify::Error| format!("`{}` cannot be watched: {error}", folder.display());
        let mut watcher = notify::recommended_watcher(told).map_err(cannot)?;
        watcher.watch(folder, RecursiveMode::Recursive).map_err(cannot)?;
        Ok(Eye { saved, _watcher: watcher })
    }

    /// Waits until something was saved and all is quiet again. False where nothing is watched any more.
    #[must_use]
    pub fn wait(&self) -> bool {
        if self.saved.recv().is_err() {
            return false;
        }
        for _ in 0..STROKES {
            match self.saved.recv_timeout(SETTLED) {
                Ok(()) => {}
                Err(RecvTimeoutError::Timeout) => return true,
                Err(RecvTimeoutError::Disconnected) => return false,
            }
        }
        true
    }
}
