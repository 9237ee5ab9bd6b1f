//! The gown by second routes: from the drawn pieces and by hand, not from the formulas of its file.

use std::collections::BTreeMap;

use furbelow::draft::Piece;
use furbelow::size::SizedGarment;

use super::{garment, number};

/// The bodice, from the middle of the front to the middle of the back.
const BODICE: [&str; 4] = ["front", "side_front", "side_body", "back"];

fn edge(sized: &SizedGarment, piece: &str, edge: &str) -> f64 {
    let found = sized.pieces[piece].edge(edge);
    found.unwrap_or_else(|| panic!("`{piece}` has no edge `{edge}`")).length.to_mm()
}

/// How wide a piece is between its seam lines at a height, mm.
fn width_at(piece: &Piece, y: f64) -> f64 {
    let mut corners: Vec<kurbo::Point> = Vec::new();
    kurbo::flatten(piece.seam().closed_bez(), 0.02, |el| corners.extend(el.end_point()));
    let first = corners.first().copied();
    corners.extend(first);
    let mut at: Vec<f64> = corners
        .windows(2)
        .filter(|pair| (pair[0].y > y) != (pair[1].y > y))
        .map(|pair| pair[0].x + (pair[1].x - pair[0].x) * (y - pair[0].y) / (pair[1].y - pair[0].y))
        .collect();
    at.sort_by(f64::total_cmp);
    at.chunks_exact(2).map(|pair| pair[1] - pair[0]).sum()
}

/// The girth of the laced bodice at a height: both halves and the gap in front.
fn girth(sized: &SizedGarment, y: f64) -> f64 {
    let half: f64 = BODICE.iter().map(|name| width_at(&sized.pieces[*name], y)).sum();
    let front = &sized.pieces["front"].edge("centre").expect("a front edge").path;
    let (top, point) =
        if front.start().y < front.end().y { (front.start(), front.end()) } else { (front.end(), front.start()) };
    let edge = top.x + (point.x - top.x) * (y - top.y) / (point.y - top.y);
    2.0 * (half + point.x - edge)
}

/// The pleats by hand, as for the first garment: one pleat takes two stitches, the pitch lies between the swatch tight and the
/// swatch eased, four panels make the width and fit the cloth.
#[test]
fn the_pleats_by_hand() {
    let (garment, build) = garment("assize-gown");
    let swatch = garment.swatch("wool_two").expect("the swatch");
    let in_swatch = swatch.flat / (swatch.stitch * 2.0);
    let (tight, eased) = (swatch.tight / in_swatch, swatch.eased.expect("measured eased") / in_swatch);
    let wool = garment.cloth("wool").expect("wool");
    for sized in &build.sizes {
        let (pleats, flat) = (number(sized, "skirt.pleats"), number(sized, "skirt.flat"));
        assert!((flat - pleats * 2.0 * swatch.stitch.to_mm()).abs() < 1e-6, "size {}", sized.size);
        assert!(pleats % 4.0 == 0.0, "size {}: each panel holds the same number of pleats", sized.size);
        let seam: f64 = BODICE.iter().map(|name| 2.0 * edge(sized, name, "waist")).sum();
        let pitch = seam / pleats;
        assert!(pitch >= tight.to_mm() - 1e-9 && pitch <= eased.to_mm() + 1e-9, "size {}: {pitch}", sized.size);
        let panel = sized.pieces["skirt_back"].extent.width().to_mm();
        assert!((4.0 * panel - flat).abs() < 0.01, "size {}", sized.size);
        assert!(sized.pieces["skirt_back"].cut_extent.width() <= wool.usable(wool.widths[0]), "size {}", sized.size);
    }
}

/// The bodice round the body, measured across the drawn pieces: just below the armhole it is the bust and its ease, but for the
/// hollows of the back seams (less than 1 cm), and just above the waist it is the waist and its ease, within half a centimetre. Between
/// them it never grows.
#[test]
fn the_bodice_is_as_wide_as_it_says() {
    let (_, build) = garment("assize-gown");
    for sized in &build.sizes {
        let (bust, waist) = (number(sized, "bust"), number(sized, "waist"));
        let (scye, level) = (number(sized, "armhole_depth"), number(sized, "back_length"));
        let below = girth(sized, scye + 10.0);
        assert!(below <= bust && below > bust - 10.0, "size {}: {below} for a bust of {bust}", sized.size);
        // The waist of the back is drawn square to its seams, so it rises a little between them.
        let above = girth(sized, level - 4.0);
        assert!((above - waist).abs() < 5.0, "size {}: {above} for a waist of {waist}", sized.size);
        let bust_height = number(sized, "bust_depth") - number(sized, "front_length") + level;
        let mut last = f64::INFINITY;
        for step in 1..20 {
            let at = girth(sized, bust_height + 3.0 + (level - 7.0 - bust_height) * f64::from(step) / 20.0);
            assert!(at < last + 0.01, "size {}: the bodice widens toward the waist", sized.size);
            last = at;
        }
    }
}

/// Read: The Practical Designer (Rosenfeld, 1918), pp. 9 and 16: from the socket bone to the waist 15 1/2 in for size 36 of a woman of
/// 5 ft 6 in, and a quarter of the height, 16 1/2 in, in general. The table stays between the two.
#[test]
fn the_back_is_as_long_as_a_back() {
    let (_, build) = garment("assize-gown");
    for sized in &build.sizes {
        let inches = number(sized, "back_length") / 25.4;
        assert!((15.5..=16.6).contains(&inches), "size {}: {inches} in", sized.size);
    }
}

