"""The form of the results of the studies: columns, units, threads, files."""

import csv

from program import (COMPARE_COLUMNS, HOLDS, INDEX_COLUMNS, LIMIT_COLUMNS, SCATTER_COLUMNS, SHORT, SWEEP_COLUMNS,
                     name_and_unit, run_tests)
from studies import HOSTILE, RICH, TOLERANCES, StudyTest
from units import UNITS


class Form(StudyTest):
    """CSV, JSON and SI of all five studies, hostile names, jobs, full devices."""

    STUDIES = {
        "compare": "compare --walls 0.049,0.065,0.7",
        "sweep": "sweep --vary miss_a=0in:0.5in:0.25in --vary wall=0.049:0.7:0.6",
        "limit": "limit --find miss_a --to 9in",
        "index": "index",
        "scatter": "scatter --tolerances t.csv --samples 500 --drivers",
    }
    HEADERS = {
        "compare": "case,od [in],wall [in],weight [lb],weight_change [lb],stiffness_change,margin,governs,verdict,pick",
        "sweep": "case,miss_a [in],wall [in],margin,governs,verdict,yield_factor,column_factor,interaction_factor,"
                 "fit_stress [psi],peak_stress [psi],deflection [in]",
        "limit": "case,column,limit [in],now [in],room [in],state",
        "index": "case,part,margin_as_marked,best_clock [deg],best_margin,worst_clock [deg],worst_margin",
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
                    self.assertIn("a\\x1B[31mb", self.text(words))

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
            self.assertEqual(self.study(words, "-o", f"{name}.csv").out, "")
            self.assertEqual(self.read(f"{name}.csv"), want.out)
            self.study(words, "-o", f"{name}.txt", "--format", "text")
            self.assertEqual(self.read(f"{name}.txt"), self.text(words))


if __name__ == "__main__":
    run_tests()
