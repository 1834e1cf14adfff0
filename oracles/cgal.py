"""Our skeletons beside those of CGAL, over random outlines with a pitch or a gable for every side.

CGAL 6.1.1 speaks through the Python wheel compas-cgal 0.10.0 (LGPL-3.0): `extrude` raises a weighted straight skeleton
to a closed solid. Run by hand and never linked; docs/comparison.md keeps what it found.

    python3 -m venv venv && venv/bin/pip install compas-cgal==0.10.0 shapely==2.2.0
    CARGO_PROFILE_DEV_OPT_LEVEL=2 cargo build -p geom --example skeleton_of
    venv/bin/python oracles/cgal.py target/debug/examples/skeleton_of 3000

The second argument is the number of outlines of each kind. Counts go to standard output, every disagreement with the
whole outline to standard error.

What the wheel means: `angles` are the slopes of the faces in degrees, 90 for a gable; number i belongs to the side that
ENDS at corner i. With a gable a greatest height must be given; a roof that reaches it has a part that no face covers.
It melts faces that differ by less than a degree, so its top may be taken as it is, its areas and volumes only where
they fill the outline.
"""

import json
import math
import platform
import random
import subprocess
import sys
import time
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from importlib.metadata import version

import numpy
import shapely
from compas_cgal import _straight_skeleton_2
from shapely import affinity
from shapely.geometry import Polygon, box

SEED = 611
# Inches. Outlines are some 300 to 900 in wide; corners lie on a grid of 1/65536 in.
GRID = 1 / 65536
# In; the wheel rounds angles in degrees, which at the greatest heights shows in the fifth place.
HEIGHT_TOLERANCE = 1e-3
RELATIVE_TOLERANCE = 1e-6
# By more than this the wheel's faces miss the outline only where it has melted some.
MELTED = 1e-8
# It may melt the topmost point too.
MELTED_TOP = 1 / 8
NO_TOP = 1e5


# Outlines.

def inches(source, low, high):
    """A length on a mark of the tape."""
    return source.randint(low * 16, high * 16) / 16


def star(source):
    count = source.randint(4, 24)
    turns = [2 * math.pi * (i + source.uniform(-0.4, 0.4)) / count for i in range(count)]
    return Polygon([(r * math.cos(t), r * math.sin(t)) for t in turns for r in [inches(source, 80, 430)]])


def square_cornered(source):
    """A rectangle with bays and recesses."""
    wide, deep = inches(source, 330, 840), inches(source, 290, 540)
    shape = box(0, 0, wide, deep)
    for _ in range(source.randint(2, 7)):
        along_x = source.random() < 0.5
        x = inches(source, 0, int(wide)) if along_x else source.choice([0, wide])
        y = source.choice([0, deep]) if along_x else inches(source, 0, int(deep))
        half, reach = inches(source, 24, 90), inches(source, 24, 90)
        bay = box(x - half, y - reach, x + half, y + reach)
        shape = shape.union(bay) if source.random() < 0.6 else shape.difference(bay)
    return shape


def on_a_coarse_grid(source):
    """Whole multiples of 4 ft: many things happen to the front at once."""
    cells = [(x, y) for x in range(6) for y in range(5) if source.random() < 0.72]
    shape = shapely.union_all([box(48 * x, 48 * y, 48 * x + 48, 48 * y + 48) for x, y in cells])
    return max(getattr(shape, "geoms", [shape]), key=lambda part: part.area)


def house(source):
    wide, deep = inches(source, 430, 770), inches(source, 190, 336)
    wing, reach, at = inches(source, 120, 180), inches(source, 96, 240), inches(source, 96, 192)
    body, left, right = box(0, 0, wide, deep), box(0, -reach, wing, deep), box(wide - wing, -reach, wide, deep)
    other = inches(source, 96, 240)
    return source.choice([
        body,
        body.union(left),
        body.union(box(at, -reach, at + wing, deep)),
        body.union(left).union(box(wide - wing - 25, -other, wide, deep)),
        body.union(box(at, -reach, at + wing, deep + other)),
        body.union(right).union(box(0, 0, wing + 13, deep + other)),
    ])


def with_holes(source):
    """Courtyards: one or two, square or not, at most touching nothing."""
    shape = source.choice([square_cornered, house, star])(source)
    for _ in range(source.randint(1, 2)):
        x, y = (source.uniform(low, high) for low, high in zip(shape.bounds[:2], shape.bounds[2:], strict=True))
        count, size = source.randint(3, 7), inches(source, 20, 80)
        turns = sorted(source.uniform(0, 2 * math.pi) for _ in range(count))
        hole = box(x, y, x + size, y + inches(source, 20, 90)) if source.random() < 0.6 else Polygon(
            [(x + size * math.cos(t), y + size * math.sin(t)) for t in turns])
        if hole.is_valid and shape.buffer(-5).contains(hole):
            shape = shape.difference(hole)
    return shape


