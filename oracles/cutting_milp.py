"""Stock and its bound against a general-purpose solver: HiGHS, on mid-size roofs with hips, valleys and wings.

    python oracles/cutting_milp.py path/to/headlap > docs/cutting-milp.md

The product gives the pieces: their outlines, the edges that must be the unit's own, their counts. What fits into one
unit is worked out anew, by halving distances of GEOS, and every set of pieces that one unit can give is a column of
an integer programme: fewest columns that cover all pieces.
"""

import itertools
import json
import random
import subprocess
import sys
import tempfile
import time

import highspy
import numpy as np
import shapely

SNUG = 3e-5
MOST_COLUMNS = 20_000
SECONDS = 20


def job(sheet, width, depth, wing, pitch, gable):
    """A house with a wing to the south; its ends, and the wing's, are hips or gables."""
    eave = f'{{ eave = "{pitch}/12" }}'
    end = "{ gable = true }" if gable else eave
    return f"""format = 1
name = "trial"
units = "ft"
[covering]
sheet = "{sheet}"
[[block]]
name = "house"
outline = [[0, 0], [{width}, 0], [{width}, {depth}], [0, {depth}]]
eave_height = "9 ft"
edges = [{eave}, {end}, {eave}, {end}]
[[block]]
name = "wing"
outline = [[3, -{wing}], [{3 + wing}, -{wing}], [{3 + wing}, {depth / 2}], [3, {depth / 2}]]
eave_height = "9 ft"
edges = [{end}, {eave}, {{ gable = true }}, {eave}]
"""


def plan(headlap, text):
    with tempfile.NamedTemporaryFile("w", suffix=".toml") as file:
        file.write(text)
        file.flush()
        done = subprocess.run([headlap, "plan", "--format", "json", file.name], capture_output=True, text=True)
        if not done.stdout:
            raise SystemExit(done.stderr)
        return json.loads(done.stdout)


def reaches(shapes, kerf):
    """For every two: the least shift of the second that lies a kerf right of the first; -inf where they never meet."""
    count = len(shapes)
    a, b = (index.ravel() for index in np.meshgrid(range(count), range(count), indexing="ij"))
    shapes = np.array(shapes, dtype=object)

    def near(shift):
        moved = translate(shapes[b], shift)
        if kerf == 0:
            return shapely.area(shapely.intersection(shapes[a], moved)) > 1e-7
        return shapely.distance(shapes[a], moved) < kerf - 1e-7

    widths = shapely.bounds(shapes)[:, 2]
    far = widths[a] + kerf + 1.0
    meets = np.full(len(a), -np.inf)
    for part in np.linspace(1.0, -1.0, 33):
        shift = np.where(part > 0, part * far, part * (widths[b] + kerf))
        hit = near(shift) & np.isneginf(meets)
        meets[hit] = shift[hit]
    low, high = np.where(np.isneginf(meets), far, meets), far.copy()
    for _ in range(22):
        middle = (low + high) / 2
        hit = near(middle)
        low, high = np.where(hit, middle, low), np.where(hit, high, middle)
    return np.where(np.isneginf(meets), -np.inf, high).reshape(count, count)


def translate(shapes, shift):
    coords, index = shapely.get_coordinates(shapes, return_index=True)
    return shapely.set_coordinates(shapes.copy(), coords + np.column_stack([shift[index], np.zeros(len(index))]))


def columns(kinds, width, reach, least):
    """Every set of kinds that one unit can give, as sorted tuples."""
    spans = []
    for kind in kinds:
        room = max(width - kind["width_in"], 0.0)
        made = kind["made"]
        spans.append((0.0, 0.0) if "left" in made else (room, room) if "right" in made else (0.0, room))

    def fits(members):
        for order in set(itertools.permutations(members)):
            us = []
            for piece in order:
                u = max([spans[piece][0]] + [at + reach[other, piece] for other, at in us])
                if u > spans[piece][1] + SNUG:
                    break
                us.append((piece, u))
            else:
                return True
        return False

    narrow = [kind["width_in"] < least - SNUG for kind in kinds]
    pairs = {(a, b) for a in range(len(kinds)) for b in range(a, len(kinds))
             if (a != b or kinds[a]["count"] > 1) and not (narrow[a] and narrow[b]) and fits((a, b))}
    found = [(a,) for a in range(len(kinds))] + sorted(pairs)
    growing = sorted(pairs)
    while growing:
        grown = []
        for members in growing:
            for more in range(members[-1], len(kinds)):
                together = members + (more,)
                enough = together.count(more) <= kinds[more]["count"]
                if enough and all((member, more) in pairs for member in members) and fits(together):
                    grown.append(together)
            if len(found) + len(grown) > MOST_COLUMNS:
                return None
        found += grown
        growing = grown
    return found


