#!/usr/bin/python3
"""The reference solution of frames against closed forms.

Run:      /usr/bin/python3 tests/reference/frame_validate.py     (numpy, scipy; seconds)
"""
import math
import sys

sys.dont_write_bytecode = True

import numpy as np

from frame_model import Frame, Joint, Load, Model, Run, Steel, Tube
from frame_states import Path, States, critical_factor
from rules import Section

SOFT = Steel(29e6, 11e6, 0.283, 75e3, 75e3, 60e3, 79500.0)
SIZE = dict(od=1.25, wall=0.058, steel="soft")
SECTION = Section(1.25, 0.058)
EA, EI = SOFT.elastic_modulus * SECTION.area, SOFT.elastic_modulus * SECTION.inertia
PLANE = "y rx rz"
worst = 0.0


def frame(joints, tubes, loads):
    run = Run("run", loads)
    return Model(Frame("", [Joint(*j) for j in joints], [Tube(**{**SIZE, **t}) for t in tubes], [run], {"soft": SOFT}), run)


def state(model, factor=1.0):
    solved = Path(States(model), max(2.0 * factor, 1e-3)).at([factor])
    move = np.zeros(len(model.load))
    move[model.free] = solved.move[0]
    return move, solved.load[0]


def say(what, got, want, within=1e-9):
    global worst
    off = abs(got - want) / abs(want) if math.isfinite(want) and want else (0.0 if got == want else abs(got))
    worst = max(worst, off / within)
    print(f"{what:58s}{got:20.13g}{want:20.13g}{off:10.1e}{'' if off <= within else '  DIFFERS'}")


def cantilever(push, across, length=60.0):
    model = frame([("a", (0, 0, 0), "fixed"), ("b", (0, 0, length), PLANE)], [dict(name="t", a="a", b="b")],
                  [Load(joint="b", force=(across, 0, -push))])
    k = math.sqrt(push / EI) if push else 0.0
    want = across / push * (math.tan(k * length) / k - length)
    move, load = state(model)
    say(f"cantilever, push {push}: tip", move[6], want)
    say("  its axial force", load[0], push, 1e-12)
    critical = math.pi**2 * EI / 4 / length**2 / push
    say("  critical factor", critical_factor(model), critical, 1e-11)
    say("  end of the path", Path(States(model), 1e3).end, critical, 1e-9)


def portal(feet, sway, ratio, want, length=30.0):
    held = PLANE if sway else "x " + PLANE
    beam = dict(name="beam", a="b", b="c")
    span = length / ratio
    stocky = 60.0 * max(1.0, ratio)        # so stiff along that it does not matter: lengths times this, wall and OD as they are
    model = frame([("a", (0, 0, 0), feet), ("b", (0, 0, length * stocky), held), ("c", (span * stocky, 0, length * stocky), held),
                   ("d", (span * stocky, 0, 0), feet)],
                  [dict(name="l", a="a", b="b"), beam, dict(name="r", a="c", b="d")],
                  [Load(joint=j, force=(0, 0, -EI / (length * stocky)**2)) for j in "bc"])
    say(f"portal, feet {feet}, sway {sway}, beam {ratio}: P h^2/EI", critical_factor(model), want, 5e-6)
    say("  end of the path", Path(States(model), 1e3).end, want, 5e-6)


def root(function, low, high):
    from scipy.optimize import brentq
    return brentq(function, low, high, xtol=1e-15, rtol=1e-14)


