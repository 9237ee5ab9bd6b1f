"""Holds exported layouts against another geometry library.

    python tests/outside/layouts.py FOLDER [FOLDER ...]

FOLDER is a garment's output folder: layouts/CLOTH-WIDTH.json, and geometry/SIZE.json for the drafted pieces. Needs shapely.
For every layout: nothing overlaps by more than 0.01 mm, all lies on the cloth, the gap is kept, each copy is cut once, what
is on the fold lies on it, every outline is the drafted cut line (to what laying rounds, 0.2 mm), and the length is not below
area over width. Exits 1 where anything is wrong.
"""

import json
import math
import pathlib
import sys

from shapely.geometry import Polygon, box
from shapely.strtree import STRtree

TOUCH = 0.01
OUTLINE = 0.25


class Report:
    def __init__(self):
        self.checks = 0
        self.wrong = []

    def true(self, what, holds):
        self.checks += 1
        if not holds:
            self.wrong.append(what)


def depth(a, b):
    """How far two shapes lie in each other: the least shift along x or y, or the inner radius of what they share."""
    shared = a.intersection(b)
    if shared.area < 1e-9:
        return 0.0
    x0, y0, x1, y1 = shared.bounds
    return min(x1 - x0, y1 - y0)


def check_section(report, what, laid, section):
    length, width, gap, kind = section["length"], section["width"], laid["gap"], section["kind"]
    shapes = []
    for piece in section["pieces"]:
        shape = Polygon(piece["outline"])
        name = f"{what}: {piece['piece']}"
        report.true(f"{name} is not a valid shape", shape.is_valid)
        x0, y0, x1, y1 = shape.bounds
        inside = x0 > -TOUCH and y0 > -TOUCH and x1 < length + TOUCH and y1 < width + TOUCH
        report.true(f"{name} leaves the cloth: {shape.bounds}", inside)
        # With both selvages folded to the middle there is a fold at either edge.
        near = min(y0, width - y1)
        start = {"lengthwise-fold": y0, "crosswise-fold": x0, "gate-fold": near, "open": None}[kind]
        if piece["on_fold"]:
            report.true(f"{name} is on a fold where there is none", start is not None)
            report.true(f"{name} is {start} mm off the fold", abs(start or 0.0) < TOUCH)
            along = box(-1.0, -1.0, length + 1.0, TOUCH)
            along = along.union(box(-1.0, width - TOUCH, length + 1.0, width + 1.0)) if kind == "gate-fold" else along
            edge = box(-1.0, -1.0, TOUCH, width + 1.0) if kind == "crosswise-fold" else along
            on = shape.boundary.intersection(edge).length
            report.true(f"{name} has no edge on the fold", on > 1.0)
            report.true(f"{name} on the fold is cut more than once", len(piece["copies"]) == 1)
        else:
            if start is not None:
                report.true(f"{name} lies on the fold and is not meant to", start > gap - TOUCH)
            layers = 1 if kind == "open" else 2
            report.true(f"{name} is cut {len(piece['copies'])} times from {layers} layers", len(piece["copies"]) == layers)
            if kind == "gate-fold":
                report.true(f"{name} lies across the line where the selvages meet", y1 < width / 2 + TOUCH or y0 > width / 2 - TOUCH)
        shapes.append(shape)
    tree = STRtree(shapes)
    for i, shape in enumerate(shapes):
        for j in tree.query(shape.buffer(gap + 1.0)):
            if j <= i:
                continue
            other = shapes[j]
            names = f"{what}: {section['pieces'][i]['piece']} and {section['pieces'][j]['piece']}"
            report.true(f"{names} overlap by {depth(shape, other):.4f} mm", depth(shape, other) <= TOUCH)
            apart = shape.distance(other)
            report.true(f"{names} are {apart:.4f} mm apart, {gap} asked", apart >= gap - TOUCH)
    return shapes


