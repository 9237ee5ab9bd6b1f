//! `furbelow watch`.

use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;
use std::thread;

use super::args::{OUT, WatchArgs};
use super::{FAULTS, FINE, USAGE, complain, say};
use crate::cache::{Folder, Memory, Nothing, Store};
use crate::source::GARMENT_FILE;
use crate::watch::{Desk, Eye, Server};

/// How much of what was made before is held in memory, bytes.
const MEMORY: usize = 64 * 1024 * 1024;

pub(super) fn run(args: &WatchArgs) -> u8 {
    let folder = match args.path.file_name() {
        Some(name) if name == GARMENT_FILE => args.path.parent().unwrap_or(Path::new(".")).to_path_buf(),
        _ => args.path.clone(),
    };
    if !folder.join(GARMENT_FILE).is_file() {
        complain(&format!("there is no `{GARMENT_FILE}` in `{}`", folder.display()));
        return USAGE;
    }
    let cache = Folder::beside(Path::new(OUT));
    let behind: Arc<dyn Store> = if cache.home().is_dir() { Arc::new(cache) } else { Arc::new(Nothing) };
    let desk = Arc::new(Desk::new(&folder, Arc::new(Memory::new(behind, MEMORY))));
    let server = match Server::bind(args.port, desk.clone()) {
        Ok(server) => server,
        Err(error) => {
            complain(&format!("cannot serve at port {}: {error}; name another with `--port`, or 0 for any", args.port));
            return FAULTS;
        }
    };
    let eye = match Eye::on(&folder) {
        Ok(eye) => eye,
        Err(words) => {
            complain(&words);
            return FAULTS;
        }
    };
    let address = server.address().map(|address| address.to_string()).unwrap_or_default();
    say(&format!("{} is shown at http://{address}/ until you press Ctrl-C", folder.display()));
    let watched = thread::Builder::new().name("watch".to_string()).spawn(move || {
        desk.renew();
        while eye.wait() {
            desk.renew();
        }
    });
    if let Err(error) = watched {
        complain(&format!("cannot watch: {error}"));
        return FAULTS;
    }
    match server.serve(&Arc::new(AtomicBool::new(false))) {
        Ok(()) => FINE,
        Err(error) => {
            complain(&format!("the page is lost: {error}"));
            FAULTS
        }
    }
}
