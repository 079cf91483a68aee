"""Typical wrong readings of each instrument: the wrong figure, the misconception, and what it leads to.

Every function takes the right reading in the instrument's own unit and gives the mistakes as they come;
`told_apart` keeps those that a marker can tell from the right figure and from each other.
"""

from collections.abc import Iterable, Sequence

from bitepoint.mechanics.scales import micrometer_setting, vernier_setting
from bitepoint.questions.number import Tolerance
from bitepoint.questions.question import Mistake


def told_apart(right: float, found: Iterable[Mistake], within: Tolerance) -> tuple[Mistake, ...]:
    """Return the mistakes whose figures, tolerances counted, meet neither the right one nor an earlier one."""
    kept: list[Mistake] = []
    taken = [(right, within.width(right))]
    for mistake in found:
        room = within.width(mistake.value)
        if all(abs(mistake.value - other) > 1.01 * (room + width) for other, width in taken):
            kept.append(mistake)
            taken.append((mistake.value, room))
    return tuple(kept)


def misread(value: float, name: str, says: str) -> Mistake:
    """Return the mistake of this wrong reading, its figure rounded as an instrument is read."""
    return Mistake(round(float(value), 4), name, says)


def vernier(value_mm: float, *, resolution: float) -> list[Mistake]:
    """Wrong readings of a vernier caliper.

    >>> [(m.value, m.name) for m in vernier(12.34, resolution=0.02)][:2]
    [(12.0, 'reads the main scale only'), (12.17, 'takes a line for a hundredth')]
    """
    main, line = vernier_setting(value_mm, least_count_mm=resolution)
    return [
        misread(
            main,
            "reads the main scale only",
            "You read the main scale alone. The line that meets gives the part of a millimetre. "
            "Without it two different shafts look alike.",
        ),
        misread(
            main + line / 100,
            "takes a line for a hundredth",
            "You took each line for a hundredth. A line counts what is printed on the slider. "
            "Every size comes out too small, and a good part is thrown away.",
        ),
        misread(
            value_mm + 1,
            "takes the millimetre after the zero",
            "You took the millimetre after the vernier's zero. The one before it counts. "
            "A whole millimetre too much lets a worn part pass.",
        ),
        misread(
            value_mm + resolution,
            "takes the line beside",
            "You took a line beside the one that meets. Its neighbours stand a little off. "
            "Close to a limit that one step decides the wrong way.",
        ),
    ]


def micrometer(value_mm: float) -> list[Mistake]:
    """Wrong readings of a micrometer with a pitch of half a millimetre.

    >>> [(m.value, m.name) for m in micrometer(12.66)]
    [(12.16, 'misses the half line'), (12.82, 'takes one turn for a millimetre'), (12.67, 'takes the mark beside')]
    """
    _, half, mark = micrometer_setting(value_mm)
    missed = misread(
        value_mm - 0.5,
        "misses the half line",
        "A half line stands uncovered below the long line. You left half a millimetre out, "
        "and a good plate looks worn.",
    )
    added = misread(
        value_mm + 0.5,
        "adds a half line",
        "No half line is uncovered after the last whole one. You added half a millimetre, and a worn plate looks good.",
    )
    return [
        missed if half else added,
        misread(
            value_mm + mark / 100,
            "takes one turn for a millimetre",
            "One turn of the thimble is half a millimetre. You counted each mark double. "
            "A worn plate then looks thick enough.",
        ),
        misread(
            value_mm + 0.01,
            "takes the mark beside",
            "You took a mark beside the long line. Look at it straight from the front. "
            "Close to a limit one mark decides the wrong way.",
        ),
    ]


def feeler(leaves_mm: Sequence[float], goes_mm: float, *, upper: bool) -> list[Mistake]:
    """Wrong bounds of a gap: `upper` asks for the leaf it stays below, otherwise for what it has at least.

    >>> [(m.value, m.name) for m in feeler([0.03, 0.05, 0.06, 0.07], 0.06, upper=False)]
    [(0.07, 'takes the leaf that does not go'), (0.13, 'adds the leaves'), (0.03, 'takes the first leaf that goes')]
    """
    stops = leaves_mm[list(leaves_mm).index(goes_mm) + 1]
    added = misread(
        goes_mm + stops,
        "adds the leaves",
        "You added two leaves. They add up only when they are pushed in together. A good flywheel goes to scrap.",
    )
    if upper:
        return [
            misread(
                goes_mm,
                "takes the leaf that goes for the bound above",
                "You took a leaf that goes. So the gap is at least as wide, and may be wider. "
                "A hollow flywheel could pass.",
            ),
            added,
            misread(
                leaves_mm[-1],
                "takes the thickest leaf of the set",
                "You took the thickest leaf. A thinner one stops already. "
                "The gap looks wider than it can be, and a good flywheel goes to scrap.",
            ),
        ]
    return [
        misread(
            stops,
            "takes the leaf that does not go",
            "You took a leaf that stops at the edge. So the gap is smaller. You may scrap a good flywheel.",
        ),
        added,
        misread(
            leaves_mm[0],
            "takes the first leaf that goes",
            "You took the thinnest leaf. Thicker ones go under as well. A hollow flywheel could pass.",
        ),
    ]
