//! A requirement of cloth, turned from one width into another.

use super::given::InputFault;
use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Length, Show};

/// By equal area `length = amount × from / to`, and never shorter than the longest piece. A table in
/// print gives what layouts really took.
pub const CLOTH_WIDTH: Technique = Technique {
    name: "cloth-width",
    title: "Cloth of another width",
    summary: "How much to buy when the cloth is narrower or wider than the pattern says.",
    detail: "The same area of cloth makes the same garment, more or less: pieces do not slide past each other like sand, \
             so a wider cloth is sometimes used less well and sometimes better. The tables in print lie between 0.90 \
             and 1.11 of equal area, and that is the range given here. Where the amount and both widths are in such a table, \
             its figure is given too (a conversion chart printed in two copies, attributed from memory to Rutgers \
             Cooperative Extension).\n\n\
             No cloth can be shorter than the longest piece on it, and no piece wider than the cloth. A conversion is a \
             guess for the shop; a layout is the answer. Where this tool lays the pieces out, believe the layout.",
    inputs: &[
        Input::cloth("amount", "the length asked for"),
        Input::length("from", "the width it is asked for in"),
        Input::length("to", "the width of your cloth"),
        Input::length("selvage", "what is lost at each selvage")
            .or_nothing()
            .or("0 in", "the widths in requirements are the full ones, and so the losses nearly cancel"),
        Input::length("longest", "the longest piece, along the cloth").optional(),
        Input::length("widest", "the widest piece, across the cloth").optional(),
        Input::flag("one_way", "the cloth has a nap or a one-way print").or("no", "plain cloth turns both ways"),
    ],
    outputs: &[
        Output::new("by_area", Show::CLOTH, "by equal area"),
        Output::new("least", Show::CLOTH, "at best"),
        Output::new("most", Show::CLOTH, "at worst"),
        Output::new("tabled", Show::CLOTH, "by the table in print")
            .when("where both widths and the amount are in the table"),
        Output::new("buy", Show::CLOTH, "buy"),
    ],
    example: &[("amount", "3 3/4 yd"), ("from", "36 in"), ("to", "45 in")],
    work: cloth_width,
};

/// A column of the table: its narrowest and widest cloth in inches, and its amounts in yards.
type Column = ((f64, f64), [f64; 12]);

/// Width conversion, yards. Read in two copies; attributed from memory to Rutgers Cooperative Extension.
const TABLE: [Column; 3] = [
    ((35.0, 36.0), [1.75, 2.0, 2.25, 2.5, 2.875, 3.125, 3.375, 3.75, 4.25, 4.5, 4.75, 5.0]),
    ((44.0, 45.0), [1.375, 1.625, 1.75, 2.125, 2.25, 2.5, 2.75, 2.875, 3.125, 3.375, 3.625, 3.875]),
    ((58.0, 60.0), [1.0, 1.25, 1.375, 1.625, 1.75, 1.875, 2.0, 2.25, 2.375, 2.625, 2.75, 2.875]),
];

/// What the tables differ from equal area by, at most.
const RANGE: (f64, f64) = (0.90, 1.11);

fn column(width: Length) -> Option<&'static [f64; 12]> {
    let inches = width.to_inches();
    let tolerance = 1e-6;
    TABLE
        .iter()
        .find(|((low, high), _)| inches > low - tolerance && inches < high + tolerance)
        .map(|(_, column)| column)
}

/// The table's figure for the first row that is no less than the amount.
fn tabled(amount: Length, from: Length, to: Length) -> Option<Length> {
    let (from, to) = (column(from)?, column(to)?);
    let first = *from.first()?;
    if amount.to_yards() < first - 0.25 {
        return None;
    }
    from.iter().zip(to).find(|(row, _)| **row > amount.to_yards() - 1e-6).map(|(_, found)| Length::yards(*found))
}

