"""Rows of tests/detail/published.csv worked out again with the standard library.

S-N curves of DNV come from the printed constants among the rows (log_a), those of EN from the category; the curves of metal from
the table of materials, whose constants are from memory.
"""
import csv
import math
import pathlib

from closed_forms import MPA, inputs_of, root

SOURCE = pathlib.Path(__file__).parents[2]


def table(path):
    with open(SOURCE / path, newline="", encoding="utf-8") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def printed_curves():
    """DNV: the name of a class, its (log a, slope) above and below the knee at 1e7 cycles."""
    curves = {}
    for row in table("tests/detail/published.csv"):
        if row["quantity"] == "log_a":
            given = dict(pair.split("=") for pair in row["inputs"].split("; "))
            curves.setdefault(given["curve"], []).append((float(row["value"]), float(given["slope"])))
    return curves


def category_curve(category):
    """EN 1993-1-9 7.1: slope 3 through 2e6 cycles to 5e6, slope 5 to the cut-off at 1e8."""
    first = math.log10(2e6) + 3 * math.log10(category)
    limit = category * (2 / 5) ** (1 / 3)
    return [(first, 3.0), (math.log10(5e6) + 5 * math.log10(limit), 5.0)]


class Curves:
    def __init__(self):
        self.printed = printed_curves()
        self.metal = {row["curve"]: tuple(float(row[name]) for name in ("a1", "a2", "a3", "a4")) for row in table("materials/fatigue.csv")
                      if row["kind"] == "metal"}

    def lines(self, name):
        return category_curve(float(name[3:])) if name.startswith("EN ") else self.printed[name]

    def cycles(self, name, psi):
        """Of a weld: the branch that is the longer life below the knee, the shorter above it."""
        lives = [10 ** (log_a - slope * math.log10(psi * MPA)) for log_a, slope in self.lines(name)]
        knee = 5e6 if name.startswith("EN ") else 1e7
        return lives[0] if len(lives) == 1 or lives[0] <= knee else lives[1]

    def strength(self, name, cycles):
        return root(lambda log: cycles - self.cycles(name, 10**log), 1.0, 6.0)


def metal_cycles(constants, top, ratio):
    a1, a2, a3, a4 = constants
    over = (top * (1 - ratio) ** a3) / 1e3 - a4
    return math.inf if over <= 0 else 10 ** (a1 + a2 * math.log10(over))


def net(g):
    """A ring less a slot of the hole's width through it, in strips across the hole (midpoint rule)."""
    outer, inner, hole, strips = g["od"] / 2, g["od"] / 2 - g["wall"], g["hole"], 4000
    area = math.pi * (outer**2 - inner**2)
    along = across = math.pi / 4 * (outer**4 - inner**4)
    for i in range(strips):
        x = hole * ((i + 0.5) / strips - 0.5)
        far, near, step = math.sqrt(outer**2 - x**2), math.sqrt(inner**2 - x**2), g["walls"] * hole / strips
        area -= (far - near) * step
        along -= (far**3 - near**3) / 3 * step
        across -= x**2 * (far - near) * step
    return area, along, across


def bar(d):
    """Area, section modulus and torsion modulus of a round bar."""
    return math.pi * d**2 / 4, math.pi * d**3 / 32, math.pi * d**3 / 16


def mises(g):
    return math.sqrt(g.get("bend", 0) ** 2 + 3 * g["twist"] ** 2)


def ring(g):
    """Stress times throat of a ring weld: bending by the line method, shear as its mean."""
    return g["shear"] * g["arm"] / (math.pi * g["od"] ** 2 / 4), g["shear"] / (math.pi * g["od"])


def axial_area(g, limit):
    mean, alternating = abs(g["pull"] - g["push"]) / 2, (g["pull"] + g["push"]) / 2
    return g["factor"] * (mean / limit + alternating / g["endurance"])


def pulsating_diameter(g, limit):
    return (16 * g["moment"] * g["factor"] / math.pi * (1 / limit + 1 / g["endurance"])) ** (1 / 3)


def torsion_factor(g):
    shear = g["torque"] / bar(g["od"])[2] / 2
    return 1 / (shear / (g["yield"] / 2) + g["notch"] * shear / g["endurance"])


