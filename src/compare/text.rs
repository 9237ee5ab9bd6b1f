//! A comparison in words, for a terminal.

use std::fmt::Write;

use super::numbers::{NumberChange, SizeChange};
use super::pages::ranges;
use super::pieces::{PieceChange, PieceFate};
use super::report::Comparison;
use super::seams::Fate;
use super::steps::StepChange;
use crate::units::{Show, Systems, print};

/// The comparison in words.
#[must_use]
pub fn text(comparison: &Comparison, systems: Systems) -> String {
    let mut out = String::new();
    let editions = if comparison.old == comparison.new {
        format!("both edition {}", comparison.new)
    } else {
        format!("edition {} to {}", comparison.old, comparison.new)
    };
    let _ = writeln!(out, "{}, {editions}", comparison.title);
    if comparison.is_empty() {
        out.push_str("\nNothing changed.\n");
        return out;
    }
    if let Some(edition) = &comparison.raise_to {
        let what = if comparison.numbers_changed() { "numbers a buyer cuts by" } else { "words or figures" };
        let _ = writeln!(out, "\nThe edition asks to be raised to {edition}: {what} changed since {}.", comparison.old);
        let _ = writeln!(out, "  edition: {edition}");
    }
    let sizes = [("Sizes that came in", &comparison.sizes_in), ("Sizes that went out", &comparison.sizes_out)];
    for (title, list) in sizes.into_iter().filter(|(_, list)| !list.is_empty()) {
        section(&mut out, title, [list.join(", ")]);
    }
    let (first, following): (Vec<_>, Vec<_>) = comparison.numbers.iter().partition(|number| number.first);
    section(&mut out, "What was changed", first.into_iter().map(number));
    section(&mut out, "Numbers that follow from it", following.into_iter().map(number));
    section(&mut out, "Pieces", comparison.pieces.iter().map(|change| piece(change, systems)));
    let seams =
        comparison.seams.iter().map(|seam| format!("{}{}{}", seam.title, fate(seam.what), by_size(&seam.sizes)));
    section(&mut out, "Seams", seams);
    let cloths = comparison
        .cloths
        .iter()
        .map(|cloth| format!("{}, {} wide{}{}", cloth.cloth, cloth.width, fate(cloth.what), by_size(&cloth.sizes)));
    section(&mut out, "Cloth to buy", cloths);
    section(&mut out, "Steps", comparison.steps.iter().map(step));
    section(&mut out, "Other chapters whose words changed", comparison.chapters.iter().cloned());
    match &comparison.documents {
        None => section(&mut out, "Pages", ["not compared: the documents of one side are not there".to_string()]),
        Some(documents) => {
            let lines = documents.iter().map(|document| match document.what {
                Fate::Gone => format!("{}: gone", document.path),
                Fate::New => format!("{}: new, {} pages", document.path, document.pages),
                Fate::Changed => match document.print.as_deref() {
                    None => format!("{}: changed; its pages are not known one by one", document.path),
                    Some([]) => {
                        format!("{}: nothing to print again; head, foot or page numbers changed", document.path)
                    }
                    Some(pages) => format!("{}: print again {} of {}", document.path, ranges(pages), document.pages),
                },
            });
            section(&mut out, "PDFs to upload again", lines);
        }
    }
    out
}

fn section(out: &mut String, title: &str, lines: impl IntoIterator<Item = String>) {
    let mut lines = lines.into_iter().peekable();
    if lines.peek().is_none() {
        return;
    }
    let _ = writeln!(out, "\n{title}");
    for line in lines {
        let _ = writeln!(out, "  {}", line.replace('\n', "\n  "));
    }
}

fn number(change: &NumberChange) -> String {
    let same = change.sizes.windows(2).all(|pair| pair[0].old == pair[1].old && pair[0].new == pair[1].new);
    let one = |size: &SizeChange| match (&size.old, &size.new) {
        (Some(old), Some(new)) => format!("{old} -> {new}"),
        (Some(old), None) => format!("{old} -> gone"),
        (None, Some(new)) => format!("new: {new}"),
        (None, None) => String::new(),
    };
    let mut lines = vec![format!("{} ({}): {}", change.name, change.label, change.why)];
    match change.sizes.as_slice() {
        [] => {}
        [first, rest @ ..] if same && !rest.is_empty() => {
            lines.push(format!("  {}, in {} sizes", one(first), rest.len() + 1));
        }
        sizes => lines.extend(sizes.iter().map(|size| format!("  {}: {}", size.size, one(size)))),
    }
    lines.join("\n")
}

fn piece(change: &PieceChange, systems: Systems) -> String {
    let far = |length: crate::units::Length| print(length.into(), Show::SMALL).terminal(systems).replace('\u{a0}', " ");
    match change.what {
        PieceFate::New => format!("{}: new", change.title),
        PieceFate::Gone => format!("{}: gone", change.title),
        PieceFate::Cut => format!("{}: the same line, but cut otherwise (how many, or of which cloth)", change.title),
        PieceFate::Moved => {
            let sizes: Vec<String> =
                change.moved.iter().map(|(size, length)| format!("{size}: {}", far(*length))).collect();
            format!("{}: the cut line moved, at most by {}", change.title, sizes.join(", "))
        }
    }
}

fn step(change: &StepChange) -> String {
    let what = match change.what {
        Fate::New => "new".to_string(),
        Fate::Gone => "gone".to_string(),
        Fate::Changed => {
            let mut parts = Vec::new();
            parts.extend(change.words.then(|| "words".to_string()));
            parts.extend(change.numbers.then(|| "numbers".to_string()));
            if !change.figures.is_empty() {
                parts.push(format!("figures {}", change.figures.join(", ")));
            }
            if let Some(was) = change.was.filter(|was| *was != change.number) {
                parts.push(format!("was step {was}"));
            }
            parts.join(", ")
        }
    };
    format!("{} {}: {what}", change.number, change.title)
}

fn fate(what: Fate) -> &'static str {
    match what {
        Fate::New => ": new",
        Fate::Gone => ": gone",
        Fate::Changed => "",
    }
}

fn by_size(sizes: &[(String, String, String)]) -> String {
    let line = |(size, old, new): &(String, String, String)| match (old.is_empty(), new.is_empty()) {
        (true, _) => format!("\n  {size}: {new}"),
        (_, true) => format!("\n  {size}: {old}"),
        _ => format!("\n  {size}: {old} -> {new}"),
    };
    sizes.iter().map(line).collect()
}
