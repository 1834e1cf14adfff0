"""Side lengths and areas of small outlines given in longitude and latitude, by geodesics on the ellipsoid.

    python3 -m venv venv && venv/bin/pip install pyproj==3.7.2
    venv/bin/python oracles/geodesics.py > crates/exchange/tests/data/geodesics.json

PROJ (by way of pyproj) solves the geodesic problems by C. F. F. Karney's method ("Algorithms for geodesics", Journal of
Geodesy 87, 2013) to nanometres. The outlines are invented.
"""

import json
import random

import pyproj

SEED = 7
PLACES = [(-93.27, 44.98), (-149.9, 61.2), (-80.19, 25.76), (4.36, 52.01), (16.37, 48.2), (139.7, 35.6), (18.4, -33.9),
          (-70.9, -53.2), (0.0, 0.0), (179.9999, -17.0), (25.7, 71.1), (-3.2, 55.9)]


def outline(geod, place, chance):
    """Corners at rising bearings round a place, so that the outline is simple."""
    count = chance.randint(4, 9)
    bearings = sorted((360 * (i + chance.uniform(0.1, 0.9)) / count for i in range(count)), reverse=True)
    corners = [geod.fwd(*place, bearing, chance.uniform(4, 30))[:2] for bearing in bearings]
    return [[round(longitude, 9), round(latitude, 9)] for longitude, latitude in corners]


def case(geod, corners):
    ring = corners + corners[:1]
    sides = [geod.inv(*a, *b)[2] for a, b in zip(ring, ring[1:])]
    area, _ = geod.polygon_area_perimeter(*zip(*corners))
    return {"outline": corners, "sides_m": sides, "area_sqm": abs(area)}


geod = pyproj.Geod(ellps="WGS84")
chance = random.Random(SEED)
cases = [case(geod, outline(geod, place, chance)) for place in PLACES for _ in range(4)]
print(json.dumps({"made_with": f"pyproj {pyproj.__version__}", "cases": cases}, indent=0))
