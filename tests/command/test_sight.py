"""sight: miss and bow from readings, verdicts, messages, formats, text and page."""

import math
import xml.etree.ElementTree as xml

from program import in_si, name_and_unit, run_tests
from shop import ShopTest

HEAD = "line,kind,station [in],up [in],right [in],reading_error [in],landing [in]\n"
COLUMNS = ("line,kind,verdict,miss [in],miss_clock [deg],miss_error [in],bow [in],bow_clock [deg],bow_error [in],bow_shape,bow_at [in],"
           "error_major [in],error_minor [in],error_clock [deg],offset_a [in],offset_a_clock [deg],misfit,misfit_limit,worst_station [in],readings")


def bar(line="s", slope=(0.01, 0.0), offset=(0.1, 0.2), stations=(0, 5, 10, 15), landing=30, slip=0.0):
    """A bar in a socket: exact readings, the third too high by `slip`."""
    return "".join(f"{line},socket,{x},{offset[0] + slope[0] * x + (slip if i == 2 else 0)!r},{offset[1] + slope[1] * x!r},,{landing if i == 0 else ''}\n"
                   for i, x in enumerate(stations))


def string(line="t", bow=0.05, clock=90, length=36, count=9, shape=lambda u: math.sin(math.pi * u)):
    up, right = math.cos(math.radians(clock)), math.sin(math.radians(clock))
    return "".join(f"{line},tube,{length * i / (count - 1)!r},{bow * up * shape(i / (count - 1))!r},{bow * right * shape(i / (count - 1))!r},0.001,\n"
                   for i in range(count))


class SightTest(ShopTest):
    def sight(self, rows, *words, head=HEAD):
        self.file("sight.csv", head + rows)
        return self.run_program("sight", "sight.csv", *words)


