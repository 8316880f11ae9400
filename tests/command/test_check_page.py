"""The page of check: complete, safe, in one file, and with the numbers of the result."""

import csv
import hashlib
import math
import re

from page import FORCED, NOT_A_NUMBER, NOT_BY_HAND, TABS_MOST, WAYS, Page, check_drawing, name_of, stops, worked_out
from program import run_tests, table
from shop import tube


class Whole(Page):
    def test_it_is_of_one_piece(self):
        self.cases(FORCED, {})
        self.page("--title", "T")
        text = self.read("page.html")
        self.assertNotRegex(text, "http(?!-equiv)")
        for outside in "url(", "src=", "@import", "<script", "<link", "javascript":
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
                check_drawing(self, svg)
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


class Sheets(Page):
    """Which cases have a sheet, in which order, and what is shown at once."""

    def plain(self, *words):
        self.assertIn(self.check("cases.csv", "--report", "page.html", *words).status, (0, 1))
        return self.xml("page.html")

    def sheets(self, page):
        return [e.find("h2").text for e in page.iter("section") if e.get("class") == "card"]

    def listed(self, page):
        return [self.words(tr[0]) for tr in page.find("body/main/table/tbody")]

    def pushed(self, *loads):
        self.cases(*({"case": f"p{load}", "compression [lbf]": str(load)} for load in loads))

    def test_the_worst_comes_first_and_the_headline_leads_to_it(self):
        self.pushed(3000, 20000, 1000, 21000, 2000)
        page = self.plain()
        self.assertEqual(self.listed(page), ["p21000", "p20000", "p3000", "p2000", "p1000"])
        self.assertEqual(self.sheets(page), ["p21000", "p20000", "p3000"])  # both short ones, and the tightest
        link = page.find("body/main/p/a")
        self.assertEqual((link.text, link.get("href")), ("p21000", "#case-4"))
        self.assertEqual([a.get("href") for a in page.find("body/main/table").iter("a")], ["#case-4", "#case-2", "#case-1"])
        self.assertIn("A sheet follows for 3 of the 5 cases", self.words(page))
        self.assertEqual(len(self.sheets(self.plain("--pages", "all"))), 5)
        self.assertEqual(len(self.sheets(self.plain("--pages", "short"))), 3)

    def test_equal_margins_stay_as_in_the_file(self):
        self.cases(*({"case": f"c{i}"} for i in range(5)))
        self.assertEqual(self.listed(self.plain()), [f"c{i}" for i in range(5)])

    def test_many_short_cases_stay_a_small_page(self):
        self.pushed(*range(20000, 20500))
        self.assertEqual(len(self.sheets(self.plain())), 12)
        self.assertLess((self.folder / "page.html").stat().st_size, 2e6)

    def test_the_working_is_closed_unless_it_is_asked_for(self):
        self.pushed(20000)
        self.assertEqual([d.get("open") for d in self.plain().iter("details")], [None])
        self.assertEqual([d.get("open") for d in self.plain("--working").iter("details")], ["open"])
        self.assertIn("details:not([open]){display:none}", self.read("page.html"))

    def test_options_of_the_page_need_a_page(self):
        self.pushed(20000)
        for words, name in (["--working"], "working"), (["--pages", "all"], "pages"):
            self.assertRun(self.check("cases.csv", *words), 2, f"check: --{name} stands on the page, but --report names none", "")
        self.assertRun(self.check("cases.csv", "--report", "p.html", "--pages", "some"), 2, "--pages: 'some' is not one of short, all", "")

    def test_what_to_do_stands_under_the_verdict(self):
        rail = {"end_a": "welded", "end_b": "welded", "weld_zone [in]": "1", "compression [lbf]": "4600", "bow [in]": "0.025",
                "bow_clock": "180", "miss_a [in]": "0.5", "miss_a_clock": "0"}
        self.cases(rail)
        page = self.plain()
        said = self.words(page.findall("body/main/p")[1])
        self.assertRegex(said, r"^To make it hold: pull A to within 0\.\d+ in \(\d+/\d+\)")
        text = " ".join(self.check("cases.csv", "--format", "text").out.split())
        self.assertIn(said, text)
        self.assertIn(said, " ".join(self.run_program("explain", "cases.csv", "rail").out.split()))
        self.cases({})
        self.assertNotIn("To make it hold", self.words(self.plain()))


