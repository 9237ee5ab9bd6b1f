//! Hems: how deep one may be on a curved edge, and what to allow for it.

use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Length, Show};

/// A hem `d` deep on a finished edge of radius `r` is cut to `r + d` and sewn down at `r - d`, so it must lose
/// `2 d / (r + d)` of its length; the deepest hem is the one whose loss the cloth still takes.
pub const HEM: Technique = Technique {
    name: "hem",
    title: "Hems",
    summary: "How deep a hem may be on this edge, and how much to allow for it.",
    detail: "A hem turned up on a straight edge lies flat at any depth. On a curved edge the raw edge lies as far outside \
             the fold as the line it is sewn to lies inside, so it is longer than that line; and the more curved the edge and the deeper the hem, the more there is to lose. Wool can \
             be steamed shorter, hard cotton cannot. Sources give for moderately flared edges 2 to 3 in, for straight \
             hems in sheer cloth up to 4 in, in heavy cloth 2 in or less, for flared edges 1 1/2 in, for circles 1/4 in \
             or a rolled hem (T. Johnson, extension bulletin; issuer not verified). For a straight hem in cloth of \
             middling weight 3 in is taken here (common practice, no source).\n\n\
             Where the radius of the edge is known the limit is worked out: the hem may lose as much of its length as \
             the cloth eases in, taken as 5 % (common practice, no source). The smaller of the two limits is used.\n\n\
             Hem a skirt that is pleated or gathered at the waist before you pleat it, while it lies flat. Let anything \
             cut on the bias or in a circle hang for a day first, and level it on the wearer.",
    inputs: &[
        Input::choice("edge", &["straight", "moderate", "flared", "circle"], "how curved the edge is")
            .or("straight", "panels on straight grain have a straight hem"),
        Input::choice("cloth", &["sheer", "medium", "heavy"], "the weight of the cloth").or("medium", "most cloth is"),
        Input::choice(
            "style",
            &["turned", "doubled", "faced"],
            "turned under once and hemmed, doubled evenly, or faced",
        )
        .or("turned", "the usual hem"),
        Input::length("depth", "the finished depth wanted; left out, the deepest that lies well").optional(),
        Input::length("turn", "the first turning of a turned hem, or the seam of a faced one")
            .or_nothing()
            .or("1/4 in", "enough to hold in the needle (common practice)"),
        Input::length("radius", "the radius of the curve of the finished edge").optional(),
        Input::length("edge_length", "the length of the finished edge").optional(),
        Input::share("ease", "how much of its length the cloth can lose in a hem")
            .or("5 %", "wool loses more with steam, hard cotton less (common practice, no source)"),
    ],
    outputs: &[
        Output::new("usual", Show::LENGTH_DOWN, "deepest hem for such an edge and cloth"),
        Output::new("by_curve", Show::LENGTH_DOWN, "deepest hem by the curve").when("where the radius is given"),
        Output::new("deepest", Show::LENGTH_DOWN, "deepest hem that lies well"),
        Output::new("finished", Show::LENGTH, "finished depth"),
        Output::new("allow", Show::LENGTH, "allow below the finished edge"),
        Output::new("lose", Show::PERCENT, "share of its length the hem must lose").when("where the radius is given"),
        Output::new("lose_length", Show::LENGTH, "length the hem must lose")
            .when("where the radius and the length of the edge are given"),
    ],
    example: &[("edge", "flared"), ("cloth", "medium"), ("radius", "40 in"), ("edge_length", "120 in")],
    work: hem,
};

/// The deepest hem by edge and cloth, in inches. Read: T. Johnson, extension bulletin (issuer not verified);
/// straight and medium, and moderate and heavy by the same bound as straight and heavy: common practice.
fn usual(edge: &str, cloth: &str) -> f64 {
    match (edge, cloth) {
        ("circle", _) => 0.25,
        ("flared", _) => 1.5,
        (_, "heavy") => 2.0,
        ("straight", "sheer") => 4.0,
        _ => 3.0,
    }
}

