"""docs/hosting.md: each command in it is one that the course takes, and does what the page says."""

import re
import shlex
from pathlib import Path

import click
import pytest

from bitepoint import places
from bitepoint.cli import cli
from bitepoint.workbook.create import make_workbook
from bitepoint.workbook.own_folder import own_folder

DOCS = Path(__file__).parents[2] / "docs"
PAGE = (DOCS / "hosting.md").read_text(encoding="utf-8")
CONTAINER = (DOCS / "hosting" / "Containerfile").read_text(encoding="utf-8")


def commands() -> list[str]:
    """The commands of the page, without what stands beside them and without the places that a reader fills."""
    found = re.findall(r"^(?:    |#   )(bitepoint .+)$", f"{PAGE}\n{CONTAINER}", re.M) + re.findall(
        r"`(bitepoint [^`]+)`", PAGE
    )
    return list(dict.fromkeys(re.split(r"\s{2,}", line)[0].replace("…", "X").replace("\\", "/") for line in found))


@pytest.mark.parametrize("line", commands())
def test_a_command_of_the_page_is_taken(line: str) -> None:
    """Command, options and what they want are known; nothing is run."""
    words = shlex.split(line)[1:]
    found: click.Command = cli
    while isinstance(found, click.Group):
        found = found.commands[words.pop(0)]
    found.make_parser(click.Context(found)).parse_args(words)


def test_the_page_has_commands() -> None:
    """Or the test above would hold nothing."""
    assert {"bitepoint bundle clutch-stick --class autumn --zip", "bitepoint board S:/clutch"} <= set(commands())


def test_whoever_comes_second_to_a_laptop_gets_a_folder_beside(tmp_path: Path) -> None:
    """By the two lines of the page, in one account: the id stands in the second folder's name, and both stay whose they are."""
    lines = [shlex.split(line) for line in commands() if line.startswith("bitepoint open --class-word")]
    places_given = []
    for words in (*lines, *lines):
        place, identity = own_folder(tmp_path / "clutch-course", named=False, class_word=words[3], learner=words[5])
        if not place.exists():
            make_workbook(place, identity)
        places_given.append((place.name, identity.learner))
    first, second = lines[0][5], lines[1][5]
    assert [("clutch-course", first), (f"clutch-course-{second}", second)] * 2 == places_given
    assert f"bitepoint hand-in clutch-course-{second} " in PAGE


def test_the_container_installs_as_a_bundle_does() -> None:
    """Its pip line has what keeps the script that a test runs from every index and every setting."""
    script = places.set_up().read_text(encoding="ascii")
    (line,) = re.findall(r"^RUN python -m pip install (.+) bitepoint &&", CONTAINER, re.M)
    asked = [word for word in line.split() if word.startswith("--")]
    assert ["--isolated", "--no-index", "--find-links"] == asked
    assert [word for word in asked if f'"{word}"' not in script] == []
