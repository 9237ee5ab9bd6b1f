//! The dipped waist on a straight-grain skirt: how far the top is cut down, mark by mark.

use super::answer::Table;
use super::dip_curve::Curve;
use super::given::{InputFault, Value};
use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Angle, Length, Quantity, Ratio, Show};

/// The seam `y(x)` dips below the level waist; measured along itself it is
/// `s(x) = ∫ √(1 + y'²)` from the centre, and the flat skirt runs to `u = ratio × s`. So the skirt's top
/// is lowered at `u` by `y(x(u / ratio))`.
pub const DIP: Technique = Technique {
    name: "dip",
    title: "A dipped waist",
    summary: "How a skirt on straight grain is cut down at the top to meet a waist that dips to a point.",
    detail: "Where the bodice comes down to a point at the centre, the skirt must be shorter there. It is cut down \
             at the top and never trimmed at the hem: the hem lies on the straight grain, hangs level and stays \
             so, while a hem cut in a curve leaves the grain and drops.\n\n\
             The top of the skirt is drawn up, so the dip lies on the flat cloth stretched sideways by the ratio. \
             Measure the dip along the seam and not straight across. A straight-sided dip 12 in wide and 3 in deep \
             is 13.42 in along the seam; at six to one it takes 80 1/2 in of skirt, where its width alone would give \
             72 in. A skirt cut by the width is 8 1/2 in short of pleats, and the dip ends before it should \
             (closed forms; the second figure is what is commonly done).\n\n\
             The table gives the marks: from the centre outward along the flat edge, and at each how far down. Join \
             them with a curved ruler. Mark the other half as a mirror. The allowance that is folded over at the \
             top follows the same curve: the same depths, measured from the raw edge. Where the curve is too steep on \
             the flat to fold without a pucker, cut it on the line plus a seam allowance and face it.\n\n\
             `half-cosine` is a dip that leaves the level waist smoothly and is rounded at the point; `parabola` is \
             rounded at the point and meets the waist at an angle; `straight` is a true point. With `points`, \
             measure your bodice: how far from the centre, and how far below the waist.",
    inputs: &[
        Input::length(
            "width",
            "the width of the dip, straight across from where it leaves the level waist to where it returns",
        ),
        Input::length("depth", "how far the centre lies below the level waist"),
        Input::ratio("ratio", "flat width over drawn-up width, as the skirt is pleated or gathered"),
        Input::choice("shape", &["straight", "half-cosine", "parabola", "points"], "the line of the dip")
            .or("straight", "a pointed bodice has straight edges unless it was drawn otherwise"),
        Input::rows(
            "points",
            &[
                Input::length("out", "how far out from the centre").or_nothing(),
                Input::length("down", "how far below the level waist").or_nothing(),
            ],
            "for the shape `points`: places on the seam from the centre outward, joined straight",
        )
        .optional(),
        Input::length("waist", "the whole waist level all round, without the dip").optional(),
        Input::length("every", "a mark at each so much of the flat edge")
            .or("2 in", "close enough to draw a smooth line through by eye (common practice)"),
        Input::angle("steepest_fold", "an edge steeper than this on the flat cloth is faced and not folded")
            .or("20 deg", "beyond it the folded allowance is bias enough to pucker (common practice, no source)"),
    ],
    outputs: &[
        Output::new("arc", Show::FINE, "length of the dip along the seam"),
        Output::new("longer", Show::PERCENT, "longer than straight across"),
        Output::new("flat", Show::LENGTH, "flat width the dip takes"),
        Output::new("half_flat", Show::LENGTH, "flat width from the centre to the end of the dip"),
        Output::new("span_flat", Show::LENGTH, "what the width alone would give"),
        Output::new("shortfall", Show::LENGTH, "what would be missing"),
        Output::new("seam", Show::FINE, "whole seam with the dip").when("where the waist is given"),
        Output::new("whole_flat", Show::LENGTH, "flat width of the whole skirt").when("where the waist is given"),
        Output::new("steepest", Show::ANGLE, "steepest slope on the flat cloth"),
        Output::new("marks", Show::LENGTH, "marks along the flat edge"),
    ],
    example: &[("width", "12 in"), ("depth", "3 in"), ("ratio", "6"), ("waist", "26 in"), ("every", "4 in")],
    work: dip,
};

/// More marks than this and the distance between them is a slip.
const MOST_MARKS: f64 = 400.0;

