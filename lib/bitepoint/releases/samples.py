"""Samples of a release: every exercise and revision drawn for every car, as digests, and what has changed since.

A sample holds three digests over several learners and turns: of the facts, of the words (those of the pictures too),
and of the geometry of the pictures that something is read off or pointed at, with the numbers and names written there.
"""

import json
import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from functools import lru_cache
from pathlib import Path
from typing import Literal

import msgspec
from msgspec import Struct

from bitepoint.bank import Exercise, exercises
from bitepoint.bank.version import bank_digest
from bitepoint.errors import BadData, BitepointError
from bitepoint.pictures.registry import Drawing
from bitepoint.pictures.registry import draw as draw_picture
from bitepoint.questions.draw import STANDARD
from bitepoint.questions.facts import digest_of
from bitepoint.questions.question import Question
from bitepoint.workshop.vehicles import sheets_edition

CLASS_WORD, LEARNERS, TURNS = "release", ("one", "two", "three"), (1, 2, 3)
Digests = tuple[str, str, str]
"""Of facts, words and geometry."""
_NUMBERS = re.compile(r"-?\d+(?:\.\d+)?")
_WRITTEN = re.compile(r">([^<]+)<")
_TEXT = re.compile(r">[^<]*<|(?:font|fill|stroke|style|class)[-\w]*=\"[^\"]*\"")


