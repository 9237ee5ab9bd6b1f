//! Under the iron: a seam pressed open or to one side, or cloth without a seam.

use kurbo::{BezPath, Point, Vec2};

use super::super::figure::{Drawn, Scale};
use super::super::geom::{closed, line, pt, rect, smooth};
use super::super::hand::{DOWN, Up};
use super::super::look::{Look, Paint};
use super::super::notes::Side;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::seam::Press;

/// What is pressed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pressing {
    /// What lies under the iron: `side seam`.
    pub what: String,
    /// Where the allowances go; none where there is no seam.
    pub press: Option<Press>,
    /// Toward what, where both go one way: `toward the back`.
    pub toward: String,
    /// Whether a pressing cloth lies between.
    pub cloth: bool,
}

/// A seam, or plain cloth, under the iron, wrong side up.
///
/// # Errors
/// Where nothing is named to press.
pub fn pressing(input: &Pressing, look: &Look) -> Drawn {
    if input.what.trim().is_empty() {
        return Err(super::super::figure::Undrawable("expected the name of what is pressed, but found nothing".into()));
    }
    let mut s = Scene::new(look);
    let (wide, tall, mid) = (62.0, 46.0, 31.0);
    s.cloth(rect(0.0, 0.0, wide, tall), Up::Wrong, DOWN);
    s.cut(line(pt(0.0, 0.0), pt(wide, 0.0)));
    for x in [0.0, wide] {
        s.stroke(line(pt(x, 0.0), pt(x, tall)), Pen::THIN);
    }
    s.stroke(smooth(&[pt(0.0, tall), pt(20.0, tall + 0.7), pt(44.0, tall - 0.6), pt(wide, tall)]), Pen::THIN);
    let flap = |s: &mut Scene, a: f64, b: f64| {
        s.cloth(rect(a.min(b), 0.0, a.max(b), tall), Up::Right, DOWN);
        s.cut(line(pt(b, 0.0), pt(b, tall)));
        s.cut(line(pt(a, 0.0), pt(b, 0.0)));
    };
    match input.press {
        None => {}
        Some(Press::Open) => {
            flap(&mut s, mid, mid - 8.0);
            flap(&mut s, mid, mid + 8.0);
        }
        Some(Press::OneSide) => {
            s.cut(line(pt(mid - 9.2, 0.0), pt(mid - 9.2, tall)));
            flap(&mut s, mid, mid - 8.0);
        }
    }
    if input.press.is_some() {
        s.stroke(line(pt(mid, 0.0), pt(mid, tall)), Pen::FOLD);
    }
    if input.cloth {
        let area = closed(&[pt(12.0, 12.0), pt(52.0, 10.0), pt(53.0, 38.0), pt(11.0, 40.0)]);
        s.cut_cloth(area, Up::Under, Vec2::new(1.0, 0.1));
    }
    iron(&mut s, pt(mid + 1.0, 23.0));
    match input.press {
        None => {}
        Some(Press::Open) => {
            s.arrow(&[pt(mid - 3.0, 5.5), pt(mid - 14.0, 5.5)]);
            s.arrow(&[pt(mid + 3.0, 5.5), pt(mid + 14.0, 5.5)]);
        }
        Some(Press::OneSide) => s.arrow(&[pt(mid + 4.0, 5.5), pt(mid - 14.0, 5.5)]),
    }
    s.note(Side::Above, pt(9.0, 6.0), "wrong side up");
    s.note(Side::Below, pt(mid, tall - 1.0), input.what.clone());
    if input.cloth {
        s.note(Side::Below, pt(49.5, 36.0), "pressing cloth");
    }
    let way = match input.press {
        None => String::new(),
        Some(Press::Open) => " open".to_string(),
        Some(Press::OneSide) => format!(" {}", input.toward),
    };
    let words = if input.press.is_some() { format!("press{way}") } else { "set down, lift, set down".to_string() };
    let target = match input.press {
        None => pt(mid + 1.0, 12.5),
        Some(Press::Open) => pt(mid + 9.0, 4.6),
        Some(Press::OneSide) => pt(mid - 6.0, 4.6),
    };
    s.note(Side::Above, target, words);
    let on = if input.press.is_some() { "seam" } else { "cloth" };
    let between =
        if input.cloth { format!(" A damp pressing cloth lies between the iron and the {on}.") } else { String::new() };
    let what = input.what.trim();
    let what = what.strip_prefix("the ").unwrap_or(what);
    let caption = format!("Press the {what}{way}, from the wrong side: set the iron down and lift it, do not push.");
    let alt = format!(
        "The {what} lies wrong side up on the board, running away from you. {}{between} The iron is set down on the {on} and lifted, not pushed along.",
        match input.press {
            None => "It lies flat and has no seam.".to_string(),
            Some(Press::Open) => "Arrows show its two allowances spread apart, one to each side.".to_string(),
            Some(Press::OneSide) => format!("An arrow shows both allowances turned{way}."),
        }
    );
    s.finish(Words { caption, alt }, Scale::NotToScale)
}

/// An iron from above, its point up the page.
fn iron(s: &mut Scene, at: Point) {
    let p = |x: f64, y: f64| at + Vec2::new(x, y);
    let mut sole = BezPath::new();
    sole.move_to(p(0.0, -12.0));
    sole.curve_to(p(4.0, -7.0), p(7.0, -1.0), p(7.2, 9.0));
    sole.curve_to(p(4.0, 10.2), p(-4.0, 10.2), p(-7.2, 9.0));
    sole.curve_to(p(-7.0, -1.0), p(-4.0, -7.0), p(0.0, -12.0));
    sole.close_path();
    s.fill(sole.clone(), Paint::Pale);
    s.stroke(sole, Pen::FOLD);
    let mut grip = BezPath::new();
    grip.move_to(p(-2.0, -4.0));
    grip.curve_to(p(-1.6, -5.6), p(1.6, -5.6), p(2.0, -4.0));
    grip.line_to(p(2.6, 7.0));
    grip.curve_to(p(1.4, 8.4), p(-1.4, 8.4), p(-2.6, 7.0));
    grip.close_path();
    s.fill(grip.clone(), Paint::White);
    s.stroke(grip, Pen::FOLD);
    s.stroke(line(p(-0.9, -3.0), p(-1.2, 6.0)), Pen::THIN);
}
