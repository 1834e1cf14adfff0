"""Which reference systems of the EPSG dataset are plan coordinates, and in which unit.

The EPSG Geodetic Parameter Dataset is owned by the International Association of Oil & Gas Producers (IOGP) and may be
used without charge with this acknowledgement; it is read here as it comes with PROJ.

    python3 -m venv venv && venv/bin/pip install pyproj==3.7.2
    venv/bin/python oracles/epsg_units.py > crates/exchange/src/epsg_units.csv

A system is left out when its axes have different units, when its unit is neither metre, foot nor US survey foot, or when
lengths in its plane are off by more than 1 in 200 anywhere on a grid of 5 by 5 places over its area of use.
"""

import warnings

import pyproj

WORST = 1 / 200
UNITS = {1.0: "m", 0.3048: "ft", 1200 / 3937: "us-ft"}


def unit(crs):
    factors = {axis.unit_conversion_factor for axis in crs.axis_info}
    if len(factors) != 1:
        return None
    factor = factors.pop()
    return next((name for metres, name in UNITS.items() if abs(factor - metres) < 1e-9), None)


def worst_scale(crs):
    plan = crs.sub_crs_list[0] if crs.is_compound else crs
    area = plan.area_of_use or crs.area_of_use
    if area is None:
        return 1.0
    width = area.east - area.west + (360 if area.east < area.west else 0)
    projection = pyproj.Proj(plan)
    worst = 0.0
    for i in range(5):
        for j in range(5):
            place = area.west + width * i / 4, area.south + (area.north - area.south) * j / 4
            factors = projection.get_factors(*place)
            worst = max(worst, abs(factors.meridional_scale - 1), abs(factors.parallel_scale - 1))
    return worst


def good_unit(code):
    crs = pyproj.CRS.from_epsg(code)
    if not crs.is_projected:
        return None
    name = unit(crs)
    try:
        return name if name and worst_scale(crs) <= WORST else None
    except pyproj.exceptions.ProjError:
        return None


def codes():
    return sorted({int(info.code) for info in pyproj.database.query_crs_info("EPSG", allow_deprecated=True)})


def runs():
    """Neighbouring codes of one unit; a code that is left out ends a run, a number that is no code does not."""
    run = None
    for code in codes():
        name = good_unit(code)
        if run and run[2] == name:
            run[1] = code
            continue
        if run and run[2]:
            yield run
        run = [code, code, name]
    if run and run[2]:
        yield run


warnings.filterwarnings("ignore")
version = pyproj.database.get_database_metadata("EPSG.VERSION")
print(f"# From the EPSG Geodetic Parameter Dataset {version} (IOGP, epsg.org), by way of pyproj {pyproj.__version__}.")
print("# from,to,unit")
for first, last, name in runs():
    print(f"{first},{last},{name}")
