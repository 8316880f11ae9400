#!/usr/bin/python3
"""Make chain.csv: tubes as a fine chain of beam elements, a method other than that of members.csv.

Run:      /usr/bin/python3 tests/reference/chain.py     (numpy, scipy; a minute)
Method:   Hermite beam elements with the consistent geometric stiffness of the axial load, equal and many; springs at
          the joints, loads at nodes, the bow as the geometric stiffness times its own shape; the lowest eigenvalue
          for the critical load. Nothing is solved in closed form. The error of such a chain falls with the fourth
          power of the element; two chains, N and 2 N elements, give the value and how far to trust it (Richardson:
          16/15 of the step). Rows whose two chains are further apart than 3e-7 are refused.
Compared: tests/mechanics/test_chain.c with the library: critical load, movements and end moments of one plane.
"""
import csv
import io
import math
import os
import pathlib
import random
import sys

os.environ["OPENBLAS_NUM_THREADS"] = "1"

import numpy as np
import scipy.linalg

TRUST = 3e-7
COLUMNS = ["bending_stiffness", "length", "stiffness_a", "stiffness_b", "compression", "spread_load", "point_load",
           "point_at", "moment_a", "moment_b", "bow_shape", "bow", "slope_a", "slope_b"]
WANT = ["critical_load", "turn_a", "turn_b", "quarter", "middle", "end_b", "moment_middle"]
HERE = pathlib.Path(__file__).parent


def element(h):
    bend = np.array([[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h], [-12, -6 * h, 12, -6 * h],
                     [6 * h, 2 * h * h, -6 * h, 4 * h * h]]) / h**3
    axial = np.array([[36, 3 * h, -36, 3 * h], [3 * h, 4 * h * h, -3 * h, -h * h], [-36, -3 * h, 36, -3 * h],
                      [3 * h, -h * h, -3 * h, 4 * h * h]]) / (30 * h)
    return bend, axial, np.array([h / 2, h * h / 12, h / 2, -h * h / 12])


def bow_at(case, x):
    """Offset and slope of the unloaded shape."""
    length, bow = case["length"], case["bow"]
    if case["bow_shape"] == "sine":
        return bow * math.sin(math.pi * x / length), bow * math.pi / length * math.cos(math.pi * x / length)
    return 4 * bow * x * (length - x) / length**2, 4 * bow * (length - 2 * x) / length**2


