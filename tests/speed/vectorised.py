#!/usr/bin/python3
"""The check of rows.c's load cases in NumPy, a whole column of cases at a time: vectorised.py ROWS.csv > RESULT.csv

For the columns that rows.c writes: push, spread load and weight, half-wave bow, a miss at A (kept or gone), both ends
fixed, a weld zone. It writes the columns of `railbow check --format csv`; remarks and note stay empty.

In shares of the length, xi = x/L, m = M L/EI, w = v/L, z = P L^2/EI = k^2, and t = xi - 1/2 from the middle, a plane
has

    m = S/2 cos(kt)/cos(k/2) - D/2 sin(kt)/sin(k/2) + q (cos(kt)/cos(k/2) - 1)/z + c cos(pi t)
    c = z pi^2 bow/(pi^2 - z)

with the sum S and the difference D of the end moments, which follow from w'(0) = miss and w'(1) = 0.  (Debian: python3-numpy)
"""
import csv
import os
import sys

import numpy as np

MATERIALS = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "materials", "steel_tube.csv")
PI = np.pi
NEAR_CRITICAL = 1 - 1e-10
CELLS = 8  # the tube between the weld zones is looked at in so many, each weld zone in two
AT_ONCE = 500  # rows: arrays that stay in the processor's caches; all 20 000 at once take twice as long
STEPS = 8  # from no load to the most that can be carried, looking for the first that reaches the limit


# ---- reading ---------------------------------------------------------------------------------------------------

def material_named(name):
    with open(MATERIALS, encoding="utf-8") as file:
        rows = csv.DictReader(line for line in file if not line.startswith("#"))
        row = next(row for row in rows if row["material"] == name)
    psi = {key: 1e3 * float(row[f"{key} [ksi]"])
           for key in ("elastic_modulus", "yield", "compression_yield", "weld_yield")}
    return {**psi, "density": float(row["density [lb/in^3]"]), "most": float(row["wall_up_to [in]"])}


def read(file):
    """The columns by name without unit; numbers as arrays."""
    head, *rows = csv.reader(file)
    columns = {name.split(" ")[0]: list(cells) for name, cells in zip(head, zip(*rows))}
    words = {"case", "material", "end_a", "end_b"}
    return {name: cells if name in words else np.array(cells, float) for name, cells in columns.items()}


def toward(size, clock):
    """Up and right: two planes, the first axis of every array that has them."""
    return size * np.array([np.cos(np.radians(clock)), np.sin(np.radians(clock))])


# ---- one load factor -------------------------------------------------------------------------------------------

class Planes:
    """Both planes of some tubes under z, q and what is built in; an array's last axis is the tube."""

    def __init__(self, z, q, bow, miss):
        self.c = z * PI**2 * bow / (PI**2 - z)
        self.z = z = np.maximum(z, 1e-7)  # stands for no push: the forms below divide by it
        self.k = k = np.sqrt(z)
        half_tangent, self.flat = np.tan(k / 2), q / z
        turn = q * (half_tangent / (k / 2) - 1) / (2 * z) + self.c / PI  # w'(0) of the pinned tube
        self.sum = (miss - 2 * turn) * k / half_tangent
        self.difference = miss * z / (2 - k / half_tangent)
        self.even = (self.sum / 2 + self.flat) / np.cos(k / 2)
        self.odd = -self.difference / 2 / np.sin(k / 2)

    def waves(self, t, which):
        """m without the bow's own wave c cos(pi t), with its first and second derivative."""
        k, even, odd, flat = self.k[which], self.even[:, which], self.odd[:, which], self.flat[:, which]
        cosine, sine = np.cos(k * t), np.sin(k * t)
        value = even * cosine + odd * sine
        return value - flat, k * (odd * cosine - even * sine), -k**2 * value

    def moment(self, t, which=slice(None)):
        """m, m' and m'' of both planes at t of the tubes `which`."""
        value, slope, bend = self.waves(t, which)
        c = self.c[:, which]
        wave = c * np.cos(PI * t)
        return value + wave, slope - PI * c * np.sin(PI * t), bend - PI**2 * wave

    def movement(self, t, which=slice(None)):
        """w, w' and w'': m is what statics makes of the loads, and the push times the movement."""
        value, slope, bend = self.waves(t, which)
        z, c, q = self.z[which], self.c[:, which], (self.flat * self.z)[:, which]
        total, difference = self.sum[:, which], self.difference[:, which]
        wave = c / PI**2 * np.cos(PI * t)
        return ((value - total / 2 + difference * t - q * (0.25 - t * t) / 2) / z + wave,
                (slope + difference + q * t) / z - c / PI * np.sin(PI * t), (bend + q) / z - PI**2 * wave)


