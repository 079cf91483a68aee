"""Typical wrong readings of the dial gauge: one movement, the way between two stops, a whole turn."""

from collections.abc import Sequence

from bitepoint.bank.measure.readings import misread
from bitepoint.mechanics.metrology import run_out_mm
from bitepoint.questions.question import Mistake


def dial_gauge(value_mm: float, *, preload_mm: float) -> list[Mistake]:
    """Wrong readings of a dial gauge with a counter of turns; plus is plunger in.

    >>> [(m.value, m.name) for m in dial_gauge(1.07, preload_mm=1.0)][:2]
    [(0.07, 'overlooks the small hand'), (2.07, 'forgets where it was set')]
    """
    lost = "A whole millimetre is lost, and a worn part passes."
    missed = [
        misread(
            value_mm - 1,
            "overlooks the small hand",
            f"You read the large hand alone. The small hand has gone on by a whole turn. {lost}",
        )
    ]
    outward = [
        misread(
            value_mm + 1,
            "reads the outer scale the wrong way",
            "The outer scale counts inwards. The plunger came out, so the hand ran back. "
            "Read so, a small movement looks huge.",
        )
    ]
    return [
        *(missed if value_mm > 1 else outward if value_mm < 0 else []),
        misread(
            value_mm + preload_mm,
            "forgets where it was set",
            "You gave what the hands show now. Take off what they showed when it was set. "
            "Otherwise a sound bearing looks worn out.",
        ),
        misread(
            -value_mm,
            "turns the sign round",
            "You turned the sign round. Plunger in is plus, plunger out is minus. "
            "A high spot is then taken for a low one.",
        ),
        misread(
            value_mm * 10,
            "takes a line for a tenth",
            "You took a line for a tenth. The dial says it: one line is a hundredth. "
            "Ten times as much sends a good part to scrap.",
        ),
    ]


def between_stops(first_lines: float, second_lines: float) -> list[Mistake]:
    """Wrong figures for the way of a shaft between two stops, from the large hand's lines at each.

    >>> [(m.value, m.name) for m in between_stops(85, 7)]
    [(0.07, 'takes the second reading alone'), (0.78, 'goes the long way round'), (0.92, 'adds instead of taking away')]
    """
    return [
        misread(
            second_lines / 100,
            "takes the second reading alone",
            "You took the second stop alone. At the first stop the hand did not stand on nought. "
            "A sound bearing looks worn, or a worn one passes.",
        ),
        misread(
            max(abs(second_lines - first_lines), 100 - abs(second_lines - first_lines)) / 100,
            "goes the long way round",
            "You went the long way round the dial. The small hand hardly moved, so the short way counts. "
            "A sound engine would be taken apart.",
        ),
        misread(
            (first_lines + second_lines) / 100,
            "adds instead of taking away",
            "You added both stops. The way from one to the other is a difference. A sound engine would be taken apart.",
        ),
    ]


def sweep(held_mm: Sequence[float], *, loose_mm: Sequence[float]) -> list[Mistake]:
    """Wrong run-outs from a sweep: readings with the crankshaft pushed to one side, and with its end float let in.

    >>> found = sweep([-0.03, 0.05, 0.02], loose_mm=[-0.03, 0.11, 0.02])
    >>> [(m.value, m.name) for m in found][:2]
    [(0.14, 'lets end float in'), (0.05, 'takes the highest reading alone')]
    """
    high, low = max(held_mm), min(held_mm)
    return [
        misread(
            run_out_mm(loose_mm),
            "lets end float in",
            "The crankshaft moved in its end float while you read. That went into your figure. "
            "A true flywheel is blamed, or a bad one is hidden.",
        ),
        misread(
            high,
            "takes the highest reading alone",
            "You took the highest reading alone. Where zero was set is chance. "
            "Only the whole swing of the hand counts, or the figure means nothing.",
        ),
        misread(
            (high - low) / 2,
            "halves it",
            "You halved it. Run-out is the full swing; half of it is how far the centre is off. "
            "Halved, a face twice over the limit passes.",
        ),
        misread(
            abs(high + low),
            "drops the minus sign",
            "You dropped a minus sign. That reading lies on the other side of nought. "
            "The swing comes out too small, and the clutch judders.",
        ),
    ]
