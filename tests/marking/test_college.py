"""A folder of classes marked in one run: each class as if marked alone, the page above them, what is broken costs itself."""

import re
import shutil
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from bitepoint.cli import main
from bitepoint.errors import BadInput
from bitepoint.logbook.identity import learner_id
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.college import run
from bitepoint.marking.college.run import mark_classes
from bitepoint.marking.outputs import one_marking
from bitepoint.marking.registry.register import Entry, Register
from bitepoint.marking.rehearsal.rehearse import rehearse
from bitepoint.marking.rules import rules_of
from bitepoint.workshop.datafiles import data_files, shipped, use_from_now
from bitepoint.workshop.own_sheets.own_sheet import read_own_sheet

MARKED = datetime(2026, 7, 1, 9, tzinfo=UTC)
OWN = Path(__file__).parents[1] / "own_sheets" / "k7v.toml"
LEARNERS = 2
HEAVIER = ("stages_nm = [20, 35]", "stages_nm = [25, 40]")
"""What another college's sheet of the same letter says: the learners of its class were asked other figures."""


@pytest.fixture(autouse=True)
def _shipped() -> Iterator[None]:
    yield
    use_from_now(None)


def sheet(folder: Path, *changed: tuple[str, str]) -> bytes:
    """The own sheet with figures changed, checked by a second person."""
    text = OWN.read_text(encoding="utf-8")
    for old, new in changed:
        assert old in text
        text = text.replace(old, new)
    path = folder / "k7v.toml"
    path.write_text(text, encoding="utf-8")
    checked = f'\n[checked]\nby = "C. Second"\ndate = 2026-11-03\nfigures = "{read_own_sheet(path).figures}"\n'
    return (text + checked).encode("utf-8")


