"""The materials table: faults, defaults, and where the program finds it."""

import hashlib
import json
import shutil

from program import HEADER, HOLDS, ROW, ProgramTest, environment, run_tests, table

LEAST = "material,elastic_modulus [ksi],density [lb/in^3],yield [ksi]"
STEEL = "4130,29000,0.283,75"


class Faults(ProgramTest):
    # the file, then what is said
    FILES = [
        ("", "m.csv: has no header row"),
        ("# nothing\n", "m.csv: has no header row"),
        (LEAST + "\n", "m.csv: has a header but no row"),
        ("material,source\n4130,a book\n", "m.csv:1: elastic_modulus, density and yield are missing"),
        (f"{LEAST},youngs [ksi]\n{STEEL},1\n", "m.csv:1: unknown column 'youngs'"),
        (f"{LEAST},yeild [ksi]\n{STEEL},1\n", "m.csv:1: unknown column 'yeild'; did you mean 'yield'?"),
        (f"{LEAST.replace('[lb/in^3]', '[lb]')}\n{STEEL}\n",
         "m.csv:1: density: 'lb' is not a unit for it: use lb/in^3 or kg/m^3"),
        (f"{LEAST}\n{STEEL}\n4130-x,0,-1,inf\n", "m.csv:3: elastic_modulus: '0' is out of range: must be above 0",
         "m.csv:3: density: '-1' is out of range: must be above 0", "m.csv:3: yield: 'inf' is not a finite number"),
        (f"{LEAST},weld_yield [ksi],ultimate [ksi]\n{STEEL},0,-1\n",
         "m.csv:2: weld_yield: '0' is out of range: must be above 0",
         "m.csv:2: ultimate: '-1' is out of range: must be above 0"),
        (f"{LEAST},wall_over [in],wall_up_to [in]\n{STEEL},-1,0\n",
         "m.csv:2: wall_over: '-1' is out of range: must be at least 0",
         "m.csv:2: wall_up_to: '0' is out of range: must be above 0"),
        (f"{LEAST},wall_over [in],wall_up_to [in]\n{STEEL},0.1,0.1\n", "m.csv:2: wall_up_to: must be above wall_over"),
        (f"{LEAST},wall_over [in],wall_up_to [in]\n{STEEL},0.2,0.1\n", "m.csv:2: wall_up_to: must be above wall_over"),
        (f"{LEAST}\n{STEEL}\n{STEEL}\n", "m.csv: material: '4130' stands in two rows whose walls overlap"),
        (f"{LEAST},wall_over [in],wall_up_to [in]\n{STEEL},,0.1\n{STEEL},0.09,\n",
         "m.csv: material: '4130' stands in two rows whose walls overlap"),
        (f"{LEAST},column_curve\n{STEEL},parabola\n",
         "m.csv:2: column_curve: 'parabola' is not known: use johnson, three-halves, euler, aisc, en-a0, en-a, en-b, "
         "en-c or en-d"),
    ]

    def test_faults(self):
        self.cases({})
        for content, *said in self.FILES:
            with self.subTest(content=content):
                self.file("m.csv", content)
                self.assertRun(self.check("cases.csv", "--materials", "m.csv"), 2, said, "")
                self.assertRun(self.run_program("section", "1x0.05", "--materials", "m.csv"), 2, said, "")

    def test_no_such_table_leaves_the_old_answer(self):
        self.cases({})
        self.file("answer.csv", "old")
        run = self.check("cases.csv", "--materials", "no.csv", "-o", "answer.csv")
        self.assertRun(run, 2, "no.csv: cannot read: No such file or directory", "")
        self.assertEqual(self.read("answer.csv"), "old")

    def test_walls_that_meet_do_not_overlap(self):
        self.file("m.csv", f"{LEAST},wall_over [in],wall_up_to [in]\n{STEEL},,0.1\n4130,29000,0.283,70,0.1,\n")
        self.cases({"wall [in]": "0.1"}, {"wall [in]": "0.1001"})
        run = self.check("cases.csv", "--materials", "m.csv")
        self.assertRun(run, 0)

    def test_a_name_in_several_rows_is_listed_once(self):
        self.file("m.csv", f"{LEAST},wall_over [in],wall_up_to [in]\n{STEEL},,0.1\nplain,29000,0.283,36,,\n"
                           f"{STEEL},0.1,\n")
        self.cases({"material": "bronze"})
        self.assertRun(self.check("cases.csv", "--materials", "m.csv"), 2,
                       "cases.csv:2: material: 'bronze' is not in m.csv, which has 4130, plain")


