"""Section, column curves, stress, load factors and margin of a member, from their definitions.

Units: inch, lbf, psi, radian; clocks and slopes are given in degrees.
"""
import math
from dataclasses import dataclass, replace

import numpy as np
from scipy.optimize import brentq, minimize_scalar

from boundary_value import (Ends, Loading, Solution, critical_load, largest_sampled,
                            stationary_points)

TIE = 1e-9
IMPERFECTION = {"en-a0": 0.13, "en-a": 0.21, "en-b": 0.34, "en-c": 0.49, "en-d": 0.76}
WELDED_TURN = math.pi * math.sqrt(2.0)
WELDED_SPRING = -WELDED_TURN / math.tan(WELDED_TURN / 2.0)
SOFT = {"stiff": "soft"}  # a welded end of the column alone


@dataclass(frozen=True)
class Material:
    elastic_modulus: float
    density: float
    yield_: float
    compression_yield: float
    weld_yield: float
    column_intercept: float
    column_curve: str


@dataclass(frozen=True)
class Member:
    od: float
    wall: float
    material: Material
    length: float
    end_a: object = "pinned"
    end_b: object = "pinned"
    column_curve: str = None
    compression: float = 0.0
    eccentricity: float = 0.0
    eccentricity_clock: float = 0.0
    moment_a: float = 0.0
    moment_b: float = 0.0
    moment_clock: float = 0.0
    point_load: float = 0.0
    point_at: float = None
    point_clock: float = 0.0
    spread_load: float = 0.0
    spread_clock: float = 0.0
    vertical_g: float = 0.0
    slope: float = 0.0
    torque: float = 0.0
    bow: float = 0.0
    bow_clock: float = 0.0
    bow_shape: str = "sine"
    bow_at: float = None
    miss_a: float = 0.0
    miss_a_clock: float = 0.0
    miss_b: float = 0.0
    miss_b_clock: float = 0.0
    gap: float = 0.0
    gap_stiffness: float = math.inf
    weld_zone: float = 0.0
    dressed: float = 0.0
    factor: float = 1.5
    factor_yield: float = None


class Section:
    def __init__(self, od, wall):
        bore = od - 2.0 * wall
        self.od, self.wall = od, wall
        self.area = math.pi * wall * (od - wall)
        self.inertia = self.area * (od * od + bore * bore) / 16.0
        self.modulus = self.inertia / (od / 2.0)
        self.radius = math.sqrt(od * od + bore * bore) / 4.0


class Zone:
    """A part of the tube with one section and one strength."""

    def __init__(self, section, elastic_modulus, yield_, compression_yield):
        self.section, self.yield_ = section, yield_
        ratio = section.od / section.wall
        if ratio > 0.45 * elastic_modulus / compression_yield:
            raise ValueError("wall too thin")
        self.reduction = 1.0
        if ratio > 0.11 * elastic_modulus / compression_yield:
            self.reduction = min(1.0, 0.038 * elastic_modulus / (compression_yield * ratio) + 2.0 / 3.0)
        self.compression_yield = self.reduction * compression_yield

    def stresses(self, axial, moment, torque):
        """Equivalent stress of the compression and the tension fibre."""
        s = self.section
        shear = abs(torque) * (s.od / 2.0) / (2.0 * s.inertia)
        push, bend = axial / s.area, moment / s.modulus
        return (np.sqrt(np.maximum(push + bend, 0.0)**2 + 3.0 * shear**2),
                np.sqrt(np.maximum(bend - push, 0.0)**2 + 3.0 * shear**2))

    def use(self, axial, moment, torque):
        pushed, pulled = self.stresses(axial, moment, torque)
        return np.maximum(pushed / self.compression_yield, pulled / self.yield_)

    def governing_stress(self, axial, moment, torque):
        pushed, pulled = self.stresses(axial, moment, torque)
        return pushed if pushed / self.compression_yield >= pulled / self.yield_ else pulled

    def interaction_bending(self, moment, torque):
        s = self.section
        shear = abs(torque) * (s.od / 2.0) / (2.0 * s.inertia)
        return np.sqrt((moment / s.modulus)**2 + 3.0 * shear**2) / self.compression_yield