@pytest.fixture(scope="module")
def college(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Four classes: two on the shipped cars, two on an own car of one letter whose sheets differ."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("BITEPOINT_STATE", str(tmp_path_factory.mktemp("state")))
        folder, scratch = tmp_path_factory.mktemp("college"), tmp_path_factory.mktemp("sheets")
        for number, name in enumerate(("ash", "elm")):
            rehearse(folder / name, learners=LEARNERS, seed=number, lessons=("star",), class_word=f"{name}-2026")
        for name, changed in (("vans-1", ()), ("vans-2", (HEAVIER,))):
            own = {"vehicles/k7v.toml": sheet(scratch, *changed)}
            said = {"cars": ("K7V",), "own": own, "lessons": ("star", "torque")}
            rehearse(folder / name, learners=LEARNERS, seed=3, class_word=f"{name}-2026", **said)
        use_from_now(None)
        yield folder


def contents(folder: Path) -> dict[str, bytes]:
    """Return every file under a folder by its name."""
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def alone(place: Path, out: Path) -> dict[str, bytes]:
    """Mark one class as it is marked alone, and return its results."""
    register = place / "register"
    mark_hand_ins(
        [place / "hand-ins"],
        roster=place / "roster.csv",
        out=out,
        register=register if register.is_dir() else None,
        rules=rules_of(place / "class.toml"),
        class_file=place / "class.toml",
        marked=MARKED,
    )
    return contents(out)


@pytest.fixture(scope="module")
def apart(college: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, dict[str, bytes]]:
    """The results of each class marked alone."""
    out = tmp_path_factory.mktemp("alone")
    return {place.name: alone(place, out / place.name) for place in sorted(college.iterdir())}


@pytest.mark.parametrize(("workers", "enough"), [(1, 2), (2, 2), (2, 3)], ids=["here", "whole classes", "shared out"])
def test_each_class_gets_what_it_gets_alone(
    college: Path,
    apart: dict[str, dict[str, bytes]],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    workers: int,
    enough: int,
) -> None:
    """By one process, a whole class a process, or each class shared out: the same bytes, own sheets of one letter included."""
    monkeypatch.setattr(run, "_ENOUGH", enough)
    seen: list[tuple[int, int]] = []
    found = mark_classes(
        college, out=tmp_path, workers=workers, marked=MARKED, progress=lambda done, of: seen.append((done, of))
    )

    assert apart == {name: contents(tmp_path / name) for name in apart}
    assert [(n, 4) for n in range(1, 5)] == seen
    assert ["ash", "elm", "vans-1", "vans-2"] == [line.name for line in found.marked]
    assert data_files() is shipped()


def test_the_sheets_of_two_classes_do_differ(college: Path, tmp_path: Path) -> None:
    """Or the test above would hold nothing: marked with the other class's sheet, hand-ins come to other marks."""
    shutil.copytree(college / "vans-1", tmp_path / "class")
    for name in ("own", "class.toml"):
        shutil.rmtree(tmp_path / "class" / name, ignore_errors=True)
        (shutil.copytree if name == "own" else shutil.copy)(college / "vans-2" / name, tmp_path / "class" / name)
    other = alone(tmp_path / "class", tmp_path / "marks")
    assert b"question changed" in other["marks.csv"]


def test_the_page_has_a_line_a_class_and_the_totals(college: Path, tmp_path: Path) -> None:
    """Counts are those of the classes' reports, names lead there, and no word is about a person."""
    found = mark_classes(college, out=tmp_path / "marks", marked=MARKED)
    page = found.page.read_text(encoding="utf-8")

    for line in found.classes:
        assert line.learners == line.handed_in == line.complete + line.met + line.more_work == LEARNERS
        (row,) = re.findall(rf"<tr>.*{line.name}/report.html.*</tr>", page)
        figures = re.findall(r'data-label="([^"]+)">(?:<span[^>]+>)?(\d+)', row)
        assert (str(line.more_work), str(line.critical)) == (
            dict(figures)["More work needed"],
            dict(figures)["Critical still open"],
        )
        report = (tmp_path / "marks" / line.name / "report.html").read_text(encoding="utf-8")
        assert f"<dt>Critical still open</dt><dd>{line.critical}</dd>" in report
        assert f"<dt>Flags</dt><dd>{line.flags}</dd>" in report
    totals = re.findall(r"<dt>([^<]+)</dt><dd>(?:<span[^>]+>)?(\d+)", page)
    assert ("Learners", str(4 * LEARNERS)) in totals
    assert ("Critical still open", str(sum(line.critical for line in found.classes))) in totals
    assert "NEVER USE ON A CAR" in page
    assert "competent" not in page
    assert "<script" not in page
    assert not re.search(r'(src|href)="(?!#|[\w%.-]+/report\.html")', page)


def test_a_broken_class_costs_one_line_and_itself(
    college: Path, apart: dict[str, dict[str, bytes]], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Bad class file, no roster, no hand-ins, another's own files, one class word twice: each is told, the others are marked."""
    folder = tmp_path / "college"
    shutil.copytree(college, folder)
    for name in ("twice-1", "twice-2", "bad", "listless", "empty", "unfiled"):
        shutil.copytree(college / "elm", folder / name)
        text = (folder / name / "class.toml").read_text(encoding="utf-8").replace("elm-2026", f"{name[:5]}-2026")
        (folder / name / "class.toml").write_text(text, encoding="utf-8")
    (folder / "bad" / "class.toml").write_text('class_word = "bad-2026"\npass_share = 8\n', encoding="utf-8")
    (folder / "listless" / "roster.csv").unlink()
    shutil.rmtree(folder / "empty" / "hand-ins")
    (folder / "unfiled" / "class.toml").write_text("class_word = ", encoding="utf-8")
    (folder / "vans-2" / "own" / "vehicles" / "k7v.toml").write_bytes(b"id = 1")
    (folder / "notes").mkdir()
    (folder / "L01-K.zip").write_bytes(b"")
    (folder / "list.xlsx").write_bytes(b"")
    (folder / "linked").symlink_to(college / "ash")

    said = ["mark", "--classes", str(folder), "--out", str(tmp_path / "marks"), "--marked", MARKED.isoformat()]
    assert main(said) == 1
    lines = capsys.readouterr().err.splitlines()
    told = [
        "bad: class.toml: pass_share must be a number above 0",
        "empty: has no folder hand-ins",
        "listless: has no roster.csv",
        "twice-1: has the class word twice-2026, as twice-2 has",
        "twice-2: has the class word twice-2026, as twice-1 has",
        "unfiled: class.toml: Invalid value (at end of document). Write one “key = value” a line.",
        "vans-2: class.toml: own: the class's own files in own are",
        "linked: is a link and was not followed",
        "notes: is no class folder",
        "1 hand-in lies outside every class folder",
    ]
    assert len(lines) == len(told) + 1
    assert [text for text, line in zip(told, lines, strict=False) if not line.startswith(f"bitepoint: {text}")] == []
    assert lines[-1].startswith("Classes: 3 marked, 7 not. Learners: 6.")
    marked = {name: apart[name] for name in ("ash", "elm", "vans-1")}
    assert marked == {p.name: contents(p) for p in (tmp_path / "marks").iterdir() if p.is_dir()}
    page = (tmp_path / "marks" / "college.html").read_text(encoding="utf-8")
    assert [text for text in told if text.partition(": ")[2][:30].replace("'", "&#39;") not in page] == []


def test_a_class_that_fails_keeps_the_results_that_it_had(college: Path, tmp_path: Path) -> None:
    """Marked before, broken since: its old results stand whole, and the page does not count them."""
    folder = tmp_path / "college"
    shutil.copytree(college / "ash", folder / "ash")
    shutil.copytree(college / "elm", folder / "elm")
    mark_classes(folder, out=tmp_path / "marks", marked=MARKED)
    before = contents(tmp_path / "marks" / "elm")
    (folder / "elm" / "roster.csv").write_text("name\nA\n", encoding="utf-8")
    found = mark_classes(folder, out=tmp_path / "marks", marked=MARKED)
    assert before == contents(tmp_path / "marks" / "elm")
    assert [("elm", True)] == [(line.name, "no column “learner”" in line.refused) for line in found.refused]
    shutil.rmtree(folder / "elm")
    again = mark_classes(folder, out=tmp_path / "marks", marked=MARKED)
    assert again.beside == [
        "elm: results of an earlier marking lie there, and the class is not in the folder any more."
    ]


def test_an_error_that_nobody_foresaw_is_one_line_about_its_class(
    college: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The other classes are marked."""
    from bitepoint.marking.college import one_class

    def fails(inputs: list[Path], **said: object) -> object:
        if inputs[0].parent.name == "elm":
            raise KeyError("nobody knows")
        return mark_hand_ins(inputs, **said)  # type: ignore[arg-type]

    monkeypatch.setattr(one_class, "mark_hand_ins", fails)
    found = mark_classes(college, out=tmp_path, marked=MARKED)
    assert [("elm", True)] == [
        (line.name, "(KeyError), and this program does" in line.refused) for line in found.refused
    ]
    assert len(found.marked) == 3


def test_each_class_has_its_own_register_and_its_own_files_to_remove(
    college: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Who was deleted on request is named at the terminal alone; a register of no single class is refused."""
    monkeypatch.chdir(tmp_path)
    folder = tmp_path / "college"
    shutil.copytree(college / "elm", folder / "elm")
    gone = learner_id("elm-2026", 1)
    Register(folder / "elm" / "register").add(
        Entry(kind="deletion", learner=gone, by="A. Head", text="request", date="2026-06-01")
    )
    said = ["mark", "--classes", str(folder), "--out", str(tmp_path / "marks")]
    assert main(said) == 1
    assert f"bitepoint: elm: {gone}" in capsys.readouterr().err
    page = (tmp_path / "marks" / "college.html").read_text(encoding="utf-8")
    assert gone not in page
    (tmp_path / "register").mkdir()
    assert main(said) == 2
    assert "is a register of no single class" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("more", "told"),
    [
        (["hand-ins"], "HANDINS is about one class"),
        (["--roster", "there"], "--roster is about one class"),
        (["--class-file", "there"], "--class-file is about one class"),
        (["--pass-share", "7"], "--pass-share must be a number above 0"),
        (["--out", "one"], "holds the results of one class"),
        (["--out", "own"], "college.html is not of a marking"),
        (["--classes", "there"], "is no folder"),
        (["--classes", "one"], "has no class folder in it"),
    ],
)
def test_what_cannot_be_meant_is_one_line(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    college: Path,
    more: list[str],
    told: str,
) -> None:
    """Exit status 2, and nothing is written."""
    monkeypatch.chdir(tmp_path)
    for name in ("hand-ins", "one", "own"):
        Path(name).mkdir()
    for name in ("there", "one/manifest.json", "own/college.html"):
        Path(name).write_text("mine", encoding="utf-8")
    before = contents(tmp_path)
    assert main(["mark", "--classes", str(college), *more]) == 2
    err = capsys.readouterr().err
    assert told in err
    assert len(err.splitlines()) == 1
    assert before == contents(tmp_path)


def test_nothing_named_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    """Neither hand-ins nor classes."""
    assert main(["mark"]) == 2
    assert "or --classes with a folder of classes" in capsys.readouterr().err


def test_two_runs_into_one_folder_are_refused(college: Path, tmp_path: Path) -> None:
    """The second says so and writes nothing."""
    with one_marking.alone(tmp_path), pytest.raises(BadInput, match="another marking is writing"):
        mark_classes(college, out=tmp_path)
