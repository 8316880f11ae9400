"""The form of the results: CSV, JSON and text, in both systems of units, from any number of threads."""

import csv
import random
from fractions import Fraction

from program import (CAUTION, HOLDS, PLAIN, RESULT_COLUMNS, SHORT, SI, ProgramTest, in_si, joined, name_and_unit,
                     run_tests)
from units import UNITS

# A case in which every dimension counts.
FULL = {"compression [lbf]": "3000", "moment_a [in-lbf]": "240", "spread_load [lbf/in]": "1.5",
        "end_a [in-lbf/rad]": "60000", "bow [in]": "0.03", "bow_clock [deg]": "40", "torque [in-lbf]": "120"}


def near(got, want, within):
    return got == want or abs(got - want) <= within * abs(want)


class Csv(ProgramTest):
    def test_the_header(self):
        self.cases(HOLDS)
        self.assertEqual(self.check().out.splitlines()[0], RESULT_COLUMNS)
        self.assertEqual(self.check("cases.csv", "--units", "us").out, self.check().out)
        self.assertEqual(self.check("cases.csv", "--units", "si").out.splitlines()[0], in_si(RESULT_COLUMNS))

    def test_no_limit_is_inf_and_what_does_not_exist_is_empty(self):
        # no load: no limit, no movement; above its critical load: no moment, stress or movement as loaded
        self.cases({"case": "idle"}, {"case": "unstable", "compression [lbf]": "20000", "column_curve": "euler",
                                      "weld_zone [in]": "0"})
        idle, unstable = self.check().rows
        for column in "margin", "margin_unforced", "yield_factor", "column_factor", "interaction_factor":
            self.assertEqual(idle[column], "inf")
        self.assertEqual((idle["verdict"], idle["governs"], idle["deflection_clock [deg]"]), ("holds", "none", ""))
        for column in ("peak_moment [in-lbf]", "peak_moment_at [in]", "peak_stress [psi]", "stress_use",
                       "deflection [in]", "deflection_clock [deg]", "note"):
            self.assertEqual(unstable[column], "", column)
        self.assertEqual(unstable["remarks"], "unstable as loaded; no bow given")

    def test_numbers_have_ten_digits(self):
        self.cases(FULL)
        row, exact = self.check().rows[0], self.check("cases.csv", "--format", "json").json["rows"][0]
        for column, cell in row.items():
            value = exact[name_and_unit(column)[0]]
            if isinstance(value, float):
                self.assertTrue(near(float(cell), value, 5.000001e-10), (column, cell, value))

    NAMES = ["rail, upper", '1 1/4" rail', "upper\nrail", "upper\r\nrail", '"', "  blanks  ", "\u00fcber \u2116 7",
             "rail; left", "tab\t", "''", ",", "#1"]

    def test_texts_come_back_as_they_went_in(self):
        self.cases(*({"case": name, "note": name} for name in self.NAMES), quoting=csv.QUOTE_ALL)
        run = self.check()
        self.assertRun(run, 0)
        self.assertEqual([(row["case"], row["note"]) for row in run.rows], [(name,) * 2 for name in self.NAMES])

    def test_a_text_that_a_spreadsheet_would_run_gets_an_apostrophe(self):
        names = ["=1+1", "+1", "-1", "@SUM(A1)", "=A1,B1", '="a"', "\t=1"]
        self.cases(*({"case": name, "note": name} for name in names), quoting=csv.QUOTE_ALL)
        rows = self.check().rows
        self.assertEqual([(row["case"], row["note"]) for row in rows], [("'" + name,) * 2 for name in names])
        self.assertEqual([row["case"] for row in self.check("cases.csv", "--format", "json").json["rows"]], names)

    def test_a_negative_number_gets_none(self):
        self.cases(SHORT)
        self.assertLess(float(self.check().rows[0]["margin"]), 0)


