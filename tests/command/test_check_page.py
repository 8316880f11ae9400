"""The page of check: complete, safe, in one file, and with the numbers of the result."""

import csv
import math
import re

from page import FORCED, NOT_A_NUMBER, NOT_BY_HAND, WAYS, Page, worked_out
from program import run_tests, table
from shop import tube


class Whole(Page):
    def test_it_is_of_one_piece(self):
        self.cases(FORCED, {})
        self.page("--title", "T")
        text = self.read("page.html")
        for outside in "http", "url(", "src=", "@import", "<script", "<link", "javascript":
            self.assertNotIn(outside, text)
        for target in re.findall(r'href="([^"]*)"', text):
            self.assertRegex(target, r"^#case-\d+$")
            self.assertIn(f'id="{target[1:]}"', text)
        self.assertEqual(text.count("no substitute for the rule book"), 2)  # on the first sheet and at the end
        self.assertLess(text.index("no substitute for the rule book"), text.index('class="card"'))
        self.assertTrue(text.startswith("<!DOCTYPE html>\n<html lang=\"en\">"))

    def test_what_holds_without_being_asked_is_named_above_the_table(self):
        self.cases({"compression [lbf]": "1000"}, {"case": "idle"})
        said = "1 of the cases has no run load at all: nothing was asked of the tube."
        page, text = self.page(), " ".join(self.check("cases.csv", "--format", "text").out.split())
        self.assertEqual(self.words(page.findall("body/main/p")[1]), said)
        self.assertIn(said, text)

    def test_a_forced_fit_that_acts_against_the_load_is_no_help(self):
        rail = {"length [in]": "24", "end_a [in-lbf/rad]": "welded", "end_b": "welded", "compression [lbf]": "3000",
                "point_load [lbf]": "478", "point_clock": "180", "weld_zone [in]": "1"}
        self.cases(rail | {"miss_a [in]": "0.06", "miss_a_clock": "0"}, rail)
        forced, plain = self.check().rows
        self.assertLess(float(forced["margin"]), 0)
        self.assertLessEqual(float(forced["margin"]), float(forced["margin_unforced"]))
        self.assertEqual(forced["margin_unforced"], plain["margin"])

    def test_the_answer_beside_it_is_the_same(self):
        self.cases(FORCED, {}, {"od [in]": "-1"}, *WAYS)
        for form in "csv", "json", "text":
            plain, beside = self.check("cases.csv", "--format", form), \
                self.check("cases.csv", "--format", form, "--report", f"page-{form}.html")
            self.assertEqual(plain, beside)

    def test_the_same_bytes_each_time_and_for_any_number_of_threads(self):
        self.cases(*WAYS * 5)
        self.page("--jobs", "1", name="a")
        self.page("--jobs", "2", name="b")
        self.assertEqual(self.read("a"), self.read("b"))

    def test_for_a_screen_reader(self):
        self.cases(*WAYS)
        page = self.page()
        for svg in page.iter("svg"):
            if svg.get("aria-hidden") != "true":
                self.assertEqual((svg.get("role"), svg[0].tag), ("img", "title"))
                self.assertTrue(svg[0].text)
        for th in page.iter("th"):
            self.assertIn(th.get("scope"), ("col", "row", "rowgroup"))
        for table in page.iter("table"):
            self.assertEqual(table[0].tag, "caption")
        self.assertEqual(len(list(page.iter("h1"))), 1)

    def test_no_answer_no_page(self):
        self.cases({"od [in]": "-1"})
        self.file("page.html", "old")
        self.assertEqual(self.check("cases.csv", "--report", "page.html").status, 2)
        self.assertEqual((self.read("page.html"), self.listing()), ("old", ["cases.csv", "page.html"]))

    def test_refused_rows_are_counted(self):
        self.cases(FORCED, {"od [in]": "-1"}, {"wall [in]": "x"}, {})
        page = self.page(status=(2,))
        self.assertIn("2 rows could not be checked and are not on this page", self.words(page))
        self.assertEqual(len(self.cards(page)), 2)
        self.cases(FORCED, {"material": "gold"})
        self.assertIn("One row could not be checked", self.words(self.page(status=(2,), name="fresh.html")))
        self.cases(FORCED)
        self.assertNotIn("could not", self.words(self.page()))

    def test_where_it_cannot_be_written(self):
        self.cases({})
        run = self.check("cases.csv", "--report", "no/page.html", "-o", "answer.csv")
        self.assertRun(run, 2, "no/page.html: cannot write: No such file or directory", "")
        self.assertEqual(self.listing(), ["cases.csv"])
        run = self.check("cases.csv", "--report", "/dev/full")
        self.assertRun(run, 2, "/dev/full: cannot write: No space left on device", self.check().out)
        run = self.check("cases.csv", "-o", "x", "--report", "./x")
        self.assertRun(run, 2, "./x: the report and the answer cannot be the same file", "")
        self.assertEqual(self.listing(), ["cases.csv"])


