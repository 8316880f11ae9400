#!/usr/bin/env python3
"""The files that the build generates: manual pages, completions and the JSON schema.

Usage: test_documents.py PROGRAM SOURCE_DIR DOCUMENTS_DIR. Needs groff, bash and python3-jsonschema; tests zsh and
fish if they are installed."""

import copy
import json
import os
import pathlib
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
import unittest

import jsonschema

PROGRAM = SOURCE = DOCUMENTS = None  # set by main
CAUTION = "no substitute for the rule book, local codes and a licensed engineer"


def run(words, **more):
    return subprocess.run(list(map(str, words)), capture_output=True, text=True, timeout=120, check=False, **more)


def railbow(command, folder):
    """A command as the manual types it."""
    words = shlex.split(command)
    assert words[0] == "railbow", command
    return run([PROGRAM, *words[1:]], cwd=folder)


def commands():
    return re.findall(r"(?m)^  (\w+) +\w", run([PROGRAM, "help"]).stdout.split("Commands:\n")[1])


def options(command):
    return re.findall(r"(?m)^  (?:-\w, )?--(\w+)", run([PROGRAM, "help", command]).stdout)


class Manual(unittest.TestCase):
    def page(self, name):
        """The page as it is displayed; with -ww groff reports every warning."""
        shown = run(["groff", "-man", "-Tutf8", "-ww", "-P-cbou", DOCUMENTS / name], env={**os.environ, "LC_ALL": "C.UTF-8"})
        self.assertEqual((shown.returncode, shown.stderr), (0, ""))
        return shown.stdout

    def blocks(self, name):
        """The lines of each example: the command and its answer."""
        page = self.page(name)
        for block in (DOCUMENTS / name).read_text(encoding="ascii").split(".EX\n")[1:]:
            yield "".join(self.plain(line) + "\n" for line in block.split(".EE\n")[0].splitlines()), page

    @staticmethod
    def plain(line):
        for written, means in {"\\&": "", "\\%": "", "\\-": "-", "\\(aq": "'", "\\(dq": '"', "\\(ha": "^", "\\(ti": "~",
                               "\\(ga": "`"}.items():
            line = line.replace(written, means)
        line = re.sub(r"\\\[u([0-9A-F]+)\]", lambda found: chr(int(found.group(1), 16)), line)
        assert "\\" not in line.replace("\\(rs", ""), line
        return line.replace("\\(rs", "\\")

    def test_it_names_every_command_and_option(self):
        page = self.page("railbow.1")
        for command in commands():
            self.assertRegex(page, rf"(?m)^ +railbow {command}\b")
            for option in options(command):
                self.assertRegex(page, rf"(?m)^ +(-\w, )?--{option}\b")
        self.assertIn(CAUTION, " ".join(page.split()))

    def test_it_describes_every_column(self):
        page = " ".join(self.page("railbow-cases.5").split())
        listed = run([PROGRAM, "columns"]).stdout
        for title, block in re.findall(r"(?ms)^([A-Z][^\n]*)\n\n(column .*?)\n\n", listed):
            self.assertIn(title, page)
            for line in block.splitlines()[1:]:
                if line[0] != " ":
                    self.assertIn(line.split()[0], page)
        for meaning in ("distance by which a straight bar in the socket at A misses its landing at B", "axial force from the gap",
                        "0 up, 90 right", "required", "default: pinned", "lb/in^3 or kg/m^3"):
            self.assertIn(meaning, page)

    def test_every_worked_example_is_what_the_program_prints(self):
        for name in "railbow.1", "railbow-cases.5":
            count = 0
            with tempfile.TemporaryDirectory() as folder:
                for block, page in self.blocks(name):
                    first, _, rest = block.partition("\n")
                    if first.startswith("# "):
                        (pathlib.Path(folder) / first[2:]).write_text(block, encoding="utf-8")
                    elif first.startswith("$ "):
                        got = railbow(first[2:], folder)
                        self.assertEqual((got.stdout, got.stderr), (rest, ""), first)
                        self.assertLess(got.returncode, 2)
                        count += 1
                    for line in block.splitlines():
                        self.assertIn(line.rstrip(), page)
            self.assertGreater(count, 0, name)

    def test_the_example_of_every_command_works_on_the_demo(self):
        found = []
        for block, _ in self.blocks("railbow.1"):
            if block.startswith("railbow "):
                with tempfile.TemporaryDirectory() as folder:
                    for file in (SOURCE / "cases").glob("*.csv"):
                        shutil.copy(file, folder)
                    shutil.copytree(SOURCE / "cases" / "frame", pathlib.Path(folder) / "frame")
                    got = railbow(block, folder)
                found.append(block.split()[1])
                self.assertEqual(got.stderr, "", block)
                self.assertTrue(got.stdout or found[-1] == "new", block)
                self.assertLess(got.returncode, 3 if found[-1] == "inspect" else 2, block)  # the demo has a tube unread
                self.assertIn("Example: " + block, run([PROGRAM, "help", found[-1]]).stdout)
        self.assertEqual(found, commands())


