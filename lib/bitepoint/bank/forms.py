"""Forms of words: what choice, several, order and enquiry questions ask and say, read from each lesson's forms.toml.

A form holds text with named places to fill, `{like_this}`; Python draws the figures that fill them and works out what is
right. Every option, step and suspect has a key of its own, which stays when its words are bettered. The forms of an
exercise lie under the last part of its id::

    [tags]                                   # exercise safe.tags
    source = "hse-loler-6-months"

    [tags.shared.by-look]                    # an option that several forms offer
    text = "Use it: it looks strong and always held"
    name = "judges strength by its look"
    says = "An examination finds cracks that you cannot see. What gives way falls on you."
    hurts = true

    [[tags.form]]
    key = "overdue"
    ask = "Last thorough examination {late} months ago. {opened} is to go up. What do you do?"
    why = "Overdue means not used."
    step = "Who may say that a lift is sound?"
    offers = ["leave-it", "by-look"]         # keys in the order in which they are shuffled; left out: as written below
    needs = ["self-adjusting cover"]         # traits of the car it speaks of; a class without one gets the other forms

    [[tags.form.option]]
    key = "leave-it"
    text = "Leave it down, and report that it is overdue"
    right = true
"""

import re
from collections.abc import Mapping, Sequence
from pathlib import Path
from string import Formatter
from typing import Any, Literal

import msgspec
from msgspec import Struct

from bitepoint.errors import BadData, NotCovered
from bitepoint.questions.choice import Choice, Option, Several
from bitepoint.questions.draw import Draw
from bitepoint.questions.enquiry import Enquiry, Observation, Suspect
from bitepoint.questions.order import Before, Order
from bitepoint.workshop.datafiles import once_a_set
from bitepoint.workshop.reading import broken, check_sources, check_unique, read_toml
from bitepoint.workshop.traits import TRAITS

_KEY = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
Fill = Mapping[str, str | int]
"""What fills the places of a form: text, or a whole number; any other figure is written out by who draws it."""


