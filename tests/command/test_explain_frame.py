"""explain of a tube of a frame: every line done again, its numbers those of check, the frame in balance."""

import re
import xml.etree.ElementTree as xml

from frame import FrameTest, JOINTS, LOADS, TUBES, changed
from page import NOT_BY_HAND, worked_out
from program import joined, run_tests

# Tubes that lead the working along its ways: forced, a neighbour of it, pulled, upright, and one that takes no bow.
FRAME = [("rail UL 2", "pitch"), ("rail UL 1", "pitch"), ("brace left 1", "pitch"), ("ring 1 left", "push")]
PORTAL = [("column A", "sway"), ("beam", "sway"), ("column B", "columns")]

# A frame with everything that the tables can say: springs, pins, a kink, a gap, loads along and across tubes, moments, g.
LADEN_JOINTS = [*changed(JOINTS, 2, cells={"mass [lb]": "12"}), {"joint": "side", "x [in]": "18", "y [in]": "9", "z [in]": "15", "held": "y z"}]
SIZE = {key: TUBES[0][key] for key in ("od [in]", "wall [in]", "material", "weld_zone [in]")}
LADEN_TUBES = [{**TUBES[0], "end_a [in-lbf/rad]": "80000", "bow [in]": "0.05", "bow_shape": "kink", "bow_clock": "200", "gap [in]": "0.004"},
               {**TUBES[1], "end_b": "pinned", "bow [in]": "0.03", "bow_shape": "arc", "bow_clock": "300", "miss_a [in]": "0.1", "miss_a_clock": "70"},
               {"tube": "post", "from": "wall A", "to": "wall B", **SIZE},
               {"tube": "strut", "from": "side", "to": "end", **SIZE, "miss_b [in]": "0.05", "miss_b_clock": "10", "dressed [in]": "0.004"}]
LADEN_LOADS = [{"run": "all", "joint": "end", "force_z [lbf]": "-700", "force_y [lbf]": "80", "moment_x [in-lbf]": "300", "moment_z [in-lbf]": "-90"},
               {"run": "all", "tube": "brace", "force_x [lbf]": "40", "force_z [lbf]": "-60", "at [in]": "11", "spread_y [lbf/in]": "2"},
               {"run": "all", "tube": "post", "force_y [lbf]": "25"},
               {"run": "all", "vertical_g": "3", "forward_g": "-1", "left_g": "0.5"}]


