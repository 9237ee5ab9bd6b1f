//! Binding an edge with a bias strip, single or doubled.

use super::runs::total_run;
use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Length, Show};

/// Single: `strip = 2 × finished + 2 × turn`. Doubled (French): `strip = 6 × finished`.
pub const BINDING: Technique = Technique {
    name: "binding",
    title: "Bias binding",
    summary: "How wide and how long to cut a bias strip to bind an edge.",
    detail: "A single binding shows its finished width on both faces and is turned in on both edges. The New Dressmaker \
             (1921, p. 131) cuts it twice the finished width and 3/8 in more on each edge. A doubled (French) \
             binding is folded in half first, its two raw edges are stitched to the garment together, and its fold is \
             hemmed down: six times the finished width (common practice, no source). It is the neater one on sheer \
             cloth, where a turned edge would shadow through.\n\n\
             A bound edge has no seam allowance. Cut the allowance off before you bind, or the garment grows by it. \
             Stretch the strip a little round a hollow curve, ease it round an outward one, and press it to the curve \
             before you sew.",
    inputs: &[
        Input::small("finished", "how wide it shows on each face"),
        Input::choice("style", &["single", "doubled"], "`single`, or `doubled` (French)")
            .or("single", "a single binding lies flatter; doubled is for sheer cloth"),
        Input::small("turn", "for a single binding: what is turned in on each edge")
            .or("3/8 in", "The New Dressmaker, 1921, p. 131"),
        Input::small("thickness", "more width to go round the thickness of the edge")
            .or_nothing()
            .or("0 in", "nothing to speak of for one or two thin layers; fold a scrap over the edge and see"),
        Input::lengths("edges", "the edges it runs along"),
        Input::length("end", "more length at each end of each edge, to turn in or to join")
            .or_nothing()
            .or("1 in", "enough to hold on to and to lap (common practice)"),
    ],
    outputs: &[
        Output::new("strip", Show::LENGTH_UP, "width of the strip"),
        Output::new("along_selvage", Show::LENGTH_UP, "the strip's width along the selvage"),
        Output::new("stitch_at", Show::SMALL, "first stitching from the edge"),
        Output::new("run", Show::LENGTH, "all its edges together"),
        Output::new("pieces", Show::COUNT, "pieces of binding"),
        Output::new("length", Show::CLOTH, "length of strip"),
    ],
    example: &[("finished", "1/2 in"), ("edges", "60 in, 22 in")],
    work: binding,
};

fn binding(work: &mut Work) -> Result<(), Stop> {
    let doubled = work.word("style") == "doubled";
    if doubled {
        work.reckon("strip", "6 * finished + 2 * thickness")?;
        work.reckon("stitch_at", "finished")?;
    } else {
        work.reckon("strip", "2 * finished + 2 * turn + thickness")?;
        work.reckon("stitch_at", "turn")?;
    }
    work.reckon("along_selvage", "strip * sqrt(2)")?;
    total_run(work, "edges", "run", "pieces")?;
    work.reckon("length", "run + 2 * end * pieces")?;
    let (finished, turn) = (work.length("finished")?, work.length("turn")?);
    if !doubled && turn > finished {
        work.advise(
            "turn-wider-than-binding",
            format!(
                "the turn of {} is wider than the binding of {} and would lie double inside it: stitch at {}, then trim \
                 both turns to just under {}",
                both(turn, Show::SMALL),
                both(finished, Show::SMALL),
                both(turn, Show::SMALL),
                both(finished, Show::SMALL)
            ),
        );
    }
    if finished < Length::mm(3.0) {
        work.advise("narrow-binding", "a binding under 1/8 in cannot be turned; roll the edge instead");
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::BINDING;
    use crate::reckon::Answer;

    fn ask(values: &[(&str, &str)]) -> Answer {
        crate::reckon::ask::ask(&BINDING, values)
    }

    /// Binding cut 2 × finished + 3/8 in on each edge. Read: *The New Dressmaker*, 1921, p. 131. Closed form for
    /// 1/2 in: 1 3/4 in.
    #[test]
    fn single() {
        let found = ask(&[("finished", "1/2 in"), ("edges", "60 in")]);
        assert!((found.one("strip").unwrap().value / 25.4 - 1.75).abs() < 1e-12);
        assert!((found.one("length").unwrap().value / 25.4 - 62.0).abs() < 1e-9);
    }

    /// Six times the finished width: common practice, no source.
    #[test]
    fn doubled() {
        let found = ask(&[("finished", "1/4 in"), ("style", "doubled"), ("edges", "60 in")]);
        assert!((found.one("strip").unwrap().value / 25.4 - 1.5).abs() < 1e-12);
        // Selvage length for 1 1/2 in, 2 1/8 in. Read: Baldt, *Clothing for Women*, 1916, ch. XXII.
        assert!((found.one("along_selvage").unwrap().value / 25.4 - 2.125).abs() < 0.08);
    }

    #[test]
    fn a_turn_wider_than_the_binding() {
        assert!(
            ask(&[("finished", "1/4 in"), ("edges", "1 m")]).advice.iter().any(|a| a.code == "turn-wider-than-binding")
        );
    }
}
