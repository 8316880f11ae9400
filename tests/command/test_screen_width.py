"""Texts on a terminal: no line is wider than it, at any width, and two names that differ never look alike."""

import fcntl
import os
import pty
import re
import select
import struct
import termios
import unicodedata

from program import HOLDS, SHORT, ProgramTest, environment, joined, run_tests
from shop import CUT, HORN, sheet

WIDTHS = 60, 80, 120
# Pairs that differ at one place: at the end, in the middle, by one wide character, by a mark on a letter, by what cannot be seen.
NEAR = ["upper rail, left side, pitch at the far stop, run %s" % i for i in (1, 2, 3)] \
    + ["x" * 60 + i + "x" * 60 for i in "12"] + ["\u4e0a\u90e8\u6a2a\u6881" * 8 + i + "\u5de6" * 20 for i in "\u4e00\u4e8c"] \
    + ["e\u0301" * 40 + i + "\u0301" * 3 + "z" * 30 for i in "ou"] + ["new rail", "new\u00a0rail", "new rail\u200b"] \
    + ["a name with many words in it that goes on " * 5 + i for i in ("here", "there")] + ["short", "x" * 7 + "\u2026" + "x" * 7]


def columns(line):
    """How many columns a terminal gives a line, by Python's own table of characters."""
    return sum(0 if unicodedata.category(c) in ("Mn", "Me") else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in line)


def bare(text):
    return "".join(text.split())


