//! Pages written as PDF (ISO 32000-1): exact boxes, curves as curves, words that can be searched, a layer for each size.
//!
//! The content of a page is in millimetres, y down, under one matrix. The same document gives the same bytes: no dates,
//! no random names, objects in a fixed order.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use kurbo::{BezPath, PathEl, Point, QuadBez};
use pdf_writer::types::{CidFontType, FontFlags, LineCapStyle, LineJoinStyle, SystemInfo, UnicodeCmap};
use pdf_writer::{Content, Filter, Finish, Name, Pdf, Rect, Ref, Str, TextStr};
use sha2::{Digest, Sha256};
use subsetter::GlyphRemapper;

use super::face::Face;
use super::page::{Document, Item, Page, Pen, Sizes, Tag};

/// Points a millimetre.
const POINTS: f64 = 72.0 / 25.4;
/// The character collection of fonts whose codes are glyph numbers.
const IDENTITY: SystemInfo<'static> = SystemInfo { registry: Str(b"Adobe"), ordering: Str(b"Identity"), supplement: 0 };

/// Hands out object numbers.
struct Numbers(i32);

impl Numbers {
    fn next(&mut self) -> Ref {
        self.0 += 1;
        Ref::new(self.0)
    }
}

/// The glyphs used of a typeface, in the numbers of its subset, with the characters they stand for.
#[derive(Default)]
struct Used {
    remapper: BTreeMap<Face, GlyphRemapper>,
    chars: BTreeMap<Face, BTreeMap<u16, char>>,
}

impl Used {
    /// The codes of a text in the subset font.
    fn codes(&mut self, face: Face, text: &str) -> Vec<u8> {
        let remapper = self.remapper.entry(face).or_default();
        let chars = self.chars.entry(face).or_default();
        let mut codes = Vec::with_capacity(text.len() * 2);
        for c in text.chars() {
            let code = remapper.remap(face.glyph(c));
            chars.entry(code).or_insert(c);
            codes.extend(code.to_be_bytes());
        }
        codes
    }
}

/// The bytes of a document.
#[must_use]
pub fn pdf(document: &Document) -> Vec<u8> {
    let mut pdf = Pdf::new();
    let mut numbers = Numbers(0);
    let (catalog, tree, info) = (numbers.next(), numbers.next(), numbers.next());
    let layers = Layers::new(document, &mut numbers);
    let mut used = Used::default();
    let pages: Vec<(Ref, Ref)> = document.pages.iter().map(|_| (numbers.next(), numbers.next())).collect();
    let streams: Vec<Vec<u8>> = document.pages.iter().map(|page| content(page, &layers, &mut used)).collect();
    let fonts: Vec<(Face, Ref)> = used.remapper.keys().map(|face| (*face, numbers.next())).collect();
    for ((page, (id, stream)), bytes) in document.pages.iter().zip(&pages).zip(&streams) {
        let mut writer = pdf.page(*id);
        writer.parent(tree).media_box(Rect::new(0.0, 0.0, points(page.width), points(page.height))).contents(*stream);
        let mut resources = writer.resources();
        let mut list = resources.fonts();
        for (face, font) in &fonts {
            list.pair(Name(face.name().as_bytes()), *font);
        }
        list.finish();
        layers.resources(&mut resources);
        resources.finish();
        writer.finish();
        let packed = packed(bytes);
        pdf.stream(*stream, &packed).filter(Filter::FlateDecode);
    }
    for (face, font) in &fonts {
        write_font(&mut pdf, &mut numbers, *face, *font, &used);
    }
    layers.write(&mut pdf, document);
    let outline = outline(&mut pdf, &mut numbers, document, &pages);
    let mut root = pdf.catalog(catalog);
    root.pages(tree).outlines(outline).lang(TextStr("en"));
    layers.catalog(&mut root);
    root.viewer_preferences().display_doc_title(true).pair(Name(b"PrintScaling"), Name(b"None"));
    root.finish();
    pdf.pages(tree).kids(pages.iter().map(|(id, _)| *id)).count(i32::try_from(pages.len()).unwrap_or(i32::MAX));
    pdf.document_info(info)
        .title(TextStr(&document.title))
        .subject(TextStr(&document.edition))
        .creator(TextStr("furbelow"));
    let mut digest = Sha256::new();
    digest.update(document.title.as_bytes());
    streams.iter().for_each(|bytes| digest.update(bytes));
    let id = digest.finalize()[..16].to_vec();
    pdf.set_file_id((id.clone(), id));
    pdf.finish()
}

