"""A batch beyond one machine: GNU parallel spreads rows and samples, and the joined answer is that of one run byte for byte.

The lines are those of the manual page, and they stand in src/document/manual.c. With --sshlogin the same lines spread over machines."""

import shutil
import subprocess

from frame import FrameTest
from program import environment, run_tests

HEAD_ONCE = "awk 'NR == 1 { head = $0; print } $0 != head'"


class Spread(FrameTest):
    def setUp(self):
        super().setUp()
        if shutil.which("parallel") is None:
            self.skipTest("GNU parallel is not installed (Debian package parallel)")

    def spread(self, line):
        """What a shell line of the manual page writes."""
        home = {"HOME": str(self.folder), "PARALLEL_HOME": str(self.folder / ".parallel"), "RAILBOW": str(self.installed.program)}
        run = subprocess.run(["sh", "-c", line], cwd=self.folder, env=environment(**home), stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                             stderr=subprocess.PIPE, timeout=100, check=False)
        return run.stdout.decode(), run.stderr.decode()

    def test_the_lines_stand_in_the_manual(self):
        manual = (self.installed.source / "src" / "document" / "manual.c").read_text(encoding="utf-8")
        for words in ("parallel --pipe --header 1 -N 5000 --keep-order", "railbow check - --format csv <", HEAD_ONCE,
                      "parallel --keep-order railbow scatter", "--samples '{}' ::: 1:"):
            self.assertIn(words, manual)

    def test_rows(self):
        rows = [{"case": f"c {i}, \u00fc", "compression [lbf]": str(100 * i), "bow [in]": str(0.001 * (i % 7))} for i in range(1, 61)]
        self.cases(*rows)
        want = self.run_program("check", "cases.csv", "--format", "csv")
        self.assertEqual(want.err, "")
        self.assertEqual(len(want.out.splitlines()), 61)
        for rows_each in 1, 7, 100:
            got, said = self.spread(f"parallel --pipe --header 1 -N {rows_each} --keep-order \"$RAILBOW\" check - --format csv <cases.csv | {HEAD_ONCE}")
            self.assertEqual((got, said), (want.out, ""))

    def test_samples_of_a_frame(self):
        frame = self.installed.source / "cases" / "portal"
        self.file("tolerances.csv", "column,minus,plus,unit\nwall,5,5,%\n")
        words = ["scatter", frame, "--tolerances", "tolerances.csv", "--of", "samples", "--format", "csv"]
        want = self.run_program(*words, "--samples", "24")
        self.assertEqual(len(want.out.splitlines()), 25, want.err)
        line = " ".join(map(str, words))
        got, said = self.spread(f"parallel --keep-order \"$RAILBOW\" {line} --samples '{{}}' ::: 1:7 8:8 9:24 | {HEAD_ONCE}")
        self.assertEqual((got, said), (want.out, ""))


if __name__ == "__main__":
    run_tests()
