"""Every unit that a file may name, in the SI unit of its dimension."""

import math
from fractions import Fraction


# Exact by definition: inch and pound (international agreement, 1959), standard gravity (3rd CGPM, 1901).
INCH, POUND, GRAVITY = Fraction("0.0254"), Fraction("0.45359237"), Fraction("9.80665")
FORCE = POUND * GRAVITY
UNITS = {  # in the SI unit of the dimension
    "in": INCH, "ft": 12 * INCH, "mm": Fraction(1, 1000), "cm": Fraction(1, 100), "m": Fraction(1),
    "lbf": FORCE, "kip": 1000 * FORCE, "N": Fraction(1), "kN": Fraction(1000),
    "psi": FORCE / INCH**2, "ksi": 1000 * FORCE / INCH**2, "MPa": Fraction(10**6), "GPa": Fraction(10**9),
    "in-lbf": INCH * FORCE, "ft-lbf": 12 * INCH * FORCE, "N-m": Fraction(1), "N-mm": Fraction(1, 1000),
    "kN-m": Fraction(1000),
    "lbf/in": FORCE / INCH, "lbf/ft": FORCE / INCH / 12, "N/m": Fraction(1), "N/mm": Fraction(1000),
    "in-lbf/rad": INCH * FORCE, "in-lbf/deg": INCH * FORCE * 180 / Fraction(math.pi), "N-m/rad": Fraction(1),
    "lb/in^3": POUND / INCH**3, "kg/m^3": Fraction(1), "lb": POUND, "kg": Fraction(1),
    "in^2": INCH**2, "mm^2": Fraction(1, 10**6), "in^3": INCH**3, "mm^3": Fraction(1, 10**9),
    "in^4": INCH**4, "mm^4": Fraction(1, 10**12), "rad": Fraction(1), "deg": Fraction(math.pi) / 180,
}