class Screen(ProgramTest):
    def on_terminal(self, width, *words, **variables):
        """What a terminal of that width shows; 0: one that does not say how wide it is."""
        master, slave = pty.openpty()
        fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 24, width, 0, 0))
        process = self.start(*words, stdout=slave, env=environment(NO_COLOR="1", **variables))
        shown, ended = b"", False
        while select.select([master], [], [], 0 if ended else 0.02)[0] or not ended:  # our own slave keeps what was written
            ended = process.poll() is not None
            while select.select([master], [], [], 0)[0]:
                shown += os.read(master, 4096)
        os.close(slave)
        os.close(master)
        process.communicate(timeout=60)
        return shown.decode().replace("\r\n", "\n")

    def assertFits(self, text, width):
        self.assertNotEqual(text, "")
        for line in text.splitlines():
            self.assertLessEqual(columns(line), width, line)
            self.assertEqual(line, line.rstrip())

    def names_in(self, table):
        """The cells of the first column: a row begins where another column has something, too."""
        names = []
        for line in table:
            name, _, rest = line.partition("  ")
            if rest.strip():
                names.append("")
            names[-1] += name
        return names

    def near_files(self):
        rows = [{"case": name, "part": "p", "miss_a [in]": "0.1", "miss_a_clock": "0", "end_a": "welded", "length [in]": "30", **load}
                for name, load in zip(NEAR, [HOLDS, SHORT] * len(NEAR))]
        self.cases(*rows)
        self.file("t.csv", "column,minus,plus,unit,shape\nwall,10,10,%,normal\n")
        self.file("cuts.csv", sheet([{**CUT, "case": name} for name in NEAR]))
        self.file("horns.csv", sheet([{**HORN, "case": name} for name in NEAR]))
        self.file("sight.csv", sheet([{"line": name, "kind": "socket", "station [in]": x, "up [in]": 0.01 * x, "landing [in]": 30}
                                      for name in NEAR for x in (0, 10)]))
        self.file("parts.csv", sheet([{"part": name, "od [in]": 1.25, "wall [in]": 0.058, "length [in]": 30} for name in NEAR]))
        self.file("stock.csv", sheet([{"stick": "mill", "od [in]": 1.25, "wall [in]": 0.058, "length [in]": 900}]))
        self.file("spec.csv", sheet([{"part": "p", "wall_least [in]": "0.05"}]))
        self.file("readings.csv", sheet([{"tag": name, "part": "p", "measure": "wall", "clock": clock, "reading [in]": "0.058"}
                                         for name in NEAR for clock in (0, 120, 240)]))

    STUDIES = [["check"], ["compare", "--walls", "0.049,0.058,0.065,0.083"], ["sweep", "--vary", "miss_a=0:0.5:0.25"],
               ["limit", "--find", "miss_a", "--to", "1in"], ["index"], ["scatter", "--tolerances", "t.csv", "--samples", "64"]]
    INSPECT = ["inspect", "--spec", "spec.csv", "readings.csv"]

    def test_the_demo_fits_any_width(self):
        shop = self.installed.source / "cases"
        runs = [[*words, shop / "nose.csv"] for words in self.STUDIES[:-1]] + [
            ["scatter", "--tolerances", shop / "tolerances.csv", "--samples", "64", shop / "nose.csv"],
            ["compare", "--ods", "1,1.25,1.5", "--walls", "0.049,0.058,0.065", shop / "nose_si.csv"],
            ["explain", shop / "nose.csv", "new rail - forced 1/2"],
            ["inspect", "--spec", shop / "spec.csv", "--cases", shop / "parts.csv", shop / "readings.csv"],
            ["release", shop / "cuts.csv"], ["pull", "--steps", "4", shop / "horns.csv"],
            ["sight", shop / "sight.csv"], ["sticks", shop / "sticks_parts.csv", "--stock", shop / "sticks_stock.csv"],
            ["section", "--ods", "1,1.25,1.5", "--walls", "0.049,0.058,0.065"], ["columns"], ["help"],
            *(["help", name] for name in ("check", "compare", "limit", "scatter", "inspect", "pull", "explain", "sight", "sticks"))]
        for words in runs:
            for width in WIDTHS:
                with self.subTest(words=[str(word) for word in words], width=width):
                    shown = self.on_terminal(width, *words)
                    self.assertFits(shown, width)
                    self.assertNotRegex(shown, r"-0\.?0*(?![\d.])|\bnan\b")

    def test_near_names_fit_and_differ(self):
        self.near_files()
        heads = {"check": "case", "limit": "case", "index": "case", "compare": "margin with", "inspect": "tag", "sight": "line"}
        for words in [*([*words, "cases.csv"] for words in self.STUDIES), self.INSPECT, [*self.INSPECT, "--cases", "cases.csv"],
                      ["release", "cuts.csv"], ["pull", "horns.csv"], ["sight", "sight.csv"]]:
            for width in WIDTHS:
                with self.subTest(words=words, width=width):
                    shown = self.on_terminal(width, *words)
                    self.assertFits(shown, width)
                    if words[0] not in heads:  # each has its sentence, with the whole name
                        for name in NEAR[:7]:
                            self.assertIn(bare(name), bare(shown))
                        continue
                    self.assertEqual(len(set(self.first_column(shown, heads[words[0]]))), len(NEAR))

    def first_column(self, shown, head):
        """Of the first table whose first head is that one."""
        lines = shown.splitlines()
        first = next(i for i, line in enumerate(lines) if re.match(rf"{head}(  |$)", line)) + 1
        while lines[first].startswith("  "):  # the head goes on
            first += 1
        last = first
        while lines[last] and not re.match(r"(Left out at|load factor:|state found:|pt: points)", lines[last]):
            last += 1
        return self.names_in(lines[first:last])

    def test_where_the_width_comes_from(self):
        self.near_files()
        plain = self.check("cases.csv", "--format", "text", env=environment(COLUMNS="60")).out
        self.assertFits(plain, 80)
        self.assertEqual(self.on_terminal(80, "check", "cases.csv"), plain)
        narrow = self.on_terminal(60, "check", "cases.csv", COLUMNS="100")
        self.assertNotEqual(narrow, plain)
        self.assertEqual(self.on_terminal(0, "check", "cases.csv", COLUMNS="60"), narrow)
        for odd in "", "0", "-5", "many", "60x":
            self.assertEqual(self.on_terminal(0, "check", "cases.csv", COLUMNS=odd), plain)
        self.assertEqual(self.on_terminal(5, "check", "cases.csv"), narrow)

    def test_lines_not_checked_lead(self):
        self.cases(HOLDS, {"od [in]": "0"}, HOLDS, {"wall [in]": "9"}, {"wall [in]": "8"})
        shown = self.on_terminal(80, "check", "cases.csv")
        self.assertEqual(shown.splitlines()[:2], ["NOT CHECKED: lines 3, 5 and 6 (reasons above).", "The 2 other cases hold."])
        self.file("bad.csv", self.read("cases.csv"))
        self.cases(HOLDS)
        shown = self.on_terminal(80, "check", "cases.csv", "bad.csv")
        self.assertEqual(joined(shown).partition("The ")[0],
                         "NOT CHECKED: line 3 of bad.csv, line 5 of bad.csv and line 6 of bad.csv (reasons above). ")
        self.cases(*[{"od [in]": "0"}] * 20)
        self.assertIn("lines 2, 3, 4, 5, 6, 7, 8, 9 and 12 more", self.on_terminal(80, "check", "cases.csv"))


