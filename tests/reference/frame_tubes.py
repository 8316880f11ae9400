"""The tubes of a frame, each as a boundary value problem solved with the matrix exponential.

Per plane and divided by L, EI/L and EI/L^2, with p = P L^2/EI, v the movement away from the stress-free shape y, m = -v''
and s = v''' + p (v + y)' (the force across the drawn tube):

    v' = t      t' = -m      m' = p (t + y') - s      s' = q

q and y' are states too (constant, linear, half wave), so that the equation is homogeneous and its solution over a segment
is exp(A length). Segments end at point loads, kinks and zone borders and are short against the wave sqrt(|p|); they are
joined as in multiple shooting. No solution of the differential equation is written down anywhere. Derivatives after p are
complex steps.
"""
import math

import numpy as np
import scipy.linalg
from scipy.optimize import brentq

WAVE = 1.2      # largest sqrt(|p|) times the length of a segment
CELLS = 8       # stations of a segment less one
AUX = 5         # q, y' as a number, its slope, half wave: cos, sin
STEP = 1e-30


def exponential(a):
    """exp of every matrix of a stack: scaling, Taylor series of degree 16, squaring."""
    norm = np.abs(a).sum(axis=-1).max() if a.size else 0.0
    halvings = max(0, math.ceil(math.log2(max(norm, 1e-300) / 0.5)))
    a = a / 2.0**halvings
    unit = np.broadcast_to(np.eye(a.shape[-1]), a.shape)
    powers = [unit, a, a @ a]
    powers += [powers[2] @ a, powers[2] @ powers[2]]
    weight = [1.0 / math.factorial(k) for k in range(17)]
    result = weight[16] * powers[4]
    for block in (12, 8, 4, 0):
        result = result + sum(weight[block + k] * powers[k] for k in range(4))
        if block:
            result = result @ powers[4]
    for _ in range(halvings):
        result = result @ result
    return result


def field(p):
    """A: the stack of 9 x 9 matrices of the first-order equation."""
    a = np.zeros((*np.shape(p), 4 + AUX, 4 + AUX), dtype=np.result_type(p, float))
    a[..., 0, 1] = 1.0
    a[..., 1, 2] = -1.0
    a[..., 2, 1] = a[..., 2, 5] = a[..., 2, 7] = p
    a[..., 2, 3] = -1.0
    a[..., 3, 4] = 1.0
    a[..., 5, 6] = 1.0
    a[..., 7, 8], a[..., 8, 7] = -math.pi, math.pi
    return a


def transfer(p, length):
    """exp(A length), moments and forces scaled by the wave so that the norm is small."""
    wave = np.maximum(1.0, np.sqrt(np.abs(np.real(p))))
    scale = np.ones((*np.shape(p), 4 + AUX))
    scale[..., 2], scale[..., 3] = wave, wave**2
    a = field(p) * scale[..., None, :] / scale[..., :, None] * length[..., None, None]
    return exponential(a) * scale[..., :, None] / scale[..., None, :]


def end_weights(spring):
    """Shares of moment and turn in an end rule: pinned (1, 0), rigid (0, 1)."""
    return (0.0, 1.0) if math.isinf(spring) else (1.0 / (1.0 + spring), spring / (1.0 + spring))


def held_critical(spring_a, spring_b):
    """Smallest p at which a tube between joints that are held bows with no disturbance."""
    (moment_a, turn_a), (moment_b, turn_b) = end_weights(spring_a), end_weights(spring_b)
    first = np.array([[1.0, 0, 0, 0], [0, turn_a, moment_a, 0]])
    last = np.array([[1.0, 0, 0, 0], [0, -turn_b, moment_b, 0]])

    def determinant(p):
        return np.linalg.det(np.vstack([first, last @ scipy.linalg.expm(field(p)[:4, :4])]))

    steps = np.linspace(0.5, 41.0, 163)
    values = [determinant(p) for p in steps]
    place = next(i for i in range(1, len(steps)) if values[i - 1] * values[i] <= 0.0)
    return brentq(determinant, steps[place - 1], steps[place], xtol=1e-14, rtol=1e-14)


