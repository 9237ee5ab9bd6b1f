//! A skirt in gores: flared panels from waist, hip and hem.

use super::answer::Table;
use super::given::{InputFault, Value};
use super::ruler::{down, number, value};
use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Length, Show};

/// Each measure divided by the number of gores; the sides slant from waist to hip and from hip to hem.
pub const GORES: Technique = Technique {
    name: "gores",
    title: "Gored skirt",
    summary: "The widths of flared panels at waist, hip and hem, their slant and the cloth they need.",
    detail: "Waist, hip and hem are divided by the number of gores, and each gore is drawn on a middle line that is \
             its straight grain. For a waist of 25 in and hips of 40, five gores are 5 and 8 in wide; the hip is \
             measured about 7 in below the waist, and a front gore may be kept narrower at the hem, with the rest \
             shared among the others (The Perfect Dressmaking System, 1914).\n\n\
             The side of a gore is longer than its middle, because it slants. The hem is therefore a shallow curve: \
             measure the length down the middle and down each side alike, from the hip line. The amount the corner \
             rises is printed. A gore that is cut straight across at the hem dips at every seam.\n\n\
             With an odd number of gores there is a whole gore at the centre front, and a seam at the centre back \
             to open. With an even number, gores at both centres and an opening in a side seam, or else a seam down \
             the front.\n\n\
             Cloth without a nap lets every second gore lie upside down, and the slants share their room. Cloth \
             that has one does not.",
    inputs: &[
        Input::length("waist", "the finished waist seam"),
        Input::length("hip", "the finished hip"),
        Input::length("hem_width", "the finished hem all round"),
        Input::length("length", "the finished length, from the waist seam to the hem"),
        Input::length("hip_depth", "from the waist down to the hip")
            .or("7 in", "seven inches below the waist (The Perfect Dressmaking System, 1914)"),
        Input::count("gores", "how many panels").or("6", "three joins a side keep each gore within common cloth"),
        Input::length("front_hem", "the hem of the front gore, where it differs; the others share the rest").optional(),
        Input::choice("opening", &["back", "side"], "where the skirt opens")
            .or("side", "even gores need no seam at the front so"),
        Input::length("seam", "the seam allowance, at the waist and along the sides")
            .or_nothing()
            .or("5/8 in", "the usual allowance of home sewing (common practice)"),
        Input::length("hem", "the hem allowance")
            .or_nothing()
            .or("2 in", "a moderately flared hem is 2 to 3 in (T. Johnson, extension bulletin)"),
        Input::flag("one_way", "the cloth has a nap or a print with a top and a bottom")
            .or("no", "most plain cloth has neither"),
        Input::lengths("cloth_widths", "the widths of cloth to try")
            .or("36 in, 45 in, 54 in, 60 in", "widths in which dress goods are sold (common practice)"),
        Input::length("selvage", "what is cut off at each selvage")
            .or_nothing()
            .or("1/2 in", "the woven edge and its pin holes (common practice)"),
    ],
    outputs: &[
        Output::new("gore_waist", Show::FINE, "a gore at the waist, seam to seam"),
        Output::new("gore_hip", Show::FINE, "a gore at the hip, seam to seam"),
        Output::new("gore_hem", Show::FINE, "a gore at the hem, seam to seam"),
        Output::new("front_gore_hem", Show::FINE, "the front gore at the hem").when("where its hem differs"),
        Output::new("cut_length", Show::LENGTH, "length of a gore, as cut"),
        Output::new("cut_waist", Show::FINE, "a gore at the waist, as cut"),
        Output::new("cut_hip", Show::FINE, "a gore at the hip, as cut"),
        Output::new("cut_hem", Show::FINE, "a gore at the hem, as cut"),
        Output::new("flare", Show::FINE, "slant from hip to hem, each side"),
        Output::new("flare_angle", Show::ANGLE, "angle of the slant below the hip"),
        Output::new("spring", Show::FINE, "slant from waist to hip, each side"),
        Output::new("side", Show::LENGTH, "side seam, waist to hem, if cut straight across"),
        Output::new("corner_rise", Show::FINE, "the hem's corner rises by"),
        Output::new("hem_ease", Show::FINE, "edge of the hem longer than its line, each gore"),
        Output::new("fits", Show::LENGTH, "on each width of cloth"),
    ],
    example: &[
        ("waist", "25 in"),
        ("hip", "40 in"),
        ("hem_width", "81 in"),
        ("length", "38 in"),
        ("gores", "5"),
        ("opening", "back"),
    ],
    work: gores,
};

