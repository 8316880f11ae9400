"""The examples of cases/handbook.csv compared with the printed results of the books."""

from program import ProgramTest, run_tests

GERE = "Gere & Goodno, Mechanics of Materials, 7th ed., "
CASE = "Case, Chilver & Ross, eq. 18.32 (Perry)"
# case, column, printed value, half a unit of its last digit, source
PRINTED = [
    ("pinned strut", "critical_load [N]", 62200, 50, GERE + "11.4-2"),
    ("cantilever strut", "critical_load [N]", 15600, 50, GERE + "11.4-2"),
    ("fixed and pinned strut", "critical_load [N]", 127000, 500, GERE + "11.4-2"),
    ("fixed strut", "critical_load [N]", 249000, 500, GERE + "11.4-2"),
    ("eccentric column", "peak_stress [MPa]", 38.8, 0.05, GERE + "11.6-4"),
    ("longer eccentric column", "peak_stress [MPa]", 50, 0.5, GERE + "11.6-4"),
    ("light eccentric column", "peak_stress [MPa]", 246.79, 0.005, "Sarkar, Strength of Materials, 9.8"),
    ("bowed strut 20 in", "yield_factor", 1, 0.5 / 12383, CASE + ": 12 383 lbf"),
    ("bowed strut 40 in", "yield_factor", 1, 0.5 / 5518, CASE + ": 5 518 lbf"),
    ("twisted shaft", "peak_stress [MPa]", 58.2 * 3**0.5, 0.05 * 3**0.5, GERE + "example 3.6"),
]


class Handbook(ProgramTest):
    def test_printed_values(self):
        cases = self.installed.source / "cases"
        run = self.check(cases / "handbook.csv", "--materials", cases / "handbook_materials.csv", "--units", "si")
        self.assertEqual((run.err, run.status), ("", 1))
        self.assertEqual(run.names, [row[0] for row in PRINTED])
        for row, (case, column, printed, within, source) in zip(run.rows, PRINTED):
            with self.subTest(case=case, source=source):
                self.assertLessEqual(abs(float(row[column]) - printed), within)


if __name__ == "__main__":
    run_tests()
