"""Compares what `headlap import` makes of open building data with the data itself.

    python3 oracles/imports.py target/debug/headlap FOLDER_WITH_CJDB CJSEQ CJVAL

`docs/imports.md` tells where the data is from and what came out. For every file: the area of its roof surfaces, computed
here from the file alone, beside the area of the planes of the job file; and for every building whether its footprint,
given a pitch of 6/12 all round, is planned, and which of its own roof surfaces are planned and why the others are not. Nothing of the product takes part in the areas; Python 3.11 alone is needed.
"""

import collections
import json
import math
import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path

FOOT = 0.3048
DEPTH = {"MultiSurface": 1, "CompositeSurface": 1, "Solid": 2, "MultiSolid": 3, "CompositeSolid": 3}
WALL, CRUMB = math.cos(math.radians(88)), 10 * 0.0254**2


def normal(ring):
    """Twice the area as a vector."""
    total = [0.0, 0.0, 0.0]
    for a, b in zip(ring, ring[1:] + ring[:1]):
        a, b = ([p - q for p, q in zip(c, ring[0])] for c in (a, b))
        total[0] += a[1] * b[2] - a[2] * b[1]
        total[1] += a[2] * b[0] - a[0] * b[2]
        total[2] += a[0] * b[1] - a[1] * b[0]
    return total


def size(vector):
    return math.sqrt(sum(part * part for part in vector))


def area(rings):
    return size(normal(rings[0])) / 2 - sum(size(normal(ring)) / 2 for ring in rings[1:])


def surfaces(boundaries, values, depth):
    for at, inner in enumerate(boundaries):
        value = values[at] if values is not None else None
        if depth == 1:
            yield inner, value
        else:
            yield from surfaces(inner, value, depth - 1)


def finest(city_object):
    """The geometry with roof surfaces of the finest level of detail below 3."""
    fitting = [g for g in city_object.get("geometry") or []
               if str(g.get("lod")).startswith("2") and any(s["type"] == "RoofSurface" for s in (g.get("semantics") or {}).get("surfaces", []))]
    return max(fitting, key=lambda g: str(g["lod"]), default=None)


def documents(path):
    text = path.read_text()
    try:
        return [json.loads(text)]
    except json.JSONDecodeError:
        return [json.loads(line) for line in text.splitlines() if line.strip()]


def roof_surfaces(path):
    """Rings in metres, by kind of surface."""
    found = {"roof": [], "wall": [], "crumb": []}
    all_documents = documents(path)
    transform = all_documents[0]["transform"]
    for document in all_documents:
        vertices = [[c * s + t for c, s, t in zip(v, transform["scale"], transform["translate"])] for v in document["vertices"]]
        for city_object in document["CityObjects"].values():
            geometry = finest(city_object)
            if geometry is None or not city_object["type"].startswith("Building"):
                continue
            semantics = geometry["semantics"]
            for rings, value in surfaces(geometry["boundaries"], semantics["values"], DEPTH[geometry["type"]]):
                if value is None or semantics["surfaces"][value]["type"] != "RoofSurface":
                    continue
                rings = [[vertices[at] for at in ring] for ring in rings]
                up = normal(rings[0])
                kind = "crumb" if size(up) / 2 < CRUMB else "wall" if abs(up[2]) / size(up) < WALL else "roof"
                found[kind].append(rings)
    return found


def building_ids(path):
    parents = lambda o: o.get("parents") or []
    return [i for d in documents(path) for i, o in d["CityObjects"].items() if o["type"].startswith("Building") and not parents(o)]


def run(program, *arguments):
    return subprocess.run([program, *arguments], capture_output=True, text=True)


def imported(program, path, units, layer=None):
    told = ["--units", units] if units else []
    chosen = ["--layer", layer] if layer else []
    return run(program, "import", str(path), *told, *chosen)


def footprint_only(job):
    """Without the planes, and with the footprints that stand there as comments."""
    head = job.split("\n[[plane]]")[0]
    lines = []
    for line in head.splitlines():
        bare = line.removeprefix("# ")
        is_toml = bare.startswith(("[[", "name ", "outline ", "eave_height ", "edges ", "  {", "]"))
        lines.append(bare if line.startswith("# ") and is_toml else line)
    return "\n".join(lines)


def plan_outcome(program, job):
    with tempfile.NamedTemporaryFile("w", suffix=".toml") as file:
        file.write(job)
        file.flush()
        result = run(program, "plan", file.name, "--format", "json")
    if result.returncode == 2 or result.returncode > 2 or result.returncode < 0:
        return f"ends with {result.returncode}: {result.stderr.strip()[:200]}"
    codes = sorted({p["code"] for p in json.loads(result.stdout)["problems"]})
    return "planned" if result.returncode == 0 else "not all planned: " + ", ".join(codes)


