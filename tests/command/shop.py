"""Shared by the tests of inspect, release and pull."""

import csv
import io

from program import CAUTION, ProgramTest, joined

SPEC = "part,od_least [in],od_most [in],wall_least [in],bow_most [in]\nrail,1.25,1.255,0.05,0.03\n"
READINGS = "tag,part,measure,clock,reading [in]\n"
CUT = {"case": "rail", "od [in]": "1.25", "wall [in]": "0.058", "material": "4130", "length [in]": "40",
       "end_a": "fixed", "end_b": "fixed", "cut_at [in]": "20", "moved [in]": "0.1"}
HORN = {"case": "horn", "od [in]": "1.25", "wall [in]": "0.058", "material": "4130", "length [in]": "18",
        "set [in]": "0.125"}


def sheet(rows):
    columns = list(dict.fromkeys(column for row in rows for column in row))
    text = io.StringIO()
    writer = csv.DictWriter(text, columns, restval="", lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()


def tube(tag="T", part="rail", od=1.2525, walls=((0, 0.058), (120, 0.058), (240, 0.058)), bow=0.01):
    """The readings of one tube as rows of the file; None leaves out a measure."""
    lines = [] if od is None else [f"{tag},{part},od,0,{od}"]
    lines += [f"{tag},{part},wall,{clock},{wall!r}" for clock, wall in walls]
    lines += [] if bow is None else [f"{tag},{part},bow,,{bow}"]
    return "".join(line + "\n" for line in lines)


class ShopTest(ProgramTest):
    def inspect(self, readings, *words, spec=SPEC):
        self.file("spec.csv", spec)
        self.file("readings.csv", READINGS + readings)
        return self.run_program("inspect", "--spec", "spec.csv", "readings.csv", *words)

    def cut(self, *rows, words=()):
        self.file("cuts.csv", sheet([{**CUT, **row} for row in rows]))
        return self.run_program("release", "cuts.csv", *words)

    def pull(self, *rows, words=()):
        self.file("horns.csv", sheet([{**HORN, **row} for row in rows]))
        return self.run_program("pull", "horns.csv", *words)

    def assertNear(self, got, want, within=1e-9):
        self.assertTrue(abs(float(got) - want) <= within * abs(want), (got, want))

    def assertReadable(self, text):
        for line in text.splitlines():
            self.assertLessEqual(len(line), 80, line)
            self.assertEqual(line, line.rstrip())
            self.assertNotIn("nan", line)
        for word in CAUTION:
            self.assertIn(word, joined(text))
