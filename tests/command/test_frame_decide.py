"""compare, sweep and limit on a frame, each beside brute force: `check` on folders with rewritten tables."""

import copy
import itertools
import json

from frame import JOINTS, LOADS, TUBES, FrameTest, changed
from program import CAUTION, joined, run_tests

# A bracket of five tubes in three parts, loaded in two runs.
NODES = [{**JOINTS[0], "mass [lb]": ""}, *JOINTS[1:], {"joint": "low", "x [in]": "30", "y [in]": "0", "z [in]": "0", "held": ""}]
BAR = {"material": "4130", "weld_zone [in]": "1", "bow [in]": "0.03", "miss_a [in]": "", "od [in]": "1.25", "wall [in]": "0.058"}
BARS = [{"tube": name, "part": part, "from": a, "to": b, **BAR} for name, part, a, b in (
    ("top", "rail", "wall B", "end"), ("bottom", "rail", "wall A", "low"), ("post", "post", "low", "end"),
    ("brace 1", "brace", "wall A", "end"), ("brace 2", "brace", "wall B", "low"))]
RUNS = [{"run": "down", "joint": "end", "force_z [lbf]": "-4000", "vertical_g": ""},
        {"run": "down", "joint": "low", "force_z [lbf]": "-1500", "vertical_g": ""},
        {"run": "up", "joint": "low", "force_z [lbf]": "4500", "vertical_g": ""},
        {"run": "up", "joint": "", "force_z [lbf]": "", "vertical_g": "2"}]
WALLS = ["0.035", "0.058", "0.083"]
COMPARE = "set,part,wall [in],weight [lb],weight_change [lb],margin,worst_tube,run,governs,verdict"


