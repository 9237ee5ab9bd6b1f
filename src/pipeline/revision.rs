//! A garment folder as it was at a revision, through git's own commands that only read.

use std::fs;
use std::path::{Component, Path};
use std::process::Command;

/// How many files are taken.
const MOST_FILES: usize = 2_000;
/// How large they may be together, bytes.
const MOST_BYTES: u64 = 256 * 1024 * 1024;

/// Writes the files of a folder at a revision into an empty place. The revision is anything git knows (`v1.0.0`, `HEAD~2`); the
/// folder is as named from here. Nothing in the repository is touched. Links are left out.
///
/// # Errors
/// In words, where git is not there, the revision or folder is not known, or it is too large.
pub(super) fn extract(revision: &str, folder: &str, into: &Path) -> Result<(), String> {
    if revision.is_empty() || revision.starts_with('-') {
        return Err(format!("`{revision}` is not a revision"));
    }
    // A path after the colon counts from the top of the repository; `./` makes it count from here.
    let folder = folder.trim_end_matches('/');
    let from_here =
        if folder.starts_with("./") || folder.starts_with("../") { folder.to_string() } else { format!("./{folder}") };
    let tree = git(&["rev-parse", "--verify", "--quiet", "--end-of-options", &format!("{revision}:{from_here}")])
        .map_err(|why| format!("git does not know `{revision}:{folder}`{why}"))?;
    let tree = String::from_utf8_lossy(&tree).trim().to_string();
    if tree.is_empty() || !tree.chars().all(|c| c.is_ascii_hexdigit()) {
        return Err(format!("git does not know `{revision}:{folder}`"));
    }
    let list = git(&["ls-tree", "-r", "-z", "-l", "--full-tree", &tree])
        .map_err(|why| format!("`{folder}` is not a folder at `{revision}`{why}"))?;
    let mut left = MOST_BYTES;
    let lines: Vec<&[u8]> = list.split(|byte| *byte == 0).filter(|line| !line.is_empty()).collect();
    if lines.len() > MOST_FILES {
        return Err(format!("`{folder}` has {} files at `{revision}`, more than a garment has", lines.len()));
    }
    for line in lines {
        let line = String::from_utf8_lossy(line).into_owned();
        let Some((about, path)) = line.split_once('\t') else { continue };
        let fields: Vec<&str> = about.split_whitespace().collect();
        let [mode, "blob", blob, size] = fields.as_slice() else { continue };
        if !mode.starts_with("100") || !Path::new(path).components().all(|part| matches!(part, Component::Normal(_))) {
            continue;
        }
        left = size
            .parse::<u64>()
            .ok()
            .and_then(|size| left.checked_sub(size))
            .ok_or_else(|| format!("`{folder}` is larger at `{revision}` than a garment is"))?;
        let bytes = git(&["cat-file", "blob", blob]).map_err(|why| format!("git cannot read `{path}`{why}"))?;
        let place = into.join(path);
        let write = || -> std::io::Result<()> {
            fs::create_dir_all(place.parent().unwrap_or(into))?;
            fs::write(&place, &bytes)
        };
        write().map_err(|error| format!("cannot write a copy of `{path}`: {error}"))?;
    }
    Ok(())
}

/// Runs git; what it complains of comes behind a colon.
fn git(args: &[&str]) -> Result<Vec<u8>, String> {
    let output = Command::new("git")
        .args(["--no-pager", "--literal-pathspecs"])
        .args(args)
        .env("GIT_OPTIONAL_LOCKS", "0")
        .output()
        .map_err(|error| format!(": git cannot be run ({error})"))?;
    if output.status.success() {
        return Ok(output.stdout);
    }
    let said = String::from_utf8_lossy(&output.stderr).trim().to_string();
    Err(if said.is_empty() { String::new() } else { format!(": {said}") })
}
