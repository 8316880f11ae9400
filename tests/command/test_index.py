"""index: the orientation of the tube's own bow."""

import re

from program import joined, run_tests
from studies import RICH, StudyTest


class Index(StudyTest):
    def test_against_sweep(self):
        self.cases({"case": "rich", **RICH}, {"case": "other", **RICH, "spread_clock": "250", "miss_a_clock": "100"})
        index = self.study("index").rows
        swept = self.study("sweep --vary bow_clock=0:359.9:0.1").rows
        checked = self.check().rows
        for row, want in zip(index, checked):
            turns = [(float(r["margin"]), float(r["bow_clock [deg]"])) for r in swept if r["case"] == row["case"]]
            self.assertEqual(len(turns), 3600)
            self.assertEqual(row["margin_as_marked"], want["margin"])
            for best, (margin, clock) in (("best", max(turns)), ("worst", min(turns))):
                self.near(row[f"{best}_margin"], margin, 1e-6)
                self.assertLessEqual(abs(float(row[f"{best}_clock [deg]"]) - clock), 0.15)

    def test_exit_status_and_words(self):
        side = {"compression [lbf]": "4000", "bow [in]": "0.2", "spread_load [lbf/in]": "8", "length [in]": "36"}
        self.cases({"case": "with", **side, "bow_clock": "0"}, {"case": "against", **side, "bow_clock": "180"},
                   {"case": "straight", **side, "bow [in]": "0"}, {"case": "idle", "bow [in]": "0.2"})
        run = self.study("index")
        rows = {row["case"]: row for row in run.rows}
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
