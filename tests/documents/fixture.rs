//! An invented garment, as the document stage takes it: sizes, numbers and prose made up for the
//! purpose, after no existing pattern.

use furbelow::set::view::{
    Before, Block, Book, Caution, Cell, Change, ClothNeed, CutCloth, CutPiece, Cutting, Edition, Glance, Making,
    NotionNeed, PieceCard, RefTarget, ResultRow, ResultTable, Run, Seen, StripRow, Swatch, SwatchChapter, Term, Tool,
};

use super::{drawings, layouts};

/// The waists of the sizes, centimetres, made up.
const SIZES: [(&str, f64); 14] = [
    ("6", 62.0),
    ("8", 66.0),
    ("10", 70.0),
    ("12", 74.0),
    ("14", 79.0),
    ("16", 84.0),
    ("18", 90.0),
    ("20", 96.0),
    ("22", 102.0),
    ("24", 108.0),
    ("26", 114.0),
    ("28", 120.0),
    ("30", 126.0),
    ("32", 132.0),
];

/// Inches with fractions of a sixteenth, the odd ones with a fraction slash.
pub fn inches(cm: f64) -> String {
    let parts = (cm / 2.54 * 16.0).round() as u64;
    let (whole, part) = (parts / 16, parts % 16);
    let fraction = match part {
        0 => return whole.to_string(),
        2 => "⅛".into(),
        4 => "¼".into(),
        6 => "⅜".into(),
        8 => "½".into(),
        10 => "⅝".into(),
        12 => "¾".into(),
        14 => "⅞".into(),
        odd => format!("{odd}⁄16"),
    };
    if whole == 0 { fraction } else { format!("{whole}\u{a0}{fraction}") }
}

fn both(cm: f64) -> Cell {
    Cell::new(inches(cm), format!("{cm:.1}"))
}

/// A length in the sentence.
pub fn length(cm: f64) -> Run {
    Run::value(format!("{}\u{a0}in ({cm:.1}\u{a0}cm)", inches(cm)))
}

pub(super) fn t(text: &str) -> Run {
    Run::text(text)
}

pub(super) fn strong(text: &str) -> Run {
    Run::Text { text: text.into(), strong: true, emph: false }
}

pub(super) fn mark(letter: &str) -> Run {
    Run::Mark { letter: letter.into() }
}

pub(super) fn link(target: RefTarget, id: &str, text: &str) -> Run {
    Run::Ref { target, id: id.into(), text: text.into() }
}

/// A paragraph.
pub fn p(runs: Vec<Run>) -> Block {
    Block::Paragraph { runs }
}

pub(super) fn para(text: &str) -> Block {
    p(vec![t(text)])
}

pub(super) fn note(runs: Vec<Run>) -> Block {
    Block::Note { runs }
}

/// What differs between editions of the fixture.
pub struct Fixture {
    pub(super) sizes: Vec<(&'static str, f64)>,
}

impl Fixture {
    /// The first `count` sizes, at most fourteen.
    pub fn sizes(count: usize) -> Fixture {
        Fixture { sizes: SIZES[..count].to_vec() }
    }

    /// One size.
    pub fn single(name: &str) -> Fixture {
        Fixture { sizes: SIZES.iter().copied().filter(|(size, _)| *size == name).collect() }
    }

    pub(super) fn names(&self) -> Vec<String> {
        self.sizes.iter().map(|(name, _)| (*name).to_string()).collect()
    }

    pub(super) fn one(&self) -> bool {
        self.sizes.len() == 1
    }

    pub(super) fn row(&self, mark: &str, label: &str, of: impl Fn(f64) -> f64) -> StripRow {
        StripRow {
            mark: (!mark.is_empty()).then(|| mark.to_string()),
            label: label.into(),
            unit_first: "in".into(),
            unit_second: "cm".into(),
            cells: self.sizes.iter().map(|(_, waist)| both(of(*waist))).collect(),
        }
    }

    pub(super) fn counts(&self, mark: &str, label: &str, of: impl Fn(f64) -> f64) -> StripRow {
        let cells = self.sizes.iter().map(|(_, waist)| Cell::new(format!("{:.0}", of(*waist)), "")).collect();
        let mark = (!mark.is_empty()).then(|| mark.to_string());
        StripRow { mark, label: label.into(), unit_first: String::new(), unit_second: String::new(), cells }
    }

    fn yards(&self, label: &str, of: impl Fn(f64) -> f64) -> StripRow {
        let cell = |metres: f64| Cell::new(inches((metres / 0.9144 * 8.0).ceil() / 8.0 * 2.54), format!("{metres:.1}"));
        let cells = self.sizes.iter().map(|(_, waist)| cell(of(*waist))).collect();
        StripRow { mark: None, label: label.into(), unit_first: "yd".into(), unit_second: "m".into(), cells }
    }

