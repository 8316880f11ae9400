"""Details: --details on the commands of load cases and of frames."""

import csv
import io

from frame import FrameTest, TUBES, written
from program import joined, run_tests
from studies import StudyTest

DETAIL_COLUMNS = """case,detail,kind,at [in],verdict,margin,factor,mode,axial [lbf],moment [in-lbf],torque [in-lbf],shear [lbf],clearance [in],
    play [in],prying [lbf],remarks,note""".replace("\n    ", "")
CASE = {"case": "rail", "end_a": "welded", "end_b": "welded", "compression [lbf]": "4600", "point_load [lbf]": "150", "point_at [in]": "12",
        "weld_zone [in]": "1"}
HOLE = {"case": "rail", "detail": "line hole", "kind": "hole", "at [in]": "12", "hole [in]": "1/4"}
RING = {"case": "rail", "detail": "ring", "kind": "ring weld", "at [in]": "a", "throat [in]": "0.041"}
SLEEVE = {"case": "rail", "detail": "splice", "kind": "sleeve", "at [in]": "18", "sleeve_od [in]": "1.125", "sleeve_wall [in]": "0.058",
          "overlap [in]": "2", "rosettes": "2", "rosette [in]": "0.375", "butt": "no"}
SOCKET = {"case": "rail", "detail": "socket", "kind": "socket", "at [in]": "b", "stub_od [in]": "1.125", "stub_wall [in]": "0.095",
          "overlap [in]": "2"}
ALL = (HOLE, RING, SLEEVE, SOCKET)


def rows_of(text):
    return list(csv.DictReader(io.StringIO(text)))


class DetailTest(StudyTest):
    def details(self, *rows):
        self.file("details.csv", written(list(rows)))

    def table(self, *words, **how):
        """The rows of --of details."""
        return rows_of(self.study("check --details details.csv --of details --format csv", *words, **how).out)


class Cases(DetailTest):
    def test_the_weakest_of_tube_and_details_sets_the_margin(self):
        self.cases(CASE)
        alone = self.check("cases.csv").rows[0]
        self.details(*ALL)
        found = self.table()
        self.assertEqual([row["detail"] for row in found], ["line hole", "ring", "splice", "socket"])
        weakest = min(found, key=lambda row: float(row["margin"]))
        self.assertLess(float(weakest["margin"]), float(alone["margin"]))
        run = self.study("check --details details.csv --format csv")
        row = rows_of(run.out)[0]
        self.assertEqual((row["margin"], row["governs"], row["verdict"]), (weakest["margin"], "ring", weakest["verdict"]))
        self.assertEqual(run.status, 0 if weakest["verdict"] == "holds" else 1)
        for column in set(alone) - {"margin", "governs", "verdict", "joints_taken", "bow_clock_taken [deg]", "fit_taken"}:
            self.assertEqual(row[column], alone[column], column)

    def test_each_has_its_columns(self):
        self.cases(CASE)
        self.details({**HOLE, "note": "brake line"}, SOCKET)
        run = self.study("check --details details.csv --of details --format csv")
        self.assertEqual(run.out.splitlines()[0], DETAIL_COLUMNS)
        hole, socket = rows_of(run.out)
        self.assertEqual((hole["case"], hole["kind"], float(hole["at [in]"]), hole["note"], hole["clearance [in]"]), ("rail", "hole", 12, "brake line", ""))
        self.assertEqual(float(socket["at [in]"]), 24)
        self.near(socket["clearance [in]"], 1.25 - 2 * 0.058 - 1.125)
        self.near(socket["play [in]"], (1.25 - 2 * 0.058 - 1.125) / 2 * 24)
        self.near(socket["prying [lbf]"], float(socket["moment [in-lbf]"]) / (2 / 3 * 2))
        self.assertIn("throat taken as the wall", socket["remarks"])
        answer = self.study("check --details details.csv --of details --format json").json
        self.assertEqual([row["detail"] for row in answer["rows"]], ["line hole", "socket"])
        self.assertIn("details.csv", str(answer["inputs"]))

    def test_a_detail_of_no_size_changes_nothing(self):
        self.cases(CASE)
        alone = self.check("cases.csv").rows[0]
        self.details({**HOLE, "hole [in]": "0"})
        self.near(rows_of(self.study("check --details details.csv --format csv").out)[0]["margin"], float(alone["margin"]))

    def test_the_ring_by_hand(self):
        """Weld as a line: f = P/(pi d) + M/(pi d^2/4), 2V/(pi d); 0.6 F_EXX (Blodgett 7.4; AISC 360-10 J2.4, from memory)."""
        self.cases({"case": "rail", "compression [lbf]": "1000", "weld_zone [in]": "0", "length [in]": "24"})
        self.details({**RING, "at [in]": "6"})
        row = self.table()[0]
        self.near(row["factor"], 0.6 * 70e3 * 0.041 / (1000 / (3.14159265358979 * 1.25)), rel=1e-7)
        self.assertEqual(row["mode"], "weld")

    def test_a_part_has_its_details_in_every_row(self):
        self.cases({**CASE, "case": "push", "part": "rail"}, {**CASE, "case": "pull", "part": "rail", "compression [lbf]": "-3000"},
                   {**CASE, "case": "other"})
        self.details(HOLE)
        self.assertEqual([row["case"] for row in self.table()], ["push", "pull"])
        self.assertEqual([row["case"] for row in self.table("--case", "pull")], ["pull"])

    def test_the_forced_fit_is_that_of_the_tube_itself(self):
        """The margin without the forced fit is the tube's own: no promise for the detail that governs."""
        self.cases({**CASE, "miss_a [in]": "0.1"})
        self.details(RING)
        of_tube = float(self.check("cases.csv").rows[0]["margin_unforced"])
        text = joined(self.study("check --details details.csv --format text").out)
        self.assertIn(f"without it the margin of the tube itself, its details left out, is {100 * of_tube:+.1f} %", text)
        self.assertIn("without it the margin is", joined(self.study("check --format text").out))

    def test_a_page_beside_csv(self):
        self.cases(CASE, {**CASE, "case": "other"})
        self.details(*ALL)
        plain = self.study("check --details details.csv --format csv").out
        beside = self.study("check --details details.csv --format csv --report page.html")
        self.assertEqual((beside.out, beside.err), (plain, ""))
        self.assertTrue("line hole" in (self.folder / "page.html").read_text(encoding="utf-8"))
        self.assertEqual(self.study("check --details details.csv --of details --format csv --report page.html").out,
                         self.study("check --details details.csv --of details --format csv").out)

    def test_text(self):
        self.cases(CASE)
        self.details(*ALL)
        out = self.text("check --details details.csv")
        for word in ("ring weld 'ring' gives way: its weld tears at", "its weld tears, at joint A", "Details, the weakest first:", "socket",
                     "weld factor under 2: the weld strength is nominal", "throat taken as the wall"):
            self.assertIn(word, joined(out))
        self.assertIn("Details, the weakest first:", self.run_program("explain", "--details", "details.csv", "cases.csv", "rail").out)


