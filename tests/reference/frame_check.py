"""Load factors, margins and results of every tube, joint and run of a frame, by a dense scan of load factors."""
import math

import numpy as np

from frame_model import ANY, Model
from frame_states import Path, States, critical_factor
from rules import governing

SCAN = 400          # steps over twice the required load factor
LAST = 400          # times the required load factor: nothing is looked for beyond; see Path and Factors.trend
KINDS = ("yield", "column", "interaction")


class Line:
    """Uses of pairs of a tube and a state."""

    def __init__(self, path, tube, factors, solved, samples, exact):
        states = self.states = path.states
        model = self.model = states.model
        self.tube, self.factors = tube, factors
        row = np.arange(len(tube))
        self.axial = solved.load[row, tube]
        move = np.zeros((len(tube), len(model.load)))
        move[:, model.free] = solved.move
        self.move = move
        ends = np.einsum("rpin,rn->rpi", model.lateral[tube], move)
        self.stations = states.tubes.along(tube, self.axial * states.scale[tube], ends, np.ones(len(tube)), factors)
        self.torque = model.twist[tube] * (model.turning[tube] * move).sum(axis=1)
        self.unit = model.bending[tube] / model.length[tube]
        self.samples, self.exact = samples, exact
        self.peaks = {weld: self.stations.largest(self.stations.weld == weld, samples, exact) for weld in (False, True)}

    def measures(self):
        """[kind, row]"""
        result = np.zeros((3, len(self.tube)))
        for i in np.unique(self.tube):
            rows = self.tube == i
            limits = self.model.limits[i]
            axial, torque = self.axial[rows], self.torque[rows]
            result[1, rows] = axial / limits.column_load
            for weld, zone in limits.zones.items():
                moment = self.peaks[weld][0][rows] * self.unit[rows]
                result[0, rows] = np.maximum(result[0, rows], zone.use(axial, moment, torque))
                both = axial / limits.column_load + zone.interaction_bending(moment, torque)
                result[2, rows] = np.maximum(result[2, rows], np.where(axial > 0.0, both, 0.0))
        return result


def lines(path, tube, factors, samples=2, exact=False):
    """Measures [kind, row] of pairs, in portions."""
    tube, factors = np.asarray(tube), np.asarray(factors, dtype=float)
    places, back = np.unique(factors, return_inverse=True)
    solved = path.at(places)
    result = np.zeros((3, len(tube)))
    for first in range(0, len(tube), 1500):
        part = slice(first, first + 1500)
        chosen = type(solved)(solved.load[back[part]], solved.move[back[part]], None, None, None)
        result[:, part] = Line(path, tube[part], factors[part], chosen, samples, exact).measures()
    return result


