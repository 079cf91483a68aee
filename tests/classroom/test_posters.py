"""Posters: one file each, what their source says and no more, the frame where a vehicle's figures stand, alt texts."""

import re
from html import unescape
from pathlib import Path

import pytest

from bitepoint.bank.lessons import LESSONS
from bitepoint.classroom.lesson_text import cells_of, pictures_shown, recap, statements
from bitepoint.classroom.posters.label import changed
from bitepoint.classroom.posters.pages import POSTERS, poster_page, write_posters
from bitepoint.classroom.posters.remember import PREFERRED
from bitepoint.cli import main
from bitepoint.pictures.work.fault_figures import COMPLAINTS, LOOKS
from bitepoint.workshop.damage import damage
from bitepoint.workshop.vehicles import FRAME

REMEMBER = [key for key in POSTERS if key.startswith("remember-")]
SMALLEST_PT = 12


def words(page: str) -> str:
    """The text of a page, without its marks, one blank between words."""
    body = page[page.index("<main>") :]
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", re.sub(r"</?(strong|em|code)>", "", body))).split())


@pytest.mark.parametrize("paper", ["A4", "letter"])
@pytest.mark.parametrize("key", POSTERS)
def test_every_poster_has_its_page_size_and_fetches_nothing(key: str, paper: str) -> None:
    """Portrait or on its side, A4 or Letter; no script, no address, every image with its alt text inside the page."""
    page = poster_page(key, paper=paper)  # type: ignore[arg-type]
    size = re.search(r"@page { size: ([\d.]+)mm ([\d.]+)mm; margin: 0; }", page)
    assert size
    assert sorted(map(float, size.groups())) == ([215.9, 279.4] if paper == "letter" else [210, 297])
    assert re.findall(r"<script|https?://|<link|url\(", page) == []
    images = re.findall(r'<img alt="([^"]*)" src="data:image/(?:svg\+xml|png);base64,', page)
    assert page.count("<img") == len(images)
    assert [alt for alt in images if len(alt) < 20] == []
    assert "Not sure? Stop and ask." in page


@pytest.mark.parametrize("key", POSTERS)
def test_the_frame_stands_where_figures_of_a_vehicle_may_stand(key: str) -> None:
    """On the label and on each lesson's page, and on each label that is cut out; the others have no such figure."""
    page = poster_page(key)
    assert {"label": 4}.get(key, 1 if key in REMEMBER else 0) == page.count(FRAME)
    if not page.count(FRAME):
        assert re.findall(r"[Tt]raining vehicle", words(page)) == []


@pytest.mark.parametrize("key", POSTERS)
def test_no_type_is_smaller_than_twelve_points(key: str) -> None:
    """It hangs on a wall; only the frame on a label true to size is smaller."""
    style = poster_page(key).split("</style>")[0]
    style = style.replace(re.search(r"\.label \.not.*|$", style)[0], "")  # type: ignore[index]
    sizes = [float(s) for s in re.findall(r"font(?:-size)?:[^;}]*?(\d+(?:\.\d+)?)pt", style)]
    assert sizes
    assert [size for size in sizes if size < SMALLEST_PT] == []


def test_the_fault_tree_has_the_looks_of_the_lessons_picture() -> None:
    """Poster and picture cannot say different things: one list."""
    said = words(poster_page("fault-tree"))
    for row in LOOKS:
        for look in row:
            assert " ".join(look) in said
    assert [name for _, _, name in COMPLAINTS if name not in said] == []


def test_the_inspection_poster_has_every_part_sound_and_damaged() -> None:
    """Two images a part, its sign in words, and what is decided."""
    page = poster_page("inspection")
    for part in damage().values():
        assert f"{part.damaged[0].upper()}{part.damaged[1:]}." in unescape(page)
        for alt in (f"Sound {part.name}: {part.sound}.", f"Damaged {part.name}: {part.damaged}."):
            assert f'alt="{alt}"' in unescape(page)
    assert 2 * len(damage()) == page.count("<img")


