"""States of a frame: joint movements and axial forces that fit together, the path of states over the load factor, its end,
and the critical factor.

The axial forces P are the unknowns of a Newton iteration on P = -N(P), N being what the frame under the stiffness of P
gives; its matrix J = I + dN/dP is exact (complex steps in frame_tubes). The path is followed with the tangent as predictor;
a step counts only where the prediction was close, so that no step leaps over a fold to another branch.
"""
import math

import numpy as np

from frame_tubes import Tubes

NEVER = 1e6
CLOSE = 0.25        # error of a prediction over the step
SAME = 1e-12
ROUNDING = 1e-7     # where rounding may stand above that: close to the end of a path
STRONG = 1e5        # P L^2/EI beyond which a tube is not looked at


class Solved:
    """Stacks over load factors: axial loads, joint movements, whether the state exists, dP/d(load factor)."""

    def __init__(self, load, move, stable, tangent, fits):
        self.load, self.move, self.stable, self.tangent, self.fits = load, move, stable, tangent, fits


def positive(stiffness):
    return (np.linalg.eigvalsh(stiffness) > 0.0).all(axis=1)


class States:
    def __init__(self, model):
        self.model, self.tubes = model, Tubes(model.shapes)
        free = model.free
        self.scale = model.length**2 / model.bending
        self.critical = self.tubes.critical / self.scale
        self.stretch, self.lateral = model.stretch[:, free], model.lateral[..., free]
        turning = model.turning[:, free]
        self.linear = (self.stretch.T * model.pull) @ self.stretch + (turning.T * model.twist) @ turning
        self.fitted = self.stretch.T @ (model.pull * model.gap)
        self.count = len(model.length)

    def linear_system(self, load):
        """Stiffness and right sides at axial loads [row, tube], each with its derivatives after every tube's load."""
        rows, tubes = load.shape
        tube = np.tile(np.arange(tubes), rows)
        value, slope = self.tubes.stiffness_and_slope(tube, (load * self.scale).ravel())
        energy = self.model.bending / self.model.length     # of dimensionless forces on dimensionless movements
        matrix, force = value[0].reshape(rows, tubes, 1, 4, 4), value[1].reshape(rows, tubes, 2, 2, 4)
        over = self.scale[None, :, None, None, None]
        matrix_slope = slope[0].reshape(rows, tubes, 1, 4, 4) * over
        force_slope = slope[1].reshape(rows, tubes, 2, 2, 4) * over
        weight = energy[None, :, None, None, None]
        return matrix * weight, force * weight, matrix_slope * weight, force_slope * weight

    def assemble(self, matrix):
        """Stiffness of the frame [row, free, free]."""
        rows, free = len(matrix), self.lateral.shape[-1]
        turned = matrix @ self.lateral          # row, tube, plane, 4, free
        flat = self.lateral.reshape(8 * self.count, free)
        return self.linear + flat.T @ turned.reshape(rows, 8 * self.count, free)

    def step(self, load, built, run):
        """One look at axial loads [row, tube]: what they give, J, stiffness, movements, and dN/d(run), dN/d(built)."""
        m = self.model
        matrix, force, matrix_slope, force_slope = self.linear_system(load)
        stiffness = self.assemble(matrix)
        acting = force[..., 0, :] * built[:, None, None, None] + force[..., 1, :] * run[:, None, None, None]
        nodal = np.einsum("tpin,rtpi->rn", self.lateral, acting)
        of_run = m.load[m.free] - np.einsum("tpin,rtpi->rn", self.lateral, force[..., 1, :])
        of_built = -self.fitted - np.einsum("tpin,rtpi->rn", self.lateral, force[..., 0, :])
        right = run[:, None] * m.load[m.free] - built[:, None] * self.fitted - nodal
        move = np.linalg.solve(stiffness, right[..., None])[..., 0]
        ends = np.einsum("tpin,rn->rtpi", self.lateral, move)
        acting_slope = (np.einsum("rtpij,rtpj->rtpi", matrix_slope, ends)
                        + force_slope[..., 0, :] * built[:, None, None, None]
                        + force_slope[..., 1, :] * run[:, None, None, None])
        sides = -np.einsum("tpin,rtpi->rnt", self.lateral, acting_slope)
        moves = np.linalg.solve(stiffness, np.concatenate([sides, of_run[..., None], of_built[..., None]], axis=-1))
        given = -m.pull * (move @ self.stretch.T + built[:, None] * m.gap)
        change = -m.pull[:, None] * (self.stretch @ moves)
        jacobian = np.eye(self.count) - change[..., :-2]
        return given, jacobian, stiffness, move, change[..., -2], change[..., -1] - m.pull * m.gap

    def solve(self, load, built, run, rounds=14):
        """Newton from axial loads [row, tube]."""
        built, run = np.broadcast_to(built, len(load)), np.broadcast_to(run, len(load))
        size = np.full(len(load), np.inf)
        load = np.array(load, dtype=float)
        for _ in range(rounds):
            if np.abs(load * self.scale).max() > STRONG:
                return None
            with np.errstate(all="ignore"):
                try:
                    given, jacobian, stiffness, move, by_run, by_built = self.step(load, built, run)
                    correction = np.linalg.solve(jacobian, (given - load)[..., None])[..., 0]
                except np.linalg.LinAlgError:
                    return None
            size, before = np.abs(correction).max(axis=1), size
            most = np.abs(load).max(axis=1)
            fits = size <= SAME * most + 1e-12
            fits |= (size <= ROUNDING * most) & (size > 0.3 * before)       # no longer falling
            if fits.all() or not np.isfinite(correction).all() or np.abs(correction).max() > 1e14:
                break
            load = load + np.where(fits[:, None], 0.0, correction)
        if not np.isfinite(load).all() or not np.isfinite(correction).all():
            return None
        stable = fits & positive(stiffness) & (np.linalg.slogdet(jacobian)[0] > 0.0)
        stable &= (load < self.critical).all(axis=1)
        tangents = [np.linalg.solve(jacobian, by[..., None])[..., 0] for by in (by_built, by_run)]
        return Solved(load, move, stable, tangents, fits)

    def follow(self, start, kind, top):
        """The path from a state, over the share of what is built in (kind 0, from 0 to 1) or over the load factor (kind 1).
        Returned: places, their states, end (top where the path goes on)"""
        places, found, place = [0.0], [start], 0.0
        tangent = start.tangent[kind][0]
        rate = np.abs(tangent / self.critical).max()
        step = min(top, 0.02 / rate if rate > 0.0 else top)
        while place < top:
            step = min(step, top - place)
            now = found[-1]
            target = top if step == top - place else place + step
            predicted = now.load + step * now.tangent[kind]
            shares = (target, 0.0) if kind == 0 else (1.0, target)
            new = self.solve(predicted, *shares, rounds=8)
            if new is not None and new.stable[0]:
                went = np.abs((new.load - now.load) / self.critical).max()
                error = np.abs((new.load - predicted) / self.critical).max()
            if new is None or not new.stable[0] or error > CLOSE * went + 1e-9:
                if step < 2e-11 * max(place, 1e-3):
                    return places, found, place
                step /= 2
                continue
            places.append(target)
            found.append(new)
            place = target
            step *= 1.7 if error < 0.05 * went + 1e-6 else 1.1
        return places, found, top


