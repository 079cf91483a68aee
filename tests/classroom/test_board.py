"""The board: what it counts, what it says and does not say, how it follows logbooks that grow, tear, shrink or lie."""

import csv
import json
import os
import re
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from html import unescape
from pathlib import Path

import pytest

from bitepoint.bank import exercise_named
from bitepoint.bank.corrections import Withdrawal
from bitepoint.bank.coverage import left_out
from bitepoint.classroom.boards import cells
from bitepoint.classroom.boards import files as board_files
from bitepoint.classroom.boards.board import Board
from bitepoint.classroom.boards.group import Group, group_of
from bitepoint.classroom.boards.page import ALL, View
from bitepoint.classroom.boards.rehearsal import LiveClass, rehearsed_board
from bitepoint.classroom.boards.tables import FEWEST, names, now_of, wall
from bitepoint.cli import main
from bitepoint.errors import BadInput
from bitepoint.logbook.identity import REHEARSAL
from bitepoint.logbook.record import check_code, write_line
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.rehearsal.rehearse import rehearse

WALL, NAMES, BOTH = View("wall"), View("names"), View("both", ALL)
NUMBER, CHOICE, SEVERAL = "start.number", "start.choice", "start.several"
HOSTILE = "<img src=x onerror=alert(1)>\"'&{{7*7}}"


@pytest.fixture
def live(tmp_path: Path) -> LiveClass:
    """Four learners with a workbook each and nothing answered."""
    return LiveClass(tmp_path / "share", learners=4)


def read(live: LiveClass, group: Group | None = None, codes: Path | None = None) -> Board:
    """A board that has read all there is."""
    board = Board(live.folder, group, codes=codes)
    refresh(board)
    return board


def refresh(board: Board) -> None:
    """Read until nothing is left."""
    while not board.refresh():
        continue


def row(board: Board, exercise: str) -> list[int]:
    """Answered, right at first, right now, stuck."""
    found = next(r for r in wall(board.board, exercise.partition(".")[0]).rows if r.id == exercise)
    return [found.answered, found.first, found.right, found.stuck]


def fingerprint(folder: Path) -> dict[str, tuple[int, str]]:
    """Time of change and content of everything in a folder."""
    found = {}
    for path in sorted(folder.rglob("*")):
        content = sha256(path.read_bytes()).hexdigest() if path.is_file() else ""
        found[str(path)] = (path.stat().st_mtime_ns, content)
    return found


def test_a_learner_is_counted_once_in_each_column(live: LiveClass) -> None:
    """Right at first, right later, not yet, stuck after three misses: each where it belongs."""
    first, second, third, fourth = live.ids
    live.answer(first, NUMBER)
    live.answer(second, NUMBER, right=False)
    live.answer(second, NUMBER)
    live.answer(third, NUMBER, right=False)
    for _ in range(3):
        live.answer(fourth, NUMBER, right=False)
    board = read(live)
    assert [4, 1, 2, 1] == row(board, NUMBER)
    parts = dict(wall(board.board, "start").rows[0].parts)
    assert {"right at first": 1, "right later": 1, "not right yet": 1, "stuck": 1} == parts


def test_new_figures_put_a_stuck_learner_right(live: LiveClass) -> None:
    """A choice is stuck at its second miss, when the solution is shown; the next turn answered right takes it away."""
    learner = live.ids[0]
    for _ in range(2):
        live.answer(learner, CHOICE, right=False)
    board = read(live)
    assert [1, 0, 0, 1] == row(board, CHOICE)
    live.answer(learner, CHOICE, turn=2)
    refresh(board)
    assert [1, 0, 1, 0] == row(board, CHOICE)


