//! The `furbelow` command.

use std::process::ExitCode;

fn main() -> ExitCode {
    furbelow::cli::run()
}
