"""What to do about a short frame, beside a plain search: `check` on folders with one number changed at a time."""

import csv

from frame import JOINTS, FrameTest, changed
from program import joined, run_tests

NODES = [*JOINTS, {"joint": "low", "x [in]": "30", "y [in]": "0", "z [in]": "0", "held": ""}]
BAR = {"material": "4130", "weld_zone [in]": "1", "bow [in]": "0", "bow_clock": "0", "miss_a [in]": "", "miss_a_clock": "", "miss_b [in]": "",
       "miss_b_clock": "", "gap [in]": "", "od [in]": "1.25", "wall [in]": "0.058"}
ENDS = {"top": ("wall B", "end"), "bottom": ("wall A", "low"), "post": ("low", "end"), "brace 1": ("wall A", "end"), "brace 2": ("wall B", "low")}
WALLS = "0.028", "0.035", "0.049", "0.058", "0.065", "0.083", "0.095", "0.12"
ODS = "1.375", "1.5", "1.625"
STEPS = {"miss_a": 1 / 64, "miss_b": 1 / 64, "gap": 0.001, "bow": 0.001}
FULL = {"joint": "end", "force_z [lbf]": "", "factor": "1.5"}


def bars(**cells):
    """The bracket of five tubes. cells: of a tube, with _ for the blank in its name"""
    return [{"tube": name, "part": "bar", "from": a, "to": b, **BAR, **cells.get(name.replace(" ", "_"), {})} for name, (a, b) in ENDS.items()]


def miss(size, end="a", clock=0):
    return {f"miss_{end} [in]": str(size), f"miss_{end}_clock": str(clock)}


def down(force, up=None):
    runs = [{**FULL, "run": "down", "force_z [lbf]": str(-force)}]
    return runs if up is None else [*runs, {**FULL, "run": "up", "joint": "low", "force_z [lbf]": str(up)}]


