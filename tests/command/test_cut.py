"""cut: how the faces part if a tube of a frame is cut, what the joints do, and what was locked in by the readings."""

import csv
import math
import re
import xml.etree.ElementTree as xml

from frame import TUBE, TUBES, FrameTest, changed
from page import NOT_A_NUMBER
from program import in_si, joined, name_and_unit, run_tests

CUT_COLUMNS = "tube,at [in],moved [in],moved_clock [deg],turned [deg],turned_clock [deg],opened [in]"
JOINT_COLUMNS = "joint,move_x [in],move_y [in],move_z [in],turn_x [rad],turn_y [rad],turn_z [rad]"
LOCKED_COLUMNS = ("tube,at [in],fit_axial [lbf],shear [lbf],shear_clock [deg],moment_at_cut [in-lbf],moment_clock [deg],moment_a [in-lbf],"
                  "moment_b [in-lbf],fit_stress [psi],yield_use,basis,miss_a [in],miss_a_clock [deg],miss_b [in],miss_b_clock [deg],gap [in]")
FORCED = changed(TUBES, 0, cells={"miss_a [in]": "0.25", "miss_a_clock": "30", "gap [in]": "0.02"})
PLACE = "--tube", "beam", "--at", "12in"
CLOSED = "cut: the piece with joint 'end' comes off, and nothing holds it"


class Cut(FrameTest):
    def cut(self, *words, folder="frame"):
        return self.run_program("cut", folder, *words)

    def assertNear(self, got, want, relative, absolute=0):
        self.assertLessEqual(abs(float(got) - want), relative * abs(want) + absolute, (got, want))

    def refusal(self, message, *words):
        self.assertRun(self.cut(*words), 2, [message], "")

    def demo(self, *words):
        run = self.run_program("cut", self.installed.source / "cases" / "frame", "--tube", "rail UL 2", "--at", "12in", *words)
        self.assertEqual((run.status, run.err), (0, ""))
        return run


