"""The version of the program, as the files of marking name it."""

import sys

VERSION: str = sys.modules["bitepoint"].__version__
"""Taken from the loaded package: importing it by name would reach up to the four verbs that it offers notebooks."""
