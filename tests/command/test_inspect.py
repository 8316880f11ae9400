"""inspect: verdicts, numbers, and the margins of load cases with a thin tube."""

import math

from program import in_si, name_and_unit, run_tests
from shop import READINGS, SPEC, ShopTest, tube


class Verdict(ShopTest):
    def verdict(self, status, verdict, readings, *words, spec=SPEC, err=""):
        run = self.inspect(readings, *words, spec=spec)
        self.assertRun(run, status, err)
        self.assertEqual([row["verdict"] for row in run.rows], [verdict])
        return run.rows[0]["reason"]

    def test_inside_everywhere(self):
        self.assertEqual(self.verdict(0, "meets", tube()), "")

    # Half a tenth of the gauge to either side of each border, and the border itself.
    def test_a_diameter_at_its_borders(self):
        for od, status, verdict in [(1.24895, 1, "below"), (1.249, 1, "recheck"), (1.24905, 1, "recheck"),
                                    (1.25, 1, "recheck"), (1.251, 1, "recheck"), (1.25105, 0, "meets"),
                                    (1.25395, 0, "meets"), (1.254, 1, "recheck"), (1.256, 1, "recheck"),
                                    (1.25605, 1, "below")]:
            with self.subTest(od=od):
                self.verdict(status, verdict, tube(od=od))

    def test_a_bow_at_its_borders(self):
        for bow, status, verdict in [(0.0289, 0, "meets"), (0.029, 1, "recheck"), (0.031, 1, "recheck"),
                                     (0.0311, 1, "below")]:
            with self.subTest(bow=bow):
                self.verdict(status, verdict, tube(bow=bow))

    def test_a_wall_at_its_borders(self):
        for wall, status, verdict in [(0.0489, 1, "below"), (0.049, 1, "recheck"), (0.051, 1, "recheck"),
                                      (0.0511, 0, "meets")]:
            with self.subTest(wall=wall):
                self.verdict(status, verdict, tube(walls=[(clock, wall) for clock in (0, 120, 240)]))

    def test_the_gauge_is_told(self):
        for gauge, status, verdict in [("0.0005", 0, "meets"), ("0.002", 1, "recheck"), ("0.0508mm", 1, "recheck")]:
            with self.subTest(gauge=gauge):
                self.verdict(status, verdict, tube(bow=0.0285), "--gauge", gauge)
        self.verdict(1, "below", tube(bow=0.03001), "--gauge", "0")
        self.verdict(0, "meets", tube(bow=0.02999), "--gauge", "0")

    def test_a_thin_wall_between_the_readings(self):
        # wall = 0.055 - 0.005 cos(clock - 45): all four read 0.05146 or 0.05854, the thinnest is 0.050 at clock 45
        near, far = 0.055 - 0.005 * math.sqrt(0.5), 0.055 + 0.005 * math.sqrt(0.5)
        walls = [(0, near), (90, near), (180, far), (270, far)]
        reason = self.verdict(1, "recheck", tube(walls=walls))
        self.assertEqual(reason, "by the fit the thinnest wall is 0.05 in, the spec's 0.05 in: read it at clock 45")
        # a fit alone never fails a tube, however thin
        thin = SPEC.replace("0.05,", "0.0525,")
        self.verdict(1, "recheck", tube(walls=walls), "--gauge", "0.0012", spec=thin)
        self.verdict(1, "below", tube(walls=walls), spec=thin)

    def test_what_is_missing(self):
        for readings, said in [
            (tube(od=None), "read the od"),
            (tube(bow=None), "read the bow"),
            (tube(walls=[]), "read the wall at clocks 0, 120 and 240"),
            (tube(walls=[(300, 0.058)]), "read the wall at two more clocks: 60 and 180"),
            (tube(walls=[(-150, 0.058)]), "read the wall at two more clocks: 330 and 90"),
            (tube(walls=[(0, 0.058), (120, 0.058)]), "read the wall at one more clock: 240"),
            (tube(walls=[(0, 0.058), (90, 0.058)]), "read the wall at one more clock: 225"),
            (tube(walls=[(10, 0.058), (190, 0.058)]), "read the wall at clocks across from these: 100 and 280"),
            (tube(walls=[(0, 0.058), (10, 0.0581), (20, 0.058)]),
             "read the wall at clocks further round than these: 130 and 250"),
            (tube(od=None, walls=[], bow=None) + "T,rail,bow,,0.01\n",
             "read the od; read the wall at clocks 0, 120 and 240"),
        ]:
            with self.subTest(said=said):
                self.assertEqual(self.verdict(2, "unread", readings), said)

    def test_below_comes_before_unread_and_unread_before_recheck(self):
        self.verdict(1, "below", tube(od=None, bow=0.05))
        self.verdict(2, "unread", tube(od=None, bow=0.03))

    def test_what_is_not_asked_need_not_be_read(self):
        spec = "part,od_least [in],od_most [in],wall_least [in],bow_most [in]\nrail,,,,0.03\n"
        self.verdict(0, "meets", tube(od=None, walls=[]), spec=spec)
        self.verdict(0, "meets", tube(od=9, walls=[]), spec=spec)

    def test_the_reasons(self):
        walls = [(0, 0.0485), (120, 0.058), (240, 0.058)]
        self.assertEqual(self.verdict(1, "below", tube(od=1.2545, walls=walls, bow=0.0415)),
                         "od reads 1.2545 in, within the gauge (0.001 in) of the spec's 1.255 in; "
                         "wall reads 0.0485 in, under the spec's 0.05 in; bow reads 0.0415 in, over the spec's 0.03 in; "
                         "by the fit the thinnest wall is 0.0485 in, the spec's 0.05 in: read it at clock 0")
        self.assertEqual(self.verdict(1, "below", tube(bow=0.05), "--units", "si"), "bow reads 1.27 mm, over the spec's 0.762 mm")

    def test_every_reading_at_a_clock_counts(self):
        # in either order, and a whole turn on: the thin one decides, and the fit goes through it
        for first, second in ((0.058, 0.04), (0.04, 0.058)):
            readings = tube(walls=[(0, 0.058), (120, first), (240, 0.058)]) + f"T,rail,wall,480,{second}\n"
            with self.subTest(first=first):
                reason = self.verdict(1, "below", readings)
                self.assertIn("wall reads 0.04 in, under the spec's 0.05 in", reason)
                self.assertIn(f"wall was read 2 times at clock 120 ({first:g} in, {second:g} in): the least counts", reason)
                alone = self.inspect(tube(walls=[(0, 0.058), (120, 0.04), (240, 0.058)])).rows[0]
                row = self.inspect(readings).rows[0]
                for column in "wall_mean [in]", "wall_least [in]", "wall_fit_least [in]", "thin_clock [deg]":
                    self.assertNear(row[column], float(alone[column]))
        self.assertEqual(self.verdict(0, "meets", tube() + "T,rail,wall,120,0.0585\n"),
                         "wall was read 2 times at clock 120 (0.058 in, 0.0585 in): the least counts")
        self.verdict(1, "below", tube() + "T,rail,od,0,1.2485\n")
        self.assertEqual(self.verdict(0, "meets", tube() + "T,rail,od,0,1.2530\nT,rail,od,90,1.2535\n"),
                         "od was read 2 times at clock 0 (1.2525 in, 1.253 in): all count")
        self.verdict(1, "below", tube() + "T,rail,bow,,0.05\n")  # without a clock: another place
        reason = self.verdict(1, "below", tube(bow=None) + "T,rail,bow,0,0.01\nT,rail,bow,0,0.05\n")
        self.assertIn("bow was read 2 times at clock 0 (0.01 in, 0.05 in): the most counts", reason)

    def test_a_reading_that_cannot_be(self):
        again = ", which cannot be (the spec asks for at least 0.05 in): read it again"
        slip = tube(walls=[(0, 0.058), (120, 0.585), (240, 0.058)])
        self.assertEqual(self.verdict(1, "recheck", slip), f"wall reads 0.585 in at clock 120{again}")
        for readings, said in [
            (tube(walls=[(0, 0.0058), (120, 0.058), (240, 0.058)]), f"wall reads 0.0058 in at clock 0{again}"),
            (tube(walls=[(0, 0), (120, 0.058), (240, 0.058)]),
             "wall reads 0 in at clock 0, which cannot be (it must be above 0): read it again"),
            (tube(walls=[(0, 1.47), (120, 0.058), (240, 0.058)]),
             "wall reads 1.47 in at clock 0, which cannot be (half of the od is 0.62625 in): read it again"),
            (tube(od=12.525), "od reads 12.525 in at clock 0, which cannot be (the spec asks for an od of 1.25 in): read it again"),
            (tube(od=0.12525), "od reads 0.12525 in at clock 0, which cannot be (the spec asks for an od of 1.25 in): read it again"),
        ]:
            with self.subTest(said=said):
                self.assertEqual(self.verdict(1, "recheck", readings), said)

    def test_walls_too_far_apart(self):
        spec = SPEC.replace(",0.05,", ",,")  # no least wall is asked
        reading = [(0, 0.0585), (120, 0.585), (240, 0.0585)]
        self.assertEqual(self.verdict(1, "recheck", tube(walls=reading), spec=spec),
                         "the most wall read is over 4 times the least, which cannot be: read both again")

    def test_a_slip_is_found_before_any_fit_and_hides_nothing(self):
        slip = [(0, 0.058), (90, 0.058), (180, 0.585), (270, 0.058)]
        self.cases({"part": "rail", "compression [lbf]": "3000"})
        row = self.inspect(tube(walls=slip), "--cases", "cases.csv").rows[0]
        for column in "wall_mean [in]", "wall_fit_least [in]", "thin_clock [deg]", "bore_offset [in]", "margin_measured":
            self.assertEqual(row[column], "", column)
        self.assertNear(row["wall_least [in]"], 0.058)
        self.verdict(1, "below", tube(walls=slip, bow=0.05))
        self.verdict(1, "below", tube(walls=[*slip, (45, 0.04)]))
        self.verdict(2, "unread", tube(walls=slip, bow=None))
        # what a thicker or a thinner tube than ordered could read is no slip
        self.verdict(0, "meets", tube(walls=[(clock, 0.12) for clock in (0, 120, 240)]))
        self.verdict(1, "below", tube(walls=[(clock, 0.02) for clock in (0, 120, 240)]))

    def test_the_worst_tube_gives_the_status(self):
        fine, short, unread = tube(tag="a"), tube(tag="b", bow=0.05), tube(tag="c", od=None)
        for readings, status in (fine, 0), (fine + short, 1), (fine + unread, 2), (short + unread + fine, 2):
            self.assertEqual(self.inspect(readings).status, status)

