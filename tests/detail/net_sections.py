#!/usr/bin/env python3
"""Writes net_sections.csv: the section that a cross hole leaves of a round tube, by Gauss-Legendre quadrature of strips, and the
largest and smallest stress of its outline under a push, two moments and a direction of the hole, by a search of all its points.
Debian: python3-numpy.

Strips run along the hole's axis u, one for each y across it; y = R sin(a) takes the steepness of the circle away."""

import csv
import pathlib

import numpy

NODES, WEIGHTS = numpy.polynomial.legendre.leggauss(400)
TUBES = [(1.25, 0.058), (1.5, 0.049), (0.75, 0.035), (2.0, 0.25)]
HOLES = [0.0, 3 / 16, 0.25, 0.375, 0.5]
FORCES = [(3000.0, 900.0, -400.0), (-2000.0, 300.0, 1100.0), (4000.0, -1500.0, 200.0)]
CLOCKS = [0.0, 0.7, 2.5, 4.4]


def half_disc(radius, low, high):
    """Area, first moment along u, second moments of u and y, of the part of a disc with u > 0 and low < |y| < high."""
    a, b = numpy.arcsin(low / radius), numpy.arcsin(high / radius)
    angle = (a + b) / 2 + (b - a) / 2 * NODES
    y, top = radius * numpy.sin(angle), radius * numpy.cos(angle)
    weight = 2 * WEIGHTS * (b - a) / 2 * top
    return numpy.array([numpy.sum(weight * part) for part in (top, top**2 / 2, top**3 / 3, y**2 * top)])


def integrals(outside, inside, hole, walls):
    """The same of what is left of the tube, both sides."""
    half, mirror = hole / 2, numpy.array([1, -1, 1, 1])
    clear = half_disc(outside, half, outside) - half_disc(inside, half, inside)
    in_hole = half_disc(outside, 0, half) - half_disc(inside, 0, half)
    return clear + mirror * clear + (mirror * in_hole if walls == 1 else 0)


def net(od, wall, hole, walls):
    area, first, along, across = integrals(od / 2, od / 2 - wall, hole, walls)
    centre = first / area
    return area, along - area * centre**2, across, -centre


def outline(od, hole, walls):
    """Points of the outside, dense, with the corners of the hole."""
    angle = numpy.linspace(0, 2 * numpy.pi, 20001)
    u, y = od / 2 * numpy.cos(angle), od / 2 * numpy.sin(angle)
    gone = (abs(y) < hole / 2) & ((u > 0) | (walls == 2))
    edge = numpy.sqrt((od / 2)**2 - (hole / 2)**2)
    sides = (1,) if walls == 1 else (1, -1)
    corners = [(side * edge, across * hole / 2) for side in sides for across in (1, -1)]
    return numpy.concatenate([u[~gone], [c[0] for c in corners]]), numpy.concatenate([y[~gone], [c[1] for c in corners]])


def stresses(section, points, force, clock):
    area, along, across, shift = section
    push, up, right = force
    m_along = up * numpy.cos(clock) + right * numpy.sin(clock)
    m_across = right * numpy.cos(clock) - up * numpy.sin(clock)
    u, y = points
    # the push acts at u = 0, the centroid lies at -shift
    field = -push / area + (m_along - push * shift) / along * (u + shift) + m_across / across * y
    return field.max(), field.min()


def main():
    path = pathlib.Path(__file__).with_name("net_sections.csv")
    with path.open("w", newline="", encoding="utf-8") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(["od", "wall", "hole", "walls", "area", "along", "across", "shift", "push", "up", "right", "clock", "most", "least",
                      "worst_most", "worst_least"])
        for od, wall in TUBES:
            for hole in HOLES:
                if hole >= od - 2 * wall:
                    continue
                for walls in (1, 2):
                    section, points = net(od, wall, hole, walls), outline(od, hole, walls)
                    for force, clock in zip(FORCES, CLOCKS):
                        most, least = stresses(section, points, force, clock)
                        all_ = [stresses(section, points, force, turn) for turn in numpy.linspace(0, 2 * numpy.pi, 721)]
                        worst = max(a for a, _ in all_), min(b for _, b in all_)
                        out.writerow([repr(float(v)) for v in (od, wall, hole)] + [walls] + [repr(float(v)) for v in (
                            *section, *force, clock, most, least, *worst)])


main()
