"""Notebooks are read from regular files alone."""

import os
from pathlib import Path

import pytest

from bitepoint.workbook.notebooks import read_notebook
from bitepoint.workbook.shipped_lessons import FILE, LessonFiles, read_lesson_files


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system knows no pipes in folders")
def test_a_pipe_in_the_place_of_a_file_counts_as_missing(tmp_path: Path) -> None:
    """Reading it would wait for a writer for ever."""
    for name in ("star.ipynb", FILE):
        os.mkfifo(tmp_path / name)
    assert read_notebook(tmp_path / "star.ipynb") is None
    assert LessonFiles() == read_lesson_files(tmp_path)
