"""sweep: the margin over a range."""

import math
import re

from program import CASE_COLUMNS, HOLDS, SWEEP_COLUMNS, joined, name_and_unit, run_tests
from studies import BAD_WALL, RICH, StudyTest


class Sweep(StudyTest):
    def test_against_check_on_edited_rows(self):
        self.cases(RICH)
        for column, values, spread in (("miss_a", ["0", "0.125", "0.25"], "0:0.25:0.125"),
                                       ("compression", ["5000", "4000", "3000"], "5000:3000:-1000"),
                                       ("length", ["30", "36", "42"], "2.5ft:3.5ft:6in"),
                                       ("bow_clock", ["-90", "0", "90"], "-90:90:90"),
                                       ("wall", ["0.049", "0.065"], "0.049:0.065:0.016"),
                                       ("factor", ["1", "1.5", "2"], "1:2:0.5")):
            rows = self.study(f"sweep --vary {column}={spread}").rows
            header = next((c for c in RICH if name_and_unit(c)[0] == column), column)
            header = {"wall": "wall [in]"}.get(column, header)
            self.assertEqual(len(rows), len(values))
            for row, value in zip(rows, values):
                self.cases({**RICH, header: value}, name="edited.csv")
                want = self.check("edited.csv").rows[0]
                got = [row[c] for c in row if name_and_unit(c)[0] == column]
                self.near(got[0], float(value))
                for c in ("margin", "yield_factor", "column_factor", "interaction_factor", "fit_stress [psi]",
                          "peak_stress [psi]", "deflection [in]"):
                    self.near(row[c], float(want[c]))
                self.assertEqual((row["governs"], row["verdict"]), (want["governs"], want["verdict"]))

    def test_eleven_values_without_drift(self):
        self.cases(RICH)
        run = self.study("sweep --vary miss_a=0:1:0.1")
        self.assertEqual([row["miss_a [in]"] for row in run.rows], [f"{i / 10:g}" for i in range(11)])
        exact = self.study("sweep --vary miss_a=0:1:0.1", "--format", "json").json["rows"]
        self.assertEqual([row["miss_a"] for row in exact], [i / 10 for i in range(11)])
        self.assertEqual([row["bow"] for row in self.study("sweep --vary bow=0mm:2mm:0.5mm", "--format", "json", "--units",
                                                           "si").json["rows"]], [0, 0.5, 1, 1.5, 2])

    def test_every_number_column_in_any_unit(self):
        self.cases(RICH)
        words = {"case", "note", "part", "material", "column_curve", "bow_shape"}
        for column in CASE_COLUMNS:
            run = self.study(f"sweep --vary {column}=0.01:0.02:0.01")
            if "names no unit" in run.err:  # a column that the file does not have
                unit = run.err.split(" as in 1")[1].strip()
                run = self.study(f"sweep --vary {column}=0.01{unit}:0.02{unit}:0.01{unit}")
            if column in words:
                self.assertRun(run, 2, f"--vary: column '{column}' is not a number", "")
            elif column.startswith("cycle"):
                self.assertRun(run, 2, f"--vary: no margin depends on column '{column}': it is for life", "")
            elif run.rows:  # 0.01 is no od, and the like
                self.assertEqual(len(run.rows), 2, column)
                self.assertIn(run.status, (0, 1))
            else:
                self.assertIn(f"(at {column} 0.01 ", run.err)

    def test_a_grid(self):
        self.cases({"case": "a", **RICH}, {"case": "b", **RICH})
        rows = self.study("sweep --vary wall=0.049:0.065:0.008 --vary miss_a=0:0.1:0.1").rows
        self.assertEqual([(r["case"], r["wall [in]"], r["miss_a [in]"]) for r in rows],
                         [(c, w, m) for c in "ab" for w in ("0.049", "0.057", "0.065") for m in ("0", "0.1")])

    def test_exit_status(self):
        self.cases({**HOLDS})
        self.assertEqual(self.study("sweep --vary compression=100:300:100").status, 0)
        self.assertEqual(self.study("sweep --vary compression=100:30100:10000").status, 1)
        self.assertEqual(self.study("sweep --vary wall=0.05:0.75:0.1").status, 2)

    def test_refusals_in_a_row_are_one_message(self):
        self.cases(HOLDS)
        run = self.study("sweep --vary wall=0.525:1.025:0.1")
        self.assertRun(run, 2, f"cases.csv:2: wall: {BAD_WALL} (at wall 0.725 in to wall 1.025 in: 4 values)")
        self.assertEqual(len(run.rows), 2)
        self.assertEqual(self.study("sweep --vary wall=0.55:0.65:0.1").err,
                         f"railbow: cases.csv:2: wall: {BAD_WALL} (at wall 0.65 in)\n")

    def test_the_walls_of_a_material(self):
        # what serves the varied wall counts, not what serves the case's own
        self.file("m.csv", "material,wall_over [in],wall_up_to [in],elastic_modulus [ksi],density [lb/in^3],yield [ksi]\n"
                           "4130,0.1,0.2,29000,0.283,75\n")
        self.cases(HOLDS)
        for words in "sweep --vary wall=0.12:0.14:0.01", "limit --find wall --from 0.12 --to 0.15":
            self.assertEqual(self.study(words, "--materials", "m.csv").status, 0)
        self.assertRun(self.study("sweep --vary bow=0in:1in:1in", "--materials", "m.csv"), 2, "cases.csv:2: wall: 4130 serves no "
                       "wall of 0.058 in, only over 0.1 up to 0.2 in (m.csv)", self.HEAD)
        run = self.study("sweep --vary wall=0.09:0.15:0.03", "--materials", "m.csv")
        self.assertEqual((len(run.rows), run.status), (2, 2))
        self.assertIn("wall: is served by no row of this material (at wall 0.09 in)", run.err)

    HEAD = ("case,bow [in]," + ",".join(SWEEP_COLUMNS).replace("fit_stress,peak_stress,deflection",
            "fit_stress [psi],peak_stress [psi],deflection [in]") + "\n")

    def test_text(self):
        self.cases({"case": "rail", "compression [lbf]": "1000"}, {"case": "rail", "compression [lbf]": "2000"})
        text = self.text("sweep --vary compression=2000:14000:3000")
        self.assertEqual(text.count("<- changes"), 2)
        self.assertEqual(text.count("'rail': holds for "), 2)
        changes = re.search(r"(?s)changes between (\d+) and (\d+) lbf; worst margin -[\d.]+ % at compression 14000 lbf",
                            joined(text))
        rows = self.study("sweep --vary compression=2000:14000:3000").rows[:5]
        held = [float(row["compression [lbf]"]) for row in rows if row["verdict"] == "holds"]
        self.assertEqual([float(n) for n in changes.groups()], [held[-1], held[-1] + 3000])
        bars = re.findall(r"(?m) % {2}([-+ ]*\|[-+ ]*?)  \w", text)[:5]
        zero = bars[0].index("|")
        for bar, row in zip(bars, rows):
            self.assertEqual(bar.index("|"), zero)
            self.assertEqual(bar.strip("| ")[:1], "+" if float(row["margin"]) >= 0 else "-")

    def test_a_table_of_all_cases_comes_first_and_bars_share_one_scale(self):
        cases = [{"case": f"c{load}", "compression [lbf]": str(load)} for load in (3000, 12000, 6000, 1500)]
        self.cases(*cases)
        text = self.text("sweep --vary wall=0.035:0.095:0.03")
        rows = self.study("sweep --vary wall=0.035:0.095:0.03").rows
        worst = {}
        for row in rows:
            worst[row["case"]] = min(float(row["margin"]), worst.get(row["case"], math.inf))
        head, *lines = text.splitlines()[:5]
        self.assertTrue(head.startswith("worst first "), head)
        self.assertEqual([line.split()[0] for line in lines], sorted(worst, key=worst.get))
        for line in lines:
            name = line.split()[0]
            held = sum(row["verdict"] == "holds" for row in rows if row["case"] == name)
            self.assertRegex(line, rf"^{name} +{held} of 3 +{re.escape(f'{100 * worst[name]:+.1f} %')} +0\.035 ")
        bars = re.findall(r"(?m) % {2}([-+ ]*\|[-+ ]*?)  \w", text)
        self.assertEqual(len(bars), 12)
        self.assertEqual(len({bar.index("|") for bar in bars}), 1)
        marks = [(float(row["margin"]), bar.count("+") - bar.count("-")) for row, bar in zip(rows, bars)]
        self.assertEqual([m for _, m in sorted(marks)], sorted(m for _, m in marks))  # over all cases
        self.cases(cases[0])
        self.assertTrue(self.text("sweep --vary wall=0.035:0.095:0.03").startswith("'c3000': "))

    def test_a_clock_that_is_varied_is_known(self):
        loads = {"compression [lbf]": "4000", "spread_load [lbf/in]": "4", "bow [in]": "0.1"}
        self.cases({**loads, "bow_clock": "any"}, {**loads, "bow_clock": "30"})
        rows = self.study("sweep --vary bow_clock=0:180:90").rows
        self.assertEqual([row["margin"] for row in rows[:3]], [row["margin"] for row in rows[3:]])
        self.assertGreater(float(rows[2]["margin"]), float(rows[0]["margin"]) + 0.01)

    def test_what_is_locked_in_is_that_of_the_result(self):
        # forced ends whose stiffness is not known: every column as check has it, with each miss
        case = {"end_a": "welded", "end_b": "welded", "compression [lbf]": "2000"}
        self.cases(case)
        for row in self.study("sweep --vary miss_a=0.05:0.15:0.05").rows:
            self.cases({**case, "miss_a [in]": row["miss_a [in]"]}, name="one.csv")
            want = self.check("one.csv").rows[0]
            for column in row:
                self.assertEqual(row[column], want.get(column, row[column]), column)

    def test_a_grid_marks_changes_along_the_second_column_only(self):
        self.cases({"case": "rail", "compression [lbf]": "0"})
        text = self.text("sweep --vary wall=0.05:0.06:0.01 --vary compression=2000:14000:12000")
        self.assertEqual(text.count("<- changes"), 2)


if __name__ == "__main__":
    run_tests()
