"""cases on a frame: its tubes as they are read, and its page; --view against the definition of the projection."""

import csv
import io
import itertools
import json
import math
import re
import shutil
import xml.etree.ElementTree as xml

from frame import JOINTS, LOADS, TUBES, FrameTest, changed
from page import NOT_A_NUMBER
from program import SI, joined, name_and_unit, run_tests

COLUMNS = """tube part from to od wall material end_a end_b column_curve fixity bow bow_clock bow_shape bow_at miss_a miss_a_clock
    miss_b miss_b_clock gap weld_zone dressed note length""".split()
BRACE = math.hypot(30, 24)  # in, of the frame of frame.py
BARE = [{**tube, "weld_zone [in]": ""} for tube in TUBES]
SHORT_TUBE = [*BARE, {**BARE[0], "tube": "stub", "from": "end", "to": "tip"}]
TIP = [*JOINTS, {"joint": "tip", "x [in]": "30", "y [in]": "1", "z [in]": "24"}]


class CasesTest(FrameTest):
    def cases(self, *words, folder="frame"):
        return self.run_program("cases", folder, *words)

    def page(self, *words, command=("cases", "frame"), status=(0,)):
        run = self.run_program(*command, "--report", "page.html", "-o", "answer", *words)
        self.assertIn(run.status, status, run.err)
        return xml.fromstring(self.read("page.html").replace("<!DOCTYPE html>\n", ""))


