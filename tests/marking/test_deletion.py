"""A learner deleted on request: nothing of theirs shows, and what others did stays evidence."""

import os
import shutil
from pathlib import Path

import pytest
from test_flags import OAK, ONE, TWO, line, number_turns

from bitepoint.bank import exercises
from bitepoint.cli import main
from bitepoint.logbook.identity import learner_id
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.erasure import UNNAMED
from bitepoint.marking.flagging.answers import TWICE
from bitepoint.marking.flagging.neighbours import OTHER_FIGURES, SOMEBODY_DELETED
from bitepoint.marking.registry.entries import Entry
from bitepoint.marking.registry.register import Register
from bitepoint.marking.senders import FOREIGN

GONE = Entry(kind="deletion", learner=TWO, by="A. Assessor", text="on request")


def class_of_twenty(folder: Path) -> Path:
    """Return hand-ins of a class in which the first one's wrong figures are the second one's right ones."""
    (folder / "roster.csv").write_text(
        "learner,class_word\n" + "".join(f"{learner_id(OAK, n)},{OAK}\n" for n in range(1, 21)), "utf-8"
    )
    (folder / "hand-ins").mkdir()
    drawn = [(e, t, exercises()[e].draw(class_word=OAK, learner=TWO, turn=t)) for e, t in number_turns(8)]
    for who in (ONE, TWO):
        texts = [line(e, q.right_answer(), learner=who, turn=t).text for e, t, q in drawn]
        (folder / "hand-ins" / f"{who}.jsonl").write_text("\n".join(texts) + "\n", "ascii")
    return folder / "hand-ins"


def flagged(folder: Path, out: str) -> dict[str, str]:
    """Mark, and return the evidence by kind of flag of the first learner."""
    done = mark_hand_ins(
        [folder / "hand-ins"], roster=folder / "roster.csv", out=folder / out, register=folder / "register"
    )
    return {f.kind: f.evidence + str(f.beside) for f in done.summary.flags if f.learner == ONE}


@pytest.mark.parametrize("still_there", ["hand-in and roster", "roster", "register alone"])
def test_the_copy_stays_flagged_without_the_name(tmp_path: Path, still_there: str) -> None:
    """Whether hand-in and line of the roster are still there or removed: flagged, the deleted one unnamed on every page."""
    inputs = class_of_twenty(tmp_path)
    before = flagged(tmp_path, "before")
    Register(tmp_path / "register").add(GONE)
    if still_there != "hand-in and roster":
        (inputs / f"{TWO}.jsonl").unlink()
    if still_there == "register alone":
        kept = [x for x in (tmp_path / "roster.csv").read_text("utf-8").splitlines() if TWO not in x]
        (tmp_path / "roster.csv").write_text("\n".join(kept) + "\n", "utf-8")
    after = flagged(tmp_path, "after")

    assert TWO in before[OTHER_FIGURES]
    assert f"are right for {SOMEBODY_DELETED}" in after[OTHER_FIGURES]
    assert f"Ask {ONE} to work one through" in after[OTHER_FIGURES]
    shown = [(tmp_path / "after" / p).read_text("utf-8") for p in (f"assessor/{ONE}.html", "marks.csv", "learners.csv")]
    assert [TWO in text for text in (*after.values(), *shown)] == [False] * (len(after) + 3)
    assert not (tmp_path / "after" / "learners" / f"{TWO}.html").exists()


def test_the_same_hand_in_twice_and_answers_in_a_neighbours_file_stay_flagged(tmp_path: Path) -> None:
    """As long as the deleted one's files are there, the others' flags are, without a name."""
    inputs = class_of_twenty(tmp_path)
    shutil.copy(inputs / f"{ONE}.jsonl", inputs / f"{TWO}-copy.jsonl")
    both = (inputs / f"{ONE}.jsonl").read_text("ascii") + line("start.choice", learner=TWO).text + "\n"
    os.mkdir(inputs / ONE)
    (inputs / ONE / "workbook.toml").write_text(f'learner = "{ONE}"\nclass_word = "{OAK}"\n', "utf-8")
    os.mkdir(inputs / ONE / "logbook")
    (inputs / ONE / "logbook" / "start.0a1b2c3d.jsonl").write_text(both, "ascii")
    before = flagged(tmp_path, "before")
    Register(tmp_path / "register").add(GONE)
    after = flagged(tmp_path, "after")

    assert {OTHER_FIGURES, TWICE, FOREIGN} <= before.keys()
    assert before.keys() == after.keys()
    assert [kind for kind, evidence in after.items() if TWO in evidence] == []
    assert "holds 1 answer of a learner who was deleted on request. They count for nobody." in after[FOREIGN]


