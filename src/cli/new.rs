//! `furbelow new`.

use std::fs;
use std::io::Write;

use super::args::NewArgs;
use super::{FAULTS, FINE, USAGE, complain, say};
use crate::teach::starter;

pub(super) fn run(args: &NewArgs) -> u8 {
    let folder = &args.folder;
    let shown = folder.display().to_string();
    if folder.exists() && fs::read_dir(folder).map_or(true, |mut entries| entries.next().is_some()) {
        complain(&format!("`{shown}` is there already; name a folder that is not, or is empty"));
        return USAGE;
    }
    let starter = starter(&shown);
    let written = fs::create_dir_all(folder).and_then(|()| {
        for (name, text) in &starter.files {
            let mut file = fs::OpenOptions::new().write(true).create_new(true).open(folder.join(name))?;
            file.write_all(text.as_bytes())?;
        }
        Ok(())
    });
    if let Err(error) = written {
        complain(&format!("cannot write into `{shown}`: {error}"));
        return FAULTS;
    }
    say(&format!(
        "{shown}: \u{201c}{}\u{201d} is ready\n\n  furbelow build {shown}\n\nthen open {} and change it",
        starter.title,
        folder.join("garment.yaml").display()
    ));
    FINE
}
