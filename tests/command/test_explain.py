"""explain: the working of one case."""

import re

from page import FORCED, NOT_BY_HAND, WAYS, Page, worked_out
from program import CAUTION, PLAIN, joined, name_and_unit, run_tests


def shown(result):
    """A result of the table as it is printed."""
    return {"inf": "no limit", "-inf": "-no limit", "": "-"}.get(result, result)


class Explain(Page):
    def explain(self, *words, **more):
        return self.run_program("explain", *words, **more)

    def test_every_line_can_be_done_again(self):
        self.cases(*WAYS)
        for way in WAYS:
            for units in "us", "si":
                done = 0
                run = self.explain("cases.csv", way["case"], "--format", "csv", "--units", units)
                self.assertIn(run.status, (0, 1), run.err)
                for row in run.rows:
                    if NOT_BY_HAND.search(row["numbers"]) or row["result"] == "":
                        continue
                    numbers = row["numbers"].removeprefix("'")  # which keeps a spreadsheet from running it
                    got, want = worked_out(numbers), float(row["result"])
                    self.assertTrue(got == want or abs(got - want) <= 1e-6 * max(1, abs(want)) or "°" in numbers
                                    and abs(got - want) < 1e-3, (way["case"], row))
                    done += 1
                self.assertGreater(done, 12)

    def test_the_page_shows_the_same_steps(self):
        self.cases(*WAYS)
        cards = self.cards(self.page())
        for way, card in zip(WAYS, cards, strict=True):
            steps = list(self.steps(card))
            rows = self.explain("cases.csv", way["case"], "--format", "csv").rows
            for row in rows:
                row["unit"] = row["unit"].translate({ord("^"): "", ord("2"): "²", ord("3"): "³", ord("4"): "⁴"})
            self.assertEqual([tuple(step) for step in steps],
                             [(row["step"], row["formula"], row["numbers"].removeprefix("'"),
                               f'{shown(row["result"])} {row["unit"]}'.rstrip(), row["source"]) for row in rows])

    def test_the_text_has_every_step_of_the_table(self):
        self.cases(*WAYS)
        for way in WAYS:
            text = self.explain("cases.csv", way["case"])
            said, place = joined(text.out.split("The working.")[1]), 0
            for row in self.explain("cases.csv", way["case"], "--format", "csv").rows:
                unit = f' {row["unit"]}' if row["unit"] else ""
                numbers = row["numbers"].removeprefix("'")
                head = f'{row["step"]}: {row["formula"]} [{row["source"]}] = '
                place = said.find(head, place)
                self.assertGreaterEqual(place, 0, (way["case"], head))
                place += len(head)
                if re.search(r"\d", numbers) and said.startswith(numbers + " = ", place):
                    place += len(numbers) + 3
                self.assertTrue(said.startswith(shown(row["result"]) + unit, place), (way["case"], row))

    RESULTS = {"area": "area [in^2]", "slenderness": "slenderness", "column load": "column_load [lbf]",
               "elastic critical load": "critical_load [lbf]", "margin": "margin", "yield factor": "yield_factor",
               "interaction factor": "interaction_factor", "column factor": "column_factor"}

    def test_its_results_are_those_of_check(self):
        self.cases(*WAYS)
        for row in self.check().rows:
            steps = {}
            for step in self.explain("cases.csv", row["case"], "--format", "csv").rows:
                steps.setdefault(step["step"], step["result"])
            for step, column in self.RESULTS.items():
                got, want = float(steps[step]), float(row[column])
                self.assertTrue(got == want or abs(got - want) <= 1e-8 * abs(want), (row["case"], step, got, want))

    def test_its_status_is_that_of_check(self):
        self.cases({"case": "holds", "compression [lbf]": "1000"}, {"case": "short", "compression [lbf]": "20000"})
        for name, status, said in ("holds", 0, "The case holds."), ("short", 1, "The case is SHORT."):
            run = self.explain("cases.csv", name)
            self.assertRun(run, status)
            self.assertTrue(run.out.startswith(said))
            for words in CAUTION:
                self.assertIn(words, joined(run.out))

    def test_what_was_given(self):
        self.cases({"case": "other"}, {**FORCED, "note": "as found"})
        for words, od in ([], "1.25 in"), (["--units", "si"], "31.75 mm"):
            run = self.explain("cases.csv", "forced", *words)
            given = run.out.split("Given in line 3 of cases.csv; every other column has its default\n")[1].split("\n\n")[0]
            said = dict(line.split(None, 1) for line in given.splitlines())
            self.assertEqual(said["od"], od)
            self.assertEqual(said["end_a"], "welded")
            self.assertEqual(said["note"], "as found")
            self.assertEqual(set(said), {name_and_unit(column)[0] for column in {**PLAIN, **FORCED, "note": ""}})

    def test_it_fits_a_terminal_and_a_pipe(self):
        self.cases(*WAYS)
        for way in WAYS:
            out = self.explain("cases.csv", way["case"]).out
            self.assertNotIn("\033", out)
            for line in out.splitlines():
                self.assertLessEqual(len(line), 80, line)
                self.assertEqual(line, line.rstrip())

    def test_into_a_file_and_from_standard_input(self):
        self.cases(FORCED)
        plain = self.explain("cases.csv", "forced")
        self.assertRun(self.explain("cases.csv", "forced", "-o", "answer.txt"), 1, out="")
        self.assertEqual(self.read("answer.txt"), plain.out)
        run = self.explain("-", "forced", stdin=self.read("cases.csv"))
        self.assertEqual(run.out, plain.out.replace("of cases.csv", "of stdin"))
        self.assertRun(self.explain("cases.csv", "forced", "-o", "/dev/full"), 2,
                       "/dev/full: cannot write: No space left on device", "")

    def test_options_count_as_in_check(self):
        self.cases({"case": "plain", "compression [lbf]": "5000", "material": "light"})
        self.file("m.csv", "material,elastic_modulus [ksi],density [lb/in^3],yield [ksi]\nlight,10000,0.1,40\n")
        words = "--materials", "m.csv", "--factor", "1.1"
        margin = self.check("cases.csv", *words).rows[0]["margin"]
        steps = self.explain("cases.csv", "plain", *words, "--format", "csv").rows
        self.assertEqual([s["result"] for s in steps if s["step"] in ("elastic modulus", "margin")], ["10000000", margin])

    def test_a_name_that_is_not_there(self):
        self.cases({"case": "upper rail"}, {"case": "lower rail"})
        self.assertRun(self.explain("cases.csv", "uper rail"), 2,
                       "cases.csv: case: there is no 'uper rail'; did you mean 'upper rail'?", "")
        self.assertRun(self.explain("cases.csv", "diagonal"), 2,
                       "cases.csv: case: there is no 'diagonal'; the file has 'upper rail', 'lower rail'", "")
        self.assertRun(self.explain("cases.csv", "Upper Rail"), 2,
                       "cases.csv: case: there is no 'Upper Rail'; did you mean 'upper rail'?", "")
        self.cases({"case": "rail\x1b[2J"})
        self.assertRun(self.explain("cases.csv", "rail"), 2,
                       "cases.csv: case: there is no 'rail'; did you mean 'rail\\x1B[2J'?", "")
        self.cases(*({"case": f"number {i}"} for i in range(11)))
        self.assertRun(self.explain("cases.csv", "\x1b[2J"), 2, "cases.csv: case: there is no '\\x1B[2J'; the file has "
                       + ", ".join(f"'number {i}'" for i in range(8)) + " and 3 more", "")

    def test_a_name_that_stands_twice(self):
        self.cases({"case": "rail"}, {"case": "other"}, {"case": "rail"})
        self.assertRun(self.explain("cases.csv", "rail"), 2,
                       "cases.csv: case: 'rail' stands in lines 2, 4; give each case a name of its own", "")

    def test_bad_rows(self):
        self.cases({"case": "bad", "od [in]": "-1"}, {"case": "good"}, {"case": "steep", "bow [in]": "20"})
        run = self.explain("cases.csv", "good")
        self.assertEqual((run.status, run.err), (2, "railbow: cases.csv:2: od: '-1' is out of range: must be above 0\n"))
        self.assertTrue(run.out.startswith("The case holds."))
        run = self.explain("cases.csv", "steep")
        self.assertEqual((run.status, run.out), (2, ""))
        self.assertIn("cases.csv:4: bow: gives a slope of more than 10 deg", run.err)
        self.file("m.csv", "material,elastic_modulus [ksi],density [lb/in^3],yield [ksi]\nlight,10000,0.1,40\n")
        self.cases({"case": "good"})
        self.assertRun(self.explain("cases.csv", "good", "--materials", "m.csv"), 2,
                       "cases.csv:2: material: '4130' is not in m.csv, which has light", "")

    def test_a_file_and_a_case_are_named(self):
        self.cases({})
        said = "explain: name a file of load cases and one of its cases, or the folder of a frame, a tube and a run; see 'railbow help explain'"
        for words in [], ["cases.csv", "rail", "more"]:
            self.assertRun(self.explain(*words), 2, said, "")
        self.assertRun(self.explain("cases.csv"), 2,
                       "cases.csv: case: name one case after the file; the file has 'rail'", "")
        self.cases(*({"case": f"rail {i}"} for i in range(10)))
        self.assertRun(self.explain("cases.csv"), 2,
                       "cases.csv: case: name one case after the file; the file has 'rail 0', 'rail 1', 'rail 2', "
                       "'rail 3', 'rail 4', 'rail 5', 'rail 6', 'rail 7' and 2 more", "")
        self.assertRun(self.explain("no.csv", "rail"), 2, "no.csv: cannot read: No such file or directory", "")


if __name__ == "__main__":
    run_tests()
