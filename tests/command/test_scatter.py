"""scatter: samples within tolerances, and the progress line."""

import csv
import math
import os
import pty
import re
import select
import signal
import time

from program import HOLDS, SANITIZED, SCATTER_COLUMNS, SHORT, environment, joined, run_tests
from studies import HOSTILE, RICH, TOLERANCES, StudyTest


class Scatter(StudyTest):
    def setUp(self):
        super().setUp()
        self.file("t.csv", TOLERANCES)

    def scatter(self, *words, **how):
        return self.run_program("scatter", "cases.csv", "--tolerances", "t.csv", *words, **how)

    def test_the_same_seed_the_same_bytes(self):
        self.cases(RICH, {**HOLDS, "length [in]": "48"})
        one = self.scatter()
        self.assertEqual(one, self.scatter("--seed", "1", "--samples", "4096"))
        self.assertNotEqual(self.scatter("--samples", "256").out, self.scatter("--samples", "256", "--seed", "2").out)
        self.assertEqual([row["samples"] for row in one.rows], ["4096"] * 2)

    def test_exit_status(self):
        for case, status in (HOLDS, 0), (SHORT, 1), ({"case": ""}, 2):
            self.cases(case)
            self.assertEqual(self.scatter("--samples", "200").status, status)

    def test_a_table_of_all_cases_comes_first(self):
        loads = (3000, 9000, 7000, 8000)
        self.cases(*({"case": f"c{load}", "compression [lbf]": str(load)} for load in loads))
        text = self.scatter("--samples", "256", "--format", "text").out
        rows = {row["case"]: row for row in self.scatter("--samples", "256").rows}
        head, *lines = text.splitlines()[:5]
        self.assertTrue(head.startswith("worst first "), head)
        want = sorted(rows, key=lambda name: (-float(rows[name]["short_share"]), float(rows[name]["margin_p01"])))
        self.assertEqual([line.split()[0] for line in lines], want)
        for line in lines:
            row = rows[line.split()[0]]
            self.assertIn(f" {100 * float(row['margin_p01']):+.1f} %", line)
            self.assertTrue(line.endswith(f"  {row['driver']}"), line)
        self.cases({"case": "alone", **HOLDS})
        self.assertTrue(self.scatter("--samples", "256", "--format", "text").out.startswith("'alone': "))

    def test_units_and_percent_say_the_same(self):
        self.cases(RICH)
        runs = []
        for row in "wall,10,10,%", "wall,0.0058,0.0058,in", "wall,0.0058,0.0058,", "wall,0.14732,0.14732,mm":
            self.file("t.csv", f"column,minus,plus,unit\n{row}\n")
            runs.append(self.scatter("--samples", "500").rows[0])
        for run in runs[1:]:
            for column in "margin_mean", "margin_sd", "margin_p01", "margin_p95":
                self.near(run[column], float(runs[0][column]), 1e-8)

    def test_an_even_wall_of_a_straight_column(self):
        # Euler's curve: margin = pi^2 E I(t)/(1.5 P L^2) - 1, t even between 0.050 and 0.066
        self.cases({"length [in]": "60", "compression [lbf]": "2000", "column_curve": "euler"})
        self.file("t.csv", "column,minus,plus,unit\nwall,0.008,0.008,in\n")
        row = self.scatter().rows[0]

        def margin(wall):
            return math.pi**3 / 64 * 29e6 * (1.25**4 - (1.25 - 2 * wall)**4) / (3000 * 3600) - 1

        walls = [0.05 + 0.016 * (i + 0.5) / 10000 for i in range(10000)]
        self.near(row["margin_mean"], sum(map(margin, walls)) / 10000, 0, 1e-4)
        self.near(row["short_share"], sum(margin(wall) < 0 for wall in walls) / 10000, 0, 1e-3)
        for column, share in ("margin_p01", 0.01), ("margin_p05", 0.05), ("margin_p50", 0.5), ("margin_p95", 0.95):
            self.near(row[column], margin(0.05 + 0.016 * share), 0, 2e-4)
        self.assertEqual(row["driver"], "wall")
        self.assertGreater(float(row["driver_share"]), 0.99)

    def test_drivers(self):
        self.cases(RICH)
        first, rows = self.scatter().rows, self.scatter("--drivers").rows
        self.assertEqual(first, rows[:1])
        self.assertEqual(sorted(row["driver"] for row in rows), ["bow", "compression", "wall"])
        shares = [float(row["driver_share"]) for row in rows]
        self.assertEqual(shares, sorted(shares, reverse=True))
        self.assertTrue(0.9 < sum(shares) < 1.05)

    def test_nothing_drives(self):
        self.cases({"compression [lbf]": "-1000", "bow_clock": "0"})
        self.file("t.csv", "column,minus,plus\nbow_clock,10,10\n")
        row = self.scatter("--samples", "100").rows[0]
        self.assertEqual((row["driver"], row["driver_share"], row["margin_sd"]), ("", "", "0"))
        self.assertIn("Nothing that varies moves the margin.", self.text("scatter --tolerances t.csv"))

    def test_samples_outside_the_model_without_limit_and_unstable(self):
        self.file("t.csv", "column,minus,plus,unit\nbow,0.01,0.03,in\n")
        self.cases({"case": "refused", **HOLDS}, {"case": "idle"},
                   {"case": "unstable", "compression [lbf]": "40000", "column_curve": "euler"})
        run = self.scatter("--samples", "1000")
        refused, idle, unstable = run.rows
        self.assertAlmostEqual(float(refused["refused"]), 250, delta=2)
        self.assertEqual([idle[c] for c in ("short_share", "margin_mean", "margin_p50", "driver")], ["0", "", "", ""])
        self.assertEqual((unstable["short_share"], unstable["short_high"]), ("1", "1"))
        text = joined(self.text("scatter --tolerances t.csv --samples 1000"))
        self.assertRegex(text, r"Outside the model and not judged: \d+ \(the first: bow must be at least 0; reverse its clock "
                               r"instead\)\.")
        self.assertRegex(text, r"Without any limit, so they hold, and stand in no mean: 7\d\d\.")
        self.assertRegex(text, r"Unstable as loaded: 7\d\d\.")
        self.assertIn("'unstable': 100.00 % of 7", text)
        self.assertRegex(text, r"'idle': none of 7\d\d samples is short \(95 % sure: under 0\.51 %\); as given the margin is "
                               r"no limit\.")

    def test_all_outside_the_model(self):
        self.cases({"case": "solid", **HOLDS})
        self.file("t.csv", "column,minus,plus,unit\nmiss_a,1,0,in\n")
        row = self.scatter("--samples", "100").rows[0]
        self.assertEqual([row[c] for c in ("samples", "refused", "short_share", "margin_mean")], ["100", "100", "", ""])
        self.assertIn("'solid': no sample lies inside the model; as given the margin is ",
                      joined(self.text("scatter --tolerances t.csv")))

