use super::SMOCKING;
use crate::reckon::ask::{advised, ask, assert_proposals, cell, fault, list, near, one, same};

/// Drawn to a quarter, dots 1/8-3/8 in, rows 3/8-3/4 in. Read: Baldt, *Clothing for Women*, 1916.
#[test]
fn drawn_to_a_quarter() {
    let found = ask(&SMOCKING, &[("drawn", "9 in"), ("depth", "4 in")]);
    same(one(&found, "flat"), 36.0 * 25.4);
    // Closed form: 36 in over two stitches of 1/4 in; 8 spaces of 1/2 in, 9 rows, two ends each.
    assert_eq!(one(&found, "pleats"), 72.0);
    assert_eq!(one(&found, "rows"), 9.0);
    assert_eq!(one(&found, "ends"), 18.0);
    assert_eq!(one(&found, "dots"), 9.0 * 145.0);
    same(one(&found, "thread"), 9.0 * (36.0 + 12.0) * 25.4);
    for within in ["stitch-unusual", "rows-far-apart", "rows-close"] {
        assert!(!advised(&found, within), "{within}");
    }
}

/// Straight rows pulled to a point: closed form hypot(half width, depth); a 3-4-5 triangle.
#[test]
fn a_point() {
    let found = ask(&SMOCKING, &[("drawn", "16 in"), ("depth", "4 in"), ("drop", "6 in"), ("second_layer", "yes")]);
    same(one(&found, "slant"), 10.0 * 25.4);
    same(one(&found, "spread"), 0.25);
    same(one(&found, "point_ratio"), 4.0 / 1.25);
    near(one(&found, "turn").to_degrees(), 36.869_897_6, 1e-6);
    same(one(&found, "extra_length"), 6.0 * 25.4);
    same(one(&found, "layer_depth"), 11.0 * 25.4);
    assert!(advised(&found, "swatch-both-layers"));
}

#[test]
fn rows_let_out() {
    let found = ask(&SMOCKING, &[("drawn", "9 in"), ("depth", "4 in"), ("last_row", "13 in")]);
    let rows = list(&found, "row_lengths");
    assert_eq!(rows.len(), 9);
    for (row, length) in rows.iter().enumerate() {
        #[allow(clippy::cast_precision_loss)]
        same(*length, (9.0 + 0.5 * row as f64) * 25.4);
    }
    same(cell(&found, "row_table", 8, 1), 4.0 * 25.4);
    let by_list = ask(&SMOCKING, &[("drawn", "9 in"), ("depth", "1 in"), ("row_widths", "9 in, 9.5 in, 11 in")]);
    same(one(&by_list, "least_ratio"), 36.0 / 11.0);
    assert!(
        fault(&SMOCKING, &[("drawn", "9 in"), ("depth", "1 in"), ("row_widths", "9 in, 11 in")]).contains("3 rows")
    );
}

#[test]
fn reach_and_teacher() {
    let wide = ask(&SMOCKING, &[("drawn", "9 in"), ("depth", "4 in"), ("last_row", "40 in")]);
    assert_proposals(&wide, 2);
    let short = ask(&SMOCKING, &[("drawn", "9 in"), ("depth", "4 in"), ("available", "30 in")]);
    assert_proposals(&short, 2);
    let steep = ask(&SMOCKING, &[("drawn", "6 in"), ("depth", "4 in"), ("drop", "4 in"), ("ratio", "6")]);
    assert!(advised(&steep, "too-steep") && advised(&steep, "too-full"));
    // Pleating-machine threads lie about 3/16 in apart: common practice, no source.
    assert!(advised(
        &ask(&SMOCKING, &[("drawn", "9 in"), ("depth", "3 in"), ("row_spacing", "3/16 in")]),
        "rows-close"
    ));
}
