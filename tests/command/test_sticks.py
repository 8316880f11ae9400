"""sticks: cutting plans, messages, formats, text and page."""

import math
import xml.etree.ElementTree as xml

from program import in_si, name_and_unit, run_tests
from shop import ShopTest

PARTS = "part,od [in],wall [in],length [in],count,bow_most [in]\n"
STOCK = "stick,od [in],wall [in],length [in],bow [in],count\n"
COLUMNS = ("stick,position,part,od [in],wall [in],cut_from [in],cut_to [in],bow [in],bow_most [in],weight [lb],stick_length [in],stick_bow [in],"
           "remainder [in],remainder_weight [lb],kerf_weight [lb],basis,sticks,least_sticks")
MILL = "mill,1.25,0.058,100,0.4,2\n"


class SticksTest(ShopTest):
    def sticks(self, parts, stock=MILL, *words):
        self.file("parts.csv", PARTS + parts)
        self.file("stock.csv", STOCK + stock)
        return self.run_program("sticks", "parts.csv", "--stock", "stock.csv", *words)

    def places(self, run):
        return [(row["stick"], row["position"], row["part"], float(row["cut_from [in]"]), float(row["cut_to [in]"])) for row in run.rows]


class Plans(SticksTest):
    def test_a_plan(self):
        run = self.sticks("rail,1.25,0.058,40,2,\nbrace,1.25,0.058,30,3,\n")
        self.assertRun(run, 0)
        self.assertEqual(self.places(run), [("mill 1", "1", "rail", 0, 40), ("mill 1", "2", "rail", 40.0625, 80.0625),
                                            ("mill 2", "1", "brace", 0, 30), ("mill 2", "2", "brace", 30.0625, 60.0625),
                                            ("mill 2", "3", "brace", 60.125, 90.125)])
        area, density = math.pi / 4 * (1.25 ** 2 - (1.25 - 0.116) ** 2), 0.283
        first, last = run.rows[0], run.rows[1]
        self.assertNear(first["weight [lb]"], 40 * area * density, 1e-3)
        self.assertNear(first["bow [in]"], 0.4 * 0.16)
        self.assertEqual((first["remainder [in]"], first["basis"], first["sticks"], first["least_sticks"]), ("", "exact", "2", "2"))
        self.assertNear(last["remainder [in]"], 100 - 80.125)
        # nothing is lost: parts, remainder and chips weigh what the stick weighed
        for stick in "mill 1", "mill 2":
            rows = [row for row in run.rows if row["stick"] == stick]
            total = sum(float(row["weight [lb]"]) for row in rows) + float(rows[-1]["remainder_weight [lb]"]) + float(rows[-1]["kerf_weight [lb]"])
            self.assertNear(total, 100 * float(first["weight [lb]"]) / 40)

    def test_the_kerf(self):
        for kerf, pieces in [("0", 4), ("0.01", 3), ("1/16in", 3), ("0mm", 4)]:
            run = self.sticks("p,1.25,0.058,25,8,\n", "mill,1.25,0.058,100,,3\n", "--kerf", kerf)
            self.assertRun(run, 0)
            self.assertEqual(sum(row["stick"] == "mill 1" for row in run.rows), pieces, kerf)
        run = self.sticks("p,1.25,0.058,24.5,4,\n", "mill,1.25,0.058,100,,1\n", "--kerf", "0.66666666666666")
        self.assertEqual((run.status, run.rows[-1]["remainder [in]"]), (0, "0"))
        self.assertEqual(self.sticks("p,1.25,0.058,24.5,4,\n", "mill,1.25,0.058,100,,1\n", "--kerf", "0.6667").status, 2)

    def test_a_bare_kerf_is_in_the_unit_of_the_parts(self):
        self.file("parts.csv", "part,od [in],wall [in],length [mm]\np,1.25,0.058,200\nq,1.25,0.058,100\n")
        self.file("stock.csv", STOCK + MILL)
        row = self.run_program("sticks", "parts.csv", "--stock", "stock.csv", "--kerf", "3", "--units", "si").rows[1]
        self.assertNear(row["cut_from [mm]"], 203)

    def test_sizes_are_planned_apart_whatever_unit_they_are_in(self):
        self.file("parts.csv", "part,od [mm],wall [mm],length [in]\nthick,31.75,1.4732,20\nthin,31.75,0.8892,30\n")
        self.file("stock.csv", STOCK + "a,1.25,0.035,90,,1\nb,1.25,0.058,80,,1\n")
        run = self.run_program("sticks", "parts.csv", "--stock", "stock.csv")
        self.assertEqual(run.status, 2)  # 0.8892 mm is not 0.035 in
        self.assertIn("parts.csv:3: od: part 'thin': no stick of 1.25 in x 0.0350079 in is in stock", run.err)
        self.assertEqual([(row["part"], row["stick"]) for row in run.rows], [("thick", "b 1")])
        self.file("parts.csv", "part,od [mm],wall [mm],length [in]\nthick,31.75,1.4732,20\nthin,31.75,0.889,30\n")
        run = self.run_program("sticks", "parts.csv", "--stock", "stock.csv")
        self.assertEqual([(row["part"], row["stick"]) for row in run.rows], [("thick", "b 1"), ("thin", "a 1")])

    def test_the_straightest_sticks_serve_the_parts_that_need_them(self):
        stock = "bent,1.25,0.058,100,1,1\nunknown,1.25,0.058,100,,1\nstraight,1.25,0.058,100,0.1,1\n"
        run = self.sticks("rail,1.25,0.058,60,1,0.05\nany,1.25,0.058,61,1,\n", stock)
        self.assertRun(run, 0)
        self.assertEqual({row["part"]: row["stick"] for row in run.rows}, {"rail": "straight 1", "any": "unknown 1"})
        self.assertEqual({row["part"]: row["bow [in]"] for row in run.rows}["any"], "")
        self.assertNear({row["part"]: row["bow [in]"] for row in run.rows}["rail"], 0.1 * 0.36)

    def test_names_of_sticks_go_on_over_rows(self):
        stock = "mill,1.25,0.058,100,0.1,1\nmill,1.25,0.058,100,0.2,1\nother,1.25,0.058,100,0.3,1\n"
        run = self.sticks("p,1.25,0.058,90,3,\n", stock)
        self.assertEqual([row["stick"] for row in run.rows], ["mill 1", "mill 2", "other 1"])

    def test_many_pieces(self):
        run = self.sticks("a,1.25,0.058,33,50,\nb,1.25,0.058,21,50,\n", "mill,1.25,0.058,100,0.4,60\n")
        self.assertRun(run, 0)
        self.assertEqual({row["basis"] for row in run.rows}, {"first fit decreasing"})
        self.assertEqual(len(run.rows), 100)
        text = self.sticks("a,1.25,0.058,33,50,\nb,1.25,0.058,21,50,\n", "mill,1.25,0.058,100,0.4,60\n", "--format", "text")
        self.assertIn("first fit decreasing, not searched", " ".join(text.out.split()))

    def test_the_material(self):
        self.assertRun(self.sticks("p,1.25,0.058,40,1,\n", MILL, "--material", "cheese"), 2,
                       f"sticks: --material: 'cheese' is not in {self.installed.materials}", "")


