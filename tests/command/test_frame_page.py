"""The page of a frame: it is XML, shows every tube by more than its colour, and says what it draws."""

import re
import xml.etree.ElementTree as xml

from frame import LOADS, TUBES, FrameTest, changed
from page import NOT_A_NUMBER
from program import run_tests

SIDES = ["From the right side", "From above", "From the front", "At an angle"]


class Page(FrameTest):
    def page(self, *words):
        run = self.check("frame", "--report", "page.html", "-o", "answer.csv", *words)
        self.assertIn(run.status, (0, 1), run.err)
        return xml.fromstring(self.read("page.html").replace("<!DOCTYPE html>\n", ""))

    @staticmethod
    def drawings(page):
        return {figure.find("h3").text: figure.find("svg") for figure in page.iter("figure")}

    @staticmethod
    def of_class(drawing, *names):
        return [element for element in drawing.iter() if element.get("class") in names]

    def test_every_tube_in_four_views(self):
        self.frame(loads=[*LOADS, {"run": "hard", "joint": "end", "force_z [lbf]": "-8000"}])
        drawings = self.drawings(self.page())
        for side in SIDES:
            lines = self.of_class(drawings[side], "tube-short", "tube-close", "tube-easy")
            self.assertEqual(len(lines), 2, side)
            self.assertEqual(len(self.of_class(drawings[side], "moved")), 2, side)
            self.assertTrue([text for text in drawings[side].iter("text") if re.match(r"\d: [+-][\d.]+ %", text.text or "")], side)

    def test_a_run_without_balance(self):
        self.frame(loads=[{**LOADS[0], "force_z [lbf]": "-20000"}])
        drawings = self.drawings(self.page())
        self.assertEqual(len(self.of_class(drawings[SIDES[0]], "tube-short")), 2)
        self.assertEqual(self.of_class(drawings[SIDES[0]], "moved"), [])
        self.assertIn("no movement is drawn", self.read("page.html"))

    def test_each_class_has_its_own_dashes_and_a_name(self):
        self.frame()
        self.page()
        text = self.read("page.html")
        looks = re.findall(r"svg \.tube-(\w+)\{([^}]*)\}", text)
        self.assertEqual(len(looks), 4)
        plain = {(re.search(r"stroke-width:([\d.]+)", look).group(1), "dasharray" in look) for _, look in looks}
        self.assertEqual(len(plain), 4, "classes told apart by colour alone")
        self.assertIn("holds, margin", text)

    def test_loads_and_supports(self):
        self.frame()
        drawings = self.drawings(self.page())
        self.assertEqual(len(self.of_class(drawings[SIDES[0]], "head")), 1)  # one load
        self.assertEqual(len(self.of_class(drawings[SIDES[0]], "support")), 2)
        self.assertEqual(len(self.of_class(drawings[SIDES[0]], "ring")), 2)
        self.assertEqual(len(self.of_class(drawings[SIDES[1]], "head")), 0)  # the force points at the paper

    def test_moved_and_how_many_times(self):
        self.frame()
        self.page()
        self.assertRegex(self.read("page.html"), r"moved, drawn \d+ times")

    def test_its_tables_are_those_of_the_answer(self):
        self.frame(tubes=changed(TUBES, 0, cells={"miss_a [in]": "0.1", "miss_a_clock": "45"}))
        page = self.page()
        heads = [table.findtext(".//tbody/tr/th") for table in page.iter("table")]
        worst = min(self.check("frame").rows, key=lambda row: float(row["margin"]))
        self.assertEqual(heads, ["down", worst["tube"]])
        self.assertIn("locked in", {text.text for text in page.iter("text")})

    def test_no_number_is_missing_and_nothing_is_fetched(self):
        for words in [], ["--units", "si"], ["--case", "beam"]:
            self.frame()
            self.page(*words)
            text = self.read("page.html")
            self.assertIsNone(NOT_A_NUMBER.search(text))
            self.assertNotRegex(text, r"https?://(?!www\.w3\.org)|<script|<link|@import|url\(")
        self.assertIn("not judged", text)

    def test_title_and_origin(self):
        self.frame()
        self.page("--title", "Nose <1>", "--by", "K", "--note", "n", "--date", "today")
        text = self.read("page.html")
        self.assertIn("<title>Nose &lt;1&gt;</title>", text)
        self.assertIn("Read: frame/joints.csv, frame/tubes.csv, frame/loads.csv.", text)


if __name__ == "__main__":
    run_tests()
