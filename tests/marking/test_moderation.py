"""Second marking by list: whom, the blind sheet, the list brought back; a class of 24 in four commands."""

import csv
import shutil
from pathlib import Path

import pytest
from test_appeal_cases import IN, ONE, WORD, Room, chained, critical, right, wrong

from bitepoint.cli import main
from bitepoint.errors import BadInput
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.arrived import NOTHING
from bitepoint.marking.flagging.neighbours import OTHER_FIGURES
from bitepoint.marking.moderation.importing import read_second_marks
from bitepoint.marking.moderation.strata import OF_EACH, choose
from bitepoint.marking.passing import UNSUPERVISED
from bitepoint.marking.registry.entries import Entry
from bitepoint.marking.registry.lists import BadRows
from bitepoint.marking.registry.register import Register
from bitepoint.marking.rehearsal.rehearse import rehearse
from bitepoint.marking.result import Flag, Result, SittingWork
from bitepoint.marking.rules import ClassRules

BOOK = ["--register", "class/register"]
MARK = ["--roster", "class/roster.csv"]


@pytest.fixture(scope="module")
def rehearsed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with an invented class of 24, marked."""
    folder = tmp_path_factory.mktemp("moderation")
    rehearse(folder / "class", learners=24, seed=3, planted=True)
    roster = shutil.copy(folder / "class" / "roster.csv", folder / "roster.csv")
    mark_hand_ins([folder / "class" / "hand-ins"], roster=Path(roster), out=folder / "marks")
    return folder


@pytest.fixture
def room(rehearsed: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a copy of it, in which the commands are given."""
    shutil.copytree(rehearsed, tmp_path, dirs_exist_ok=True)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def rows_of(path: Path) -> list[dict[str, str]]:
    """Return the rows of a table."""
    with path.open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


def write(path: Path, rows: list[dict[str, str]]) -> None:
    """Write a table."""
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, list(rows[0]))
        writer.writeheader()
        writer.writerows(rows)


def test_what_every_question_says_of_its_words_stands_once(room: Path) -> None:
    """Where no release of the rehearsal is kept, the sheet says at its head that the words are this version's."""
    assert 0 == main(["moderation", "plan", "marks", "class/hand-ins", "--seed", "7", *MARK, *BOOK])
    page = (room / "moderation" / "sheet.html").read_text("utf-8")

    assert page.count("The words cannot be printed") <= 2


def first_marks(room: Path) -> dict[tuple[str, str, str], str]:
    """Return the marks by learner, sitting and exercise."""
    found = {}
    for row in rows_of(room / "marks" / "marks.csv"):
        found[row["learner"], "", row["exercise"]] = row["mark"]
        found[row["learner"], row["sitting"], row["exercise"]] = row["sitting_mark"] if row["sitting"] else row["mark"]
    return found


