//! Gathers: a ratio of fullness drawn into a seam.

use super::technique::{Input, Output, Technique};
use super::work::{Stop, Work};
use crate::units::{Ratio, Show};

/// `flat = ratio × seam`: the finished width that is drawn up, before seam allowances, hems and joins.
pub const GATHERS: Technique = Technique {
    name: "gathers",
    title: "Gathers",
    summary: "How wide to cut an edge that is gathered into a seam.",
    detail: "The ratio is chosen by cloth and look: sheer cloth takes more than heavy. Ratios in print: a \
             petticoat flounce 1 1/2 (Ingalls, Text-Book on Domestic Art, 1911); a dust ruffle 1 1/4 to 1 1/3 \
             (Baldt, Clothing for Women, 1916); a straight ruffle 2 to 3 (Utah State University Extension). \
             Two rows of stitches are the least that lie flat under the seam; a third below it holds the \
             fullness while you sew (common practice).",
    inputs: &[
        Input::length("seam", "the length of the seam the edge is gathered into, on the seam line"),
        Input::ratio("ratio", "flat width over gathered width, by a swatch"),
        Input::count("rows", "rows of gathering stitches").or("2", "two rows keep the gathers even (common practice)"),
        Input::length("tail", "thread left at each end of a row")
            .or("6 in", "long enough to wind round a pin and to knot (common practice)"),
    ],
    outputs: &[
        Output::new("flat", Show::LENGTH, "flat width"),
        Output::new("thread", Show::THREAD, "gathering thread"),
        Output::new("ends", Show::COUNT, "thread ends to fasten"),
        Output::new("quarter", Show::LENGTH, "flat width of a quarter"),
    ],
    example: &[("seam", "70 cm"), ("ratio", "1 1/2")],
    work: gathers,
};

fn gathers(work: &mut Work) -> Result<(), Stop> {
    work.reckon("flat", "ratio * seam")?;
    work.reckon("quarter", "flat / 4")?;
    work.reckon("thread", "rows * (flat + 2 * tail)")?;
    work.reckon("ends", "2 * rows")?;
    let ratio = work.ratio("ratio")?;
    if ratio > Ratio::from_base(4.0) {
        work.advise(
            "too-full",
            "more than 4 : 1 will not push into a seam as plain gathers; cartridge pleats or smocking carry it",
        );
    }
    if work.quantity("rows")?.value < 2.0 {
        work.advise("one-row", "one row twists; sew a second row a presser foot's width beside it");
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::GATHERS;
    use crate::reckon::{Given, Value};
    use crate::units::{Length, Quantity};

    /// Petticoat flounce, ratio 1 1/2: Ingalls, *Text-Book on Domestic Art*, 1911.
    #[test]
    fn petticoat_flounce() {
        let given = BTreeMap::from([
            ("seam".to_string(), Value::Quantity(Length::inches(90.0).into())),
            ("ratio".to_string(), Value::Quantity(Quantity::number(1.5))),
        ]);
        let answer = GATHERS.answer(Given::check(&GATHERS, given).unwrap()).unwrap();
        assert!((answer.one("flat").unwrap().value - 135.0 * 25.4).abs() < 1e-9);
        assert_eq!(answer.working[0].filled.plain, "1.5\u{a0}:\u{a0}1 × 90 in");
    }
}
