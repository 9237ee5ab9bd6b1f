//! What stands in a PDF's bytes.

use std::collections::BTreeMap;

use lopdf::content::{Content, Operation};
use lopdf::{Dictionary, Document, Object};

/// A PDF, read.
pub struct Pdf(Document);

/// A run of letters and where it begins, points from the left.
struct Letters {
    text: String,
    left: f64,
}

/// What the codes of a font stand for, from its own table.
type Codes = BTreeMap<u16, String>;

impl Pdf {
    /// Reads it.
    pub fn new(bytes: &[u8]) -> Pdf {
        Pdf(Document::load_mem(bytes).expect("a PDF"))
    }

    fn dictionaries(&self) -> impl Iterator<Item = &Dictionary> {
        self.0.objects.values().filter_map(|object| object.as_dict().ok())
    }

    fn follow<'a>(&'a self, object: &'a Object) -> &'a Object {
        self.0.dereference(object).expect("a reference that leads somewhere").1
    }

    fn string(object: &Object) -> String {
        lopdf::decode_text_string(object).expect("a text string")
    }

    /// The media box of every page, points.
    pub fn media_boxes(&self) -> Vec<[f64; 4]> {
        let page = |id: &lopdf::ObjectId| {
            let dictionary = self.0.get_dictionary(*id).expect("a page");
            let sides = self.follow(dictionary.get(b"MediaBox").expect("a media box")).as_array().expect("four sides");
            [0, 1, 2, 3].map(|at| f64::from(sides[at].as_float().expect("a number")))
        };
        self.0.get_pages().values().map(page).collect()
    }

    fn catalog(&self) -> &Dictionary {
        self.0.catalog().expect("a catalog")
    }

    /// The document's language.
    pub fn language(&self) -> Option<String> {
        self.catalog().get(b"Lang").ok().map(Pdf::string)
    }

    /// The document's title.
    pub fn title(&self) -> Option<String> {
        let info = self.follow(self.0.trailer.get(b"Info").ok()?).as_dict().ok()?;
        info.get(b"Title").ok().map(Pdf::string)
    }

    /// Whether it says that it is tagged, and has tags.
    pub fn is_tagged(&self) -> bool {
        let mark = self.catalog().get(b"MarkInfo").map(|info| self.follow(info));
        let marked = mark.ok().and_then(|info| info.as_dict().ok()).and_then(|info| info.get(b"Marked").ok());
        marked == Some(&Object::Boolean(true)) && self.catalog().has(b"StructTreeRoot")
    }

    /// Whether viewers are asked to show the title in place of the file's name.
    pub fn shows_title(&self) -> bool {
        let wishes = self.catalog().get(b"ViewerPreferences").map(|wishes| self.follow(wishes));
        let wishes = wishes.ok().and_then(|wishes| wishes.as_dict().ok());
        wishes.and_then(|wishes| wishes.get(b"DisplayDocTitle").ok()) == Some(&Object::Boolean(true))
    }

    /// The XMP metadata.
    pub fn metadata(&self) -> String {
        let stream = self.follow(self.catalog().get(b"Metadata").expect("metadata")).as_stream().expect("a stream");
        let bytes = stream.decompressed_content().unwrap_or_else(|_| stream.content.clone());
        String::from_utf8(bytes).expect("UTF-8")
    }

    /// How many fonts it describes, and how many of them it holds.
    pub fn fonts(&self) -> (usize, usize) {
        let named = |dictionary: &&Dictionary| {
            dictionary.get(b"Type").and_then(Object::as_name).is_ok_and(|name| name == b"FontDescriptor")
        };
        let fonts: Vec<_> = self.dictionaries().filter(named).collect();
        let held =
            fonts.iter().filter(|font| [&b"FontFile"[..], b"FontFile2", b"FontFile3"].iter().any(|key| font.has(key)));
        (fonts.len(), held.count())
    }

    fn elements(&self, tag: &str) -> Vec<&Dictionary> {
        let named = |dictionary: &&Dictionary| {
            dictionary.get(b"S").and_then(Object::as_name).is_ok_and(|name| name == tag.as_bytes())
        };
        self.dictionaries().filter(|dictionary| dictionary.has(b"P")).filter(named).collect()
    }

    /// How many elements of a kind the structure has.
    pub fn tags(&self, tag: &str) -> usize {
        self.elements(tag).len()
    }

    /// The alternative text of every figure; an empty one where there is none.
    pub fn alternative_texts(&self) -> Vec<String> {
        self.elements("Figure").iter().map(|figure| figure.get(b"Alt").map(Pdf::string).unwrap_or_default()).collect()
    }

    /// The titles of all bookmarks.
    pub fn bookmarks(&self) -> Vec<String> {
        let bookmark = |dictionary: &&Dictionary| dictionary.has(b"Title") && dictionary.has(b"Parent");
        self.dictionaries().filter(bookmark).map(|mark| Pdf::string(mark.get(b"Title").expect("a title"))).collect()
    }

    /// All letters of all pages in the order they are written, without the spaces: lines may be
    /// broken anywhere.
    pub fn squeezed(&self) -> String {
        self.letters().iter().flat_map(|letters| letters.text.chars()).filter(|c| !c.is_whitespace()).collect()
    }

