"""The frames of tests/reference/frames_published.csv against the printed values of books and codes."""

import csv
import os

from program import ProgramTest, run_tests

FORMS = {"": lambda x: x, "1/x": lambda x: 1.0 / x, "1/sqrt": lambda x: x**-0.5, "sqrt": lambda x: x**0.5,
         "1/(1-x)": lambda x: 1.0 / (1.0 - x)}
COLUMNS = {"od": "od [in]", "wall": "wall [in]", "end_a": "end_a [in-lbf/rad]", "end_b": "end_b [in-lbf/rad]", "gap": "gap [in]"}


def entries(cell):
    return [entry.split() for entry in cell.split("; ")]


def lines(header, rows):
    return "\n".join([",".join(header), *(",".join(map(str, row)) for row in rows)]) + "\n"


def show(row, got):
    """For `sh tests/run proof`: the value beside that of the program."""
    source = ", ".join(word for word in (row["title"], row["edition"], row["place"]) if word)
    print(f"{source} | {row['quantity']} | {row['frame']} | {row['value']} | {got:.8g} | {row['tolerance']} | met | {row['standing']}")


class FramePublished(ProgramTest):
    def write_frame(self, row):
        folder = self.folder / "frame"
        folder.mkdir(exist_ok=True)
        joints = [[*words[:4], " ".join(words[4:])] for words in entries(row["joints"])]
        self.file("frame/joints.csv", lines(["joint", "x [in]", "y [in]", "z [in]", "held"], joints))
        steels, tubes = {}, []
        for words in entries(row["tubes"]):
            given = dict(word.split("=") for word in words[3:])
            steel = given.pop("E"), given.pop("G", "")
            name = steels.setdefault(steel, f"steel {len(steels) + 1}")
            tubes.append([*words[:3], name, *(given.get(column, "") for column in COLUMNS)])
        self.file("frame/tubes.csv", lines(["tube", "from", "to", "material", *COLUMNS.values()], tubes))
        self.file("steels.csv", lines(
            ["material", "elastic_modulus [psi]", "shear_modulus [psi]", "density [lb/in^3]", "yield [psi]"],
            [[name, modulus, shear, 0.283, float(modulus) / 1000] for (modulus, shear), name in steels.items()]))
        header = ["run", "joint", "tube", "force_x [lbf]", "force_y [lbf]", "force_z [lbf]", "moment_x [in-lbf]",
                  "moment_y [in-lbf]", "moment_z [in-lbf]", "spread_x [lbf/in]", "spread_y [lbf/in]", "spread_z [lbf/in]"]
        loads = []
        for kind, name, *numbers in entries(row["loads"]):
            if kind == "joint":
                loads.append(["run", name, "", *numbers, *[""] * (9 - len(numbers))])
            else:
                self.assertEqual(numbers.pop(0), "spread")
                loads.append(["run", "", name, *[""] * 6, *numbers])
        self.file("frame/loads.csv", lines(header, loads))

    def solve(self, row):
        self.write_frame(row)
        run = self.check("frame", "--materials", "steels.csv", "--format", "json")
        self.assertEqual(run.err, "")
        self.assertIn(run.status, (0, 1))
        return run.json

    @staticmethod
    def value(answer, quantity):
        name, _, place = quantity.partition(":")
        if not place:
            return answer["runs"]["rows"][0][name]
        table, key = ("joints", "joint") if name.startswith(("move", "turn", "react")) else ("tubes", "tube")
        return next(row[name] for row in answer[table]["rows"] if row[key] == place)

    def test_printed_values(self):
        with open(self.installed.source / "tests" / "reference" / "frames_published.csv", newline="", encoding="utf-8") as file:
            rows = list(csv.DictReader(line for line in file if not line.startswith("#")))
        self.assertGreater(len(rows), 130)
        frame = answer = None
        for row in rows:
            with self.subTest(frame=row["frame"], quantity=row["quantity"], title=row["title"], place=row["place"]):
                if row["joints"]:
                    frame, answer = row["frame"], self.solve(row)
                self.assertEqual(row["frame"], frame)
                got = FORMS[row["form"]](float(row["times"] or 1) * self.value(answer, row["quantity"]))
                if "size" in row["remark"]:
                    got = abs(got)
                self.assertLessEqual(abs(got - float(row["value"])), float(row["tolerance"]) * (1 + 1e-9), got)
                if os.environ.get("RAILBOW_PROOF") == "1":
                    show(row, got)


if __name__ == "__main__":
    run_tests()
