"""The published values as a whole: how many there are, that each is met, and that each is worked out a second time.

Usage: test_proof.py SOURCE_DIR PROGRAM_PUBLISHED DETAIL_PUBLISHED"""

import collections
import math
import pathlib
import subprocess
import sys
import unittest

import closed_forms
import closed_forms_of_details
import closed_forms_of_frames
import proof

TUBES, FRAMES, DETAILS = proof.TABLES
BY_NUMBERS = {"moment_number", "deflection_number", "fit_number"}  # no closed form: published.py solves them
REMEMBERED = {"metal_cycles", "equivalent", "strength", "least_rosette", "most_rosette", "least_pitch", "weld_strength"}
MARK = "cannot be recomputed: check a copy"


def remembered(row):
    """No formula gives the value: it is a property, or a point of a curve whose constants are from memory."""
    return row["quantity"].startswith(("material_", "wall_reduction")) or row["title"].startswith("ANC-5") or (
        row["line"].startswith(DETAILS) and row["quantity"] in REMEMBERED)


class Proof(unittest.TestCase):
    source = programs = None

    @staticmethod
    def each():
        return [row for table in proof.TABLES for row in proof.rows_of(table)]

    def test_counts(self):
        counts = proof.counts()
        self.assertGreaterEqual(len(counts.publications), 35)
        self.assertGreaterEqual(counts.published, 450)
        self.assertGreater(counts.share, 2 / 3)

    def test_the_readme_says_them(self):
        words = " ".join((self.source / "README.md").read_text(encoding="utf-8").split())
        said = proof.counts().said()
        self.assertTrue(said in words, f"README.md should say: {said}")

        self.assertIn(proof.counts().said().partition(" publications")[0],
                      " ".join((self.source / "DEVELOPERS.md").read_text(encoding="utf-8").split()))

    def test_each_has_its_source(self):
        seen = collections.Counter()
        for row in self.each():
            self.assertIn(row["standing"], proof.STANDINGS, row["line"])
            self.assertTrue(row["title"] and row["place"], row["line"])
            self.assertEqual(row["title"] == "own calculation", row["standing"] == "own calculation", row["line"])
            seen[tuple(row.get(name) for name in ("frame", "quantity", "inputs", "loads", "value", "title", "place"))] += 1
        self.assertEqual([row for row, times in seen.items() if times > 1], [])

    def test_a_publication_has_one_name(self):
        """No title is the beginning of another, so that none is counted twice."""
        titles = sorted(proof.counts().publications)
        names = [title.split(",")[0] if not title.startswith("AISC,") else title for title in titles]
        self.assertEqual(len(set(names)), len(titles), titles)

    def test_tolerances(self):
        """At most half a unit of the last digit, else the remark says why."""
        for row in self.each():
            digits, _, power = row["value"].partition(" ")[0].partition("e")
            if digits == "inf":
                continue
            half = 0.5 * 10.0 ** (int(power or 0) - len(digits.partition(".")[2]))
            if float(row["tolerance"].partition(" ")[0]) > half * (1 + 1e-9):
                self.assertTrue(row["remark"].replace(MARK, "").strip("; "), row["line"])

    def test_each_is_met(self):
        """What the programs print, row by row, is what stands in the files; the frames are in command/test_frame_published."""
        for program, table in zip(self.programs, (TUBES, DETAILS)):
            run = subprocess.run([program, "proof"], capture_output=True, text=True, check=False)
            self.assertEqual(run.returncode, 0, run.stdout[-500:])
            printed = [line.split(" | ") for line in run.stdout.splitlines() if line.count(" | ") >= 7][1:]
            self.assertEqual([(line[1], line[2], line[3]) for line in printed],
                             [(row["quantity"], row["inputs"], row["value"]) for row in proof.rows_of(table)])
            self.assertEqual({line[-2] for line in printed}, {"met"})

    def second(self, row):
        """The value by the formulas of this folder; KeyError where there is none."""
        if row["line"].startswith(FRAMES):
            return closed_forms_of_frames.value(row["frame"], row["quantity"], row["form"])
        if row["line"].startswith(DETAILS):
            return self.details.value(row["quantity"], row["inputs"])
        if row["quantity"].startswith("material_"):
            raise KeyError(row["quantity"])
        return closed_forms.Row(row["inputs"]).value(row["quantity"])

    def test_a_second_calculation_agrees(self):
        Proof.details = closed_forms_of_details.Details()
        found = collections.Counter()
        for row in self.each():
            try:
                value = self.second(row)
            except KeyError:
                self.assertNotEqual(row["standing"], "derived", row["line"])
                self.assertFalse(row["standing"] == "from memory" and not row["line"].startswith(FRAMES)
                                 and row["quantity"] not in BY_NUMBERS and not remembered(row), row["line"])
                continue
            wanted, tolerance = closed_forms.measure(row["value"]), closed_forms.measure(row["tolerance"])
            self.assertTrue(value == wanted or math.isclose(value, wanted, rel_tol=0, abs_tol=tolerance * (1 + 1e-9)),
                            f"{row['line']}: {value}")
            found[row["line"].partition(":")[0]] += 1
        self.assertGreater(found[TUBES], 320)
        self.assertGreater(found[FRAMES], 50)
        self.assertEqual(found[DETAILS], len(proof.rows_of(DETAILS)))

    def test_what_nobody_can_recompute_says_so(self):
        for row in self.each():
            if row["standing"] == "from memory":
                self.assertEqual(MARK in row["remark"], remembered(row), row["line"])

    def test_materials_say_so(self):
        for name in ("steel_tube.csv", "fatigue.csv"):
            for row in proof.rows_of(f"materials/{name}"):
                self.assertEqual("from memory" in row["source"], MARK in row["source"], row["line"])
        for row in proof.rows_of("materials/steel_tube.csv"):
            self.assertIn("moduli and density", row["source"].lower(), row["line"])


if __name__ == "__main__":
    Proof.source, Proof.programs = pathlib.Path(sys.argv[1]), sys.argv[2:4]
    unittest.main(argv=sys.argv[:1] + sys.argv[4:])
