//! Piping, with a cord and without.

use super::given::InputFault;
use super::runs::total_run;
use super::technique::{Input, Output, Technique};
use super::work::{Stop, Work};
use crate::units::{Length, Show};

/// With a cord `strip = 2 × allowance + π × cord + turn`; without, `strip = 2 × (allowance + reveal)`.
/// Cut at 45° it takes `strip × √2` along the selvage.
pub const PIPING: Technique = Technique {
    name: "piping",
    title: "Piping",
    summary: "How wide and how long to cut a bias strip for piping, round a cord or flat.",
    detail: "The strip goes once round the cord and carries a seam allowance on both edges, so that it lies edge to edge \
             with the seam it is sewn into. Thick cloth needs a little more to make the turn; that is `turn`, and a \
             scrap wrapped round the cord tells it. A cord of 5/32 in with seams of 1/2 in takes a strip of 1 1/2 in \
             (read: upholsteryresource.com; by the formula 1.49 in).\n\n\
             Flat piping has no cord: the strip is folded in half and shows by its reveal. Make it with the same \
             allowance as the seam. The New Dressmaker (1921, p. 131) cuts it 1 1/4 in wide and stitches 3/8 in from \
             the edge, which shows 1/4 in.\n\n\
             Cut the strip on the true bias if the seam curves. Wash the cord before you cover it: cotton cord shrinks, \
             and draws the finished seam up with it. Trim the cord out of the last half inch wherever a seam crosses.",
    inputs: &[
        Input::small("cord", "the thickness of the cord, measured across").optional(),
        Input::small("reveal", "for flat piping: how much of it shows").optional(),
        Input::length("allowance", "the allowance of the seam it is sewn into")
            .or("5/8 in", "the usual allowance of home sewing (common practice)"),
        Input::small("turn", "more width for thick cloth to make the turn round the cord")
            .or_nothing()
            .or("0 in", "thin cloth turns in no room at all; wrap a scrap round the cord and see"),
        Input::lengths("seams", "the seams it runs along, each on its seam line"),
        Input::length("end", "more length at each end of each seam, to turn in or to join")
            .or_nothing()
            .or("1 in", "enough to hold on to and to lap (common practice)"),
    ],
    outputs: &[
        Output::new("strip", Show::LENGTH_UP, "width of the strip"),
        Output::new("along_selvage", Show::LENGTH_UP, "the strip's width along the selvage"),
        Output::new("shown", Show::SMALL, "what shows of it"),
        Output::new("run", Show::LENGTH, "all its seams together"),
        Output::new("pieces", Show::COUNT, "pieces of piping"),
        Output::new("length", Show::CLOTH, "length of strip"),
        Output::new("cord_length", Show::CLOTH, "length of cord").when("where a cord is given"),
    ],
    example: &[("cord", "5/32 in"), ("allowance", "1/2 in"), ("seams", "26 in, 15 in, 15 in")],
    work: piping,
};

fn piping(work: &mut Work) -> Result<(), Stop> {
    let corded = work.has("cord");
    match (corded, work.has("reveal")) {
        (true, true) => {
            let fault = InputFault::new("reveal", "piping has a cord or a reveal, not both");
            return Err(fault.help("a corded piping shows its cord; leave `reveal` out").into());
        }
        (false, false) => {
            let fault = InputFault::new("cord", "neither a cord nor a reveal is given");
            return Err(fault.help("give `cord` for corded piping, `reveal` for flat piping").into());
        }
        (true, false) => {
            work.reckon("strip", "2 * allowance + pi(cord) + turn")?;
            work.reckon("shown", "cord")?;
        }
        (false, true) => {
            work.reckon("strip", "2 * (allowance + reveal) + turn")?;
            work.reckon("shown", "reveal")?;
        }
    }
    work.reckon("along_selvage", "strip * sqrt(2)")?;
    total_run(work, "seams", "run", "pieces")?;
    work.reckon("length", "run + 2 * end * pieces")?;
    if corded {
        work.reckon("cord_length", "length")?;
    }
    advise(work, corded)
}

fn advise(work: &mut Work, corded: bool) -> Result<(), Stop> {
    let allowance = work.length("allowance")?;
    if corded {
        let cord = work.length("cord")?;
        if cord > allowance {
            work.advise(
                "cord-too-thick",
                "the cord is thicker than the seam allowance is wide, which cannot hold it; use a thinner one",
            );
        } else if cord < Length::mm(1.0) {
            work.advise(
                "cord-too-thin",
                "a cord this thin does not show once it is covered; flat piping would do the same",
            );
        }
    } else if work.length("reveal")? > allowance {
        work.advise(
            "reveal-too-wide",
            "flat piping that shows more than its allowance stands away from the seam; interline it, or use a band",
        );
    }
    if allowance < Length::mm(6.0) {
        work.advise(
            "narrow-allowance",
            "with less than 1/4 in of allowance the second stitching slips off; cut wider, trim after",
        );
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::PIPING;
    use crate::reckon::{Answer, Given, InputFault, parse_value};

    fn ask(values: &[(&str, &str)]) -> Result<Answer, InputFault> {
        let values: BTreeMap<_, _> = values
            .iter()
            .map(|(name, text)| {
                (name.to_string(), parse_value(PIPING.input(name).unwrap(), text, &BTreeMap::new()).unwrap())
            })
            .collect();
        PIPING.answer(Given::check(&PIPING, values).unwrap())
    }

    /// Cord 5/32 in with 1/2 in seams: strip 1 1/2 in. Read: upholsteryresource.com; closed form 1.491.
    #[test]
    fn corded() {
        let found = ask(&[("cord", "5/32 in"), ("allowance", "1/2 in"), ("seams", "26 in, 15 in")]).unwrap();
        assert_eq!(found.printed("strip").unwrap().plain, "1 1/2 in");
        let inches = found.one("strip").unwrap().value / 25.4;
        assert!((inches - 1.491).abs() < 5e-4);
        assert!((inches - (1.0 + std::f64::consts::PI * 5.0 / 32.0)).abs() < 1e-12);
        assert!((found.one("length").unwrap().value / 25.4 - 45.0).abs() < 1e-9);
    }

    /// Flat piping: a strip of 1 1/4 in, folded, stitched about 3/8 in from the edge. Read: *The New Dressmaker*,
    /// 1921, p. 131. Folded it is 5/8 in wide and so shows 1/4 in.
    #[test]
    fn flat() {
        let found = ask(&[("reveal", "1/4 in"), ("allowance", "3/8 in"), ("seams", "26 in")]).unwrap();
        assert!((found.one("strip").unwrap().value / 25.4 - 1.25).abs() < 1e-12);
        assert_eq!(found.one("cord_length"), None);
    }

    /// Selvage length of a strip 1 1/2 in wide, 2 1/8 in. Read: Baldt, *Clothing for Women*, 1916, ch. XXII.
    #[test]
    fn along_the_selvage() {
        let found = ask(&[("reveal", "1/4 in"), ("allowance", "1/2 in"), ("seams", "26 in")]).unwrap();
        assert!((found.one("along_selvage").unwrap().value / 25.4 - 2.125).abs() < 0.08);
        assert!((found.one("along_selvage").unwrap().value / 25.4 - 1.5 * 2f64.sqrt()).abs() < 1e-12);
    }

    #[test]
    fn a_cord_or_a_reveal() {
        assert_eq!(ask(&[("seams", "26 in")]).unwrap_err().input, "cord");
        assert_eq!(ask(&[("cord", "4 mm"), ("reveal", "3 mm"), ("seams", "26 in")]).unwrap_err().input, "reveal");
    }
}
