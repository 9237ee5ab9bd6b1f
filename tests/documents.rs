//! Finished documents, read back from their bytes.

#[path = "documents/drawings.rs"]
mod drawings;
#[path = "documents/fixture.rs"]
mod fixture;
#[path = "documents/layouts.rs"]
mod layouts;
#[path = "documents/read.rs"]
mod read;
#[path = "documents/steps.rs"]
mod steps;

use fixture::{Fixture, length, p};
use furbelow::set::view::{Block, Book, Cell, RefTarget, Run, StripRow};
use furbelow::set::{DocKind, LintKind, Paper, Print, SetDocument, Setting, compile, preview, typeset};
use read::Pdf;

fn set(book: &Book, kind: DocKind, setting: impl Into<Setting>) -> SetDocument {
    compile(book, kind, setting).unwrap_or_else(|faults| panic!("{faults:#?}"))
}

fn editions() -> Vec<Book> {
    vec![Fixture::sizes(9).book(), Fixture::single("14").book(), Fixture::sizes(3).book(), Fixture::sizes(14).book()]
}

/// A booklet of nine sizes with a paragraph of our choosing in its first step.
fn with_words(text: &str) -> Book {
    let mut book = Fixture::sizes(9).book();
    book.steps[0].parts[0].blocks.insert(0, p(vec![Run::text(text)]));
    book
}

fn messages(book: &Book) -> String {
    match compile(book, DocKind::Booklet, Paper::A4) {
        Ok(_) => panic!("it was set"),
        Err(faults) => faults.iter().map(|fault| format!("{} {:?}\n", fault.message, fault.help)).collect(),
    }
}

#[test]
fn pages_have_the_size_of_their_paper() {
    // ISO 216: A4 is 210 x 297 mm, at 72 points in 25.4 mm. US letter is 8.5 x 11 in.
    let a4 = (210.0 * 72.0 / 25.4, 297.0 * 72.0 / 25.4);
    let book = Fixture::sizes(9).book();
    for (paper, (width, height)) in [(Paper::A4, a4), (Paper::Letter, (612.0, 792.0))] {
        for kind in DocKind::ALL {
            let document = set(&book, kind, paper);
            let boxes = Pdf::new(&document.pdf).media_boxes();
            assert_eq!(boxes.len(), document.pages);
            for [left, bottom, right, top] in boxes {
                assert_eq!((left, bottom), (0.0, 0.0));
                assert!((right - width).abs() < 0.001 && (top - height).abs() < 0.001, "{paper:?}: {right} x {top}");
            }
        }
    }
}

#[test]
fn papers_are_set_each_in_its_own_right() {
    let book = Fixture::sizes(9).book();
    let [a4, letter] = Paper::ALL.map(|paper| Pdf::new(&set(&book, DocKind::Booklet, paper).pdf).text());
    let words = |text: &str| {
        text.split_whitespace()
            .filter(|word| word.len() > 4 && word.chars().all(char::is_alphabetic))
            .map(str::to_string)
            .collect::<std::collections::BTreeSet<_>>()
    };
    assert_eq!(words(&a4), words(&letter), "the same words on both papers");
    assert_ne!(a4, letter, "broken into lines and pages afresh");
}

#[test]
fn every_edition_is_tagged_titled_and_complete() {
    for book in editions() {
        for kind in DocKind::ALL {
            let document = set(&book, kind, Paper::A4);
            assert_eq!(document.lints, [], "{kind:?} {}", book.edition.words);
            let pdf = Pdf::new(&document.pdf);
            assert_eq!(pdf.language().as_deref(), Some("en-GB"));
            assert!(pdf.title().unwrap().starts_with(&book.title), "{:?}", pdf.title());
            assert!(pdf.is_tagged() && pdf.shows_title());
            // ISO 14289-1, clause 5: the version identifier in the document's metadata.
            assert!(pdf.metadata().contains("<pdfuaid:part>1</pdfuaid:part>"), "{}", pdf.metadata());
            let (fonts, embedded) = pdf.fonts();
            assert!(fonts >= 2 && fonts == embedded, "{embedded} of {fonts} fonts are embedded");
            for tag in ["H1", "H2", "Table", "TH", "TD"] {
                assert!(pdf.tags(tag) > 0, "{kind:?} has no {tag}");
            }
        }
    }
}

#[test]
fn every_figure_has_words_that_stand_for_it() {
    let book = Fixture::sizes(9).book();
    let pdf = Pdf::new(&set(&book, DocKind::Booklet, Paper::A4).pdf);
    let alts = pdf.alternative_texts();
    for figure in &book.figures {
        assert!(alts.contains(&figure.alt), "{} is missing: {alts:#?}", figure.id);
    }
    assert!(alts.len() >= book.figures.len());
    assert!(alts.iter().all(|alt| !alt.is_empty()));
}

