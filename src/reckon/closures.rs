//! Hooks, bars, buttons and eyelets along an opening.

use super::closures_places::places;
use super::given::InputFault;
use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Count, Length, Show};

/// `n = ceil(usable / widest gap) + 1`, `gap = usable / (n − 1)`; places that must carry one divide the
/// opening first, and each part is divided by the same rule.
pub const CLOSURES: Technique = Technique {
    name: "closures",
    title: "Closures",
    summary: "How many hooks, bars, snaps, buttons or eyelets an opening takes, and where each one goes.",
    detail: "An opening gapes where it is pulled hardest: at the bust and at the waist. Those places get theirs first. \
             The rest divide what lies between, evenly in each part and nowhere further apart than the widest gap.\n\n\
             Hooks and eyes at a waist go 1 1/4 in apart, set 1/4 in from the edge, and buttonholes divide the distance \
             equally (The New Dressmaker, 1921, pp. 112, 117). Snaps on a placket without strain go about two inches \
             apart (the same, ch. 21). Buttons are taken at 3 in and eyelets for lacing at 1 in (common practice, no \
             source): give your own gap if the garment is pulled harder.\n\n\
             A buttonhole is as long as the button is wide and thick together. Buttons are sold by the ligne: 40 lignes \
             make an inch (Dictionary of Dry Goods). Mark both sides at once, pinned together, from the waist: a sixteenth \
             of an inch wrong at each hook is a pucker the whole way up.",
    inputs: &[
        Input::choice(
            "kind",
            &["hooks", "bars", "snaps", "buttons", "eyelets"],
            "hooks and eyes, hooks and thread bars, snaps, buttons, or eyelets for lacing",
        )
        .or("hooks", "they take strain and do not show"),
        Input::length("opening", "the length of the opening"),
        Input::length("first", "the first one from the top").or_nothing().or(
            "1/4 in",
            "The New Dressmaker, 1921, p. 112, sets hooks 1/4 in from the edge; the same keeps the corner closed",
        ),
        Input::length("last", "the last one from the bottom").or_nothing().or("1/4 in", "as at the top"),
        Input::length("gap", "the widest gap from one to the next; left out, by the kind of closure").optional(),
        Input::lengths("fixed", "places from the top that must carry one: bust, waist").optional(),
        Input::length("diameter", "for buttons: how wide").optional(),
        Input::number("lignes", "for buttons: their size as sold, in lignes").optional(),
        Input::small("thickness", "for buttons: how thick")
            .or_nothing()
            .or("1/8 in", "a flat button; a domed one is thicker (common practice)"),
        Input::length("laced_gap", "for eyelets: how far apart the two edges stand when laced").or_nothing().optional(),
        Input::length("lace_tail", "for eyelets: lace left at each end to tie")
            .or("15 in", "enough for a bow (common practice)"),
        Input::length("from_edge", "for eyelets: their centres from the edge")
            .or("1/2 in", "enough cloth to hold the strain (common practice)"),
        Input::flag("child", "the garment is for a child")
            .or("no", "say so: cords and small parts have rules of their own"),
    ],
    outputs: &[
        Output::new("widest", Show::FINE, "widest gap allowed"),
        Output::new("usable", Show::LENGTH, "from the first to the last"),
        Output::new("count", Show::COUNT, "closures"),
        Output::new("pieces", Show::COUNT, "parts to sew on, both sides"),
        Output::new("at", Show::FINE, "places from the top"),
        Output::new("gaps", Show::FINE, "gaps"),
        Output::new("button", Show::FINE, "width of the button").when("for buttons whose size is given"),
        Output::new("buttonhole", Show::FINE, "buttonhole").when("for buttons whose size is given"),
        Output::new("lace", Show::CLOTH, "lace").when("for eyelets where the laced gap is given"),
    ],
    example: &[("kind", "hooks"), ("opening", "15 in"), ("fixed", "4 in, 12 1/2 in")],
    work: closures,
};

/// The widest gap by kind, in inches, with its source.
fn usual_gap(kind: &str) -> (f64, &'static str) {
    match kind {
        "snaps" => (2.0, "snaps without strain: The New Dressmaker, 1921, ch. 21"),
        "buttons" => (3.0, "buttons: common practice, no source"),
        "eyelets" => (1.0, "eyelets for lacing: common practice, no source"),
        _ => (1.25, "hooks at a waist: The New Dressmaker, 1921, p. 112"),
    }
}

/// More than this on one opening is a slip in a unit.
const MOST: usize = 1000;

