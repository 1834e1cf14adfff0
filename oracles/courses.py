"""Course lines by a general-purpose solver: the same question as layout's search by dynamic programming, asked of HiGHS as a
mixed-integer program. Prints one line a plane; see oracles/README.md.
"""

import math
import random
from importlib.metadata import version

import highspy

PLANES = 50
SEED = 1909


def plane(chance):
    """A plane of a mid-size house: 10 to 25 ft of slope, one to four stations. Inches; heights never lie halfway between
    tape steps."""
    greatest = chance.choice([5.25, 7.0, 7.5, 8.0, 8.5, 10.0])
    least = greatest - chance.choice([0.5, 1.0, 1.5, 2.0])
    height = round(chance.uniform(120, 300), 2)
    stations = []
    for _ in range(chance.randint(1, 4)):
        miss = chance.choice([2, 4, 8])
        at = round(chance.uniform(0.05, 0.95) * height, 2)
        stations.append((at, chance.random() < 0.5, miss, least / 2, 4 * miss))
    return {"height": height, "least": least, "greatest": greatest, "step": 0.0625,
            "sight": chance.choice([0.125, 0.1875, 0.25]), "stations": stations}


class Program:
    """The mixed-integer program of one plane, in tape steps."""

    def __init__(self, plane):
        self.plane = plane
        step = plane["step"]
        self.count = math.ceil(plane["height"] / plane["greatest"] - 1e-9)
        self.low, self.high = math.ceil(plane["least"] / step - 1e-9), math.floor(plane["greatest"] / step + 1e-9)
        self.height, self.sight = plane["height"] / step, plane["sight"] / step
        self.solver = highspy.Highs()
        self.solver.setOptionValue("output_flag", False)
        self.solver.setOptionValue("mip_rel_gap", 0.0)
        self.courses()
        self.missed = sum((self.station(*station) for station in plane["stations"]), 0)

    def whole(self, low, high):
        return self.solver.addVariable(lb=low, ub=high, type=highspy.HighsVarType.kInteger)

    def courses(self):
        solver, count = self.solver, self.count
        shows = [self.whole(self.low, self.high) for _ in range(count - 1)]
        self.lines = [0 * shows[0]]
        for course in shows:
            self.lines.append(self.lines[-1] + course)
        top = self.height - self.lines[-1]
        solver.addConstr(top >= self.plane["least"] / self.plane["step"])
        solver.addConstr(top <= self.plane["greatest"] / self.plane["step"])
        self.lines.append(self.height + 0 * shows[0])
        self.changes = 0
        for below, above in zip(shows, shows[1:] + [top]):
            sizes = range(math.floor(self.sight + 1e-9) + 1)
            is_size = [self.whole(0, 1) for _ in sizes]
            solver.addConstr(sum(is_size, 0) == 1)
            size = sum((k * is_size[k] for k in sizes), 0)
            solver.addConstr(above - below <= size)
            solver.addConstr(below - above <= size)
            self.changes += sum((k * k * is_size[k] for k in sizes), 0)

    def station(self, at, is_above, miss, least_strip, strip):
        """The cost of a station. Big numbers switch off what is asked of courses that do not hold it."""
        solver, step = self.solver, self.plane["step"]
        at, least_strip, big = at / step, least_strip / step, self.height + 10
        lands, leaves, narrow, is_over = (self.whole(0, 1) for _ in range(4))
        solver.addConstr(lands + leaves + narrow == 1)
        holds = []
        for course in range(self.count):
            lowest = max(course * self.low, self.height - (self.count - course) * self.high)
            highest = min((course + 1) * self.high, self.height - (self.count - course - 1) * self.low)
            if at < lowest - 1 or at > highest + 1:
                continue
            here = self.whole(0, 1)
            holds.append(here)
            under, over = at - self.lines[course], self.lines[course + 1] - at
            off = big * (1 - here)
            solver.addConstr(under >= -1 * off)
            solver.addConstr(over >= -1 * off)
            solver.addConstr(under <= 0.5 + off + big * (1 - lands) + big * is_over)
            solver.addConstr(over <= 0.5 + off + big * (1 - lands) + big * (1 - is_over))
            solver.addConstr((over if is_above else under) >= least_strip - off - big * (1 - leaves))
        solver.addConstr(sum(holds, 0) == 1)
        return miss * leaves + strip * narrow

    def least(self, cost):
        self.solver.minimize(cost)
        if self.solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            return None
        return round(self.solver.getObjectiveValue())

    def solve(self):
        """The least cost of stations, and the least sum of squared changes at that cost."""
        missed = self.least(self.missed)
        if missed is None:
            return None
        self.solver.addConstr(self.missed <= missed + 0.5)
        return missed, self.least(self.changes)


def main():
    chance = random.Random(SEED)
    print(f"# oracles/courses.py, highspy {version('highspy')}: height, least, greatest, step, sight; stations: height,")
    print("# above or below, miss, least strip, strip; courses, cost of stations, squares of changes, or `none`")
    for _ in range(PLANES):
        asked = plane(chance)
        program = Program(asked)
        found = program.solve()
        figures = " ".join(str(asked[key]) for key in ("height", "least", "greatest", "step", "sight"))
        stations = ";".join(
            f"{at} {'above' if is_above else 'below'} {miss} {least} {strip}"
            for at, is_above, miss, least, strip in asked["stations"])
        print(f"{figures} | {stations} | {program.count} {' '.join(map(str, found)) if found else 'none'}", flush=True)


main()
