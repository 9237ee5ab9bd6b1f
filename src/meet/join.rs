//! Joins held against the pieces.

use super::SizePieces;
use super::fate::fates;
use super::grading::grading;
use super::notches;
use super::report::{AngleMet, SeamMet, SeamOfSize, SeamReport};
use super::walk::{Held, Walked, edge_of, value, walk};
use crate::draft::{Piece, degrees, mm};
use crate::fault::{Code, Fault, Place, Route};
use crate::shape::{EdgeUseShape, Expr, JoinShape, RunOnShape};
use crate::units::{Angle, Length, kinds};

/// How far the lengths of a seam may miss each other where nothing is said, mm (common practice, no source: less than a
/// machine foot is steered).
const WITHIN: f64 = 1.0;
/// The kink that is still smooth where nothing is said, degrees (common practice, no source).
const SMOOTH: f64 = 3.0;

/// Holds the joins against the pieces of every size. Returns what was found, and faults: seams that do not meet
/// ([`Code::Seam`]), notches that do not ([`Code::Notches`]), edges nobody sews ([`Code::LooseEdge`]), edges that shrink from
/// one size to the next or grow by leaps ([`Code::Grading`]).
#[must_use]
pub fn check(joins: &[JoinShape], sizes: &[SizePieces]) -> (SeamReport, Vec<Fault>) {
    let mut faults = Vec::new();
    let mut report =
        SeamReport { sizes: sizes.iter().map(|size| size.size.to_string()).collect(), ..SeamReport::default() };
    for (index, join) in joins.iter().enumerate() {
        let route = Route::top().key("joins").index(index);
        let mut seam = SeamMet { title: title(join), sew: names(&join.sew), to: names(&join.to), by_size: Vec::new() };
        let mut found: Vec<(String, Fault)> = Vec::new();
        for size in sizes {
            match one(join, size, &route) {
                Ok((met, more)) => {
                    seam.by_size.push(met);
                    found.extend(more.into_iter().map(|fault| (size.size.to_string(), fault)));
                }
                Err(fault) => found.push((size.size.to_string(), *fault)),
            }
        }
        faults.extend(length_faults(&seam, &route, sizes.len()));
        faults.extend(by_size(found, sizes.len()));
        report.seams.push(seam);
    }
    if let Some(first) = sizes.first() {
        report.edges = fates(joins, first.pieces, &mut faults);
    }
    report.grading = grading(sizes, &mut faults);
    (report, faults)
}

fn names(uses: &[EdgeUseShape]) -> Vec<String> {
    uses.iter().map(|one| one.0.edge.clone()).collect()
}

fn title(join: &JoinShape) -> String {
    join.title
        .clone()
        .unwrap_or_else(|| format!("{} to {}", names(&join.sew).join(" and "), names(&join.to).join(" and ")))
}

/// The same fault in several sizes is one, which names them.
fn by_size(found: Vec<(String, Fault)>, sizes: usize) -> Vec<Fault> {
    let mut merged: Vec<(Fault, Vec<String>)> = Vec::new();
    for (size, fault) in found {
        match merged
            .iter_mut()
            .find(|(known, _)| known.code == fault.code && known.place == fault.place && known.label == fault.label)
        {
            Some((_, list)) => list.push(size),
            None => merged.push((fault, vec![size])),
        }
    }
    merged
        .into_iter()
        .map(|(mut fault, list)| {
            // What is wrong with the file itself has nothing to do with sizes.
            let of_sizes = matches!(fault.code, Code::Seam | Code::Notches);
            if of_sizes || list.len() < sizes {
                fault.message = format!("{} {}", fault.message, in_sizes(&list, sizes));
            }
            fault
        })
        .collect()
}

/// `in size M`, `in sizes M, L`, `in every size`.
fn in_sizes(list: &[String], sizes: usize) -> String {
    match list {
        [one] => format!("in size {one}"),
        all if all.len() == sizes => "in every size".to_string(),
        some => format!("in sizes {}", some.join(", ")),
    }
}

