//! Ruffles: strips, joins, and the depth to cut.

use super::given::InputFault;
use super::technique::{Input, Output, Technique};
use super::work::{Stop, Work};
use crate::units::{Length, Show};

/// `flat = ratio × seam`, cut across the cloth in strips that lose their selvages and their joins;
/// `cut depth = depth + seam allowance + hem`, twice the depth where the ruffle is doubled.
pub const RUFFLE: Technique = Technique {
    name: "ruffle",
    title: "Ruffles",
    summary: "How many strips make a ruffle, how deep to cut them and where their joins fall.",
    detail: "A straight ruffle is strips cut across the cloth, joined and gathered. Ratios in print: a straight ruffle 2 \
             to 3 (Utah State University Extension); a petticoat flounce 1 1/2 (Ingalls, Text-Book on Domestic Art, \
             1911); a drawers ruffle 1 1/3 to 1 1/2 and a dust ruffle 1 1/4 to 1 1/3 (Baldt, Clothing for Women, 1916). \
             Soft and sheer cloth takes the higher figure.\n\n\
             All strips are cut alike and the joins share the width out evenly, so that no short piece is left at one \
             end. A ruffle that closes into a ring has as many joins as strips; an open one has one fewer and a hem \
             at each end. Sew the joins and hem the lower edge before you gather: a flat strip is hemmed in minutes, \
             a ruffled one is not.\n\n\
             A doubled ruffle is folded along its lower edge and needs no hem; it takes twice the cloth and stands \
             out further. A heading is the part that stands up above the gathering; its own edge is hemmed like the \
             lower one.",
    inputs: &[
        Input::length("seam", "the length of the seam or line the ruffle is sewn to"),
        Input::ratio("ratio", "flat width over gathered width, by a swatch"),
        Input::length("depth", "the finished depth, from the line it is sewn on down to its edge"),
        Input::length("cloth_width", "the width of the cloth, selvage to selvage"),
        Input::length("selvage", "what is cut off at each selvage")
            .or_nothing()
            .or("1/2 in", "the woven edge and its pin holes (common practice)"),
        Input::length("join", "the seam allowance on each edge that is joined")
            .or_nothing()
            .or("1/2 in", "a French seam or a narrow felled one, the edges of a ruffle being seen (common practice)"),
        Input::length("seam_allowance", "the allowance above the line it is sewn on")
            .or_nothing()
            .or("5/8 in", "the usual allowance of home sewing (common practice)"),
        Input::length("hem", "what is turned up at the lower edge, all turns together")
            .or_nothing()
            .or("3/4 in", "a first turn of 1/4 in and a second of 1/2 in (common practice)"),
        Input::length("heading", "how far it stands up above the gathering")
            .or_nothing()
            .or("0 in", "most ruffles are caught in a seam and have no heading"),
        Input::flag("doubled", "the ruffle is folded along its lower edge").or("no", "one layer and a hem are lighter"),
        Input::flag("ring", "the ruffle closes into a ring").or("yes", "a ruffle round a skirt does"),
        Input::length("end_hem", "what is turned in at each end of an open ruffle, all turns together")
            .or_nothing()
            .or("1/2 in", "two turns of 1/4 in (common practice)"),
    ],
    outputs: &[
        Output::new("flat", Show::LENGTH, "finished flat width"),
        Output::new("usable", Show::LENGTH_DOWN, "cloth width without selvages"),
        Output::new("strips", Show::COUNT, "strips"),
        Output::new("joins", Show::COUNT, "joins"),
        Output::new("total_cut", Show::LENGTH_UP, "all strips end to end, as cut"),
        Output::new("strip", Show::LENGTH_UP, "cut width of each strip"),
        Output::new("cut_depth", Show::LENGTH, "depth to cut"),
        Output::new("cloth", Show::CLOTH, "cloth for the strips"),
        Output::new("quarter", Show::LENGTH, "flat width of a quarter"),
        Output::new("joins_at", Show::LENGTH, "joins along the flat edge, from the start")
            .when("where there is a join"),
    ],
    example: &[("seam", "90 in"), ("ratio", "1 1/2"), ("depth", "10 in"), ("cloth_width", "45 in")],
    work: ruffle,
};