class Studies(DetailTest):
    def margin(self, **cells):
        self.cases({**CASE, **cells}, name="edited.csv")
        return float(rows_of(self.run_program("check", "--details", "details.csv", "--format", "csv", "edited.csv").out)[0]["margin"])

    def test_sweep_is_the_check_of_each_value(self):
        self.cases(CASE)
        self.details(*ALL)
        for row in rows_of(self.study("sweep --details details.csv --vary compression=1000:9000:2000 --format csv").out):
            self.near(row["margin"], self.margin(**{"compression [lbf]": row["compression [lbf]"]}))
            self.assertEqual(row["governs"], "ring")

    def test_a_detail_at_b_moves_with_the_length(self):
        self.cases(CASE)
        self.details(SOCKET)
        for row in rows_of(self.study("sweep --details details.csv --vary length=20:40:10 --format csv").out):
            self.near(row["margin"], self.margin(**{"length [in]": row["length [in]"]}))

    def test_limit_is_where_the_detail_gives_way(self):
        self.cases(CASE)
        self.details(RING)
        found = rows_of(self.study("limit --details details.csv --find compression --to 20000 --format csv").out)[0]
        limit = float(found["limit [lbf]"])
        self.assertGreaterEqual(self.margin(**{"compression [lbf]": repr(limit)}), -1e-9)
        self.assertLess(self.margin(**{"compression [lbf]": repr(limit + 0.01)}), 0)

    def test_advice_that_finds_nothing_names_the_details_too(self):
        self.cases({**CASE, "compression [lbf]": "900000"})
        self.assertIn("a shorter tube, or less load.", " ".join(self.study("check --format text").out.split()))
        self.details(SLEEVE)
        run = self.study("check --details details.csv --format text")
        self.assertIn("a shorter tube, stronger details, or less load.", " ".join(run.out.split()))

    def test_compare_refuses_a_wall_that_the_sleeve_does_not_fit(self):
        self.cases(CASE)
        self.details(SLEEVE)
        thin, thick = rows_of(self.study("compare --details details.csv --walls 0.049in,0.083in --format csv").out)
        self.near(thin["margin"], self.margin(**{"wall [in]": "0.049"}))
        self.assertEqual(thick["verdict"], "not possible: sleeve_od must be above 0 and at most the bore of the tube there, od less two walls")

    def test_scatter_begins_at_the_margin_of_the_check(self):
        self.cases(CASE)
        self.details(*ALL)
        self.file("tolerances.csv", "column,minus,plus,unit\ncompression,0,0.001,lbf\n")
        row = rows_of(self.study("scatter --details details.csv --tolerances tolerances.csv --samples 64 --format csv").out)[0]
        self.near(row["margin_mean"], self.margin(), rel=1e-5)


