"""Reads exported pieces back with other people's readers and holds them against the exported numbers.

    python tests/outside/geometry.py FOLDER

FOLDER holds, for each size, SIZE.json and SIZE.dxf, and PIECE-SIZE.svg for each piece. Needs ezdxf, svgpathtools and
shapely. Exits 1 where anything differs by more than 0.05 mm, or is not a valid shape.
"""

import json
import pathlib
import sys

import ezdxf
import numpy
import svgpathtools
from shapely.geometry import LineString, Point, Polygon

CLOSE = 0.05
LAYERS = {"cut": "1", "notch": "4", "fold": "6", "grain": "7", "within": "8", "drill": "13", "seam": "14"}


class Report:
    def __init__(self):
        self.checks = 0
        self.wrong = []

    def near(self, what, found, expected, within=CLOSE):
        self.checks += 1
        if not abs(found - expected) <= within:
            self.wrong.append(f"{what}: read {found:.4f}, written {expected:.4f}")

    def true(self, what, holds):
        self.checks += 1
        if not holds:
            self.wrong.append(what)


def flat(path, finest=0.02):
    """The corners of an svgpathtools path, close enough that an area is good to a few square millimetres."""
    points = []
    for segment in path:
        if isinstance(segment, svgpathtools.Line):
            steps = numpy.array([0.0, 1.0])
        else:
            count = max(8, int(segment.length(error=1e-6) / 2.0 / max(finest, 1e-3) ** 0.5))
            steps = numpy.linspace(0.0, 1.0, min(count, 400))
        between = list(segment.poly()(steps[1:-1]))
        points.extend([segment.start, *between, segment.end])
    return [(p.real, p.imag) for p in points]


def length(path):
    return sum(segment.length(error=1e-7) for segment in path)


def check_svg(report, folder, size, piece):
    name = piece["name"]
    paths, attributes = svgpathtools.svg2paths(str(folder / f"{name}-{size}.svg"))
    found = {}
    for path, attribute in zip(paths, attributes):
        found.setdefault(attribute["class"], []).append((attribute.get("data-name", ""), path))
    what = f"{name}, size {size}, SVG"
    cut = found["cut"][0][1]
    report.true(f"{what}: the cut line is not closed", cut.isclosed())
    x0, x1, y0, y1 = cut.bbox()
    (left, top), (right, bottom) = piece["cut_extent"]["min"], piece["cut_extent"]["max"]
    for side, read, written in (("left", x0, left), ("right", x1, right), ("top", y0, top), ("bottom", y1, bottom)):
        report.near(f"{what}: {side} of the cut line", read, written)
    outline = Polygon(flat(cut))
    report.true(f"{what}: the cut line is not a valid shape", outline.is_valid)
    report.near(f"{what}: area of the cut line", outline.area, piece["cut_area"], max(1.0, piece["cut_area"] * 2e-5))
    lines = dict(found.get("seam", []) + found.get("fold", []))
    corners = []
    for edge in piece["edges"]:
        line = lines[edge["name"]]
        mouths = sum(to - start for start, to in edge["darts"])
        report.near(f"{what}: length of {edge['name']}", length(line), edge["length"] + mouths)
        corners.extend(flat(line))
    seam = Polygon(corners)
    report.true(f"{what}: the seam line is not a valid shape", seam.is_valid)
    report.near(f"{what}: area of the seam line", seam.area, piece["area"], max(1.0, piece["area"] * 2e-5))
    report.true(f"{what}: the seam line leaves the cut line", outline.buffer(CLOSE).contains(seam))
    if not piece["trimmed"]:
        check_allowances(report, what, piece, lines, outline)
    for notch in piece["notches"]:
        gap = outline.exterior.distance(Point(notch["cut"]))
        report.near(f"{what}: notch on {notch['edge']} off the cut line", gap, 0.0, 0.2)


def half_way(line, middle):
    """The segment that holds a length along a line, and the place on it: the library's own sum can end a hair short."""
    for part in line:
        length = part.length()
        if middle < length * (1 - 1e-9):
            return part, part.ilength(middle, s_tol=1e-6)
        middle = max(middle - length, 0.0)
    return line[-1], 1.0