/// More strips than this are a slip in a unit.
const MOST_STRIPS: f64 = 1000.0;

fn ruffle(work: &mut Work) -> Result<(), Stop> {
    work.reckon("flat", "ratio * seam")?;
    work.reckon("quarter", "flat / 4")?;
    let usable = work.reckon("usable", "cloth_width - 2 * selvage")?.value;
    if usable <= 0.0 {
        return Err(InputFault::new("selvage", "the selvages take the whole width of the cloth").into());
    }
    let ring = work.flag("ring");
    if usable <= 2.0 * work.length("join")?.base() {
        return Err(InputFault::new("join", "the joins take the whole width of a strip").into());
    }
    let strips = if ring {
        work.reckon("strips", "ceil(flat / (usable - 2 * join))")?
    } else {
        work.reckon("strips", "max(1, ceil((flat + 2 * end_hem - 2 * join) / (usable - 2 * join)))")?
    }
    .value;
    if strips > MOST_STRIPS {
        return Err(InputFault::new("seam", format!("this takes {strips:.0} strips, more than any ruffle")).into());
    }
    if ring {
        work.reckon("joins", "strips")?;
        work.reckon("total_cut", "flat + 2 * join * joins")?;
    } else {
        work.reckon("joins", "strips - 1")?;
        work.reckon("total_cut", "flat + 2 * join * joins + 2 * end_hem")?;
    }
    work.reckon("strip", "total_cut / strips")?;
    depth(work)?;
    work.reckon("cloth", "strips * cut_depth")?;
    joins(work, strips, ring)?;
    advise(work, strips, ring)
}

fn depth(work: &mut Work) -> Result<(), Stop> {
    let headed = work.length("heading")? > Length::ZERO;
    let rule = match (work.flag("doubled"), headed) {
        (false, false) => "depth + seam_allowance + hem",
        (false, true) => "depth + heading + 2 * hem",
        (true, false) => "2 * (depth + seam_allowance)",
        (true, true) => "2 * (depth + heading)",
    };
    work.reckon("cut_depth", rule)?;
    Ok(())
}

/// Where the joins fall on the gathered seam's flat edge. A ring begins at the centre back with a join.
fn joins(work: &mut Work, strips: f64, ring: bool) -> Result<(), Stop> {
    let (flat, join) = (work.result("flat")?.value, work.length("join")?.base());
    let mut list = Vec::new();
    let strip = work.result("strip")?.value;
    let end = work.length("end_hem")?.base();
    let mut done = 1.0;
    if ring {
        list.push(Length::ZERO);
        while done < strips {
            list.push(Length::from_base(flat * done / strips));
            done += 1.0;
        }
    } else {
        // The first strip loses its end hem and one join, each further one two joins.
        while done < strips {
            list.push(Length::from_base(strip * done - end - join * (2.0 * done - 1.0)));
            done += 1.0;
        }
    }
    if !list.is_empty() {
        work.put_list(
            "joins_at",
            list,
            "the strips laid end to end, seam line to seam line; a ring starts at the centre back",
        );
    }
    Ok(())
}

