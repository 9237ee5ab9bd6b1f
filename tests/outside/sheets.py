"""Reads lengths back from finished pattern sheets with other people's readers and holds them against the pieces.

    python tests/outside/sheets.py FOLDER

FOLDER is what a build writes: sheets-SLUG-FORMAT.pdf, and geometry/SIZE.json with the pieces. The content of every page is
walked operator by operator (pikepdf), tiles are put together by the frames printed on them, and only what lies within a frame
counts, as on paper trimmed along it. Needs pikepdf, pypdf, numpy and svgpathtools. Exits 1 where a length differs by more
than 0.1 mm.
"""

import json
import pathlib
import re
import sys

import numpy
import pikepdf
import pypdf
import svgpathtools

CLOSE = 0.1
MM = 25.4 / 72.0
# Read: ISO 216 (A4, A0); US letter 8.5 x 11 in; 36 in and 60 in are our own widths.
PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4), "a0": (841.0, 1189.0), "roll": (914.4, None), "projector": (1524.0, None)}
LONGEST = 200 * 25.4
TESTS = {"square-metric": 50.0, "square-imperial": 50.8, "long-metric": 200.0, "long-imperial": 203.2, "wide-metric": 150.0, "wide-imperial": 152.4}
PROJECTED = {"square-metric": 100.0, "square-imperial": 101.6, "long-metric": 500.0, "long-imperial": 508.0}


class Report:
    def __init__(self):
        self.checks = 0
        self.wrong = []
        self.worst = 0.0

    def near(self, what, found, expected, within=CLOSE):
        self.checks += 1
        self.worst = max(self.worst, abs(found - expected)) if abs(found - expected) <= within else self.worst
        if not abs(found - expected) <= within:
            self.wrong.append(f"{what}: read {found:.3f}, expected {expected:.3f}")

    def true(self, what, holds):
        self.checks += 1
        if not holds:
            self.wrong.append(what)


class Stroke:
    """A line as it stands on a page: subpaths of straight and curved segments, in mm from the upper left corner."""

    def __init__(self, subpaths, piece, kind, sizes):
        self.subpaths, self.piece, self.kind, self.sizes = subpaths, piece, kind, sizes

    def segments(self):
        return [segment for subpath in self.subpaths for segment in subpath]

    def length(self):
        return sum(length(segment) for segment in self.segments())

    def polylines(self):
        return [numpy.vstack([flat(segment) for segment in subpath]) for subpath in self.subpaths if subpath]

    def moved(self, by):
        return Stroke([[segment + by for segment in subpath] for subpath in self.subpaths], self.piece, self.kind, self.sizes)


def flat(segment):
    """Points of a segment no more than about half a millimetre apart."""
    if len(segment) == 2:
        return segment
    around = numpy.linalg.norm(numpy.diff(segment, axis=0), axis=1).sum()
    t = numpy.linspace(0.0, 1.0, max(8, int(around / 0.5)) + 1)[:, None]
    a, b, c, d = segment
    return a * (1 - t) ** 3 + 3 * b * t * (1 - t) ** 2 + 3 * c * t**2 * (1 - t) + d * t**3


def length(segment):
    return numpy.linalg.norm(numpy.diff(flat(segment), axis=0), axis=1).sum()


def layers(pdf):
    """The name of every layer by the object that stands for it: for a group of layers, the names of all in it."""
    def names(thing):
        if thing.get("/Type") == "/OCG":
            return {str(thing.Name)}
        return {str(group.Name) for group in thing.OCGs}
    return names


def strokes(page, names):
    """Every stroked line of a page."""
    height = float(page.mediabox[3])
    properties = page.Resources.get("/Properties", {})
    matrix, stack, marks, found = numpy.eye(3), [], [], []
    subpaths, start, at = [], None, None

    def point(x, y):
        px, py, _ = numpy.array([float(x), float(y), 1.0]) @ matrix
        return numpy.array([px * MM, (height - py) * MM])

    for operands, operator in pikepdf.parse_content_stream(page):
        op = str(operator)
        if op == "q":
            stack.append(matrix)
        elif op == "Q":
            matrix = stack.pop()
        elif op == "cm":
            a, b, c, d, e, f = (float(value) for value in operands)
            matrix = numpy.array([[a, b, 0], [c, d, 0], [e, f, 1]]) @ matrix
        elif op == "BDC":
            marks.append((str(operands[0]), operands[1]))
        elif op == "EMC":
            marks.pop()
        elif op == "m":
            start = at = point(*operands)
            subpaths.append([])
        elif op == "l":
            to = point(*operands)
            subpaths[-1].append(numpy.array([at, to]))
            at = to
        elif op == "c":
            points = [float(value) for value in operands]
            a, b, to = point(*points[:2]), point(*points[2:4]), point(*points[4:])
            subpaths[-1].append(numpy.array([at, a, b, to]))
            at = to
        elif op == "h":
            if numpy.linalg.norm(at - start) > 1e-9:
                subpaths[-1].append(numpy.array([at, start]))
            at = start
        elif op == "re":
            subpaths.append([])
        elif op in ("S", "f", "n"):
            if op == "S":
                piece = kind = None
                sizes = set()
                for tag, value in marks:
                    if tag == "/OC":
                        sizes = names(properties[value])
                    elif tag == "/Line":
                        piece, kind = str(value.Piece), str(value.Kind)[1:]
                found.append(Stroke([path for path in subpaths if path], piece, kind, sizes))
            subpaths = []
    return found