def rings_of(shape):
    shape = shapely.orient_polygons(shape)
    found = []
    for ring in [shape.exterior, *shape.interiors]:
        ring = [(round(x / GRID) * GRID, round(y / GRID) * GRID) for x, y in list(ring.coords)[:-1]]
        found.append([b for a, b, c in around(ring) if abs(turn(a, b, c)) > 1e-9])
    return found


def around(ring):
    return list(zip(ring[-1:] + ring[:-1], ring, ring[1:] + ring[:1], strict=True))


def turn(a, b, c):
    """Sine of the angle by which the way from a over b to c turns."""
    across = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
    return across / (math.dist(a, b) * math.dist(b, c) or 1)


def fit(rings):
    """Simple, no side under 2 in, no corner within 3 degrees of straight or of a spike, no two sides nearer than 2 in."""
    if any(len(ring) < 3 for ring in rings) or not Polygon(rings[0], rings[1:]).is_valid:
        return False
    corners = [corner for ring in rings for corner in around(ring)]
    if any(math.dist(a, b) < 2 or abs(turn(a, b, c)) < 0.052 for a, b, c in corners):
        return False
    sides = [(a, b) for ring in rings for a, b, _ in around(ring)]
    lines = [shapely.LineString(side) for side in sides]
    pairs = ((i, j) for i in range(len(lines)) for j in range(i) if not set(sides[i]) & set(sides[j]))
    return all(lines[i].distance(lines[j]) > 2 for i, j in pairs)


def outline(build, source):
    while True:
        shape = build(source)
        if not isinstance(shape, Polygon) or (build is with_holes) != bool(shape.interiors):
            continue
        if source.random() < 0.5:
            shape = affinity.rotate(shape, source.uniform(0, 360), origin=(0, 0))
        rings = rings_of(shape)
        if fit(rings):
            return rings


# Pitches.

def equal(source, rings):
    run = source.choice([0.5, 1.0, 1.5, 2.0, 4.0])
    return [[run] * len(ring) for ring in rings]


def mixed(source, rings):
    return [[source.uniform(0.5, 4.0) for _ in ring] for ring in rings]


def gabled(source, rings, share=0.25):
    """One or two pitches, and every fourth side a gable."""
    pitches = [source.choice([1.0, 1.5, 2.0]), source.choice([1.0, 1.5, 2.0])]
    runs = [[0.0 if source.random() < share else source.choice(pitches) for _ in ring] for ring in rings]
    runs[0][source.randrange(len(runs[0]))] = pitches[0]
    return runs


def mostly_gabled(source, rings):
    """So many gables that often no side reaches some part."""
    return gabled(source, rings, 0.7)


OUTLINES = [star, square_cornered, on_a_coarse_grid, house, with_holes]
PITCHES = [equal, mixed, gabled, mostly_gabled]


# CGAL.

def angle(run):
    return 90.0 if run == 0 else math.degrees(math.atan2(1, run))


def by_cgal(case):
    began = time.perf_counter()
    points = [numpy.array([(x, y, 0.0) for x, y in ring]) for ring in case["rings"]]
    # Number i belongs to the side that ends at corner i.
    angles = [[angle(run) for run in runs[-1:] + runs[:-1]] for runs in case["runs"]]
    greatest = NO_TOP if any(run == 0 for runs in case["runs"] for run in runs) else -1.0
    try:
        corners, faces = _straight_skeleton_2.extrude_straight_skeleton(points[0], points[1:], angles, True, greatest)
    except Exception as problem:
        return {"failed": str(problem)[:80] or type(problem).__name__}
    corners = numpy.asarray(corners)
    triangles = numpy.array([(face[0], b, c) for face in faces for b, c in zip(face[1:], face[2:])])
    a, b, c = (corners[triangles[:, i]] for i in range(3))
    doubled = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    height = (a[:, 2] + b[:, 2] + c[:, 2]) / 3
    return {
        "top": float(corners[:, 2].max()),
        # Without the floor, which lies at height 0 and looks down.
        "area": float(doubled[height > 0].sum() / 2),
        "volume": float((doubled * height).sum() / 2),
        "seconds": time.perf_counter() - began,
    }


# Two that decide.

def by_erosion(case, steps=4000):
    """Top and volume of a roof of one pitch, by iterated mitred erosion over GEOS."""
    rings, run = case["rings"], case["runs"][0][0]
    left = Polygon(rings[0], rings[1:])
    step = math.sqrt(left.area / math.pi) / steps
    areas = [left.area]
    while not left.is_empty:
        left = left.buffer(-step, join_style="mitre", mitre_limit=1000.0)
        areas.append(left.area)
    return {"top": (len(areas) - 1) * step / run, "volume": (sum(areas) - areas[0] / 2) * step / run}


def by_ours(program, cases):
    lines = "\n".join(json.dumps({"rings": case["rings"], "runs": case["runs"]}) for case in cases)
    answers = subprocess.run([program], input=lines, capture_output=True, text=True, check=True).stdout
    return [json.loads(line) for line in answers.splitlines()]


# Comparison.

def near(a, b, tolerance):
    return abs(a - b) <= tolerance


