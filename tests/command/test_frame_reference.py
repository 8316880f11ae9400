"""Frames against the reference solution: the folders in tests/reference/frames, and what frames.py found there by another
route (matrix exponential and Newton, a dense scan of load factors), in frames_expected.csv."""

import csv
import io
import math

from program import ProgramTest, name_and_unit, run_tests

TABLES = {"tubes": "tube", "joints": "joint", "runs": "run"}     # each with the column of its names
FACTORS = "margin margin_as_built margin_unforced yield_factor column_factor interaction_factor path_end".split()
SIZES = {   # of the same kind: differences count against the largest of the frame in that run
    "force": "axial fit_axial react_x react_y react_z",
    "moment": "torque peak_moment fit_moment moment_a moment_b react_mx react_my react_mz",
    "stress": "peak_stress fit_stress",
    "move": "move_x move_y move_z locked_x locked_y locked_z move",
    "turn": "turn_x turn_y turn_z"}
OWN = "length weight column_load stress_use mass centre_x centre_y centre_z".split()
CLOCKS = {"moment_a_clock": "moment_a", "moment_b_clock": "moment_b"}
REL, REL_CRITICAL = 1e-6, 1e-8
UNSIGNED = {"torque"}


def number(cell):
    """None for an empty cell; JSON has null for an empty cell and for no limit."""
    return None if cell in (None, "") else float(cell)


class Expected:
    def __init__(self, folder):
        self.rows = {}
        with open(folder / "frames_expected.csv", newline="", encoding="utf-8") as file:
            for row in csv.DictReader(file):
                self.rows.setdefault(row["frame"], {}).setdefault(row["table"], []).append(row)

    def scale(self, frame, run, kind):
        sizes = [abs(float(row[name])) for rows in self.rows[frame].values() for row in rows if row["run"] == run
                 for name in SIZES[kind].split() if row[name]]
        return max(sizes, default=0.0)


