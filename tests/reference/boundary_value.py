"""Boundary value problem of the beam-column with rotational springs, solved numerically.

Lengths are divided by L, moments by EI/L, forces by EI/L^2: m(x) is the moment,
p the axial load (compression positive), v the movement, y the stress-free bow:

    m'' + p m = -q + p y''      m = -v''      jumps of m' at point loads and kinks

The unknown on every segment of the tube is m'' as a Legendre series, made to fit the
differential equation at Gauss points; m, the slope and v follow by integration (a
well-conditioned integral equation).  Segments end at loads, kinks and zone borders
and are divided until sqrt(|p|) times their length is small, so boundary layers under
tension are resolved.  The segments are joined as in multiple shooting; the last
equations are both end rules and the lateral support of B.  No closed-form solution of the
differential equation is used, and the critical load is an eigenvalue of the same
discretisation.
"""
import functools
from dataclasses import dataclass, field

import numpy as np
import scipy.linalg
from numpy.polynomial import legendre

SAMPLES = np.linspace(-1.0, 1.0, 25)


@dataclass(frozen=True)
class Resolution:
    order: int          # unknowns on a piece
    piece: float        # largest sqrt(|p|) * length of a piece


COARSE = Resolution(order=16, piece=3.0)
FINE = Resolution(order=21, piece=2.0)


@dataclass(frozen=True)
class Ends:
    """Rotational springs k L/EI (inf = built in); free: B moves laterally and rotates."""
    spring_a: float
    spring_b: float
    free_b: bool = False

    @staticmethod
    def weights(spring):
        """Shares of moment and slope in an end rule: pinned (1, 0), fixed (0, 1)."""
        if np.isinf(spring):
            return 0.0, 1.0
        return 1.0 / (1.0 + spring), spring / (1.0 + spring)


@dataclass
class Loading:
    """Loads at a row of axial loads p; [i, 0] up and [i, 1] right at p[i]."""
    p: np.ndarray
    spread: np.ndarray
    point: np.ndarray
    moment_a: np.ndarray
    moment_b: np.ndarray
    point_at: float
    alpha: np.ndarray           # turn of socket A, [0] up and [1] right
    beta: np.ndarray
    bow: np.ndarray
    bow_shape: str
    bow_at: float
    borders: tuple = field(default=())      # where a piece must end too


class Basis:
    """Legendre series of m'' on a segment, and its integrals from the left end."""

    def __init__(self, order):
        self.nodes, self.weights = legendre.leggauss(order)
        self.once = np.array([legendre.legint(unit, lbnd=-1) for unit in np.eye(order)]).T
        self.twice = np.array([legendre.legint(unit, 2, lbnd=-1) for unit in np.eye(order)]).T
        self.values = legendre.legvander(self.nodes, order - 1)
        self.twice_values = legendre.legvander(self.nodes, order + 1) @ self.twice
        self.once_end = self.once.sum(axis=0)
        self.twice_end = self.twice.sum(axis=0)
        self.ramp = 1.0 + self.nodes


basis = functools.lru_cache(maxsize=None)(Basis)


def critical_load(ends, order):
    """Smallest p at which the straight column buckles: a generalised eigenvalue."""
    b = basis(order)
    size = order + 3                    # series of m'', m(0), slope of m at 0, slope of v at 0
    left, right = np.zeros((size, size)), np.zeros((size, size))
    half = 0.5

    def row_of_moment(points_row, start, slope):
        return np.concatenate([points_row, [start, slope, 0.0]])

    moment = np.column_stack([b.twice_values, np.ones(order), b.ramp, np.zeros(order)])
    left[:order, :order] = b.values
    right[:order] = -half**2 * moment
    position = half * b.ramp
    slope_start = np.eye(size)[-1]
    slope_end = slope_start - half * b.weights @ moment
    moment_end = row_of_moment(b.twice_end, 1.0, 2.0)
    moment_slope_end = row_of_moment(b.once_end, 0.0, 1.0) / half
    share, turn = Ends.weights(ends.spring_a)
    left[order] = share * np.eye(size)[order] + turn * slope_start
    if ends.free_b:
        left[order + 1] = moment_end
        left[order + 2], right[order + 2] = -moment_slope_end, -slope_end
    else:
        share, turn = Ends.weights(ends.spring_b)
        left[order + 1] = share * moment_end - turn * slope_end
        left[order + 2] = slope_start - half * (b.weights * (1.0 - position)) @ moment
    alpha, beta = scipy.linalg.eig(left, right, right=False, homogeneous_eigvals=True)
    finite = abs(beta) > 1e-9 * abs(alpha)
    roots = alpha[finite] / beta[finite]
    roots = roots[(abs(roots.imag) < 1e-7 * abs(roots)) & (roots.real > 0.0)].real
    return roots.min()


