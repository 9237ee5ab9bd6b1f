//! Entries as files in a folder.

use std::fs::{self, File};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use sha2::{Digest, Sha256};

use super::key::Key;
use super::store::Store;

/// The folder's name, below the folder that outputs are written to.
const NAME: &str = ".cache";
/// The first bytes of an entry; the number is raised when the form changes.
const MAGIC: &[u8; 16] = b"furbelow cache 1";
/// How an entry begins: the mark, the digest of its key, the digest of its bytes.
const HEAD: usize = 16 + 32 + 32;
/// How much is kept, in bytes: some twenty builds of a garment in nine sizes.
const LIMIT: u64 = 512 * 1024 * 1024;
/// Temporary files older than this were left by a process that died.
const ABANDONED: Duration = Duration::from_secs(60 * 60);
/// What tools for backups look for, see Read: "Cache Directory Tagging Specification" 0.6 (bford.info/cachedir).
const TAG: &str = "Signature: 8a477f597d28d172789f06886806bc55\n\
                   # What furbelow can make again. You may delete this folder at any time.\n";

/// A cache beside the outputs.
///
/// It lies in the output folder and not among the user's other caches: it goes when the outputs go, it needs no home folder,
/// two output folders never share anything, and builds into a fresh folder are from scratch.
#[derive(Debug)]
pub struct Folder {
    home: PathBuf,
    limit: u64,
}

impl Folder {
    /// The cache that belongs to an output folder. It is made when the first entry is kept.
    #[must_use]
    pub fn beside(out: &Path) -> Folder {
        Folder { home: out.join(NAME), limit: LIMIT }
    }

    /// With another limit, in bytes.
    #[must_use]
    pub fn limit(mut self, bytes: u64) -> Folder {
        self.limit = bytes;
        self
    }

    /// Where it lies.
    #[must_use]
    pub fn home(&self) -> &Path {
        &self.home
    }

    /// Drops the entries not used for the longest until the rest is within the limit, and what dead processes left.
    pub fn tidy(&self) {
        let mut entries: Vec<(SystemTime, u64, PathBuf)> = Vec::new();
        let mut total = 0;
        for kind in read_dir(&self.home) {
            for path in read_dir(&kind) {
                let Ok(data) = fs::symlink_metadata(&path) else { continue };
                if !data.is_file() {
                    continue;
                }
                let used = data.modified().unwrap_or(SystemTime::UNIX_EPOCH);
                if path.file_name().is_some_and(|name| name.to_string_lossy().starts_with('.')) {
                    if used.elapsed().is_ok_and(|age| age > ABANDONED) {
                        let _ = fs::remove_file(&path);
                    }
                    continue;
                }
                total += data.len();
                entries.push((used, data.len(), path));
            }
        }
        entries.sort();
        for (_, bytes, path) in entries {
            if total <= self.limit {
                break;
            }
            if fs::remove_file(&path).is_ok() {
                total -= bytes;
            }
        }
    }

    fn path(&self, key: &Key) -> PathBuf {
        self.home.join(key.kind()).join(key.hex())
    }

    fn keep(&self, key: &Key, bytes: &[u8]) -> std::io::Result<()> {
        let path = self.path(key);
        let folder = path.parent().unwrap_or(&self.home);
        if !folder.is_dir() {
            fs::create_dir_all(folder)?;
            fs::write(self.home.join("CACHEDIR.TAG"), TAG)?;
            fs::write(self.home.join(".gitignore"), "*\n")?;
        }
        // The checksum finds what a crash tears, so nothing waits for the disk here.
        let mut file = tempfile::Builder::new().prefix(".new-").tempfile_in(folder)?;
        file.write_all(&head(key, bytes))?;
        file.write_all(bytes)?;
        file.persist(&path).map_err(|error| error.error)?;
        Ok(())
    }
}

impl Store for Folder {
    fn get(&self, key: &Key) -> Option<Vec<u8>> {
        let path = self.path(key);
        let mut entry = fs::read(&path).ok()?;
        if entry.len() < HEAD || entry[..HEAD] != head(key, &entry[HEAD..]) {
            let _ = fs::remove_file(&path);
            return None;
        }
        // Used just now: the last to be dropped.
        if let Ok(file) = File::options().append(true).open(&path) {
            let _ = file.set_modified(SystemTime::now());
        }
        entry.drain(..HEAD);
        Some(entry)
    }

    fn put(&self, key: &Key, bytes: &[u8]) {
        // What cannot be kept is made again.
        let _ = self.keep(key, bytes);
    }
}

fn head(key: &Key, bytes: &[u8]) -> [u8; HEAD] {
    let mut head = [0; HEAD];
    head[..16].copy_from_slice(MAGIC);
    head[16..48].copy_from_slice(key.digest());
    head[48..].copy_from_slice(&Sha256::digest(bytes));
    head
}

