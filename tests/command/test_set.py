"""--row and --set choose and change load cases; the command cases prints them as they are read; --live needs the engine."""

import csv
import io

from program import CASE_COLUMNS, HOLDS, PLAIN, joined, name_and_unit, run_tests
from studies import RICH, StudyTest

FULL = {**RICH, "case": "full"}


class Set(StudyTest):
    CHANGES = {  # of the command line: what the cell would say, in the header's units
        "wall=0.083": ("wall [in]", "0.083"), "wall=2mm": ("wall [in]", repr(2 / 25.4)), "wall=5/64": ("wall [in]", "5/64"),
        "compression=5kN": ("compression [lbf]", repr(5000 / 4.4482216152605)), "end_a=fixed": ("end_a", "fixed"),
        "end_b=pinned": ("end_b", "pinned"), "bow_shape=arc": ("bow_shape", "arc"), "factor=2": ("factor", "2"),
        "bow=": ("bow [in]", ""), "note=as built = good": ("note", "as built = good"), "material=1025": ("material", "1025"),
    }

    def test_it_is_the_file_with_another_cell(self):
        for change, (column, cell) in self.CHANGES.items():
            with self.subTest(change=change):
                self.cases({**PLAIN, **HOLDS, "bow [in]": "0.02"}, name="given.csv")
                self.cases({**PLAIN, **HOLDS, "bow [in]": "0.02", column: cell}, name="edited.csv")
                set_rows = self.check("--set", change, "given.csv").rows
                edited = self.check("edited.csv").rows
                self.assertEqual(len(set_rows), 1)
                for name, value in edited[0].items():
                    try:
                        self.assertAlmostEqual(float(set_rows[0][name]), float(value), delta=1e-8 * max(1, abs(float(value))), msg=name)
                    except ValueError:
                        self.assertEqual(set_rows[0][name], value, name)

    def test_every_command_takes_it(self):
        self.cases({**PLAIN, **HOLDS, "bow [in]": "0.02"}, name="given.csv")
        self.cases({**PLAIN, **HOLDS, "bow [in]": "0.02", "wall [in]": "0.083"}, name="edited.csv")
        (self.folder / "t.csv").write_text("column,minus,plus,unit\nbow,0,0.02,in\n", encoding="utf-8")
        for words in ("check", "cases", "compare --walls 0.058,0.083", "sweep --vary bow=0:0.1:0.05", "limit --find bow --to 1in", "index",
                      "scatter --tolerances t.csv --samples 16", "explain"):
            with self.subTest(words=words):
                changed = self.run_program(*words.split(), "--format", "csv", "--set", "wall=0.083", "given.csv", *(["rail"] * (words == "explain")))
                edited = self.run_program(*words.split(), "--format", "csv", "edited.csv", *(["rail"] * (words == "explain")))
                self.assertEqual((changed.out, changed.err, changed.status), (edited.out, edited.err, edited.status))
                self.assertTrue(changed.out)

    def test_the_text_says_that_it_is_not_the_file(self):
        self.cases({**PLAIN, **HOLDS})
        self.assertIn("Not as in the file, but with wall=0.083, note=x:", joined(self.check("--format", "text", "--set", "wall=0.083", "--set", "note=x", "cases.csv").out))
        self.assertNotIn("Not as in the file", self.check("--format", "text", "cases.csv").out)
        self.assertEqual(self.check("--format", "json", "--set", "wall=0.083", "cases.csv").json["command"][2:4], ["--set", "wall=0.083"])
        self.assertIn("changed by --set", joined(self.run_program("explain", "--set", "wall=0.083", "cases.csv", "rail").out))

    FAULTS = {
        "wall": "--set: 'wall' is not COLUMN=VALUE", "wal=1in": "--set: there is no column 'wal'; did you mean 'wall'?",
        "wall=": "--set: wall: is empty: a value is needed", "wall=0": "--set: wall: '0' must be above 0",
        "wall=-1mm": "--set: wall: '-1mm' must be above 0",
        "wall=thick": "--set: wall: 'thick' is not a number, alone or with its unit: in, ft, mm, cm or m",
        "wall=1,250": "--set: wall: '1,250' is not one number: the comma could be a thousands separator or a decimal comma: write 1250 or 1.250",
        "end_a=weldet": "--set: end_a: 'weldet' is no number and not one of pinned, welded, fixed; did you mean 'welded'?",
        "bow_shape=3": "--set: bow_shape: '3' is not one of sine, arc, kink",
        "torque=5": "cases.csv: names no unit of torque, which the values of --set would be in: write it behind each, as in 1in-lbf",
    }

    def test_what_is_wrong_with_it(self):
        self.cases({**PLAIN, **HOLDS})
        for change, message in self.FAULTS.items():
            with self.subTest(change=change):
                run = self.check("--set", change, "cases.csv")
                self.assertEqual((run.status, run.err), (2, f"railbow: {message}\n"))
        self.assertRun(self.check("--row", "2", "--set", "torque=5", "cases.csv"), 2, self.FAULTS["torque=5"])
        self.assertRun(self.check("--set", "bow=1mm", "--set", "bow=2mm", "cases.csv"), 2, "--set: bow is given twice")
        self.assertRun(self.check("--set", "wall=0.7", "cases.csv"), 2, "cases.csv:2: wall: must be above 0 and at most half of od (a solid bar)")

    def test_of_a_frame_it_is_refused(self):
        self.run_program("new", "--frame", "nose")
        for words in ("check nose", "compare --walls 0.058 nose", "explain nose rail push", "index nose"):
            for option in (["--set", "wall=1in"], ["--row", "2"]):
                run = self.run_program(*words.split(), *option)
                self.assertEqual(run.status, 2)
                self.assertEqual(run.err, f"railbow: {option[0]} is for files of load cases: of a frame change the cell in its table\n")


