"""The pages of a marked class as PDF: one a learner, or all in one, and what is said where that cannot be."""

from datetime import datetime
from pathlib import Path

import pytest

from bitepoint.cli import main
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.rehearsal.rehearse import rehearse

MARKED = datetime.fromisoformat("2026-06-30T15:00+02:00")


@pytest.fixture(scope="module")
def marks(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the marks of three learners."""
    folder = tmp_path_factory.mktemp("printed")
    rehearse(folder, learners=3, seed=1, lessons=["start"])
    mark_hand_ins([folder / "hand-ins"], roster=folder / "roster.csv", out=folder / "marks", marked=MARKED)
    return folder / "marks"


@pytest.fixture
def printer(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return what keeps the page that a program called as a browser that prints was given."""
    path, kept = tmp_path / "printer", tmp_path / "kept.html"
    path.write_text(
        '#!/bin/sh\nfor a in "$@"; do case "$a" in --print-to-pdf=*) target="${a#--print-to-pdf=}";; '
        'file://*) page="${a#file://}";; esac; done\n'
        f'cp "$page" "{kept}"\nprintf "%%PDF-1.4 %%%%EOF" > "$target"\n',
        "utf-8",
    )
    path.chmod(0o755)
    monkeypatch.setenv("BITEPOINT_CHROMIUM", str(path))
    return kept


@pytest.mark.parametrize("pages", ["learners", "assessor", "evidence"])
def test_one_pdf_a_learner(
    marks: Path, printer: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], pages: str
) -> None:
    """Each by its id, told as it is made; nothing else is left in the folder, and the results stay as they are."""
    before = sorted(marks.rglob("*"))
    assert main(["print", str(marks), "--pages", pages, "--out", str(tmp_path / "pdf")]) == 0
    names = sorted(p.stem for p in (marks / pages).iterdir())

    assert [f"{name}.pdf" for name in names] == sorted(p.name for p in (tmp_path / "pdf").iterdir())
    assert [str(tmp_path / "pdf" / f"{name}.pdf") for name in names] == capsys.readouterr().out.split()
    assert before == sorted(marks.rglob("*"))


def test_all_in_one_file(marks: Path, printer: Path, tmp_path: Path) -> None:
    """Every learner once, in the order of the numbers, in one page with one head."""
    assert main(["print", str(marks), "--one-file", "--out", str(tmp_path / "pdf")]) == 0
    page = printer.read_text("utf-8")
    names = sorted(p.stem for p in (marks / "learners").iterdir())

    assert ["learners.pdf"] == [p.name for p in (tmp_path / "pdf").iterdir()]
    assert len(names) == page.count("<main>") == page.count("</main>")
    assert (1, 1) == (page.count("<head>"), page.count("Content-Security-Policy"))
    assert sorted(names, key=lambda name: page.index(f"<h1>{name}")) == names


def test_what_cannot_be_printed_is_said_in_one_line(
    marks: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """No Chromium: what to open instead; no results: what to run."""
    monkeypatch.setenv("BITEPOINT_CHROMIUM", "")
    assert main(["print", str(marks), "--out", str(tmp_path / "pdf")]) == 2
    said = capsys.readouterr().err
    assert (
        f"No Chromium was found on this computer, so no PDF was made. Open {marks / 'learners'} and the pages" in said
    )
    assert said.count("\n") == 1
    assert main(["print", str(tmp_path), "--out", str(tmp_path / "pdf")]) == 2
    assert "holds no marked class with such pages. Run: bitepoint mark HANDINS" in capsys.readouterr().err


def test_a_page_changed_since_is_not_printed(printer: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What is signed is what was marked."""
    rehearse(tmp_path / "class", learners=1, seed=1, lessons=["start"])
    mark_hand_ins([tmp_path / "class" / "hand-ins"], out=tmp_path / "marks")
    page = next((tmp_path / "marks" / "evidence").iterdir())
    page.write_text(page.read_text("utf-8").replace("more work needed", "all met"), "utf-8")

    assert main(["print", str(tmp_path / "marks"), "--pages", "evidence", "--out", str(tmp_path / "pdf")]) == 2
    assert f"evidence/{page.name} was changed since it was marked. Mark again, then print." in capsys.readouterr().err


def test_marked_at_a_given_time_the_files_are_the_same(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """So a set can be made again; a time without a zone is refused."""
    rehearse(tmp_path / "class", learners=1, seed=1, lessons=["start"])
    for out in "ab":
        common = ["mark", str(tmp_path / "class" / "hand-ins"), "--out", str(tmp_path / out), "--marked"]
        main([*common, "2026-06-30T15:00+02:00"])
    assert (tmp_path / "a" / "manifest.json").read_bytes() == (tmp_path / "b" / "manifest.json").read_bytes()
    assert main([*common, "2026-06-30"]) == 2
    assert "--marked must be a time with its zone, such as 2026-06-30T15:00+02:00" in capsys.readouterr().err