class Said(Page):
    def test_title_by_note_and_date(self):
        self.cases({})
        page = self.page()
        self.assertEqual(page.find("head/title").text, "Tube check")
        self.assertNotRegex(self.words(page.find("body/header")), r"By |\d{4}")
        words = ["--title", "Nose & <frame>", "--by", "Drybed \"Shop\"", "--note", "as 'found'", "--date", "day 3"]
        page = self.page(*words)
        self.assertEqual((page.find("head/title").text, page.find("body/header/h1").text), ("Nose & <frame>",) * 2)
        self.assertEqual(self.words(page.find("body/header")), "Nose & <frame> By Drybed \"Shop\" · day 3 as 'found'")

    def test_what_users_wrote_shows_as_text(self):
        evil = "<script>alert(1)</script>&amp;\"'>"
        self.cases({"case": evil, "note": "]]><b>"})
        page = self.page("--title", "\x01a\x0bb\x7f", "--note", "x\ufffey")
        self.assertEqual(self.cards(page)[0].find("h2").text, evil)
        self.assertIn("]]><b>", self.words(self.cards(page)[0]))
        self.assertEqual(page.find("head/title").text, r"\x01a\x0Bb\x7F")
        self.assertIn("xy", self.words(page.find("body/header")))
        page = self.page("--title=\udcff\udcfe!")
        self.assertEqual(page.find("head/title").text, "\ufffd\ufffd!")

    def test_the_verdict(self):
        self.cases(FORCED, {"compression [lbf]": "1000"})
        said = self.words(self.page().find("body/main/p"))
        self.assertIn("1 of 2 cases is short; the worst is ‘forced’, which yields or buckles at ", said)
        self.cases({"compression [lbf]": "1000"})
        self.assertIn("The case holds: ‘rail’ yields or buckles at ", self.words(self.page().find("body/main/p")))
        self.cases({}, {})
        self.assertIn("All 2 cases hold", self.words(self.page().find("body/main/p")))

    def test_a_verdict_is_a_word_not_a_colour_alone(self):
        self.cases(FORCED, {})
        rows = list(self.page().find("body/main/table/tbody"))
        self.assertEqual([row[1].text for row in rows], ["✗ SHORT", "✓ holds"])

    def test_remarks_in_sentences(self):
        idle = {"end_a": "fixed", "moment_a [in-lbf]": "9", "gap_stiffness [lbf/in]": "1000", "dressed [in]": "0.005"}
        for cases in WAYS, [idle]:
            self.cases(*cases)
            page, rows = self.page(), self.check().rows
            for card, row in zip(self.cards(page), rows):
                said = [li.text for li in card.iter("li")]
                count = len([r for r in row["remarks"].split("; ") if r]) + (row["fit_stress [psi]"] == "")
                self.assertEqual(len(said), count, row["case"])
                for sentence in said:
                    self.assertRegex(sentence, r"^[A-Z].*\. [A-Z].*\.$|^[A-Z].*\.$")


