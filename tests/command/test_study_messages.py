"""The inputs that the studies refuse."""

from program import HOLDS, joined, run_tests
from studies import BAD_WALL, LENGTHS, TOLERANCES, StudyTest


class Messages(StudyTest):
    """Each is refused before the program reads or writes a file."""

    FORM = "is not COLUMN=FROM:TO:STEP, as in miss_a=0:0.5:0.125"
    REFUSED = [
        ("compare --walls 0.05,,", f"--walls: '' is not a number above 0, alone or with its unit: {LENGTHS}"),
        ("compare --walls 0.05lb", f"--walls: '0.05lb' is not a number above 0, alone or with its unit: {LENGTHS}"),
        ("compare --walls=0", f"--walls: '0' is not a number above 0, alone or with its unit: {LENGTHS}"),
        ("compare --ods 1,-1", f"--ods: '-1' is not a number above 0, alone or with its unit: {LENGTHS}"),
        ("compare --vary wall=1:2:1", "compare: option '--vary' is not known here; see 'railbow help compare'"),
        ("sweep", "sweep: name a column with --vary COLUMN=FROM:TO:STEP; see 'railbow help sweep'"),
        ("sweep --vary wall", f"--vary: 'wall' {FORM}"),
        ("sweep --vary wall=1:2", f"--vary: 'wall=1:2' {FORM}"),
        ("sweep --vary wall=1:2:1:1", f"--vary: 'wall=1:2:1:1' {FORM}"),
        ("sweep --vary =1:2:1", "--vary: there is no column ''; see 'railbow columns'"),
        ("sweep --vary wal=1:2:1", "--vary: there is no column 'wal'; did you mean 'wall'?"),
        ("sweep --vary zzzzzzzzz=1:2:1", "--vary: there is no column 'zzzzzzzzz'; see 'railbow columns'"),
        ("sweep --vary material=1:2:1", "--vary: column 'material' is not a number"),
        ("sweep --vary bow_shape=1:2:1", "--vary: column 'bow_shape' is not a number"),
        ("sweep --vary wall=a:2:1", f"--vary: wall: 'a' is not a number, alone or with its unit: {LENGTHS}"),
        ("sweep --vary wall=1:2:", f"--vary: wall: '' is not a number, alone or with its unit: {LENGTHS}"),
        ("sweep --vary wall=1lbf:2:1", f"--vary: wall: '1lbf' is not a number, alone or with its unit: {LENGTHS}"),
        ("sweep --vary wall=0:inf:1", f"--vary: wall: 'inf' is not a number, alone or with its unit: {LENGTHS}"),
        ("sweep --vary slope=0:1kg:1", "--vary: slope: '1kg' is not a number, alone or with its unit: deg or rad"),
        ("sweep --vary factor=1in:2:1", "--vary: factor: '1in' is not a number"),
        ("sweep --vary end_a=0:9in:1",
         "--vary: end_a: '9in' is not a number, alone or with its unit: in-lbf/rad, in-lbf/deg or N-m/rad"),
        ("sweep --vary wall=1:2:-1", "--vary: 'wall=1:2:-1': the step must lead from FROM to TO"),
        ("sweep --vary wall=2:1:1", "--vary: 'wall=2:1:1': the step must lead from FROM to TO"),
        ("sweep --vary wall=1:2:0", "--vary: 'wall=1:2:0': the step must lead from FROM to TO"),
        ("sweep --vary bow=0:1:0.1 --vary BOW=0:1:0.1", "--vary: 'bow' is named twice"),
        ("sweep --vary bow=0:1:1 --vary gap=0:1:1 --vary od=1:2:1", "--vary: at most two columns can be varied together"),
        ("sweep --vary bow=0:1:0.001 --vary gap=0:1:0.001",
         "--vary: more than 100000 values for each case; make the step larger"),
        ("sweep --vary bow=0:1:1e-300", "--vary: more than 100000 values for each case; make the step larger"),
        ("limit", "limit: name a column with --find and the end of its range with --to; see 'railbow help limit'"),
        ("limit --find bow", "limit: name a column with --find and the end of its range with --to; see 'railbow help limit'"),
        ("limit --to 1", "limit: name a column with --find and the end of its range with --to; see 'railbow help limit'"),
        ("limit --find bo --to 1", "--find: there is no column 'bo'; did you mean 'bow'?"),
        ("limit --find note --to 1", "--find: column 'note' is not a number"),
        ("limit --find bow --to far", f"--to: bow: 'far' is not a number, alone or with its unit: {LENGTHS}"),
        ("limit --find bow --from 1N --to 1", f"--from: bow: '1N' is not a number, alone or with its unit: {LENGTHS}"),
        ("limit --find bow --to 0", "limit: --from and --to must differ"),
        ("limit --find bow --from 1in --to 25.4mm", "limit: --from and --to must differ"),
        ("limit --find bow --from 1 --to 25.4mm", "limit: --from 1 and --to 25.4mm: either both have their unit, or none"),
        ("limit --find bow --to 1,250", "--to: bow: '1,250' is not one number: the comma could be a thousands separator or a decimal comma: "
                                        "write 1250 or 1.250"),
        ("limit --find bow --to 2,5", "--to: bow: '2,5' is not one number: use a decimal point"),
        ("limit --find bow --to 1", "cases.csv: names no unit of bow, which the values of --to would be in: write it behind each, "
                                    "as in 1in"),
        ("sweep --vary bow=0:1:1", "cases.csv: names no unit of bow, which the values of --vary would be in: write it behind "
                                   "each, as in 1in"),
        ("sweep --vary bow=0:12:2mm", "--vary: 'bow=0:12:2mm': either all three values have their unit, or none"),
        ("sweep --vary bow=0mm:12:2", "--vary: 'bow=0mm:12:2': either all three values have their unit, or none"),
        ("compare --walls 0.05,1.5mm", "--walls: '0.05,1.5mm': either every value has its unit, or none"),
        ("compare --walls 1,250", "--walls: '1,250' may be one number or two: write each with its unit, or 1250, 1.250"),
        ("compare --walls=.058 .065", "--walls: '.065' stands apart from the list: part the sizes with commas and no blanks, as "
                                      "in 0.058,0.065"),
        ("compare --walls .058 .065", "--walls: '.065' stands apart from the list: part the sizes with commas and no blanks, as "
                                      "in 0.058,0.065"),
        ("compare --ods 1 1.25", "--ods: '1.25' stands apart from the list: part the sizes with commas and no blanks, as in "
                                 "0.058,0.065"),
        ("index --title x", "index: --title stands on the page, but --report names none"),
        ("index --by x", "index: --by stands on the page, but --report names none"),
        ("index --note x", "index: --note stands on the page, but --report names none"),
        ("index --date x", "index: --date stands on the page, but --report names none"),
        ("index --matreials x", "index: option '--matreials' is not known here; did you mean '--materials'?"),
        ("index --unit=si --fomat csv", "index: option '--fomat' is not known here; did you mean '--format'?"),
        ("index --case x", "--case: no case meets 'x'"),
        ("index --part [ab]* --case rail", "--part: no case's part meets '[ab]*'"),
        ("limit --find bow --to 1 --margin=-2", "--margin: '-2' is not a number of at least -1, or -100%"),
        ("limit --find bow --to 1 --margin 5%%", "--margin: '5%%' is not a number of at least -1, or -100%"),
        ("limit --find bow --to 1 --margin=-101%", "--margin: '-101%' is not a number of at least -1, or -100%"),
        ("index --seed 1", "index: option '--seed' is not known here; see 'railbow help index'"),
        ("scatter", "scatter: name a file with --tolerances; see 'railbow help scatter'"),
        ("scatter --tolerances no.csv", "no.csv: cannot read: No such file or directory"),
        ("scatter --tolerances t.csv --samples 0", "--samples: '0' is not a whole number from 1 to 100000000"),
        ("scatter --tolerances t.csv --samples 1.5", "--samples: '1.5' is not a whole number from 1 to 100000000"),
        ("scatter --tolerances t.csv --seed 1e10", "--seed: '1e10' is not a whole number from 1 to 2147483647"),
        ("scatter --tolerances t.csv --drivers=1", "scatter: option '--drivers=1' takes no value; see 'railbow help scatter'"),
    ]

    def test_refused(self):
        self.cases(HOLDS)
        self.file("old.csv", "old")
        for words, said in self.REFUSED:
            with self.subTest(words=words):
                self.assertRun(self.study(words, "-o", "old.csv"), 2, said, "")
                self.assertEqual(self.read("old.csv"), "old")

    def test_without_a_file(self):
        self.file("t.csv", TOLERANCES)
        for words in ("compare", "sweep --vary bow=0in:1in:1in", "limit --find bow --to 1in", "index", "scatter --tolerances t.csv"):
            name = words.split()[0]
            self.assertRun(self.run_program(*words.split()), 2, f"{name}: name a file of load cases, or - for standard "
                           f"input; see 'railbow help {name}'", "")

    TOLERANCE_FILES = [
        ("", ["t.csv: has no header row"]),
        ("column,minus,plus\n", ["t.csv: has a header but no row"]),
        ("column,minus\nwall,1\n", ["t.csv:1: plus is missing"]),
        ("column,minus,plus,units\nwall,1,1,%\n", ["t.csv:1: unknown column 'units'; did you mean 'unit'?"]),
        ("column,minus,plus\nwal,1,1\nmaterial,1,1\nzzzzzzz,1,1\n",
         ["t.csv:2: column: 'wal' is not a number column of the load cases; did you mean 'wall'?",
          "t.csv:3: column: 'material' is not a number column of the load cases",
          "t.csv:4: column: 'zzzzzzz' is not a number column of the load cases"]),
        ("column,minus,plus,unit\nwall,1,1,lbf\nfactor,1,1,in\nbow_clock,1,1,degrees\n",
         [f"t.csv:2: unit: 'lbf' is not a unit of wall: {LENGTHS}, or %",
          "t.csv:3: unit: 'in' is not a unit of factor: leave it empty, or %",
          "t.csv:4: unit: 'degrees' is not a unit of bow_clock: deg or rad, or %"]),
        ("column,minus,plus\nwall,-1,1\n", ["t.csv:2: minus: '-1' is out of range: must be at least 0"]),
        ("column,minus,plus\nwall,,1\n", ["t.csv:2: minus: is empty: a value is needed"]),
        ("column,minus,plus,shape\nwall,1,1,even\n",
         ["t.csv:2: shape: 'even' is not known: use uniform, triangular or normal"]),
        ("column,minus,plus,unit\nwall,1,1,%\nWALL,1,1,mm\n", ["t.csv: column: 'WALL' stands in two rows"]),
    ]

    def test_tolerance_files(self):
        self.cases(HOLDS)
        for content, said in self.TOLERANCE_FILES:
            with self.subTest(content=content):
                self.file("t.csv", content)
                run = self.study("scatter --tolerances t.csv")
                self.assertRun(run, 2, said, "")

    def test_a_factor_that_is_not_used_is_said(self):
        self.file("t.csv", TOLERANCES)
        self.cases({"case": "own", **HOLDS, "factor": "2"}, {"case": "same", **HOLDS, "factor": "1.25"}, {"case": "none", **HOLDS})
        said = "--factor 1.25 is not used for 1 row with a factor of its own"
        for words in ("check", "compare --walls 0.058", "sweep --vary bow=0in:0.01in:0.01in", "limit --find bow --to 0.1in", "index",
                      "scatter --tolerances t.csv --samples 64"):
            for jobs in ("1", "2") if words == "check" else ("2",):
                with self.subTest(words=words, jobs=jobs):
                    run = self.study(f"{words} --factor 1.25 --jobs {jobs}")
                    self.assertEqual((run.err, run.status in (0, 1)), (f"railbow: {said}\n", True))
                    self.assertEqual(self.study(f"{words} --jobs {jobs}").err, "")
        self.assertEqual(self.run_program("explain", "cases.csv", "own", "--factor", "1.25").err, f"railbow: {said}\n")
        self.assertEqual(self.run_program("explain", "cases.csv", "none", "--factor", "1.25").err, "")
        self.cases({**HOLDS, "factor": "2"}, {**HOLDS, "factor": "3"})
        self.assertEqual(self.study("check --factor 1").err, "railbow: --factor 1 is not used for 2 rows with a factor of their own\n")

    def test_a_word_cannot_be_scattered(self):
        self.file("t.csv", "column,minus,plus,unit\nend_a,1,1,%\ngap_stiffness,1,1,%\nbow,1,1,\n")
        self.cases({**HOLDS, "end_a": "welded"})
        self.assertRun(self.study("scatter --tolerances t.csv"), 2,
                       ["cases.csv:2: end_a: has no number to vary ('welded'): give a number",
                        "cases.csv:2: gap_stiffness: has no number to vary: give a number"])

    def test_a_bad_case_is_left_out_and_said(self):
        self.file("t.csv", TOLERANCES)
        self.cases({"case": "good", **HOLDS}, {"wall [in]": "0.7"}, {"material": "5130"})
        for words in "compare", "index", "scatter --tolerances t.csv":
            with self.subTest(words=words):
                run = self.study(words)
                named = {row["case"] or row["part"] for row in run.rows}  # of index also the part alone
                self.assertEqual((named, run.status), ({"good"}, 2))
                self.assertIn(f"cases.csv:3: wall: {BAD_WALL}", run.err)
                self.assertIn("cases.csv:4: material: '5130' is not in ", run.err)
                self.assertTrue(self.text(words).startswith("NOT CHECKED: lines 3 and 4 (reasons above).\n"))
        for words in "sweep --vary compression=1:2:1", "limit --find compression --to 99":
            run = self.study(words)
            self.assertEqual((set(run.names), run.status), ({"good"}, 2))
            self.assertIn(f"cases.csv:3: wall: {BAD_WALL} (at", run.err)

    def test_only_bad_cases(self):
        self.file("t.csv", TOLERANCES)
        self.file("old.csv", "old")
        self.cases({"material": "5130"})
        for words in ("compare", "sweep --vary bow=0in:1in:1in", "limit --find bow --to 1in", "index", "scatter --tolerances t.csv"):
            self.assertEqual(self.study(words, "-o", "old.csv").status, 2)
            self.assertEqual(self.read("old.csv"), "old")
            text = self.text(words)
            self.assertNotIn("inside its limit", text)
            self.assertTrue(text.startswith("NOT CHECKED: line 2 (reasons above).\n"), text)


if __name__ == "__main__":
    run_tests()
