"""Space frames for the comparison with the program: random ones. Every number is rounded as a person would type it."""
import dataclasses
import math
import random

import numpy as np

from frame_model import ANY, Frame, Joint, Load, Model, Run, Steel, Tube
from frame_states import States, critical_factor

# As in materials.csv beside this file.
STEELS = {
    "normal": Steel(29e6, 11e6, 0.283, 75e3, 75e3, 60e3, 79500.0),
    "hard": Steel(29e6, 11.2e6, 0.283, 132e3, 145e3, 60e3, 150e3),
    "mild": Steel(29.5e6, 11.4e6, 0.284, 36e3, 36e3, 36e3, 38e3, "en-a"),
    "soft-push": Steel(10.3e6, 3.9e6, 0.098, 40e3, 35e3, 16e3, 41e3),
}
SIZES = [(0.75, 0.035), (1.0, 0.049), (1.0, 0.065), (1.25, 0.049), (1.25, 0.058), (1.25, 0.065), (1.375, 0.058), (1.5, 0.058),
         (1.5, 0.12)]
CURVES = ["", "", "", "johnson", "three-halves", "euler", "aisc", "en-b"]


def digits(value, count=3):
    return float(f"{value:.{count}g}")


class Dice(random.Random):
    def chance(self, share):
        return self.random() < share

    def vector(self, size):
        return tuple(round(self.uniform(-size, size), 1) for _ in range(3))


def grown(dice, count):
    """Joints that each hang on two or three of those before; the first three or four are held."""
    feet = dice.choice([3, 4]) if count > 4 else min(count - 1, 3)
    angle = dice.uniform(0, 360)
    joints = [Joint(f"f{i + 1}", (round(30 * math.cos(math.radians(angle + 360 * i / feet)), 1),
                                  round(30 * math.sin(math.radians(angle + 360 * i / feet)), 1), round(dice.uniform(-3, 3), 1)),
                    dice.choice(["fixed", "pinned", "fixed"])) for i in range(feet)]
    pairs = []
    while len(joints) < count:
        at = (round(dice.uniform(-25, 25), 1), round(dice.uniform(-25, 25), 1), round(18 + 7 * len(joints) + dice.uniform(-8, 8), 1))
        near = sorted(range(len(joints)), key=lambda i: math.dist(joints[i].at, at))
        if math.dist(joints[near[0]].at, at) < 12:
            continue
        pairs += [(i, len(joints)) if dice.chance(0.7) else (len(joints), i) for i in near[:dice.choice([2, 3, 3, 3])]]
        joints.append(Joint(f"j{len(joints) + 1}", at))
    return joints, pairs


def tower(dice, levels):
    """Triangles above one another with posts and one diagonal a face."""
    joints, pairs = [], []
    for level in range(levels + 1):
        size = 22 - 3 * level + dice.uniform(-1, 1)
        for i in range(3):
            angle = math.radians(120 * i + dice.uniform(-6, 6))
            joints.append(Joint(f"{'abc'[i]}{level}", (round(size * math.cos(angle), 1), round(size * math.sin(angle), 1),
                                                     round(28.0 * level + dice.uniform(-2, 2), 1)), "" if level else "fixed"))
            here = 3 * level + i
            if level:
                pairs += [(here - 3, here), (here, 3 * level + (i + 1) % 3)]
                if dice.chance(0.6):
                    pairs.append((here - 3, 3 * level + (i + 1) % 3))
    return joints, pairs


def dressed_up(dice, tube, length):
    """What can be wrong with a tube, and how it is fixed."""
    if dice.chance(0.15):
        tube.end_a = dice.choice([0.0, digits(dice.uniform(2e4, 4e5))])
    if dice.chance(0.15):
        tube.end_b = dice.choice([0.0, digits(dice.uniform(2e4, 4e5))])
    if dice.chance(0.3) and tube.end_a:
        tube.miss_a, tube.miss_a_clock = round(dice.uniform(0.02, 0.2), 3), float(dice.randrange(360))
    if dice.chance(0.25) and tube.end_b:
        tube.miss_b, tube.miss_b_clock = round(dice.uniform(0.02, 0.2), 3), float(dice.randrange(360))
    if dice.chance(0.3):
        tube.gap = round(dice.uniform(-0.03, 0.03), 4)
    if dice.chance(0.4):
        tube.bow, tube.bow_clock = round(dice.uniform(0.01, 0.06), 3), float(dice.randrange(360))
        tube.bow_shape = dice.choice(["sine", "arc", "kink"])
        if tube.bow_shape == "kink" and dice.chance(0.7):
            tube.bow_at = round(length * dice.uniform(0.2, 0.8), 2)
    tube.weld_zone = dice.choice([None, None, 0.0, 1.5, 0.625])
    if tube.weld_zone != 0.0 and dice.chance(0.3):
        tube.dressed = 0.005
    tube.fixity = dice.choice([1.0, 1.0, 2.0, 1.5])
    tube.column_curve = dice.choice(CURVES)


