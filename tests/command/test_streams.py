"""Inputs and outputs of the program: several files, standard input, -o, full devices, closed pipes, signals,
terminals."""

import os
import pty
import resource
import select
import signal
import stat
import subprocess
import time

from program import (HEADER, HOLDS, RESULT_COLUMNS, ROW, SANITIZED, SHORT, ProgramTest, environment, run_tests,
                     table)

FULL = "cannot write: No space left on device"
OTHER_USER = {"user": 65534} if os.geteuid() == 0 else {}


class Input(ProgramTest):
    def test_standard_input(self):
        self.cases(HOLDS, {"od [in]": "0"})
        run, file = self.check("-", stdin=self.read("cases.csv")), self.check()
        self.assertEqual(run.out, file.out)
        self.assertRun(run, 2, "stdin:3: od: '0' is out of range: must be above 0")
        self.assertRun(self.check("-"), 2, "stdin: has no header row")

    def test_standard_input_piece_by_piece(self):
        process = self.start("check", "-", stdin=subprocess.PIPE)
        for byte in f"\ufeff{HEADER}\r\n{ROW}\r\n".encode():
            process.stdin.write(bytes([byte]))
            process.stdin.flush()
        out, err = process.communicate()
        self.assertEqual((out.decode(), err), (self.check("-", stdin=f"{HEADER}\n{ROW}\n").out, b""))

    def test_an_answer_before_the_next_row(self):
        process = self.start("check", "-", "--jobs", "2", stdin=subprocess.PIPE)
        process.stdin.write(f"{HEADER}\n".encode())
        for wanted in RESULT_COLUMNS[0], *[ROW.split(",")[0]] * 3:
            if wanted != RESULT_COLUMNS[0]:
                process.stdin.write(f"{ROW}\n".encode())
            process.stdin.flush()
            self.assertTrue(select.select([process.stdout], [], [], 60)[0], "no answer while the pipe stays open")
            self.assertTrue(process.stdout.readline().decode().startswith(wanted))
        self.assertEqual(process.communicate(), (b"", b""))

    def test_no_standard_input(self):
        run = self.check("-", stdin=None, preexec_fn=lambda: os.close(0))
        self.assertRun(run, 2, "stdin: cannot read: Bad file descriptor")

    def test_several_files_are_answered_in_turn_each_with_its_own_header(self):
        self.cases({"case": "a", **HOLDS}, name="a.csv")
        self.file("b.csv", "length [ft],wall [mm],od [cm],material,case,factor\n2,1.5,3,4130,b,2\n")
        run = self.check("a.csv", "b.csv", "a.csv")
        self.assertRun(run, 0)
        self.assertEqual(run.names, ["a", "b", "a"])
        self.assertEqual(run.out.count(RESULT_COLUMNS), 1)
        self.assertEqual(len(self.check("a.csv", "b.csv", "--format", "json").json["rows"]), 2)

    def test_a_file_at_fault_does_not_stop_the_others(self):
        self.cases({"case": "a", **SHORT}, name="a.csv")
        self.file("b.csv", "nonsense\n")
        run = self.check("no.csv", "a.csv", "b.csv", "a.csv")
        self.assertEqual((run.names, run.status), (["a", "a"], 2))
        self.assertTrue(run.err.startswith("railbow: no.csv: cannot read: "))


