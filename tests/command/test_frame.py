"""check on a frame: its verdicts, formats, options, and frames with a known answer."""

import math
import re

from frame import JOINT_COLUMNS, JOINTS, LOADS, RUN_COLUMNS, TOO_MUCH, TUBE_COLUMNS, TUBES, FrameTest, changed
from program import HOLDS, in_si, joined, name_and_unit, run_tests

COLUMNS = {"tubes": TUBE_COLUMNS, "joints": JOINT_COLUMNS, "runs": RUN_COLUMNS}
SHORT_LOADS = [*LOADS, {"run": "hard", "joint": "end", "force_z [lbf]": f"-{TOO_MUCH}"}]
FORCED = changed(TUBES, 0, cells={"miss_a [in]": "0.2", "miss_a_clock": "0", "note": "forced"})


def number(row, column):
    return float(row[column])


class Verdict(FrameTest):
    def test_it_holds(self):
        self.frame()
        self.assertRun(self.check("frame"), 0)
        self.assertEqual({row["verdict"] for row in self.check("frame").rows}, {"holds"})

    def test_one_run_is_short(self):
        self.frame(loads=SHORT_LOADS)
        run = self.check("frame")
        self.assertRun(run, 1)
        self.assertEqual([(row["tube"], row["run"]) for row in run.rows],
                         [("beam", "down"), ("brace", "down"), ("beam", "hard"), ("brace", "hard")])
        self.assertEqual(self.check("frame", "--of", "runs").rows[0]["verdict"], "holds")
        self.assertEqual(self.check("frame", "--of", "runs").rows[1]["verdict"], "short")

    def test_the_factor(self):
        self.frame(loads=[{**LOADS[0], "factor": ""}, {**LOADS[0], "run": "own", "factor": "3"}])
        plain, asked = self.tubes(), self.check("frame", "--factor", "3")
        self.assertRun(asked, asked.status, [])
        rows = {(row["tube"], row["run"]): row for row in asked.rows}
        for tube in "beam", "brace":
            self.assertEqual(rows[tube, "down"]["margin"], rows[tube, "own"]["margin"])
            self.assertAlmostEqual((1 + number(plain[tube, "down"], "margin")) * 1.5, (1 + number(rows[tube, "down"], "margin")) * 3, 6)
        told = self.check("frame", "--factor", "2")
        self.assertEqual(told.err, "railbow: --factor 2 is not used for 1 row with a factor of its own\n")

    def test_rows_of_a_run_act_together(self):
        self.frame(loads=[{**LOADS[0], "force_z [lbf]": "-400"}, {"run": "other", "joint": "end", "force_x [lbf]": "1"},
                          {**LOADS[0], "force_z [lbf]": "-600", "factor": "1.5"}])
        apart = self.check("frame", "--of", "joints").out.splitlines()
        self.frame()
        self.assertEqual([line for line in apart if ",down," in line], self.check("frame", "--of", "joints").out.splitlines()[1:])