fn read_dir(path: &Path) -> Vec<PathBuf> {
    let Ok(entries) = fs::read_dir(path) else { return Vec::new() };
    entries.filter_map(Result::ok).map(|entry| entry.path()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(name: &str) -> Key {
        Key::of("test").bytes("name", name.as_bytes()).key()
    }

    fn files(cache: &Folder) -> Vec<PathBuf> {
        let mut files = read_dir(&cache.home.join("test"));
        files.sort();
        files
    }

    #[test]
    fn kept_and_found_again() {
        let out = tempfile::tempdir().unwrap();
        let cache = Folder::beside(out.path());
        assert_eq!(cache.get(&key("a")), None);
        assert!(!cache.home().exists(), "asking makes no folder");
        cache.put(&key("a"), b"one");
        cache.put(&key("a"), b"two");
        cache.put(&key("empty"), b"");
        let other = Folder::beside(out.path());
        assert_eq!(other.get(&key("a")).as_deref(), Some(b"two".as_slice()));
        assert_eq!(other.get(&key("empty")).as_deref(), Some(b"".as_slice()));
        assert_eq!(other.get(&key("b")), None);
        fs::remove_dir_all(cache.home()).unwrap();
        assert_eq!(other.get(&key("a")), None);
        other.put(&key("a"), b"three");
        assert_eq!(cache.get(&key("a")).as_deref(), Some(b"three".as_slice()));
    }

    /// Every single byte turned, every length cut, another entry's file in its place: none is taken for the entry.
    #[test]
    fn a_wrong_entry_is_not_taken() {
        let out = tempfile::tempdir().unwrap();
        let cache = Folder::beside(out.path());
        cache.put(&key("a"), b"the bytes of a layout");
        let path = cache.path(&key("a"));
        let good = fs::read(&path).unwrap();
        for at in 0..good.len() {
            let mut bad = good.clone();
            bad[at] ^= 0x20;
            fs::write(&path, &bad).unwrap();
            assert_eq!(cache.get(&key("a")), None, "byte {at} turned");
            fs::write(&path, &good[..at]).unwrap();
            assert_eq!(cache.get(&key("a")), None, "cut to {at} bytes");
            assert!(!path.exists(), "a wrong entry is cleared away");
        }
        let mut long = good.clone();
        long.push(b'!');
        fs::write(&path, &long).unwrap();
        assert_eq!(cache.get(&key("a")), None);
        cache.put(&key("b"), b"another");
        fs::copy(cache.path(&key("b")), &path).unwrap();
        assert_eq!(cache.get(&key("a")), None);
        fs::write(&path, &good).unwrap();
        assert_eq!(cache.get(&key("a")).as_deref(), Some(b"the bytes of a layout".as_slice()));
    }

    #[test]
    fn the_oldest_are_dropped() {
        let out = tempfile::tempdir().unwrap();
        let cache = Folder::beside(out.path()).limit(3 * (HEAD as u64 + 100));
        for (age, name) in ["a", "b", "c", "d", "e"].into_iter().enumerate() {
            cache.put(&key(name), &[7; 100]);
            let file = File::options().append(true).open(cache.path(&key(name))).unwrap();
            file.set_modified(SystemTime::now() - Duration::from_secs(1000 - 100 * age as u64)).unwrap();
        }
        assert!(cache.get(&key("a")).is_some(), "asked for, so new again");
        let left = cache.home.join("test/.new-left");
        fs::write(&left, "half").unwrap();
        File::options()
            .append(true)
            .open(&left)
            .unwrap()
            .set_modified(SystemTime::now() - Duration::from_secs(7200))
            .unwrap();
        cache.tidy();
        let kept: Vec<bool> = ["a", "b", "c", "d", "e"].iter().map(|name| cache.get(&key(name)).is_some()).collect();
        assert_eq!(kept, [true, false, false, true, true]);
        assert!(!left.exists());
    }

    #[test]
    fn where_nothing_can_be_kept_nothing_fails() {
        let out = tempfile::tempdir().unwrap();
        let cache = Folder::beside(out.path());
        fs::write(cache.home(), "a file where the folder should be").unwrap();
        cache.put(&key("a"), b"one");
        assert_eq!(cache.get(&key("a")), None);
        cache.tidy();
        fs::remove_file(cache.home()).unwrap();
        fs::create_dir_all(cache.path(&key("a"))).unwrap();
        cache.put(&key("a"), b"one");
        assert_eq!(cache.get(&key("a")), None);
    }

    #[test]
    fn many_at_once() {
        let out = tempfile::tempdir().unwrap();
        let cache = Folder::beside(out.path());
        std::thread::scope(|scope| {
            for thread in 0..8_u8 {
                let cache = &cache;
                scope.spawn(move || {
                    for round in 0..20_u8 {
                        let bytes = vec![round % 4; 5000];
                        cache.put(&key(&format!("{}", round % 4)), &bytes);
                        if let Some(found) = cache.get(&key(&format!("{}", (round + thread) % 4))) {
                            assert_eq!(found, vec![(round + thread) % 4; 5000]);
                        }
                    }
                });
            }
        });
        assert_eq!(files(&cache).len(), 4);
    }
}