class Completion(unittest.TestCase):
    # what is typed -> what must be among the offers, what must not
    TYPED = [
        ("ch", {"check"}, {"compare", "help"}),
        ("co", {"compare", "columns"}, {"check"}),
        ("check --for", {"--format"}, {"--factor"}),
        ("check --format ", {"text", "csv", "json"}, {"check"}),
        ("limit --find miss_", {"miss_a", "miss_b_clock"}, {"bow", "case", "note"}),
        ("sweep --vary gap", {"gap=", "gap_stiffness="}, {"od="}),
        ("help exp", {"explain"}, {"check"}),
        ("help wo", {"words"}, {"check"}),
        ("help fr", {"frame"}, {"words"}),
        ("new --", {"--all", "--units"}, {"--format"}),
        ("new --units s", {"si"}, {"us"}),
    ]

    def ask(self, offers):
        for typed, wanted, unwanted in self.TYPED:
            with self.subTest(typed=typed):
                got = set(offers(typed))
                self.assertLessEqual(wanted, got)
                self.assertFalse(unwanted & got, got)

    def test_bash(self):
        def offers(typed):
            words = ["railbow", *typed.split(" ")]
            script = (f". '{DOCUMENTS}/railbow.bash'; COMP_WORDS=({' '.join(map(shlex.quote, words))}); "
                      f"COMP_CWORD={len(words) - 1}; _railbow 2>/dev/null; printf '%s\\n' \"${{COMPREPLY[@]}}\"; complete -p railbow >&2")
            got = run(["bash", "--norc", "-c", script])
            self.assertIn("-F _railbow railbow", got.stderr)
            return got.stdout.split()
        self.ask(offers)
        for command in commands():
            self.assertEqual(offers(command + " -"), ["--" + option for option in options(command)])
        self.assertEqual(offers("check "), [])  # bash then offers files
        self.assertEqual(set(offers("")), {*commands(), "--help", "--version"})

    @unittest.skipUnless(shutil.which("fish"), "no fish here")
    def test_fish(self):
        with tempfile.TemporaryDirectory() as home:
            def offers(typed):
                script = f"source '{DOCUMENTS}/railbow.fish'; complete -C {shlex.quote('railbow ' + typed)}"
                got = run(["fish", "--no-config", "-c", script], cwd=home, env={**os.environ, "HOME": home})
                self.assertEqual(got.returncode, 0, got.stderr)
                return [line.split("\t")[0] for line in got.stdout.splitlines()]
            self.ask(offers)

    @unittest.skipUnless(shutil.which("zsh"), "no zsh here")
    def test_zsh(self):
        # the functions that zsh completes by are replaced by ones that say what they were given
        said = """
            compdef() { }; _files() { print -r -- FILES }; compadd() { shift 3; print -rl -- $@ }
            _describe() { print -rl -- ${(@)${(P)2}%%:*} }
            _arguments() {
                local spec want=
                for spec; do
                    local name=${${spec%%\\[*}#\\*}; name=${name%=}; name=${name##*\\)}
                    [[ $words[CURRENT-1] == $name ]] && want=${${spec##*\\]}#*:}
                    [[ $words[CURRENT] == -* ]] && print -r -- $name
                    [[ $spec == 1:* && $CURRENT == 2 ]] && want=${spec#1:}
                done
                case ${want#*:} in (\\(*) print -rl -- ${=${${want#*:}#\\(}%\\)} ;; (_*) ${want#*:} ;; esac
            }"""
        def offers(typed):
            words = ["railbow", *typed.split(" ")]
            quoted = " ".join(map(shlex.quote, words))
            got = run(["zsh", "-fc", f"{said}\nwords=({quoted}); CURRENT={len(words)}; source '{DOCUMENTS}/_railbow'"])
            self.assertEqual((got.returncode > 1, got.stderr), (False, ""))
            start, ranges = words[-1], "--vary" in words
            return [word + ("=" if ranges else "") for word in got.stdout.split() if word.startswith(start)]
        self.ask(offers)


