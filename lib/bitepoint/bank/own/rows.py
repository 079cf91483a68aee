"""What stands in a college's questions.toml, row by row. Forms, options, steps and rules are those of every forms file."""

from datetime import date
from typing import Literal, get_args, get_type_hints

import msgspec
from msgspec import Struct

from bitepoint.bank.forms.form import Form
from bitepoint.bank.forms.rows import FormOption, FormRule, FormsRow
from bitepoint.questions.facts import digest_of

Kind = Literal["choice", "several", "order", "number"]
KINDS: tuple[str, ...] = get_args(Kind)
RULE_KINDS: tuple[str, ...] = get_args(get_type_hints(FormRule)["kind"])


class OwnKind(Struct, frozen=True, kw_only=True):
    """What has to be known of a kind of own question: the parts of its forms, and how it gets its right answer.

    `options`: its parts are options; `one_right`: exactly one of them; `worked_out`: a calculator says what is right.
    """

    parts: tuple[str, ...] = ()
    options: bool = False
    one_right: bool = False
    worked_out: bool = False


OWN_KINDS: dict[str, OwnKind] = {
    "choice": OwnKind(parts=("option",), options=True, one_right=True),
    "several": OwnKind(parts=("option",), options=True),
    "order": OwnKind(parts=("item", "rule")),
    "number": OwnKind(worked_out=True),
}
NO_SOURCE = "common practice, no source"


class OwnFigure(FormsRow, frozen=True, kw_only=True):
    """One field of a calculator: a fixed figure, a range with its step, a list to draw from, or a figure of the class's car.

    `unit` is the one that it is printed in; without one it is the field's own, or that of the data sheet.
    """

    fixed: float | None = None
    low: float | None = msgspec.field(name="from", default=None)
    high: float | None = msgspec.field(name="to", default=None)
    step: float | None = None
    list: tuple[float, ...] = ()
    sheet: str = ""
    unit: str = ""


class OwnWithin(FormsRow, frozen=True, kw_only=True):
    """How far from the right figure an answer may lie: per cent of it, or so much in its unit."""

    percent: float | None = None
    absolute: float | None = None


class OwnMistake(FormsRow, frozen=True, kw_only=True):
    """A known mistake: the same calculator with other figures.

    `with_` puts a figure, or the figure of another field, in a field's place; `swap` swaps two fields; `taken_as` takes
    the bare figure of a field for one in another unit; `leave_out` leaves out fields that the calculator can do without.
    """

    key: str
    name: str
    says: str
    hurts: bool = False
    with_: dict[str, float | str] = msgspec.field(name="with", default={})
    swap: tuple[str, ...] = ()
    taken_as: dict[str, str] = {}
    leave_out: tuple[str, ...] = ()


class OwnQuestion(FormsRow, frozen=True, kw_only=True):
    """One question of the college's.

    `danger` says how somebody could be hurt by a mistake that is marked so; without such a mistake there is none.
    """

    topic: str
    kind: Kind
    title: str = ""
    minutes: float
    outcome: str
    source: str
    danger: str = ""
    shared: dict[str, FormOption] = {}
    form: tuple[Form, ...]
    calculator: str = ""
    unit: str | None = None
    within: OwnWithin | None = None
    decimals: int | None = None
    fields: dict[str, float | OwnFigure] = {}
    mistake: tuple[OwnMistake, ...] = ()

    @property
    def of_kind(self) -> OwnKind:
        """What has to be known of its kind."""
        return OWN_KINDS[self.kind]

    def figures(self) -> dict[str, OwnFigure]:
        """Return the fields by name; a bare figure is a fixed one."""
        return {k: v if isinstance(v, OwnFigure) else OwnFigure(fixed=v) for k, v in self.fields.items()}

    @property
    def sheet_paths(self) -> tuple[str, ...]:
        """The figures of a car's sheet that the question asks about."""
        return tuple(figure.sheet for figure in self.figures().values() if figure.sheet)


class OwnQuestions(FormsRow, frozen=True, kw_only=True):
    """A whole file: what it is called, who wrote it, the date of this edition, the questions in their order."""

    title: str
    author: str
    edition: date
    question: tuple[OwnQuestion, ...]

    def digest(self) -> str:
        """Return 16 hexadecimal digits over all that the file says; comments and line ends are no part of it."""
        return digest_of(msgspec.to_builtins(self))
