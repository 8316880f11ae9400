#!/usr/bin/python3
"""Calculate every row of published.csv again, by formulas other than those of the library.

Run:      /usr/bin/python3 tests/reference/published.py     (numpy, scipy; under a minute)
Method:   sections as differences of powers of the two diameters; column curves from rules.py; critical loads,
          moments, movements and first yield from the numerical solution in boundary_value.py; stability
          functions and torsion from the textbook formula. Rows of material tables have nothing to work out.
"""
import csv
import math
import pathlib
import re
import sys

sys.dont_write_bytecode = True

from boundary_value import FINE
from rules import Material, Member, allowable_stress
from scenarios import check

POUND, INCH = 4.4482216152605, 0.0254
MPA = POUND / INCH**2 / 1e6
UNITS = {"in": 1, "ft": 12, "mm": 1 / 25.4, "m": 1 / INCH, "psi": 1, "ksi": 1e3, "MPa": 1 / MPA, "GPa": 1e3 / MPA,
         "lbf": 1, "kip": 1e3, "kN": 1e3 / POUND, "N-m": 1 / POUND / INCH, "kN-m": 1e3 / POUND / INCH, "in-lbf": 1,
         "lbf/in": 1, "deg": 1, "in^2": 1, "mm^2": 25.4**-2, "in^3": 1, "mm^3": 25.4**-3, "in^4": 1, "mm^4": 25.4**-4,
         "lb/in^3": 1}
PLACE = pathlib.Path(__file__).parent


def measure(text):
    number, _, unit = text.partition(" ")
    return float(number) * (UNITS[unit] if unit else 1)


def read(cell):
    return float(cell) if re.fullmatch(r"-?[\d.]+(e-?\d+)?", cell) else measure(cell) if cell[0] in "-0123456789." else cell


def section(od, wall):
    bore = od - 2 * wall
    area, inertia = math.pi * (od**2 - bore**2) / 4, math.pi * (od**4 - bore**4) / 64
    return {"area": area, "inertia": inertia, "section_modulus": 2 * inertia / od, "polar_inertia": 2 * inertia,
            "plastic_modulus": (od**3 - bore**3) / 6, "radius": math.sqrt(inertia / area),
            "shape_factor": (od**3 - bore**3) / 6 / (2 * inertia / od)}


def stability(share):
    """s and c with the sines of Livesley & Chandler; hyperbolic under tension."""
    if share == 0:
        return 4.0, 0.5
    a = math.pi * math.sqrt(abs(share))
    sin, cos = (math.sin(a), math.cos(a)) if share > 0 else (math.sinh(a), math.cosh(a))
    side = 1 if share > 0 else -1
    s = a * (sin - a * cos) * side / (2 - 2 * cos - side * a * sin)
    return s, side * (a - sin) / (sin - a * cos) * side


def reduction(ratio, modulus, strength):
    relative = ratio * strength / modulus
    return 1.0 if relative <= 0.11 else min(1.0, 0.038 / relative + 2 / 3)


