"""Drawings of invented houses as another program writes them.

    python3 -m venv venv && venv/bin/pip install ezdxf==1.4.5
    venv/bin/python oracles/dxf_houses.py crates/exchange/tests/data

Each drawing has a gable house of 40 by 28 ft at 8/12 with its eaves at 9 ft on the layer FACES, the same cut into
triangles as a polyface on TRIANGLES, and on OUTLINE an L of 44 by 36 ft whose inner corner is at 18, 24, together with a
door's arc, a text, a line that is not closed, and a ring on a layer of its own, RING, that is two half circles of 10 ft
radius.
"""

import sys
from pathlib import Path

import ezdxf

L = [(0, 0), (44, 0), (44, 24), (18, 24), (18, 36), (0, 36)]
EAVE, RIDGE = 9.0, 9.0 + 14 * 8 / 12
SOUTH = [(0, 0, EAVE), (40, 0, EAVE), (40, 14, RIDGE), (0, 14, RIDGE)]
NORTH = [(40, 28, EAVE), (0, 28, EAVE), (0, 14, RIDGE), (40, 14, RIDGE)]
# Where the drawing stands: grids of cities have large numbers.
MOVED = (1000.0, 2000.0, 100.0)


def drawn(release, feet, insunits):
    document = ezdxf.new(release)
    if insunits is not None:
        document.header["$INSUNITS"] = insunits
    model = document.modelspace()

    def at(corner):
        return [(c + m) / feet for c, m in zip((*corner, 0)[:3], MOVED)]

    def polyline(corners, layer, closed=True):
        places = [at(corner)[:2] for corner in corners]
        attributes = {"layer": layer}
        if release == "R12":
            model.add_polyline2d(places, close=closed, dxfattribs=attributes)
        else:
            model.add_lwpolyline(places, close=closed, dxfattribs=attributes)

    polyline(L, "OUTLINE")
    polyline([(0, 0), (3, 0), (3, 3)], "OUTLINE", closed=False)
    model.add_text("not a roof", dxfattribs={"layer": "OUTLINE"})
    model.add_arc(at((5, 5)), 3 / feet, 0, 90, dxfattribs={"layer": "OUTLINE"})
    for plane in (SOUTH, NORTH):
        model.add_3dface([at(corner) for corner in plane], dxfattribs={"layer": "FACES"})
    triangles = [[at(corner) for corner in (p[0], p[i], p[i + 1])] for p in (SOUTH, NORTH) for i in (1, 2)]
    model.add_polyface(dxfattribs={"layer": "TRIANGLES"}).append_faces(triangles)
    (x0, y0, _), (x1, y1, _) = at((-10, 0)), at((10, 0))
    ring = [(x0, y0, 1.0), (x1, y1, 1.0)]
    if release == "R12":
        model.add_polyline2d(ring, format="xyb", close=True, dxfattribs={"layer": "RING"})
    else:
        model.add_lwpolyline(ring, format="xyb", close=True, dxfattribs={"layer": "RING"})
    return document


# No dates and no ids made by chance, so that the same program gives the same bytes.
ezdxf.options.write_fixed_meta_data_for_testing = True
folder = Path(sys.argv[1])
# Release 12 has no unit; metres are 6, inches 1.
for release, feet, insunits in (("R12", 1.0, None), ("R2000", 1 / 0.3048, 6), ("R2018", 1 / 12, 1)):
    drawn(release, feet, insunits).saveas(folder / f"{release.lower()}.dxf")