def test_the_board_counts_what_marking_counts(tmp_path: Path) -> None:
    """Over a rehearsed class the wall's numbers are those of the marks."""
    rehearse(tmp_path / "class", learners=4, seed=3, form="folder")
    mark_hand_ins([tmp_path / "class" / "hand-ins"], out=tmp_path / "marks")
    with open(tmp_path / "marks" / "marks.csv", encoding="utf-8-sig", newline="") as file:
        marks = list(csv.DictReader(file))
    board = Board(tmp_path / "class" / "hand-ins")
    refresh(board)
    for lesson in board.lessons:
        for r in wall(board.board, lesson).rows:
            own = [m for m in marks if m["exercise"] == r.id]
            right = [m for m in own if m["last_score"] == "1"]
            assert (r.id, len(own), len(right)) == (r.id, r.answered, r.right)
            assert sum(m["first_score"] == "1" for m in own) == r.first
    critical = {(m["learner"], m["exercise"]) for m in marks if m["critical_open"] == "yes"}
    told = names(board.board, datetime.now(UTC), shown={})
    assert len(critical) == told.critical_count


def test_the_wall_names_no_learner(live: LiveClass) -> None:
    """No id, no folder, no name, no answer text; not even in what is fetched."""
    for learner in live.ids:
        for _ in range(3):
            live.answer(learner, CHOICE, right=False)
    (live.folder / live.ids[0] / "logbook" / "torn.x.jsonl").write_bytes(b"rubbish\n")
    board = read(live, Group(roster=tuple(live.ids), called={live.ids[0].casefold(): "Kim Example"}))
    for view in (WALL, View("wall", ALL)):
        text = board.page(view, address="/wall.json?token=x", links={"start": "/?token=x"}) + board.part(view)[1]
        assert [who for who in (*live.ids, "Kim", "L0", "rubbish") if who in text] == []
    assert live.ids[0] in board.page(NAMES)


def test_a_mistake_made_by_one_alone_is_not_on_the_wall(live: LiveClass) -> None:
    """With two it is."""
    assert FEWEST == 2
    live.answer(live.ids[0], NUMBER, right=False)
    board = read(live)
    assert wall(board.board, "start").rows[0].mistake == ""
    live.answer(live.ids[1], NUMBER, right=False)
    refresh(board)
    assert (2, "divides instead of multiplying") == (
        (found := wall(board.board, "start").rows[0]).made_by,
        found.mistake,
    )


def test_with_feedback_after_the_hand_in_the_wall_tells_answers_only(tmp_path: Path) -> None:
    """Neither right nor wrong, nor which mistake: the learners see the wall."""
    live = LiveClass(tmp_path / "share", learners=3, feedback="after hand-in")
    for learner in live.ids:
        live.answer(learner, NUMBER, right=False)
    board = read(live)
    page = board.page(WALL)
    assert "divides instead" not in page
    assert "feedback comes after the hand-in" in page
    assert wall(board.board, "start").rows[0].parts == (("answered", 3),)
    assert wall(board.board, "start").most_stuck == ()


def test_names_say_who_is_where_and_who_needs_somebody(live: LiveClass) -> None:
    """Where and since when; stuck; critical until it is put right; whose workbook is open and empty."""
    now = datetime(2026, 4, 14, 10, 0, tzinfo=UTC)
    first, second, third, fourth = live.ids
    live.answer(first, CHOICE, right=False, at="2026-04-14T09:48:00.000Z")
    live.answer(second, NUMBER, at="2026-04-14T09:59:30.000Z")
    live.answer(third, SEVERAL, at="2027-01-01T00:00:00.000Z")
    board = read(live)
    told = names(board.board, now, shown={second.casefold(): "Kim"}, in_workbooks=board.workbook_learners())
    assert [(first, 12), (f"{second} · Kim", 0), (third, None)] == [(w.learner, w.minutes) for w in told.where]
    assert [(first, CHOICE)] == [(t.learner, t.exercise) for t in told.critical]
    assert told.critical[0].says.startswith("asks too late: After the step")
    assert (fourth,) == told.not_begun
    assert 1 == now_of(board.board, now).at_it
    live.answer(first, CHOICE, at="2026-04-14T09:59:00.000Z")
    refresh(board)
    assert 0 == names(board.board, now, shown={}).critical_count