class Row:
    def __init__(self, inputs):
        self.given = {name: read(value) for name, value in (pair.split("=") for pair in inputs.split("; "))}
        get = self.given.get
        self.od, self.wall, self.modulus = get("od", 1.25), get("wall", 0.058), get("elastic_modulus", 29e6)
        self.strength = get("yield", 36e3)
        self.section = section(self.od, self.wall)
        self.length = self.given.get("relative_length", 0) * self.section["radius"] or get("length", 30.0)
        self.stiffness = self.modulus * self.section["inertia"]
        self.euler = math.pi**2 * self.stiffness / self.length**2

    def member(self, **changes):
        g, unit = self.given, self.stiffness / self.length
        steel = Material(self.modulus, g.get("density", 0.283), self.strength, self.strength, self.strength,
                         g.get("column_intercept", self.strength), "johnson")
        own = {name: g[name] for name in Member.__dataclass_fields__ if name in g and name not in ("od", "wall", "length")}
        own["compression"] = g["share"] * self.euler if "share" in g else g.get("compression", 0.0)
        if "relative_a" in g:
            own["end_a"] = g["relative_a"] * unit
        if "relative_b" in g:
            own["end_b"] = g["relative_b"] * unit
        if "relative_bow" in g:
            own["bow"] = g["relative_bow"] * self.section["radius"]**2 / (self.od / 2)
        return Member(od=self.od, wall=self.wall, length=self.length, material=steel, factor=1.0, **{**own, **changes})

    def check(self, **changes):
        return check(self.member(**changes), FINE)[0]

    def column(self):
        g, curve = self.given, self.given["column_curve"]
        slender = g.get("slenderness") or (
            g["relative_slenderness"] * math.pi * math.sqrt(self.modulus / self.strength)
            if "relative_slenderness" in g else self.check()["slenderness"])
        return allowable_stress(curve, self.modulus, self.strength, g.get("column_intercept", self.strength), slender)

    def growth(self, name):
        return self.check()[name] / self.check(compression=0.0)[name]

    def load(self):
        return self.given.get("point_load", 0) + self.given.get("spread_load", 0) * self.length

    def yield_load(self):
        push = self.member().compression or 0.1 * self.euler
        return self.check(compression=push)["yield_factor"] * push

    def value(self, name):
        g, s = self.given, self.section
        fixity = lambda: self.check()["critical_load [lbf]"] / self.euler
        shear = g.get("torque", 0) * self.od / 2 / s["polar_inertia"]
        bending = g.get("moment_a", 0) / s["section_modulus"]
        ways = {
            "wall_reduction": lambda: reduction(g["diameter_to_wall"], self.modulus, self.strength),
            "wall_limit": lambda: 0.45 * self.modulus / self.strength,
            "column_stress": self.column, "column_design_stress": lambda: 0.9 * self.column(),
            "column_share": lambda: self.column() / self.strength,
            "transition": lambda: math.sqrt(7 * math.pi**2 * self.modulus / 3 / g["column_intercept"]),
            "critical_load": lambda: self.check()["critical_load [lbf]"], "fixity": fixity,
            "critical_number": lambda: math.pi**2 * fixity(), "critical_wave": lambda: math.pi * math.sqrt(fixity()),
            "critical_half_wave": lambda: math.pi / 2 * math.sqrt(fixity()),
            "effective_share": lambda: 1 / math.sqrt(fixity()), "peak_stress": lambda: self.check()["peak_stress [psi]"],
            "moment_growth": lambda: self.growth("peak_moment [in-lbf]"),
            "deflection_growth": lambda: self.growth("deflection [in]"),
            "eccentric_growth": lambda: self.check()["peak_moment [in-lbf]"] / (g["share"] * self.euler * g["eccentricity"]),
            "bow_growth": lambda: self.check()["peak_moment [in-lbf]"] / (g["share"] * self.euler * g["bow"]),
            "yield_load": self.yield_load, "yield_stress_of_column": lambda: self.yield_load() / s["area"],
            "moment_number": lambda: self.check()["peak_moment [in-lbf]"] / self.load() / self.length,
            "deflection_number": lambda: self.check()["deflection [in]"] * self.stiffness / self.load() / self.length**3,
            "fit_number": lambda: self.check()["fit_moment [in-lbf]"] * self.length**2 / self.stiffness / g["miss_a"],
            "stiffness_function": lambda: stability(g["share"])[0], "carry_over": lambda: stability(g["share"])[1],
            "shear_stress": lambda: shear, "bending_stress": lambda: bending,
            "largest_shear": lambda: math.hypot(bending / 2, shear),
        }
        return s[name] if name in s else ways[name]()


def main():
    with open(PLACE / "published.csv", encoding="utf-8") as file:
        rows = [row for row in csv.DictReader(line for line in file if not line.startswith("#"))]
    missed = tables = 0
    for row in rows:
        if row["quantity"].startswith("material_"):
            tables += 1
            continue
        value, want = Row(row["inputs"]).value(row["quantity"]), measure(row["value"])
        if abs(value - want) > measure(row["tolerance"]) * (1 + 1e-9):
            missed += 1
            print(f"{row['title']}, {row['place']}: {row['quantity']} ({row['inputs']}) is {row['value']}, "
                  f"worked out {value / want * float(row['value'].split(' ')[0]):.8g}")
    print(f"{len(rows)} rows, {tables} of material tables; {missed} differ")
    return missed > 0


if __name__ == "__main__":
    sys.exit(main())