class Factors:
    """The three factors of every tube on one path; path_end where it ends first."""

    def __init__(self, path, asked):
        self.path, self.count = path, path.states.count
        self.found = np.full((3, self.count), np.nan)
        if path.end == 0.0:
            self.found[:] = 0.0
            return
        self.trend = np.zeros((3, self.count))
        low, high, limit = 0.0, 2.0 * asked, min(path.end, LAST * asked)
        steps = SCAN
        while low < limit and np.isnan(self.found).any():
            self.scan(low, min(high, limit), steps, ends=high >= path.end)
            low, high = high, 2.0 * high
            steps = SCAN if high <= 16.0 * asked else SCAN // 4
        missing = np.isnan(self.found)
        if math.isinf(path.end) and (self.trend[missing] > 0.3).any():
            raise ValueError("utilisation still grows at the last load factor")
        self.found[missing] = path.end

    def scan(self, low, high, steps, ends):
        grid = np.linspace(low, high, steps + 1)
        if ends:        # closer and closer to the end of the path
            grid = np.union1d(grid[:-1], high - (high - low) / steps * np.geomspace(1.0, 1e-7, 50))
            grid = grid[grid < high * (1.0 - 1e-10)]
        open_tubes = np.nonzero(np.isnan(self.found).any(axis=0))[0]
        tube, factor = (a.ravel() for a in np.meshgrid(open_tubes, grid))
        values = lines(self.path, tube, factor, samples=3).reshape(3, len(grid), len(open_tubes))
        brackets = []
        for kind in range(3):
            for j, i in enumerate(open_tubes):
                if np.isnan(self.found[kind, i]):
                    brackets += self.bracket(kind, i, grid, values[kind, :, j])
        self.trend[:, open_tubes] = values[:, -1]
        self.refine(brackets)

    def bracket(self, kind, i, grid, values):
        over = np.nonzero(values >= 1.0)[0]
        first = over[0] if len(over) else len(grid)
        for k in range(1, min(first, len(grid) - 1)):
            if values[k] > 0.9 and values[k] >= values[k - 1] and values[k] >= values[k + 1]:
                place = self.hump(kind, i, grid[k - 1], grid[k + 1])
                if place is not None:
                    return [(kind, i, grid[k - 1], place)]
        if not len(over):
            return []
        if first == 0:
            if grid[0] == 0.0:
                self.found[kind, i] = 0.0
                return []
            return [(kind, i, grid[0] * (1 - 1e-6), grid[0])]
        return [(kind, i, grid[first - 1], grid[first])]

    def hump(self, kind, i, low, high):
        """A place between where the measure is over 1, if there is one."""
        for _ in range(6):
            grid = np.linspace(low, high, 13)
            values = lines(self.path, np.full(13, i), grid, 9, True)[kind]
            if values.max() >= 1.0:
                return grid[np.argmax(values >= 1.0)]
            best = int(np.argmax(values))
            low, high = grid[max(0, best - 1)], grid[min(12, best + 1)]
            if values.max() < 0.999:
                return None
        return None

    def refine(self, brackets):
        """All brackets together: false position with halving."""
        if not brackets:
            return
        kind, tube = np.array([b[0] for b in brackets]), np.array([b[1] for b in brackets])
        low, high = (np.array([b[j] for b in brackets]) for j in (2, 3))
        row = np.arange(len(kind))

        def measure(factors):
            return np.clip(lines(self.path, tube, factors, 9, True)[kind, row] - 1.0, -1.0, 1.0)

        below, above = measure(low), measure(high)
        at_low = below >= 0.0
        for turn in range(60):
            width = high - low
            if (at_low | (width <= 1e-11 * (1e-3 + high))).all():
                break
            share = np.clip(-below / np.where(above > below, above - below, 1.0), 0.02, 0.98) if turn % 3 != 2 else 0.5
            if turn % 3 == 1:       # to the other side of the root, where false position stands close to it
                share = np.where(np.abs(below) < np.abs(above), np.minimum(2 * share + 1e-9, 0.98),
                                 np.maximum(2 * share - 1 - 1e-9, 0.02))
                share = np.clip(share, 1e-4, 1 - 1e-4)
            elif turn % 3 == 0:
                share = np.clip(-below / np.where(above > below, above - below, 1.0), 1e-6, 1 - 1e-6)
            middle = low + share * width
            value = measure(middle)
            over = value >= 0.0
            high, above = np.where(over, middle, high), np.where(over, value, above)
            low, below = np.where(over, low, middle), np.where(over, below, value)
        self.found[kind, tube] = np.where(at_low, low, (low + high) / 2)


