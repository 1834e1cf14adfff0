"""Exports every example and reads what comes out with other people's programs.

    exports.py HEADLAP EXAMPLES OUT NODE_MODULES CITYJSON_SCHEMA

HEADLAP is the program, OUT a folder to write into, NODE_MODULES the folder in which npm put gltf-validator, CITYJSON_SCHEMA the file
schemas/20/cityjson.min.schema.json of the crate cjval. Ends with 1 if a reader finds fault.
"""

import csv
import json
import subprocess
import sys
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path

import ezdxf
import formulas
import openpyxl
import trimesh
from formulas.functions import wrap_ufunc
from jsonschema import Draft7Validator

HERE = Path(__file__).resolve().parent
ENDINGS = {"xlsx": "xlsx", "dxf": "dxf", "gltf": "glb", "geojson": "geojson", "cityjson": "city.json", "json": "json", "csv": "csv"}
faults = 0


def rounded(value, digits):
    """A half away from zero, of the 15 digits that a spreadsheet shows; formulas by itself takes halves in binary."""
    step = Decimal(1).scaleb(-int(digits))
    return float(Decimal(f"{float(value):.15g}").quantize(step, ROUND_HALF_UP))


formulas.get_functions()["ROUND"] = wrap_ufunc(rounded)


def told(name, what, bad):
    global faults
    faults += bool(bad)
    print(f"{name:24} {what}{'  FAULT ' + str(bad) if bad else ''}")


def export(headlap, job, out):
    files = {}
    for word, ending in ENDINGS.items():
        files[word] = out / f"{job.stem}.{ending}"
        table = ["--table", "cut-list"] if word == "csv" else []
        # 1 where the rates lack a price: the examples do not all tell how many old layers come off.
        done = subprocess.run([headlap, "export", job, "--to", word, *table, "--out", files[word]], capture_output=True, text=True)
        assert done.returncode in (0, 1) and files[word].exists(), done.stderr
    return files


def drawing(file):
    document = ezdxf.readfile(file)
    audit = document.audit()
    told(file.name, f"{len(document.modelspace())} entities, unit {document.units}", audit.errors + audit.fixes)


def workbook(file):
    live, values = openpyxl.load_workbook(file), openpyxl.load_workbook(file, data_only=True)
    reckoned = formulas.ExcelModel().loads(str(file)).finish().calculate()
    count, off = 0, []
    for sheet in live:
        for cell in (cell for row in sheet.iter_rows() for cell in row if str(cell.value).startswith("=")):
            result = float(reckoned[f"'[{file.name}]{sheet.title.upper()}'!{cell.coordinate}"].value[0, 0])
            count += 1
            if abs(result - float(values[sheet.title][cell.coordinate].value)) > 1e-6:
                off.append((sheet.title, cell.coordinate, cell.value, result))
    told(file.name, f"{count} formulas on {len(live.sheetnames)} sheets", off)


def city(file, schema):
    document = json.loads(file.read_text())
    wrong = [error.message for error in Draft7Validator(schema).iter_errors(document)]
    corners = document["vertices"]
    used = {index for thing in document["CityObjects"].values() for geometry in thing["geometry"]
            for surface in geometry["boundaries"] for ring in surface for index in ring}
    if len(used) != len(corners) or len({tuple(corner) for corner in corners}) != len(corners):
        wrong.append("corners unused or twice")
    told(file.name, f"{len(corners)} corners", wrong)


def scene(file, plan):
    """The decks' corners, carried through all nodes by another program: metres, y up."""
    loaded = trimesh.load(file)
    decks = [trimesh.transform_points(loaded.geometry[mesh].vertices, pose)
             for node in loaded.graph.nodes_geometry if node.startswith("deck")
             for pose, mesh in [loaded.graph[node]]]
    corners = [corner for plane in plan["roof"]["planes"] for ring in plane["outlines_ft"] for corner in ring]
    expected = [[axis(corner[k] for corner in corners) * 0.3048 for k in range(3)] for axis in (min, max)]
    (left, low, far), (right, high, near) = [[axis(point[k] for deck in decks for point in deck) for k in range(3)] for axis in (min, max)]
    found = [[left, -near, low], [right, -far, high]]
    off = max(abs(a - b) for one, other in zip(found, expected) for a, b in zip(one, other))
    told(file.name, f"{len(decks)} decks, box off by {off * 1000:.4f} mm", off > 1e-4 and off)


def table(file, plan):
    with open(file, newline="", encoding="utf-8") as lines:
        records = list(csv.DictReader(lines, strict=True))
    pieces = sum(int(record["pieces"]) for record in records)
    ragged = any(None in record or None in record.values() for record in records)
    told(file.name, f"{len(records)} records, {pieces} pieces", ragged or pieces != plan["layout"]["cut"])


def main(headlap, examples, out, modules, schema):
    schema = json.loads(Path(schema).read_text())
    out = Path(out)
    out.mkdir(parents=True, exist_ok=True)
    scenes = []
    for job in sorted(Path(examples).glob("*.toml")):
        files = export(headlap, job, out)
        plan = json.loads(files["json"].read_text())
        drawing(files["dxf"])
        workbook(files["xlsx"])
        city(files["cityjson"], schema)
        scene(files["gltf"], plan)
        table(files["csv"], plan)
        scenes.append(files["gltf"])
    lines = subprocess.run(["node", HERE / "gltf.mjs", Path(modules).resolve(), *scenes], capture_output=True, text=True, check=True).stdout
    for line in lines.splitlines():
        name, *counts = line.rsplit(" ", 4)
        told(Path(name).name, "gltf-validator", any(count != "0" for count in counts) and counts)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
