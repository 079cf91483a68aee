"""The verb `summary`: where the learner stands in a lesson, the check code, and the button to hand in."""

from collections import deque
from collections.abc import Callable
from pathlib import Path
from typing import Any

from markupsafe import Markup

from bitepoint.bank.lessons import lesson, lessons_in_use
from bitepoint.errors import BitepointError
from bitepoint.logbook import Identity, check_code, read_folder
from bitepoint.logbook.device import device_name
from bitepoint.logbook.presence import lines_gone, lines_missing
from bitepoint.page import html, output
from bitepoint.page.asking import asked, not_asked
from bitepoint.page.cards import MIME
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.handing_in import show_button, so_far
from bitepoint.page.page_order import as_on_the_page
from bitepoint.page.recall.due import due_words
from bitepoint.page.records import RECORDS

DANGEROUS = "⚠ Dangerous"
DONE = ("right", "recorded", "withdrawn")
FIRST = "Put the exercises marked ⚠ right first. On a car their answers would hurt someone or let a part come loose."
PAGES = 3
Row = tuple[str, ...]
OBSERVED = "What only a person can see stays open: practical observation is still required."


def summary(name: str = "") -> None:
    """Show what is done and what is still to do in a lesson (default: the one asked about last)."""
    try:
        # Whose workbook it is says which lessons there are: a class may have one of its college's own.
        identity = output.who_asks()
        key = lesson(name or (asked[-1] if asked else next(iter(lessons_in_use())))).key
        static = _static(sessions_of(key, identity), identity, key)
    except BitepointError as error:
        output.say(error)
        return
    _shown.setdefault(key, deque(maxlen=PAGES)).append(output.show_static(static))
    if identity.kept and output.page_watches():
        show_button(identity)


_shown: dict[str, deque[Callable[[Any], None]]] = {}
"""How to redraw the end of a lesson where this kernel has shown it: one lesson may stand in several pages."""


def sessions_of(key: str, identity: Identity) -> list[ExerciseSession]:
    """Return the exercises of a lesson that this learner is asked, as its page asks them."""
    whole = [ExerciseSession(exercise, identity) for exercise in as_on_the_page(key)]
    return [session for session in whole if not not_asked(session)]


def redraw(sessions: list[ExerciseSession], identity: Identity, key: str) -> None:
    """Bring the end of a lesson up to date where it is shown."""
    if key in _shown:
        static = _static(sessions, identity, key)
        for again in _shown[key]:
            again(static)


def _static(sessions: list[ExerciseSession], identity: Identity, key: str) -> output.Static:
    extra = _record(identity, key)
    record = [RECORDS[key](sessions, identity)] if key in RECORDS else []
    page = html.joined([*record, _card(sessions, identity, key)])
    return output.Static(_plain(sessions), page, extra)


def state_of(session: ExerciseSession) -> str:
    """Return how an exercise stands, in the words of the table."""
    answers = session.answers()
    if not answers:
        return "to do"
    if session.asked_no_more:
        return "withdrawn"
    if session.withheld:
        return "recorded"
    if session.dangers_open:
        return DANGEROUS
    if any(a.verdict.right for a in answers):
        return "right"
    return "solution seen, try new figures" if session.closed else "not yet"


def _plain(sessions: list[ExerciseSession]) -> str:
    done = sum(state_of(d) in DONE for d in sessions)
    return f"{done} of {len(sessions)} exercises done"


def _card(sessions: list[ExerciseSession], identity: Identity, key: str) -> Markup:
    states = {session.exercise.id: state_of(session) for session in sessions}
    dangers = DANGEROUS in states.values()
    rows = []
    for session in sessions:
        deeper = " (go deeper)" if session.exercise.beyond else ""
        row = (f"{session.exercise.title}{deeper}", states[session.exercise.id], "; ".join(session.dangers_open))
        rows.append(row[: 2 + dangers])
    heads = ("Exercise", "State", "What was dangerous")[: 2 + dangers]
    parts = [html.title(f"{lesson(key).title}: {_plain(sessions)}")]
    if dangers:
        parts.append(html.panel("danger", "Dangerous:", html.paragraphs(FIRST)))
    parts.append(html.table([heads, *rows] if dangers else _side_by_side(heads, rows)))
    parts.append(html.paragraphs(OBSERVED))
    parts.append(html.paragraphs(_who(identity, key)))
    whole = all(state in DONE for state in states.values())
    return html.card(html.joined(parts), state="danger" if dangers else "right" if whole else "")


def _side_by_side(heads: Row, rows: list[Row]) -> list[Row]:
    """Return a table of half the height: its second half stands to the right of the first."""
    half = -(-len(rows) // 2)
    beside = [*rows[half:], ("", "")][:half] if half else []
    return [(*heads, *heads), *((*left, *right) for left, right in zip(rows[:half], beside, strict=True))]


def _who(identity: Identity, key: str) -> str:
    if identity.folder is None:
        return "You work as the practice learner: nothing is kept and there is nothing to hand in."
    said = [f"You are {identity.learner} in class {identity.class_word}. {_code(identity.folder, key)}".strip()]
    if missing := lines_missing(identity.folder, key, read_folder(identity.folder, key)):
        said.append(lines_gone(missing))
    said += [so_far(identity.folder), *filter(None, [due_words(identity)])]
    return "\n\n".join([*said, "To hand in: press “Make my hand-in” below, or run “bitepoint hand-in” on this folder."])


def _code(folder: Path, key: str) -> str:
    """Return the sentence with the check code of this computer's last line; "" when there is no line."""
    lines = read_folder(folder, key).get(f"{key}.{device_name()}.jsonl", [])
    last = next((line for line in reversed(lines) if line.record), None)
    if last is None or last.record is None:
        return ""
    if last.problem:
        return f"Your last line here {last.problem}, so it has no check code. Show this to your instructor."
    return f"Check code of your last line here: {check_code(last.record.hash)}."


def _record(identity: Identity, key: str) -> dict[str, Any]:
    if identity.folder is None:
        return {}
    lines = [line.text for found in read_folder(identity.folder, key).values() for line in found]
    return {MIME: {"lines": lines}} if lines else {}
