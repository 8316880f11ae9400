"""The page of a frame: it is XML, shows every tube by more than its colour, and says what it draws."""

import re
import xml.etree.ElementTree as xml

from frame import LOADS, TUBES, FrameTest, changed
from page import NOT_A_NUMBER
from program import joined, run_tests

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
        self.frame(loads=[{**LOADS[0], "force_z [lbf]": "-20000"}], tubes=changed(TUBES, 0, cells={"miss_a [in]": "0.1", "miss_a_clock": "45"}))
        drawings = self.drawings(self.page())
        self.assertEqual(len(self.of_class(drawings[SIDES[0]], "tube-short")), 2)
        self.assertEqual(self.of_class(drawings[SIDES[0]], "moved"), [])
        cards = [figure for figure in drawings if figure not in SIDES]
        self.assertEqual(len(cards), 2)
        for card in cards:  # what is locked in is not drawn as the load
            self.assertEqual(self.of_class(drawings[card], "strong"), [])
            self.assertNotIn("as loaded", [text.text for text in drawings[card].iter("text")])
        self.assertEqual(self.read("page.html").count("Under the run load there is no balance"), 2)
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

    def test_each_tube_is_named_where_it_is_drawn(self):
        self.frame()
        drawings = self.drawings(self.page("--case", "beam"))
        margin = min(float(row["margin"]) for row in self.check("frame", "--case", "beam").rows)
        for side in SIDES:
            names = [line.findtext("title") for line in self.of_class(drawings[side], "tube-short", "tube-close", "tube-easy", "tube-other")]
            self.assertEqual(sorted(names), [f"beam: {100 * margin:+.1f} % in run ‘down’", "brace"])

    def test_it_says_what_the_text_says(self):
        self.frame(tubes=changed(TUBES, 0, cells={"miss_a [in]": "0.1", "miss_a_clock": "45"}))
        page = self.page()
        items = {item.findtext("strong").rstrip(":"): "".join(item.itertext()) for item in page.iter("li")}
        self.assertEqual(list(items), ["What governs", "Forced fit", "Neighbours", "Joints", "How stiff the joints are", "Weight", "no bow given"])
        said = joined(self.check("frame", "--format", "text").out)
        for heading in "Neighbours", "Joints":
            self.assertIn(items[heading].replace("‘", "'").replace("’", "'"), said)
        self.assertIn("(all tubes)", items["no bow given"])
        self.frame()
        items = [item.findtext("strong") for item in self.page().iter("li")]
        self.assertEqual(items, ["What governs:", "How stiff the joints are:", "Weight:", "no bow given:"])

    def test_no_power_of_ten(self):
        self.frame(loads=[{**LOADS[0], "force_x [lbf]": "-123456"}])
        self.page()
        self.assertNotRegex(self.read("page.html"), r"\de[+-]\d")

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

    def test_what_is_for_load_cases_alone(self):
        self.frame()
        for words, name in (["--working"], "working"), (["--pages", "all"], "pages"):
            run = self.check("frame", "--report", "page.html", *words)
            self.assertEqual(run.status, 2)
            self.assertIn(f"check: --{name} is for load cases", run.err)

    def test_title_and_origin(self):
        self.frame()
        self.page("--title", "Nose <1>", "--by", "K", "--note", "n", "--date", "today")
        text = self.read("page.html")
        self.assertIn("<title>Nose &lt;1&gt;</title>", text)
        places = [text.index(f"<dt>Input</dt><dd>frame/{name}.csv<br/>") for name in ("joints", "tubes", "loads")]
        self.assertEqual(places, sorted(places))


if __name__ == "__main__":
    run_tests()