fn one(join: &JoinShape, size: &SizePieces, route: &Route) -> Held<(SeamOfSize, Vec<Fault>)> {
    if join.sew.is_empty() || join.to.is_empty() {
        let key = if join.sew.is_empty() { "sew" } else { "to" };
        return Err(Fault::new(Code::Seam, route.key(key), "this side of the join has no edge")
            .help("name one: `[front.side]`")
            .into());
    }
    let read = |expr: &Option<Expr>, key: &str| match expr {
        Some(expr) => value(expr, size.env, &route.key(key), &[kinds::LENGTH]).map(|quantity| Some(quantity.value)),
        None => Ok(None),
    };
    let mut sew = walk(&join.sew, size.pieces, size.env, &route.key("sew"), false)?;
    let mut to = walk(&join.to, size.pieces, size.env, &route.key("to"), join.turned.0)?;
    sew.length -= read(&join.less, "less")?.unwrap_or(0.0);
    to.length -= read(&join.to_less, "to_less")?.unwrap_or(0.0);
    let within = read(&join.within, "within")?.unwrap_or(WITHIN);
    let (least, most, ratio) = allowed(join, size, route, to.length)?;
    let longer = sew.length - to.length;
    let slack = within * ratio.unwrap_or(1.0).max(1.0);
    let misses = if longer < least - slack {
        longer - least
    } else if longer > most + slack {
        longer - most
    } else {
        0.0
    };
    let mut faults = Vec::new();
    let held = |to: &Walked| {
        if join.free_notches.0 { Vec::new() } else { notches::meet(&sew, to, ratio, (least, most), within) }
    };
    let met = held(&to);
    // Where the lengths do not fit, the notches cannot.
    if misses == 0.0
        && let Some(worst) = met.iter().find(|notch| !notch.meets)
    {
        let other_way = held(&to.turned()).iter().all(|notch| notch.meets);
        faults.push(notch_fault(join, route, worst, other_way));
    }
    let mut angles = Vec::new();
    for (index, run_on) in join.runs_on.iter().enumerate() {
        let at = route.key("runs_on").index(index);
        let met = angle(join, run_on, size, &at)?;
        if !met.meets {
            let way = if met.kink.base() > 0.0 { "points out" } else { "dents in" };
            let message = format!(
                "sewn together, `{}` and `{}` make a kink that {way} by {}",
                met.from,
                met.into,
                degrees(met.kink.base().abs())
            );
            let help = "draw the two edges so that their angles at the seam add up to 180 degrees";
            faults.push(Fault::new(Code::Seam, Place::Value(at), message).help(help));
        }
        angles.push(met);
    }
    let meets = misses == 0.0 && faults.is_empty();
    let seam = SeamOfSize {
        size: size.size.to_string(),
        sew: tidy(sew.length),
        to: tidy(to.length),
        least: tidy(least),
        most: tidy(most),
        longer: tidy(longer),
        misses: tidy(misses),
        notches: met,
        angles,
        meets,
    };
    Ok((seam, faults))
}

fn tidy(mm: f64) -> Length {
    let rounded = (mm * 1e6).round() / 1e6;
    Length::mm(if rounded == 0.0 { 0.0 } else { rounded })
}

/// How much longer the fuller side may be: from, to, in mm; and the ratio, where one is declared.
fn allowed(join: &JoinShape, size: &SizePieces, route: &Route, to: f64) -> Held<(f64, f64, Option<f64>)> {
    let given: Vec<&str> = [
        ("ease", join.ease.is_some()),
        ("ease_share", join.ease_share.is_some()),
        ("ratio", join.ratio.is_some()),
        ("least", join.least.is_some() || join.most.is_some()),
    ]
    .iter()
    .filter(|(_, given)| *given)
    .map(|(key, _)| *key)
    .collect();
    if let [first, second, ..] = given.as_slice() {
        let message = format!(
            "expected one of `ease`, `ease_share`, `ratio` and a band of `least` and `most`, but found `{first}` and `{second}`"
        );
        return Err(Fault::new(Code::Seam, route.key(*second), message).help("leave one of them out").into());
    }
    if let Some(ratio) = &join.ratio {
        let at = route.key("ratio");
        let ratio = value(ratio, size.env, &at, &[kinds::NUMBER])?.value;
        if ratio <= 0.0 {
            return Err(
                Fault::new(Code::Seam, &at, format!("expected a ratio above nothing, but found {ratio}")).into()
            );
        }
        return Ok((to * (ratio - 1.0), to * (ratio - 1.0), Some(ratio)));
    }
    if let Some(share) = &join.ease_share {
        let share = value(share, size.env, &route.key("ease_share"), &[kinds::NUMBER])?.value;
        return Ok((to * share, to * share, None));
    }
    if let Some(ease) = &join.ease {
        let ease = value(ease, size.env, &route.key("ease"), &[kinds::LENGTH])?.value;
        return Ok((ease, ease, None));
    }
    let bound = |expr: &Option<Expr>, key: &str| -> Held<Option<f64>> {
        match expr {
            Some(expr) => {
                let quantity = value(expr, size.env, &route.key(key), &[kinds::LENGTH, kinds::NUMBER])?;
                Ok(Some(if quantity.dim == kinds::LENGTH { quantity.value } else { quantity.value * to }))
            }
            None => Ok(None),
        }
    };
    let (least, most) = (bound(&join.least, "least")?, bound(&join.most, "most")?);
    let (least, most) = (least.unwrap_or(0.0), most.unwrap_or(least.unwrap_or(0.0)));
    if most < least {
        return Err(Fault::new(Code::Seam, route.key("most"), "`most` is less than `least`")
            .help("exchange them")
            .into());
    }
    Ok((least, most, None))
}

