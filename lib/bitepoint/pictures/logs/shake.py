"""How strongly the car shakes while it moves off, by frequency or by turns of engine, gearbox input or slip."""

from collections.abc import Mapping, Sequence
from math import sqrt
from typing import Any

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import one_of
from bitepoint.pictures import plotting
from bitepoint.pictures.axes import round_up
from bitepoint.pictures.canvas import BLUE, INK, METAL, SKY
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.workshop.roadtest_verdict import spectrum
from bitepoint.workshop.roadtests import road_test
from bitepoint.workshop.simulator import Log
from bitepoint.workshop.vehicles import vehicle

Points = Sequence[tuple[float, float]]
REFERENCES = {
    "time": ("shakes in a second, Hz", 2.0, 30.0, 0.25),
    "slip": ("shakes, per turn of slip", 0.2, 4.0, 0.04),
    "engine": ("shakes, per turn of the engine", 0.2, 4.0, 0.04),
    "input": ("shakes, per turn of the input", 0.2, 4.0, 0.04),
}
"""Words of the level axis, lowest and highest place, and step from place to place."""
JUDDER_HZ = (5.0, 20.0)
"""Where take-up judder lies (source: applied-sciences-2019-4287)."""


@picture("order-spectrum")
def order_spectrum(*, name: str = "b-6", references: Sequence[str] = ("time",)) -> Drawing:
    """How high the shake of moving off is at each frequency ("time") or order of "slip", "engine" or "input".

    Parameters
    ----------
    name : str
        Name of the log.
    references : sequence of str
        One or two of REFERENCES, drawn beside each other on one scale of height.
    """
    if not 1 <= len(set(references)) == len(references) <= 2:
        raise OutOfRange("references", "one or two different ones", ", ".join(references) or "none", "Name one.")
    for reference in references:
        one_of("reference", reference, tuple(REFERENCES), "Say in whose turns the shake is counted.")
    log = road_test(name)
    shaken = sqrt(sum(s.vibration_g**2 for s in log.shake) / len(log.shake))
    return drawn_apart(
        {reference: _taken_apart(log, reference) for reference in references},
        opening=f"Shake of road test {name}, {vehicle(log.vehicle).name}, while moving off, taken apart. The whole shake is {shaken:.3f} g r.m.s.",
        caption=f"How strongly the car shakes while it moves off. Road test {name}, {vehicle(log.vehicle).name}.",
    )


def drawn_apart(taken: Mapping[str, Points], *, opening: str, caption: str) -> Drawing:
    """Draw (frequency or order, height) of each reference beside each other on one scale of height."""
    top = round_up(max(0.05, 1.05 * max(height for points in taken.values() for _, height in points)))
    figure = plotting.figure(3.8)
    for i, (reference, points) in enumerate(taken.items(), start=1):
        words, high = REFERENCES[reference][0], round(points[-1][0], 6)
        axes = figure.add_subplot(1, len(taken), i)
        plotting.dress(axes, words, "shake, g" if i == 1 else "")
        axes.plot([x for x, _ in points], [y for _, y in points], color=BLUE, linewidth=2.6, gid=reference)
        axes.fill_between([x for x, _ in points], [y for _, y in points], color=SKY, alpha=0.5, linewidth=0)
        axes.set(xlim=(0, high), ylim=(0, top))
        _mark(axes, reference, top)
    told = " ".join(_told(reference, points) for reference, points in taken.items())
    return Drawing(content=plotting.png(figure), alt=f"{opening} {told}", caption=caption)


def _mark(axes: Any, reference: str, top: float) -> None:
    """Mark where a shake of that kind would stand, whatever is found there: at 5 to 20 a second, or once in each turn."""
    if reference == "time":
        axes.axvspan(*JUDDER_HZ, color=METAL, alpha=0.6, zorder=0)
        axes.text(sum(JUDDER_HZ) / 2, top * 0.9, "5 to 20 a second", ha="center", fontsize=15)
        return
    axes.axvline(1, color=INK, linewidth=1.6, linestyle=(0, (5, 4)), zorder=1)
    axes.text(1.08, top * 0.9, "once in each turn", fontsize=15)


def _taken_apart(log: Log, reference: str) -> list[tuple[float, float]]:
    _, low, high, step = REFERENCES[reference]
    return spectrum(log, reference, low=low, high=high, step=step)  # type: ignore[arg-type]


def _told(reference: str, points: Sequence[tuple[float, float]]) -> str:
    words, low, high = REFERENCES[reference][0], points[0][0], points[-1][0]
    heights = "; ".join(f"{place:.3g}: {height:.3f}" for place, height in _every(points, 14))
    marked = "Shaded: 5 to 20 a second." if reference == "time" else "Dashed: once in each turn."
    return f"Height in g against {words}, {low:g} to {high:g}; largest in each part, {heights}. {marked}"


def _every(points: Sequence[tuple[float, float]], parts: int) -> list[tuple[float, float]]:
    """Cut the spectrum into so many parts and return the largest point of each."""
    size = -(-len(points) // parts)
    return [max(points[i : i + size], key=lambda p: p[1]) for i in range(0, len(points), size)]