def toward(size, clock):
    """Components up and right; exact at right angles."""
    exact = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}
    turn = math.radians(clock)
    return size * np.array(exact.get(clock % 360.0, (math.cos(turn), math.sin(turn))))


def allowable_stress(curve, elastic_modulus, compression_yield, intercept, slenderness):
    """compression_yield and intercept include the wall reduction."""
    fc, s = compression_yield, slenderness
    fe = math.pi**2 * elastic_modulus / s**2
    if curve == "johnson":
        if s < math.pi * math.sqrt(2.0 * elastic_modulus / fc):
            return fc * (1.0 - fc * s**2 / (4.0 * math.pi**2 * elastic_modulus))
        return fe
    if curve == "three-halves":
        transition = math.sqrt(7.0 * math.pi**2 * elastic_modulus / (3.0 * intercept))
        slope = 4.0 / 3.0 * math.pi**2 * elastic_modulus * transition**-3.5
        return min(fc, intercept - slope * s**1.5 if s < transition else fe)
    if curve == "euler":
        return min(fc, fe)
    if curve == "aisc":
        return 0.658**(fc / fe) * fc if fc / fe <= 2.25 else 0.877 * fe
    slender = math.sqrt(fc / fe)
    if slender <= 0.2:
        return fc
    phi = 0.5 * (1.0 + IMPERFECTION[curve] * (slender - 0.2) + slender**2)
    return fc / (phi + math.sqrt(phi**2 - slender**2))


def first_crossing(rough, exact, low, top):
    """Smallest factor in [low, top] at which exact reaches 1, None if it does not.

    rough takes an array and is never above exact; it is scanned over all magnitudes up to
    the first value over 1, then densely below that, and humps close to 1 are followed up.
    """
    if exact(low) >= 1.0:
        return low
    span = top - low
    scan = low + span * np.concatenate([np.geomspace(1e-16, 0.5, 120), 1.0 - np.geomspace(0.48, 1e-10, 60), [1.0]])
    over = scan[rough(scan) >= 1.0]
    dense = np.linspace(low, over[0] if len(over) else top, 601)
    values = rough(dense)
    over = np.nonzero(values >= 1.0)[0]
    last = over[0] if len(over) else len(dense) - 1
    high = dense[last] if len(over) or exact(top) >= 1.0 else None
    for i in range(1, last):
        if values[i] >= 0.9 and values[i] >= values[i - 1] and values[i] > values[i + 1]:
            top_of_hump = minimize_scalar(lambda f: -exact(f), bounds=(dense[i - 1], dense[i + 1]), method="bounded",
                                          options={"xatol": 1e-9 * dense[i + 1]})
            if -top_of_hump.fun >= 1.0:
                high, last = top_of_hump.x, i
                break
    if high is None:
        return None
    below = last - 1
    while exact(dense[below]) >= 1.0:
        high, below = dense[below], below - 1
    return brentq(lambda f: exact(f) - 1.0, dense[below], high, xtol=1e-15 * high, rtol=1e-14)


