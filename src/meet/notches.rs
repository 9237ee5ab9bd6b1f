//! Notches that should meet.

use super::report::NotchMet;
use super::walk::{Passed, Walked};
use crate::units::Length;

/// The notches of the two sides held against each other. Where both have names they are matched by them, the rest in order.
///
/// Fullness is spread evenly: a notch `t` along the one side is expected `t × ratio` along the other. Ease may lie anywhere, so
/// between two notches (and the ends) the fuller side may be longer by at most all of it.
pub(super) fn meet(sew: &Walked, to: &Walked, ratio: Option<f64>, ease: (f64, f64), within: f64) -> Vec<NotchMet> {
    let (mut pairs, mut alone): (Vec<(&Passed, &Passed)>, Vec<NotchMet>) = (Vec::new(), Vec::new());
    let named = |side: &Walked, name: &str| side.notches.iter().any(|notch| notch.name.as_deref() == Some(name));
    let common = |notch: &Passed| notch.name.as_deref().is_some_and(|name| named(sew, name) && named(to, name));
    for notch in sew.notches.iter().filter(|notch| common(notch)) {
        if let Some(other) = to.notches.iter().find(|other| other.name == notch.name) {
            pairs.push((notch, other));
        }
    }
    let rest = |side: &'_ Walked| side.notches.iter().filter(|notch| !common(notch)).cloned().collect::<Vec<_>>();
    let (rest_sew, rest_to) = (rest(sew), rest(to));
    pairs.extend(rest_sew.iter().zip(&rest_to));
    let at = |notch: &Passed| Some(Length::mm(notch.at));
    let count = rest_sew.len().min(rest_to.len());
    alone.extend(rest_sew.iter().skip(count).map(|notch| NotchMet {
        name: notch.name.clone(),
        sew: at(notch),
        to: None,
        meets: false,
    }));
    alone.extend(rest_to.iter().skip(count).map(|notch| NotchMet {
        name: notch.name.clone(),
        sew: None,
        to: at(notch),
        meets: false,
    }));
    pairs.sort_by(|a, b| a.1.at.total_cmp(&b.1.at));
    let mut met = Vec::new();
    let mut last = (0.0, 0.0);
    for (a, b) in &pairs {
        let fits = match ratio {
            Some(ratio) => (a.at - b.at * ratio).abs() <= within * ratio.max(1.0),
            None => {
                let longer = (a.at - last.0) - (b.at - last.1);
                let total = a.at - b.at;
                let (low, high) = (ease.0.min(0.0) - within, ease.1.max(0.0) + within);
                (low..=high).contains(&longer) && (low..=high).contains(&total)
            }
        };
        met.push(NotchMet {
            name: a.name.clone().or_else(|| b.name.clone()),
            sew: at(a),
            to: at(b),
            meets: fits && a.double == b.double,
        });
        last = (a.at, b.at);
    }
    met.extend(alone);
    met
}