def verdict(case, ours, theirs):
    whole = Polygon(case["rings"][0], case["rings"][1:]).area
    if "failed" in theirs:
        return "CGAL fails, we " + ("refuse: " + ours["stuck"] if "stuck" in ours else "answer")
    open_above = theirs["top"] > NO_TOP / 2
    if "stuck" in ours:
        return f"we refuse: {ours['stuck']}, CGAL " + ("has an open part too" if open_above else "answers")
    if open_above:
        return "CGAL has an open part, we answer"
    melted = not near(theirs["area"], whole, MELTED * whole)
    if not near(ours["top"], theirs["top"], MELTED_TOP if melted else HEIGHT_TOLERANCE):
        return "tops differ"
    if melted:
        return "tops agree, CGAL's faces miss the outline"
    if not near(ours["volume"], theirs["volume"], RELATIVE_TOLERANCE * theirs["volume"]):
        return "tops agree, volumes differ"
    return "agree"


# Where a side catches up with another one that faces the same way at another speed, either may take over the line: the
# definition leaves it open (Biedl, Held, Huber, Kaaser and Palfrader, "Weighted straight skeletons in the plane", 2015).
# We let the lower plane go on. Without parallel sides there is no such choice, so both must agree once every corner is
# moved by a little, and our roof must be the limit of some such roof.

NUDGES = 12
MOST_NUDGES = 600
NUDGE = 1 / 16
# Directions nearer than 1.6e-5 are made one by the coarsest of our bounds.
PARALLEL = 2e-5
# What CGAL fails at tells nothing about us.
SAME = {"agree", "CGAL fails, we answer", "CGAL fails, we refuse: never-covered", "tops agree, CGAL's faces miss the outline", "we refuse: never-covered, CGAL has an open part too"}


def has_ties(case, parallel):
    sides = [(math.atan2(b[1] - a[1], b[0] - a[0]), run)
             for ring, runs in zip(case["rings"], case["runs"], strict=True)
             for (_, a, b), run in zip(around(ring), runs, strict=True)]
    return any(abs(math.remainder(a - b, 2 * math.pi)) < parallel and r != s for i, (a, r) in enumerate(sides) for b, s in sides[:i])


def nudged(case, count):
    source = random.Random(f"{SEED} {case['kind']} {case['number']}")
    move = lambda value: value + source.uniform(-NUDGE, NUDGE)
    found = []
    while len(found) < count:
        near_by = {**case, "rings": [[(move(x), move(y)) for x, y in ring] for ring in case["rings"]]}
        if not has_ties(near_by, PARALLEL):
            found.append(near_by)
    return found


def alike(one, other):
    return one.get("stuck") == other.get("stuck") and ("stuck" in one or near(one["volume"] / other["volume"], 1, 0.003))


def explained(program, case, ours):
    """What a disagreement is, as far as nudging tells."""
    if not has_ties(case, 1e-6):
        return "unexplained"
    near_by = nudged(case, NUDGES)
    verdicts = [verdict(near, our, by_cgal(near)) for near, our in zip(near_by, by_ours(program, near_by), strict=True)]
    if not set(verdicts) <= SAME:
        return "tie, but nudged outlines differ"
    limit = any(alike(answer, ours) for answer in by_ours(program, nudged(case, MOST_NUDGES)))
    return "tie; nudged outlines agree, " + ("and ours is the limit of some" if limit else "but ours is the limit of none")


def cases_of(each):
    for build in OUTLINES:
        for pitched in PITCHES:
            source = random.Random(f"{SEED} {build.__name__} {pitched.__name__}")
            for number in range(each):
                rings = outline(build, source)
                yield {"kind": f"{build.__name__} {pitched.__name__}", "number": number, "rings": rings, "runs": pitched(source, rings)}


def told(case, ours, theirs, says):
    extra = {"erosion": by_erosion(case)} if case["kind"].endswith("equal") else {}
    print(json.dumps({"says": says, "ours": ours, "cgal": theirs, **extra, **case}), file=sys.stderr)


def main():
    program, each = sys.argv[1], int(sys.argv[2])
    cases = list(cases_of(each))
    ours = by_ours(program, cases)
    with ProcessPoolExecutor(2) as pool:
        theirs = list(pool.map(by_cgal, cases, chunksize=16))
    counts, worst_top, worst_volume = {}, 0.0, 0.0
    for case, our, their in zip(cases, ours, theirs, strict=True):
        says = verdict(case, our, their)
        if says == "agree":
            worst_top = max(worst_top, abs(our["top"] - their["top"]))
            worst_volume = max(worst_volume, abs(our["volume"] / their["volume"] - 1))
        elif says not in SAME or "fails" in says:
            says += ": " + explained(program, case, our)
            told(case, our, their, says)
        counts.setdefault(case["kind"], Counter())[says] += 1
    print("python", platform.python_version(), "compas_cgal", version("compas_cgal"), "shapely", shapely.__version__)
    print("seed", SEED, "outlines", len(cases), f"worst among those that agree: top {worst_top:.1e} in, volume {worst_volume:.1e}")
    for kind, found in counts.items():
        for says, count in found.most_common():
            print(f"{kind:28} {count:6} {says}")


main()