fn advise(work: &mut Work, strips: f64, ring: bool) -> Result<(), Stop> {
    if strips > 1.5 && (strips / 2.0).fract() < 1e-9 {
        let remedy = if ring {
            "turn the ring so that the joins fall an eighth of the way round from it"
        } else {
            "cut one strip in two and sew half of it to each end"
        };
        work.advise(
            "join-at-centre-front",
            format!("with {strips:.0} strips a join falls in the middle of the ruffle: {remedy}"),
        );
    }
    let ratio = work.ratio("ratio")?.base();
    if ratio > 4.0 {
        work.advise("too-full", "more than 4 : 1 will not push into a seam as plain gathers");
    } else if ratio < 1.25 {
        work.advise(
            "too-flat",
            "less than 1 1/4 : 1 looks like a mistake rather than a ruffle (dust ruffles in Baldt, 1916, begin there)",
        );
    }
    if work.length("hem")? > work.length("depth")? {
        work.advise("hem-deeper-than-ruffle", "the hem is deeper than the ruffle; bind or roll the edge instead");
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::RUFFLE;
    use crate::reckon::{Answer, Outcome};

    fn ask(values: &[(&str, &str)]) -> Answer {
        crate::reckon::ask::ask(&RUFFLE, values)
    }

    fn one(answer: &Answer, name: &str) -> f64 {
        answer.one(name).unwrap().value
    }

    /// Petticoat flounce, 1 1/2 : 1. Read: Ingalls, *Text-Book on Domestic Art*, 1911.
    #[test]
    fn petticoat_flounce() {
        let found = ask(&[("seam", "90 in"), ("ratio", "1 1/2"), ("depth", "10 in"), ("cloth_width", "45 in")]);
        assert!((one(&found, "flat") / 25.4 - 135.0).abs() < 1e-9);
        // Closed form: ceil(135 / (44 - 1)) = 4; 4 joins of 1 in; 139 / 4.
        assert_eq!(one(&found, "strips"), 4.0);
        assert!((one(&found, "strip") / 25.4 - 34.75).abs() < 1e-9);
        assert!((one(&found, "cut_depth") / 25.4 - 11.375).abs() < 1e-9);
        assert!(found.advice.iter().any(|advice| advice.code == "join-at-centre-front"));
    }

    /// 236 cm from cloth 90 wide with 2 of seam: 3 strips. Read: National Instructional Media Institute (Govt
    /// of India), *Dress Making, Trade Practical vol. 2*, pp. 202-205.
    #[test]
    fn three_strips() {
        let found = ask(&[
            ("seam", "118 cm"),
            ("ratio", "2"),
            ("depth", "10 cm"),
            ("cloth_width", "90 cm"),
            ("selvage", "0 cm"),
            ("join", "1 cm"),
        ]);
        assert_eq!(one(&found, "strips"), 3.0);
    }

    #[test]
    fn an_open_ruffle_comes_out_at_its_flat_width() {
        let found =
            ask(&[("seam", "50 in"), ("ratio", "2 1/2"), ("depth", "3 in"), ("cloth_width", "45 in"), ("ring", "no")]);
        let strips = one(&found, "strips");
        let strip = one(&found, "strip");
        assert!(strip <= one(&found, "usable"));
        assert!((strips * strip - 2.0 * 12.7 * (strips - 1.0) - 2.0 * 12.7 - one(&found, "flat")).abs() < 1e-9);
        let Some(Outcome::List(joins)) = found.get("joins_at") else { panic!() };
        // Open and even: the joins lie as far from the one end as from the other.
        assert!((joins[0].value + joins.last().unwrap().value - one(&found, "flat")).abs() < 1e-9);
    }

    #[test]
    fn doubled_and_headed() {
        let base = [("seam", "50 in"), ("ratio", "2"), ("depth", "3 in"), ("cloth_width", "45 in")];
        let depth = |more: &[(&str, &str)]| one(&ask(&[&base[..], more].concat()), "cut_depth") / 25.4;
        assert!((depth(&[]) - 4.375).abs() < 1e-9);
        assert!((depth(&[("heading", "1 in")]) - 5.5).abs() < 1e-9);
        assert!((depth(&[("doubled", "yes")]) - 7.25).abs() < 1e-9);
        assert!((depth(&[("doubled", "yes"), ("heading", "1 in")]) - 8.0).abs() < 1e-9);
    }
}
