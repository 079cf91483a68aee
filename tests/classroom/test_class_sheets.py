"""The sheets of a whole class: each learner's id and car filled in, one file, four pages a learner."""

import re
import shutil
from pathlib import Path

import pytest

from bitepoint.classroom.bench_sheets.class_sheets import NAME, class_page
from bitepoint.classroom.class_folder import read_class_folder
from bitepoint.cli import main
from bitepoint.errors import BadInput
from bitepoint.logbook.identity import learner_id
from bitepoint.questions.draw import own_letter
from bitepoint.workshop.vehicles import FRAME, vehicle

IDS = [learner_id("oak-2026", number) for number in range(1, 7)]


def made(folder: Path, *more: str) -> Path:
    """Make a class of six."""
    assert (
        main(["class", "new", str(folder), "--title", "Oak", "--class-word", "oak-2026", "--learners", "6", *more]) == 0
    )
    return folder


def test_each_learner_has_id_and_car_filled_in(tmp_path: Path) -> None:
    """Id, letter and gearbox code of the learner's own car stand on both leaves, and in the margin of every page."""
    group = read_class_folder(made(tmp_path / "k"))
    page = class_page(group)
    for n, enrolled in enumerate(group.learners, start=1):
        v = vehicle(enrolled.vehicle)
        said = f"Learner {enrolled.learner} · training vehicle {v.id}</strong>, engine {v.engine.code}, gearbox {v.gearbox.code}"
        assert 2 == page.count(said)
        assert f'@top-right {{ content: "{enrolled.learner} · training vehicle {v.id}"' in page
        assert 2 == page.count(f'class="leaf learner-{n}"')
    assert f'@bottom-left {{ content: "{FRAME}"' in page


def test_one_page_says_who_has_which_car(tmp_path: Path) -> None:
    """Each car of the class with its learners, and no car that nobody has."""
    page = class_page(read_class_folder(made(tmp_path / "k", "--vehicles", "B,D")))
    rows = dict(re.findall(r"<tr><td><strong>([A-D])</strong> \(3 of 6\)</td>.*?<td>([^<]*)</td></tr>", page))
    assert {"B": ", ".join(IDS[::2]), "D": ", ".join(IDS[1::2])} == rows
    assert ['"leaf car-B"'] * 4 + ['"leaf car-D"'] * 4 == re.findall(r'"leaf car-.?"', page)


def test_a_list_without_letters_takes_the_rule_or_is_told(tmp_path: Path) -> None:
    """Over the standard cars the rule gives the letter; over others nothing does, and nothing is written."""
    folder = made(tmp_path / "k")
    (folder / "roster.csv").write_text("learner\n" + "\n".join(IDS) + "\n", encoding="utf-8")
    group = read_class_folder(folder)
    assert [own_letter("oak-2026", who) for who in IDS] == [group.letter_of(e) for e in group.learners]
    other = made(tmp_path / "o", "--vehicles", "B,D")
    (other / "roster.csv").write_text(f"learner\n{IDS[0]}\n", encoding="utf-8")
    with pytest.raises(BadInput, match=f"{IDS[0]} has no car, and this class works on B, D"):
        class_page(read_class_folder(other))


def test_measuring_boxes_criteria_and_parts_are_those_of_the_single_sheets(tmp_path: Path) -> None:
    """A class's own criterion stands on every observation leaf, with room to agree on what counts."""
    page = class_page(read_class_folder(made(tmp_path / "k", "--criterion", "Sweeps the <floor>")))
    assert 6 == page.count("Sweeps the &lt;floor&gt;") == page.count("agree and write it down before you watch")
    assert 6 * 8 == len(re.findall(r'<div class="reading">\d+°</div>', page))
    fonts = [float(size) for size in re.findall(r"font(?:-size)?:[^;}]*?(\d+(?:\.\d+)?)pt", page)]
    assert [] == [size for size in fonts if size < 12]


def test_the_command_writes_one_file_and_heeds_the_cars_of_the_class(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A letter that the class does not have is refused; so is a folder that is no class, and neither named."""
    folder, out = made(tmp_path / "k", "--vehicles", "B,D"), str(tmp_path / "out")
    capsys.readouterr()
    assert main(["sheets", str(folder), "--out", out]) == 0
    assert NAME == Path(capsys.readouterr().out.strip()).name
    assert main(["sheets", "--vehicle", "A", "--out", out, "--class-file", str(folder / "class.toml")]) == 2
    assert main(["sheets", str(tmp_path), "--out", out]) == 2
    assert main(["sheets", "--out", out]) == 2
    said = capsys.readouterr().err.splitlines()
    assert "bitepoint: A is no car of this class. Choose one of B, D." == said[0]
    assert "has no class.toml" in said[1]
    assert "Whose sheets?" in said[2]


def test_a_sitting_has_the_supervisors_sheet_and_no_bench_sheets(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The word, the room's clock, from and to, the lesson's tab only; a line for each learner."""
    folder = made(tmp_path / "k", "--sitting", "red-kite", "--supervisor", "A. <Assessor>", "--lessons", "star,torque")
    capsys.readouterr()
    assert main(["sheets", str(folder), "--out", str(tmp_path / "out")]) == 0
    assert ["supervisor.html"] == [Path(line).name for line in capsys.readouterr().out.split()]
    page = (tmp_path / "out" / "supervisor.html").read_text("utf-8")
    for words in (
        "<dd>red-kite</dd>",
        "From, by the room's clock",
        "To, by the room's clock",
        "The lesson's tab only.",
        "No terminal, no new cell",
        "Torque and the wrench, Tighten in a star.",
        "A. &lt;Assessor&gt;",
        *(f"<td><strong>{who}</strong></td>" for who in IDS),
    ):
        assert words in page


@pytest.mark.skipif(not shutil.which("chromium"), reason="needs Chromium")
@pytest.mark.parametrize("letter", [[], ["--letter"]])
@pytest.mark.parametrize("car", ["A", "C"])
def test_a_learner_has_four_pages_on_either_paper(tmp_path: Path, letter: list[str], car: str) -> None:
    """Two leaves printed on both sides, also for the car on which most is measured."""
    folder = made(tmp_path / "k", "--vehicles", car)
    roster = (folder / "roster.csv").read_text(encoding="utf-8").splitlines(keepends=True)
    counts = []
    for learners in (1, 3):
        (folder / "roster.csv").write_text("".join(roster[: learners + 1]), encoding="utf-8")
        assert main(["sheets", str(folder), "--out", str(tmp_path / "out"), "--pdf", *letter]) == 0
        counts.append(pages(tmp_path / "out" / "class-sheets.pdf"))
    assert 2 * 4 == counts[1] - counts[0]


def pages(path: Path) -> int:
    return len(re.findall(rb"/Type\s*/Page\b", path.read_bytes()))
