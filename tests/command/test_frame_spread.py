"""scatter and index on a frame: against check of the rewritten folder, answers in every form, and what is refused."""

import json
import math
import random
import signal
import statistics
import time

from frame import JOINTS, LOADS, TUBE, TUBES, FrameTest, changed
from program import CAUTION, joined, run_tests

DOWN = "-2860"  # lbf at the end: some samples of the small frame are short, most hold
SCATTER = """samples,refused,short_share,short_low,short_high,margin_as_given,margin_mean,margin_sd,margin_p01,margin_p05,margin_p50,
    margin_p95,worst_tube,worst_share,driver_of,driver,driver_share""".replace("\n    ", "")
BOWED = [{**row, "bow [in]": "0.03", "bow_clock": "20"} for row in TUBES]
TOLERANCES = "column,minus,plus,unit\nx,0.5,0.5,in\nwall,10,10,%\nbow,0.03,0.06,in\n"


class Spread(FrameTest):
    def setUp(self):
        super().setUp()
        self.loads = changed(LOADS, 0, cells={"force_z [lbf]": DOWN})
        self.frame(tubes=BOWED, loads=self.loads)
        self.file("t.csv", TOLERANCES)

    def scatter(self, *words, folder="frame"):
        return self.run_program("scatter", folder, "--tolerances", "t.csv", *words)

    def lowest(self, folder="frame"):
        return min(float(row["margin"]) for row in self.check(folder, "--of", "runs").rows)

    def refused(self, *messages, words=()):
        self.assertRun(self.scatter("--samples", "8", *words), 2, messages, "")

    # ---- the numbers -----------------------------------------------------------------------------------------------

    def drawn(self, dice):
        """The small frame with numbers drawn by this test."""
        joints = [{**row, "x [in]": repr(float(row["x [in]"]) + dice.uniform(-0.5, 0.5))} for row in JOINTS]
        tubes = [{**row, "wall [in]": repr(0.058 * dice.uniform(0.9, 1.1)), "bow [in]": repr(dice.uniform(0, 0.09))} for row in BOWED]
        self.frame(joints=joints, tubes=tubes, loads=self.loads, folder="drawn")
        return self.lowest("drawn")

    def test_against_plain_random_samples(self):
        dice, count = random.Random(20), 60
        margins = [self.drawn(dice) for _ in range(count)]
        row = self.scatter("--samples", "1024").rows[0]
        sd = statistics.stdev(margins)
        self.assertLess(abs(float(row["margin_mean"]) - statistics.mean(margins)), 3 * sd / math.sqrt(count))
        self.assertTrue(0.7 < float(row["margin_sd"]) / sd < 1.4, (row["margin_sd"], sd))
        share = float(row["short_share"])
        self.assertTrue(0.05 < share < 0.95, share)
        found = sum(margin < 0 for margin in margins) / count
        self.assertLess(abs(found - share), 3 * math.sqrt(share * (1 - share) / count))

    def test_no_width_is_the_check_of_the_folder(self):
        self.file("t.csv", "column,minus,plus\nx,0,0\nbow,0,0\n")
        for bow in "0", "0.03", "0.1":
            self.frame(tubes=[{**row, "bow [in]": bow} for row in BOWED], loads=self.loads)
            for row in self.scatter("--samples", "4", "--of", "samples").rows:
                self.assertAlmostEqual(float(row["margin"]), self.lowest(), delta=1e-6)
                self.assertEqual((row["run"], row["refused_why"]), ("down", ""))
        row = self.scatter("--samples", "4").rows[0]
        self.assertEqual((row["driver_of"], row["driver"], row["driver_share"], row["margin_sd"]), ("", "", "", "0"))

    def test_the_one_miss_that_matters_drives(self):
        tubes = [{**BOWED[0], "miss_a [in]": "0.1", "miss_a_clock": "180"}, {**BOWED[1], "miss_a [in]": "0.1", "miss_a_clock": "180"}]
        self.frame(tubes=tubes, loads=self.loads)
        self.file("t.csv", "column,minus,plus,unit,name\nmiss_a,0.1,0.1,in,beam\nmiss_a,0.001,0.001,in,brace\nx,0.001,0.001,in,\n")
        row = self.scatter("--samples", "512").rows[0]
        self.assertEqual((row["driver_of"], row["driver"]), ("beam", "miss_a"))
        self.assertGreater(float(row["driver_share"]), 0.9)
        rows = self.scatter("--samples", "512", "--drivers").rows
        self.assertEqual(rows[0], row)
        self.assertEqual({(r["driver_of"], r["driver"]) for r in rows[1:]},
                         {("brace", "miss_a"), ("wall A", "x"), ("wall B", "x"), ("end", "x")})

    def test_many_columns_share_no_more_than_there_is(self):
        """More than 40 columns: random samples, whose shares are corrected for chance."""
        joints = JOINTS + [{"joint": f"j{i}", "x [in]": str(30 + 6 * i), "y [in]": "0", "z [in]": "24", "held": ""} for i in range(1, 16)]
        tubes = BOWED + [{"tube": f"t{i}", "from": "end" if i == 1 else f"j{i - 1}", "to": f"j{i}", **TUBE} for i in range(1, 16)]
        self.frame(joints=joints, tubes=tubes, loads=self.loads)
        self.file("t.csv", "column,minus,plus,unit\nx,0.01,0.01,in\ny,0.01,0.01,in\nz,0.01,0.01,in\nwall,10,10,%\n")
        rows = self.scatter("--samples", "512", "--drivers").rows
        self.assertEqual(len(rows), 3 * len(joints) + len(tubes))
        self.assertEqual(rows[0]["driver"], "wall")
        self.assertIn(rows[0]["driver_of"], ("beam", "brace"))
        self.assertLess(sum(float(row["driver_share"]) for row in rows), 1.5)

    def test_a_miss_without_a_clock_points_anywhere(self):
        self.file("t.csv", "column,minus,plus,unit,name\nmiss_a,0,0.1,in,beam\n")
        rows = self.scatter("--samples", "256", "--drivers").rows
        self.assertEqual({row["driver"] for row in rows}, {"miss_a", "miss_a_clock"})
        self.assertEqual(rows[0]["refused"], "0")
        text = joined(self.scatter("--samples", "64", "--format", "text").out)
        self.assertIn("1 of them is the clock of a miss that the frame does not give: it points anywhere.", text)

    def test_samples_that_the_model_refuses(self):
        self.file("t.csv", "column,minus,plus,unit,name\nbow,0.09,0.03,in,beam\n")
        row = self.scatter("--samples", "400").rows[0]
        self.assertAlmostEqual(float(row["refused"]), 200, delta=2)
        refused = [r for r in self.scatter("--samples", "16", "--of", "samples").rows if r["refused_why"]]
        self.assertTrue(refused)
        self.assertEqual({(r["margin"], r["worst_tube"], r["refused_column"]) for r in refused}, {("", "", "bow")})

    # ---- the answer ------------------------------------------------------------------------------------------------

    def test_parts_are_the_same_as_all(self):
        every = self.scatter("--samples", "40", "--of", "samples").rows
        parts = self.scatter("--samples", "1:15", "--of", "samples").rows + self.scatter("--samples", "16:40", "--of", "samples").rows
        self.assertEqual(parts, every)
        self.assertEqual([row["sample"] for row in every], [str(i) for i in range(1, 41)])

    def test_the_same_bytes_for_any_jobs(self):
        for form in "csv", "json", "text":
            one, four = (self.scatter("--samples", "200", "--jobs", jobs, "--format", form) for jobs in "14")
            self.assertEqual(one, four)
        self.assertNotEqual(self.scatter("--samples", "64").out, self.scatter("--samples", "64", "--seed", "2").out)

    def test_forms(self):
        run = self.scatter("--samples", "128")
        self.assertEqual((run.out.split("\n", 1)[0], run.status, run.err), (SCATTER, 1, ""))
        whole = json.loads(self.scatter("--samples", "128", "--format", "json").out)
        self.assertEqual({name: len(whole[name]["rows"]) for name in ("frame", "tubes", "samples")},
                         {"frame": 1, "tubes": 2, "samples": 128})
        self.assertEqual(sum(row["worst"] for row in whole["tubes"]["rows"]), 128)
        self.assertEqual(sum(row["margin"] < 0 for row in whole["samples"]["rows"]) / 128, whole["frame"]["rows"][0]["short_share"])
        for words in ("scatter", "frame", "--tolerances", "t.csv", "--samples", "128"), ("index", "frame"):
            text = self.run_program(*words, "--format", "text").out
            self.assertLessEqual(max(map(len, text.splitlines())), 80)
            for word in CAUTION:
                self.assertIn(word, joined(text))
            self.run_program(*words, "-o", "answer.csv", "--report", "page.html")
            page = self.read("page.html")
            self.assertIn("<h2>The frame</h2>" if words[0] == "scatter" else "Bows of the frame", page)

    def test_exit_status(self):
        for load, status in ("-100", 0), ("-20000", 1):
            self.frame(tubes=BOWED, loads=changed(LOADS, 0, cells={"force_z [lbf]": load}))
            self.assertEqual(self.scatter("--samples", "16").status, status)
            self.assertEqual(self.run_program("index", "frame").status, status)

    def test_interrupted(self):
        self.file("old.csv", "old")
        process = self.start("scatter", "frame", "--tolerances", "t.csv", "--samples", "9000000", "-o", "old.csv",
                             preexec_fn=lambda: signal.signal(signal.SIGINT, signal.default_int_handler))
        time.sleep(2)
        process.send_signal(signal.SIGINT)
        out, err = process.communicate(timeout=60)
        self.assertEqual((process.returncode, out, self.read("old.csv")), (2, b"", "old"))
        self.assertRegex(err.decode(), r"^railbow: frame: stopped after \d+ of 9000000 samples; no answer is given\n$")
        self.assertEqual(self.listing(), ["frame", "old.csv", "t.csv"])

    # ---- what is refused -------------------------------------------------------------------------------------------

    def test_refused(self):
        self.file("t.csv", "column,minus,plus\nwal,1,1\nforce_z,1,1\nheld,1,1\n")
        where = "is not a number column of joints.csv or tubes.csv"
        self.refused(f"t.csv:2: column: 'wal' {where}; did you mean 'wall'?", f"t.csv:3: column: 'force_z' {where}",
                     f"t.csv:4: column: 'held' {where}")
        self.file("t.csv", "column,minus,plus,name\nbow,0.01,0.01,b*\nbow,0.01,0.01,brace\nx,1,1,nobody\nend_a,1,1,beam\n")
        self.refused("t.csv:3: column: an earlier row gives bow of 'brace' a tolerance already", "t.csv:4: name: no joint meets 'nobody'",
                     "frame/tubes.csv:2: end_a: has no number to vary ('rigid'): give a number")
        self.file("t.csv", TOLERANCES)
        self.refused("scatter: --case and --part pick load cases of a file, but the margin of a frame is that of all its tubes",
                     words=("--case", "beam"))
        self.refused("--samples: '5:4' ends before it begins", words=("--samples", "5:4"))

    def test_of_load_cases(self):
        self.cases({"case": "one"})
        words = "scatter", "cases.csv", "--tolerances", "t.csv"
        self.file("t.csv", "column,minus,plus,name\nwall,0.001,0.001,beam\n")
        self.assertRun(self.run_program(*words), 2, ["t.csv:2: name: picks tubes or joints of a frame, and these are load cases: pick them "
                                                     "with --case, or leave it empty"], "")
        self.file("t.csv", "column,minus,plus\nwall,0.001,0.001\n")
        for more in ("--of", "tubes"), ("--samples", "3:5"):
            self.assertRun(self.run_program(*words, *more), 2, ["scatter: --of and --samples FROM:TO are for a frame: name its folder"], "")

    # ---- index -----------------------------------------------------------------------------------------------------

    def test_index_gives_the_margins_of_check(self):
        self.frame(tubes=[{**row, "bow [in]": "0.15", "bow_clock": "275"} for row in BOWED], loads=self.loads)
        rows = self.run_program("index", "frame").rows
        self.assertAlmostEqual(float(rows[0]["margin_as_marked"]), self.lowest(), delta=1e-6)
        self.assertEqual([row["marked_clock [deg]"] for row in rows], ["275", "275"])
        turned = [{**row, "bow [in]": "0.15", "bow_clock": found["best_clock [deg]"]} for row, found in zip(BOWED, rows)]
        self.frame(tubes=turned, loads=self.loads)
        self.assertAlmostEqual(float(rows[0]["best_margin"]), self.lowest(), delta=1e-6)
        self.assertGreater(float(rows[0]["best_margin"]), float(rows[0]["margin_as_marked"]) + 0.01)

    def test_index_sees_through_symmetry(self):
        """Three alike tubes around a post: clocks 60 degrees apart give one margin, those between them a higher one."""
        joints = [{"joint": name, "x [in]": "0", "y [in]": "0", "z [in]": z, "held": ""} for name, z in (("low", "0"), ("top", "30"))]
        tubes = [{"tube": "post", "from": "low", "to": "top", "od [in]": "1.25", "wall [in]": "0.12", "material": "4130", "bow [in]": "0.5", "bow_clock": "0"}]
        for k in range(3):
            x, y = (repr(10 * f(math.radians(30 + 120 * k))) for f in (math.cos, math.sin))
            for level, z in ("low", "0"), ("top", "30"):
                joints.append({"joint": f"{level} {k}", "x [in]": x, "y [in]": y, "z [in]": z, "held": "fixed"})
                tubes.append({**tubes[0], "tube": f"{level} {k}", "from": f"{level} {k}", "to": level, "od [in]": "0.75", "wall [in]": "0.028", "bow [in]": "",
                              "bow_clock": ""})
        loads = [{"run": "r", "joint": "top", "force_z [lbf]": "-450", "factor": "1.7"}]
        self.frame(joints, tubes, loads)
        found = self.run_program("index", "frame").rows[0]
        self.assertGreater(float(found["best_margin"]), float(found["margin_as_marked"]) + 0.004)
        self.frame(joints, [{**tubes[0], "bow_clock": found["best_clock [deg]"]}, *tubes[1:]], loads)
        self.assertAlmostEqual(float(found["best_margin"]), self.lowest(), delta=1e-6)

    def test_index_takes_fine_steps_from_a_coarse_one(self):
        """A cantilever pushed down and aside: its bow does best at a clock that is no multiple of 15 degrees."""
        tube = {**TUBES[0], "bow [in]": "0.2", "bow_clock": "0"}
        loads = [{"run": "r", "joint": "end", "force_x [lbf]": "-3000", "force_y [lbf]": repr(60 * math.sin(math.radians(40))),
                  "force_z [lbf]": repr(-60 * math.cos(math.radians(40)))}]

        def index(clock):
            self.frame([JOINTS[1], JOINTS[2]], [{**tube, "bow_clock": str(clock)}], loads)
            return self.run_program("index", "frame").rows[0]

        best = float(index(0)["best_clock [deg]"])
        marked = 15 * round(best / 15)
        self.assertGreater(abs(best - marked), 2)
        found, margins = index(marked), {}
        for clock in range(marked - 14, marked + 15):
            self.frame([JOINTS[1], JOINTS[2]], [{**tube, "bow_clock": str(clock % 360)}], loads)
            margins[clock] = self.lowest()
        self.assertGreater(max(margins.values()), float(found["margin_as_marked"]) + 1e-4)
        self.assertAlmostEqual(float(found["best_margin"]), max(margins.values()), delta=1e-4)

    def test_index_of_any_and_of_no_bow(self):
        self.frame(tubes=[{**TUBES[0]}, {**TUBES[1], "bow [in]": "0.1"}], loads=self.loads)
        rows = self.run_program("index", "frame").rows
        self.assertEqual([(row["tube"], row["marked_clock [deg]"]) for row in rows], [("brace", "any")])
        self.frame(loads=self.loads)
        run = self.run_program("index", "frame", "--format", "text")
        self.assertIn("no tube has a bow, so there is nothing to turn", joined(run.out))
        self.assertEqual(self.run_program("index", "frame").rows, [])


if __name__ == "__main__":
    run_tests()
