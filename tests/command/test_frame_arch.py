"""check --arch: a frame welded at the places told is where it was drawn while the run acts."""

import csv

from frame import ARCH_COLUMNS, FrameTest, JOINTS, LOADS, TUBES
from program import joined, run_tests

AXES = "xyz"


class Arch(FrameTest):
    def arch(self, folder, run, *words):
        answer = self.check(folder, "--arch", run, "--of", "arch", *words)
        self.assertIn(answer.status, (0, 1), answer.err)
        return answer

    def copied(self, folder):
        """A frame of the sources, as (joints, tubes, loads) of rows, written into the folder 'frame'."""
        tables = [self.rows_of((self.installed.source / "cases" / folder / name).read_text(encoding="utf-8"))
                  for name in ("joints.csv", "tubes.csv", "loads.csv")]
        self.frame(*tables)
        return tables

    @staticmethod
    def rows_of(table):
        return list(csv.DictReader(line for line in table.splitlines() if not line.startswith("#")))

    @staticmethod
    def welded(joints, answer):
        return [{**old, **{f"{axis} [in]": new[f"weld_{axis} [in]"] for axis in AXES}} for old, new in zip(joints, answer.rows, strict=True)]

    def test_the_frame_as_welded_comes_to_its_drawn_place(self):
        for folder, runs in ("frame", ("pitch", "push", "side gust")), ("portal", ("sway", "columns")):
            joints, tubes, loads = self.copied(folder)
            for run in runs:
                answer = self.arch("frame", run)
                self.assertEqual(answer.out.splitlines()[0], ARCH_COLUMNS)
                self.frame(self.welded(joints, answer), tubes, loads, folder="welded")
                moved = {row["joint"]: row for row in self.check("welded", "--of", "joints").rows if row["run"] == run}
                most = 0
                for drawn, place in zip(joints, answer.rows, strict=True):
                    self.assertEqual(drawn["joint"], place["joint"])
                    off = [float(place[f"weld_{axis} [in]"]) + float(moved[drawn["joint"]][f"move_{axis} [in]"]) - float(drawn[f"{axis} [in]"])
                           for axis in AXES]
                    self.assertLess(sum(part * part for part in off) ** 0.5, 0.001, (folder, run, drawn["joint"]))
                    for axis in AXES:
                        rise = float(place[f"weld_{axis} [in]"]) - float(drawn[f"{axis} [in]"])
                        self.assertAlmostEqual(rise, float(place[f"rise_{axis} [in]"]), delta=1e-7)
                        most = max(most, abs(rise))
                self.assertGreater(most, 0.001, (folder, run))

    def test_a_cantilever_is_welded_as_high_as_it_sags(self):
        """Closed form: an upright load at the end of a level tube moves it by F L^3 / (3 E I)."""
        self.frame([JOINTS[1], JOINTS[2]], [TUBES[0]], [{"run": "down", "joint": "end", "force_z [lbf]": "-10"}])
        row = next(row for row in self.arch("frame", "down").rows if row["joint"] == "end")
        inertia = 3.14159265358979 / 64 * (1.25 ** 4 - 1.134 ** 4)
        self.assertAlmostEqual(float(row["rise_z [in]"]), 10 * 30 ** 3 / (3 * 29e6 * inertia), delta=1e-4)
        self.assertEqual(float(row["rise_y [in]"]), 0)

    def test_a_symmetric_frame_has_a_symmetric_answer(self):
        joints = [{"joint": "left", "x [in]": "0", "y [in]": "20", "z [in]": "0", "held": "fixed"},
                  {"joint": "right", "x [in]": "0", "y [in]": "-20", "z [in]": "0", "held": "fixed"},
                  {"joint": "top left", "x [in]": "3", "y [in]": "8", "z [in]": "15", "held": ""},
                  {"joint": "top right", "x [in]": "3", "y [in]": "-8", "z [in]": "15", "held": ""}]
        size = {key: TUBES[0][key] for key in ("od [in]", "wall [in]", "material")}
        tubes = [{"tube": "l", "from": "left", "to": "top left", **size}, {"tube": "r", "from": "right", "to": "top right", **size},
                 {"tube": "t", "from": "top left", "to": "top right", **size}]
        loads = [{"run": "down", "joint": end, "force_z [lbf]": "-900", "force_x [lbf]": "50"} for end in ("top left", "top right")]
        self.frame(joints, tubes, loads)
        rows = {row["joint"]: row for row in self.arch("frame", "down").rows}
        for axis, sign in ("x", 1), ("y", -1), ("z", 1):
            left, right = (float(rows[name][f"rise_{axis} [in]"]) for name in ("top left", "top right"))
            self.assertGreater(abs(left), 1e-4)
            self.assertAlmostEqual(left, sign * right, delta=1e-9)

    def test_units_json_and_text(self):
        self.copied("portal")
        us, si = self.arch("frame", "sway").rows, self.arch("frame", "sway", "--units", "si").rows
        for a, b in zip(us, si, strict=True):
            self.assertAlmostEqual(25.4 * float(a["weld_z [in]"]), float(b["weld_z [mm]"]), delta=1e-6)
        answer = self.check("frame", "--arch", "sway", "--format", "json").json
        self.assertEqual([row["joint"] for row in answer["arch"]["rows"]], [row["joint"] for row in us])
        self.assertAlmostEqual(answer["arch"]["rows"][2]["rise_x"], float(us[2]["rise_x [in]"]), delta=1e-9)
        self.assertNotIn("arch", self.check("frame", "--format", "json").json)
        run = self.check("frame", "--arch", "sway", "--format", "text")
        said = joined(run.out)
        self.assertIn("Arch: so that run 'sway' at load factor 1 brings every joint to its drawn place, weld 'corner A' farthest from it, by 0.015 in.",
                      said)
        self.assertTrue(all(len(line) <= 80 for line in run.out.splitlines()))
        told = next(line for line in run.out.splitlines() if line.startswith("corner B"))
        self.assertEqual(told.split()[2:], ["29.985", "0.000", "30.005", "-0.015", "0.000", "0.005"])
        self.assertFalse([line for line in run.out.splitlines() if line.startswith("foot")])

    def test_nothing_to_correct_is_said(self):
        self.frame(loads=[{"run": "light", "joint": "end", "force_z [lbf]": "-1"}])
        said = joined(self.check("frame", "--arch", "light", "--format", "text").out)
        self.assertIn("Arch: run 'light' leaves every joint within 0.001 in of its drawn place", said)

    def test_what_cannot_be_is_refused(self):
        self.frame(loads=[*LOADS, {"run": "crush", "joint": "end", "force_z [lbf]": "-900000"}])
        self.cases({"case": "rail"})
        for words, message in (
                (["frame", "--arch", "crush"], "frame/loads.csv:3: --arch: under run 'crush' the frame has no state at load factor 1, because it "
                                               "folds or buckles first: it has no arch"),
                (["frame", "--arch", "dawn"], "frame/loads.csv: run: there is no 'dawn'; did you mean 'down'?"),
                (["frame", "--of", "arch"], "check: --of arch needs --arch RUN: the run under which the joints stand where they were drawn"),
                (["cases.csv", "--arch", "down"], "check: --arch is for a frame: name its folder")):
            self.assertRun(self.check(*words), 2, [message], "")

    def test_the_page_has_every_joint(self):
        self.check(self.installed.source / "cases" / "portal", "--arch", "sway", "--report", "page.html")
        page = (self.folder / "page.html").read_text(encoding="utf-8")
        table = page[page.index("Where to weld each joint"):]
        rows = self.check(self.installed.source / "cases" / "portal", "--arch", "sway", "--of", "arch").rows
        for row in rows:
            self.assertIn(row["joint"], table)

    def test_a_clock_that_changes_its_meaning_is_named(self):
        """A post that is upright as drawn leans more than 0.1 deg as welded."""
        joints = [{"joint": "foot", "x [in]": "0", "y [in]": "0", "z [in]": "0", "held": "fixed"},
                  {"joint": "top", "x [in]": "0", "y [in]": "0", "z [in]": "30", "held": ""}]
        tube = {**TUBES[0], "from": "foot", "to": "top", "bow [in]": "0.03", "bow_clock": "90"}
        self.frame(joints, [tube], [{"run": "side", "joint": "top", "force_x [lbf]": "-30"}])
        run = self.check("frame", "--arch", "side", "--of", "arch")
        self.assertIn("frame/tubes.csv:2: --arch: tube 'beam' is within 0.1 deg of vertical only as drawn or only as welded", run.err)


run_tests()