class Fit:
    """A frame and a run as built or unforced, with bows of unknown clock turned as told."""

    def __init__(self, frame, run, forced, clocks):
        self.model = Model(frame, run, forced, clocks)
        self.run = run
        asked = max(run.factor, run.factor_yield or run.factor)
        self.path = Path(States(self.model), LAST * asked)
        if math.isinf(self.path.end):
            self.no_end_beyond(LAST * asked)

    def no_end_beyond(self, top):
        """A path that has not ended by now ends nowhere only if no tube is pushed harder and harder."""
        half, whole = (load / self.path.states.critical for load in self.path.at([top / 2, top]).load)
        if ((whole > 1e-6) & (whole > 1.001 * half)).any():
            raise ValueError("the path ends far out")

    def margins(self):
        """For every tube: margin, governs, its three factors."""
        run = self.run
        factors = Factors(self.path, max(run.factor, run.factor_yield or run.factor)).found
        result = []
        for of_yield, column, both in factors.T:
            parts = {"column": (column, run.factor), "yield": (of_yield, run.factor_yield or run.factor),
                     "interaction": (both, run.factor)}
            name, margin = governing({key: value / over - 1.0 for key, (value, over) in parts.items()})
            if name != "none":
                ended = parts[name][0] >= self.path.end
                name = "frame" if ended else name
            result.append({"margin": margin, "governs": name, "yield_factor": of_yield, "column_factor": column,
                           "interaction_factor": both})
        return result

    def line(self, factor):
        if not factor < self.path.end:
            return None
        count = len(self.model.length)
        solved = self.path.at([factor])
        repeated = type(solved)(np.repeat(solved.load, count, axis=0), np.repeat(solved.move, count, axis=0), None, None, None)
        return Line(self.path, np.arange(count), np.full(count, float(factor)), repeated, 17, True)

    def unknown_clocks(self):
        """The side to which every tube with a bow of unknown clock moves, that bow being zero here."""
        line = self.line(1.0)
        if line is None:
            raise ValueError("no state to turn the bows by")
        size, _, planes = line.stations.largest(line.stations.used, 17, True, chord=True)
        taken = {}
        for i, tube in enumerate(self.model.frame.tubes):
            if tube.bow and tube.bow_clock is ANY:
                move = size[i] * self.model.length[i]
                if 1e-13 < move < 1e-7:
                    raise ValueError("the side of a bow hangs on rounding")
                taken[tube.name] = math.degrees(math.atan2(planes[i, 1], planes[i, 0])) % 360.0 if move > 1e-10 else 0.0
        return taken


def clock(planes):
    return math.degrees(math.atan2(planes[1], planes[0])) % 360.0


def tube_state(line, i):
    """Moments and stresses of tube i in a state."""
    limits, unit = line.model.limits[i], line.unit[i]
    axial, torque = line.axial[i], line.torque[i]
    size, at, _ = line.stations.largest(line.stations.used, 17, True)
    best = max((zone.use(axial, line.peaks[weld][0][i] * unit, torque), weld) for weld, zone in limits.zones.items())
    stress = limits.zones[best[1]].governing_stress(axial, line.peaks[best[1]][0][i] * unit, torque)
    moment = line.stations.moment[i]
    ends = moment[0, 0] * unit, moment[line.stations.used[i].nonzero()[0][-1], -1] * unit
    return {"axial": axial, "torque": torque, "peak_moment": size[i] * unit, "peak_moment_at": at[i] * line.model.length[i],
            "peak_stress": float(stress), "stress_use": float(best[0]),
            "moment_a": math.hypot(*ends[0]), "moment_a_clock": clock(ends[0]),
            "moment_b": math.hypot(*ends[1]), "moment_b_clock": clock(ends[1])}


def joint_results(built, loaded, locked):
    """Rows of all joints from the states at load factors 1 and 0."""
    model, frame = built.model, built.model.frame
    rows = []
    reaction = None
    if loaded is not None:
        states = built.path.states
        tubes = np.arange(len(model.length))
        energy = model.bending / model.length
        matrix, force = states.tubes.stiffness(tubes, loaded.axial * states.scale)
        ends = np.einsum("tpin,n->tpi", model.lateral, loaded.move[0])
        inner = (np.einsum("tij,tpj->tpi", matrix, ends) + force[:, :, 0] + force[:, :, 1]) * energy[:, None, None]
        reaction = (np.einsum("tpin,tpi->n", model.lateral, inner) - model.stretch.T @ loaded.axial
                    + model.turning.T @ loaded.torque - model.load)
    for i, joint in enumerate(frame.joints):
        row = {"joint": joint.name}
        place = slice(6 * i, 6 * i + 6)
        for values, names in ((None if loaded is None else loaded.move[0][place], "move_x move_y move_z turn_x turn_y turn_z"),
                              (reaction if reaction is None else reaction[place], "react_x react_y react_z react_mx react_my react_mz"),
                              (None if locked is None else locked.move[0][place][:3], "locked_x locked_y locked_z")):
            for k, name in enumerate(names.split()):
                row[name] = None if values is None else float(values[k])
                if values is not None and name.startswith("react") and \
                        ("x", "y", "z", "rx", "ry", "rz")[k] not in joint.holds():
                    row[name] = 0.0
        rows.append(row)
    return rows