def cut(loading, resolution):
    """Borders of the segments."""
    stops = {0.0, 1.0, loading.point_at, *loading.borders}
    if loading.bow_shape == "kink":
        stops.add(loading.bow_at)
    stops = sorted(stops)
    wave = max(np.sqrt(np.max(np.abs(loading.p))), np.pi)
    edges = [0.0]
    for start, stop in zip(stops, stops[1:]):
        count = int(np.ceil((stop - start) * wave / resolution.piece))
        edges += [start + (stop - start) * i / count for i in range(1, count)] + [stop]
    return np.array(edges)


def bow_slope_at_b(loading):
    return {"sine": -np.pi, "arc": -4.0, "kink": -1.0 / (1.0 - loading.bow_at)}[loading.bow_shape] * loading.bow


def load_on_piece(loading, x):
    """-q + p y'' at the points x[piece, node]: [p, piece, node, plane]."""
    shape = {"sine": -np.pi**2 * np.sin(np.pi * x), "arc": np.full_like(x, -8.0), "kink": np.zeros_like(x)}
    curvature = shape[loading.bow_shape][..., None] * loading.bow
    return -loading.spread[:, None, None, :] + loading.p[:, None, None, None] * curvature


def jump_at(loading, edge):
    """Jump of m' at a border: [p, plane]."""
    jump = np.zeros_like(loading.point)
    if edge == loading.point_at:
        jump = jump - loading.point
    if loading.bow_shape == "kink" and edge == loading.bow_at:
        jump = jump - loading.p[:, None] * loading.bow * (1.0 / edge + 1.0 / (1.0 - edge))
    return jump


