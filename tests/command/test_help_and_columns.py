"""help and columns: they list every command, option, column, unit and word of the trade."""

import csv
import io
import re

from frame import ARCH_COLUMNS, JOINT_COLUMNS, RUN_COLUMNS, TUBE_COLUMNS
from program import (CASE_COLUMNS, CAUTION, MATERIAL_COLUMNS, RESULT_COLUMNS, SECTION_COLUMNS, ProgramTest,
                     glossary, joined, name_and_unit, run_tests)
from units import UNITS

COMMANDS = ["new", "check", "explain", "section", "cases", "columns", "help"]
OUTPUT_OPTIONS = ["-o, --output FILE", "--format text|csv|json", "--units us|si", "--materials FILE"]
OPTIONS = {
    "new": ["--all", "--frame", "--details", "--units us|si", "-h, --help"],
    "explain": OUTPUT_OPTIONS + ["--details FILE", "--factor N", "--case PATTERN", "--part PATTERN", "--row N", "--set COLUMN=VALUE", "--report FILE", "--view AZIMUTH,ELEVATION", "--title TEXT", "--by TEXT",
                "--note TEXT", "--date TEXT", "-h, --help"],
    "check": OUTPUT_OPTIONS + ["--of tubes|joints|runs|arch|details", "--details FILE", "--arch RUN", "--tube PATTERN", "--all", "--factor N", "--case PATTERN", "--part PATTERN", "--row N", "--set COLUMN=VALUE", "--report FILE", "--view AZIMUTH,ELEVATION", "--title TEXT", "--by TEXT",
              "--note TEXT", "--date TEXT", "--pages short|all", "--working", "--live", "--jobs N", "-h, --help"],
    "cases": OUTPUT_OPTIONS + ["--factor N", "--case PATTERN", "--part PATTERN", "--row N", "--set COLUMN=VALUE", "--report FILE", "--view AZIMUTH,ELEVATION",
                               "--title TEXT", "--by TEXT", "--note TEXT", "--date TEXT", "--jobs N", "-h, --help"],
    "section": OUTPUT_OPTIONS + ["--material NAME", "--walls LIST", "--ods LIST", "-h, --help"],
    "columns": ["-h, --help"],
    "help": ["-h, --help"],
}


class Help(ProgramTest):
    def test_the_program(self):
        run = self.run_program("help")
        self.assertRun(run, 0)
        for name in COMMANDS:
            self.assertRegex(run.out, rf"(?m)^  {name} +\w")
        for word in ["--version", "railbow help COMMAND", "railbow help words", "Exit status: 0", *CAUTION]:
            self.assertIn(word, joined(run.out))
        for words in (["--help"], ["-h"]):
            self.assertRun(self.run_program(*words), 0, out=run.out)

    def test_every_command(self):
        for name in COMMANDS:
            with self.subTest(command=name):
                run = self.run_program("help", name)
                self.assertRun(run, 0)
                self.assertTrue(run.out.startswith(f"railbow {name}: "))
                listed = re.findall(r"(?m)^  (-.*?)(?:  |$)", run.out)
                self.assertCountEqual([option.strip() for option in listed], OPTIONS[name])
                for word in ["Usage: railbow " + name, "Example: railbow ", *CAUTION]:
                    self.assertIn(word, joined(run.out))
                self.assertRun(self.run_program(name, "--help"), 0, out=run.out)
                self.assertRun(self.run_program(name, "-h"), 0, out=run.out)

    def test_frames(self):
        run = self.run_program("help", "frame")
        self.assertRun(run, 0, out=run.out)
        subjects = [line.split("  ")[0] for line in run.out.split("\n\n")[1].splitlines() if line[0] != " "]
        self.assertEqual(subjects, ["tables", "directions", "clocks", "joints", "loads", "forced fit", "unknown bows", "checks", "buckling",
                                    "arch", "answer", "cuts", "decisions", "errors", "left out"])
        for word in "critical_factor", "path_end", "near frame buckling", "Shear", "size of joints", *CAUTION:
            self.assertIn(word, joined(run.out))
        for column in re.findall(r"\b[a-z]+_[a-z]+\b", run.out):
            self.assertIn(f"\n{column} ", self.run_program("help", "check").out)

    def test_the_words_of_the_trade(self):
        run = self.run_program("help", "words")
        self.assertRun(run, 0)
        words = list(glossary(run.out))
        self.assertEqual(words, sorted(words))
        for word in ["bow", "clock", "column load", "dressed", "fixity", "horn", "interaction", "landing", "load factor",
                     "margin", "miss", "orientation", "socket", "unforced", "utilisation", "wall reduction", "weld zone"]:
            self.assertIn(word, words)
        self.assertIn(CAUTION[0], joined(run.out))
        self.assertRun(self.run_program("help", "words", "check"), 2,
                       "help: takes one command, but 'check' follows it; see 'railbow help'", "")

    def test_no_line_is_wide_or_ends_in_a_blank(self):
        for words in [["help"], ["help", "frame"], ["help", "words"], ["columns"], *(["help", name] for name in COMMANDS)]:
            for line in self.run_program(*words).out.splitlines():
                with self.subTest(words=words, line=line):
                    self.assertLessEqual(len(line), 80)
                    self.assertEqual(line, line.rstrip())