def fewest(kinds, sets):
    model = highspy.Highs()
    model.setOptionValue("output_flag", False)
    model.setOptionValue("time_limit", float(SECONDS))
    model.setOptionValue("mip_rel_gap", 0.0)
    infinity = highspy.kHighsInf
    for kind in kinds:
        model.addRow(float(kind["count"]), infinity, 0, np.array([], dtype=np.int32), np.array([], dtype=float))
    for members in sets:
        rows = sorted(set(members))
        model.addCol(1.0, 0.0, infinity, len(rows), np.array(rows, dtype=np.int32),
                     np.array([float(members.count(row)) for row in rows]))
    for column in range(len(sets)):
        model.changeColIntegrality(column, highspy.HighsVarType.kInteger)
    model.run()
    info = model.getInfo()
    return round(info.objective_function_value), int(np.ceil(info.mip_dual_bound - 1e-6))


def outline(kind, low):
    rings = kind["parts_in"]
    shape = shapely.Polygon(rings[0])
    return translate(np.array([shapely.transform(shape, lambda xy: xy + [0, low])], dtype=object), np.zeros(1))[0]


def main():
    headlap = sys.argv[1]
    random.seed(7)
    kerfs = {"composite-slate": (0.125, 3.0), "wood-shingle": (0.125, 2.5), "sawn-shake": (0.125, 3.0)}
    print("# Cutting against HiGHS\n")
    print(f"By `oracles/cutting_milp.py`: highspy {highspy.Highs().version()}, shapely {shapely.__version__}. Cut pieces and",
          "the units that they are cut from; whole units apart. *Fewest* is the best that HiGHS found within",
          f"{SECONDS} s over all sets, *at least* its bound.\n")
    print("| sheet | pieces | kinds | sets | stock | bound | fewest | at least |\n|---|---|---|---|---|---|---|---|")
    done, skipped = 0, 0
    while done < 50 and skipped < 200:
        sheet = random.choice(sorted(kerfs))
        size = (random.randint(16, 36), random.randint(12, 22), random.randint(7, 10))
        text = job(sheet, *size, random.choice([7, 8, 9, 10, 12]), random.random() < 0.4)
        for cutting in plan(headlap, text)["layout"]["cutting"]:
            kinds, whole = cutting["kinds"], cutting["whole"]
            # Only where each piece is one part at a height that is known: it has a butt.
            if not 20 <= len(kinds) <= 120 or any(len(kind["parts_in"]) > 1 for kind in kinds):
                skipped += 1
                continue
            lows = {}
            for unit in cutting["units"]:
                for piece in unit["pieces"]:
                    lows[piece["kind"]] = piece["at_in"][1]
            shapes = [outline(kind, lows[index]) for index, kind in enumerate(kinds)]
            kerf, least = kerfs[sheet]
            sets = columns(kinds, cutting["width_in"], reaches(shapes, kerf), least)
            if sets is None:
                skipped += 1
                continue
            best, at_least = fewest(kinds, sets)
            stock, bound = cutting["stock"] - whole, cutting["stock_bound"] - whole
            fault = "" if bound <= best and at_least <= stock else " FAULT"
            pieces = sum(kind["count"] for kind in kinds)
            print(f"| {sheet} | {pieces} | {len(kinds)} | {len(sets)} | {stock} | {bound} | {best} | {at_least} |{fault}",
                  flush=True)
            done += 1
    print(f"\n{skipped} roofs were passed over: fewer than 20 kinds or more than 120, a piece in two parts, or more than {MOST_COLUMNS} sets.")


main()
