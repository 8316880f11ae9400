"""The pages of the studies: their tables, and their drawings read back."""

import fractions
import math
import re
import xml.etree.ElementTree as xml

from page import FORCED, NOT_A_NUMBER, TABS_MOST, Page, check_drawing, stops
from program import run_tests
from shop import tube


def percent(margin):
    """A margin below 0 never reads as 0."""
    share = 100 * float(margin)
    return f"{-0.1 if -0.05 < share < 0 else share:+.1f} %"


SHOWN_OF_SCATTER = ["case", "samples", "refused", "short_share", "margin_sd", "margin_p01", "margin_p05", "margin_p50", "driver", "driver_share"]


class Studies(Page):
    COMMANDS = [["compare", "--walls", "0.035,0.058,0.7"], ["sweep", "--vary", "miss_a=0:0.5:0.125"],
                ["sweep", "--vary", "miss_a=0:0.5:0.25", "--vary", "bow=0in:0.1in:0.05in"],
                ["limit", "--find", "miss_a", "--to", "1"], ["index"],
                ["scatter", "--tolerances", "tolerances.csv", "--samples", "64"]]

    def test_each_has_a_page_beside_the_same_answer(self):
        self.file("tolerances.csv", "column,minus,plus,unit\nbow,0.01,0.01,in\nwall,3,3,%\n")
        self.cases(FORCED, {"case": "<b>", "bow [in]": "0.05", "bow_clock": "0", "miss_a_clock": "0", "end_a [in-lbf/rad]": "welded",
                            "compression [lbf]": "900", "weld_zone [in]": "1"})
        for command, *words in self.COMMANDS:
            for units in "us", "si":
                with self.subTest(command=command, units=units):
                    given = [command, "cases.csv", *words, "--units", units]
                    plain, beside = self.run_program(*given), self.run_program(*given, "--report", "page.html", "--title", "T")
                    self.assertEqual(plain, beside)
                    page = xml.fromstring(self.read("page.html"))
                    self.assertEqual(page.find("head/title").text, "T")
                    self.assertNotRegex(self.read("page.html"), NOT_A_NUMBER)
                    self.assertNotRegex(self.read("page.html"), "http(?!-equiv)")
                    for svg in page.iter("svg"):
                        check_drawing(self, svg)
                    for outside in "url(", "src=", "href=", "<script", "@import":
                        self.assertNotIn(outside, self.read("page.html"))
                    rows = next(t for t in page.iter("table") if "list" in t.get("class", "").split()).find("tbody")
                    self.assertEqual(len(rows), len(plain.rows))
                    for tr, row in zip(rows, plain.rows):
                        for cell, value in zip(tr, [row[name] for name in SHOWN_OF_SCATTER] if command == "scatter" else row.values()):
                            text = "".join(cell.itertext())
                            if text.endswith(" %"):
                                self.assertAlmostEqual(float(text[:-2]), 100 * float(value), delta=0.0051)
                            elif re.fullmatch(r"-?[\d.]+(e[-+]\d+)?", value):
                                self.assertAlmostEqual(float(text), float(value), delta=1e-4 * abs(float(value)))


