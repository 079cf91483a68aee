"""Lists for the register, and what a class knows of itself: all bad rows at once, then nothing is written."""

from pathlib import Path
from unicodedata import normalize

import pytest
from test_flags import OAK, ONE, TWO

from bitepoint.cli import main
from bitepoint.errors import BadInput
from bitepoint.logbook.identity import learner_id
from bitepoint.marking.registry.class_lists import ClassList, find_class
from bitepoint.marking.registry.entries import Entry
from bitepoint.marking.registry.lists import BadRows, add_all, read_entries
from bitepoint.marking.registry.register import Register

CRITERIA = ("Frees the disc", "Supports the engine")


@pytest.fixture
def class_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a class's folder, with nothing in its register, in which the commands are given."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "roster.csv").write_text(f"learner,class_word\n{ONE},{OAK}\n{TWO},{OAK}\n", "utf-8")
    (tmp_path / "class.toml").write_text(f'class_word = "{OAK}"\ncriteria = {list(CRITERIA)!r}\n', "utf-8")
    return tmp_path


def entries(folder: Path) -> list[Entry]:
    """Return what the register of a folder holds."""
    return Register(folder / "register").entries()


@pytest.mark.parametrize("form", ["NFC", "NFD"])
def test_a_criterion_typed_on_another_keyboard_is_the_same(class_folder: Path, form: str) -> None:
    """A list from another computer may write ü as u with dots behind it: it is recorded as the class writes it."""
    other = "NFD" if form == "NFC" else "NFC"
    (class_folder / "class.toml").write_text(
        f'class_word = "{OAK}"\ncriteria = ["{normalize(form, "Prüft")}"]\n', "utf-8"
    )
    (class_folder / "o.csv").write_text(
        f"criterion,result,learner,assessor,date\n{normalize(other, 'Prüft')},done right,{ONE},A,2026-06-30\n", "utf-8"
    )

    assert 0 == main(["observe", "o.csv"])
    assert ["Prüft"] == [entry.criterion for entry in entries(class_folder)]


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"learner": ONE.lower().replace("-", "")}, f"Did you mean {ONE}? Copy the id from the slip"),
        ({"learner": ONE[:-1] + "I"}, f"There is no learner '{ONE[:-1]}I' in roster.csv."),
        ({"learner": learner_id(OAK, 77)}, "in roster.csv. "),
        ({"criterion": "Free the disk"}, "in class.toml. Did you mean Frees the disc?"),
        (
            {"criterion": "x"},
            "There is no criterion 'x' in class.toml. Choose one of: Frees the disc; Supports the engine.",
        ),
        ({"result": "competent"}, "--result must be one of done right, not right yet, not watched"),
        ({"criterion": "all"}, "There is no criterion 'all'"),
    ],
)
def test_an_entry_names_a_learner_and_a_criterion_of_the_class(
    class_folder: Path, capsys: pytest.CaptureFixture[str], given: dict[str, str], said: str
) -> None:
    """Misspelt, with another check letter, not in the class: one line that names the nearest, and nothing written."""
    words = {"learner": ONE, "criterion": CRITERIA[0], "result": "done right", "by": "A. Assessor", **given}
    status = main(["register", "add", "observation", *(x for k, v in words.items() for x in (f"--{k}", v))])
    told = capsys.readouterr().err

    assert (2, 1) == (status, told.count("\n"))
    assert said in told
    assert [] == entries(class_folder)


def test_ids_and_criteria_are_kept_as_the_class_writes_them() -> None:
    """Other capitals and spaces mean the same; a decision may be about all criteria."""
    known = find_class_of({ONE: OAK})
    seen = Entry(kind="observation", learner=ONE.lower(), criterion="frees  The disc")
    decided = Entry(kind="decision", learner=ONE, criterion="All")

    assert (ONE, CRITERIA[0]) == (known.checked(seen).learner, known.checked(seen).criterion)
    assert "all" == known.checked(decided).criterion


def find_class_of(learners: dict[str, str]) -> ClassList:
    """Return a class with these learners."""
    from bitepoint.marking.roster import Enrolled, key_of

    return ClassList(learners={key_of(k): Enrolled(k, w) for k, w in learners.items()}, criteria=CRITERIA)


def test_roster_and_class_file_may_lie_elsewhere(class_folder: Path, tmp_path_factory: pytest.TempPathFactory) -> None:
    """By --class-folder or --roster; a folder that holds neither is refused."""
    other = tmp_path_factory.mktemp("other")

    assert find_class(other / "register").learners is None
    assert 2 == len(find_class(other / "register", folder=class_folder).learners or {})
    assert 2 == len(find_class(other / "register", roster=class_folder / "roster.csv").learners or {})
    with pytest.raises(BadInput, match="holds no roster.csv and no class.toml"):
        find_class(other / "register", folder=other)


def test_without_a_roster_it_is_said_once(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The entry is written, and one line says what could not be looked up."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "seen.csv").write_text(
        f"criterion,result,learner,assessor,date\na,done right,{ONE},A,2026-06-30\nb,done right,{TWO},A,2026-06-30\n",
        "utf-8",
    )

    assert 0 == main(["observe", "seen.csv"])
    assert 1 == capsys.readouterr().err.count("were not checked")
    assert 2 == len(entries(tmp_path))


