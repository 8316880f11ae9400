"""Details, lives, readings and plans when memory is refused: the answer is the whole one, or there is a message and status 2."""

from memory import MemoryTest
from program import HOLDS, run_tests

CASE = {**HOLDS, "end_a": "welded", "end_b": "welded", "bow [in]": "0.02", "weld_zone [in]": "1"}
DETAILS = """case,detail,kind,at [in],hole [in],sleeve_od [in],sleeve_wall [in],overlap [in]
rail,line hole,hole,12,0.25,,,
rail,ring,ring weld,a,,,,
rail,splice,sleeve,18,,1.125,0.058,2
"""
FRAME_DETAILS = """tube,detail,kind,at [in],hole [in]
beam,ring,ring weld,a,
beam,line hole,hole,8,0.25
"""
FRAME = {
    "joints.csv": "joint,x [in],y [in],z [in],held\na,0,0,0,fixed\nb,0,0,20,\nc,30,0,20,fixed\n",
    "tubes.csv": "tube,from,to,od [in],wall [in],material\nmast,a,b,1.25,0.058,4130\nbeam,b,c,1.25,0.058,4130\n",
    "loads.csv": "run,joint,force_x [lbf],force_z [lbf]\ndown,b,100,-500\n",
}


class MemoryOfDetails(MemoryTest):
    def setUp(self):
        super().setUp()
        self.cases(CASE)
        self.file("details.csv", DETAILS)

    def frame(self):
        (self.folder / "frame").mkdir()
        for name, table in {**FRAME, "details.csv": FRAME_DETAILS}.items():
            self.file(f"frame/{name}", table)

    def whole_or_said(self, whole, run):
        """Or a text that says first what was not checked, and why."""
        if run.status == 2 and run.out.startswith("NOT CHECKED: ") and run.err.startswith("railbow: "):
            return
        super().whole_or_said(whole, run)

    def all_whole_or_said(self, *words, most):
        words = words if words[0] == "explain" else (*words, "--jobs", "1")
        for whole, run in self.every(*words, status=self.run_program(*words).status, most=most):
            self.whole_or_said(whole, run)

    def pages(self, *words, most):
        """A page is the old one or the whole one."""
        words = *words, "--jobs", "1", "--report", "page.html"
        status = self.run_program(*words).status
        want = self.read("page.html")
        for whole, run in self.every(*words, status=status, most=most):
            self.whole_or_said(whole, run)
            page = self.read("page.html")
            if run.status == status or "Not everything could be read" not in page:
                self.assertTrue(page == want or (run.status == 2 and page == "old"), "a page that is neither old nor whole")
            self.file("page.html", "old")

    def test_check(self):
        for words in (["--format", "text"], ["--format", "csv"], ["--format", "json"], ["--of", "details", "--format", "csv"],
                      ["--of", "details", "--format", "json"], ["--format", "text", "--every"]):
            self.all_whole_or_said("check", "cases.csv", "--details", "details.csv", *words, most=60)

    def test_check_with_a_page(self):
        self.pages("check", "cases.csv", "--details", "details.csv", most=60)

    def test_explain(self):
        for words in ["--format", "text"], ["--format", "json"]:
            self.all_whole_or_said("explain", "cases.csv", "rail", "--details", "details.csv", *words, most=60)

    def test_studies(self):
        self.file("tolerances.csv", "column,minus,plus,unit,shape\nwall,10,10,%,normal\n")
        for words in (["compare", "--walls", "0.058,0.065"], ["sweep", "--vary", "length=20:40:20"], ["limit", "--find", "bow", "--to", "1in"],
                      ["scatter", "--tolerances", "tolerances.csv", "--samples", "32"]):
            for form in "text", "csv":
                self.all_whole_or_said(*words, "cases.csv", "--details", "details.csv", "--format", form, most=12)

    def test_life(self):
        self.cases({**CASE, "end_a": "fixed", "end_b": "fixed"})
        for form in "text", "csv", "json":
            self.all_whole_or_said("life", "cases.csv", "--details", "details.csv", "--format", form, most=10)

    def test_a_frame(self):
        self.frame()
        for words in (["--format", "text"], ["--format", "csv"], ["--format", "json"], ["--of", "details", "--format", "csv"]):
            self.all_whole_or_said("check", "frame", *words, most=50)
        self.pages("check", "frame", most=30)
        self.assertRun(self.run_program("explain", "frame", "beam", "down"), 0)
        self.all_whole_or_said("explain", "frame", "beam", "down", "--format", "text", most=30)

    def test_a_frame_decided(self):
        self.frame()
        for words in (["compare", "--walls", "0.049,0.058"], ["limit", "--tube", "beam", "--find", "wall", "--from", "0.1in", "--to", "0.03in"]):
            self.all_whole_or_said(*words, "frame", "--format", "csv", most=12)

    def test_sight_and_sticks(self):
        shop = self.installed.source / "cases"
        for form in "text", "csv", "json":
            for words in (["sight", shop / "sight.csv"], ["sticks", shop / "sticks_parts.csv", "--stock", shop / "sticks_stock.csv"]):
                for whole, run in self.every(*words, "--format", form, status=0, most=40):
                    self.whole_or_said(whole, run)


if __name__ == "__main__":
    run_tests()