class Shape:
    """What acts on one tube, dimensionless: [0] up, [1] right; built in, and of the run at load factor 1."""

    def __init__(self, spring_a, spring_b, border, bow_shape="sine", bow=(0.0, 0.0), bow_at=0.5, miss_a=(0.0, 0.0),
                 miss_b=(0.0, 0.0)):
        self.ends = end_weights(spring_a), end_weights(spring_b)
        self.critical = held_critical(spring_a, spring_b)
        self.border = border                # of the weld zones
        self.bow_shape, self.bow, self.bow_at = bow_shape, np.array(bow), bow_at
        self.miss_a, self.miss_b = np.array(miss_a), np.array(miss_b)
        self.spread = np.zeros(2)
        self.points = []                    # (at, force of two planes); 0 < at < 1

    def stops(self):
        stops = {0.0, 1.0, self.border, 1.0 - self.border, *(at for at, _ in self.points)}
        if self.bow_shape == "kink" and self.bow.any():
            stops.add(self.bow_at)
        return sorted(stops)

    def slopes(self, start):
        """y' at the start of a segment as its aux states, without the bow's size."""
        if self.bow_shape == "sine":
            return [0.0, 0.0, math.pi * math.cos(math.pi * start), math.pi * math.sin(math.pi * start)]
        if self.bow_shape == "arc":
            return [4.0 * (1.0 - 2.0 * start), -8.0, 0.0, 0.0]
        return [1.0 / self.bow_at if start < self.bow_at else -1.0 / (1.0 - self.bow_at), 0.0, 0.0, 0.0]

    def segments(self, wave):
        stops, edges = self.stops(), [0.0]
        for start, stop in zip(stops, stops[1:]):
            count = max(1, math.ceil((stop - start) * wave / WAVE))
            edges += [start + (stop - start) * i / count for i in range(1, count)] + [stop]
        return edges


class Grid:
    """All tubes cut into the same number of segments; short lists are filled with segments of no length."""

    def __init__(self, shapes, wave):
        edges = [shape.segments(wave) for shape in shapes]
        count = max(map(len, edges)) - 1
        self.edges = np.array([e + [1.0] * (count + 1 - len(e)) for e in edges])
        self.length = np.diff(self.edges)
        size = (len(shapes), count, 2)
        self.aux, self.jump = {}, {}
        for kind in ("built", "run"):
            self.aux[kind], self.jump[kind] = np.zeros((*size, AUX)), np.zeros(size)
        self.weld = np.zeros(self.length.shape, dtype=bool)
        for i, shape in enumerate(shapes):
            for j, (start, length) in enumerate(zip(self.edges[i], self.length[i])):
                if length <= 0.0:
                    continue
                self.weld[i, j] = start + length / 2 < shape.border or start + length / 2 > 1.0 - shape.border
                self.aux["built"][i, j, :, 1:] = shape.bow[:, None] * np.array(shape.slopes(start))
                self.aux["run"][i, j, :, 0] = shape.spread
                for at, force in shape.points:
                    if start == at:
                        self.jump["run"][i, j] += force
        self.used = self.length > 0.0