/// The list of pages a viewer shows beside them.
fn outline(pdf: &mut Pdf, numbers: &mut Numbers, document: &Document, pages: &[(Ref, Ref)]) -> Ref {
    let root = numbers.next();
    let items: Vec<Ref> = pages.iter().map(|_| numbers.next()).collect();
    let mut writer = pdf.outline(root);
    if let (Some(first), Some(last)) = (items.first(), items.last()) {
        writer.first(*first).last(*last).count(i32::try_from(items.len()).unwrap_or(i32::MAX));
    }
    writer.finish();
    for (index, (page, (target, _))) in document.pages.iter().zip(pages).enumerate() {
        let mut item = pdf.outline_item(items[index]);
        item.parent(root).title(TextStr(&page.name));
        if let Some(next) = items.get(index + 1) {
            item.next(*next);
        }
        if let Some(before) = index.checked_sub(1).and_then(|before| items.get(before)) {
            item.prev(*before);
        }
        item.dest().page(*target).fit();
    }
    root
}

fn packed(bytes: &[u8]) -> Vec<u8> {
    use std::io::Write;
    let mut encoder = flate2::write::ZlibEncoder::new(Vec::new(), flate2::Compression::new(6));
    // Writing into memory does not fail.
    let _ = encoder.write_all(bytes);
    encoder.finish().unwrap_or_default()
}

#[allow(clippy::cast_possible_truncation)]
fn points(mm: f64) -> f32 {
    (mm * POINTS) as f32
}

/// A coordinate to the nearest ten-thousandth of a millimetre.
#[allow(clippy::cast_possible_truncation)]
fn mm(value: f64) -> f32 {
    ((value * 1e4).round() / 1e4) as f32
}

/// The layers of a file: one for each size, and for lines that several sizes share a group shown with any of them
/// (ISO 32000-1, section 8.11).
struct Layers {
    sizes: Vec<Ref>,
    shared: BTreeMap<Sizes, Ref>,
}

impl Layers {
    fn new(document: &Document, numbers: &mut Numbers) -> Layers {
        let mut layers = Layers { sizes: Vec::new(), shared: BTreeMap::new() };
        if document.sizes.len() < 2 {
            return layers;
        }
        layers.sizes = document.sizes.iter().map(|_| numbers.next()).collect();
        let mut sets = BTreeSet::new();
        document.pages.iter().for_each(|page| collect(&page.items, &mut sets));
        layers.shared = sets.into_iter().filter(|set| set.len() > 1).map(|set| (set, numbers.next())).collect();
        layers
    }

    /// The name of the layer in the resources of a page; none for what is always shown.
    fn name(&self, sizes: Sizes) -> Option<String> {
        if self.sizes.is_empty() {
            return None;
        }
        match (sizes.len(), sizes.first()) {
            (1, Some(index)) => Some(format!("S{index}")),
            (2.., _) => self.shared.keys().position(|set| *set == sizes).map(|at| format!("M{at}")),
            _ => None,
        }
    }

    fn resources(&self, resources: &mut pdf_writer::writers::Resources<'_>) {
        if self.sizes.is_empty() {
            return;
        }
        let mut properties = resources.insert(Name(b"Properties")).dict();
        for (index, id) in self.sizes.iter().enumerate() {
            properties.pair(Name(format!("S{index}").as_bytes()), *id);
        }
        for (index, id) in self.shared.values().enumerate() {
            properties.pair(Name(format!("M{index}").as_bytes()), *id);
        }
    }

    fn write(&self, pdf: &mut Pdf, document: &Document) {
        for (id, name) in self.sizes.iter().zip(&document.sizes) {
            let mut group = pdf.indirect(*id).dict();
            group.pair(Name(b"Type"), Name(b"OCG")).pair(Name(b"Name"), TextStr(&format!("size {name}")));
        }
        for (set, id) in &self.shared {
            let mut group = pdf.indirect(*id).dict();
            group.pair(Name(b"Type"), Name(b"OCMD")).pair(Name(b"P"), Name(b"AnyOn"));
            let members: Vec<Ref> = set.iter().filter_map(|index| self.sizes.get(index).copied()).collect();
            group.insert(Name(b"OCGs")).array().items(members);
        }
    }

