//! Dye: weight of goods, shade and bath. What is dangerous about it the dye maker's sheet says, not we.

use super::given::{InputFault, Value};
use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Area, Direction, Quantity, Ratio, Show, Style, Volume, kinds};

/// Dye is weighed out, not rounded up: more of it is another shade.
const WEIGHED: Show = Show { style: Style::Mass, direction: Direction::Nearest, parts: 64 };

/// `goods = area × weight of cloth`, `dye = shade × goods`, `bath = ratio × goods` (a gram of water is a
/// millilitre).
pub const DYE: Technique = Technique {
    name: "dye",
    title: "Dyeing",
    summary: "The weight of goods, the dye for a shade, the water for the bath, and whether it all goes into the pot.",
    detail: "Everything is reckoned on the weight of goods: the cloth, weighed dry. The shade is dye as a share of \
             that weight, so 45 lb of goods at 5 % take 36 oz of dye (a dye maker's public forum). The bath is \
             water as so many times the weight, and since a gram of water is a millilitre, 500 g of goods at twenty \
             to one want 10 litres.\n\n\
             Weigh the goods rather than trust the mill's figure, and weigh the dye: a spoonful is no measure. The \
             dye is printed to the nearest and never rounded up, because more dye is another shade. Strong shades \
             and small pieces are easier from a stock solution: give its strength, and the volume to measure out is \
             printed.\n\n\
             The cloth must move freely under the water or it dyes in patches. A pot is filled to three quarters \
             (common practice). If the goods do not go in at once, the answer says so. Two baths are never quite \
             one colour, so pieces that meet in a seam go into the same one, with some cloth to spare for mending.\n\n\
             Salt, soda, temperature, time and everything about safety come from the dye maker's own sheets for \
             that dye. Nothing here replaces them.",
    inputs: &[
        Input::quantity("area", kinds::AREA, Show::AREA, "the area of all the cloth").optional(),
        Input::quantity("cloth_weight", kinds::SHEET_MASS, Show::SHEET_MASS, "the weight of the cloth by area")
            .optional(),
        Input::quantity("goods_weight", kinds::MASS, Show::MASS, "the weight of the dry goods, on the scales")
            .or("area * cloth_weight", "reckoned from the area; the scales are better"),
        Input::number(
            "shade",
            "dye as a share of the weight of goods, for the shade wanted, from a swatch or the dye maker's card",
        )
        .shown(Show::PERCENT),
        Input::number("bath_ratio", "water as so many times the weight of goods")
            .shown(Show::RATIO)
            .or("20", "room for the cloth to move in a pot (common practice); the dye maker's sheet decides"),
        Input::quantity("pot", kinds::VOLUME, Show::VOLUME, "what the pot holds to the brim").optional(),
        Input::share("fill", "how full the pot may be").or("75 %", "room to stir (common practice)"),
        Input::share("stock", "the strength of a stock solution: 1 % is 1 g in 100 ml").optional(),
    ],
    outputs: &[
        Output::new("goods", Show::MASS, "weight of goods"),
        Output::new("dye", WEIGHED, "dye"),
        Output::new("dye_grams", Show::NUMBER, "dye in grams, for the scales"),
        Output::new("bath", Show::VOLUME, "water for the bath"),
        Output::new("stock_volume", Show::VOLUME, "stock solution to measure out")
            .when("where a stock solution is given"),
        Output::new("pot_room", Show::VOLUME, "water the pot may hold").when("where a pot is given"),
        Output::new("pot_goods", Show::MASS, "goods the pot can take at once").when("where a pot is given"),
        Output::new("baths", Show::COUNT, "baths, one after another").when("where a pot is given"),
    ],
    example: &[("area", "3 m2"), ("cloth_weight", "150 g/m2"), ("shade", "2 %"), ("pot", "16 l"), ("stock", "1 %")],
    work: dye,
};

const SHOWN: [&str; 4] = ["goods", "dye", "bath", "baths"];