class Decide(FrameTest):
    def setUp(self):
        super().setUp()
        self.frame(NODES, BARS, RUNS)

    def lowest(self, joints=NODES, tubes=BARS, loads=RUNS):
        """By `check`: the lowest margin, its tube and run, and the weight."""
        self.frame(joints, tubes, loads, folder="other")
        rows = self.check("other").rows
        worst = min(rows, key=lambda row: float(row["margin"]))
        weight = sum(float(row["weight [lb]"]) for row in rows if row["run"] == rows[0]["run"])
        return float(worst["margin"]), worst["tube"], worst["run"], weight

    def near(self, got, want, rel=1e-6):
        self.assertLessEqual(abs(float(got) - want), rel * abs(want) + 1e-7, (got, want))

    def text(self, *words, status=0):
        run = self.run_program(*words, "--format", "text")
        self.assertEqual(run.status, status, run)
        for line in run.out.splitlines():
            self.assertLessEqual(len(line), 80, line)
            self.assertEqual(line, line.rstrip())
        for word in CAUTION:
            self.assertIn(word, joined(run.out))
        return joined(run.out)

    # ---- compare

    def with_walls(self, walls):
        return [{**bar, "wall [in]": walls[bar["part"]]} for bar in BARS]

    def test_compare_against_every_set(self):
        run = self.run_program("compare", "frame", "--walls", ",".join(WALLS))
        self.assertEqual((run.err, run.status, run.out.split("\n")[0]), ("", 0, COMPARE))
        every = [(dict(zip(("rail", "post", "brace"), walls)),) for walls in itertools.product(WALLS, repeat=3)]
        every = [(walls, *self.lowest(tubes=self.with_walls(walls))) for walls, in every]
        holds = [one for one in every if one[1] >= 0]
        self.assertTrue(0 < len(holds) < len(every))
        best = min(holds, key=lambda one: one[4])
        pick = {row["part"]: row for row in run.rows if row["set"] == "pick"}
        self.assertEqual({part: row["wall [in]"] for part, row in pick.items()}, best[0])
        self.near(sum(float(row["weight [lb]"]) for row in pick.values()), best[4])
        worst = min(pick.values(), key=lambda row: float(row["margin"]))
        self.near(worst["margin"], best[1])
        self.assertEqual((worst["worst_tube"], worst["run"], worst["verdict"]), (best[2], best[3], "holds"))
        given = self.lowest()
        self.near(sum(float(row["weight_change [lb]"]) for row in pick.values()), best[4] - given[3])
        for row in run.rows:
            if row["set"] == "all":
                one = next(one for one in every if set(one[0].values()) == {row["wall [in]"]})
                self.near(row["margin"], one[1])
                self.near(row["weight [lb]"], one[4])
                self.near(row["weight_change [lb]"], one[4] - given[3])
                self.assertEqual((row["worst_tube"], row["run"]), one[2:4])
                self.assertEqual(row["verdict"], "holds" if one[1] >= 0 else "short")
        lighter = max((one for one in every if one[4] < best[4] - 1e-9), key=lambda one: one[4])
        said = self.text("compare", "frame", "--walls", ",".join(WALLS))
        self.assertIn("The frame holds with the walls below", said)
        self.assertIn(f"The next lighter set ({lighter[4]:.2f} lb;", said)
        self.assertIn(f"tube '{lighter[2]}' in run '{lighter[3]}'.", said)
        self.assertIn("The pick is the lightest of all 27 sets", said)

    def test_compare_with_nothing_that_holds_and_with_walls_that_cannot_be(self):
        run = self.run_program("compare", "frame", "--walls", "0.028,0.7,0.9mm")
        self.assertRun(run, 2, "--walls: '0.028,0.7,0.9mm': either every value has its unit, or none")
        run = self.run_program("compare", "frame", "--walls", "0.028,0.7")
        self.assertEqual((run.err, run.status, [row["set"] for row in run.rows]), ("", 1, ["all", "all"]))
        self.assertRegex(run.rows[1]["verdict"], "not possible: .*wall")
        self.assertEqual((run.rows[1]["margin"], run.rows[1]["weight [lb]"]), ("", ""))
        self.assertIn("No set of these walls holds", self.text("compare", "frame", "--walls", "0.028,0.7", status=1))

    def test_a_descent_beyond_20000_sets(self):
        tubes = [{**bar, "part": bar["tube"]} for bar in BARS]
        walls = "0.035,0.042,0.049,0.058,0.065,0.083,0.095,0.12"  # 8 ** 5 sets
        self.frame(NODES, tubes, RUNS, folder="many")
        run = self.run_program("compare", "many", "--walls", walls)
        self.assertEqual((run.err, run.status), ("", 0))
        pick = {row["part"]: row["wall [in]"] for row in run.rows if row["set"] == "pick"}
        by_part = lambda sizes: [{**bar, "wall [in]": sizes[bar["tube"]]} for bar in tubes]
        self.assertGreaterEqual(self.lowest(tubes=by_part(pick))[0], 0)
        for part in pick:  # no single part can be thinner
            for wall in walls.split(","):
                if float(wall) < float(pick[part]):
                    self.assertLess(self.lowest(tubes=by_part({**pick, part: wall}))[0], 0, (part, wall))
        self.assertIn("comes from a descent", self.text("compare", "many", "--walls", walls))

    # ---- sweep

    def test_sweep_of_a_tube(self):
        run = self.run_program("sweep", "frame", "--tube", "brace 1", "--vary", "wall=0.03:0.09:0.02", "--vary", "miss_a=0mm:10mm:5mm")
        self.assertEqual((run.status, [row["miss_a [in]"] for row in run.rows]), (2, ["0"] * 4))  # a miss needs its clock
        self.assertIn("frame/tubes.csv:5: wall: at wall 0.03 in, miss_a 0.19685 in to wall 0.03 in, miss_a 0.393701 in (2 values): ", run.err)
        tubes = [{**bar, "miss_a_clock": "0"} for bar in BARS]
        self.frame(NODES, tubes, RUNS)
        run = self.run_program("sweep", "frame", "--tube", "brace 1", "--vary", "wall=0.035:0.095:0.02", "--vary", "miss_a=0mm:10mm:5mm")
        self.assertEqual((run.err, run.out.split("\n")[0]), ("", "wall [in],miss_a [in],margin,worst_tube,run,governs,verdict"))
        self.assertEqual(len(run.rows), 12)
        for row in run.rows:
            one = self.lowest(tubes=changed(tubes, 3, cells={"wall [in]": row["wall [in]"], "miss_a [in]": row["miss_a [in]"]}))
            self.near(row["margin"], one[0])
            self.assertEqual((row["worst_tube"], row["run"], row["verdict"]), (*one[1:3], "holds" if one[0] >= 0 else "short"))
        self.assertEqual(run.status, 1 if any(row["verdict"] == "short" for row in run.rows) else 0)

    def test_sweep_of_picked_tubes(self):
        for words, picked in ((["--case", "brace 1"], ["brace 1"]), (["--part", "brace", "--case", "brace ?"], ["brace 1", "brace 2"])):
            run = self.run_program("sweep", "frame", "--tube", "brace 1", *words, "--vary", "wall=0.035:0.095:0.03")
            self.assertEqual((run.err, len(run.rows)), ("", 3))
            for row in run.rows:
                self.frame(NODES, changed(BARS, 3, cells={"wall [in]": row["wall [in]"]}), RUNS, folder="other")
                rows = [one for one in self.check("other").rows if one["tube"] in picked]
                worst = min(rows, key=lambda one: float(one["margin"]))
                self.near(row["margin"], float(worst["margin"]))
                self.assertEqual((row["worst_tube"], row["run"], row["governs"]), (worst["tube"], worst["run"], worst["governs"]))
            one = self.run_program("sweep", "frame", "--tube", "brace 1", *words, "--vary", "wall=0.065:0.065:1").rows
            self.assertEqual(one, run.rows[1:2])
            said = self.text("sweep", "frame", "--tube", "brace 1", *words, "--vary", "wall=0.035:0.095:0.03", status=run.status)
            self.assertIn(f"the judged part ({len(picked)} of 5 tubes)", said)
        self.assertRun(self.run_program("sweep", "frame", "--tube", "top", "--case", "nobody", "--vary", "wall=0.058:0.058:1"), 2, "--case: no tube meets 'nobody'", "")

    def test_sweep_of_a_joint_and_of_loads(self):
        run = self.run_program("sweep", "frame", "--joint", "end", "--vary", "x=24:36:4")
        for row in run.rows:
            self.near(row["margin"], self.lowest(joints=changed(NODES, 2, cells={"x [in]": row["x [in]"]}))[0])
        run = self.run_program("sweep", "frame", "--run", "up", "--vary", "force_z=2000:8000:2000")
        self.assertEqual(len(run.rows), 4)
        for row in run.rows:
            self.near(row["margin"], self.lowest(loads=changed(RUNS, 2, cells={"force_z [lbf]": row["force_z [lbf]"]}))[0])
        run = self.run_program("sweep", "frame", "--run", "down", "--joint", "low", "--vary", "force_z=-6000:0:3000")
        for row in run.rows:
            self.near(row["margin"], self.lowest(loads=changed(RUNS, 1, cells={"force_z [lbf]": row["force_z [lbf]"]}))[0])
        run = self.run_program("sweep", "frame", "--run", "up", "--vary", "vertical_g=0:4:2")
        for row in run.rows:
            self.near(row["margin"], self.lowest(loads=changed(RUNS, 3, vertical_g=row["vertical_g"]))[0])

    def test_a_value_that_cannot_be_leaves_the_others(self):
        run = self.run_program("sweep", "frame", "--tube", "top", "--vary", "od=0.1:1.3:0.6")
        self.assertEqual((run.status, [row["od [in]"] for row in run.rows]), (2, ["0.7", "1.3"]))
        self.assertRegex(run.err, r"^railbow: frame/tubes.csv:2: od: at od 0.1 in: ")
        self.assertIn("NOT CHECKED: 1 value", self.text("sweep", "frame", "--tube", "top", "--vary", "od=0.1:1.3:0.6", status=2))

    # ---- limit

    def limit(self, *words):
        run = self.run_program("limit", "frame", *words)
        self.assertEqual(run.err, "")
        self.assertEqual(len(run.rows), 1)
        return run, run.rows[0]

    def test_limit_against_a_dense_sweep(self):
        tubes = [{**bar, "miss_a_clock": "0"} for bar in BARS]
        self.frame(NODES, tubes, RUNS)
        for place, column, end, present in (("--tube top", "bow", 1.5, 0.03), ("--tube brace 1", "miss_a", 1.5, 0), ("--run up", "force_z", 20000, 4500),
                                            ("--joint end", "mass", 4000, 0)):
            option, name = place.split(" ", 1)
            run, row = self.limit(option, name, "--find", column, "--to", str(end), "--margin", "0.02")
            with self.subTest(place=place, row=row):
                sweep = self.run_program("sweep", "frame", option, name, "--vary", f"{column}=0:{end}:{end / 300}").rows
                value = next(key for key in sweep[0] if key.startswith(column))
                short = next((i for i, one in enumerate(sweep) if float(one["margin"]) < 0.02), None)
                found = next(float(row[key]) for key in row if key.startswith("limit"))
                if short is None:
                    self.assertEqual((row["state"], found), ("never", end))
                    continue
                if short == 0:
                    self.assertEqual(row["state"], "already")
                    continue
                self.assertEqual(row["state"], "found")
                self.assertLessEqual(float(sweep[short - 1][value]), found)
                self.assertLess(found, float(sweep[short][value]))
                past = found + 2e-7 * end
                two = self.run_program("sweep", "frame", option, name, "--vary", f"{column}={found!r}:{past!r}:{past - found!r}").rows
                self.assertGreaterEqual(float(two[0]["margin"]), 0.02 - 1e-7)
                self.assertLess(float(two[1]["margin"]), 0.02)
                self.assertEqual((two[1]["worst_tube"], two[1]["run"]), (row["gives_way"], row["run"]))
                self.assertEqual(run.status, 1 if found < present else 0)

    def test_a_dip_between_two_steps(self):
        """The margin over the clock of a large bow is lowest at one clock: a target just above that is missed by even steps."""
        tubes = changed([{**bar, "bow_clock": ""} for bar in BARS], 3, cells={"bow [in]": "0.8", "bow_clock": "0"})
        self.frame(NODES, tubes, RUNS)
        sweep = self.run_program("sweep", "frame", "--tube", "brace 1", "--vary", "bow_clock=0.4:359:0.2").rows
        least = min(sweep, key=lambda row: float(row["margin"]))
        margin, clock = float(least["margin"]), float(least["bow_clock [deg]"])
        self.assertTrue(5 < clock < 355 and margin > -1, least)
        run, row = self.limit("--tube", "brace 1", "--find", "bow_clock", "--from", "0.3", "--to", "359", "--margin", str(margin + 2e-8))
        self.assertEqual((row["state"], row["gives_way"]), ("found", least["worst_tube"]))
        self.assertLess(clock - float(row["limit [deg]"]), 1.8)
        self.assertLessEqual(float(row["limit [deg]"]), clock)
        even = [float(row["margin"]) for row in self.run_program("sweep", "frame", "--tube", "brace 1", "--vary", "bow_clock=0.3:359:1.7935").rows]
        self.assertGreater(min(even), margin + 2e-8)

    def test_states_and_words(self):
        run, row = self.limit("--tube", "top", "--find", "bow", "--to", "0.031in", "--from", "0.02in")
        self.assertEqual((row["state"], row["gives_way"], run.status), ("never", "", 0))
        run, row = self.limit("--run", "up", "--find", "force_z", "--from", "40000", "--to", "50000")
        self.assertEqual((row["state"], row["loads"], run.status), ("already", "up", 1))
        said = self.text("limit", "frame", "--run", "up", "--find", "force_z", "--to", "40000")
        self.assertRegex(said, r"^run 'up', force_z: the frame holds up to \d+ lbf; now it is 4500 lbf, room \d+ lbf. Gives way first: tube '")

    # ---- all

    COMMANDS = (["compare", "frame", "--walls", "0.049,0.058,0.065"], ["sweep", "frame", "--tube", "top", "--vary", "bow=0:0.2:0.02"],
                ["sweep", "frame", "--joint", "low", "--vary", "x=28:32:1", "--vary", "z=-2:2:1"],
                ["limit", "frame", "--tube", "top", "--find", "bow", "--to", "1"])

    def test_the_same_bytes_for_any_number_of_threads_and_in_every_format(self):
        for words in self.COMMANDS:
            for form in "csv", "json", "text":
                one, two = (self.run_program(*words, "--format", form, "--jobs", jobs) for jobs in ("1", "3"))
                self.assertEqual(one, two, words)
                run_status = one.status
                self.assertEqual(one.err, "")
            answer = json.loads(self.run_program(*words, "--format", "json").out)
            self.assertEqual(answer["inputs"], [f"frame/{name}.csv" for name in ("joints", "tubes", "loads")])
            rows = self.run_program(*words).rows
            for row, one in zip(rows, answer["rows"], strict=True):
                for cell, value in zip(row.values(), one.values(), strict=True):
                    self.assertTrue(cell == value if isinstance(value, str) else value is None or abs(float(cell) - value) < 1e-8 * abs(value) + 1e-12)
            self.text(*words, status=run_status)

    def test_pages(self):
        for i, words in enumerate(self.COMMANDS):
            run = self.run_program(*words, "--report", f"{i}.html", "--title", "Nose")
            self.assertEqual(run.err, "")
            page = (self.folder / f"{i}.html").read_text(encoding="utf-8")
            for part in "<svg", "<table", "<title>Nose", "licensed engineer":
                self.assertIn(part, page)
            self.assertIn("joints have no size", page)  # what is assumed of a frame
            self.assertNotIn("a welded joint is soft", page)

    def test_errors(self):
        for words, message in (
                (["sweep", "frame", "--vary", "bow=0:1:1"],
                 "sweep: name whose column it is with --tube, --joint or --run; see 'railbow help sweep'"),
                (["sweep", "frame", "--tube", "tpo", "--vary", "bow=0:1:1"],
                 "--tube: there is no tube 'tpo' in frame/tubes.csv; did you mean 'top'?"),
                (["limit", "frame", "--joint", "enn", "--find", "x", "--to", "9"],
                 "--joint: there is no joint 'enn' in frame/joints.csv; did you mean 'end'?"),
                (["limit", "frame", "--run", "dwn", "--find", "force_z", "--to", "9"],
                 "--run: there is no run 'dwn' in frame/loads.csv; did you mean 'down'?"),
                (["sweep", "frame", "--tube", "top", "--vary", "material=0:1:1"], "--vary: column 'material' is not a number"),
                (["sweep", "frame", "--tube", "top", "--vary", "bwo=0:1:1"], "--vary: tubes.csv has no column 'bwo'; did you mean 'bow'?"),
                (["sweep", "frame", "--tube", "top", "--vary", "force_z=0:1:1"],
                 "--vary: column 'force_z' is one of frame/loads.csv: name whose it is with --run"),
                (["sweep", "frame", "--run", "down", "--vary", "factor=1:2:1"],
                 "--vary: column 'factor' is no load: it is what the margin is held against"),
                (["sweep", "frame", "--run", "down", "--vary", "force_x=0:1:1"],
                 "--vary: no row of run 'down' gives force_x: name one with --joint or --tube"),
                (["sweep", "frame", "--tube", "top", "--vary", "gap=0:1:1"],
                 "frame/tubes.csv: names no unit of gap, which the values of --vary would be in: write it behind each, as in 1in"),
                (["sweep", "frame", "--tube", "top", "--vary", "bow=0:x:1"], None),
                (["sweep", "frame", "--tube", "top", "--joint", "end", "--vary", "bow=0:1:1"], "sweep: --tube and --joint: name one of them"),
                (["limit", "frame", "--tube", "top", "--find", "bow"],
                 "limit: name a column with --find and the end of its range with --to; see 'railbow help limit'"),
                (["compare", "frame", "--walls", "0.058", "--ods", "1"],
                 "compare: --ods: the diameters of a frame stay as they are; only its walls are compared"),
                (["compare", "frame", "--walls", "0.058", "--part", "rail"], "compare: --case and --part pick load cases; a frame is judged whole"),
                (["compare", "frame", "frame"], "compare: 'frame' is a folder, and a frame is taken alone: name no other file or folder with it")):
            run = self.run_program(*words)
            with self.subTest(words=words):
                self.assertEqual((run.status, run.out), (2, ""))
                if message is not None:
                    self.assertEqual(run.err, f"railbow: {message}\n")
        self.cases({})
        self.assertRun(self.run_program("sweep", "cases.csv", "--tube", "a", "--vary", "bow=0:1:1"), 2,
                       "sweep: --tube, --joint and --run are for a frame: name its folder", "")


if __name__ == "__main__":
    run_tests()
