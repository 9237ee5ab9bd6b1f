use super::THREAD;
use crate::reckon::ask::{advised, ask, cell, fault, inches, near, one, same, table};

/// By ISO 4915 class 101 4, 301 2.5, 401 5.5, 504 14. Read: table citing Carr and Latham, *The Technology of
/// Clothing Manufacture*.
#[test]
fn by_class() {
    let found = ask(&THREAD, &[("seams", "a:1 m:101, b:1 m:301, c:1 m:401, d:1 m:504"), ("waste", "0 %")]);
    for (row, metres) in [4.0, 2.5, 5.5, 14.0].into_iter().enumerate() {
        same(cell(&found, "by_seam", row, 4), metres * 1000.0);
        same(cell(&found, "by_class", row, 2), metres * 1000.0);
    }
    same(one(&found, "net"), 26_000.0);
    assert!(advised(&found, "divide-over-cones"));
}

/// 301 = 2 + 2TS: T .01 in, 10 per inch -> 2.2; 401 = 4 + 2TS. Read: textileblog.com. 101 = 3 + 2TS: T .005 in, 9
/// per inch -> 3.09. Read: textilecalculations.com.
#[test]
fn by_thickness_and_stitch() {
    let seams = "a:1 in:301:1::0.01 in:1/10 in, b:1 in:401:1::0.01 in:1/10 in, c:1 in:101:1::0.005 in:1/9 in";
    let found = ask(&THREAD, &[("seams", seams), ("waste", "0 %")]);
    for (row, per) in [2.2, 4.2, 3.09].into_iter().enumerate() {
        same(cell(&found, "by_seam", row, 3), per);
    }
}

/// Long-sleeved woven shirt: 2487 in = 69 yd, +20 % = 76 m. Read: textilecalculation.blogspot.com (2015).
#[test]
fn a_shirt() {
    let found = ask(&THREAD, &[("seams", "shirt:2487 in:301:1:1")]);
    near(inches(&found, "net") / 36.0, 69.0, 0.1);
    assert_eq!(found.printed("garment").unwrap().metric, "76\u{a0}m");
}

/// A metre of 401 unpicked at 1.3 and 4.1, with 15 % of waste, is 621 cm. Read: apparelscience.com.
#[test]
fn unpicked() {
    let found = ask(&THREAD, &[("seams", "seam:100 cm:401:1:1.3 + 4.1"), ("waste", "15 %"), ("garments", "3")]);
    same(one(&found, "garment"), 6210.0);
    same(one(&found, "total"), 18_630.0);
}

#[test]
fn spools_and_faults() {
    let found = ask(&THREAD, &[("seams", "side:1 m:301:50"), ("waste", "0 %"), ("spool", "100 m")]);
    assert_eq!(one(&found, "spools"), 2.0);
    assert!(advised(&found, "one-dye-lot"));
    assert_eq!(table(&found, "by_class").rows.len(), 1);
    assert!(fault(&THREAD, &[("seams", "a:1 m:504:1::1 mm:2 mm")]).contains("504"));
    assert!(fault(&THREAD, &[("seams", "a:1 m:301:1::1 mm")]).contains("together"));
}
