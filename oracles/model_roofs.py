"""Counted waste of model roofs, for docs/waste.md.

    python oracles/model_roofs.py path/to/headlap

Plain half bond at 3-in headlap, no breakage, no starters, no caps, no projections: pieces x width x exposure over the
roof's area, less 1; and the same for the units that the pieces are cut from. 8:12; house 40 x 28 ft; wing 20 ft wide,
16 ft out.
"""

import json
import pathlib
import re
import subprocess
import sys
import tempfile

SHEET = (pathlib.Path(__file__).parent / "../coverings/natural-slate.toml").read_text()
UNITS = [(6, 12), (10, 20), (12, 18), (14, 24)]


def sheet(width, length):
    greatest = (length - 3) / 2
    text = SHEET[:SHEET.index("[[exposure]]")]
    rest = SHEET[SHEET.index("[edges]"):]
    bands = f'[[exposure]]\nfrom_pitch = "4/12"\nleast = 1\ngreatest = {greatest}\nheadlap = 3\nsource = "Model."\n\n'
    text = re.sub(r"(?m)^length +=.*$", f"length = {length}", text)
    text = re.sub(r"(?m)^width +=.*$", f"width = {width}", text)
    text = re.sub(r"(?m)^gap +=.*$", "gap = 0", text)
    text = re.sub(r"(?m)^joint_offset +=.*$", f"joint_offset = {width / 4}", text)
    text = re.sub(r"(?m)^least_piece +=.*$", f"least_piece = {min(3, width / 2)}", text)
    text = re.sub(r"(?m)^marks +=.*$", "", text)
    for key in ("eave_projection", "rake_projection", "off_walls", "valley_clear", "ridge_slot"):
        rest = re.sub(rf"(?m)^{key} +=.*$", f"{key} = 0", rest)
    rest = re.sub(r"(?m)^cover +=.*$", 'cover = "1/16 in"', rest)
    starter = rest.index("[starter]")
    cap = rest.index("[cap]")
    middle = re.sub(r"(?m)^width +=.*$", f"width = {width}", rest[starter:cap])
    middle = re.sub(r"(?m)^joint_offset +=.*$", f"joint_offset = {width / 5}", middle)
    rest = rest[:starter] + middle + rest[cap:]
    return text + bands + rest


def job(path, hip, wing):
    eave, gable = '{ eave = "8/12" }', "{ gable = true }"
    end = eave if hip else gable
    blocks = [([[0, 0], [40, 0], [40, 28], [0, 28]], [eave, end, eave, end])]
    if wing:
        blocks.append(([[10, -16], [30, -16], [30, 14], [10, 14]], [end, eave, gable, eave]))
    text = f'format = 1\nname = "model"\nunits = "ft"\n[covering]\nsheet = "{path}"\n'
    for index, (outline, edges) in enumerate(blocks):
        text += f'[[block]]\nname = "b{index}"\noutline = {outline}\neave_height = 9\nedges = [{", ".join(edges)}]\n'
    return text


def waste(headlap, unit, hip, wing):
    width, length = unit
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        (folder / "model.toml").write_text(sheet(width, length))
        (folder / "job.toml").write_text(job("model.toml", hip, wing))
        done = subprocess.run([headlap, "plan", "--format", "json", folder / "job.toml"], capture_output=True, text=True)
    if not done.stdout:
        raise SystemExit(done.stderr)
    plan = json.loads(done.stdout)
    area = plan["roof"]["totals"]["area_sqft"] * 144
    covered = stocked = 0.0
    share = plan["layout"]["stock"] / plan["layout"]["pieces"]
    for plane in plan["layout"]["planes"]:
        for course in plane["courses"]:
            pieces = sum(run["count"] for run in course["runs"])
            covered += pieces * width * course["exposure_in"]
            stocked += pieces * width * course["exposure_in"] * share
    return covered / area - 1, stocked / area - 1


def main():
    print("| unit | gable | hip | gable and gable wing | hip and hip wing |\n|---|---|---|---|---|")
    for unit in UNITS:
        cells = [waste(sys.argv[1], unit, hip, wing) for wing in (False, True) for hip in (False, True)]
        shown = [f"{pieces:.1%} / {stock:.1%}" for pieces, stock in cells]
        print(f"| {unit[0]} × {unit[1]} | " + " | ".join(shown) + " |", flush=True)


main()