def loads(dice, frame):
    free = [joint for joint in frame.joints if not joint.held]
    turned = {name for tube in frame.tubes for name, end in ((tube.a, tube.end_a), (tube.b, tube.end_b)) if end}
    result = [Load(joint=dice.choice(free).name, force=(*dice.vector(150)[:2], round(-dice.uniform(300, 900), 1)))]
    for _ in range(dice.choice([0, 1, 2])):
        joint = dice.choice(free)
        result.append(Load(joint=joint.name, force=dice.vector(300),
                           moment=dice.vector(800) if joint.name in turned and dice.chance(0.4) else (0.0, 0.0, 0.0)))
    for _ in range(dice.choice([0, 0, 1, 2])):
        tube = dice.choice(frame.tubes)
        if dice.chance(0.5):
            length = math.dist(*(joint.at for joint in frame.joints if joint.name in (tube.a, tube.b)))
            result.append(Load(tube=tube.name, force=dice.vector(80), at=None if dice.chance(0.3) else
                               round(length * dice.uniform(0.1, 0.9), 2)))
        else:
            result.append(Load(tube=tube.name, spread=dice.vector(4)))
    if dice.chance(0.5):
        result.append(Load(g=(1.0, 0.0, 0.0) if dice.chance(0.4) else (round(dice.uniform(0, 8), 1), round(dice.uniform(-4, 4), 1),
                                                                       round(dice.uniform(-2, 2), 1))))
    return result


def scaled(frame, run, target):
    """The loads of a run so that its critical factor is about the target."""
    now = critical_factor(Model(frame, run))
    if not 0.0 < now < 1e5:
        raise ValueError("no critical factor to go by")
    over = now / target
    for i, load in enumerate(run.loads):
        run.loads[i] = dataclasses.replace(
            load, **{name: tuple(digits(x * over, 5) for x in getattr(load, name))
                     for name in ("force", "moment", "spread", "g")})


def held(frame):
    """Whether the frame is held without any axial force, well away from singular."""
    model = Model(frame, frame.runs[0])
    states = States(model)
    stiffness = states.step(np.zeros((1, states.count)), np.zeros(1), np.zeros(1))[2][0]
    size = 1.0 / np.sqrt(np.diag(stiffness))
    return np.linalg.eigvalsh(stiffness * size * size[:, None])[0] > 1e-6


def random_frame(name, seed, count=6, near=False, unknown=False, forced=True, slight=False, kind="grown"):
    dice = Dice(seed)
    for _ in range(50):
        joints, pairs = grown(dice, count) if kind == "grown" else tower(dice, count // 3 - 1)
        steel = dice.choice(list(STEELS))
        tubes = []
        for i, (a, b) in enumerate(pairs):
            od, wall = dice.choice(SIZES)
            tube = Tube(f"t{i + 1}", joints[a].name, joints[b].name, od, wall, steel if dice.chance(0.7) else dice.choice(list(STEELS)))
            dressed_up(dice, tube, math.dist(joints[a].at, joints[b].at))
            if not forced:
                tube.miss_a = tube.miss_b = tube.gap = 0.0
            if slight:
                tube.miss_a, tube.miss_b, tube.gap = (round(x / 10, 4) for x in (tube.miss_a, tube.miss_b, tube.gap))
            tubes.append(tube)
        if unknown:
            for tube in dice.sample(tubes, 2):
                tube.bow, tube.bow_clock = round(dice.uniform(0.02, 0.06), 3), ANY
        for joint in joints:
            if not joint.held and dice.chance(0.3):
                joint.mass = round(dice.uniform(5, 150), 1)
        frame = Frame(name, joints, tubes, [], STEELS)
        frame.runs = [Run("first", loads(dice, frame), dice.choice([1.5, 1.25, 2.0]), dice.choice([None, None, 1.1]))]
        if count <= 6 and dice.chance(0.4):
            frame.runs.append(Run("second", loads(dice, frame)))
        try:
            if held(frame):
                for run in frame.runs:
                    scaled(frame, run, dice.uniform(1.15, 1.6) if near else dice.uniform(2.0, 9.0))
                return frame
        except (ValueError, np.linalg.LinAlgError):
            pass
    raise ValueError(f"{name}: no frame")


def random_frames():
    """Name and how to make it."""
    plain = [(f"grown {i + 1:02d}", dict(seed=100 + i, count=count)) for i, count in
             enumerate([4, 4, 5, 5, 6, 6, 7, 8, 10, 12])]
    near = [(f"near critical {i + 1}", dict(seed=200 + i, count=count, near=True)) for i, count in enumerate([4, 5, 6, 7])]
    unknown = [(f"unknown bows {i + 1}", dict(seed=300 + i, count=count, unknown=True)) for i, count in enumerate([4, 5, 6])]
    unforced = [("nothing forced", dict(seed=400, count=6, forced=False))]
    slight = [(f"slightly forced {i + 1}", dict(seed=600 + i, count=count, slight=True)) for i, count in enumerate([5, 6, 7, 8])]
    towers = [(f"tower {i + 1}", dict(seed=500 + i, count=count, kind="tower")) for i, count in enumerate([6, 9, 12])]
    return plain + near + unknown + unforced + slight + towers
