#!/usr/bin/env python3
"""The rooms of the source: includes point down, no files include each other in a circle, no file and no room is too large,
and the library shows no name of its own but rbow_...

Usage: test_structure.py SOURCE_DIR LIBRARY NM      LIBRARY: librailbow.a"""

import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

LINES_MOST = 400  # of a file
FILES_MOST = 24   # .c files of a room

# Each room, and those that its files may include besides their own. A room is one folder; what lies deeper is another room.
# Every room stands below those that may include it, so that no two may include each other.
API = "include/railbow"
TABLES = ["src/cases/list", "src/cases/detail", "src/cases/shop", "src/cases", "src/table", API]
PAGES = ["src/report/page/detail", "src/report/page/frame", "src/report/page/shop", "src/report/page"]
TEXTS = ["src/report/text", "src/report"]
ROOMS = {
    API: [],
    "src/mechanics": [API],
    "src/check": ["src/mechanics", API],
    "src/frame": ["src/check", "src/mechanics", API],
    "src/detail": ["src/frame", "src/check", "src/mechanics", API],
    "src/shop": ["src/mechanics", API],
    "src/table": [],
    "src/cases": ["src/table", API],
    "src/cases/detail": ["src/cases", "src/table", API],
    "src/cases/shop": ["src/cases", "src/table", API],
    "src/cases/list": TABLES[1:],
    "src/working": TABLES[1:],
    "src/study": TABLES[1:],
    "src/report": ["src/cases/detail", "src/cases", "src/table", API],
    "src/report/chart": ["src/report", "src/table"],
    "src/report/text": ["src/report", "src/working", *TABLES],
    "src/report/shop": ["src/report", *TABLES],
    "src/report/text/shop": ["src/report/text", "src/report/shop", "src/report", *TABLES],
    "src/report/text/frame": [*TEXTS, "src/working", *TABLES],
    "src/report/json": ["src/report", "src/table"],
    "src/report/live": ["src/table"],
    "src/report/page": ["src/report/chart", "src/report", "src/working", *TABLES],
    "src/report/page/detail": ["src/report/page", "src/report/chart", "src/report", "src/working", *TABLES],
    "src/report/page/frame": ["src/report/page", "src/report/chart", "src/report", "src/working", *TABLES],
    "src/report/page/shop": ["src/report/page", "src/report/shop", "src/report/chart", "src/report", *TABLES],
    "src/program/bytes": [],
    "src/page": ["src/study"],
    "src/program": ["src/program/bytes", "src/report/live", "src/report/page", "src/report/json", "src/report", "src/study", *TABLES],
    "src/program/frame": ["src/program/bytes", "src/program", "src/report/page", "src/report/json", "src/report", "src/study", *TABLES],
    "src/program/detail": ["src/program/bytes", "src/program", "src/report/page", "src/report/json", "src/report", "src/study", *TABLES],
    "src/command/frame": ["src/program/frame", "src/program/detail", "src/program", *PAGES, "src/report/text/frame", *TEXTS, "src/study", "src/working", *TABLES],
    "src/command": ["src/command/frame", "src/report/text/shop", "src/report/shop", "src/program/frame", "src/program/detail", "src/program", *PAGES, *TEXTS, "src/study", "src/working", *TABLES],
    "src/document": ["src/command/frame", "src/command", "src/program", "src/report", *TABLES],
}

INCLUDE = re.compile(r'^\s*#\s*include\s*(?:"([^"]+)"|<(railbow/[^>]+)>)', re.M)


class Tree:
    """The C files below src and include of a folder, and what they include of each other."""

    def __init__(self, root, rooms):
        self.root, self.rooms = pathlib.Path(root), rooms
        self.files = sorted(path for folder in ("src", "include") for path in (self.root / folder).rglob("*.[ch]"))
        self.includes = {path: self.included(path) for path in self.files}

    def name(self, path):
        return path.relative_to(self.root).as_posix()

    def room(self, path):
        return path.parent.relative_to(self.root).as_posix()

    def included(self, path):
        """Paths; None for a file that does not exist."""
        found = []
        for quoted, public in INCLUDE.findall(path.read_text(encoding="utf-8")):
            places = [self.root / "include" / public] if public else [self.root / "src" / quoted, path.parent / quoted]
            found.append(next((place for place in places if place.is_file()), None))
        return found

    def held(self):
        return self.files

    def strangers(self):
        """Files outside every room, and includes of files that do not exist."""
        faults = [f"{self.name(path)}: {self.room(path)} is no room" for path in self.held() if self.room(path) not in self.rooms]
        return faults + [f"{self.name(path)}: includes a file that is not there" for path in self.held()
                         if None in self.includes[path]]

    def upward(self):
        faults = []
        for path in self.held():
            allowed = [self.room(path), *self.rooms.get(self.room(path), [])]
            faults += [f"{self.name(path)}: includes {self.name(other)}" for other in self.includes[path]
                       if other is not None and self.room(other) not in allowed]
        return faults

    def circles(self):
        """X.h and X.c count as one file: what either includes, both do."""
        stem = {path: path.with_suffix("") for path in self.files}
        edges = {}
        for path in self.held():
            edges.setdefault(stem[path], set()).update(stem[other] for other in self.includes[path] if other in stem)
        for node, others in edges.items():
            others.discard(node)
        return [" - ".join(self.name(node) for node in circle) for circle in circles_of(edges)]

    def long_files(self):
        counts = {path: len(path.read_text(encoding="utf-8").splitlines()) for path in self.held()}
        return [f"{self.name(path)}: {count} lines" for path, count in counts.items() if count > LINES_MOST]

    def crowded_rooms(self):
        counts = {}
        for path in self.held():
            counts[self.room(path)] = counts.get(self.room(path), 0) + (path.suffix == ".c")
        return [f"{room}: {count} .c files" for room, count in counts.items() if count > FILES_MOST]