INSPECT_COLUMNS = ("tag,part,od_mean [in],od_least [in],od_most [in],ovality [in],wall_mean [in],wall_least [in],"
                   "wall_fit_least [in],thin_clock [deg],bore_offset [in],bow [in],verdict,reason")
COST_COLUMNS = INSPECT_COLUMNS + ",case,margin_nominal,margin_measured"


class Inspect(ShopTest):
    def test_the_columns(self):
        self.assertEqual(self.inspect(tube()).out.splitlines()[0], INSPECT_COLUMNS)
        self.assertEqual(self.inspect(tube(), "--units", "si").out.splitlines()[0], in_si(INSPECT_COLUMNS))
        self.cases({"part": "rail"})
        self.assertEqual(self.inspect(tube(), "--cases", "cases.csv").out.splitlines()[0], COST_COLUMNS)

    def test_the_numbers(self):
        # by hand: three walls evenly round, mean 0.054, parts 0.006 and -0.002/sqrt 3
        run = self.inspect("T,rail,od,0,1.252\nT,rail,od,90,1.255\nT,rail,bow,,0.01\nT,rail,bow,,0.02\n"
                           + tube(od=None, walls=[(0, 0.060), (120, 0.050), (240, 0.052)], bow=None))
        row, offset = run.rows[0], math.hypot(0.006, 0.002 / math.sqrt(3))
        for column, want in {"od_mean [in]": 1.2535, "od_least [in]": 1.252, "od_most [in]": 1.255,
                             "ovality [in]": 0.003, "wall_mean [in]": 0.054, "wall_least [in]": 0.050,
                             "wall_fit_least [in]": 0.054 - offset, "bore_offset [in]": offset,
                             "thin_clock [deg]": 180 - math.degrees(math.atan2(0.002 / math.sqrt(3), 0.006)),
                             "bow [in]": 0.02}.items():
            self.assertNear(row[column], want)
        metric = self.inspect(tube(), "--units", "si").rows[0]
        self.assertNear(metric["od_mean [mm]"], 1.2525 * 25.4)
        self.assertNear(metric["wall_fit_least [mm]"], 0.058 * 25.4)

    def test_readings_in_other_units(self):
        self.file("spec.csv", "part,wall_least [mm]\nrail,1.27\n")
        self.file("readings.csv", "reading [mm],clock [rad],measure,tag,part\n"
                  + "".join(f"1.5,{clock},wall,T,rail\n" for clock in (0, 2, 4)))
        run = self.run_program("inspect", "--spec", "spec.csv", "readings.csv", "--gauge", "0.02mm", "--units", "si")
        self.assertRun(run, 0)
        self.assertNear(run.rows[0]["wall_fit_least [mm]"], 1.5)

    def test_json(self):
        answer = self.inspect(tube(walls=[]), "--format", "json").json
        named = [name_and_unit(column) for column in INSPECT_COLUMNS.split(",")]
        self.assertEqual(answer["units"], {name: unit for name, unit in named if unit})
        self.assertEqual(list(answer["rows"][0]), [name for name, _ in named])
        self.assertIsNone(answer["rows"][0]["wall_fit_least"])
        self.assertEqual(answer["rows"][0]["verdict"], "unread")

    def test_tubes_come_in_the_order_of_the_file_however_their_readings_lie(self):
        mixed = "z,rail,od,0,1.2525\na,rail,od,0,1.2525\nm,rail,od,0,1.2525\na,rail,bow,,0.01\nz,rail,bow,,0.01\n"
        self.assertEqual([row["tag"] for row in self.inspect(mixed).rows], ["z", "a", "m"])

    def test_what_is_wrong_is_said_and_the_others_are_answered(self):
        fine = tube(tag="good")
        for bad, said in [
            ("T,rail,wall,,0.05\n",
             "readings.csv:7: clock: is empty: a wall reading needs its clock round the tube"),
            ("T,tail,od,0,1.25\n", "readings.csv: part 'tail' of tag 'T' is not in spec.csv"),
            ("T,rail,od,0,1.25\nT,post,bow,,0.01\n", "readings.csv: tag 'T' stands for two parts, 'rail' and 'post'"),
        ]:
            with self.subTest(said=said):
                run = self.inspect(fine + bad)
                self.assertRun(run, 2, said)
                self.assertEqual([(row["tag"], row["verdict"]) for row in run.rows], [("good", "meets")])

    def test_a_wrong_measure(self):
        run = self.inspect(tube() + "T,rail,walls,0,0.05\n")
        self.assertEqual(run.status, 2)
        for word in ["readings.csv:7: measure: ", "walls", "od", "wall", "bow"]:
            self.assertIn(word, run.err)

    def test_a_spec_twice(self):
        run = self.inspect(tube(), spec=SPEC + "rail,1,2,,\n")
        self.assertRun(run, 2, "spec.csv: part: 'rail' stands in two rows", "")

    def test_a_spec_that_no_tube_can_meet(self):
        run = self.inspect(tube(), spec=SPEC.splitlines()[0] + "\nrail,1.255,1.25,,\n")
        self.assertRun(run, 2, "spec.csv: od_least: of part 'rail' is above its od_most: no tube can meet both", "")

    def test_usage(self):
        said = "inspect: name one file of readings and the spec with --spec; see 'railbow help inspect'"
        self.file("readings.csv", READINGS + tube())
        for words in ["readings.csv"], ["--spec", "spec.csv"], ["--spec", "spec.csv", "readings.csv", "readings.csv"]:
            self.assertRun(self.run_program("inspect", *words), 2, said, "")
        self.assertRun(self.inspect(tube(), "--gauge", "-1"), 2, "--gauge: '-1' is not a length of at least 0", "")

    def test_the_text(self):
        long = "a tube with a very long name indeed, and more"
        readings = tube(tag="R1") + tube(tag="R2", bow=0.03) + tube(tag=f'"{long}"', bow=0.05) + tube(tag="R4", od=None)
        self.cases({"case": "a load case with a very long name indeed", "part": "rail", "compression [lbf]": "3000"})
        for words in [], ["--units", "si"], ["--cases", "cases.csv"]:
            run = self.inspect(readings, "--format", "text", *words)
            self.assertEqual((run.err, run.status), ("", 2))
            self.assertReadable(run.out)
            self.assertTrue(run.out.startswith(
                "1 of 4 tubes meet the spec; 1 BELOW it; 1 to recheck; 1 not read enough.\n"), run.out)
            self.assertIn("R4: read the od", run.out)

    def test_standard_input_and_output_file(self):
        self.file("spec.csv", SPEC)
        run = self.run_program("inspect", "--spec", "spec.csv", "-", "-o", "answer.csv", stdin=READINGS + tube())
        self.assertRun(run, 0, "", "")
        self.assertEqual(self.read("answer.csv").splitlines()[0], INSPECT_COLUMNS)