def octahedral_load(g):
    _, modulus, torsion = bar(g["od"])
    return g["limit"] / (g["arm"] * math.sqrt(1 / modulus**2 + 3 / torsion**2))


class Details:
    def __init__(self):
        self.curves = Curves()

    def value(self, quantity, inputs):
        curve = dict(pair.split("=") for pair in inputs.split("; ")).get("curve")
        g = inputs_of("; ".join(pair for pair in inputs.split("; ") if not pair.startswith("curve=")))
        of = self.curves
        metal = lambda: of.metal[curve] if curve else (g["a1"], g["a2"], g["a3"], g["a4"])
        throat = lambda: 1.0 if "line" in g else 0.707 * g["leg"]
        ways = {
            "ring_modulus": lambda: math.pi * g["od"] ** 2 / 4, "ring_torsion": lambda: math.pi * g["od"] ** 3 / 4,
            "ring_length": lambda: math.pi * g["od"], "ring_leg": lambda: math.hypot(*ring(g)) / g["limit"],
            "ring_leg_by_shear": lambda: math.hypot(ring(g)[0] / 2, ring(g)[1]) / (0.707 * g["limit"]),
            "weld_stress": lambda: g["load"] / (throat() * g["length"]), "weld_load": lambda: g["limit"] * throat() * g["length"],
            "weld_length": lambda: g["load"] * g["factor"] / throat() / g.get("limit", g.get("line")) / g["welds"] + g["ends"],
            "fillet_load": lambda: 0.6 * g["strength"] * g["leg"] * math.sqrt(0.5) * g["share"],
            "weld_strength": lambda: 0.6 * g["strength"], "net_area": lambda: net(g)[0], "net_inertia_along": lambda: net(g)[1],
            "net_inertia_across": lambda: net(g)[2],
            "yield_load": lambda: g["yield"] * math.pi * (g["od"] - g["wall"]) * g["wall"],
            "least_overlap": lambda: 1.5 * g["od"], "most_clearance": lambda: 1 / 16, "least_sleeve_wall": lambda: g["wall"],
            "least_rosette": lambda: g["wall"] + 5 / 16, "most_rosette": lambda: 2.25 * g["wall"], "least_pitch": lambda: 4.0,
            "metal_cycles": lambda: metal_cycles(metal(), g["stress"], g["ratio"]),
            "equivalent": lambda: g["stress"] * (1 - g["ratio"]) ** metal()[2], "walker": lambda: (1 - g["ratio"]) ** g["exponent"],
            "weld_cycles": lambda: of.cycles(curve, g["range"]),
            "log_a": lambda: math.log10(of.cycles(curve, g["range"])) + g["slope"] * math.log10(g["range"] * MPA),
            "meeting": lambda: 10 ** ((of.lines(curve)[0][0] - 7) / g["slope"] - (of.lines(curve)[1][0] - 7) / 5),
            "strength": lambda: 10 ** of.strength(curve, g["cycles"]),
            "strength_share": lambda: 10 ** of.strength(curve, g["cycles"]) / g["category"],
            "cutoff_share": lambda: (5 / 100) ** (1 / 5), "equivalent_stress": lambda: mises(g),
            "yield_factor": lambda: g["yield"] / mises(g), "endurance_factor": lambda: g["endurance"] / mises(g),
            "power_life": lambda: (mises(g) / g["a"]) ** (1 / g["b"]), "mean_stress": lambda: g["pull"] / bar(g["od"])[0],
            "alternating_stress": lambda: g["notch"] * g["moment"] / bar(g["od"])[1],
            "goodman_diameter": lambda: math.sqrt(4 / math.pi * axial_area(g, g["ultimate"])),
            "soderberg_side": lambda: math.sqrt(axial_area(g, g["yield"])),
            "soderberg_diameter": lambda: pulsating_diameter(g, g["yield"]),
            "bending_goodman_diameter": lambda: pulsating_diameter(g, g["ultimate"]),
            "torsion_factor": lambda: torsion_factor(g), "octahedral_load": lambda: octahedral_load(g),
            "miner_damage": lambda: g["cycles"] / of.cycles(curve, g["range"]) + g["cycles_2"] / of.cycles(curve, g["range_2"]),
        }
        return ways[quantity]()
