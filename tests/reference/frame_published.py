#!/usr/bin/python3
"""Solve every frame of frames_published.csv and compare with the printed values.

Run:      /usr/bin/python3 tests/reference/frame_published.py [-v]     (numpy, scipy; a minute)
"""
import csv
import math
import pathlib
import sys

sys.dont_write_bytecode = True

import numpy as np

from frame_check import Line, joint_results, tube_state
from frame_model import Frame, Joint, Load, Model, Run, Steel, Tube
from frame_states import Path, States, critical_factor

HERE = pathlib.Path(__file__).parent
FORMS = {"": lambda x: x, "1/x": lambda x: 1.0 / x, "1/sqrt": lambda x: x**-0.5, "sqrt": lambda x: x**0.5,
         "1/(1-x)": lambda x: 1.0 / (1.0 - x)}


def entries(cell):
    return [entry.split() for entry in cell.split("; ")]


def tube(words, steels):
    given = dict(word.split("=") for word in words[3:])
    modulus = float(given.pop("E"))
    name = f"{modulus!r} {given.get('G')}"
    strength = modulus / 1000.0
    steels[name] = Steel(modulus, float(given.pop("G", modulus / 2.6)), 0.283, strength, strength, strength, strength)
    return Tube(*words[:3], steel=name, **{key: float(value) for key, value in given.items()})


def load(words):
    kind, name, *rest = words
    if kind == "joint":
        numbers = list(map(float, rest)) + [0.0] * (6 - len(rest))
        return Load(joint=name, force=tuple(numbers[:3]), moment=tuple(numbers[3:]))
    what, *numbers = [word for word in rest if not word.startswith("at=")]
    at = next((float(word[3:]) for word in rest if word.startswith("at=")), None)
    return Load(tube=name, at=at, **{what: tuple(map(float, numbers))})


class Solved:
    def __init__(self, row):
        steels = {}
        joints = [Joint(words[0], tuple(map(float, words[1:4])), " ".join(words[4:])) for words in entries(row["joints"])]
        tubes = [tube(words, steels) for words in entries(row["tubes"])]
        run = Run("run", [load(words) for words in entries(row["loads"])])
        self.model = Model(Frame(row["frame"], joints, tubes, [run], steels), run)
        self.states = {}
        self.built = type("Built", (), {})()
        self.built.model, self.built.path = self.model, Path(States(self.model), 1.5)
        self.joints = None

    def line(self, factor):
        if factor not in self.states:
            count = len(self.model.length)
            solved = self.built.path.at([factor])
            repeated = type(solved)(np.repeat(solved.load, count, 0), np.repeat(solved.move, count, 0), None, None, None)
            self.states[factor] = Line(self.built.path, np.arange(count), np.full(count, factor), repeated, 17, True)
        return self.states[factor]

    def value(self, quantity):
        name, _, place = quantity.partition(":")
        if name == "critical_factor":
            return critical_factor(self.model)
        if name.startswith(("move", "turn", "react")):
            self.joints = self.joints or joint_results(self.built, self.line(1.0), None)
            return next(row[name] for row in self.joints if row["joint"] == place)
        factor, name = (0.0, name[4:]) if name.startswith("fit_") else (1.0, name)
        return tube_state(self.line(factor), self.model.tube_number[place])[name]


def main():
    with open(HERE / "frames_published.csv", newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(line for line in file if not line.startswith("#")))
    differ, frame = 0, None
    for row in rows:
        if row["joints"]:
            frame = Solved(row)
        got = FORMS[row["form"]](float(row["times"] or 1) * frame.value(row["quantity"]))
        if row["remark"].find("size") >= 0:
            got = abs(got)
        off = abs(got - float(row["value"])) > float(row["tolerance"]) * (1 + 1e-9)
        differ += off
        if off or "-v" in sys.argv:
            print(f"{row['frame']}, {row['quantity']}: printed {row['value']}, here {got:.8g}{'  DIFFERS' if off else ''}")
    print(f"{len(rows)} values, {differ} differ")
    return int(differ > 0)


if __name__ == "__main__":
    sys.exit(main())