def largest(curve, places):
    """Largest size of a vector along each tube and where. places: t, ascending along the first axis, a tube a column.

    A cell where the size's slope goes from up to down holds a maximum, which Newton's rule finds."""
    value, slope, _ = curve(places[:, None, :])
    size, uphill = (value**2).sum(1), (value * slope).sum(1)
    best = size.argmax(0)
    tubes = np.arange(size.shape[1])
    most, at = size[best, tubes], places[best, tubes]
    cell, tube = np.nonzero((uphill[:-1] > 0) & (uphill[1:] < 0))
    low, high = places[cell, tube], places[cell + 1, tube]
    up, down = uphill[cell, tube], uphill[cell + 1, tube]
    t = low + (high - low) * up / (up - down)
    for _ in range(6):
        f, d1, d2 = curve(t, tube)
        rise, bend = (f * d1).sum(0), (d1 * d1 + f * d2).sum(0)
        low, high = np.where(rise > 0, t, low), np.where(rise > 0, high, t)
        newton = t - rise / np.where(bend < 0, bend, np.nan)
        t = np.where((newton >= low) & (newton <= high), newton, (low + high) / 2)
    top = (curve(t, tube)[0]**2).sum(0)
    order = np.argsort(top)
    higher = order[top[order] > most[tube[order]]]
    most[tube[higher]], at[tube[higher]] = top[higher], t[higher]  # of one tube's several the highest comes last
    return np.sqrt(most), at


class Tubes:
    """Load cases in rows, and what of them does not depend on the load factor."""

    def __init__(self, rows, material):
        m, E = material, material["elastic_modulus"]
        self.od, self.wall, self.length, self.compression = (rows[name] for name in
                                                             ("od", "wall", "length", "compression"))
        mean = self.od - self.wall
        self.area = PI * self.wall * mean
        self.inertia = self.area * (mean**2 + self.wall**2) / 8
        self.modulus = 2 * self.inertia / self.od
        self.radius = np.sqrt(self.inertia / self.area)
        self.weight = m["density"] * self.area * self.length
        self.unit = E * self.inertia / self.length
        self.reduction = self.kept(m, m["compression_yield"])
        # tube, weld zone
        self.pressed = np.array([self.reduction * m["compression_yield"],
                                 self.kept(m, m["weld_yield"]) * m["weld_yield"]])
        self.pulled = np.array([m["yield"], m["weld_yield"]])[:, None]

        self.critical = 4 * PI**2 * self.unit / self.length
        self.effective = self.length / 2
        self.slenderness = self.effective / self.radius
        euler, full = PI**2 * E / self.slenderness**2, self.pressed[0]
        self.column_stress = np.where(euler < full / 2, euler, full * (1 - full / (4 * euler)))
        self.column_load = self.column_stress * self.area

        spread = toward(rows["spread_load"], rows["spread_clock"])
        spread[0] -= self.weight / self.length * rows["vertical_g"]
        self.z, self.q = self.compression * self.length / self.unit, spread * self.length**2 / self.unit
        self.bow = toward(rows["bow"], rows["bow_clock"]) / self.length
        self.miss = toward(rows["miss_a"], rows["miss_a_clock"]) / self.length
        weld = rows["weld_zone"] / self.length
        ends, inside = np.linspace(0, 1, 3)[:, None] * weld, np.linspace(0, 1, CELLS + 1)[:, None] * (1 - 2 * weld)
        self.places = ends - 0.5, inside + weld - 0.5, 0.5 - ends[::-1]

    def kept(self, m, strength):
        relative = self.od / self.wall * strength / m["elastic_modulus"]
        return np.where(relative <= 0.11, 1, np.minimum(1, 0.038 / relative + 2 / 3))

    def planes(self, factor, which=slice(None)):
        return Planes(factor * self.z[which], factor * self.q[:, which], self.bow[:, which], self.miss[:, which])

    def peaks(self, planes, which=slice(None)):
        """Largest moments of tube and weld zone, M, and where, from A."""
        at_a, middle, at_b = (largest(planes.moment, places[:, which]) for places in self.places)
        weld = np.where(at_a[0] >= at_b[0], at_a, at_b)
        moment, at = np.stack([middle, weld], axis=1)
        return moment * self.unit[which], (at + 0.5) * self.length[which]

    def fibres(self, moments, axial, which=slice(None)):
        """Stress of the pressed and of the pulled fibre, tube and weld zone, and the use of each."""
        bending, push = moments / self.modulus[which], axial / self.area[which]
        stress = np.maximum([push + bending, bending - push], 0)
        return stress, stress / np.array([self.pressed[:, which], np.broadcast_to(self.pulled, bending.shape)])

    def use(self, factor, which):
        moments, _ = self.peaks(self.planes(factor, which), which)
        return self.fibres(moments, factor * self.compression[which], which)[1].max((0, 1))

    def interaction(self, factor, which):
        moments, _ = self.peaks(self.planes(factor, which), which)
        return (factor * self.compression[which] / self.column_load[which]
                + (moments / self.modulus[which] / self.pressed[:, which]).max(0))

    def keeping(self, kept):
        """The miss where it is kept, none elsewhere."""
        other = object.__new__(Tubes)
        other.__dict__.update(self.__dict__, miss=np.where(kept, self.miss, 0))
        return other


