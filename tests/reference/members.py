#!/usr/bin/python3
"""Make members.csv: members with the results that `check` must give, by another method.

Run:      /usr/bin/python3 tests/reference/members.py     (numpy, scipy; some minutes)
Writes:   members.csv beside this file, the same bytes every time on one set of libraries.
Method:   boundary_value.py solves the differential equation of the beam-column numerically and
          finds the critical load as an eigenvalue; no closed-form solution is used.  rules.py
          holds section, curves and stress as they are defined, and finds load factors by a scan
          from zero with humps followed up, then a root finder.  scenarios.py takes what is not
          known at its worst.  cases.py lists the members;
          materials.csv is theirs and written by hand.
Accuracy: every member is worked out at two resolutions, which must agree to AGREEMENT (places
          along the tube to PLACES of its length; CLOSE_TO_CRITICAL as loaded, where rounding of
          the load itself is magnified; SEARCHED where a direction is searched, clocks to 0.001 deg
          and what depends on them to DIRECTED).  No result hangs on a threshold or a tie closer than
          CLEAR.
"""
import os
import sys

os.environ["OPENBLAS_NUM_THREADS"] = "1"
sys.dont_write_bytecode = True

import csv
import io
import math
import pathlib

import numpy
import scipy

from boundary_value import COARSE, FINE
from cases import reference_members
from rules import Material, Member
from scenarios import ANY, CLOCKS, check

AGREEMENT = 2e-12
CLOSE_TO_CRITICAL = 1e-10
PLACES = 1e-9
SEARCHED = 1e-10
DIRECTED = 1e-4
CLEAR = 1e-7
HERE = pathlib.Path(__file__).parent

COLUMNS = {"od": "in", "wall": "in", "length": "in", "end_a": "in-lbf/rad", "end_b": "in-lbf/rad", "column_curve": "",
           "compression": "lbf", "eccentricity": "in", "eccentricity_clock": "deg", "moment_a": "in-lbf",
           "moment_b": "in-lbf", "moment_clock": "deg", "point_load": "lbf", "point_at": "in", "point_clock": "deg",
           "spread_load": "lbf/in", "spread_clock": "deg", "vertical_g": "", "slope": "deg", "torque": "in-lbf",
           "bow": "in", "bow_clock": "deg", "bow_shape": "", "bow_at": "in", "miss_a": "in", "miss_a_clock": "deg",
           "miss_b": "in", "miss_b_clock": "deg", "gap": "in", "gap_stiffness": "lbf/in", "weld_zone": "in",
           "dressed": "in", "factor": "", "factor_yield": ""}


def read_materials():
    with open(HERE / "materials.csv", encoding="utf-8") as file:
        rows = list(csv.DictReader(line for line in file if not line.startswith("#")))
    return {row["material"]: Material(float(row["elastic_modulus [psi]"]), float(row["density [lb/in^3]"]),
                                      float(row["yield [psi]"]), float(row["compression_yield [psi]"]),
                                      float(row["weld_yield [psi]"]), float(row["column_intercept [psi]"]),
                                      row["column_curve"]) for row in rows}


def differences(one, other, length):
    """Relative differences of the numbers of two results; places count against the length."""
    found = {}
    for name, value in one.items():
        if isinstance(value, float) and math.isfinite(value):
            scale = 360.0 if "_clock" in name else length if name == "peak_moment_at [in]" else abs(value)
            if name.startswith("margin"):
                scale = 1.0 + abs(value)
            found[name] = abs(value - other[name]) / scale if scale else abs(other[name])
        elif value != other[name]:
            found[name] = math.inf
    return found