class Formats(FrameTest):
    def test_csv(self):
        self.frame(loads=SHORT_LOADS, tubes=FORCED)
        for name, columns in COLUMNS.items():
            run = self.check("frame", "--of", name)
            self.assertEqual(run.out.splitlines()[0], columns)
            self.assertEqual(len(run.rows), {"tubes": 4, "joints": 6, "runs": 2}[name])
            self.assertEqual(self.check("frame", "--of", name, "--units", "si").out.splitlines()[0], in_si(columns))
        self.assertEqual(self.check("frame").out, self.check("frame", "--of", "tubes", "--format", "csv").out)
        self.assertEqual([row["note"] for row in self.check("frame").rows], ["forced", "", "forced", ""])

    def test_json_holds_all_three(self):
        self.frame(loads=SHORT_LOADS, tubes=FORCED)
        answer = self.check("frame", "--format", "json").json
        self.assertEqual(list(answer), ["version", "command", "inputs", "materials", "tubes", "joints", "runs", "details", "advice", "advice_cut_short", "refused"])
        self.assertEqual(answer["inputs"], ["frame/joints.csv", "frame/tubes.csv", "frame/loads.csv"])
        self.assertEqual((answer["command"][:2], answer["refused"]), (["railbow", "check"], 0))
        for name, columns in COLUMNS.items():
            rows = self.check("frame", "--of", name).rows
            self.assertEqual(answer[name]["units"], dict(name_and_unit(c) for c in columns.split(",") if "[" in c))
            self.assertEqual(len(answer[name]["rows"]), len(rows))
            for got, want in zip(answer[name]["rows"], rows):
                for column, cell in want.items():
                    value = got[name_and_unit(column)[0]]
                    if isinstance(value, str):
                        self.assertEqual(value, cell)
                    elif value is None:
                        self.assertIn(cell, ("", "inf"))
                    else:
                        self.assertTrue(math.isclose(value, float(cell), rel_tol=1e-9, abs_tol=1e-300))

    def test_text(self):
        self.frame(loads=SHORT_LOADS)
        run = self.check("frame", "--format", "text")
        self.assertRun(run, 1)
        said = joined(run.out)
        self.assertRegex(said, r"^\d of 2 tubes holds? in all 2 runs, \d (is|are) SHORT\. Worst: tube '\w+' in run 'hard': it yields or buckles at ")
        for word in ("What governs: ", "run verdict margin worst", "How stiff the joints are: ", "The tubes weigh ", "Each tube in its worst run.",
                     "Assumed: joints have no size", "An aid to judgement"):
            self.assertIn(word, said)
        self.assertTrue(all(len(line) <= 80 for line in run.out.splitlines()))

    def test_text_without_a_limit(self):
        self.frame(tubes=[*({**TUBES[0], "tube": f"beam {i}"} for i in range(30)), TUBES[1]], loads=[{"run": "idle"}])
        self.assertIn("21 more tubes hold, without a limit: --all lists every tube.", joined(self.check("frame", "--format", "text").out))

    def test_text_of_one_table(self):
        self.frame(loads=SHORT_LOADS)
        rows = {of: self.check("frame", "--of", of).rows for of in COLUMNS}
        out = {of: self.check("frame", "--format", "text", "--of", of).out for of in COLUMNS}
        self.assertEqual(out["tubes"], self.check("frame", "--format", "text").out)
        self.assertEqual([out[of].count("\ntube ") for of in ("tubes", "joints", "runs")], [1, 0, 0])
        self.assertEqual([out[of].count("\nrun ") for of in ("tubes", "joints", "runs")], [1, 0, 1])
        self.assertEqual([out["joints"].count(f"\n{name} ") for name in ("wall A", "wall B", "end")], [4, 4, 2])
        self.assertTrue(all(len(line) <= 80 for line in out["joints"].splitlines()))
        for run in "down", "hard":
            told = out["joints"].split(f"\nRun '{run}', load factor 1:\n")[1]
            for row in rows["joints"]:
                if row["run"] == run and row["joint"] == "wall A":
                    shown = re.search(r"^support .*\n(?:.*\n)?wall A((?: +[-\d.]+){6})$", told, re.M).group(1).split()
                    for cell, column in zip(shown, ("react_x [lbf]", "react_y [lbf]", "react_z [lbf]")):
                        self.assertAlmostEqual(float(cell), number(row, column), delta=0.006 * abs(number(row, column)) + 1e-9)

    def test_text_of_what_is_locked_in(self):
        self.frame(tubes=FORCED)
        said = joined(self.check("frame", "--format", "text").out)
        for word in ("Forced fit: before any load this tube already carries ", "Neighbours: 'brace' is not forced itself, yet carries ",
                     "Joints: forcing has moved 'end' most, by ", "fit costs"):
            self.assertIn(word, said)
        self.frame()
        self.assertNotIn("orced", joined(self.check("frame", "--format", "text").out))

    def test_a_long_frame_lists_the_short_and_the_closest(self):
        many = [{**TUBES[0], "tube": f"beam {i}", "wall [in]": f"0.0{28 + i}"} for i in range(30)]
        self.frame(tubes=[*many, TUBES[1]])
        short, whole = (self.check("frame", "--format", "text", *words).out for words in ([], ["--all"]))
        self.assertEqual([out.count("\nbeam ") + out.count("\nbrace ") for out in (short, whole)], [10, 31])
        self.assertRegex(joined(short), r"21 more tubes hold, with margins from \+[\d.]+ % up: --all lists every tube\.")
        self.assertNotIn("more tubes", whole)

    def test_near_frame_buckling(self):
        self.frame(loads=SHORT_LOADS)
        runs = {row["run"]: number(row, "critical_factor") for row in self.check("frame", "--of", "runs").rows}
        for row in self.check("frame").rows:
            self.assertEqual("near frame buckling" in row["remarks"], runs[row["run"]] < 3)


