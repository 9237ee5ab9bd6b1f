//! Faults of the surroundings: whatever happens around a build, each output is the old one or the new one.

#![cfg(unix)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::thread::sleep;
use std::time::Duration;

struct Bench {
    home: tempfile::TempDir,
    text: String,
}

impl Bench {
    /// An apron to build, and what its two variants look like when built in peace.
    fn new() -> Bench {
        let home = tempfile::tempdir().expect("a folder");
        let case = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/apron/garment.yaml");
        fs::create_dir(home.path().join("apron")).expect("a folder");
        Bench { home, text: fs::read_to_string(case).expect("the case") }
    }

    fn path(&self, name: &str) -> PathBuf {
        self.home.path().join(name)
    }

    /// Writes one of the two variants of the garment.
    fn variant(&self, second: bool) {
        let text = if second { self.text.replace("hem_depth: 2 in", "hem_depth: 3 in") } else { self.text.clone() };
        fs::write(self.path("apron/garment.yaml"), text).expect("a file");
    }

    fn command(&self) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_furbelow"));
        command.current_dir(self.home.path()).args(["build", "apron", "--paper", "a4"]);
        command
    }

    fn build(&self, out: &str) -> Output {
        self.command().args(["--out", out]).output().expect("the program runs")
    }
}

fn error(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

/// Every file below a folder, by its path there.
fn files(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let mut files: Vec<(String, Vec<u8>)> = walkdir::WalkDir::new(folder)
        .into_iter()
        .filter_map(Result::ok)
        .filter(|entry| entry.file_type().is_file())
        .map(|entry| {
            let path = entry.path().strip_prefix(folder).expect("below").to_string_lossy().into_owned();
            (path, fs::read(entry.path()).expect("a file"))
        })
        .collect();
    files.sort();
    files
}

/// Killed at many moments, from the first to past the last; every file is one of the two, none is torn, and the next build is right.
#[test]
fn killed_at_any_moment() {
    let bench = Bench::new();
    let mut right = Vec::new();
    for second in [false, true] {
        bench.variant(second);
        assert!(bench.build("out").status.success());
        right.push(files(&bench.path("out/apron")));
    }
    assert!(right[0] != right[1]);
    let mut killed = 0;
    for round in 0..40_u64 {
        let second = round % 2 == 0;
        bench.variant(second);
        // What a build takes varies from machine to machine; the moments spread over a second, most of them early.
        let moment = Duration::from_micros(700 * round * round / 2);
        let mut child =
            bench.command().args(["--out", "out", "--quiet"]).stderr(Stdio::null()).spawn().expect("the program runs");
        sleep(moment);
        child.kill().expect("it can be killed");
        if !child.wait().expect("it ends").success() {
            killed += 1;
        }
        for (path, bytes) in files(&bench.path("out/apron")) {
            let whole = right.iter().flatten().any(|(known, good)| *known == path && *good == bytes);
            assert!(whole || path.contains(".furbelow-"), "round {round}: {path} is neither old nor new");
        }
        if round % 5 == 0 {
            assert!(bench.build("out").status.success());
            assert!(files(&bench.path("out/apron")) == right[usize::from(second)], "round {round}: the next build");
        }
    }
    assert!(killed > 3, "only {killed} builds were caught");
    assert!(bench.build("out").status.success());
    assert!(files(&bench.path("out/apron")) == right[0], "the build after the last");
}

/// Many builds at once in one folder, of two variants: each file comes whole from one of them, and all end well.
#[test]
fn several_at_once() {
    let bench = Bench::new();
    bench.variant(false);
    assert!(bench.build("out").status.success());
    let old = files(&bench.path("out/apron"));
    bench.variant(true);
    let children: Vec<_> =
        (0..4).map(|_| bench.command().args(["--out", "out", "--quiet"]).spawn().expect("the program runs")).collect();
    for mut child in children {
        assert!(child.wait().expect("it ends").success());
    }
    let new = files(&bench.path("out/apron"));
    assert!(new != old);
    assert!(bench.build("peace").status.success());
    assert!(new == files(&bench.path("peace/apron")));
}

#[test]
fn places_that_cannot_be_written_to() {
    let bench = Bench::new();
    bench.variant(false);
    fs::write(bench.path("file"), "mine").expect("a file");
    let built = bench.build("file");
    assert_eq!(built.status.code(), Some(1));
    assert!(error(&built).contains("a file stands where a folder should be"), "{}", error(&built));
    assert_eq!(fs::read_to_string(bench.path("file")).expect("still there"), "mine");

    fs::create_dir_all(bench.path("out/apron/booklet-all-a4.pdf")).expect("a folder");
    let built = bench.build("out");
    assert_eq!(built.status.code(), Some(1));
    assert!(error(&built).contains("a folder stands where a file should be"), "{}", error(&built));

    fs::remove_dir_all(bench.path("out")).expect("a folder");
    assert!(bench.build("out").status.success(), "an output folder that vanished is made again");
}

/// Room runs out in the middle: the limit on the size of files stands for the disk.
#[test]
fn no_room_left() {
    let bench = Bench::new();
    bench.variant(false);
    assert!(bench.build("out").status.success());
    let old = files(&bench.path("out/apron"));
    bench.variant(true);
    let command = format!(
        "trap '' XFSZ; ulimit -f 40; exec '{}' build apron --paper a4 --out out",
        env!("CARGO_BIN_EXE_furbelow")
    );
    let built = Command::new("bash").current_dir(bench.home.path()).args(["-c", &command]).output().expect("bash");
    assert_eq!(built.status.code(), Some(1), "{}", error(&built));
    assert!(error(&built).contains("files may not be that large there"), "{}", error(&built));
    assert!(error(&built).contains("make room"), "{}", error(&built));
    bench.variant(true);
    assert!(bench.build("peace").status.success());
    let new = files(&bench.path("peace/apron"));
    for (path, bytes) in files(&bench.path("out/apron")) {
        let whole = old.iter().chain(&new).any(|(known, good)| *known == path && *good == bytes);
        assert!(whole, "{path} is neither old nor new");
    }
    assert!(bench.build("out").status.success());
    assert!(files(&bench.path("out/apron")) == new);
}

/// No home folder, no terminal, another locale, another time zone, one thread: the same bytes.
#[test]
fn elsewhere() {
    let bench = Bench::new();
    bench.variant(false);
    assert!(bench.build("out").status.success());
    let built = bench
        .command()
        .args(["--out", "other"])
        .env_clear()
        .env("LC_ALL", "tr_TR.UTF-8")
        .env("TZ", "Pacific/Kiritimati")
        .env("RAYON_NUM_THREADS", "1")
        .stdin(Stdio::null())
        .output()
        .expect("the program runs");
    assert!(built.status.success(), "{}", error(&built));
    assert!(files(&bench.path("out/apron")) == files(&bench.path("other/apron")));
}
