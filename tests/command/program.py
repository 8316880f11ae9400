"""Shared by the tests of the program: running it, its output, and input files.

The program under test is that of the build tree, which takes its materials from the sources. It is copied, for tests that
give up root's rights. Each test gets an empty folder of its own, in which the program runs; no other place is written."""

import csv
import io
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
import typing
import unittest

SANITIZED = os.environ.get("RAILBOW_SANITIZED") == "1"

# One plain case: the least that a row must say. No load: it holds.
PLAIN = {"case": "rail", "od [in]": "1.25", "wall [in]": "0.058", "material": "4130", "length [in]": "24"}
HEADER = ",".join(PLAIN)
ROW = ",".join(PLAIN.values())
HOLDS = {"compression [lbf]": "1000"}
SHORT = {"compression [lbf]": "20000"}

# The columns, in the order in which the format says them.
CASE_COLUMNS = """case note part od wall material length end_a end_b column_curve compression eccentricity
    eccentricity_clock moment_a moment_b moment_clock point_load point_at point_clock spread_load spread_clock
    vertical_g slope torque bow bow_clock bow_shape bow_at miss_a miss_a_clock miss_b miss_b_clock gap
    gap_stiffness weld_zone dressed factor factor_yield cycles cycle_low cycle_high""".split()
MATERIAL_COLUMNS = """material wall_over wall_up_to elastic_modulus shear_modulus density yield compression_yield
    ultimate weld_yield column_intercept column_curve source""".split()
RESULT_COLUMNS = """case,od [in],wall [in],material,verdict,margin,governs,margin_as_built,margin_unforced,
    margin_best,joints_taken,bow_clock_taken [deg],miss_a_clock_taken [deg],miss_b_clock_taken [deg],fit_taken,
    yield_factor,column_factor,interaction_factor,area [in^2],inertia [in^4],section_modulus [in^3],radius [in],weight [lb],
    wall_reduction,critical_load [lbf],effective_length [in],slenderness,column_stress [psi],column_load [lbf],
    fit_axial [lbf],fit_moment [in-lbf],fit_stress [psi],axial [lbf],peak_moment [in-lbf],peak_moment_at [in],
    peak_stress [psi],stress_use,deflection [in],deflection_clock [deg],remarks,note""".replace("\n    ", "")
SECTION_COLUMNS = ("od [in],wall [in],bore [in],area [in^2],inertia [in^4],section_modulus [in^3],"
                   "plastic_modulus [in^3],polar_inertia [in^4],radius [in],weight_per_length [lb/ft],"
                   "diameter_to_wall")
TOLERANCE_COLUMNS = "column minus plus unit shape".split()
COMPARE_COLUMNS = "case od wall weight weight_change stiffness_change margin governs verdict pick".split()
SWEEP_COLUMNS = """margin governs verdict yield_factor column_factor interaction_factor fit_stress peak_stress
    deflection""".split()
LIMIT_COLUMNS = "case column limit now room state".split()
INDEX_COLUMNS = "case part margin_as_marked best_clock best_margin worst_clock worst_margin".split()
SCATTER_COLUMNS = """case samples refused short_share short_low short_high margin_mean margin_sd margin_p01 margin_p05
    margin_p50 margin_p95 driver driver_share""".split()
SI = {"in": "mm", "lbf": "N", "psi": "MPa", "in-lbf": "N-mm", "lb": "kg", "lb/ft": "kg/m", "in^2": "mm^2",
      "in^3": "mm^3", "in^4": "mm^4", "deg": "deg", "rad": "rad"}

CAUTION = ["no substitute for the rule book, local codes and a licensed engineer",
           "covers fatigue only as the command life estimates it, and does not cover cracks, weld defects, dents or impact"]


def glossary(shown):
    """What `help words` prints, as {word: meaning}."""
    entries = {}
    for line in shown.split("\n\n")[1].splitlines():
        if not line.startswith(" "):
            word, _, line = line.partition("  ")
            entries[word] = []
        entries[word].append(line.strip())
    return {word: " ".join(lines) for word, lines in entries.items()}


def name_and_unit(column):
    """'length [in]' -> ('length', 'in'); 'factor' -> ('factor', '')."""
    name, _, rest = column.partition(" [")
    return name, rest.rstrip("]")


def in_si(columns):
    """A header of results as --units si writes it."""
    parts = [name_and_unit(column) for column in columns.split(",")]
    return ",".join(f"{name} [{SI[unit]}]" if unit else name for name, unit in parts)


def table(*rows, quoting=csv.QUOTE_MINIMAL):
    """A CSV file: each row is PLAIN with some columns changed, added, or (if None) left out of the file."""
    rows = [{**PLAIN, **row} for row in rows]
    columns = list(dict.fromkeys(c for row in rows for c, value in row.items() if value is not None))
    text = io.StringIO()
    writer = csv.DictWriter(text, columns, restval="", extrasaction="ignore", lineterminator="\n",
                            quoting=quoting)
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()


def joined(text):
    return " ".join(text.split())


class Run(typing.NamedTuple):
    out: str
    err: str
    status: int

    @property
    def rows(self):
        return list(csv.DictReader(io.StringIO(self.out, newline="")))

    @property
    def names(self):
        return [row["case"] for row in self.rows]

    @property
    def json(self):
        return json.loads(self.out, parse_constant=lambda word: self.fail_on(word))

    @staticmethod
    def fail_on(word):
        raise ValueError(f"{word} is not JSON")