class Picked(FrameTest):
    def test_tubes_by_name_and_part(self):
        self.frame(tubes=changed(TUBES, 1, part="braces"), loads=SHORT_LOADS)
        every = self.check("frame").rows
        for words, names in ((["--case", "be*"], ["beam"]), (["--part", "braces"], ["brace"]), (["--case", "b*", "--part", "beam"], ["beam"])):
            run = self.check("frame", *words)
            self.assertEqual(run.rows, [row for row in every if row["tube"] in names])
            self.assertEqual(run.status, int(any(row["verdict"] == "short" for row in run.rows)))
            for row in self.check("frame", "--of", "runs", *words).rows:
                self.assertEqual(row["worst_tube"], names[0])
        self.assertEqual([row["part"] for row in every], ["beam", "braces"] * 2)
        self.assertEqual(self.check("frame", "--of", "joints").out, self.check("frame", "--of", "joints", "--case", "beam").out)
        self.assertIn("The tube picked ", self.check("frame", "--format", "text", "--case", "beam").out)

    def test_one_stress_of_one_tube(self):
        """A bow of unknown clock points to other sides in other runs: what is told is that of the worst run, as the table has it."""
        text = joined(self.check(self.installed.source / "cases/frame", "--tube", "rail UL 1", "--format", "text").out)
        said = re.findall(r"already carries (\S+) psi|yet carries (\S+) psi", text)
        self.assertEqual([one or other for one, other in said], ["8870", "8870"])
        self.assertIn(" 8870 ", text.split("rail UL 1 SHORT")[-1])

    def test_tube_is_another_word_for_case(self):
        self.frame(tubes=changed(TUBES, 1, part="braces"), loads=SHORT_LOADS)
        for words in (["be*"], ["be*", "brace"], ["brace"], ["*"]):
            tube, case = ([part for word in words for part in (option, word)] for option in ("--tube", "--case"))
            self.assertEqual(self.check("frame", *tube).out, self.check("frame", *case).out)
        self.assertEqual(self.check("frame", "--tube", "b*", "--part", "braces").rows, self.check("frame", "--part", "braces").rows)
        self.assertRun(self.check("frame", "--tube", "rail"), 2, "--tube: no tube meets 'rail'", "")
        self.assertRun(self.check("frame", "--tube", "beam", "--case", "beam"), 2, "check: --tube and --case pick the same of a frame: give --tube alone", "")
        self.cases(HOLDS)
        self.assertRun(self.check("cases.csv", "--tube", "beam"), 2, "check: --tube is for a frame: name its folder", "")

    def test_none(self):
        self.frame()
        self.assertRun(self.check("frame", "--case", "rail"), 2, "--case: no tube meets 'rail'", "")
        self.assertRun(self.check("frame", "--part", "rail"), 2, "--part: no tube's part meets 'rail'", "")
        run = self.check("frame", "--case", "rail", "--case", "beam")
        self.assertRun(run, 2, "--case: no tube meets 'rail'")
        self.assertEqual([row["tube"] for row in run.rows], ["beam"])


class Units(FrameTest):
    def test_a_frame_in_other_units_is_the_same(self):
        self.frame(loads=SHORT_LOADS, tubes=FORCED)
        want = self.check("frame", "--format", "json").json
        factors = {"in": ("mm", 25.4), "lbf": ("N", 4.4482216152605), "lb": ("kg", 0.45359237)}

        def in_metric(rows):
            out = []
            for row in rows:
                cells = {}
                for column, cell in row.items():
                    name, unit = name_and_unit(column)
                    other, factor = factors.get(unit, ("", 1))
                    cells[f"{name} [{other}]" if other else column] = repr(float(cell) * factor) if other and cell else cell
                out.append(cells)
            return out

        self.frame(in_metric(JOINTS), in_metric(FORCED), in_metric(SHORT_LOADS))
        got = self.check("frame", "--format", "json").json
        for name in "tubes", "joints", "runs":
            for a, b in zip(got[name]["rows"], want[name]["rows"]):
                for column, value in b.items():
                    if isinstance(value, float):
                        self.assertTrue(math.isclose(a[column], value, rel_tol=1e-5, abs_tol=1e-5), (column, a[column], value))
                    else:
                        self.assertEqual(a[column], value)