class Output(ProgramTest):
    """-o FILE: the file is complete or unchanged."""

    def setUp(self):
        super().setUp()
        self.cases(HOLDS)
        self.want = self.check().out

    def test_a_new_file(self):
        old = os.umask(0o027)
        try:
            self.assertRun(self.check("cases.csv", "-o", "new.csv"), 0, out="")
        finally:
            os.umask(old)
        self.assertEqual(self.read("new.csv"), self.want)
        self.assertEqual(stat.S_IMODE((self.folder / "new.csv").stat().st_mode), 0o640)
        self.assertEqual(self.listing(), ["cases.csv", "new.csv"])

    def test_an_old_file_keeps_its_mode(self):
        self.file("old.csv", "old, and longer than the new one\n" * 999).chmod(0o604)
        self.assertRun(self.check("cases.csv", "--output", "old.csv"), 0, out="")
        self.assertEqual(self.read("old.csv"), self.want)
        self.assertEqual(stat.S_IMODE((self.folder / "old.csv").stat().st_mode), 0o604)

    def test_other_commands_and_formats(self):
        for words in (["section", "1x0.05"], ["check", "cases.csv", "--format", "json"],
                      ["check", "cases.csv", "--format", "text"]):
            self.assertRun(self.run_program(*words, "-o", "x"), 0, out="")
            self.assertEqual(self.read("x"), self.run_program(*words).out)

    def test_links_are_followed(self):
        (self.folder / "deep").mkdir()
        self.file("deep/real.csv", "old")
        for link, target in ("link.csv", "deep/real.csv"), ("dangling.csv", "deep/new.csv"):
            (self.folder / link).symlink_to(target)
            self.assertRun(self.check("cases.csv", "-o", link), 0)
            self.assertTrue((self.folder / link).is_symlink(), link)
            self.assertEqual(self.read(target), self.want)
        self.assertEqual(self.listing(), ["cases.csv", "dangling.csv", "deep", "link.csv"])

    def test_a_case_that_is_short_or_bad_is_no_reason_to_hold_a_new_file_back(self):
        self.cases(HOLDS, SHORT, {"od [in]": "0"})
        self.assertEqual(self.check("cases.csv", "-o", "x.csv").status, 2)
        self.assertEqual(self.read("x.csv"), self.check().out)

    def test_targets_that_cannot_be_written(self):
        (self.folder / "folder").mkdir()
        for target, why in (("folder", "Is a directory"), (".", "Is a directory"),
                            ("no/x.csv", "No such file or directory"), ("", "No such file or directory"),
                            ("cases.csv/x", "Not a directory")):
            with self.subTest(target=target):
                self.assertRun(self.check("cases.csv", "-o", target), 2, f"{target}: cannot write: {why}", "")
                self.assertEqual(self.listing(), ["cases.csv", "folder"])

    def test_a_folder_or_a_file_without_leave_to_write(self):
        (self.folder / "kept").mkdir()
        self.file("kept/old.csv", "old").chmod(0o666)
        (self.folder / "kept").chmod(0o555)
        self.addCleanup((self.folder / "kept").chmod, 0o755)
        self.file("locked.csv", "old").chmod(0o444)
        for target in "kept/old.csv", "kept/new.csv", "locked.csv":
            with self.subTest(target=target):
                run = self.check("cases.csv", "-o", target, **OTHER_USER)
                self.assertRun(run, 2, f"{target}: cannot write: Permission denied", "")
        self.assertEqual((self.read("kept/old.csv"), self.read("locked.csv")), ("old", "old"))

    def test_a_write_that_fails_leaves_the_old_file(self):
        def little_room():
            signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
            resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096))

        self.cases(*[HOLDS] * 100)
        self.file("old.csv", "old")
        run = self.check("cases.csv", "-o", "old.csv", preexec_fn=little_room)
        self.assertRun(run, 2, "old.csv: cannot write: File too large", "")
        self.assertEqual((self.read("old.csv"), self.listing()), ("old", ["cases.csv", "old.csv"]))

    def test_an_input_that_cannot_be_read_leaves_the_old_file(self):
        self.file("bad.csv", "nonsense\n")
        for given in "no.csv", "bad.csv":
            with self.subTest(given=given):
                self.file("old.csv", "old")
                self.assertEqual(self.check(given, "-o", "old.csv").status, 2)
                self.assertEqual(self.read("old.csv"), "old")

    def test_messages_never_land_in_the_file(self):
        self.cases(HOLDS, {"od [in]": "0"})
        for closed in (2,), (0, 1, 2):
            self.check("cases.csv", "-o", "x.csv", preexec_fn=lambda: [os.close(n) for n in closed])
            self.assertEqual(self.read("x.csv"), self.want)
            (self.folder / "x.csv").unlink()