fn cloth_width(work: &mut Work) -> Result<(), Stop> {
    for side in ["from", "to"] {
        if work.length(side)? <= 2.0 * work.length("selvage")? {
            return Err(InputFault::new("selvage", "the selvages take the whole width of the cloth").into());
        }
    }
    work.reckon("by_area", "amount * (from - 2 * selvage) / (to - 2 * selvage)")?;
    if (work.length("from")? - work.length("to")?).abs() < Length::mm(1e-6) {
        work.reckon("least", "by_area")?;
        work.reckon("most", "by_area")?;
    } else {
        work.put("least", Length::from_base(work.result("by_area")?.value * RANGE.0), "0.90 × by equal area");
        work.put("most", Length::from_base(work.result("by_area")?.value * RANGE.1), "1.11 × by equal area");
    }
    let (amount, from, to) = (work.length("amount")?, work.length("from")?, work.length("to")?);
    let figure = tabled(amount, from, to);
    if let Some(figure) = figure {
        work.put("tabled", figure, "the row of the table that is no less than the amount");
    }
    let basis = if figure.is_some() { "max(tabled, by_area)" } else { "most" };
    let rule = if work.has("longest") { format!("max({basis}, longest)") } else { basis.to_string() };
    work.reckon("buy", &rule)?;
    let usable = to - 2.0 * work.length("selvage")?;
    if let Some(widest) = work.maybe_length("widest").filter(|widest| *widest > usable) {
        work.out_of_reach(format!(
            "the widest piece is {} and the cloth {} without its selvages: {} too narrow",
            both(widest, Show::LENGTH),
            both(usable, Show::LENGTH_DOWN),
            both(widest - usable, Show::LENGTH_UP)
        ));
        let eighth = Length::INCH.base() / 8.0;
        let least = widest + 2.0 * work.length("selvage")?;
        let wide = Length::from_base((least.base() / eighth - 1e-6).ceil() * eighth);
        let change = format!("cloth at least {} wide", both(wide, Show::LENGTH_UP));
        work.propose(
            &change,
            &[("to", super::given::Value::Quantity(wide.into()))],
            wide / to - 1.0,
            &["by_area", "buy"],
        );
        let change = format!(
            "join that piece down its length, so that no part is wider than {}",
            both(usable, Show::LENGTH_DOWN)
        );
        let down = Length::from_base((usable.base() / eighth + 1e-6).floor() * eighth);
        if down > Length::ZERO {
            let halves = 1.0 - down / widest;
            work.propose(
                &change,
                &[("widest", super::given::Value::Quantity(down.into()))],
                halves,
                &["by_area", "buy"],
            );
        }
    }
    if work.flag("one_way") {
        work.advise("one-way", "with a nap or a one-way print no piece may be turned end for end: expect the upper figure or more, and lay it out");
    }
    if work
        .maybe_length("longest")
        .is_some_and(|longest| longest.base() > work.result("by_area").map_or(0.0, |q| q.value))
    {
        work.advise(
            "longest-piece",
            "the longest piece decides and not the area: the rest of the length is left over for small pieces",
        );
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::{CLOTH_WIDTH, TABLE};
    use crate::reckon::{Answer, Given, Value};
    use crate::units::Length;

    fn ask(values: &[(&str, &str)]) -> Answer {
        crate::reckon::ask::ask(&CLOTH_WIDTH, values)
    }

    /// 35-36 in: 3 3/4 yd is 44-45 in: 2 7/8, 58-60 in: 2 1/4. Read in two copies; attributed from memory to
    /// Rutgers Cooperative Extension.
    #[test]
    fn a_row_of_the_table() {
        let found = ask(&[("amount", "3 3/4 yd"), ("from", "36 in"), ("to", "45 in")]);
        assert!((found.one("tabled").unwrap().value / 914.4 - 2.875).abs() < 1e-9);
        assert!((found.one("by_area").unwrap().value / 914.4 - 3.0).abs() < 1e-9);
        assert_eq!(found.printed("buy").unwrap().plain, "3 yd");
    }

    /// Equal area is within 0.90-1.11 of the table: every row, from every column to every other.
    #[test]
    fn the_table_lies_within_the_range() {
        for (a, column) in &TABLE {
            for (b, other) in &TABLE {
                for (from, to) in column.iter().zip(other) {
                    let values = BTreeMap::from([
                        ("amount".to_string(), Value::Quantity(Length::yards(*from).into())),
                        ("from".to_string(), Value::Quantity(Length::inches((a.0 + a.1) / 2.0).into())),
                        ("to".to_string(), Value::Quantity(Length::inches((b.0 + b.1) / 2.0).into())),
                    ]);
                    let found = CLOTH_WIDTH.answer(Given::check(&CLOTH_WIDTH, values).unwrap()).unwrap();
                    let yards = |name: &str| found.one(name).unwrap().value / 914.4;
                    assert!((yards("tabled") - to).abs() < 1e-9);
                    assert!(
                        yards("least") < to + 0.02 && to - 0.02 < yards("most"),
                        "{from} {a:?} -> {to} {b:?}: {}",
                        yards("by_area")
                    );
                }
            }
        }
    }

    #[test]
    fn no_shorter_than_its_longest_piece_and_no_narrower_than_its_widest() {
        let found = ask(&[("amount", "2 yd"), ("from", "30 in"), ("to", "60 in"), ("longest", "50 in")]);
        assert!((found.one("buy").unwrap().value / 25.4 - 50.0).abs() < 1e-9);
        let narrow = ask(&[("amount", "2 yd"), ("from", "60 in"), ("to", "36 in"), ("widest", "40 in")]);
        assert!(narrow.out_of_reach.unwrap().contains("4 in"));
        assert_eq!(narrow.proposals.len(), 2);
    }
}