def clipped(points, frame):
    """The length and the box of what lies of a polyline within a frame (left, top, right, bottom)."""
    a, b = points[:-1], points[1:]
    d = b - a
    low, high = numpy.zeros(len(a)), numpy.ones(len(a))
    outside = numpy.zeros(len(a), dtype=bool)
    for axis in (0, 1):
        for sign, edge in ((-1, frame[axis]), (1, frame[axis + 2])):
            p, q = sign * d[:, axis], sign * (edge - a[:, axis])
            flat_there = numpy.abs(p) < 1e-12
            outside |= flat_there & (q < 0)
            with numpy.errstate(divide="ignore", invalid="ignore"):
                t = q / p
            low = numpy.where(~flat_there & (p < 0), numpy.maximum(low, t), low)
            high = numpy.where(~flat_there & (p > 0), numpy.minimum(high, t), high)
    seen = ~outside & (high > low)
    if not seen.any():
        return 0.0, None
    start, end = a[seen] + d[seen] * low[seen, None], a[seen] + d[seen] * high[seen, None]
    both = numpy.vstack([start, end])
    return numpy.linalg.norm(end - start, axis=1).sum(), numpy.concatenate([both.min(axis=0), both.max(axis=0)])


def column(letters):
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number - 1


class Assembly:
    """All tiles of a file put together by their names and frames."""

    def __init__(self):
        self.tiles = []

    def add(self, place, frame, lines):
        by = numpy.array([place[0] * frame[2] - frame[0], place[1] * frame[3] - frame[1]])
        box = (place[0] * frame[2], place[1] * frame[3], (place[0] + 1) * frame[2], (place[1] + 1) * frame[3])
        self.tiles.append((box, [line.moved(by) for line in lines]))

    def pieces(self):
        return sorted({line.piece for _, lines in self.tiles for line in lines if line.piece})

    def lines(self, piece, kinds, size):
        """Each tile's box with the lines of a piece on it that are shown with a size."""
        for box, lines in self.tiles:
            chosen = [line for line in lines if line.piece == piece and line.kind in kinds and (not line.sizes or size in line.sizes)]
            yield box, chosen

    def seen(self, piece, kinds, size):
        """The length within the frames, the box about it, and how many tiles it is on. What runs along a frame counts once."""
        total, boxes, tiles = 0.0, [], 0
        for box, lines in self.lines(piece, kinds, size):
            # Half open, so that what lies on the line between two tiles is in one of them.
            half = (box[0] - 1e-6, box[1] - 1e-6, box[2] - 1e-6, box[3] - 1e-6)
            here = 0.0
            for line in lines:
                for points in line.polylines():
                    long, about = clipped(points, half)
                    here += long
                    if about is not None:
                        boxes.append(about)
            total, tiles = total + here, tiles + (here > 0)
        boxes = numpy.array(boxes) if boxes else numpy.zeros((1, 4))
        low, high = boxes[:, :2].min(axis=0), boxes[:, 2:].max(axis=0)
        return total, high - low, tiles

    def whole(self, piece, kinds, size):
        """The lines, each once, as it stands on the first tile it is on; and how far the same line lies off on the others."""
        first, off = {}, 0.0
        for _, lines in self.lines(piece, kinds, size):
            for line in lines:
                segments = line.segments()
                # Stubs between the ends of sizes a hair apart cannot be told from each other.
                if not segments or (line.length() < 1.0 and all(len(segment) == 2 for segment in segments)):
                    continue
                # Of a piece and its sizes no two lines begin, end and measure the same to a millimetre.
                about = numpy.round(numpy.concatenate([segments[0][0], segments[-1][-1], [line.length()]]), 0)
                key = (frozenset(line.sizes), len(segments), *about)
                twin = first.setdefault(key, line)
                if twin is not line:
                    for a, b in zip(twin.segments(), segments):
                        off = max(off, float(numpy.abs(a - b).max()))
        return list(first.values()), off


