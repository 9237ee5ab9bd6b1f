//! Writing a garment's outputs into its folder.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use serde::Serialize;

use super::lock::{Busy, lock};
use super::manifest::{self, MANIFEST, Manifest, ManifestFile, digest, is_inner};
use super::seen::Seen;
use crate::fault::{Code, Fault, Place};

/// How the names of files that are being written begin.
const HALF: &str = ".furbelow-";

/// One file to write.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Output {
    /// Path below the garment's output folder, with `/`.
    pub path: String,
    /// What it is, in words.
    pub about: String,
    /// Its bytes.
    pub bytes: Vec<u8>,
}

/// What writing did.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub struct Written {
    /// Files that are new or changed.
    pub written: Vec<String>,
    /// Files that were the same already.
    pub unchanged: Vec<String>,
    /// Files of the last build that no longer belong.
    pub removed: Vec<String>,
    /// How the files were when their bytes were known, the manifest last.
    #[serde(skip)]
    pub seen: Vec<Seen>,
}

/// Writes a garment's outputs. Files that hold the same bytes already keep their time stamps.
///
/// # Errors
/// Where a folder or file cannot be made, or another build is writing there. What was written before it is whole.
pub fn write(folder: &Path, title: &str, edition: &str, outputs: &[Output]) -> Result<Written, Fault> {
    let refuse = |path: &Path, error: &io::Error| {
        let message = format!("cannot write `{}`: {}", path.display(), words(error));
        Fault::new(Code::Output, Place::Nowhere, message).help("make room, or name another folder with `--out`")
    };
    fs::create_dir_all(folder).map_err(|error| refuse(folder, &error))?;
    let _lock = lock(folder).map_err(|busy| match busy {
        Busy::Closed(error) => refuse(folder, &error),
        Busy::Other => {
            let message = format!("another build is writing into `{}`", folder.display());
            Fault::new(Code::Output, Place::Nowhere, message)
                .help("wait until it has ended, or name another folder with `--out`")
        }
    })?;
    sweep(folder, outputs);
    let before = manifest::read(folder).unwrap_or_default();
    let mut done = Written::default();
    let mut files = Vec::new();
    for output in outputs {
        debug_assert!(is_inner(&output.path), "outputs stay in their folder: {}", output.path);
        let path = folder.join(&output.path);
        let seen = Seen::now(folder, &output.path);
        if seen.is_some() && same(&path, &output.bytes) {
            done.unchanged.push(output.path.clone());
            done.seen.extend(seen);
        } else {
            whole(&path, &output.bytes).map_err(|error| refuse(&path, &error))?;
            done.written.push(output.path.clone());
            done.seen.extend(Seen::now(folder, &output.path));
        }
        files.push(ManifestFile {
            path: output.path.clone(),
            about: output.about.clone(),
            bytes: output.bytes.len() as u64,
            sha256: digest(&output.bytes),
        });
    }
    files.sort();
    let manifest = Manifest { title: title.to_string(), edition: edition.to_string(), files };
    for old in &before.files {
        if manifest.files.iter().any(|file| file.path == old.path) {
            continue;
        }
        let path = folder.join(&old.path);
        match fs::remove_file(&path) {
            Ok(()) => done.removed.push(old.path.clone()),
            Err(error) if error.kind() == io::ErrorKind::NotFound => {}
            Err(error) => return Err(refuse(&path, &error)),
        }
    }
    let text = serde_json::to_string_pretty(&manifest).unwrap_or_default() + "\n";
    let path = folder.join(MANIFEST);
    let seen = Seen::now(folder, MANIFEST).filter(|_| same(&path, text.as_bytes()));
    if seen.is_none() {
        whole(&path, text.as_bytes()).map_err(|error| refuse(&path, &error))?;
    }
    done.seen.extend(seen.or_else(|| Seen::now(folder, MANIFEST)));
    Ok(done)
}

