//! Commands and options.

use std::path::PathBuf;

use clap::{Args as ClapArgs, Parser, Subcommand, ValueEnum};

use crate::sheet::Format;

/// Where outputs go if nothing else is said.
pub(super) const OUT: &str = "out";

/// Turns one description of a costume garment into the pattern a maker sells.
#[derive(Debug, Parser)]
#[command(
    name = "furbelow",
    version,
    after_help = "Exit codes: 0 fine, 1 faults in a garment, 2 the command was not understood.\n\n\
                  To begin: furbelow check patterns/NAME, then furbelow build patterns/NAME"
)]
pub struct Args {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Make the documents of a garment in all its sizes
    ///
    /// Reads the garment folder, works every size out, and writes booklets (all sizes in one, and one
    /// for each size) and cutting charts into a folder of their own below `out/`. Only files that
    /// changed are written. Where the garment has faults nothing is written.
    #[command(
        after_help = "Examples:\n  furbelow build patterns/my-skirt\n  furbelow build patterns --paper a4\n  furbelow build patterns/my-skirt --size 12 --size 14"
    )]
    Build(BuildArgs),
    /// Look a garment over and show every fault, without making anything
    #[command(after_help = "Examples:\n  furbelow check patterns/my-skirt\n  furbelow check patterns --json")]
    Check(CheckArgs),
    /// Reckon one technique at the table, without a garment
    ///
    /// Without a technique, lists them all. With a technique and no values, lists what it needs.
    #[command(
        after_help = "Examples:\n  furbelow reckon\n  furbelow reckon gathers\n  furbelow reckon gathers seam=70cm ratio=1.5"
    )]
    Reckon(ReckonArgs),
    /// Show how a number of a garment came about
    #[command(after_help = "Example:\n  furbelow why patterns/my-skirt skirt.pleats --size 12")]
    Why(WhyArgs),
    /// Start a garment that builds at once
    ///
    /// Makes the folder with a garment file whose comments teach the file, and the schema beside it with
    /// which an editor explains every key.
    #[command(after_help = "Example:\n  furbelow new patterns/my-apron\n  furbelow build patterns/my-apron")]
    New(NewArgs),
    /// Show every kind of figure a step can ask for, on one page
    ///
    /// Prints a page for a browser: each figure at print size, with its caption, its alternative text and the keys it knows.
    #[command(after_help = "Example:\n  furbelow figures > figures.html")]
    Figures(FiguresArgs),
    /// Print the JSON Schema of the garment file, for editors
    #[command(
        after_help = "Example:\n  furbelow schema > patterns/my-skirt/garment.schema.json\n\nand as the first line of garment.yaml:\n  # yaml-language-server: $schema=garment.schema.json"
    )]
    Schema,
    /// Print the completions for a shell
    #[command(after_help = "Example:\n  furbelow completions bash > furbelow.bash")]
    Completions(CompletionsArgs),
    /// Write the manual pages of the commands
    #[command(after_help = "Example:\n  furbelow man /usr/local/share/man/man1")]
    Man(ManArgs),
    /// Say what changed between two editions of a garment, and why
    ///
    /// Each of the two is a garment folder, the output folder of a build (or the `build.json` in it), or a garment folder at a
    /// revision in git, as `REVISION:FOLDER`.
    #[command(
        after_help = "Examples:\n  furbelow compare out/my-skirt patterns/my-skirt\n  furbelow compare v1.0.0:patterns/my-skirt patterns/my-skirt --pdf what-changed.pdf\n  furbelow compare old/build.json out/my-skirt/build.json --json"
    )]
    Compare(CompareArgs),
    /// Show a garment in a browser while you write it
    ///
    /// Works the garment out again whenever a file of it is saved, and serves a page on this machine alone: booklets, charts,
    /// figures, every number with its working, and a place to try another value. End it with Ctrl-C.
    #[command(after_help = "Example:\n  furbelow watch patterns/my-skirt")]
    Watch(WatchArgs),
    /// Explain a kind of fault
    #[command(after_help = "Example:\n  furbelow explain unknown-name")]
    Explain(ExplainArgs),
}

/// The papers a document can be set on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum PaperArg {
    /// A4 and US letter.
    Both,
    /// A4.
    A4,
    /// US letter.
    Letter,
}

/// The formats of pattern sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum SheetsArg {
    /// No sheets.
    None,
    /// Tiles on A4.
    A4,
    /// Tiles on US letter.
    Letter,
    /// A0, for a copy shop.
    A0,
    /// A roll 36 in wide, for a copy shop.
    Roll,
    /// One page for a projector.
    Projector,
}