class ExplainFrame(FrameTest):
    def explain(self, folder, tube, run, *words):
        return self.run_program("explain", folder, tube, run, *words)

    told = {} # the same answers serve several tests

    def steps(self, folder, tube, run, *words):
        key = folder, tube, run, *words
        if key not in self.told:
            answer = self.explain(folder, tube, run, "--format", "csv", *words)
            self.assertIn(answer.status, (0, 1), answer.err)
            self.told[key] = answer.rows
        return self.told[key]

    def every(self):
        self.frame(LADEN_JOINTS, LADEN_TUBES, LADEN_LOADS)
        cases = self.installed.source / "cases"
        return [(cases / "frame", *words) for words in FRAME] + [(cases / "portal", *words) for words in PORTAL] + [
            ("frame", row["tube"], "all") for row in LADEN_TUBES]

    def test_every_line_can_be_done_again(self):
        for folder, tube, name in self.every():
            for units in "us", "si":
                done = 0
                for row in self.steps(folder, tube, name, "--units", units):
                    if NOT_BY_HAND.search(row["numbers"]) or row["result"] == "":
                        continue
                    numbers = row["numbers"].removeprefix("'")
                    got, want = worked_out(numbers), float(row["result"])
                    # A difference keeps the digits of what it is taken of.
                    size = max([abs(want), 1e-3, *(abs(float(word)) for word in re.findall(r"\d+\.?\d*(?:e[+-]?\d+)?", numbers)
                                                   if row["step"].startswith(("what is left", "loads", "supports", "moment", "change of", "twist", "couple", "force of joint")))])
                    self.assertTrue(got == want or abs(got - want) <= 1e-6 * size, (tube, row, got))
                    done += 1
                self.assertGreater(done, 70)

    def test_the_frame_is_in_balance(self):
        for folder, tube, name in self.every():
            rows = {row["step"]: float(row["result"]) for row in self.steps(folder, tube, name)}
            for kind, axes in ("loads", ("forward", "to the left", "upward")), ("moment of the loads", ("about x", "about y", "about z")):
                largest = max(abs(rows[f"{kind} {axis}"]) for axis in axes) + 1
                for axis in axes:
                    self.assertLess(abs(rows[f"what is left {axis}"]), 1e-8 * largest, (tube, name, axis))

    # step: the column of check; the first row of that step, or the last
    SAME = {"column load": "column_load [lbf]", "yield factor": "yield_factor", "interaction factor": "interaction_factor",
            "column factor": "column_factor", "margin": "margin", "end of the path of states": "path_end",
            "moment at end A": "moment_a [in-lbf]", "moment at end B": "moment_b [in-lbf]", "length, joint to joint": "length [in]"}
    AT_1 = {"axial force, push positive": "axial [lbf]", "torque": "torque [in-lbf]",
            "equivalent stress of the fibre with the larger utilisation": "peak_stress [psi]",
            "utilisation at this load factor; 1 is the limit": "stress_use"}

    def test_its_numbers_are_those_of_check(self):
        seen = set()
        for folder, tube, name in self.every():
            if folder not in seen:
                checked = {(row["tube"], row["run"]): row for row in self.check(folder).rows}
                joints = {(row["joint"], row["run"]): row for row in self.check(folder, "--of", "joints").rows}
                seen.add(folder)
            row, first = checked[tube, name], {}
            for step in self.steps(folder, tube, name):
                first.setdefault(step["step"], step["result"])
                first.setdefault((step["part"], step["step"]), step["result"])
            for step, column in {**self.SAME, **self.AT_1}.items():
                got, want = float(first[step]), float(row[column])
                self.assertTrue(got == want or abs(got - want) <= 2e-8 * max(abs(want), 1e-2), (tube, name, step, got, want))
            for end, joint in ("A", row["from"]), ("B", row["to"]):
                moved = joints[joint, name]
                for step, column in (("moves forward", "move_x [in]"), ("moves upward", "move_z [in]"), ("turns about y", "turn_y [rad]")):
                    # Bows of unknown clock: on the side of this tube here, in the table of the joints on that of the worst tube.
                    delta = 1e-9 if "portal" in str(folder) or folder == "frame" or tube == "rail UL 1" else 1e-3
                    self.assertAlmostEqual(float(first[f"Joint {end}", step]), float(moved[column]), delta=delta, msg=(tube, name, step))

    def test_a_limit_is_reached_where_it_is_told(self):
        for folder, tube, name in self.every():
            rows, reached = self.steps(folder, tube, name), 0
            factors = {row["step"]: float(row["result"]) for row in rows if row["step"].endswith(" factor")}
            end = [float(row["result"]) for row in rows if row["step"].startswith("end of the path")][-1]
            uses = [float(row["result"]) for row in rows if row["step"].startswith("utilisation at this load factor")]
            for use in uses[1:]:
                self.assertAlmostEqual(use, 1, delta=1e-6, msg=(tube, name))
                reached += 1
            self.assertEqual(reached, sum(factors[kind] < end * (1 - 3e-7)
                                          for kind in ("yield factor", "interaction factor")), (tube, name, factors))

    def test_the_force_of_the_only_tube_at_a_support_is_its_reaction(self):
        folder = self.installed.source / "cases/portal"
        joint = next(row for row in self.check(folder, "--of", "joints").rows if (row["joint"], row["run"]) == ("foot A", "sway"))
        rows = {row["step"]: float(row["result"]) for row in self.steps(folder, "column A", "sway")}
        # The column stands upright: along it is +z, its clock 0 is +x, and a couple toward that turns about z x x = +y.
        for step, column in (("force of joint A on the tube, up", "react_x [lbf]"), ("force of joint A along the tube", "react_z [lbf]"),
                             ("couple of joint A on the tube, up", "react_my [in-lbf]")):
            self.assertAlmostEqual(rows[step], float(joint[column]), delta=1e-6 * abs(float(joint[column])) + 1e-9)

    def test_the_text_has_the_verdict_and_every_step(self):
        folder = self.installed.source / "cases/frame"
        run = self.explain(folder, "rail UL 1", "pitch")
        self.assertEqual(run.status, 1)
        said = joined(run.out)
        for words in "margin -2.1 %", "Taken at its worst: bow toward 8°", "joint A is 'B UL', joint B is '1 UL'":
            self.assertIn(words, said)
        for row in self.steps(folder, "rail UL 1", "pitch"):
            self.assertIn(f'{row["step"]}: {row["formula"]} [{row["source"]}]', said)
        self.assertTrue(all(len(line) <= 80 for line in run.out.splitlines()))
        self.assertEqual(self.explain(folder, "rail UL 1", "push").status, 0)

    def test_the_page_draws_the_tube_and_has_its_steps(self):
        run = self.explain(self.installed.source / "cases/frame", "rail UL 1", "pitch", "--report", "page.html")
        self.assertEqual(run.status, 1, run.err)
        page = self.read("page.html")
        xml.fromstring(page)
        self.assertIn("At an angle", page)
        self.assertNotIn("From above", page)
        self.assertEqual(page.count('class="tube-short" data-tube="rail UL 1"'), 1)
        self.assertEqual(page.count('<td class="formula">'), len(self.steps(self.installed.source / "cases/frame", "rail UL 1", "pitch")))

    def test_a_frame_without_a_state_has_a_working(self):
        self.frame(loads=[{"run": "down", "joint": "end", "force_z [lbf]": "-900000"}])
        run = self.explain("frame", "brace", "down", "--format", "csv")
        self.assertEqual(run.status, 1, run.err)
        self.assertIn("there is no state", run.out)
        self.assertLess(float(next(row["result"] for row in run.rows if row["step"] == "margin")), 0)

    def test_what_is_missing_or_unknown_is_said(self):
        self.frame()
        self.cases({"case": "rail"})
        for words, message in (
                (["frame"], "explain: 'frame' is a folder: name one of its tubes behind it, and behind that one of its runs, as check lists them; see "
                            "'railbow help explain'"),
                (["frame", "beam"], "explain: 'frame' is a folder: name one of its tubes behind it, and behind that one of its runs, as check lists them; see "
                                    "'railbow help explain'"),
                (["frame", "bream", "down"], "frame/tubes.csv: tube: there is no 'bream'; did you mean 'beam'?"),
                (["frame", "beam", "dawn"], "frame/loads.csv: run: there is no 'dawn'; did you mean 'down'?"),
                (["frame", "beam", "something else"], "frame/loads.csv: run: there is no 'something else'; the frame has 'down'"),
                (["frame", "beam", "down", "--case", "x"], "explain: --case and --part pick load cases; of a frame one tube is explained, the one "
                                                           "named behind the folder"),
                (["cases.csv", "rail", "--report", "page.html"], "explain: --report is for a tube of a frame; of load cases, check writes the page, "
                                                                 "with the working of each")):
            run = self.run_program("explain", *words)
            self.assertRun(run, 2, [message], "")


run_tests()