class Row(StudyTest):
    def test_it_picks_by_line(self):
        self.cases({**PLAIN, **HOLDS, "note": "first"}, {**PLAIN, **HOLDS, "note": "second"}, {**PLAIN, **HOLDS, "note": "third"})
        self.assertEqual([row["note"] for row in self.check("--row", "3", "cases.csv").rows], ["second"])
        self.assertEqual([row["note"] for row in self.check("--row", "4", "--row", "2", "cases.csv").rows], ["first", "third"])
        self.assertIn("Given in line 3 of", joined(self.run_program("explain", "--row", "3", "cases.csv").out))

    def test_only_its_rows_are_changed(self):
        self.cases({**PLAIN, **HOLDS}, {**PLAIN, **HOLDS, "case": "other"})
        rows = self.check("--row", "3", "--set", "wall=0.083", "cases.csv").rows
        self.assertEqual([(row["case"], row["wall [in]"]) for row in rows], [("other", "0.083")])

    def test_lines_without_a_case(self):
        self.cases({**PLAIN, **HOLDS})
        for line in ("1", "9"):
            self.assertRun(self.check("--row", line, "cases.csv"), 2, f"--row: no case without an error stands in line {line}")
        for line in ("0", "x", "1.5"):
            self.assertRun(self.check("--row", line, "cases.csv"), 2, f"--row: '{line}' is not a whole number from 1 to 2147483647")
        self.assertRun(self.check("--row", "2", "cases.csv", "cases.csv"), 2, "check: --row names a line of one file: name one file")


class Cases(StudyTest):
    def test_every_column_with_its_default(self):
        self.cases(PLAIN)
        run = self.run_program("cases", "--format", "csv", "cases.csv")
        header, row = csv.reader(io.StringIO(run.out))
        self.assertEqual([name_and_unit(column)[0] for column in header], CASE_COLUMNS)
        said = dict(zip(CASE_COLUMNS, row))
        self.assertEqual({name: said[name] for name in ("point_at", "bow_at", "weld_zone", "factor", "factor_yield", "bow_clock", "end_a", "gap_stiffness")},
                         {"point_at": "12", "bow_at": "12", "weld_zone": "1", "factor": "1.5", "factor_yield": "1.5", "bow_clock": "any",
                          "end_a": "pinned", "gap_stiffness": ""})
        self.assertEqual(self.run_program("cases", "--factor", "2", "--format", "json", "cases.csv").json["rows"][0]["factor_yield"], 2)

    def test_its_csv_is_a_file_of_the_same_cases(self):
        for file in ("nose.csv", "nose_si.csv", "parts.csv"):
            source = self.installed.source / "cases" / file
            for units in ("us", "si"):
                with self.subTest(file=file, units=units):
                    (self.folder / "again.csv").write_text(self.run_program("cases", "--format", "csv", "--units", units, str(source)).out, encoding="utf-8")
                    for mine, given in zip(self.check("again.csv").rows, self.check(str(source)).rows, strict=True):
                        self.assertEqual((mine["case"], mine["verdict"]), (given["case"], given["verdict"]))
                        self.assertAlmostEqual(float(mine["margin"]), float(given["margin"]), delta=1e-7)

    def test_json_tells_the_line(self):
        self.file("cases.csv", "# a comment\ncase,od [in],wall [in],material,length [in]\na,1.25,0.058,4130,24\nbad,1.25,9,4130,24\nc,1.25,0.058,4130,24\n")
        run = self.run_program("cases", "--format", "json", "cases.csv")
        self.assertEqual([(row["case"], row["line"]) for row in run.json["rows"]], [("a", 3), ("c", 5)])
        self.assertEqual((run.status, run.json["refused"]), (2, 1))
        self.assertIn("cases.csv:4: wall: must be above 0 and at most half of od", run.err)

    def test_the_text(self):
        self.cases({**PLAIN, "miss_a [in]": "1/4", "end_a": "welded"})
        out = self.run_program("cases", "--format", "text", "cases.csv").out
        self.assertRegex(out, r"(?m)^  miss_a +0\.25 in$")
        self.assertRegex(out, r"(?m)^  bow_clock +any$")
        for name in CASE_COLUMNS:
            self.assertRegex(out, rf"(?m)^  {name}( |$)")


class Live(StudyTest):
    def test_it_is_refused_where_the_engine_is_not_in_the_program(self):
        self.cases({**PLAIN, **HOLDS})
        self.assertRun(self.check("--live", "cases.csv"), 2, "check: --live puts the engine into the page, but --report names none")
        run = self.check("--live", "--report", "page.html", "cases.csv")
        if run.status == 2:
            self.assertRun(run, 2, "check: --live: this program was built without the engine of the live page; 'sh cases/page' builds one that has it")
            self.assertNotIn("page.html", self.listing())


if __name__ == "__main__":
    run_tests()
