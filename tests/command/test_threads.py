"""Threads that cannot be had, and settings of thread libraries: the answer is the same."""

import os
import resource

from program import HOLDS, SANITIZED, SHORT, ProgramTest, environment, run_tests

OTHER_USER = {"user": 65534} if os.geteuid() == 0 else {}


class Threads(ProgramTest):
    def setUp(self):
        super().setUp()
        if SANITIZED:
            self.skipTest("a sanitizer has threads and memory of its own")
        self.cases(*[HOLDS] * 40, SHORT)
        self.file("t.csv", "column,minus,plus,unit\nwall,10,10,%\n")
        self.commands = [["check", "cases.csv"], ["sweep", "cases.csv", "--vary", "length=20:40:5"],
                         ["limit", "cases.csv", "--find", "compression", "--to", "40000lbf"],
                         ["scatter", "cases.csv", "--tolerances", "t.csv", "--samples", "64"]]
        self.want = [self.run_program(*words, "--jobs", "1") for words in self.commands]

    def assertSame(self, jobs, **more):
        for words, want in zip(self.commands, self.want):
            with self.subTest(words=words):
                self.assertEqual(self.run_program(*words, "--jobs", jobs, **more), want)

    def test_more_threads(self):
        self.assertSame("4")
        self.assertSame("1024")

    def test_no_thread_to_be_had(self):
        if os.geteuid() == 0 and not OTHER_USER:
            self.skipTest("the limit does not hold for root")

        def no_more():
            resource.setrlimit(resource.RLIMIT_NPROC, (0, 0))

        self.assertSame("4", preexec_fn=no_more, **OTHER_USER)

    def test_no_room_for_their_stacks(self):
        def little():
            resource.setrlimit(resource.RLIMIT_AS, (48 * 1024 * 1024, 48 * 1024 * 1024))

        self.assertSame("64", preexec_fn=little)

    def test_small_stacks_of_others(self):
        for variables in ({"OMP_STACKSIZE": "4k"}, {"OMP_NUM_THREADS": "64", "OMP_THREAD_LIMIT": "1"}):
            self.assertSame("4", env=environment(**variables))

        def small_stack():
            resource.setrlimit(resource.RLIMIT_STACK, (192 * 1024, 192 * 1024))

        self.assertSame("4", preexec_fn=small_stack)


if __name__ == "__main__":
    run_tests()
