#!/usr/bin/env python3
"""Tests of the program as its users meet it: what it writes, what it says, how it ends.

Usage: test_program.py PROGRAM SOURCE_DIR [CASE...]. A CASE names tests, as in on_streams.Terminal.
RAILBOW_SANITIZED=1 says that the program was built with a sanitizer: memory is then not measured."""

import sys
import unittest

sys.dont_write_bytecode = True  # nothing is written beside the sources

import on_answers
import on_faults
import on_input
import on_learning
import on_materials
import on_published
import on_report
import on_report_studies
import on_shop
import on_streams
import on_studies
import on_usage
from program import Installed, ProgramTest

MODULES = [on_usage, on_input, on_materials, on_streams, on_answers, on_published, on_shop, on_faults, on_report,
           on_report_studies, on_studies, on_learning]


def suite(names):
    loader = unittest.TestLoader()
    if names:
        return loader.loadTestsFromNames(names)
    return unittest.TestSuite(loader.loadTestsFromModule(module) for module in MODULES)


def main(program, source, *names):
    ProgramTest.installed = Installed(program, source)
    try:
        tests = suite(names)
        result = unittest.TextTestRunner().run(tests)
    finally:
        ProgramTest.installed.remove()
    return not result.wasSuccessful() or result.testsRun == 0


if __name__ == "__main__":
    if len(sys.argv) < 3:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
