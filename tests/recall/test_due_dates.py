"""Due dates come from the lines alone: two devices, a clock set back, a withdrawn question, a new release move none."""

import json
from collections.abc import Sequence
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from lines import START

from bitepoint.bank import exercise_named
from bitepoint.bank.corrections import Withdrawal
from bitepoint.logbook import Logbook, Record, read_folder
from bitepoint.logbook.asked import asked_fields
from bitepoint.logbook.record import RECALL
from bitepoint.recall import choosing
from bitepoint.recall.choosing import items_of
from bitepoint.recall.reviews import reviews_of

DAY = timedelta(days=1)
NOW = START + 60 * DAY
Answer = tuple[float, str, bool, bool]
HISTORY: tuple[Answer, ...] = (
    (0.0, "safe.dust", True, False),
    (0.1, "carry.oil", False, False),
    (0.15, "carry.oil", True, False),
    (7.0, "kit.find-kit", True, False),
    (7.1, "carry.wear", True, False),
    (9.0, "safe.dust", True, True),
    (9.01, "carry.oil", False, True),
    (12.0, "carry.oil", True, True),
    (30.0, "kit.find-kit", True, True),
    (30.01, "safe.dust", True, True),
)
"""Day, exercise, whether it was right, whether in recall."""


def write(
    folder: Path, answers: Sequence[Answer], *, device: str = "a", clock: dict[int, datetime] | None = None, **more: Any
) -> None:
    """Write answers as real lines into a workbook's logbook; `clock` gives the n-th another time, `more` other fields."""
    for n, (day, id, right, recall) in enumerate(answers):
        exercise = exercise_named(id)
        word = {"sitting": RECALL} if recall else {}
        question = exercise.draw(class_word="oak", learner="ann", **word)
        at = (clock or {}).get(n, START + day * DAY)
        Logbook(folder, lesson="keep-it" if recall else exercise.lesson, device=device).append(
            {
                "at": at.isoformat(timespec="milliseconds").replace("+00:00", "Z"),
                "learner": "ann",
                "class": "oak",
                "device": device,
                **asked_fields(question, 1),
                "how": "recall" if recall else "form",
                "answer": question.right_answer() if right else question.known_mistakes()[0][0],
                "score": 1.0 if right else 0.0,
                **word,
                **more,
            }
        )


def records(folder: Path) -> list[Record]:
    return [line.record for lines in read_folder(folder).values() for line in lines if line.record and not line.problem]


def dues(folder: Path, now: datetime = NOW) -> dict[str, datetime]:
    return {item.exercise: item.due for item in items_of(reviews_of(records(folder), now))}


@pytest.fixture
def work(tmp_path: Path) -> Path:
    """The history as one device with a right clock wrote it."""
    write(tmp_path, HISTORY)
    return tmp_path


def other(folder: Path) -> Path:
    made = folder / "other"
    made.mkdir()
    return made


def test_the_history_has_due_dates(work: Path) -> None:
    """Four exercises, each due after its last answer."""
    assert set(dues(work)) == {"safe.dust", "carry.oil", "kit.find-kit", "carry.wear"}
    assert all(due > START + 7 * DAY for due in dues(work).values())


def test_two_devices_joined_are_as_one(work: Path) -> None:
    """Each answer on the laptop or at college: the joined lines give the same dates."""
    joined = other(work)
    write(joined, HISTORY[::2], device="a")
    write(joined, HISTORY[1::2], device="b")
    assert dues(joined) == dues(work)


def test_a_device_that_comes_later_moves_what_it_answered_alone(work: Path) -> None:
    """Lines of a second device that were missing add their reviews; no other exercise moves."""
    before = dues(work)
    write(work, [(31.0, "carry.wear", True, True)], device="b")
    after = dues(work)
    assert after.pop("carry.wear") > before.pop("carry.wear")
    assert after == before


@pytest.mark.parametrize("wrong", [START - 3000 * DAY, START - 1 * DAY, START + 5000 * DAY])
def test_a_wrong_clock_moves_nothing_for_good(work: Path, wrong: datetime) -> None:
    """One line of the recall chain with a clock set back, or years ahead: dates as before, to the day of the line before it."""
    spoilt = other(work)
    write(spoilt, HISTORY, clock={9: wrong})
    before, after = dues(work), dues(spoilt)
    assert before.keys() == after.keys()
    assert all(abs(before[id] - after[id]) < DAY for id in before)


def test_a_clock_set_back_now_moves_nothing(work: Path) -> None:
    """Asked with a clock that shows an earlier day than the last line."""
    assert dues(work, START + 10 * DAY) == dues(work)


def test_a_withdrawn_question_goes_and_no_other_moves(work: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """It is not asked again; its lines stay."""
    before, lines = dues(work), len(records(work))
    gone = Withdrawal(exercise="safe.dust", revisions=(1,), date=START.date(), why="It was wrong.")
    monkeypatch.setattr(choosing, "withdrawal_of", lambda id, _: gone if id == gone.exercise else None)
    after = dues(work)
    assert after == {id: due for id, due in before.items() if id != "safe.dust"}
    assert lines == len(records(work))


def test_a_new_release_moves_nothing(work: Path) -> None:
    """Lines whose facts, words, revision and bank no longer fit: what they say of their own score counts."""
    old = other(work)
    write(old, HISTORY, facts="0" * 16, words="0" * 16, revision=7, bank="0.0.1", edition=1)
    assert {record.facts for record in records(old)} == {"0" * 16}
    assert dues(old) == dues(work)


def test_an_exercise_that_a_release_took_out_goes_alone(work: Path) -> None:
    """Lines of an exercise that this bank does not have are kept and ask nothing."""
    before = dues(work)
    path = next((work / "logbook").glob("carry.*.jsonl"))
    line = json.loads(path.read_text(encoding="utf-8").splitlines()[0])
    fields = {key: line[key] for key in line if key not in ("n", "prev", "hash")} | {"exercise": "carry.no-more"}
    Logbook(work, lesson="carry", device="a").append(fields)
    assert dues(work) == before