ROWS = """kind,learner,by,exercise,score,text,from,to,word,hand-in,number,date
override,{one},A. Assessor,star.nothing,1,why,,,,,,
override,{one},A. Assessor,start.number,"0,5",why,,,,,,
second mark,l07e,B. Beside,start.number,1,,,,,,,
second mark,{one},a assessor,start.number,1,,,,,,,
second mark,{two},B. Beside,start.number,one,,,,,,,
sitting,,A. Assessor,,,,2026-06-30T09:00+02:00,2026-06-30T11:00+02:00,red-kite,,,
resubmission,{two},A. Assessor,,,,,,,,1.5,
deletion,{two},A. Assessor,,,on request,,,,,,
"""


def test_all_rows_that_cannot_be_used_are_told_at_once(class_folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Each with its line, what and what to do; nothing is written. Put right, all are, and a second time adds nothing."""
    path = class_folder / "decided.csv"
    path.write_text(ROWS.format(one=ONE, two=TWO), "utf-8")

    assert 2 == main(["register", "import", "decided.csv"])
    told = capsys.readouterr().err.splitlines()
    assert ["line 2", "line 4", "line 5", "line 6", "line 8", "line 9"] == [x.split(": ")[2] for x in told[:-1]]
    assert "6 lines cannot be used. Nothing was written." in told[-1]
    assert [] == entries(class_folder)

    rows = path.read_text("utf-8").splitlines()
    path.write_text("\n".join([rows[0], *rows[2:5], rows[6]]) + "\n", "utf-8")
    assert 2 == main(["register", "import", "decided.csv"])
    told = capsys.readouterr().err.splitlines()
    assert ["line 3", "line 4"] == [x.split(": ")[2] for x in told[:-1]]
    assert [] == entries(class_folder)

    path.write_text("\n".join([rows[0], rows[2], rows[6]]) + "\n", "utf-8")
    assert [0, 0] == [main(["register", "import", "decided.csv"]) for _ in range(2)]
    assert [("override", 0.5), ("sitting", None)] == [(e.kind, e.score) for e in entries(class_folder)]
    assert "0 entries recorded, 2 were there already." in capsys.readouterr().out


def test_a_misspelt_column_is_refused(tmp_path: Path) -> None:
    """Else what stands in it would be lost unseen."""
    (tmp_path / "a.csv").write_text("kind,learner,reason\nappeal,L1,why\n", "utf-8")

    with pytest.raises(BadInput, match="has a column “reason”. Its columns may be: kind, learner, by,"):
        read_entries(tmp_path / "a.csv")


def test_a_list_is_checked_against_itself(tmp_path: Path) -> None:
    """A second mark by whoever gave the mark three rows above is refused as if it had been written before."""
    said = {"learner": ONE, "exercise": "start.number", "score": 1.0}
    rows = [
        ("a", Entry(kind="override", by="A. Assessor", text="why", **said)),
        ("b", Entry(kind="second mark", by="A. Assessor", **said)),
    ]
    with pytest.raises(BadRows, match="^b: A. Assessor entered the override of start.number"):
        add_all(Register(tmp_path), rows)
    assert [] == Register(tmp_path).entries()


CUT = """kind,learner,by,exercise,score,text
override,{one},A. Assessor,start.number,1,seen at the bench, read the meter right
override,{one},A. Assessor,star.nothing,1,why
override,{one},A. Assessor,start.number,1,why,
"""


def test_a_row_with_more_cells_than_columns_loses_nothing_unseen(
    class_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """It is named with the other bad rows; empty cells at the end, as spreadsheets write them, are none."""
    (class_folder / "decided.csv").write_text(CUT.format(one=ONE), "utf-8")

    assert 2 == main(["register", "import", "decided.csv"])
    told = capsys.readouterr().err.splitlines()
    assert ["line 2", "line 3"] == [x.split(": ")[2] for x in told[:-1]]
    assert "line 2: has more cells than columns. Put a text with the delimiter in it in quotation marks." in told[0]
    assert [] == entries(class_folder)


@pytest.mark.parametrize(
    ("command", "content", "said"),
    [
        (
            ["register", "import"],
            'kind,by,text\nverification,A,t\nverification,B,"t\nverification,C,t\n',
            "line 3: a quo",
        ),
        (["observe"], "criterion,result,learner,assessor,date\n", "has no row under its columns."),
        (["note-codes"], "learner,lesson,code,noted at\n,,,\n", "has no row under its columns."),
        (["note-codes"], "learner,lesson,code,noted at\nL01,start,AD7-QB7,2026-06-30,late\n", "line 2: has more cells"),
        (
            ["moderation", "import", "--by", "B"],
            "learner,sitting,exercise,mark,reason\n",
            "has no row under its columns.",
        ),
        (
            ["moderation", "import", "--by", "B"],
            "learner,sitting,exercise,mark,reason\nx,,,,,1\n",
            "line 2: has more cells",
        ),
    ],
)
def test_every_list_says_where_a_row_would_be_lost(
    class_folder: Path, capsys: pytest.CaptureFixture[str], command: list[str], content: str, said: str
) -> None:
    """An open quotation mark, a cell too many, no row at all: the file and the line, and nothing is written."""
    (class_folder / "list.csv").write_text(content, "utf-8")

    assert 2 == main([*command, "list.csv"])
    assert f"list.csv: {said}" in capsys.readouterr().err
    assert [] == entries(class_folder)