def check_allowances(report, what, piece, lines, outline):
    """The allowance measured square from the middle of each edge, unless the middle lies in a dart's mouth."""
    for edge in piece["edges"]:
        line = lines[edge["name"]]
        middle = line.length() / 2.0
        if any(start - 60 < middle < to + 60 for start, to in edge["darts"]):
            continue
        part, t = half_way(line, middle)
        at, out = part.point(t), part.unit_tangent(t) * -1j
        ray = LineString([(at.real, at.imag), ((at + out * 600).real, (at + out * 600).imag)])
        hit = ray.intersection(outline.exterior)
        gap = Point(at.real, at.imag).distance(hit) if not hit.is_empty else 0.0
        report.near(f"{what}: allowance of {edge['name']}", gap, edge["allowance"])


def polyline_length(entity):
    points = [vertex.dxf.location for vertex in entity.vertices]
    if entity.is_closed:
        points.append(points[0])
    return sum(a.distance(b) for a, b in zip(points, points[1:]))


def check_dxf(report, folder, size, pieces):
    drawing = ezdxf.readfile(str(folder / f"{size}.dxf"))
    report.true(f"size {size}: {len(drawing.audit().errors)} errors in the DXF", not drawing.audit().errors)
    report.true(f"size {size}: the DXF is not in millimetres", drawing.units == ezdxf.units.MM)
    for piece in pieces:
        what = f"{piece['name']}, size {size}, DXF"
        block = drawing.blocks.get(f"{piece['name']}-{''.join(c if c.isalnum() else '_' for c in size)}")
        report.true(f"{what}: no block", block is not None)
        if block is None:
            continue
        cut = [entity for entity in block.query("POLYLINE") if entity.dxf.layer == LAYERS["cut"]]
        report.true(f"{what}: expected one closed cut line", len(cut) == 1 and cut[0].is_closed)
        outline = Polygon([(v.dxf.location.x, v.dxf.location.y) for v in cut[0].vertices])
        report.true(f"{what}: the cut line is not a valid shape", outline.is_valid)
        x0, y0, x1, y1 = outline.bounds
        (left, top), (right, bottom) = piece["cut_extent"]["min"], piece["cut_extent"]["max"]
        for side, read, written in (("left", x0, left), ("right", x1, right), ("top", y1, -top), ("bottom", y0, -bottom)):
            report.near(f"{what}: {side} of the cut line", read, written)
        around = cut[0] and polyline_length(cut[0])
        # A polyline within 0.01 mm of a curve: its area is short by that much along its length at most.
        report.near(f"{what}: area of the cut line", outline.area, piece["cut_area"], max(1.0, 0.011 * around))
        seams = [entity for entity in block.query("POLYLINE") if entity.dxf.layer == LAYERS["seam"]]
        report.true(f"{what}: expected one closed seam line", len(seams) == 1 and seams[0].is_closed)
        written = sum(edge["length"] + sum(to - start for start, to in edge["darts"]) for edge in piece["edges"])
        report.near(f"{what}: length of the seam line", polyline_length(seams[0]), written)
        on = {layer: len(block.query(f'*[layer=="{layer}"]')) for layer in LAYERS.values()}
        notches = sum(2 if notch["double"] else 1 for notch in piece["notches"])
        report.true(f"{what}: {on['4']} notches for {notches}", on[LAYERS["notch"]] == notches)
        report.true(f"{what}: no grain line", on[LAYERS["grain"]] == 1)
        report.true(f"{what}: drill marks", on[LAYERS["drill"]] == len(piece["drills"]))
        report.true(f"{what}: fold line", on[LAYERS["fold"]] == (1 if piece.get("fold") else 0))


def main(folder):
    report = Report()
    pieces = 0
    for path in sorted(folder.glob("*.json")):
        data = json.loads(path.read_text(encoding="utf-8"))
        if "pieces" not in data:
            continue
        check_dxf(report, folder, data["size"], data["pieces"])
        for piece in data["pieces"]:
            check_svg(report, folder, data["size"], piece)
            pieces += 1
    for line in report.wrong:
        print(line)
    print(f"{pieces} pieces, {report.checks} checks, {len(report.wrong)} wrong")
    return 1 if report.wrong or not pieces else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1])))