def check_laid(report, sheet, laid, areas):
    need = laid["need"]
    what = f"{need['cloth']}, {need['width'] / 10:.0f} cm, size {need['size']}"
    counts, area = {}, 0.0
    for section in laid["sections"]:
        shapes = check_section(report, what, laid, section)
        factor = 2 if section["kind"] == "crosswise-fold" else 1
        report.true(f"{what}: length of a section", abs(section["bought"] - factor * section["length"]) < 1e-6)
        wide = need["usable"] / (2 if section["kind"] in ("lengthwise-fold", "gate-fold") else 1)
        report.true(f"{what}: width of a section", abs(section["width"] - wide) < 1e-6)
        for piece, shape in zip(section["pieces"], shapes):
            for copy in piece["copies"]:
                counts.setdefault(piece["piece"], []).append(copy)
            whole = shape.area * (2 if section["kind"] != "open" else 1)
            area += whole
            drawn = areas.get((need["size"], piece["piece"]))
            if drawn and not piece["block"]:
                each = whole / len(piece["copies"]) / (2 if piece["half_pattern"] else 1)
                # The laid outline lies about the drawn one, nowhere farther out than the tolerance.
                most = drawn + OUTLINE * shape.length * 2
                report.true(f"{what}: {piece['piece']} has {each:.0f} mm2, drawn {drawn:.0f}", drawn - 1.0 <= each <= most)
    for size, name, count in sheet["wanted"]:
        if size == need["size"]:
            found = sorted(counts.pop(name, []))
            report.true(f"{what}: {name} is cut as {found}, {count} wanted", found == list(range(count)))
    report.true(f"{what}: cut and not wanted: {sorted(counts)}", not counts)
    total = sum(section["bought"] for section in laid["sections"])
    report.true(f"{what}: {total} mm in sections, {need['laid']} stated", abs(total - need["laid"]) < 1e-6)
    bound = area / need["usable"]
    report.true(f"{what}: {need['laid']:.1f} mm is below area over width, {bound:.1f}", need["laid"] >= bound - 0.1)
    report.true(f"{what}: less to buy than is laid", need["buy"] >= need["laid"])
    return need["laid"], bound


def check_checker(report):
    """The checker itself: two squares 1 mm into each other, off the cloth, off the fold, are found."""
    square = [[0, 0], [100, 0], [100, 100], [0, 100]]
    piece = {"piece": "a", "copies": [0, 1], "on_fold": False, "half_pattern": False, "block": False}
    moved = [[x + 99, y + 2] for x, y in square]
    section = {"kind": "lengthwise-fold", "length": 150.0, "width": 100.0, "bought": 150.0}
    section["pieces"] = [{**piece, "outline": square}, {**piece, "outline": moved}]
    probe = Report()
    check_section(probe, "probe", {"gap": 3.0}, section)
    for words in ("overlap by", "apart", "leaves the cloth", "lies on the fold and is not meant to"):
        report.true(f"the checker does not see what {words}", any(words in line for line in probe.wrong))


def main(folders):
    report = Report()
    layouts = 0
    check_checker(report)
    for folder in folders:
        areas = {}
        for path in sorted((folder / "geometry").glob("*.json")):
            data = json.loads(path.read_text(encoding="utf-8"))
            for piece in data.get("pieces", []):
                areas[(data["size"], piece["name"])] = piece["cut_area"]
        worst = 0.0
        for path in sorted((folder / "layouts").glob("*.json")):
            sheet = json.loads(path.read_text(encoding="utf-8"))
            for laid in sheet["layouts"]:
                used, bound = check_laid(report, sheet, laid, areas)
                worst = max(worst, used / bound if bound else math.inf)
                layouts += 1
        print(f"{folder.name}: at most {worst:.2f} times area over width")
    for line in report.wrong:
        print(line)
    print(f"{layouts} layouts, {report.checks} checks, {len(report.wrong)} wrong")
    return 1 if report.wrong or not layouts else 0


if __name__ == "__main__":
    sys.exit(main([pathlib.Path(name) for name in sys.argv[1:]]))