class Cost(ShopTest):
    """The load cases of a part with the measured tube: the same results as check with that tube in the file."""

    LOAD = {"part": "rail", "compression [lbf]": "3000", "end_a": "welded", "bow [in]": "0.03"}

    def margin(self, **changes):
        self.cases({**self.LOAD, **changes}, name="alone.csv")
        return float(self.check("alone.csv").rows[0]["margin"])

    def test_the_margins(self):
        walls = [(0, 0.060), (120, 0.054), (240, 0.054)]  # mean 0.056, least 0.052 at 180
        self.cases(self.LOAD, {**self.LOAD, "case": "other", "part": "post"}, {**self.LOAD, "case": "second"})
        run = self.inspect(tube(od=1.2515, walls=walls) + tube(tag="U", od=None), "--cases", "cases.csv")
        self.assertRun(run, 2)
        self.assertEqual([(row["tag"], row["case"]) for row in run.rows],
                         [("T", "rail"), ("T", "second"), ("U", "rail"), ("U", "second")])
        self.assertNear(run.rows[0]["margin_nominal"], self.margin())
        self.assertNear(run.rows[0]["margin_measured"], self.margin(**{"od [in]": "1.2515", "wall [in]": "0.052"}), 1e-8)
        self.assertNear(run.rows[2]["margin_nominal"], self.margin())
        self.assertEqual(run.rows[2]["margin_measured"], "")

    def test_the_factor_counts(self):
        self.cases(self.LOAD)
        run = self.inspect(tube(), "--cases", "cases.csv", "--factor", "1")
        self.assertNear(float(run.rows[0]["margin_nominal"]) + 1, 1.5 * (self.margin() + 1))

    def test_short_as_measured_is_1_though_the_spec_is_met(self):
        self.cases({**self.LOAD, "compression [lbf]": "20000"})
        run = self.inspect(tube(), "--cases", "cases.csv")
        self.assertRun(run, 1)
        self.assertEqual(run.rows[0]["verdict"], "meets")
        self.assertIn("falls SHORT", self.inspect(tube(), "--cases", "cases.csv", "--format", "text").out)

    def test_a_case_without_a_part_is_its_own_part(self):
        self.cases({**self.LOAD, "case": "rail", "part": ""}, {**self.LOAD, "case": "other", "part": ""})
        run = self.inspect(tube(), "--cases", "cases.csv")
        self.assertRun(run, 0)
        self.assertEqual([row["case"] for row in run.rows], ["rail"])

    def test_a_tube_without_a_case(self):
        self.cases({**self.LOAD, "part": "post"})
        run = self.inspect(tube(), "--cases", "cases.csv")
        self.assertRun(run, 0)
        self.assertEqual([run.rows[0][name] for name in ("case", "margin_nominal", "margin_measured")], [""] * 3)

    def test_a_case_that_is_refused_as_drawn(self):
        self.cases({**self.LOAD, "material": "pine"}, {**self.LOAD, "case": "fine"})
        run = self.inspect(tube(), "--cases", "cases.csv")
        self.assertEqual(run.status, 2)
        self.assertTrue(run.err.startswith("railbow: cases.csv:2: material: 'pine' is not in "), run.err)
        self.assertEqual([row["case"] for row in run.rows], ["fine"])

    def test_a_case_that_is_refused_as_measured(self):
        self.cases({**self.LOAD, "weld_zone [in]": "1", "dressed [in]": "0.05"})
        walls = [(clock, 0.0545) for clock in (0, 120, 240)]
        run = self.inspect(tube(walls=walls), "--cases", "cases.csv")
        self.assertRun(run, 2, "cases.csv: case 'rail' with tag 'T': dressed: leaves a wall too thin: D/t may be at most "
                               "0.45 E/Fy (AISC 360-16 E7)")
        self.assertEqual(run.rows[0]["margin_measured"], "")
        text = self.inspect(tube(walls=walls), "--cases", "cases.csv", "--format", "text").out
        self.assertIn("is outside the model", text)
        self.assertReadable(text)


if __name__ == "__main__":
    run_tests()
