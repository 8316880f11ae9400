"""limit: how far a column may go."""

import math

from program import HOLDS, joined, name_and_unit, run_tests
from studies import BAD_WALL, RICH, StudyTest


class Limit(StudyTest):
    def test_against_check(self):
        self.cases(RICH)
        for words, header in (("--find miss_a --to 1", "miss_a [in]"), ("--find compression --to 30kN", "compression [lbf]"),
                              ("--find length --from 20 --to 200", "length [in]"), ("--find bow --to 20mm", "bow [in]"),
                              ("--find wall --from 0.12 --to 0.03", "wall [in]"), ("--find spread_load --to 90", None),
                              ("--find factor --from 1 --to 9 --margin 0.1", "factor")):
            with self.subTest(words=words):
                header = header or "spread_load [lbf/in]"
                row = self.study(f"limit {words}", "--format", "json").json["rows"][0]
                self.assertEqual(row["state"], "found")
                target = 0.1 if "--margin" in words else 0
                step = 2e-7 * float(self.RANGES[name_and_unit(header)[0]])
                for value, holds in (row["limit"], True), (row["limit"] + step, False):
                    self.cases({**RICH, header: repr(value)}, name="edited.csv")
                    margin = float(self.check("edited.csv").rows[0]["margin"])
                    self.assertEqual(margin >= target - 1e-9, holds, (value, margin))

    RANGES = {"miss_a": 1, "compression": 6744, "length": 180, "bow": 0.8, "wall": -0.09, "spread_load": 90, "factor": 8}

    def test_room_states_and_exit_status(self):
        case = {"case": "rail", "compression [lbf]": "-5000", "wall [in]": "0.058", "weld_zone [in]": "0"}
        self.cases(case)
        full = 75000 * math.pi * 0.058 * (1.25 - 0.058) / 1.5
        for words, limit, room, state, status in (
                ("--find compression --to -30000", -full, full - 5000, "found", 0),
                ("--find compression --from -1000 --to -4000", -4000, -1000, "never", 0),
                ("--find compression --from -29000 --to 0", -29000, 24000, "already", 1),
                ("--find factor --from 1 --to 9", full * 1.5 / 5000, full * 1.5 / 5000 - 1.5, "found", 0)):
            run = self.study(f"limit {words}", "--format", "json")
            row = run.json["rows"][0]
            self.assertEqual((row["state"], run.status, run.err), (state, status, ""))
            self.near(row["limit"], limit, 1e-7, 1e-5)
            if state != "already":
                self.near(row["room"], room, 1e-7, 1e-3)
        self.cases({**case, "compression [lbf]": "-20000"})
        run = self.study("limit --find compression --to -30000")
        self.assertEqual(run.status, 1)
        self.near(run.rows[0]["room [lbf]"], full - 20000, 1e-7, 1e-2)
        self.assertRegex(self.text("limit --find compression --to -30000"), r"(?m)^rail .* PAST +found$")
        # outside the range: what is short there has no room, what holds there is told that nothing between was looked at
        note = "the present value, -20000 lbf, lies outside the range, and the case is SHORT there: it has no room"
        for words, status, room, said in (("--to 8000", 1, "", "SHORT"),
                                          ("--to 60000 --margin=-0.6", 0, None, "before"),
                                          ("--from -1000 --to -4000", 1, "-16000", "SHORT")):
            run = self.study(f"limit --find compression {words}")
            self.assertEqual((run.status, note in run.err), (status, room == ""))
            row = run.rows[0]
            self.assertEqual(row["room [lbf]"], f"{float(row['limit [lbf]']) + 20000:.10g}" if room is None else room)
            text = self.text(f"limit --find compression {words}")
            self.assertRegex(text, rf"(?m)^rail .* {said} +(found|already|never)")
            self.assertEqual("past its limit" in text, status == 1)
            self.assertEqual("nothing between was looked at" in joined(text), room is None)
        # downward: a wall that is too thin is past its limit, and room is negative
        self.cases({**case, "compression [lbf]": "-20000"})
        run = self.study("limit --find wall --from 0.2 --to 0.01")
        self.assertEqual(run.status, 1)
        self.assertLess(float(run.rows[0]["room [in]"]), 0)
        self.near(float(run.rows[0]["now [in]"]) - float(run.rows[0]["limit [in]"]), float(run.rows[0]["room [in]"]))

    def test_a_refused_value_ends_the_range_and_that_is_said(self):
        self.cases({"compression [lbf]": "100", "length [in]": "10", "end_a [in-lbf/rad]": "1"})
        run = self.study("limit --find miss_a --to 5in")
        end = 10 * math.tan(math.radians(10))
        self.assertRun(run, 0, f"cases.csv:2: miss_a: the range ends at {end:.6g} in; beyond it: miss_a is a slope of more "
                       "than 10 deg: outside the model's range")
        self.near(run.rows[0]["limit [in]"], end, 0, 5e-7)
        self.assertEqual(run.rows[0]["state"], "never")
        self.assertIn("+: not as far as the model goes", joined(self.text("limit --find miss_a --to 5in")))

    def test_a_range_that_is_far_too_wide(self):
        self.cases({"compression [lbf]": "2600", "bow [in]": "0.03"})
        fits, wide = (self.study(f"limit --find compression --to {to}") for to in ("20000", "1e18"))
        self.assertEqual((fits.status, wide.status, wide.err), (0, 0, ""))
        self.near(wide.rows[0]["limit [lbf]"], float(fits.rows[0]["limit [lbf]"]), 1e-7)
        # each of 400 steps is 25 turns, so that all of them look the same way: the case itself is short between them
        self.cases({"compression [lbf]": "4500", "bow [in]": "0.2", "bow_clock": "200", "spread_load [lbf/in]": "12",
                    "spread_clock": "200"})
        self.assertRun(self.study("limit --find spread_clock --to 3600000"), 2,
                       "cases.csv:2: spread_clock: the range is too wide to be searched: a limit of 3.6e+06 deg, but as it is, "
                       "at 200 deg, the case is SHORT; narrow the range with --from and --to",
                       "case,column,limit [deg],now [deg],room [deg],state\n")
        run = self.study("limit --find spread_clock --to 360")
        self.assertEqual((run.status, run.rows[0]["state"]), (1, "found"))

    def test_the_direction_taken_is_told(self):
        forced = {"end_a": "fixed", "end_b": "fixed", "compression [lbf]": "1000", "spread_load [lbf/in]": "6"}
        self.cases({"case": "open", **forced}, {"case": "typed", **forced, "miss_a_clock": "0"})
        text = self.text("limit --find miss_a --to 1in")
        rows = {row["case"]: row for row in self.study("limit --find miss_a --to 1in").rows}
        limit = rows["open"]["limit [in]"]
        self.assertLess(float(limit), float(rows["typed"]["limit [in]"]) - 0.001)
        self.cases({**forced, "miss_a [in]": limit}, name="at.csv")
        clock = float(self.check("at.csv").rows[0]["miss_a_clock_taken [deg]"])
        self.assertIn(f"at the limit these are, in degrees: 'open': miss_a_clock {clock:.1f}. ", joined(text))
        self.assertNotIn("'typed': ", text)
        # a clock that is varied is known; its present value is not
        run = self.study("limit --find miss_a_clock --from 1 --to 300")
        self.cases({**forced, "miss_a [in]": "0.05"})
        row = self.study("limit --find miss_a_clock --from 1 --to 300").rows[0]
        self.assertEqual((row["now [deg]"], row["room [deg]"]), ("", ""))
        self.assertNotIn("not known", self.text("limit --find miss_a_clock --from 1 --to 300"))

    def test_a_start_that_is_refused(self):
        self.cases(HOLDS)
        self.assertRun(self.study("limit --find wall --to 0.1"), 2, f"cases.csv:2: wall: {BAD_WALL} (at the start of the "
                       "range, wall 0 in; begin elsewhere with --from)", "case,column,limit [in],now [in],room [in],state\n")

    def test_present_values_that_are_words_or_defaults(self):
        self.cases({**HOLDS, "end_a": "fixed", "end_b": "welded", "gap_stiffness [lbf/in]": ""})
        for column, unit, now in (("end_a", "in-lbf/rad", "inf"), ("end_b", "in-lbf/rad", ""), ("point_at", "in", "12"),
                                ("bow_at", "in", "12"), ("factor_yield", "", "1.5"), ("compression", "lbf", "1000")):
            to = "9" if column == "factor_yield" else "20" if unit == "in" else "2000"
            run = self.study(f"limit --find {column} --from 1{unit} --to {to}{unit}")
            got = [v for c, v in run.rows[0].items() if name_and_unit(c)[0] == "now"]
            self.assertEqual(got, [now], column)
            self.text(f"limit --find {column} --from 1{unit} --to {to}{unit}")

    def test_angles_are_in_degrees(self):
        self.cases({**RICH, "compression [lbf]": "100"})
        row = self.study("limit --find bow_clock --from 0 --to 300").rows[0]
        self.assertEqual((row["limit [deg]"], row["now [deg]"], row["room [deg]"]), ("300", "40", "260"))
        self.assertEqual(self.study("limit --find slope --from 0rad --to 0.5rad").rows[0]["state"], "never")
        self.assertEqual(self.study("limit --find slope --to 10").rows[0]["state"], "never")


if __name__ == "__main__":
    run_tests()