class Numbers(ProgramTest):
    """As many digits as a shop uses, on the safe side: the same answers in CSV have them all."""

    def test_a_limit_is_rounded_down_and_its_fraction_too(self):
        self.cases({"end_a": "welded", "end_b": "welded", "compression [lbf]": "4600"})
        row = self.run_program("limit", "--find", "miss_a", "--to", "1in", "cases.csv").rows[0]
        shown = self.run_program("limit", "--find", "miss_a", "--to", "1in", "cases.csv", "--format", "text").out
        limit, fraction = re.search(r"(?m)^rail +0 +(\S+)(?: +(\d+/\d+))? ", shown).groups()
        exact = float(row["limit [in]"])
        self.assertEqual(row["state"], "found")
        self.assertTrue(0 <= exact - float(limit) < 0.001, (exact, limit))
        top, bottom = map(int, fraction.split("/"))
        self.assertTrue(0 <= exact - top / bottom < 1 / 64, (exact, fraction))

    def test_a_pull_is_rounded_up_and_what_springs_back_down(self):
        self.file("horns.csv", sheet([HORN]))
        row = self.run_program("pull", "horns.csv").rows[0]
        shown = joined(self.run_program("pull", "horns.csv", "--format", "text").out)
        whole, force = re.search(r"pulled up to ([\d.]+) in (?:\(\S+\) )?with ([\d.]+) lbf it springs back whole", shown).groups()
        travel, pull = re.search(r"pull it ([\d.]+) in (?:\([ \d/]+\) )?with ([\d.]+) lbf and let go", shown).groups()
        self.assertTrue(0 <= float(row["yield_travel [in]"]) - float(whole) < 0.001)
        self.assertTrue(0 <= float(row["yield_pull [lbf]"]) - float(force) < 1)
        self.assertTrue(0 <= float(travel) - float(row["travel [in]"]) < 0.001)
        self.assertTrue(0 <= float(pull) - float(row["pull [lbf]"]) < 1)

    def test_what_is_just_short_shows_so(self):
        self.cases({"compression [lbf]": "1000", "bow [in]": "0.03"})
        factor = 1.5 * (1 + float(self.check().rows[0]["margin"])) * (1 + 1e-6)
        shown = self.check("cases.csv", "--factor", f"{factor:.12g}", "--format", "text")
        self.assertEqual(shown.status, 1)
        self.assertIn("margin -0.1 %", joined(shown.out))
        reached, required = re.search(r"buckles at ([\d.]+) times the run load; ([\d.]+) is required", joined(shown.out)).groups()
        self.assertLess(float(reached), float(required))


if __name__ == "__main__":
    run_tests()
