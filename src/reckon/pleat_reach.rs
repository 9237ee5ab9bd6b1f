//! Flat pleats against the cloth there is: how much is lacking, and what would do.

use super::given::Value;
use super::ruler::{down, number, up, value, written};
use super::words::{both, plural};
use super::work::{Stop, Work};
use crate::units::{Length, Show};

/// Results shown with a proposal.
const SHOWN: [&str; 4] = ["pleats", "pleat_width", "depth", "flat"];

/// Compares the flat width (`flat`) with what there is (`available`) and proposes: shallower pleats, fewer
/// pleats, more cloth. `folds` is the number of underlays in one pleat: 2 in a knife pleat, 4 in a box.
///
/// # Errors
/// Where the sheet lacks `seam`, `pleats`, `depth` or `flat` (a slip in the technique).
pub fn against_cloth(work: &mut Work, folds: f64) -> Result<(), Stop> {
    let Some(available) = work.maybe_length("available") else { return Ok(()) };
    let flat = Length::from_base(work.result("flat")?.value);
    let (seam, depth) = (work.length("seam")?, Length::from_base(work.result("depth")?.value));
    let pleats = work.result("pleats")?.value;
    if flat.base() <= available.base() + 1e-6 {
        return Ok(());
    }
    work.out_of_reach(format!(
        "{} this deep use {} of cloth, and there are {}: {} are lacking",
        plural(pleats, "pleat", "pleats"),
        both(flat, Show::LENGTH_UP),
        both(available, Show::LENGTH_DOWN),
        both(flat - available, Show::LENGTH_UP)
    ));
    let spare = available - seam;
    if spare > Length::ZERO {
        let shallow = down(spare / (folds * pleats), 16.0);
        if shallow > Length::ZERO {
            let change = format!("an underlay of {} instead of {}", both(shallow, Show::FINE), both(depth, Show::FINE));
            work.propose(&change, &[("underlay", value(shallow))], 1.0 - shallow / depth, &SHOWN);
        }
        let multiple = work.quantity("multiple")?.value;
        let fewer = (spare / (depth * folds * multiple) + 1e-9).floor() * multiple;
        if fewer >= 1.0 {
            let wide = seam / fewer;
            let change = format!(
                "{}, each {} wide, instead of {pleats:.0}",
                plural(fewer, "pleat", "pleats"),
                both(wide, Show::FINE)
            );
            let mut inputs: Vec<(&str, Value)> = vec![if work.is_given("visible") {
                ("visible", value(written(wide)))
            } else {
                ("count", number(fewer))
            }];
            // The underlay stays as it is, though full pleats would grow with their width.
            if !work.is_given("underlay") {
                inputs.push(("underlay", value(written(depth))));
            }
            work.propose(&change, &inputs, 1.0 - fewer / pleats, &SHOWN);
        }
    }
    let need = up(flat, 8.0);
    let change = format!("find {} of flat width", both(need, Show::LENGTH));
    work.propose(&change, &[("available", value(need))], need / available - 1.0, &SHOWN);
    Ok(())
}
