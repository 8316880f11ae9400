"""Shared by the tests of the page: a page read as XML, and its working calculated again."""

import math
import re
import xml.etree.ElementTree as xml

from program import ProgramTest

FORCED = {"case": "forced", "end_a [in-lbf/rad]": "welded", "end_b": "welded", "compression [lbf]": "4600", "bow [in]": "0.025",
          "bow_clock": "180", "miss_a [in]": "0.1", "miss_a_clock": "0", "weld_zone [in]": "1", "dressed [in]": "0.005",
          "point_load [lbf]": "150", "point_at [in]": "10", "point_clock": "200", "vertical_g": "4"}
# Rows that lead the working along every way it has.
WAYS = [
    FORCED,
    {"case": "pinned", "compression [lbf]": "3000", "bow [in]": "0.05", "bow_shape": "arc", "spread_load [lbf/in]": "3"},
    {"case": "fixed", "end_a [in-lbf/rad]": "fixed", "end_b": "fixed", "compression [lbf]": "9000", "bow [in]": "0.05",
     "bow_shape": "kink", "bow_at [in]": "7", "bow_clock": "90", "column_curve": "aisc"},
    {"case": "one fixed", "end_a [in-lbf/rad]": "fixed", "compression [lbf]": "5000", "eccentricity [in]": "0.1",
     "moment_b [in-lbf]": "200", "moment_clock": "45", "column_curve": "en-b"},
    {"case": "other fixed", "end_b": "fixed", "compression [lbf]": "5000", "miss_b [in]": "0.1",
     "miss_b_clock": "30", "column_curve": "euler"},
    {"case": "spring", "end_a [in-lbf/rad]": "100000", "compression [lbf]": "5000", "moment_a [in-lbf]": "300",
     "column_curve": "johnson", "torque [in-lbf]": "2000"},
    {"case": "pulled", "end_a [in-lbf/rad]": "welded", "end_b": "welded", "compression [lbf]": "-3000", "bow [in]": "0.1",
     "spread_load [lbf/in]": "5", "point_load [lbf]": "60", "miss_a [in]": "0.2"},
    {"case": "no push", "end_a [in-lbf/rad]": "welded", "end_b": "fixed", "point_load [lbf]": "400", "spread_load [lbf/in]": "4",
     "point_at [in]": "5", "spread_clock": "120"},
    {"case": "gap", "end_a [in-lbf/rad]": "welded", "end_b": "welded", "compression [lbf]": "4000", "gap [in]": "0.01",
     "gap_stiffness [lbf/in]": "200000", "spread_load [lbf/in]": "2"},
    {"case": "squeezed", "end_a [in-lbf/rad]": "welded", "end_b": "welded", "gap [in]": "-0.01", "spread_load [lbf/in]": "2"},
    {"case": "free", "end_a [in-lbf/rad]": "fixed", "end_b": "free", "compression [lbf]": "500", "bow [in]": "0.05",
     "point_load [lbf]": "30", "point_at [in]": "24", "spread_load [lbf/in]": "1"},
    {"case": "idle", "length [in]": "24"},
    {"case": "slender", "length [in]": "90", "compression [lbf]": "100", "column_curve": "en-a0"},
    {"case": "short", "length [in]": "6", "compression [lbf]": "20000", "column_curve": "three-halves"},
    {"case": "column", "compression [lbf]": "20000", "factor_yield": "1"},
    {"case": "buckled", "gap [in]": "-1", "compression [lbf]": "1"},
    {"case": "thin", "od [in]": "1.75", "wall [in]": "0.028", "material": "4130-180", "compression [lbf]": "5000",
     "bow [in]": "0.05"},
]
# Words in the numbers' column of what no calculator does.
NOT_A_NUMBER = re.compile(r'(?i)[" ML](-?nan|-?inf)[" ML]')
NOT_BY_HAND = re.compile(r"\b(search|solution|checking)\b")


TABS_MOST = 12  # of one line of a chart that the Tab key reaches


def stops(svg):
    """The stops of a chart as (whether Tab reaches it, lines of words, value on the axis or None)."""
    for g in svg.iter("g"):
        if g.get("class") == "stop":
            words = g.find("text")
            yield g.get("tabindex") == "0", [words.text, *(t.text for t in words.findall("tspan"))], g.get("data-x")


def name_of(svg):
    """What a screen reader says of a drawing."""
    return svg.get("aria-label") if svg.get("role") == "group" else svg[0].text


def check_drawing(test, svg):
    """A picture has a title. A chart is a group with a name, and each of its stops is met by a pointer, and has words; what the Tab key
    reaches has them as its name, too."""
    if svg.get("role") != "group":
        test.assertEqual((svg.get("role"), svg[0].tag), ("img", "title"))
        test.assertTrue(svg[0].text)
        test.assertEqual([e for e in svg.iter() if e.get("tabindex")], [])
        return
    test.assertTrue(svg.get("aria-label"))
    test.assertEqual([g.tag for g in svg.iter() if g.get("tabindex")], ["g"] * sum(tab for tab, _, _ in stops(svg)))
    for g in svg.iter("g"):
        if g.get("class") != "stop":
            continue
        (hit,) = [e for e in g if e.get("class") == "hit"]
        test.assertIn(hit.tag, ("circle", "rect"))
        (lines,) = [[e.text, *(t.text for t in e)] for e in g.findall("text")]
        test.assertTrue(all(lines))
        if g.get("tabindex"):
            test.assertEqual((g.get("tabindex"), g.get("role"), g.get("aria-label")), ("0", "img", "; ".join(lines)))
    test.assertEqual(list(svg.iter("title")), [])  # a browser would show it beside the words


def worked_out(expression):
    """The value of a cell "With numbers"."""
    for sign, word in {"×": "*", "−": "-", "π": "pi", "√": "sqrt", "²": "**2", "³": "**3", "^": "**",
                       "no limit": "inf"}.items():
        expression = expression.replace(sign, word)
    expression = re.sub(r"(\(?[-\d.e+]+\)?)°", r"(\1*pi/180)", expression)
    known = {name: getattr(math, name) for name in "sin cos tan asin sinh cosh tanh sqrt pi inf".split()}
    return eval(expression, {"__builtins__": {}}, {**known, "min": min, "max": max})


class Page(ProgramTest):
    def page(self, *words, name="page.html", status=(0, 1), cases="cases.csv"):
        """Every case has a sheet, and the working stands open."""
        run = self.check(cases, "--report", name, "--pages", "all", "--working", *words)
        self.assertIn(run.status, status, run.err)
        return self.xml(name)

    def xml(self, name):
        return xml.fromstring(self.read(name))

    def cards(self, page):
        """In the order of the file; on the page the smallest margin comes first."""
        return sorted((e for e in page.iter("section") if e.get("class") == "card"), key=lambda e: int(e.get("id").split("-")[1]))

    def steps(self, element):
        """The working as (step, formula, numbers, result, source)."""
        for tr in element.iter("tr"):
            cells = tr.findall("td")
            if len(cells) == 4 and cells[0].get("class") == "formula":
                yield ["".join(e.itertext()) for e in (tr.find("th"), *cells)]

    def result(self, card, step):
        return next(row[3] for row in self.steps(card) if row[0] == step)

    def record(self, page):
        """What was checked: (name, value) pairs."""
        pairs = next(e for e in page.iter("section") if e.get("class") == "record").find("dl")
        return [(self.words(name), self.words(value)) for name, value in zip(list(pairs)[::2], list(pairs)[1::2])]

    def words(self, element):
        return " ".join("".join(element.itertext()).split())
