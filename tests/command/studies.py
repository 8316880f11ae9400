"""Shared by the tests of the studies."""

from program import CAUTION, ProgramTest, joined

BAD_WALL = "must be above 0 and at most half of od (a solid bar)"
THIN = "is too thin for this od: D/t may be at most 0.45 E/Fy (AISC 360-16 E7)"
LENGTHS = "in, ft, mm, cm or m"
# Everything that a study could get wrong at once: ends by name, a bow, a miss, a weld zone, side load.
RICH = {"end_a": "welded", "end_b": "fixed", "length [in]": "36", "compression [lbf]": "4200", "bow [in]": "0.06",
        "bow_clock": "40", "miss_a [in]": "0.1", "miss_a_clock": "0", "spread_load [lbf/in]": "4", "weld_zone [in]": "1"}
TOLERANCES = "column,minus,plus,unit,shape\nwall,10,10,%,normal\nbow,0.03,0.03,in,triangular\ncompression,10,15,%,\n"
HOSTILE = "a\033[31mb\rc\td\u009be" + "x" * 200


class StudyTest(ProgramTest):
    def study(self, words, *more, **how):
        """Runs `words` as typed; the file of cases is the last."""
        return self.run_program(*words.split(), "cases.csv", *more, **how)

    def text(self, words, *more):
        run = self.study(words, "--format", "text", *more)
        for line in run.out.splitlines():
            self.assertLessEqual(len(line), 80, line)
            self.assertEqual(line, line.rstrip())
        self.assertEqual([c for c in run.out if c != "\n" and (ord(c) < 32 or 127 <= ord(c) < 160)], [])
        for word in CAUTION:
            self.assertIn(word, joined(run.out), run)
        return run.out

    def near(self, got, want, rel=1e-8, within=1e-9):
        self.assertLessEqual(abs(float(got) - want), rel * abs(want) + within, (got, want))