class Record(Page):
    def test_it_forbids_every_connection(self):
        self.cases({})
        policy = next(m for m in self.page().iter("meta") if m.get("http-equiv"))
        self.assertEqual(policy.get("http-equiv"), "Content-Security-Policy")
        rules = dict(rule.split(maxsplit=1) for rule in policy.get("content").split("; "))
        self.assertEqual(rules, {"default-src": "'none'", "style-src": "'unsafe-inline'", "base-uri": "'none'", "form-action": "'none'"})
        self.assertLess(self.read("page.html").index("http-equiv"), self.read("page.html").index("<style>"))

    def test_what_was_checked(self):
        self.cases({})
        record = self.record(self.page("--factor", "1.25"))
        digest = hashlib.sha256((self.folder / "cases.csv").read_bytes()).hexdigest()
        self.assertIn(("Input", f"cases.csvSHA-256 {digest}"), record)
        self.assertIn(("Command", "railbow check --factor 1.25 cases.csv"), record)
        self.assertEqual([name for name, _ in record], ["Program", "Version", "Command", "Input", "Materials", "Good to", "Clocks"])
        signed = next(e for e in self.xml("page.html").iter("p") if e.get("class") == "sign")
        self.assertEqual([s.text for s in signed], ["Checked by", "Date"])

    def test_a_file_that_was_not_read_has_no_digest(self):
        self.cases({})
        run = self.check("cases.csv", "no.csv", "--report", "p.html")
        self.assertEqual(run.status, 2)
        inputs = [value for name, value in self.record(self.xml("p.html")) if name == "Input"]
        self.assertRegex(inputs[0], "^cases.csvSHA-256 [0-9a-f]{64}$")
        self.assertEqual(inputs[1], "no.csv")


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
        return next(s for s in card.iter("svg") if name_of(s).startswith(title))

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

    def rail(self, **case):
        self.cases({"end_a [in-lbf/rad]": case.pop("end_a", "pinned"), **{k.replace("_in", " [in]"): v for k, v in case.items()}})
        return self.drawing(self.cards(self.page())[0], "The tube from joint A")

    def kinds(self, drawing):
        return {name: sum(e.get("class") == name for e in drawing.iter()) for name in ("foot", "bead", "plate", "ring")}

    def test_joints_have_their_signs(self):
        for end_a, end_b, want in (("pinned", "pinned", {"foot": 2, "bead": 0, "plate": 0, "ring": 2}),
                                   ("welded", "pinned", {"foot": 1, "bead": 2, "plate": 1, "ring": 1}),
                                   ("fixed", "free", {"foot": 0, "bead": 0, "plate": 1, "ring": 0}),
                                   ("100000", "fixed", {"foot": 0, "bead": 0, "plate": 2, "ring": 0})):
            drawing = self.rail(end_a=end_a, end_b=end_b, **{"compression [lbf]": "500"})
            self.assertEqual(self.kinds(drawing), want, (end_a, end_b))

    def test_loads_at_the_ends_are_drawn_with_their_values(self):
        drawing = self.rail(**{"compression [lbf]": "900", "eccentricity [in]": "0.25", "eccentricity_clock": "0", "moment_a [in-lbf]": "300",
                               "moment_b [in-lbf]": "200", "moment_clock": "0", "torque [in-lbf]": "800"})
        said = {t.text for t in drawing.iter("text")}
        self.assertLessEqual({"push 900 lbf", "off axis 0.25 in", "300 in-lbf", "200 in-lbf", "torque 800 in-lbf"}, said)

    def test_the_bend_has_its_own_scale_and_the_miss_none(self):
        for miss in "0.125", "0.25":
            drawing = self.rail(end_a="welded", end_b="welded", **{"compression [lbf]": "100", "bow [in]": "0.02", "bow_clock": "0",
                                                                   "miss_a [in]": miss, "miss_a_clock": "0", "weld_zone [in]": "1"})
            words = [t.text for t in drawing.iter("text")]
            value = next(float(w.split()[0]) for w in words if w.endswith(" of bend"))
            bar = next(p for p in drawing.iter("path") if re.search(r"h8m-4 0v", p.get("d")))
            units = float(re.search(r"v-([\d.]+)m", bar.get("d")).group(1)) / value
            bow = next(self.numbers(p) for p in drawing.iter("path") if p.get("class") == "dotted")
            self.assertAlmostEqual((max(bow[1::2]) - min(bow[1::2])) / units, 0.02, delta=0.0005)
            loaded = next(self.numbers(p) for p in drawing.iter("path") if p.get("class") == "strong")
            self.assertGreater(max(loaded[1::2]) - min(loaded[1::2]), 5)  # a forced fit does not look straight
            self.assertTrue(any(w.startswith(f"A’s bar misses B by {float(miss):.3f} in") for w in words), words)
            self.assertEqual(sum(p.get("class") == "ghost" for p in drawing.iter("path")), 1)

    def test_the_clock_has_the_values_as_given(self):
        self.cases({"end_a": "welded", "compression [lbf]": "900", "bow [in]": "0.03", "bow_clock": "any", "miss_a [in]": "0.1",
                    "miss_a_clock": "37.5", "point_load [lbf]": "12", "point_at [in]": "5", "point_clock": "270"})
        said = [t.text for t in self.drawing(self.cards(self.page())[0], "Where bow").iter("text")]
        for words in "1  bow 0.03 in", "2  miss_a 0.1 in", "toward 37.5°", "3  point_load 12 lbf", "toward 270°":
            self.assertIn(words, said)
        self.assertTrue(any(w.startswith("clock not given; worst ") for w in said))

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
        lines = {p.get("class"): self.numbers(p) for p in drawing.iter("path") if p.get("class") != "at"}
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

    def test_stops_have_the_numbers_of_the_answer(self):
        self.cases(FORCED, {"compression [lbf]": "3000", "bow [in]": "0.05", "end_a [in-lbf/rad]": "fixed", "end_b": "fixed", "miss_a [in]": "0.05"})
        for card, row in zip(self.cards(self.page()), self.check().rows):
            moments = list(stops(self.drawing(card, "Bending moment")))
            self.assertTrue(all(tab for tab, _, _ in moments))
            self.assertTrue(2 <= len(moments) <= TABS_MOST)
            places = [float(at) for _, _, at in moments]
            self.assertEqual((places[0], places[-1]), (0, 24))
            self.assertTrue(all(a < b for a, b in zip(places, places[1:])))
            largest = {line.split(":")[0]: float(line.split()[-2].rstrip(",")) for _, lines, _ in moments for line in lines if line.endswith("largest")}
            self.assertAlmostEqual(largest["as loaded"], float(row["peak_moment [in-lbf]"]), delta=1e-3 * largest["as loaded"])
            if row["case"] != "forced":  # welded joints: drawn as taken for the margin, the column has the worst of both
                self.assertAlmostEqual(largest["locked in"], float(row["fit_moment [in-lbf]"]), delta=1e-3 * largest["locked in"])
            (factors, column) = ([lines for tab, lines, _ in stops(self.drawing(card, title)) if tab] for title in ("Load factor", "Column stress"))
            self.assertEqual([line for (line,) in factors], [f"{name}: {math.floor(100 * float(row[name + '_factor'])) / 100:.2f} reached, 1.50 required" for name in ("column", "yield", "interaction")])
            self.assertEqual(column[0], [f"slenderness {float(row['slenderness']):.4g}", f"column stress {float(row['column_stress [psi]']) / 1000:.4g} ksi"])

    def test_one_case_alone_has_stops_between_the_notable_ones(self):
        self.cases(FORCED)
        moments = list(stops(self.drawing(self.cards(self.page())[0], "Bending moment")))
        self.assertGreater(len(moments), 20)
        self.assertLessEqual(sum(tab for tab, _, _ in moments), TABS_MOST)
        places = [float(at) for _, _, at in moments]
        self.assertTrue(all(a < b for a, b in zip(places, places[1:])))

    def test_nothing_is_drawn_that_is_not_a_number(self):
        self.cases(*WAYS)
        self.page()
        self.assertNotRegex(self.read("page.html"), NOT_A_NUMBER)

    def test_the_margin_bar(self):
        self.cases({"compression [lbf]": "1000"}, {"compression [lbf]": "20000"})
        rows = sorted(self.check().rows, key=lambda row: float(row["margin"]))
        for row, tr in zip(rows, self.page().find("body/main/table/tbody")):
            bar, margin = list(tr.iter("rect"))[1], float(row["margin"])
            self.assertAlmostEqual(float(bar.get("width")), 50 * min(1, abs(margin)), 2)
            self.assertEqual(len(list(tr.iter("path"))), int(abs(margin) > 1))  # a pointed end: beyond the bar
            self.assertIn("beyond" if abs(margin) > 1 else f"{100 * margin:+.1f} %", self.words(next(tr.iter("title"))))


if __name__ == "__main__":
    run_tests()
