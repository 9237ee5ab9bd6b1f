//! What each page shows, as a digest: two pages with the same digest need not be printed twice.

use sha2::{Digest, Sha256};
use typst::layout::{Frame, FrameItem, Transform};
use typst::text::TextItem;
use typst::utils::hash128;
use typst::visualize::{Image, ImageKind};
use typst_layout::{Page, PagedDocument};

use super::paper::Paper;

/// A digest for each page of what stands between head and foot, as printed: letters, lines, pictures and their places.
pub(super) fn digests(document: &PagedDocument, paper: Paper) -> Vec<String> {
    let [top, _, bottom, _] = paper.margins_mm();
    document.pages().iter().map(|page| digest(page, top, bottom)).collect()
}

fn digest(page: &Page, top: f64, bottom: f64) -> String {
    let mut seen = Seen(Sha256::new());
    let height = page.frame.height().to_mm();
    for (at, item) in page.frame.items() {
        // Head and foot are whole groups within the margins.
        let tall = match item {
            FrameItem::Group(group) => group.frame.height().to_mm(),
            _ => 0.0,
        };
        let outside = at.y.to_mm() + tall <= top || at.y.to_mm() >= height - bottom;
        if !outside {
            seen.item(item, Transform::translate(at.x, at.y));
        }
    }
    seen.0.finalize().iter().take(12).map(|byte| format!("{byte:02x}")).collect()
}

struct Seen(Sha256);

impl Seen {
    fn put(&mut self, kind: &str, bytes: &[u8]) {
        self.0.update(kind.as_bytes());
        self.0.update((bytes.len() as u64).to_le_bytes());
        self.0.update(bytes);
    }

    /// Places to a thousandth of a point.
    fn place(&mut self, transform: Transform) {
        let Transform { sx, ky, kx, sy, tx, ty } = transform;
        for number in [sx.get(), ky.get(), kx.get(), sy.get(), tx.to_pt(), ty.to_pt()] {
            #[allow(clippy::cast_possible_truncation)]
            self.put("at", &((number * 1000.0).round() as i64).to_le_bytes());
        }
    }

    fn frame(&mut self, frame: &Frame, transform: Transform) {
        for (at, item) in frame.items() {
            self.item(item, transform.pre_concat(Transform::translate(at.x, at.y)));
        }
    }

    fn item(&mut self, item: &FrameItem, here: Transform) {
        match item {
            FrameItem::Group(group) => {
                if let Some(clip) = &group.clip {
                    self.put("clip", &hash128(clip).to_le_bytes());
                }
                self.frame(&group.frame, here.pre_concat(group.transform));
            }
            FrameItem::Text(text) => {
                self.place(here);
                self.text(text);
            }
            FrameItem::Shape(shape, _) => {
                self.place(here);
                self.put("shape", &hash128(shape).to_le_bytes());
            }
            FrameItem::Image(image, size, _) => {
                self.place(here);
                self.place(here.pre_concat(Transform::translate(size.x, size.y)));
                self.image(image);
            }
            FrameItem::Link(..) | FrameItem::Tag(_) => {}
        }
    }

    fn text(&mut self, text: &TextItem) {
        self.put("family", text.font.info().family.as_bytes());
        self.put("face", &hash128(&text.font.info().variant).to_le_bytes());
        self.put("size", &text.size.to_pt().to_le_bytes());
        self.put("fill", &hash128(&text.fill).to_le_bytes());
        self.put("words", text.text.as_bytes());
        for glyph in &text.glyphs {
            self.put("glyph", &glyph.id.to_le_bytes());
        }
    }

    fn image(&mut self, image: &Image) {
        match image.kind() {
            ImageKind::Raster(raster) => self.put("raster", raster.data()),
            ImageKind::Svg(svg) => self.put("svg", svg.data()),
            ImageKind::Pdf(_) => self.put("pdf", &hash128(image).to_le_bytes()),
        }
    }
}