class Defaults(ProgramTest):
    # A case in which every strength of the table counts: squat three-halves column, weld zone, torque, bow.
    CASES = [{"column_curve": curve, "length [in]": length, "compression [lbf]": "3000", "torque [in-lbf]": "500",
              "end_a": "welded", "weld_zone [in]": zone, "bow [in]": "0.02"}
             for curve in ("", "three-halves") for length in ("6", "24") for zone in ("", "1")]

    def answers(self, columns, values):
        self.cases(*self.CASES)
        self.file("m.csv", f"{LEAST}{columns}\n{STEEL}{values}\n")
        return self.check("cases.csv", "--materials", "m.csv")

    def test_what_is_left_out_is_as_the_format_says(self):
        plain = self.answers("", "")
        self.assertEqual(plain.err, "")
        shear = repr(29000 / 2.6)
        for columns, values in [
                (",shear_modulus [ksi]", "," + shear), (",compression_yield [ksi]", ",75"),
                (",weld_yield [ksi]", ",75"), (",column_intercept [ksi]", ",75"), (",column_curve", ",johnson"),
                (",wall_over [in]", ",0"), (",wall_up_to [in]", ",10"), (",ultimate [ksi]", ",95"),
                (",source", ",a book"), (",compression_yield [ksi],weld_yield [MPa],source", ",,,")]:
            with self.subTest(columns=columns):
                self.assertRun(self.answers(columns, values), plain.status, out=plain.out)

    def test_what_is_given_counts(self):
        plain = self.answers("", "").out
        for column, value in ((",compression_yield [ksi]", ",60"), (",weld_yield [ksi]", ",40"),
                              (",column_intercept [ksi]", ",70"), (",column_curve", ",aisc")):
            with self.subTest(column=column):
                self.assertNotEqual(self.answers(column, value).out, plain)

    def test_an_intercept_follows_the_compression_yield(self):
        both = self.answers(",compression_yield [ksi],column_intercept [ksi]", ",60,60")
        self.assertEqual(self.answers(",compression_yield [ksi]", ",60").out, both.out)


class Place(ProgramTest):
    """The table is found in one folder, wherever the program stands and is run."""

    def found(self, program, **more):
        """Which table it is stands in the message on a material that is in none."""
        run = self.check("-", stdin=f"{HEADER}\n{ROW.replace('4130', 'bronze')}\n", program=program, **more)
        names = "4130, 4130-125, 4130-150, 4130-180, 1025"
        self.assertRun(run, 2, f"stdin:2: material: 'bronze' is not in {self.installed.materials}, which has {names}")

    def test_from_another_folder_by_a_relative_path(self):
        (self.folder / "far").mkdir()
        self.found("../../bin/railbow", cwd=self.folder / "far")

    def test_by_a_link_and_by_the_search_path(self):
        (self.folder / "rb").symlink_to(self.installed.program)
        self.found("./rb")
        self.found("railbow", env=environment(PATH=str(self.installed.program.parent)))

    def test_no_other_table_is_picked(self):
        (self.folder / "bin").mkdir()
        program = shutil.copy2(self.installed.program, self.folder / "bin" / "railbow")
        for place in "materials", "share/railbow/materials", "bin/materials", "bin/share/railbow/materials":
            (self.folder / place).mkdir(parents=True)
            self.file(f"{place}/steel_tube.csv", "nonsense\n")
        self.found(program)
        self.found(program, cwd=self.folder / "bin")
        self.found(program, env=environment(RAILBOW_DATA=str(self.folder), XDG_DATA_DIRS=str(self.folder / "share")))