class Formats(SticksTest):
    def test_csv_and_si(self):
        parts = "rail,1.25,0.058,40,2,0.1\n"
        run, metric = self.sticks(parts), self.sticks(parts, MILL, "--units", "si")
        self.assertEqual(run.out.splitlines()[0], COLUMNS)
        self.assertEqual(metric.out.splitlines()[0], in_si(COLUMNS))
        self.assertNear(metric.rows[0]["cut_to [mm]"], 1016)
        self.assertNear(metric.rows[0]["weight [kg]"], float(run.rows[0]["weight [lb]"]) * 0.45359237)

    def test_json(self):
        answer = self.sticks("rail,1.25,0.058,40,2,\n", MILL, "--format", "json").json
        named = [name_and_unit(column) for column in COLUMNS.split(",")]
        self.assertEqual(answer["units"], {name: unit for name, unit in named if unit})
        self.assertEqual(list(answer["rows"][0]), [name for name, _ in named])
        self.assertEqual((answer["refused"], answer["rows"][0]["bow_most"], answer["rows"][0]["remainder"]), (0, None, None))
        self.assertEqual(answer["inputs"], ["parts.csv", "stock.csv"])

    def test_the_text(self):
        parts = "rail,1.25,0.058,40.984375,2,0.1\na part with a very long name indeed,1.25,0.058,30,3,\n"
        for words in [], ["--units", "si"]:
            self.assertReadable(self.sticks(parts, MILL, "--format", "text", *words).out)
        said = " ".join(self.sticks(parts, MILL, "--format", "text").out.split())
        for words in ("1.25 in x 0.058 in: 5 pieces from 2 sticks; no plan needs fewer.", "mill 1: 100.000 in (100), bow 0.400 in",
                      "1 rail 0.000 0 40.984 40 63/64 0.068 0.100", "2 rail 41.047 41 3/64 82.031 82 1/32 0.068 0.100",
                      "leaves 17.906 in (17 29/32).", "Each cut takes 0.0625 in"):
            self.assertIn(words, said)

    def test_the_page(self):
        parts = "<b>,1.25,0.058,40,2,0.1\nbrace,1.25,0.058,5,3,\nx,1,0.049,20,1,\n"
        stock = MILL + "short,1,0.049,50,,1\n"
        for units in "us", "si":
            plain = self.sticks(parts, stock, "--units", units)
            beside = self.run_program("sticks", "parts.csv", "--stock", "stock.csv", "--units", units, "--report", "page.html")
            self.assertEqual(plain, beside)
            page = xml.fromstring(self.read("page.html"))
            self.assertEqual(page.find("head/title").text, "Cutting plan")
            self.assertEqual(page.find("body/main/p").get("class"), "verdict")  # nothing was checked to hold
            self.assertNotIn("nan", self.read("page.html").lower())
            self.assertEqual(len(list(page.iter("svg"))), 2)
            self.assertEqual(len(next(page.iter("tbody"))), 6 + 2)  # pieces, and a heading for each stick

    def test_the_bars_are_to_scale(self):
        self.sticks("p,1.25,0.058,40,2,\nq,1.25,0.058,15,1,\n")
        self.run_program("sticks", "parts.csv", "--stock", "stock.csv", "--report", "page.html")
        svg = next(xml.fromstring(self.read("page.html")).iter("svg"))
        bars = [(float(r.get("x")), float(r.get("width"))) for r in svg.iter("rect") if (r.get("class") or "").startswith("fill-steel")]
        ticks = [(float(t.get("x")), float(t.text)) for t in svg.iter("text") if t.get("class") == "tick"]
        scale = (ticks[-1][0] - ticks[0][0]) / (ticks[-1][1] - ticks[0][1])
        self.assertEqual(len(bars), 3)
        for (x, width), (at, length) in zip(bars, [(0, 40), (40.0625, 40), (80.125, 15)]):
            self.assertAlmostEqual((x - ticks[0][0]) / scale, at, delta=0.01)
            self.assertAlmostEqual(width / scale, length, delta=0.01)