/// More of a hem's edge than this share does not press away: a moderate flare at 2 in stays under it, a steep one does
/// not (T. Johnson, extension bulletin: moderately flared 2 to 3 in, flared 1 1/2 in).
const MOST_EASE: f64 = 0.05;

const SHOWN: [&str; 4] = ["gore_waist", "gore_hip", "gore_hem", "flare_angle"];

fn gores(work: &mut Work) -> Result<(), Stop> {
    if work.length("hip_depth")? >= work.length("length")? {
        return Err(InputFault::new("length", "the skirt ends at or above the hip")
            .help("give a smaller `hip_depth`, measured down the skirt from the waist seam")
            .into());
    }
    if work.quantity("gores")?.value > 200.0 {
        return Err(InputFault::new("gores", "more than two hundred gores").help("four to twelve are usual").into());
    }
    work.reckon("gore_waist", "waist / gores")?;
    work.reckon("gore_hip", "hip / gores")?;
    if work.has("front_hem") {
        if work.quantity("gores")?.value < 1.5 || work.length("front_hem")? >= work.length("hem_width")? {
            return Err(InputFault::new("front_hem", "the front gore leaves no hem for the others").into());
        }
        work.reckon("front_gore_hem", "front_hem")?;
        work.reckon("gore_hem", "(hem_width - front_hem) / (gores - 1)")?;
    } else {
        work.reckon("gore_hem", "hem_width / gores")?;
    }
    work.reckon("cut_length", "length + seam + hem")?;
    work.reckon("flare", "(gore_hem - gore_hip) / 2")?;
    work.reckon("flare_angle", "atan(flare, length - hip_depth)")?;
    work.reckon("spring", "(gore_hip - gore_waist) / 2")?;
    // The allowance is measured square to the edge, and so takes a little more along the slant.
    work.reckon("cut_waist", "gore_waist + 2 * seam / cos(atan(spring, hip_depth))")?;
    work.reckon("cut_hip", "gore_hip + 2 * seam / cos(flare_angle)")?;
    work.reckon("cut_hem", "gore_hem + 2 * seam / cos(flare_angle)")?;
    work.reckon("side", "hypot(spring, hip_depth) + hypot(flare, length - hip_depth)")?;
    work.reckon("corner_rise", "hypot(flare, length - hip_depth) - (length - hip_depth)")?;
    // Each side of the gore leans out by its slant, so an edge `hem` below the line is longer on both sides.
    work.reckon("hem_ease", "2 * hem * flare / (length - hip_depth)")?;
    if !fit(work)? {
        too_wide(work)?;
    }
    advise(work)
}

/// The width `count` gores take side by side. Each lies inside a trapezoid as wide as the gore's hem and, at the
/// top, as the wider of its waist and of its lower slant carried on.
fn side_by_side(work: &Work, count: f64) -> Result<Length, Stop> {
    let (waist, hip) = (work.result("cut_waist")?.value, work.result("cut_hip")?.value);
    let (length, depth) = (work.length("length")?.base(), work.length("hip_depth")?.base());
    let (seam, turn) = (work.length("seam")?.base(), work.length("hem")?.base());
    let mut hem = work.result("cut_hem")?.value;
    if work.has("front_hem") {
        let front = work.result("front_gore_hem")?.value;
        let lean = ((front - work.result("gore_hip")?.value) / 2.0).hypot(length - depth) / (length - depth);
        hem = hem.max(front + 2.0 * seam * lean);
    }
    // The slant below the hip, carried on through the hem allowance and up past the waist.
    let slope = (hem - hip) / (length - depth);
    let bottom = hem.max(hem + slope * turn);
    let carried = hip - slope * (depth + seam);
    let top = carried.max(waist + ((waist - hip) / depth).max(0.0) * seam);
    Ok(Length::mm(if work.flag("one_way") {
        count * bottom.max(top)
    } else {
        count * (bottom + top) / 2.0 + (bottom - top).abs() / 2.0
    }))
}

