//! Entries kept in memory, before another store.

use std::collections::HashMap;
use std::sync::{Arc, Mutex, PoisonError};

use super::key::Key;
use super::store::Store;

/// Keeps entries in memory, in front of another store. When it holds more than its limit, those not asked for the longest go.
pub struct Memory {
    behind: Arc<dyn Store>,
    limit: usize,
    inner: Mutex<Inner>,
}

#[derive(Default)]
struct Inner {
    entries: HashMap<Key, (u64, Vec<u8>)>,
    bytes: usize,
    clock: u64,
}

impl Memory {
    /// Keeps up to `limit` bytes in front of `behind`.
    #[must_use]
    pub fn new(behind: Arc<dyn Store>, limit: usize) -> Memory {
        Memory { behind, limit, inner: Mutex::default() }
    }

    /// How many bytes it holds.
    #[must_use]
    pub fn held(&self) -> usize {
        self.inner.lock().unwrap_or_else(PoisonError::into_inner).bytes
    }

    fn keep(&self, key: &Key, bytes: Vec<u8>) {
        if bytes.len() > self.limit {
            return;
        }
        let mut inner = self.inner.lock().unwrap_or_else(PoisonError::into_inner);
        inner.clock += 1;
        let now = inner.clock;
        inner.bytes += bytes.len();
        if let Some((_, old)) = inner.entries.insert(key.clone(), (now, bytes)) {
            inner.bytes -= old.len();
        }
        while inner.bytes > self.limit {
            let Some(oldest) = inner.entries.iter().min_by_key(|(_, (used, _))| *used).map(|(key, _)| key.clone())
            else {
                return;
            };
            if let Some((_, old)) = inner.entries.remove(&oldest) {
                inner.bytes -= old.len();
            }
        }
    }
}

impl Store for Memory {
    fn get(&self, key: &Key) -> Option<Vec<u8>> {
        {
            let mut inner = self.inner.lock().unwrap_or_else(PoisonError::into_inner);
            inner.clock += 1;
            let now = inner.clock;
            if let Some((used, bytes)) = inner.entries.get_mut(key) {
                *used = now;
                return Some(bytes.clone());
            }
        }
        let bytes = self.behind.get(key)?;
        self.keep(key, bytes.clone());
        Some(bytes)
    }

    fn put(&self, key: &Key, bytes: &[u8]) {
        self.keep(key, bytes.to_vec());
        self.behind.put(key, bytes);
    }
}

#[cfg(test)]
mod tests {
    use super::super::store::Nothing;
    use super::*;

    #[test]
    fn the_longest_unused_goes_first() {
        let memory = Memory::new(Arc::new(Nothing), 10);
        let key = |name: &str| Key::of("test").bytes("name", name.as_bytes()).key();
        memory.put(&key("a"), b"aaaa");
        memory.put(&key("b"), b"bbbb");
        assert!(memory.get(&key("a")).is_some());
        memory.put(&key("c"), b"cccc");
        assert_eq!(memory.get(&key("b")), None);
        assert_eq!(memory.get(&key("a")).as_deref(), Some(b"aaaa".as_slice()));
        memory.put(&key("a"), b"a");
        assert_eq!(memory.held(), 5);
        memory.put(&key("huge"), &[0; 11]);
        assert_eq!(memory.get(&key("huge")), None);
    }
}