class Errors(SticksTest):
    FINE = "fine,1.25,0.058,40,1,\n"

    def test_a_part_that_fits_no_stick(self):
        for row, said in [("p,1,0.058,10,1,\n", "od: part 'p': no stick of 1 in x 0.058 in is in stock"),
                          ("p,1.25,0.058,101,1,\n", "length: part 'p': no stick of 1.25 in x 0.058 in is long enough: the longest has 100 in"),
                          ("p,1.25,0.058,50,1,0.05\n", "bow_most: part 'p': no stick of 1.25 in x 0.058 in that is long enough is straight enough: "
                                                       "the least bow of such a piece is 0.1 in")]:
            with self.subTest(row=row):
                run = self.sticks(self.FINE + row)
                self.assertRun(run, 2, f"parts.csv:3: {said}")
                self.assertIn("fine", [row["part"] for row in run.rows])
        run = self.sticks("p,1.25,0.058,50,1,0.05\n" + self.FINE, "mill,1.25,0.058,100,,2\n")
        self.assertIn("the bow of none is known", run.err)

    def test_too_few_sticks(self):
        run = self.sticks("p,1.25,0.058,90,3,\n" + "q,1,0.049,5,1,\n", MILL + "m,1,0.049,20,,1\n")
        self.assertRun(run, 2, "parts.csv:2: count: part 'p': 1 of 3 pieces have no stick: the sticks of 1.25 in x 0.058 in do not suffice")
        self.assertEqual([row["part"] for row in run.rows], ["p", "p", "q"])

    def test_a_bad_row_is_left_out_and_named(self):
        for part, said in [("p,1.25,0.7,10,1,\n", "parts.csv:3: wall: must be above 0 and at most half of od (a solid bar)"),
                           ("p,1.25,0.058,10,1.5,\n", "parts.csv:3: count: must be a whole number"),
                           ("p,1.25,0.058,10,0,\n", "parts.csv:3: count: "), ("p,1.25,0.058,-1,1,\n", "parts.csv:3: length: "),
                           ("p,1.25,0.058,10,1,-1\n", "parts.csv:3: bow_most: "), (",1.25,0.058,10,1,\n", "parts.csv:3: part: ")]:
            with self.subTest(part=part):
                run = self.sticks(self.FINE + part)
                self.assertEqual(run.status, 2)
                self.assertIn(f"railbow: {said}", run.err)
                self.assertEqual([row["part"] for row in run.rows], ["fine"])
        run = self.sticks(self.FINE, MILL + "m,1.25,0.058,0,,1\n")
        self.assertEqual(run.status, 2)
        self.assertIn("stock.csv:3: length: ", run.err)
        self.assertEqual([row["part"] for row in run.rows], ["fine"])
        text = self.sticks(self.FINE, MILL + "m,1.25,0.058,0,,1\n", "--format", "text")
        self.assertIn("NOT CHECKED: line 3 of stock.csv (reasons above).", text.out)
        self.assertEqual(self.sticks(self.FINE + part, MILL, "--format", "json").json["refused"], 1)

    def test_too_many_pieces(self):
        run = self.sticks("a,1.25,0.058,10,1200,\nb,1.25,0.058,11,1200,\n" + "c,1,0.049,11,1,\n", MILL + "m,1,0.049,20,,1\n")
        self.assertEqual(run.status, 2)
        self.assertIn("parts.csv:2: count: part 'a': more than 2000 pieces of 1.25 in x 0.058 in: plan them in several files", run.err)
        self.assertEqual([row["part"] for row in run.rows], ["c"])

    def test_usage(self):
        said = "sticks: name one file of parts and the sticks with --stock; see 'railbow help sticks'"
        self.sticks(self.FINE)
        for words in ["parts.csv"], ["--stock", "stock.csv"], ["--stock", "stock.csv", "parts.csv", "parts.csv"]:
            self.assertRun(self.run_program("sticks", *words), 2, said, "")
        self.assertRun(self.sticks(self.FINE, MILL, "--kerf", "-1"), 2, "--kerf: '-1' is not a length of at least 0", "")
        self.assertEqual(self.run_program("sticks", "parts.csv", "--stock", "none.csv").status, 2)

    def test_no_output_over_the_stock(self):
        run = self.sticks(self.FINE, MILL, "-o", "stock.csv")
        self.assertEqual(run.status, 2)
        self.assertEqual(self.read("stock.csv"), STOCK + MILL)


if __name__ == "__main__":
    run_tests()
