//! Plackets: how long an opening must be, and the lap to cut for it.

use super::given::InputFault;
use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Length, Show};

/// A slit of length `o` lets a waist of `w` pass whatever is `w + 2 o` round; a continuous lap is a strip twice
/// the opening long and `2 × lap + 2 × seam` wide.
pub const PLACKET: Technique = Technique {
    name: "placket",
    title: "Plackets",
    summary: "How long an opening must be to get into the garment, and the strip to finish it with.",
    detail: "An opening has two edges, so a slit lets through twice its length more than the waist. It must be long \
             enough to pass the hips, or the shoulders if the skirt goes on over the head, with a little to spare. \
             The New Dressmaker (1921, ch. 21) makes a placket hole ten or eleven inches deep, deeper for a full figure.\n\n\
             The continuous lap is one strip sewn to both edges: twice the length of the opening and 3 3/4 in wide \
             in the same book, which finishes 1 1/2 in wide with seams of 3/8 in. It turns the bottom of the slit in \
             one piece and so cannot tear there. The two-piece lap has an underlap of its own, 1 1/2 in wide finished \
             and an inch longer than the opening, and a facing on the upper edge.\n\n\
             Where a bodice is sewn to the skirt, the closing runs down through both. It is one length, measured from \
             the neck to the bottom of the placket, and the hooks are spaced along all of it.",
    inputs: &[
        Input::length("waist", "the finished waist of the garment, closed").optional(),
        Input::length("largest", "the largest girth that must pass: the hips, or the shoulders with the arms up")
            .optional(),
        Input::length("clearance", "how much larger than that the garment opens")
            .or_nothing()
            .or("2 in", "room for a hand and for petticoats (common practice)"),
        Input::length("opening", "the finished length of the opening below the waist")
            .or("(largest + clearance - waist) / 2", "just long enough to pass what must pass"),
        Input::length("bodice", "how far the closing runs up into a bodice")
            .or_nothing()
            .or("0 in", "a skirt by itself has none"),
        Input::choice("style", &["continuous", "two-piece"], "`continuous`, one strip round the slit, or `two-piece`")
            .or("continuous", "it cannot tear at the bottom"),
        Input::length("lap", "the finished width of the lap")
            .or("1 1/2 in", "The New Dressmaker, 1921, ch. 21: an underlap is an inch and a half wide, finished"),
        Input::length("lap_seam", "the seam and the turning of the strip, each")
            .or("3/8 in", "twice 1 1/2 in and two of these make the 3 3/4 in of The New Dressmaker, 1921, ch. 21"),
        Input::length("below", "how much longer a two-piece lap is than the opening")
            .or_nothing()
            .or("1 in", "The New Dressmaker, 1921, ch. 21: an inch longer than the placket hole"),
    ],
    outputs: &[
        Output::new("least", Show::LENGTH_UP, "least opening to get into it")
            .when("where the waist and the largest girth are given"),
        Output::new("opens_to", Show::LENGTH_DOWN, "girth it opens to").when("where the waist is given"),
        Output::new("slit", Show::LENGTH, "length of the slit below the waist"),
        Output::new("closing", Show::LENGTH, "length of the closing, bodice and skirt together"),
        Output::new("strip_length", Show::LENGTH_UP, "length of the strip"),
        Output::new("strip_width", Show::LENGTH_UP, "width of the strip"),
        Output::new("facing_width", Show::LENGTH_UP, "width of the facing for the upper edge")
            .when("where the lap is of two pieces"),
    ],
    example: &[("waist", "27 in"), ("largest", "39 in"), ("opening", "10 in"), ("bodice", "15 in")],
    work: placket,
};

fn placket(work: &mut Work) -> Result<(), Stop> {
    if work.has("waist") {
        if work.has("largest") {
            if work.length("largest")? + work.length("clearance")? > work.length("waist")? {
                work.reckon("least", "(largest + clearance - waist) / 2")?;
            } else {
                work.put("least", Length::ZERO, "closed, it is wide enough already");
            }
        }
        work.reckon("opens_to", "waist + 2 * opening")?;
    }
    work.reckon("slit", "opening")?;
    work.reckon("closing", "bodice + opening")?;
    if work.length("opening")? > Length::metres(3.0) {
        return Err(InputFault::new("opening", "an opening of more than three metres; is the unit right?").into());
    }
    if work.word("style") == "two-piece" {
        work.reckon("strip_length", "opening + below")?;
        work.reckon("strip_width", "2 * lap + 2 * lap_seam")?;
        work.reckon("facing_width", "lap + 2 * lap_seam")?;
    } else {
        work.reckon("strip_length", "2 * opening")?;
        work.reckon("strip_width", "2 * lap + 2 * lap_seam")?;
    }
    let opening = work.length("opening")?;
    if let Ok(least) = work.result("least") {
        let short = Length::from_base(least.value) - opening;
        let girth = Length::from_base(work.result("opens_to")?.value);
        if girth < work.length("largest")? {
            work.advise(
                "opening-too-short",
                format!(
                    "open, it measures {}, and {} must pass: make the opening {} longer",
                    both(girth, Show::LENGTH_DOWN),
                    both(work.length("largest")?, Show::LENGTH),
                    both(short, Show::LENGTH_UP)
                ),
            );
        } else if short > Length::mm(0.1) {
            work.advise(
                "tight-opening",
                format!("it passes, but {} short of your clearance", both(short, Show::LENGTH_UP)),
            );
        }
    }
    if work.length("lap")? > opening {
        work.advise("lap-wider-than-long", "the lap is wider than the opening is long; face the slit instead");
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::PLACKET;
    use crate::reckon::Answer;

    fn ask(values: &[(&str, &str)]) -> Answer {
        crate::reckon::ask::ask(&PLACKET, values)
    }

    fn inches(answer: &Answer, name: &str) -> f64 {
        answer.one(name).unwrap().value / 25.4
    }

    /// A strip twice the length of the opening and three and three-quarter inches wide. Read: *The New
    /// Dressmaker*, 1921, ch. 21 (Plackets).
    #[test]
    fn continuous_lap() {
        let found = ask(&[("opening", "10 in")]);
        assert!((inches(&found, "strip_length") - 20.0).abs() < 1e-12);
        assert!((inches(&found, "strip_width") - 3.75).abs() < 1e-12);
    }

    /// An underlap an inch and a half wide, finished, and an inch longer than the placket hole. Read: the same.
    #[test]
    fn two_piece_lap() {
        let found = ask(&[("opening", "10 in"), ("style", "two-piece")]);
        assert!((inches(&found, "strip_length") - 11.0).abs() < 1e-12);
    }

    /// Closed form: a slit has two edges. 27 in and 2 × 7 in pass 41 in.
    #[test]
    fn least_opening() {
        let found = ask(&[("waist", "27 in"), ("largest", "39 in")]);
        assert!((inches(&found, "least") - 7.0).abs() < 1e-12);
        assert!((inches(&found, "slit") - 7.0).abs() < 1e-12);
        assert!(found.advice.is_empty());
        let short = ask(&[("waist", "27 in"), ("largest", "39 in"), ("opening", "5 in")]);
        assert!(short.advice.iter().any(|advice| advice.code == "opening-too-short"));
    }

    /// How far the closing runs from bodice into the skirt is one length measured along both.
    #[test]
    fn bodice_and_skirt_are_one_closing() {
        assert!((inches(&ask(&[("opening", "10 in"), ("bodice", "15 in")]), "closing") - 25.0).abs() < 1e-12);
    }
}
