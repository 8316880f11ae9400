"""What an output may never do: destroy an input, or put half an answer in the place of a whole one."""

import os
import resource
import signal
import subprocess

from program import HEADER, HOLDS, ROW, SHORT, ProgramTest, run_tests

READ = "which this run reads: write the answer to another file"


class Inputs(ProgramTest):
    """An output is compared with every file that the run reads, by device and inode."""

    def setUp(self):
        super().setUp()
        self.cases(HOLDS)
        self.kept = self.read("cases.csv")
        (self.folder / "link.csv").symlink_to("cases.csv")
        os.link(self.folder / "cases.csv", self.folder / "twin.csv")

    def assertKept(self, run, target, source="cases.csv"):
        self.assertRun(run, 2, f"{target}: is {source}, {READ}", "")
        self.assertEqual(self.read("cases.csv"), self.kept)

    def test_the_load_cases(self):
        for target in "cases.csv", "./cases.csv", "link.csv", "twin.csv":
            with self.subTest(target=target):
                self.assertKept(self.check("cases.csv", "-o", target), target)
                self.assertKept(self.check("cases.csv", "-o", "answer.csv", "--report", target), target)
                self.assertFalse((self.folder / "answer.csv").exists())
        self.assertKept(self.check("link.csv", "-o", "cases.csv"), "cases.csv", "link.csv")

    def test_standard_input_from_the_file(self):
        with open(self.folder / "cases.csv", "rb") as given:
            process = self.start("check", "-", "-o", "cases.csv", stdin=given)
            out, err = process.communicate(timeout=60)
        self.assertEqual((out, err.decode(), process.returncode),
                         (b"", f"railbow: cases.csv: is stdin, {READ}\n", 2))
        self.assertEqual(self.read("cases.csv"), self.kept)

    def test_standard_output_into_the_file(self):
        with open(self.folder / "cases.csv", "ab") as answer:
            run = self.check("cases.csv", stdout=answer)
        self.assertRun(run, 2, f"stdout: is cases.csv, {READ}")
        self.assertEqual(self.read("cases.csv"), self.kept)

    def test_the_other_tables(self):
        self.file("t.csv", "column,minus,plus,unit\nwall,1,1,%\n")
        self.file("m.csv", (self.installed.source / "materials" / "steel_tube.csv").read_bytes())
        shop = self.installed.source / "cases"
        for name in "spec.csv", "readings.csv", "parts.csv":
            self.file(name, (shop / name).read_bytes())
        inspect = ["inspect", "--spec", "spec.csv", "--cases", "parts.csv", "readings.csv"]
        for words, target in ((["scatter", "cases.csv", "--tolerances", "t.csv"], "t.csv"),
                              (["check", "cases.csv", "--materials", "m.csv"], "m.csv"),
                              (["section", "1x0.05", "--materials", "m.csv"], "m.csv"),
                              (["explain", "cases.csv", "rail"], "cases.csv"),
                              (inspect, "spec.csv"), (inspect, "parts.csv"), (inspect, "readings.csv")):
            with self.subTest(words=words, target=target):
                before = self.read(target)
                self.assertRun(self.run_program(*words, "-o", target), 2, f"{target}: is {target}, {READ}", "")
                self.assertEqual(self.read(target), before)

    def test_words_that_are_no_files(self):
        # a size and a case may bear the name of the file that is written
        self.assertRun(self.run_program("section", "1x0.05", "-o", "1x0.05"), 0)
        self.assertRun(self.run_program("section", "1x0.05", "-o", "1x0.05"), 0)
        self.file("rail", "old")
        self.assertRun(self.run_program("explain", "cases.csv", "rail", "-o", "rail"), 0)
        self.assertIn("rail", self.read("rail"))