fn closures(work: &mut Work) -> Result<(), Stop> {
    let kind = work.word("kind").to_string();
    if work.has("gap") {
        work.reckon("widest", "gap")?;
    } else {
        let (inches, why) = usual_gap(&kind);
        work.put("widest", Length::inches(inches), why);
    }
    let usable = work.reckon("usable", "opening - first - last")?.value;
    if usable < 0.0 {
        let fault = InputFault::new("opening", "the first and the last one lie beyond each other");
        return Err(fault.help("an opening this short takes a single hook: make `first` and `last` smaller").into());
    }
    let first = work.length("first")?;
    let fixed = fixed(work)?;
    let widest = Length::from_base(work.result("widest")?.value);
    let ends = (first, first + Length::from_base(usable));
    if usable / widest.base() > 1e3 {
        return Err(InputFault::new("gap", format!("this takes more than {MOST} closures"))
            .help("is the unit right?")
            .into());
    }
    let at = places(ends, &fixed, widest);
    let gaps: Vec<Length> = at.windows(2).filter_map(|pair| Some(*pair.get(1)? - *pair.first()?)).collect();
    if fixed.is_empty() {
        work.reckon("count", "ceil(usable / widest) + 1")?;
    } else {
        let parts = format!("{} parts", fixed.len() + 1);
        let rule = format!(
            "the fixed places first, then in each of the {parts}: ceil(part ÷ widest gap); and one for the end"
        );
        work.put("count", Count(at.len() as u64), rule);
    }
    work.reckon("pieces", "2 * count")?;
    let smallest = gaps.iter().copied().reduce(Length::min);
    work.put_list("at", at, "from the top: the first, the fixed ones, the last, and the rest evenly between them");
    work.put_list("gaps", gaps, "each place less the one before it");
    match kind.as_str() {
        "buttons" => buttons(work)?,
        "eyelets" => eyelets(work)?,
        _ => {}
    }
    advise(work, &kind, &fixed, smallest)
}

fn fixed(work: &Work) -> Result<Vec<Length>, Stop> {
    let mut fixed = work.lengths("fixed");
    if fixed.len() > MOST {
        return Err(InputFault::new("fixed", "more than a thousand places").into());
    }
    fixed.sort_by(|a, b| a.base().total_cmp(&b.base()));
    let (first, last) = (work.length("first")?, work.length("opening")? - work.length("last")?);
    if let Some(out) = fixed.iter().find(|place| **place < first || **place > last) {
        let fault =
            InputFault::new("fixed", format!("{} lies outside the first and the last one", both(*out, Show::FINE)));
        return Err(fault.help("places are measured from the top of the opening").into());
    }
    fixed.dedup_by(|a, b| (*a - *b).abs() < Length::mm(1e-6));
    Ok(fixed)
}

fn buttons(work: &mut Work) -> Result<(), Stop> {
    match (work.has("diameter"), work.has("lignes")) {
        (true, true) => {
            return Err(InputFault::new("lignes", "the size of the button is given twice")
                .help("give `diameter` or `lignes`")
                .into());
        }
        (true, false) => work.reckon("button", "diameter")?,
        (false, true) => work.reckon("button", "lignes / 40 * 1 in")?,
        (false, false) => return Ok(()),
    };
    work.reckon("buttonhole", "button + thickness")?;
    Ok(())
}

/// A criss-cross lacing crosses twice from each pair of eyelets to the next, and once straight at the start.
fn eyelets(work: &mut Work) -> Result<(), Stop> {
    if work.has("laced_gap") {
        if work.result("count")?.value < 2.0 {
            return Ok(());
        }
        work.reckon(
            "lace",
            "2 * (count - 1) * hypot(laced_gap + 2 * from_edge, usable / (count - 1)) + laced_gap + 2 * from_edge + 2 * lace_tail",
        )?;
    }
    Ok(())
}

fn advise(work: &mut Work, kind: &str, fixed: &[Length], smallest: Option<Length>) -> Result<(), Stop> {
    if work.flag("child") {
        match kind {
            "eyelets" => work.advise(
                "cord-on-child",
                "no cord, lace or drawstring at the hood or neck of a child's garment, and only short fixed ends at waist \
                 and hem (ASTM F1816, EN 14682, 16 CFR 1120): use snaps or hooks there, and check your local rules",
            ),
            _ => work.advise(
                "small-parts",
                "hooks, snaps and buttons on a small child's garment must stand a hard pull, or they are swallowed; sew each \
                 one with its own thread and check your local rules",
            ),
        }
    }
    let widest = Length::from_base(work.result("widest")?.value);
    let (usual, _) = usual_gap(kind);
    if widest > Length::inches(usual * 1.001) && matches!(kind, "hooks" | "bars") {
        work.advise(
            "gapes",
            format!("hooks further apart than {} gape under strain", both(Length::inches(usual), Show::FINE)),
        );
    }
    if let Some(smallest) = smallest
        && smallest < Length::mm(8.0)
    {
        work.advise(
            "crowded",
            format!("two of them lie only {} apart; move a fixed place", both(smallest, Show::FINE)),
        );
    }
    if kind == "buttons" && fixed.is_empty() && work.length("opening")? > Length::inches(8.0) {
        work.advise(
            "no-fixed-place",
            "a button belongs at the fullest point of the bust and one at the waist; give them as `fixed`",
        );
    }
    if kind == "eyelets" && !work.has("laced_gap") {
        work.say("count", "on each side; both sides are marked at once, pinned together");
    }
    Ok(())
}

#[cfg(test)]
#[path = "tests/closures.rs"]
mod tests;
