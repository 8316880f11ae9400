"""Values on the command line, in the unit of the file's column; which cases are meant; messages that repeat."""

from program import HOLDS, SHORT, ProgramTest, run_tests

BOWED = {**HOLDS, "bow [in]": "0.02"}
METRIC = {"case": "rail", "od [in]": None, "wall [in]": None, "length [in]": None, "od [mm]": "31.75", "wall [mm]": "1.4732",
          "material": "4130", "length [mm]": "609.6", "compression [N]": "4448.2216152605", "bow [mm]": "0.508"}


class Units(ProgramTest):
    def setUp(self):
        super().setUp()
        self.cases(BOWED, name="us.csv")
        self.cases(METRIC, name="si.csv")

    def same(self, bare, united, file):
        bare, united = self.run_program(*bare, file), self.run_program(*united, file)
        self.assertEqual((bare.out, bare.err, bare.status), (united.out, united.err, united.status))
        self.assertNotEqual(bare.out.count("\n"), 0)

    def test_bare_values_are_in_the_unit_of_the_column(self):
        for file, unit in ("us.csv", "in"), ("si.csv", "mm"):
            self.same(["sweep", "--vary", "bow=0:2:0.5"], ["sweep", "--vary", f"bow=0{unit}:2{unit}:0.5{unit}"], file)
            self.same(["limit", "--find", "bow", "--to", "0.5"], ["limit", "--find", "bow", "--to", f"0.5{unit}"], file)
            self.same(["compare", "--walls", "0.5,0.6", "--ods", "30,32"],
                      ["compare", "--walls", f"0.5{unit},0.6{unit}", "--ods", f"30{unit},32{unit}"], file)

    def test_whatever_the_units_of_the_answer(self):
        run = self.run_program("compare", "--walls", "1.2", "--units", "us", "si.csv")
        self.assertAlmostEqual(float(run.rows[0]["wall [in]"]), 1.2 / 25.4, 9)
        run = self.run_program("compare", "--walls", "0.06", "--units", "si", "us.csv")
        self.assertAlmostEqual(float(run.rows[0]["wall [mm]"]), 0.06 * 25.4, 9)

    def test_files_that_differ(self):
        for words, option in ((["sweep", "--vary", "bow=0:1:1"], "vary"), (["limit", "--find", "bow", "--to", "0.1"], "to")):
            run = self.run_program(*words, "us.csv", "si.csv")
            self.assertIn(f"railbow: si.csv: bow is in mm here and in in in us.csv: write its unit behind each value of "
                          f"--{option}\n", run.err)
            self.assertEqual(run.status, 2)
        self.assertEqual(self.run_program("sweep", "--vary", "bow=0in:1in:1in", "us.csv", "si.csv").err, "")

    def test_standard_input(self):
        run = self.run_program("sweep", "--vary", "bow=0:2:0.5", "-", stdin=self.read("si.csv"))
        self.assertEqual(run.out, self.run_program("sweep", "--vary", "bow=0mm:2mm:0.5mm", "si.csv").out)

    def test_lengths_of_the_shop(self):
        self.same(["limit", "--find", "bow", "--to", "1/2"], ["limit", "--find", "bow", "--to", "0.5in"], "us.csv")
        self.same(["limit", "--find", "bow", "--to", "1/2in"], ["limit", "--find", "bow", "--to", "0.5in"], "si.csv")
        self.same(["limit", "--find", "length", "--from", "2'", "--to", "3' 6 1/2\""],
                  ["limit", "--find", "length", "--from", "24in", "--to", "42.5in"], "si.csv")
        self.assertRun(self.run_program("limit", "--find", "bow", "--to", "1/2", "si.csv"), 2,
                       "--to: bow: '1/2' is a fraction, but the column is in mm: write its unit, or a decimal",
                       "case,column,limit [in],now [in],room [in],state\n")

    def test_angles_are_in_degrees_where_there_is_no_column(self):
        self.same(["limit", "--find", "bow_clock", "--to", "90"], ["limit", "--find", "bow_clock", "--to", "90deg"], "us.csv")

    def test_sizes_of_a_section(self):
        for size in "32x1.5mm", "32mmx1.5":
            self.assertRun(self.run_program("section", size), 2, f"section: '{size}': either both sizes have their unit, or none", "")
        self.assertRun(self.run_program("section", "32x1.5", "--units", "si"), 2,
                       "section: '32x1.5' names no unit: write it, as in 32mmx1.5mm or 1.25inx0.058in", "")
        self.assertRun(self.run_program("section", "--ods", "32", "--walls", "1.5mm", "--units", "si"), 2,
                       "section: '32' names no unit: write it, as in 32mmx1.5mm or 1.25inx0.058in", "")
        self.assertRun(self.run_program("section", "1-1/4x1/16"), 0, out=self.run_program("section", "1.25x0.0625").out)

    def test_a_gauge(self):
        shop = self.installed.source / "cases"
        words = ["inspect", "--spec", shop / "spec.csv", shop / "readings.csv"]
        self.assertEqual(self.run_program(*words).out, self.run_program(*words, "--gauge", "0.001").out)
        self.assertEqual(self.run_program(*words, "--gauge", "0.004").out, self.run_program(*words, "--gauge", "0.1016mm").out)
        metric = (shop / "readings.csv").read_text().replace("reading [in]", "reading [mm]")
        self.file("metric.csv", metric)
        words[-1] = "metric.csv"
        self.assertEqual(self.run_program(*words, "--gauge", "0.1016").out, self.run_program(*words, "--gauge", "0.004in").out)

    def test_a_margin_in_per_cent(self):
        self.same(["limit", "--find", "bow", "--to", "0.9in", "--margin", "10%"],
                  ["limit", "--find", "bow", "--to", "0.9in", "--margin", "0.1"], "us.csv")