def main():
    cantilever(500.0, 12.0)
    cantilever(700.0, 3.0)
    for ratio in (0.5, 1.0, 2.0, 4.0, 10.0):
        u = root(lambda u: u * math.tan(u) - 6 * ratio, 1e-3, math.pi / 2 - 1e-9)
        portal("pinned", True, ratio, u * u)
        u = root(lambda u: u / math.tan(u) + 6 * ratio, math.pi / 2, math.pi - 1e-9)
        portal("fixed", True, ratio, u * u)

    # Two bars on balls, s and c of their slope: chords turn, so W = 2 s P - 2 P^2 c^2/(EA s). The bars buckle at P = P_E,
    # or, where they are flat, the joint falls through at P = EA s^2/(2 c^2).
    def two_bars(rise, half, load, **more):
        bar = dict(end_a=0.0, end_b=0.0, **more)
        return frame([("a", (0, 0, 0), "pinned"), ("b", (half, 0, rise), "y"), ("c", (2 * half, 0, 0), "pinned")],
                     [dict(name="l", a="a", b="b", **bar), dict(name="r", a="b", b="c", **bar)],
                     [Load(joint="b", force=(0, 0, -load))])

    euler = math.pi**2 * EI / 2500
    say("two bars: end of the path, their own buckling", Path(States(two_bars(30, 40, 1000)), 100.0).end * 1000,
        2 * 0.6 * euler - 2 * euler**2 * 0.64 / EA / 0.6, 1e-9)
    move, load = state(two_bars(30, 40, 1000))
    push = EA * 0.36 / 0.64 / 2 * (1 - math.sqrt(1 - 1000 * 2 * 0.64 / EA / 0.6**3))
    say("  axial force", load[0], push, 1e-12)
    say("  movement down", -move[8], push * 50 / EA / 0.6, 1e-12)
    sine, length = 0.05, 20.0
    cosine = math.sqrt(1 - sine**2)
    say("two flat bars: end of the path, a fold", Path(States(two_bars(length * sine, length * cosine, 100)), 1e3).end * 100,
        EA * sine**3 / 2 / cosine**2, 1e-9)
    flat = two_bars(length * sine, length * cosine, 100)
    say("  critical factor", critical_factor(flat) * 100, 2 * EA * sine**3 / cosine**2, 1e-9)
    model = two_bars(30, 40, 0.0, gap=0.01)
    move, load = state(model, 0.0)
    say("two bars, both short by 0.01: no force", load[0], 0.0, 1e-7)
    say("  joint comes down", -move[8], 0.01 / 0.6, 1e-9)

    # fixed-fixed tube: gap, side step of the landing, spread load, central load
    length = 24.0
    for name, tube, loads, bent, pulled in (
            ("gap", dict(gap=0.02), [], 0.0, EA / length * 0.02),
            ("miss at A, moment at A", dict(miss_a=0.1), [], 4 * EI * 0.1 / length**2, 0.0),
            ("miss at B, moment at B", dict(miss_b=0.1), [], 4 * EI * 0.1 / length**2, 0.0)):
        model = frame([("a", (0, 0, 0), "fixed"), ("b", (length, 0, 0), "fixed")], [dict(name="t", a="a", b="b", **tube)], loads)
        states = States(model)
        solved = Path(states, 1.0).at([0.0])
        say(f"fixed tube, {name}: pull", -solved.load[0, 0], pulled, 1e-12)
        line = states.tubes.along(np.array([0]), solved.load[0] * states.scale, np.zeros((1, 2, 4)), np.ones(1), np.zeros(1))
        size = line.largest(line.used, 17, exact=True)[0][0] * EI / length
        say("  largest moment", size, bent, 1e-10)
    # closed form of a fixed beam under pull T and a spread load q: end moment q L^2 (u coth u - 1)/(4 u^2), u = L/2 sqrt(T/EI)
    q, gap = 20.0, 0.03
    model = frame([("a", (0, 0, 0), "fixed"), ("b", (length, 0, 0), "fixed")], [dict(name="t", a="a", b="b", gap=gap)],
                  [Load(tube="t", spread=(0, 0, -q))])
    states = States(model)
    solved = Path(states, 2.0).at([1.0])
    u = length / 2 * math.sqrt(EA / length * gap / EI)
    line = states.tubes.along(np.array([0]), solved.load[0] * states.scale, np.zeros((1, 2, 4)), np.ones(1), np.ones(1))
    say("fixed tube, gap and spread load: end moment", line.largest(line.used, 17, True)[0][0] * EI / length,
        q * length**2 * (u / math.tanh(u) - 1) / 4 / u**2, 1e-10)
    for ends, over in (("fixed", 4.0), ("pinned", 1.0)):
        model = frame([("a", (0, 0, 0), ends), ("b", (length, 0, 0), "y z rx ry rz" if ends == "fixed" else "y z")],
                      [dict(name="t", a="a", b="b", **({} if ends == "fixed" else dict(end_a=0.0, end_b=0.0)))],
                      [Load(joint="b", force=(-1000.0, 0, 0))])
        say(f"{ends} tube, critical factor (tube between held joints)", critical_factor(model),
            over * math.pi**2 * EI / length**2 / 1000, 1e-10)
        say("  end of the path", Path(States(model), 1e3).end, over * math.pi**2 * EI / length**2 / 1000, 1e-8)
    print(f"largest difference over what is allowed: {worst:.2g}")
    return worst > 1.0


if __name__ == "__main__":
    sys.exit(main())