class Case:
    """A concrete member (its welded ends soft or stiff, its clocks known) at one resolution, its load factor left open."""

    def __init__(self, member, resolution):
        self.member, self.resolution = member, resolution
        m, material = member, member.material
        section = self.section = Section(m.od, m.wall)
        length, modulus = m.length, material.elastic_modulus
        self.stiffness = modulus * section.inertia

        self.free_b = m.end_b == "free"
        self.ends = Ends(self.spring(m.end_a), 0.0 if self.free_b else self.spring(m.end_b), self.free_b)
        self.critical_load = self.critical(self.ends)
        soft = Ends(self.spring(SOFT.get(m.end_a, m.end_a)),
                    0.0 if self.free_b else self.spring(SOFT.get(m.end_b, m.end_b)), self.free_b)
        self.column_critical_load = self.critical(soft)
        self.effective_length = math.pi * math.sqrt(self.stiffness / self.column_critical_load)
        self.slenderness = self.effective_length / section.radius

        parent = Zone(section, modulus, material.yield_, material.compression_yield)
        self.reduction = parent.reduction
        self.column_stress = allowable_stress(m.column_curve or material.column_curve or "johnson", modulus,
                                              parent.compression_yield,
                                              parent.reduction * material.column_intercept, self.slenderness)
        self.column_load = self.column_stress * section.area
        self.weight = material.density * section.area * length
        self.locked_tension = 0.0
        if m.gap:
            self.locked_tension = m.gap / (length / (modulus * section.area) + 1.0 / m.gap_stiffness)

        self.zones, self.borders = {False: parent}, []
        self.weld_stretches = []
        self.weld_zone = min(1.0, length / 2.0) if m.weld_zone is None else m.weld_zone
        if self.weld_zone:
            dressed = Section(m.od - 2.0 * m.dressed, m.wall - m.dressed)
            self.zones[True] = Zone(dressed, modulus, material.weld_yield, material.weld_yield)
            self.weld_stretches = [(0.0, self.weld_zone / length)]
            if not self.free_b:
                self.weld_stretches.append((1.0 - self.weld_zone / length, 1.0))
            self.borders = [end for stretch in self.weld_stretches for end in stretch]
        self.has_run_load = any([m.compression, m.moment_a, m.moment_b, m.point_load, m.spread_load,
                                 m.vertical_g, m.torque])

    def critical(self, ends):
        return critical_load(ends, 2 * self.resolution.order) * self.stiffness / self.member.length**2

    def spring(self, end):
        named = {"pinned": 0.0, "soft": WELDED_SPRING, "stiff": math.inf, "fixed": math.inf}
        return named[end] if end in named else end * self.member.length / self.stiffness

    def axial(self, factors, tension):
        return factors * self.member.compression - tension

    def solve(self, factors, tension):
        m, length = self.member, self.member.length
        factors = np.asarray(factors, dtype=float)
        grown = factors[:, None]
        weight = self.weight / length * m.vertical_g * math.cos(math.radians(m.slope))
        spread = toward(m.spread_load, m.spread_clock) + toward(weight, 180.0)
        offset = toward(m.compression * m.eccentricity, m.eccentricity_clock)
        moment = length / self.stiffness
        loading = Loading(
            p=self.axial(factors, tension) * length**2 / self.stiffness,
            spread=grown * spread * length**3 / self.stiffness,
            point=grown * toward(m.point_load, m.point_clock) * length**2 / self.stiffness,
            moment_a=grown * (toward(m.moment_a, m.moment_clock) + (0.0 if self.free_b else offset)) * moment,
            moment_b=grown * (toward(m.moment_b, m.moment_clock) + offset) * moment,
            point_at=0.5 if m.point_at is None else m.point_at / length,
            alpha=toward(m.miss_a, m.miss_a_clock) / length,
            beta=toward(m.miss_b, m.miss_b_clock) / length,
            bow=toward(m.bow, m.bow_clock) / length,
            bow_shape=m.bow_shape,
            bow_at=0.5 if m.bow_at is None else m.bow_at / length,
            borders=tuple(self.borders))
        return Solution(self.ends, loading, self.resolution)

    def welded(self, start, stop):
        middle = (start + stop) / 2.0
        return any(low < middle < high for low, high in self.weld_stretches)

    def largest_moments(self, solution, exact):
        """Largest moment of each kind of zone that is there: {welded: [factor]}."""
        kinds = np.array([self.welded(*ends) for ends in zip(solution.edges, solution.edges[1:])])
        if exact:
            on_piece = np.zeros((1, len(kinds)))
            which, _, value = stationary_points(solution.moment[0])
            np.maximum.at(on_piece[0], which, np.hypot(*value.T))
        else:
            on_piece = largest_sampled(solution.moment)
        moment = self.stiffness / self.member.length
        return {kind: on_piece[:, kinds == kind].max(axis=1) * moment for kind in self.zones if (kinds == kind).any()}

    def use(self, factors, tension, exact):
        moments = self.largest_moments(self.solve(factors, tension), exact)
        axial, torque = self.axial(factors, tension), factors * self.member.torque
        return np.max([self.zones[kind].use(axial, moment, torque) for kind, moment in moments.items()], axis=0)

    def interaction(self, factors, tension, exact):
        moments = self.largest_moments(self.solve(factors, tension), exact)
        torque = factors * self.member.torque
        bending = np.max([self.zones[kind].interaction_bending(moment, torque) for kind, moment in moments.items()],
                         axis=0)
        return self.axial(factors, tension) / self.column_load + bending

    def crossing(self, measure, tension, low, top):
        def exact(factor):
            return measure(np.array([factor]), tension, exact=True)[0]

        def rough(factors):
            return np.concatenate([measure(part, tension, exact=False) for part in np.array_split(factors, 6)])

        if math.isinf(top):
            top = low + 1.0
            while exact(top) < 1.0 and top < 1e15:
                top *= 2.0
        return first_crossing(rough, exact, low, top)

    def yield_factor(self, tension):
        compression = self.member.compression
        if not self.has_run_load:
            return 0.0 if self.use(np.zeros(1), tension, exact=True)[0] >= 1.0 else math.inf
        if compression > 0.0:
            critical = (self.critical_load + tension) / compression
            found = self.crossing(self.use, tension, 0.0, critical * (1.0 - 1e-11))
            return critical if found is None else found
        top = math.inf
        if compression < 0.0:
            strongest = max(zone.yield_ * zone.section.area for zone in self.zones.values())
            top = (1.01 * strongest + max(0.0, -tension)) / -compression
        found = self.crossing(self.use, tension, 0.0, top)
        return math.inf if found is None else found

    def column_factor(self, tension):
        compression = self.member.compression
        if compression > 0.0:
            return max(0.0, (self.column_load + tension) / compression)
        return 0.0 if -tension >= self.column_load else math.inf

    def interaction_factor(self, tension):
        compression = self.member.compression
        if -tension <= 0.0 and compression <= 0.0:
            return math.inf
        if not self.has_run_load:
            return 0.0 if self.interaction(np.zeros(1), tension, exact=True)[0] >= 1.0 else math.inf
        if compression > 0.0:
            column = self.column_factor(tension)
            found = self.crossing(self.interaction, tension, max(0.0, tension / compression),
                                  column * (1.0 - 1e-11)) if column > 0.0 else 0.0
            return column if found is None else found
        found = self.crossing(self.interaction, tension, 0.0, tension / compression if compression else math.inf)
        return math.inf if found is None else found

    def factors(self):
        """yield, column and interaction factor."""
        if -self.locked_tension >= self.critical_load:
            return 0.0, 0.0, 0.0
        return tuple(measure(self.locked_tension)
                     for measure in (self.yield_factor, self.column_factor, self.interaction_factor))

    def margins(self, factors):
        """The three margins in the order column, yield, interaction."""
        m = self.member
        against_yield, column, interaction = factors
        return {"column": column / m.factor - 1.0,
                "yield": against_yield / (m.factor_yield or m.factor) - 1.0,
                "interaction": interaction / m.factor - 1.0}

    def state(self, factor):
        """Largest moment, stress and movement at one load factor; None at or above critical."""
        m, tension = self.member, self.locked_tension
        axial, torque = self.axial(factor, tension), factor * m.torque
        if axial >= self.critical_load:
            return None
        solution = self.solve([factor], tension)
        which, t, moment = stationary_points(solution.moment[0])
        size = np.hypot(*moment.T) * self.stiffness / m.length
        at = smallest_of_largest(size)
        where = (solution.edges[which[at]] + solution.half[which[at]] * (1.0 + t[at])) * m.length
        moments = self.largest_moments(solution, exact=True)
        uses = {kind: self.zones[kind].use(axial, moment[0], torque) for kind, moment in moments.items()}
        worst = max(uses, key=uses.get)
        movement = solution.movement(0)
        _, _, moved = stationary_points(movement)
        furthest = smallest_of_largest(np.hypot(*moved.T))
        up, right = moved[furthest]
        return {"moment": size.max(), "moment_at": where, "use": uses[worst],
                "stress": float(self.zones[worst].governing_stress(axial, moments[worst][0], torque)),
                "deflection": math.hypot(up, right) * m.length,
                "clock": math.degrees(math.atan2(right, up)) % 360.0 if up or right else None}

    def unstable(self):
        return self.axial(1.0, self.locked_tension) >= self.critical_load

def smallest_of_largest(sizes):
    """Index of the first value that ties with the largest."""
    return int(np.argmax(sizes >= sizes.max() * (1.0 - TIE)))


def governing(margins):
    least = min(margins.values())
    if math.isinf(least):
        return "none", least
    return next(name for name, margin in margins.items() if margin <= least + TIE), least
