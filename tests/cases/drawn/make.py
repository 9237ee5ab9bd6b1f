"""Makes the drawings of this garment with an independent writer of DXF. Needs ezdxf; run it in this folder.

The yokes are drawn in inches and by closed forms: a quarter of the finished waist wide at the bottom, 6 in deep at the middle,
with an arc of 1/8 of a circle (its bulge is tan(45 / 4 degrees)) for the upper edge. The pockets are drawn by hand in
millimetres; they differ from size to size in their width alone.
"""

import math
import pathlib

import ezdxf

WAIST = {"S": 66, "M": 76, "L": 88}
HERE = pathlib.Path(__file__).parent / "drawings"


def yokes():
    drawing = ezdxf.new("R12", units=ezdxf.units.IN)
    drawing.header["$INSUNITS"] = ezdxf.units.IN
    for size, waist in WAIST.items():
        block = drawing.blocks.new(f"yoke {size}")
        wide = (waist + 2) / 4 / 2.54
        left, right = 4.0, 4.0 + wide
        seam = [(left, 2, 0), (right, 2, 0), (right, 6, math.tan(math.radians(45 / 4))), (left, 8, 0)]
        block.add_polyline2d([(x, y, 0, 0, b) for x, y, b in seam], format="xyseb", close=True, dxfattribs={"layer": "14"})
        cut = [(left, 1.5), (right + 0.5, 1.5), (right + 0.5, 6.7), (left, 8.5)]
        block.add_polyline2d(cut, close=True, dxfattribs={"layer": "1"})
        for at in cut:
            block.add_point(at, dxfattribs={"layer": "2"})
        # Snipped in the cut line below the seam line, two fifths of the way from the middle.
        block.add_line((left + 0.4 * wide, 1.5), (left + 0.4 * wide, 1.7), dxfattribs={"layer": "4"})
        block.add_line((left, 2), (left, 8), dxfattribs={"layer": "6"})
        block.add_line((left + 1, 3), (left + 3, 3), dxfattribs={"layer": "7"})
        block.add_line((left, 4), (right, 4), dxfattribs={"layer": "8"})
        block.add_circle((left + 1.5, 5), 0.25, dxfattribs={"layer": "11"})
        block.add_point((left + 2, 5.5), dxfattribs={"layer": "13"})
        drawing.modelspace().add_blockref(block.name, (0, 0))
    drawing.saveas(HERE / "yokes.dxf")


def pockets():
    for size, waist in WAIST.items():
        wide = waist / 4 * 10
        path = f"M 0 0 H {wide} V 120 C {wide} 150 {wide / 2 + 30} 160 {wide / 2} 160 S 0 150 0 120 Z"
        text = f"""<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="200mm" viewBox="0 0 300 200">
  <!-- The outline is the seam line. -->
  <g id="pocket-{size}" transform="translate(20 20)">
    <path d="{path}"/>
    <path d="M 0 30 H {wide}"/>
  </g>
</svg>
"""
        (HERE / f"pocket-{size}.svg").write_text(text, encoding="utf-8")


yokes()
pockets()