class Table(CasesTest):
    def test_every_column_with_its_default(self):
        self.frame(joints=TIP, tubes=SHORT_TUBE)
        run = self.cases("--format", "csv")
        self.assertRun(run, 0)
        self.assertEqual([name_and_unit(column)[0] for column in next(csv.reader(io.StringIO(run.out)))], COLUMNS)
        rows = {row["tube"]: {name_and_unit(column)[0]: cell for column, cell in row.items()} for row in run.rows}
        self.assertEqual(list(rows), ["beam", "brace", "stub"])
        expected = {"part": "beam", "from": "wall B", "to": "end", "od": "1.25", "wall": "0.058", "material": "4130", "end_a": "rigid", "end_b": "rigid",
                    "fixity": "1", "bow": "0", "bow_clock": "any", "bow_shape": "sine", "bow_at": "15", "miss_a": "0", "miss_a_clock": "",
                    "miss_b": "0", "miss_b_clock": "", "gap": "0", "weld_zone": "1", "dressed": "0", "note": "", "length": "30"}
        self.assertEqual({column: rows["beam"][column] for column in expected}, expected)
        self.assertAlmostEqual(float(rows["brace"]["length"]), BRACE, delta=1e-6)
        self.assertAlmostEqual(float(rows["brace"]["bow_at"]), BRACE / 2, delta=1e-6)
        self.assertEqual([rows["stub"][column] for column in ("length", "weld_zone", "bow_at")], ["1", "0.5", "0.5"])  # at most half of it
        with open(self.installed.materials, encoding="utf-8") as file:
            curve = next(row["column_curve"] for row in csv.DictReader(line for line in file if not line.startswith("#")) if row["material"] == "4130")
        self.assertEqual(rows["beam"]["column_curve"], curve)

    def test_what_the_table_gives_stays(self):
        given = {"part": "rails", "end_a [in-lbf/rad]": "pinned", "end_b [in-lbf/rad]": "50000", "column_curve": "euler", "fixity": "1.5", "bow [in]": "0.02",
                 "bow_clock": "90", "bow_shape": "kink", "bow_at [in]": "7", "miss_b [in]": "1/8", "miss_b_clock": "30", "gap [in]": "-0.01",
                 "weld_zone [in]": "0.75", "dressed [in]": "0.005", "note": "a, \"b\""}
        self.frame(tubes=changed(TUBES, 0, cells=given))
        row = {name_and_unit(column)[0]: cell for column, cell in self.cases().rows[0].items()}
        for column, cell in {**{name_and_unit(name)[0]: cell for name, cell in given.items()}, "miss_b": "0.125"}.items():
            self.assertEqual(row[column], cell, column)

    def test_in_si(self):
        self.frame()
        us, si = self.cases().rows, self.cases("--units", "si").rows
        for before, after in zip(us, si, strict=True):
            for column, cell in before.items():
                name, unit = name_and_unit(column)
                if unit == "in":
                    self.assertAlmostEqual(float(after[f"{name} [{SI[unit]}]"]), 25.4 * float(cell), delta=1e-6 * max(1, float(cell)), msg=name)

    def test_without_its_length_the_csv_is_the_table_again(self):
        for folder in "frame", "portal":
            shutil.copytree(self.installed.source / "cases" / folder, self.folder / folder)
            rows = self.cases("--format", "csv", folder=str(self.installed.source / "cases" / folder)).rows
            written = io.StringIO()
            writer = csv.DictWriter(written, [column for column in rows[0] if not column.startswith("length")], extrasaction="ignore", lineterminator="\n")
            writer.writeheader()
            writer.writerows(rows)
            self.file(f"{folder}/tubes.csv", written.getvalue())
            if folder == "portal":
                mine, given = (self.check(name).rows for name in (folder, str(self.installed.source / "cases" / folder)))
                for a, b in zip(mine, given, strict=True):
                    self.assertEqual((a["tube"], a["verdict"]), (b["tube"], b["verdict"]))
                    self.assertAlmostEqual(float(a["margin"]), float(b["margin"]), delta=1e-6)
            self.assertEqual(self.cases("--format", "csv", folder=folder).rows, rows)

    def test_json_and_text(self):
        self.frame()
        answer = json.loads(self.cases("--format", "json").out)
        self.assertEqual([(row["tube"], row["line"], row["length"]) for row in answer["rows"]], [("beam", 2, 30), ("brace", 3, answer["rows"][1]["length"])])
        self.assertAlmostEqual(answer["rows"][1]["length"], BRACE, delta=1e-12)
        self.assertEqual((answer["units"]["length"], answer["refused"], answer["rows"][0]["miss_a_clock"]), ("in", 0, None))
        out = self.cases("--format", "text").out
        self.assertRegex(out, r"(?m)^  length +38\.41874542 in$")
        for name in COLUMNS:
            self.assertEqual(len(re.findall(rf"(?m)^  {name}(?: |$)", out)), 2, name)

    def test_picked(self):
        self.frame(tubes=changed(TUBES, 0, part="rails"))
        self.assertEqual([row["tube"] for row in self.cases("--case", "br*").rows], ["brace"])
        self.assertEqual([row["tube"] for row in self.cases("--part", "rails").rows], ["beam"])
        self.assertRun(self.cases("--case", "rail"), 2, "--case: no tube meets 'rail'")

    def test_a_frame_that_nothing_holds_is_listed(self):
        self.frame(joints=[{**joint, "held": ""} for joint in JOINTS])
        self.assertRun(self.cases("--format", "csv"), 0)

    def test_rows_with_errors(self):
        ways = {
            "frame/tubes.csv:2: wall: '": changed(TUBES, 0, cells={"wall [in]": "thick"}),
            "frame/tubes.csv:2: wall: must be above 0 and at most half of od": changed(TUBES, 0, cells={"wall [in]": "0.9"}),
            "frame/tubes.csv:2: to: 'ende' is not in joints.csv; did you mean 'end'?": changed(TUBES, 0, to="ende"),
            "frame/tubes.csv:2: material: '": changed(TUBES, 0, material="gold"),
            "frame/tubes.csv:2: ": changed(TUBES, 0, to="wall B"),
            "frame/tubes.csv:2: miss_a_clock": changed(TUBES, 0, cells={"miss_a [in]": "0.1"}),
        }
        for message, tubes in ways.items():
            with self.subTest(message=message):
                self.frame(tubes=tubes)
                run = self.cases("--format", "json")
                self.assertEqual(run.status, 2)
                self.assertIn(message, run.err)
                answer = json.loads(run.out)
                self.assertTrue(self.cases("--format", "text").out.startswith("NOT CHECKED: line 2 (reasons above)."))
                self.assertEqual(([row["tube"] for row in answer["rows"]], answer["refused"]), (["brace"], 1))
                page = self.page(status=(2,))
                self.assertEqual({line.get("data-tube") for line in page.iter("path") if line.get("data-tube")}, {"brace"})
                self.assertIn("One row could not be checked and is not on this page", joined("".join(page.itertext())))

    def test_a_name_that_stands_twice(self):
        self.frame(tubes=[*TUBES, TUBES[0]])
        run = self.cases("--format", "csv")
        self.assertRun(run, 2, "frame/tubes.csv:4: tube: 'beam' stands in line 2 already", run.out)
        self.assertEqual([row["tube"] for row in run.rows], ["beam", "brace"])

    def test_errors_elsewhere(self):
        self.frame(loads=[{**LOADS[0], "joint": "nowhere"}])
        run = self.cases("--format", "csv")
        self.assertEqual((run.status, len(run.rows)), (2, 2))
        self.assertIn("'nowhere' is not in joints.csv", run.err)
        (self.folder / "frame/loads.csv").unlink()
        run = self.cases("--format", "csv")
        self.assertEqual((run.status, len(run.rows)), (2, 2))
        self.assertIn("has no loads.csv", run.err)
        (self.folder / "frame/joints.csv").unlink()
        run = self.cases("--format", "csv", "-o", "answer.csv")
        self.assertEqual(run.status, 2)
        self.assertNotIn("answer.csv", self.listing())

    def test_what_is_for_load_cases(self):
        self.frame()
        self.assertRun(self.cases("--set", "wall=1"), 2, "--set is for files of load cases: of a frame change the cell in its table")
        self.assertRun(self.cases("frame"), 2, "cases: 'frame' is a folder, and a frame is listed alone: name no other file or folder with it")