def check(frame, run):
    """Tubes, joints and the run's own row."""
    clocks = [None]
    if any(tube.bow and tube.bow_clock is ANY for tube in frame.tubes):
        still = Fit(without_unknown_bows(frame), run, True, None)
        still.model.frame = frame
        toward = still.unknown_clocks()
        clocks = [toward, {name: (value + 180.0) % 360.0 for name, value in toward.items()}]
    forced = any(tube.miss_a or tube.miss_b or tube.gap for tube in frame.tubes)
    ways = []
    for taken in clocks:
        built = Fit(frame, run, True, taken)
        as_built = built.margins()
        unforced = Fit(frame, run, False, taken).margins() if forced else as_built
        ways.append((built, as_built, unforced, taken, built.line(0.0), built.line(1.0)))
    rows = []
    for i, tube in enumerate(frame.tubes):
        way = min(ways, key=lambda w: min(w[1][i]["margin"], w[2][i]["margin"]))
        built, as_built, unforced, taken, locked, loaded = way
        lower = unforced[i] if unforced[i]["margin"] < as_built[i]["margin"] - 1e-9 else as_built[i]
        limits = built.model.limits[i]
        row = {"tube": tube.name, **lower, "margin_as_built": as_built[i]["margin"], "margin_unforced": unforced[i]["margin"],
               "path_end": built.path.end, "length": built.model.length[i], "weight": limits.weight,
               "column_load": limits.column_load}
        if locked is not None:
            fit = tube_state(locked, i)
            row |= {"fit_axial": fit["axial"], "fit_moment": fit["peak_moment"], "fit_stress": fit["peak_stress"]}
        if loaded is not None:
            row |= tube_state(loaded, i)
        if tube.bow and tube.bow_clock is ANY:
            row["bow_clock_taken"] = taken[tube.name]
        rows.append(row)
    built, *_, locked, loaded = ways[0]
    joints = joint_results(built, loaded, locked)
    model = built.model
    masses = [(limits.weight, (np.array(frame.joints[a].at) + frame.joints[b].at) / 2)
              for limits, (a, b) in zip(model.limits, model.ends)] + [(j.mass, np.array(j.at)) for j in frame.joints]
    mass = sum(m for m, _ in masses)
    centre = sum(m * at for m, at in masses) / mass
    worst = min(rows, key=lambda row: row["margin"])
    whole = {"run": run.name, "margin": worst["margin"], "worst_tube": worst["tube"], "governs": worst["governs"],
             "critical_factor": critical_factor(model), "path_end": min(way[0].path.end for way in ways),
             "weight": sum(limits.weight for limits in model.limits), "mass": mass,
             "centre_x": centre[0], "centre_y": centre[1], "centre_z": centre[2]}
    if loaded is not None:
        moves = loaded.move[0].reshape(-1, 6)[:, :3]
        sizes = np.sqrt((moves**2).sum(axis=1))
        whole |= {"move": sizes.max(), "move_joint": frame.joints[int(np.argmax(sizes))].name}
    return rows, joints, whole


def without_unknown_bows(frame):
    from copy import copy
    still = copy(frame)
    still.tubes = [copy(tube) for tube in frame.tubes]
    for tube in still.tubes:
        if tube.bow_clock is ANY:
            tube.bow = 0.0
    return still
