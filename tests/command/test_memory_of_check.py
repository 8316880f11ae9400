"""check when memory is refused: the result is complete, or there is a message and status 2."""

from memory import MemoryTest
from program import HOLDS, run_tests


class MemoryOfCheck(MemoryTest):
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

    def test_a_file_is_old_or_whole(self):
        self.cases(*[HOLDS] * 100)  # several chunks
        old = want = self.check("cases.csv", "--jobs", "1").out
        for _, run in self.every("check", "cases.csv", "--jobs", "1", "-o", "out.csv", most=150):
            self.assertIn(run.status, (0, 2))
            self.assertEqual(self.read("out.csv"), want if run.status == 0 else old)
            self.assertEqual(self.listing(), ["asked", "cases.csv", "out.csv"])
            old = "old"
            self.file("out.csv", old)


if __name__ == "__main__":
    run_tests()