class Tubes:
    """Stiffness and states of tubes at given axial loads. Rows: pairs of a tube's number and its p."""

    def __init__(self, shapes):
        self.shapes, self.grids = shapes, {}
        self.critical = np.array([shape.critical for shape in shapes])
        self.ends = np.array([shape.ends for shape in shapes])          # tube, end, (moment, turn)
        self.turn_a = np.array([shape.ends[0][1] * shape.miss_a for shape in shapes])
        self.turn_b = np.array([shape.ends[1][1] * shape.miss_b for shape in shapes])

    def grid(self, p):
        wave = max(math.pi, math.sqrt(np.abs(np.real(p)).max(initial=0.0)))
        level = math.ceil(4.0 * math.log2(wave / math.pi) - 1e-12)
        if level not in self.grids:
            self.grids[level] = Grid(self.shapes, math.pi * 2.0**(level / 4.0))
        return self.grids[level]

    def solve(self, tube, p):
        """States at the starts of all segments and at B. Last axis: unit movements v_A t_A v_B t_B, then built in and of the
        run, up and right. Returned: grid, transfer over a cell, states [row, node, 4, 8]."""
        grid = self.grid(p)
        length = grid.length[tube]
        rows, count = length.shape
        cell = transfer(np.broadcast_to(np.asarray(p)[:, None], length.shape), length / CELLS)
        whole = cell
        for _ in range(round(math.log2(CELLS))):
            whole = whole @ whole
        size = 4 * (count + 1)
        left = np.zeros((rows, size, size), dtype=cell.dtype)
        right = np.zeros((rows, size, 8), dtype=cell.dtype)
        (moment_a, turn_a), (moment_b, turn_b) = self.ends[tube].transpose(1, 2, 0)
        left[:, 0, 0] = right[:, 0, 0] = 1.0
        left[:, 1, 1], left[:, 1, 2], right[:, 1, 1] = turn_a, moment_a, turn_a
        last = size - 4
        left[:, -2, last] = right[:, -2, 2] = 1.0
        left[:, -1, last + 1], left[:, -1, last + 2], right[:, -1, 3] = -turn_b, moment_b, -turn_b
        for plane in range(2):
            right[:, 1, 4 + 2 * plane] = self.turn_a[tube, plane]
            right[:, -1, 4 + 2 * plane] = self.turn_b[tube, plane]
        for j in range(count):
            row = slice(2 + 4 * j, 6 + 4 * j)
            left[:, row, 4 * j:4 * j + 4] = -whole[:, j, :4, :4]
            left[:, row, 4 * j + 4:4 * j + 8] = np.eye(4)
            for k, kind in enumerate(("built", "run")):
                for plane in range(2):
                    right[:, row, 4 + 2 * plane + k] = np.einsum("rij,rj->ri", whole[:, j, :4, 4:],
                                                                 grid.aux[kind][tube, j, plane])
                    if j + 1 < count:
                        right[:, 5 + 4 * j, 4 + 2 * plane + k] += grid.jump[kind][tube, j + 1, plane]
        return grid, cell, np.linalg.solve(left, right).reshape(rows, count + 1, 4, 8)

    def stiffness(self, tube, p):
        """Forces that the joints put on a tube, [s_A m_A -s_B -m_B]: K4 [row, 4, 4] after its end movements, f4 [row, plane,
        kind, 4]."""
        nodes = self.solve(tube, p)[2]
        force = np.stack([nodes[:, 0, 3], nodes[:, 0, 2], -nodes[:, -1, 3], -nodes[:, -1, 2]], axis=1)
        return force[..., :4], force[..., 4:].transpose(0, 2, 1).reshape(-1, 2, 2, 4)

    def stiffness_and_slope(self, tube, p):
        step = STEP * np.maximum(1.0, np.abs(p))
        matrix, force = self.stiffness(tube, p + 1j * step)
        return (matrix.real, force.real), (matrix.imag / step[:, None, None], force.imag / step[:, None, None, None])

    def along(self, tube, p, ends, built, run):
        """Stations of each segment. Given: end movements [row, plane, 4]; shares of built in and run [row].
        Returned: Stations"""
        grid, cell, nodes = self.solve(tube, p)
        share = np.zeros((len(tube), 2, 8))
        share[..., :4] = ends
        for plane in range(2):
            share[:, plane, 4 + 2 * plane], share[:, plane, 5 + 2 * plane] = built, run
        start = np.einsum("rnik,rpk->rnpi", nodes[:, :-1], share)
        aux = (grid.aux["built"][tube] * built[:, None, None, None] + grid.aux["run"][tube] * run[:, None, None, None])
        state = np.concatenate([start, aux], axis=-1)
        states = [state]
        for _ in range(CELLS):
            states.append(np.einsum("rnij,rnpj->rnpi", cell, states[-1]))
        return Stations(grid, tube, p, np.stack(states, axis=2))