class Failing(ProgramTest):
    COMMANDS = [["check", "cases.csv"], ["check", "cases.csv", "--format", "json"],
                ["check", "cases.csv", "--format", "text"], ["section", "1x0.05"], ["columns"], ["help"],
                ["help", "check"], ["check", "--help"]]

    def test_a_full_device(self):
        self.cases(HOLDS)
        with open("/dev/full", "wb") as full:
            for words in self.COMMANDS:
                with self.subTest(words=words):
                    self.assertRun(self.run_program(*words, stdout=full), 2, f"stdout: {FULL}")
            self.assertEqual(self.run_program("--version", stdout=full).status, 2)
        for words in self.COMMANDS[:4]:
            with self.subTest(words=words):
                self.assertRun(self.run_program(*words, "-o", "/dev/full"), 2, f"/dev/full: {FULL}", "")

    def test_a_full_device_under_the_other_commands(self):
        for words in self.other_commands():
            with self.subTest(words=words), open("/dev/full", "wb") as full:
                self.assertRun(self.run_program(*words, stdout=full), 2, f"stdout: {FULL}")
                self.assertRun(self.run_program(*words, "-o", "/dev/full"), 2, f"/dev/full: {FULL}", "")
        for words in (["check", "bowed.csv"], *self.other_commands()[:5]):
            with self.subTest(words=words):
                run = self.run_program(*words, "--report", "/dev/full")
                self.assertEqual(run.status, 2)
                self.assertIn(f"/dev/full: {FULL}", run.err)

    def test_no_standard_output(self):
        self.cases(HOLDS)
        for words in self.COMMANDS:
            with self.subTest(words=words):
                run = self.run_program(*words, stdout=subprocess.DEVNULL, preexec_fn=lambda: os.close(1))
                self.assertRun(run, 2, "stdout: cannot write: Bad file descriptor")

    def test_a_pipe_that_closes_early(self):
        self.cases(*[HOLDS] * 3000)
        for form in "csv", "json", "text":
            with self.subTest(form=form):
                process = self.start("check", "cases.csv", "--format", form)
                process.stdout.close()
                self.assertEqual(process.stderr.read(), b"railbow: stdout: cannot write: Broken pipe\n")
                self.assertEqual(process.wait(), 2)


class Signals(ProgramTest):
    """While the program waits for more standard input, a draft is beside the file that -o names."""

    def drafts(self):
        """The drafts that are complete: their mode, that of the old file, is set last."""
        return [path for path in self.folder.glob("old.csv.*") if stat.S_IMODE(path.stat().st_mode) == 0o644]

    def waiting(self, **more):
        self.file("old.csv", "old").chmod(0o644)
        process = self.start("check", "-", "-o", "old.csv", stdin=subprocess.PIPE, **more)
        process.stdin.write(f"{HEADER}\n{ROW}\n".encode())
        process.stdin.flush()
        end = time.monotonic() + 20
        while not self.drafts() and time.monotonic() < end:
            time.sleep(0.01)
        self.assertEqual(len(self.drafts()), 1)
        return process

    def test_stopped(self):
        for number in signal.SIGTERM, signal.SIGINT, signal.SIGHUP:
            with self.subTest(signal=number):
                process = self.waiting(preexec_fn=lambda: signal.signal(signal.SIGINT, signal.default_int_handler))
                process.send_signal(number)
                self.assertEqual(process.wait(20), -number)
                self.assertEqual((self.listing(), self.read("old.csv")), (["old.csv"], "old"))

    def test_what_was_ignored_stays_ignored(self):
        # so that a run put in the background survives the terminal's end
        for number in signal.SIGHUP, signal.SIGINT:
            with self.subTest(signal=number):
                process = self.waiting(preexec_fn=lambda: signal.signal(number, signal.SIG_IGN))
                process.send_signal(number)
                time.sleep(0.1)
                self.assertIsNone(process.poll())
                process.communicate(ROW.encode())
                self.assertEqual((process.returncode, self.read("old.csv").count("\n")), (0, 3))


