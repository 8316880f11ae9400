"""pull: how far to pull a horn so that the set remains."""

import math

from program import in_si, joined, name_and_unit, run_tests
from shop import ShopTest

PULL_COLUMNS = ("case,set [in],yield_travel [in],yield_pull [lbf],pull [lbf],travel [in],springback [in],peak_strain,"
                "strain_over_yield,residual_stress [psi],yielded_length [in],state")


class Pull(ShopTest):
    def test_the_columns(self):
        self.assertEqual(self.pull({}).out.splitlines()[0], PULL_COLUMNS)
        self.assertEqual(self.pull({}, words=["--units", "si"]).out.splitlines()[0], in_si(PULL_COLUMNS))
        answer = self.pull({}, words=["--format", "json"]).json
        self.assertEqual(list(answer["rows"][0]), [name_and_unit(column)[0] for column in PULL_COLUMNS.split(",")])

    def test_first_yield_and_what_hangs_together(self):
        row = self.pull({"weld_zone [in]": "0"}).rows[0]
        strain, yields = 75000 / 29e6, math.pi / 32 * (1.25**4 - 1.134**4) / 1.25 * 75000 / 18
        self.assertNear(row["yield_travel [in]"], strain * 18**2 / (3 * 0.625))
        self.assertNear(row["yield_pull [lbf]"], yields)
        share = float(row["pull [lbf]"]) / yields
        self.assertNear(row["springback [in]"], share * strain * 18**2 / (3 * 0.625))
        self.assertNear(row["travel [in]"], 0.125 + float(row["springback [in]"]))
        self.assertNear(row["residual_stress [psi]"], 75000 * (1 - share), 1e-8)
        self.assertNear(row["yielded_length [in]"], 18 * (1 - 1 / share), 1e-8)
        self.assertEqual(row["state"], "set")

    def test_beyond(self):
        run = self.pull({"length [in]": "6", "weld_zone [in]": "0"})
        self.assertRun(run, 0)
        row = run.rows[0]
        self.assertEqual(row["state"], "beyond")
        self.assertNear(row["yield_travel [in]"], 75000 / 29e6 * 36 / (3 * 0.625))
        for column in PULL_COLUMNS.split(",")[4:-1]:
            self.assertEqual(row[column], "", column)

    def test_steps(self):
        run = self.pull({}, {"case": "second", "set [in]": "0.05"}, words=["--steps", "4"])
        self.assertRun(run, 0)
        self.assertEqual(run.names, ["horn"] * 4 + ["second"] * 4)
        self.assertEqual([float(row["set [in]"]) for row in run.rows[:4]], [0.03125, 0.0625, 0.09375, 0.125])
        self.assertEqual(run.rows[3], self.pull({}).rows[0])
        travels = [float(row["travel [in]"]) for row in run.rows[:4]]
        self.assertEqual(travels, sorted(set(travels)))

    def test_no_set(self):
        row = self.pull({"set [in]": "0"}).rows[0]
        self.assertEqual(row["travel [in]"], row["yield_travel [in]"])
        self.assertEqual((row["residual_stress [psi]"], row["yielded_length [in]"]), ("0", "0"))

    def test_what_is_refused(self):
        for row, column in [({"set [in]": "-1"}, "set"), ({"length [in]": "0"}, "length"), ({"material": "oak"}, "material"),
                            ({"wall [in]": "0.63"}, "wall")]:
            with self.subTest(column=column):
                run = self.pull(row, {"case": "good"}, words=["--steps", "2"])
                self.assertEqual(run.status, 2)
                self.assertTrue(run.err.startswith(f"railbow: horns.csv:2: {column}: "), run.err)
                self.assertEqual(run.names, ["good"] * 2)

    def test_the_text(self):
        rows = ({}, {"case": "hard", "length [in]": "6", "set [in]": "0.02"}, {"case": "h" * 80, "length [in]": "6"})
        for words in [], ["--units", "si"], ["--steps", "3"], ["--steps", "1000"]:
            run = self.pull(*rows, words=["--format", "text", *words])
            self.assertRun(run, 0)
            self.assertReadable(run.out)
            self.assertTrue(run.out.startswith("'horn': pulled up to "), run.out)
            said = joined(run.out)
            self.assertEqual([said.count(word) for word in ("it springs back whole", "CAREFUL: ", "NOT POSSIBLE: ")],
                             [3, 1, 2])
            self.assertEqual(run.out.count("step  pull to"), 3 if "--steps" in words else 0)

    def test_the_strain_that_is_too_much(self):
        # the warning stands where the strain that the answer tells is above 2 %, and only there
        sets = [f"{0.13 + 0.0025 * i:.4f}" for i in range(20)]
        strains = [float(row["peak_strain"]) for row in self.pull(*({"set [in]": s, "weld_zone [in]": "0"} for s in sets)).rows]
        self.assertTrue(min(strains) < 0.02 < max(strains), strains)
        for one, strain in zip(sets, strains):
            text = self.pull({"set [in]": one, "weld_zone [in]": "0"}, words=["--format", "text"]).out
            self.assertEqual("CAREFUL" in text, strain > 0.02, one)


if __name__ == "__main__":
    run_tests()