    /// In several sizes a mark and a strip; in one size the number itself.
    pub(super) fn number(&self, letter: &str, of: impl Fn(f64) -> f64) -> Run {
        if self.one() { length(of(self.sizes[0].1)) } else { mark(letter) }
    }

    pub(super) fn strips(&self, rows: Vec<StripRow>) -> Vec<Block> {
        if self.one() { Vec::new() } else { vec![Block::Strip { sizes: self.names(), rows }] }
    }

    /// The whole view.
    pub fn book(&self) -> Book {
        let mut figures = vec![drawings::view("cover", None)];
        figures.push(drawings::view("front", Some(1)));
        figures.push(drawings::wave("swatch", 2));
        figures.push(drawings::panel("card-panel", None, "44 in", "41 ½ in", "Skirt panel"));
        figures.push(drawings::panel("card-band", None, "30 in", "2 ¾ in", "Waistband"));
        figures.push(drawings::panel("card-flounce", None, "44 in", "9 in", "Flounce strip"));
        figures.push(drawings::panel("card-bias", None, "1 ½ in", "60 in", "Bias strip for the piping"));
        figures.push(drawings::panel("panel", Some(3), "44 in (111.8 cm)", "41 ½ in", "Skirt panel"));
        figures.push(drawings::panel(layouts::FIGURE, None, "44 in", "41 ½ in", "Cloth"));
        figures.push(drawings::grid("grid", 4));
        figures.push(drawings::wave("pleats", 5));
        figures.push(drawings::placket("placket", 6));
        Book {
            title: "The ferrywoman’s skirt and petticoat".into(),
            production: Some("The Salt Road, a play with songs".into()),
            maker: Some("Wardrobe of the Tidewater Players".into()),
            language: "en".into(),
            region: Some("GB".into()),
            accent: "#7a2e3a".into(),
            edition: Edition {
                version: "1.0.0".into(),
                words: if self.one() { format!("Size {}", self.sizes[0].0) } else { "All sizes".into() },
                remark: "Sizes are our own; choose by your measurements, not by the number in your clothes.".into(),
            },
            sizes: self.names(),
            cover: Some("cover".into()),
            making: self.making(),
            glance: self.glance(),
            before: Before {
                blocks: vec![para(
                    "Wash, dry and press every cloth before you measure anything on it. What shrinks now cannot shrink on stage.",
                )],
                tools: tools(),
                key: drawings::key(),
            },
            swatch: Some(self.swatch()),
            cutting: self.cutting(),
            layouts: layouts::layouts(&self.names()),
            pieces: cards(),
            steps: self.steps(),
            cautions: cautions(),
            glossary: glossary(),
            terms: vec![
                para(
                    "You may sew from this pattern as often as you like, for yourself, for your company and for money. The pattern itself, its words and drawings, are not yours to copy or sell.",
                ),
                Block::List {
                    ordered: false,
                    items: vec![
                        vec![t("Print as many copies as your workroom needs.")],
                        vec![t("Write to us if a number is wrong. We mend it and send you the new edition.")],
                    ],
                },
            ],
            changes: vec![Change { version: "1.0.0".into(), blocks: vec![para("First edition.")] }],
            figures,
        }
    }

    fn making(&self) -> Making {
        Making {
            blocks: vec![
                para(
                    "A full skirt on straight grain, cartridge pleated to a waistband that dips at the centre front, and the petticoat that carries it. On stage it belongs to the ferrywoman: she kneels, rows and is soaked twice a night, so every seam can be let out and nothing is glued.",
                ),
                para(
                    "The skirt is three whole widths of a firm wool. Its hem stays level and on the grain; the dip is taken out of the top edge, before it is pleated. The petticoat is cotton, with a gathered flounce that keeps the hem away from the feet.",
                ),
                p(vec![
                    t(
                        "You need to be able to sew a straight seam and a small running stitch. Everything else is shown. Allow a weekend for the petticoat and two for the skirt, most of it at the pleats: see ",
                    ),
                    link(RefTarget::Step, "rows", ""),
                    t("."),
                ]),
            ],
            figures: vec!["front".into()],
        }
    }