    fn catalog(&self, root: &mut pdf_writer::writers::Catalog<'_>) {
        if self.sizes.is_empty() {
            return;
        }
        let mut properties = root.insert(Name(b"OCProperties")).dict();
        properties.insert(Name(b"OCGs")).array().items(self.sizes.iter().copied());
        let mut usual = properties.insert(Name(b"D")).dict();
        usual.pair(Name(b"Name"), TextStr("Sizes")).pair(Name(b"BaseState"), Name(b"ON"));
        usual.insert(Name(b"Order")).array().items(self.sizes.iter().copied());
    }
}

fn collect(items: &[Item], sets: &mut BTreeSet<Sizes>) {
    for item in items {
        match item {
            Item::Window { items, .. } => collect(items, sets),
            other => {
                sets.insert(other.sizes());
            }
        }
    }
}

fn content(page: &Page, layers: &Layers, used: &mut Used) -> Vec<u8> {
    let mut content = Content::new();
    let k = points(1.0);
    content.transform([k, 0.0, 0.0, -k, 0.0, points(page.height)]);
    content.set_line_cap(LineCapStyle::ButtCap).set_line_join(LineJoinStyle::RoundJoin);
    write_items(&mut content, &page.items, layers, used);
    content.finish().into_vec()
}

/// What is set in the content so far.
struct State {
    layer: Option<String>,
    tag: Option<Arc<Tag>>,
    pen: Option<Pen>,
    fill: Option<f64>,
}

impl State {
    /// Closes and opens layers and tags as this item needs. The tag lies inside the layer.
    fn enter(&mut self, content: &mut Content, layer: Option<String>, tag: Option<&Arc<Tag>>) {
        if self.layer == layer && self.tag.as_ref() == tag {
            return;
        }
        if self.tag.take().is_some() {
            content.end_marked_content();
        }
        if self.layer != layer {
            if self.layer.is_some() {
                content.end_marked_content();
            }
            if let Some(name) = &layer {
                content.begin_marked_content_with_properties(Name(b"OC")).properties_named(Name(name.as_bytes()));
            }
            self.layer = layer;
        }
        if let Some(tag) = tag {
            let mut marked = content.begin_marked_content_with_properties(Name(b"Line"));
            let mut properties = marked.properties();
            properties.pair(Name(b"Piece"), Str(tag.piece.as_bytes())).pair(Name(b"Kind"), Name(tag.kind.as_bytes()));
            self.tag = Some(Arc::clone(tag));
        }
    }

    fn fill(&mut self, content: &mut Content, grey: f64) {
        if self.fill != Some(grey) {
            content.set_fill_gray(mm(grey));
            self.fill = Some(grey);
        }
    }

    fn pen(&mut self, content: &mut Content, pen: Pen) {
        if self.pen != Some(pen) {
            content.set_line_width(mm(pen.width)).set_stroke_gray(mm(pen.grey));
            content.set_dash_pattern(pen.dash.iter().map(|part| mm(*part)), 0.0);
            self.pen = Some(pen);
        }
    }
}

fn write_items(content: &mut Content, items: &[Item], layers: &Layers, used: &mut Used) {
    let mut state = State { layer: None, tag: None, pen: None, fill: None };
    for item in items {
        let tag = if let Item::Stroke { tag, .. } = item { tag.as_ref() } else { None };
        state.enter(content, layers.name(item.sizes()), tag);
        match item {
            Item::Stroke { path, pen, .. } => {
                state.pen(content, *pen);
                trace(content, path);
                content.stroke();
            }
            Item::Fill { path, grey, .. } => {
                state.fill(content, *grey);
                trace(content, path);
                content.fill_nonzero();
            }
            Item::Text { at, text, face, em, grey, .. } => {
                state.fill(content, *grey);
                content.begin_text().set_font(Name(face.name().as_bytes()), mm(*em));
                content.set_text_matrix([1.0, 0.0, 0.0, -1.0, mm(at.x), mm(at.y)]);
                content.show(Str(&used.codes(*face, text))).end_text();
            }
            Item::Window { clip, by, items } => {
                content.save_state();
                content.rect(mm(clip.x0 + by.x), mm(clip.y0 + by.y), mm(clip.width()), mm(clip.height()));
                content.clip_nonzero().end_path();
                content.transform([1.0, 0.0, 0.0, 1.0, mm(by.x), mm(by.y)]);
                write_items(content, items, layers, used);
                content.restore_state();
            }
        }
    }
    state.enter(content, None, None);
}