#[test]
fn bookmarks_name_chapters_and_steps() {
    let pdf = Pdf::new(&set(&Fixture::sizes(9).book(), DocKind::Booklet, Paper::A4).pdf);
    let bookmarks = pdf.bookmarks();
    for wanted in ["What you will make", "Cutting chart", "Words of the trade", "Sew the rows"] {
        assert!(bookmarks.iter().any(|name| name.contains(wanted)), "{wanted} in {bookmarks:?}");
    }
}

#[test]
fn the_same_view_gives_the_same_bytes() {
    let book = Fixture::sizes(9).book();
    for kind in DocKind::ALL {
        let one = set(&book, kind, Paper::A4);
        furbelow::set::forget(0);
        let other = std::thread::scope(|scope| scope.spawn(|| set(&book.clone(), kind, Paper::A4)).join().unwrap());
        assert!(one.pdf == other.pdf, "{kind:?}");
    }
}

#[test]
fn the_view_is_plain_data() {
    let book = Fixture::sizes(9).book();
    let again: Book = serde_json::from_str(&serde_json::to_string(&book).unwrap()).unwrap();
    assert_eq!(book, again);
}

#[test]
fn hostile_words_are_shown_as_they_stand() {
    let words = [
        "#panic()",
        "#read(\"/data/front.json\")",
        "*bold*",
        "_so_",
        "$x$",
        "<x>",
        "@ref",
        "a\\b\\n",
        "= head",
        "```",
        "//no",
    ];
    for word in words {
        let mut book = with_words(&format!("{word} is text"));
        book.title = format!("{word} skirt");
        book.edition.words = format!("{word} sizes");
        book.steps[1].title = format!("{word} step");
        book.figures[1].labels[0].text = format!("{word} label");
        book.figures[1].alt = format!("{word} alt");
        book.glossary[0].word = format!("{word} term");
        book.glance.body[0].label = format!("{word} row");
        let pdf = Pdf::new(&set(&book, DocKind::Booklet, Paper::A4).pdf);
        let text = pdf.squeezed();
        for place in ["is text", "skirt", "sizes", "step", "label", "term", "row"] {
            let wanted: String = format!("{word}{place}").split_whitespace().collect();
            assert!(text.contains(&wanted), "{wanted} in {text}");
        }
        assert!(pdf.title().unwrap().starts_with(&format!("{word} skirt")));
        assert!(pdf.alternative_texts().contains(&format!("{word} alt")));
    }
}

#[test]
fn a_missing_glyph_is_reported_with_its_page() {
    let book = with_words("the character \u{4f60} is in no typeface of ours");
    let set = typeset(&book, DocKind::Booklet, Paper::A4).unwrap();
    let lints: Vec<_> = set.lints().iter().filter(|lint| lint.kind == LintKind::MissingGlyph).collect();
    assert_eq!(lints.len(), 1, "{lints:?}");
    assert!(lints[0].message.contains("U+4F60"), "{lints:?}");
    let page = lints[0].page;
    let fault = messages(&book);
    assert!(fault.contains(&format!("page {page}:")) && fault.contains('\u{4f60}'), "{fault}");
}

#[test]
fn real_fractions_and_the_signs_of_the_trade_have_glyphs() {
    let book = with_words("½ ¼ ¾ ⅛ ⅜ ⅝ ⅞ ⅓ ⅔ 11⁄16 1\u{202f}⅜\u{a0}in × ″ ′ → ° ✂ ✓ ● “ ” ‘ ’ – — … é ß ø");
    assert_eq!(set(&book, DocKind::Booklet, Paper::A4).lints, []);
}

#[test]
fn lettering_off_the_paper_or_over_each_other_is_seen() {
    let kinds = |change: fn(&mut Book)| {
        let mut book = Fixture::sizes(9).book();
        change(&mut book);
        typeset(&book, DocKind::Booklet, Paper::A4).unwrap().lints().iter().map(|lint| lint.kind).collect::<Vec<_>>()
    };
    assert!(kinds(|book| book.figures[1].labels[0].x = 500.0).contains(&LintKind::OffPage));
    assert!(kinds(|book| book.figures[1].labels[1] = book.figures[1].labels[0].clone()).contains(&LintKind::Overlap));
    let crowded = |book: &mut Book| book.glance.body[0].cells[0] = Cell::new("1234567890123", "1");
    assert!(kinds(crowded).contains(&LintKind::Overlap));
}

