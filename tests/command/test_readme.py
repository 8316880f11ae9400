"""The README: its examples and its glossary are what the program prints, and every command in it works."""

import re
import shlex
import shutil

from program import ProgramTest, glossary, run_tests


LEFT_OUT = "[...]"  # a line that stands for lines of the answer


class Readme(ProgramTest):
    def setUp(self):
        super().setUp()
        self.readme = (self.installed.source / "README.md").read_text(encoding="utf-8")

    def examples(self):
        """Each fenced block that begins with "$ railbow ...": the command, and the lines after it."""
        for block in self.readme.split("```")[1::2]:
            first, _, rest = block.split("\n", 1)[1].partition("\n")
            if first.startswith("$ railbow "):
                yield first[2:], rest

    def test_every_example_is_what_the_program_prints(self):
        count = 0
        for command, want in self.examples():
            count += 1
            with self.subTest(command=command):
                run = self.run_program(*shlex.split(command)[1:], cwd=self.installed.source)
                parts = [re.escape(part) for part in want.split(f"{LEFT_OUT}\n")]
                self.assertLess(len(parts), 5)
                self.assertTrue(all(len(part.splitlines()) > 1 for part in want.split(f"{LEFT_OUT}\n") if part))
                self.assertRegex(run.out, r"\A" + r"(?:.*\n)*?".join(parts) + r"\Z")
        self.assertGreater(count, 0)

    def test_it_is_short(self):
        self.assertLessEqual(len(self.readme.splitlines()), 250)

    def test_its_glossary_is_that_of_help_words(self):
        section = self.readme.split("## Words\n", 1)[1].split("\n## ", 1)[0]
        listed = re.findall(r"(?m)^- \*\*(.+?)\*\*: (.*(?:\n  .+)*)", section)
        shown = {word: " ".join(meaning.split()) for word, meaning in listed}
        said = glossary(self.run_program("help", "words").out)
        self.assertGreater(len(shown), 5)
        self.assertEqual(shown, {word: said[word] for word in shown})

    def test_every_command_that_it_names_works(self):
        named = re.findall(r"(?m)^    (railbow .*?)(?:   .*)?$|`(railbow \w+ [^`]*\w\.csv[^`]*|railbow (?:help [a-z]+|columns))`",
                           self.readme)
        commands = [first or second for first, second in named]
        self.assertGreater(len(commands), 12)
        shutil.copytree(self.installed.source / "cases", self.folder / "cases")
        for command in commands:
            with self.subTest(command=command):
                run = self.run_program(*shlex.split(command)[1:])
                self.assertEqual(run.err, "")
                self.assertLess(run.status, 3 if " inspect " in command else 2)  # the demo has a tube unread


if __name__ == "__main__":
    run_tests()