class Chain:
    """Unknowns: movement and rotation of each node, scaled by EI; B is supported laterally unless it is free."""

    def __init__(self, case, elements):
        self.case, self.n = case, elements
        length, stiffness = case["length"], case["bending_stiffness"]
        self.free = case["stiffness_b"] == "free"
        h = length / elements
        bend, axial, spread = element(h)
        size = 2 * (elements + 1)
        self.bend, self.axial, self.spread = np.zeros((size, size)), np.zeros((size, size)), np.zeros(size)
        for i in range(elements):
            at = slice(2 * i, 2 * i + 4)
            self.bend[at, at] += stiffness * bend
            self.axial[at, at] += axial
            self.spread[at] += spread
        self.springs = {1: case["stiffness_a"], size - 1: 0.0 if self.free else case["stiffness_b"]}
        for which, spring in self.springs.items():
            if not math.isinf(spring):
                self.bend[which, which] += spring
        held = [0] + ([] if self.free else [size - 2]) + [k for k, s in self.springs.items() if math.isinf(s)]
        self.loose = [k for k in range(size) if k not in held]
        self.size, self.h = size, h

    def critical(self):
        pick = np.ix_(self.loose, self.loose)
        # largest share of 1/P, so that the stiff high shapes do not drown the lowest
        top = len(self.loose) - 1
        values = scipy.linalg.eigh(self.axial[pick], self.bend[pick], eigvals_only=True, subset_by_index=(top, top))
        return 1 / values[0]

    def movement(self):
        c, load = self.case, np.zeros(self.size)
        bow = np.array([value for i in range(self.n + 1) for value in bow_at(c, i * self.h)])
        node = round(c["point_at"] / self.h)
        load += c["spread_load"] * self.spread
        load[2 * node] += c["point_load"]
        # a moment convex toward the plane turns A's end forward and B's back
        load[1] += c["moment_a"]
        load[-1] -= c["moment_b"]
        for which, turn, side in ((1, c["slope_a"], 1), (self.size - 1, c["slope_b"], -1)):
            spring = self.springs[which]
            if not math.isinf(spring):
                load[which] += spring * turn * side
        tangent = self.bend - c["compression"] * self.axial
        load += c["compression"] * self.bow_force(bow)
        fixed = np.zeros(self.size)
        if math.isinf(self.springs[1]):
            fixed[1] = c["slope_a"]
        if math.isinf(self.springs[self.size - 1]):
            fixed[-1] = -c["slope_b"]
        load -= tangent @ fixed
        out = fixed.copy()
        out[self.loose] += scipy.linalg.solve(tangent[np.ix_(self.loose, self.loose)], load[self.loose])
        return out

    def bow_force(self, bow):
        """Integral of v' y0', y0 as cubics through its own offsets and slopes."""
        return self.axial @ bow

    def results(self):
        v = self.movement()
        n, middle = self.n, self.n // 2
        at, c = slice(2 * middle, 2 * middle + 4), self.case
        bend, axial, spread = element(self.h)
        bow = np.array([value for i in (middle, middle + 1) for value in bow_at(c, i * self.h)])
        forces = c["bending_stiffness"] * bend @ v[at] - c["compression"] * axial @ (v[at] + bow) - c["spread_load"] * spread
        return np.array([self.critical(), v[1], v[-1], v[2 * (n // 4)], v[2 * middle], v[-2], forces[1]])


def richardson(coarse, fine):
    return fine + (fine - coarse) / 15


def cases():
    dice = random.Random(4130)
    ends = [(0.0, 0.0), (math.inf, math.inf), (math.inf, 0.0), (0.0, math.inf), (math.inf, "free"), (2.5, 0.7), (0.4, "free"),
            (3.382, 3.382), (40.0, 1.0), (math.inf, 5.0)]
    for i in range(60):
        a, b = ends[i % len(ends)]
        length, stiffness = dice.uniform(15, 60), dice.uniform(2e5, 2e6)
        unit = stiffness / length
        yield {"bending_stiffness": stiffness, "length": length, "stiffness_a": a * unit,
               "stiffness_b": b if b == "free" else b * unit, "share": (0.0, 0.3, -1.0, 0.7, 0.9, -2.5)[i // 10],
               "spread_load": dice.choice((0.0, dice.uniform(-3, 3))), "point_load": dice.choice((0.0, dice.uniform(-90, 90))),
               "point_at": length * dice.randrange(1, 4) / 4, "moment_a": dice.uniform(-300, 300) if a != math.inf else 0.0,
               "moment_b": dice.uniform(-300, 300) if b != math.inf else 0.0, "bow_shape": ("sine", "arc")[i % 2],
               "bow": dice.uniform(0, 0.01) * length, "slope_a": dice.uniform(-0.02, 0.02) if a else 0.0,
               "slope_b": dice.uniform(-0.02, 0.02) if b not in (0.0, "free") else 0.0}


def main():
    text, worst, count = io.StringIO(), 0.0, 0
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(["case"] + COLUMNS + ["want_" + name for name in WANT])
    for i, case in enumerate(cases()):
        case["compression"] = 0.0
        share = case.pop("share")
        case["compression"] = share * richardson(Chain(case, 32).critical(), Chain(case, 64).critical())
        chains = [Chain(case, n).results() for n in (16, 32, 64)]
        value, other = richardson(chains[1], chains[2]), richardson(chains[0], chains[1])
        scale = np.array([value[0]] + [max(abs(value[1:3]))] * 2 + [max(abs(value[3:6]))] * 3 + [abs(value[6])])
        apart = np.max(np.abs(value - other) / scale)
        assert apart[()] < TRUST, (i, apart)
        worst, count = max(worst, apart), count + 1
        writer.writerow([f"chain {i}"] + ["inf" if case[name] == math.inf else case[name] for name in COLUMNS]
                        + [f"{number + 0.0:.12g}" for number in value])
    head = (f"# {count} beam-columns as chains of 32 and 64 Hermite elements with geometric stiffness, for tests/mechanics/test_chain.c.\n"
            f"# Made by chain.py, see there. Inch, lbf, radian; turn and movement at the ends, a quarter and the middle.\n")
    (HERE / "chain.csv").write_text(head + text.getvalue(), encoding="utf-8")
    print(f"{count} chains; two agree to about {worst:.1e}")


if __name__ == "__main__":
    sys.exit(main())
