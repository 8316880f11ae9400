"""Names that would steer a terminal or turn what is read: shown as escapes in texts, pages and messages."""

import os
import pty

from program import HOLDS, ProgramTest, environment, run_tests, table

NASTY = "a\033[2Jb\u202ec\u2066d\u200be\u009bf"
SHOWN = r"a\x1B[2Jb\u202Ec\u2066d\u200Be\u009Bf"
STEERING = [chr(code) for code in (*range(9), *range(11, 32), *range(0x7f, 0xa0), 0xad, 0x200b, 0x202e, 0x2066)]


class Deceit(ProgramTest):
    def assertTame(self, text):
        self.assertEqual([hex(ord(c)) for c in STEERING if c in text], [])

    def nasty_cases(self):
        self.cases({"case": NASTY, "note": NASTY, "part": NASTY, **HOLDS, "bow [in]": "0.02"}, name="bowed.csv")
        self.file("nasty_details.csv", f"case,detail,kind,at\n{NASTY},{NASTY},ring weld,a\n")

    def commands(self):
        """As other_commands, on names that are nasty."""
        words = self.other_commands()
        shop = self.installed.source / "cases"
        own = "readings.csv", "parts.csv", "cuts.csv", "horns.csv", "sight.csv", "sticks_parts.csv", "sticks_stock.csv"
        for name in own:
            lines = (shop / name).read_text().splitlines()
            first = next(i for i, line in enumerate(lines) if not line.startswith("#"))
            column = 0
            for i in range(first + 1, len(lines)):
                cells = lines[i].split(",")
                cells[column] = NASTY + (cells[column] if name == "sight.csv" else str(i))
                lines[i] = ",".join(cells)
            self.file(name, "\n".join(lines) + "\n")
        self.nasty_cases()
        plain = [[str(word) for word in command] for command in words]
        shops = {str(shop / name): name for name in own}
        shops |= {str(shop / "life.csv"): "bowed.csv", str(shop / "life_details.csv"): "nasty_details.csv"}
        return [["check", "bowed.csv"], ["explain", "bowed.csv", NASTY],
                *[[shops.get(word, word) for word in command] for command in plain]]

    def test_texts(self):
        for words in self.commands():
            with self.subTest(words=words):
                run = self.run_program(*words, "--format", "text")
                self.assertIn(r"\x1B[2Jb", run.out)  # a long name is cut in its middle
                self.assertTame(run.out)
                self.assertTame(run.err)

    def test_pages(self):
        self.nasty_cases()
        self.file("tolerances.csv", "column,minus,plus,unit\nwall,10,10,%\n")
        for words in (["check"], ["compare", "--walls", "0.058,0.065"], ["sweep", "--vary", "length=20:40:20"],
                      ["limit", "--find", "bow", "--to", "1in"], ["index"], ["life", "--details", "nasty_details.csv"],
                      ["scatter", "--tolerances", "tolerances.csv", "--samples", "64"]):
            with self.subTest(words=words):
                run = self.run_program(*words, "bowed.csv", "--report", "page.html", "--title", NASTY, "--by", NASTY,
                                       "--note", NASTY, "--date", NASTY)
                self.assertEqual(run.err, "")
                page = self.read("page.html")
                self.assertIn(f"<title>{SHOWN}</title>", page)
                self.assertTame(page)

    def test_messages(self):
        self.cases({**HOLDS, "material": NASTY}, name="bad.csv")
        for words in (["check", "bad.csv"], ["check", NASTY], ["check", "bad.csv", "--materials", NASTY],
                      ["check", "bad.csv", "-o", f"no/{NASTY}"], ["check", "bad.csv", "--format", NASTY], [NASTY],
                      ["check", "bad.csv", f"--{NASTY}"], ["sweep", "bad.csv", "--vary", f"{NASTY}=1:2:1"],
                      ["sweep", "bad.csv", "--vary", NASTY], ["limit", "bad.csv", "--find", "bow", "--to", NASTY],
                      ["compare", "bad.csv", "--walls", NASTY], ["explain", "bad.csv", NASTY], ["help", NASTY],
                      ["section", NASTY], ["section", "1x0.05", "--material", NASTY], ["new", f"no/{NASTY}"],
                      ["check", "bad.csv", "--factor", NASTY], ["columns", NASTY]):
            with self.subTest(words=words):
                run = self.run_program(*words)
                self.assertIn(r"\x1B[2J", run.err)
                self.assertTame(run.err + run.out)
                self.assertEqual(run.err.count("\n"), len(run.err.splitlines()))

    def test_a_file_of_that_name(self):
        self.file(NASTY, table(HOLDS, {"od [in]": "0"}))
        run = self.check(NASTY)
        self.assertEqual(run.err, f"railbow: {SHOWN}:3: od: '0' is out of range: must be above 0\n")
        self.assertTame(self.run_program("explain", NASTY, "rail").out)

    def test_rows_on_a_terminal(self):
        self.nasty_cases()
        for form in "csv", "json":
            with self.subTest(form=form):
                master, slave = pty.openpty()
                process = self.start("check", "bowed.csv", "--format", form, stdout=slave, env=environment())
                os.close(slave)
                shown = b""
                try:
                    while piece := os.read(master, 4096):
                        shown += piece
                except OSError:  # how Linux says that the other side is gone
                    pass
                os.close(master)
                self.assertEqual(process.wait(20), 0)
                self.assertTame(shown.decode().replace("\r\n", "\n"))
                run = self.check("bowed.csv", "--format", form)  # not on a terminal the name is handed on as it is
                self.assertIn("\u202e", run.out)


if __name__ == "__main__":
    run_tests()
