"""The command line, help, columns and section."""

import re

from program import CASE_COLUMNS, MATERIAL_COLUMNS, RESULT_COLUMNS, SECTION_COLUMNS, ProgramTest, in_si, name_and_unit

COMMANDS = ["new", "check", "explain", "section", "columns", "help"]
OUTPUT_OPTIONS = ["-o, --output FILE", "--format text|csv|json", "--units us|si", "--materials FILE"]
OPTIONS = {
    "new": ["--all", "--units us|si", "-h, --help"],
    "explain": OUTPUT_OPTIONS + ["--factor N", "-h, --help"],
    "check": OUTPUT_OPTIONS + ["--factor N", "--report FILE", "--title TEXT", "--by TEXT", "--note TEXT", "--date TEXT",
                               "--jobs N", "-h, --help"],
    "section": OUTPUT_OPTIONS + ["--material NAME", "--walls LIST", "--ods LIST", "-h, --help"],
    "columns": ["-h, --help"],
    "help": ["-h, --help"],
}
CAUTION = ["no substitute for the rule book, local codes and a licensed engineer",
           "does not cover fatigue, cracks, weld defects, dents or impact"]


def joined(text):
    return " ".join(text.split())


class Usage(ProgramTest):
    REFUSED = [
        ([], "name a command; see 'railbow help'"),
        (["chekc"], "there is no command 'chekc'; see 'railbow help'"),
        (["--nonsense"], "there is no command '--nonsense'; see 'railbow help'"),
        (["help", "chekc"], "there is no command 'chekc'; see 'railbow help'"),
        (["check"], "check: name a file of load cases, or - for standard input; see 'railbow help check'"),
        (["check", "--bogus", "a.csv"], "check: option '--bogus' is not known here; see 'railbow help check'"),
        (["check", "a.csv", "--bogus"], "check: option '--bogus' is not known here; see 'railbow help check'"),
        (["check", "-x", "a.csv"], "check: option '-x' is not known here; see 'railbow help check'"),
        (["check", "--walls", "0.049"], "check: option '--walls' is not known here; see 'railbow help check'"),
        (["section", "--jobs", "2"], "section: option '--jobs' is not known here; see 'railbow help section'"),
        (["columns", "--format", "csv"], "columns: option '--format' is not known here; see 'railbow help columns'"),
        (["check", "a.csv", "-o"], "check: option '-o' needs a value; see 'railbow help check'"),
        (["check", "a.csv", "--format"], "check: option '--format' needs a value; see 'railbow help check'"),
        (["check", "--format", "xml", "a.csv"], "--format: 'xml' is not one of text, csv, json"),
        (["check", "--units", "metric", "a.csv"], "--units: 'metric' is not one of us, si"),
        (["check", "--jobs", "0", "a.csv"], "--jobs: '0' is not a whole number from 1 to 1024"),
        (["check", "--jobs", "2.5", "a.csv"], "--jobs: '2.5' is not a whole number from 1 to 1024"),
        (["check", "--jobs", "1025", "a.csv"], "--jobs: '1025' is not a whole number from 1 to 1024"),
        (["check", "--jobs", "two", "a.csv"], "--jobs: 'two' is not a whole number from 1 to 1024"),
        (["check", "--factor", "0", "a.csv"], "--factor: '0' is not a number above 0"),
        (["check", "--factor", "1,5", "a.csv"], "--factor: '1,5' is not a number above 0"),
        (["check", "--factor", "inf", "a.csv"], "--factor: 'inf' is not a number above 0"),
        (["check", "--factor", "", "a.csv"], "--factor: '' is not a number above 0"),
    ]

    def test_refused(self):
        for words, said in self.REFUSED:
            with self.subTest(words=words):
                self.assertRun(self.run_program(*words), 2, said, "")

    def test_an_unknown_letter_among_others_is_the_one_named(self):
        run = self.check("-xy", "a.csv")
        self.assertEqual(run.status, 2)
        self.assertNotIn("'check'", run.err.replace("help check", ""))
        self.assertIn("x", run.err.split("option", 1)[1].split("is not known")[0])

    def test_an_operand_too_many_is_refused(self):
        for words in (["columns", "cases.csv"], ["help", "check", "section"]):
            with self.subTest(words=words):
                self.assertEqual(self.run_program(*words).status, 2)

    def test_options_may_stand_behind_files_and_after_a_double_dash_all_are_files(self):
        self.cases({})
        self.assertEqual(self.check("cases.csv", "--format=json").json["rows"][0]["case"], "rail")
        self.cases({}, name="-x.csv")
        self.assertEqual(self.check("--", "-x.csv").names, ["rail"])

    def test_version(self):
        listed = (self.installed.source / "include" / "railbow" / "version.h").read_text(encoding="utf-8")
        version = ".".join(re.search(rf"define RBOW_VERSION_{part} (\d+)", listed).group(1)
                           for part in ("MAJOR", "MINOR", "PATCH"))
        self.assertRun(self.run_program("--version"), 0, out=f"railbow {version}\n")

    def test_the_factor_asked_for(self):
        # 4130 in tension to 75 ksi: only yield, so margin + 1 = yield_factor / factor_yield
        self.cases({"case": "plain", "factor": "", "factor_yield": "", "compression [lbf]": "-1000"},
                   {"case": "own", "factor": "3", "factor_yield": "", "compression [lbf]": "-1000"},
                   {"case": "yield", "factor": "3", "factor_yield": "1", "compression [lbf]": "-1000"})
        for words, asked in ([], [1.5, 3, 1]), (["--factor", "2"], [2, 3, 1]):
            rows = self.check("cases.csv", *words).rows
            for row, factor in zip(rows, asked):
                self.assertAlmostEqual(float(row["yield_factor"]) / (float(row["margin"]) + 1), factor, 8)