def compare(program, path, units):
    result = imported(program, path, units)
    if result.returncode != 0:
        return print(f"{path.name}: refused: {' '.join(result.stderr.split())[:200]}")
    job = tomllib.loads(result.stdout)
    planes = job.get("plane", [])
    ours = sum(area([p["corners"], *p.get("holes", [])]) for p in planes)
    theirs = roof_surfaces(path)
    sums = {kind: sum(area(rings) for rings in found) / FOOT**2 for kind, found in theirs.items()}
    counts = {kind: len(found) for kind, found in theirs.items()}
    print(f"{path.name}: {len(building_ids(path))} buildings; roof surfaces {counts}")
    print(f"  planes {len(planes)}, {ours:.2f} sq ft; the file's roof {sums['roof']:.2f}, "
          f"walls {sums['wall']:.2f}, crumbs {sums['crumb']:.3f} sq ft; off by {abs(ours / sums['roof'] - 1):.1e}")


def footprints(program, path, units):
    outcomes = collections.Counter()
    shown = collections.defaultdict(list)
    for building in building_ids(path):
        result = imported(program, path, units, building)
        if result.returncode != 0:
            outcome = "import refused: " + " ".join(result.stderr.split())[:160]
        else:
            outcome = plan_outcome(program, footprint_only(result.stdout))
        outcomes[outcome] += 1
        shown[outcome].append(building)
    for outcome, count in outcomes.most_common():
        print(f"    {count} {outcome}" + ("" if outcome == "planned" else f": {', '.join(shown[outcome][:3])}"))


def rise(rings):
    """In 12, of a plane's own vector area."""
    x, y, z = normal(rings[0])
    return 12 * math.hypot(x, y) / abs(z)


class Planned:
    """What became of the roof surfaces of one building after another."""

    def __init__(self):
        self.buildings = collections.Counter()
        self.refused = collections.defaultdict(list)
        self.cautions = collections.Counter()
        self.count, self.areas, self.worst = 0, [0.0, 0.0], (0.0, "")

    def add(self, program, job):
        given = {f"plane.{p['name']}": [p["corners"], *p.get("holes", [])] for p in tomllib.loads(job).get("plane", [])}
        with tempfile.NamedTemporaryFile("w", suffix=".toml") as file:
            file.write(job)
            file.flush()
            result = run(program, "plan", file.name, "--format", "json")
        if result.returncode not in (0, 1):
            self.buildings[f"ends with {result.returncode}: {result.stderr.strip()[:200]}"] += 1
            return
        plan = json.loads(result.stdout)
        planned = {p["id"]: p["area_sqft"] for p in plan["roof"]["planes"]}
        for problem in plan["problems"]:
            self.tell(problem, given, planned)
        silent = given.keys() - planned.keys() - {p["where"]["plane"] for p in plan["problems"] if p["severity"] == "error"}
        self.refused["without a word"] += [(name, rise(given[name])) for name in silent]
        self.add_areas(given, planned)
        whole, some = len(planned) == len(given), bool(planned)
        self.buildings["all planes planned" if whole else "some planes planned" if some else "no plane planned"] += 1

    def tell(self, problem, given, planned):
        name = problem["where"]["plane"]
        if problem["severity"] != "error":
            self.cautions[problem["code"]] += 1
        elif name in given and name not in planned:
            self.refused[problem["code"]].append((name, rise(given[name])))
        else:
            self.refused[problem["code"] + ", of no refused plane"].append((name, 0.0))

    def add_areas(self, given, planned):
        for name, ours in planned.items():
            theirs = area(given[name])
            self.count += 1
            self.areas[0] += ours
            self.areas[1] += theirs
            self.worst = max(self.worst, (abs(ours - theirs), f"{name}: {ours:.3f} planned of {theirs:.3f} sq ft"))

    def show(self):
        ours, theirs = self.areas
        print(f"    buildings: {dict(self.buildings)}")
        print(f"    {self.count} planes planned, {ours:.2f} sq ft; the same in the job {theirs:.2f}, off by {abs(ours / theirs - 1):.1e}; "
              f"worst {self.worst[1]}")
        for code, planes in sorted(self.refused.items()):
            if planes:
                rises = [rise for _, rise in planes]
                print(f"    {len(planes)} {code}, rising {min(rises):.3f} to {max(rises):.3f} in 12, as {', '.join(n for n, _ in planes[:2])}")
        print(f"    cautions: {dict(self.cautions)}")


def own_planes(program, path, units):
    planned = Planned()
    for building in building_ids(path):
        result = imported(program, path, units, building)
        if result.returncode == 0 and "[[plane]]" in result.stdout:
            planned.add(program, result.stdout)
        else:
            planned.buildings["import refused" if result.returncode else "no planes"] += 1
    if planned.count:
        planned.show()


program, cjdb, cjseq, cjval = sys.argv[1], *map(Path, sys.argv[2:])
files = cjdb / "tests" / "files"
for path, units in [
    (files / "vienna.jsonl", "m"),
    (files / "extension.city.jsonl", None),
    (files / "cjfiles" / "tile_901_trimmed.jsonl", None),
    (files / "cjfiles" / "5870_ext.jsonl", None),
    (files / "large.city.jsonl", None),
    (files / "large.city.jsonl", "m"),
    (cjseq / "data" / "3dbag_b2.city.json", None),
    (cjseq / "data" / "3dbag_b2.city.jsonl", None),
    (cjseq / "data" / "1b_w_texture.city.json", "m"),
    (cjval / "data" / "japanese.city.json", None),
]:
    compare(program, path, units)
    footprints(program, path, units)
    own_planes(program, path, units)
