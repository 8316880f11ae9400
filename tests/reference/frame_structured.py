"""Space frames for the comparison with the program: structured ones, each with one thing to show."""
import math

from frame_model import ANY, Frame, Joint, Load, Run, Tube
from frame_random import STEELS

BALL = dict(end_a=0.0, end_b=0.0)


def tube(name, a, b, od=1.25, wall=0.058, steel="normal", **more):
    return Tube(name, a, b, od, wall, steel, **more)


def frame(name, joints, tubes, *runs):
    runs = [run if isinstance(run, Run) else Run(f"run {i + 1}", run) for i, run in enumerate(runs)]
    return Frame(name, [Joint(*joint) for joint in joints], tubes, runs, STEELS)


def circle(name, size, start):
    """Three feet on balls."""
    turns = [2.0944 * i + start for i in range(3)]
    return [(f"{name}{i + 1}", (round(size * math.cos(turn), 2), round(size * math.sin(turn), 2), 0.0), "pinned")
            for i, turn in enumerate(turns)]


def one_tube():
    """B free along the tube."""
    return frame("one tube", [("a", (0, 0, 0), "fixed"), ("b", (36, 0, 0), "y z rx ry rz")],
                 [tube("t", "a", "b", bow=0.05, bow_clock=30.0, miss_a=0.1, miss_a_clock=75.0, fixity=4.0)],
                 [Load(joint="b", force=(-5000, 0, 0)), Load(tube="t", force=(0, 40, -90), at=12.0)])


def cantilever():
    return frame("cantilever", [("a", (0, 0, 0), "fixed"), ("b", (10, 4, 31), "", 40.0)],
                 [tube("t", "a", "b", 1.5, 0.065, end_a=3e5, bow=0.04, bow_clock=200.0, bow_shape="arc")],
                 [Load(joint="b", force=(60, -25, -700), moment=(0, 300, 150)), Load(g=(2, 1, 0))])


def split(parts):
    """The same frame with a post of one piece or two; side loads, no weight, so that both have the same states."""
    middle = [("m", (0, 6, 13.5), "")] if parts == 2 else []
    post = [tube("low", "a", "m", part="post", weld_zone=0.0), tube("high", "m", "b", part="post", weld_zone=0.0)]
    whole = [tube("post", "a", "b", weld_zone=0.0)]
    side = (12.0, 0.0, 0.0)
    loads = [Load(tube=t.name, spread=side) for t in (post if parts == 2 else whole)]
    return frame("split post" if parts == 2 else "whole post",
                 [("a", (0, 0, 0), "fixed"), ("b", (0, 15, 33.75), ""), ("c", (24, 10, 2), "fixed"), ("d", (-20, 22, 0), "pinned"),
                  *middle],
                 [*(post if parts == 2 else whole), tube("stay", "c", "b", gap=0.01, weld_zone=0.0),
                  tube("brace", "d", "b", 1.0, 0.049, miss_a=0.1, miss_a_clock=40.0, weld_zone=0.0)],
                 [Load(joint="b", force=(100, -40, -2600)), *loads])


def portal():
    """The same to the left and to the right, loads too."""
    joints = [("fl", (0, 18, 0), "fixed"), ("tl", (4, 15, 30), ""), ("tr", (4, -15, 30), ""), ("fr", (0, -18, 0), "fixed")]
    return frame("portal", joints, [tube("left", "fl", "tl", bow=0.03, bow_clock=90.0), tube("beam", "tl", "tr", gap=0.05),
                                    tube("right", "fr", "tr", bow=0.03, bow_clock=270.0)],
                 Run("down", [Load(joint="tl", force=(0, 0, -2000)), Load(joint="tr", force=(0, 0, -2000))]),
                 Run("aside", [Load(joint="tl", force=(0, -200, -600)), Load(joint="tr", force=(0, -200, -600)), Load(g=(1, 0, 0))]))


def perfect_portal():
    """Nothing bends it before it buckles sideways: the end of the path is the critical factor."""
    joints = [("fl", (0, 18, 0), "fixed"), ("tl", (0, 18, 36), ""), ("tr", (0, -18, 36), ""), ("fr", (0, -18, 0), "fixed")]
    down = [Load(joint=name, force=(0, 0, -1500)) for name in ("tl", "tr")]
    return frame("perfect portal", joints, [tube("left", "fl", "tl"), tube("beam", "tl", "tr"), tube("right", "fr", "tr")],
                 Run("down", down, 1.2))


def pair():
    """Two tubes between the same joints, and one the other way round."""
    return frame("pair of tubes", [("a", (0, 0, 0), "fixed"), ("b", (30, 12, 9), "", 20.0), ("c", (28, -20, 0), "fixed")],
                 [tube("one", "a", "b", gap=0.015), tube("two", "a", "b", 1.0, 0.049, bow=0.05, bow_clock=10.0),
                  tube("back", "b", "a", 1.0, 0.065, miss_b=0.1, miss_b_clock=250.0), tube("stay", "c", "b", end_b=0.0)],
                 [Load(joint="b", force=(-3000, 200, -500)), Load(g=(1, 0, 0))])


def mast():
    """Vertical tubes, up and down, one on the other, with stays."""
    feet = circle("s", 30, 0.0)
    return frame("mast", [("foot", (0, 0, 0), "fixed"), ("waist", (0, 0, 30), ""), ("head", (0, 0, 60), "", 30.0), *feet],
                 [tube("low", "foot", "waist", bow=0.05, bow_clock=45.0, miss_a=0.05, miss_a_clock=90.0),
                  tube("high", "head", "waist", 1.0, 0.049, bow=0.04, bow_clock=300.0, bow_shape="kink", bow_at=11.0),
                  *[tube(f"stay {i + 1}", "waist" if i else "head", f"s{i + 1}", 0.75, 0.035, **BALL) for i in range(3)]],
                 [Load(joint="head", force=(90, 60, -1400), moment=(200, 0, 100)), Load(g=(1, 0.5, 0))])