def test_no_file_of_the_results_names_whose_file_is_still_there(tmp_path: Path) -> None:
    """Report, trail and manifest speak of somebody deleted; the terminal names the file to remove, also a damaged one."""
    inputs = class_of_twenty(tmp_path)
    (inputs / f"{TWO}-again.zip").write_bytes(b"no zip")
    Register(tmp_path / "register").add(GONE)
    done = mark_hand_ins(
        [inputs], roster=tmp_path / "roster.csv", out=tmp_path / "marks", register=tmp_path / "register"
    )
    written = {p.name: p.read_text("utf-8-sig") for p in (tmp_path / "marks").rglob("*") if p.is_file()}

    assert [f"{TWO}-again.zip", f"{TWO}.jsonl"] == sorted(p.partition(":")[0] for p in done.problems if TWO in p)
    assert [] == [name for name, text in written.items() if TWO in text or TWO in name]
    assert UNNAMED in written["marks.jsonl"]
    assert UNNAMED in written["manifest.json"]
    assert "Of a learner who was deleted on request something still lies" in written["report.html"]


@pytest.mark.parametrize(
    ("again", "status", "said"),
    [
        ((), 2, f"A deletion cannot be taken back. Give the id once more: --again {ONE}"),
        (("--again", TWO), 2, f"--again is '{TWO}', but --learner is {ONE}. Nothing was deleted."),
        (("--again", ONE.lower()), 0, ""),
    ],
)
def test_the_id_is_asked_for_again(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    again: tuple[str, ...],
    status: int,
    said: str,
) -> None:
    """A slip of one letter deletes nobody."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "roster.csv").write_text(f"learner\n{ONE}\n{TWO}\n", "utf-8")
    add = ["register", "add", "deletion", "--learner", ONE, "--by", "A", "--text", "on request"]

    assert status == main([*add, *again])
    assert said in capsys.readouterr().err
    assert (status == 0) == bool(Register(tmp_path / "register").entries())


def test_what_is_to_remove_is_counted_apart_and_the_same_everywhere(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Three files of a deleted learner, one damaged of somebody else, one of another with the deleted one's part in it."""
    inputs = class_of_twenty(tmp_path)
    (inputs / f"{TWO}-again.zip").write_bytes(b"no zip")
    shutil.copy(inputs / f"{TWO}.jsonl", inputs / "homework.jsonl")
    (inputs / "L03-P.zip").write_bytes(b"no zip")
    theirs = line("start.choice", learner=TWO).text
    (inputs / f"{ONE}-2.jsonl").write_text(f"{line('start.choice').text}\n{theirs}\n{{torn", "ascii")
    Register(tmp_path / "register").add(GONE)
    told = ["--roster", tmp_path / "roster.csv", "--register", tmp_path / "register", "--out", tmp_path / "marks"]
    main(["mark", str(inputs), *map(str, told)])
    said, page = capsys.readouterr().err, (tmp_path / "marks" / "report.html").read_text("utf-8")

    assert "held or not readable 2. Files of deleted learners to remove: 3." in said
    assert "<dt>Held or not readable</dt><dd>2</dd>" in page
    assert "something still lies among the hand-ins: 3 files." in page
    assert "1 more about a hand-in in which somebody deleted on request has a part" in page
    assert TWO not in page


def test_nothing_of_a_deleted_learner_is_printed_or_given_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Answers as asked, exports and PDFs are refused in one line, and no file is written; after a new marking exports go on."""
    class_of_twenty(tmp_path)
    monkeypatch.chdir(tmp_path)
    mark = ["mark", "hand-ins", "--roster", "roster.csv", "--out", "marks"]
    main(mark)
    Register(tmp_path / "register").add(GONE)
    capsys.readouterr()
    asked = main(["as-asked", "hand-ins", "--learner", TWO.lower(), "--out", "appeal.html"])
    assert f"{TWO} was deleted on request on " in capsys.readouterr().err
    exported = [main(["export", "marks", "--format", form, "--out", "out"]) for form in ("csv", "xapi", "oneroster")]
    assert "marks: holds a learner who was deleted on request since. Mark again first." in capsys.readouterr().err
    printed = main(["print", "marks", "--out", "out"])

    assert [2, 2, 2, 2, 2] == [asked, *exported, printed]
    assert not (tmp_path / "out").exists()
    assert not (tmp_path / "appeal.html").exists()
    main(mark)
    assert 0 == main(["export", "marks", "--format", "csv", "--out", "out"])
    assert TWO not in (tmp_path / "out" / "marks.csv").read_text("utf-8")
