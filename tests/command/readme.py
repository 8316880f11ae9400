#!/usr/bin/env python3
"""Every example in the README is what the program prints.

Usage: readme.py PROGRAM SOURCE_DIR. A fenced block that begins with "$ railbow ..." is run from the source
folder; the lines after it must be its standard output, to the byte."""

import shlex
import subprocess
import sys


def examples(markdown):
    for block in markdown.split("```")[1::2]:
        first, _, rest = block.split("\n", 1)[1].partition("\n")
        if first.startswith("$ railbow "):
            yield first[2:], rest


def main(program, source):
    failed = count = 0
    with open(f"{source}/README.md", encoding="utf-8") as readme:
        text = readme.read()
    for command, want in examples(text):
        words = [program] + shlex.split(command)[1:]
        got = subprocess.run(words, cwd=source, stdout=subprocess.PIPE, check=False).stdout.decode()
        count += 1
        if got != want:
            failed += 1
            print(f"$ {command}\n--- README\n{want}--- program\n{got}")
    print(f"{count} examples, {failed} differ")
    return failed > 0 or count == 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
