"""A frame of tubes as its three tables describe it, and what it gives the tubes: directions, sections, loads.

Units: inch, lbf, psi, lb, radian; clocks in degrees.
"""
import math
from dataclasses import dataclass, field

import numpy as np

from frame_tubes import Shape
from rules import Section, Zone, allowable_stress, toward

MOTIONS = ("x", "y", "z", "rx", "ry", "rz")
ANY = None      # clock of a bow that nobody measured


@dataclass(frozen=True)
class Steel:
    elastic_modulus: float
    shear_modulus: float
    density: float
    yield_: float
    compression_yield: float
    weld_yield: float
    column_intercept: float
    column_curve: str = ""


@dataclass
class Joint:
    name: str
    at: tuple
    held: str = ""          # as in the file
    mass: float = 0.0

    def holds(self):
        return {"fixed": MOTIONS, "pinned": MOTIONS[:3]}.get(self.held, tuple(self.held.split()))


@dataclass
class Tube:
    name: str
    a: str
    b: str
    od: float
    wall: float
    steel: str
    part: str = ""
    end_a: float = math.inf
    end_b: float = math.inf
    column_curve: str = ""
    fixity: float = 1.0
    bow: float = 0.0
    bow_clock: float = ANY
    bow_shape: str = "sine"
    bow_at: float = None
    miss_a: float = 0.0
    miss_a_clock: float = 0.0
    miss_b: float = 0.0
    miss_b_clock: float = 0.0
    gap: float = 0.0
    weld_zone: float = None
    dressed: float = 0.0


@dataclass
class Load:
    joint: str = ""
    tube: str = ""
    force: tuple = (0.0, 0.0, 0.0)
    moment: tuple = (0.0, 0.0, 0.0)
    at: float = None
    spread: tuple = (0.0, 0.0, 0.0)
    g: tuple = (0.0, 0.0, 0.0)      # vertical, forward, left


@dataclass
class Run:
    name: str
    loads: list
    factor: float = 1.5
    factor_yield: float = None


@dataclass
class Frame:
    name: str
    joints: list
    tubes: list
    runs: list
    steels: dict = field(default_factory=dict)


def directions(a, b):
    """Length, along, up, right of a tube from a to b."""
    step = np.subtract(b, a)
    length = math.sqrt(step @ step)
    along = step / length
    level = math.hypot(along[0], along[1])
    axis = np.array([1.0, 0, 0]) if level < math.sin(math.radians(0.1)) else np.array([0, 0, 1.0])
    up = axis - (axis @ along) * along
    up = up / math.sqrt(up @ up)
    return length, along, up, np.cross(along, up)


class Limits:
    """Sections and strength of a tube."""

    def __init__(self, tube, steel, length):
        section = self.section = Section(tube.od, tube.wall)
        self.weight = steel.density * section.area * length
        plain = Zone(section, steel.elastic_modulus, steel.yield_, steel.compression_yield)
        border = min(1.0, length / 2) if tube.weld_zone is None else tube.weld_zone
        self.border = border / length
        self.zones = {False: plain}
        if border > 0.0:
            dressed = Section(tube.od - 2 * tube.dressed, tube.wall - tube.dressed)
            self.zones[True] = Zone(dressed, steel.elastic_modulus, steel.weld_yield, steel.weld_yield)
            if border >= length / 2:
                del self.zones[False]
        curve = tube.column_curve or steel.column_curve or "johnson"
        slenderness = length / math.sqrt(tube.fixity) / section.radius
        self.column_load = section.area * allowable_stress(
            curve, steel.elastic_modulus, plain.compression_yield, plain.reduction * steel.column_intercept, slenderness)


