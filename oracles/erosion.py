"""Level sets and volumes of roofs of one pitch, by iterated mitred erosion.

Under a roof whose planes all have one pitch and rise from every side of an outline, what is higher than z is the
outline eroded by z / pitch with mitred corners: the front of the straight skeleton (Aichholzer, Aurenhammer, Alberts
and Gaertner, "A novel type of skeleton for polygons", 1995). Erosion in one leap keeps corners that an earlier split
has removed, so it is done in many small steps. The eroding is GEOS's; nothing of the product takes part.

    python3 -m venv venv && venv/bin/pip install shapely==2.2.0
    venv/bin/python oracles/erosion.py > crates/roof/tests/data/erosion.json

Figures go to standard output, the accuracy that was reached to standard error.
"""

import json
import math
import platform
import random
import sys

import shapely
from shapely import affinity
from shapely.geometry import MultiPolygon, Polygon, box

SEED = 20
STEPS = 4000
FRACTIONS = [0.05, 0.15, 0.30, 0.45, 0.60, 0.75, 0.88, 0.96]
PITCHES = [3.0, 4.5, 5.0, 6.0, 7.0, 8.0, 9.5, 10.0, 12.0, 14.0, 18.0]
# Rotated corners are rounded to this, exact in binary: sides that should be parallel are so to about 1e-7 only,
# as measured houses are.
GRID = 1.0 / 65536.0


def eroded(shape, distance):
    """`mitre_limit` is high enough never to blunt a corner of these outlines."""
    return shapely.buffer(shape, -distance, join_style="mitre", mitre_limit=1000.0)


def top(outline):
    """The distance at which nothing is left."""
    step = math.sqrt(outline.area / math.pi) / STEPS
    left, gone = outline, 0.0
    while not (after := eroded(left, step)).is_empty:
        left, gone = after, gone + step
    low, high = 0.0, step
    for _ in range(50):
        middle = (low + high) / 2
        low, high = (low, middle) if eroded(left, middle).is_empty else (middle, high)
    return gone + low


def areas(outline, highest, steps):
    """What is left after 0, 1, ... 2 * steps half steps."""
    left, found = outline, [outline.area]
    for _ in range(2 * steps):
        left = eroded(left, highest / (2 * steps))
        found.append(left.area)
    return found


def simpson(values, width):
    """Integral over equal steps of `width`; exact between the events of the front, where area is quadratic."""
    return width / 3 * (values[0] + values[-1] + 4 * sum(values[1:-1:2]) + 2 * sum(values[2:-1:2]))


def measured(outline, pitch, steps):
    highest = top(outline)
    found = areas(outline, highest, steps)
    rise = pitch / 12
    return {
        "top_in": highest * rise,
        "levels": [{"height_in": f * highest * rise, "area_sqin": found[round(2 * steps * f)]} for f in FRACTIONS],
        "volume_cuin": simpson(found, highest / (2 * steps)) * rise,
    }


def differences(outline, one, other):
    """Greatest difference of the areas over the outline's, and of the volumes over the volume."""
    levels = zip(one["levels"], other["levels"], strict=True)
    by_area = max(abs(a["area_sqin"] - b["area_sqin"]) for a, b in levels) / outline.area
    return by_area, abs(one["volume_cuin"] / other["volume_cuin"] - 1)


# Outlines.

def inches(source, feet_low, feet_high):
    """A length on a mark of the tape."""
    return source.randint(feet_low * 16 * 12, feet_high * 16 * 12) / 16


def convex(source):
    wide, deep = inches(source, 15, 35), inches(source, 12, 25)
    turns = [source.uniform(0, 2 * math.pi) for _ in range(source.randint(5, 12))]
    return Polygon([(wide * math.cos(t), deep * math.sin(t)) for t in turns]).convex_hull


def star(source):
    count = source.randint(6, 16)
    turns = [2 * math.pi * (i + source.uniform(-0.35, 0.35)) / count for i in range(count)]
    return Polygon([(r * math.cos(t), r * math.sin(t)) for t in turns for r in [inches(source, 10, 36)]])


def jogs(source):
    """A rectangle with bays and recesses."""
    wide, deep = inches(source, 28, 70), inches(source, 24, 45)
    shape = box(0, 0, wide, deep)
    for _ in range(source.randint(2, 6)):
        x, y = source.choice([(inches(source, 0, 28), source.choice([0, deep])), (source.choice([0, wide]), inches(source, 0, 24))])
        half, reach = inches(source, 2, 7), inches(source, 2, 7)
        bay = box(x - half, y - reach, x + half, y + reach)
        shape = shape.union(bay) if source.random() < 0.6 else shape.difference(bay)
    return shape


