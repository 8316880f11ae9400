"""The formulas of books, written out again: standard library only, so that the tests run them everywhere.

Units: inch, lbf, psi, radian. `Row` works out rows of published.csv that have a closed form; published.py has the others.
"""
import math
import re

POUND, INCH = 4.4482216152605, 0.0254
MPA = POUND / INCH**2 / 1e6
UNITS = {"in": 1, "ft": 12, "mm": 1 / 25.4, "m": 1 / INCH, "psi": 1, "ksi": 1e3, "MPa": 1 / MPA, "GPa": 1e3 / MPA,
         "lbf": 1, "kip": 1e3, "N": 1 / POUND, "kN": 1e3 / POUND, "N-m": 1 / POUND / INCH, "kN-m": 1e3 / POUND / INCH,
         "in-lbf": 1, "ft-lbf": 12, "lbf/in": 1, "N/mm": 1e3 / POUND * INCH, "deg": 1, "in^2": 1, "mm^2": 25.4**-2, "in^3": 1,
         "mm^3": 25.4**-3, "in^4": 1, "mm^4": 25.4**-4, "lb/in^3": 1}
IMPERFECTION = {"en-a0": 0.13, "en-a": 0.21, "en-b": 0.34, "en-c": 0.49, "en-d": 0.76}  # EN 1993-1-1:2005 table 6.1


def measure(text):
    number, _, unit = text.partition(" ")
    return float(number) * (UNITS[unit] if unit else 1)


def read(cell):
    return float(cell) if re.fullmatch(r"-?[\d.]+(e-?\d+)?", cell) else measure(cell) if cell[0] in "-0123456789." else cell


def inputs_of(cell):
    return {name: read(value) for name, value in (pair.split("=") for pair in cell.split("; ") if pair)}


def root(function, low, high):
    """Where a function changes its sign, by bisection."""
    below = function(low) < 0
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if (function(middle) < 0) == below else (low, middle)
    return (low + high) / 2


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


def sway(share):
    """m, n and o of a member that may sway (Livesley & Chandler; Horne & Merchant)."""
    s, c = stability(share)
    m = 2 * s * (1 + c) / (2 * s * (1 + c) - math.pi**2 * share)
    return m, s - s * (1 + c) * m / 2, -s * c + s * (1 + c) * m / 2


def reduction(ratio, modulus, strength):
    relative = ratio * strength / modulus
    return 1.0 if relative <= 0.11 else min(1.0, 0.038 / relative + 2 / 3)


def column_stress(curve, modulus, strength, intercept, slender):
    critical = math.pi**2 * modulus / slender**2
    if curve in IMPERFECTION:
        relative = math.sqrt(strength / critical)
        half = (1 + IMPERFECTION[curve] * (relative - 0.2) + relative**2) / 2
        return strength * min(1.0, 1 / (half + math.sqrt(half**2 - relative**2)))
    if curve == "aisc":  # AISC 360 E3-2, E3-3
        return strength * 0.658 ** (strength / critical) if strength / critical <= 2.25 else 0.877 * critical
    if curve == "johnson":
        return strength * (1 - strength / critical / 4) if critical >= strength / 2 else critical
    if curve == "three-halves":  # meets the hyperbola with a common tangent at 3/7 of the intercept
        limit = math.sqrt(7 * math.pi**2 * modulus / 3 / intercept)
        return intercept * (1 - 4 / 7 * (slender / limit) ** 1.5) if slender <= limit else critical
    return critical


def wave_of_springs(a, b):
    """sqrt(P L^2/EI) of a held column on end springs, in EI/L; b may be "free"."""
    if b == "free":
        return root(lambda x: x * math.tan(x) - a, 1e-9, math.pi / 2 - 1e-12)
    if a == b:
        return root(lambda x: -x / math.tan(x / 2) - a, math.pi, 2 * math.pi - 1e-12)
    if b == 0:  # the far end is pinned
        return root(lambda x: -x**2 * math.sin(x) / (math.sin(x) - x * math.cos(x)) - a, math.pi, 4.4934)
    raise KeyError((a, b))


def growth(kind, load, share):
    """Moment or deflection of a beam under a push or pull, over that without it (Timoshenko & Gere, ch. 1)."""
    u = math.pi / 2 * math.sqrt(abs(share))
    if share < 0:
        t, h = math.tanh(u), math.cosh(u)
        return {("moment", "point"): t / u, ("moment", "spread"): 2 * (h - 1) / (u**2 * h),
                ("deflection", "point"): 3 * (u - t) / u**3,
                ("deflection", "spread"): 12 * (2 / h - 2 + u**2) / (5 * u**4)}[kind, load]
    t, c = math.tan(u), math.cos(u)
    return {("moment", "point"): t / u, ("moment", "spread"): 2 * (1 - c) / (u**2 * c), ("moment", "couples"): 1 / c,
            ("deflection", "point"): 3 * (t - u) / u**3, ("deflection", "spread"): 12 * (2 / c - 2 - u**2) / (5 * u**4),
            ("built in", "point"): 2 * (1 - c) / (u * math.sin(u)), ("built in", "spread"): 3 * (t - u) / (u**2 * t)}[kind, load]