def assert_clear(case, results, governs, found):
    """No verdict, remark, governing rule or scenario may hang on rounding."""
    member = governs.case.member
    margins = sorted(governs.case.margins(governs.factors).values())
    steps = [high - low for low, high in zip(margins, margins[1:]) if not math.isinf(low)]
    assert all(step < 1e-10 or step > CLEAR for step in steps), (case, margins)
    near = [one.ratio - results["margin"] - 1.0 for one in found if not math.isinf(one.ratio)]
    assert all(step < 1e-10 or step > CLEAR for step in near), (case, near)
    thresholds = [(results["margin"], 0.0), (results["slenderness"], 150.0), (member.length / member.od, 10.0),
                  (results["yield_factor"], 0.0), (results["interaction_factor"], 0.0)]
    if results["stress_use"] is not None:
        thresholds.append((results["axial [lbf]"] / governs.case.critical_load, 1.0))
    assert all(value == limit or abs(value - limit) > CLEAR for value, limit in thresholds), (case, thresholds)


def worked_out(case, member):
    """The results at the finer resolution, once they agree with the coarser, and how well they agree."""
    fine, governs, found = check(member, FINE)
    apart = differences(fine, check(member, COARSE)[0], member.length)
    place = apart.pop("peak_moment_at [in]", 0.0)
    near = max(fine["axial [lbf]"], fine["fit_axial [lbf]"]) > 0.9 * fine["critical_load [lbf]"]
    assert_clear(case, fine, governs, found)
    if any(getattr(member, clock) == ANY for clock in CLOCKS):
        loose = [name for name in apart if not name.startswith("margin")]
        assert max(apart.pop(name) for name in loose) < DIRECTED and place < DIRECTED, (case, apart, place)
        assert max(apart.values()) < SEARCHED, (case, apart)
        return fine, True, 0.0, 0.0
    assert max(apart.values()) < (CLOSE_TO_CRITICAL if near else AGREEMENT), (case, apart)
    assert place < PLACES, (case, place)
    return fine, near, max(apart.values()), place


def given(inputs, name):
    """A clock that is not typed, or a weld zone, would be one that is not known."""
    return inputs.get(name, 0.0 if name in CLOCKS or name == "weld_zone" else None)


def input_cell(value):
    return "" if value is None else repr(value) if isinstance(value, float) else value


def result_cell(value):
    if value is None:
        return ""
    return f"{value + 0.0:.13g}" if isinstance(value, float) else value


def with_unit(name, unit):
    return f"{name} [{unit}]" if unit else name


def main():
    materials = read_materials()
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    plain, close, places, rows = 0.0, 0.0, 0.0, 0
    for case, why, material, inputs in reference_members(materials):
        member = Member(material=materials[material], **inputs)
        results, near, apart, place = worked_out(case, member)
        if not rows:
            writer.writerow(["case", "why", "material"] + [with_unit(*column) for column in COLUMNS.items()]
                            + [f"want_{name}" for name in results])
        writer.writerow([case, why, material] + [input_cell(given(inputs, name)) for name in COLUMNS]
                        + [result_cell(value) for value in results.values()])
        plain, close, places, rows = (plain if near else max(plain, apart), max(close, apart) if near else close,
                                      max(places, place), rows + 1)
    head = (f"# {rows} members with the results that check must give (want_...), for tests; materials.csv goes with them.\n"
            f"# Made by members.py: numerical solution of the differential equation, no closed form. Python "
            f"{'.'.join(map(str, sys.version_info[:3]))}, numpy {numpy.__version__}, scipy {scipy.__version__}.\n"
            f"# Inputs are exact doubles. Two resolutions agree to {AGREEMENT:g} relative; places along the tube to {PLACES:g} "
            f"of its length;\n# where the load or the squeeze is close to critical, to {CLOSE_TO_CRITICAL:g}; margins of a "
            f"direction that is searched, to {SEARCHED:g}.\n")
    (HERE / "members.csv").write_text(head + text.getvalue(), encoding="utf-8")
    print(f"{rows} members; two resolutions agree to {plain:.1e}, close to critical {close:.1e}, places {places:.1e}")


if __name__ == "__main__":
    main()