class Advice(FrameTest):
    def margins(self, joints, tubes, loads):
        """By check: the lowest margin of each tube."""
        self.frame(joints, tubes, loads, folder="other")
        lowest = {}
        for row in self.check("other").rows:
            lowest[row["tube"]] = min(float(row["margin"]), lowest.get(row["tube"], 9e9))
        return lowest

    def advised(self, joints, tubes, loads):
        self.frame(joints, tubes, loads)
        answer = self.check("frame", "--format", "json").json
        self.assertIs(answer["advice_cut_short"], False)
        return answer["advice"]["rows"]

    def with_value(self, tubes, tube, column, value):
        row = next(i for i, cells in enumerate(tubes) if cells["tube"] == tube)
        return changed(tubes, row, cells={f"{column} [in]": repr(value)})

    def dense(self, frame, tube, column):
        """Every multiple of the step from 0 to below the present value: its value and the margins with it."""
        joints, tubes, loads = frame
        now, step = float(next(cells for cells in tubes if cells["tube"] == tube)[f"{column} [in]"]), STEPS[column]
        sign = 1 if now > 0 else -1
        return [(sign * k * step, self.margins(joints, self.with_value(tubes, tube, column, sign * k * step), loads))
                for k in range(round(abs(now) / step - 0.5 + 1e-6) + 1) if k * step < abs(now) - 1e-9]

    def largest(self, dense, holds):
        """The index of the last value of a dense search with which it holds, as it does with all before it; -1 for none."""
        return next((i for i, (_, margins) in enumerate(dense) if not holds(margins)), len(dense)) - 1

    def forced(self, tubes, short):
        for cells in tubes:
            for column in STEPS:
                value = cells.get(f"{column} [in]") or "0"
                if float(value) != 0 and (column != "bow" or cells["tube"] == short):
                    yield cells["tube"], column

    def ck(self, joints, tubes, loads):
        """Returned: the advice, after every claim of it was searched again."""
        frame, rows, now = (joints, tubes, loads), self.advised(joints, tubes, loads), self.margins(joints, tubes, loads)
        short = min(now, key=now.get)
        self.assertLess(now[short], 0)

        def tube_holds(margins):
            return margins[short] >= 0

        def frame_holds(margins):
            return min(margins.values()) >= 0

        enough, possible = 0, 0
        for tube, column in self.forced(tubes, short):
            dense = self.dense(frame, tube, column)
            alone, whole = self.largest(dense, tube_holds), self.largest(dense, frame_holds)
            said = [row for row in rows if (row["changed"], row["column"]) == (tube, column)]
            enough += whole > 0
            possible += alone > 0
            for row in said:
                i = next(i for i, (value, _) in enumerate(dense) if abs(value - row["to"]) < 1e-12)
                self.ck_row(row, short, dense[i][1], now)
                self.assertEqual(i, whole if row["enough"] == "yes" else alone)
        for column, sizes in ("wall", WALLS), ("od", ODS):
            given = float(next(cells for cells in tubes if cells["tube"] == short)[f"{column} [in]"])
            sizes = [float(size) for size in sizes if float(size) > given]
            margins = {size: self.margins(joints, self.with_value(tubes, short, column, size), loads) for size in sizes}
            alone, whole = [s for s in sizes if tube_holds(margins[s])], [s for s in sizes if frame_holds(margins[s])]
            enough += bool(whole)
            possible += bool(alone)
            for row in rows:
                if row["column"] == column:
                    self.assertEqual((row["changed"], row["to"]), (short, (whole or alone)[0]))
                    self.ck_row(row, short, margins[row["to"]], now)
        self.assertEqual([row["enough"] for row in rows], ["yes"] * min(2, enough) if enough else ["no"] * min(2, possible))
        return rows

    def ck_row(self, row, short, margins, now):
        lowest = min(margins, key=margins.get)
        self.assertEqual(row["tube"], short)
        self.assertGreaterEqual(margins[short], 0)
        self.assertAlmostEqual(row["margin"], margins[short], delta=2e-6)
        self.assertAlmostEqual(row["frame_margin"], margins[lowest], delta=2e-6)
        self.assertEqual((row["enough"], row["still_short"]), ("yes", "") if margins[lowest] >= 0 else ("no", lowest))

    def text(self, *words, status=1):
        run = self.run_program("check", "frame", "--format", "text", *words)
        self.assertEqual((run.err, run.status), ("", status))
        return joined(run.out)

    # ---- a miss, a gap, a bow, a size ----------------------------------------------------------------------------

    def test_a_miss_of_the_tube(self):
        """A quarter of an inch toward the bottom: the brace is pushed."""
        rows = self.ck(NODES, bars(brace_1=miss(0.25, clock=180)), down(5500))
        self.assertEqual([(row["changed"], row["column"]) for row in rows], [("brace 1", "miss_a"), ("brace 1", "wall")])
        self.assertIn("margin -2.7 %. To make it hold: pull A of 'brace 1' to within 0.187 in (3/16) or fit 'brace 1' with a wall of 0.065 in. "
                      "Each of these alone is enough for the frame. What governs:", self.text())

    def test_a_miss_at_b_in_steps_of_half_a_millimetre(self):
        self.frame(NODES, bars(brace_1=miss(0.25, "b", 180)), down(5500))
        rows = self.check("frame", "--format", "json", "--units", "si").json["advice"]["rows"]
        self.assertEqual((rows[0]["column"], rows[0]["to"] % 0.5), ("miss_b", 0))
        one_more = (rows[0]["to"] + 0.5) / 25.4
        for value, holds in (rows[0]["to"] / 25.4, True), (one_more, False):
            self.assertEqual(min(self.margins(NODES, bars(brace_1=miss(value, "b", 180)), down(5500)).values()) >= 0, holds)

    def test_a_miss_of_a_neighbour(self):
        """The column of a portal is short because the beam was forced in."""
        rows = self.ck(*self.portal(3500, beam=miss(0.25)))
        self.assertEqual([(row["tube"], row["changed"], row["column"]) for row in rows], [("column B", "beam", "miss_a"), ("column B", "column B", "wall")])

    def test_gaps(self):
        """Pulled and squeezed; the gap is that of a neighbour. A gap that helps is no advice."""
        rows = self.ck(NODES, bars(bottom={"gap [in]": "0.03"}), down(5000, 3000))
        self.assertEqual((rows[0]["changed"], rows[0]["column"]), ("bottom", "gap"))
        self.assertIn("close the gap of 'bottom' to 0.019 in or fit 'brace 1' with a wall of 0.065 in", self.text())
        rows = self.ck(NODES, bars(brace_1={"gap [in]": "-0.03"}), down(5000, 3000))
        self.assertEqual((rows[0]["changed"], rows[0]["column"]), ("brace 1", "gap"))
        self.assertIn("trim 'brace 1' until it is too long by no more than ", self.text())

    def test_a_gap_that_another_tube_needs(self):
        """With a gap of 0.019 in the whole frame holds; trimmed to the drawn length, the bent tube beside it is short."""
        joints = [{"joint": name, "x [in]": x, "y [in]": "0", "z [in]": z, "held": held}
                  for name, x, z, held in (("A", "0", "0", "fixed"), ("M", "12", "0", ""), ("B", "30", "0", "fixed"), ("C", "12", "12", "pinned"))]
        bar = {"od [in]": "1.25", "wall [in]": "0.049", "material": "4130", "miss_b [in]": "", "miss_b_clock": "", "bow [in]": "", "bow_clock": "", "gap [in]": ""}
        tubes = [{"tube": "bent", "from": "A", "to": "M", **bar, "wall [in]": "0.058", "miss_b [in]": "0.0625", "miss_b_clock": "180", "bow [in]": "0.02"},
                 {"tube": "long", "from": "M", "to": "B", **bar, "gap [in]": "-0.02"}, {"tube": "post", "from": "C", "to": "M", **bar, "bow [in]": "0.1"}]
        loads = [{"run": "r", "joint": "M", "force_x [lbf]": "3000", "force_z [lbf]": "-600", "factor": "4.8356"}]
        at = {gap: self.margins(joints, self.with_value(tubes, "long", "gap", gap), loads) for gap in (-0.02, -0.019, 0.0)}
        self.assertEqual([min(margins, key=margins.get) for margins in at.values() if min(margins.values()) < 0], ["long", "bent"])
        self.assertGreater(min(at[-0.019].values()), 0)
        for row in self.advised(joints, tubes, loads):
            self.assertNotEqual(row["column"], "gap")

    def test_a_bow_of_unknown_clock(self):
        rows = self.ck(NODES, bars(brace_1={"bow [in]": "0.1", "bow_clock": ""}), down(5000))
        self.assertEqual((rows[0]["changed"], rows[0]["column"]), ("brace 1", "bow"))
        self.assertIn("straighten the bow of 'brace 1' to 0.073 in", self.text())

    def test_sizes_alone(self):
        rows = self.ck(NODES, bars(), down(6000))
        self.assertEqual([row["column"] for row in rows], ["wall", "od"])
        self.assertIn("fit 'brace 1' with a wall of 0.083 in or fit 'brace 1' with an outside diameter of 1.375 in", self.text())

    # ---- several tubes -------------------------------------------------------------------------------------------

    def test_one_miss_makes_two_short_tubes_hold(self):
        rows = self.ck(NODES, bars(brace_1=miss(0.25, clock=180), top=miss(0.375)), down(5200))
        self.assertEqual([(row["tube"], row["changed"], row["enough"]) for row in rows], [("top", "top", "yes")])
        self.assertIn("This is enough for the frame.", self.text())

    def test_another_tube_is_still_short(self):
        rows = self.ck(NODES, bars(brace_1=miss(0.25, clock=180), top=miss(0.375)), down(5500))
        self.assertEqual([(row["enough"], row["still_short"]) for row in rows], [("no", "brace 1")] * 2)
        self.assertIn("Neither is enough for the frame: 'brace 1' is still short then.", self.text())

    def test_a_stiffer_tube_makes_another_fall_short(self):
        """The thicker brace draws more load, and the top, which was forced in, bends with it."""
        rows = self.ck(NODES, bars(top=miss(0.25)), down(6000))
        self.assertEqual([(row["column"], row["enough"], row["still_short"]) for row in rows], [("wall", "no", "top"), ("od", "no", "top")])
        self.assertIn("Neither is enough for the frame: 'top' falls short then.", self.text())

    def test_columns_that_share_their_load(self):
        for load, cells in (4000, {"column_A": miss(0.5), "column_B": miss(0.5)}), (3500, {"column_A": miss(0.5), "column_B": miss(0.5)}):
            self.ck(*self.portal(load, **cells))

    def test_nothing_is_enough(self):
        self.assertEqual(self.ck(NODES, bars(), down(10000)), [])
        self.assertIn("No single change was found that makes 'brace 1' hold and no other tube short. Tried, each alone: every miss and gap in the frame "
                      "and the bow of this tube brought close to none, every heavier stock wall, and the next three larger diameters. What is left: "
                      "several changes together, stiffer neighbours, or less load.", self.text())

    # ---- details, picked tubes, the page, other forms ------------------------------------------------------------

    def test_a_detail_governs(self):
        """A hole in the pulled top: a heavier wall makes it hold, and the diameter is left as it is."""
        self.frame(NODES, bars(), down(4500))
        self.file("frame/details.csv", "tube,detail,kind,at [in],hole [in],walls\ntop,big hole,hole,15,1.05,2\n")
        answer = self.check("frame", "--format", "json").json
        worst = min(answer["tubes"]["rows"], key=lambda row: row["margin"])
        self.assertEqual((worst["tube"], worst["governs"]), ("top", "big hole"))
        rows = answer["advice"]["rows"]
        self.assertEqual([(row["changed"], row["column"], row["to"]) for row in rows], [("top", "wall", 0.083)])
        for wall in "0.065", "0.083", "0.095":
            self.file("frame/tubes.csv", self.csv_of(self.with_value(bars(), "top", "wall", float(wall))))
            run = self.check("frame")
            self.assertEqual(run.status == 0, float(wall) >= rows[0]["to"], wall)

    def csv_of(self, rows):
        self.frame(NODES, rows, down(4500), folder="written")
        return self.read("written/tubes.csv")

    def test_a_picked_tube(self):
        """The advice is for the tube that is judged; that another is short all the same is said."""
        self.frame(NODES, bars(brace_1=miss(0.25, clock=180), top=miss(0.375)), down(5500))
        rows = self.check("frame", "--case", "brace 1", "--format", "json").json["advice"]["rows"]
        self.assertEqual({(row["tube"], row["still_short"]) for row in rows}, {("brace 1", "top")})

    def test_a_frame_that_holds_has_none(self):
        self.frame(NODES, bars(), down(1000))
        self.assertNotIn("To make it hold", self.text(status=0))
        answer = self.check("frame", "--format", "json").json
        self.assertEqual((answer["advice"]["rows"], answer["advice_cut_short"]), ([], False))

    def test_every_number_of_threads(self):
        self.frame(NODES, bars(brace_1=miss(0.25, clock=180)), down(5500))
        one, *others = (self.check("frame", "--format", "json", "--jobs", jobs).out for jobs in "123")
        self.assertEqual(others, [one, one])

    def test_the_page(self):
        self.frame(NODES, bars(brace_1=miss(0.25, clock=180)), down(5500))
        run = self.check("frame", "--report", "page.html")
        self.assertEqual(run.out, self.check("frame").out)
        self.assertIn('<p class="advice">To make it hold: pull A of &#39;brace 1&#39; to within 0.187 in (3/16) or fit ',
                      self.read("page.html").replace("'", "&#39;"))

    def test_a_large_frame_says_that_not_all_was_tried(self):
        """Forty bars that lean on one wall, each a little off, in seventeen runs: more misses than margins to ask."""
        joints = [{"joint": f"{end} {i}", "x [in]": "0" if end == "wall" else "20", "y [in]": str(10 * i), "z [in]": "0",
                   "held": "fixed" if end == "wall" else "z"} for i in range(40) for end in ("wall", "tip")]
        tubes = [{"tube": f"bar {i}", "from": f"wall {i}", "to": f"tip {i}", **BAR, **miss(0.0625)} for i in range(40)]
        loads = [{"run": f"run {k}", "joint": f"tip {k}", "force_x [lbf]": "-1000" if k > 0 else "-9000"} for k in range(17)]
        self.frame(joints, tubes, loads)
        answer = self.check("frame", "--format", "json").json
        self.assertIs(answer["advice_cut_short"], True)
        self.assertEqual(answer["advice"]["rows"][0]["tube"], "bar 0")
        self.assertIn("Not every change was tried: the frame has too many tubes, misses or runs.", self.text())

    def portal(self, load, **cells):
        """cases/portal with more load, and a side load of 2 % of it."""
        tables = []
        for name in "joints", "tubes", "loads":
            lines = (self.installed.source / "cases/portal" / f"{name}.csv").read_text().splitlines()
            tables.append(list(csv.DictReader(line for line in lines if not line.startswith("#"))))
        joints, tubes, loads = tables
        tubes = [{**row, **cells.get(row["tube"].replace(" ", "_"), {})} for row in tubes]
        loads = [{**row, "force_z [lbf]": str(-load), "force_x [lbf]": str(load / 50) if row["force_x [lbf]"] else ""} for row in loads]
        return joints, tubes, loads


if __name__ == "__main__":
    run_tests()