class Told(ProgramTest):
    """JSON and the page say which table was used, and what else the answer rests on."""

    def setUp(self):
        super().setUp()
        self.cases(HOLDS)
        self.file("m.csv", f"{LEAST}\n{STEEL}\n")
        self.digest = hashlib.sha256((self.folder / "m.csv").read_bytes()).hexdigest()

    def test_the_installed_table(self):
        told = self.check("cases.csv", "--format", "json").json["materials"]
        self.assertEqual(told, {"file": str(self.installed.materials),
                                "sha256": hashlib.sha256(self.installed.materials.read_bytes()).hexdigest()})

    def test_another_one_in_every_answer(self):
        told = {"file": "m.csv", "sha256": self.digest}
        for words in (["check", "cases.csv"], ["section", "1x0.05", "--material", "4130"], ["explain", "cases.csv", "rail"],
                      ["index", "cases.csv"], ["compare", "cases.csv", "--walls=0.058"]):
            with self.subTest(words=words):
                answer = self.run_program(*words, "--materials", "m.csv", "--format", "json").json
                self.assertEqual(answer["materials"], told)
                self.assertEqual(answer["version"], self.run_program("--version").out.split()[1])
                self.assertEqual(answer["refused"], 0)

    def test_the_bytes_count(self):
        self.file("m.csv", f"{LEAST}\r\n{STEEL}\r\n# never\n".replace("# never\n", ""))
        self.assertNotEqual(self.check("cases.csv", "--materials", "m.csv", "--format", "json").json["materials"]["sha256"],
                            self.digest)

    def test_inputs_and_command(self):
        self.file("t.csv", "column,minus,plus,unit\nwall,1,1,%\n")
        run = self.run_program("scatter", "cases.csv", "-", "--tolerances=t.csv", "--samples", "64", "--jobs", "2", "-o", "x",
                               "--format", "json", "--report", "p.html", stdin=self.read("cases.csv"))
        self.assertRun(run, 0)
        answer = json.loads(self.read("x"))
        self.assertEqual(answer["inputs"], ["cases.csv", "stdin", "t.csv"])
        self.assertEqual(answer["command"], ["railbow", "scatter", "--tolerances", "t.csv", "--samples", "64", "cases.csv", "-"])
        page = self.read("p.html")
        digest = {name: hashlib.sha256((self.folder / name).read_bytes()).hexdigest() for name in ("cases.csv", "t.csv")}
        digest["stdin"] = digest["cases.csv"]
        for words in (["<dt>Version</dt><dd>" + answer["version"]],
                      ["<dt>Command</dt><dd>railbow scatter --tolerances t.csv --samples 64 cases.csv -</dd>"],
                      [f'<dt>Materials</dt><dd>{self.installed.materials}<br/><span class="digest">SHA-256 {answer["materials"]["sha256"]}</span>'],
                      *([f'<dt>Input</dt><dd>{name}<br/><span class="digest">SHA-256 {digest[name]}</span>'] for name in answer["inputs"])):
            self.assertIn(words[0], page)

    def test_a_list_that_stands_apart(self):
        answer = self.run_program("compare", "cases.csv", "--walls", "0.058,0.065", "--format", "json").json
        self.assertEqual(answer["command"], ["railbow", "compare", "--walls", "0.058,0.065", "cases.csv"])

    def test_what_was_refused(self):
        self.cases({**HOLDS, "bow [in]": "0"}, {"od [in]": "0"}, {"material": "gold"}, {"wall [in]": "x"})
        for words in (["check"], ["index"], ["compare", "--walls=0.058"], ["sweep", "--vary", "bow=0:0.1:0.1"],
                      ["limit", "--find", "bow", "--to", "0.1"]):
            with self.subTest(words=words):
                run = self.run_program(*words, "cases.csv", "--format", "json")
                self.assertEqual((run.json["refused"], run.status), (3, 2))
        run = self.check("cases.csv", "no.csv", "cases.csv", "--format", "json")
        self.assertEqual((run.json["refused"], run.status), (7, 2))
        run = self.run_program("section", "1x0.05", "1x0.9", "what", "--format", "json")
        self.assertEqual((run.json["refused"], run.status), (2, 2))
        run = self.run_program("explain", "cases.csv", "rail", "--format", "json")
        self.assertEqual(run.status, 2)

    def test_what_was_refused_in_the_shop(self):
        shop = self.installed.source / "cases"
        self.file("readings.csv", (shop / "readings.csv").read_text() + "x,no such part,od,0,1\ny,p,odd,0,0\n")
        run = self.run_program("inspect", "--spec", shop / "spec.csv", "readings.csv", "--format", "json")
        self.assertEqual((run.json["refused"], run.status), (2, 2))


if __name__ == "__main__":
    run_tests()