class StudyDrawings(Page):
    """Drawings read back through the ticks of their axes, and compared with the results."""

    def study(self, command, *words):
        answer = self.run_program(command, "cases.csv", *words, "--report", "page.html")
        return xml.fromstring(self.read("page.html")), answer.rows

    def figures(self, page):
        return [f for f in page.iter("figure") if f.get("class") == "study"]

    def axis(self, drawing, anchor, along, between=(-math.inf, math.inf)):
        """The value at a position of the drawing, from the first and the last tick."""
        shift = 4 if along == "y" else 0
        ticks = [(float(t.get(along)) - shift, self.tick(t.text)) for t in drawing.iter("text")
                 if t.get("class") == "tick" and t.get("text-anchor") == anchor and between[0] <= float(t.get("y")) <= between[1]]
        (a, first), (b, last) = ticks[0], ticks[-1]
        return lambda at: first + (at - a) / (b - a) * (last - first)

    def tick(self, text):
        """-1 1/4, 3/8, 29 000"""
        if "/" not in text:
            return float(text.replace(" ", ""))
        return (-1 if text[0] == "-" else 1) * float(sum(map(fractions.Fraction, text.lstrip("-").split())))

    def of_class(self, drawing, tag, *classes):
        return [e for e in drawing.iter(tag) if e.get("class") in classes]

    def points(self, path):
        numbers = [float(n) for n in re.findall(r"-?\d+\.?\d*", path.get("d"))]
        return list(zip(numbers[::2], numbers[1::2]))

    def numbers_of(self, rows, column):
        return [float(row[column]) for row in rows]

    def test_compare_has_a_mark_a_tube_and_names_the_pick(self):
        self.cases(FORCED, {"compression [lbf]": "2000"})
        page, rows = self.study("compare", "--ods", "1,1.25", "--walls", "0.049,0.065,0.12,0.7")
        svg = self.figures(page)[0].find("svg")
        x, y = self.axis(svg, "middle", "x"), self.axis(svg, "end", "y")
        marks = sorted((x(float(c.get("cx"))), y(float(c.get("cy")))) for c in self.of_class(svg, "circle", "ring", "dot"))
        tubes = {}
        for row in rows:
            tubes.setdefault((row["od [in]"], row["wall [in]"]), []).append(row)
        want = {tube: (sum(self.numbers_of(of, "weight [lb]")), 100 * min(self.numbers_of(of, "margin")))
                for tube, of in tubes.items() if all(row["verdict"] in ("holds", "short") for row in of)}
        self.assertEqual((len(marks), len(tubes)), (6, 8))
        for got, (weight, margin) in zip(marks, sorted(want.values())):
            self.assertAlmostEqual(got[0], weight, delta=0.01 * weight)
            self.assertAlmostEqual(got[1], margin, delta=1)
        pick = min((weight, tube) for tube, (weight, margin) in want.items() if margin >= 0)[1]
        words = "{:g} × {:g}".format(*map(float, pick))
        self.assertEqual([t.text for t in svg.iter("text") if "pick" in t.text], [f"pick: {words}"])
        self.assertIn(f"The pick is {words} in, the lightest that holds in every case", self.words(page.find("body/main/p")))
        dot = self.of_class(svg, "circle", "dot")
        self.assertEqual(len(dot), 1)
        self.assertAlmostEqual(x(float(dot[0].get("cx"))), want[pick][0], delta=0.01 * want[pick][0])
        self.assertIn("Not drawn: 2,", self.words(self.figures(page)[0]))

    def test_sweep_draws_margin_and_factors_and_marks_the_crossing(self):
        self.cases(FORCED | {"factor": "1.4", "factor_yield": "1.2"})
        page, rows = self.study("sweep", "--vary", "miss_a=0:0.5:0.0625")
        svg = self.figures(page)[0].find("svg")
        x = self.axis(svg, "middle", "x")
        places, margins = self.numbers_of(rows, "miss_a [in]"), self.numbers_of(rows, "margin")
        above, below = self.axis(svg, "end", "y", (0, 170)), self.axis(svg, "end", "y", (200, 400))
        lines = {}
        for path in svg.iter("path"):
            lines.setdefault((path.get("class"), self.points(path)[0][1] > 200), []).append(self.points(path))
        for style, lower, scale, wanted in (("strong", False, above, [100 * m for m in margins]),
                                            ("chain", True, below, self.numbers_of(rows, "interaction_factor")),
                                            ("plain", True, below, self.numbers_of(rows, "yield_factor")),
                                            ("dotted", True, below, self.numbers_of(rows, "column_factor"))):
            (line,) = lines[style, lower]
            self.assertEqual(len(line), len(rows), style)
            for (at, height), place, value in zip(line, places, wanted):
                self.assertAlmostEqual(x(at), place, 3)
                self.assertAlmostEqual(scale(height), value, delta=0.6 if scale is above else 0.02)
        factors = {name: self.numbers_of(rows, f"{name}_factor") for name in ("column", "yield", "interaction")}
        governed = sorted((line[0][0], line) for line in lines["strong", True])
        steps = [i for i in range(len(rows) - 1) if rows[i]["governs"] == rows[i + 1]["governs"]]
        self.assertEqual(len(governed), len(steps))  # thick where, and only where, the check governs
        for (_, line), i in zip(governed, steps):
            for (at, height), k in zip(line, (i, i + 1)):
                self.assertAlmostEqual(x(at), places[k], 3)
                self.assertAlmostEqual(below(height), factors[rows[i]["governs"]][k], delta=0.02)
        reached = list(stops(svg))
        self.assertEqual([float(at) for _, _, at in reached], places)
        for (_, said, _), row in zip(reached, rows):
            self.assertEqual(said, [f"miss_a {float(row['miss_a [in]']):.6g} in", f"margin {100 * float(row['margin']):+.1f} %", f"{row['governs']} governs",
                                     *(f"{name} reaches {math.floor(100 * float(row[name + '_factor'])) / 100:.2f}" for name in ("column", "yield", "interaction"))])
        asked = [below(line[0][1]) for line in lines["limit", True]]
        self.assertAlmostEqual(asked[0], 1.4, 1)
        self.assertAlmostEqual(asked[1], 1.2, 1)
        i = next(i for i in range(len(rows)) if margins[i] >= 0 > margins[i + 1])
        crossing = places[i] + (places[i + 1] - places[i]) * margins[i] / (margins[i] - margins[i + 1])
        self.assertIn(f"{crossing:.4g} in", [t.text for t in svg.iter("text")])
        marks = self.of_class(svg, "line", "mark")
        self.assertEqual(len(marks), 2)
        for mark in marks:
            self.assertAlmostEqual(x(float(mark.get("x1"))), crossing, 3)
        now = self.of_class(svg, "line", "dashed")[0]
        self.assertAlmostEqual(x(float(now.get("x1"))), 0.1, 3)
        ticks = [t.text for t in svg.iter("text") if t.get("class") == "tick" and t.get("text-anchor") == "middle"]
        self.assertEqual(ticks[:3], ["0", "1/4", "1/2"])  # inch fractions

    def test_of_a_long_sweep_the_notable_values_are_reached(self):
        self.cases(FORCED)
        page, rows = self.study("sweep", "--vary", "miss_a=0in:0.5in:0.005in")
        reached = {float(at): tab for tab, _, at in stops(self.figures(page)[0].find("svg"))}
        places, margins = [round(v, 9) for v in self.numbers_of(rows, "miss_a [in]")], self.numbers_of(rows, "margin")
        i = next(i for i in range(len(rows) - 1) if margins[i] >= 0 > margins[i + 1])
        wanted = {places[0], places[-1], places[margins.index(min(margins))], places[i], places[i + 1], 0.1}
        self.assertEqual(set(reached), wanted)
        self.assertTrue(all(reached.values()))

    def test_sweep_and_index_have_the_worst_first(self):
        self.cases(FORCED | {"case": "easy", "compression [lbf]": "500"}, FORCED | {"case": "hard", "compression [lbf]": "6000"},
                   FORCED | {"case": "middle", "compression [lbf]": "3000"})
        page, _ = self.study("sweep", "--vary", "miss_a=0:0.25:0.125")
        self.assertEqual([f.find("h2").text for f in self.figures(page)], ["All cases", "hard", "middle", "easy"])
        overview = self.figures(page)[0].find("svg")
        lines = [(g.get("data-case"), g.find("path").get("class")) for g in overview.iter("g") if g.get("data-case")]
        self.assertEqual(lines, [("easy", "plain"), ("middle", "plain"), ("hard", "strong")])
        maps, _ = self.study("sweep", "--vary", "miss_a=0:0.25:0.125", "--vary", "bow=0:0.1:0.05")
        self.assertEqual([f.find("h2").text for f in self.figures(maps)], ["hard", "middle", "easy"])
        clocks, rows = self.study("index")
        marked = {row["case"]: float(row["margin_as_marked"]) for row in rows if row["case"]}
        self.assertEqual([f.find("h2").text for f in self.figures(clocks)], sorted(marked, key=marked.get))

    def test_thirty_lines_in_one_chart_of_which_the_worst_are_named(self):
        self.cases(*({"case": f"c{i:02}", "compression [lbf]": str(1000 + 37 * i)} for i in range(30)))
        page, _ = self.study("sweep", "--vary", "bow=0in:0.1in:0.05in")
        svg = self.figures(page)[0].find("svg")
        self.assertEqual(sum(g.get("data-case") is not None for g in svg.iter("g")), 30)
        named = {t.text for t in svg if t.tag == "text" and re.fullmatch(r"c\d\d", t.text)}
        self.assertEqual(named, {f"c{i:02}" for i in range(14, 30)})
        self.assertEqual(sum(tab for tab, _, _ in stops(svg)), 30)  # the least margin of each line

    def test_stops_have_the_numbers_of_the_answer(self):
        self.file("tolerances.csv", "column,minus,plus,unit\nbow,0.02,0.02,in\n")
        self.cases(FORCED, {"compression [lbf]": "7500", "end_a [in-lbf/rad]": "welded", "end_b": "welded", "bow [in]": "0.05"})
        page, rows = self.study("limit", "--find", "miss_a", "--to", "1")
        reached = [lines for _, lines, _ in stops(self.figures(page)[0].find("svg"))]
        for lines, row in zip(reached, rows):
            self.assertEqual(lines[:2], [row["case"], f"now {float(row['now [in]']):.6g} in"])
            if row["state"] == "found":
                self.assertAlmostEqual(float(re.match(r"limit ([\d.]+) in", lines[2]).group(1)), float(row["limit [in]"]), delta=1e-3)
            else:
                self.assertEqual(lines[2], "limit short where the range begins (✗ SHORT)")
        self.assertEqual([row["state"] for row in rows], ["found", "already"])
        page, rows = self.study("compare", "--walls", "0.049,0.065,0.12")
        reached = {lines[1] for _, lines, _ in stops(next(f for f in self.figures(page)).find("svg"))}
        worst = {}
        for row in rows:
            worst[row["wall [in]"]] = min(worst.get(row["wall [in]"], math.inf), float(row["margin"]))
        self.assertEqual(reached, {f"worst margin {percent(low)}" for low in worst.values()})
        page, rows = self.study("index")
        turned = self.run_program("sweep", "cases.csv", "--vary", "bow_clock=0:345:15").rows
        for figure in self.figures(page):
            reached = list(stops(figure.find("svg")))
            self.assertEqual([lines[0] for _, lines, _ in reached], [f"bow at {15 * i}°: margin {percent(row['margin'])}" for i, row in
                                                                     enumerate(r for r in turned if r["case"] == figure.find("h2").text)])
            self.assertEqual([i for i, (tab, _, _) in enumerate(reached) if tab], [0, 6, 12, 18])
        page, rows = self.study("scatter", "--tolerances", "tolerances.csv", "--samples", "400")
        for figure in self.figures(page):
            reached = list(stops(figure.find("svg")))
            shares = [float(re.match(r"([\d.]+) % of the samples", lines[1]).group(1)) for _, lines, _ in reached]
            self.assertAlmostEqual(sum(shares), 100, delta=0.05 * len(shares))
            self.assertTrue(reached[0][0] and reached[-1][0])
            self.assertLessEqual(sum(tab for tab, _, _ in reached), TABS_MOST)
        page, rows = self.study("sweep", "--vary", "miss_a=0:0.5:0.125", "--vary", "bow=0in:0.1in:0.05in")
        for figure in self.figures(page):
            margins = {(row["miss_a [in]"], row["bow [in]"]): float(row["margin"]) for row in rows if row["case"] == figure.find("h2").text}
            reached = list(stops(figure.find("svg")))
            self.assertEqual(len(reached), len(margins))
            for _, lines, _ in reached:
                at = tuple(min((key[i] for key in margins), key=lambda v, n=float(lines[i].split()[1]): abs(float(v) - n)) for i in (0, 1))
                self.assertTrue(lines[2].startswith(f"margin {percent(margins[at])}"), lines)

    def test_an_axis_of_values_that_are_no_fractions_has_decimals_and_three_ticks(self):
        self.cases(FORCED)
        page, _ = self.study("sweep", "--vary", "bow=0in:0.2in:0.05in")
        ticks = [t.text for t in self.figures(page)[0].find("svg").iter("text") if t.get("class") == "tick" and t.get("text-anchor") == "middle"]
        self.assertGreaterEqual(len(ticks), 6)
        self.assertFalse([t for t in ticks if "/" in t])

    def test_charts_of_several_cases_have_one_scale(self):
        self.cases(FORCED, {"case": "b", "compression [lbf]": "500"})
        page, _ = self.study("sweep", "--vary", "bow=0in:0.2in:0.05in")
        scales = {tuple(t.text for t in f.find("svg").iter("text") if t.get("class") == "tick" and t.get("text-anchor") == "end")
                  for f in self.figures(page)[1:]}
        self.assertEqual(len(self.figures(page)), 3)
        self.assertEqual(len(scales), 1)

    def test_compare_has_the_matrix_of_the_text(self):
        self.cases(FORCED, {"case": "b", "compression [lbf]": "12000", "bow [in]": "0.1"})
        page, rows = self.study("compare", "--walls", "0.035,0.058,0.12,0.7")
        matrix = next(t for t in page.iter("table") if t.get("class") == "stack matrix")
        body = [[self.words(cell) for cell in tr] for tr in matrix.find("tbody")]
        self.assertEqual(len(body), 4)
        for i, case in enumerate(("forced", "b")):
            self.assertEqual(body[i][0], case)
            for cell, row in zip(body[i][1:], rows[4 * i:]):
                if row["verdict"] in ("holds", "short"):
                    star = " *" if row["pick"] == "lightest" else ""
                    self.assertEqual(cell, f"{'✓' if row['verdict'] == 'holds' else '✗'} {100 * float(row['margin']):+.1f} %{star}")
                else:
                    self.assertEqual(cell, "–")
        self.assertEqual(body[2][0], "Holds in")
        self.assertEqual(body[2][1], f"{sum(row['verdict'] == 'holds' for row in rows[::4])} of 2")

    def test_a_sweep_breaks_where_a_value_was_refused(self):
        self.cases({"compression [lbf]": "2000", "end_a [in-lbf/rad]": "welded", "weld_zone [in]": "1"})
        page, rows = self.study("sweep", "--vary", "wall=0.03:0.9:0.03")
        self.assertLess(len(rows), 30)
        self.assertIn("that could be worked out hold", self.words(page.find("body/main/p")))
        self.assertIn("Not every combination could be worked out, in 1 of the file’s rows", self.words(page))

    def grid(self, rows):
        return {(float(row["miss_a [in]"]), float(row["bow [in]"])): float(row["margin"]) for row in rows}

    def margin_at(self, grid, a, b):
        """Linear in the four triangles of a cell that meet in its middle."""
        xs, ys = sorted({k[0] for k in grid}), sorted({k[1] for k in grid})
        i = max(i for i in range(len(xs) - 1) if i == 0 or xs[i] <= a)
        k = max(k for k in range(len(ys) - 1) if k == 0 or ys[k] <= b)
        corners = [grid[xs[i], ys[k]], grid[xs[i + 1], ys[k]], grid[xs[i + 1], ys[k + 1]], grid[xs[i], ys[k + 1]]]
        u, v, middle = (a - xs[i]) / (xs[i + 1] - xs[i]), (b - ys[k]) / (ys[k + 1] - ys[k]), sum(corners) / 4
        side = min(range(4), key=lambda s: (v, 1 - u, 1 - v, u)[s])
        d, s = (v, 1 - u, 1 - v, u)[side], (u, v, 1 - u, 1 - v)[side]
        return corners[side] * (1 - s - d) + corners[(side + 1) % 4] * (s - d) + 2 * d * middle

    def test_a_map_has_its_zero_line_and_hatches_what_is_short(self):
        self.cases(FORCED | {"bow_clock": "0"})
        for vary in (["miss_a=0:0.5:0.0625", "bow=0:0.2:0.02"], ["miss_a=0.5:0:-0.125", "bow=0.2:0:-0.05"]):
            page, rows = self.study("sweep", "--vary", vary[0], "--vary", vary[1])
            svg, grid = self.figures(page)[0].find("svg"), self.grid(rows)
            x, y = self.axis(svg, "middle", "x"), self.axis(svg, "end", "y")
            (zero,), (hatch,) = self.of_class(svg, "path", "zero"), self.of_class(svg, "path", "hatch")
            self.assertGreater(len(self.points(zero)), 10)
            for at, up in self.points(zero):
                self.assertAlmostEqual(self.margin_at(grid, x(at), y(up)), 0, delta=0.002)
            for at, up in self.points(hatch):
                self.assertLess(self.margin_at(grid, x(at), y(up)), 0.002)
            # as much is hatched as is short: strokes stand 7 apart, square to them 7/√2
            ends = self.points(hatch)
            hatched = sum(math.dist(p, q) for p, q in zip(ends[::2], ends[1::2])) * 7 / math.sqrt(2)
            steps = [(i + 0.5) / 60 for i in range(60)]
            share = sum(self.margin_at(grid, 0.5 * u, 0.2 * v) < 0 for u in steps for v in steps) / 3600
            self.assertAlmostEqual(hatched / (286 * 240), share, delta=0.02)
            self.assertIn("0 %", [t.text for t in svg.iter("text")])
            self.assertIn("the hatched side is short", self.words(self.figures(page)[0]))

    def test_the_lines_of_a_map_stand_at_their_margins(self):
        self.cases({"compression [lbf]": "3000", "end_a [in-lbf/rad]": "welded", "end_b": "welded"})
        page, rows = self.study("sweep", "--vary", "miss_a=0in:0.25in:0.125in", "--vary", "bow=0in:0.1in:0.05in")
        svg, grid = self.figures(page)[0].find("svg"), self.grid(rows)
        x, y = self.axis(svg, "middle", "x"), self.axis(svg, "end", "y")
        lines = self.of_class(svg, "path", "contour")
        self.assertGreater(len(lines), 2)
        for line in lines:
            levels = [self.margin_at(grid, x(at), y(up)) for at, up in self.points(line)]
            self.assertAlmostEqual(min(levels), max(levels), delta=0.005)
            self.assertAlmostEqual(100 * levels[0] % 1, round(100 * levels[0] % 1), delta=0.4)
        self.assertEqual(self.of_class(svg, "path", "zero", "hatch"), [])
        self.assertIn("It holds everywhere that was worked out.", self.words(self.figures(page)[0]))

    def test_a_map_crosses_out_what_could_not_be_worked_out(self):
        self.cases({"compression [lbf]": "3000", "end_a [in-lbf/rad]": "welded"})
        page, rows = self.study("sweep", "--vary", "wall=0.05:0.95:0.1", "--vary", "bow=0in:0.1in:0.05in")
        svg = self.figures(page)[0].find("svg")
        missing = 10 * 3 - len(rows)
        self.assertGreater(missing, 0)
        self.assertEqual(len(self.of_class(svg, "path", "unknown")), missing)
        self.assertIn(f"{missing} of 30 combinations could not be worked out", self.words(self.figures(page)[0]))
        x, last = self.axis(svg, "middle", "x"), max(self.numbers_of(rows, "wall [in]"))
        for band in svg.iter("path"):
            if (band.get("class") or "").startswith("fill-"):
                self.assertLessEqual(max(x(at) for at, _ in self.points(band)), last + 1e-3)

    def test_limit_shows_now_and_limit(self):
        self.cases(FORCED, {"compression [lbf]": "7500", "end_a [in-lbf/rad]": "welded", "end_b": "welded"},
                   {"compression [lbf]": "30000"})
        page, rows = self.study("limit", "--find", "miss_a", "--to", "1")
        svg = self.figures(page)[0].find("svg")
        x = self.axis(svg, "middle", "x")
        rings, bars, marks = (self.of_class(svg, *of) for of in (("circle", "ring"), ("rect", "fill-blue", "fill-red"), ("line", "mark")))
        self.assertEqual([row["state"] for row in rows], ["found", "found", "already"])
        for row, ring, bar, mark in zip(rows, rings, bars, marks):
            now, limit = float(row["now [in]"]), float(row["limit [in]"])
            self.assertAlmostEqual(x(float(ring.get("cx"))), now, 3)
            self.assertAlmostEqual(x(float(mark.get("x1"))), limit, 2)
            self.assertAlmostEqual(x(float(bar.get("x"))), min(now, limit), 2)
            self.assertAlmostEqual(float(bar.get("y")) + 4, float(ring.get("cy")), 2)
        self.assertEqual([t.text for t in svg.iter("text") if (t.text or "").startswith("✗")], ["✗ PAST", "✗ SHORT"])
        self.assertIn("2 of 3 cases are past the limit of miss_a, for a margin of at least 0 %.", self.words(page))

    def test_short_outside_the_range_has_no_room_and_no_bar(self):
        self.cases({"compression [lbf]": "-20000"})
        page, _ = self.study("limit", "--find", "compression", "--to", "8000")
        svg = self.figures(page)[0].find("svg")
        self.assertEqual((len(self.of_class(svg, "circle", "ring")), self.of_class(svg, "rect", "fill-blue", "fill-red")), (1, []))
        self.assertIn("✗ SHORT", [t.text for t in svg.iter("text")])
        self.assertIn("The case is past the limit of compression", self.words(page.find("body/main/p")))

    def test_the_head_of_limit_says_the_limit_of_the_least_room(self):
        for miss, start in ("0.01", "Least room: ‘tight’: miss_a may go to "), ("0.8", "Furthest past its limit: ‘tight’: miss_a may go to "):
            welded = {"miss_a_clock": "0", "end_a [in-lbf/rad]": "welded"}
            self.cases(welded | {"case": "easy", "miss_a [in]": "0.001", "compression [lbf]": "100"},
                       welded | {"case": "tight", "miss_a [in]": miss, "compression [lbf]": "2000"})
            page, rows = self.study("limit", "--find", "miss_a", "--to", "0.9in")
            said = self.words(page.find("body/main/p"))
            row = {row["case"]: row for row in rows}["tight"]
            self.assertEqual(row["state"], "found")
            self.assertTrue(said.startswith(start), said)
            limit, sixtyfourths = re.match(r"([\d.]+) in \(([\d/]+)\)\.", said[len(start):]).groups()
            true = float(row["limit [in]"])
            self.assertTrue(0 <= true - float(limit) < 0.001 and 0 <= true - fractions.Fraction(sixtyfourths) < 1 / 64, (said, true))

    def test_the_head_of_sweep_says_where_the_worst_case_changes(self):
        self.cases({"miss_a [in]": "0.1", "miss_a_clock": "0", "end_a [in-lbf/rad]": "welded", "compression [lbf]": "2000"})
        for values, way in ("0:1:0.25", "up"), ("1:0:-0.25", "down"):
            page, rows = self.study("sweep", "--vary", f"miss_a={values}")
            holds = [row["verdict"] == "holds" for row in rows]
            at = [float(row["miss_a [in]"]) for row in rows]
            self.assertEqual(len(set(holds)), 2)
            said = self.words(page.find("body/main/p"))
            i = next(i for i in range(1, len(holds)) if holds[i] != holds[i - 1])
            first, then = ("holds", "is short") if holds[0] else ("is short", "holds")
            self.assertTrue(said.endswith(f"‘{rows[0]['case']}’ {first} {way} to miss_a {at[i - 1]:g} in and {then} from {at[i]:g} in on."), said)

    def test_margins_read_the_same_in_sentence_drawing_and_table(self):
        self.cases(FORCED)
        page, rows = self.study("compare", "--walls", "0.035,0.083")
        cells = [{td.get("data-label"): "".join(td.itertext()) for td in tr.findall("td")} for tr in next(t for t in page.iter("table") if "list" in t.get("class", "").split()).find("tbody")]
        for cell, row in zip(cells, rows):
            self.assertEqual(cell["margin"], f"{100 * float(row['margin']):+.2f} %")
            self.assertEqual(cell["stiffness change"], f"{100 * float(row['stiffness_change']):+.2f} %")

    def test_limits_of_many_cases_fit_on_sheets(self):
        self.cases(*({"case": f"c{i}", "compression [lbf]": str(1000 + i)} for i in range(60)))
        page, _ = self.study("limit", "--find", "compression", "--to", "90000")
        drawings = [f.find("svg") for f in self.figures(page)]
        self.assertEqual([len(self.of_class(d, "circle", "ring")) for d in drawings], [24, 24, 12])

    def test_index_goes_round_the_clock(self):
        self.cases(FORCED | {"bow [in]": "0.1", "miss_a_clock": "60"},
                   {"case": "level", "compression [lbf]": "3000", "bow [in]": "0.05"}, {"case": "straight"})
        page, rows = self.study("index")
        rows = [row for row in rows if row["case"]]  # those of the parts, one case each, are not drawn
        round_clock = self.run_program("sweep", "cases.csv", "--vary", "bow_clock=0:357:3").rows
        figures = self.figures(page)
        self.assertEqual([f.find("h2").text for f in figures], ["forced", "level"])
        for figure, row in zip(figures, rows):
            svg = figure.find("svg")
            ticks = {float(t.text): (float(t.get("x")) - 180, 100 + 4 - float(t.get("y"))) for t in svg.iter("text")
                     if t.get("class") == "tick halo"}
            (a, first), (b, last) = ((math.hypot(*ticks[v]), v) for v in (min(ticks), max(ticks)))
            self.assertIn(0, ticks)

            def margin(at, up):
                return first + (math.hypot(at - 180, 100 - up) - a) / (b - a) * (last - first)

            def clock(at, up):
                return math.degrees(math.atan2(at - 180, 100 - up)) % 360

            (line,) = self.of_class(svg, "path", "strong")
            want = [float(r["margin"]) for r in round_clock if r["case"] == row["case"]]
            self.assertEqual(len(self.points(line)), len(want))
            for i, (at, value) in enumerate(zip(self.points(line), want)):
                self.assertAlmostEqual(margin(*at), 100 * value, delta=1)
                self.assertAlmostEqual(abs((clock(*at) - 3 * i + 180) % 360 - 180), 0, delta=0.5)
            (ring,) = self.of_class(svg, "circle", "limit")
            self.assertAlmostEqual(margin(180 + float(ring.get("r")), 100), 0, delta=0.5)
            for end in self.points(self.of_class(svg, "path", "hatch")[0]):
                self.assertAlmostEqual(math.dist(end, (180, 100)), float(ring.get("r")), delta=0.1)
        svg = figures[0].find("svg")
        low = float(rows[0]["worst_margin"]) < 0
        for style, name in ("dot", "best"), ("dot-red" if low else "dot-ink", "worst"):
            (dot,) = self.of_class(svg, "circle", style)
            at = float(dot.get("cx")), float(dot.get("cy"))
            angle = math.degrees(math.atan2(at[0] - 180, 100 - at[1])) % 360
            self.assertAlmostEqual((angle - float(rows[0][f"{name}_clock [deg]"]) + 180) % 360, 180, delta=0.5)
            self.assertIn(f"{100 * float(rows[0][f'{name}_margin']):+.1f} %", [t.text for t in svg.iter("text")])
        for figure, row in zip(figures, rows):  # red is for what is short alone
            self.assertEqual(self.of_class(figure.find("svg"), "circle", "dot-red") != [], float(row["worst_margin"]) < 0)
        self.assertIn("The clock of the bow does not matter here.", self.words(figures[1]))
        self.assertIn("1 of 3 cases has no bow", self.words(page))

    def test_scatter_shades_what_is_short_and_ranks_the_drivers(self):
        self.file("tolerances.csv", "column,minus,plus,unit\nbow,0.02,0.02,in\nwall,8,8,%\ncompression,30,30,%\n")
        self.cases({"compression [lbf]": "9000", "bow [in]": "0.05", "end_a [in-lbf/rad]": "welded", "end_b": "welded"},
                   {"case": "fine", "compression [lbf]": "1000", "bow [in]": "0.05"},
                   {"case": "all short", "compression [lbf]": "30000", "bow [in]": "0.05"}, {"case": "idle", "bow [in]": "0.05"})
        given = ["--tolerances", "tolerances.csv", "--samples", "1000"]
        page, rows = self.study("scatter", *given)
        ranked = self.run_program("scatter", "cases.csv", *given, "--drivers").rows
        shares = []
        for figure, row in zip(self.figures(page), rows[:3]):
            svg = figure.find("svg")
            bars = {style: sum(float(r.get("height")) for r in self.of_class(svg, "rect", style)) for style in ("fill-blue", "fill-red")}
            shares.append(float(row["short_share"]))
            self.assertAlmostEqual(bars["fill-red"] / sum(bars.values()), shares[-1], delta=1e-3)
            x = self.axis(svg, "middle", "x")
            for bar in self.of_class(svg, "rect", "fill-blue", "fill-red"):
                left, right = x(float(bar.get("x"))), x(float(bar.get("x")) + float(bar.get("width")))
                self.assertTrue(right < 0.2 if bar.get("class") == "fill-red" else left > -0.2)
            names = [t.text for t in svg.findall("text") if t.get("class") is None and t.get("text-anchor") is None]
            widths = [float(r.get("width")) / 166 for r in self.of_class(svg, "rect", "fill-steel")]
            drivers = [r for r in ranked if r["case"] == row["case"]]
            self.assertEqual(names[::2], [r["driver"] for r in drivers])
            for got, driver in zip(widths, drivers):
                self.assertAlmostEqual(got, float(driver["driver_share"]), delta=1e-3)
        self.assertTrue(0.05 < shares[0] < 0.95)
        self.assertEqual(shares[1:], [0, 1])
        self.assertIn(f"short: {100 * shares[0]:.2f} %", [t.text for t in page.iter("text")])
        odds = f"{10 * shares[0]:.0f} in 10" if shares[0] > 0.5 else f"1 in {1 / shares[0]:.0f}"
        some = f"‘{rows[0]['case']}’ falls short in {100 * shares[0]:.2f} % of its samples, about {odds}."
        self.assertEqual(f"Every sample of ‘all short’ is short. {some} 2 of 4 cases have short samples.", self.words(page.find("body/main/p")))
        self.assertIn("Without any limit, so they hold, and not drawn: 1000.", self.words(self.figures(page)[3]))


if __name__ == "__main__":
    run_tests()
