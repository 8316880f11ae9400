"""new: a file to start from."""

import csv
import io
import shutil

from page import WAYS
from program import CASE_COLUMNS, PLAIN, ProgramTest, name_and_unit, run_tests


def without_comments(text):
    return "".join(line for line in text.splitlines(True) if not line.startswith("#"))


class New(ProgramTest):
    def columns(self, *words):
        run = self.run_program("new", "-", *words)
        self.assertRun(run, 0)
        rows = list(csv.DictReader(io.StringIO(without_comments(run.out))))
        return [name_and_unit(column) for column in rows[0]], rows, run

    WAYS = [[], ["--all"], ["--units", "si"], ["--all", "--units", "si"]]

    def test_it_can_be_checked_as_it_is(self):
        for words in self.WAYS:
            with self.subTest(words=words):
                self.assertRun(self.run_program("new", "frame.csv", *words), 0, out="")
                self.assertRun(self.check("frame.csv"), 0)
                self.assertEqual(self.check("frame.csv").names, ["upper rail", "new rail"])
                self.assertEqual(self.columns(*words)[2].out, self.read("frame.csv"))
                (self.folder / "frame.csv").unlink()

    def test_details_of_the_cases_and_of_the_frame(self):
        """They can be checked as they are, and every one of them stands in the answer."""
        for words in self.WAYS:
            with self.subTest(words=words):
                self.assertRun(self.run_program("new", "cases.csv", *words), 0, out="")
                self.assertRun(self.run_program("new", "--details", "table.csv", *words), 0, out="")
                run = self.check("cases.csv", "--details", "table.csv", "--of", "details")
                self.assertRun(run, 0)
                self.assertEqual([row["kind"] for row in run.rows], ["hole", "sleeve", "ring weld"])
                self.assertRun(self.run_program("new", "--frame", "nose", *words), 0, out="")
                self.assertRun(self.run_program("new", "--details", "--frame", "nose/details.csv", *words), 0, out="")
                run = self.check("nose", "--of", "details")
                self.assertRun(run, 0)
                self.assertEqual({row["tube"] for row in run.rows}, {"rail UL", "rail UR"})
                self.assertEqual(self.run_program("new", "--details", "-", *words).out, self.read("table.csv"))
                self.assertRun(self.run_program("new", "--details", "table.csv"), 2, "table.csv: already exists and was not changed; give another name", "")
                for name in self.listing():
                    shutil.rmtree(self.folder / name) if name == "nose" else (self.folder / name).unlink()

    def test_every_column_of_details_stands_in_all(self):
        listed = self.run_program("columns").out.split("Details (--details; ")[1].split("\n\n")[1]
        for words, first in ([], "case"), (["--frame"], "tube"):
            head = without_comments(self.run_program("new", "--details", "-", "--all", *words).out).splitlines()[0]
            self.assertEqual([name_and_unit(column)[0] for column in head.split(",")],
                             [first] + [line.split()[0] for line in listed.splitlines()[2:] if line[0] != " "])

    def test_every_column_stands_in_all_with_its_unit(self):
        listed = self.run_program("columns").out.split("Load cases\n\n")[1].split("\n\n")[0]
        units = {line.split()[0]: line.split()[1] for line in listed.splitlines()[1:] if line[0] != " "}
        columns, _, _ = self.columns("--all")
        self.assertEqual([name for name, _ in columns], CASE_COLUMNS)
        for name, unit in columns:  # an angle without a bracket is in degrees
            self.assertEqual(unit or "-", units[name].replace("text", "-").replace("deg", "-"), name)

    def test_the_commonest_columns_are_some_of_all(self):
        some, every = self.columns()[0], self.columns("--all")[0]
        self.assertLess(len(some), len(every))
        for name, unit in some:
            self.assertIn(name, CASE_COLUMNS)
            if name not in ("end_a", "end_b"):  # there the bracket is for numbers
                self.assertIn((name, unit), every)
        for name in PLAIN:
            self.assertIn(name_and_unit(name)[0], [name for name, _ in some])

    def test_an_empty_cell_and_a_column_that_is_not_there_are_the_default(self):
        self.file("some.csv", self.columns()[2].out)
        self.file("all.csv", self.columns("--all")[2].out)
        self.assertEqual(self.check("some.csv").out, self.check("all.csv").out)

    def test_what_is_there_stays(self):
        self.file("frame.csv", "mine")
        (self.folder / "link.csv").symlink_to("nowhere.csv")
        for name in "frame.csv", "link.csv", ".":
            run = self.run_program("new", name)
            self.assertRun(run, 2, f"{name}: already exists and was not changed; give another name", "")
        self.assertEqual((self.read("frame.csv"), self.listing()), ("mine", ["frame.csv", "link.csv"]))

    def test_where_it_cannot_be_written(self):
        self.assertRun(self.run_program("new", "no/frame.csv"), 2, "no/frame.csv: cannot write: No such file or directory", "")
        with open("/dev/full", "wb") as full:
            self.assertRun(self.run_program("new", "-", stdout=full), 2, "stdout: cannot write: No space left on device")

    def test_one_file_is_named(self):
        for words in [], ["a", "b"]:
            said = "new: name one file to write, or - for standard output; see 'railbow help new'"
            self.assertRun(self.run_program("new", *words), 2, said, "")
        self.assertEqual(self.listing(), [])

    def test_a_spreadsheet_saves_it_as_a_file_that_still_reads(self):
        # a spreadsheet pads every row, comments too, and quotes what holds its separator
        rows = list(csv.reader(io.StringIO(self.columns("--all")[2].out)))
        wide = max(map(len, rows))
        self.assertEqual([len(row) for row in rows], [1, 1, wide, wide, wide])
        text = io.StringIO()
        csv.writer(text, lineterminator="\r\n").writerows([row + [""] * (wide - len(row)) for row in rows])
        self.file("saved.csv", "\ufeff" + text.getvalue())
        self.assertRun(self.check("saved.csv"), 0, out=self.check("-", stdin=self.columns("--all")[2].out).out)


if __name__ == "__main__":
    run_tests()
