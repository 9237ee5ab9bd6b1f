//! `furbelow build`.

use std::io::IsTerminal;
use std::time::Duration;

use indicatif::{ProgressBar, ProgressStyle};
use serde_json::json;

use super::args::{BuildArgs, PaperArg};
use super::show::{count, show, to_json};
use super::{FAULTS, FINE, USAGE, complain, say};
use crate::cache::{Folder, Nothing, Store};
use crate::fault::Fault;
use crate::pipeline::{self, Rebuilt, Wanted};
use crate::set::Paper;
use crate::write::Written;

pub(super) fn run(args: &BuildArgs) -> u8 {
    let folders = match pipeline::find(&args.paths) {
        Ok(folders) => folders,
        Err(message) => {
            complain(&message);
            return USAGE;
        }
    };
    let papers = match args.paper {
        PaperArg::Both => vec![Paper::A4, Paper::Letter],
        PaperArg::A4 => vec![Paper::A4],
        PaperArg::Letter => vec![Paper::Letter],
    };
    let sheets = (!args.sheets.is_empty()).then(|| args.sheets.iter().filter_map(|sheet| sheet.format()).collect());
    let wanted = Wanted { papers, sizes: args.sizes.clone(), sheets };
    let cache = Folder::beside(&args.out);
    let store: &dyn Store = if args.no_cache { &Nothing } else { &cache };
    let mut bad = false;
    let mut reports = Vec::new();
    for folder in folders {
        let progress = Progress::new(!args.json && !args.quiet);
        let (source, rebuilt) = pipeline::rebuild(&folder, &wanted, &args.out, store, &|words| progress.say(words));
        progress.done();
        let Rebuilt { home, faults, stopped, written } = rebuilt;
        let failed = faults.iter().any(Fault::stops);
        bad |= failed;
        if args.json {
            reports.push(json!({
                "garment": folder.display().to_string(),
                "out": home.display().to_string(),
                "faults": to_json(&source, &faults),
                "written": written.written,
                "unchanged": written.unchanged,
                "removed": written.removed,
            }));
            continue;
        }
        if !args.quiet || failed {
            show(&source, &faults);
        }
        if failed {
            if stopped && !args.quiet {
                complain(&format!("{}: nothing was written; earlier output is as it was", folder.display()));
            }
        } else if !args.quiet {
            say(&summary(&folder.display().to_string(), &home.display().to_string(), &written));
        }
    }
    if !args.no_cache {
        cache.tidy();
    }
    if args.json {
        say(&serde_json::to_string_pretty(&reports).unwrap_or_default());
    }
    if bad { FAULTS } else { FINE }
}

fn summary(folder: &str, home: &str, written: &Written) -> String {
    let mut lines = vec![format!(
        "{folder}: {} written, {} as before, {} removed, in {home}/",
        count(written.written.len(), "file"),
        written.unchanged.len(),
        written.removed.len()
    )];
    let main = written.written.iter().chain(&written.unchanged).filter(|path| path.starts_with("booklet-all"));
    lines.extend(main.map(|path| format!("  {home}/{path}")));
    lines.join("\n")
}

/// What is being done, on a terminal.
struct Progress(Option<ProgressBar>);

impl Progress {
    fn new(wanted: bool) -> Progress {
        if !wanted || !std::io::stderr().is_terminal() {
            return Progress(None);
        }
        let bar = ProgressBar::new_spinner();
        if let Ok(style) = ProgressStyle::with_template("{spinner} {msg}") {
            bar.set_style(style);
        }
        bar.enable_steady_tick(Duration::from_millis(120));
        Progress(Some(bar))
    }

    fn say(&self, words: &str) {
        if let Some(bar) = &self.0 {
            bar.set_message(words.to_string());
        }
    }

    fn done(&self) {
        if let Some(bar) = &self.0 {
            bar.finish_and_clear();
        }
    }
}
