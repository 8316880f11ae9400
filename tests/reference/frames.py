#!/usr/bin/python3
"""Reference frames: writes frames/NAME/{joints,tubes,loads}.csv and what the program must find there, frames_expected.csv.

Run:      /usr/bin/python3 tests/reference/frames.py [NAME...]     (numpy, scipy; half an hour for all, a minute for a name)
Method:   every tube is a boundary value problem solved with the matrix exponential (frame_tubes.py); Newton on the axial
          forces, the path followed to its end (frame_states.py); limits by a dense scan of load factors (frame_check.py).
          frame_validate.py holds it to closed forms, frame_published.py to published values.
Compared: tests/command/test_frame_reference.py.
"""
import csv
import math
import pathlib
import sys
import time

sys.dont_write_bytecode = True

from frame_check import check
from frame_model import ANY
from frame_random import random_frame, random_frames
from frame_structured import structured_frames

HERE = pathlib.Path(__file__).parent
TUBES = """margin governs margin_as_built margin_unforced yield_factor column_factor interaction_factor path_end length weight
    column_load fit_axial fit_moment fit_stress axial torque peak_moment peak_moment_at peak_stress stress_use moment_a
    moment_a_clock moment_b moment_b_clock bow_clock_taken""".split()
JOINTS = """move_x move_y move_z turn_x turn_y turn_z react_x react_y react_z react_mx react_my react_mz locked_x locked_y
    locked_z""".split()
RUNS = "critical_factor mass centre_x centre_y centre_z move worst_tube move_joint".split()
COLUMNS = ["frame", "run", "table", "name", *TUBES, *JOINTS, *RUNS]


def number(value):
    if value is None or value == "":
        return ""
    return value if isinstance(value, str) else repr(float(value)) if math.isinf(value) else f"{float(value):.17g}"


def shown(value):
    """As a person would type it."""
    return value if isinstance(value, str) else "" if value is None else "rigid" if math.isinf(value) else f"{value:.12g}"


def write(path, header, rows):
    used = [i for i in range(len(header)) if any(row[i] != "" for row in rows)]
    with open(path, "w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow([header[i] for i in used])
        writer.writerows([[row[i] for i in used] for row in rows])


def cells(values, empty=0.0):
    """Numbers, where the default leaves the cell empty."""
    return ["" if value == empty else shown(value) for value in values]


def end(value):
    return "" if math.isinf(value) else "pinned" if value == 0.0 else shown(value)


def write_tables(frame, folder):
    folder.mkdir(parents=True, exist_ok=True)
    write(folder / "joints.csv", ["joint", "x [in]", "y [in]", "z [in]", "held", "mass [lb]"],
          [[j.name, *map(shown, j.at), j.held, *cells([j.mass])] for j in frame.joints])
    header = ["tube", "part", "from", "to", "od [in]", "wall [in]", "material", "end_a [in-lbf/rad]", "end_b [in-lbf/rad]",
              "column_curve", "fixity", "bow [in]", "bow_clock [deg]", "bow_shape", "bow_at [in]", "miss_a [in]",
              "miss_a_clock [deg]", "miss_b [in]", "miss_b_clock [deg]", "gap [in]", "weld_zone [in]", "dressed [in]"]
    write(folder / "tubes.csv", header, [[
        t.name, t.part, t.a, t.b, shown(t.od), shown(t.wall), t.steel, end(t.end_a), end(t.end_b), t.column_curve,
        *cells([t.fixity], 1.0), *cells([t.bow]), ("any" if t.bow_clock is ANY else shown(t.bow_clock)) if t.bow else "",
        t.bow_shape if t.bow else "", shown(t.bow_at) if t.bow else "",
        *cells([t.miss_a]), shown(t.miss_a_clock) if t.miss_a else "", *cells([t.miss_b]),
        shown(t.miss_b_clock) if t.miss_b else "", *cells([t.gap]), shown(t.weld_zone), *cells([t.dressed])] for t in frame.tubes])
    header = ["run", "joint", "tube", "force_x [lbf]", "force_y [lbf]", "force_z [lbf]", "moment_x [in-lbf]", "moment_y [in-lbf]",
              "moment_z [in-lbf]", "at [in]", "spread_x [lbf/in]", "spread_y [lbf/in]", "spread_z [lbf/in]", "vertical_g",
              "forward_g", "left_g", "factor", "factor_yield"]
    write(folder / "loads.csv", header, [
        [run.name, load.joint, load.tube, *cells([*load.force, *load.moment]), shown(load.at), *cells([*load.spread, *load.g]),
         *(cells([run.factor], 1.5) + [shown(run.factor_yield)] if load is run.loads[0] else ["", ""])]
        for run in frame.runs for load in run.loads])


def expected(frame):
    result = []
    for run in frame.runs:
        tubes, joints, whole = check(frame, run)
        for table, rows, key in (("tubes", tubes, "tube"), ("joints", joints, "joint"), ("runs", [whole], "run")):
            result += [{"frame": frame.name, "run": run.name, "table": table, "name": row[key],
                        **{column: number(row.get(column)) for column in COLUMNS[4:]}} for row in rows]
    return result


def makers():
    ways = {frame.name: (lambda frame=frame: frame) for frame in structured_frames()}
    return ways | {name: (lambda name=name, how=how: random_frame(name, **how)) for name, how in random_frames()}


def main():
    names, path = sys.argv[1:], HERE / "frames_expected.csv"
    rows = {}
    if path.exists():
        with open(path, newline="", encoding="utf-8") as file:
            for row in csv.DictReader(file):
                rows.setdefault(row["frame"], []).append({column: row.get(column) or "" for column in COLUMNS})
    ways = makers()
    failed = 0
    for name in names or ways:
        start = time.monotonic()
        try:
            frame = ways[name]()
            rows[name] = expected(frame)
        except (ValueError, StopIteration) as reason:
            print(f"{name}: {reason}", flush=True)
            failed += 1
            continue
        write_tables(frame, HERE / "frames" / name.replace(" ", "_"))
        least = min(float(row["margin"]) for row in rows[name] if row["table"] == "runs")
        print(f"{name}: {len(frame.joints)} joints, {len(frame.tubes)} tubes, margin {least:.4f}, "
              f"{'/'.join(sorted({row['governs'] for row in rows[name] if row['table'] == 'tubes'}))}, "
              f"path {[row['path_end'][:7] for row in rows[name] if row['table'] == 'runs']}, "
              f"{time.monotonic() - start:.0f} s", flush=True)
        with open(path, "w", newline="", encoding="utf-8") as file:
            writer = csv.DictWriter(file, COLUMNS, lineterminator="\n")
            writer.writeheader()
            writer.writerows(row for known in ways if known in rows for row in rows[known])
    return failed > 0


if __name__ == "__main__":
    sys.exit(main())
