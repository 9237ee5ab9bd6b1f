"""Reads the finished documents with independent readers.

PDF/UA-1 with `pdfua` (the machine-checkable part of ISO 14289-1), page sizes, fonts, title and language with `pypdf`.
Page sizes: ISO 216, A4 210 x 297 mm; US letter 8.5 x 11 in.

Usage: documents.py FOLDER, the output folder of a build.
"""

import json
import pathlib
import sys

import pdfua
import pypdf

SIZES = {"a4": (210 / 25.4 * 72, 297 / 25.4 * 72), "letter": (8.5 * 72, 11 * 72)}


def fonts(page):
    """The font dictionaries of a page, composite fonts by their descendants."""
    resources = page.get("/Resources", {})
    for font in (resources.get("/Font") or {}).values():
        font = font.get_object()
        for inner in font.get("/DescendantFonts", [font]):
            yield inner.get_object()


def check(path):
    wrong = []
    report = pdfua.validate(str(path))
    for finding in report.findings:
        if finding.severity.name == "ERROR":
            wrong.append(f"{finding.rule_id}: {finding.message}")
    reader = pypdf.PdfReader(str(path))
    paper = path.stem.rsplit("-", 1)[-1]
    width, height = SIZES[paper]
    for number, page in enumerate(reader.pages, 1):
        box = page.mediabox
        if abs(float(box.width) - width) > 0.01 or abs(float(box.height) - height) > 0.01:
            wrong.append(f"page {number}: {box.width} x {box.height} pt, expected {width:.3f} x {height:.3f}")
        for font in fonts(page):
            descriptor = font.get("/FontDescriptor")
            embedded = descriptor and any(key in descriptor.get_object() for key in ("/FontFile", "/FontFile2", "/FontFile3"))
            if not embedded:
                wrong.append(f"page {number}: the font {font.get('/BaseFont')} is not embedded")
        if not (page.extract_text() or "").strip():
            wrong.append(f"page {number} has no text")
    root = reader.trailer["/Root"]
    if not root.get("/Lang"):
        wrong.append("no language")
    if not (reader.metadata and reader.metadata.title):
        wrong.append("no title")
    if not root.get("/MarkInfo", {}).get("/Marked"):
        wrong.append("not tagged")
    return wrong, len(reader.pages)


def main(folder):
    manifests = sorted(pathlib.Path(folder).glob("*/manifest.json"))
    if not manifests:
        sys.exit(f"no garment was built in {folder}")
    failed = documents = pages = 0
    for manifest in manifests:
        listed = json.loads(manifest.read_text(encoding="utf-8"))["files"]
        for entry in listed:
            path = manifest.parent / entry["path"]
            if path.stat().st_size != entry["bytes"]:
                failed += 1
                print(f"{path}: not as long as the manifest says")
            # Pattern sheets are drawings with layers, not text to be read aloud: sheets.py reads them.
            if path.suffix != ".pdf" or path.name.startswith("sheets-"):
                continue
            wrong, count = check(path)
            documents += 1
            pages += count
            if wrong:
                failed += 1
                print(f"{path}:")
                for line in wrong[:20]:
                    print(f"  {line}")
    print(f"{documents} documents, {pages} pages, {failed} with faults")
    if failed or not documents:
        sys.exit(1)


if __name__ == "__main__":
    main(sys.argv[1])