/// Every seam meets, no edge is left over, and every edge grows from size to size where it is not declared.
#[test]
fn its_seams_meet() {
    let (_, build) = garment("assize-gown");
    assert!(build.seams.holds());
    let head = build.seams.seams.iter().find(|seam| seam.title == "sleeve into armhole").expect("the sleeve is set");
    for (size, sized) in head.by_size.iter().zip(&build.sizes) {
        // Worked in by steam, and not so much that it puckers: between 1 and 3 cm (common practice, no source).
        assert!(
            size.longer.to_mm() > 10.0 && size.longer.to_mm() < 30.0,
            "size {}: {}",
            size.size,
            size.longer.to_mm()
        );
        assert!(size.notches.len() == 2 && size.notches.iter().all(|notch| notch.meets), "size {}", size.size);
        // The sleeve goes round the arm with room to bend it: at least 4 cm (common practice, no source). Widest at the armpit.
        let block = &sized.pieces["sleeve_block"];
        let wide = block.points["front_end"].0.x - block.points["back_end"].0.x;
        assert!(wide - number(sized, "upper_arm") >= 40.0, "size {}: {wide}", sized.size);
    }
}

/// The bones against the channels as they are drawn: shorter by at least the two clearances, and by no more than them and a step.
#[test]
fn bones_are_shorter_than_their_channels() {
    let (_, build) = garment("assize-gown");
    let clear = (0.25 + 0.5) * 25.4;
    for sized in &build.sizes {
        let drawn: BTreeMap<(&str, &str), f64> = ["front", "stomacher"]
            .iter()
            .flat_map(|name| {
                sized.pieces[*name].marks.iter().map(move |mark| ((*name, mark.name.as_str()), mark.length.to_mm()))
            })
            .collect();
        for (bone, channel) in [
            ("bone_edge", drawn[&("front", "edge_bone")]),
            ("bone_inner", drawn[&("front", "inner_bone")]),
            ("bone_stomacher", drawn[&("stomacher", "bone")]),
            ("bone_centre", edge(sized, "back", "centre")),
        ] {
            let bone_length = number(sized, bone);
            assert!(bone_length <= channel - clear + 1.0, "size {}: {bone} {bone_length} in {channel}", sized.size);
            assert!(bone_length > channel - clear - 20.0, "size {}: {bone} {bone_length} in {channel}", sized.size);
        }
        // Over the bust the channel follows the seam, which is a little longer than the straight way it is reckoned by.
        let seam = &sized.pieces["front"].edge("bust_seam").expect("a bust seam").as_written();
        let bust = sized.pieces["block"].points["bust"].0;
        let below = seam.length() - seam.nearest(bust).0 - number(sized, "bust_clear");
        let channel = number(sized, "bust_channel");
        assert!(channel <= below + 0.01 && channel > below - 8.0, "size {}: {channel} of {below}", sized.size);
    }
}

/// The eyelets as the page has them: first, waist and last where they are said to be, equal gaps between, as many as reckoned, and none
/// further from the next than an inch (common practice, no source).
#[test]
fn eyelets_add_up() {
    let (_, build) = garment("assize-gown");
    for sized in &build.sizes {
        let n = |name: &str| number(sized, name);
        let (upper, lower) = (n("upper_gaps"), n("lower_gaps"));
        assert!((n("eyelets.count") - (upper + lower + 1.0)).abs() < 1e-9, "size {}", sized.size);
        let sum = 0.5 * 25.4 + upper * n("upper_gap") + lower * n("lower_gap") + 0.75 * 25.4;
        assert!((sum - edge(sized, "front", "centre")).abs() < 1e-6, "size {}", sized.size);
        assert!(n("upper_gap") <= 25.4 + 1e-9 && n("lower_gap") <= 25.4 + 1e-9);
    }
}

/// The dip cut into the skirt is the dip of the bodice, drawn out: at the centre as deep as the point, at the marks of the bust seam and of
/// the side seam as deep as the bodice is there, to 4 mm, and its length drawn up is the length of the two edges.
#[test]
fn the_skirt_follows_the_bodice() {
    let (_, build) = garment("assize-gown");
    for sized in &build.sizes {
        let ratio = number(sized, "skirt.ratio");
        let level = number(sized, "back_length");
        let top = sized.pieces["skirt_front"].edge("top").expect("a top").as_written();
        assert!((top.start().y - number(sized, "point_drop")).abs() < 0.01, "size {}", sized.size);
        let seam = edge(sized, "front", "waist");
        let front = sized.pieces["front"].edge("waist").expect("a waist").path.clone();
        let high = if front.start().y < front.end().y { front.start() } else { front.end() };
        let at = |x: f64| {
            let (mut low, mut far) = (0.0, top.length());
            for _ in 0..60 {
                let middle = f64::midpoint(low, far);
                if top.at(middle).0.x < x { low = middle } else { far = middle }
            }
            top.at(low).0.y
        };
        assert!((at(ratio * seam) - (high.y - level)).abs() < 4.0, "size {}", sized.size);
        let arc = number(sized, "skirt_dip.arc");
        let both = 2.0 * (seam + edge(sized, "side_front", "waist"));
        assert!((arc - both).abs() < 0.5, "size {}: {arc} against {both}", sized.size);
    }
}
