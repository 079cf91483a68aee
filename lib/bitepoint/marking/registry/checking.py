"""What an entry must look like by itself: nothing missing, everything in a form that can be kept."""

from collections.abc import Sequence
from datetime import date
from unicodedata import normalize

import msgspec

from bitepoint.bank import exercises
from bitepoint.errors import BadInput
from bitepoint.logbook.identity import checked_name
from bitepoint.marking.registry.entries import (
    APPEAL_OUTCOMES,
    CONFIRMED,
    KINDS,
    NEEDS,
    OBSERVED,
    OPTIONS,
    SIGNED,
    Entry,
)
from bitepoint.marking.registry.windows import checked_hand_in, checked_lessons, checked_window

_LONGEST = 1_000
_WORDS = ("by", "text", "criterion", "action", "room")
_WITH_RESULT = ("observation", "confirmation")


def check_entry(entry: Entry) -> Entry:
    """Return an entry that says what its kind must say, in a form that can be kept.

    Raises
    ------
    BadInput
        Names what is missing or cannot be used, and how to write it.
    """
    if entry.kind not in KINDS:
        raise BadInput(f"There is no entry {entry.kind[:40]!r}. Choose one of: {', '.join(KINDS)}.")
    for key in NEEDS[entry.kind]:
        if getattr(entry, key) in ("", None):
            raise BadInput(f"An entry “{entry.kind}” needs --{OPTIONS.get(key, key)}. {_EXAMPLES[key]}")
    for key in _WORDS:
        if len(getattr(entry, key)) > _LONGEST:
            raise BadInput(
                f"--{key} is longer than {_LONGEST:,} characters. Say it shorter and keep the rest in your file."
            )
    # What one keyboard writes as a letter, another writes as a letter and its dots: the same words are one text here.
    entry = msgspec.structs.replace(entry, **{key: normalize("NFC", getattr(entry, key)) for key in _WORDS})
    learner = checked_name(entry.learner, "The learner id") if entry.learner else ""
    if entry.exercise and entry.exercise not in exercises():
        raise BadInput(
            f"There is no exercise {entry.exercise[:40]!r}. Copy its id from the report, such as star.six-bolts."
        )
    if entry.score is not None and not 0 <= entry.score <= 1:
        raise BadInput(f"--score must be between 0 and 1, but you gave {entry.score:g}. 1 is fully right.")
    if entry.number is not None and not 1 <= entry.number <= 100:
        raise BadInput(f"--number must be 1 to 100, but you gave {entry.number}. 1 is the first resubmission.")
    if entry.result and entry.kind not in _WITH_RESULT:
        raise BadInput(
            "--result is of an observation or a confirmation. Write it into --text, which the pages show as that person's."
        )
    if entry.kind == "observation" and entry.result not in OBSERVED:
        raise BadInput(f"--result must be one of {', '.join(OBSERVED)}, but you gave {entry.result[:40]!r}.")
    if entry.lesson:
        checked_lessons((entry.lesson,))
    _one_of(SIGNED, entry.signed, "--signed")
    entry = _checked_appeal(_checked_sitting(entry))
    return msgspec.structs.replace(
        entry, learner=learner, date=checked_date(entry.date), code=_checked_code(entry.code)
    )


_EXAMPLES = {
    "learner": "Give the id on the card, as in --learner L07-K",
    "by": 'Say who, as in --by "A. Assessor"',
    "text": 'Say why, or what was found, as in --text "…"',
    "exercise": "Copy the id from the report, as in --exercise star.six-bolts",
    "score": "0 to 1, as in --score 1",
    "number": "Which one it is, as in --number 1",
    "criterion": "Say which criterion, as on the observation sheet",
    "result": f"One of: {', '.join(OBSERVED)}",
    "action": 'Say what was done about it, as in --action "none needed"',
    "lesson": "Give the lesson, as in --lesson star",
    "code": "As the page shows it, as in --code AD7-QB7",
    "word": "The sitting word of the class file, as in --word red-kite",
    "begins": "With the zone, as in --from 2026-06-30T09:00+02:00",
    "ends": "With the zone, as in --to 2026-06-30T11:00+02:00",
    "hand_in": "Copy it from the report: the first characters of its SHA-256, as in --hand-in 3f2a90c1d4e5",
}


def _checked_sitting(entry: Entry) -> Entry:
    """Return an entry with its sitting word, window, lessons and hand-in checked; its day is that of its begin."""
    begins, ends = checked_window(entry.begins, entry.ends)
    if entry.kind == "adjustment" and begins and not entry.word:
        raise BadInput(f"An adjustment that moves a learner's time needs --word, the sitting's. {_EXAMPLES['word']}")
    # An adjustment is of the day on which it was agreed, a sitting of the day on which it was.
    day = begins[:10] if entry.kind != "adjustment" else ""
    if entry.date and day and entry.date != day:
        raise BadInput(f"--date is {entry.date[:20]!r} but the sitting begins on {begins[:10]}. Leave --date out.")
    if entry.kind == "confirmation":
        _one_of(CONFIRMED, entry.result, "--result")
    return msgspec.structs.replace(
        entry,
        word=checked_name(entry.word, "The sitting word") if entry.word else "",
        earlier=checked_name(entry.earlier, "The earlier id") if entry.earlier else "",
        earlier_class=checked_name(entry.earlier_class, "The earlier class word") if entry.earlier_class else "",
        date=day or entry.date,
        begins=begins,
        ends=ends,
        lessons=checked_lessons(entry.lessons),
        hand_in=checked_hand_in(entry.hand_in),
    )


def _checked_appeal(entry: Entry) -> Entry:
    """Return an appeal with its outcome checked; decided today when no day is said."""
    if entry.kind != "appeal":
        return entry
    _one_of(APPEAL_OUTCOMES, entry.outcome, "--outcome")
    if entry.decided and not entry.outcome:
        raise BadInput(f"--decided needs --outcome: one of {', '.join(APPEAL_OUTCOMES)}.")
    if not entry.outcome:
        return entry
    return msgspec.structs.replace(entry, decided=checked_date(entry.decided, "--decided"))


def _one_of(choices: Sequence[str], said: str, option: str) -> None:
    if said and said not in choices:
        raise BadInput(f"{option} must be one of {', '.join(choices)}, but you gave {said[:40]!r}.")


def checked_date(text: str, option: str = "--date") -> str:
    """Return a day; today where none is said.

    Raises
    ------
    BadInput
        It is no day.
    """
    if not text:
        return date.today().isoformat()
    try:
        return date.fromisoformat(text).isoformat()
    except ValueError:
        raise BadInput(f"{option} must be a day such as 2026-06-30, but you gave {text[:40]!r}.") from None


def _checked_code(text: str) -> str:
    plain = text.upper().replace("-", "").replace(" ", "")
    if not plain:
        return ""
    if len(plain) != 6 or not set(plain) <= set("ABCDEFGHIJKLMNOPQRSTUVWXYZ234567"):
        raise BadInput(f"{text[:40]!r} is no check code. It has six letters and digits 2 to 7, such as AD7-QB7.")
    return f"{plain[:3]}-{plain[3:]}"
