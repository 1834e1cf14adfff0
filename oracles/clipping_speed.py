"""The same clipping with GEOS, for docs/speed.md: every unit of one hipped plane is cut to the plane's outline.

    python oracles/clipping_speed.py

The plane and the units are those of `crates/layout/benches/lay.rs`, `hipped_plane`: a 12-in unit with a gap of 1/4 in, 18 in
long, courses 7 in apart, in half bond. shapely's vectorised functions do the work, with the outline prepared: units that
lie inside are kept, those outside are dropped, and only those that the outline crosses are intersected. Making the units'
rectangles is timed by itself.
"""

import math
import time

import numpy as np
import shapely

WIDTH, GAP, LENGTH, EXPOSURE = 12.0, 0.25, 18.0, 7.0


def outline(pieces):
    area = pieces * (WIDTH + GAP) * EXPOSURE
    width, height = math.sqrt(area * 1.5), math.sqrt(area / 1.5)
    return shapely.Polygon([(0, 0), (width + height, 0), (width, height), (height, height)])


def units(plane):
    left, low, right, high = plane.bounds
    step = WIDTH + GAP
    courses = np.arange(math.ceil((high - low) / EXPOSURE))
    cells = np.arange(-1, math.ceil((right - left) / step) + 1)
    u = (cells[None, :] * step + (courses[:, None] % 2) * step / 2).ravel()
    v = np.repeat(courses * EXPOSURE, len(cells))
    return shapely.box(u, v, u + WIDTH, v + LENGTH)


def clip(plane, boxes):
    shapely.prepare(plane)
    within = shapely.contains_properly(plane, boxes)
    touching = shapely.intersects(plane, boxes) & ~within
    cut = shapely.intersection(boxes[touching], plane)
    cut = cut[shapely.area(cut) > 1e-6]
    return int(within.sum()), len(cut)


def best_of(times, work):
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        result = work()
        taken.append(time.perf_counter() - start)
    return min(taken), result


print(f"shapely {shapely.__version__}, GEOS {shapely.geos_version_string}")
for pieces in (1_000, 100_000, 1_000_000):
    plane = outline(pieces)
    making, boxes = best_of(3, lambda: units(plane))
    clipping, (whole, cut) = best_of(3, lambda: clip(plane, boxes))
    print(f"{pieces:>9,}: {whole:,} whole, {cut:,} cut; making {making * 1e3:.1f} ms, clipping {clipping * 1e3:.1f} ms")
