//! Sewing thread, by seam and stitch class.

use std::collections::BTreeMap;

use super::answer::Table;
use super::given::{InputFault, Value};
use super::ruler::{length_in, number, number_in, value, word_in};
use super::technique::{Input, Output, Technique};
use super::work::{Stop, Work};
use crate::units::{Length, Quantity, Show};

/// Thread for each length of seam, measured at 7 stitches to the centimetre, and what one stitch of the class
/// lays along the seam where the cloth has no thickness, for the classes that go by `base + 2 thickness ÷ stitch`.
const CLASSES: [(&str, &str, f64, Option<f64>); 4] = [
    ("101", "single chain", 4.0, Some(3.0)),
    ("301", "lockstitch", 2.5, Some(2.0)),
    ("401", "double chain", 5.5, Some(4.0)),
    ("504", "three-thread overlock", 14.0, None),
];

/// `thread = seam × thread per length of its stitch class`, and waste on the whole.
pub const THREAD: Technique = Technique {
    name: "thread",
    title: "Sewing thread",
    summary: "The thread each seam takes by its stitch class, and what to buy for a garment.",
    detail: "A machine stitch uses a fixed length of thread for each length of seam. By the classes of ISO 4915, at \
             7 stitches to the centimetre: single chain (101) 4, lockstitch (301) 2 1/2, double chain (401) 5 1/2, \
             three-thread overlock (504) 14 (a table citing Carr and Latham, The Technology of Clothing \
             Manufacture). The ordinary machine at home sews 301.\n\n\
             If you know the thickness of the seam and the stitch length, a lockstitch takes 2 + 2 thicknesses per \
             stitch length: 0.01 in thick at ten stitches to the inch is 2.2 (textileblog.com; a 401 begins at 4, a \
             101 at 3, textilecalculations.com). Or unpick a few inches of your own seam, measure the threads, and \
             give what you found: that is the best of the three.\n\n\
             Waste is what is lost in threading, in ends and in seams sewn twice. A shirt's 69 yards with a fifth \
             added come to 76 metres (textilecalculation.blogspot.com, 2015). An overlock's figure is all its \
             threads together; divide it over the cones.",
    inputs: &[
        Input::rows(
            "seams",
            &[
                Input::words("name", "what the seam is"),
                Input::length("length", "its length"),
                Input::choice("class", &["101", "301", "401", "504"], "its stitch class")
                    .or("301", "the ordinary machine at home"),
                Input::count("count", "how many such seams").or("1", "one"),
                Input::number("per", "thread per length of seam, as unpicked and measured").optional(),
                Input::small("thickness", "the thickness of the seam, all layers").optional(),
                Input::small("stitch", "the length of a stitch").optional(),
            ],
            "the seams, with the rows of stitching on each counted",
        ),
        Input::share("waste", "what is lost in threading, ends and seams sewn twice")
            .or("20 %", "a fifth (textilecalculation.blogspot.com, 2015)"),
        Input::count("garments", "how many garments").or("1", "one"),
        Input::cloth("spool", "the thread on one spool").shown(Show::THREAD).optional(),
    ],
    outputs: &[
        Output::new("by_seam", Show::THREAD, "seam by seam"),
        Output::new("by_class", Show::THREAD, "class by class"),
        Output::new("seam_length", Show::CLOTH, "stitching in all"),
        Output::new("net", Show::THREAD, "thread in the seams"),
        Output::new("garment", Show::THREAD, "thread for a garment, with waste"),
        Output::new("total", Show::THREAD, "thread for all garments"),
        Output::new("spools", Show::COUNT, "spools").when("where a spool is given"),
    ],
    example: &[
        ("seams", "side seams:17 in:301:2, waist:26 in:301:2, hem:4 yd, neatening:5 yd:504"),
        ("spool", "100 m"),
    ],
    work: thread,
};