class Faults(DetailTest):
    def refused(self, rows, *messages, words="check --details details.csv --format csv"):
        self.cases(CASE)
        self.details(*rows)
        run = self.study(words)
        self.assertEqual((run.status, run.out.splitlines()[1:]), (2, []))
        for message in messages:
            self.assertIn(message, run.err)

    def test_sizes(self):
        whole = "no tube is checked until its details are mended: one that is left out would make its tube look stronger"
        self.refused([{**HOLE, "hole [in]": ""}], "details.csv:2: hole: a hole needs it", whole)
        self.refused([{**RING, "hole [in]": "0.2"}], "details.csv:2: hole: a ring weld has none: leave it empty, or is the kind right?", whole)
        self.refused([HOLE, {**SLEEVE, "rosettes": "1.5"}], "details.csv:3: rosettes: must be a whole number", whole)
        self.refused([{**SLEEVE, "rosette [in]": ""}], "details.csv:2: rosette: a sleeve with rosettes needs it", whole)
        self.refused([{**HOLE, "rosettes": "2"}], "details.csv:2: rosettes: a hole has none", whole)
        self.refused([{**HOLE, "kind": "hoel"}], "details.csv:2: kind:", "hole", whole)

    def test_names(self):
        self.refused([HOLE, {**RING, "detail": "line hole"}], "details.csv:3: detail: 'line hole' stands in line 2 too")
        self.cases(CASE)
        self.details(HOLE, {**RING, "case": "rial"})
        run = self.study("check --details details.csv --format csv")
        self.assertEqual((run.status, len(rows_of(run.out))), (2, 1))
        self.assertIn("details.csv:3: case: 'rial' is not in the load cases, neither as a case nor as a part; did you mean 'rail'?", run.err)

    def test_the_nearest_name(self):
        """A case or a part, the same for any order of the cases and any number of threads; nothing where none is near."""
        names = [{**CASE, "case": f"case {i}", "part": "upright"} for i in range(200)] + [{**CASE, "case": "rail 2"}, {**CASE, "case": "rail 1"}]
        self.details({**HOLE, "case": "rail1"}, {**HOLE, "case": "upwright"}, {**HOLE, "case": "rail 3"}, {**HOLE, "case": "something else"},
                     {**HOLE, "case": "n" * 80})
        said = []
        for rows, jobs in (names, 1), (names, 2), (names[::-1], 2):
            self.cases(*rows)
            run = self.study(f"check --details details.csv --format csv --jobs {jobs}")
            self.assertEqual(run.status, 2)
            said.append([line for line in run.err.splitlines() if "is not in the load cases" in line])
        self.assertEqual([line.partition("part")[2] for line in said[0]],
                         ["", "; did you mean 'rail 1'?", "; did you mean 'rail 1'?", "", "; did you mean 'upright'?"])
        self.assertEqual(said[1:], [said[0], said[0]])

    def test_the_column_of_the_other_table(self):
        self.refused([{("tube" if name == "case" else name): cell for name, cell in HOLE.items()}],
                     "details.csv:1: unknown column 'tube': a detail of a load case names the case or its part, in the column 'case'")

    def test_a_detail_that_does_not_fit_its_tube(self):
        self.refused([{**HOLE, "at [in]": "25"}], "details.csv:2: at: must lie between 0 and the length of the tube (on case 'rail')")
        self.refused([{**SLEEVE, "sleeve_od [in]": "1.2"}], "details.csv:2: sleeve_od: must be above 0 and at most the bore of the tube there, od less two walls (on case 'rail')")

    def test_the_other_cases_are_computed(self):
        self.cases(CASE, {**CASE, "case": "other"})
        self.details({**HOLE, "at [in]": "25"})
        run = self.study("check --details details.csv --format csv")
        self.assertEqual((run.status, [row["case"] for row in rows_of(run.out)]), (2, ["other"]))

    def test_options(self):
        self.cases(CASE)
        self.assertRun(self.study("check --of details"), 2, "check: --of details needs --details FILE: the table of details", "")
        self.assertEqual(self.study("check --details missing.csv").status, 2)


