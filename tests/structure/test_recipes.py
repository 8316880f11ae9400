#!/usr/bin/env python3
"""The recipes of DEVELOPERS.md, followed to the letter on a copy of the tree: a column curve, a result column and a remark are
added in the files that the recipe names and in no others, the copy is built, and its program must know them everywhere.

Usage: test_recipes.py SOURCE_DIR CMAKE COMPILER"""

import csv
import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import unittest

# A recipe's title, and in each file that it names: the text in front of which a text is put.
RECIPES = {
    "To add a column curve": {
        "include/railbow/column.h": (
            "    X(RBOW_CURVE_AISC, ",
            '    X(RBOW_CURVE_RANKINE, rankine, "rankine", 0, "Rankine-Gordon, for this test alone") \\\n'),
        "src/mechanics/column.c": (
            "typedef struct curve_entry {",
            "static void rankine(const rbow_column *c, double imperfection, rbow_column_terms *t)\n{\n"
            "    (void)c;\n    (void)imperfection;\n    t->range = RBOW_COLUMN_INELASTIC;\n"
            "    t->stress = t->full / (1 + t->full / t->euler);\n}\n\n"),
        "src/working/column_steps.c": (
            "static void curve_steps(",
            "static void rankine(const calculation *c, const curve_values *v)\n{\n"
            '    STRESS("F = Fc / (1 + Fc/Fe)", "# / (1 + # / #)", v->terms.full, v->terms.full, v->terms.euler);\n}\n\n'),
    },
    "To add a result column": {
        "include/railbow/member.h": (
            "    double fit_axial; ", "    double plastic_moment; /* in-lbf, Z times compression yield */\n"),
        "src/check/member.c": (
            "    r->column_load = p->column_load;\n",
            "    r->plastic_moment = r->section.plastic_modulus * p->zones[ZONE_TUBE].strength.compression_yield;\n"),
        "src/cases/check_table.c": (
            "    RESULT(fit_axial, ", '    RESULT(plastic_moment, DIM_MOMENT, "plastic modulus times compression yield"),\n'),
    },
    "To add a remark": {
        "include/railbow/member.h": ("    X(RBOW_REMARK_THIN_WALL, ", '    X(RBOW_REMARK_HEAVY, "heavy") /* above 5 lb */ \\\n'),
        "src/check/member.c": (
            "    remark_if(r, m->eccentricity > 0 && ", "    remark_if(r, r->weight > 5, RBOW_REMARK_HEAVY);\n"),
        "src/cases/remark_list.c": (
            "    MEANING(RBOW_REMARK_THIN_WALL,",
            '    MEANING(RBOW_REMARK_HEAVY, "it weighs more than 5 lb", "The tube weighs more than 5 lb. Take a thinner wall.")\n'),
    },
}

FAILED = """
#include <gsl/gsl_errno.h>
#include <railbow/railbow.h>
int main(void)
{
    rbow_member m = rbow_member_default();
    rbow_material k = {0};
    rbow_result r = {0};
    return rbow_member_check(&m, &k, &r) != RBOW_OK && isnan(r.plastic_moment) && isnan(r.fit_axial) ? 0 : 1;
}
"""


def recipe(text, title):
    return re.search(rf"^## {re.escape(title)}\n(.*?)(?=^## |\Z)", text, re.M | re.S).group(1)


def named_files(section):
    """The files at the heads of a recipe's steps."""
    return set(re.findall(r"^\d+\. `([^`]+)`:", section, re.M))


def run(*words, **more):
    return subprocess.run([str(word) for word in words], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, timeout=900, **more)