class Row:
    def __init__(self, inputs):
        self.given = inputs_of(inputs)
        get = self.given.get
        self.od, self.wall, self.modulus = get("od", 1.25), get("wall", 0.058), get("elastic_modulus", 29e6)
        self.strength = get("yield", 36e3)
        self.section = section(self.od, self.wall)
        self.length = get("relative_length", 0) * self.section["radius"] or get("length", 30.0)
        self.stiffness = self.modulus * self.section["inertia"]
        self.euler = math.pi**2 * self.stiffness / self.length**2

    def slender(self):
        g = self.given
        relative = g.get("relative_slenderness", 0) * math.pi * math.sqrt(self.modulus / self.strength)
        return g.get("slenderness") or relative or self.length / self.section["radius"]

    def column(self):
        g = self.given
        return column_stress(g["column_curve"], self.modulus, self.strength, g.get("column_intercept", self.strength), self.slender())

    def wave(self):
        g = self.given
        ends = g.get("end_a"), g.get("end_b")
        if ends == ("fixed", "pinned"):
            return root(lambda x: math.tan(x) - x, math.pi + 1e-9, 3 * math.pi / 2 - 1e-9)
        of_ends = {("pinned", "pinned"): 1, ("fixed", "free"): 0.5, ("fixed", "fixed"): 2, (None, None): 1}
        if "relative_a" not in g:
            return math.pi * of_ends[ends]
        return wave_of_springs(g["relative_a"], g.get("relative_b", g.get("end_b", 0)))

    def grown(self, kind):
        g = self.given
        load = next(word for word, name in (("point", "point_load"), ("spread", "spread_load"), ("couples", "moment_a")) if name in g)
        if "fixed" in (g.get("end_a"), g.get("end_b")):
            kind = {"moment": "built in"}[kind]
        return growth(kind, load, g["share"])

    def first_yield(self):
        """Perry: the smaller root of (F - p)(Q - p) = n Q p, with n = bow over radius^2/(od/2)."""
        s, strength = self.section, self.strength
        critical = self.euler / s["area"]
        n = self.given.get("relative_bow") or self.given["bow"] * self.od / 2 / s["radius"]**2
        half = (strength + (1 + n) * critical) / 2
        return half - math.sqrt(half**2 - strength * critical)

    def bar(self):
        """Elastic core of a rectangle beyond first yield: M = M_y (3 - (core/height)^2)/2."""
        g = self.given
        first = g["yield"] * g["bar_width"] * g["bar_height"]**2 / 6
        return g["bar_height"] * math.sqrt(3 - 2 * g["moment_a"] / first), g["moment_a"] / first

    def kept_curvature(self):
        g, (core, over) = self.given, self.bar()
        return g["yield"] / self.modulus * (2 / core - 2 * over / g["bar_height"])

    def peak_moment(self):
        """Of a pinned tube under a spread load and a push."""
        g = self.given
        flat = g["spread_load"] * self.length**2 / 8
        return flat * growth("moment", "spread", g["compression"] / self.euler) if g.get("compression") else flat

    def peak_stress(self):
        """Of a pinned tube under a push with an eccentricity or a spread load."""
        g, s = self.given, self.section
        push = g["compression"]
        moment = push * g["eccentricity"] * growth("moment", "couples", push / self.euler) if "eccentricity" in g else self.peak_moment()
        return push / s["area"] + moment / s["section_modulus"]

    def transition(self):
        """Where the curve of short columns touches the hyperbola: at 3/7 of the intercept, Johnson's at half of the yield."""
        g = self.given
        if g["column_curve"] == "johnson":
            return math.pi * math.sqrt(2 * self.modulus / self.strength)
        return math.sqrt(7 * math.pi**2 * self.modulus / 3 / g["column_intercept"])

    def value(self, name):
        """KeyError where the row has no closed form here."""
        g, s = self.given, self.section
        shear = g.get("torque", 0) * self.od / 2 / s["polar_inertia"]
        bending = g.get("moment_a", 0) / s["section_modulus"]
        ways = {
            "wall_reduction": lambda: reduction(g["diameter_to_wall"], self.modulus, self.strength),
            "wall_limit": lambda: 0.45 * self.modulus / self.strength,
            "column_stress": self.column, "column_design_stress": lambda: 0.9 * self.column(),
            "column_share": lambda: self.column() / self.strength, "column_load": lambda: self.column() * s["area"],
            "slenderness": self.slender,
            "transition": self.transition,
            "critical_load": lambda: self.wave()**2 * self.stiffness / self.length**2,
            "fixity": lambda: (self.wave() / math.pi)**2, "critical_number": lambda: self.wave()**2,
            "critical_wave": self.wave, "critical_half_wave": lambda: self.wave() / 2,
            "effective_share": lambda: math.pi / self.wave(),
            "moment_growth": lambda: self.grown("moment"), "deflection_growth": lambda: self.grown("deflection"),
            "eccentric_growth": lambda: growth("moment", "couples", g["share"]), "bow_growth": lambda: 1 / (1 - g["share"]),
            "yield_load": lambda: self.first_yield() * s["area"], "yield_stress_of_column": self.first_yield,
            "stiffness_function": lambda: stability(g["share"])[0], "carry_over": lambda: stability(g["share"])[1],
            "shear_stress": lambda: shear, "bending_stress": lambda: bending,
            "largest_shear": lambda: math.hypot(bending / 2, shear),
            "plastic_moment": lambda: s["plastic_modulus"] * self.strength, "peak_moment": self.peak_moment,
            "peak_stress": self.peak_stress, "bar_core": lambda: self.bar()[0], "bar_residual": lambda: (self.bar()[1] - 1) * g["yield"],
            "bar_radius": lambda: 1 / self.kept_curvature(),
        }
        return s[name] if name in s else ways[name]()