class Json(ProgramTest):
    def answer(self, *words):
        return self.check("cases.csv", "--format", "json", *words).json

    def test_keys_and_units(self):
        self.cases(HOLDS, SHORT)
        for words, columns in ([], RESULT_COLUMNS), (["--units", "si"], in_si(RESULT_COLUMNS)):
            named = [name_and_unit(column) for column in columns.split(",")]
            answer = self.answer(*words)
            self.assertEqual(list(answer), ["version", "command", "inputs", "materials", "units", "rows", "advice", "refused"])
            self.assertEqual(answer["units"], {name: unit for name, unit in named if unit})
            for row in answer["rows"]:
                self.assertEqual(list(row), [name for name, _ in named])

    def test_advice_is_that_of_the_worst_row_for_any_number_of_threads(self):
        rows = [{"case": f"r{i}", "end_a": "welded", "end_b": "welded", "weld_zone [in]": "1", "length [in]": "24", "compression [lbf]": "4600",
                 "bow [in]": "0.025", "bow_clock": "180", "miss_a [in]": str(0.35 + 0.001 * (i * 37 % 150)), "miss_a_clock": "0"} for i in range(150)]
        self.cases(*rows)
        answers = [self.answer("--jobs", jobs)["advice"] for jobs in ("1", "2")]
        self.assertEqual(answers[0], answers[1])
        worst = min(self.check().rows, key=lambda row: float(row["margin"]))
        changes = answers[0]["rows"]
        self.assertEqual({change["case"] for change in changes}, {worst["case"]})
        self.assertEqual(answers[0]["units"], {"now": "in", "to": "in"})
        for change in changes:
            row = next(r for r in rows if r["case"] == worst["case"])
            self.cases({**row, {"wall": "wall [in]"}.get(change["column"], change["column"] + " [in]"): repr(change["to"])})
            self.assertTrue(near(float(self.check().rows[0]["margin"]), change["margin"], 1e-9))
            self.assertGreaterEqual(change["margin"], 0)
        self.assertEqual(self.check("cases.csv", "--format", "json", "--report", "p.html").json, self.answer())

    def test_advice_says_where_its_search_was_cut_short(self):
        unknown = {"end_a": "welded", "end_b": "welded", "length [in]": "24", "compression [lbf]": "9000", "bow [in]": "0.1", "miss_a [in]": "0.3",
                   "miss_b [in]": "0.2", "eccentricity [in]": "0.1"}  # four directions that nobody knows
        for clocks, cut_short in ({}, True), ({"bow_clock": "0"}, False):
            self.cases(unknown | clocks)
            self.assertIs(self.answer()["advice"]["cut_short"], cut_short)
            self.assertEqual("directions" in self.check("cases.csv", "--format", "text").out, cut_short)
        self.cases(HOLDS)
        self.assertIs(self.answer()["advice"]["cut_short"], False)

    def test_advice_says_nothing_where_all_hold_and_where_nothing_helps(self):
        self.cases({"compression [lbf]": "1000"})
        self.assertEqual(self.answer()["advice"]["rows"], [])
        self.assertNotIn("To make it hold", self.check("cases.csv", "--format", "text").out)
        self.cases({"compression [lbf]": "900000"})
        self.assertEqual(self.answer()["advice"]["rows"], [])
        self.assertIn("No single change makes it hold", self.check("cases.csv", "--format", "text").out)
        self.assertNotIn("advice", self.check().out)

    def test_one_row_no_row_and_only_bad_rows(self):
        self.cases(HOLDS)
        self.assertEqual(len(self.answer()["rows"]), 1)
        self.cases({"od [in]": "0"}, {"od [in]": "-1"})
        self.assertEqual(self.answer()["rows"], [])
        self.cases({"od [in]": "0"}, HOLDS, {"od [in]": "0"}, HOLDS)
        self.assertEqual(len(self.answer()["rows"]), 2)
        self.file("cases.csv", "")
        self.assertEqual(self.answer()["rows"], [])

    def test_infinite_and_missing_are_null(self):
        self.cases({}, {"compression [lbf]": "20000", "column_curve": "euler"})
        idle, unstable = self.answer()["rows"]
        for value in idle["margin"], idle["yield_factor"], idle["deflection_clock"], unstable["peak_stress"]:
            self.assertIsNone(value)

    def test_texts(self):
        names = Csv.NAMES + ["\\", "\x01", "</script>"]
        self.cases(*({"case": name, "note": name} for name in names), quoting=csv.QUOTE_ALL)
        self.assertEqual([(row["case"], row["note"]) for row in self.answer()["rows"]],
                         [(name,) * 2 for name in names])

    def test_the_same_numbers_as_csv(self):
        source = self.installed.source / "cases"
        for file, words in [("nose.csv", []), ("nose_si.csv", ["--units", "si"]), ("nose.csv", ["--units", "si"]),
                            ("handbook.csv", ["--materials", source / "handbook_materials.csv"])]:
            run = self.check(source / file, *words)
            answer = self.check(source / file, "--format", "json", *words).json["rows"]
            self.assertEqual(len(run.rows), len(answer))
            for row, other in zip(run.rows, answer):
                for column, cell in row.items():
                    value = other[name_and_unit(column)[0]]
                    if value is None:
                        self.assertIn(cell, ("", "inf"))
                    elif isinstance(value, str):
                        self.assertEqual(cell, value)
                    else:
                        self.assertTrue(near(float(cell), value, 6e-10), (file, column, cell, value))