struct Seam {
    name: String,
    class: &'static str,
    words: &'static str,
    length: Length,
    per: f64,
}

fn thread(work: &mut Work) -> Result<(), Stop> {
    let seams = work.rows("seams").iter().map(seam).collect::<Result<Vec<_>, _>>()?;
    let columns = vec![
        ("seam".into(), Show::THREAD),
        ("class".into(), Show::THREAD),
        ("stitching".into(), Show::LENGTH),
        ("thread per length".into(), Show::NUMBER),
        ("thread".into(), Show::THREAD),
    ];
    let word = |text: &str| Value::Word(text.to_string());
    let rows = seams
        .iter()
        .map(|seam| {
            vec![
                word(&seam.name),
                word(seam.class),
                value(seam.length),
                number(seam.per),
                value(seam.length * seam.per),
            ]
        })
        .collect();
    work.put_table("by_seam", Table { columns, rows });
    work.say(
        "by_seam",
        "stitching × thread per length of its class, or as unpicked, or 2 thicknesses per stitch on the class's own",
    );
    let mut rows = Vec::new();
    for (class, words, ..) in CLASSES {
        let of: Vec<&Seam> = seams.iter().filter(|seam| seam.class == class).collect();
        if of.is_empty() {
            continue;
        }
        let length: Length = of.iter().map(|seam| seam.length).sum();
        let thread: Length = of.iter().map(|seam| seam.length * seam.per).sum();
        rows.push(vec![word(&format!("{class} {words}")), value(length), value(thread)]);
    }
    let columns =
        vec![("class".into(), Show::THREAD), ("stitching".into(), Show::LENGTH), ("thread".into(), Show::THREAD)];
    work.put_table("by_class", Table { columns, rows });
    work.put("seam_length", seams.iter().map(|seam| seam.length).sum::<Length>(), "all stitching together");
    work.put(
        "net",
        seams.iter().map(|seam| seam.length * seam.per).sum::<Length>(),
        "the thread of all seams together",
    );
    work.reckon("garment", "net * (1 + waste)")?;
    work.reckon("total", "garments * garment")?;
    if work.has("spool") {
        let spools: Quantity = work.reckon("spools", "ceil(total / spool)")?;
        if spools.value > 1.5 {
            work.advise("one-dye-lot", "more than one spool: buy them together, because two dye lots differ");
        }
    }
    if seams.iter().any(|seam| seam.words.contains("overlock")) {
        work.advise(
            "divide-over-cones",
            "an overlock's thread is all its threads together; each cone needs its share, the loopers most",
        );
    }
    Ok(())
}

fn seam(row: &BTreeMap<String, Value>) -> Result<Seam, Stop> {
    let name = word_in(row, "name").to_string();
    let class = word_in(row, "class");
    let Some((class, words, per, base)) = CLASSES.into_iter().find(|(code, ..)| *code == class) else {
        return Err(InputFault::new("seams", format!("`{class}` is no class of stitch known here")).into());
    };
    let per = match (number_in(row, "per"), length_in(row, "thickness"), length_in(row, "stitch")) {
        (Some(per), ..) => per,
        (None, Some(thickness), Some(stitch)) => match base {
            Some(base) => base + 2.0 * (thickness / stitch),
            None => {
                let message = format!("`{name}`: no rule in thickness and stitch is known here for class {class}");
                return Err(InputFault::new("seams", message)
                    .help("leave both out, or unpick a seam and give `per`")
                    .into());
            }
        },
        (None, None, None) => per,
        (None, ..) => {
            let message = format!("`{name}`: thickness and stitch go together, and one of them is missing");
            return Err(InputFault::new("seams", message).help("give both or neither").into());
        }
    };
    let length = length_in(row, "length").unwrap_or(Length::ZERO) * number_in(row, "count").unwrap_or(1.0);
    Ok(Seam { name, class, words, length, per })
}

#[cfg(test)]
#[path = "tests/thread.rs"]
mod tests;