# ---- load factors ----------------------------------------------------------------------------------------------

def first_reach(level, most):
    """Smallest factor up to `most` at which level(factor, tubes) is 1; `most` if there is none."""
    def height(factor, which):  # 0 at the limit, close to linear where the tube nears its critical load
        share = level(factor, which)
        return (share - 1) / (share + 1)

    everything = np.arange(most.size)
    low, high = np.zeros_like(most), most.copy()
    at_low = height(low, everything)
    at_high = np.full_like(most, np.nan)
    found = at_low >= 0
    high[found] = 0
    for step in range(1, STEPS + 1):
        open_ = np.flatnonzero(~found)
        factor = most[open_] * step / STEPS
        here = height(factor, open_)
        reached = here >= 0
        found[open_[reached]] = True
        high[open_[reached]], at_high[open_[reached]] = factor[reached], here[reached]
        low[open_[~reached]], at_low[open_[~reached]] = factor[~reached], here[~reached]

    open_ = np.flatnonzero(at_high > 0)
    a, b, at_a, at_b = low[open_], high[open_], at_low[open_], at_high[open_]
    for _ in range(100):  # false position; the end that stays is weighed half (the Illinois rule)
        factor = b - at_b * (b - a) / (at_b - at_a)
        here = height(factor, open_)
        crossed = here * at_b < 0
        a, at_a = np.where(crossed, b, a), np.where(crossed, at_b, at_a / 2)
        b, at_b = factor, here
        high[open_] = factor
        left = np.abs(here) > 1e-11
        open_, a, b, at_a, at_b = open_[left], a[left], b[left], at_a[left], at_b[left]
        if open_.size == 0:
            return high
    raise SystemExit("a load factor did not settle")


def load_factors(tubes):
    critical = tubes.critical / tubes.compression
    squash = (tubes.pressed.max(0) * tubes.area) / tubes.compression
    column = tubes.column_load / tubes.compression
    return {"yield": first_reach(tubes.use, np.minimum(critical * NEAR_CRITICAL, squash)), "column": column,
            "interaction": first_reach(tubes.interaction, np.minimum(column, critical * NEAR_CRITICAL))}


ASKED = 1.5


def judged(factors):
    """Margin and what governs; ties go to the column, then to yield."""
    names = np.array(["column", "yield", "interaction"])
    ratios = np.array([factors[name] for name in names]) / ASKED
    least = ratios.min(0)
    return least - 1, names[(ratios <= least * (1 + 1e-9)).argmax(0)]


# ---- the whole -------------------------------------------------------------------------------------------------