class Numbers(SightTest):
    def test_a_socket(self):
        run = self.sight(bar(slope=(0.006, 0.008)))
        self.assertRun(run, 0)
        row = run.rows[0]
        self.assertEqual((row["line"], row["kind"], row["verdict"], row["readings"]), ("s", "socket", "significant", "8"))
        # slope 0.01 over 30 in; by hand: stations about 7.5, sum of squares 125, error 1/64, 30 in, sqrt(-2 ln 0.05)
        error = 30 / 64 / math.sqrt(125) * math.sqrt(-2 * math.log(0.05))
        for column, want in {"miss [in]": 0.3, "miss_clock [deg]": math.degrees(math.atan2(8, 6)), "miss_error [in]": error,
                             "error_major [in]": error, "error_minor [in]": error, "offset_a [in]": math.hypot(0.1, 0.2),
                             "offset_a_clock [deg]": math.degrees(math.atan2(0.2, 0.1))}.items():
            self.assertNear(row[column], want)
        for column in "bow [in]", "bow_clock [deg]", "bow_error [in]", "bow_shape", "bow_at [in]":
            self.assertEqual(row[column], "", column)
        self.assertNear(row["misfit_limit"], 9.487729036781154)  # chi-square, 4 degrees of freedom, 5 % (tables, from memory)

    def test_a_tube_of_each_shape(self):
        for name, shape, at in [("sine", lambda u: math.sin(math.pi * u), ""), ("arc", lambda u: 4 * u * (1 - u), ""),
                                ("kink", lambda u: u / 0.4 if u < 0.4 else (1 - u) / 0.6, 0.4 * 36)]:
            with self.subTest(shape=name):
                row = self.sight(string(shape=shape, clock=30)).rows[0]
                self.assertEqual((row["bow_shape"], row["verdict"], row["miss [in]"]), (name, "significant", ""))
                self.assertNear(row["bow [in]"], 0.05, 1e-5)
                self.assertNear(row["bow_clock [deg]"], 30, 1e-5)
                if at:
                    self.assertNear(row["bow_at [in]"], at, 1e-5)
                else:
                    self.assertEqual(row["bow_at [in]"], "")

    def test_the_bow_goes_through_check(self):
        """What is typed is what check takes."""
        row = self.sight(string(clock=30)).rows[0]
        self.cases({"bow [in]": row["bow [in]"], "bow_clock": row["bow_clock [deg]"], "bow_shape": row["bow_shape"], "compression [lbf]": "1000"})
        self.assertRun(self.check(), 0)

    def test_one_direction_alone(self):
        row = self.sight("s,socket,0,0,,,30\ns,socket,10,0.1,,,\n").rows[0]
        self.assertNear(row["miss [in]"], 0.3)
        self.assertEqual((row["miss_clock [deg]"], row["error_minor [in]"], row["misfit"], row["worst_station [in]"]), ("0", "", "", ""))
        self.assertNear(row["miss_error [in]"], 1.959963984540054 * 30 / 64 / math.sqrt(50))

    def test_the_verdicts(self):
        for rows, status, verdict in [(bar(slope=(0.0001, 0)), 0, "within error"), (bar(), 0, "significant"),
                                      (bar(slip=0.2), 1, "recheck"), (string(bow=0.0001), 0, "within error"),
                                      (string(shape=lambda u: math.sin(2 * math.pi * u)), 1, "recheck")]:
            with self.subTest(verdict=verdict, status=status):
                run = self.sight(rows)
                self.assertRun(run, status)
                self.assertEqual(run.rows[0]["verdict"], verdict)
        self.assertNear(self.sight(bar(slip=0.2)).rows[0]["worst_station [in]"], 10)

    def test_lines_come_in_the_order_of_the_file_however_their_rows_lie(self):
        a, b = bar("a").splitlines(True), bar("b", slope=(0, 0.01)).splitlines(True)
        mixed = self.sight("".join(line for pair in zip(b, a) for line in pair))
        self.assertEqual([row["line"] for row in mixed.rows], ["b", "a"])
        self.assertEqual(mixed.rows[1], self.sight(bar("a")).rows[0])

    def test_other_units(self):
        head = "station [ft],up [mm],right [cm],line,kind,landing [m]\n"
        row = self.sight("0,0,0,s,socket,1\n1,3.048,0.3048,s,socket,\n", head=head).rows[0]
        self.assertNear(row["miss [in]"], math.hypot(10, 10) / 25.4)
        self.assertNear(row["miss_clock [deg]"], 45)
        fractions = self.sight("s,socket,0,0,0,1/32,30\ns,socket,10,1/8,-1/8,1/32,\n").rows[0]
        self.assertNear(fractions["miss [in]"], 0.375 * math.sqrt(2))
        self.assertNear(fractions["miss_clock [deg]"], 315)