def test_a_class_of_24_is_marked_a_second_time_in_four_commands(room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Plan, import, resolutions, mark: agreement as n of m, each difference named and resolved, on report and pages."""
    assert 0 == main(["moderation", "plan", "marks", "class/hand-ins", *MARK, "--seed", "7", "--rest", "1"])
    sheet, firsts = rows_of(room / "moderation" / "sheet.csv"), first_marks(room)
    assert 20 <= len({row["learner"] for row in sheet}) <= 24
    for n, row in enumerate(sheet):
        first = firsts[row["learner"], row["sitting"], row["exercise"]]
        row["mark"], row["reason"] = (first, "") if n % 40 else (str(1 - float(first)), "read otherwise")
    write(room / "filled.csv", sheet)
    assert 0 == main(["moderation", "import", "filled.csv", "--by", "B. Beside", *BOOK])
    differing = sheet[::40]
    said = {"kind": "resolution", "by": "C. Third", "score": "0.5", "text": "both looked at it"}
    write(
        room / "resolutions.csv",
        [said | {"learner": r["learner"], "word": r["sitting"], "exercise": r["exercise"]} for r in differing],
    )
    assert 0 == main(["register", "import", "resolutions.csv", *BOOK])
    assert main(["mark", "class/hand-ins", *MARK]) in (0, 1)

    report, after = (room / "marks" / "report.html").read_text("utf-8"), first_marks(room)
    count = len(sheet)
    assert f"Marked a second time: {count}. The two marks agree in {count - len(differing)} of {count}." in report
    assert f"{len(differing)} differ, of these resolved: {len(differing)}." in report
    for row in differing:
        page = (room / "marks" / "assessor" / f"{row['learner']}.html").read_text("utf-8")
        assert "“read otherwise”" in page
        assert row["exercise"] in report.split('id="sampling"')[1].split('id="register"')[0]
        assert "0.5" == after[row["learner"], row["sitting"], row["exercise"]]
    assert "not resolved yet" not in report
    assert f"{count} second marks recorded." in capsys.readouterr().out


def test_the_answers_of_a_sitting_are_marked_a_second_time_as_such(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where a sitting counts, its answers are on the sheet and not those of practice, and the marks come back for it."""
    monkeypatch.chdir(tmp_path)
    sat = Room(tmp_path)
    sat.zip(ONE, chained(wrong(WORD), IN), chained(right(device="bbbbbbbb"), "2026-06-20T16:00:00+00:00"))
    sat.sits()
    given = ["hand-ins", "--roster", "roster.csv"]
    main(["mark", *given])
    assert 0 == main(["moderation", "plan", "marks", *given, "--seed", "1", "--rest", "1", "--answers", "30"])
    sheet = rows_of(tmp_path / "moderation" / "sheet.csv")
    for row in sheet:
        row["mark"] = "1"
    write(tmp_path / "filled.csv", sheet)
    assert 0 == main(["moderation", "import", "filled.csv", "--by", "B. Beside"])
    main(["mark", *given])
    page = (tmp_path / "marks" / "assessor" / f"{ONE}.html").read_text("utf-8")

    assert ({WORD}, len(right())) == ({row["sitting"] for row in sheet}, len(sheet))
    assert f"The two marks agree in {len(sheet) - 1} of {len(sheet)}. 1 differs" in page
    assert f"{critical()[0]}, sitting {WORD}" in page
    assert {WORD} == {e.word for e in sat.book.entries()}


def test_the_sheet_is_blind_and_whole(room: Path) -> None:
    """Each question with its figures and the answer, no mark, no reason of the plan; the page asks for both."""
    assert 0 == main(["moderation", "plan", "marks", "class/hand-ins", *MARK, "--seed", "7"])
    sheet, page = rows_of(room / "moderation" / "sheet.csv"), (room / "moderation" / "sheet.html").read_text("utf-8")

    assert {("", "")} == {(row["mark"], row["reason"]) for row in sheet}
    assert all(len(row["question"]) > 30 and row["answer"] and row["rule"] for row in sheet)
    assert len(sheet) == page.count("Mark, 0 to 1")
    for told in ("flagged", "on the border", "Right answer", "not right yet", "critical"):
        assert told not in page.split("<body>")[1].replace("critical speed", "")


def test_the_same_seed_gives_the_same_plan_and_another_another(room: Path) -> None:
    """And nothing that a second marker wrote is replaced."""
    plan = ["moderation", "plan", "marks", "class/hand-ins", *MARK]
    assert [0, 0, 0] == [main([*plan, "--seed", s, "--out", o]) for s, o in (("7", "a"), ("7", "b"), ("8", "c"))]
    texts = [(room / o / "sheet.csv").read_bytes() for o in "abc"]

    assert texts[0] == texts[1] != texts[2]
    assert 2 == main([*plan, "--seed", "9", "--out", "a"])
    assert texts[0] == (room / "a" / "sheet.csv").read_bytes()


def test_the_plan_is_of_the_marks_it_names(room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Without the roster, or after another entry, it would be of other marks: one line that says what to do."""
    assert 2 == main(["moderation", "plan", "marks", "class/hand-ins", "--seed", "7"])
    assert "Give the same options as for “bitepoint mark”, or mark again first." in capsys.readouterr().err
    assert not (room / "moderation").exists()


def test_a_register_of_another_class_is_left_out_of_the_plan_as_of_the_marks(room: Path) -> None:
    """Marks that were worked out without it have a plan without it."""
    here = next(row for row in rows_of(room / "marks" / "marks.csv") if row["mark"] == "1")
    for learner in ("X01", "X02", "X03", here["learner"]):
        said = {"kind": "override", "learner": learner, "exercise": here["exercise"], "score": 0.0}
        Register(room / "other").add(Entry(**said, by="A. Assessor", text="another class"))
    given = ["class/hand-ins", *MARK, "--register", "other"]
    assert main(["mark", *given]) == 1
    assert 0 == main(["moderation", "plan", "marks", *given, "--seed", "7"])


def test_a_rehearsal_is_moderated_in_its_own_folder(room: Path) -> None:
    """Results, plan and sheet lie in it, the whole folder is named, and the second marks go into its register."""
    assert main(["mark", "class", *MARK, "--out", "class/results"]) in (0, 1)
    assert 0 == main(["moderation", "plan", "class/results", "class", *MARK, "--seed", "7"])
    sheet = rows_of(room / "class" / "moderation" / "sheet.csv")
    sheet[0]["mark"] = "1"
    write(room / "class" / "moderation" / "sheet.csv", sheet)
    assert 0 == main(["moderation", "import", "class/moderation/sheet.csv", "--by", "B. Beside"])

    assert ["second mark"] == [e.kind for e in Register(room / "class" / "register").entries() if e.by == "B. Beside"]
    assert not (room / "register").exists()


def test_who_is_flagged_and_whom_the_flag_points_at_are_both_in_the_plan(room: Path) -> None:
    """A copy has two ends; who is not in the roster is left out and named."""
    main(["moderation", "plan", "marks", "class/hand-ins", *MARK, "--seed", "7"])
    why = {row["learner"]: row["why"] for row in rows_of(room / "moderation" / "plan.csv")}
    flags = {row["learner"]: row["flags"] for row in rows_of(room / "marks" / "learners.csv")}
    copied = next(who for who, kinds in flags.items() if OTHER_FIGURES in kinds)
    stranger = next(who for who, kinds in flags.items() if "unknown learner" in kinds)

    assert OTHER_FIGURES in why[copied]
    assert [f"matched with a flag of {copied}" in reason for reason in why.values()].count(True) == 1
    assert stranger not in why
    assert stranger in (room / "moderation" / "plan.html").read_text("utf-8")
    assert any("drawn by lot, seed 7" in reason for reason in why.values())


def result(n: int, **more: object) -> Result:
    """Return somebody's result, far above the pass line."""
    rules = ClassRules(lessons=("start",), pass_share=0.01)
    return Result(**{"name": f"L{n:02d}", "class_word": "oak", "first_at": "2026", "rules": rules, **more})  # type: ignore[arg-type]


def test_assessors_and_first_sittings_are_strata() -> None:
    """Two of each person who decided, however the name is written, and two of each supervisor's first sitting."""
    sittings = [
        Entry(kind="sitting", word=w, by="S. Super", begins=f"2026-06-{d}T09:00:00+02:00")
        for w, d in (("b", 20), ("a", 10))
    ]
    decided = [
        Entry(kind="decision", by=by, criterion="all", text="t") for by in ("A. Assessor", "a assessor", "B. Beside")
    ]
    people = [
        result(
            n,
            entries=(decided[n % 3],),
            sittings=(SittingWork(word="ab"[n % 2], standing="supervised by S. Super"),),
        )
        for n in range(12)
    ]
    unsupervised = result(20, sittings=(SittingWork(word="a", standing=UNSUPERVISED),))
    found = choose([*people, unsupervised], sittings, seed=1, rest=0)
    reasons = [r for c in found for r in c.reasons]

    assert {
        "marked by A. Assessor": OF_EACH,
        "marked by B. Beside": OF_EACH,
        "first sitting of S. Super (a)": OF_EACH,
    } == {r: reasons.count(r) for r in reasons if "border" not in r}
    assert "L20" not in [c.learner for c in found if any("first sitting" in r for r in c.reasons)]


def test_the_rest_is_a_share_of_all_rounded_up() -> None:
    """A tenth of 21 is 3, drawn from those whom no other reason brings in; whoever handed nothing in is not drawn."""
    flag = (Flag(kind="chain broken", learner="L00", evidence="e", matched="L01"),)
    people = [result(n, flags=flag if n == 0 else (), rules=ClassRules()) for n in range(21)]
    found = choose([*people, result(30, nothing=NOTHING, rules=ClassRules())], [], seed=1, rest=0.1)

    assert ["L00", "L01"] == [c.learner for c in found if "lot" not in c.reasons[0]]
    assert 3 == sum("drawn by lot, seed 1" in c.reasons for c in found)


SHEET = f"""no;learner;sitting;exercise;question;answer;mark;reason
1;{ONE};;start.number;q;a;1;
2;{ONE};;start.nothing;q;a;1;
3;{ONE};;start.choice;q;a;;looks wrong
4;{ONE};;start.choice;q;a;two;
5;{ONE};;start.choice;q;a;1,5;
6;{ONE};;start.number;q;a;"0,5";
7;{ONE};;start.several;q;a;;
"""


def test_all_bad_rows_of_a_sheet_are_told_at_once(tmp_path: Path) -> None:
    """Unknown exercise, no mark, no number, out of range, twice; a row with neither mark nor reason waits."""
    (tmp_path / "sheet.csv").write_text(SHEET, "utf-8")
    with pytest.raises(BadRows) as raised:
        read_second_marks(tmp_path / "sheet.csv", "B. Beside")
    assert [f"sheet.csv: line {n}" for n in (3, 4, 5, 6, 7)] == [p[:17] for p in raised.value.problems]

    lines = SHEET.splitlines()
    (tmp_path / "sheet.csv").write_text("\n".join([*lines[:2], lines[-1]]) + "\n", "utf-8")
    found = read_second_marks(tmp_path / "sheet.csv", "B. Beside")
    assert (1, 1) == (len(found.rows), found.empty)
    (tmp_path / "sheet.csv").write_text("\n".join([lines[0], lines[-1]]) + "\n", "utf-8")
    with pytest.raises(BadInput, match="no row has a mark"):
        read_second_marks(tmp_path / "sheet.csv", "B. Beside")


def test_who_decided_does_not_mark_a_second_time(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Refused for the whole list, with the row, and nothing is written."""
    monkeypatch.chdir(tmp_path)
    lines = SHEET.splitlines()
    (tmp_path / "sheet.csv").write_text("\n".join(lines[:2]) + "\n", "utf-8")
    book = Register(tmp_path / "register")
    book.add(Entry(kind="decision", learner=ONE, by="A. Assessor", criterion="all", text="t"))

    assert 2 == main(["moderation", "import", "sheet.csv", "--by", "A Assessor"])
    assert "sheet.csv: line 2: A Assessor entered the decision" in capsys.readouterr().err
    assert 1 == len(book.entries())
