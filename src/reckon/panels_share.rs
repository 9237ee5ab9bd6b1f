//! Sharing a length out in marks of a ruler.

use crate::units::{Quantity, Show, decimal, print};

/// Shares `total` out over `count` panels in whole steps: the list makes the total rounded up to a
/// step, no two differ by more than one step, and the wider ones come first. Where a step up would be
/// more than there is of cloth (`most` each), every panel is what the total divides into, or the whole.
pub(super) fn shared(total: f64, count: f64, step: f64, most: f64) -> Vec<f64> {
    let each = total / count;
    let steps = (total / step - 1e-6).ceil();
    let low = (steps / count + 1e-9).floor();
    let wide = (steps - low * count).round();
    let widest = if wide > 0.5 { low + 1.0 } else { low } * step;
    if widest > most + 1e-9 || low < 1.0 {
        return std::iter::repeat_n(each.min(most), panels(count)).collect();
    }
    (0..panels(count)).map(|panel| if as_f64(panel) < wide - 0.5 { low + 1.0 } else { low } * step).collect()
}

/// A width as it is read off an inch ruler: the coarsest fraction that says it exactly, else decimals.
pub(super) fn on_inches(mm: f64) -> String {
    let exact = [8, 16, 32, 64].into_iter().find(|parts| {
        let steps = mm / 25.4 * f64::from(*parts);
        (steps - steps.round()).abs() < 1e-6
    });
    match exact {
        Some(parts) => print(Quantity::mm(mm), Show { parts, ..Show::LENGTH }).plain,
        None => format!("{} in", trimmed(mm / 25.4, 3)),
    }
}

/// A width as it is read off a centimetre ruler.
pub(super) fn on_centimetres(mm: f64) -> String {
    format!("{} cm", trimmed(mm / 10.0, 2))
}

fn trimmed(value: f64, places: usize) -> String {
    let text = decimal(value, places);
    text.trim_end_matches('0').trim_end_matches('.').to_string()
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn panels(count: f64) -> usize {
    count.clamp(0.0, super::panels::MOST_PANELS) as usize
}

#[allow(clippy::cast_precision_loss)]
fn as_f64(index: usize) -> f64 {
    index as f64
}