fn dye(work: &mut Work) -> Result<(), Stop> {
    work.reckon("goods", "goods_weight")?;
    let shade = work.ratio("shade")?.base();
    if shade > 1.0 {
        return Err(InputFault::new("shade", format!("{:.0} % is more dye than goods", shade * 100.0))
            .help("write the shade with its sign: `2 %`, or as 0.02")
            .into());
    }
    work.reckon("dye", "shade * goods")?;
    work.reckon("dye_grams", "dye / 1 g")?;
    work.reckon("bath", "bath_ratio * goods * 1 ml / 1 g")?;
    if work.has("stock") {
        if work.quantity("stock")?.value <= 0.0 {
            return Err(InputFault::new("stock", "a stock solution of no strength holds no dye").into());
        }
        work.reckon("stock_volume", "dye / stock * 1 ml / 1 g")?;
        work.advise("count-the-stock", "the stock solution is water too: take its volume off the bath");
    }
    if work.has("pot") {
        pot(work)?;
    }
    advise(work, shade)
}

fn pot(work: &mut Work) -> Result<(), Stop> {
    if work.quantity("fill")?.value <= 0.0 {
        return Err(InputFault::new("fill", "a pot filled with nothing dyes nothing").into());
    }
    work.reckon("pot_room", "pot * fill")?;
    work.reckon("pot_goods", "pot_room / bath_ratio * 1 g / 1 ml")?;
    let baths = work.reckon("baths", "ceil(bath / pot_room)")?.value;
    if baths < 1.5 {
        return Ok(());
    }
    let (bath, room) =
        (Volume::from_base(work.result("bath")?.value), Volume::from_base(work.result("pot_room")?.value));
    work.out_of_reach(format!(
        "the bath is {} and the pot may hold {}: it would take {baths:.0} baths, and no two are quite one colour",
        both(bath, Show::VOLUME),
        both(room, Show { direction: Direction::Down, ..Show::VOLUME })
    ));
    let (ratio, pot) = (work.ratio("bath_ratio")?, work.volume("pot")?);
    let low = (ratio.base() * (room / bath) * 10.0 + 1e-9).floor() / 10.0;
    if low >= 5.0 {
        let change = format!("a bath of {low:.1} : 1, if the dye maker's sheet allows it, stirred without a pause");
        work.propose(
            &change,
            &[("bath_ratio", Value::Quantity(Ratio::from_base(low).into()))],
            1.0 - low / ratio.base(),
            &SHOWN,
        );
    }
    let litre = 1e6;
    let larger = Volume::from_base((pot.base() * (bath / room) / litre - 1e-9).ceil() * litre);
    let change = format!("a pot of {}", both(larger, Show::VOLUME));
    work.propose(&change, &[("pot", Value::Quantity(larger.into()))], larger / pot - 1.0, &SHOWN);
    let fits = work.result("pot_goods")?.value.floor();
    if fits >= 1.0 {
        let goods = work.result("goods")?.value;
        let change = format!("dye {fits:.0} g at a time, all that meets in a seam in one bath");
        let cost = 1.0 - fits / goods;
        let mass = Value::Quantity(Quantity::new(fits, kinds::MASS));
        work.propose(&change, &[("goods_weight", mass)], cost, &SHOWN);
    }
    Ok(())
}

fn advise(work: &mut Work, shade: f64) -> Result<(), Stop> {
    work.advise(
        "dye-makers-sheet",
        "salt, soda, temperature, time and safety come from the dye maker's sheets for this very dye: read them \
         before you open the packet, wear what they say, and keep the pot out of the kitchen",
    );
    if shade > 0.08 {
        work.advise(
            "deep-shade",
            "few dyes go on deeper than 8 %, and the rest washes out again; see the dye maker's card",
        );
    }
    if work.ratio("bath_ratio")?.base() < 10.0 {
        work.advise(
            "short-bath",
            "with less than ten times its weight in water cloth dyes in patches unless it never stops moving",
        );
    }
    if !work.is_given("goods_weight") {
        let area = work.area("area").unwrap_or(Area::ZERO);
        work.advise(
            "weigh-it",
            format!("the weight is reckoned from {}; put the dry goods on the scales", both(area, Show::AREA)),
        );
    }
    if work.result("dye")?.value < 1.0 && !work.has("stock") {
        work.advise(
            "too-little-to-weigh",
            "less than a gram of dye is not weighed well on kitchen scales; make a stock solution and measure that",
        );
    }
    Ok(())
}

#[cfg(test)]
#[path = "tests/dye.rs"]
mod tests;
