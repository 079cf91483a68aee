"""The figures that are right for each learner, to look for copies: each is drawn in one process and known in the others."""

from collections.abc import Collection, Iterable
from typing import NamedTuple

from bitepoint.logbook.identity import key_of
from bitepoint.logbook.record import Record
from bitepoint.marking.class_cars import ClassCars
from bitepoint.marking.line_marking import Asked, MarkedLine, asked_in, drawn, drawn_once
from bitepoint.questions.kinds import interaction, kind_of
from bitepoint.questions.question import Question
from bitepoint.workshop.datafiles import DataFiles, data_files

_MOST_FIGURES = 65_536


class RightFigure(NamedTuple):
    """The figure that is right in a question, how far off still counts, and its unit."""

    answer: float
    width: float
    unit: str


Figures = dict[Asked, RightFigure | None]
"""Right figures by what was asked; None where it asks for none."""
_figures: dict[tuple[Asked, DataFiles], RightFigure | None] = {}
"""Those of all who answered: so small that those of a large class are kept."""


def figure_for(record: Record, cars: ClassCars, *, learner: str) -> RightFigure | None:
    """Return the figure that is right in what another learner got in the place of a line; None where it asks for none."""
    asked, files = asked_in(record, cars, learner=learner), data_files()
    if asked is None:
        return None
    try:
        return _figures[asked, files]
    except KeyError:
        return _keep(asked, files, figure_in(drawn_once(asked, files)))


def figures_of(marked: Iterable[MarkedLine], cars: ClassCars) -> Figures:
    """Return the right figures of the questions that these lines answer, and keep them: others' are compared with them later."""
    files, found = data_files(), Figures()
    for line in marked:
        if interaction(line.kind) != "numeric":
            continue
        asked = asked_in(line.record, cars)
        if asked is not None and asked not in found:
            found[asked] = _keep(asked, files, figure_in(drawn(asked)))
    return found


def keep_figures(figures: Figures) -> None:
    """Keep figures that another process drew from the data files in use here."""
    files = data_files()
    for asked, right in figures.items():
        _keep(asked, files, right)


def figures_known(words: Collection[str]) -> Figures:
    """Return the figures kept of the classes with these case-folded words, drawn from the data files in use."""
    now = data_files()
    return {
        asked: right for (asked, files), right in _figures.items() if files is now and key_of(asked.class_word) in words
    }


def figure_in(question: Question | None) -> RightFigure | None:
    """Return the figure that is right in a question, None where it asks for none."""
    found = kind_of(question).figure(question) if question else None
    return RightFigure(found.answer, found.within.width(found.answer), found.unit) if found else None


def _keep(asked: Asked, files: DataFiles, right: RightFigure | None) -> RightFigure | None:
    if len(_figures) >= _MOST_FIGURES:
        _figures.clear()
    _figures[asked, files] = right
    return right
