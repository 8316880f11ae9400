"""The command line: options, operands, and what is refused."""

import re

from program import ProgramTest, run_tests


class Usage(ProgramTest):
    REFUSED = [
        ([], "name a command; see 'railbow help'"),
        (["chekc"], "there is no command 'chekc'; did you mean 'check'?"),
        (["--nonsense"], "there is no command '--nonsense'; see 'railbow help'"),
        (["help", "chekc"], "there is no command 'chekc'; did you mean 'check'?"),
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


if __name__ == "__main__":
    run_tests()