def house(letter):
    def build(source):
        wide, deep = inches(source, 36, 64), inches(source, 16, 28)
        wing, reach = inches(source, 10, 15), inches(source, 8, 20)
        body, at = box(0, 0, wide, deep), inches(source, 8, 16)
        left, right = box(0, -reach, wing, deep), box(wide - wing, -reach, wide, deep)
        return {
            "L": lambda: body.union(left),
            "T": lambda: body.union(box(at, -reach, at + wing, deep)),
            "U": lambda: body.union(left).union(box(wide - wing + 25, -reach - 31, wide, deep)),
            "plus": lambda: body.union(box(at, -reach, at + wing, deep + reach + 7)),
            "Z": lambda: body.union(right).union(box(0, 0, wing + 13, deep + reach)),
        }[letter]()
    return build


def without_straight_corners(shape):
    ring = list(shape.exterior.coords)[:-1]
    turns = lambda a, b, c: (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
    return [b for a, b, c in zip(ring[-1:] + ring[:-1], ring, ring[1:] + ring[:1], strict=True) if abs(turns(a, b, c)) > 1e-9]


def fit(corners):
    """A builder's outline: simple, no side under 10 in, no corner under 25 degrees or straighter than 175."""
    shape = Polygon(corners)
    if not shape.is_valid or len(corners) < 3:
        return False
    for a, b, c in zip(corners[-1:] + corners[:-1], corners, corners[1:] + corners[:1], strict=True):
        bend = math.atan2(b[1] - a[1], b[0] - a[0]) - math.atan2(c[1] - b[1], c[0] - b[0])
        bend = abs(math.degrees(math.remainder(bend, 2 * math.pi)))
        if math.dist(a, b) < 10 or not 5 <= bend <= 155:
            return False
    sides = list(zip(corners, corners[1:] + corners[:1], strict=True))
    lines = [shapely.LineString(side) for side in sides]
    apart = [p.distance(q) for i, p in enumerate(lines) for j, q in enumerate(lines) if 1 < j - i < len(lines) - 1]
    return all(distance > 5 for distance in apart)


def corners_of(build, source, turned):
    while True:
        shape = build(source)
        if isinstance(shape, MultiPolygon) or shape.interiors:
            continue
        if turned:
            shape = affinity.rotate(shape, source.uniform(0, 360), origin=(0, 0))
        corners = [(round(x / GRID) * GRID, round(y / GRID) * GRID) for x, y in without_straight_corners(shapely.orient_polygons(shape))]
        if fit(corners):
            return corners


KINDS = [("convex", convex, 12), ("star", star, 16), ("jogs", jogs, 14)] + [(k, house(k), 4) for k in ["L", "T", "U", "plus", "Z"]]


# A second opinion for square corners that are not turned: what is higher than z is the union of all inscribed
# rectangles, each eroded by itself.

def by_rectangles(corners, distance):
    shape = Polygon(corners)
    xs, ys = (sorted({corner[axis] for corner in corners}) for axis in (0, 1))
    shapely.prepare(shape)
    spans = lambda marks: [(a, b) for i, a in enumerate(marks) for b in marks[i + 1:] if b - a > 2 * distance]
    inside = [(x, y) for x in spans(xs) for y in spans(ys) if shape.covers(box(x[0], y[0], x[1], y[1]))]
    shrunk = [box(x[0] + distance, y[0] + distance, x[1] - distance, y[1] - distance) for x, y in inside]
    return shapely.union_all(shrunk).area


def written(head, cases):
    """JSON with a line a case, so that a change shows where it is."""
    lines = [f" {json.dumps(key)}: {json.dumps(value)}," for key, value in head.items()]
    return "\n".join(["{", *lines, ' "cases": [', ",\n".join("  " + json.dumps(case) for case in cases), " ]", "}"])


def main():
    source = random.Random(SEED)
    worst = {"areas, half the steps": 0.0, "volume, half the steps": 0.0, "areas, rectangles": 0.0}
    cases = []
    for kind, build, count in KINDS:
        for number in range(count):
            turned = number % 2 == 1
            corners = corners_of(build, source, turned)
            pitch, outline = source.choice(PITCHES), Polygon(corners)
            fine = measured(outline, pitch, STEPS)
            area, volume = differences(outline, fine, measured(outline, pitch, STEPS // 2))
            name = f"{kind}-{number}" + ("-turned" if turned else "")
            square = 0.0
            if not turned and kind not in ("convex", "star"):
                exact = [by_rectangles(corners, level["height_in"] * 12 / pitch) for level in fine["levels"]]
                square = max(abs(a - b["area_sqin"]) for a, b in zip(exact, fine["levels"], strict=True)) / outline.area
            print(f"{name:16} {len(corners):3} areas {area:.1e} volume {volume:.1e} rectangles {square:.1e}", file=sys.stderr)
            for key, value in zip(worst, (area, volume, square), strict=True):
                worst[key] = max(worst[key], value)
            cases.append({"name": name, "pitch": pitch, "outline": corners, "area_sqin": outline.area, **fine})
    head = {
        "about": "Roofs of one pitch all round: level sets and volumes by iterated mitred erosion; see oracles/README.md.",
        "made_by": "oracles/erosion.py",
        "versions": {"python": platform.python_version(), "shapely": shapely.__version__, "geos": shapely.geos_version_string},
        "seed": SEED,
        "steps": STEPS,
        "worst_relative_difference": worst,
    }
    print(written(head, cases))


main()