class Known(FrameTest):
    def test_the_portal(self):
        # Timoshenko and Gere, Theory of Elastic Stability, ch. 2 (from memory): 7.38 E I/h^2, on each column
        rows = {row["run"]: row for row in self.check(self.installed.source / "cases/portal", "--of", "runs").rows}
        unit = 29e6 * 0.0386673 / 30**2
        self.assertAlmostEqual(number(rows["columns"], "critical_factor") * 1000 / unit, 7.38, delta=0.01)  # the columns of the program shorten
        # Slope-deflection of the portal with fixed feet, beam as stiff and as long as the columns, side load H, psi = sway/h:
        # corner 4 theta - 6 psi + 6 theta = 0, columns (12 psi - 6 theta) E I/h = H h/2: the sway is H h^3/(16.8 E I). The load
        # enlarges it nearly by 1/(1 - load/critical load), and exactly as stability functions say. The corners do not move
        # alike: the load pushes the beam, whose shortening the mean leaves out, and pushes one column while it pulls the other,
        # so that the beam's ends resist a turn by 6/(1 + 24 I/(A h^2)) instead of 6.
        h, load, side, stiffness = 30, 1000, 10, 29e6 * 0.0386673
        area = math.pi * 0.058 * (1.25 - 0.058)
        beam = 6 / (1 + 24 * 0.0386673 / (area * h**2))
        joints = {row["joint"]: row for row in self.check(self.installed.source / "cases/portal", "--of", "joints").rows if row["run"] == "sway"}
        sway = sum(number(joints[name], "move_x [in]") for name in ("corner A", "corner B")) / 2
        grown = side * h**3 / (16.8 * stiffness) / (1 - 1 / number(rows["sway"], "critical_factor"))
        self.assertAlmostEqual(sway / grown, 1, delta=0.002)
        u = h * math.sqrt(load / stiffness)
        below = 2 - 2 * math.cos(u) - u * math.sin(u)
        near, far = u * (math.sin(u) - u * math.cos(u)) / below, u * (u - math.sin(u)) / below
        exact = side * h**3 / (2 * stiffness) / (2 * (near + far) - u**2 - (near + far)**2 / (near + beam))
        self.assertAlmostEqual(sway / exact, 1, delta=5e-5)
        corner = joints["corner A"]
        self.assertAlmostEqual(number(rows["sway"], "move [in]"), math.hypot(*(number(corner, f"move_{axis} [in]") for axis in "xyz")), 9)

    def test_weight_and_balance(self):
        self.frame(joints=changed(JOINTS, 2, cells={"mass [lb]": "50"}), loads=[{"run": "rest", "vertical_g": "1"}])
        whole = self.check("frame", "--of", "runs").rows[0]
        joints = self.check("frame", "--of", "joints").rows
        self.assertAlmostEqual(sum(number(row, "react_z [lbf]") for row in joints), number(whole, "mass [lb]"), 6)
        self.assertAlmostEqual(number(whole, "mass [lb]") - number(whole, "weight [lb]"), 50, 6)


class Demo(FrameTest):
    def demo(self, *words):
        return self.check("frame", *words, cwd=self.installed.source / "cases")

    def test_the_forced_rail_loads_its_neighbours(self):
        tubes = {(row["tube"], row["run"]): row for row in self.demo().rows}
        self.assertGreater(number(tubes["rail UL 2", "push"], "fit_stress [psi]"), 5000)
        neighbours = [number(row, "fit_stress [psi]") for (tube, run), row in tubes.items() if run == "push" and tube != "rail UL 2"]
        self.assertGreater(max(neighbours), 500)

    def test_it_is_small_enough_to_read(self):
        run = self.demo("--format", "text")
        self.assertEqual(run.err, "")
        self.assertIn("more tubes hold", run.out)
        self.assertLess(len(run.out.splitlines()), 90)


if __name__ == "__main__":
    run_tests()
