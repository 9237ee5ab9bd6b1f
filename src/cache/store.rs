//! Where entries are kept, as the stages see it.

use serde::Serialize;
use serde::de::DeserializeOwned;

use super::key::Key;

/// A place that keeps bytes by key. Asked from several threads at once.
pub trait Store: Send + Sync {
    /// The bytes kept under a key, if they are there and whole.
    fn get(&self, key: &Key) -> Option<Vec<u8>>;
    /// Keeps bytes under a key, if it can.
    fn put(&self, key: &Key, bytes: &[u8]);
}

/// Keeps nothing: everything is made anew.
#[derive(Debug, Clone, Copy, Default)]
pub struct Nothing;

impl Store for Nothing {
    fn get(&self, _: &Key) -> Option<Vec<u8>> {
        None
    }

    fn put(&self, _: &Key, _: &[u8]) {}
}

/// A value from the store, or made and kept there as JSON. A value made is handed on as it is; one that does not come back
/// from JSON as it went in (a number that is not finite) must not be cached.
pub fn cached<T: Serialize + DeserializeOwned>(store: &dyn Store, key: Option<Key>, make: impl FnOnce() -> T) -> T {
    let Some(key) = key else { return make() };
    if let Some(value) = store.get(&key).and_then(|bytes| serde_json::from_slice(&bytes).ok()) {
        return value;
    }
    let value = make();
    if let Ok(bytes) = serde_json::to_vec(&value) {
        store.put(&key, &bytes);
    }
    value
}
