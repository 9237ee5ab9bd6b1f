use super::DYE;
use crate::reckon::ask::{advised, ask, assert_proposals, fault, near, one, same};

/// 45 lb at 5 % = 36 oz of dye. Read: dye maker's public forum answer.
#[test]
fn thirty_six_ounces() {
    let found = ask(&DYE, &[("goods_weight", "45 lb"), ("shade", "5 %")]);
    near(one(&found, "dye") / 28.349_523_125, 36.0, 1e-9);
    same(one(&found, "dye"), 0.05 * 45.0 * 16.0 * 28.349_523_125);
    assert!(advised(&found, "dye-makers-sheet"), "always");
}

/// 1 oz/yd2 = 33.9057 g/m2 (exact conversion): ten square metres of 3 oz cloth weigh 1017 g.
#[test]
fn from_the_area() {
    let found = ask(&DYE, &[("area", "10 m2"), ("cloth_weight", "3 oz/yd2"), ("shade", "2 %"), ("stock", "1 %")]);
    near(one(&found, "goods"), 1017.17, 0.01);
    near(one(&found, "dye_grams"), 20.343, 0.001);
    // Twenty to one, a gram of water a millilitre: 20.34 l; and of a 1 % stock 2.034 l.
    near(one(&found, "bath") / 1e6, 20.343, 0.001);
    near(one(&found, "stock_volume") / 1e6, 2.0343, 0.0001);
    assert!(advised(&found, "weigh-it"));
}

#[test]
fn pot_too_small() {
    let found = ask(&DYE, &[("goods_weight", "1 kg"), ("shade", "2 %"), ("pot", "20 l")]);
    assert_proposals(&found, 3);
    assert_eq!(one(&found, "baths"), 2.0);
    same(one(&found, "pot_goods"), 750.0);
    let enough = ask(&DYE, &[("goods_weight", "750 g"), ("shade", "2 %"), ("pot", "20 l")]);
    assert!(enough.out_of_reach.is_none());
}

#[test]
fn teacher() {
    assert!(fault(&DYE, &[("goods_weight", "1 kg"), ("shade", "2")]).contains("more dye than goods"));
    let deep = ask(&DYE, &[("goods_weight", "8 g"), ("shade", "10 %"), ("bath_ratio", "6")]);
    assert!(advised(&deep, "deep-shade") && advised(&deep, "short-bath") && advised(&deep, "too-little-to-weigh"));
}
