"""Shared by the tests of refused memory: each allocation of a run is refused in turn."""

import os
import re

from program import SANITIZED, ProgramTest, environment

REFUSE = os.environ.get("RAILBOW_REFUSE_MEMORY", "")


class MemoryTest(ProgramTest):
    """Each allocation of a run is refused in turn: alone, and together with all later ones."""

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
        """All allocations of a run, or `most` of them evenly spaced; each with the run in which it was refused."""
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
        self.assertNotIn("converge", run.err)  # memory is what ran out
        said = re.sub(r'\],"refused":\d+\}\n$', "", run.out)  # JSON is closed where it can be
        self.assertEqual(whole.out[:len(said)], said)  # what came out is right as far as it goes