class Formats(SightTest):
    def test_csv_and_si(self):
        run, metric = self.sight(bar() + string()), self.sight(bar() + string(), "--units", "si")
        self.assertEqual(run.out.splitlines()[0], COLUMNS)
        self.assertEqual(metric.out.splitlines()[0], in_si(COLUMNS))
        self.assertNear(metric.rows[0]["miss [mm]"], 0.3 * 25.4)
        self.assertNear(metric.rows[1]["bow [mm]"], 0.05 * 25.4)

    def test_json(self):
        answer = self.sight(bar() + string(), "--format", "json").json
        named = [name_and_unit(column) for column in COLUMNS.split(",")]
        self.assertEqual(answer["units"], {name: unit for name, unit in named if unit})
        self.assertEqual(list(answer["rows"][0]), [name for name, _ in named])
        self.assertEqual((answer["refused"], answer["rows"][0]["bow"], answer["rows"][1]["miss"]), (0, None, None))
        self.assertEqual(answer["inputs"], ["sight.csv"])

    def test_the_text(self):
        rows = bar("a socket with a very long name indeed, and more".replace(",", ""), slope=(0.006, 0.008)) + bar("flat", slope=(0.0001, 0)) \
            + bar("bent", slip=0.2) + string("rail", clock=30) + "half,socket,0,0,,,30\nhalf,socket,10,0.1,,,\n"
        for words in [], ["--units", "si"]:
            self.assertReadable(self.sight(rows, "--format", "text", *words).out)
        said = " ".join(self.sight(rows, "--format", "text").out.split())
        for words in ("type miss_a 0.300 in, miss_a_clock 53 deg.", "type bow 0.050 in, bow_clock 30 deg, bow_shape sine.",
                      "'flat': no miss shows beyond the error. To be on the safe side type miss_a 0.106 in, miss_a_clock any.",
                      "'bent': read again before you type anything.", "The reading at station 10.000 in lies furthest off.",
                      "A bar twice as long, read at stations twice as far apart, would halve the error to 0.052 in (1/16).",
                      "Only up was read: what is off to the right or left is not in this answer.",
                      "Two stations fit every bar, and a wrong reading would not show: read three or more.", "; 1 to RECHECK."):
            self.assertIn(words, said)
        metric = " ".join(self.sight(rows, "--format", "text", "--units", "si").out.split())
        self.assertIn("type miss_a 7.62 mm, miss_a_clock 53 deg.", metric)

    def test_the_page(self):
        for units in "us", "si":
            words = ["--units", units]
            plain = self.sight(bar("<b>") + bar("flat", slope=(0, 0)) + string() + "half,socket,0,0,,,30\nhalf,socket,10,0.1,,,\n", *words)
            beside = self.run_program("sight", "sight.csv", *words, "--report", "page.html")
            self.assertEqual(plain, beside)
            page = xml.fromstring(self.read("page.html"))
            self.assertEqual(page.find("head/title").text, "Sighting")
            self.assertEqual(page.find("body/main/p").get("class"), "verdict")  # nothing was checked to hold
            self.assertNotIn("nan", self.read("page.html").lower())
            self.assertEqual(len(list(page.iter("svg"))), 8)
            self.assertEqual([h.text for h in page.iter("h2")][0], "<b>")
            self.assertEqual(len(next(page.iter("tbody"))), 4)
        captions = [" ".join("".join(c.itertext()).split()) for c in page.iter("figcaption")]
        self.assertIn("Type: miss_a 7.62 mm, miss_a_clock 0 deg.", captions[1])
        self.assertIn("reaches the middle: not significant", captions[3])
        typed = ["".join(p.itertext()) for p in page.iter("p") if p.get("class") == "advice"]
        self.assertEqual(typed[0], "‘<b>’: type miss_a 7.62 mm, miss_a_clock 0 deg.")
        self.assertEqual(len(typed), sum(row["verdict"] == "significant" for row in plain.rows))
        self.sight("".join(bar(f"b{i}", slope=(0.005 + 0.001 * i, 0)) for i in range(6)))
        self.run_program("sight", "sight.csv", "--report", "page.html")
        page = xml.fromstring(self.read("page.html"))
        self.assertEqual(["".join(p.itertext()).split(":")[0] for p in page.iter("p") if p.get("class") == "advice"], ["‘b5’"])

    def test_the_drawing_is_to_the_scale_that_it_says(self):
        self.sight(string(clock=0))
        self.run_program("sight", "sight.csv", "--report", "page.html")
        page = xml.fromstring(self.read("page.html"))
        svg = next(page.iter("svg"))
        ticks = [(float(t.get("x")), float(t.text)) for t in svg.iter("text") if t.get("class") == "tick" and t.get("text-anchor") == "middle"]
        scale = (ticks[-1][0] - ticks[0][0]) / (ticks[-1][1] - ticks[0][1])
        dots = [(float(c.get("cx")), float(c.get("cy"))) for c in svg.iter("circle") if c.get("class") == "dot"]
        self.assertNear((dots[-1][0] - dots[0][0]) / scale, 36, 1e-3)
        caption = next(page.iter("figcaption")).text
        times = float(caption.split("drawn ")[1].split()[0])
        self.assertNear((dots[0][1] - dots[4][1]) / scale / times, 0.05, 0.01)