class Recipes(unittest.TestCase):
    source = cmake = compiler = None

    @classmethod
    def setUpClass(cls):
        cls.folder = tempfile.TemporaryDirectory()
        cls.addClassCleanup(cls.folder.cleanup)
        cls.tree = pathlib.Path(cls.folder.name) / "tree"
        cls.build = pathlib.Path(cls.folder.name) / "build"
        shutil.copytree(cls.source, cls.tree, ignore=shutil.ignore_patterns("build*", ".git", "tests"))
        cls.text = (cls.tree / "DEVELOPERS.md").read_text(encoding="utf-8")
        for edits in RECIPES.values():
            for name, (before, added) in edits.items():
                path = cls.tree / name
                content = path.read_text(encoding="utf-8")
                assert content.count(before) == 1, (name, before)
                path.write_text(content.replace(before, added + before), encoding="utf-8")
        made = run(cls.cmake, "-S", cls.tree, "-B", cls.build, "-DCMAKE_BUILD_TYPE=Debug", "-DBUILD_TESTING=OFF",
                   "-DRAILBOW_WERROR=ON", f"-DCMAKE_C_COMPILER={cls.compiler}")
        if made.returncode == 0:
            made = run(cls.cmake, "--build", cls.build, "-j2", "--target", "railbow", "railbow_documents")
        assert made.returncode == 0, made.stdout.decode()[-3000:]
        cls.cases = pathlib.Path(cls.folder.name) / "cases.csv"
        cls.cases.write_text("case,od [in],wall [in],material,length [in],compression [lbf],column_curve,weld_zone [in]\n"
                             "one,1.25,0.058,4130,30,3000,rankine,1\n"
                             "heavy,3,0.25,4130,60,3000,johnson,1\n", encoding="utf-8")

    def program(self, *words):
        return subprocess.run([str(self.build / "railbow"), *map(str, words)], stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                              encoding="utf-8", timeout=60, cwd=self.folder.name)

    def test_a_recipe_names_what_is_edited_and_no_more(self):
        for title, edits in RECIPES.items():
            self.assertEqual(named_files(recipe(self.text, title)), set(edits), title)

    def test_every_file_that_a_recipe_names_is_there(self):
        for title in re.findall(r"^## (To add .*)$", self.text, re.M):
            for name in re.findall(r"`((?:src|include|tests|materials)/[^`]+)`", recipe(self.text, title)):
                self.assertTrue((pathlib.Path(self.source) / name).exists(), (title, name))

    def test_check(self):
        run_ = self.program("check", self.cases, "--format", "csv")
        self.assertIn(run_.returncode, (0, 1), run_.stderr)
        one, heavy = csv.DictReader(run_.stdout.splitlines())
        full, euler = 75e3, 3.141592653589793**2 * 29e6 / float(one["slenderness"])**2
        self.assertAlmostEqual(float(one["column_stress [psi]"]) / (full / (1 + full / euler)), 1, 9)
        mean, wall = 1.25 - 0.058, 0.058
        plastic = wall * (3 * mean**2 + wall**2) / 3 * full
        self.assertAlmostEqual(float(one["plastic_moment [in-lbf]"]) / plastic, 1, 9)
        self.assertEqual((one["remarks"], heavy["remarks"]), ("no bow given", "heavy; no bow given"))

    def test_json(self):
        rows = json.loads(self.program("check", self.cases, "--format", "json").stdout)["rows"]
        self.assertTrue(all(any(key.startswith("plastic_moment") for key in row) for row in rows), rows)
        self.assertIn("heavy", json.dumps(rows[1]))

    def test_text_and_page(self):
        run_ = self.program("check", self.cases, "--format", "text", "--report", "page.html")
        self.assertIn("it weighs more than 5 lb", " ".join(run_.stdout.split()))
        page = (pathlib.Path(self.folder.name) / "page.html").read_text(encoding="utf-8")
        self.assertIn("The tube weighs more than 5 lb. Take a thinner wall.", page)
        self.assertIn("rankine", page)

    def test_explain(self):
        steps = list(csv.DictReader(self.program("explain", self.cases, "one", "--format", "csv").stdout.splitlines()))
        step, = [step for step in steps if step["step"] == "column stress"]
        self.assertEqual((step["formula"], step["source"]), ("F = Fc / (1 + Fc/Fe)", "Rankine-Gordon, for this test alone"))
        full, _, euler = (float(number) for number in re.findall(r"[\d.]+(?:e\+?\d+)?", step["numbers"].replace("(1 + ", "(")))
        self.assertAlmostEqual(float(step["result"]) / (full / (1 + full / euler)), 1, 8)

    def test_columns(self):
        out = self.program("columns").stdout
        for words in "rankine", "plastic_moment":
            self.assertIn(words, out)

    def test_documents(self):
        folder = self.build / "documents"
        self.assertIn("plastic_moment", (folder / "railbow.schema.json").read_text(encoding="utf-8"))
        self.assertIn("rankine", (folder / "railbow-cases.5").read_text(encoding="utf-8"))

    def test_a_failed_result_has_no_number(self):
        source, program = self.build / "failed.c", self.build / "failed"
        source.write_text(FAILED, encoding="utf-8")
        made = run(self.compiler, source, "-I", self.tree / "include", self.build / "librailbow.a", "-lgsl", "-lgslcblas", "-lm",
                   "-o", program)
        self.assertEqual(made.returncode, 0, made.stdout)
        self.assertEqual(run(program).returncode, 0)


if __name__ == "__main__":
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    Recipes.source, Recipes.cmake, Recipes.compiler = sys.argv[1:]
    unittest.main(argv=sys.argv[:1])