class Faces(Cut):
    def test_one_forced_rail_springs_back_to_its_socket(self):
        # nothing else of the demo is forced: with the rail cut every joint is where it was drawn, and the face on the A side as
        # far from the tube's line as its socket points there
        row = self.demo().rows[0]
        length = math.dist((26, 11, 22), (50, 9.5, 19))
        self.assertNear(row["moved [in]"], 0.375 * 12 / length, 1e-9)
        self.assertNear(row["moved_clock [deg]"], 180, 1e-9)
        self.assertNear(row["turned [deg]"], math.degrees(0.375 / length), 1e-9)
        self.assertEqual(float(row["opened [in]"]), 0)

    def test_the_gap_opens(self):
        self.frame(tubes=FORCED)
        row = self.cut(*PLACE).rows[0]
        self.assertNear(row["opened [in]"], 0.02, 1e-9)
        self.assertNear(row["moved_clock [deg]"], 210, 1e-9)

    def test_the_columns(self):
        self.frame(tubes=FORCED)
        for words, columns in ((), CUT_COLUMNS), (("--of", "joints"), JOINT_COLUMNS):
            self.assertEqual(self.cut(*PLACE, *words).out.splitlines()[0], columns)
            self.assertEqual(self.cut(*PLACE, *words, "--units", "si").out.splitlines()[0], in_si(columns))
        answer = self.cut(*PLACE, "--format", "json").json
        for name, columns in ("cuts", CUT_COLUMNS), ("joints", JOINT_COLUMNS):
            self.assertEqual(list(answer[name]["rows"][0]), [name_and_unit(column)[0] for column in columns.split(",")])

    def test_a_cut_gives_back_what_forcing_has_moved(self):
        demo = self.installed.source / "cases" / "frame"
        lines = [line for line in (demo / "tubes.csv").read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
        tubes = [{**row, "bow [in]": "", "bow_clock": ""} for row in csv.DictReader(lines)]  # check turns bows to their worst side
        self.frame((demo / "joints.csv").read_text(encoding="utf-8"), tubes, (demo / "loads.csv").read_text(encoding="utf-8"))
        moved = {row["joint"]: row for row in self.cut("--tube", "rail UL 2", "--at", "12in", "--of", "joints").rows}
        for row in self.check("frame", "--of", "joints").rows[:20]:
            for axis in "xyz":
                self.assertNear(moved[row["joint"]][f"move_{axis} [in]"], -float(row[f"locked_{axis} [in]"]), 1e-9, 1e-12)

    def test_the_weight_of_a_run(self):
        # nothing is forced: a cantilever of steel, 1 g, on a joint that is held
        joints = [{"joint": name, "x [in]": x, "y [in]": "0", "z [in]": "0", "held": "fixed"} for name, x in (("A", "0"), ("B", "40"))]
        self.frame(joints=joints, tubes=[{"tube": "bar", "from": "A", "to": "B", **TUBE}], loads=[{"run": "rest", "vertical_g": "1"}])
        row = self.cut("--tube", "bar", "--at", "30in", "--run", "rest").rows[0]
        area, inertia = (math.pi / 4 * (1.25**2 - 1.134**2), math.pi / 64 * (1.25**4 - 1.134**4))
        sag = [0.283 * area * x**4 / (8 * 29e6 * inertia) for x in (30, 10)]
        self.assertNear(row["moved [in]"], sag[0] - sag[1], 1e-6)  # B's face hangs higher
        self.assertEqual(float(row["moved_clock [deg]"]), 0)

    def test_pieces_that_come_off(self):
        self.frame(tubes=FORCED)
        both = *PLACE, "--tube", "brace", "--at", "20in"
        rows = {row["joint"]: row for row in self.cut(*both, "--of", "joints").rows}
        self.assertEqual(rows["end"]["move_x [in]"], "")  # no tube is left there
        self.assertEqual(float(rows["wall A"]["move_x [in]"]), 0)
        self.assertIn("A piece comes off", joined(self.cut(*both, "--format", "text").out))
        self.refusal(f"{CLOSED} under run 'down': leave --run out, or add what holds it to frame/joints.csv", *both, "--run", "down")
        self.assertNotIn("A piece comes off", joined(self.cut(*PLACE, "--format", "text").out))


class Readings(Cut):
    def test_the_readings_of_a_cut_bring_back_its_forces(self):
        self.frame(tubes=FORCED)
        faces, tube = self.cut(*PLACE).rows[0], self.tubes()["beam", "down"]
        words = []
        for name, unit in ("moved", "in"), ("moved_clock", ""), ("turned", ""), ("turned_clock", ""), ("opened", "in"):
            words += [f"--{name}", next(value for column, value in faces.items() if column.split(" ")[0] == name) + unit]
        self.frame()  # the tube's own misses do not count
        run = self.cut(*PLACE, *words)
        self.assertEqual(run.out.splitlines()[0], LOCKED_COLUMNS)
        self.assertEqual(self.cut(*PLACE, *words, "--units", "si").out.splitlines()[0], in_si(LOCKED_COLUMNS))
        row = run.rows[0]
        self.assertNear(row["fit_axial [lbf]"], float(tube["fit_axial [lbf]"]), 1e-7)
        self.assertNear(row["fit_stress [psi]"], float(tube["fit_stress [psi]"]), 1e-7)
        self.assertNear(max(float(row["moment_a [in-lbf]"]), float(row["moment_b [in-lbf]"])), float(tube["fit_moment [in-lbf]"]), 1e-7)
        self.assertNear(row["miss_a [in]"], 0.25, 1e-7)
        self.assertNear(row["miss_a_clock [deg]"], 30, 1e-7)
        self.assertNear(row["gap [in]"], 0.02, 1e-7)
        text = joined(self.cut(*PLACE, *words, "--format", "text").out)
        self.assertIn("was locked in", text)
        self.assertIn("0.250 in (1/4) toward clock 30 from A's socket", text)

    def test_without_the_angle_it_is_the_least(self):
        self.frame()
        words = "--moved", "0.1in", "--moved_clock", "20", "--opened", "0.01in"
        row = self.cut(*PLACE, *words).rows[0]
        self.assertEqual(row["basis"], "least energy")
        self.assertLess(float(row["moment_at_cut [in-lbf]"]), 1e-6 * float(row["moment_a [in-lbf]"]))
        self.assertIn("this one has the least energy", joined(self.cut(*PLACE, *words, "--format", "text").out))
        self.assertEqual(self.cut(*PLACE, *words, "--turned", "0").rows[0]["basis"], "turn read")

    def test_what_is_missing(self):
        self.frame()
        size = "--moved", "0.1in", "--turned", "1", "--opened", "0"
        self.refusal("cut: the readings of a cut are --moved, --opened and if you can --turned: --opened is missing", *PLACE, "--moved", "1in")
        self.refusal("cut: --moved needs its clock: --moved_clock", *PLACE, *size)
        clocks = "--moved_clock", "0", "--turned_clock", "90"
        self.refusal("cut: --turned_clock is the clock of --turned, which is missing", *PLACE, *size[:2], *size[4:], *clocks)
        self.refusal("cut: readings are those of one cut: name one tube", *PLACE, "--tube", "brace", "--at", "2in", *size, *clocks)
        self.refusal("cut: readings are taken without run loads: leave --run out", *PLACE, *size, *clocks, "--run", "down")
        self.refusal("cut: with readings there is one table: leave --of out", *PLACE, *size, *clocks, "--of", "joints")
        self.refusal("cut: --turned must be at least 0; reverse its clock instead", *PLACE, *size[:2], "--turned=-1", *size[4:], *clocks)
        self.refusal("cut: --opened: '0.1' names no unit, and no column gives it one: write it behind the number, as in 0.1in", *PLACE, *size[:4], "--opened", "0.1", *clocks)
        self.refusal("cut: the readings ask for a miss with a slope of more than 10 deg: outside the model's range", *PLACE, "--moved", "9in",
                     *size[2:], *clocks)


class Messages(Cut):
    def test_what_cannot_be_cut(self):
        self.frame()
        self.refusal("cut: frame/tubes.csv has no tube 'beem'; did you mean 'beam'?", "--tube", "beem", "--at", "1in")
        self.refusal("cut: --at: tube 'beam' is 30 in (762 mm) long, and the cut must lie between its ends, not at 30 in", "--tube", "beam",
                     "--at", "762mm")
        self.refusal("cut: --at: '12' names no unit, and no column gives it one: write it behind the number, as in 12in", "--tube", "beam", "--at", "12")
        self.refusal("cut: --at: 'far' is not a length with its unit, as in 12in", "--tube", "beam", "--at", "far")
        self.refusal("cut: tube 'beam' is cut twice: the piece between the cuts would drop out", *PLACE, "--tube", "beam", "--at", "20in")
        self.refusal("cut: frame/loads.csv has no run 'dawn'; did you mean 'down'?", *PLACE, "--run", "dawn")
        pairs = "cut: name each tube with --tube and the place of its cut with --at: --tube is given %d times and --at %d times"
        self.refusal(pairs % (0, 0))
        self.refusal(pairs % (2, 1), *PLACE, "--tube", "brace")
        self.assertRun(self.cut(*PLACE, folder="frame/tubes.csv"), 2, ["cut: 'frame/tubes.csv' is not the folder of a frame"], "")

    def test_ends_that_hold_no_moment(self):
        self.frame(tubes=changed(TUBES, 0, cells={"end_b": "pinned"}))
        self.refusal("cut: tube 'beam' is pinned at joint 'end': the stub there is not held, so its face has no place", *PLACE)
        self.frame(tubes=changed(TUBES, 1, cells={"end_b": "pinned"}))
        self.refusal("cut: no tube is left that keeps joint 'end' from turning: the stub of 'beam' there is not held", *PLACE)

    def test_what_is_left_is_a_mechanism(self):
        joints = [{"joint": name, "x [in]": x, "y [in]": "0", "z [in]": z, "held": held}
                  for name, x, z, held in (("foot", "0", "0", "x y z rx rz"), ("head", "0", "30", ""), ("wall", "40", "30", "fixed"))]
        self.frame(joints=joints, tubes=[{"tube": "post", "from": "foot", "to": "head", **TUBE},
                                         {"tube": "stay", "from": "head", "to": "wall", **TUBE}],
                   loads=[{"run": "push", "joint": "head", "force_x [lbf]": "1"}])
        self.refusal("frame/joints.csv:2: held: what is left of the frame is not held: joint 'foot' moves freely: turning about y",
                     "--tube", "stay", "--at", "9in")


class Looks(Cut):
    def test_text_is_no_wider_than_80(self):
        for words in (), ("--of", "joints"), ("--run", "at rest"), ("--tube", "rail UR 2", "--at", "12in"):
            for line in self.demo("--format", "text", *words).out.splitlines():
                self.assertLessEqual(len(line), 80)

    def test_text(self):
        text = joined(self.demo("--format", "text").out)
        self.assertIn("moves 0.186 in (3/16) toward clock 180, its stub turns 0.89 deg toward clock 180", text)
        self.assertIn("Of the joints '2 UL' moves most: 0.002 in", text)

    def test_names_that_would_steer_a_terminal(self):
        nasty, shown = "a\033[2Jb\u202ec", r"a\x1B[2Jb\u202Ec"
        self.frame(tubes=[{**FORCED[0], "tube": nasty}, FORCED[1]])
        words = "--tube", nasty, "--at", "12in"
        self.assertIn(shown, self.cut(*words, "--format", "text", "--report", "page.html").out)
        self.assertIn(shown, self.read("page.html"))
        self.refusal(f"cut: --at: tube '{shown}' is 30 in (762 mm) long, and the cut must lie between its ends, not at 40 in", *words[:3], "40in")

    def test_the_page(self):
        plain = self.demo()
        beside = self.demo("--report", "page.html", "--tube", "rail UR 2", "--at", "5in", "--title", "T")
        self.assertEqual(len(beside.rows), 2)
        page = xml.fromstring(self.read("page.html"))
        self.assertEqual((page.find("head/title").text, len(list(page.iter("svg")))), ("T", 2))
        self.assertNotRegex(self.read("page.html"), NOT_A_NUMBER)
        self.assertEqual([len(body) for body in page.iter("tbody")], [2, 20])
        scaled = re.findall(r"drawn at (\S+) times", self.read("page.html"))
        circles = list(next(page.iter("svg")).iter("circle"))
        off = float(circles[1].get("cy")) - float(circles[0].get("cy"))
        self.assertNear(off / float(circles[0].get("r")) * 0.625 / float(scaled[0]), float(plain.rows[0]["moved [in]"]), 1e-3)
        self.demo("--report", "page.html", "--moved", "0", "--turned", "0", "--opened", "0.01in")
        self.assertIn("was locked in", self.read("page.html"))


if __name__ == "__main__":
    run_tests()