class Errors(SightTest):
    def test_a_bad_row_is_left_out_and_named(self):
        for row, said in [("s,socket,3,,,,\n", "sight.csv:6: up: is empty, and so is right: a row needs one of them"),
                          ("t,tube,3,0,0,,10\n", "sight.csv:6: landing: is for a socket: leave it empty for a tube"),
                          ("s,socket,3,0,0,0,\n", "sight.csv:6: reading_error: must be above 0 in, not 0"),
                          ("s,socket,,0,0,,\n", "sight.csv:6: station: is empty: it is required")]:
            with self.subTest(row=row):
                run = self.sight(bar() + row)
                self.assertEqual(run.status, 2)
                self.assertEqual(run.err.split(":")[:4], f"railbow: {said}".split(":")[:4])
                self.assertEqual(run.rows, self.sight(bar()).rows)

    def test_a_bad_line_is_named_and_the_others_are_answered(self):
        few = "a socket needs readings at two different stations or more, a tube at three or more; or leave all cells of this column empty"
        for rows, said in [("x,socket,1,0,0,,30\n", f"sight.csv:6: up: line 'x': {few}"),
                           ("x,socket,1,0,0,,30\nx,socket,1,0.1,0,,\n", f"sight.csv:6: up: line 'x': {few}"),
                           ("x,socket,1,0,0,,30\nx,socket,2,0,,,\n", f"sight.csv:6: right: line 'x': {few}"),
                           ("x,tube,1,0,0,,\nx,tube,2,0.1,0,,\n", f"sight.csv:6: up: line 'x': {few}"),
                           ("x,socket,1,0,0,,\nx,socket,2,0,0,,\n",
                            "sight.csv:6: landing: line 'x': is needed of a socket: the distance from A to the joint where the new tube must land"),
                           ("x,socket,1,0,0,,30\nx,socket,2,0,0,,31\n", "sight.csv:7: landing: line 'x': its rows give two different distances"),
                           ("x,socket,1,0,0,,30\nx,tube,2,0,0,,\n", "sight.csv:7: kind: line 'x': its rows name both socket and tube"),
                           ("x,socket,1,0,0,,30\nx,socket,2,0.2,0,,\n",
                            "sight.csv:6: up: line 'x': the readings slope by more than 10 deg: outside the model's range")]:
            with self.subTest(rows=rows):
                run = self.sight(bar() + rows + string())
                self.assertRun(run, 2, said)
                self.assertEqual([row["line"] for row in run.rows], ["s", "t"])
        text = self.sight(bar() + rows, "--format", "text")
        self.assertIn("NOT CHECKED: line 6 (reasons above).", text.out)
        self.assertEqual(self.sight(bar() + rows, "--format", "json").json["refused"], 1)

    def test_no_line_at_all(self):
        self.file("old.csv", "kept")
        run = self.sight("x,socket,1,0,0,,30\n", "-o", "old.csv", "--report", "page.html")
        self.assertEqual(run.status, 2)
        self.assertEqual(self.read("old.csv"), "kept")
        self.assertNotIn("page.html", self.listing())

    def test_usage(self):
        self.file("sight.csv", HEAD + bar())
        self.assertRun(self.run_program("sight", "sight.csv", "sight.csv"), 2, "sight: name one file of readings; see 'railbow help sight'", "")
        self.assertRun(self.run_program("sight"), 2, "sight: name a file of sight readings, or - for standard input; see 'railbow help sight'", "")
        self.assertEqual(self.run_program("sight", "-", stdin=HEAD + bar()).rows, self.run_program("sight", "sight.csv").rows)


if __name__ == "__main__":
    run_tests()
