#!/usr/bin/python3
"""Measures the frame solver: tests/speed/frames.py. Prints one table for frames of 25 to 400 bays (frames.c): the check of one run, a
state, the bare factorisation of a band matrix of the same size by GSL, and the same state in NumPy and SciPy; then the demo frame.

A state in SciPy: the stability functions of all tubes at once, a band matrix from solveh_banded, axial forces repeated until they
change by less than 1e-6 of the largest, all that rounding allows in a long frame. The script asserts that it moves the last joint as railbow does."""

import os
import subprocess
import sys
import time

HERE = os.path.dirname(os.path.abspath(__file__))
TOP = os.path.dirname(os.path.dirname(HERE))
BUILD = os.path.join(TOP, "build", "speed")
BAYS, AGREEMENT = (25, 100, 400), 1e-5
OD, WALL, MODULUS, SHEAR = 1.25, 0.058, 29e6, 11e6


def build():
    quiet = {"stdout": subprocess.DEVNULL, "check": True}
    subprocess.run(["sh", f"{TOP}/tests/need", "gcc", "libc6-dev", "cmake", "make", "pkg-config", "libgsl-dev", "libcsv-dev",
                    "libcjson-dev", "python3-numpy", "python3-scipy"], check=True)
    subprocess.run(["cmake", "-S", TOP, "-B", BUILD, "-DCMAKE_BUILD_TYPE=Release", "-DBUILD_TESTING=OFF"], **quiet)
    subprocess.run(["cmake", "--build", BUILD, "--target", "railbow", "--parallel", "2"], **quiet)
    subprocess.run(["gcc", "-std=gnu11", "-O3", "-DNDEBUG", f"-I{TOP}/include", f"{HERE}/frames.c", f"{BUILD}/librailbow.a",
                    "-lgsl", "-lgslcblas", "-lm", "-o", f"{BUILD}/frames"], check=True)