class Working(Page):
    COLUMNS = {"area": "area [in^2]", "second moment of area": "inertia [in^4]",
               "section modulus": "section_modulus [in^3]", "radius of gyration": "radius [in]",
               "wall reduction": "wall_reduction", "elastic critical load": "critical_load [lbf]",
               "effective length": "effective_length [in]", "slenderness": "slenderness",
               "column stress": "column_stress [psi]", "column load": "column_load [lbf]",
               "yield factor": "yield_factor", "column factor": "column_factor",
               "interaction factor": "interaction_factor", "margin": "margin"}

    def number(self, cell):
        return math.inf if cell.startswith("no limit") else float(cell.split()[0])

    def assertNear(self, got, want, what, off=1e-9):
        self.assertTrue(got == want or abs(got - want) <= 2e-6 * abs(want) + off, f"{what}: {got}, want {want}")

    def lost(self, numbers):
        """The error of a plain sum of products: half of the last of ten digits of each term, with an allowance."""
        number = r"\d[\d.]*(?:e[-+]?\d+)?"
        terms = [math.prod(map(float, re.findall(number, term))) for term in re.findall(rf"{number}(?: × {number})*", numbers)]
        return 1e-9 * max(terms) if re.fullmatch(r"[-−+×()\d.e ]+", numbers) else 1e-9

    def redo(self, page):
        for card in self.cards(page):
            for step, formula, numbers, result, source in self.steps(card):
                self.assertTrue(formula and source, step)
                if not NOT_BY_HAND.search(numbers):
                    self.assertNear(worked_out(numbers), self.number(result), f"{card[0].text}, {step}: {numbers}",
                                    self.lost(numbers))

    def test_every_line_can_be_done_again(self):
        self.cases(*WAYS)
        for units in "us", "si":
            self.redo(self.page("--units", units))

    def test_it_comes_to_the_answer(self):
        self.cases(*WAYS)
        for units in "us", "si":
            page, rows = self.page("--units", units), self.check("cases.csv", "--units", units).rows
            for card, row in zip(self.cards(page), rows):
                at = {name.split(" [")[0]: value for name, value in row.items()}
                for step, column in self.COLUMNS.items():
                    self.assertNear(self.number(self.result(card, step)), float(at[column.split(" [")[0]]),
                                    f"{row['case']}, {step}")

    def test_at_the_limit_the_use_is_1(self):
        # the working finds the moments on its own way, so this holds it against the engine
        self.cases(*WAYS)
        self.assertGreater(self.uses(self.page()), len(WAYS))

    def push_begins(self, rows):
        """Whether the load factor is the one at which locked-in tension is used up."""
        axial = next((r for r in reversed(rows) if r[0] == "axial load, push positive"), None)
        return axial is not None and "−" in axial[2] and self.number(axial[3]) == 0

    def uses(self, page):
        found = 0
        for card in self.cards(page):
            rows = list(self.steps(card))
            for i, (step, _, _, result, _) in enumerate(rows):
                if step.startswith("utilisation at this load factor"):
                    reached = next(r for r in reversed(rows[:i]) if r[0] in ("yield factor", "interaction factor"))
                    if self.push_begins(rows[:i]):  # under a pull the interaction is not asked: its use begins past the limit
                        self.assertGreaterEqual(float(result), 1, card[0].text)
                    elif float(reached[3]) > 0:
                        self.assertNear(float(result), 1, card[0].text)
                        found += 1
        return found

    def test_the_reference_members(self):
        reference = self.installed.source / "tests" / "reference"
        with open(reference / "members.csv", encoding="utf-8") as file:
            members = [m for m in csv.DictReader(line for line in file if not line.startswith("#"))
                       if "pinned end" not in m["why"]]  # such a miss is an error
        self.cases(*({k: v for k, v in m.items() if k != "why" and not k.startswith("want_")} for m in members))
        page = self.page("--materials", reference / "materials.csv")
        self.assertEqual(len(self.cards(page)), len(members))
        self.redo(page)
        self.assertGreater(self.uses(page), len(members))
        self.assertNotRegex(self.read("page.html"), NOT_A_NUMBER)