class Installed:
    """The copy of the program."""

    def __init__(self, program, source):
        self.source = pathlib.Path(source).resolve()
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="railbow-test-")).resolve()
        self.folder.chmod(0o755)  # other users too, for the tests that give up root's rights
        self.program = self.folder / "bin" / "railbow"
        self.materials = self.source / "materials" / "steel_tube.csv"
        self.program.parent.mkdir()
        shutil.copy2(program, self.program)

    def remove(self):
        shutil.rmtree(self.folder, ignore_errors=True)


def environment(**changes):
    """Our environment, without the variables that change the program's output; None removes a variable."""
    plain = {"NO_COLOR": None, "TERM": "xterm", **changes}
    kept = {name: value for name, value in os.environ.items() if name not in plain}
    return {**kept, **{name: value for name, value in plain.items() if value is not None}}


class ProgramTest(unittest.TestCase):
    installed = None  # set by run_tests
    maxDiff = None

    def setUp(self):
        self.folder = pathlib.Path(tempfile.mkdtemp(dir=self.installed.folder))
        self.folder.chmod(0o777)
        self.addCleanup(shutil.rmtree, self.folder, ignore_errors=True)

    def file(self, name, content):
        path = self.folder / name
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return path

    def cases(self, *rows, name="cases.csv", **how):
        self.file(name, table(*rows, **how))

    def other_commands(self):
        """Every command except check that writes rows, with arguments that take little time."""
        self.cases({**HOLDS, "bow [in]": "0.02"}, name="bowed.csv")
        self.file("tolerances.csv", "column,minus,plus,unit,shape\nwall,10,10,%,normal\n")
        shop = self.installed.source / "cases"
        studies = [["compare", "--walls", "0.058,0.065"], ["sweep", "--vary", "length=20:40:20"],
                   ["limit", "--find", "bow", "--to", "2in"], ["index"],
                   ["scatter", "--tolerances", "tolerances.csv", "--samples", "64"]]
        return [[*words, "--jobs", "1", "bowed.csv"] for words in studies] + [
            ["inspect", "--spec", shop / "spec.csv", "--cases", shop / "parts.csv", shop / "readings.csv"],
            ["life", "--jobs", "1", "--details", shop / "life_details.csv", shop / "life.csv"],
            ["release", shop / "cuts.csv"], ["pull", "--steps", "4", shop / "horns.csv"], ["sight", shop / "sight.csv"],
            ["sticks", shop / "sticks_parts.csv", "--stock", shop / "sticks_stock.csv"]]

    def read(self, name):
        return (self.folder / name).read_text(encoding="utf-8")

    def listing(self):
        return sorted(path.name for path in self.folder.iterdir())

    def start(self, *words, program=None, **more):
        more = {"cwd": self.folder, "env": environment(), "stdin": subprocess.DEVNULL, "stdout": subprocess.PIPE,
                "stderr": subprocess.PIPE, **more}
        process = subprocess.Popen([program or self.installed.program, *map(str, words)], **more)
        self.addCleanup(self.put_down, process)
        return process

    @staticmethod
    def put_down(process):
        if process.poll() is None:
            process.kill()
            process.wait()
        for stream in (process.stdin, process.stdout, process.stderr):
            if stream is not None:
                stream.close()

    def run_program(self, *words, stdin=None, **more):
        if stdin is not None:
            more["stdin"] = subprocess.PIPE
        process = self.start(*words, **more)
        given = stdin.encode() if isinstance(stdin, str) else stdin
        out, err = process.communicate(given, timeout=120)
        return Run((out or b"").decode(), (err or b"").decode(), process.returncode)

    def check(self, *words, **more):
        return self.run_program("check", *(words or ("cases.csv",)), **more)

    def assertRun(self, run, status, err="", out=None):
        """`err` as its lines, without 'railbow: '."""
        lines = [err] if isinstance(err, str) and err else list(err)
        said = "".join(f"railbow: {line}\n" for line in lines)
        self.assertEqual((run.err, run.status), (said, status))
        if out is not None:
            self.assertEqual(run.out, out)


def run_tests():
    """The tests of the file that was started. Usage: test_X.py PROGRAM SOURCE_DIR [CLASS[.TEST]...]

    RAILBOW_SANITIZED=1 says that the program was built with a sanitizer: memory is then not measured."""
    if len(sys.argv) < 3:
        sys.exit(run_tests.__doc__)
    program, source, *names = sys.argv[1:]
    main, loader = sys.modules["__main__"], unittest.TestLoader()
    classes = [c for c in vars(main).values() if isinstance(c, type) and issubclass(c, ProgramTest) and c.__module__ == "__main__"]
    tests = loader.loadTestsFromNames(names, main) if names else unittest.TestSuite(map(loader.loadTestsFromTestCase, classes))
    ProgramTest.installed = Installed(program, source)
    try:
        result = unittest.TextTestRunner().run(tests)
    finally:
        ProgramTest.installed.remove()
    sys.exit(not result.wasSuccessful() or result.testsRun == 0)