#[test]
fn faults_of_the_view_are_found_before_it_is_set() {
    let fault = |change: fn(&mut Book)| {
        let mut book = Fixture::sizes(9).book();
        change(&mut book);
        messages(&book)
    };
    let link = fault(|book| {
        let run = Run::Ref { target: RefTarget::Step, id: "rowz".into(), text: String::new() };
        book.making.blocks.push(p(vec![run]));
    });
    assert!(link.contains("no step `rowz`") && link.contains("did you mean `rows`?"), "{link}");
    let cells = fault(|book| {
        book.glance.body[0].cells.pop();
    });
    assert!(cells.contains("expected 9 numbers, one a size, for `Waist`, but found 8"), "{cells}");
    assert!(fault(|book| book.figures[1].alt = " ".into()).contains("`front`"));
    assert!(fault(|book| book.figures[1].width_mm = f64::NAN).contains("`front`"));
    assert!(fault(|book| book.figures[1].id = "../front".into()).contains("`../front`"));
    assert!(fault(|book| book.figures.truncate(3)).contains("nothing called `panel`"));
    assert!(fault(|book| book.steps[1].id = "rows".into()).contains("`rows` twice"));
    assert!(fault(|book| book.accent = "crimson".into()).contains("`crimson`"));
    assert!(fault(|book| book.language = "xx".into()).contains("`xx`"));
    assert!(fault(|book| book.sizes.clear()).contains("at least one size"));
    let text = fault(|book| book.figures[1].svg = book.figures[1].svg.replace("</svg>", "<text>A</text></svg>"));
    assert!(text.contains("text in its SVG"), "{text}");
    let svg = fault(|book| book.figures[1].svg = "<svg".into());
    assert!(svg.contains("front.svg") || svg.contains("SVG"), "{svg}");
}

#[test]
fn a_single_size_has_no_strips() {
    let text = |fixture: Fixture| Pdf::new(&set(&fixture.book(), DocKind::Booklet, Paper::A4).pdf).text();
    let single = text(Fixture::single("14"));
    assert!(single.contains("Size 14") && !single.contains("one column a size"), "{single}");
    assert!(text(Fixture::sizes(9)).contains("one column"));
}

#[test]
fn one_system_of_units_is_enough() {
    let mut book = Fixture::sizes(9).book();
    let rows = book.glance.body.iter_mut().chain(&mut book.glance.finished);
    rows.flat_map(|row| &mut row.cells).for_each(|cell| cell.second.clear());
    let document = set(&book, DocKind::Booklet, Paper::A4);
    assert_eq!(document.lints, []);
    let words = "in inches and in centimetres";
    assert!(!Pdf::new(&document.pdf).text().contains(words));
    assert!(Pdf::new(&set(&Fixture::sizes(9).book(), DocKind::Booklet, Paper::A4).pdf).text().contains(words));
}

#[test]
fn wording_and_numbers_for_some_sizes_keep_to_their_columns() {
    let mut book = Fixture::sizes(9).book();
    let sizes: Vec<String> = book.sizes[6..].to_vec();
    let cells = vec![Cell::new("701", ""), Cell::new("702", ""), Cell::new("703", "")];
    let row =
        StripRow { mark: None, label: "extra".into(), unit_first: String::new(), unit_second: String::new(), cells };
    let blocks =
        vec![p(vec![Run::text("Take in "), length(2.0)]), Block::Strip { sizes: sizes.clone(), rows: vec![row] }];
    book.steps[1].parts[0].blocks.push(Block::Sizes { words: "Sizes 18 to 22".into(), sizes, blocks });
    let document = set(&book, DocKind::Booklet, Paper::A4);
    assert_eq!(document.lints, []);
    let pdf = Pdf::new(&document.pdf);
    // A column's numbers stand under its size's name: at the same place from the left.
    let lefts = |text: &str| pdf.places(text).into_iter().map(|x| x.round()).collect::<Vec<_>>();
    assert_eq!(lefts("701").len(), 1);
    let columns = pdf.places("18");
    let number = pdf.places("701")[0];
    assert!(columns.iter().any(|name| (name - number).abs() < 12.0), "701 at {number}, 18 at {columns:?}");
    assert!(pdf.text().contains("Sizes 18 to 22"));
}

#[test]
fn large_print_comes_from_the_same_source() {
    let book = Fixture::sizes(9).book();
    for paper in Paper::ALL {
        let large = set(&book, DocKind::Booklet, Setting { paper, print: Print::Large });
        assert_eq!(large.lints, []);
        assert!(large.pages > set(&book, DocKind::Booklet, paper).pages);
    }
}

#[test]
fn a_page_can_be_seen_before_it_is_written() {
    let book = Fixture::sizes(9).book();
    let png = preview(&book, DocKind::Booklet, Paper::Letter, 1, 0.5).unwrap();
    assert!(png.starts_with(b"\x89PNG\r\n\x1a\n"));
    // Width and height stand in the first chunk (W3C, PNG specification, 11.2.2 IHDR).
    let number = |at: usize| u32::from_be_bytes(png[at..at + 4].try_into().unwrap());
    assert_eq!((number(16), number(20)), (306, 396));
    for (page, scale) in [(0, 1.0), (1000, 1.0), (1, 0.0), (1, f64::NAN), (1, 1e9)] {
        assert!(preview(&book, DocKind::Booklet, Paper::Letter, page, scale).is_err(), "{page} {scale}");
    }
}