LASTS = "40000" if SANITIZED else "100000"  # samples that take some seconds


class Terminal(StudyTest):
    """The progress line of scatter, and Ctrl-C."""

    def setUp(self):
        super().setUp()
        self.file("t.csv", TOLERANCES)
        self.file("old.csv", "old")

    def start_on_terminal(self, *words):
        master, slave = pty.openpty()
        process = self.start("scatter", "cases.csv", "--tolerances", "t.csv", *words, stderr=slave, env=environment(),
                             preexec_fn=lambda: signal.signal(signal.SIGINT, signal.default_int_handler))
        os.close(slave)
        self.addCleanup(os.close, master)
        return process, master

    @staticmethod
    def read_until(master, wanted, seconds=240):
        shown, end = b"", time.monotonic() + seconds
        while time.monotonic() < end:
            if not select.select([master], [], [], 0.1)[0]:
                continue
            try:
                piece = os.read(master, 4096)
            except OSError:  # how Linux says that the other side is gone
                break
            shown += piece
            if not piece or (wanted and re.search(wanted, shown)):
                break
        return shown

    LINE = rb"\r\x1b\[Kcase 1, rail: \d+ % of 50000000 samples, \d+ s left for it"

    def test_interrupted(self):
        self.cases({"case": "rail", **RICH}, {"case": "next", **RICH})
        for form in "csv", "json", "text":
            process, master = self.start_on_terminal("--samples", "50000000", "-o", "old.csv", "--format", form)
            self.assertRegex(self.read_until(master, self.LINE), self.LINE)
            self.assertEqual(len(self.listing()), 4)  # a draft stands beside the old file
            process.send_signal(signal.SIGINT)
            said = self.read_until(master, None)
            self.assertEqual(process.wait(20), 2)
            self.assertRegex(said, rb"\r\x1b\[Krailbow: cases\.csv:2: stopped in case 'rail' after \d+ of 50000000 samples; "
                                   rb"no answer is given\r\n$")
            self.assertEqual((self.listing(), self.read("old.csv")), (["cases.csv", "old.csv", "t.csv"], "old"))

    def test_interrupted_without_a_terminal(self):
        self.cases({"case": HOSTILE, **RICH}, quoting=csv.QUOTE_ALL)
        process = self.start("scatter", "cases.csv", "--tolerances", "t.csv", "--samples", "50000000",
                             preexec_fn=lambda: signal.signal(signal.SIGINT, signal.default_int_handler))
        time.sleep(1.5)
        process.send_signal(signal.SIGINT)
        out, err = process.communicate(timeout=20)
        self.assertEqual((process.returncode, out.decode()), (2, ",".join(SCATTER_COLUMNS) + "\n"))
        self.assertRegex(err.decode(), r"^railbow: cases\.csv:2: stopped in case 'a\\x1B\[31mb\\x0Dc.*'\.\.\. after \d+ of 50000000 "
                                       r"samples; no answer is given\n$")

    def test_the_line_shows_names_safely_and_goes_away(self):
        self.cases({"case": HOSTILE, **RICH}, quoting=csv.QUOTE_ALL)
        process, master = self.start_on_terminal("--samples", LASTS, "--jobs", "1")
        shown = self.read_until(master, None)
        self.assertEqual(process.wait(20), 1)
        self.assertIn(b"case 1, a\\x1B[31mb\\x0Dc\\x09d", shown)
        self.assertTrue(shown.endswith(b"\r\x1b[K"), shown)
        self.assertEqual(shown.replace(b"\r\x1b[K", b"").count(b"\x1b"), 0)

    def test_nothing_is_shown_of_a_short_run_or_elsewhere(self):
        self.cases({**HOLDS})
        process, master = self.start_on_terminal("--samples", "100")
        self.assertEqual((self.read_until(master, None), process.wait(20)), (b"", 0))
        self.cases({"case": "rail", **RICH})
        run = self.run_program("scatter", "cases.csv", "--tolerances", "t.csv", "--samples", "25000", "--jobs", "1")
        self.assertEqual(run.err, "")

    def test_what_was_ignored_stays_ignored(self):
        self.cases({"case": "rail", **RICH})
        process = self.start("scatter", "cases.csv", "--tolerances", "t.csv", "--samples", LASTS,
                             preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_IGN))
        time.sleep(0.3)
        process.send_signal(signal.SIGINT)
        out, err = process.communicate(timeout=240)
        self.assertEqual((process.returncode, err), (1, b""))


if __name__ == "__main__":
    run_tests()
