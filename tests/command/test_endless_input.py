"""Inputs that are too large for any memory."""

import os
import resource
import threading

from program import HEADER, ROW, SANITIZED, ProgramTest, run_tests

MEMORY_MOST = 64 * 1024  # KiB


class Endless(ProgramTest):
    """Inputs that are too large for any memory end soon, with a message, and use little memory."""

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

    def test_five_gigabytes_of_nothing(self):
        for before in "", f"{HEADER}\n", f"{HEADER}\n{ROW}\n":
            with self.subTest(before=before):
                self.file("sparse.csv", before)
                os.truncate(self.folder / "sparse.csv", 5 << 30)  # more than 32 bits count
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


if __name__ == "__main__":
    run_tests()