class Solution:
    """m as Legendre series: moment[p, piece, plane, :], on pieces with these edges."""

    def __init__(self, ends, loading, resolution):
        self.edges = cut(loading, resolution)
        self.half = np.diff(self.edges) / 2.0
        b = basis(resolution.order)
        p, half, pieces = loading.p, self.half, len(self.half)

        # Each piece by itself: m = start + slope * half * (1 + t) + integrals of the series.
        x = self.edges[:-1, None] + half[:, None] * b.ramp
        scale = p[:, None] * half**2
        matrix = b.values + scale[..., None, None] * b.twice_values
        known = np.empty((len(p), pieces, resolution.order, 4))
        known[..., 0] = -scale[..., None]
        known[..., 1] = -scale[..., None] * half[:, None] * b.ramp
        known[..., 2:] = half[:, None, None]**2 * load_on_piece(loading, x)
        series = np.linalg.solve(matrix, known)

        at_nodes = b.twice_values @ series
        at_nodes[..., 0] += 1.0
        at_nodes[..., 1] += half[:, None] * b.ramp
        end = b.twice_end @ series
        end[..., 0] += 1.0
        end[..., 1] += 2.0 * half
        slope_end = (b.once_end @ series) / half[:, None]
        slope_end[..., 1] += 1.0
        weights = half[:, None] * b.weights
        area = np.einsum("jn,pjnc->pjc", weights, at_nodes)
        first = np.einsum("jn,pjnc->pjc", weights * (1.0 - x), at_nodes)

        # Joined: start and slope of every piece, and the slope of v at A.
        size = 2 * pieces + 1
        join, given = np.zeros((len(p), size, size)), np.zeros((len(p), size, 2))
        for j in range(pieces - 1):
            own = slice(2 * j, 2 * j + 2)
            join[:, 2 * j, own], given[:, 2 * j] = end[:, j, :2], -end[:, j, 2:]
            join[:, 2 * j, 2 * j + 2] = -1.0
            join[:, 2 * j + 1, own] = slope_end[:, j, :2]
            given[:, 2 * j + 1] = -slope_end[:, j, 2:] - jump_at(loading, self.edges[j + 1])
            join[:, 2 * j + 1, 2 * j + 3] = -1.0
        rule_a, rule_b, sideways = size - 3, size - 2, size - 1
        last = slice(size - 3, size - 1)
        share, turn = Ends.weights(ends.spring_a)
        join[:, rule_a, 0], join[:, rule_a, -1] = share, turn
        given[:, rule_a] = share * loading.moment_a + turn * loading.alpha
        turned = area[..., :2].reshape(len(p), -1)          # slope at A - slope at B
        turned_known = area[..., 2:].sum(axis=1)
        if ends.free_b:
            join[:, rule_b, last], given[:, rule_b] = end[:, -1, :2], loading.moment_b - end[:, -1, 2:]
            join[:, sideways, last] = -slope_end[:, -1, :2]
            join[:, sideways, :-1] -= p[:, None] * turned
            join[:, sideways, -1] = p
            tip = loading.point if loading.point_at == 1.0 else 0.0
            given[:, sideways] = (slope_end[:, -1, 2:] - tip
                                  - p[:, None] * (bow_slope_at_b(loading) - turned_known))
        else:
            share, turn = Ends.weights(ends.spring_b)
            join[:, rule_b, last] = share * end[:, -1, :2]
            join[:, rule_b, :-1] += turn * turned
            join[:, rule_b, -1] = -turn
            given[:, rule_b] = (share * (loading.moment_b - end[:, -1, 2:])
                                + turn * (loading.beta - turned_known))
            join[:, sideways, :-1] = -first[..., :2].reshape(len(p), -1)
            join[:, sideways, -1] = 1.0
            given[:, sideways] = first[..., 2:].sum(axis=1)
        found = np.linalg.solve(join, given)

        start_slope = found[:, :-1].reshape(len(p), pieces, 2, 2)       # [p, piece, start|slope, plane]
        local = np.einsum("pjns,pjsc->pjnc", series[..., :2], start_slope) + series[..., 2:]
        moment = np.einsum("kn,pjnc->pjck", b.twice, local)
        step = half[:, None] * start_slope[:, :, 1]
        moment[..., 0] += start_slope[:, :, 0] + step
        moment[..., 1] += step
        self.moment = moment
        self.turn_a = found[:, -1]

    def movement(self, i):
        """v at p[i] as Legendre series [piece, plane, :]."""
        series, turn, place = [], self.turn_a[i], np.zeros(2)
        for half, moment in zip(self.half, self.moment[i]):
            slope = np.array([legendre.legint(-half * plane, lbnd=-1) for plane in moment])
            slope[:, 0] += turn
            moved = np.array([legendre.legint(half * plane, lbnd=-1) for plane in slope])
            moved[:, 0] += place
            turn, place = slope.sum(axis=1), moved.sum(axis=1)
            series.append(moved)
        return np.array(series)


def largest_sampled(series):
    """Largest magnitude of both planes together on each segment, among the samples: [p, piece]."""
    values = series @ legendre.legvander(SAMPLES, series.shape[-1] - 1).T
    return np.sqrt((values**2).sum(axis=2).max(axis=-1))


def stationary_points(series):
    """Ends and inner maxima of |f| on each segment.

    Given:    series[piece, plane, :]
    Returned: pieces, t, f[point, plane], sorted along the tube
    """
    pieces, degree = len(series), series.shape[-1] - 1
    slope = np.apply_along_axis(legendre.legder, -1, series)
    bend = np.apply_along_axis(legendre.legder, -1, slope)

    def at(coefficients, which, t):
        return np.einsum("ick,ik->ic", coefficients[which], legendre.legvander(t, coefficients.shape[-1] - 1))

    values = series @ legendre.legvander(SAMPLES, degree).T
    growth = (values * (slope @ legendre.legvander(SAMPLES, degree - 1).T)).sum(axis=1)
    which, index = np.nonzero((growth[:, :-1] > 0.0) & (growth[:, 1:] <= 0.0))
    low, high = SAMPLES[index], SAMPLES[index + 1]
    before, after = growth[which, index], growth[which, index + 1]
    t = low + (high - low) * before / (before - after)
    for _ in range(7):
        f, g, h = at(series, which, t), at(slope, which, t), at(bend, which, t)
        rate = (g * g + f * h).sum(axis=1)
        rate[rate >= 0.0] = -np.inf
        t = np.clip(t - (f * g).sum(axis=1) / rate, low, high)
    which = np.concatenate([which, np.arange(pieces), np.arange(pieces)])
    t = np.concatenate([t, -np.ones(pieces), np.ones(pieces)])
    along = np.lexsort((t, which))
    which, t = which[along], t[along]
    return which, t, at(series, which, t)
