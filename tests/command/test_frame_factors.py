#!/usr/bin/python3
"""Load factors of frames that a search can pass over: read back from the state at each factor, and from the same frame under scaled
loads. The frames were found by a hunt for wrong answers; each once had one."""

from frame import FrameTest
from program import run_tests

THIN = {"od [in]": "0.75", "wall [in]": "0.035", "material": "4130", "weld_zone [in]": "0"}
# A flat pair of pinned bars folds; a post beside it, which the fold does not touch, is hardly pushed.
HANGER = ([{"joint": "a", "x [in]": "0", "y [in]": "0", "z [in]": "0", "held": "fixed"},
           {"joint": "m", "x [in]": "20", "y [in]": "0", "z [in]": "-0.5", "held": "y"},
           {"joint": "b", "x [in]": "40", "y [in]": "0", "z [in]": "0", "held": "fixed"},
           {"joint": "p", "x [in]": "100", "y [in]": "0", "z [in]": "0", "held": "fixed"},
           {"joint": "q", "x [in]": "100", "y [in]": "0", "z [in]": "30", "held": ""}],
          [{"tube": "am", "from": "a", "to": "m", "end_a": "pinned", "end_b": "pinned", **THIN},
           {"tube": "mb", "from": "m", "to": "b", "end_a": "pinned", "end_b": "pinned", **THIN},
           {"tube": "post", "from": "p", "to": "q", "end_a": "", "end_b": "", **THIN, "od [in]": "1.25", "wall [in]": "0.058"}],
          [("m", "force_z [lbf]", -1040), ("q", "force_z [lbf]", -0.52)])
# Two shallow tubes in tension; the path ends far out.
SHALLOW = ([{"joint": "f0", "x [in]": "22.928076", "y [in]": "7.092485", "z [in]": "0", "held": "fixed"},
            {"joint": "f1", "x [in]": "-22.928076", "y [in]": "-7.092485", "z [in]": "0", "held": "fixed"},
            {"joint": "top", "x [in]": "0", "y [in]": "0", "z [in]": "1.2", "held": ""}],
           [{"tube": name, "from": name, "to": "top", "end_a [in-lbf/rad]": "50000", "end_b [in-lbf/rad]": "50000",
             **{**THIN, "od [in]": "1", "wall [in]": "0.049"}} for name in ("f0", "f1")],
           [("top", "force_z [lbf]", 8000), ("top", "moment_z [in-lbf]", 500)])
# Three feet of a flat dome snap through.
DOME = ([{"joint": f"f{i}", "x [in]": str(x), "y [in]": str(y), "z [in]": "0", "held": "fixed"} for i, (x, y) in
         enumerate([(24, 0), (-12, 20.784610), (-12, -20.784610)])] + [{"joint": "top", "x [in]": "0", "y [in]": "0", "z [in]": "1.2", "held": ""}],
        [{"tube": f"b{i}", "from": f"f{i}", "to": "top", "end_a": "pinned", "end_b": "pinned", **THIN} for i in range(3)],
        [("top", "force_z [lbf]", -500)])


def number(row, column):
    return float(row[column])


class Factors(FrameTest):
    def answer(self, frame, scale, table="tubes"):
        joints, tubes, loads = frame
        columns = {column for _, column, _ in loads}
        self.frame(joints, tubes, [{"run": "run", "joint": joint, **dict.fromkeys(columns, ""), column: repr(value * scale)}
                                   for joint, column, value in loads])
        run = self.check("frame", "--of", table)
        self.assertEqual(run.err, "", scale)
        return run.rows

    def test_a_limit_far_below_the_end_of_the_path(self):
        """1.456: by halving on the stress of the independent solution (tests/reference/frame_check.py)."""
        rows = {row["tube"]: row for row in self.answer(HANGER, 1)}
        self.assertGreater(number(rows["am"], "path_end"), 1000)
        self.assertAlmostEqual(number(rows["am"], "yield_factor"), 1.456, delta=5e-4)

    def test_use_is_1_at_the_yield_factor_and_below_1_before(self):
        for frame in (SHALLOW,):
            for row in self.answer(frame, 1):
                factor = number(row, "yield_factor")
                name = row["tube"]
                uses = [next(number(r, "stress_use") for r in self.answer(frame, share * factor) if r["tube"] == name)
                        for share in (0.05, 0.2, 0.4, 0.6, 0.8, 0.95, 1)]
                self.assertAlmostEqual(uses[-1], 1, delta=2e-6, msg=name)
                self.assertLess(max(uses[:-1]), 1, name)

    def test_the_end_of_the_path_scales(self):
        first = number(self.answer(DOME, 1, "runs")[0], "path_end")
        for i in range(40):
            scale = 0.31 + 0.047 * i
            self.assertAlmostEqual(number(self.answer(DOME, scale, "runs")[0], "path_end") * scale / first, 1, delta=2e-6, msg=scale)


run_tests()