def test_the_bleeding_card_has_its_cautions_whole_and_every_way() -> None:
    """Cautions stand before the first way; gravity, pedal, pressure, dry concentric slave."""
    said = words(poster_page("bleeding"))
    cautions = (
        "Goggles and gloves, hose secured, water at hand, wash at once.",
        "Never press the pedal while the gearbox is off",
    )
    ways = ("By gravity", "With the pedal", "By pressure", "Dry concentric slave")
    places = [said.index(one) for one in (*cautions, *ways)]
    assert sorted(places) == places


def test_the_label_names_a_kit_that_fits_and_is_true_to_size() -> None:
    """The kit that changes the flywheel of that vehicle; the label's sides and the ruler are set in millimetres."""
    v, kit = changed()
    page = poster_page("label")
    assert ("dual-mass", "rigid") == (v.flywheel.fitted_now, kit.flywheel)
    assert 3 == page.count(f"<dd>{kit.kit}</dd>")
    assert ".label { width: 90mm; height: 53mm;" in page
    assert "width: 100mm; height: 5mm" in page


@pytest.mark.parametrize("key", LESSONS)
def test_what_to_remember_is_the_lessons_own_recap(key: str) -> None:
    """Word for word what the notebook says now, and a picture that the lesson shows."""
    page = poster_page(f"remember-{LESSONS[key].notebook[:2]}")
    lines = recap(key)
    assert 2 <= len(lines) == page.count("<li>")
    said = words(page).casefold()
    for line in lines:
        for part in re.split(r":?\*\*:?\s*", line):
            assert part.strip(" :").casefold() in said
    assert 1 == page.count("<img")


def test_the_preferred_pictures_are_pictures_of_lessons_that_are_there() -> None:
    """A lesson that shows another picture now gets its first one; a key that is no lesson would never be seen."""
    assert set(PREFERRED) <= set(LESSONS)
    assert all(pictures_shown(key) for key in LESSONS)


def test_a_cell_is_taken_apart_into_what_it_states() -> None:
    """A paragraph on two lines is one statement, each line of a list and each row of a table one."""
    source = "## Heading\n\nOne sentence\non two lines.\n\n* first\n* second\n  goes on\n\n1. third\n\n| a | b |\n| - | - |\n| c | d |"
    expected = ("One sentence on two lines.", "first", "second goes on", "third", "| a | b |", "| c | d |")
    assert expected == statements(source)
    assert cells_of("start")[0].text


def test_posters_are_written_one_file_each(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Named after what they are, in Letter where asked for."""
    assert main(["sheets", "--posters", "--letter", "--out", str(tmp_path / "out")]) == 0
    assert [f"{key}.html" for key in POSTERS] == [Path(p).name for p in capsys.readouterr().out.split()]
    assert "size: 279.4mm 215.9mm" in (tmp_path / "out" / "fault-tree.html").read_text(encoding="utf-8")
    assert len(write_posters(tmp_path / "out")) == 4 + len(LESSONS)


def test_what_cannot_be_asked_together_and_a_file_for_a_folder_are_told_in_one_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Nothing is written then."""
    (tmp_path / "taken").write_text("", encoding="utf-8")
    for wrong in (["--posters", "--review"], ["--posters", "--vehicle", "A"], ["--posters", "--class-file", "c.toml"]):
        assert main(["sheets", *wrong, "--out", str(tmp_path / "out")]) == 2
    for one in ("--posters", "--review"):
        assert main(["sheets", one, "--out", str(tmp_path / "taken")]) == 2
    said = capsys.readouterr().err.splitlines()
    assert [line.split("?")[0] for line in said[:3]] == ["bitepoint: Whose sheets"] * 3
    assert ["is a file. Name a folder for" in line for line in said[3:]] == [True, True]
    assert not (tmp_path / "out").exists()
