//! What the command line gives to a shell and an editor: completions, manual pages, the schema.

use clap::CommandFactory;

use super::args::{Args, CompletionsArgs, ManArgs};
use super::{FAULTS, FINE, complain, say};
use crate::teach::editor_schema;

pub(super) fn schema() -> u8 {
    say(&serde_json::to_string_pretty(&editor_schema()).unwrap_or_default());
    FINE
}

pub(super) fn completions(args: &CompletionsArgs) -> u8 {
    let mut script = Vec::new();
    clap_complete::generate(args.shell, &mut Args::command(), "furbelow", &mut script);
    say(String::from_utf8_lossy(&script).trim_end());
    FINE
}

pub(super) fn man(args: &ManArgs) -> u8 {
    let shown = args.folder.display();
    let written =
        std::fs::create_dir_all(&args.folder).and_then(|()| clap_mangen::generate_to(Args::command(), &args.folder));
    if let Err(error) = written {
        complain(&format!("cannot write into `{shown}`: {error}"));
        return FAULTS;
    }
    say(&format!("manual pages written into {shown}"));
    FINE
}