fn trace(content: &mut Content, path: &BezPath) {
    let mut at = Point::ZERO;
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(p) => content.move_to(mm(p.x), mm(p.y)),
            PathEl::LineTo(p) => content.line_to(mm(p.x), mm(p.y)),
            PathEl::QuadTo(a, p) => {
                let cubic = QuadBez::new(at, a, p).raise();
                content.cubic_to(mm(cubic.p1.x), mm(cubic.p1.y), mm(cubic.p2.x), mm(cubic.p2.y), mm(p.x), mm(p.y))
            }
            PathEl::CurveTo(a, b, p) => content.cubic_to(mm(a.x), mm(a.y), mm(b.x), mm(b.y), mm(p.x), mm(p.y)),
            PathEl::ClosePath => content.close_path(),
        };
        at = element.end_point().unwrap_or(at);
    }
}

#[allow(clippy::cast_possible_truncation)]
fn write_font(pdf: &mut Pdf, numbers: &mut Numbers, face: Face, id: Ref, used: &Used) {
    let (Some(remapper), Some(chars)) = (used.remapper.get(&face), used.chars.get(&face)) else { return };
    let Some(font) = face.font() else { return };
    let Ok(subset) = subsetter::subset(face.file(), 0, remapper) else { return };
    let (cid, descriptor, cmap, file) = (numbers.next(), numbers.next(), numbers.next(), numbers.next());
    // Six letters that tell subsets apart (ISO 32000-1, section 9.6.4), from what is in this one.
    let digest = Sha256::digest(&subset);
    let letters: String = digest.iter().take(6).map(|byte| char::from(b'A' + byte % 26)).collect();
    let name = format!("{letters}+{}", face.name());
    let base = Name(name.as_bytes());
    pdf.type0_font(id).base_font(base).encoding_predefined(Name(b"Identity-H")).descendant_font(cid).to_unicode(cmap);
    let mut writer = pdf.cid_font(cid);
    writer.subtype(CidFontType::Type2).base_font(base).system_info(IDENTITY).font_descriptor(descriptor);
    writer.default_width(0.0).cid_to_gid_map_predefined(Name(b"Identity"));
    let widths: Vec<f32> = remapper.remapped_gids().map(|old| (face.advance(old) * 1000.0) as f32).collect();
    writer.widths().consecutive(0, widths);
    writer.finish();
    let scale = 1000.0 / f32::from(font.units_per_em());
    let b = font.global_bounding_box();
    let bbox = [b.x_min, b.y_min, b.x_max, b.y_max].map(|value| f32::from(value) * scale);
    pdf.font_descriptor(descriptor)
        .name(base)
        .flags(FontFlags::SYMBOLIC)
        .bbox(Rect::new(bbox[0], bbox[1], bbox[2], bbox[3]))
        .italic_angle(0.0)
        .ascent(f32::from(font.ascender()) * scale)
        .descent(f32::from(font.descender()) * scale)
        .cap_height(f32::from(font.capital_height().unwrap_or(714)) * scale)
        .stem_v(if face == Face::Bold { 140.0 } else { 80.0 })
        .font_file2(file);
    let mut map = UnicodeCmap::new(Name(b"Characters"), IDENTITY);
    for (code, c) in chars {
        map.pair(*code, *c);
    }
    let map = packed(map.finish().as_slice());
    pdf.stream(cmap, &map).filter(Filter::FlateDecode);
    let bytes = packed(&subset);
    let length = i32::try_from(subset.len()).unwrap_or(i32::MAX);
    pdf.stream(file, &bytes).filter(Filter::FlateDecode).pair(Name(b"Length1"), length);
}
