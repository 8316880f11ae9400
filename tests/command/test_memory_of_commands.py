"""The other commands when memory is refused: the result is complete, or there is a message and status 2."""

from frame import FILES, JOINTS, LOADS, TOO_MUCH, TUBES, changed, written
from memory import MemoryTest
from program import HOLDS, run_tests


class MemoryOfCommands(MemoryTest):
    def test_the_other_commands(self):
        for words in (["section", "1x0.05", "1.25x0.058"], ["section", "--ods", "1,2", "--walls", "0.05,0.1"], ["columns"],
                      ["help", "check"], ["new", "-", "--all"]):
            for whole, run in self.every(*words, most=100):
                self.whole_or_said(whole, run)

    def test_the_studies_and_the_shop(self):
        cut = ["cut", self.installed.source / "cases" / "portal", "--jobs", "1", "--tube", "beam", "--at", "9in"]
        readings = ["--moved", "0.1in", "--moved_clock", "0", "--opened", "0"]
        for words in [*self.other_commands(), [*cut, "--run", "sway"], [*cut, "--format", "text"], [*cut, *readings, "--format", "json"]]:
            for whole, run in self.every(*words, status=self.run_program(*words).status, most=30):
                self.whole_or_said(whole, run)

    def test_the_texts_and_pages_of_the_shop(self):
        shop = self.installed.source / "cases"
        sticks = ["sticks", shop / "sticks_parts.csv", "--stock", shop / "sticks_stock.csv"]
        for words in (["sight", shop / "sight.csv", "--format", "text", "--report", "page.html"], ["sight", shop / "sight.csv", "--format", "json"],
                      [*sticks, "--format", "text", "--report", "page.html"], [*sticks, "--format", "json"]):
            for whole, run in self.every(*words, most=40):
                self.whole_or_said(whole, run)

    def test_the_decisions_about_a_frame(self):
        frame = self.installed.source / "cases" / "portal"
        for words in (["compare", "--walls", "0.028,0.058"], ["sweep", "--tube", "beam", "--vary", "wall=0.035:0.065:0.015"],
                      ["limit", "--tube", "beam", "--find", "wall", "--from", "0.1in", "--to", "0.03in"]):
            words = [*words, frame, "--jobs", "1"]
            for whole, run in self.every(*words, "--format", "csv", status=self.run_program(*words).status, most=40):
                if words[0] == "sweep" and run.status == 2:  # a value is left out with a message, the others stay
                    self.assertTrue(run.err.startswith("railbow: "), run.err)
                    self.assertLessEqual(set(run.out.splitlines()), set(whole.out.splitlines()))
                else:
                    self.whole_or_said(whole, run)

    def test_the_advice_for_a_frame(self):
        self.file_frame()
        for words in (["--format", "text"], ["--format", "json"], ["--format", "csv", "--report", "page.html"]):
            for whole, run in self.every("check", "frame", "--jobs", "1", *words, status=1, most=40):
                self.whole_or_said(whole, run)

    def file_frame(self):
        """Two tubes, one of them short, with a miss."""
        (self.folder / "frame").mkdir()
        tubes = changed(TUBES, 1, cells={"miss_a [in]": "0.05", "miss_a_clock": "0"})
        for name, rows in zip(FILES, (JOINTS, tubes, [{**LOADS[0], "force_z [lbf]": f"-{TOO_MUCH}"}])):
            self.file(f"frame/{name}", written(rows))

    def test_a_page_of_lives(self):
        """Where the answer fails there is no page."""
        cases = self.installed.source / "cases"
        words = ["life", cases / "life.csv", "--details", cases / "life_details.csv", "--jobs", "1", "--format", "csv", "--report", "page.html"]
        for whole, run in self.every(*words, status=0, most=60):
            self.whole_or_said(whole, run)

    def test_lives_of_a_frame(self):
        self.run_program("new", "--frame", "frame")
        self.file("frame/details.csv", "tube,detail,kind,at [in],hole [in]\nrail LL,weld,ring weld,a,\nrail UL,hole,hole,10,0.2\n")
        for form in "text", "json":
            words = ["life", "frame", "--jobs", "1", "--format", form]
            for whole, run in self.every(*words, status=0, most=40):
                self.whole_or_said(whole, run)

    def test_explain(self):
        self.cases({**HOLDS, "bow [in]": "0.02", "note": "a"}, {"case": "other"})
        for words, status in (["rail"], 0), (["rail", "--format", "json"], 0):
            for whole, run in self.every("explain", "cases.csv", *words, status=status, most=60):
                self.whole_or_said(whole, run)
        for name in "nobody", "othe":
            for _, run in self.every("explain", "cases.csv", name, status=2, most=60):
                self.assertEqual((run.out, run.status), ("", 2))
                self.assertTrue(run.err.startswith("railbow: ") and run.err.endswith("\n"), run.err)

    def test_a_tube_and_an_arch_of_a_frame(self):
        portal = self.installed.source / "cases/portal"
        for words in (["explain", portal, "beam", "sway"], ["explain", portal, "beam", "sway", "--format", "json"],
                      ["check", portal, "--arch", "sway", "--of", "arch"]):
            for whole, run in self.every(*words, status=0, most=60):
                self.whole_or_said(whole, run)

    def test_the_tubes_of_a_frame(self):
        def rows(out):
            return {line.rstrip(",") for line in out.splitlines() if "4130" in line}

        portal = self.installed.source / "cases/portal"
        words = ["cases", portal, "--jobs", "1", "--report", "page.html", "--view", "30,20", "--format"]
        for form in "text", "csv", "json":
            for whole, run in self.every(*words, form, status=0, most=60):
                if run == whole:
                    continue
                self.assertEqual(run.status, 2)  # the tubes that are there are right, and something says that others are not
                self.assertTrue(run.err.startswith("railbow: ") and run.err.endswith("\n"), run.err)
                if form != "text":
                    self.assertLessEqual(rows(run.out), rows(whole.out))
                elif run.out not in ("", whole.out):  # only the page failed
                    self.assertIn("NOT CHECKED: ", run.out)


if __name__ == "__main__":
    run_tests()