fn hem(work: &mut Work) -> Result<(), Stop> {
    let (edge, cloth) = (work.word("edge").to_string(), work.word("cloth").to_string());
    let usual = Length::inches(usual(&edge, &cloth));
    work.put("usual", usual, format!("a {edge} edge in {cloth} cloth, by the table of the manual"));
    if work.has("radius") {
        work.reckon("by_curve", "radius * ease / (2 - ease)")?;
        work.reckon("deepest", "min(usual, by_curve)")?;
    } else {
        work.reckon("deepest", "usual")?;
    }
    if work.has("depth") {
        work.reckon("finished", "depth")?;
    } else {
        work.reckon("finished", "deepest")?;
    }
    match work.word("style") {
        "doubled" => work.reckon("allow", "2 * finished")?,
        "faced" => work.reckon("allow", "turn")?,
        _ => work.reckon("allow", "finished + turn")?,
    };
    let (finished, deepest) = (length(work, "finished")?, length(work, "deepest")?);
    let faced = work.word("style") == "faced";
    if work.maybe_length("radius").is_some_and(|radius| finished < radius) {
        work.reckon("lose", "2 * finished / (radius + finished)")?;
        if work.has("edge_length") {
            work.reckon("lose_length", "edge_length * 2 * finished / radius")?;
        }
    }
    if finished > deepest + Length::mm(0.01) && !faced {
        work.advise(
            "hem-too-deep",
            format!(
                "a hem of {} is too deep for this edge, where {} lies well: turn up less, or face the edge with a strip \
                 cut to its curve",
                both(finished, Show::LENGTH),
                both(deepest, Show::LENGTH_DOWN)
            ),
        );
    }
    if edge == "circle" {
        work.advise("hang-first", "let a circle hang for a day before you level and hem it: the bias drops");
    }
    if faced {
        work.say("finished", "a facing is cut to the curve of the edge, so it has nothing to lose at any depth");
    }
    Ok(())
}

fn length(work: &Work, name: &str) -> Result<Length, Stop> {
    Ok(Length::from_base(work.result(name)?.value))
}

#[cfg(test)]
mod tests {
    use super::HEM;
    use crate::reckon::Answer;

    fn ask(values: &[(&str, &str)]) -> Answer {
        crate::reckon::ask::ask(&HEM, values)
    }

    /// Moderately flared 2-3 in; straight sheer up to 4; heavy 2 or less; flared 1 1/2; circle 1/4 or rolled.
    /// Read: T. Johnson, extension bulletin (issuer not verified).
    #[test]
    fn by_edge_and_cloth() {
        for (edge, cloth, inches) in [
            ("moderate", "medium", 3.0),
            ("straight", "sheer", 4.0),
            ("straight", "heavy", 2.0),
            ("moderate", "heavy", 2.0),
            ("flared", "medium", 1.5),
            ("circle", "sheer", 0.25),
        ] {
            let found = ask(&[("edge", edge), ("cloth", cloth)]);
            assert!((found.one("deepest").unwrap().value / 25.4 - inches).abs() < 1e-12, "{edge} {cloth}");
        }
    }

    /// Closed form: the raw edge runs at `r + d`, the line it is sewn to at `r - d`: at 39 in and 1 in, 40 and 38.
    #[test]
    fn by_curve() {
        let found = ask(&[("radius", "39 in"), ("depth", "1 in"), ("edge_length", "78 in"), ("edge", "flared")]);
        assert!((found.one("by_curve").unwrap().value / 25.4 - 1.0).abs() < 1e-12);
        assert!((found.one("lose").unwrap().value - 0.05).abs() < 1e-12);
        assert!((found.one("lose_length").unwrap().value / 25.4 - 4.0).abs() < 1e-12);
    }

    #[test]
    fn too_deep_for_its_curve() {
        let codes = |style: &str| {
            let found = ask(&[("edge", "flared"), ("depth", "4 in"), ("style", style)]);
            found.advice.iter().any(|advice| advice.code == "hem-too-deep")
        };
        assert!(codes("turned") && !codes("faced"));
    }

    #[test]
    fn what_to_allow() {
        let allow = |style: &str| ask(&[("depth", "1 in"), ("style", style)]).one("allow").unwrap().value / 25.4;
        assert!((allow("turned") - 1.25).abs() < 1e-12);
        assert!((allow("doubled") - 2.0).abs() < 1e-12);
        assert!((allow("faced") - 0.25).abs() < 1e-12);
    }
}
