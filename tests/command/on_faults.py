"""When the machine refuses: no memory, no room, files that change or never end, and two writers at once. The answer
is whole, or there is a message and status 2; a file that -o names is the old one or a whole new one."""

import os
import resource
import signal
import subprocess
import threading
import time

from program import HEADER, HOLDS, ROW, SANITIZED, ProgramTest, environment

REFUSE = os.environ.get("RAILBOW_REFUSE_MEMORY", "")
MEMORY_MOST = 64 * 1024  # KiB


class Memory(ProgramTest):
    """Every allocation of a run refused in turn: once, and from there on."""

    def setUp(self):
        super().setUp()
        if SANITIZED or not REFUSE:
            self.skipTest("the sanitizer brings its own allocator")

    def refused(self, at, count, *words):
        changes = {"LD_PRELOAD": REFUSE, "REFUSE_AT": str(at), "REFUSE_COUNT": str(count), "REFUSE_TELL": "asked"}
        return self.run_program(*words, env=environment(**changes))

    def allocations(self, *words):
        self.refused(0, 0, *words)
        return int(self.read("asked"))

    def every(self, *words, status=0, most=400):
        """All allocations of a run, or `most` of them evenly; each with the run that lost it."""
        whole, number = self.run_program(*words), self.allocations(*words)
        self.assertEqual(whole.status, status)
        self.assertGreater(number, 2)
        for at in range(1, number + 1, max(1, number // most)):
            for count in 1, 0:
                with self.subTest(words=words, at=at, count=count):
                    yield whole, self.refused(at, count, *words)

    def whole_or_said(self, whole, run):
        if run.status == whole.status != 2:
            self.assertEqual((run.out, run.err), (whole.out, whole.err))
        if (run.status, run.out, run.err) == (whole.status, whole.out, whole.err):
            return
        self.assertEqual(run.status, 2)
        self.assertTrue(run.err.startswith("railbow: ") and run.err.endswith("\n"), run.err)
        said = run.out.removesuffix("]}\n")  # JSON is closed where it can be
        self.assertEqual(whole.out[:len(said)], said)  # what came out is right as far as it goes

    def test_check_in_every_format(self):
        self.cases(HOLDS, {**HOLDS, "note": "a, b", "bow [in]": "0.02"})
        for form in "csv", "json", "text":
            for whole, run in self.every("check", "cases.csv", "--jobs", "1", "--format", form):
                self.whole_or_said(whole, run)

    def test_messages_on_bad_rows(self):
        self.cases(HOLDS, {"od [in]": "1 1/4"}, {"wall [in]": "9"}, {"material": "4131"})
        for whole, run in self.every("check", "cases.csv", "--jobs", "1", status=2, most=150):
            self.assertEqual(run.status, 2)
            self.assertTrue(run.err.startswith("railbow: ") and run.err.endswith("\n"), run.err)

    def test_the_other_commands(self):
        for words in (["section", "1x0.05", "1.25x0.058"], ["section", "--ods", "1,2", "--walls", "0.05,0.1"], ["columns"],
                      ["help", "check"], ["new", "-", "--all"]):
            for whole, run in self.every(*words, most=100):
                self.whole_or_said(whole, run)

    def test_the_studies_and_the_shop(self):
        for words in self.other_commands():
            for whole, run in self.every(*words, status=self.run_program(*words).status, most=30):
                self.whole_or_said(whole, run)

    def test_a_page_is_old_or_whole(self):
        self.cases({**HOLDS, "bow [in]": "0.02"})
        words = "check", "cases.csv", "--jobs", "1", "--report", "page.html"
        self.run_program(*words)
        want = self.read("page.html")
        for _, run in self.every(*words, most=60):
            self.assertIn(run.status, (0, 2))
            page = self.read("page.html")
            if run.status == 0 or "Not everything could be read" not in page:
                self.assertIn(page, [want] if run.status == 0 else ["old", want])
            self.file("page.html", "old")

    def test_explain(self):
        self.cases({**HOLDS, "bow [in]": "0.02", "note": "a"}, {"case": "other"})
        for words, status in (["rail"], 0), (["rail", "--format", "json"], 0):
            for whole, run in self.every("explain", "cases.csv", *words, status=status, most=60):
                self.whole_or_said(whole, run)
        for name in "nobody", "othe":
            for _, run in self.every("explain", "cases.csv", name, status=2, most=60):
                self.assertEqual((run.out, run.status), ("", 2))
                self.assertTrue(run.err.startswith("railbow: ") and run.err.endswith("\n"), run.err)

    def test_a_file_is_old_or_whole(self):
        self.cases(*[HOLDS] * 100)  # several chunks
        want = self.check("cases.csv", "--jobs", "1").out
        for _, run in self.every("check", "cases.csv", "--jobs", "1", "-o", "out.csv", most=150):
            self.assertIn(run.status, (0, 2))
            self.assertEqual(self.read("out.csv"), want if run.status == 0 else "old")
            self.assertEqual(self.listing(), ["asked", "cases.csv", "out.csv"])
            self.file("out.csv", "old")


class Numbers(ProgramTest):
    def test_a_measure_that_its_unit_makes_infinite(self):
        for words in (["section", "1e308ftx1"], ["section", "--ods", "1e308ft", "--walls", "0.1"]):
            run = self.run_program(*words)
            self.assertEqual((run.status, run.out), (2, ""))
            self.assertIn("1e308ft", run.err)


class Files(ProgramTest):
    def test_a_folder_as_input(self):
        (self.folder / "folder").mkdir()
        self.assertRun(self.check("folder"), 2, "folder: cannot read: Is a directory")
        self.cases(HOLDS)
        run = self.check("folder", "cases.csv")
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

    def test_the_input_is_the_output(self):
        self.cases(HOLDS)
        want = self.check().out
        self.assertRun(self.check("cases.csv", "-o", "cases.csv"), 0, out="")
        self.assertEqual(self.read("cases.csv"), want)


class Endless(ProgramTest):
    """Inputs that no memory could hold end soon, with a message, in little memory."""

    def bounded(self, *words, seconds, **more):
        def little_memory():
            if not SANITIZED:
                resource.setrlimit(resource.RLIMIT_AS, (1 << 30, 1 << 30))

        process = self.start(*words, preexec_fn=little_memory, **more)
        killer = threading.Timer(seconds, process.kill)
        killer.start()
        out, err = process.stdout.read(), process.stderr.read()
        _, status, used = os.wait4(process.pid, 0)
        killer.cancel()
        process.returncode = os.waitstatus_to_exitcode(status)
        if not SANITIZED:
            self.assertLess(used.ru_maxrss, MEMORY_MOST)
        return out, err, process.returncode

    def test_ten_gigabytes_of_nothing(self):
        for before in "", f"{HEADER}\n", f"{HEADER}\n{ROW}\n":
            with self.subTest(before=before):
                self.file("sparse.csv", before)
                os.truncate(self.folder / "sparse.csv", 10 << 30)
                out, err, status = self.bounded("check", "sparse.csv", "--jobs", "1", seconds=240)  # others may be at work too
                self.assertEqual(status, 2)
                self.assertLess(len(err), 1000)
                self.assertTrue(err.startswith(b"railbow: sparse.csv:"), err)
                self.assertEqual(out.count(b"rail,"), before.count("rail,"))

    def test_a_line_without_end(self):
        for begin, cell in ("", b"x"), (f"{HEADER}\n", b"x"), (f"{HEADER}\n", b"x,"), (f"{HEADER}\nrail,\"", b"x"):
            with self.subTest(begin=begin, cell=cell):
                path = self.file("long.csv", begin)
                with open(path, "ab") as file:
                    for _ in range(100):
                        file.write((cell * (1 << 20))[:1 << 20])
                    file.write(f"\n{ROW}\n".encode())
                _, err, status = self.bounded("check", "long.csv", "--jobs", "1", seconds=120)
                self.assertEqual(status, 2)
                self.assertTrue(err.startswith(b"railbow: long.csv:"), err[:200])
                self.assertLess(len(err.splitlines()[0]), 400)
