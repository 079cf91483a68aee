"""Lists and class files as another system, an editor or a spreadsheet writes them."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from bitepoint.errors import BitepointError
from bitepoint.logbook.identity import read_identity
from bitepoint.marking.registry.lists import read_codes, read_observations
from bitepoint.marking.roster import read_roster
from bitepoint.marking.rules import read_rules
from bitepoint.workbook.class_file import read_class_file
from bitepoint.workshop.kit_list import read_kits
from bitepoint.workshop.own_sheets.own_sheet import read_own_sheet

HERE = Path(__file__).parents[1]
CLASS = 'class_word = "oak-2026"\ntitle = "Übung"\nvehicles = ["A", "B"]\n'
READ: dict[str, tuple[Callable[[Path], Any], str]] = {
    "roster.csv": (read_roster, "learner,class_word,name\nL01-X,oak-2026,Jörg\nL02-Y,oak-2026,Bo\n"),
    "codes.csv": (read_codes, "learner,lesson,code,noted at,by\nL01-X,star,AD7-QB7,2026-06-30,Jörg\n"),
    "observations.csv": (
        read_observations,
        "criterion,result,learner,assessor,date,note\nPrüft,done right,L01-X,A. Assessor,2026-06-30,\n",
    ),
    "class.toml": (read_rules, CLASS),
    "start.toml": (read_class_file, CLASS + 'learner = "ann"\nvehicle = "B"\n'),
    "workbook.toml": (read_identity, CLASS + 'learner = "ann"\n'),
    "k7v.toml": (
        lambda path: read_own_sheet(path).figures,
        (HERE / "own_sheets" / "k7v.toml").read_text(encoding="utf-8") + "# Übung\n",
    ),
    "kits.csv": (read_kits, (HERE.parent / "assets" / "kits.csv").read_text(encoding="utf-8").replace(";", ";ü", 1)),
}


@pytest.mark.parametrize("ends", ["\r\n", "\n"], ids=["CRLF", "LF"])
@pytest.mark.parametrize("mark", [b"\xef\xbb\xbf", b""], ids=["with a mark", "without"])
@pytest.mark.parametrize("name", READ)
def test_lists_and_class_files_are_read_as_other_systems_write_them(
    tmp_path: Path, name: str, mark: bytes, ends: str
) -> None:
    """Line ends and a byte order mark are no part of what a file says."""
    read, text = READ[name]
    (tmp_path / name).write_bytes(text.encode("utf-8"))
    plain = read(tmp_path / name)
    (tmp_path / name).write_bytes(mark + text.replace("\n", ends).encode("utf-8"))

    assert plain == read(tmp_path / name)


@pytest.mark.parametrize("encoding", ["latin-1", "utf-16"])
@pytest.mark.parametrize("name", READ)
def test_another_encoding_is_one_clear_line(tmp_path: Path, name: str, encoding: str) -> None:
    """A spreadsheet or an editor that saves otherwise is told, and the file's name with it."""
    read, text = READ[name]
    (tmp_path / name).write_bytes(text.encode(encoding))
    with pytest.raises(ValueError, match="is not written in UTF-8") as raised:
        read(tmp_path / name)
    assert isinstance(raised.value, BitepointError)
    assert str(raised.value).startswith(f"{name}: ")
