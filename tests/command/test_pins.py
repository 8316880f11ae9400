"""The pin at the place that governs: where it stands on the drawing of a tube, and what is said beside it."""

import re
import xml.etree.ElementTree as xml

from frame import FrameTest
from page import Page
from program import run_tests

LEFT, WIDE = 58, 244  # of the tube on its drawing, see rail_drawing.c


class OnALoadCase(Page):
    def pins(self, *rows, words=()):
        """[(share of the length or None, what is said)], one for each case."""
        self.cases(*rows)
        found = []
        for card in self.cards(self.page(*words)):
            drawing = next(figure for figure in card.iter("figure") if figure.findtext("h3") == "The tube and its loads").find("svg")
            eyes = [eye for eye in drawing.iter("circle") if eye.get("class") == "pin-eye"]
            (said,) = [text.text for text in drawing.iter("text") if (text.text or "").startswith("governs")] or [None]
            self.assertLessEqual(len(eyes), 1)
            tips = [pin.get("d") for pin in drawing.iter("path") if pin.get("class") == "pin"]
            self.assertEqual(len(tips), len(eyes))
            for tip, eye in zip(tips, eyes):  # the head hangs under its tip
                x, y = map(float, re.match(r"M([\d.]+) ([\d.]+)L", tip).groups())
                self.assertEqual((float(eye.get("cx")), float(eye.get("cy"))), (x, round(y + 14, 2)))
            found.append(((float(eyes[0].get("cx")) - LEFT) / WIDE if eyes else None, said))
        return found

    def test_where_the_moment_is_largest(self):
        # closed forms: the moment of a spread load is largest in the middle of a pinned tube, that of a point load under it, and that of a
        # cantilever at its wall; loads all to one side, no weld zones
        plain = {"weld_zone [in]": "0", "length [in]": "24"}
        rows = [{**plain, "case": "spread", "spread_load [lbf/in]": "20"}, {**plain, "case": "point", "point_load [lbf]": "300", "point_at [in]": "9"},
                {**plain, "case": "wall", "end_a": "fixed", "end_b": "free", "point_load [lbf]": "100", "point_at [in]": "24"}]
        pins = self.pins(*rows)
        for (share, said), (expected, words) in zip(pins, [(0.5, "governs: yield at 12 in"), (9 / 24, "governs: yield at 9 in"), (0, "governs: yield at A")]):
            self.assertAlmostEqual(share, expected, delta=0.001)
            self.assertEqual(said, words)
        self.assertEqual([said for _, said in self.pins(*rows[:2], words=["--units", "si"])], ["governs: yield at 305 mm", "governs: yield at 229 mm"])

    def test_a_column_gives_way_as_a_whole(self):
        (pin,) = self.pins({"case": "column", "compression [lbf]": "9000", "length [in]": "60"})
        self.assertEqual(pin, (None, "governs: column, at no single place"))

    def test_nothing_governs(self):
        (pin,) = self.pins({"case": "idle"})
        self.assertEqual(pin, (None, None))

    def test_a_detail_that_governs_bears_it(self):
        self.file("details.csv", "case,detail,kind,at [in],hole [in],walls,hole_clock\nspread,brake line,hole,6,0.9,2,0\n")
        (pin,) = self.pins({"case": "spread", "spread_load [lbf/in]": "20", "weld_zone [in]": "0"}, words=["--details", "details.csv"])
        self.assertAlmostEqual(pin[0], 0.25, delta=0.001)
        self.assertEqual(pin[1], "governs: brake line at 6 in")


class OnATubeOfAFrame(FrameTest):
    """A cantilever of two tubes: the larger moment is at the wall."""

    JOINTS = [{"joint": name, "x [in]": x, "y [in]": "0", "z [in]": "0", "held": held} for name, x, held in (("wall", "0", "fixed"), ("knee", "20", ""), ("tip", "30", ""))]
    TUBES = [{"tube": tube, "from": a, "to": b, "od [in]": "1.25", "wall [in]": "0.058", "material": "4130", "weld_zone [in]": "0"}
             for tube, a, b in (("root", "wall", "knee"), ("end", "tip", "knee"))]

    def page(self, *words):
        run = self.run_program(*words, "--report", "page.html", "-o", "answer")
        self.assertIn(run.status, (0, 1), run.err)
        return xml.fromstring(self.read("page.html").replace("<!DOCTYPE html>\n", ""))

    @staticmethod
    def tips(svg):
        return [tuple(map(float, re.match(r"M([\d.]+) ([\d.]+)L", pin.get("d")).groups())) for pin in svg.iter("path") if pin.get("class") == "pin"]

    def test_explain(self):
        self.frame(joints=self.JOINTS, tubes=self.TUBES, loads=[{"run": "down", "joint": "tip", "force_z [lbf]": "-100"}])
        for tube, place, words in ("root", 0, "governs: yield at A"), ("end", 1, "governs: yield at B"):
            page = self.page("explain", "frame", tube, "down")
            view = next(figure for figure in page.iter("figure") if figure.get("data-view") == "angle").find("svg")
            line = next(line for line in view.iter("path") if line.get("data-tube") == tube)
            ends = [tuple(map(float, end.split())) for end in line.get("d")[1:].split("L")]
            self.assertEqual(self.tips(view), [ends[place]])
            self.assertIn(words, [text.text for text in view.iter("text")])

    def test_the_moment_charts_of_the_answer(self):
        self.frame(joints=self.JOINTS, tubes=self.TUBES, loads=[{"run": "down", "joint": "tip", "force_z [lbf]": "-100"}])
        page = self.page("check", "frame")
        cards = {figure.findtext("h3").split(":")[1].split(",")[0].strip(): figure.find("svg") for figure in page.iter("figure") if figure.get("id")}
        for tube, at_right in ("root", False), ("end", True):  # where the moment of the cantilever is larger
            ((x, y),) = self.tips(cards[tube])
            (line,) = [line.get("d") for line in cards[tube].iter("path") if line.get("class") == "strong"]
            points = [tuple(map(float, at.split())) for at in line[1:].split("L")]
            self.assertAlmostEqual(x, points[-1 if at_right else 0][0], delta=0.02)
            self.assertAlmostEqual(y, min(point[1] for point in points), delta=0.2)

    def test_a_frame_that_buckles_has_none(self):
        self.frame(joints=self.JOINTS, tubes=self.TUBES, loads=[{"run": "push", "joint": "tip", "force_x [lbf]": "-2000"}])
        page = self.page("explain", "frame", "root", "push")
        self.assertIn("frame", [row["governs"] for row in self.check("frame").rows])
        self.assertEqual([tip for svg in page.iter("svg") for tip in self.tips(svg)], [])


if __name__ == "__main__":
    run_tests()
