//! How long building again takes, as ratios within one run.
//!
//! `cargo run --release --example pace -- patterns` copies the garments, builds them from cold, then again with nothing, one word
//! and one swatch measure changed; then it watches the first of them through two hundred saves. Times vary from machine to
//! machine; the shares beside them should not.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, Instant};

use furbelow::cache::{Folder, Memory, Nothing, Store};
use furbelow::pipeline::{self, Wanted};
use furbelow::set::{DocKind, Job, Paper, forget};
use furbelow::watch::Desk;

/// How often the watched garment is saved.
const SAVES: usize = 200;

fn main() {
    let from = std::env::args().nth(1).unwrap_or_else(|| "patterns".to_string());
    let home = tempfile::tempdir().expect("room to work in");
    copy(Path::new(&from), &home.path().join("patterns"));
    let garments = pipeline::find(&[home.path().join("patterns")]).expect("garments");
    let out = home.path().join("out");
    let wanted = Wanted { papers: Paper::ALL.to_vec(), sizes: Vec::new(), sheets: None };

    let cold = timed(|| build(&garments, &wanted, &out));
    let held = memory();
    let nothing = timed(|| build(&garments, &wanted, &out));
    let first = &garments[0];
    let word = edit(first, |line| line.trim_start().starts_with("title:"), |line| format!("{line} again"));
    let word = word.map(|()| timed(|| build(&garments, &wanted, &out)));
    let swatch = edit(first, |line| line.trim_start().starts_with("eased:"), |line| stretched(&line));
    let swatch = swatch.map(|()| timed(|| build(&garments, &wanted, &out)));
    let sizes = timed(|| {
        let (source, _) = furbelow::source::read(first);
        assert!(pipeline::sizes_of(&source).0.is_some());
    });
    println!("{} garments, {} MiB held after the cold build", garments.len(), held / 1024);
    row("cold, everything", Some(cold), cold, "");
    row("nothing changed", Some(nothing), cold, "asked: under 0.3 s");
    row("one title changed, everything built", word, cold, "");
    row("one swatch measure, everything built", swatch, cold, "");
    row("one swatch measure, all sizes, no layouts", Some(sizes), cold, "asked: under 1.5 s");
    share(first, &Folder::beside(&out));
    watch(first, &Folder::beside(&out));
}

/// The tool's own work beside typst's, for the booklet of all sizes and the chart on both papers.
fn share(garment: &Path, store: &dyn Store) {
    let (mut own, mut typst) = (Duration::ZERO, Duration::ZERO);
    let start = Instant::now();
    let (_, checked) = pipeline::check_with(garment, store);
    own += start.elapsed();
    forget(0);
    for (_, book) in &checked.editions {
        for (kind, paper) in DocKind::ALL.into_iter().flat_map(|kind| Paper::ALL.map(|paper| (kind, paper))) {
            let start = Instant::now();
            let job = Job::new(book, kind, paper).expect("data");
            own += start.elapsed();
            let start = Instant::now();
            job.typeset().expect("pages").finish().expect("a PDF");
            typst += start.elapsed();
            forget(2);
        }
    }
    row("our own work, layouts kept", Some(own), typst, "asked: under 15 % of typst's");
}

/// Two hundred saves, a word each, with the booklet looked at after each.
fn watch(garment: &Path, cache: &Folder) {
    let behind: Arc<dyn Store> = if cache.home().is_dir() {
        Arc::new(Folder::beside(cache.home().parent().unwrap_or(Path::new("."))))
    } else {
        Arc::new(Nothing)
    };
    let desk = Desk::new(garment, Arc::new(Memory::new(behind, 64 << 20)));
    let look = || desk.look("all", DocKind::Booklet, Paper::A4).expect("pages");
    desk.renew();
    look();
    let mut times = Vec::new();
    let mut held = Vec::new();
    for save in 0..SAVES {
        let _ = edit(
            garment,
            |line| line.trim_start().starts_with("title:"),
            |line| format!("{} {save}", line.trim_end_matches(|c: char| c.is_ascii_digit() || c == ' ')),
        );
        let start = Instant::now();
        desk.renew();
        look();
        times.push(start.elapsed());
        if save % 20 == 19 {
            held.push(memory() / 1024);
        }
    }
    times.sort();
    println!(
        "watch, one word to pages: middle {:.3} s, slowest {:.3} s   (asked: under 0.3 s)",
        times[SAVES / 2].as_secs_f64(),
        times[SAVES - 1].as_secs_f64()
    );
    println!("memory after every 20 of {SAVES} saves, MiB: {held:?}");
}

fn build(garments: &[PathBuf], wanted: &Wanted, out: &Path) {
    let store = Folder::beside(out);
    for garment in garments {
        let (_, rebuilt) = pipeline::rebuild(garment, wanted, out, &store, &|_| {});
        assert!(!rebuilt.faults.iter().any(furbelow::fault::Fault::stops), "{:?}", rebuilt.faults);
    }
    store.tidy();
}

fn timed(work: impl FnOnce()) -> Duration {
    let start = Instant::now();
    work();
    start.elapsed()
}

fn row(what: &str, time: Option<Duration>, whole: Duration, asked: &str) {
    match time {
        Some(time) => {
            let share = 100.0 * time.as_secs_f64() / whole.as_secs_f64();
            println!("{what:44} {:8.3} s  {share:6.1} %   {asked}", time.as_secs_f64());
        }
        None => println!("{what:44} there is no such line in the first garment"),
    }
}

/// Changes the last line of a garment's files that fits.
fn edit(garment: &Path, fits: impl Fn(&str) -> bool, change: impl Fn(String) -> String) -> Option<()> {
    for name in ["steps.yaml", "garment.yaml"] {
        let Ok(text) = fs::read_to_string(garment.join(name)) else { continue };
        let mut lines: Vec<String> = text.lines().map(str::to_string).collect();
        if let Some(line) = lines.iter_mut().rev().find(|line| fits(line)) {
            *line = change(line.clone());
            fs::write(garment.join(name), lines.join("\n") + "\n").ok()?;
            return Some(());
        }
    }
    None
}

/// The same measure, a thirty-second of an inch longer.
fn stretched(line: &str) -> String {
    format!("{line} + 1/32 in")
}

fn copy(from: &Path, to: &Path) {
    for entry in
        walkdir::WalkDir::new(from).into_iter().filter_map(Result::ok).filter(|entry| entry.file_type().is_file())
    {
        let place = to.join(entry.path().strip_prefix(from).expect("below"));
        fs::create_dir_all(place.parent().expect("a folder")).expect("a folder");
        fs::copy(entry.path(), place).expect("a file");
    }
}

/// What the process holds, KiB; 0 where the system does not say.
fn memory() -> u64 {
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:"));
    line.and_then(|line| line.trim().trim_end_matches(" kB").trim().parse().ok()).unwrap_or(0)
}