class Units(ProgramTest):
    def answer(self, *words):
        return self.check("cases.csv", "--format", "json", *words).json

    def assertSame(self, row, other, within=1e-9):
        for name, value in row.items():
            if isinstance(value, (int, float)):
                self.assertTrue(near(value, other[name], within), (name, value, other[name]))
            else:
                self.assertEqual(value, other[name], name)

    def test_answers_in_both_systems(self):
        for file in "nose.csv", "nose_si.csv":
            self.file("cases.csv", (self.installed.source / "cases" / file).read_bytes())
            us, si = self.answer(), self.answer("--units", "si")
            for row, other in zip(us["rows"], si["rows"], strict=True):
                for name, unit in us["units"].items():
                    if row[name] is not None:
                        row[name] *= float(UNITS[unit] / UNITS[SI[unit]])
                self.assertSame(row, other, 1e-13)

    def test_every_unit_of_every_dimension_may_be_read(self):
        self.cases(FULL)
        want = self.answer()["rows"][0]
        groups = [("length [in]", "in ft mm cm m"), ("od [in]", "mm cm"), ("compression [lbf]", "kip N kN"),
                  ("moment_a [in-lbf]", "ft-lbf N-m N-mm kN-m"), ("torque [in-lbf]", "ft-lbf N-m"),
                  ("spread_load [lbf/in]", "lbf/ft N/m N/mm"), ("end_a [in-lbf/rad]", "in-lbf/deg N-m/rad"),
                  ("bow_clock [deg]", "rad deg")]
        for column, units in groups:
            name, old = name_and_unit(column)
            value = Fraction({**PLAIN, **FULL}[column]) * UNITS[old]
            for unit in units.split():
                with self.subTest(column=name, unit=unit):
                    self.cases({**FULL, column: None, f"{name} [{unit}]": repr(float(value / UNITS[unit]))})
                    self.assertSame(want, self.answer()["rows"][0])

    def test_every_unit_of_a_material_may_be_read(self):
        self.cases(FULL)
        for stress in "psi", "ksi", "MPa", "GPa":
            for density in "lb/in^3", "kg/m^3":
                values = [float(Fraction(29000) * UNITS["ksi"] / UNITS[stress]),
                          float(Fraction("0.283") * UNITS["lb/in^3"] / UNITS[density]),
                          float(Fraction(75) * UNITS["ksi"] / UNITS[stress])]
                self.file("m.csv", f"material,elastic_modulus [{stress}],density [{density}],yield [{stress}]\n"
                                   f"4130,{','.join(map(repr, values))}\n")
                got = self.answer("--materials", "m.csv")["rows"][0]
                if (stress, density) == ("psi", "lb/in^3"):
                    want = got
                self.assertSame(want, got)

    def test_an_angle_without_bracket_is_in_degrees(self):
        self.cases({**FULL, "bow_clock [deg]": None, "bow_clock": "40"})
        plain = self.answer()
        self.cases(FULL)
        self.assertEqual(plain, self.answer())