class Model:
    """Frame and run as matrices. Every tube: stiffness numbers, its end movements from the joints' movements, its shape."""

    def __init__(self, frame, run, forced=True, bow_clocks=None):
        self.frame, self.run = frame, run
        number = {joint.name: i for i, joint in enumerate(frame.joints)}
        self.number, self.tube_number = number, {tube.name: i for i, tube in enumerate(frame.tubes)}
        self.ends = [(number[tube.a], number[tube.b]) for tube in frame.tubes]
        size, tubes = 6 * len(frame.joints), len(frame.tubes)
        self.length, self.bending, self.pull, self.twist = (np.zeros(tubes) for _ in range(4))
        self.basis, self.limits, self.shapes = [], [], []
        self.stretch, self.turning = np.zeros((tubes, size)), np.zeros((tubes, size))
        self.lateral = np.zeros((tubes, 2, 4, size))
        self.gap = np.array([tube.gap if forced else 0.0 for tube in frame.tubes])
        self.load = np.zeros(size)
        for i, tube in enumerate(frame.tubes):
            self.place(i, tube, forced, (bow_clocks or {}).get(tube.name))
        for load in run.loads:
            self.apply(load)
        self.free = self.free_motions()

    def place(self, i, tube, forced, taken):
        frame, steel = self.frame, self.frame.steels[tube.steel]
        a, b = self.ends[i]
        length, along, up, right = directions(frame.joints[a].at, frame.joints[b].at)
        limits = Limits(tube, steel, length)
        self.length[i], self.bending[i] = length, steel.elastic_modulus * limits.section.inertia
        self.pull[i] = steel.elastic_modulus * limits.section.area / length
        if tube.end_a > 0.0 and tube.end_b > 0.0:
            self.twist[i] = steel.shear_modulus * 2 * limits.section.inertia / length
        self.basis.append((along, up, right))
        self.limits.append(limits)
        for joint, sign, row in ((a, -1.0, 0), (b, 1.0, 2)):
            move, turn = slice(6 * joint, 6 * joint + 3), slice(6 * joint + 3, 6 * joint + 6)
            self.stretch[i, move], self.turning[i, turn] = sign * along, sign * along
            self.lateral[i, 0, row, move], self.lateral[i, 0, row + 1, turn] = up / length, right
            self.lateral[i, 1, row, move], self.lateral[i, 1, row + 1, turn] = right / length, -up
        spring = length / self.bending[i]
        clock = (taken if taken is not None else 0.0) if tube.bow_clock is ANY else tube.bow_clock
        miss_a, miss_b = (tube.miss_a, tube.miss_b) if forced else (0.0, 0.0)
        self.shapes.append(Shape(
            tube.end_a * spring, tube.end_b * spring, limits.border, tube.bow_shape, toward(tube.bow / length, clock),
            0.5 if tube.bow_at is None else tube.bow_at / length, toward(miss_a / length, tube.miss_a_clock),
            toward(miss_b / length, tube.miss_b_clock)))

    def spread(self, i, force):
        """Force per length on tube i: across it to the tube, along it to its joints by halves."""
        along, up, right = self.basis[i]
        self.shapes[i].spread = self.shapes[i].spread + np.array([force @ up, force @ right]) * (
            self.length[i]**3 / self.bending[i])
        for joint in self.ends[i]:
            self.load[6 * joint:6 * joint + 3] += (force @ along) * along * self.length[i] / 2

    def apply(self, load):
        force = np.array(load.force, dtype=float)
        if load.joint:
            first = 6 * self.number[load.joint]
            self.load[first:first + 6] += [*load.force, *load.moment]
        elif load.tube:
            i = self.tube_number[load.tube]
            self.spread(i, np.array(load.spread, dtype=float))
            along, up, right = self.basis[i]
            at = 0.5 if load.at is None else load.at / self.length[i]
            a, b = self.ends[i]
            if 0.0 < at < 1.0:
                scale = self.length[i]**2 / self.bending[i]
                self.shapes[i].points.append((at, np.array([force @ up, force @ right]) * scale))
                force = (force @ along) * along
            self.load[6 * a:6 * a + 3] += (1.0 - at) * force
            self.load[6 * b:6 * b + 3] += at * force
        else:
            vertical, forward, left = load.g
            push = np.array([forward, left, -vertical])
            for i in range(len(self.ends)):
                self.spread(i, push * self.limits[i].weight / self.length[i])
            for i, joint in enumerate(self.frame.joints):
                self.load[6 * i:6 * i + 3] += push * joint.mass

    def free_motions(self):
        """Motions that are neither held nor without any stiffness: a joint on balls alone does not turn."""
        stiff = set()
        for (a, b), tube in zip(self.ends, self.frame.tubes):
            stiff |= ({a} if tube.end_a > 0.0 else set()) | ({b} if tube.end_b > 0.0 else set())
        return np.array([6 * i + k for i, joint in enumerate(self.frame.joints) for k, motion in enumerate(MOTIONS)
                         if motion not in joint.holds() and (k < 3 or i in stiff)], dtype=int)
