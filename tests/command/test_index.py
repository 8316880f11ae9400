"""index: the orientation of the tube's own bow."""

import math
import re

from program import joined, run_tests
from studies import RICH, StudyTest


class Index(StudyTest):
    def answers(self, *words):
        """The rows of the parts, then of the cases."""
        rows = self.study("index", *words).rows
        parts = [row for row in rows if not row["case"]]
        self.assertEqual(rows[:len(parts)], parts)
        return parts, rows[len(parts):]

    def test_against_sweep(self):
        self.cases({"case": "rich", **RICH}, {"case": "other", **RICH, "spread_clock": "250", "miss_a_clock": "100"})
        parts, index = self.answers()
        swept = self.study("sweep --vary bow_clock=0:359.9:0.1").rows
        checked = self.check().rows
        self.assertEqual([{**row, "case": row["part"]} for row in parts], index)  # each case is its own part
        for row, want in zip(index, checked):
            turns = [(float(r["margin"]), float(r["bow_clock [deg]"])) for r in swept if r["case"] == row["case"]]
            self.assertEqual(len(turns), 3600)
            self.assertEqual(row["margin_as_marked"], want["margin"])
            for best, (margin, clock) in (("best", max(turns)), ("worst", min(turns))):
                self.near(row[f"{best}_margin"], margin, 1e-6)
                self.assertLessEqual(abs(float(row[f"{best}_clock [deg]"]) - clock), 0.15)

    def test_one_clock_for_all_cases_of_a_part(self):
        side = {"compression [lbf]": "4000", "bow [in]": "0.2", "spread_load [lbf/in]": "8", "length [in]": "36"}
        self.cases({"case": "a", "part": "rail", **side, "spread_clock": "0"}, {"case": "post", **side, "bow_clock": "270"},
                   {"case": "b", "part": "rail", **side, "spread_clock": "100", "compression [lbf]": "3000", "bow_clock": "10"},
                   {"case": "c", "part": "rail", "compression [lbf]": "3000", "length [in]": "36"})
        parts, cases = self.answers()
        self.assertEqual([row["part"] for row in parts], ["rail", "post"])
        self.assertEqual([(row["case"], row["part"]) for row in cases], [("a", "rail"), ("post", "post"), ("b", "rail"), ("c", "rail")])
        swept = self.study("sweep --vary bow_clock=0:359.9:0.1").rows
        lowest = {}
        for row in swept:
            if row["case"] != "post":
                clock, margin = float(row["bow_clock [deg]"]), float(row["margin"])
                lowest[clock] = min(margin, lowest.get(clock, math.inf))
        for best, want in (("best", max), ("worst", min)):
            clock = want(lowest, key=lowest.get)
            self.near(parts[0][f"{best}_margin"], lowest[clock], 1e-3)  # between the steps, at a kink
            self.assertGreaterEqual((1 if want is max else -1) * (float(parts[0][f"{best}_margin"]) - lowest[clock]), -1e-9)
            self.assertLessEqual(abs(float(parts[0][f"{best}_clock [deg]"]) - clock), 0.15)
        marked = min(float(row["margin"]) for row in self.check().rows if row["case"] != "post")
        self.near(parts[0]["margin_as_marked"], marked)
        text = self.text("index")
        self.assertIn("is worth doing in 2 of 2 parts, most in ", joined(text))
        self.assertRegex(text, r"(?m)^part, all .*\n.*\nrail  +- .*\npost +270\.0 ")
        self.assertEqual(self.study("index", "--jobs", "1").out, self.study("index", "--jobs", "3").out)

    def test_a_clock_that_is_not_known(self):
        side = {"compression [lbf]": "4000", "bow [in]": "0.1", "spread_load [lbf/in]": "4", "length [in]": "36"}
        self.cases({**side, "bow_clock": "any"})
        (part,), (row,) = self.answers()
        self.near(row["margin_as_marked"], float(row["worst_margin"]), 0, 1e-6)
        self.assertRegex(self.text("index"), r"(?m)^rail +any ")
        # a miss of unknown direction stays at its worst for every clock of the bow: brute force over both
        self.cases({**side, "end_a": "fixed", "miss_a [in]": "0.02", "bow_clock": "0"})
        (part,), (row,) = self.answers()
        self.cases({**side, "end_a": "fixed", "miss_a [in]": "0.02"})
        rows = self.study("sweep --vary bow_clock=0:350:10 --vary miss_a_clock=0:355:5").rows
        lowest = {}
        for r in rows:
            lowest[r["bow_clock [deg]"]] = min(float(r["margin"]), lowest.get(r["bow_clock [deg]"], math.inf))
        self.assertGreaterEqual(float(row["best_margin"]), max(lowest.values()) - 2e-4)
        self.assertLessEqual(float(row["best_margin"]), max(lowest.values()) + 5e-3)
        self.assertLessEqual(float(row["worst_margin"]), min(lowest.values()) + 1e-6)
        self.assertGreaterEqual(float(row["worst_margin"]), min(lowest.values()) - 5e-3)

    def test_exit_status_and_words(self):
        side = {"compression [lbf]": "4000", "bow [in]": "0.2", "spread_load [lbf/in]": "8", "length [in]": "36"}
        self.cases({"case": "with", **side, "bow_clock": "0"}, {"case": "against", **side, "bow_clock": "180"},
                   {"case": "straight", **side, "bow [in]": "0"}, {"case": "idle", "bow [in]": "0.2"})
        run = self.study("index")
        rows = {row["case"]: row for row in run.rows if row["case"]}
        self.assertEqual(run.status, 1)
        self.assertAlmostEqual(float(rows["with"]["best_clock [deg]"]), 180, delta=0.1)
        self.assertAlmostEqual(float(rows["with"]["worst_clock [deg]"]), 0, delta=0.1)
        for name in "straight", "idle":
            row = rows[name]
            self.assertEqual(len({row[c] for c in ("margin_as_marked", "best_margin", "worst_margin")}), 1)
            self.assertEqual((row["best_clock [deg]"], row["worst_clock [deg]"]), ("0", "0"))
        self.assertEqual(rows["idle"]["best_margin"], "inf")
        text = self.text("index")
        self.assertIn("Turning the tube's own bow is worth doing in 1 of 4 cases, most in 'with'.", joined(text))
        win = 100 * (float(rows["with"]["best_margin"]) - float(rows["with"]["margin_as_marked"]))
        self.assertRegex(text, rf"(?m)^with .* {re.escape(f'{win:+.1f}')} pt")
        self.assertRegex(text, r"(?m)^against .* too little$")
        self.assertRegex(text, r"(?m)^straight .* no bow$")
        self.assertRegex(text, r"(?m)^idle .* too little$")
        self.cases({**side, "bow_clock": "180"})
        self.assertIn("wins less than a point of margin: not worth doing.", joined(self.text("index")))


if __name__ == "__main__":
    run_tests()
