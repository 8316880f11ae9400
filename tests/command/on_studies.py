"""compare, sweep, limit, index and scatter: what they answer, what they refuse, and how they end."""

import csv
import math
import os
import pty
import re
import select
import signal
import time

from on_answers import UNITS
from on_usage import CAUTION, joined
from program import (CASE_COLUMNS, COMPARE_COLUMNS, HOLDS, INDEX_COLUMNS, LIMIT_COLUMNS, SANITIZED, SCATTER_COLUMNS,
                     SHORT, SWEEP_COLUMNS, ProgramTest, environment, name_and_unit)

STOCK_WALLS = [0.028, 0.035, 0.049, 0.058, 0.065, 0.083, 0.095, 0.120]
BAD_WALL = "must be above 0 and at most half of od (a solid bar)"
THIN = "is too thin for this od: D/t may be at most 0.45 E/Fy (AISC 360 E7)"
LENGTHS = "in, ft, mm, cm or m"
# Everything that a study could get wrong at once: ends by name, a bow, a miss, a weld zone, side load.
RICH = {"end_a": "welded", "end_b": "fixed", "length [in]": "36", "compression [lbf]": "4200", "bow [in]": "0.06",
        "bow_clock": "40", "miss_a [in]": "0.1", "spread_load [lbf/in]": "4", "weld_zone [in]": "1"}
TOLERANCES = "column,minus,plus,unit,shape\nwall,10,10,%,normal\nbow,0.03,0.03,in,triangular\ncompression,10,15,%,\n"
HOSTILE = "a\033[31mb\rc\td\u009be" + "x" * 200

LASTS = "40000" if SANITIZED else "400000"  # samples that take some seconds


class StudyTest(ProgramTest):
    def study(self, words, *more, **how):
        """`words` as typed; the file of cases stands last."""
        return self.run_program(*words.split(), "cases.csv", *more, **how)

    def text(self, words, *more):
        run = self.study(words, "--format", "text", *more)
        for line in run.out.splitlines():
            self.assertLessEqual(len(line), 100, line)
            self.assertEqual(line, line.rstrip())
        self.assertEqual([c for c in run.out if c != "\n" and (ord(c) < 32 or 127 <= ord(c) < 160)], [])
        for word in CAUTION:
            self.assertIn(word, joined(run.out))
        return run.out

    def near(self, got, want, rel=1e-8, within=1e-9):
        self.assertLessEqual(abs(float(got) - want), rel * abs(want) + within, (got, want))