class Stations:
    """States [row, segment, station, plane, 9] along tubes."""

    def __init__(self, grid, tube, p, states):
        self.edges, self.length = grid.edges[tube], grid.length[tube]
        self.weld, self.used = grid.weld[tube], grid.used[tube]
        slope = states[..., 5] + states[..., 7]
        bend = states[..., 6] - math.pi * states[..., 8]
        p = p[:, None, None, None]
        self.movement, self.moment, self.turn = states[..., 0], states[..., 2], states[..., 1]
        self.first = p * (states[..., 1] + slope) - states[..., 3]
        self.second = p * (bend - states[..., 2]) - states[..., 4]
        self.bent = -states[..., 2]

    def cells(self, value, first, second):
        """Quintic of each cell in t = 0 ... 1: coefficients [row, segment, cell, plane, 6]."""
        h = (self.length / CELLS)[:, :, None, None]
        a, b = (value[:, :, :-1], first[:, :, :-1] * h, second[:, :, :-1] * h * h / 2), None
        b = (value[:, :, 1:] - sum(a), first[:, :, 1:] * h - a[1] - 2 * a[2], second[:, :, 1:] * h * h - 2 * a[2])
        high = (10 * b[0] - 4 * b[1] + b[2] / 2, -15 * b[0] + 7 * b[1] - b[2], 6 * b[0] - 3 * b[1] + b[2] / 2)
        return np.stack([*a, *high], axis=-1)

    def largest(self, which, samples=2, exact=False, chord=False):
        """Largest moment (or movement off the chord) where which [row, segment] holds: size, at, its two planes."""
        value, first, second = (self.off_chord() if chord else (self.moment, self.first, self.second))
        coefficients = self.cells(value, first, second)
        t = np.linspace(0.0, 1.0, samples)
        size = (np.einsum("rncpk,sk->rncsp", coefficients, t[:, None]**np.arange(6))**2).sum(axis=-1)
        size = np.where((which & self.used)[:, :, None, None], size, -1.0)
        flat = size.reshape(len(size), -1)
        # ties go to the smallest x
        best = np.argmax(flat >= flat.max(axis=1, keepdims=True) * (1.0 - 1e-9), axis=1)
        row = np.arange(len(size))
        # the end of a cell is the start of the next, where the largest may stand too
        after = np.minimum(best + 1, flat.shape[1] - 1)
        best = np.where(exact & (best % samples == samples - 1) & (flat[row, after] >= flat[row, best] * (1.0 - 1e-9))
                        & rising(coefficients, best // samples), after, best)
        segment, cell, sample = np.unravel_index(best, size.shape[1:])
        chosen, spot = coefficients[row, segment, cell], t[sample]
        if exact:
            low, high = np.maximum(0.0, spot - t[1]), np.minimum(1.0, spot + t[1])
            spot = peak(chosen, low, high, spot)
        planes = np.einsum("rpk,rk->rp", chosen, spot[:, None]**np.arange(6))
        at = self.edges[row, segment] + self.length[row, segment] * (cell + spot) / CELLS
        empty = flat.max(axis=1) < 0.0
        planes[empty] = 0.0
        return np.hypot(*planes.T), at, planes

    def off_chord(self):
        begin, end = self.movement[:, :1, :1], self.movement[:, -1:, -1:]
        along = (self.edges[:, :-1, None] + self.length[:, :, None] * np.arange(CELLS + 1) / CELLS)[..., None]
        return self.movement - begin - (end - begin) * along, self.turn - (end - begin), self.bent


def rising(coefficients, cell):
    """Whether the size of the vector still grows at the end of a cell, counted through all segments."""
    chosen = coefficients.reshape(len(cell), -1, *coefficients.shape[-2:])[np.arange(len(cell)), cell]
    return (chosen.sum(axis=-1) * (chosen * np.arange(6)).sum(axis=-1)).sum(axis=-1) > 0.0


def peak(coefficients, low, high, spot):
    """Where the size of a vector of two quintics is largest between low and high: root of the slope of its square, by
    halving; else the better end."""
    k = np.arange(6)

    def slope(t):
        powers = t[:, None]**k
        steep = np.concatenate([np.zeros((len(t), 1)), powers[:, :-1]], axis=1) * k
        return (np.einsum("rpk,rk->rp", coefficients, powers) * np.einsum("rpk,rk->rp", coefficients, steep)).sum(axis=1)

    low, high = low.copy(), high.copy()
    inside = (slope(low) > 0.0) & (slope(high) < 0.0)
    for _ in range(60):
        middle = (low + high) / 2
        rising = slope(middle) > 0.0
        low, high = np.where(rising, middle, low), np.where(rising, high, middle)
    return np.where(inside, (low + high) / 2, spot)
