//! How many sheets of paper a garment's pattern takes, beside the fewest its area could lie on.
//!
//! `cargo run --release --example sheets -- patterns/toll-keeper`

use std::path::Path;

use furbelow::pipeline;
use furbelow::sheet::Format;

fn main() {
    for path in std::env::args().skip(1) {
        let (_, checked) = pipeline::check(Path::new(&path));
        let (Some(garment), Some(build)) = (checked.garment, checked.build) else {
            eprintln!("{path}: has faults; see `furbelow check`");
            continue;
        };
        println!("{}", build.title);
        for format in [Format::A4, Format::Letter, Format::A0] {
            match pipeline::tallies(&garment, &build, format) {
                Err(fault) => println!("  {}: {fault}", format.words()),
                Ok(tallies) => {
                    for (size, tally) in &tallies {
                        println!(
                            "  {}, size {size}: {} sheets, at least {}, {:.0} % covered",
                            format.words(),
                            tally.sheets,
                            tally.at_least,
                            tally.share * 100.0
                        );
                    }
                    let single: Vec<_> = tallies.iter().filter(|(size, _)| size != "all").collect();
                    let (used, least) = single.iter().fold((0, 0), |(a, b), (_, t)| (a + t.sheets, b + t.at_least));
                    println!("  {}, every size: {used} sheets, at least {least}", format.words());
                }
            }
        }
    }
}