def circles_of(edges):
    """One circle for each edge that closes one, in a search of the whole graph."""
    done, found = set(), []

    def visit(node, path):
        if node in path:
            found.append([*path[path.index(node):], node])
        elif node not in done:
            for other in sorted(edges.get(node, ())):
                visit(other, [*path, node])
            done.add(node)

    for node in sorted(edges):
        visit(node, [])
    return found


def unprefixed(symbols):
    """The global names in the output of nm that do not begin with rbow_."""
    names = [line.split()[-1] for line in symbols.splitlines() if len(line.split()) == 3]
    return sorted(name for name in names if not name.startswith("rbow_"))


class Structure(unittest.TestCase):
    maxDiff = None
    source = library = nm = None

    def setUp(self):
        self.tree = Tree(self.source, ROOMS)

    def test_there_are_files(self):
        self.assertGreater(len(self.tree.held()), 100)
        self.assertEqual(set(ROOMS), {self.tree.room(path) for path in self.tree.files})

    def test_every_file_stands_in_a_room(self):
        self.assertEqual(self.tree.strangers(), [])

    def test_includes_point_down(self):
        self.assertEqual(self.tree.upward(), [])

    def test_no_circle_of_rooms(self):
        self.assertEqual(circles_of({room: set(below) for room, below in ROOMS.items()}), [])

    def test_no_circle_of_files(self):
        self.assertEqual(self.tree.circles(), [])

    def test_no_long_file(self):
        self.assertEqual(self.tree.long_files(), [])

    def test_no_crowded_room(self):
        self.assertEqual(self.tree.crowded_rooms(), [])

    def test_the_library_shows_its_own_names_only(self):
        run = subprocess.run([self.nm, "-g", "--defined-only", self.library], stdout=subprocess.PIPE, check=True)
        self.assertEqual(unprefixed(run.stdout.decode()), [])


class MadeUp(unittest.TestCase):
    """Each rule finds its fault in an invented tree, and none in a correct one."""

    ROOMS = {"include/railbow": [], "src/low": ["include/railbow"], "src/high": ["src/low"], "src/apart": []}
    SOUND = {"include/railbow/a.h": "", "src/low/b.h": "#include <railbow/a.h>\n#include <stdio.h>\n",
             "src/low/b.c": '#include "low/b.h"\n', "src/high/c.c": '#include "low/b.h"\n', "src/apart/d.c": ""}

    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.root = pathlib.Path(folder.name)

    def tree(self, changes):
        for name, text in {**self.SOUND, **changes}.items():
            (self.root / name).parent.mkdir(parents=True, exist_ok=True)
            (self.root / name).write_text(text, encoding="utf-8")
        return Tree(self.root, self.ROOMS)

    def faults(self, changes):
        tree = self.tree(changes)
        return [*tree.strangers(), *tree.upward(), *tree.circles(), *tree.long_files(), *tree.crowded_rooms()]

    def test_sound(self):
        self.assertEqual(self.faults({}), [])

    def test_upward_and_sideways(self):
        self.assertEqual(self.faults({"src/high/c.h": "", "src/low/e.c": '#include "high/c.h"\n', "src/apart/d.c": '#include "low/b.h"\n'}),
                         ["src/apart/d.c: includes src/low/b.h", "src/low/e.c: includes src/high/c.h"])

    def test_past_a_room_that_is_not_allowed(self):
        self.assertEqual(self.faults({"src/high/c.c": "#include <railbow/a.h>\n"}), ["src/high/c.c: includes include/railbow/a.h"])

    def test_a_circle_through_a_header_and_a_source(self):
        self.assertEqual(self.faults({"src/low/b.c": '#include "low/b.h"\n#include "low/e.h"\n', "src/low/e.h": '#include "low/f.h"\n',
                                      "src/low/f.h": "", "src/low/f.c": '# include "b.h"\n'}),
                         ["src/low/b - src/low/e - src/low/f - src/low/b"])

    def test_a_circle_of_rooms(self):
        self.assertEqual(circles_of({"a": {"b"}, "b": {"c"}, "c": {"b"}}), [["b", "c", "b"]])

    def test_no_room_and_no_file(self):
        self.assertEqual(self.faults({"src/low/deep/g.c": '#include "low/nothing.h"\n'}),
                         ["src/low/deep/g.c: src/low/deep is no room", "src/low/deep/g.c: includes a file that is not there"])

    def test_size(self):
        self.assertEqual(self.faults({"include/railbow/a.h": "\n" * LINES_MOST}), [])
        self.assertEqual(self.faults({"include/railbow/a.h": "\n" * (LINES_MOST + 1)}), ["include/railbow/a.h: 401 lines"])

    def test_number(self):
        many = {f"src/apart/x{i}.c": "" for i in range(FILES_MOST - 1)}  # with d.c as many as may be
        self.assertEqual(self.faults({**many, "src/apart/y.h": ""}), [])
        self.assertEqual(self.faults({**many, "src/apart/y.c": ""}), ["src/apart: 25 .c files"])

    def test_names(self):
        self.assertEqual(unprefixed("\nb.o:\n0000000000000000 T rbow_a\n0000000000000010 T helper\n0000000000000000 R rbow_table\n"),
                         ["helper"])


if __name__ == "__main__":
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    Structure.source, Structure.library, Structure.nm = sys.argv[1:]
    unittest.main(argv=sys.argv[:1])