CUT = ["frame", "--tube", "rail UL 2", "--at", "12in"]


class Schema(unittest.TestCase):
    BAD = "\nbad,-1,0.058,4130,24\nunknown,1.25,0.058,gold,24\n"
    ANSWERS = {  # each command on the demo, once plain and once in other ways
        "check": [["nose.csv"], ["nose.csv", "--units", "si"], ["odd.csv"]],
        "cases": [["nose.csv"], ["odd.csv", "--units", "si"], ["frame"], ["portal", "--units", "si"]],
        "explain": [["nose.csv", "new rail - forced 1/2"], ["odd.csv", "idle", "--units", "si"], ["odd.csv", "buckled"],
                    ["portal", "beam", "sway"]],
        "section": [["1.25x0.058"], ["--units", "si", "32mmx1.5mm"]],
        "compare": [["nose.csv", "--walls", "0.049,0.6"], ["odd.csv", "--walls", "--ods", "1,1.25", "--units", "si"]],
        "sweep": [["rail.csv", "--vary", "miss_a=0:0.5:0.25"], ["odd.csv", "--vary", "factor=1:2:1", "--vary", "bow=0in:9in:3in"],
                   ["nose.csv", "--vary", "compression=0:4:2", "--units", "si"]],
        "limit": [["rail.csv", "--find", "miss_a", "--to", "1in"], ["odd.csv", "--find", "bow", "--to", "1in"],
                   ["nose.csv", "--find", "moment_a", "--to", "900in-lbf", "--units", "si"]],
        "index": [["nose.csv"], ["odd.csv"], ["small"]],
        "scatter": [["rail.csv", "--tolerances", "tolerances.csv", "--samples", "64"],
                    ["odd.csv", "--tolerances", "two.csv", "--samples", "64", "--drivers"],
                    ["small", "--tolerances", "two.csv", "--samples", "64", "--drivers"]],
        "life": [["life.csv", "--details", "life_details.csv"], ["life.csv", "--details", "life_details.csv", "--units", "si"],
                 ["small", "--details", "small_details.csv"]],
        "inspect": [["--spec", "spec.csv", "readings.csv"],
                    ["--spec", "spec.csv", "--cases", "parts.csv", "--units", "si", "readings.csv"]],
        "cut": [[*CUT, "--moved", "0.1in", "--moved_clock", "30", "--turned", "1", "--turned_clock", "0", "--opened", "0"],
                [*CUT, "--moved", "0", "--turned", "0", "--opened", "-0.1mm", "--units", "si"]],
        "release": [["cuts.csv"], ["--units", "si", "cuts.csv"]],
        "pull": [["horns.csv"], ["--steps", "3", "--units", "si", "horns.csv"]],
        "sight": [["sight.csv"], ["--units", "si", "sight.csv"]],
        "sticks": [["--stock", "sticks_stock.csv", "sticks_parts.csv"],
                   ["--stock", "sticks_stock.csv", "--units", "si", "--kerf", "3mm", "sticks_parts.csv"]],
    }

    def setUp(self):
        self.schema = json.loads((DOCUMENTS / "railbow.schema.json").read_text(encoding="utf-8"))
        jsonschema.Draft202012Validator.check_schema(self.schema)
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)
        for file in (SOURCE / "cases").glob("*.csv"):
            shutil.copy(file, self.folder)
        shutil.copytree(SOURCE / "cases" / "frame", self.folder / "frame")
        shutil.copytree(SOURCE / "cases/portal", self.folder / "portal")
        (self.folder / "odd.csv").write_text(  # no limit, what does not exist, and rows with errors
            "case,od [in],wall [in],material,length [in],compression [lbf],gap [in]\nidle,1.25,0.058,4130,24,,\n"
            "unstable,1.25,0.058,4130,24,50000,\nbuckled,1.25,0.058,4130,24,1,-1\nbad,-1,0.058,4130,24,,\nunknown,1.25,0.058,gold,24,,\n",
            encoding="utf-8")

        run([PROGRAM, "new", "--frame", self.folder / "small"])
        (self.folder / "small_details.csv").write_text("tube,detail,kind,at [in],hole [in],sn\nrail UL,hole,hole,10,0.2,\nrail UL,weld,ring weld,a,,W3\n",
                                                       encoding="utf-8")
        (self.folder / "two.csv").write_text("column,minus,plus,unit\nwall,10,10,%\nbow,0,0.02,in\n", encoding="utf-8")

    def validator(self, command):
        return jsonschema.Draft202012Validator({"$ref": f"#/$defs/{command}", "$defs": self.schema["$defs"]})

    def answer(self, command, words):
        got = run([PROGRAM, command, *words, "--format", "json"], cwd=self.folder)
        self.assertTrue(got.stdout, (command, words, got.stderr))
        return json.loads(got.stdout)

    def test_every_answer(self):
        self.assertEqual(set(self.ANSWERS), set(self.schema["$defs"]))
        for command in commands():
            self.assertEqual("format" in options(command), command in self.ANSWERS)
        nulls = 0
        for command, ways in self.ANSWERS.items():
            for words in ways:
                with self.subTest(command=command, words=words):
                    answer = self.answer(command, words)
                    self.validator(command).validate(answer)
                    jsonschema.Draft202012Validator(self.schema).validate(answer)
                    for table in [answer] if "rows" in answer else [part for part in answer.values() if isinstance(part, dict) and "rows" in part]:
                        self.assertTrue(table["rows"])
                    nulls += json.dumps(answer).count("null")
        self.assertGreater(nulls, 20)

    def test_the_answer_of_cuts(self):
        for words in [], ["--units", "si"], ["--run", "at rest"]:
            answer = self.answer("cut", [*CUT, *words])
            self.validator("cut").validate(answer)
            self.assertEqual((len(answer["cuts"]["rows"]), len(answer["joints"]["rows"])), (1, 20))
            for name in "cuts", "joints":
                for spoil in (lambda table: table["rows"][0].popitem(), lambda table: table["units"].popitem(),
                              lambda table: table["rows"][0].update(unknown=1)):
                    other = copy.deepcopy(answer)
                    spoil(other[name])
                    self.assertFalse(self.validator("cut").is_valid(other))

    def test_the_answer_of_a_frame(self):
        for folder, arch in ("frame", "pitch"), ("portal", "sway"):
            for words in [], ["--units", "si"], ["--arch", arch]:
                got = run([PROGRAM, "check", SOURCE / "cases" / folder, "--format", "json", *words])
                answer = json.loads(got.stdout)
                self.validator("check").validate(answer)
                for name in ("tubes", "joints", "runs", "arch")[:4 if "--arch" in words else 3]:
                    self.assertTrue(answer[name]["rows"])
                    for spoil in (lambda table: table["rows"][0].popitem(), lambda table: table["units"].popitem(),
                                  lambda table: table["rows"][0].update(unknown=1)):
                        other = copy.deepcopy(answer)
                        spoil(other[name])
                        self.assertFalse(self.validator("check").is_valid(other))

    FRAME_ANSWERS = {
        "compare": [["--walls", "0.049,0.058"], ["--walls", "0.3,0.8", "--units", "si"]],
        "sweep": [["--tube", "rail UL", "--vary", "bow=0:0.1:0.05"], ["--joint", "ring UL", "--vary", "x=34:38:2", "--units", "si"]],
        "limit": [["--tube", "rail UL", "--find", "bow", "--to", "1"], ["--joint", "ring UL", "--find", "mass", "--to", "9"],
                  ["--run", "push", "--find", "force_x", "--to", "-9000", "--units", "si"]],
    }

    def test_the_decisions_about_a_frame(self):
        self.assertTrue(self.small_frame())
        for command, ways in self.FRAME_ANSWERS.items():
            for words in ways:
                with self.subTest(command=command, words=words):
                    answer = self.answer(command, [str(self.folder / "small"), *words])
                    self.validator(command).validate(answer)
                    self.assertTrue(answer["rows"])
                    for fault, broken in self.spoilt(answer):
                        self.assertFalse(self.validator(command).is_valid(broken), fault)

    def small_frame(self):
        return (self.folder / "small").exists() or run([PROGRAM, "new", "--frame", self.folder / "small"]).returncode == 0

    def test_the_studies_of_a_frame(self):
        for command, names, ways in (("scatter", ("frame", "tubes", "samples"), self.ANSWERS["scatter"]), ("index", ("bows",), self.ANSWERS["index"])):
            answer = self.answer(command, ways[-1])
            for name in names:
                for spoil in (lambda table: table["rows"][0].popitem(), lambda table: table["rows"][0].update(unknown=1)):
                    other = copy.deepcopy(answer)
                    spoil(other[name])
                    self.assertFalse(self.validator(command).is_valid(other))

    EITHER = {"end_a", "end_b", "eccentricity_clock", "bow_clock", "miss_a_clock", "miss_b_clock"}  # a word or a number, in the answer of cases

    def spoilt(self, answer):
        """One fault at a time: a column that is missing, unknown or of a wrong type; the same for units."""
        for column, value in answer["rows"][0].items():
            for change in (lambda row: row.pop(column),
                           lambda row: row.update({column: [value]}),
                           lambda row: row.update({column: "1" if not isinstance(value, str) else "nonsense" if column in self.EITHER else 1})):
                other = copy.deepcopy(answer)
                change(other["rows"][0])
                yield f"row: {column}", other
        for column in answer["units"]:
            other = copy.deepcopy(answer)
            other["units"][column] = "furlong"
            yield f"unit: {column}", other
        yield "unknown column", {**answer, "rows": [{**answer["rows"][0], "luck": 1}]}
        yield "unknown unit", {**answer, "units": {**answer["units"], "luck": "in"}}
        yield "no units", {"rows": answer["rows"]}
        yield "no rows", {"units": answer["units"]}
        yield "rows are no list", {**answer, "rows": answer["rows"][0]}
        yield "beside", {**answer, "more": 1}

    def test_it_refuses_a_broken_answer(self):
        for command, ways in self.ANSWERS.items():
            validator, answer = self.validator(command), self.answer(command, ways[0])
            for fault, broken in self.spoilt(answer):
                with self.subTest(command=command, fault=fault):
                    self.assertFalse(validator.is_valid(broken))

    def test_a_word_that_the_program_does_not_say(self):
        answer = self.answer("check", ["nose.csv"])
        answer["rows"][0]["verdict"] = "fine"
        self.assertFalse(self.validator("check").is_valid(answer))

    @staticmethod
    def tables(answer):
        """What an answer has as units and rows: one table, or those of a frame."""
        parts = [part.get("properties", {}) for part in answer.values()]
        return [answer] if "rows" in answer else [part for part in parts if "rows" in part]

    def test_each_column_says_its_unit(self):
        for command, definition in self.schema["$defs"].items():
            parts = [part for either in definition.get("anyOf", [definition]) for part in either.get("anyOf", [either])]
            for part in parts:
                for table in self.tables(part["properties"]):
                    units, rows = table["units"], table["rows"]
                    for column, given in units["properties"].items():
                        said = rows["items"]["properties"][column]["description"]
                        if command != "limit":
                            for unit in given["enum"]:
                                self.assertIn(unit, said)


if __name__ == "__main__":
    if len(sys.argv) < 4:
        sys.exit(__doc__)
    PROGRAM, SOURCE, DOCUMENTS = (pathlib.Path(word).resolve() for word in sys.argv[1:4])
    unittest.main(argv=[sys.argv[0], *sys.argv[4:]])