class Complete(ProgramTest):
    """What stands there already is replaced by a complete answer only."""

    def test_rows_that_are_missing(self):
        self.cases(HOLDS, SHORT, {"od [in]": "0"})
        self.file("bad.csv", "nonsense\n")
        self.cases(HOLDS, name="good.csv")
        for given in ["cases.csv"], ["good.csv", "no.csv"], ["good.csv", "bad.csv"]:
            for words in ["-o", "old"], ["-o", "new", "--report", "old"]:
                with self.subTest(given=given, words=words):
                    self.file("old", "old")
                    run = self.check(*given, *words)
                    self.assertEqual(run.status, 2)
                    self.assertIn("railbow: old: stays as it was, for the answer is not complete\n", run.err)
                    self.assertEqual(self.read("old"), "old")

    def test_a_new_file_says_what_it_lacks_with_the_exit_status(self):
        self.cases(HOLDS, {"od [in]": "0"})
        self.assertRun(self.check("cases.csv", "-o", "new"), 2, "cases.csv:3: od: '0' is out of range: must be above 0")
        self.assertEqual(self.read("new"), self.check().out)

    def test_a_complete_answer_replaces(self):
        self.cases(HOLDS, SHORT)
        self.file("old", "old")
        self.assertRun(self.check("cases.csv", "-o", "old"), 1)
        self.assertEqual(self.read("old"), self.check().out)

    def test_of_the_shop(self):
        shop = self.installed.source / "cases"
        self.file("readings.csv", (shop / "readings.csv").read_text() + "x,y,odd,0,0\n")
        self.file("old", "old")
        run = self.run_program("inspect", "--spec", shop / "spec.csv", "readings.csv", "-o", "old")
        self.assertIn("old: stays as it was", run.err)
        self.assertEqual((self.read("old"), run.status), ("old", 2))


class Limits(ProgramTest):
    """A signal of the system ends the run and leaves nothing half."""

    def stopped_by(self, number, words, preexec):
        self.file("old.csv", "old")
        self.cases(*[HOLDS] * 100)
        run = self.run_program(*words, preexec_fn=preexec)
        self.assertEqual(run.status, -number)
        self.assertEqual((self.read("old.csv"), self.listing()), ("old", ["cases.csv", "old.csv"]))

    def test_a_file_that_may_not_grow(self):
        def little_room():
            signal.signal(signal.SIGXFSZ, signal.SIG_DFL)
            resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096))

        self.stopped_by(signal.SIGXFSZ, ["check", "cases.csv", "-o", "old.csv"], little_room)

    def test_quit_and_processor_time(self):
        for number in signal.SIGQUIT, signal.SIGXCPU:
            with self.subTest(signal=number):
                self.file("old.csv", "old")

                def no_core(number=number):
                    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
                    signal.signal(number, signal.SIG_DFL)

                process = self.start("check", "-", "-o", "old.csv", stdin=subprocess.PIPE, preexec_fn=no_core)
                process.stdin.write(f"{HEADER}\n{ROW}\n".encode())
                process.stdin.flush()
                while len(self.listing()) < 2:
                    pass
                process.send_signal(number)
                self.assertEqual(process.wait(20), -number)
                self.assertEqual((self.listing(), self.read("old.csv")), (["old.csv"], "old"))

    def test_new_leaves_nothing_behind(self):
        def no_room(disposition):
            def limit():
                signal.signal(signal.SIGXFSZ, disposition)
                resource.setrlimit(resource.RLIMIT_FSIZE, (64, 64))
            return limit

        run = self.run_program("new", "frame.csv", preexec_fn=no_room(signal.SIG_IGN))
        self.assertRun(run, 2, "frame.csv: cannot write: File too large", "")
        self.assertEqual(self.listing(), [])
        self.assertEqual(self.run_program("new", "frame.csv", preexec_fn=no_room(signal.SIG_DFL)).status, -signal.SIGXFSZ)
        self.assertEqual(self.listing(), [])


class Dash(ProgramTest):
    """- is stdout for every output."""

    def test_the_page(self):
        self.cases(HOLDS)
        run = self.check("cases.csv", "-o", "answer.csv", "--report", "-")
        self.assertEqual((run.status, run.err), (0, ""))
        self.assertTrue(run.out.startswith("<!DOCTYPE html>"))
        self.check("cases.csv", "--report", "page.html")
        self.assertIn("</html>", run.out)
        self.assertEqual(self.read("answer.csv"), self.check().out)
        self.assertEqual(self.listing(), ["answer.csv", "cases.csv", "page.html"])

    def test_both(self):
        self.cases(HOLDS)
        for words in [], ["-o", "-"]:
            self.assertRun(self.check("cases.csv", *words, "--report", "-"), 2,
                           "--report: the page and the answer cannot both go to stdout: name a file for the answer "
                           "with -o", "")
        self.assertEqual(self.listing(), ["cases.csv"])


if __name__ == "__main__":
    run_tests()