class Text(ProgramTest):
    def text(self, *words):
        return self.check("cases.csv", "--format", "text", *words).out

    def assertFits(self, text):
        for line in text.splitlines():
            self.assertLessEqual(len(line), 80, line)
            self.assertEqual(line, line.rstrip())

    def test_the_examples(self):
        source = self.installed.source / "cases"
        for file in "nose.csv", "nose_si.csv", "handbook.csv":
            materials = ["--materials", source / "handbook_materials.csv"] if file == "handbook.csv" else []
            for units in "us", "si":
                self.file("cases.csv", (source / file).read_bytes())
                text = self.text("--units", units, *materials)
                self.assertFits(text)
                for word in CAUTION:
                    self.assertIn(word, joined(text))

    def test_what_a_person_needs(self):
        self.cases({"case": "upper rail", **HOLDS}, {"case": "lower rail", **SHORT})
        text = self.text()
        self.assertEqual(text.splitlines()[0], "1 of 2 cases hold, 1 is SHORT.")
        self.assertIn("Worst: 'lower rail'", text)
        for name, verdict in ("upper rail", "holds"), ("lower rail", "SHORT"):
            self.assertRegex(text, rf"(?m)^{name} .* {verdict} ")
        for rows, said in [((HOLDS,), "The case holds."), ((SHORT,), "The case is SHORT."),
                           ((HOLDS, HOLDS), "All 2 cases hold."), ((SHORT, SHORT), "0 of 2 cases hold, 2 are SHORT.")]:
            self.cases(*rows)
            self.assertEqual(self.text().splitlines()[0], said)

    def test_rows_left_out_are_said(self):
        said = "NOT CHECKED: line "
        self.cases(HOLDS)
        self.assertNotIn(said, self.text())
        for rows in ((HOLDS, {"od [in]": "0"}), ({"od [in]": "0"},)):
            self.cases(*rows)
            self.assertIn(said, joined(self.text()))
            self.assertNotIn("All ", self.text())

    ODD = {"length [in]": "11", "end_a": "welded", "miss_a [in]": "0.1", "gap [in]": "0.002"}  # earns remarks

    def test_long_names(self):
        for name in "upper rail, left side, " * 9, "\u00fcber" * 100, "x" * 3000, "a" * 99 + " b":
            with self.subTest(name=name[:9]):
                self.cases(*[{"case": name, **self.ODD, **HOLDS}] * 2, {"case": name, **SHORT})
                self.assertFits(self.text())

    def test_loads_of_any_size(self):
        for load in "1e-30", "1e-3", "1e7", "1e30", "-1e-30", "-1e30":
            with self.subTest(load=load):
                self.cases({"compression [lbf]": load})
                self.assertFits(self.text())

    def test_a_name_cannot_steer_the_terminal_or_break_a_line(self):
        for name in "a\033[31mb", "a\nb", "a\rb", "a\tb", "a\u009bb", "a\x7fb":
            with self.subTest(name=name):
                self.cases({"case": name, **self.ODD}, quoting=csv.QUOTE_ALL)
                text = self.text()
                self.assertEqual([c for c in text if c != "\n" and (ord(c) < 32 or 127 <= ord(c) < 160)], [])
                shown = "".join(c if 32 <= ord(c) < 127 else f"\\x{ord(c):02X}" if c < "\x80" else f"\\u{ord(c):04X}"
                                for c in name)
                self.assertIn(f"'{shown}'", text)
                self.cases({"case": shown, **self.ODD})
                self.assertEqual(text, self.text())


class Jobs(ProgramTest):
    def rows(self, count):
        dice = random.Random(1947)
        for i in range(count):
            yield {"case": f"rail {i}", "od [in]": dice.choice(["1", "1.25", "1.5"]),
                   "wall [in]": dice.choice(["0.049", "0.058", "0.065", "0.7"] if i % 9 == 0 else ["0.058"]),
                   "length [in]": f"{dice.uniform(9, 60):.3f}", "end_b": dice.choice(["welded", "pinned", "wleded"]),
                   "compression [lbf]": f"{dice.uniform(-6000, 9000):.1f}", "bow [in]": dice.choice(["", "0.03"]),
                   "miss_a [in]": dice.choice(["", "0.1", "-1"]) if i % 7 == 0 else "", "note": "x" * (i % 300)}

    def test_any_number_gives_the_same_bytes(self):
        self.cases(*self.rows(2000))
        for form in "csv", "json", "text":
            runs = [self.check("cases.csv", "--format", form, "--jobs", jobs) for jobs in (1, 2, 7)]
            self.assertEqual(runs[0].status, 2)
            self.assertIn("more messages of this kind are not shown", runs[0].err)
            self.assertLess(runs[0].err.count("\n"), 100)
            for run in runs[1:]:
                self.assertTrue(run == runs[0], form)

    def test_the_default_gives_the_same_bytes(self):
        self.cases(*self.rows(300))
        self.assertEqual(self.check(), self.check("cases.csv", "--jobs", "1"))


if __name__ == "__main__":
    run_tests()