def test_a_danger_in_a_withdrawn_question_is_nobodys(live: LiveClass, monkeypatch: pytest.MonkeyPatch) -> None:
    """The board counts a critical mistake as marking does: not in a question that was withdrawn."""
    gone = Withdrawal(
        exercise=CHOICE, revisions=(1,), date=datetime(2027, 2, 1).date(), why="Two options say the same."
    )
    monkeypatch.setattr(cells, "withdrawal_of", lambda e, r: gone if (e, r) == (CHOICE, 1) else None)
    live.answer(live.ids[0], CHOICE, right=False, at="2026-04-14T09:48:00.000Z")
    assert 0 == names(read(live).board, datetime(2026, 4, 14, 10, 0, tzinfo=UTC), shown={}).critical_count


def test_hostile_words_are_text(tmp_path: Path) -> None:
    """Ids, answers, devices, folders and titles with markup show as text; no handler, no tag."""
    live = LiveClass(tmp_path / "share", learners=2)
    fields = json.loads(live.answer(live.ids[0], CHOICE, right=False).text)
    for key in ("n", "prev", "hash"):
        fields.pop(key)
    folder = live.folder / "<b>bold</b>" / "logbook"
    folder.mkdir(parents=True)
    fields |= {"learner": HOSTILE, "device": HOSTILE, "answer": HOSTILE, "exercise": NUMBER}
    (folder / "<script>.x.jsonl").write_text(write_line(fields, n=1, prev="") + "\n{}\n", encoding="ascii")
    board = read(live, Group(title=HOSTILE, called={live.ids[0].casefold(): HOSTILE}))
    page = board.page(BOTH, now=datetime.now(UTC))
    assert "<img src=x" not in page
    assert "<b>bold" not in page
    assert "<script>." not in page
    assert "{{7*7}}" in page
    assert re.findall(r"<[^>]*\son[a-z]+=", page) == []
    assert "&lt;b&gt;bold&lt;/b&gt;/&lt;script&gt;.x.jsonl" in page


def test_names_that_are_no_text_harm_nobody(live: LiveClass, tmp_path: Path) -> None:
    """A folder or file named in broken bytes, and half a letter in a line: pages and codes are still written."""
    line = live.answer(live.ids[0], NUMBER)
    logbook = os.fsencode(live.folder) + b"/\xff\xfe/logbook"
    os.makedirs(logbook)
    with open(logbook + b"/start.\xff.jsonl", "wb") as file:
        file.write(line.text.encode("ascii") + b"\nrubbish\n")
        file.write(line.text.replace("0000abcd", "\\ud800").encode("ascii") + b"\n")
    codes = tmp_path / "codes.csv"
    board = read(live, codes=codes)
    board.page(NAMES).encode("utf-8")
    board.note_codes(at_once=True)
    assert [live.ids[0]] == [learner for learner, _, _ in codes_in(codes)]
    assert "[U+DCFF]" in board.page(NAMES)
    out = tmp_path / "board.html"
    assert main(["board", str(live.folder), "--names", "--once", str(out)]) == 0
    assert [1, 1, 1, 0] == row(board, NUMBER)


