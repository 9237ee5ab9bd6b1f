//! Packs an instance of the open benchmark of irregular strip packing and says how well.
//!
//! ```text
//! pack INSTANCE.json --evaluations N [--seed S] [--starts K] [--threads T] [--svg OUT] [--json]
//! ```
//!
//! Prints the length of strip used in the unit of the instance, the density in percent, whether the independent
//! checker passes the layout, and the processor time of all threads in seconds; with `--json` as one JSON object.

use furbelow::lay::verify::verify;
use furbelow::lay::{Effort, Instance, Layout, Problem, search};
use std::fmt::Write;
use std::process::ExitCode;
use std::time::Instant;

struct Options {
    instance: String,
    effort: Effort,
    threads: usize,
    svg: Option<String>,
    json: bool,
}

fn main() -> ExitCode {
    let outcome = options().and_then(|options| pack(&options));
    match outcome {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::from(1),
        Err(message) => {
            eprintln!("pack: {message}");
            ExitCode::from(2)
        }
    }
}

fn options() -> Result<Options, String> {
    let mut effort = Effort { evaluations: 0, starts: 1, seed: 0 };
    let (mut instance, mut svg, mut json, mut threads, mut given) = (None, None, false, 1, false);
    let mut args = std::env::args().skip(1);
    while let Some(arg) = args.next() {
        let mut number = || {
            let text = args.next().ok_or_else(|| format!("{arg} wants a number"))?;
            let value: f64 = text.parse().map_err(|_| format!("{arg} wants a number and got {text}"))?;
            if (0.0..=1e15).contains(&value) && value.fract() == 0.0 {
                Ok(value as u64)
            } else {
                Err(format!("{arg} wants a whole number and got {text}"))
            }
        };
        match arg.as_str() {
            "--evaluations" => {
                effort.evaluations = number()?;
                given = true;
            }
            "--seed" => effort.seed = number()?,
            "--starts" => effort.starts = u32::try_from(number()?).map_err(|e| e.to_string())?,
            "--threads" => threads = usize::try_from(number()?).map_err(|e| e.to_string())?,
            "--svg" => svg = Some(args.next().ok_or("--svg wants a file name")?),
            "--json" => json = true,
            other if !other.starts_with('-') && instance.is_none() => instance = Some(other.to_owned()),
            other => return Err(format!("{other} is not an option")),
        }
    }
    if !given {
        return Err("--evaluations is missing".to_owned());
    }
    Ok(Options { instance: instance.ok_or("no instance file given")?, effort, threads, svg, json })
}

/// Whether the layout passes the checker.
fn pack(options: &Options) -> Result<bool, String> {
    let text = std::fs::read_to_string(&options.instance).map_err(|e| format!("{}: {e}", options.instance))?;
    let instance = Instance::read(&text).map_err(|e| format!("{}: {e}", options.instance))?;
    let problem = instance.problem();
    let pool = rayon::ThreadPoolBuilder::new().num_threads(options.threads).build().map_err(|e| e.to_string())?;
    let begun = (processor_seconds(), Instant::now());
    let layout = pool.install(|| search(&problem, &options.effort)).map_err(|e| e.to_string())?;
    let seconds = match (begun.0, processor_seconds()) {
        (Some(a), Some(b)) => b - a,
        _ => begun.1.elapsed().as_secs_f64(),
    };
    let flaws = verify(&problem, &layout);
    for flaw in &flaws {
        eprintln!("{flaw}");
    }
    let valid = flaws.is_empty();
    let (length, density) = (layout.length / instance.scale(), layout.density * 100.0);
    if options.json {
        let report = serde_json::json!({
            "length": length, "density": density, "valid": valid, "cpu_seconds": seconds,
        });
        println!("{report}");
    } else {
        println!("{}: length {length:.3}, density {density:.2} %, valid {valid}, {seconds:.2} s", instance.name);
    }
    if let Some(path) = &options.svg {
        std::fs::write(path, drawing(&problem, &layout)).map_err(|e| format!("{path}: {e}"))?;
    }
    Ok(valid)
}

/// Processor time of all threads so far, from the process table of Linux; nothing on other systems.
fn processor_seconds() -> Option<f64> {
    const TICKS_PER_SECOND: f64 = 100.0;
    let line = std::fs::read_to_string("/proc/self/stat").ok()?;
    let fields: Vec<&str> = line.rsplit_once(')')?.1.split_whitespace().collect();
    let ticks: f64 = fields.get(11)?.parse::<f64>().ok()? + fields.get(12)?.parse::<f64>().ok()?;
    Some(ticks / TICKS_PER_SECOND)
}

fn drawing(problem: &Problem, layout: &Layout) -> String {
    let mut svg = String::new();
    let (w, h) = (layout.length, problem.width);
    let _ = writeln!(svg, r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {w} {h}">"#);
    let _ = writeln!(svg, r##"<rect width="{w}" height="{h}" fill="#fff" stroke="#000"/>"##);
    for placement in &layout.placements {
        let outline = &problem.items[placement.item].choices[placement.choice].outline;
        let points: Vec<String> =
            outline.iter().map(|p| format!("{:.3},{:.3}", p[0] + placement.by[0], p[1] + placement.by[1])).collect();
        let points = points.join(" ");
        let _ =
            writeln!(svg, r##"<polygon points="{points}" fill="#ccc" stroke="#000" stroke-width="{}"/>"##, h / 1000.0);
    }
    svg.push_str("</svg>\n");
    svg
}