    fn glance(&self) -> Glance {
        Glance {
            body: vec![self.row("", "Waist", |w| w), self.row("", "Hip", |w| w + 25.0)],
            finished: vec![
                self.row("", "Waist seam", |w| w + 2.5),
                self.row("", "Front length, waist to hem", |_| 104.0),
                self.row("", "Hem, all round", |_| 330.0),
            ],
            cloths: vec![
                ClothNeed {
                    name: "Wool".into(),
                    role: "outer cloth".into(),
                    advice: vec![t(
                        "A firm plain weave that springs back when you crush it, about 300 g a square metre. One-way cloth will do: all panels hang the same way.",
                    )],
                    rows: vec![
                        self.yards("45 in (114 cm) wide", |w| 3.6 + w / 200.0),
                        self.yards("60 in (152 cm) wide", |w| 2.6 + w / 200.0),
                    ],
                },
                ClothNeed {
                    name: "Cotton".into(),
                    role: "petticoat".into(),
                    advice: vec![t("Closely woven and light.")],
                    rows: vec![self.yards("45 in (114 cm) wide", |w| 3.1 + w / 300.0)],
                },
            ],
            notions: vec![
                NotionNeed {
                    name: "Hooks and bars".into(),
                    amount: vec![t("7 pairs, size 2")],
                    rows: vec![],
                    note: vec![t("placket and waistband")],
                },
                NotionNeed {
                    name: "Buttonhole thread".into(),
                    amount: vec![Run::value("60\u{a0}yd (55\u{a0}m)")],
                    rows: vec![],
                    note: vec![t("pleating rows, and sewing the pleats on")],
                },
                NotionNeed {
                    name: "Piping cord".into(),
                    amount: vec![],
                    rows: vec![self.yards("3⁄16 in (5 mm) thick", |w| (w + 12.0) / 100.0)],
                    note: vec![],
                },
            ],
        }
    }

    fn swatch(&self) -> SwatchChapter {
        let row = |eighths: i32| {
            let cm = f64::from(eighths) * 2.54 / 8.0;
            ResultRow {
                drawn: format!("{}\u{a0}in ({cm:.1}\u{a0}cm)", inches(cm)),
                ratio: format!("{:.1}\u{a0}:\u{a0}1", 30.48 / cm),
                ours: eighths == 16,
                cells: self
                    .sizes
                    .iter()
                    .map(|(_, w)| Cell::new(format!("{:.0}", ((w + 2.5) / (cm / 24.0) / 4.0).floor() * 4.0), ""))
                    .collect(),
            }
        };
        SwatchChapter {
            blocks: vec![para(
                "How far a cloth draws up depends on its thickness, and no table knows your cloth. Half an hour with a strip of it tells you more than any number of ours.",
            )],
            swatches: vec![Swatch {
                id: "two-wool".into(),
                name: "Two thicknesses of the wool".into(),
                sew: vec![Block::List {
                    ordered: true,
                    items: vec![
                        vec![
                            t("Cut a strip "),
                            length(33.0),
                            t(" wide and as deep as your hand is long. Fold its upper edge over by "),
                            length(2.5),
                            t("."),
                        ],
                        vec![
                            t("Mark and sew three rows, stitches "),
                            Run::value("¼\u{a0}in (6\u{a0}mm)"),
                            t(" long, one under the other."),
                        ],
                        vec![t(
                            "Draw the rows up until the pleats stand close but are not crushed. Measure along the seam line, and write it below.",
                        )],
                    ],
                }],
                figures: vec!["swatch".into()],
                flat: "12\u{a0}in (30.5\u{a0}cm)".into(),
                drawn: "2\u{a0}in (5.1\u{a0}cm)".into(),
                eased: "2⅜\u{a0}in (6.0\u{a0}cm)".into(),
                ratio: "6.0\u{a0}:\u{a0}1".into(),
                results: Some(ResultTable {
                    caption: "How many pleats to make".into(),
                    head: "If your 12 in draws up to".into(),
                    rows: (14..=20).map(row).collect(),
                }),
            }],
            differs: vec![
                para(
                    "Find the row nearest to your drawn-up width and use its number of pleats wherever this booklet names ours.",
                ),
                para(
                    "If your result lies beyond the table, change the stitch, not the cloth: half the stitch gives half the ratio. Sew the swatch again to be sure.",
                ),
            ],
        }
    }