class ReleaseSamples(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The samples of one release: exercise, revision, car to digests. `version` is "" as long as nothing is released."""

    version: str
    bank: str
    sheets: int
    samples: dict[str, dict[int, dict[str, Digests]]]


class Change(Struct, frozen=True, kw_only=True):
    """A question that is no longer drawn as it was released."""

    exercise: str
    revision: int
    kind: Literal["gone", "facts", "words"]
    release: str
    cars: tuple[str, ...]
    words: str = ""

    @property
    def said(self) -> str:
        """Return one line: what, since when, what to do."""
        which = f"{self.exercise}, revision {self.revision}"
        since = f"since {self.release}" if self.release else "since the samples were made"
        if self.release == "" and self.kind != "words":
            return f"{which}: its facts changed {since}. Nothing is released: python -m bitepoint.releases sample"
        if self.kind == "gone":
            return f"{which}: can no longer be drawn as in {self.release}. Keep it: @retired({self.exercise!r}, {self.revision})"
        if self.kind == "facts":
            return (
                f"{which}: its facts changed {since}. Give the change a new revision, revision={self.revision + 1}, and "
                f"keep the released one: @retired({self.exercise!r}, {self.revision}). Where it is a figure of a data file: "
                "put it back, python -m bitepoint.releases retire FILE, then correct it."
            )
        return (
            f"{which}: its words changed {since}. If the meaning is the same: "
            f'python -m bitepoint.releases looked {self.exercise} --by NAME --why "…"'
        )


def take_samples(version: str = "", *, only: Collection[str] = ()) -> ReleaseSamples:
    """Draw every exercise (or some) in every revision for every standard car and return the digests."""
    return ReleaseSamples(
        version=version,
        bank=bank_digest(),
        sheets=sheets_edition(),
        samples={
            exercise.id: {revision: dict(_by_car(exercise, revision)) for revision in sorted(exercise.makers)}
            for exercise in exercises().values()
            if not only or exercise.id in only
        },
    )


def _by_car(exercise: Exercise, revision: int, edition: int = 0) -> Iterator[tuple[str, Digests]]:
    for car in STANDARD:
        drawn = [
            exercise.draw(
                class_word=CLASS_WORD, learner=who, turn=turn, revision=revision, vehicle=car, edition=edition
            )
            for who in LEARNERS
            for turn in TURNS
        ]
        yield car, _digests(drawn)


def _digests(drawn: Iterable[Question]) -> Digests:
    """Return the three digests; texts of the newest revision only say which revision it is by its own number."""
    questions = list(drawn)
    return (
        digest_of([q.facts() for q in questions]),
        digest_of([[q.words_digest(), _of_picture(q)[1]] for q in questions]),
        digest_of([_of_picture(q)[0] for q in questions]),
    )


def _of_picture(question: Question) -> tuple[str, str]:
    """Return the digests of a question's picture, of geometry and of words; "" where it has none."""
    if question.picture is None:
        return "", ""
    return _sampled_picture(question.picture.key, json.dumps(question.picture.parameters, sort_keys=True))


@lru_cache(maxsize=4096)
def _sampled_picture(key: str, parameters: str) -> tuple[str, str]:
    """Return two digests: of what a picture shows as figures, and of all that is written in it or said for it.

    Figures are places to point at, every number of the drawing, and what names a place or holds a number in its
    writing; no other words, no colours.
    """
    drawing: Drawing = draw_picture(key, **json.loads(parameters))
    places = [[r.key, r.shape, list(r.points)] for r in drawing.regions]
    # A plot is drawn by a library whose next version may place it otherwise; what it shows are its parameters.
    svg = drawing.content if isinstance(drawing.content, str) else ""
    lines = _NUMBERS.findall(_TEXT.sub(" ", svg))
    written = [text for text in map(str.strip, _WRITTEN.findall(svg)) if text]
    names = {r.key.casefold() for r in drawing.regions}
    labels = [text for text in written if text.casefold() in names or any(c.isdigit() for c in text)]
    return digest_of([places, lines, labels]), digest_of([written, drawing.alt, drawing.caption])


def changes_since(release: ReleaseSamples, looked: Mapping[tuple[str, int], str] = {}) -> list[Change]:
    """Return what is no longer drawn as in a release.

    `looked` holds, by exercise and revision, the digest of the words that a person found to mean the same.
    """
    known = exercises()
    found: list[Change] = []
    for id, revisions in release.samples.items():
        for revision, cars in revisions.items():
            exercise = known.get(id)
            now = _now(exercise, revision, release.sheets) if exercise and revision in exercise.makers else None
            found += _compared(release, id, revision, cars, now, looked.get((id, revision), ""))
    return found


def _now(exercise: Exercise, revision: int, sheets: int) -> dict[str, Digests] | None:
    try:
        return dict(_by_car(exercise, revision, sheets))
    except BitepointError:
        return None


def _compared(
    release: ReleaseSamples,
    id: str,
    revision: int,
    cars: Mapping[str, Digests],
    now: Mapping[str, Digests] | None,
    seen: str,
) -> Iterator[Change]:
    def change(kind: Literal["gone", "facts", "words"], which: Iterable[str], words: str = "") -> Change:
        return Change(
            exercise=id, revision=revision, kind=kind, release=release.version, cars=tuple(which), words=words
        )

    if now is None:
        yield change("gone", cars)
        return
    facts = [car for car, (f, _, g) in cars.items() if car not in now or (now[car][0], now[car][2]) != (f, g)]
    if facts:
        yield change("facts", facts)
        return
    words = [car for car, (_, w, _) in cars.items() if now[car][1] != w]
    all_words = words_of(now)
    if words and all_words != seen:
        yield change("words", words, all_words)


def words_of(cars: Mapping[str, Digests]) -> str:
    """Return one digest over the words of all cars: what a person has looked at."""
    return digest_of([cars[car][1] for car in sorted(cars)])


def words_now(exercise: str, revision: int, sheets: int) -> str:
    """Return that digest as the words are drawn now.

    Raises
    ------
    BadData
        There is no such exercise or revision.
    """
    known = exercises().get(exercise)
    if known is None or revision not in known.makers:
        raise BadData(f"There is no exercise {exercise[:60]!r} of revision {revision}. Look it up with: ask(…)")
    return words_of(dict(_by_car(known, revision, sheets)))


def write_release(path: Path, release: ReleaseSamples) -> None:
    """Write the samples, one line a revision, so that a change can be read in a comparison of files."""
    head = {"version": release.version, "bank": release.bank, "sheets": release.sheets}
    rows = [
        f"  {json.dumps(id)}: {{{', '.join(f'{json.dumps(str(n))}: {json.dumps(cars)}' for n, cars in revisions.items())}}}"
        for id, revisions in release.samples.items()
    ]
    text = json.dumps(head)[:-1] + ', "samples": {\n' + ",\n".join(rows) + "\n}}\n"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8", newline="\n")


def read_release(path: Path) -> ReleaseSamples:
    """Read the samples of a release.

    Raises
    ------
    BadData
        Names the file and what is wrong with it.
    """
    try:
        return msgspec.json.decode(path.read_bytes(), type=ReleaseSamples, strict=False)
    except (OSError, msgspec.MsgspecError, UnicodeDecodeError) as error:
        raise BadData(f"{path.name}: {error}. Take the file as it was released.") from None
