"""What every kind of question has in common: words, picture, source, verdict."""

from collections.abc import Iterable
from itertools import chain
from typing import Any, ClassVar

import msgspec
from msgspec import Struct

from bitepoint.questions.facts import digest_of, digest_of_plain, figures_in, key_from, plain

_OF_A_COLLEGE = ("sheet_figures", "own_file")
Answer = str | list[Any]
"""An answer as a logbook line holds it: text, or a list of texts, numbers and lists."""


class Picture(Struct, frozen=True, gc=False):
    """A picture named by its key, with the parameters to draw it."""

    key: str
    parameters: dict[str, Any] = {}


class Mistake(Struct, frozen=True):
    """A typical wrong answer.

    `name` is the misconception in a few words (statistics count it), `says` what the learner reads: the misconception
    and its consequence. `critical`: done on a car it would hurt someone or let a part come loose. `key` names it for
    good where its words are bettered after a release; without one it is made from the name.
    """

    value: Any
    name: str
    says: str
    critical: bool = False
    key: str = ""

    @property
    def stable_key(self) -> str:
        """The key given, else one made from the name."""
        return self.key or key_from(self.name)


class Verdict(Struct, frozen=True, gc=False):
    """How an answer was marked.

    `mistake` is the first name in `mistakes`; `feedback` is what the learner reads; `advice` goes beside a right or
    wrong answer without changing the score; `reason` is one sentence for the assessor. `dangers` are the names among `mistakes`
    that are critical, where there may be several.
    """

    score: float
    understood: str
    feedback: str
    reason: str
    mistakes: tuple[str, ...] = ()
    critical: bool = False
    advice: tuple[str, ...] = ()
    dangers: tuple[str, ...] = ()

    @property
    def right(self) -> bool:
        """Whether the answer is fully right."""
        return self.score >= 1

    @property
    def mistake(self) -> str | None:
        """Name of the first mistake, or None."""
        return self.mistakes[0] if self.mistakes else None

    @property
    def named_dangers(self) -> tuple[str, ...]:
        """Names of the critical mistakes; of a kind that lists none, the first mistake of a critical answer."""
        return self.dangers or (self.mistakes[:1] if self.critical else ())


class Question(Struct, frozen=True, kw_only=True, gc=False):
    """One exercise drawn for one learner and turn.

    `step` is the next step worked with the learner's figures (shown at the second miss), `solution` the worked
    solution (third miss), `why` the reason the right answer is right. `table` is a small table shown with the
    question, its first row the headings; with `table_under` it repeats the picture and is folded under those words on
    a live page. `vehicle` is the letter of a training vehicle whose figures appear, `edition`
    that of its sheet, `own_vehicle` the learner's car, `sheets` the edition of the set of sheets, `sheet_figures` the digest of the figures of a college's own sheet,
    `own_file` that of its file of own questions, `form` the key of the form of words it was made from,
    `typed_as` a sentence on how to write the answer for who types it. What the
    exercise says of itself (`exercise`, `revision`, `beyond`) is filled in when it is drawn.
    """

    SCORING: ClassVar[int] = 1
    kind: ClassVar[str] = "question"
    """Kind of question in lower case: number, choice, several, order, tightening, region."""
    tries_allowed: ClassVar[int] = 3
    """Misses after which the solution is shown and the turn closes."""

    def __init_subclass__(cls) -> None:
        # Asked for in every mark: said once a class.
        if "kind" not in cls.__dict__:
            cls.kind = cls.__name__.lower()

    ask: str
    why: str
    source: str
    step: str = ""
    solution: str = ""
    table: tuple[tuple[str, ...], ...] = ()
    table_under: str = ""
    picture: Picture | None = None
    vehicle: str = ""
    form: str = ""
    typed_as: str = ""
    exercise: str = ""
    revision: int = 0
    beyond: bool = False
    edition: int = 0
    own_vehicle: str = ""
    sheets: int = 0
    sheet_figures: str = ""
    own_file: str = ""

    def read(self, answer: object) -> Answer:
        """Return the answer in the form a logbook line holds.

        Raises
        ------
        NotUnderstood
            Says how to write it.
        """
        raise TypeError("a kind of question must say how it reads an answer")

    def mark(self, answer: object) -> Verdict:
        """Return the verdict on an answer, as typed or as read from a logbook line.

        Raises
        ------
        NotUnderstood
            The answer cannot be read.
        """
        raise TypeError("a kind of question must say how it is marked")

    def right_answer(self) -> Answer:
        """Return one answer that is fully right."""
        raise TypeError("a kind of question must know a right answer")

    def known_mistakes(self) -> list[tuple[Answer, str]]:
        """Return wrong answers, each with the name of the mistake it must match."""
        raise TypeError("a kind of question must know its mistakes")

    def offered_texts(self) -> Iterable[str]:
        """Return what is read beside the question: options, steps, cards, places, what is seen. Its figures are facts."""
        return ()

    def own_facts(self) -> dict[str, Any]:
        """Return the facts of this kind, as `plain` makes them: right answer, tolerance, keys in the order shown, rules, dangers."""
        raise TypeError("a kind of question must name its facts")

    def facts(self) -> dict[str, Any]:
        """Return all that decides the mark, as plain values.

        Options, steps and mistakes stand as keys, and figures of the words as figures. `scoring` counts the rules by
        which answers of this kind are scored.
        """
        texts = [self.ask, *self.offered_texts()]
        if self.table:
            texts.extend(chain.from_iterable(self.table))
        found: dict[str, Any] = {
            "exercise": self.exercise,
            "revision": self.revision,
            "beyond": self.beyond,
            "kind": self.kind,
            "scoring": self.SCORING,
            "tries": self.tries_allowed,
            "form": self.form,
            "vehicle": self.vehicle,
            "edition": self.edition,
            "figures": figures_in(texts),
            "picture": [self.picture.key, plain(self.picture.parameters)] if self.picture else None,
        }
        # Only where there is one: the facts of what the course ships stay as they are.
        if self.sheet_figures:
            found["sheet"] = self.sheet_figures
        if self.own_file:
            found["own_file"] = self.own_file
        found.update(self.own_facts())
        return found

    def facts_digest(self) -> str:
        """Return 16 hexadecimal digits over the facts."""
        return digest_of_plain(self.facts())

    def words_digest(self) -> str:
        """Return 16 hexadecimal digits over everything the learner may come to read."""
        words = {"kind": self.kind, **msgspec.to_builtins(self)}
        # Those of what the course ships stay as they were before a college could bring its own.
        return digest_of({key: value for key, value in words.items() if value or key not in _OF_A_COLLEGE})


def shown_number(value: float, decimals: int | None = None) -> str:
    """Return a figure as a learner reads it: plain digits, at most four significant decimals, no exponent."""
    if decimals is not None:
        return f"{value:.{decimals}f}"
    if value == int(value) and abs(value) < 1e15:
        return str(int(value))
    return f"{value:.4g}" if 0.001 <= abs(value) < 10000 else f"{value:.0f}"