class Messages(StudyTest):
    """Each refused before anything is read or written."""

    FORM = "is not COLUMN=FROM:TO:STEP"
    REFUSED = [
        ("compare --walls 0.05,,", f"--walls: '' is not a number above 0, alone (in) or with its unit: {LENGTHS}"),
        ("compare --walls 0.05lb", f"--walls: '0.05lb' is not a number above 0, alone (in) or with its unit: {LENGTHS}"),
        ("compare --walls=0", f"--walls: '0' is not a number above 0, alone (in) or with its unit: {LENGTHS}"),
        ("compare --ods 1,-1", f"--ods: '-1' is not a number above 0, alone (in) or with its unit: {LENGTHS}"),
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
        ("limit", "limit: name a column with --find and where to end with --to; see 'railbow help limit'"),
        ("limit --find bow", "limit: name a column with --find and where to end with --to; see 'railbow help limit'"),
        ("limit --to 1", "limit: name a column with --find and where to end with --to; see 'railbow help limit'"),
        ("limit --find bo --to 1", "--find: there is no column 'bo'; did you mean 'bow'?"),
        ("limit --find note --to 1", "--find: column 'note' is not a number"),
        ("limit --find bow --to far", f"--to: bow: 'far' is not a number, alone or with its unit: {LENGTHS}"),
        ("limit --find bow --from 1N --to 1", f"--from: bow: '1N' is not a number, alone or with its unit: {LENGTHS}"),
        ("limit --find bow --to 0", "limit: --from and --to must differ"),
        ("limit --find bow --from 1 --to 25.4mm", "limit: --from and --to must differ"),
        ("limit --find bow --to 1 --margin=-2", "--margin: '-2' is not a number of at least -1"),
        ("limit --find bow --to 1 --margin 5%", "--margin: '5%' is not a number of at least -1"),
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
        for words in ("compare", "sweep --vary bow=0:1:1", "limit --find bow --to 1", "index", "scatter --tolerances t.csv"):
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

    def test_a_word_cannot_be_scattered(self):
        self.file("t.csv", "column,minus,plus,unit\nend_a,1,1,%\ngap_stiffness,1,1,%\nbow,1,1,\n")
        self.cases({**HOLDS, "end_a": "welded"})
        self.assertRun(self.study("scatter --tolerances t.csv"), 2,
                       ["cases.csv:2: end_a: has no number to vary ('welded'): give one",
                        "cases.csv:2: gap_stiffness: has no number to vary: give one"])

    def test_a_bad_case_is_left_out_and_said(self):
        self.file("t.csv", TOLERANCES)
        self.cases({"case": "good", **HOLDS}, {"wall [in]": "0.7"}, {"material": "5130"})
        for words in "compare", "index", "scatter --tolerances t.csv":
            with self.subTest(words=words):
                run = self.study(words)
                self.assertEqual((set(run.names), run.status), ({"good"}, 2))
                self.assertIn(f"cases.csv:3: wall: {BAD_WALL}", run.err)
                self.assertIn("cases.csv:4: material: '5130' is not in ", run.err)
                self.assertIn("Some rows could not be answered", joined(self.text(words)))
        for words in "sweep --vary compression=1:2:1", "limit --find compression --to 99":
            run = self.study(words)
            self.assertEqual((set(run.names), run.status), ({"good"}, 2))
            self.assertIn(f"cases.csv:3: wall: {BAD_WALL} (at", run.err)

    def test_only_bad_cases(self):
        self.file("t.csv", TOLERANCES)
        self.file("old.csv", "old")
        self.cases({"material": "5130"})
        for words in ("compare", "sweep --vary bow=0:1:1", "limit --find bow --to 1", "index", "scatter --tolerances t.csv"):
            self.assertEqual(self.study(words, "-o", "old.csv").status, 2)
            self.assertEqual(self.read("old.csv"), "old")
            text = self.text(words)
            self.assertNotIn("inside its limit", text)
            self.assertIn("Some rows could not be answered", text)


class Form(StudyTest):
    """CSV, JSON and SI of all five, hostile names, jobs, full devices."""

    STUDIES = {
        "compare": "compare --walls 0.049,0.065,0.7",
        "sweep": "sweep --vary miss_a=0:0.5:0.25 --vary wall=0.049:0.7:0.6",
        "limit": "limit --find miss_a --to 9",
        "index": "index",
        "scatter": "scatter --tolerances t.csv --samples 500 --drivers",
    }
    HEADERS = {
        "compare": "case,od [in],wall [in],weight [lb],weight_change [lb],stiffness_change,margin,governs,verdict,pick",
        "sweep": "case,miss_a [in],wall [in],margin,governs,verdict,yield_factor,column_factor,interaction_factor,"
                 "fit_stress [psi],peak_stress [psi],deflection [in]",
        "limit": "case,column,limit [in],now [in],room [in],state",
        "index": "case,margin_as_marked,best_clock [deg],best_margin,worst_clock [deg],worst_margin",
        "scatter": ",".join(SCATTER_COLUMNS),
    }
    NAMES = {"compare": COMPARE_COLUMNS, "sweep": ["case", "miss_a", "wall"] + SWEEP_COLUMNS, "limit": LIMIT_COLUMNS,
             "index": INDEX_COLUMNS, "scatter": SCATTER_COLUMNS}

    def setUp(self):
        super().setUp()
        self.file("t.csv", TOLERANCES)

    def test_columns_rows_and_json(self):
        self.cases({"case": "one", **RICH}, {"case": "idle"}, {"case": "two", **RICH, "length [in]": "60"})
        for name, words in self.STUDIES.items():
            with self.subTest(study=name):
                run = self.study(words)
                self.assertEqual(run.out.splitlines()[0], self.HEADERS[name])
                answer = self.study(words, "--format", "json").json
                self.assertEqual(answer["units"], dict(
                    pair for pair in map(name_and_unit, self.HEADERS[name].split(",")) if pair[1]))
                self.assertEqual(len(answer["rows"]), len(run.rows))
                for row, other in zip(run.rows, answer["rows"]):
                    self.assertEqual(list(other), self.NAMES[name])
                    for column, cell in row.items():
                        value = other[name_and_unit(column)[0]]
                        if value is None:
                            self.assertIn(cell, ("", "inf"), column)
                        elif isinstance(value, str):
                            self.assertEqual(cell, value)
                        else:
                            self.near(cell, value, 6e-10, 0)

    def test_si(self):
        self.cases({"case": "one", **RICH})
        for name, words in self.STUDIES.items():
            with self.subTest(study=name):
                us, si = (self.study(words, "--format", "json", "--units", units).json for units in ("us", "si"))
                for row, other in zip(us["rows"], si["rows"], strict=True):
                    for column, value in row.items():
                        if isinstance(value, str) or value is None:
                            self.assertEqual(other[column], value)
                            continue
                        scale = 1
                        if column in us["units"]:
                            scale = float(UNITS[us["units"][column]] / UNITS[si["units"][column]])
                        self.near(other[column], value * scale, 1e-12, 0)
                self.text(words, "--units", "si")

    def test_hostile_names(self):
        for cases in ([HOLDS], [SHORT], [RICH], [{}, RICH, SHORT]):
            self.cases(*({"case": HOSTILE, "note": HOSTILE, **case} for case in cases), quoting=csv.QUOTE_ALL)
            for words in self.STUDIES.values():
                with self.subTest(words=words, cases=cases):
                    self.assertIn("a\\x1B[31mb\\x0Dc\\x09d", self.text(words))

    def test_loads_of_any_size(self):
        for load in "1e-30", "1e30", "-1e-30", "-1e30", "0":
            self.cases({**RICH, "compression [lbf]": load})
            for words in self.STUDIES.values():
                with self.subTest(words=words, load=load):
                    self.text(words)

    def test_any_number_of_jobs_gives_the_same_bytes(self):
        rows = [{"case": f"rail {i}", **RICH, "length [in]": str(15 + i / 3),
                 "wall [in]": "0.7" if i % 11 == 5 else "0.058"} for i in range(40)]
        self.cases(*rows)
        for name, words in self.STUDIES.items():
            words = words.replace("500", "130")
            for form in "csv", "json", "text":
                with self.subTest(study=name, form=form):
                    one, other = (self.study(words, "--format", form, "--jobs", jobs) for jobs in (1, 5))
                    self.assertTrue(one == other)
                    self.assertEqual(one.status, 2)

    def test_a_full_device(self):
        self.cases(RICH)
        with open("/dev/full", "wb") as full:
            for words in self.STUDIES.values():
                run = self.study(words, stdout=full)
                self.assertIn("railbow: stdout: cannot write: No space left on device\n", run.err)
                self.assertEqual(run.status, 2)

    def test_standard_input_and_output_files(self):
        self.cases(RICH)
        for name, words in self.STUDIES.items():
            want = self.study(words)
            self.assertEqual(self.run_program(*words.split(), "-", stdin=self.read("cases.csv")).out, want.out)
            self.assertEqual(self.study(words, "-o", "out").out, "")
            self.assertEqual(self.read("out"), want.out)
            self.study(words, "-o", "out", "--format", "text")
            self.assertEqual(self.read("out"), self.text(words))


class Compare(StudyTest):
    CASES = [{"case": "rich", **RICH, "end_a": None, "end_a [in-lbf/rad]": "welded"},
             {"case": "pull", "compression [lbf]": "-9000"},
             {"case": "sprung", "end_a [in-lbf/rad]": "20000", "compression [lbf]": "5000", "od [in]": "1.5",
              "bow [in]": "0.05"}]

    def test_against_check_on_edited_rows(self):
        self.cases(*self.CASES)
        walls, ods = ["0.028", "0.049", "0.065", "0.083"], ["1.25", "1.375"]
        for words, chosen in (("", [""]), (f" --ods {','.join(ods)}", ods)):
            run = self.study(f"compare --walls {','.join(walls)}{words}")
            got = iter(run.rows)
            own = {name: row for name, row in zip(("rich", "pull", "sprung"), self.check().rows)}
            for case in self.CASES:
                for od in chosen:
                    for wall in walls:
                        edited = {**case, "wall [in]": wall, **({"od [in]": od} if od else {})}
                        self.cases(edited, name="edited.csv")
                        want, row = self.check("edited.csv").rows[0], next(got)
                        for column in "case", "od [in]", "wall [in]", "weight [lb]", "margin", "governs", "verdict":
                            self.assertEqual(row[column], want[column], (edited, column))
                        old = own[case["case"]]
                        self.near(row["weight_change [lb]"], float(want["weight [lb]"]) - float(old["weight [lb]"]), 1e-7)
                        self.near(row["stiffness_change"], float(want["inertia [in^4]"]) / float(old["inertia [in^4]"]) - 1)
            self.assertEqual(next(got, None), None)

    def test_the_pick_is_the_lightest_that_holds(self):
        self.cases(*self.CASES)
        rows = self.study("compare --ods 1.25,1.375,1.5").rows
        for case in "rich", "pull", "sprung":
            mine = [row for row in rows if row["case"] == case]
            holding = [row for row in mine if row["verdict"] == "holds"]
            lightest = min(holding, key=lambda row: float(row["weight [lb]"]))
            self.assertEqual([row for row in mine if row["pick"]], [lightest])

    def test_stock_walls(self):
        self.cases(HOLDS)
        for words in "compare", "compare --walls":
            self.assertEqual([float(row["wall [in]"]) for row in self.study(words).rows], STOCK_WALLS)
        run = self.run_program("compare", "cases.csv", "--walls", "0.05,1.5mm")
        self.assertEqual([row["wall [in]"] for row in run.rows], ["0.05", "0.05905511811"])

    def test_tubes_that_cannot_be_are_listed_with_their_reason(self):
        self.cases({"case": "thin", **HOLDS}, {"case": "fat", **HOLDS, "od [in]": "2"})
        run = self.study("compare --walls 0.7,0.004,0.058,0.0001")
        self.assertRun(run, 0)
        verdicts = [(row["case"], row["wall [in]"], row["verdict"]) for row in run.rows]
        self.assertEqual(verdicts[0], ("thin", "0.7", f"not possible: wall {BAD_WALL}"))
        self.assertEqual(verdicts[3], ("thin", "0.0001", f"not possible: wall {THIN}"))
        self.assertEqual(verdicts[4], ("fat", "0.7", "holds"))
        self.assertEqual([run.rows[0][c] for c in ("margin", "governs", "pick")], ["", "none", ""])
        text = joined(self.text("compare --walls 0.7,0.004,0.058,0.0001"))
        self.assertIn(f"0.700 in is not possible: wall {BAD_WALL} ('thin')", text)
        self.assertIn(f"0.0001 in is not possible: wall {THIN} ('thin' and 1 more)", text)
        self.assertIn("0.0001 not possible - - - -", text)
        self.assertNotIn("nan", text)
        self.cases(HOLDS)
        run = self.study("compare --walls 0.9")
        self.assertEqual((run.status, len(run.rows)), (1, 1))
        self.assertTrue(self.text("compare --walls 0.9").startswith("None of these tubes is possible.\n"))

    def test_the_frame_comes_first(self):
        self.cases({"case": "easy", **HOLDS}, {"case": "hard", "compression [lbf]": "9000", "length [in]": "30"})
        rows = self.study("compare").rows
        for wall in sorted({row["wall [in]"] for row in rows}, key=float):
            mine = [row for row in rows if row["wall [in]"] == wall]
            if all(row["verdict"] == "holds" for row in mine):
                break
        weight = sum(float(row["weight [lb]"]) for row in mine)
        change = sum(float(row["weight_change [lb]"]) for row in mine)
        worst = min(mine, key=lambda row: float(row["margin"]))
        text = joined(self.text("compare"))
        self.assertTrue(text.startswith(
            f"For the whole frame: wall {float(wall):.3f} in is the lightest that holds in all 2 cases: {weight:.2f} lb "
            f"({change:+.2f} lb against the tubes as given), worst margin {100 * float(worst['margin']):+.1f} % in "
            f"'hard'."), text)
        self.assertRun(self.study("compare"), 0)

    def test_no_one_tube(self):
        # all but the thinnest hold in one case: the nearest is the one with the best worst margin
        self.cases({"case": "easy", **HOLDS}, {"case": "hard", "compression [lbf]": "99000"})
        self.assertEqual(self.study("compare").status, 1)
        text = joined(self.text("compare"))
        self.assertTrue(text.startswith("No one wall holds in every case. Nearest: 0.120 in holds in 1 of 2, worst "
                                        "margin -"), text)

    def test_each_case_by_another_tube_is_not_one_tube(self):
        # a large tube in a small socket's miss bends more; a run load wants it large
        forced = {"case": "forced", "length [in]": "24", "end_a": "fixed", "end_b": "fixed", "miss_a [in]": "0.6",
                  "compression [lbf]": "100", "factor": "1"}
        self.cases(forced, {"case": "loaded", "compression [lbf]": "9000", "end_a": "", "end_b": ""})
        run = self.study("compare --walls 0.058 --ods 0.5,1.5")
        self.assertEqual([(row["case"], row["verdict"]) for row in run.rows],
                         [("forced", "holds"), ("forced", "short"), ("loaded", "short"), ("loaded", "holds")])
        self.assertEqual(run.status, 1)
        self.assertIn("No one tube holds in every case. Nearest: ", joined(self.text("compare --walls 0.058 --ods 0.5,1.5")))


class Sweep(StudyTest):
    def test_against_check_on_edited_rows(self):
        self.cases(RICH)
        for column, values, spread in (("miss_a", ["0", "0.125", "0.25"], "0:0.25:0.125"),
                                       ("compression", ["5000", "4000", "3000"], "5000:3000:-1000"),
                                       ("length", ["30", "36", "42"], "2.5ft:3.5ft:6in"),
                                       ("bow_clock", ["-90", "0", "90"], "-90:90:90"),
                                       ("wall", ["0.049", "0.065"], "0.049:0.065:0.016"),
                                       ("factor", ["1", "1.5", "2"], "1:2:0.5")):
            rows = self.study(f"sweep --vary {column}={spread}").rows
            header = next((c for c in RICH if name_and_unit(c)[0] == column), column)
            header = {"wall": "wall [in]"}.get(column, header)
            self.assertEqual(len(rows), len(values))
            for row, value in zip(rows, values):
                self.cases({**RICH, header: value}, name="edited.csv")
                want = self.check("edited.csv").rows[0]
                got = [row[c] for c in row if name_and_unit(c)[0] == column]
                self.near(got[0], float(value))
                for c in ("margin", "yield_factor", "column_factor", "interaction_factor", "fit_stress [psi]",
                          "peak_stress [psi]", "deflection [in]"):
                    self.near(row[c], float(want[c]))
                self.assertEqual((row["governs"], row["verdict"]), (want["governs"], want["verdict"]))

    def test_eleven_values_without_drift(self):
        self.cases(RICH)
        run = self.study("sweep --vary miss_a=0:1:0.1")
        self.assertEqual([row["miss_a [in]"] for row in run.rows], [f"{i / 10:g}" for i in range(11)])
        exact = self.study("sweep --vary miss_a=0:1:0.1", "--format", "json").json["rows"]
        self.assertEqual([row["miss_a"] for row in exact], [i / 10 for i in range(11)])
        self.assertEqual([row["bow"] for row in self.study("sweep --vary bow=0mm:2mm:0.5mm", "--format", "json", "--units",
                                                           "si").json["rows"]], [0, 0.5, 1, 1.5, 2])

    def test_every_number_column_in_any_unit(self):
        self.cases(RICH)
        words = {"case", "note", "part", "material", "column_curve", "bow_shape"}
        for column in CASE_COLUMNS:
            run = self.study(f"sweep --vary {column}=0.01:0.02:0.01")
            if column in words:
                self.assertRun(run, 2, f"--vary: column '{column}' is not a number", "")
            elif run.rows:  # 0.01 is no od, and the like
                self.assertEqual(len(run.rows), 2, column)
                self.assertIn(run.status, (0, 1))
            else:
                self.assertIn(f"(at {column} 0.01 ", run.err)

    def test_a_grid(self):
        self.cases({"case": "a", **RICH}, {"case": "b", **RICH})
        rows = self.study("sweep --vary wall=0.049:0.065:0.008 --vary miss_a=0:0.1:0.1").rows
        self.assertEqual([(r["case"], r["wall [in]"], r["miss_a [in]"]) for r in rows],
                         [(c, w, m) for c in "ab" for w in ("0.049", "0.057", "0.065") for m in ("0", "0.1")])

    def test_exit_status(self):
        self.cases({**HOLDS})
        self.assertEqual(self.study("sweep --vary compression=100:300:100").status, 0)
        self.assertEqual(self.study("sweep --vary compression=100:30100:10000").status, 1)
        self.assertEqual(self.study("sweep --vary wall=0.05:0.75:0.1").status, 2)

    def test_refusals_in_a_row_are_one_message(self):
        self.cases(HOLDS)
        run = self.study("sweep --vary wall=0.525:1.025:0.1")
        self.assertRun(run, 2, f"cases.csv:2: wall: {BAD_WALL} (at wall 0.725 in to wall 1.025 in: 4 values)")
        self.assertEqual(len(run.rows), 2)
        self.assertEqual(self.study("sweep --vary wall=0.55:0.65:0.1").err,
                         f"railbow: cases.csv:2: wall: {BAD_WALL} (at wall 0.65 in)\n")

    def test_the_walls_of_a_material(self):
        # what serves the varied wall counts, not what serves the case's own
        self.file("m.csv", "material,wall_over [in],wall_up_to [in],elastic_modulus [ksi],density [lb/in^3],yield [ksi]\n"
                           "4130,0.1,0.2,29000,0.283,75\n")
        self.cases(HOLDS)
        for words in "sweep --vary wall=0.12:0.14:0.01", "limit --find wall --from 0.12 --to 0.15":
            self.assertEqual(self.study(words, "--materials", "m.csv").status, 0)
        self.assertRun(self.study("sweep --vary bow=0:1:1", "--materials", "m.csv"), 2, "cases.csv:2: wall: 4130 serves no "
                       "wall of 0.058 in, only over 0.1 up to 0.2 in (m.csv)", self.HEAD)
        run = self.study("sweep --vary wall=0.09:0.15:0.03", "--materials", "m.csv")
        self.assertEqual((len(run.rows), run.status), (2, 2))
        self.assertIn("wall: is served by no row of this material (at wall 0.09 in)", run.err)

    HEAD = ("case,bow [in]," + ",".join(SWEEP_COLUMNS).replace("fit_stress,peak_stress,deflection",
            "fit_stress [psi],peak_stress [psi],deflection [in]") + "\n")

    def test_text(self):
        self.cases({"case": "rail", "compression [lbf]": "1000"}, {"case": "rail", "compression [lbf]": "2000"})
        text = self.text("sweep --vary compression=2000:14000:3000")
        self.assertEqual(text.count("<- changes here"), 2)
        self.assertEqual(text.count("'rail': holds for "), 2)
        changes = re.search(r"(?s)changes between (\d+) and (\d+) lbf; worst margin -[\d.]+ % at compression 14000 lbf",
                            joined(text))
        rows = self.study("sweep --vary compression=2000:14000:3000").rows[:5]
        held = [float(row["compression [lbf]"]) for row in rows if row["verdict"] == "holds"]
        self.assertEqual([float(n) for n in changes.groups()], [held[-1], held[-1] + 3000])
        bars = re.findall(r"(?m) % {2}([-+| ]{24})  ", text)[:5]
        zero = bars[0].index("|")
        for bar, row in zip(bars, rows):
            self.assertEqual(bar.index("|"), zero)
            self.assertEqual(bar.strip("| ")[:1], "+" if float(row["margin"]) >= 0 else "-")

    def test_a_grid_marks_changes_along_the_second_column_only(self):
        self.cases({"case": "rail"})
        text = self.text("sweep --vary wall=0.05:0.06:0.01 --vary compression=2000:14000:12000")
        self.assertEqual(text.count("<- changes here"), 2)


class Limit(StudyTest):
    def test_against_check(self):
        self.cases(RICH)
        for words, header in (("--find miss_a --to 1", "miss_a [in]"), ("--find compression --to 30kN", "compression [lbf]"),
                              ("--find length --from 20 --to 200", "length [in]"), ("--find bow --to 20mm", "bow [in]"),
                              ("--find wall --from 0.12 --to 0.03", "wall [in]"), ("--find spread_load --to 90", None),
                              ("--find factor --from 1 --to 9 --margin 0.1", "factor")):
            with self.subTest(words=words):
                header = header or "spread_load [lbf/in]"
                row = self.study(f"limit {words}", "--format", "json").json["rows"][0]
                self.assertEqual(row["state"], "found")
                target = 0.1 if "--margin" in words else 0
                step = 2e-7 * float(self.RANGES[name_and_unit(header)[0]])
                for value, holds in (row["limit"], True), (row["limit"] + step, False):
                    self.cases({**RICH, header: repr(value)}, name="edited.csv")
                    margin = float(self.check("edited.csv").rows[0]["margin"])
                    self.assertEqual(margin >= target - 1e-9, holds, (value, margin))

    RANGES = {"miss_a": 1, "compression": 6744, "length": 180, "bow": 0.8, "wall": -0.09, "spread_load": 90, "factor": 8}

    def test_room_states_and_exit_status(self):
        case = {"case": "rail", "compression [lbf]": "-5000", "wall [in]": "0.058"}
        self.cases(case)
        full = 75000 * math.pi * 0.058 * (1.25 - 0.058) / 1.5
        for words, limit, room, state, status in (
                ("--find compression --to -30000", -full, full - 5000, "found", 0),
                ("--find compression --from -1000 --to -4000", -4000, -1000, "never", 0),
                ("--find compression --from -29000 --to 0", -29000, 24000, "already", 1),
                ("--find factor --from 1 --to 9", full * 1.5 / 5000, full * 1.5 / 5000 - 1.5, "found", 0)):
            run = self.study(f"limit {words}", "--format", "json")
            row = run.json["rows"][0]
            self.assertEqual((row["state"], run.status, run.err), (state, status, ""))
            self.near(row["limit"], limit, 1e-7, 1e-5)
            if state != "already":
                self.near(row["room"], room, 1e-7, 1e-3)
        self.cases({**case, "compression [lbf]": "-20000"})
        run = self.study("limit --find compression --to -30000")
        self.assertEqual(run.status, 1)
        self.near(run.rows[0]["room [lbf]"], full - 20000, 1e-7, 1e-2)
        self.assertIn("now PAST it", self.text("limit --find compression --to -30000"))
        # outside the range: what is short there has no room, what holds there is told that nothing between was looked at
        note = "the present value, -20000 lbf, lies outside the range, and there the case is SHORT: it has no room"
        for words, status, room, said in (("--to 8000", 1, "", "SHORT now, outside the range"),
                                          ("--to 60000 --margin=-0.6", 0, None, "falls short beyond it *"),
                                          ("--from -1000 --to -4000", 1, "-16000", "SHORT now, outside the range")):
            run = self.study(f"limit --find compression {words}")
            self.assertEqual((run.status, note in run.err), (status, room == ""))
            row = run.rows[0]
            self.assertEqual(row["room [lbf]"], f"{float(row['limit [lbf]']) + 20000:.10g}" if room is None else room)
            text = self.text(f"limit --find compression {words}")
            self.assertIn(said, text)
            self.assertEqual("past the limit" in text, status == 1)
            self.assertEqual("nothing between was looked at" in text, room is None)
        # downward: a wall that is too thin is past its limit, and room is negative
        self.cases({**case, "compression [lbf]": "-20000"})
        run = self.study("limit --find wall --from 0.2 --to 0.01")
        self.assertEqual(run.status, 1)
        self.assertLess(float(run.rows[0]["room [in]"]), 0)
        self.near(float(run.rows[0]["now [in]"]) - float(run.rows[0]["limit [in]"]), float(run.rows[0]["room [in]"]))

    def test_a_refused_value_ends_the_range_and_that_is_said(self):
        self.cases({"compression [lbf]": "100", "length [in]": "10"})
        run = self.study("limit --find miss_a --to 5")
        end = 10 * math.tan(math.radians(10))
        self.assertRun(run, 0, f"cases.csv:2: miss_a: the range ends at {end:.6g} in; beyond it: miss_a is a slope of more "
                       "than 10 deg: outside the model's reach")
        self.near(run.rows[0]["limit [in]"], end, 0, 5e-7)
        self.assertEqual(run.rows[0]["state"], "never")
        self.assertIn("holds as far as the model goes", self.text("limit --find miss_a --to 5"))

    def test_a_start_that_is_refused(self):
        self.cases(HOLDS)
        self.assertRun(self.study("limit --find wall --to 0.1"), 2, f"cases.csv:2: wall: {BAD_WALL} (at the start of the "
                       "range, wall 0 in; begin elsewhere with --from)", "case,column,limit [in],now [in],room [in],state\n")

    def test_present_values_that_are_words_or_defaults(self):
        self.cases({**HOLDS, "end_a": "fixed", "end_b": "welded", "gap_stiffness [lbf/in]": ""})
        for column, to, now in (("end_a", "1e5", "inf"), ("end_b", "1e5", ""), ("point_at", "20", "12"),
                                ("bow_at", "20", "12"), ("factor_yield", "9", "1.5"), ("compression", "2000", "1000")):
            run = self.study(f"limit --find {column} --from 1 --to {to}")
            got = [v for c, v in run.rows[0].items() if name_and_unit(c)[0] == "now"]
            self.assertEqual(got, [now], column)
            self.text(f"limit --find {column} --from 1 --to {to}")

    def test_angles_are_in_degrees(self):
        self.cases({**RICH, "compression [lbf]": "100"})
        row = self.study("limit --find bow_clock --from 0 --to 300").rows[0]
        self.assertEqual((row["limit [deg]"], row["now [deg]"], row["room [deg]"]), ("300", "40", "260"))
        self.assertEqual(self.study("limit --find slope --from 0 --to 0.5rad").rows[0]["state"], "never")
        self.assertEqual(self.study("limit --find slope --to 10").rows[0]["state"], "never")


class Index(StudyTest):
    def test_against_sweep(self):
        self.cases({"case": "rich", **RICH}, {"case": "other", **RICH, "spread_clock": "250", "miss_a_clock": "100"})
        index = self.study("index").rows
        swept = self.study("sweep --vary bow_clock=0:359.9:0.1").rows
        checked = self.check().rows
        for row, want in zip(index, checked):
            turns = [(float(r["margin"]), float(r["bow_clock [deg]"])) for r in swept if r["case"] == row["case"]]
            self.assertEqual(len(turns), 3600)
            self.assertEqual(row["margin_as_marked"], want["margin"])
            for best, (margin, clock) in (("best", max(turns)), ("worst", min(turns))):
                self.near(row[f"{best}_margin"], margin, 1e-6)
                self.assertLessEqual(abs(float(row[f"{best}_clock [deg]"]) - clock), 0.15)

    def test_exit_status_and_words(self):
        side = {"compression [lbf]": "4000", "bow [in]": "0.2", "spread_load [lbf/in]": "8", "length [in]": "36"}
        self.cases({"case": "with", **side, "bow_clock": "0"}, {"case": "against", **side, "bow_clock": "180"},
                   {"case": "straight", **side, "bow [in]": "0"}, {"case": "idle", "bow [in]": "0.2"})
        run = self.study("index")
        rows = {row["case"]: row for row in run.rows}
        self.assertEqual(run.status, 1)
        self.assertAlmostEqual(float(rows["with"]["best_clock [deg]"]), 180, delta=0.1)
        self.assertAlmostEqual(float(rows["with"]["worst_clock [deg]"]), 0, delta=0.1)
        for name in "straight", "idle":
            row = rows[name]
            self.assertEqual(len({row[c] for c in ("margin_as_marked", "best_margin", "worst_margin")}), 1)
            self.assertEqual((row["best_clock [deg]"], row["worst_clock [deg]"]), ("0", "0"))
        self.assertEqual(rows["idle"]["best_margin"], "inf")
        text = self.text("index")
        self.assertIn("Turning the tube's own bow is worth doing in 1 of 4 cases, most in 'with'.", joined(text))
        win = 100 * (float(rows["with"]["best_margin"]) - float(rows["with"]["margin_as_marked"]))
        self.assertRegex(text, rf"(?m)^with .* {re.escape(f'{win:+.1f}')} points")
        self.assertRegex(text, r"(?m)^against .* too little$")
        self.assertRegex(text, r"(?m)^straight .* no bow$")
        self.assertRegex(text, r"(?m)^idle .* too little$")
        self.cases({**side, "bow_clock": "180"})
        self.assertIn("wins less than a point of margin: not worth doing.", joined(self.text("index")))


class Scatter(StudyTest):
    def setUp(self):
        super().setUp()
        self.file("t.csv", TOLERANCES)

    def scatter(self, *words, **how):
        return self.run_program("scatter", "cases.csv", "--tolerances", "t.csv", *words, **how)

    def test_the_same_seed_the_same_bytes(self):
        self.cases(RICH, {**RICH, "length [in]": "48"})
        one = self.scatter()
        self.assertEqual(one, self.scatter("--seed", "1", "--samples", "4096"))
        self.assertNotEqual(one.out, self.scatter("--seed", "2").out)
        self.assertEqual([row["samples"] for row in one.rows], ["4096"] * 2)

    def test_exit_status(self):
        for case, status in (HOLDS, 0), (SHORT, 1), ({"case": ""}, 2):
            self.cases(case)
            self.assertEqual(self.scatter("--samples", "200").status, status)

    def test_units_and_percent_say_the_same(self):
        self.cases(RICH)
        runs = []
        for row in "wall,10,10,%", "wall,0.0058,0.0058,in", "wall,0.0058,0.0058,", "wall,0.14732,0.14732,mm":
            self.file("t.csv", f"column,minus,plus,unit\n{row}\n")
            runs.append(self.scatter("--samples", "500").rows[0])
        for run in runs[1:]:
            for column in "margin_mean", "margin_sd", "margin_p01", "margin_p95":
                self.near(run[column], float(runs[0][column]), 1e-8)

    def test_an_even_wall_of_a_straight_column(self):
        # Euler's curve: margin = pi^2 E I(t)/(1.5 P L^2) - 1, t even between 0.050 and 0.066
        self.cases({"length [in]": "60", "compression [lbf]": "2000", "column_curve": "euler"})
        self.file("t.csv", "column,minus,plus,unit\nwall,0.008,0.008,in\n")
        row = self.scatter().rows[0]

        def margin(wall):
            return math.pi**3 / 64 * 29e6 * (1.25**4 - (1.25 - 2 * wall)**4) / (3000 * 3600) - 1

        walls = [0.05 + 0.016 * (i + 0.5) / 10000 for i in range(10000)]
        self.near(row["margin_mean"], sum(map(margin, walls)) / 10000, 0, 1e-4)
        self.near(row["short_share"], sum(margin(wall) < 0 for wall in walls) / 10000, 0, 1e-3)
        for column, share in ("margin_p01", 0.01), ("margin_p05", 0.05), ("margin_p50", 0.5), ("margin_p95", 0.95):
            self.near(row[column], margin(0.05 + 0.016 * share), 0, 2e-4)
        self.assertEqual(row["driver"], "wall")
        self.assertGreater(float(row["driver_share"]), 0.99)

    def test_drivers(self):
        self.cases(RICH)
        first, rows = self.scatter().rows, self.scatter("--drivers").rows
        self.assertEqual(first, rows[:1])
        self.assertEqual(sorted(row["driver"] for row in rows), ["bow", "compression", "wall"])
        shares = [float(row["driver_share"]) for row in rows]
        self.assertEqual(shares, sorted(shares, reverse=True))
        self.assertTrue(0.9 < sum(shares) < 1.05)

    def test_nothing_drives(self):
        self.cases({"compression [lbf]": "-1000"})
        self.file("t.csv", "column,minus,plus\nbow_clock,10,10\n")
        row = self.scatter("--samples", "100").rows[0]
        self.assertEqual((row["driver"], row["driver_share"], row["margin_sd"]), ("", "", "0"))
        self.assertIn("Nothing that varies moves the margin.", self.text("scatter --tolerances t.csv"))

    def test_samples_outside_the_model_without_limit_and_unstable(self):
        self.file("t.csv", "column,minus,plus,unit\nbow,0.01,0.03,in\n")
        self.cases({"case": "refused", **HOLDS}, {"case": "idle"},
                   {"case": "unstable", "compression [lbf]": "40000", "column_curve": "euler"})
        run = self.scatter("--samples", "1000")
        refused, idle, unstable = run.rows
        self.assertAlmostEqual(float(refused["refused"]), 250, delta=2)
        self.assertEqual([idle[c] for c in ("short_share", "margin_mean", "margin_p50", "driver")], ["0", "", "", ""])
        self.assertEqual((unstable["short_share"], unstable["short_high"]), ("1", "1"))
        text = joined(self.text("scatter --tolerances t.csv --samples 1000"))
        self.assertRegex(text, r"Outside the model and not judged: \d+ \(the first: bow must be at least 0; turn its clock "
                               r"instead\)\.")
        self.assertRegex(text, r"Without any limit, so they hold, and stand in no mean: 7\d\d\.")
        self.assertRegex(text, r"Unstable as loaded: 7\d\d\.")
        self.assertIn("'unstable': 100.00 % of 7", text)
        self.assertRegex(text, r"'idle': none of 7\d\d samples is short \(95 % sure: under 0\.51 %\); as given the margin is "
                               r"no limit\.")

    def test_all_outside_the_model(self):
        self.cases({"case": "solid", **HOLDS})
        self.file("t.csv", "column,minus,plus,unit\nmiss_a,1,0,in\n")
        row = self.scatter("--samples", "100").rows[0]
        self.assertEqual([row[c] for c in ("samples", "refused", "short_share", "margin_mean")], ["100", "100", "", ""])
        self.assertIn("'solid': no sample lies inside the model; as given the margin is ",
                      joined(self.text("scatter --tolerances t.csv")))


class Terminal(StudyTest):
    """scatter's line about itself, and Ctrl-C."""

    def setUp(self):
        super().setUp()
        self.file("t.csv", TOLERANCES)
        self.file("old.csv", "old")

    def start_on_terminal(self, *words):
        master, slave = pty.openpty()
        process = self.start("scatter", "cases.csv", "--tolerances", "t.csv", *words, stderr=slave, env=environment(),
                             preexec_fn=lambda: signal.signal(signal.SIGINT, signal.default_int_handler))
        os.close(slave)
        self.addCleanup(os.close, master)
        return process, master

    @staticmethod
    def read_until(master, wanted, seconds=240):
        shown, end = b"", time.monotonic() + seconds
        while time.monotonic() < end:
            if not select.select([master], [], [], 0.1)[0]:
                continue
            try:
                piece = os.read(master, 4096)
            except OSError:  # how Linux says that the other side is gone
                break
            shown += piece
            if not piece or (wanted and re.search(wanted, shown)):
                break
        return shown

    LINE = rb"\r\x1b\[Kcase 1, rail: \d+ % of 50000000 samples, \d+ s left for it"

    def test_interrupted(self):
        self.cases({"case": "rail", **RICH}, {"case": "next", **RICH})
        for form in "csv", "json", "text":
            process, master = self.start_on_terminal("--samples", "50000000", "-o", "old.csv", "--format", form)
            self.assertRegex(self.read_until(master, self.LINE), self.LINE)
            self.assertEqual(len(self.listing()), 4)  # a draft stands beside the old file
            process.send_signal(signal.SIGINT)
            said = self.read_until(master, None)
            self.assertEqual(process.wait(20), 2)
            self.assertRegex(said, rb"\r\x1b\[Krailbow: cases\.csv:2: stopped in case 'rail' after \d+ of 50000000 samples; "
                                   rb"no answer is given\r\n$")
            self.assertEqual((self.listing(), self.read("old.csv")), (["cases.csv", "old.csv", "t.csv"], "old"))

    def test_interrupted_without_a_terminal(self):
        self.cases({"case": HOSTILE, **RICH}, quoting=csv.QUOTE_ALL)
        process = self.start("scatter", "cases.csv", "--tolerances", "t.csv", "--samples", "50000000",
                             preexec_fn=lambda: signal.signal(signal.SIGINT, signal.default_int_handler))
        time.sleep(1.5)
        process.send_signal(signal.SIGINT)
        out, err = process.communicate(timeout=20)
        self.assertEqual((process.returncode, out.decode()), (2, ",".join(SCATTER_COLUMNS) + "\n"))
        self.assertRegex(err.decode(), r"^railbow: cases\.csv:2: stopped in case 'a\\x1B\[31mb\\x0Dc.*'\.\.\. after \d+ of 50000000 "
                                       r"samples; no answer is given\n$")

    def test_the_line_shows_names_safely_and_goes_away(self):
        self.cases({"case": HOSTILE, **RICH}, quoting=csv.QUOTE_ALL)
        process, master = self.start_on_terminal("--samples", LASTS, "--jobs", "1")
        shown = self.read_until(master, None)
        self.assertEqual(process.wait(20), 1)
        self.assertIn(b"case 1, a\\x1B[31mb\\x0Dc\\x09d", shown)
        self.assertTrue(shown.endswith(b"\r\x1b[K"), shown)
        self.assertEqual(shown.replace(b"\r\x1b[K", b"").count(b"\x1b"), 0)

    def test_nothing_is_shown_of_a_short_run_or_elsewhere(self):
        self.cases({**HOLDS})
        process, master = self.start_on_terminal("--samples", "100")
        self.assertEqual((self.read_until(master, None), process.wait(20)), (b"", 0))
        self.cases({"case": "rail", **RICH})
        run = self.run_program("scatter", "cases.csv", "--tolerances", "t.csv", "--samples", "25000", "--jobs", "1")
        self.assertEqual(run.err, "")

    def test_what_was_ignored_stays_ignored(self):
        self.cases({"case": "rail", **RICH})
        process = self.start("scatter", "cases.csv", "--tolerances", "t.csv", "--samples", LASTS,
                             preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_IGN))
        time.sleep(0.3)
        process.send_signal(signal.SIGINT)
        out, err = process.communicate(timeout=240)
        self.assertEqual((process.returncode, err), (1, b""))
