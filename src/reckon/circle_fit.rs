//! Which part of a circle fits which width of cloth, in how many pieces.

use std::f64::consts::PI;

use super::answer::Table;
use super::given::Value;
use super::ruler::{number, value};
use super::sector::Sector;
use super::work::{Stop, Work};
use crate::units::{Length, Show};

/// More pieces than this are gores, and reckoned as such.
const MOST_PIECES: f64 = 12.0;

/// Writes `fits`, a row for each width of cloth, and `widest`; returns the fewest pieces on any width.
///
/// # Errors
/// Where the sheet lacks the radii (a slip in the technique).
pub fn fit(work: &mut Work) -> Result<Option<f64>, Stop> {
    let fraction = work.ratio("fraction")?.base();
    let (inner, outer) = (work.result("cut_radius")?.value, work.result("cut_hem_radius")?.value);
    let (edge, selvage) = (work.length("side")?.base(), work.length("selvage")?);
    let cut = |pieces: f64| Sector { angle: 2.0 * PI * fraction / pieces, inner, outer, edge };
    if cut(1.0).is_one_piece() {
        work.put(
            "widest",
            cut(1.0).narrowest() + selvage * 2.0,
            "the piece turned to its narrowest, and both selvages",
        );
    }
    let asked = work.is_given("pieces").then(|| work.quantity("pieces").map(|count| count.value)).transpose()?;
    let mut least: Option<f64> = None;
    let mut rows = Vec::new();
    for width in work.lengths("cloth_widths") {
        let usable = width - selvage * 2.0;
        let mut pieces = asked.unwrap_or(1.0);
        let mut lay = cut(pieces).lay(pieces, usable);
        while lay.is_none() && asked.is_none() && pieces < MOST_PIECES {
            pieces += 1.0;
            lay = cut(pieces).lay(pieces, usable);
        }
        rows.push(match lay {
            Some(lay) => {
                least = Some(least.map_or(pieces, |least| least.min(pieces)));
                vec![
                    value(width),
                    number(pieces),
                    // Cut whole it has a slit and no seam; else each piece is joined to the next, all round.
                    number(if lay.how == "whole" { 0.0 } else { pieces }),
                    Value::Word(lay.how.to_string()),
                    number(lay.across),
                    value(lay.length),
                ]
            }
            None => {
                let no = || Value::Word("—".to_string());
                vec![value(width), no(), no(), Value::Word("too narrow".to_string()), no(), no()]
            }
        });
    }
    let columns = vec![
        ("cloth".into(), Show::LENGTH),
        ("cut in".into(), Show::COUNT),
        ("seams".into(), Show::COUNT),
        ("laid with".into(), Show::LENGTH),
        ("across".into(), Show::COUNT),
        ("needed".into(), Show::CLOTH),
    ];
    work.put_table("fits", Table { columns, rows });
    work.say(
        "fits",
        "each piece in its own rectangle, all turned alike; the seams count the one with the opening; across is the \
         number side by side",
    );
    Ok(least)
}

/// The longest skirt, in whole inches, that fits one of the widths in the pieces asked for, or in as many as there
/// may be.
///
/// # Errors
/// Where the sheet lacks the radii (a slip in the technique).
pub fn longest(work: &Work) -> Result<Option<Length>, Stop> {
    let pieces = if work.is_given("pieces") { work.quantity("pieces")?.value } else { MOST_PIECES };
    let angle = 2.0 * PI * work.ratio("fraction")?.base() / pieces;
    let (radius, inner) = (work.result("radius")?.value, work.result("cut_radius")?.value);
    let (hem, edge) = (work.length("hem")?.base(), work.length("side")?.base());
    let selvages = work.length("selvage")? * 2.0;
    let widths = work.lengths("cloth_widths");
    let fits = |inches: f64| {
        let cut = Sector { angle, inner, outer: radius + Length::inches(inches).base() + hem, edge };
        widths.iter().any(|width| cut.lay(pieces, *width - selvages).is_some())
    };
    let (mut good, mut bad) = (0.0, (work.length("length")?.base() / 25.4).ceil());
    while bad - good > 1.5 {
        let middle = ((good + bad) / 2.0_f64).floor();
        if fits(middle) {
            good = middle;
        } else {
            bad = middle;
        }
    }
    Ok((good > 0.5).then(|| Length::inches(good)))
}

/// Writes `usual`: the parts of a circle a maker chooses among, at this waist and length.
///
/// # Errors
/// Where an input is missing (a slip in the technique).
pub fn usual(work: &mut Work) -> Result<(), Stop> {
    let waist = work.length("waist")? * (1.0 - work.ratio("stretch")?.base());
    let (length, seam, hem) = (work.length("length")?, work.length("seam")?, work.length("hem")?);
    let (edge, selvage) = (work.length("side")?.base(), work.length("selvage")? * 2.0);
    let mut rows = Vec::new();
    let parts = [("full", 1.0), ("three quarters", 0.75), ("half", 0.5), ("third", 1.0 / 3.0), ("quarter", 0.25)];
    for (name, fraction) in parts {
        let radius = waist / (2.0 * PI * fraction);
        let (inner, outer) = (radius - seam, radius + length + hem);
        if inner <= Length::ZERO {
            continue;
        }
        let narrowest = |pieces: f64| {
            let angle = 2.0 * PI * fraction / pieces;
            let sector = Sector { angle, inner: inner.base(), outer: outer.base(), edge };
            if sector.is_one_piece() { value(sector.narrowest() + selvage) } else { Value::Word("—".to_string()) }
        };
        let hem_line = (radius + length) * (2.0 * PI * fraction);
        let row = vec![Value::Word(name.to_string()), value(radius), value(hem_line), narrowest(1.0), narrowest(2.0)];
        rows.push(row);
    }
    let columns = vec![
        ("circle".into(), Show::LENGTH),
        ("radius".into(), Show::FINE),
        ("hem".into(), Show::LENGTH),
        ("whole on".into(), Show::LENGTH_UP),
        ("in two on".into(), Show::LENGTH_UP),
    ];
    work.put_table("usual", Table { columns, rows });
    work.say(
        "usual",
        "hem is its length all round; whole on and in two on are the narrowest cloths for one piece and for two",
    );
    Ok(())
}