fn fit(work: &mut Work) -> Result<bool, Stop> {
    let gores = work.quantity("gores")?.value;
    let (selvage, cut_length) = (work.length("selvage")?, Length::from_base(work.result("cut_length")?.value));
    let mut rows = Vec::new();
    let mut any = false;
    for width in work.lengths("cloth_widths") {
        let usable = width - selvage * 2.0;
        let mut across = 0.0;
        while across < gores && side_by_side(work, across + 1.0)?.base() <= usable.base() + 1e-6 {
            across += 1.0;
        }
        if across < 0.5 {
            let no = || Value::Word("—".to_string());
            rows.push(vec![value(width), Value::Word("too narrow".to_string()), no(), no()]);
            continue;
        }
        any = true;
        let lengths = (gores / across - 1e-9).ceil();
        rows.push(vec![value(width), number(across), number(lengths), value(cut_length * lengths)]);
    }
    let columns = vec![
        ("cloth".into(), Show::LENGTH),
        ("across".into(), Show::COUNT),
        ("skirt lengths".into(), Show::COUNT),
        ("needed".into(), Show::CLOTH),
    ];
    work.put_table("fits", Table { columns, rows });
    let way = if work.flag("one_way") { "all the same way up" } else { "every second one upside down" };
    work.say("fits", format!("gores side by side across the cloth, {way}"));
    Ok(any)
}

fn too_wide(work: &mut Work) -> Result<(), Stop> {
    let gores = work.quantity("gores")?.value;
    let selvages = work.length("selvage")? * 2.0;
    let widest = work.lengths("cloth_widths").iter().fold(Length::ZERO, |most, width| most.max(*width));
    let need = side_by_side(work, 1.0)? + selvages;
    work.out_of_reach(format!(
        "one gore needs cloth {} wide, and the widest is {}",
        both(need, Show::LENGTH_UP),
        both(widest, Show::LENGTH)
    ));
    let mut more = gores + 1.0;
    while more <= gores * 4.0 + 4.0 {
        let change = format!("{more:.0} gores instead of {gores:.0}");
        if work.propose(&change, &[("gores", number(more))], more / gores - 1.0, &SHOWN) {
            break;
        }
        more += 1.0;
    }
    let hem = work.length("hem_width")?;
    let mut less = down(hem - (need - widest) * gores, 8.0);
    for _ in 0..12 {
        if less <= Length::ZERO {
            break;
        }
        let change = format!("a hem of {} instead of {}", both(less, Show::LENGTH), both(hem, Show::LENGTH));
        if work.propose(&change, &[("hem_width", value(less))], 1.0 - less / hem, &SHOWN) {
            break;
        }
        less = down(less * 0.98, 8.0);
    }
    Ok(())
}

fn advise(work: &mut Work) -> Result<(), Stop> {
    let even = work.quantity("gores")?.value % 2.0 < 0.5;
    if even && work.word("opening") == "back" {
        work.advise(
            "join-at-centre-front",
            "an even number of gores with a seam at the centre back has one at the centre front too: open the skirt \
             at the side, or cut one gore more or fewer",
        );
    }
    if !even && work.word("opening") == "side" {
        work.advise(
            "uneven-sides",
            "with an odd number of gores no seam lies at both sides; open the skirt at the centre back",
        );
    }
    if work.length("hip")? < work.length("waist")? {
        work.advise("hip-under-waist", "the hip is smaller than the waist; are the two exchanged?");
    } else if work.result("spring")?.value > work.length("hip_depth")?.base() * 0.15 {
        work.advise(
            "curve-over-hip",
            "from waist to hip each side slants by more than one in seven: draw it as a curve over the hip, or take \
             part of it in darts or with more gores",
        );
    }
    if work.result("flare")?.value < 0.0 {
        work.advise("narrows", "the hem is narrower than the hip: leave a slit or a pleat to walk in");
    }
    let ease = Length::from_base(work.result("hem_ease")?.value.abs());
    if ease.base() > MOST_EASE * work.result("gore_hem")?.value {
        work.advise(
            "hem-too-deep",
            format!(
                "the edge of this hem is {} longer than its line on each gore: make it narrower, or shape a facing",
                both(ease, Show::FINE)
            ),
        );
    }
    Ok(())
}

#[cfg(test)]
#[path = "tests/gores.rs"]
mod tests;