class Help(ProgramTest):
    def test_the_program(self):
        run = self.run_program("help")
        self.assertRun(run, 0)
        for name in COMMANDS:
            self.assertRegex(run.out, rf"(?m)^  {name} +\w")
        for word in ["--version", "railbow help COMMAND", "Exit status: 0", *CAUTION]:
            self.assertIn(word, joined(run.out))
        for words in (["--help"], ["-h"]):
            self.assertRun(self.run_program(*words), 0, out=run.out)

    def test_every_command(self):
        for name in COMMANDS:
            with self.subTest(command=name):
                run = self.run_program("help", name)
                self.assertRun(run, 0)
                self.assertTrue(run.out.startswith(f"railbow {name}: "))
                listed = re.findall(r"(?m)^  (-.*?)(?:  |$)", run.out)
                self.assertCountEqual([option.strip() for option in listed], OPTIONS[name])
                for word in ["Usage: railbow " + name, "Example: railbow ", *CAUTION]:
                    self.assertIn(word, joined(run.out))
                self.assertRun(self.run_program(name, "--help"), 0, out=run.out)
                self.assertRun(self.run_program(name, "-h"), 0, out=run.out)

    def test_no_line_is_wide_or_ends_in_a_blank(self):
        for words in [["help"], ["columns"], *(["help", name] for name in COMMANDS)]:
            for line in self.run_program(*words).out.splitlines():
                with self.subTest(words=words, line=line):
                    self.assertLessEqual(len(line), 100)
                    self.assertEqual(line, line.rstrip())


class Columns(ProgramTest):
    REQUIRED = {"Load cases": {"case", "od", "wall", "material", "length"},
                "Materials": {"material", "elastic_modulus", "density", "yield"}}
    LISTS = {
        "Load cases": CASE_COLUMNS,
        "Materials": MATERIAL_COLUMNS,
        "Results of check": [name_and_unit(column)[0] for column in RESULT_COLUMNS.split(",")],
        "Results of section": [name_and_unit(column)[0] for column in SECTION_COLUMNS.split(",")],
    }
    UNITS = ["in, ft, mm, cm or m", "lbf, kip, N or kN", "psi, ksi, MPa or GPa",
             "in-lbf, ft-lbf, N-m, N-mm or kN-m", "lbf/in, lbf/ft, N/m or N/mm",
             "in-lbf/rad, in-lbf/deg or N-m/rad", "lb/in^3 or kg/m^3", "lb or kg", "lb/ft, lb/in or kg/m",
             "in^2 or mm^2", "in^3 or mm^3", "in^4 or mm^4", "deg or rad"]

    def lines_of(self, title, text):
        block = text.split(title + "\n\n", 1)[1].split("\n\n", 1)[0]
        return [line for line in block.splitlines() if not line.startswith(" ")][1:]

    def test_every_column_with_unit_default_and_meaning(self):
        run = self.run_program("columns")
        self.assertRun(run, 0)
        for title, names in self.LISTS.items():
            lines = self.lines_of(title, run.out)
            self.assertEqual([line.split()[0] for line in lines], names)
            required = {line.split()[0] for line in lines if " required " in line}
            self.assertEqual(required, self.REQUIRED.get(title, set()))
        for column in RESULT_COLUMNS.split(","):
            name, unit = name_and_unit(column)
            if unit:
                self.assertRegex(run.out, rf"(?m)^{name} +{re.escape(unit)} ")

    def test_every_unit(self):
        listed = self.run_program("columns").out.split("Units that a header may name", 1)[1]
        self.assertEqual([line.strip() for line in listed.splitlines()[2:]], self.UNITS)


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
        self.assertLessEqual(max(map(len, out.splitlines())), 100)
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