class Frame:
    """The frame of frames.c in arrays."""

    def __init__(self, bays):
        import numpy as np
        corner = np.array([(8, 0), (-8, 0), (-8, 14), (8, 14)], dtype=float)
        self.at = np.array([(20.0 * bay, *corner[k]) for bay in range(bays + 1) for k in range(4)])
        ends = []
        for bay in range(bays):
            for k in range(4):
                here, after = 4 * bay + k, 4 * bay + 4 + k
                beside = 4 * (bay + 1) + (k + 1) % 4
                ends += [(here, after), (after, beside), (here, beside)]
        self.ends = np.array(ends)
        line = self.at[self.ends[:, 1]] - self.at[self.ends[:, 0]]
        self.length = np.linalg.norm(line, axis=1)
        axis = line / self.length[:, None]
        pole = np.where((np.hypot(axis[:, 0], axis[:, 1]) < 1.7e-3)[:, None], [[1.0, 0, 0]], [[0, 0, 1.0]])
        up = pole - (pole * axis).sum(1)[:, None] * axis
        up /= np.linalg.norm(up, axis=1)[:, None]
        right = np.cross(axis, up)
        bore = OD - 2 * WALL
        area, self.inertia = np.pi / 4 * (OD**2 - bore**2), np.pi / 64 * (OD**4 - bore**4)
        tubes = len(ends)
        self.stretch = MODULUS * area / self.length
        self.axial_rate, self.turn_rate = np.zeros((tubes, 12)), np.zeros((tubes, 12))
        self.axial_rate[:, :3], self.axial_rate[:, 6:9] = axis, -axis
        self.turn_rate[:, 3:6], self.turn_rate[:, 9:] = -axis, axis
        self.twist = SHEAR * 2 * self.inertia / self.length
        self.slope, self.chord = np.zeros((2, 2, tubes, 12)), np.zeros((2, tubes, 12))
        for plane, (side, about) in enumerate(((up, right), (right, -up))):
            for end in range(2):
                self.slope[plane, end, :, :3], self.slope[plane, end, :, 6:9] = side / self.length[:, None], -side / self.length[:, None]
                self.slope[plane, end, :, 3 + 6 * end:6 + 6 * end] = about
            self.chord[plane, :, :3], self.chord[plane, :, 6:9] = -side / self.length[:, None], side / self.length[:, None]
        place = np.arange(6 * len(self.at)).reshape(-1, 6) - 24
        self.place = np.concatenate([place[self.ends[:, 0]], place[self.ends[:, 1]]], axis=1)
        self.load = np.zeros(6 * bays * 4)
        for k in range(4):
            self.load[-6 * (4 - k)], self.load[-6 * (4 - k) + 2] = -60000 / bays**2, -600 / bays**2
        row, column = self.place[:, :, None] + 0 * self.place[:, None, :], self.place[:, None, :] + 0 * self.place[:, :, None]
        self.kept = (column >= 0) & (row >= column)
        self.band = row[self.kept] - column[self.kept], column[self.kept]

    def stiffness(self, axial):
        """Of all tubes: s, c the couples at an end for a turn there and at the other end."""
        import numpy as np
        z = axial * self.length**2 / (MODULUS * self.inertia)
        u = np.sqrt(np.maximum(np.abs(z), 1e-6))
        with np.errstate(over="ignore", invalid="ignore"):
            push = 2 - 2 * np.cos(u) - u * np.sin(u)
            pull = 2 - 2 * np.cosh(u) + u * np.sinh(u)
            s = np.where(z > 0, u * (np.sin(u) - u * np.cos(u)) / push, u * (u * np.cosh(u) - np.sinh(u)) / pull)
            c = np.where(z > 0, u * (u - np.sin(u)) / push, u * (np.sinh(u) - u) / pull)
        small = np.abs(z) < 1e-3
        s, c = np.where(small, 4 - 2 * z / 15, s), np.where(small, 2 + z / 30, c)
        unit = MODULUS * self.inertia / self.length
        k = np.einsum("t,ti,tj->tij", self.stretch, self.axial_rate, self.axial_rate)
        k += np.einsum("t,ti,tj->tij", self.twist, self.turn_rate, self.turn_rate)
        for plane in range(2):
            a, b = self.slope[plane]
            k += np.einsum("t,ti,tj->tij", s * unit, a, a) + np.einsum("t,ti,tj->tij", s * unit, b, b)
            k += np.einsum("t,ti,tj->tij", c * unit, a, b) + np.einsum("t,ti,tj->tij", c * unit, b, a)
            k -= np.einsum("t,ti,tj->tij", axial * self.length, self.chord[plane], self.chord[plane])
        return k

    def state(self):
        import numpy as np
        from scipy.linalg import solveh_banded
        axial = np.zeros(len(self.ends))
        for _ in range(60):
            matrix = np.zeros((self.band[0].max() + 1, len(self.load)))
            np.add.at(matrix, self.band, self.stiffness(axial)[self.kept])
            move = np.concatenate([np.zeros(24), solveh_banded(matrix, self.load, lower=True)])
            found = self.stretch * (self.axial_rate * move[self.place + 24]).sum(1)
            if np.abs(found - axial).max() <= 1e-6 * np.abs(found).max():
                return move
            axial = found
        raise RuntimeError("no state")


def scipy_seconds(bays):
    frame = Frame(bays)
    begun = time.process_time()
    move = frame.state()
    return time.process_time() - begun, move[-4]


def demo_seconds(jobs):
    begun = time.perf_counter()
    subprocess.run([f"{BUILD}/railbow", "check", "--jobs", str(jobs), f"{TOP}/cases/frame"], stdout=subprocess.DEVNULL, check=False)
    return time.perf_counter() - begun


def main():
    build()
    os.environ["OPENBLAS_NUM_THREADS"] = "1"
    print("  bays  joints  tubes   check, s   state, s   factorisation, s   state/factorisation   SciPy state, s   SciPy/railbow")
    for bays in BAYS:
        words = subprocess.run([f"{BUILD}/frames", str(bays)], stdout=subprocess.PIPE, text=True, check=True).stdout.split()
        got = dict(zip(words[::2], words[1::2]))
        taken, moved = scipy_seconds(bays)
        if abs(moved - float(got["moved"])) > AGREEMENT * abs(moved):
            sys.exit(f"{bays} bays: SciPy moves {moved}, railbow {got['moved']}")
        state, bare = float(got["state"]), float(got["factorisation"])
        print(f"{bays:6}{got['joints']:>8}{got['tubes']:>7}{float(got['check']):11.3f}{state:11.5f}{bare:19.5f}{state / bare:22.1f}"
              f"{taken:17.3f}{taken / state:16.0f}")
    print(f"the demo frame, 5 runs: {demo_seconds(1):.2f} s with one thread, {demo_seconds(2):.2f} s with two")


if __name__ == "__main__":
    main()