impl SheetsArg {
    /// The format; none for no sheets.
    #[must_use]
    pub const fn format(self) -> Option<Format> {
        match self {
            SheetsArg::None => None,
            SheetsArg::A4 => Some(Format::A4),
            SheetsArg::Letter => Some(Format::Letter),
            SheetsArg::A0 => Some(Format::A0),
            SheetsArg::Roll => Some(Format::Roll),
            SheetsArg::Projector => Some(Format::Projector),
        }
    }
}

/// Options of `build`.
#[derive(Debug, ClapArgs)]
pub struct BuildArgs {
    /// Garment folders, or folders of garment folders
    #[arg(required = true, value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// The folder to write into; each garment gets a folder of its own there
    #[arg(long, default_value = OUT, value_name = "FOLDER")]
    pub out: PathBuf,
    /// Only the booklets and sheets of these sizes (those of all sizes are made all the same)
    #[arg(long = "size", value_name = "SIZE")]
    pub sizes: Vec<String>,
    /// The paper
    #[arg(long, value_enum, default_value_t = PaperArg::Both)]
    pub paper: PaperArg,
    /// Only the pattern sheets of these formats; left out, every one the garment asks for on the papers given
    #[arg(long = "sheets", value_enum, value_name = "FORMAT")]
    pub sheets: Vec<SheetsArg>,
    /// Make everything anew, without what earlier builds left in the `.cache` of the output folder
    #[arg(long)]
    pub no_cache: bool,
    /// Tell what was done as JSON
    #[arg(long)]
    pub json: bool,
    /// Say nothing but faults
    #[arg(long, short)]
    pub quiet: bool,
}

/// Options of `figures`.
#[derive(Debug, ClapArgs)]
pub struct FiguresArgs {
    /// In greys, as a black-and-white printer shows them
    #[arg(long)]
    pub grey: bool,
}

/// Options of `check`.
#[derive(Debug, ClapArgs)]
pub struct CheckArgs {
    /// Garment folders, or folders of garment folders
    #[arg(required = true, value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// Tell the faults as JSON
    #[arg(long)]
    pub json: bool,
}

/// Options of `reckon`.
#[derive(Debug, ClapArgs)]
pub struct ReckonArgs {
    /// The technique, such as `cartridge-pleats`
    pub technique: Option<String>,
    /// Values, as `name=value`: `seam=70cm`, `widths=45in,60in`
    #[arg(value_name = "NAME=VALUE")]
    pub values: Vec<String>,
    /// Answer as JSON
    #[arg(long)]
    pub json: bool,
    /// Centimetres first
    #[arg(long)]
    pub metric: bool,
    /// Print the technique's page of the manual, as Markdown; without a technique, the whole manual
    #[arg(long)]
    pub manual: bool,
}

/// Options of `why`.
#[derive(Debug, ClapArgs)]
pub struct WhyArgs {
    /// The garment folder
    pub path: PathBuf,
    /// The number's name, as formulas and prose name it: `skirt.pleats`
    pub name: String,
    /// The size; left out, every size in turn
    #[arg(long)]
    pub size: Option<String>,
    /// Answer as JSON
    #[arg(long)]
    pub json: bool,
}

/// Options of `watch`.
#[derive(Debug, ClapArgs)]
pub struct WatchArgs {
    /// The garment folder
    pub path: PathBuf,
    /// The port to serve at; 0 takes any that is free
    #[arg(long, default_value_t = 4747)]
    pub port: u16,
}

/// Options of `compare`.
#[derive(Debug, ClapArgs)]
pub struct CompareArgs {
    /// The earlier edition
    pub old: String,
    /// The later edition
    pub new: String,
    /// Write a page "What changed" for buyers of the earlier edition
    #[arg(long, value_name = "FILE")]
    pub pdf: Option<PathBuf>,
    /// The paper of that page
    #[arg(long, value_enum, default_value_t = PaperArg::A4)]
    pub paper: PaperArg,
    /// Set no documents: quicker, but says nothing of pages
    #[arg(long)]
    pub numbers_only: bool,
    /// Answer as JSON
    #[arg(long)]
    pub json: bool,
}

/// Options of `explain`.
#[derive(Debug, ClapArgs)]
pub struct ExplainArgs {
    /// The name of the fault, as it stands in brackets; left out, all of them
    pub code: Option<String>,
}

/// Options of `new`.
#[derive(Debug, ClapArgs)]
pub struct NewArgs {
    /// The folder to make; its name becomes the title
    #[arg(value_name = "FOLDER")]
    pub folder: PathBuf,
}

/// Options of `completions`.
#[derive(Debug, ClapArgs)]
pub struct CompletionsArgs {
    /// The shell
    #[arg(value_enum)]
    pub shell: clap_complete::Shell,
}

/// Options of `man`.
#[derive(Debug, ClapArgs)]
pub struct ManArgs {
    /// The folder to write them into
    #[arg(value_name = "FOLDER")]
    pub folder: PathBuf,
}
