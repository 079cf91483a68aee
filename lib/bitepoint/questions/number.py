"""A number with its unit, within a tolerance."""

from typing import Any

from msgspec import Struct

from bitepoint import units
from bitepoint.errors import NotUnderstood
from bitepoint.questions.facts import plain
from bitepoint.questions.question import Answer, Mistake, Question, Verdict, shown_number

_TOO_LARGE = 10**12
"""From here on a number has more digits than can be read back; a huge whole number would not fit a float."""


class Tolerance(Struct, frozen=True):
    """How far from the right figure an answer may lie: `relative` is a share of it, `absolute` in its unit."""

    relative: float = 0.0
    absolute: float = 0.0

    def width(self, value: float) -> float:
        """Return the half-width of the accepted band round `value`."""
        return max(abs(value) * self.relative, self.absolute) + 1e-9


def percent(share: float) -> Tolerance:
    """Return a tolerance of so many per cent of the right figure."""
    return Tolerance(relative=share / 100)


def plus_minus(width: float) -> Tolerance:
    """Return a tolerance of so much to either side, in the unit of the answer."""
    return Tolerance(absolute=width)


class Number(Question, frozen=True, kw_only=True):
    """Asks for `answer` in `unit`; any unit of the same dimension is accepted and converted."""

    answer: float
    unit: str
    within: Tolerance
    mistakes: tuple[Mistake, ...]
    decimals: int | None = None

    def read(self, answer: object) -> Answer:
        self._value(answer)
        if isinstance(answer, (tuple, list)):
            return ",".join(str(part) for part in answer)
        return answer.strip() if isinstance(answer, str) else shown_exactly(answer)

    def _value(self, answer: object) -> float:
        if isinstance(answer, (int, float)) and abs(answer) >= _TOO_LARGE:
            raise NotUnderstood("That number is too large to be meant. Write a number and its unit, such as 12.5 N·m.")
        typed = units.quantity(answer)
        unit = typed.unit
        if unit is None or unit == self.unit:
            return typed.value
        if units.dimension_of(unit) != units.dimension_of(self.unit):
            meant = f"in {self.unit}" if self.unit else "without a unit"
            raise NotUnderstood(f"{unit or 'A plain number'} does not measure what is asked. Answer {meant}.")
        return units.convert(typed.value, unit, self.unit)

    def mark(self, answer: object) -> Verdict:
        value = self._value(answer)
        understood = self._with_unit(value)
        if abs(value - self.answer) <= self.within.width(self.answer):
            return Verdict(1.0, understood, self.why, f"{understood} is within tolerance of {self._shown()}.")
        for mistake in self.mistakes:
            if abs(value - mistake.value) <= self.within.width(mistake.value):
                reason = f"{understood} instead of {self._shown()}: {mistake.name}."
                return Verdict(0.0, understood, mistake.says, reason, (mistake.name,), mistake.critical)
        hint = "Not the figure that the data give. Go through the working once more, unit by unit."
        return Verdict(0.0, understood, hint, f"{understood} instead of {self._shown()}.")

    def right_answer(self) -> Answer:
        return f"{units.unambiguous(f'{self.answer:.6g}')} {self.unit}".strip()

    def own_facts(self) -> dict[str, Any]:
        # Worked out, nearly all of them: rounded one by one, so that not every fact is looked at for the sake of these.
        return {
            "answer": plain(self.answer),
            "unit": self.unit,
            "within": [plain(self.within.relative), plain(self.within.absolute)],
            "mistakes": [[m.stable_key, plain(m.value), m.critical] for m in self.mistakes],
        }

    def known_mistakes(self) -> list[tuple[Answer, str]]:
        return [(f"{units.unambiguous(f'{m.value:.6g}')} {self.unit}".strip(), m.name) for m in self.mistakes]

    def _with_unit(self, value: float) -> str:
        return f"{shown_number(value)} {self.unit}".strip()

    def _shown(self) -> str:
        return f"{shown_number(self.answer, self.decimals)} {self.unit}".strip()


def shown_exactly(answer: object) -> str:
    """Return a number as text that can be read back: plain digits, no exponent, twelve decimals at most."""
    if not isinstance(answer, float):
        return str(answer)
    return units.unambiguous(f"{answer:.12f}".rstrip("0").rstrip("."))
