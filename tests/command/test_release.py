"""release: the locked-in force and moments from the movement at a cut."""

import math

from program import in_si, joined, name_and_unit, run_tests
from shop import ShopTest

RELEASE_COLUMNS = ("case,fit_axial [lbf],shear [lbf],shear_clock [deg],moment_at_cut [in-lbf],moment_clock [deg],"
                   "moment_a [in-lbf],moment_b [in-lbf],fit_stress [psi],yield_use,basis,fit_stress_low [psi],"
                   "joints_taken,miss_a [in],miss_a_clock [deg],miss_b [in],miss_b_clock [deg]")


class Release(ShopTest):
    EI = 29e6 * math.pi / 64 * (1.25**4 - 1.134**4)

    def test_the_columns(self):
        self.assertEqual(self.cut({}).out.splitlines()[0], RELEASE_COLUMNS)
        self.assertEqual(self.cut({}, words=["--units", "si"]).out.splitlines()[0], in_si(RELEASE_COLUMNS))
        answer = self.cut({}, words=["--format", "json"]).json
        self.assertEqual(list(answer["rows"][0]), [name_and_unit(column)[0] for column in RELEASE_COLUMNS.split(",")])

    def test_a_side_step_cut_in_the_middle(self):
        # fixed beam, settled support: shear 12 EI d/L^3, end moments 6 EI d/L^2, misses d and -d; E of 4130 is 29e6 psi
        for turned, basis in ("0", "turn read"), ("", "least energy"):
            run = self.cut({"moved_clock": "90", "turned [deg]": turned, "opened [in]": "0.004"})
            self.assertRun(run, 0)
            row = run.rows[0]
            moment, section = 6 * self.EI * 0.1 / 40**2, 2 * self.EI / 29e6 / 1.25
            for column, want in {"shear [lbf]": 12 * self.EI * 0.1 / 40**3, "shear_clock [deg]": 90,
                                 "moment_a [in-lbf]": moment, "moment_b [in-lbf]": moment, "miss_a [in]": 0.1,
                                 "miss_b [in]": 0.1, "miss_a_clock [deg]": 270, "miss_b_clock [deg]": 90,
                                 "fit_axial [lbf]": -29e6 * math.pi / 4 * (1.25**2 - 1.134**2) * 0.004 / 40,
                                 "fit_stress [psi]": 29e6 * 0.004 / 40 + moment / section}.items():
                self.assertNear(row[column], want, 1e-8)
            self.assertEqual((row["basis"], float(row["moment_at_cut [in-lbf]"])), (basis, 0))

    def test_new_rail_forced_by_these_misses_carries_what_was_locked_in(self):
        # the other way round, through check: λ = 0 of a rail with the misses that release tells
        row = self.cut({"end_a": "welded", "cut_at [in]": "13", "moved_clock": "30", "turned [deg]": "0.3",
                        "turned_clock": "100"}).rows[0]
        self.cases({"length [in]": "40", "end_a": "welded", "end_b": "fixed",
                    **{name: row[name] for name in row if name.startswith("miss_")}})
        checked = self.check().rows[0]
        self.assertNear(checked["fit_moment [in-lbf]"], max(float(row["moment_a [in-lbf]"]),
                                                            float(row["moment_b [in-lbf]"])), 1e-7)
        self.assertNear(checked["fit_stress [psi]"], float(row["fit_stress [psi]"]), 1e-7)

    def test_what_is_refused(self):
        hold = "must be welded, fixed or a stiffness above 0: it held the moment"
        cut = "must lie between 0 and the length, and equal neither"
        for row, said in [({"end_a": "pinned"}, f"end_a: {hold}"), ({"end_b": "pinned"}, f"end_b: {hold}"),
                          ({"cut_at [in]": "40"}, f"cut_at: {cut}"), ({"cut_at [in]": "41"}, f"cut_at: {cut}"),
                          ({"wall [in]": "0.7"}, "wall: must be above 0 and at most half of od (a solid bar)")]:
            with self.subTest(said=said):
                run = self.cut(row, {"case": "good"})
                self.assertEqual(run.status, 2)
                self.assertIn(f"cuts.csv:2: {said}", run.err.replace("railbow: ", ""))
                self.assertEqual(run.names, ["good"])
        run = self.cut({"end_a": "free"})
        self.assertEqual(run.status, 2)
        self.assertIn("cuts.csv:2: end_a: ", run.err)

    def test_the_text(self):
        rows = {"opened [in]": "0.01"}, {"case": "r" * 80, "turned [deg]": "0.2", "opened [in]": "-0.01"}
        for words in [], ["--units", "si"]:
            run = self.cut(*rows, words=["--format", "text", *words])
            self.assertRun(run, 0)
            self.assertReadable(run.out)
            said = joined(run.out)
            self.assertEqual(said.count("this one has the least energy. More may have been locked in."), 1)
            self.assertEqual((said.count("would explain the movement, "), said.count("was locked in, ")), (1, 1))
            self.assertLess(said.index("least energy"), said.index("rrr"))
            for word in ["% of yield", " of pull", " of push", "miss its landing by", "(miss_a)", "(miss_b)"]:
                self.assertIn(word, said)

    def test_more_than_yield_is_said(self):
        self.assertIn("MORE THAN YIELD", self.cut({"moved [in]": "3"}, words=["--format", "text"]).out)
        self.assertNotIn("MORE THAN YIELD", self.cut({}, words=["--format", "text"]).out)


if __name__ == "__main__":
    run_tests()
