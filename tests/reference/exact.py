#!/usr/bin/python3
"""Make exact.csv: sections and beam-columns where double precision would cancel, with 60 digits.

Run:      /usr/bin/python3 tests/reference/exact.py     (mpmath; seconds)
Method:   the textbook forms, which cancel: differences of fourth powers of the diameters; the general solution
          1, x, cos kx, sin kx of the differential equation with its particular solutions divided by P. With 60
          digits they stay right for walls of D/10^12, loads of 1e-12 of critical and 1e-9 below critical.
          Inputs are exact doubles. The comparison is in tests/mechanics/test_exact.c.
"""
import pathlib

from mpmath import cos, findroot, inf, lu_solve, matrix, mp, mpf, nstr, pi, re, sin, sqrt

mp.dps = 60
HERE = pathlib.Path(__file__).parent
BENDING, LENGTH = 1.121e6, 37.3


def section(od, wall):
    outer, bore = mpf(od), mpf(od) - 2 * mpf(wall)
    area, inertia = pi * (outer**2 - bore**2) / 4, pi * (outer**4 - bore**4) / 64
    return [area, inertia, sqrt(inertia / area), (outer**3 - bore**3) / 6]


class Beam:
    """Ends: spring stiffness over EI/L, inf, or 'free' for B."""

    def __init__(self, a, b, load, loading):
        self.a, self.b, self.p = a, b, mpf(load)
        self.spread, self.moment_a, self.moment_b, self.bow, self.slope_a, self.slope_b = map(mpf, loading)
        self.stiffness, self.length = mpf(BENDING), mpf(LENGTH)
        self.k = sqrt(self.p / self.stiffness)

    def shapes(self, x):
        """The four shapes and what the loads do, each with three derivatives."""
        k, p, n = self.k, self.p, pi / self.length
        c = p * self.bow / (self.stiffness * n**2 - p)
        rest = [self.spread * x**2 / 2 / p + c * sin(n * x), self.spread * x / p + c * n * cos(n * x),
                self.spread / p - c * n**2 * sin(n * x), -c * n**3 * cos(n * x)]
        return [[1, 0, 0, 0], [x, 1, 0, 0], [cos(k * x), -k * sin(k * x), -k**2 * cos(k * x), k**3 * sin(k * x)],
                [sin(k * x), k * cos(k * x), -k**2 * sin(k * x), -k**3 * cos(k * x)], rest]

    def rules(self):
        """Each as weights of v and its derivatives at x, and the right side."""
        unit, zero, length = self.stiffness / self.length, mpf(0), self.length
        yield zero, [1, 0, 0, 0], zero
        if self.a == inf:
            yield zero, [0, 1, 0, 0], self.slope_a
        else:
            k = mpf(self.a) * unit
            yield zero, [0, k, -self.stiffness, 0], self.moment_a + k * self.slope_a
        if self.b == "free":
            yield length, [0, 0, -self.stiffness, 0], self.moment_b
            yield length, [0, self.p, 0, self.stiffness], self.p * self.bow * pi / length
            return
        yield length, [1, 0, 0, 0], zero
        if self.b == inf:
            yield length, [0, 1, 0, 0], -self.slope_b
        else:
            k = mpf(self.b) * unit
            yield length, [0, -k, -self.stiffness, 0], self.moment_b + k * self.slope_b

    def solve(self):
        rows, right = matrix(4, 4), matrix(4, 1)
        for i, (x, weights, value) in enumerate(self.rules()):
            shapes = self.shapes(x)
            for j in range(4):
                rows[i, j] = sum(w * s for w, s in zip(weights, shapes[j]))
            right[i] = value - sum(w * s for w, s in zip(weights, shapes[4]))
        share = lu_solve(rows, right)
        values = []
        for part in (0, mpf("0.25"), mpf("0.5"), 1):
            shapes = self.shapes(part * self.length)
            d = [re(sum(share[j] * shapes[j][n] for j in range(4)) + shapes[4][n]) for n in range(3)]
            values += [-self.stiffness * d[2], d[0], d[1]]
        return values


def critical(a, b):
    """P L^2/EI, from each end condition's own textbook equation."""
    if (a, b) == (0, 0):
        return pi**2
    if (a, b) == (inf, inf):
        return 4 * pi**2
    if (a, b) == (inf, 0):
        return findroot(lambda u: sin(u) - u * cos(u), 4.4934)**2
    if b == "free":
        return pi**2 / 4 if a == inf else findroot(lambda u: u * sin(u) - a * cos(u), 0.4)**2
    r = mpf(a) / 2  # equal springs
    return (2 * findroot(lambda h: h * cos(h) + r * sin(h), 2.0))**2


def cell(value):
    return "inf" if value == inf else value if value == "free" else repr(float(value))


def main():
    lines = ["# Sections and beam-columns where double precision would cancel, worked out with 60 digits by exact.py.",
             "# section: od, wall; area, inertia, radius, Z.  critical: spring a, spring b over EI/L; P L^2/EI.",
             f"# beam: EI {BENDING!r}, length {LENGTH!r}; spring a, spring b, P, P over critical, spread load, moments, bow,",
             "# slopes; then moment, movement and slope at 0, 1/4, 1/2 and all of the length."]
    for share in (0.5, 0.4999999, 0.1, 1e-4, 1e-6, 1e-9, 1e-12):
        for od in (1.25, 31.75):
            lines.append(",".join(["section", repr(od), repr(od * share)] + [nstr(v, 20) for v in section(od, od * share)]))
    ends = [(0, 0), (inf, inf), (inf, 0), (inf, "free"), (3.5, 3.5), (0.2, "free")]
    for a, b in ends:
        z = critical(a, b)
        lines.append(",".join(["critical", cell(a), cell(b), nstr(z, 20)]))
        top = z * mpf(BENDING) / mpf(LENGTH)**2
        pinned = pi**2 * mpf(BENDING) / mpf(LENGTH)**2
        loads = [s * top for s in (mpf("1e-12"), mpf("-1e-12"), mpf("1e-9"), mpf("-1e-9"), mpf("1e-5"), mpf("-1e-3"),
                                   mpf("0.999"), mpf("0.999999"), 1 - mpf("1e-9"), mpf(-40))]
        if z > 1.5 * pi**2:  # where a half wave would resonate on pinned ends
            loads += [pinned * (1 + s) for s in (mpf("1e-9"), mpf("-1e-9"), mpf("1e-5"))]
        for load in loads:
            load = float(load)
            loading = [1.5, 0 if a == inf else 120.0, -75.0 if b != inf else 0, 0.04, 0.01 if a else 0,
                       0.006 if b not in (0, "free") else 0]
            lines.append(",".join(["beam", cell(a), cell(b), repr(load), nstr(mpf(load) / top, 25)]
                                  + [cell(v) for v in loading] + [nstr(v, 20) for v in Beam(a, b, load, loading).solve()]))
    (HERE / "exact.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    print(f"{len(lines) - 4} rows")


if __name__ == "__main__":
    main()