class FrameReference(ProgramTest):
    def setUp(self):
        super().setUp()
        self.place = self.installed.source / "tests" / "reference"
        self.expected = Expected(self.place)

    def check_frame(self, frame, *words):
        run = self.check(self.place / "frames" / frame.replace(" ", "_"), "--materials", self.place / "materials.csv", *words)
        short = any(float(row["margin"]) < 0 for row in self.expected.rows[frame]["runs"])
        self.assertEqual((run.err, run.status), ("", int(short)))
        return run

    def near(self, got, want, within, where):
        """A difference of at most `within`. No limit: JSON says null."""
        if want is None or math.isinf(want):
            self.assertIn(got, (None, want), where)
        else:
            self.assertIsNotNone(got, where)
            self.assertLessEqual(abs(got - want), within, f"{where}: {got!r}, reference {want!r}")

    def compare_row(self, frame, table, got, want):
        where = f"{frame}, {want['run']}, {want['name']}: "
        for name in FACTORS + OWN:
            value = number(want[name])
            if name in got:
                self.near(number(got[name]), value, REL * (abs(value or 0.0) + ("margin" in name)), where + name)
        for kind, names in SIZES.items():
            scale = self.expected.scale(frame, want["run"], kind)
            for name in names.split():
                if name in got and (want[name] or table != "runs" or name == "move"):
                    value, own = number(want[name]), number(got[name])
                    if name in UNSIGNED and value is not None and own is not None:
                        value, own = abs(value), abs(own)
                    self.near(own, value, REL * scale, where + name)
        if table == "runs":
            value = number(want["critical_factor"])
            self.near(number(got["critical_factor"]), value, REL_CRITICAL * (value or 0.0), where + "critical_factor")
        if table == "tubes":
            self.compare_places(frame, got, want, where)
        if table != "joints":
            self.assertEqual(got["verdict"], "holds" if float(want["margin"]) >= 0 else "short", where)

    def compare_places(self, frame, got, want, where):
        """Clocks of moments, the place of the largest, and what governs: where no other is as large."""
        for name, size in CLOCKS.items():
            if want[size] and float(want[size]) > 1e-5 * self.expected.scale(frame, want["run"], "moment"):
                turn = (number(got[name]) - number(want[name]) + 180.0) % 360.0 - 180.0
                self.assertLessEqual(abs(turn), 1e-3, where + name)
        if want["peak_moment"] and float(want["peak_moment"]) > 1e-5 * self.expected.scale(frame, want["run"], "moment"):
            self.near(number(got["peak_moment_at"]), number(want["peak_moment_at"]), 1e-5 * float(want["length"]),
                      where + "peak_moment_at")
        if got["governs"] != want["governs"]:
            factors = [float(want[name]) for name in ("column_factor", "yield_factor", "interaction_factor")]
            low, high = sorted(factors)[:2]
            self.assertLessEqual(high - low, 1e-5 * low, f"{where}{got['governs']}, reference {want['governs']}")
        if want["bow_clock_taken"] and number(got.get("bow_clock_taken")) is not None:
            turn = (number(got["bow_clock_taken"]) - number(want["bow_clock_taken"]) + 180.0) % 360.0 - 180.0
            self.assertLessEqual(abs(turn), 0.06, where + "bow_clock_taken")

    def compare_names(self, frame, got, want):
        """The worst tube and the joint that moves most: any of those that tie."""
        tables, run = self.expected.rows[frame], want["run"]
        where = f"{frame}, {run}"
        worst = [float(row["margin"]) for row in tables["tubes"] if row["run"] == run and row["name"] == got["worst_tube"]]
        self.assertEqual(len(worst), 1, where)
        self.near(worst[0], float(want["margin"]), REL * (1.0 + abs(float(want["margin"]))), where + ": worst_tube")
        if want["move"]:
            moved = [math.hypot(*(float(row[name]) for name in ("move_x", "move_y", "move_z")))
                     for row in tables["joints"] if row["run"] == run and row["name"] == got["move_joint"]]
            self.near(moved[0] if moved else None, float(want["move"]), REL * float(want["move"]), where + ": move_joint")

    def compare(self, frame, table, rows):
        key = TABLES[table]
        wanted = self.expected.rows[frame][table]
        self.assertEqual(sorted((row["run"], row[key]) for row in rows), sorted((row["run"], row["name"]) for row in wanted))
        found = {(row["run"], row[key]): row for row in rows}
        for want in wanted:
            got = found[want["run"], want["name"]]
            self.compare_row(frame, table, got, want)
            if table == "runs":
                self.compare_names(frame, got, want)

    def test_there_are_frames(self):
        folders = {path.name for path in (self.place / "frames").iterdir()}
        self.assertEqual(folders, {name.replace(" ", "_") for name in self.expected.rows})
        self.assertGreaterEqual(len(folders), 40)

    def test_json(self):
        for frame in self.expected.rows:
            with self.subTest(frame=frame):
                answer = self.check_frame(frame, "--format", "json").json
                for table in TABLES:
                    self.compare(frame, table, answer[table]["rows"])

    def test_csv_of_each_table(self):
        for frame in list(self.expected.rows)[::6]:
            for table in TABLES:
                with self.subTest(frame=frame, table=table):
                    text = self.check_frame(frame, "--format", "csv", "--of", table).out
                    rows = [{name_and_unit(column)[0]: cell for column, cell in row.items()}
                            for row in csv.DictReader(io.StringIO(text, newline=""))]
                    self.compare(frame, table, rows)

    def test_a_split_post_is_the_whole_post(self):
        """States only: the pieces have column lengths of their own."""
        whole, split = (self.check_frame(name, "--format", "json").json for name in ("whole post", "split post"))
        self.assertLessEqual(abs(whole["runs"]["rows"][0]["critical_factor"] / split["runs"]["rows"][0]["critical_factor"] - 1), REL_CRITICAL)
        pieces = {row["joint"]: row for row in split["joints"]["rows"]}
        most = max(abs(row[name]) for row in whole["joints"]["rows"] for name in ("move_x", "move_y", "move_z"))
        for row in whole["joints"]["rows"]:
            for name in ("move_x", "move_y", "move_z"):
                self.near(pieces[row["joint"]][name], row[name], 1e-9 * most, row["joint"] + name)


if __name__ == "__main__":
    run_tests()