class _Read(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """Base of what stands in a forms.toml: a misspelt key is an error."""


class FormOption(_Read, frozen=True, kw_only=True):
    """An option: its text, and when it is wrong (or left out of several) its mistake's name and what to say."""

    key: str = ""
    text: str
    right: bool = False
    name: str = ""
    says: str = ""
    hurts: bool = False


class FormStep(_Read, frozen=True, kw_only=True):
    """A step of an order."""

    key: str
    text: str


class FormRule(_Read, frozen=True, kw_only=True):
    """What must come before what, by the keys of the steps."""

    first: str
    then: str
    because: str
    kind: Literal["physical", "safety", "quality", "economy", "evidence"] = "quality"
    hurts: bool = False


class FormObservation(_Read, frozen=True, kw_only=True):
    """Something that can be asked for in an enquiry, and what it shows in this case."""

    key: str
    label: str
    shows: str


class FormSuspect(_Read, frozen=True, kw_only=True):
    """A possible cause with what each observation would show if it were this one."""

    key: str
    label: str
    shows: dict[str, str] = {}
    right: bool = False
    name: str = ""
    says: str = ""
    hurts: bool = False


class Form(_Read, frozen=True, kw_only=True):
    """One form of words of an exercise; `needs` are traits of the car of the class that it speaks of.

    `table` is shown with the question, its first row the headings, where its cells are words.
    """

    key: str
    ask: str
    why: str
    step: str
    solution: str = ""
    source: str = ""
    table: tuple[tuple[str, ...], ...] = ()
    needs: tuple[str, ...] = ()
    offers: tuple[str, ...] = ()
    option: tuple[FormOption, ...] = ()
    steps: tuple[FormStep, ...] = msgspec.field(name="item", default=())
    rule: tuple[FormRule, ...] = ()
    observation: tuple[FormObservation, ...] = ()
    suspect: tuple[FormSuspect, ...] = ()
    free: tuple[str, ...] = ()
    heads: tuple[str, str] = ("Condition", "What you see or hear")
    cause: str = "cause"

    def choice(self, draw: Draw, *, right: str = "", offers: Sequence[str] = (), **more: Any) -> Choice:
        """Return a choice of this form, its options in a drawn order.

        Parameters
        ----------
        right
            Key of the option that is right here, where the figures decide it; "" : the one marked right in the form.
        offers
            Keys of the options on offer, in the order in which they are shuffled; empty: as the form says.
        more
            `vehicle`, `table`, `picture` of the question; anything else fills a place of the form.

        Raises
        ------
        BadData
            A place is not filled, or there is not exactly one right option.
        """
        common, fill = _parted(more)
        options = self._options(draw, offers, fill, {right} if right else None)
        # An option that is wrong in other cases has a mistake of its own; where it is right, nobody makes it.
        options = [Option(o.text, True, key=o.key) if o.right else o for o in options]
        best = [o.text for o in options if o.right]
        if len(best) != 1:
            raise _wrong(draw, self.key, "one option must be right")
        words = self._words(draw, fill, best[0])
        return Choice(options=tuple(draw.shuffle(options)), **words, **common)

    def several(
        self, draw: Draw, *, right: Sequence[str] | None = None, offers: Sequence[str] = (), **more: Any
    ) -> Several:
        """Return the question with several right options, in a drawn order; parameters as for `choice`.

        In the solution `{right}` stands for the right options line by line, `{listed}` for them in one line.
        """
        common, fill = _parted(more)
        options = self._options(draw, offers, fill, None if right is None else set(right))
        best = [o.text for o in options if o.right]
        if not best:
            raise _wrong(draw, self.key, "one option at least must be right")
        words = self._words(draw, {**fill, "listed": "; ".join(best)}, "\n".join(best), solution="{right}")
        return Several(options=tuple(draw.shuffle(options)), **words, **common)

    def order(self, draw: Draw, *, steps: Sequence[str] = (), **more: Any) -> Order:
        """Return the order of this form; `steps` are the keys of those that are asked for, empty: all of them."""
        common, fill = _parted(more)
        texts = {item.key: self._filled(draw, item.text, fill) for item in self.steps}
        asked = tuple(steps) or tuple(texts)
        for key in asked:
            if key not in texts:
                raise _wrong(draw, self.key, f"has no step {key!r}")
        example = [texts[key] for key in asked]
        numbered = "\n".join(f"{i}. {text}" for i, text in enumerate(example, start=1))
        words = self._words(draw, {**fill, "first": example[0], "last": example[-1]}, numbered, solution="{right}")
        rules = [
            Before(
                texts[r.first], texts[r.then], self._filled(draw, r.because, fill), r.kind, r.hurts, (r.first, r.then)
            )
            for r in self.rule
            if r.first in asked and r.then in asked
        ]
        return Order.of(draw, example=example, rules=rules, keys=asked, **words, **common)

    def enquiry(self, draw: Draw, **more: Any) -> Enquiry:
        """Return the enquiry of this form, its suspects in a drawn order."""
        common, fill = _parted(more)
        suspects = [
            Suspect(
                s.key,
                self._filled(draw, s.label, fill),
                {k: self._filled(draw, v, fill) for k, v in s.shows.items()},
                s.right,
                self._filled(draw, s.name, fill),
                self._filled(draw, s.says, fill),
                s.hurts,
            )
            for s in self.suspect
        ]
        observations = [
            Observation(o.key, self._filled(draw, o.label, fill), self._filled(draw, o.shows, fill))
            for o in self.observation
        ]
        words = self._words(draw, fill, next(s.label for s in suspects if s.right))
        return Enquiry(
            observations=tuple(observations),
            suspects=tuple(draw.shuffle(suspects)),
            free=self.free,
            heads=self.heads,
            cause=self.cause,
            **words,
            **common,
        )

    def _options(self, draw: Draw, offers: Sequence[str], fill: Fill, right: set[str] | None) -> list[Option]:
        known = {option.key: option for option in self.option}
        keys = tuple(offers) or self.offers or tuple(known)
        for key in (*keys, *(right or ())):
            if key not in known or key not in keys:
                raise _wrong(draw, self.key, f"offers no option {key!r}")
        return [self._option(draw, known[key], fill, key in right if right is not None else None) for key in keys]

    def _option(self, draw: Draw, option: FormOption, fill: Fill, right: bool | None) -> Option:
        return Option(
            self._filled(draw, option.text, fill),
            option.right if right is None else right,
            self._filled(draw, option.name, fill),
            self._filled(draw, option.says, fill),
            option.hurts,
            option.key,
        )

    def _words(self, draw: Draw, fill: Fill, best: str, *, solution: str = "{right}. {why}") -> dict[str, Any]:
        why = self._filled(draw, self.why, fill)
        table = tuple(tuple(self._filled(draw, cell, fill) for cell in row) for row in self.table)
        return {
            **({"table": table} if table else {}),
            "form": self.key,
            "ask": self._filled(draw, self.ask, fill),
            "why": why,
            "step": self._filled(draw, self.step, fill),
            "solution": self._filled(draw, self.solution or solution, {**fill, "right": best, "why": why}),
            "source": self.source,
        }

    def _filled(self, draw: Draw, text: str, fill: Fill) -> str:
        if "{" not in text and "}" not in text:
            return text
        try:
            return text.format_map(fill)
        except KeyError as error:
            raise _wrong(draw, self.key, f"the place {{{error.args[0]}}} is not filled") from None


_COMMON = ("vehicle", "table", "picture")


def _parted(more: Mapping[str, Any]) -> tuple[dict[str, Any], dict[str, str | int]]:
    """Part what a question takes from what fills the places of its form."""
    fill = {name: value for name, value in more.items() if name not in _COMMON}
    for name, value in fill.items():
        if not isinstance(value, (str, int)):
            raise TypeError(f"{name} fills a place of a form and must be text or a whole number, not {value!r}")
    return {name: value for name, value in more.items() if name in _COMMON}, fill


class _Topic(_Read, frozen=True, kw_only=True):
    """The forms of one exercise; `revision` is that of the exercise which asks them."""

    source: str = "common-practice"
    shared: dict[str, FormOption] = {}
    form: tuple[Form, ...]


class Forms:
    """The forms of one exercise, in their order."""

    def __init__(self, forms: Sequence[Form]) -> None:
        self.forms = tuple(forms)
        self._by_key = {form.key: form for form in forms}

    def __getitem__(self, key: str) -> Form:
        if key not in self._by_key:
            raise BadData(f"There is no form {key!r} here. Choose one of {', '.join(self._by_key)}.")
        return self._by_key[key]

    def __len__(self) -> int:
        return len(self.forms)

    def drawn(self, draw: Draw) -> Form:
        """Return the form of this turn, of those that speak of no car which the class lacks; each next turn the next.

        Raises
        ------
        NotCovered
            The class has no car for any of them.
        """
        forms = [form for form in self.forms if draw.covers(*form.needs)]
        if not forms:
            raise NotCovered(f"no car of this class has: {', '.join(self.forms[0].needs)}")
        return forms[draw.form(len(forms))]


def forms_of(draw: Draw) -> Forms:
    """Return the forms of the exercise that is drawn, in its revision.

    Raises
    ------
    BadData
        Its lesson's forms.toml cannot be used, or has no such exercise.
    """
    lesson, _, topic = draw.exercise.partition(".")
    known = _lesson_forms(lesson)
    retired = f"{topic}.r{draw.revision}"
    found = known.get(retired) or known.get(topic)
    if found is None:
        raise BadData(f"{lesson}/forms.toml: has no exercise {topic!r}. Write its forms under [{topic}].")
    return found


def form_of(draw: Draw) -> Form:
    """Return the form of this turn of the exercise that is drawn."""
    return forms_of(draw).drawn(draw)


_FOLDER = Path(__file__).parent


@once_a_set
def _lesson_forms(lesson: str) -> dict[str, Forms]:
    """Return the forms of a lesson by topic, those of an older revision under `topic.rN`."""
    found = read_forms(_FOLDER / lesson / "forms.toml")
    older = _FOLDER / "retired" / f"{lesson}.toml"
    return {**found, **(read_forms(older) if older.exists() else {})}


def read_forms(path: Path) -> dict[str, Forms]:
    """Read a forms.toml.

    Raises
    ------
    BadData
        Names the file with its lesson's folder, the key and the rule.
    """
    try:
        return _read(path)
    except BadData as error:
        raise BadData(f"{path.parent.name}/{error}") from None


def _read(path: Path) -> dict[str, Forms]:
    topics = read_toml(path, dict[str, _Topic], what="forms file")
    check_sources(path, [(f"{name}.source", t.source) for name, t in topics.items()])
    return {name: Forms([_checked(path, name, topic, form) for form in topic.form]) for name, topic in topics.items()}


def _checked(path: Path, name: str, topic: _Topic, form: Form) -> Form:
    """Return a form with the shared options that it offers, when it keeps every rule."""
    where = f"{name}.{form.key}"
    shared = {key: msgspec.structs.replace(option, key=key) for key, option in topic.shared.items()}
    own = {option.key: option for option in form.option}
    needed = [key for key in form.offers if key not in own]
    for key in needed:
        if key not in shared:
            raise broken(path, f"{where}.offers", f"{key!r} is neither an option of the form nor shared")
    whole = msgspec.structs.replace(
        form, option=(*form.option, *(shared[key] for key in needed)), source=form.source or topic.source
    )
    check_sources(path, [(f"{where}.source", whole.source)])
    for rule, holds in _rules(topic, whole):
        if not holds:
            raise broken(path, where, rule, what="forms file")
    return whole


def _rules(topic: _Topic, form: Form) -> list[tuple[str, bool]]:
    keys = [k.key for group in (form.option, form.steps, form.observation, form.suspect) for k in group]
    steps = {item.key for item in form.steps}
    shows = {o.key for o in form.observation}
    return [
        ("a key is small letters, digits and hyphens", all(map(_KEY.fullmatch, (form.key, *keys)))),
        ("a key stands twice", len(set(keys)) == len(keys)),
        ("a form of this key stands twice", [f.key for f in topic.form].count(form.key) == 1),
        ("needs names a trait that no car can have", set(form.needs) <= set(TRAITS)),
        ("it has options, items with rules, or observations with suspects", bool(keys)),
        ("a wrong option needs name and says", all(o.right or (o.name and o.says) for o in form.option)),
        ("a rule names a step that is not there", all({r.first, r.then} <= steps for r in form.rule)),
        ("a step comes before itself", all(r.first != r.then for r in form.rule)),
        ("free names an observation that is not there", set(form.free) <= shows),
        ("a suspect shows an observation that is not there", all(set(s.shows) <= shows for s in form.suspect)),
        ("one suspect is right", not form.suspect or [s.right for s in form.suspect].count(True) == 1),
        ("a place is a plain name in braces, such as {weeks}", all(map(_plain_places, _texts(form)))),
    ]


def _texts(form: Form) -> list[str]:
    found = [form.ask, form.why, form.step, form.solution, *(cell for row in form.table for cell in row)]
    found += [text for o in form.option for text in (o.text, o.name, o.says)]
    found += [item.text for item in form.steps] + [r.because for r in form.rule]
    found += [text for o in form.observation for text in (o.label, o.shows)]
    return found + [text for s in form.suspect for text in (s.label, s.name, s.says, *s.shows.values())]


def _plain_places(text: str) -> bool:
    try:
        parts = list(Formatter().parse(text))
    except ValueError:
        return False
    return all(
        name is None or (name.isidentifier() and not spec and not conversion) for _, name, spec, conversion in parts
    )


def places_of(form: Form) -> set[str]:
    """Return the names of the places that a form wants filled."""
    return {name for text in _texts(form) for _, name, _, _ in Formatter().parse(text) if name}


def _wrong(draw: Draw, form: str, rule: str) -> BadData:
    lesson, _, topic = draw.exercise.partition(".")
    return BadData(f"{lesson}/forms.toml: {topic}.{form}: {rule}. Correct the form, or what fills it.")


__all__ = ["Form", "Forms", "check_unique", "form_of", "forms_of", "places_of", "read_forms"]