    /// All letters, one run a line.
    pub fn text(&self) -> String {
        self.letters().iter().map(|letters| format!("{}\n", letters.text)).collect()
    }

    /// Where runs of exactly these letters begin, points from the left.
    pub fn places(&self, text: &str) -> Vec<f64> {
        self.letters().iter().filter(|letters| letters.text == text).map(|letters| letters.left).collect()
    }

    fn letters(&self) -> Vec<Letters> {
        self.0.get_pages().values().flat_map(|page| self.letters_of(*page)).collect()
    }

    fn letters_of(&self, page: lopdf::ObjectId) -> Vec<Letters> {
        let fonts = self.0.get_page_fonts(page).expect("fonts");
        let codes: BTreeMap<Vec<u8>, Codes> =
            fonts.iter().map(|(name, font)| (name.clone(), self.codes(font))).collect();
        let content = Content::decode(&self.0.get_page_content(page)).expect("operations");
        let mut reader =
            Reader { codes, font: Vec::new(), matrix: IDENTITY, kept: Vec::new(), instead: None, found: Vec::new() };
        content.operations.iter().for_each(|operation| reader.take(operation));
        reader.found
    }

    fn codes(&self, font: &Dictionary) -> Codes {
        let Ok(table) = font.get(b"ToUnicode") else { return Codes::new() };
        let stream = self.follow(table).as_stream().expect("a table of codes");
        let bytes = stream.decompressed_content().unwrap_or_else(|_| stream.content.clone());
        let text = String::from_utf8(bytes).expect("an ASCII table");
        let mut codes = Codes::new();
        for part in text.split("beginbfchar").skip(1) {
            let part = part.split("endbfchar").next().unwrap_or_default();
            for line in part.lines() {
                let mut hex = line.split(['<', '>']).filter(|piece| !piece.trim().is_empty());
                if let (Some(code), Some(letters)) = (hex.next(), hex.next()) {
                    codes.insert(u16::from_str_radix(code, 16).expect("a code"), utf16(letters));
                }
            }
        }
        assert!(!text.contains("beginbfrange"), "ranges are not read here");
        codes
    }
}

const IDENTITY: [f64; 6] = [1.0, 0.0, 0.0, 1.0, 0.0, 0.0];

/// UTF-16 in hexadecimal digits.
fn utf16(hex: &str) -> String {
    let units: Vec<u16> = hex
        .as_bytes()
        .chunks(4)
        .map(|four| u16::from_str_radix(std::str::from_utf8(four).expect("ASCII"), 16).expect("hexadecimal"))
        .collect();
    String::from_utf16(&units).expect("UTF-16")
}

/// Follows the operations of one page.
struct Reader {
    codes: BTreeMap<Vec<u8>, Codes>,
    font: Vec<u8>,
    matrix: [f64; 6],
    kept: Vec<[f64; 6]>,
    instead: Option<String>,
    found: Vec<Letters>,
}

impl Reader {
    fn take(&mut self, operation: &Operation) {
        let operands = &operation.operands;
        match operation.operator.as_str() {
            "q" => self.kept.push(self.matrix),
            "Q" => self.matrix = self.kept.pop().expect("a state to go back to"),
            "cm" => {
                let n: Vec<f64> = operands.iter().map(|n| f64::from(n.as_float().expect("a number"))).collect();
                let m = self.matrix;
                self.matrix = [
                    n[0] * m[0] + n[1] * m[2],
                    n[0] * m[1] + n[1] * m[3],
                    n[2] * m[0] + n[3] * m[2],
                    n[2] * m[1] + n[3] * m[3],
                    n[4] * m[0] + n[5] * m[2] + m[4],
                    n[4] * m[1] + n[5] * m[3] + m[5],
                ];
            }
            "BDC" => {
                let actual = operands.get(1).and_then(|o| o.as_dict().ok()).and_then(|d| d.get(b"ActualText").ok());
                if let Some(actual) = actual {
                    self.instead = Some(Pdf::string(actual));
                }
            }
            "BT" => self.found.push(Letters { text: String::new(), left: self.matrix[4] }),
            "Tf" => self.font = operands[0].as_name().expect("a font").to_vec(),
            "Tj" => self.show(&operands[0]),
            "TJ" => operands[0].as_array().expect("letters and gaps").iter().for_each(|piece| self.show(piece)),
            "EMC" => {
                if let (Some(actual), Some(last)) = (self.instead.take(), self.found.last_mut()) {
                    last.text.push_str(&actual);
                }
            }
            _ => {}
        }
    }

    fn show(&mut self, piece: &Object) {
        // Inside a span with an actual text that text stands for the letters.
        if self.instead.is_some() {
            return;
        }
        let Ok(bytes) = piece.as_str() else { return };
        let codes = self.codes.get(&self.font).expect("a font of the page");
        let letters = bytes.chunks(2).filter_map(|two| codes.get(&u16::from_be_bytes([two[0], *two.get(1)?])));
        let text: String = letters.map(String::as_str).collect();
        self.found.last_mut().expect("an open text").text.push_str(&text);
    }
}
