"""Outputs of check on a frame: threads, files, closed pipes, full devices, names that hold anything."""

import os
import signal
import subprocess

from frame import FILES, JOINTS, LOADS, TUBES, FrameTest, changed
from program import run_tests

READ = "which this run reads: write the answer to another file"
RUNS = [{**LOADS[0], "run": f"run {i}", "force_z [lbf]": f"-{100 * i}"} for i in range(40)]


class Threads(FrameTest):
    def test_the_same_bytes_for_any_number(self):
        self.frame(loads=RUNS, tubes=changed(TUBES, 0, cells={"bow [in]": "0.05"}))
        for words in (["--of", "tubes"], ["--of", "joints"], ["--of", "runs"], ["--format", "json"], ["--format", "text"],
                      ["--report", "-", "-o", "answer"]):
            want = self.check("frame", "--jobs", "1", *words)
            self.assertGreater(len(want.out), 1000)
            for jobs in "2", "3", "64":
                self.assertEqual(self.check("frame", "--jobs", jobs, *words), want)
        self.assertEqual(self.check("frame", "--of", "runs").rows[7]["run"], "run 7")


class Outputs(FrameTest):
    def test_a_table_of_the_frame_is_not_overwritten(self):
        self.frame()
        for name in FILES:
            kept = self.read(f"frame/{name}")
            for words in ["-o", f"frame/{name}"], ["--report", f"frame/{name}", "-o", "answer.csv"]:
                self.assertRun(self.check("frame", *words), 2, f"frame/{name}: is frame/{name}, {READ}", "")
                self.assertEqual(self.read(f"frame/{name}"), kept)
        self.assertFalse((self.folder / "answer.csv").exists())

    def test_a_file(self):
        self.frame()
        self.assertRun(self.check("frame", "-o", "answer.csv"), 0, out="")
        self.assertEqual(self.read("answer.csv"), self.check("frame").out)

    def test_what_stands_there_stays_after_an_error(self):
        self.file("answer.csv", "mine")
        self.frame(tubes=changed(TUBES, 0, to="nowhere"))
        self.assertEqual(self.check("frame", "-o", "answer.csv").status, 2)
        self.frame()
        run = self.check("frame", "-o", "answer.csv", "--case", "beam", "--case", "nothing")
        self.assertRun(run, 2, ["--case: no tube meets 'nothing'", "answer.csv: stays as it was, for the answer is not complete"], "")
        self.assertEqual((self.read("answer.csv"), self.listing()), ("mine", ["answer.csv", "frame"]))

    def test_no_room(self):
        self.frame()
        for words in [], ["--format", "json"], ["--format", "text"]:
            with open("/dev/full", "wb") as full:
                self.assertRun(self.check("frame", *words, stdout=full), 2, "stdout: cannot write: No space left on device")

    def test_a_closed_pipe(self):
        self.frame(loads=RUNS * 60)
        for words in ["--of", "joints"], ["--format", "json"], ["--format", "text"]:
            near, far = os.pipe()
            os.close(near)
            run = self.check("frame", *words, stdout=far)
            os.close(far)
            self.assertRun(run, 2, "stdout: cannot write: Broken pipe")

    def test_interrupted(self):
        many = [{**LOADS[0], "run": f"run {i}"} for i in range(20000)]
        self.frame(loads=many)
        process = self.start("check", "frame", "-o", "answer.csv", "--report", "page.html", "--jobs", "1")
        try:
            process.wait(timeout=0.3)
            self.skipTest("the program was too fast")
        except subprocess.TimeoutExpired:
            process.send_signal(signal.SIGTERM)
        process.communicate(timeout=60)
        self.assertEqual(process.returncode, -signal.SIGTERM)
        self.assertEqual(self.listing(), ["frame"])

    def test_the_page_and_the_answer(self):
        self.frame()
        self.assertRun(self.check("frame", "--report", "-"), 2,
                       "--report: the page and the answer cannot both go to stdout: name a file for the answer with -o", "")
        self.assertRun(self.check("frame", "--report", "a", "-o", "a"), 2, "a: the report and the answer cannot be the same file", "")
        self.assertEqual(self.listing(), ["frame"])


class Names(FrameTest):
    HOSTILE = ["\x1b[31mred", "=1+1", "a,\"b\"", "a\nb", "<script>alert(1)</script>", "&amp;", "ü" * 50, "%s%n", "'", "\u202etxt", "-", "a|b"]

    def test_they_come_out_as_they_went_in_and_steer_nothing(self):
        for name in self.HOSTILE:
            with self.subTest(name=name):
                self.frame(changed(JOINTS, 2, joint=name), [{**tube, "tube": name + str(i), "to": name} for i, tube in enumerate(TUBES)],
                           changed(LOADS, 0, joint=name, run=name))
                run = self.check("frame", "--format", "json", "--report", "page.html")
                self.assertEqual(run.err, "")
                self.assertEqual([row["tube"] for row in run.json["tubes"]["rows"]], [name + "0", name + "1"])
                self.assertEqual(run.json["runs"]["rows"][0]["run"], name)
                guarded = self.check("frame").rows[0]["run"]
                self.assertIn(guarded, (name, "'" + name))
                text = self.check("frame", "--format", "text").out
                self.assertFalse([c for c in text if ord(c) < 32 and c != "\n" or c == "\u202e"])
                page = self.read("page.html")
                self.assertNotIn("<script", page)
                self.assertFalse([c for c in page if ord(c) < 32 and c != "\n"])

    def test_spreadsheet_files(self):
        self.frame()
        want = self.check("frame").out
        for name in FILES:
            text = self.read(f"frame/{name}")
            self.file(f"frame/{name}", text.replace(",", ";").replace(".", ",").replace("\n", "\r\n").encode("utf-16"))
        self.assertRun(self.check("frame"), 0, out=want)


if __name__ == "__main__":
    run_tests()