fn dip(work: &mut Work) -> Result<(), Stop> {
    let curve = curve(work)?;
    match work.word("shape") {
        "straight" => {
            work.reckon("arc", "2 * hypot(width / 2, depth)")?;
        }
        shape => {
            let rule = format!("twice the length of the {shape} from the centre to its end, measured along the line");
            let arc = 2.0 * curve.length();
            work.put("arc", arc, rule);
        }
    }
    work.reckon("longer", "arc / width - 1")?;
    work.reckon("flat", "ratio * arc")?;
    work.reckon("half_flat", "flat / 2")?;
    work.reckon("span_flat", "ratio * width")?;
    work.reckon("shortfall", "flat - span_flat")?;
    if work.has("waist") {
        if work.length("width")? > work.length("waist")? {
            let fault = InputFault::new("width", "the dip is wider than the whole waist");
            return Err(fault.help("`width` runs straight across from one end of the dip to the other").into());
        }
        work.reckon("seam", "waist - width + arc")?;
        work.reckon("whole_flat", "ratio * seam")?;
    }
    let ratio = work.ratio("ratio")?;
    let steepest = curve.steepest(ratio);
    work.put("steepest", steepest, "at its steepest, the fall of the seam over its length times the ratio");
    marks(work, &curve, ratio)?;
    advise(work, &curve, steepest)
}

fn curve(work: &Work) -> Result<Curve, Stop> {
    let (half, depth) = (work.length("width")? / 2.0, work.length("depth")?);
    match work.word("shape") {
        "half-cosine" => Ok(Curve::HalfCosine { half, depth }),
        "parabola" => Ok(Curve::Parabola { half, depth }),
        "points" => points(work, half, depth),
        _ => Ok(Curve::Straight { half, depth }),
    }
}

fn points(work: &Work, half: Length, depth: Length) -> Result<Curve, Stop> {
    let fault = |message: String, help: &str| Err(InputFault::new("points", message).help(help).into());
    let mut points = Vec::new();
    for row in work.rows("points") {
        if let (Some(Value::Quantity(out)), Some(Value::Quantity(down))) = (row.get("out"), row.get("down")) {
            points.push((Length::from_base(out.value), Length::from_base(down.value)));
        }
    }
    let (Some(&(first, deepest)), Some(&(last, level))) = (points.first(), points.last()) else {
        return fault("the shape `points` needs points".to_string(), "give each as how far out and how far down");
    };
    if points.len() < 2 {
        return fault("one point makes no line".to_string(), "begin at the centre and end at the level waist");
    }
    if first.base() > 0.0 {
        return fault(
            "the first point is not at the centre".to_string(),
            "begin with nothing out and the full depth down",
        );
    }
    if points.windows(2).any(|pair| matches!(pair, [a, b] if b.0 <= a.0)) {
        return fault(
            "the points do not run outward".to_string(),
            "list them from the centre outward, each further out",
        );
    }
    let hair = Length::mm(0.05);
    if level.base() > 0.0 || (last - half).abs() > hair || (deepest - depth).abs() > hair {
        let ends = format!(
            "the points must run from {} down at the centre to nothing at {} out",
            both(depth, Show::FINE),
            both(half, Show::FINE)
        );
        return fault(ends, "they are one half of the dip; `width` is twice as far out as the last of them");
    }
    if points.iter().any(|point| point.1 > deepest) {
        return fault("a point lies deeper than the centre".to_string(), "the dip is deepest at the centre");
    }
    Ok(Curve::Points(points))
}

fn marks(work: &mut Work, curve: &Curve, ratio: Ratio) -> Result<(), Stop> {
    let (every, half) = (work.length("every")?, Length::from_base(work.result("half_flat")?.value));
    if half / every > MOST_MARKS {
        return Err(InputFault::new("every", "that is more than four hundred marks on half the dip")
            .help("marks an inch or two apart are enough")
            .into());
    }
    let mut table = Table {
        columns: vec![("from the centre".to_string(), Show::LENGTH), ("down".to_string(), Show::FINE)],
        rows: Vec::new(),
    };
    let mut count = 0.0;
    while (every * count).base() < half.base() * (1.0 - 1e-9) {
        let out = every * count;
        let down = curve.depth_along(out / ratio.base());
        table.rows.push(vec![Value::Quantity(out.into()), Value::Quantity(down.into())]);
        count += 1.0;
    }
    table.rows.push(vec![Value::Quantity(half.into()), Value::Quantity(Quantity::from(Length::ZERO))]);
    work.put_table("marks", table);
    work.say("marks", "at each mark, go back along the seam by mark ÷ ratio and take how far down it is there");
    Ok(())
}

fn advise(work: &mut Work, curve: &Curve, steepest: Angle) -> Result<(), Stop> {
    let shortfall = Length::from_base(work.result("shortfall")?.value);
    if shortfall > Length::INCH {
        work.advise(
            "span-for-arc",
            format!(
                "the dip is measured along the seam: straight across it would give {} too little skirt",
                both(shortfall, Show::LENGTH)
            ),
        );
    }
    if steepest > work.angle("steepest_fold")? {
        work.advise(
            "too-steep-to-fold",
            format!(
                "on the flat cloth the edge runs at {}, too steep to fold over without puckers: cut it a seam allowance \
                 above the line and face it with a strip cut to the same curve",
                both(steepest, Show::ANGLE)
            ),
        );
    }
    if let Curve::Points(points) = curve
        && points.len() < 5
    {
        work.advise(
            "few-points",
            "a curve through few points comes out short; measure at least every inch of the seam",
        );
    }
    Ok(())
}

#[cfg(test)]
#[path = "tests/dip.rs"]
mod tests;
