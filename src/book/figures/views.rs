//! Views of the finished garment.

use crate::draw::{self, Fullness, Look, Measure, SkirtView, View};
use crate::fault::Fault;

use super::kinds::{choose, dip_line, drawn};
use super::params::Params;

/// The keys a view of a skirt knows.
pub(super) const INPUTS: &[&str] = &[
    "name",
    "view",
    "waist",
    "length",
    "hem",
    "band",
    "dip",
    "fullness",
    "pleats",
    "opening",
    "piped",
    "flounce_depth",
    "flounce_flat",
    "height",
];

pub(super) fn skirt(p: &Params<'_>, look: &Look) -> Result<draw::Figure, Fault> {
    let view = choose(p, "view", &[("front", View::Front), ("back", View::Back)], Some(View::Front))?;
    let dip = match p.text("dip") {
        Some(name) => {
            let answer = p.answer("dip")?;
            let length = |input: &str| {
                answer.inputs.iter().find(|(other, ..)| other == input).and_then(|(_, value, ..)| match value {
                    crate::reckon::Value::Quantity(quantity) => Some(crate::units::Length::mm(quantity.value)),
                    _ => None,
                })
            };
            let shape = answer.inputs.iter().find_map(|(other, value, ..)| match value {
                crate::reckon::Value::Word(word) if other == "shape" => Some(word.as_str()),
                _ => None,
            });
            match (length("width"), length("depth")) {
                (Some(width), Some(depth)) => dip_line(shape.unwrap_or("straight"), width, depth),
                _ => return Err(p.fault(format!("`{name}` is no dip")).help("name an entry of the technique `dip`")),
            }
        }
        None => Vec::new(),
    };
    let flounce = match (p.maybe_measure("flounce_depth")?, p.maybe_measure("flounce_flat")?) {
        (Some(depth), Some(flat)) => Some((depth, flat)),
        _ => None,
    };
    let input = SkirtView {
        name: p.text("name").unwrap_or("skirt").to_string(),
        view,
        waist: p.measure("waist", "the finished waist, all round")?,
        length: p.measure("length", "from the waist to the hem at the side")?,
        hem: p.measure("hem", "the hem, all round")?,
        band: p.measure("band", "the depth of the band")?,
        dip,
        fullness: choose(
            p,
            "fullness",
            &[("cartridge", Fullness::Cartridge), ("gathers", Fullness::Gathers)],
            Some(Fullness::Gathers),
        )?,
        pleats: p.count("pleats", "pleats in the whole waist, or gathers to draw")?,
        opening: p.maybe_measure("opening")?.filter(|opening: &Measure| opening.length.to_mm() > 0.0),
        piped: p.flag("piped"),
        flounce,
        height: p.number_or("height", 96.0)?,
    };
    drawn(p, draw::skirt_view(&input, look))
}
