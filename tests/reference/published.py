#!/usr/bin/python3
"""Calculate every row of published.csv again, by formulas other than those of the library.

Run:      /usr/bin/python3 tests/reference/published.py     (numpy, scipy; under a minute)
Method:   what has a closed form of its own in closed_forms.py comes from there; critical loads, moments, movements and first
          yield from the numerical solution in boundary_value.py, the stress of columns from rules.py. Rows of material tables
          and of the program's own limits have nothing to work out.
"""
import csv
import math
import pathlib
import sys

sys.dont_write_bytecode = True

import closed_forms
from boundary_value import FINE
from closed_forms import measure
from rules import Material, Member, allowable_stress
from scenarios import check

PLACE = pathlib.Path(__file__).parent
TABLES = ("material_", "slender_limit", "default_factor")


class Row(closed_forms.Row):
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
        slender = g.get("slenderness") or (self.slender() if "relative_slenderness" in g else self.check()["slenderness"])
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
        ways = {
            "column_stress": self.column, "column_design_stress": lambda: 0.9 * self.column(),
            "column_share": lambda: self.column() / self.strength,
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
            "peak_moment": lambda: self.check()["peak_moment [in-lbf]"], "slenderness": lambda: self.check()["slenderness"],
            "column_load": lambda: self.check()["column_load [lbf]"],
        }
        return ways[name]() if name in ways else super().value(name)


def main():
    with open(PLACE / "published.csv", encoding="utf-8") as file:
        rows = [row for row in csv.DictReader(line for line in file if not line.startswith("#"))]
    missed = tables = 0
    for row in rows:
        if row["quantity"].startswith(TABLES):
            tables += 1
            continue
        value, want = Row(row["inputs"]).value(row["quantity"]), measure(row["value"])
        if abs(value - want) > measure(row["tolerance"]) * (1 + 1e-9):
            missed += 1
            print(f"{row['title']}, {row['place']}: {row['quantity']} ({row['inputs']}) is {row['value']}, "
                  f"worked out {value / want * float(row['value'].split(' ')[0]):.8g}")
    print(f"{len(rows)} rows, {tables} of tables and limits; {missed} differ")
    return missed > 0


if __name__ == "__main__":
    sys.exit(main())