class Path:
    """States over the load factor from 0 to `end`, or to `top` where nothing ends it before."""

    def __init__(self, states, top):
        self.states, self.top = states, top
        zero = states.solve(np.zeros((1, states.count)), 0.0, 0.0)
        if not zero.stable[0]:
            raise ValueError("not held")
        _, built, end = states.follow(zero, 0, 1.0)
        self.end = 0.0
        if end == 1.0:
            self.places, found, end = states.follow(built[-1], 1, top)
            self.load = np.array([f.load[0] for f in found])
            self.tangent = np.array([f.tangent[1][0] for f in found])
            self.end = end if end < top else math.inf

    def at(self, factors):
        """States at load factors below the end."""
        factors = np.asarray(factors, dtype=float)
        if (factors >= min(self.end, self.top * (1 + 1e-12))).any():
            raise ValueError("beyond the path")
        i = np.clip(np.searchsorted(self.places, factors, side="right") - 1, 0, max(0, len(self.places) - 2))
        if len(self.places) == 1:
            start = self.load[i]
        else:
            places = np.array(self.places)
            h = (places[i + 1] - places[i])[:, None]
            t = (factors - places[i])[:, None] / h
            start = ((1 + 2 * t) * (1 - t)**2 * self.load[i] + t**2 * (3 - 2 * t) * self.load[i + 1]
                     + h * t * (1 - t)**2 * self.tangent[i] - h * t**2 * (1 - t) * self.tangent[i + 1])
        parts = [self.states.solve(start[j:j + 64], 1.0, factors[j:j + 64]) for j in range(0, len(factors), 64)]
        if any(part is None for part in parts):
            raise ValueError("no state on the path")
        joined = {name: np.concatenate([getattr(part, name) for part in parts])
                  for name in ("load", "move", "stable", "fits")}
        return Solved(tangent=None, **joined)


def critical_factor(model):
    """Smallest load factor > 0 at which the stiffness under P0 + factor P1 is singular, by halving on whether its lowest
    eigenvalue is positive and no tube is past its own critical load; where it is positive is one interval."""
    states = States(model)
    zero = states.step(np.zeros((1, states.count)), np.zeros(1), np.zeros(1))
    stiffness, m = zero[2][0], model
    bare = [m.load[m.free].copy(), -states.fitted]
    force = states.linear_system(np.zeros((1, states.count)))[1][0]
    bare[0] -= np.einsum("tpin,tpi->n", states.lateral, force[:, :, 1])
    bare[1] -= np.einsum("tpin,tpi->n", states.lateral, force[:, :, 0])     # misses: at P = 0 bows give no force
    moves = np.linalg.solve(stiffness, np.array(bare).T)
    by_run, by_fit = -m.pull * (states.stretch @ moves).T
    by_fit -= m.pull * m.gap

    def holds(factor):
        load = by_fit + factor * by_run
        if (load >= states.critical).any():
            return False
        matrix = states.tubes.stiffness(np.arange(states.count), load * states.scale)[0] * (m.bending / m.length)[:, None, None]
        return positive(states.assemble(matrix[None, :, None]))[0]

    if not holds(0.0):
        return 0.0
    pushed = by_run > 1e-10 * np.abs(by_run).max()
    if not pushed.any():
        return math.inf     # the run adds tension alone, and tension stiffens
    low, high = 0.0, ((states.critical - by_fit)[pushed] / by_run[pushed]).min()
    if high > NEVER:
        raise ValueError("critical factor far out")
    while high - low > 1e-14 * high:
        middle = (low + high) / 2
        if middle in (low, high):
            break
        low, high = (middle, high) if holds(middle) else (low, middle)
    return (low + high) / 2