/// Clears away what a build that died left half-written. Only under the lock: no other build has such files then.
fn sweep(folder: &Path, outputs: &[Output]) {
    let mut homes: Vec<PathBuf> =
        outputs.iter().filter_map(|output| folder.join(&output.path).parent().map(Path::to_path_buf)).collect();
    homes.push(folder.to_path_buf());
    homes.sort();
    homes.dedup();
    for home in homes {
        let Ok(entries) = fs::read_dir(&home) else { continue };
        for entry in entries.filter_map(Result::ok) {
            let left = entry.file_name().to_string_lossy().starts_with(HALF);
            if left && entry.file_type().is_ok_and(|kind| kind.is_file()) {
                let _ = fs::remove_file(entry.path());
            }
        }
    }
}

fn same(path: &Path, bytes: &[u8]) -> bool {
    fs::metadata(path).is_ok_and(|data| data.len() == bytes.len() as u64)
        && fs::read(path).is_ok_and(|old| old == bytes)
}

/// Writes one file beside its place, then renames it, so that a reader finds the old file or the new one.
///
/// # Errors
/// What the file system says.
pub fn whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    fs::create_dir_all(folder)?;
    let mut file = tempfile::Builder::new().prefix(HALF).tempfile_in(folder)?;
    file.write_all(bytes)?;
    file.as_file().sync_all()?;
    readable(file.path())?;
    file.persist(path).map_err(|error| error.error)?;
    Ok(())
}

/// Temporary files are private to their owner; documents are for everybody.
#[cfg(unix)]
fn readable(path: &Path) -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    fs::set_permissions(path, fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn readable(_: &Path) -> io::Result<()> {
    Ok(())
}

fn words(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::PermissionDenied => "you may not write there".to_string(),
        io::ErrorKind::StorageFull => "the disk is full".to_string(),
        io::ErrorKind::QuotaExceeded => "your share of the disk is used up".to_string(),
        io::ErrorKind::FileTooLarge => "files may not be that large there".to_string(),
        io::ErrorKind::ReadOnlyFilesystem => "the disk is read-only".to_string(),
        io::ErrorKind::NotADirectory | io::ErrorKind::AlreadyExists => {
            "a file stands where a folder should be".to_string()
        }
        io::ErrorKind::IsADirectory => "a folder stands where a file should be".to_string(),
        _ => error.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn output(path: &str, text: &str) -> Output {
        Output { path: path.to_string(), about: String::new(), bytes: text.as_bytes().to_vec() }
    }

    #[test]
    fn only_what_changed_is_written_and_only_ours_is_removed() {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path().join("skirt");
        write(&folder, "t", "1.0.0", &[output("a.pdf", "one"), output("parts/b.svg", "two")]).unwrap();
        fs::write(folder.join("mine.txt"), "not yours").unwrap();
        let stamp = fs::metadata(folder.join("a.pdf")).unwrap().modified().unwrap();
        let done = write(&folder, "t", "1.0.0", &[output("a.pdf", "one")]).unwrap();
        assert_eq!(done.unchanged, ["a.pdf"]);
        assert_eq!(done.removed, ["parts/b.svg"]);
        assert_eq!(fs::metadata(folder.join("a.pdf")).unwrap().modified().unwrap(), stamp);
        assert!(folder.join("mine.txt").exists());
        assert!(!folder.join("parts/b.svg").exists());
    }

    #[test]
    fn a_file_where_the_folder_should_be() {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path().join("skirt");
        fs::write(&folder, "").unwrap();
        let fault = write(&folder, "t", "1.0.0", &[output("a.pdf", "one")]).unwrap_err();
        assert_eq!(fault.code, Code::Output);
    }

    #[test]
    fn a_manifest_that_leads_outside_is_not_followed() {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path().join("skirt");
        fs::create_dir_all(&folder).unwrap();
        fs::write(home.path().join("precious"), "keep").unwrap();
        let bad = Manifest {
            files: vec![ManifestFile {
                path: "../precious".into(),
                about: String::new(),
                bytes: 4,
                sha256: String::new(),
            }],
            ..Manifest::default()
        };
        fs::write(folder.join(MANIFEST), serde_json::to_string(&bad).unwrap()).unwrap();
        write(&folder, "t", "1.0.0", &[output("a.pdf", "one")]).unwrap();
        assert!(home.path().join("precious").exists());
    }
}