class Views(CasesTest):
    """The projection: a turn of the frame by minus the azimuth about z, then by the elevation about x; then x and z are the paper."""

    POINTS = [{"joint": name, "x [in]": str(x), "y [in]": str(y), "z [in]": str(z), "held": "fixed" if name == "a" else ""}
              for name, (x, y, z) in {"a": (0, 0, 0), "b": (40, 3, -2), "c": (5, 20, 1), "d": (-4, 2, 15), "e": (22, -11, 9)}.items()]
    PAIRS = list(itertools.combinations("abcde", 2))

    def points(self):
        self.frame(joints=self.POINTS, tubes=[{**TUBES[0], "tube": a + b, "from": a, "to": b} for a, b in self.PAIRS],
                   loads=[{"run": "down", "joint": "b", "force_z [lbf]": "-100"}])

    @staticmethod
    def turned(azimuth, elevation, point):
        """Right and up on the paper, and toward the viewer."""
        a, e = math.radians(azimuth), math.radians(elevation)
        x, y, z = point
        x, y = math.cos(a) * x + math.sin(a) * y, math.cos(a) * y - math.sin(a) * x
        return x, math.sin(e) * y + math.cos(e) * z, math.sin(e) * z - math.cos(e) * y

    @staticmethod
    def lines(page, view):
        """tube -> its ends on the paper, in the order in which they are drawn."""
        figure = next(figure for figure in page.iter("figure") if figure.get("data-view") == view)
        return {line.get("data-tube"): [tuple(map(float, at.split())) for at in line.get("d")[1:].split("L")]
                for line in figure.iter("path") if line.get("data-tube")}

    def place(self, name):
        joint = next(joint for joint in self.POINTS if joint["joint"] == name)
        return [float(joint[f"{axis} [in]"]) for axis in "xyz"]

    def assertProjected(self, lines, azimuth, elevation):
        """The paper is the projection, enlarged and moved."""
        self.assertEqual(len(lines), len(self.PAIRS))
        ends = {tube: [self.turned(azimuth, elevation, self.place(name)) for name in tube] for tube in lines}
        pairs = [(p, q) for tube, both in lines.items() for p, q in zip(both, ends[tube])]
        middle = [sum(values) / len(pairs) for values in zip(*((*p, *q[:2]) for p, q in pairs))]
        over = sum((p[0] - middle[0]) * (q[0] - middle[2]) - (p[1] - middle[1]) * (q[1] - middle[3]) for p, q in pairs)
        scale = over / sum((q[0] - middle[2]) ** 2 + (q[1] - middle[3]) ** 2 for _, q in pairs)
        self.assertGreater(scale, 0)
        for p, q in pairs:
            self.assertAlmostEqual(p[0], middle[0] + scale * (q[0] - middle[2]), delta=0.02)
            self.assertAlmostEqual(p[1], middle[1] - scale * (q[1] - middle[3]), delta=0.02)
        return scale

    def test_the_projection(self):
        self.points()
        scales = set()
        for azimuth, elevation in (30, 20), (-75, 10), (200, -40), (0, 0), (0, 90), (90, 0), (123.5, -90), (-360, 45), (90, 90):
            with self.subTest(azimuth=azimuth, elevation=elevation):
                page = self.page("--view", f"{azimuth},{elevation}")
                scales.add(round(self.assertProjected(self.lines(page, "turned"), azimuth, elevation), 2))
                self.assertIn(f"From azimuth {azimuth:g}°, elevation {elevation:g}°", [h.text for h in page.iter("h3")])
                for x, y in itertools.chain(*self.lines(page, "turned").values()):
                    self.assertTrue(0 <= x <= 360 and 0 <= y <= 360, (x, y))
        self.assertEqual(len(scales), 1)  # it does not change its size while it turns

    def test_side_top_and_front(self):
        self.points()
        page = self.page()
        self.assertEqual([figure.get("data-view") for figure in page.iter("figure")], ["side", "top", "front"])
        for view, direction in {"side": (0, 0), "top": (0, 90), "front": (90, 0)}.items():
            self.assertProjected(self.lines(page, view), *direction)

    def test_near_tubes_over_far_ones(self):
        self.points()
        for azimuth, elevation in (30, 20), (-75, 10), (200, -40), (0, 90):
            drawn = list(self.lines(self.page("--view", f"{azimuth},{elevation}"), "turned"))
            depths = [sum(self.turned(azimuth, elevation, self.place(name))[2] for name in tube) for tube in drawn]
            self.assertEqual(depths, sorted(depths), (azimuth, elevation))

    def test_units(self):
        self.points()
        plain = self.lines(self.page("--view", "30,20"), "turned")
        self.assertEqual(self.lines(self.page("--view", " 30 deg, 20deg"), "turned"), plain)
        self.assertEqual(self.lines(self.page("--view", f"{math.pi / 6!r}rad,20"), "turned"), plain)

    def test_bad_directions(self):
        self.frame()
        for value in "30", "30,20,10", "x,20", "30,", ",20", "30,91", "30,-90.1", "400,0", "nan,0", "30 20", "":
            run = self.cases("--report", "page.html", "--view", value)
            self.assertRun(run, 2, f"--view: '{value}' is not AZIMUTH,ELEVATION in degrees, as in 30,20: the azimuth from -360 to 360, "
                                   "the elevation from -90 to 90")
        self.assertRun(self.cases("--view", "30,20"), 2, "cases: --view stands on the page, but --report names none")
        self.file("one.csv", "case,od [in],wall [in],material,length [in]\na,1.25,0.058,4130,24\n")
        for command in "cases", "check":
            self.assertRun(self.run_program(command, "one.csv", "--report", "page.html", "--view", "30,20"), 2,
                           f"{command}: --view is for a frame: name its folder")

    def test_without_margins(self):
        self.points()
        page = self.page("--view", "30,20")
        lines = [line for line in page.iter("path") if line.get("data-tube")]
        self.assertEqual((len(lines), {line.get("class") for line in lines}), (4 * len(self.PAIRS), {"as-read"}))
        text = joined("".join(page.find("body").itertext()))
        self.assertNotRegex(text.split("What was read")[0], r"holds|SHORT|margin")
        self.assertIn("10 tubes and 5 joints, of which supports hold 1. Nothing is checked on this page.", text)
        self.assertIsNone(NOT_A_NUMBER.search(self.read("page.html")))

    def test_the_names_of_those_that_are_picked(self):
        self.points()
        page = self.page("--view", "30,20", "--case", "ab", "--case", "de")
        turned = next(figure for figure in page.iter("figure") if figure.get("data-view") == "turned")
        self.assertEqual({line.get("data-tube"): line.get("data-label") for line in turned.iter("path") if line.get("data-label")}, {"ab": "ab", "de": "de"})
        self.assertEqual(sorted(text.text for text in turned.iter("text")), ["ab", "de"])
        self.assertEqual(len(self.lines(page, "turned")), len(self.PAIRS))

    def test_a_frame_seen_end_on(self):
        self.frame(joints=[{"joint": name, "x [in]": "7", "y [in]": y, "z [in]": "9", "held": "fixed"} for name, y in (("wall B", "0"), ("end", "30"))],
                   tubes=[TUBES[0]])
        for direction in "0,0", "30,20":
            for command in ("cases", "frame"), ("check", "frame"):
                self.page("--view", direction, command=command, status=(0, 1))
                self.assertIsNone(NOT_A_NUMBER.search(self.read("page.html")))

    def test_names_are_text(self):
        name = "<b>&\"'</b>"
        self.frame(tubes=changed(TUBES, 0, tube=name))
        for command in ("cases", "frame"), ("check", "frame"):
            page = self.page("--view", "30,20", command=command, status=(0, 1))
            self.assertIn(name, {line.get("data-tube") for line in page.iter("path")})
            self.assertEqual(list(page.iter("b")), [])

    def test_the_views_of_an_answer(self):
        self.points()
        page = self.page("--view", "-20,35", command=("check", "frame"), status=(0, 1))
        self.assertEqual([figure.get("data-view") for figure in page.iter("figure") if figure.get("data-view")], ["side", "top", "front", "angle", "turned"])
        for view, direction in {"side": (0, 0), "top": (0, 90), "front": (90, 0), "turned": (-20, 35)}.items():
            self.assertProjected(self.lines(page, view), *direction)
        look = {view: {line.get("data-tube"): (line.get("class"), line.get("data-label"), line.findtext("title"))
                       for figure in page.iter("figure") if figure.get("data-view") == view for line in figure.iter("path") if line.get("data-tube")}
                for view in ("side", "turned")}
        self.assertEqual(look["side"], look["turned"])
        self.assertEqual(len([label for _, label, _ in look["side"].values() if label]), 6)  # those that have a card
        drawn = list(self.lines(page, "turned"))
        depths = [sum(self.turned(-20, 35, self.place(name))[2] for name in tube) for tube in drawn]
        self.assertEqual(depths, sorted(depths))

    def test_explain_has_it_too(self):
        self.points()
        page = self.page("--view", "-20,35", command=("explain", "frame", "ab", "down"), status=(0, 1))
        self.assertProjected(self.lines(page, "turned"), -20, 35)


class OfLoadCases(CasesTest):
    def test_a_drawing_of_each_without_a_verdict(self):
        self.file("two.csv", "case,od [in],wall [in],material,length [in],compression [lbf],gap [in],miss_a [in],end_a\n"
                             "one,1.25,0.058,4130,24,99000,,,\ntwo,1.25,0.058,4130,24,100,0.01,0.1,welded\nbad,1.25,9,4130,24,1,,,\n")
        for units in "us", "si":
            page = self.page("--units", units, command=("cases", "two.csv"), status=(2,))
            self.assertEqual([section.findtext("h2") for section in page.iter("section")][:2], ["one", "two"])
            self.assertEqual(len([figure for figure in page.iter("figure") if figure.findtext("h3") == "The tube and its loads"]), 2)
            text = joined("".join(page.find("body").itertext())).split("What was read")[0]
            self.assertNotRegex(text, r"holds|SHORT|margin|governs")
            self.assertIn("One row could not be checked and is not on this page", text)
            self.assertIsNone(NOT_A_NUMBER.search(self.read("page.html")))


if __name__ == "__main__":
    run_tests()