def at_worst(tubes, moments, axial):
    """Stress at the largest utilisation, and that utilisation."""
    stress, use = (a.reshape(4, -1) for a in tubes.fibres(moments, axial))
    worst = use.argmax(0)[None]
    return np.take_along_axis(stress, worst, 0)[0], np.take_along_axis(use, worst, 0)[0]


def cells(values, there):
    return ["%.10g" % value if is_there else "" for value, is_there in zip(values, there)]


def check(rows):
    material = material_named(rows["material"][0])
    if set(rows["material"]) != {rows["material"][0]} or rows["wall"].max() > material["most"] \
            or set(rows["end_a"]) | set(rows["end_b"]) != {"fixed"}:
        raise SystemExit("one material and fixed ends are what this can do")
    tubes = Tubes(rows, material)
    if not (0 < tubes.compression).all() or not (tubes.compression < tubes.critical).all():
        raise SystemExit("a push below the critical load is what this can do")
    built, gone = load_factors(tubes), load_factors(tubes.keeping(False))
    as_built, unforced = judged(built)[0], judged(gone)[0]
    kept = as_built <= unforced + 1e-9
    factors = {name: np.where(kept, built[name], gone[name]) for name in built}
    margin, governs = judged(factors)
    none, once = np.zeros_like(margin), np.ones_like(margin)

    fit_moments, _ = tubes.peaks(tubes.planes(none))
    fit_stress, _ = at_worst(tubes, fit_moments, none)
    tubes = tubes.keeping(kept)
    planes = tubes.planes(once)
    moments, places = tubes.peaks(planes)
    stress, use = at_worst(tubes, moments, tubes.compression)
    more = moments.argmax(0)[None]
    movement, at = largest(planes.movement, np.linspace(-0.5, 0.5, CELLS + 1)[:, None] + none)
    up, right = planes.movement(at)[0]

    return {"case": rows["case"], "od [in]": tubes.od, "wall [in]": tubes.wall, "material": rows["material"],
            "verdict": np.where(margin >= 0, "holds", "short"), "margin": margin, "governs": governs,
            "margin_as_built": as_built, "margin_unforced": unforced, "margin_best": as_built, "joints_taken": [""] * len(kept),
            "bow_clock_taken [deg]": cells(rows["bow_clock"], rows["bow"] > 0),
            "miss_a_clock_taken [deg]": cells(rows["miss_a_clock"], kept & (rows["miss_a"] > 0)),
            "miss_b_clock_taken [deg]": [""] * len(kept),
            "fit_taken": np.where(kept, "as built", "unforced"), "yield_factor": factors["yield"],
            "column_factor": factors["column"], "interaction_factor": factors["interaction"],
            "area [in^2]": tubes.area, "inertia [in^4]": tubes.inertia, "section_modulus [in^3]": tubes.modulus,
            "radius [in]": tubes.radius, "weight [lb]": tubes.weight, "wall_reduction": tubes.reduction,
            "critical_load [lbf]": tubes.critical, "effective_length [in]": tubes.effective,
            "slenderness": tubes.slenderness, "column_stress [psi]": tubes.column_stress,
            "column_load [lbf]": tubes.column_load, "fit_axial [lbf]": none, "fit_moment [in-lbf]": fit_moments.max(0),
            "fit_stress [psi]": fit_stress, "axial [lbf]": tubes.compression, "peak_moment [in-lbf]": moments.max(0),
            "peak_moment_at [in]": np.take_along_axis(places, more, 0)[0], "peak_stress [psi]": stress,
            "stress_use": use, "deflection [in]": movement * tubes.length,
            "deflection_clock [deg]": np.degrees(np.arctan2(right, up)) % 360}


def write(results, file):
    columns = [c.tolist() if isinstance(c, np.ndarray) else c for c in results.values()]
    line = ",".join("%s" if isinstance(c[0], str) else "%.10g" for c in columns) + ",,\n"
    file.writelines(line % cells for cells in zip(*columns))


def main(name):
    with open(name, encoding="utf-8", newline="") as file:
        rows = read(file)
    for first in range(0, len(rows["case"]), AT_ONCE):
        results = check({name: cells[first:first + AT_ONCE] for name, cells in rows.items()})
        if first == 0:
            print(",".join(results) + ",remarks,note")
        write(results, sys.stdout)


if __name__ == "__main__":
    main(sys.argv[1])
