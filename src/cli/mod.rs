//! The command line: words in, words and exit codes out. All work is done by the library.

mod args;
mod build;
mod check;
mod compare;
mod explain;
mod figures;
mod new;
mod reckon;
mod shell;
mod show;
mod watch;
mod why;

use std::path::Path;
use std::process::ExitCode;

use clap::Parser;

use args::{Args, Command, OUT};

use crate::cache::{Folder, Nothing, Store};

/// All is well.
const FINE: u8 = 0;
/// The garment has faults, or an answer is out of reach.
const FAULTS: u8 = 1;
/// The command itself cannot be understood.
const USAGE: u8 = 2;

/// Runs the command line given to the process.
#[must_use]
pub fn run() -> ExitCode {
    let args = match Args::try_parse() {
        Ok(args) => args,
        Err(error) => {
            // Help and version are no faults.
            let code = if error.use_stderr() { USAGE } else { FINE };
            let _ = error.print();
            return ExitCode::from(code);
        }
    };
    ExitCode::from(match args.command {
        Command::Build(args) => build::run(&args),
        Command::Check(args) => check::run(&args),
        Command::Reckon(args) => reckon::run(&args),
        Command::Why(args) => why::run(&args),
        Command::New(args) => new::run(&args),
        Command::Figures(args) => figures::run(&args),
        Command::Schema => shell::schema(),
        Command::Completions(args) => shell::completions(&args),
        Command::Man(args) => shell::man(&args),
        Command::Compare(args) => compare::run(&args),
        Command::Watch(args) => watch::run(&args),
        Command::Explain(args) => explain::run(&args),
    })
}

/// What builds into the usual place have kept; a command that writes no outputs makes no folder for them either.
fn kept() -> Box<dyn Store> {
    let cache = Folder::beside(Path::new(OUT));
    if cache.home().is_dir() { Box::new(cache) } else { Box::new(Nothing) }
}

/// Writes a line to standard output; a reader that has gone away is no fault.
pub(crate) fn say(text: &str) {
    use std::io::Write;
    let _ = writeln!(anstream::stdout(), "{text}");
}

/// Writes a line to standard error.
pub(crate) fn complain(text: &str) {
    use std::io::Write;
    let _ = writeln!(anstream::stderr(), "{text}");
}