def test_only_new_bytes_are_read(live: LiveClass, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file that did not change is not opened; one that grew is read from where it ended."""
    for learner in live.ids:
        live.answer(learner, NUMBER)
    board = read(live)
    opened: list[tuple[Path, int]] = []
    real = board_files.Tail.news

    def watched(tail: board_files.Tail, limit: int) -> board_files.News:
        before = tail.offset
        found = real(tail, limit)
        opened.append((tail.path, len(found.lines)))
        assert found.afresh is False
        assert before > 0
        return found

    monkeypatch.setattr(board_files.Tail, "news", watched)
    refresh(board)
    assert opened == []
    live.answer(live.ids[2], CHOICE)
    refresh(board)
    assert [(live.logbook(live.ids[2], "start").path, 1)] == opened


def test_a_torn_last_line_waits(live: LiveClass) -> None:
    """Half a line counts for nothing and is no trouble; whole, it counts once."""
    live.answer(live.ids[0], NUMBER)
    whole = live.answer(live.ids[0], CHOICE)
    path = live.logbook(live.ids[0], "start").path
    content = path.read_bytes()
    for cut in (1, 40, len(whole.text)):
        path.write_bytes(content[:-cut])
        board = read(live)
        refresh(board)
        assert [NUMBER] == list(board.board.cells[live.ids[0].casefold()])
        assert [] == board.said()
        with path.open("ab") as file:
            file.write(content[-cut:])
        refresh(board)
        assert [NUMBER, CHOICE] == list(board.board.cells[live.ids[0].casefold()])
        assert [] == board.said()


def _cut(content: bytes) -> bytes:
    return content[: content.index(b"\n") + 1]


def _other_score(content: bytes) -> bytes:
    return content.replace(b'"score":0.0', b'"score":1.0', 1)


def _without_first(content: bytes) -> bytes:
    return content[content.index(b"\n") + 1 :] + b"x" * 2000 + b"\n"


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (_cut, "was rewritten or cut; 1 lines"),
        (_other_score, "does not hold"),
        (_without_first, "was rewritten or cut; 1 lines"),
    ],
)
@pytest.mark.parametrize("replaced", [False, True], ids=["in place", "by another file"])
def test_a_rewritten_logbook_is_read_afresh_and_told(
    live: LiveClass, change: Callable[[bytes], bytes], told: str, replaced: bool
) -> None:
    """Cut, edited or longer with another beginning: the board shows what is there now, and says so on the names page."""
    live.answer(live.ids[0], NUMBER, right=False)
    live.answer(live.ids[0], CHOICE, right=False)
    board = read(live)
    path = live.logbook(live.ids[0], "start").path
    content = change(path.read_bytes())
    if replaced:
        (path.parent / "new").write_bytes(content)
        os.replace(path.parent / "new", path)
    else:
        path.write_bytes(content)
        os.utime(path, ns=(path.stat().st_atime_ns, path.stat().st_mtime_ns + 10**9))
    refresh(board)
    fresh = read(live)
    assert fresh.board.cells == board.board.cells
    assert any(told in text for text in board.said())
    assert told in board.page(NAMES)


def test_the_same_bytes_again_are_no_news(live: LiveClass) -> None:
    """A copy put back, or a file that was only touched, is read afresh and nothing is said."""
    live.answer(live.ids[0], NUMBER)
    board = read(live)
    path = live.logbook(live.ids[0], "start").path
    (path.parent / "new").write_bytes(path.read_bytes())
    os.replace(path.parent / "new", path)
    refresh(board)
    os.utime(path)
    refresh(board)
    assert [] == board.said()
    assert [1, 1, 1, 0] == row(board, NUMBER)


def test_a_share_that_goes_away_keeps_what_is_known(live: LiveClass) -> None:
    """The numbers stand, the trouble is told, and it all comes back."""
    live.answer(live.ids[0], NUMBER)
    board = read(live)
    live.folder.rename(live.folder.with_name("away"))
    refresh(board)
    assert [1, 1, 1, 0] == row(board, NUMBER)
    assert any("cannot be listed" in text for text in board.said())
    live.folder.with_name("away").rename(live.folder)
    board.watch._looked = float("-inf")
    live.answer(live.ids[1], NUMBER)
    refresh(board)
    assert [2, 2, 2, 0] == row(board, NUMBER)


def test_nothing_else_is_touched(live: LiveClass, tmp_path: Path) -> None:
    """Content and time of change of every file and folder stay; no file is added, not even a lock."""
    for learner in live.ids:
        live.answer(learner, NUMBER)
    before = fingerprint(live.folder)
    board = read(live, codes=tmp_path / "codes.csv")
    board.note_codes(at_once=True)
    board.page(BOTH)
    refresh(board)
    assert before == fingerprint(live.folder)
    assert (tmp_path / "codes.csv").is_file()


def test_links_pipes_and_hidden_folders_are_left_alone(live: LiveClass, tmp_path: Path) -> None:
    """Neither followed nor waited for; a link to a logbook elsewhere shows nothing of it."""
    other = LiveClass(tmp_path / "other", learners=1)
    other.answer(other.ids[0], NUMBER)
    source = other.logbook(other.ids[0], "start").path
    logbook = live.folder / live.ids[1] / "logbook"
    logbook.mkdir()
    (logbook / "start.link.jsonl").symlink_to(source)
    os.mkfifo(logbook / "start.pipe.jsonl")
    (live.folder / live.ids[2] / "logbook").symlink_to(source.parent)
    (live.folder / "all").symlink_to(other.folder)
    (live.folder / ".trash").mkdir()
    board = read(live)
    assert {} == board.board.cells
    told = " ".join(board.said())
    assert "start.link.jsonl: is a link, a pipe or a device" in told
    assert "logbook: is a link and was not followed" in told


def test_a_swollen_workbook_holds_nobody_up(live: LiveClass, monkeypatch: pytest.MonkeyPatch) -> None:
    """More than the limit is not read, said once; a line over 1 MB costs that line; the others' answers are there."""
    monkeypatch.setattr(board_files, "MAX_BYTES", 3_000_000)
    path = live.logbook(live.ids[0], "start").path
    path.parent.mkdir(parents=True)
    path.write_bytes(b"x" * 1_500_000 + b"\n")
    live.answer(live.ids[0], NUMBER)
    live.answer(live.ids[1], NUMBER)
    board = read(live)
    assert [2, 2, 2, 0] == row(board, NUMBER)
    assert any("1 lines cannot be read" in text for text in board.said())
    with path.open("ab") as file:
        file.write((b"y" * 999 + b"\n") * 3_000)
    refresh(board)
    assert any("holds more than 3 MB" in text for text in board.said())
    live.answer(live.ids[2], NUMBER)
    refresh(board)
    assert [3, 3, 3, 0] == row(board, NUMBER)


def test_too_many_files_are_told(live: LiveClass, monkeypatch: pytest.MonkeyPatch) -> None:
    """Files beyond the limit are not read; workbooks beyond theirs neither."""
    monkeypatch.setattr(board_files, "MAX_ENTRIES", 3)
    logbook = live.folder / live.ids[0] / "logbook"
    logbook.mkdir()
    for number in range(5):
        (logbook / f"start.{number}.jsonl").write_bytes(b"")
    assert any("holds more than 3 files" in text for text in read(live).said())
    monkeypatch.setattr(board_files, "MAX_WORKBOOKS", 2)
    board = read(live)
    assert 2 == len(board.watch.books)
    assert any("More than 2 workbooks" in text for text in board.said())


def test_home_folders_are_two_folders_deep(tmp_path: Path) -> None:
    """/home/<learner>/clutch-course is found, and a workbook that comes later too."""
    live = LiveClass(tmp_path / "one" / "made", learners=1)
    home = tmp_path / "home"
    (home / "ana").mkdir(parents=True)
    board = Board(home)
    assert board.refresh()
    live.answer(live.ids[0], NUMBER)
    (live.folder / live.ids[0]).rename(home / "ana" / "clutch-course")
    board.watch._looked = float("-inf")
    assert board.refresh()
    assert ["ana/clutch-course"] == list(board.watch.books)
    assert [1, 1, 1, 0] == row(board, NUMBER)


def test_another_class_word_does_not_count(live: LiveClass, tmp_path: Path) -> None:
    """With a class file; on the names page it is said where."""
    live.answer(live.ids[0], NUMBER)
    file = tmp_path / "class.toml"
    file.write_text('class_word = "elm-2026"\ntitle = "Elm"\nlessons = ["start"]\n', encoding="utf-8")
    board = read(live, group_of(file, None))
    assert {} == board.board.cells
    assert ["start"] == board.lessons
    assert [f"{live.ids[0]}/start.0000abcd.jsonl: 1 answers under another class word do not count."] == board.said()


def test_one_learner_in_two_folders_counts_once_and_is_told(live: LiveClass) -> None:
    """A copied folder adds nothing to the counts."""
    live.answer(live.ids[0], NUMBER)
    copy = live.folder / "copy" / "logbook"
    copy.mkdir(parents=True)
    (copy / "start.x.jsonl").write_bytes(live.logbook(live.ids[0], "start").path.read_bytes())
    board = read(live)
    assert [1, 1, 1, 0] == row(board, NUMBER)
    assert [f"{live.ids[0]}: answers lie in 2 folders: {live.ids[0]}, copy."] == board.said()


def codes_in(path: Path) -> list[tuple[str, str, str]]:
    """Learner, lesson and code of each row."""
    with path.open(encoding="utf-8-sig", newline="") as file:
        return [(r["learner"], r["lesson"], r["code"]) for r in csv.DictReader(file)]


def test_check_codes_are_noted_and_go_into_the_register(live: LiveClass, tmp_path: Path) -> None:
    """The latest of each learner and lesson, as “note-codes” takes it; a hostile id is left out, not the whole list."""
    codes = tmp_path / "codes.csv"
    live.answer(live.ids[0], NUMBER)
    last = live.answer(live.ids[0], CHOICE)
    safe = live.answer(live.ids[0], "safe.tags")
    fields = json.loads(last.text)
    for key in ("n", "prev", "hash"):
        fields.pop(key)
    bad = live.folder / live.ids[1] / "logbook"
    bad.mkdir()
    (bad / "start.x.jsonl").write_text(
        write_line(fields | {"learner": "=cmd()"}, n=1, prev="") + "\n", encoding="ascii"
    )
    board = read(live, codes=codes)
    board.note_codes(at_once=True)
    assert last.record is not None
    assert safe.record is not None
    wanted = [(live.ids[0], "safe", check_code(safe.record.hash)), (live.ids[0], "start", check_code(last.record.hash))]
    assert wanted == codes_in(codes)
    assert main(["note-codes", str(codes), "--register", str(tmp_path / "register")]) == 0
    newer = live.answer(live.ids[0], SEVERAL)
    refresh(board)
    board.note_codes(at_once=True)
    assert newer.record is not None
    assert check_code(newer.record.hash) in {code for _, _, code in codes_in(codes)}
    assert 2 == len(codes_in(codes))


@pytest.mark.parametrize("restarted", [False, True], ids=["while it runs", "between two runs"])
def test_a_rewritten_logbook_does_not_wipe_the_noted_code(live: LiveClass, tmp_path: Path, restarted: bool) -> None:
    """The old code stays beside the new one, so that marking can flag it."""
    codes = tmp_path / "codes.csv"
    old = live.answer(live.ids[0], NUMBER, right=False)
    board = read(live, codes=codes)
    board.note_codes(at_once=True)
    live.logbook(live.ids[0], "start").path.unlink()
    new = live.answer(live.ids[0], NUMBER)
    board = read(live, codes=codes) if restarted else board
    refresh(board)
    board.note_codes(at_once=True)
    assert old.record is not None
    assert new.record is not None
    assert {check_code(old.record.hash), check_code(new.record.hash)} == {code for _, _, code in codes_in(codes)}


def test_once_gives_the_same_page_from_zips(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The wall over a stick of zips has the rows of the wall over the workbooks, in one file without script."""
    rehearse(tmp_path / "zips", learners=3, seed=5)
    rehearse(tmp_path / "books", learners=3, seed=5, form="folder")
    out = tmp_path / "board.html"
    assert main(["board", str(tmp_path / "zips" / "hand-ins"), "--once", str(out)]) == 0
    assert str(out) == capsys.readouterr().out.strip()
    board = Board(tmp_path / "books" / "hand-ins")
    refresh(board)
    page = unescape(out.read_text(encoding="utf-8"))
    rows = re.compile(r"<tbody>.*?</tbody>", re.S)
    assert rows.findall(unescape(board.page(View("wall", ALL)))) == rows.findall(page)
    assert len(board.lessons) == len(rows.findall(page))
    assert "<script" not in page
    assert "script-src" not in page
    assert "default-src 'none'" in page
    assert re.findall(r"\bL0\d-[A-Z]\b", page) == []
    assert main(["board", str(tmp_path / "zips" / "hand-ins"), "--names", "--once", str(out)]) == 0
    assert len(set(re.findall(r"\bL0\d-[A-Z]\b", out.read_text(encoding="utf-8")))) == 3


@pytest.mark.parametrize(
    ("more", "told"),
    [
        (["--once", "share/board.html"], "lies in share, and nothing is written there"),
        (["--note-codes", "share/L01-X/codes.csv"], "lies in share, and nothing is written there"),
        (["--once", "nowhere/board.html"], "cannot be written"),
        (["--names", "--display-names"], "The display names stand in the roster"),
        (["--host", "0.0.0.0"], "must be one address of this computer"),
        (["--host", "example.org"], "must be one address of this computer"),
        (["--host", "192.0.2.1"], "is no address of this computer"),
        (["--roster", "none.csv"], "none.csv is not there"),
    ],
)
def test_wrong_use_is_told_in_a_line(
    live: LiveClass, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], more: list[str], told: str
) -> None:
    """Status 2, one line on stderr, nothing written."""
    monkeypatch.chdir(live.folder.parent)
    assert main(["board", "share", *more]) == 2
    err = capsys.readouterr().err
    assert told in err
    assert 1 == len(err.splitlines())


def test_a_class_can_be_rehearsed_as_workbooks(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """For the board to be tried on; planted cases come as zips alone."""
    assert main(["rehearse", "--learners", "1", "--workbooks", "--out", str(tmp_path / "class")]) == 0
    assert 1 == len(list((tmp_path / "class" / "hand-ins").glob("*/workbook.toml")))
    assert main(["rehearse", "--learners", "20", "--workbooks", "--planted", "--out", str(tmp_path / "other")]) == 2
    assert "Leave out --planted or --workbooks" in capsys.readouterr().err


def test_nothing_to_read_once(tmp_path: Path) -> None:
    """An empty folder has no page."""
    (tmp_path / "empty").mkdir()
    with pytest.raises(BadInput, match="holds no hand-in"):
        Board(tmp_path / "empty").read_once()


def test_a_rehearsed_class_stands_still_at_a_moment(tmp_path: Path) -> None:
    """The same seed and moment give the same page; nobody has answered later."""
    until = datetime(2026, 4, 21, 8, 10, tzinfo=UTC)
    made = [rehearsed_board(tmp_path / name, learners=3, seed=1, until=until) for name in ("a", "b")]
    assert made[0].page(BOTH, now=until) == made[1].page(BOTH, now=until)
    assert max(p.at for p in made[0].board.people.values()) <= "2026-04-21T08:10:00.000Z"
    assert now_of(made[0].board, until + timedelta(days=1)).at_it == 0


def test_what_is_left_out_is_not_to_come(live: LiveClass) -> None:
    """An exercise that no car of the class can serve is not named among those that nobody has answered yet."""
    gone = left_out(("A",), ("release",))
    titles = {exercise_named(id).title for id in gone}
    board = Board(live.folder, Group(cars=("A",)))
    page = board.page(View("wall", "release"))

    assert gone
    assert titles <= set(wall(board.board, "release").later)
    assert not titles & set(wall(board.board, "release", left_out=gone).later)
    assert [] == [title for title in titles if f"{title}," in page]


def test_what_is_dangerous_comes_before_every_table(live: LiveClass) -> None:
    """On the names, and on the page that has wall and names."""
    live.answer(live.ids[0], CHOICE, right=False)
    board = Board(live.folder)
    while not board.refresh():
        continue
    for kind in ("names", "both"):
        page = board.page(View(kind, ALL))  # type: ignore[arg-type]
        assert page.index('id="critical"') < page.index("<table")


def test_the_names_say_what_was_dangerous(live: LiveClass) -> None:
    """The mistake's name and what the course says to it, not letters that differ from learner to learner."""
    question = exercise_named("star.impact").draw(class_word=REHEARSAL, learner=live.ids[0])
    known = [n for n, (answer, _) in enumerate(question.known_mistakes()) if question.mark(answer).critical]
    live.answer(live.ids[0], "star.impact", right=False, mistake=known[0])
    verdict = question.mark(question.known_mistakes()[known[0]][0])
    board = read(live)
    (found,) = names(board.board, datetime.now(UTC), shown={}).critical

    assert f"{verdict.mistake}: {verdict.feedback}" == found.says
    assert "instead of" not in found.says