class Terminal(ProgramTest):
    def on_terminal(self, *words, **variables):
        master, slave = pty.openpty()
        process = self.start("check", "cases.csv", *words, stdout=slave, env=environment(**variables))
        os.close(slave)
        shown = b""
        try:
            while piece := os.read(master, 4096):
                shown += piece
        except OSError:  # how Linux says that the other side is gone
            pass
        os.close(master)
        self.assertEqual((process.stderr.read(), process.wait(20)), (b"", 1))
        return shown.decode().replace("\r\n", "\n")

    def setUp(self):
        super().setUp()
        self.cases(HOLDS, SHORT)
        self.plain = self.check("cases.csv", "--format", "text").out

    def test_not_on_a_terminal(self):
        self.assertTrue(self.check().out.startswith(RESULT_COLUMNS + "\n"))
        self.assertNotIn("\033", self.plain)

    def test_text_and_colour(self):
        shown = self.on_terminal()
        self.assertIn("\033[", shown)
        for code in "\033[32m", "\033[1;31m", "\033[0m", "\033[2m":
            shown = shown.replace(code, "")
        self.assertEqual(shown, self.plain)
        self.assertIn("\033[", self.on_terminal(NO_COLOR="", TERM=None))

    def test_no_colour(self):
        for variables in ({"NO_COLOR": "1"}, {"TERM": "dumb"}):
            self.assertEqual(self.on_terminal(**variables), self.plain)

    def test_a_format_named_counts(self):
        self.assertEqual(self.on_terminal("--format", "csv"), self.check().out)
        self.assertEqual(self.on_terminal("--format", "json"), self.check("cases.csv", "--format", "json").out)

    def test_a_file_gets_no_colour_and_is_csv(self):
        self.assertEqual(self.on_terminal("-o", "x"), "")
        self.assertEqual(self.read("x"), self.check().out)
        self.on_terminal("-o", "x", "--format", "text")
        self.assertEqual(self.read("x"), self.plain)


class Size(ProgramTest):
    ROWS = 200_000

    def test_memory_does_not_grow_with_the_file(self):
        if SANITIZED:
            self.skipTest("a sanitizer needs memory of its own")
        with open(self.folder / "cases.csv", "w", encoding="ascii") as file:
            file.write(table(HOLDS).split("\n")[0] + "\n")
            for i in range(self.ROWS):
                file.write(f"rail {i},1.25,0.058,4130,{20 + i % 30},{1000 + i % 977}\n")
        self.assertLess(self.peak("check", "cases.csv"), 64 * 1024)

    def peak(self, *words):
        """KiB of a run that answers everything."""
        process = self.start(*words, stdout=subprocess.DEVNULL)
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        self.assertIn(process.returncode, (0, 1))
        return used.ru_maxrss

    def test_memory_does_not_grow_with_what_a_row_becomes(self):
        if SANITIZED:
            self.skipTest("a sanitizer needs memory of its own")
        self.cases(*[{**HOLDS, "bow [in]": "0.02"}] * 2)
        few = self.peak("sweep", "cases.csv", "--vary", "bow=0:0.1:0.01")
        for step in "0.0001", "0.00002":  # 1001 and 5001 values a row, by either way
            self.assertLess(self.peak("sweep", "cases.csv", "--vary", f"bow=0:0.1:{step}", "--jobs", "2"), few + 6 * 1024)
        shop = self.installed.source / "cases" / "horns.csv"
        lines = shop.read_text().splitlines()
        first = next(i for i, line in enumerate(lines) if not line.startswith("#"))
        self.file("horns.csv", "\n".join(lines[first:first + 1] + lines[first + 1:first + 2] * 20) + "\n")
        self.assertLess(self.peak("pull", "horns.csv", "--steps", "1000"), self.peak("pull", "horns.csv") + 6 * 1024)

    def test_rows_with_many_answers_are_the_same_for_any_number_of_threads(self):
        self.cases({"case": "a", **HOLDS, "bow [in]": "0.02"}, {"case": "b", **SHORT, "bow [in]": "0.02"}, {"od [in]": "0"},
                   {"case": "c", **HOLDS, "bow [in]": "0.02"})
        for vary, form in ("bow=0:2:0.01", "csv"), ("bow=0:20:0.004", "json"):  # past the reach of the model, too
            runs = [self.run_program("sweep", "cases.csv", "--vary", vary, "--format", form, "--jobs", jobs) for jobs in (1, 2, 7)]
            self.assertEqual(runs[0].status, 2)
            self.assertTrue(runs[0] == runs[1] == runs[2], (vary, form))
            self.assertEqual(runs[0].err.count("bow: gives a slope"), 3)
        self.assertEqual(len({row["case"] for row in runs[0].json["rows"]}), 3)

    def test_a_pipe_that_closes_in_the_middle_of_a_row(self):
        self.cases({**HOLDS, "bow [in]": "0.02"})
        process = self.start("sweep", "cases.csv", "--vary", "bow=0:0.1:0.00001")
        process.stdout.read(1000)
        process.stdout.close()
        self.assertEqual(process.stderr.read(), b"railbow: stdout: cannot write: Broken pipe\n")
        self.assertEqual(process.wait(20), 2)


if __name__ == "__main__":
    run_tests()
