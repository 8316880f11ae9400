"""What a file of load cases may contain, and the messages about one that does not."""

import math
import os

from program import CASE_COLUMNS, HEADER, HOLDS, PLAIN, ROW, SHORT, ProgramTest, run_tests, table
from studies import LENGTHS

REACH = 24 * math.tan(math.radians(10))  # a miss of 10 degrees over the 24 in of PLAIN
THIN = "is too thin for this od: D/t may be at most 0.45 E/Fy (AISC 360-16 E7)"
NOT_HELD = "needs an {} that holds a moment (welded, fixed or a stiffness above 0): a pinned end takes any angle"
STEEP_BOW = "bow: gives a slope of more than 10 deg: outside the model's range"


class File(ProgramTest):
    def refused(self, content, *said):
        self.file("cases.csv", content)
        run = self.check()
        self.assertRun(run, 2, [f"cases.csv:{line}" if line[0].isdigit() else f"cases.csv: {line}" for line in said])
        self.assertEqual(run.rows, [])

    def test_nothing_to_check(self):
        self.refused("", "has no header row")
        self.refused("\ufeff", "has no header row")
        self.refused("# nose frame\n# second run\n", "has no header row")
        self.refused(f"# nose frame\n{HEADER}\n", "has a header but no row")
        self.refused(f"{HEADER}\r\n\r\n\r\n", "has a header but no row")

    def test_not_a_file_that_can_be_read(self):
        self.assertRun(self.check("no.csv"), 2, "no.csv: cannot read: No such file or directory")
        self.assertRun(self.check("."), 2, ".: has no joints.csv, tubes.csv or loads.csv: a frame's folder has all three; "
                                           "'railbow new --frame FOLDER' writes them", "")

    def test_a_file_without_leave_to_read(self):
        self.cases({})
        (self.folder / "cases.csv").chmod(0)
        other = {"user": 65534} if os.geteuid() == 0 else {}
        self.assertRun(self.check(**other), 2, "cases.csv: cannot read: Permission denied")

    LENGTHS = "in, ft, mm, cm or m"
    HEADERS = [
        ("case,od [in],wall [in],material,lenght [in]", "unknown column 'lenght'; did you mean 'length'?",
         "length is missing"),
        (HEADER + ",xyzzy", "unknown column 'xyzzy'"),
        (HEADER + ",Length [m]", "length: the column is given twice"),
        ("note", "case, od, wall, material and length are missing"),
        (HEADER.replace("length [in]", "length"),
         f"length: needs its unit in the header: {LENGTHS}, as in 'length [in]'"),
        (HEADER.replace("length [in]", "length [kg]"), f"length: 'kg' is not a unit for it: use {LENGTHS}"),
        (HEADER.replace("length [in]", "length []"), f"length: '' is not a unit for it: use {LENGTHS}"),
        (HEADER.replace("length [in]", "length [in"), "length: the bracket around the unit is not closed"),
        (HEADER + ",compression [mpa]", "compression: 'mpa' is not a unit for it: use lbf, kip, N or kN"),
        (HEADER + ",moment_a", "moment_a: needs its unit in the header: in-lbf, ft-lbf, N-m, N-mm or kN-m, "
                               "as in 'moment_a [in-lbf]'"),
        (HEADER + ",spread_load", "spread_load: needs its unit in the header: lbf/in, lbf/ft, N/m or N/mm, "
                                  "as in 'spread_load [lbf/in]'"),
        (HEADER + ",bow_clock [in]", "bow_clock: 'in' is not a unit for it: use deg or rad"),
        (HEADER + ",factor [in]", "factor: takes no unit, but has 'in'"),
        (HEADER + ",note [in]", "note: takes no unit, but has 'in'"),
        (HEADER + ",bow_shape [in]", "bow_shape: takes no unit, but has 'in'"),
        ("case,od [kg],wall,material,length [in],bgw [in]", f"od: 'kg' is not a unit for it: use {LENGTHS}",
         f"wall: needs its unit in the header: {LENGTHS}, as in 'wall [in]'",
         "unknown column 'bgw'; did you mean 'bow'?"),
    ]

    def test_headers(self):
        for header, *said in self.HEADERS:
            with self.subTest(header=header):
                self.refused(f"# nose frame\n{header}\n{ROW}\n", *(f"2: {line}" for line in said))

    def test_a_header_that_is_not_utf8(self):
        self.refused(HEADER.encode() + b",n\xf6te\n" + ROW.encode(),
                     "1: column 6: 'n\\xF6te' is not UTF-8: save the file as UTF-8")

    def test_names_without_regard_to_case_order_and_blanks(self):
        want = self.check("-", stdin=f"{HEADER}\n{ROW}\n")
        self.assertRun(want, 0)
        self.assertRun(self.check("-", stdin=f" LENGTH [ in ] ,Material,WALL[in],OD [in],  Case\n"
                                             "24,4130,0.058,1.25,rail\n"), 0, out=want.out)

    def test_the_ways_a_file_may_be_written(self):
        want = self.check("-", stdin=f"{HEADER}\n{ROW}\n").out
        for content in [f"\ufeff{HEADER}\n{ROW}\n", f"{HEADER}\r\n{ROW}\r\n", f"{HEADER}\n{ROW}",
                        f"\ufeff# a\r\n\r\n# b\r\n{HEADER}\r\n\r\n{ROW}", f"{HEADER}\n\n\n{ROW}\n\n",
                        f'"case","od [in]","wall [in]","material","length [in]"\n"rail","1.25","0.058","4130","24"\n',
                        f"{HEADER},\n{ROW},\n,,,,,\n".replace(",", ";"), f"sep=\t\r\n{HEADER}\r\n{ROW}\r\n".replace(",", "\t"),
                        f"{HEADER}\r{ROW}\r", f"\ufeff{HEADER}\r\n{ROW}\r\n".encode("utf-16-le"),
                        f"\ufeff{HEADER}\n{ROW}\n".encode("utf-16-be"), f"{HEADER}\nrail,1 1/4,0.058,4130,2'\n",
                        f'{HEADER}\nrail,1\u00bc,0.058,4130,"24"""\n',
                        f"{HEADER}\n rail , 1.25 ,0.058,4130,\t24\n", f"{HEADER}\nrail,+1.25,58e-3,4130,2.4E1\n",
                        f"{HEADER},note,bow [in],bow_shape,end_a,bow_clock\n{ROW},,,,,\n"]:
            with self.subTest(content=content):
                self.assertRun(self.check("-", stdin=content), 0, out=want)

    def test_every_column_of_the_format_is_known(self):
        needs = {"": "note part case material column_curve bow_shape vertical_g factor factor_yield cycles cycle_low cycle_high slope end_a "
                     "end_b "
                     + " ".join(name for name in CASE_COLUMNS if name.endswith("clock")),
                 " [lbf]": "compression point_load", " [in-lbf]": "moment_a moment_b torque",
                 " [lbf/in]": "spread_load gap_stiffness"}
        unit = {name: bracket for bracket, names in needs.items() for name in names.split()}
        columns = [name + unit.get(name, " [in]") for name in CASE_COLUMNS]
        self.file("cases.csv", ",".join(columns) + "\n" + ",".join(PLAIN.get(name, "") for name in columns) + "\n")
        self.assertRun(self.check(), 0)


