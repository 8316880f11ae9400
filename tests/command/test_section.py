"""section: properties of tubes, from sizes in the usual notation."""

from program import SECTION_COLUMNS, ProgramTest, in_si, run_tests


class Section(ProgramTest):
    def section(self, *words):
        return self.run_program("section", *words)

    def test_published(self):
        # Gere & Goodno, Mechanics of Materials, 7th ed., problem 11.9-7: pipe of 4.500 in by 0.237 in
        run = self.section("4.500x0.237")
        self.assertRun(run, 0)
        row = run.rows[0]
        for column, printed in ("area [in^2]", 3.1740), ("inertia [in^4]", 7.2326), ("radius [in]", 1.5095):
            self.assertLessEqual(abs(float(row[column]) - printed), 0.00005)

    def test_columns_in_both_systems(self):
        for words, columns in ([], SECTION_COLUMNS), (["--units", "si"], in_si(SECTION_COLUMNS)):
            self.assertEqual(self.section("1.25x0.058", *words).out.splitlines()[0], columns)

    def test_a_solid_bar_against_the_textbook_forms(self):
        # d = 1: A = pi/4, I = pi/64, S = pi/32, Z = 1/6, J = pi/32, r = 1/4; 0.283 lb/in^3 for 4130
        pi = 3.141592653589793
        want = [1, 0.5, 0, pi / 4, pi / 64, pi / 32, 1 / 6, pi / 32, 0.25, 0.283 * 12 * pi / 4, 2]
        got = [float(value) for value in self.section("1x0.5").rows[0].values()]
        for g, w in zip(got, want, strict=True):
            self.assertLessEqual(abs(g - w), 1e-9 * w)

    def test_inch_and_millimetre_say_the_same(self):
        self.assertEqual(self.section("1.25x0.0625").out, self.section("31.75mmx1.5875mm").out)
        self.assertEqual(self.section("1.25x0.0625").out, self.section("1.25inx0.15875cm").out)

    def test_grid(self):
        run = self.section("--ods", "1,1.25", "--walls", "0.049,1.5mm")
        self.assertEqual(run.out, self.section("1x0.049", "1x1.5mm", "1.25x0.049", "1.25x1.5mm").out)

    def test_blanks_as_people_write_them(self):
        self.assertRun(self.section("1.25 x 0.058"), 0, out=self.section("1.25x0.058").out)
        self.assertRun(self.section("--ods", "1, 1.25", "--walls", "0.049"), 0,
                       out=self.section("1x0.049", "1.25x0.049").out)

    def test_text_for_people(self):
        out = self.section("--format", "text", *["1.25x0.058"] * 9).out
        self.assertIn("area [in^2]", out)
        self.assertIn("An aid to judgement", out)
        self.assertLessEqual(max(map(len, out.splitlines())), 80)
        self.assertNotIn("\033", out)

    def test_json(self):
        answer = self.section("--format", "json", "1x0.5").json
        self.assertEqual(answer["units"]["weight_per_length"], "lb/ft")
        self.assertEqual(answer["rows"][0]["bore"], 0)

    def test_material_gives_the_weight(self):
        self.file("m.csv", "material,elastic_modulus [ksi],density [lb/in^3],yield [ksi]\nlight,10000,0.1,40\n")
        row = self.section("--materials", "m.csv", "--material", "light", "1x0.5").rows[0]
        self.assertAlmostEqual(float(row["weight_per_length [lb/ft]"]), 1.2 * 3.141592653589793 / 4, 9)
        self.assertRun(self.section("--materials", "m.csv", "1x0.5"), 2,
                       "section: --material: '4130' is not in m.csv", "")

    GRID_OR_SIZES = "section: name sizes like 1.25x0.058, or a grid with --ods and --walls; see 'railbow help section'"
    NUMBER = "is not a number above 0, alone (in) or with its unit: in, ft, mm, cm or m"
    REFUSED = [
        ([], GRID_OR_SIZES),
        (["--ods", "1"], GRID_OR_SIZES),
        (["1x0.05", "--ods", "1", "--walls", "0.05"], GRID_OR_SIZES),
        (["1.25"], "section: '1.25' is not a size like 1.25x0.058 (inch, in decimals) or 32mmx1.5mm"),
        (["1.25x"], "section: '1.25x' is not a size like 1.25x0.058 (inch, in decimals) or 32mmx1.5mm"),
        (["1.25x0.058kg"], "section: '1.25x0.058kg' is not a size like 1.25x0.058 (inch, in decimals) or 32mmx1.5mm"),
        (["nanx0.058"], "section: 'nanx0.058' is not a size like 1.25x0.058 (inch, in decimals) or 32mmx1.5mm"),
        (["0x0.1"], "section: '0x0.1': od must be above 0"),
        (["1x0"], "section: '1x0': wall must be above 0 and at most half of od (a solid bar)"),
        (["1x0.51"], "section: '1x0.51': wall must be above 0 and at most half of od (a solid bar)"),
        (["--ods", "1,-2", "--walls", "0.05"], f"--ods: '-2' {NUMBER}"),
        (["--ods", "1", "--walls", "0.05,,"], f"--walls: '' {NUMBER}"),
        (["--ods", "1", "--walls", "0.05lb"], f"--walls: '0.05lb' {NUMBER}"),
    ]

    def test_refused(self):
        for words, said in self.REFUSED:
            with self.subTest(words=words):
                self.assertRun(self.section(*words), 2, said, "")

    def test_good_sizes_are_answered_beside_bad_ones(self):
        run = self.section("1x0.05", "1x0.6", "1.25x0.058")
        self.assertRun(run, 2, "section: '1x0.6': wall must be above 0 and at most half of od (a solid bar)",
                       self.section("1x0.05", "1.25x0.058").out)


class Numbers(ProgramTest):
    def test_a_measure_that_its_unit_makes_infinite(self):
        for words in (["section", "1e308ftx1"], ["section", "--ods", "1e308ft", "--walls", "0.1"]):
            run = self.run_program(*words)
            self.assertEqual((run.status, run.out), (2, ""))
            self.assertIn("1e308ft", run.err)


if __name__ == "__main__":
    run_tests()