class Drawn(Page):
    def drawing(self, card, title):
        return next(s for s in card.iter("svg") if s[0].text.startswith(title))

    def numbers(self, path):
        return [float(n) for n in re.findall(r"-?\d+\.?\d*", path.get("d"))]

    def test_the_section_is_to_scale(self):
        self.cases(FORCED)
        for units in "us", "si":
            drawing = self.drawing(self.cards(self.page("--units", units))[0], "Cross-section")
            tube, weld = (self.numbers(next(p for p in drawing.iter("path") if p.get("class") == name))
                          for name in ("steel", "weld"))
            # M x y a r r ...: the third number is the radius; seven arcs' numbers on, the bore
            outer, bore = tube[2], tube[len(tube) // 2 + 2]
            self.assertAlmostEqual(outer / bore, 1.25 / (1.25 - 2 * 0.058), 3)
            self.assertAlmostEqual(weld[2] / outer, 1.24 / 1.25, 4)
            bar = next(p for p in drawing.iter("path") if p.get("class") == "plain")
            wide = float(re.search(r"h([\d.]+)", bar.get("d")).group(1))
            self.assertAlmostEqual(wide / (2 * outer), (10 / 25.4 if units == "si" else 0.5) / 1.25, 3)

    def test_the_curve_passes_through_the_tube(self):
        self.cases(FORCED)
        card, row = self.cards(self.page())[0], self.check().rows[0]
        drawing = self.drawing(card, "Column stress")
        dot = next(c for c in drawing.iter("circle") if c.get("class") == "dot")
        line = self.numbers(next(p for p in drawing.iter("path") if p.get("class") == "strong"))
        x, y = float(dot.get("cx")), float(dot.get("cy"))
        self.assertLess(min(math.hypot(a - x, b - y) for a, b in zip(line[::2], line[1::2])), 2.5)
        ticks = [(float(t.get("x")), float(t.text)) for t in drawing.iter("text")
                 if t.get("class") == "tick" and t.get("text-anchor") == "middle"]
        (x0, v0), (x1, v1) = ticks[0], ticks[-1]
        self.assertAlmostEqual(v0 + (x - x0) / (x1 - x0) * (v1 - v0), float(row["slenderness"]), 1)

    def test_the_moment_line_goes_from_joint_to_joint_and_touches_what_is_allowed(self):
        self.cases(FORCED)
        drawing = self.drawing(self.cards(self.page())[0], "Bending moment")
        lines = {p.get("class"): self.numbers(p) for p in drawing.iter("path")}
        axis = next(l for l in drawing.iter("line") if l.get("class") == "axis")
        for name in "dotted", "plain", "strong", "limit":
            self.assertAlmostEqual(lines[name][0], float(axis.get("x1")), 2)
            self.assertAlmostEqual(lines[name][-2], float(axis.get("x2")), 2)
        dot = next(c for c in drawing.iter("circle") if c.get("class") == "dot")
        self.assertAlmostEqual(float(dot.get("cx")), float(axis.get("x1")), 2)  # it governs at A
        self.assertAlmostEqual(float(dot.get("cy")), lines["limit"][1], 1)
        self.assertAlmostEqual(lines["strong"][1], lines["limit"][1], 1)
        for x, y in zip(lines["strong"][::2], lines["strong"][1::2]):
            allowed = [b for a, b in zip(lines["limit"][::2], lines["limit"][1::2]) if abs(a - x) < 0.02]
            self.assertTrue(not allowed or y >= min(allowed) - 0.05)

    def test_nothing_is_drawn_that_is_not_a_number(self):
        self.cases(*WAYS)
        self.page()
        self.assertNotRegex(self.read("page.html"), NOT_A_NUMBER)

    def test_the_margin_bar(self):
        self.cases({"compression [lbf]": "1000"}, {"compression [lbf]": "20000"})
        rows = self.check().rows
        for row, tr in zip(rows, self.page().find("body/main/table/tbody")):
            bar = list(tr.iter("rect"))[1]
            self.assertAlmostEqual(float(bar.get("width")), 50 * min(1, abs(float(row["margin"]))), 2)


if __name__ == "__main__":
    run_tests()