class Rows(ProgramTest):
    """Each test gives bad rows between two good ones: the good rows get results, the bad ones messages."""

    def answered(self, content, said, names=("before", "after"), words=()):
        self.file("cases.csv", content)
        run = self.check("cases.csv", *words)
        self.assertRun(run, 2, [f"cases.csv:{line}" for line in said])
        self.assertEqual(run.names, list(names))

    def bad_row(self, changes, *said, words=()):
        with self.subTest(**changes):
            content = table({"case": "before"}, changes, {"case": "after"})
            self.answered(content, [f"3: {line}" for line in said], words=words)

    # header, what is refused, what is allowed, the rule that the message gives
    BOUNDS = [
        ("od [in]", "0 -1", "0.2 1.25", "must be above 0"),
        ("wall [in]", "0 -0.058", "0.058 0.625", "must be above 0"),
        ("length [in]", "0 -24", "1 24", "must be above 0"),
        ("end_a [in-lbf/rad]", "-1", "0 1e6", "must be at least 0"),
        ("end_b [N-m/rad]", "-0.1", "0 1e6", "must be at least 0"),
        ("eccentricity [in]", "-0.001", "0 0.5", "must be at least 0"),
        ("point_at [in]", "-0.001", "0 24", "must be at least 0"),
        ("slope", "-90.001 91", "-90 0 90", "must lie between -90 and 90 deg"),
        ("slope [rad]", "-1.5708 1.5708", "-1.5707963 1.5707963",
         "must lie between -1.570796327 and 1.570796327 rad"),
        ("bow [in]", "-0.001", "0 0.03", "must be at least 0"),
        ("bow_at [in]", "0 -1", "0.001 23.999", "must be above 0"),
        ("miss_a [in]", "-0.001", "0 4.23", "must be at least 0"),
        ("miss_b [in]", "-0.001", "0 4.23", "must be at least 0"),
        ("gap_stiffness [lbf/in]", "0 -1", "0.001 1e9", "must be above 0"),
        ("weld_zone [in]", "-0.1", "0 24", "must be at least 0"),
        ("dressed [in]", "-0.001", "0 0.0527", "must be at least 0"),
        ("factor", "0 -1.5", "0.001 1.5", "must be above 0"),
        ("factor_yield", "0 -1.5", "0.001 1.5", "must be above 0"),
        ("cycles", "0 -1", "0.5 40", "must be above 0"),
    ]
    NEEDED = {"miss_a": {"end_a": "fixed"}, "miss_b": {"end_b": "fixed"}}  # an end that holds a miss
    EITHER_SIGN = ["compression [lbf]", "moment_a [in-lbf]", "moment_b [in-lbf]", "point_load [lbf]",
                   "spread_load [lbf/in]", "vertical_g", "torque [in-lbf]", "gap [in]", "slope"]
    EITHER_SIGN += [name for name in CASE_COLUMNS if name.endswith("clock")]

    def test_bounds(self):
        for column, refused, allowed, rule in self.BOUNDS:
            with self.subTest(column=column):
                name = column.split(" [")[0]
                refused, allowed = refused.split(), allowed.split()
                also = self.NEEDED.get(name, {})
                content = table(*({"case": f"at {value}", column: value, **also} for value in refused + allowed))
                said = [f"{line}: {name}: '{value}' is out of range: {rule}" for line, value in enumerate(refused, 2)]
                self.answered(content, said, [f"at {value}" for value in allowed])

    def test_either_sign(self):
        for column in self.EITHER_SIGN:
            with self.subTest(column=column):
                self.cases({column: "-0.001"}, {column: "0.001"}, {column: "0"})
                self.assertRun(self.check(), 0)

    NUMBERS = [
        ("nan", "is not a finite number"), ("-NaN", "is not a finite number"), ("inf", "is not a finite number"),
        ("-Infinity", "is not a finite number"), ("1e999", "is too large"),
        ("0x18", "is not a decimal number"), ("24 in", "is not a number: the unit belongs in the header, as in "
                                                       "'length [in]'"),
        ("24mm", "is not a number: the unit belongs in the header, as in 'length [mm]'"),
        ("1,25", "is not a number: use a decimal point, as in 1.25"),
        ("1,250", "can be read in two ways: write 1250 or 1.250"),
        ("1,250.5", "is not a number: leave out the commas, as in 1250.5"),
        ("2 4", "is not a number"), ("24-", "is not a number"), ("1.2.3", "is not a number"), ("e5", "is not a number"),
        ("two feet", "is not a number"), ("24\n", "is not a number"),
    ]

    def test_what_is_no_number(self):
        for value, what in self.NUMBERS:
            shown = value.replace("\n", "\\x0A")
            self.bad_row({"length [in]": value}, f"length: '{shown}' {what}")

    CURVES = "johnson, three-halves, euler, aisc, en-a0, en-a, en-b, en-c or en-d"
    WORDS = [
        ("end_a", "weldd", "neither a number nor pinned, welded or fixed; did you mean 'welded'?"),
        ("end_a", "free", "neither a number nor pinned, welded or fixed"),
        ("end_b", "fre", "neither a number nor pinned, welded, fixed or free; did you mean 'free'?"),
        ("column_curve", "jonson", f"not known: use {CURVES}; did you mean 'johnson'?"),
        ("column_curve", "3", f"not known: use {CURVES}"),
        ("bow_shape", "banana", "not known: use sine, arc or kink"),
    ]

    def test_words(self):
        for column, value, what in self.WORDS:
            self.bad_row({column: value}, f"{column}: '{value}' is {what}")

    def test_a_stiffness_needs_its_unit(self):
        units = "in-lbf/rad, in-lbf/deg or N-m/rad"
        for column in "end_a", "end_b":
            self.bad_row({column: "5000"}, f"{column}: '5000' has no unit: name it in the header, {units}, as in "
                                           f"'{column} [in-lbf/rad]'")

    # two columns of one row that do not fit together
    TOGETHER = [
        ({"wall [in]": "0.626"}, "wall: must be above 0 and at most half of od (a solid bar)"),
        ({"point_at [in]": "24.001"}, "point_at: must lie between 0 and the length"),
        ({"bow_at [in]": "24"}, "bow_at: must lie between 0 and the length, and equal neither"),
        ({"weld_zone [in]": "24.001"}, "weld_zone: must lie between 0 and the length"),
        ({"dressed [in]": "0.058"}, "dressed: must be at least 0 and less than the wall"),
        ({"end_b": "free"}, "end_a: must be fixed or a stiffness above 0 where end_b is free"),
        ({"end_b": "free", "end_a": "welded"}, "end_a: must be fixed or a stiffness above 0 where end_b is free"),
        ({"end_b": "free", "end_a [in-lbf/rad]": "0"},
         "end_a: must be fixed or a stiffness above 0 where end_b is free"),
        ({"end_b": "free", "end_a": "fixed", "miss_b [in]": "0.01"},
         "miss_b: must be 0 where end_b is free: there is no landing"),
        ({"end_b": "free", "end_a": "fixed", "gap [in]": "-0.01"},
         "gap: must be 0 where end_b is free: nothing closes it"),
        ({"end_a": "fixed", "miss_a [in]": f"{REACH + 1e-4:.6f}"},
         "miss_a: is a slope of more than 10 deg: outside the model's range"),
        ({"end_b": "fixed", "miss_b [in]": f"{REACH + 1e-4:.6f}"},
         "miss_b: is a slope of more than 10 deg: outside the model's range"),
        ({"miss_a [in]": "0.01"}, "miss_a: " + NOT_HELD.format("end_a")),
        ({"end_a": "welded", "miss_b [in]": "0.01"}, "miss_b: " + NOT_HELD.format("end_b")),
        # steepest slope of a half wave, pi bow/L; of a parabola, 4 bow/L; of a kink, bow over the shorter piece
        ({"bow [in]": f"{REACH / math.pi + 1e-4:.6f}"}, STEEP_BOW),
        ({"bow [in]": f"{REACH / 4 + 1e-4:.6f}", "bow_shape": "arc"}, STEEP_BOW),
        ({"bow [in]": f"{REACH / 2 + 1e-4:.6f}", "bow_shape": "kink"}, STEEP_BOW),
        ({"bow [in]": f"{REACH / 4 + 1e-4:.6f}", "bow_shape": "kink", "bow_at [in]": "18"}, STEEP_BOW),
        # 0.45 E/Fy is 174 for 75 ksi, and 217.5 in a weld zone of 60 ksi
        ({"od [in]": "10.0921"}, "wall: " + THIN),
        ({"dressed [in]": "0.0528"}, "dressed: leaves a wall too thin: D/t may be at most 0.45 E/Fy (AISC 360-16 E7)"),
        ({"weld_zone [in]": "1", "dressed [in]": "0.0528"},
         "dressed: leaves a wall too thin: D/t may be at most 0.45 E/Fy (AISC 360-16 E7)"),
    ]
    NEARLY = [
        {"wall [in]": "0.625"}, {"point_at [in]": "24"}, {"bow_at [in]": "23.999"}, {"weld_zone [in]": "24"},
        {"dressed [in]": "0.0579", "weld_zone [in]": "0"}, {"end_b": "free", "end_a": "fixed"}, {"end_b": "free", "end_a [in-lbf/rad]": "1"},
        {"end_a": "fixed", "miss_a [in]": f"{REACH - 1e-4:.6f}"}, {"end_b": "welded", "miss_b [in]": f"{REACH - 1e-4:.6f}"},
        {"bow [in]": f"{REACH / math.pi - 1e-4:.6f}"}, {"bow [in]": f"{REACH / 4 - 1e-4:.6f}", "bow_shape": "arc"},
        {"bow [in]": f"{REACH / 2 - 1e-4:.6f}", "bow_shape": "kink"},
        {"bow [in]": f"{REACH / 4 - 1e-4:.6f}", "bow_shape": "kink", "bow_at [in]": "18"},
        {"od [in]": "10.0919"}, {"weld_zone [in]": "1", "dressed [in]": "0.0527"},
    ]

    def test_columns_that_do_not_fit_together(self):
        for changes, said in self.TOGETHER:
            self.bad_row(changes, said)

    def test_columns_that_just_fit_together(self):
        for changes in self.NEARLY:
            with self.subTest(**changes):
                self.cases(changes)
                run = self.check()
                self.assertEqual((run.err, run.names), ("", ["rail"]))

    def test_a_wall_too_thin_everywhere_is_said_once(self):
        self.bad_row({"od [in]": "20", "weld_zone [in]": "1"}, "wall: " + THIN)

    def test_all_faults_of_a_row_are_named(self):
        self.bad_row({"od [in]": "-1", "length [in]": "two"}, "od: '-1' is out of range: must be above 0",
                     "length: 'two' is not a number")
        self.bad_row({"case": "", "wall [in]": "", "factor": "0"}, "case: is empty: a value is needed",
                     "wall: is empty: a value is needed", "factor: '0' is out of range: must be above 0")
        self.bad_row({"point_at [in]": "25", "dressed [in]": "0.06", "miss_a [in]": "9", "end_a": "fixed"},
                     "point_at: must lie between 0 and the length",
                     "miss_a: is a slope of more than 10 deg: outside the model's range",
                     "dressed: must be at least 0 and less than the wall")

    def test_a_required_cell_is_not_empty(self):
        for column in PLAIN:
            self.bad_row({column: ""}, f"{column.split(' [')[0]}: is empty: a value is needed")

    def test_materials(self):
        names = "4130, 4130-125, 4130-150, 4130-180, 1025"
        file = self.installed.materials
        self.bad_row({"material": "chromoly"}, f"material: 'chromoly' is not in {file}, which has {names}")
        self.bad_row({"material": "chromoly", "point_at [in]": "25"},
                     f"material: 'chromoly' is not in {file}, which has {names}",
                     "point_at: must lie between 0 and the length")
        # a long name is cut between letters, not within one
        self.bad_row({"material": "a" + "\u00e9" * 60},
                     f"material: 'a{39 * chr(0xe9)}'... is not in {file}, which has {names}")

    def test_a_wall_that_no_row_serves(self):
        self.file("m.csv", "material,wall_over [in],wall_up_to [in],elastic_modulus [ksi],density [lb/in^3],"
                           "yield [ksi]\n4130,,0.058,29000,0.283,75\n4130,0.1,0.2,29000,0.283,70\n")
        self.bad_row({"wall [in]": "0.1"}, "wall: 4130 serves no wall of 0.1 in, only over 0 up to 0.058 or over "
                                           "0.1 up to 0.2 in (m.csv)", words=["--materials", "m.csv"])

    # lines between a good row and another, and what is said of them
    BROKEN = [
        (b"a\0b,1.25,0.058,4130,24\n", "3: case: 'a\\x00b' has a NUL byte in it"),
        (b"a,1.25\0,0.058,4130,24\n", "3: od: '1.25\\x00' has a NUL byte in it"),
        (b"a\xff,1.25,0.058,4130,24\n", "3: case: 'a\\xFF' is not UTF-8"),
        (b"a,1.25,0.058,4130,\xb24\n", "3: length: '\\xB24' is not UTF-8"),
        (b"a,1.25,0.058,4130\n", "3: has 4 cells where the header has 5"),
        (b"a\n", "3: has 1 cell where the header has 5"),
        (b"a,1.25,0.058,4130,24,\n", "3: has 6 cells where the header has 5"),
        (b"a,1,25,0,058,4130,24\n", "3: has 7 cells where the header has 5"),
        (b'1 1/4" rail,1.25,0.058,4130,24\n', "3: case: a quote in a cell that does not begin with one: leave an "
                                              "inch mark out, the unit stands in the header; a text with a quote "
                                              "stands in quotes, with those in it doubled"),
        (b'"a"b,1.25,0.058,4130,24\n', "3: case: there is text behind the closing quote: a quote in a cell is doubled"),
        (b'"a\nb",1.25,-1,4130,24\n', "3: wall: '-1' is out of range: must be above 0"),
        (b"\n\n# no comment,1.25,x,4130,24\n", "5: wall: 'x' is not a number"),
    ]

    def test_broken_rows(self):
        for line, said in self.BROKEN:
            with self.subTest(line=line):
                good = HEADER.encode() + b"\n" + ROW.replace("rail", "before").encode() + b"\n"
                self.answered(good + line + ROW.replace("rail", "after").encode(), [said])

    def test_a_quote_that_is_never_closed(self):
        self.answered(f'{HEADER}\n{ROW}\nb,1.25,0.058,4130,"24\n{ROW}\n',
                      ["3: length: the quote opened here is never closed; lines 3 to 4 are lost"], ["rail"])


class Status(ProgramTest):
    def test_the_verdicts(self):
        bad = {"od [in]": "0"}
        for rows, status in [((HOLDS,), 0), ((HOLDS, SHORT), 1), ((SHORT, HOLDS), 1), ((HOLDS, bad), 2),
                             ((bad, HOLDS), 2), ((SHORT, bad), 2), ((bad, SHORT), 2), ((bad,), 2)]:
            with self.subTest(rows=rows):
                self.cases(*rows)
                for form in "csv", "json", "text":
                    self.assertEqual(self.check("cases.csv", "--format", form).status, status)

    def test_a_margin_of_nothing_holds(self):
        # The shoulder: the factor asked for is the yield factor itself.
        pull = {"compression [lbf]": "-1000"}
        self.cases(pull)
        factor = self.check("cases.csv", "--format", "json").json["rows"][0]["yield_factor"]
        # the answer's last digit may have been rounded up
        for asked, status, verdict in (factor * (1 - 1e-13), 0, "holds"), (factor * (1 + 1e-9), 1, "short"):
            self.cases({**pull, "factor": repr(asked)})
            run = self.check()
            self.assertEqual((run.status, run.rows[0]["verdict"]), (status, verdict))


if __name__ == "__main__":
    run_tests()