/// One fault for the sizes in which the fuller side is too short, one for those in which it is too long.
fn length_faults(seam: &SeamMet, route: &Route, sizes: usize) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (sign, word) in [(-1.0, "too short"), (1.0, "too long")] {
        let missed: Vec<&SeamOfSize> = seam.by_size.iter().filter(|size| size.misses.to_mm() * sign > 0.0).collect();
        let amount = |size: &&&SeamOfSize| size.misses.to_mm().abs();
        let (Some(most), Some(least)) = (
            missed.iter().max_by(|a, b| amount(a).total_cmp(&amount(b))),
            missed.iter().min_by(|a, b| amount(a).total_cmp(&amount(b))),
        ) else {
            continue;
        };
        let (low, high) = (mm(amount(&least)), mm(amount(&most)));
        let by = if low == high { high } else { format!("{low} to {high}") };
        let list: Vec<String> = missed.iter().map(|size| size.size.clone()).collect();
        let sides = (seam.sew.join("` and `"), seam.to.join("` and `"));
        let message = format!("`{}` is {by} {word} for `{}` {}", sides.0, sides.1, in_sizes(&list, sizes));
        let (from, to) = (most.least.to_mm(), most.most.to_mm());
        let wanted = if from == 0.0 && to == 0.0 {
            "they are to be the same".to_string()
        } else if (to - from).abs() < 1e-6 {
            format!("the first is to be {} longer", mm(from))
        } else {
            format!("the first is to be {} to {} longer", mm(from), mm(to))
        };
        let of = if list.len() > 1 { format!("in size {}, ", most.size) } else { String::new() };
        let help = format!(
            "{of}{} against {} on the seam line, and {wanted}; change the draft, or declare the ease",
            mm(most.sew.to_mm()),
            mm(most.to.to_mm())
        );
        faults.push(Fault::new(Code::Seam, Place::Value(route.clone()), message).label(word).help(help));
    }
    faults
}

fn notch_fault(join: &JoinShape, route: &Route, notch: &super::report::NotchMet, other_way: bool) -> Fault {
    let (sew, to) = (names(&join.sew).join("` and `"), names(&join.to).join("` and `"));
    let at = |length: Length| mm(length.to_mm());
    let message = match (notch.sew, notch.to) {
        (Some(a), Some(b)) => {
            format!("the notch {} along `{sew}` should meet the one {} along `{to}`, and does not", at(a), at(b))
        }
        (Some(a), None) => format!("the notch {} along `{sew}` meets none on `{to}`", at(a)),
        (None, Some(b)) => format!("the notch {} along `{to}` meets none on `{sew}`", at(b)),
        (None, None) => "the notches do not meet".to_string(),
    };
    let help = match (other_way, join.turned.0) {
        (true, false) => "the other way round they meet: write `turned: yes`",
        (true, true) => "the other way round they meet: take `turned` out",
        _ => {
            "give both sides the same notches, single to single and double to double, at the same distances from where the seam begins"
        }
    };
    Fault::new(Code::Notches, Place::Value(route.clone()), message).help(help)
}

fn angle(join: &JoinShape, run_on: &RunOnShape, size: &SizePieces, route: &Route) -> Held<AngleMet> {
    let (from_at, into_at) = (route.key("from"), route.key("into"));
    let within = match &run_on.within {
        Some(within) => value(within, size.env, &route.key("within"), &[kinds::ANGLE])?.value,
        None => SMOOTH.to_radians(),
    };
    let (first, _) = edge_of(size.pieces, &run_on.from, &from_at)?;
    let (second, _) = edge_of(size.pieces, &run_on.into, &into_at)?;
    let a = corner(first, &run_on.from, join, &from_at)?;
    let b = corner(second, &run_on.into, join, &into_at)?;
    let kink = std::f64::consts::PI - a - b;
    let rounded = (kink * 1e6).round() / 1e6;
    Ok(AngleMet {
        from: run_on.from.clone(),
        into: run_on.into.clone(),
        kink: Angle::from_base(rounded),
        meets: kink.abs() <= within,
    })
}

/// The angle inside the piece between an edge and the edge beside it that is sewn in this seam.
fn corner(piece: &Piece, name: &str, join: &JoinShape, route: &Route) -> Held<f64> {
    let edge = name.split_once('.').map_or("", |(_, edge)| edge);
    let n = piece.edges.len();
    let sewn = |index: usize| {
        let full = format!("{}.{}", piece.name, piece.edges[index].name);
        join.sew.iter().chain(&join.to).any(|one| one.0.edge == full)
    };
    for index in 0..n {
        let next = (index + 1) % n;
        let (a, b) = (&piece.edges[index], &piece.edges[next]);
        let meets = (a.name == edge && sewn(next)) || (b.name == edge && sewn(index));
        if meets {
            let (u, v) = (a.path.end_dir(), b.path.start_dir());
            return Ok(std::f64::consts::PI - u.cross(v).atan2(u.dot(v)));
        }
    }
    let message = format!("`{name}` does not lie beside this seam");
    Err(Fault::new(Code::Seam, route, message).help("name an edge that begins or ends where the seam does").into())
}
