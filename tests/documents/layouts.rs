//! The layouts of the invented garment.

use furbelow::set::view::{Block, Cell, ClothLengths, LayoutPage, LayoutPlace, LayoutSection, Layouts, Run, StripRow};

/// The drawing of the layouts, by its id.
pub const FIGURE: &str = "layout-0";

fn para(words: &str) -> Block {
    Block::Paragraph { runs: vec![Run::text(words)] }
}

fn row(label: &str, cells: usize) -> StripRow {
    let cells = (0..cells).map(|at| Cell::new(format!("{}½", at + 1), format!("{}.4", at + 3))).collect();
    StripRow { mark: None, label: label.into(), unit_first: "yd".into(), unit_second: "m".into(), cells }
}

/// One arrangement for all sizes, and one for the first size alone.
pub fn layouts(sizes: &[String]) -> Layouts {
    let page = |sizes: Vec<String>, booklet: bool| {
        let place = |number: u32, name: &str| LayoutPlace {
            number,
            name: name.into(),
            lies: "two at once; face down; upper end towards the beginning".into(),
            along: row("from the beginning", sizes.len()),
            across: row("", sizes.len()),
        };
        LayoutPage {
            cloth: "wool flannel".into(),
            role: "outer cloth".into(),
            width: "45 in (114.3 cm) wide".into(),
            booklet,
            words: vec![para("Fold the cloth along its length, right sides together.")],
            lengths: vec![row("45 in (114.3 cm) wide: buy", sizes.len())],
            sections: vec![LayoutSection {
                title: "Folded along its length, two layers".into(),
                figure: FIGURE.into(),
                edge: "from the fold".into(),
                places: vec![place(1, "Skirt panel"), place(2, "Waistband")],
            }],
            sizes,
        }
    };
    let mut pages = vec![page(sizes.to_vec(), true)];
    pages.extend(sizes.first().filter(|_| sizes.len() > 1).map(|first| page(vec![first.clone()], false)));
    pages.extend(sizes.get(..2).filter(|_| sizes.len() > 2).map(|two| page(two.to_vec(), false)));
    Layouts {
        intro: vec![para("One page for each cloth."), para("The drawings are to scale."), para("Lay before you cut.")],
        lengths: vec![ClothLengths {
            name: "wool flannel".into(),
            role: "outer cloth".into(),
            rows: vec![row("45 in (114.3 cm) wide: buy", sizes.len())],
        }],
        pages,
    }
}