    fn cutting(&self) -> Cutting {
        let same = |n: &str| vec![n.to_string(); self.sizes.len()];
        let by = |of: fn(f64) -> u32| self.sizes.iter().map(|(_, w)| of(*w).to_string()).collect();
        Cutting {
            intro: vec![para(
                "Cut sizes hold every allowance: seams, hem and the fold at the top. Cut the long pieces first and the bias strips from what is left.",
            )],
            cloths: vec![
                CutCloth {
                    name: "Wool".into(),
                    role: "outer cloth".into(),
                    pieces: vec![
                        CutPiece {
                            id: "panel".into(),
                            number: 1,
                            name: "Skirt panel".into(),
                            count: same("3"),
                            grain: "lengthwise".into(),
                            notes: vec![t("Whole widths: leave the selvedges on.")],
                            dims: vec![self.row("", "width", |_| 111.8), self.row("", "length", |w| 109.0 + w / 50.0)],
                        },
                        CutPiece {
                            id: "band".into(),
                            number: 2,
                            name: "Waistband".into(),
                            count: same("2 (a pair)"),
                            grain: "crosswise".into(),
                            notes: vec![],
                            dims: vec![self.row("", "width", |w| w / 2.0 + 8.0), self.row("", "depth", |_| 7.0)],
                        },
                    ],
                    totals: vec![self.yards("running length at 45 in", |w| 3.6 + w / 200.0)],
                },
                CutCloth {
                    name: "Cotton".into(),
                    role: "petticoat".into(),
                    pieces: vec![
                        CutPiece {
                            id: "flounce".into(),
                            number: 3,
                            name: "Flounce strip".into(),
                            count: by(|w| if w < 90.0 { 5 } else { 6 }),
                            grain: "crosswise".into(),
                            notes: vec![
                                t("One strip more than you think: see "),
                                link(RefTarget::Step, "flounce", ""),
                                t("."),
                            ],
                            dims: vec![self.row("", "width", |_| 111.8), self.row("", "depth", |_| 23.0)],
                        },
                        CutPiece {
                            id: "bias".into(),
                            number: 4,
                            name: "Bias strip".into(),
                            count: same("2"),
                            grain: "bias, 45°".into(),
                            notes: vec![],
                            dims: vec![self.row("", "length", |w| w + 12.0), self.row("", "width", |_| 3.9)],
                        },
                    ],
                    totals: vec![],
                },
            ],
        }
    }
}

fn tools() -> Vec<Tool> {
    [
        ("Long thin needles", "for the pleating rows"),
        ("Buttonhole thread and wax", ""),
        ("A chalk wheel", "or a hard pencil on light cloth"),
        ("A ruler as long as your arm", ""),
        ("Glass-headed pins", "count them out, and count them in again"),
        ("Card for the curve", "cut once, used four times"),
    ]
    .map(|(name, words)| Tool { name: name.into(), note: if words.is_empty() { vec![] } else { vec![t(words)] } })
    .to_vec()
}

fn cards() -> Vec<PieceCard> {
    [
        ("panel", "Skirt panel", "cut 3 of wool"),
        ("band", "Waistband", "cut 2 of wool, a pair"),
        ("flounce", "Flounce strip", "cut 5 or 6 of cotton"),
        ("bias", "Bias strip", "cut 2 of cotton, on the bias"),
    ]
    .iter()
    .zip(1..)
    .map(|((id, name, cut), number)| PieceCard {
        id: (*id).into(),
        number,
        name: (*name).into(),
        cut: (*cut).into(),
        figure: Some(format!("card-{id}")),
    })
    .collect()
}

fn cautions() -> Vec<Caution> {
    vec![
        Caution {
            title: "Near flame and hot lamps".into(),
            blocks: vec![para(
                "Wool is slow to burn, the cotton under it is not. Have the petticoat treated by the rules of your venue before it comes near an open flame.",
            )],
            source: "NFPA 701; the venue’s own rules".into(),
        },
        Caution {
            title: "Needles left in the cloth".into(),
            blocks: vec![para(
                "Count pins and needles out, and count them in again. A dancer kneels on the one that is missing.",
            )],
            source: String::new(),
        },
    ]
}

fn glossary() -> Vec<Term> {
    let term = |word: &str, meaning: &str, seen: Vec<(RefTarget, &str)>| Term {
        word: word.into(),
        meaning: vec![t(meaning)],
        seen: seen.into_iter().map(|(target, id)| Seen { target, id: id.into() }).collect(),
    };
    vec![
        term(
            "Bias",
            "The direction at 45 degrees to the grain, in which woven cloth stretches.",
            vec![(RefTarget::Step, "piping"), (RefTarget::Piece, "bias")],
        ),
        term(
            "Cartridge pleats",
            "Cloth drawn up on rows of even running stitches, so that it stands in narrow tubes of which only the crests are sewn to the seam.",
            vec![(RefTarget::Step, "rows"), (RefTarget::Step, "sew-on"), (RefTarget::Section, "swatch")],
        ),
        term("Placket", "A finished opening in a seam.", vec![(RefTarget::Step, "placket")]),
        term("Selvedge", "The firm edge woven along both sides of a cloth.", vec![(RefTarget::Step, "panels")]),
    ]
}