def line():
    """Tubes in one line over several supports."""
    joints = [("a", (0, 0, 0), "fixed"), ("b", (20, 0, 5), "z"), ("c", (48, 0, 12), "y z"), ("d", (60, 0, 15), "x y z rx")]
    return frame("in a line", joints, [tube("ab", "a", "b"), tube("bc", "b", "c", bow=0.06, bow_clock=120.0),
                                      tube("cd", "c", "d", gap=-0.01)],
                 [Load(tube="ab", spread=(0, 6, -18)), Load(tube="bc", force=(0, 50, -300)), Load(tube="bc", force=(0, 0, 90), at=7.5),
                  Load(joint="b", force=(900, 0, 0))])


def tension():
    """Every tube is pulled: never unstable."""
    feet = [("a", (0, 0, 60), "fixed"), ("b", (40, 0, 62), "fixed"), ("c", (15, 35, 58), "pinned")]
    return frame("all in tension", [*feet, ("hook", (18, 10, 25), "", 60.0)],
                 [tube("a", "a", "hook", 1.0, 0.049, gap=0.004), tube("b", "b", "hook", 1.0, 0.049, bow=0.05, bow_clock=0.0),
                  tube("c", "hook", "c", 1.0, 0.049, bow=0.02, bow_clock=ANY)],
                 [Load(joint="hook", force=(0, 0, -4000)), Load(g=(1, 0, 0))])


def hung():
    """A chain of links with balls, held by two more."""
    return frame("links", [("a", (0, 0, 30), "pinned"), ("b", (20, 0, 10), "y"), ("c", (45, 0, 8), "y"),
                           ("d", (70, 0, 30), "pinned"), ("e", (30, 0, -20), "pinned")],
                 [tube("ab", "a", "b", **BALL), tube("bc", "b", "c", **BALL, gap=0.02), tube("cd", "c", "d", **BALL),
                  tube("be", "b", "e", **BALL), tube("ce", "c", "e", **BALL)],
                 Run("pull", [Load(joint="b", force=(-200, 0, 900)), Load(joint="c", force=(300, 0, 1200))]))


def dome():
    """Three flat bars: falls through."""
    feet = circle("f", 24, 0.3)
    return frame("flat dome", [*feet, ("top", (0, 0, 1.2), "")],
                 [tube(f"b{i + 1}", f"f{i + 1}", "top", **BALL, bow=0.01 * i, bow_clock=0.0) for i in range(3)],
                 Run("down", [Load(joint="top", force=(0, 0, -500)), Load(g=(1, 0, 0))], 1.1))


def truss():
    """Balls everywhere: ends when one tube reaches its own buckling load."""
    return frame("truss", [("a", (0, 0, 0), "pinned"), ("b", (40, 0, 0), "y z"), ("c", (20, 34, 2), "z"), ("top", (21, 11, 34), "", 25.0)],
                 [tube("ab", "a", "b", **BALL), tube("bc", "b", "c", **BALL), tube("ca", "c", "a", **BALL, gap=0.05),
                  tube("at", "a", "top", 1.0, 0.049, **BALL), tube("bt", "b", "top", 1.0, 0.049, **BALL),
                  tube("ct", "c", "top", 1.0, 0.049, **BALL)],
                 Run("down", [Load(joint="top", force=(100, 50, -4000))], 1.2),
                 Run("aside", [Load(joint="top", force=(600, 0, 300)), Load(g=(2, 0, 0))]))


def squeezed():
    """A tube too long by so much that it buckles before any load: no state at load factor 0."""
    return frame("squeezed", [("a", (0, 0, 0), "pinned"), ("b", (40, 0, 0), "pinned"), ("c", (20, 20, 0), "z")],
                 [tube("ab", "a", "b", 0.75, 0.035, gap=-0.2, **BALL), tube("bc", "b", "c", **BALL), tube("ca", "c", "a", **BALL)],
                 [Load(joint="c", force=(0, -800, 0))])


def too_much():
    """No state at load factor 1."""
    return frame("overloaded", [("a", (0, 0, 0), "fixed"), ("b", (0, 5, 48), ""), ("c", (30, 0, 4), "fixed")],
                 [tube("post", "a", "b", bow=0.05, bow_clock=80.0), tube("stay", "c", "b", 0.75, 0.035, miss_a=0.05, miss_a_clock=20.0)],
                 [Load(joint="b", force=(30, 10, -9000))])


def relief():
    """The run first relieves what is locked in; balls at one end, loads that turn a tube."""
    return frame("relief", [("a", (0, 0, 0), "fixed"), ("b", (40, 0, 6), "y z"), ("c", (20, 30, 0), "fixed")],
                 [tube("rail", "a", "b", gap=-0.01, miss_b=0.3, miss_b_clock=180.0, weld_zone=0.5),
                  tube("stay", "c", "b", 1.0, 0.049, gap=0.03, end_b=0.0)],
                 [Load(joint="b", force=(2500, 0, 0), moment=(500, -900, 200)), Load(tube="rail", spread=(0, 0, -3))])


def structured_frames():
    return [one_tube(), cantilever(), split(1), split(2), portal(), perfect_portal(), pair(), mast(), line(), tension(), hung(),
            dome(), truss(), squeezed(), too_much(), relief()]