class Frames(FrameTest):
    HOLE = {"tube": "beam", "detail": "line hole", "kind": "hole", "at [in]": "15", "hole [in]": "0.5"}
    RING = {"tube": "brace", "detail": "ring", "kind": "ring weld", "at [in]": "a", "throat [in]": "0.01", "hole [in]": ""}

    def put(self, *rows, folder="frame"):
        self.frame()
        self.file(f"{folder}/details.csv", written(list(rows)))

    def rows(self, *words):
        return rows_of(self.run_program("check", "frame", "--format", "csv", *words).out)

    def test_the_folder_has_them(self):
        self.frame()
        alone = {row["tube"]: row for row in self.rows()}
        self.put(self.HOLE, self.RING)
        details = {row["detail"]: row for row in self.rows("--of", "details")}
        tubes = {row["tube"]: row for row in self.rows()}
        self.assertEqual(tubes["brace"]["governs"], "ring")
        self.assertEqual(tubes["brace"]["margin"], details["ring"]["margin"])
        self.assertLess(float(tubes["brace"]["margin"]), float(alone["brace"]["margin"]))
        self.assertEqual(tubes["brace"]["margin_as_built"], alone["brace"]["margin_as_built"])
        weakest = min(tubes.values(), key=lambda row: float(row["margin"]))
        run = rows_of(self.run_program("check", "frame", "--format", "csv", "--of", "runs").out)[0]
        self.assertEqual((run["margin"], run["governs"], run["worst_tube"]), (weakest["margin"], weakest["governs"], weakest["tube"]))

    def test_a_table_on_the_command_line_takes_its_place(self):
        self.put(self.RING)
        self.file("other.csv", written([self.HOLE]))
        self.assertEqual([row["detail"] for row in self.rows("--of", "details", "--details", "other.csv")], ["line hole"])

    def test_only_of_the_tubes_that_are_picked(self):
        self.put(self.HOLE, self.RING)
        self.assertEqual([row["detail"] for row in self.rows("--of", "details", "--case", "brace")], ["ring"])

    def test_the_studies_know_them(self):
        self.put(self.HOLE, self.RING)
        margin = min(float(row["margin"]) for row in self.rows())
        swept = rows_of(self.run_program("sweep", "frame", "--run", "down", "--joint", "end", "--vary", "force_z=-1000:-500:500", "--format", "csv").out)
        self.assertAlmostEqual(float(swept[0]["margin"]), margin, delta=1e-7)
        self.assertEqual(swept[0]["governs"], "ring")
        first = rows_of(self.run_program("compare", "frame", "--walls", "0.058in", "--format", "csv").out)[0]
        self.assertAlmostEqual(float(first["margin"]), margin, delta=1e-7)

    def test_many_details_give_what_each_alone_gives(self):
        """More than are followed at once."""
        holes = [{**self.HOLE, "detail": f"hole {i}", "at [in]": str(i), "hole [in]": str(0.1 + 0.02 * i)} for i in range(1, 21)]
        self.put(*holes)
        together = {row["detail"]: row for row in self.rows("--of", "details")}
        self.assertEqual(len(together), 20)
        for hole in holes[::6]:
            self.put(hole)
            alone = self.rows("--of", "details")[0]
            self.assertAlmostEqual(float(alone["margin"]), float(together[hole["detail"]]["margin"]), delta=1e-7)
            swept = rows_of(self.run_program("sweep", "frame", "--tube", "beam", "--vary", "wall=0.058:0.06:0.01", "--format", "csv").out)
            tubes = min(float(row["margin"]) for row in self.rows())
            self.assertAlmostEqual(float(swept[0]["margin"]), tubes, delta=1e-7)

    def test_explain_has_the_numbers_of_the_check(self):
        """Also where the bow is worse for the detail on the side that is better for the tube."""
        bowed = [{**tube, "bow [in]": "0.2"} for tube in TUBES]
        self.put(self.HOLE, {**self.RING, "at [in]": "20"})
        self.frame(tubes=bowed)
        found = {row["detail"]: row for row in self.rows("--of", "details")}
        for tube, detail in ("beam", "line hole"), ("brace", "ring"):
            steps = rows_of(self.run_program("explain", "frame", tube, "down", "--format", "csv").out)
            of_detail = [row for row in steps if row["case"] == detail]
            self.assertEqual(of_detail[-1]["step"], "margin")
            self.assertAlmostEqual(float(of_detail[-1]["result"]), float(found[detail]["margin"]), delta=1e-6)

    def test_faults(self):
        for row, message in (({**self.HOLE, "tube": "baem"}, "frame/details.csv:2: tube: 'baem' is not in tubes.csv; did you mean 'beam'?"),
                             ({**self.HOLE, "at [in]": "99"}, "frame/details.csv:2: at: must lie between 0 and the length of the tube")):
            self.put(row)
            run = self.run_program("check", "frame", "--format", "csv")
            self.assertEqual((run.status, run.out), (2, ""))
            self.assertIn(message, run.err)

    def test_the_column_of_the_other_table(self):
        self.frame()
        self.file("frame/details.csv", written([HOLE]))
        run = self.run_program("check", "frame")
        self.assertEqual(run.status, 2)
        self.assertIn("frame/details.csv:1: unknown column 'case': a detail of a frame names its tube, in the column 'tube'", run.err)


if __name__ == "__main__":
    run_tests()