class Columns(ProgramTest):
    REQUIRED = {"Load cases": {"case", "od", "wall", "material", "length"},
                "Materials": {"material", "elastic_modulus", "density", "yield"},
                "Joints of a frame (joints.csv)": {"joint", "x", "y", "z"},
                "Tubes of a frame (tubes.csv)": {"tube", "from", "to", "od", "wall", "material"},
                "Loads of a frame (loads.csv)": {"run"}}
    LISTS = {
        "Load cases": CASE_COLUMNS,
        "Materials": MATERIAL_COLUMNS,
        "Results of check": [name_and_unit(column)[0] for column in RESULT_COLUMNS.split(",")],
        "Joints of a frame (joints.csv)": "joint x y z held mass note".split(),
        "Tubes of a frame (tubes.csv)": """tube part from to od wall material end_a end_b column_curve fixity bow bow_clock bow_shape bow_at
            miss_a miss_a_clock miss_b miss_b_clock gap weld_zone dressed note""".split(),
        "Loads of a frame (loads.csv)": """run joint tube force_x force_y force_z moment_x moment_y moment_z at spread_x spread_y spread_z
            vertical_g forward_g left_g factor factor_yield cycles cycle_low cycle_high note""".split(),
        "Results of check on a frame: tubes": [name_and_unit(column)[0] for column in TUBE_COLUMNS.split(",")],
        "Results of check on a frame: joints (--of joints)": [name_and_unit(column)[0] for column in JOINT_COLUMNS.split(",")],
        "Results of check on a frame: runs (--of runs)": [name_and_unit(column)[0] for column in RUN_COLUMNS.split(",")],
        "Results of check on a frame: where to weld (--arch RUN --of arch)": [name_and_unit(column)[0] for column in ARCH_COLUMNS.split(",")],
        "Results of section": [name_and_unit(column)[0] for column in SECTION_COLUMNS.split(",")],
    }
    UNITS = ["in, ft, mm, cm or m", "lbf, kip, N or kN", "psi, ksi, MPa or GPa",
             "in-lbf, ft-lbf, N-m, N-mm or kN-m", "lbf/in, lbf/ft, N/m or N/mm",
             "in-lbf/rad, in-lbf/deg or N-m/rad", "lb/in^3 or kg/m^3", "lb or kg", "lb/ft, lb/in or kg/m",
             "in^2 or mm^2", "in^3 or mm^3", "in^4 or mm^4", "deg or rad"]

    def lines_of(self, title, text):
        block = text.split(title + "\n\n", 1)[1].split("\n\n", 1)[0]
        return [line for line in block.splitlines() if not line.startswith(" ")][1:]

    def test_every_column_with_unit_default_and_meaning(self):
        run = self.run_program("columns")
        self.assertRun(run, 0)
        for title, names in self.LISTS.items():
            lines = self.lines_of(title, run.out)
            self.assertEqual([line.split()[0] for line in lines], names)
            required = {line.split()[0] for line in lines if " required " in line}
            self.assertEqual(required, self.REQUIRED.get(title, set()))
        for column in RESULT_COLUMNS.split(","):
            name, unit = name_and_unit(column)
            if unit:
                self.assertRegex(run.out, rf"(?m)^{name} +{re.escape(unit)} ")

    def test_every_unit(self):
        listed = self.run_program("columns").out.split("Units that a header may name", 1)[1]
        self.assertEqual([line.strip() for line in listed.splitlines()[2:]], self.UNITS)


class HelpColumns(ProgramTest):
    SAMPLE = {  # what makes each command write its columns
        "check": ["nose.csv"], "compare": ["nose.csv", "--walls", "0.058"], "index": ["nose.csv"],
        "scatter": ["nose.csv", "--tolerances", "tolerances.csv", "--samples", "16"], "release": ["cuts.csv"],
        "life": ["life.csv", "--details", "life_details.csv"],
        "cut": ["frame", "--tube", "rail UL 2", "--at", "12in"],
        "inspect": ["--spec", "spec.csv", "--cases", "parts.csv", "readings.csv"], "pull": ["horns.csv"], "section": ["1x0.05"],
        "cases": ["nose.csv"], "explain": ["nose.csv", "diagonal - push"], "limit": ["nose.csv", "--find", "factor", "--to", "2"],
        "sight": ["sight.csv"], "sticks": ["sticks_parts.csv", "--stock", "sticks_stock.csv"],
        "sweep": ["nose.csv", "--vary", "factor=1:2:1"],
    }

    def test_help_lists_what_each_writes(self):
        cases = self.installed.source / "cases"
        for command, words in self.SAMPLE.items():
            with self.subTest(command=command):
                run = self.run_program(command, *words, "--format", "csv", cwd=cases)
                written = [name_and_unit(column) for column in next(csv.reader(io.StringIO(run.out)))]
                if command == "cases":
                    written.append(("line", ""))  # JSON has it
                if command == "sweep":
                    written.remove(("factor", ""))
                block = re.split(r"(?:Results|Steps) of [^\n]*\n(?:[^\n]+\n)*\n", self.run_program("help", command).out)[1].split("\n\n")[0]
                lines = [line.split()[:2] for line in block.splitlines()[1:] if line[0] != " "]
                self.assertEqual([name for name, _ in lines], [name for name, _ in written])
                for (name, unit), (_, said) in zip(written, lines):
                    self.assertIn(said, (unit,) if unit else ("-", "text"), name)


if __name__ == "__main__":
    run_tests()
