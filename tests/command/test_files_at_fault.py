"""Files that change while they are read or written, and two writers at once. The file that -o names is always the old one
or a complete new one."""

import os
import signal
import subprocess
import time

from program import HEADER, HOLDS, ROW, ProgramTest, run_tests


class Files(ProgramTest):
    def test_a_folder_as_input(self):
        (self.folder / "folder").mkdir()
        self.assertRun(self.run_program("release", "folder"), 2, "folder: cannot read: Is a directory")
        self.assertRun(self.check("folder"), 2, "folder: has no joints.csv, tubes.csv or loads.csv: a frame's folder has all three; "
                                                "'railbow new --frame FOLDER' writes them", "")
        self.file("pulls.csv", "case,od [in],wall [in],material,length [in],set [in]\nrail,1.25,0.058,4130,24,0.1\n")
        run = self.run_program("pull", "folder", "pulls.csv")
        self.assertEqual((run.status, run.names), (2, ["rail"]))

    def test_a_file_that_vanishes_while_read(self):
        os.mkfifo(self.folder / "pipe.csv")
        process = self.start("check", "pipe.csv")
        with open(self.folder / "pipe.csv", "w", encoding="ascii") as pipe:
            pipe.write(f"{HEADER}\n{ROW}\n")
            pipe.flush()
            (self.folder / "pipe.csv").unlink()
            pipe.write(f"{ROW}\n")
        out, err = process.communicate(timeout=20)
        self.assertEqual((out.count(b"\n"), err, process.returncode), (3, b"", 0))

    def test_a_file_cut_short_while_read(self):
        self.cases(*[HOLDS] * 20000)
        process = self.start("check", "cases.csv")
        os.truncate(self.folder / "cases.csv", 300_000)
        out, _ = process.communicate(timeout=60)
        self.assertIn(process.returncode, (0, 2))
        self.assertTrue(out.endswith(b"\n") or out == b"")

    def test_a_folder_of_the_output_that_vanishes(self):
        (self.folder / "gone").mkdir()
        process = self.start("check", "-", "-o", "gone/x.csv", stdin=subprocess.PIPE)
        end = time.monotonic() + 20
        while not list(self.folder.glob("gone/*")) and time.monotonic() < end:
            time.sleep(0.01)
        for path in self.folder.glob("gone/*"):
            path.unlink()
        (self.folder / "gone").rmdir()
        _, err = process.communicate(f"{HEADER}\n{ROW}\n".encode(), timeout=20)
        self.assertEqual((err, process.returncode),
                         (b"railbow: gone/x.csv: cannot write: No such file or directory\n", 2))

    def test_killed_in_the_middle(self):
        self.cases(*[HOLDS] * 50000)
        self.file("old.csv", "old")
        process = self.start("check", "cases.csv", "-o", "old.csv", "--jobs", "1")
        end = time.monotonic() + 20
        while not any(path.stat().st_size > 0 for path in self.folder.glob("old.csv.*")) and time.monotonic() < end:
            time.sleep(0.005)
        process.send_signal(signal.SIGKILL)
        self.assertEqual(process.wait(20), -signal.SIGKILL)
        self.assertEqual(self.read("old.csv"), "old")

    def test_two_writers_at_once(self):
        self.cases(*[HOLDS] * 300, name="a.csv")
        self.cases(*[{**HOLDS, "case": "other"}] * 200, name="b.csv")
        want = {self.check("a.csv").out, self.check("b.csv").out}
        for _ in range(5):
            writers = [self.start("check", name, "-o", "x.csv") for name in ("a.csv", "b.csv")]
            self.assertEqual([process.wait(20) for process in writers], [0, 0])
            self.assertIn(self.read("x.csv"), want)
            self.assertEqual(self.listing(), ["a.csv", "b.csv", "x.csv"])


if __name__ == "__main__":
    run_tests()
