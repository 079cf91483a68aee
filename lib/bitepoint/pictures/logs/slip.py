"""Plot of a road-test log: engine speed against wheel speed, with the line of each gear."""

from collections.abc import Sequence
from itertools import groupby
from typing import TYPE_CHECKING

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import within
from bitepoint.pictures import plotting
from bitepoint.pictures.axes import round_up
from bitepoint.pictures.canvas import BLUE, INK, VERMILLION
from bitepoint.pictures.logs.channels import between
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.workshop.figures import road_speed_kmh
from bitepoint.workshop.roadtests import road_test
from bitepoint.workshop.simulator import Sample
from bitepoint.workshop.vehicles import vehicle

if TYPE_CHECKING:
    from matplotlib.axes import Axes

Points = list[tuple[Sample, float]]
_MARKS = {
    "driven wheels, less throttle": ("o", BLUE, "white"),
    "driven wheels, full throttle": ("s", VERMILLION, VERMILLION),
    "wheels not driven, full throttle": ("x", INK, INK),
}
"""Marker, edge and fill of each group: the shape alone tells them apart."""


@picture("slip-plot")
def slip_plot(*, name: str = "b-5", from_s: float = 0, to_s: float = 120, dial: float = 1.0) -> Drawing:
    """Engine speed against wheel speed, a point each 0.2 s with the clutch pedal up, and the sheet's gear lines.

    Of less throttle the first 1.5 s after full throttle are left out: engine and gearbox are still settling.

    Parameters
    ----------
    name : str
        Name of the log.
    from_s, to_s : float
        Part of the log, 0 to 600 s.
    dial : float
        What the logger writes down for each km/h that the wheels really do, 0.8 to 1.2; not 1 when it was set for
        another size of tyre.
    """
    log = road_test(name)
    within("dial", dial, 0.8, 1.2, "", "1 is a logger set for the tyre of the sheet.")
    part = [s for s in between(log.samples, from_s, to_s) if s.gear and s.pedal_pct < 5]
    if not part:
        raise OutOfRange("from_s", "where the car is driven with the pedal up", f"{from_s:g} s", "Take another part.")
    figure = plotting.figure(5.3, top_in=0.95)
    axes = figure.add_subplot()
    plotting.dress(axes, "engine speed, rpm", "wheel speed, km/h")
    top = round_up(1.02 * max(s.engine_rpm for s in part))
    high = round_up(1.02 * dial * max(max(s.driven_wheel_km_h, s.speed_km_h) for s in part))
    axes.set(xlim=(0, top), ylim=(0, high))
    lines = [_gear_line(axes, gear, per_1000) for gear, per_1000 in _per_1000_rpm(log.vehicle).items()]
    groups = {words: points for words, points in _groups(part, dial).items() if points}
    for words, points in groups.items():
        marker, edge, fill = _MARKS[words]
        axes.plot(
            [s.engine_rpm for s, _ in points], [wheel for _, wheel in points], marker, color=edge, markerfacecolor=fill,
            markersize=7, markeredgewidth=1.6, label=words, gid=words, clip_on=False,
        )  # fmt: skip
    figure.legend(
        loc="upper left",
        ncols=2,
        columnspacing=1.0,
        handletextpad=0.2,
        fontsize=plotting.WORDS_PT,
        frameon=False,
        borderpad=0.2,
    )
    read = " ".join(_told_points(words, points) for words, points in groups.items())
    return Drawing(
        content=plotting.png(figure),
        alt=(
            f"Road test {name}, {vehicle(log.vehicle).name}: wheel speed against engine speed, clutch pedal up. One dashed line "
            f"a gear, in km/h at 1000 rpm {', '.join(lines)}. {read}"
        ),
        caption="Dashed: what belongs together in each gear if nothing slips.",
    )


def _groups(part: Sequence[Sample], dial: float) -> dict[str, Points]:
    full = [s for s in part[::2] if s.throttle_pct >= 90]
    return {
        "driven wheels, less throttle": [(s, dial * s.driven_wheel_km_h) for s in _settled(part)[::2]],
        "driven wheels, full throttle": [(s, dial * s.driven_wheel_km_h) for s in full],
        "wheels not driven, full throttle": [(s, dial * s.speed_km_h) for s in full],
    }


def _settled(part: Sequence[Sample]) -> list[Sample]:
    """Return the lines at less throttle that do not follow full throttle within 1.5 s."""
    full = [s.t_s for s in part if s.throttle_pct >= 90]
    return [s for s in part if s.throttle_pct < 90 and not any(0 < s.t_s - t < 1.5 for t in full)]


def _per_1000_rpm(letter: str) -> dict[int, float]:
    """Return the km/h at 1000 rpm of each gear."""
    v = vehicle(letter)
    return {gear: road_speed_kmh(v, gear=gear, rpm=1000) for gear in range(1, len(v.gearbox.ratios) + 1)}


def _gear_line(axes: "Axes", gear: int, per_1000: float) -> str:
    """Draw the line of a gear with its number at the end; return what it says."""
    (_, right), (_, high) = axes.get_xlim(), axes.get_ylim()
    end = min(right, 1000 * high / per_1000)
    tip = (end, end * per_1000 / 1000)
    axes.plot([0, tip[0]], [0, tip[1]], color=INK, linestyle="--", linewidth=1.4, gid=f"gear {gear}")
    beside = end > 0.99 * right
    axes.annotate(
        str(gear), tip, xytext=(5, -5) if beside else (-4, 4), textcoords="offset points",
        fontsize=plotting.WORDS_PT, fontweight="bold", annotation_clip=False,
    )  # fmt: skip
    return f"{gear}: {per_1000:.1f}"


def _told_points(words: str, points: Points) -> str:
    """Say where the points of each gear begin, are half-way and end."""
    ends = []
    for gear, group in groupby(sorted(points, key=lambda p: (p[0].gear, p[0].t_s)), key=lambda p: p[0].gear):
        own = list(group)
        reads = (f"{s.engine_rpm:g} rpm with {wheel:.1f} km/h" for s, wheel in (own[0], own[len(own) // 2], own[-1]))
        ends.append(f"in gear {gear} {', '.join(reads)}")
    return f"{words[0].upper()}{words[1:]}: {'; '.join(ends)}."
