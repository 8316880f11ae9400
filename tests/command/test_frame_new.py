"""new --frame: three tables to start from."""

import os
import subprocess
import unittest

from frame import FILES, FrameTest
from program import run_tests
from test_new import without_comments

LISTS = {"joints.csv": "Joints of a frame (joints.csv)", "tubes.csv": "Tubes of a frame (tubes.csv)", "loads.csv": "Loads of a frame (loads.csv)"}


class NewFrame(FrameTest):
    WAYS = [[], ["--all"], ["--units", "si"], ["--all", "--units", "si"]]

    def new(self, *words, **more):
        return self.run_program("new", "--frame", *words, **more)

    def test_it_can_be_checked_as_it_is(self):
        for i, words in enumerate(self.WAYS):
            with self.subTest(words=words):
                self.assertRun(self.new(f"frame{i}", *words), 0, out="")
                self.assertEqual(sorted(os.listdir(self.folder / f"frame{i}")), sorted(FILES))
                self.assertRun(self.check(f"frame{i}"), 0)
                self.assertEqual(len(self.check(f"frame{i}").rows), 33)
        self.assertEqual(self.check("frame0").out, self.check("frame1").out)
        self.assertEqual(self.check("frame2").out, self.check("frame3").out)

    def test_every_column_stands_in_all(self):
        self.new("frame", "--all")
        shown = self.run_program("columns").out
        for name, title in LISTS.items():
            listed = shown.split(title + "\n\n")[1].split("\n\n")[0]
            names = [line.split()[0] for line in listed.splitlines()[1:] if line[0] != " "]
            header = without_comments(self.read(f"frame/{name}")).splitlines()[0]
            self.assertEqual([column.partition(" [")[0] for column in header.split(",")], names)

    def test_in_a_folder_that_is_there(self):
        (self.folder / "frame").mkdir()
        self.file("frame/mine.txt", "mine")
        self.assertRun(self.new("frame/"), 0, out="")
        self.assertEqual(sorted(os.listdir(self.folder / "frame")), sorted([*FILES, "mine.txt"]))

    def test_what_is_there_stays(self):
        for name in FILES:
            self.frame(folder=name)  # a fresh folder each
            for other in FILES:
                if other != name:
                    (self.folder / name / other).unlink()
            self.file(f"{name}/{name}", "mine")
            self.assertRun(self.new(name), 2, f"{name}/{name}: already exists and was not changed; name a new file", "")
            self.assertEqual((os.listdir(self.folder / name), self.read(f"{name}/{name}")), ([name], "mine"))

    def test_a_file_of_that_name(self):
        self.file("frame", "mine")
        self.assertRun(self.new("frame"), 2, "frame: cannot make this folder: File exists", "")
        self.assertRun(self.new("no/frame"), 2, "no/frame: cannot make this folder: No such file or directory", "")
        self.assertEqual((self.listing(), self.read("frame")), (["frame"], "mine"))

    def test_one_folder_is_named(self):
        for words in [], ["a", "b"]:
            self.assertRun(self.new(*words), 2, "new: name one folder to write the frame in; see 'railbow help new'", "")
        self.assertEqual(self.listing(), [])

    def test_nothing_is_left_behind_where_the_disk_is_full(self):
        limited = ["sh", "-c", "ulimit -f 1; exec \"$0\" \"$@\"", str(self.installed.program)]  # one block a file: SIGXFSZ
        run = subprocess.run([*limited, "new", "--frame", "frame", "--all"], cwd=self.folder, capture_output=True, check=False)
        if run.returncode == 0:
            self.skipTest("the files are smaller than a block")
        self.assertEqual(self.listing(), [])

    @unittest.skipIf(os.geteuid() == 0, "root may write anywhere")
    def test_a_folder_that_may_not_be_written(self):
        (self.folder / "frame").mkdir(mode=0o555)
        self.assertRun(self.new("frame"), 2, "frame/joints.csv: cannot write: Permission denied", "")


if __name__ == "__main__":
    run_tests()
