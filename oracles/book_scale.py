"""Measures a printed book with another library and holds it against the plan.

    headlap plan JOB --format json > plan.json
    headlap book JOB --part crew --out crew.pdf
    headlap book JOB --part poles --out poles.pdf
    python3 oracles/book_scale.py plan.json crew.pdf poles.pdf

Needs pikepdf (checked with 10.18.0). Distances on the sheets of planes must agree with the plan's outlines at the printed scale
within 0.1 mm; marks of the full-size poles within 1/32 in over 10 ft.
"""

import json
import re
import sys
from decimal import Decimal

import pikepdf

MM = 25.4 / 72


def product(a, b):
    """a, then b, both as PDF writes them."""
    return (
        a[0] * b[0] + a[1] * b[2], a[0] * b[1] + a[1] * b[3],
        a[2] * b[0] + a[3] * b[2], a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4], a[4] * b[1] + a[5] * b[3] + b[5],
    )


def strokes(stream, resources, matrix=(1, 0, 0, 1, 0, 0)):
    """Every stroked path, with its width in mm: [(width, [(x mm, y mm)])]."""
    found, stack, width, path = [], [], 1.0, []
    for operands, operator in pikepdf.parse_content_stream(stream):
        op, numbers = str(operator), [float(o) for o in operands if isinstance(o, (int, Decimal))]
        if op == "q":
            stack.append((matrix, width))
        elif op == "Q":
            matrix, width = stack.pop()
        elif op == "cm":
            matrix = product(numbers, matrix)
        elif op == "w":
            width = numbers[0]
        elif op in ("m", "l"):
            x, y = numbers
            at = ((x * matrix[0] + y * matrix[2] + matrix[4]) * MM, (x * matrix[1] + y * matrix[3] + matrix[5]) * MM)
            if op == "m":
                path = path + [[at]]
            else:
                path[-1].append(at)
        elif op in ("S", "s", "B", "B*", "b", "b*"):
            size = abs(matrix[0] * matrix[3] - matrix[1] * matrix[2]) ** 0.5
            found += [(width * size * MM, part) for part in path]
            path = []
        elif op in ("f", "f*", "n", "F"):
            path = []
        elif op == "Do":
            inner = resources.XObject[str(operands[0])]
            if inner.Subtype == "/Form":
                own = tuple(float(v) for v in inner.get("/Matrix", [1, 0, 0, 1, 0, 0]))
                found += strokes(inner, inner.get("/Resources", resources), product(own, matrix))
    return found


def extent(points):
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return max(xs) - min(xs), max(ys) - min(ys)


def ratio(name):
    """Inches of roof to an inch of paper: `1/4" = 1'`, `3/32" = 1'`, `1" = 20'`."""
    inches, feet = re.fullmatch(r"([\d/ -]+)\" = (\d+)'", name).groups()
    value = sum(eval(part) for part in inches.split("-"))  # 1-1/2 is one and a half
    return float(feet) * 12 / value


def planes(plan, book):
    worst, seen = 0.0, 0
    pages = list(book.pages)
    for plane in plan["roof"]["planes"]:
        ring = plane["outlines_in"][0]
        wanted = extent(ring)
        scale, best = None, None
        for page in pages:
            for width, points in strokes(page, page.Resources):
                if abs(width - 0.7) < 0.01 and len(points) >= len(ring):
                    size = extent(points)
                    for name in SCALES:
                        error = max(abs(size[i] - wanted[i] * 25.4 / ratio(name)) for i in (0, 1))
                        if best is None or error < best:
                            scale, best = name, error
        if best is not None and best < 1.0:
            seen += 1
            worst = max(worst, best)
            print(f"{plane['name']}: {scale}, off by {best:.3f} mm")
    return seen, worst


SCALES = [f"{v}\" = 1'" for v in ("3", "1-1/2", "1", "3/4", "1/2", "3/8", "1/4", "3/16", "1/8", "3/32", "1/16")]


def poles(plan, book):
    """Course lines of the first pole, strip by strip, joined at the crosses."""
    pole = plan["layout"]["planes"][0]["poles"][0]
    marks = [mark["butt_in"] for mark in pole["marks"]]
    frames, lines = [], []
    for number, page in enumerate(book.pages):
        for width, points in strokes(page, page.Resources):
            wide, high = extent(points)
            if abs(width - 0.35) < 0.01 and abs(high - 17.0) < 0.02 and len(points) >= 4:
                frames.append((number, -max(p[1] for p in points), min(p[0] for p in points), wide))
            if abs(width - 0.7) < 0.01 and wide < 0.01 and abs(high - 17.0) < 0.02:
                lines.append((number, -max(p[1] for p in points), points[0][0]))
    count = -(-pole["top_in"] // 9)
    measured = []
    for index, (number, top, left, _) in enumerate(sorted(frames)[: int(count)]):
        own = [x - left for page, y, x in lines if page == number and abs(y - top) < 1.0]
        measured += [index * 9 + x / 25.4 for x in own]
    measured = sorted(measured)[: len(marks)]
    off = max(abs(a - b) for a, b in zip(measured, marks))
    reach = max(marks)
    print(f"first pole: {len(measured)} of {len(marks)} marks, {reach:.2f} in high, off by {off:.4f} in at most")
    return off * max(1.0, 120.0 / reach)


def main():
    plan = json.load(open(sys.argv[1]))
    seen, worst = planes(plan, pikepdf.open(sys.argv[2]))
    off = poles(plan, pikepdf.open(sys.argv[3]))
    print(f"{seen} planes, off by {worst:.3f} mm at most; the pole by {off:.4f} in over 10 ft")
    assert seen and worst <= 0.1 and off <= 1 / 32


if __name__ == "__main__":
    main()