def read(path, report):
    slug, form = re.fullmatch(r"sheets-(.+)-([a-z0-9]+)\.pdf", path.name).groups()
    pdf = pikepdf.open(path)
    names = layers(pdf)
    wide, high = PAPERS[form]
    assembly, tests = Assembly(), {}
    with pdf.open_outline() as outline:
        titles = [str(item.title) for item in outline.root]
    report.true(f"{path.name}: {len(titles)} names for {len(pdf.pages)} pages", len(titles) == len(pdf.pages))
    for title, page in zip(titles, pdf.pages):
        box = [float(value) for value in page.mediabox]
        report.near(f"{path.name}, {title}: width of the page", box[2] * MM, wide, 0.01)
        if high is None:
            report.true(f"{path.name}: the page is {box[3] * MM:.0f} mm long", box[3] * MM <= LONGEST)
        else:
            report.near(f"{path.name}, {title}: height of the page", box[3] * MM, high, 0.01)
        lines = strokes(page, names)
        for line in lines:
            if line.kind in TESTS:
                points = numpy.vstack(line.polylines())
                tests.setdefault(line.kind, []).append(points.max(axis=0) - points.min(axis=0))
        name = re.fullmatch(r"Sheet ([A-Z]+)(\d+)", title)
        if name:
            points = numpy.vstack(next(line for line in lines if line.kind == "frame").polylines())
            low, size = points.min(axis=0), points.max(axis=0) - points.min(axis=0)
            margins = (low[0], low[1], wide - low[0] - size[0], (high or 0) - low[1] - size[1])
            if form in ("a4", "letter"):
                report.true(f"{path.name}, {title}: margins {margins}", min(margins) >= 12.7 - 0.01)
            assembly.add((column(name[1]), int(name[2]) - 1), (*low, *size), lines)
        elif not title.startswith(("Print", "Where")):
            assembly.add((0, 0), (0.0, 0.0, box[2] * MM, box[3] * MM), lines)
    expected = PROJECTED if form == "projector" else TESTS
    for kind, side in expected.items():
        if form in ("a0", "roll") and kind.startswith("wide"):
            continue
        measured = tests.get(kind, [])
        report.true(f"{path.name}: no {kind}", len(measured) > 0)
        for extent in measured:
            report.near(f"{path.name}: {kind}", max(extent), side, 0.02)
            if kind.startswith("square"):
                report.near(f"{path.name}: {kind}, the other way", min(extent), side, 0.02)
    return slug, assembly


def check(report, path, geometry):
    slug, assembly = read(path, report)
    text = " ".join(page.extract_text() for page in pypdf.PdfReader(path).pages)
    spanning = curves = 0
    for size, pieces in geometry.items():
        if slug not in ("all", f"size-{size.lower()}"):
            continue
        layer = f"size {size}" if slug == "all" else None
        for piece in (piece for piece in pieces if piece["name"] in assembly.pieces()):
            what = f"{path.name}, {piece['name']}, size {size}"
            report.true(f"{what}: `{piece['title']}` is not in the text", " ".join(piece["title"].split()) in " ".join(text.split()))
            cut = svgpathtools.parse_path(piece["cut"] + " Z")
            seen, extent, tiles = assembly.seen(piece["name"], ("cut", "fold"), layer)
            report.near(f"{what}: length of the cut line over {tiles} tiles", seen, sum(part.length(error=1e-7) for part in cut))
            low, high = piece["cut_extent"]["min"], piece["cut_extent"]["max"]
            sides = sorted((high[0] - low[0], high[1] - low[1]))
            for found, side in zip(sorted(extent), sides):
                report.near(f"{what}: box about the cut line", found, side)
            spanning += tiles > 1
            whole, off = assembly.whole(piece["name"], ("cut", "fold"), layer)
            report.near(f"{what}: the same line on two tiles", off, 0.0)
            bent = sum(length(part) for line in whole for part in line.segments() if len(part) == 4)
            written = sum(part.length(error=1e-7) for part in cut if isinstance(part, svgpathtools.CubicBezier))
            if written:
                curves += 1
                report.near(f"{what}: curved part of the cut line", bent, written)
            seams, _ = assembly.whole(piece["name"], ("seam",), layer)
            if seams:
                found = sorted(line.length() for line in seams)
                mouths = lambda edge: sum(to - start for start, to in edge["darts"])
                sewn = [edge for edge in piece["edges"] if edge["allowance"] > 0.05 and edge["name"] != piece.get("fold")]
                wanted = sorted(edge["length"] + mouths(edge) for edge in sewn)
                report.true(f"{what}: {len(found)} seam lines for {len(wanted)}", len(found) == len(wanted))
                for read_back, edge in zip(found, wanted):
                    report.near(f"{what}: a seam line", read_back, edge)
    return spanning, curves


def main(folder):
    report = Report()
    geometry = {}
    for path in sorted((folder / "geometry").glob("*.json")):
        data = json.loads(path.read_text(encoding="utf-8"))
        if "pieces" in data:
            geometry[data["size"]] = data["pieces"]
    files = sorted(folder.glob("sheets-*.pdf"))
    spanning = curves = 0
    for path in files:
        more = check(report, path, geometry)
        spanning, curves = spanning + more[0], curves + more[1]
    for line in report.wrong[:60]:
        print(line)
    print(
        f"{folder.name}: {len(files)} files of sheets, {report.checks} checks, {len(report.wrong)} wrong; {spanning} pieces over several tiles,"
        f" {curves} curved outlines; farthest off {report.worst:.4f} mm"
    )
    return 1 if report.wrong else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1])))
