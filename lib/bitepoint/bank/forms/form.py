"""One form of words, and the question that is made of it once its places are filled."""

from collections.abc import Mapping, Sequence
from functools import cached_property
from string import Formatter
from typing import Any

import msgspec

from bitepoint.bank.forms.places import parted, wrong_form
from bitepoint.bank.forms.rows import Fill, FormObservation, FormOption, FormRule, FormsRow, FormStep, FormSuspect
from bitepoint.errors import BadData
from bitepoint.questions.choice import Choice, Option, Several
from bitepoint.questions.draw import Draw
from bitepoint.questions.enquiry import Enquiry, Observation, Suspect
from bitepoint.questions.number import Number, Tolerance
from bitepoint.questions.order import Before, Order
from bitepoint.questions.question import Mistake

_MOST_READY = 64
"""Choices that a form keeps put together: what is on offer may be drawn."""


class Form(FormsRow, frozen=True, kw_only=True, dict=True):
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

    @cached_property
    def _known(self) -> dict[str, FormOption]:
        return {option.key: option for option in self.option}

    @cached_property
    def _as_written(self) -> frozenset[str]:
        """The texts in which no place is to be filled."""
        return frozenset(text for text in form_texts(self) if "{" not in text and "}" not in text)

    @cached_property
    def _words_as_written(self) -> dict[str, Any]:
        """The words of every question of this form that are the same in every draw."""
        every = {"form": self.key, "source": self.source, "ask": self.ask, "why": self.why, "step": self.step}
        return {name: text for name, text in every.items() if (name, text) not in self._words_to_fill}

    @cached_property
    def _words_to_fill(self) -> tuple[tuple[str, str], ...]:
        each = (("ask", self.ask), ("why", self.why), ("step", self.step))
        return tuple((name, text) for name, text in each if text not in self._as_written)

    @cached_property
    def _offered(self) -> tuple[FormOption, ...]:
        """What is on offer where nobody says otherwise."""
        return tuple(self._known[key] for key in self.offers) or self.option

    @cached_property
    def _ready(self) -> dict[tuple[str, bool, bool], Option]:
        """Options without a place to fill, by key, whether they are right and alone: the same in every draw, so made once."""
        return {}

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
        common, fill = parted(more)
        asked = (right, *offers)
        options, best = self._ready_choices.get(asked) or self._choice_of(draw, right, offers, fill)
        words = self._words(draw, fill, best) if fill else self._words_alone(draw, best)
        return Choice(options=tuple(draw.shuffle(options)), **words, **common)

    @cached_property
    def _ready_choices(self) -> dict[tuple[str, ...], tuple[tuple[Option, ...], str]]:
        """Options of a choice without a place to fill and the right one's text, by what was asked for: made once."""
        return {}

    def _choice_of(self, draw: Draw, right: str, offers: Sequence[str], fill: Fill) -> tuple[tuple[Option, ...], str]:
        """Return the options of a choice in the order of the form, and the text of the right one."""
        options = tuple(self._options(draw, offers, fill, (right,) if right else None, alone=True))
        best = [o.text for o in options if o.right]
        if len(best) != 1:
            raise wrong_form(draw, self.key, "one option must be right")
        ready, known = self._ready, self._ready_choices
        if len(known) < _MOST_READY and all(ready.get((o.key, o.right, True)) is o for o in options):
            known[right, *offers] = options, best[0]
        return options, best[0]

    def several(
        self, draw: Draw, *, right: Sequence[str] | None = None, offers: Sequence[str] = (), **more: Any
    ) -> Several:
        """Return the question with several right options, in a drawn order; parameters as for `choice`.

        In the solution `{right}` stands for the right options line by line, `{listed}` for them in one line.
        """
        common, fill = parted(more)
        options = self._options(draw, offers, fill, right)
        best = [o.text for o in options if o.right]
        if not best:
            raise wrong_form(draw, self.key, "one option at least must be right")
        fill["listed"] = "; ".join(best)
        words = self._words(draw, fill, "\n".join(best), solution="{right}")
        return Several(options=tuple(draw.shuffle(options)), **words, **common)

    def order(self, draw: Draw, *, steps: Sequence[str] = (), **more: Any) -> Order:
        """Return the order of this form; `steps` are the keys of those that are asked for, empty: all of them."""
        common, fill = parted(more)
        texts, rules = self._whole_order or self._filled_order(draw, fill)
        asked = tuple(steps) or tuple(texts)
        for key in asked:
            if key not in texts:
                raise wrong_form(draw, self.key, f"has no step {key!r}")
        if steps:
            rules = tuple(rule for rule in rules if rule.keys[0] in asked and rule.keys[1] in asked)
        example = [texts[key] for key in asked]
        numbered = "\n".join(f"{i}. {text}" for i, text in enumerate(example, start=1))
        fill["first"], fill["last"] = example[0], example[-1]
        words = self._words(draw, fill, numbered, solution="{right}")
        return Order.of(draw, example=example, rules=rules, keys=asked, **words, **common)

    @cached_property
    def _whole_order(self) -> tuple[dict[str, str], tuple[Before, ...]] | None:
        """The text of each step and the rules; None where a place of theirs is filled in each draw."""
        texts = {item.key: item.text for item in self.steps}
        if not self._as_written.issuperset((*texts.values(), *(rule.because for rule in self.rule))):
            return None
        return texts, tuple(_before(rule, texts, rule.because) for rule in self.rule)

    def _filled_order(self, draw: Draw, fill: Fill) -> tuple[dict[str, str], tuple[Before, ...]]:
        texts = {item.key: self._filled(draw, item.text, fill) for item in self.steps}
        return texts, tuple(_before(rule, texts, self._filled(draw, rule.because, fill)) for rule in self.rule)

    def enquiry(self, draw: Draw, **more: Any) -> Enquiry:
        """Return the enquiry of this form, its suspects in a drawn order."""
        common, fill = parted(more)
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

    def number(
        self,
        draw: Draw,
        *,
        shown: str,
        answer: float,
        unit: str,
        within: Tolerance,
        mistakes: Sequence[Mistake],
        decimals: int | None = None,
        **more: Any,
    ) -> Number:
        """Return the number of this form; `shown` is the right figure with its unit, and fills `{answer}`."""
        common, fill = parted(more)
        # A reason that says the figure itself is the solution: before it the figure would stand twice.
        solution = "{why}" if "{answer}" in self.why else "{right}. {why}"
        fill["answer"] = shown
        words = self._words(draw, fill, shown, solution=solution)
        return Number(
            answer=answer, unit=unit, within=within, mistakes=tuple(mistakes), decimals=decimals, **words, **common
        )

    def _options(
        self, draw: Draw, offers: Sequence[str], fill: Fill, right: Sequence[str] | None, *, alone: bool = False
    ) -> list[Option]:
        """Return the options on offer; `right` are the keys of those that are right, None: as the form says."""
        known, ready = self._known, self._ready
        for key in (*offers, *(right or ())):
            if key not in known:
                raise wrong_form(draw, self.key, f"offers no option {key!r}")
        options = []
        for option in map(known.__getitem__, offers) if offers else self._offered:
            is_right = option.right if right is None else option.key in right
            made = ready.get((option.key, is_right, alone))
            options.append(made or self._option(draw, option, fill, is_right, alone))
        if right:
            on_offer = {option.key for option in options}
            for key in right:
                if key not in on_offer:
                    raise wrong_form(draw, self.key, f"offers no option {key!r}")
        return options

    def _option(self, draw: Draw, option: FormOption, fill: Fill, right: bool, alone: bool) -> Option:
        text = self._filled(draw, option.text, fill)
        # An option that is wrong in other cases has a mistake of its own; where it alone is right, nobody makes it.
        if right and alone:
            made, as_written = Option(text, True, key=option.key), text == option.text
        else:
            name, says = self._filled(draw, option.name, fill), self._filled(draw, option.says, fill)
            made = Option(text, right, name, says, option.hurts, option.key)
            as_written = (text, name, says) == (option.text, option.name, option.says)
        if as_written:
            self._ready[option.key, right, alone] = made
        return made

    @cached_property
    def _known_words(self) -> dict[str, dict[str, Any]]:
        """The words of a choice in which no figure is filled, by the option that is right: the same in every draw, so made once."""
        return {}

    def _words_alone(self, draw: Draw, best: str) -> dict[str, Any]:
        known = self._known_words
        return known.get(best) or known.setdefault(best, self._words(draw, {}, best))

    def _words(
        self, draw: Draw, fill: dict[str, Any], best: str, *, solution: str = "{right}. {why}"
    ) -> dict[str, Any]:
        """Return the words of a question; places of the solution alone are the right answer and the reason."""
        words = self._words_as_written.copy()
        try:
            for name, text in self._words_to_fill:
                words[name] = text.format_map(fill)
        except KeyError as error:
            raise self._not_filled(draw, error) from None
        if self.table:
            words["table"] = tuple(tuple(self._filled(draw, cell, fill) for cell in row) for row in self.table)
        fill["right"], fill["why"] = best, words["why"]
        words["solution"] = self._filled(draw, self.solution or solution, fill)
        return words

    def _filled(self, draw: Draw, text: str, fill: Fill) -> str:
        if text in self._as_written:
            return text
        try:
            return text.format_map(fill)
        except KeyError as error:
            raise self._not_filled(draw, error) from None

    def _not_filled(self, draw: Draw, error: KeyError) -> BadData:
        return wrong_form(draw, self.key, f"the place {{{error.args[0]}}} is not filled")


def _before(rule: FormRule, texts: Mapping[str, str], because: str) -> Before:
    return Before(texts[rule.first], texts[rule.then], because, rule.kind, rule.hurts, (rule.first, rule.then))


def form_texts(form: Form) -> list[str]:
    found = [form.ask, form.why, form.step, form.solution, *(cell for row in form.table for cell in row)]
    found += [text for o in form.option for text in (o.text, o.name, o.says)]
    found += [item.text for item in form.steps] + [r.because for r in form.rule]
    found += [text for o in form.observation for text in (o.label, o.shows)]
    return found + [text for s in form.suspect for text in (s.label, s.name, s.says, *s.shows.values())]


def places_of(form: Form) -> set[str]:
    """Return the names of the places that a form wants filled."""
    return {name for text in form_texts(form) for _, name, _, _ in Formatter().parse(text) if name}