class Wanted(ProgramTest):
    def setUp(self):
        super().setUp()
        self.cases({"case": "nose left", "part": "nose", **BOWED}, {"case": "nose right", "part": "nose", **BOWED},
                   {"case": "tail", **BOWED, **SHORT}, {"case": "[odd]", "part": "spare", **BOWED})

    def names(self, *words):
        run = self.check("cases.csv", *words)
        self.assertEqual(run.err, "")
        return run.names

    def test_patterns(self):
        self.assertEqual(self.names("--case", "nose*"), ["nose left", "nose right"])
        self.assertEqual(self.names("--case", "nose ?ight"), ["nose right"])
        self.assertEqual(self.names("--case", "tail", "--case", "*left"), ["nose left", "tail"])
        self.assertEqual(self.names("--part", "nose"), ["nose left", "nose right"])
        self.assertEqual(self.names("--part", "tail"), ["tail"])  # its own part
        self.assertEqual(self.names("--part", "nose", "--case", "*right"), ["nose right"])
        self.assertEqual(self.names("--case", "[[]odd]"), ["[odd]"])
        self.assertEqual(self.names("--case", "\\[odd]"), ["[odd]"])
        self.assertEqual(self.check("cases.csv", "--case", "nose*").status, 0)

    def test_every_command_that_takes_load_cases(self):
        self.file("t.csv", "column,minus,plus,unit\nwall,1,1,%\n")
        for words in (["compare", "--walls=0.058"], ["sweep", "--vary", "bow=0:0.1:0.1"], ["limit", "--find", "bow", "--to", "0.1"],
                      ["index"], ["scatter", "--tolerances", "t.csv", "--samples", "16"]):
            with self.subTest(words=words):
                run = self.run_program(*words, "cases.csv", "--case", "*left")
                named = {row["case"] or row["part"] for row in run.rows}  # of index also the part alone
                self.assertEqual((named - {"nose"}, run.err), ({"nose left"}, ""))
        self.assertIn("'tail'", self.run_program("explain", "cases.csv", "--case", "t*").out)
        run = self.run_program("explain", "cases.csv", "--case", "nose*")
        self.assertRun(run, 2, "cases.csv: case: lines 2, 3 meet the patterns; name the one to explain, behind the file: "
                               "'nose left', 'nose right'", "")
        self.assertIn("'nose left'", self.run_program("explain", "cases.csv", "nose left", "--part", "nose").out)
        shop = self.installed.source / "cases"
        words = ["inspect", "--spec", shop / "spec.csv", "--cases", shop / "parts.csv", shop / "readings.csv"]
        everything = {row["case"] for row in self.run_program(*words).rows if row["case"]}
        one = sorted(everything)[0]
        run = self.run_program(*words, "--case", one)
        self.assertEqual({row["case"] for row in run.rows if row["case"]}, {one})
        self.assertLess(1, len(everything))

    def test_a_pattern_that_nothing_meets(self):
        run = self.check("cases.csv", "--case", "tail", "--case", "tial", "--part", "bow*", "--format", "json")
        self.assertEqual((run.status, run.json["rows"]), (2, []))
        self.assertEqual(run.err, "railbow: --case: no case meets 'tial'\nrailbow: --part: no case's part meets 'bow*'\n")
        self.file("old", "old")
        self.check("cases.csv", "--case", "tail", "--case", "tial", "-o", "old")
        self.assertEqual(self.read("old"), "old")


class Repeated(ProgramTest):
    def test_twenty_of_a_kind(self):
        self.cases(*[{"length [in]": f"x{i}"} for i in range(30)], HOLDS, {"od [in]": "0"})
        run = self.check()
        lines = run.err.splitlines()
        self.assertEqual(len(lines), 22)
        self.assertEqual(lines[19], "railbow: cases.csv:21: length: 'x19' is not a number")
        self.assertEqual(lines[20], "railbow: cases.csv:33: od: '0' is out of range: must be above 0")
        self.assertEqual(lines[21], "railbow: 10 more messages of this kind are not shown: cases.csv:2: length: 'x0' is not a number")
        self.assertEqual((run.names, run.status), (["rail"], 2))

    def test_twenty_are_all_shown(self):
        self.cases(*[{"length [in]": "x"} for i in range(20)])
        self.assertEqual(self.check().err.count("\n"), 20)


if __name__ == "__main__":
    run_tests()
