#!/usr/bin/python3
"""Count the published values: how many, from how many publications, and how sure each is.

Run:      /usr/bin/python3 tests/reference/proof.py     (the last lines of `sh tests/run proof`)
Counted:  a publication once, whatever its edition; a row of an own calculation is a value, but has no publication.
"""
import collections
import csv
import pathlib

SOURCE = pathlib.Path(__file__).resolve().parents[2]
TABLES = ("tests/reference/published.csv", "tests/reference/frames_published.csv", "tests/detail/published.csv")
SURE = {"read": "read", "part read": "read in part", "read second hand": "read second hand", "derived": "derived from a named formula"}
STANDINGS = {**SURE, "from memory": "from memory", "own calculation": "own calculations"}


def rows_of(path):
    """The rows of a table, each with the line of the file that it stands on."""
    with open(SOURCE / path, newline="", encoding="utf-8") as file:
        lines = [(number, line) for number, line in enumerate(file, 1) if not line.startswith("#")]
    rows = list(csv.DictReader(line for _, line in lines))
    if len(rows) != len(lines) - 1:
        raise ValueError(f"{path}: {len(lines) - 1} lines are {len(rows)} rows")
    return [{**row, "line": f"{path}:{number}"} for row, (number, _) in zip(rows, lines[1:])]


class Counts:
    def __init__(self, rows):
        self.values = len(rows)
        self.standing = collections.Counter(row["standing"] for row in rows)
        self.publications = collections.Counter(row["title"] for row in rows if row["standing"] != "own calculation")
        self.published = sum(self.publications.values())
        self.share = sum(self.standing[name] for name in SURE) / self.values

    def said(self):
        """As README.md says it."""
        kinds = ", ".join(f"{self.standing[name]} {words}" for name, words in STANDINGS.items() if name != "own calculation")
        return f"{self.values} values, {self.published} of them from {len(self.publications)} publications: {kinds}"


def counts():
    return Counts([row for path in TABLES for row in rows_of(path)])


def main():
    whole = counts()
    for title, number in sorted(whole.publications.items()):
        print(f"{number:4} {title}")
    print(f"{whole.said()}, {whole.standing['own calculation']} own calculations.\n"
          f"{len(whole.publications)} publications, {whole.values} values, {whole.share:.1%} read or derived from a named formula.")


if __name__ == "__main__":
    main()
