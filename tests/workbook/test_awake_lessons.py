"""What the page knows of the lessons is what is shipped, and the extension lies where JupyterLab looks for it."""

import json
from pathlib import Path

from bitepoint.workbook import awake_lessons
from bitepoint.workbook.runtime_folder import AWAKE, AWAKE_NAME, write_settings


def test_the_list_of_cells_is_the_course_as_it_is() -> None:
    """Written afresh the file would be the same; if not: python -m bitepoint.workbook.awake_lessons."""
    stored = awake_lessons.FILE.read_text(encoding="utf-8")
    assert awake_lessons.as_text(awake_lessons.lessons()) == stored


def test_the_extension_lies_whole_among_the_servers_own_things(tmp_path: Path) -> None:
    """Package, container and every module beside it, under the name that the container gives itself."""
    write_settings(tmp_path)
    found = tmp_path / "share" / "labextensions" / AWAKE_NAME
    package = json.loads((found / "package.json").read_text(encoding="utf-8"))
    assert AWAKE_NAME == package["name"]
    assert (found / package["jupyterlab"]["_build"]["load"]).is_file()
    assert f'const NAME = "{AWAKE_NAME}"' in (found / "static" / "remoteEntry.js").read_text(encoding="utf-8")
    assert {p.name for p in (AWAKE / "static").iterdir()} == {p.name for p in (found / "static").iterdir()}
