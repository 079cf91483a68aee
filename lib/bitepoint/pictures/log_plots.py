"""Plots of road-test logs: channels over time, engine speed against road speed with the gear lines, orders of the shake.

Matplotlib is imported only when a plot is drawn; every plot is PNG of one size, and says nothing that the log does not.
"""

from collections.abc import Sequence
from io import BytesIO
from math import sqrt
from typing import TYPE_CHECKING, Any

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import one_of, within
from bitepoint.pictures.canvas import BLUE, GREEN, INK, VERMILLION
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.workshop.figures import road_speed_kmh
from bitepoint.workshop.roadtest_verdict import spectrum
from bitepoint.workshop.roadtests import road_test
from bitepoint.workshop.simulator import Sample
from bitepoint.workshop.vehicles import FRAME, vehicle

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

CHANNELS = {
    "engine_rpm": ("engine speed", "rpm", BLUE, "-"),
    "speed_km_h": ("road speed", "km/h", GREEN, "--"),
    "driven_wheel_km_h": ("driven wheels", "km/h", VERMILLION, "-."),
    "pedal_pct": ("clutch pedal", "%", INK, ":"),
    "throttle_pct": ("throttle", "%", VERMILLION, "-."),
    "gear": ("gear", "0 is neutral", INK, "-"),
    "vibration_g": ("shake", "g", BLUE, "--"),
}
"""Name in words, unit, colour and dash of each channel of a log."""
REFERENCES = {
    "time": ("frequency, Hz", 2.0, 30.0, 0.25),
    "slip": ("order of the slip (1 is once a turn of slip)", 0.2, 4.0, 0.04),
    "engine": ("order of the engine (1 is once a turn)", 0.2, 4.0, 0.04),
    "input": ("order of the gearbox input (1 is once a turn)", 0.2, 4.0, 0.04),
}
INCH_WIDE, DPI, LEAST_PT = 9.0, 80, 15
"""720 dots across; 15 pt at 80 dots an inch is 16.7 dots, as large as the drawings' words."""


@picture("road-test")
def road_test_plot(
    *,
    name: str = "b-5",
    from_s: float = 0,
    to_s: float = 120,
    channels: Sequence[str] = ("engine_rpm", "speed_km_h", "throttle_pct"),
) -> Drawing:
    """Channels of a road-test log over time, one above the other.

    Parameters
    ----------
    name : str
        Name of the log.
    from_s, to_s : float
        Part of the log, 0 to 600 s; what lies after its end is left out.
    channels : sequence of str
        1 to 5 of CHANNELS, without repeating one.
    """
    log = road_test(name)
    for channel in channels:
        one_of("channel", channel, tuple(CHANNELS), "Name a column of the log.")
    if not 1 <= len(set(channels)) == len(channels) <= 5:
        raise OutOfRange("channels", "1 to 5 different columns", ", ".join(channels) or "none", "Plot fewer at a time.")
    part = _between(log.samples, from_s, to_s)
    figure = _figure(1.2 + 1.75 * len(channels))
    told = []
    for i, channel in enumerate(channels, start=1):
        words, unit, colour, dash = CHANNELS[channel]
        values = [float(getattr(s, channel)) for s in part]
        axes = figure.add_subplot(len(channels), 1, i)
        _dress(axes, "time, s" if i == len(channels) else "", f"{words},\n{unit}")
        axes.plot([s.t_s for s in part], values, color=colour, linestyle=dash, linewidth=2.2, gid=channel)
        axes.margins(x=0.01, y=0.12)
        told.append(f"{words} ({unit}) from {min(values):g} to {max(values):g}")
    return Drawing(
        content=_png(figure),
        alt=(
            f"Road test {name} of training vehicle {log.vehicle}, {part[0].t_s:g} to {part[-1].t_s:g} s, one graph under the other against "
            f"time: {'; '.join(told)}. {_story(part, channels)}"
        ),
        caption=f"Road test {name}, training vehicle {log.vehicle}. {FRAME}.",
    )


def _between(samples: Sequence[Sample], from_s: float, to_s: float) -> list[Sample]:
    within("from_s", from_s, 0, 600, "s", "Seconds since the log began.")
    within("to_s", to_s, 0, 600, "s", "Seconds since the log began.")
    part = [s for s in samples if from_s - 1e-6 <= s.t_s <= to_s + 1e-6]
    if len(part) < 10:
        rule = f"at least 1 s after from_s ({from_s:g} s), within the log's {samples[-1].t_s:g} s"
        raise OutOfRange("to_s", rule, f"{to_s:g} s", "Take a longer part.")
    return part


def _story(part: Sequence[Sample], channels: Sequence[str]) -> str:
    """Read the channels at six moments, so that the course of each can be followed without seeing it."""
    moments = [part[round(i * (len(part) - 1) / 5)] for i in range(6)]
    read = [f"{s.t_s:g} s: " + ", ".join(f"{CHANNELS[c][0]} {getattr(s, c):g}" for c in channels) for s in moments]
    return "Read at six moments, " + "; ".join(read) + "."


@picture("slip-plot")
def slip_plot(*, name: str = "b-5", from_s: float = 0, to_s: float = 120) -> Drawing:
    """Engine speed against speed of the driven wheels, a point each 0.1 s with the clutch pedal up, and the sheet's gear lines."""
    log = road_test(name)
    v = vehicle(log.vehicle)
    part = [s for s in _between(log.samples, from_s, to_s) if s.gear and s.pedal_pct < 5]
    if not part:
        raise OutOfRange("from_s", "where the car is driven with the pedal up", f"{from_s:g} s", "Take another part.")
    figure = _figure(6.4)
    axes = figure.add_subplot()
    _dress(axes, "engine speed, rpm", "speed of the driven wheels, km/h")
    top = 1.08 * max(s.engine_rpm for s in part)
    high = 1.12 * max(s.driven_wheel_km_h for s in part)
    for gear in range(1, len(v.gearbox.ratios) + 1):
        end = min(top, high / road_speed_kmh(v, gear=gear, rpm=1))
        line = axes.plot([0, end], [0, road_speed_kmh(v, gear=gear, rpm=end)], color=INK, linestyle="--", linewidth=1.4)
        line[0].set_gid(f"gear {gear}")
        axes.annotate(
            str(gear), (end, road_speed_kmh(v, gear=gear, rpm=end)), xytext=(5, 4), textcoords="offset points",
            fontsize=LEAST_PT + 1, fontweight="bold", annotation_clip=False,
        )  # fmt: skip
    groups = (("full throttle", VERMILLION, "s", True), ("less throttle", BLUE, "o", False))
    told = []
    for words, colour, marker, full in groups:
        points = [s for s in part if (s.throttle_pct >= 90) == full]
        if points:
            axes.plot(
                [s.engine_rpm for s in points], [s.driven_wheel_km_h for s in points], marker, color=colour, markersize=6,
                markerfacecolor=colour if full else "white", label=words, gid=words,
            )  # fmt: skip
            told.append(_told_points(words, points))
    axes.set(xlim=(0, top * 1.04), ylim=(0, high * 1.04))
    axes.legend(loc="upper left", fontsize=LEAST_PT, framealpha=1)
    gears = ", ".join(f"{g}: {road_speed_kmh(v, gear=g, rpm=1000):.1f}" for g in range(1, len(v.gearbox.ratios) + 1))
    return Drawing(
        content=_png(figure),
        alt=(
            f"Road test {name}, training vehicle {v.id}: speed of the driven wheels against engine speed, clutch pedal up. One dashed line a gear, "
            f"in km/h at 1000 rpm {gears}. {' '.join(told)}"
        ),
        caption=f"Points on a dashed line: the clutch does not slip in that gear. {FRAME}.",
    )


def _told_points(words: str, points: Sequence[Sample]) -> str:
    """Say where the points of each gear begin and end."""
    ends = []
    for gear in sorted({s.gear for s in points}):
        own = [s for s in points if s.gear == gear]
        reads = (f"{s.engine_rpm:g} rpm with {s.driven_wheel_km_h:g} km/h" for s in (own[0], own[-1]))
        ends.append(f"in gear {gear} from {' to '.join(reads)}")
    return f"Points at {words}, {'; '.join(ends)}."


@picture("order-spectrum")
def order_spectrum(*, name: str = "b-6", reference: str = "time") -> Drawing:
    """Amplitude of the shake while moving off, against frequency ("time") or orders of "slip", "engine" or "input"."""
    one_of("reference", reference, tuple(REFERENCES), "Say in whose turns the shake is counted.")
    words, low, high, step = REFERENCES[reference]
    log = road_test(name)
    points = spectrum(log, reference, low=low, high=high, step=step)  # type: ignore[arg-type]
    figure = _figure(5.0)
    axes = figure.add_subplot()
    _dress(axes, words, "amplitude, g")
    axes.plot([o for o, _ in points], [a for _, a in points], color=BLUE, linewidth=2.4, gid="spectrum")
    axes.set(xlim=(0, high), ylim=(0, max(0.1, 1.1 * max(a for _, a in points))))
    heights = "; ".join(f"{o:.3g}: {a:.3f}" for o, a in _every(points, 12))
    shaken = sqrt(sum(s.vibration_g**2 for s in log.shake) / len(log.shake))
    return Drawing(
        content=_png(figure),
        alt=(
            f"Spectrum of the shake of road test {name}, training vehicle {log.vehicle}, while moving off: amplitude in g, 0 to "
            f"{max(a for _, a in points):.3f}, against {words}, {low:g} to {high:g}. The whole shake is {shaken:.3f} g r.m.s. "
            f"Largest in each part, {heights}."
        ),
        caption=f"How strongly each {'frequency' if reference == 'time' else 'order'} shakes the car while it moves off. {FRAME}.",
    )


def _every(points: Sequence[tuple[float, float]], parts: int) -> list[tuple[float, float]]:
    """Cut the spectrum into so many parts and return the largest point of each."""
    size = -(-len(points) // parts)
    return [max(points[i : i + size], key=lambda p: p[1]) for i in range(0, len(points), size)]


def _figure(height_in: float) -> "Figure":
    """Return an empty white figure, 720 dots wide, that carries the training vehicle's frame."""
    from matplotlib.figure import Figure

    figure = Figure(figsize=(INCH_WIDE, height_in), dpi=DPI, layout="constrained", facecolor="white")
    figure.suptitle(FRAME, fontsize=LEAST_PT, fontweight="bold", fontfamily="DejaVu Sans")
    return figure


def _dress(axes: "Axes", x_words: str, y_words: str) -> None:
    axes.grid(color="#B8B8B8", linewidth=0.8)
    axes.tick_params(labelsize=LEAST_PT, labelbottom=bool(x_words))
    for setter, words in ((axes.set_xlabel, x_words), (axes.set_ylabel, y_words)):
        setter(words, fontsize=LEAST_PT, fontfamily="DejaVu Sans")


def _png(figure: "Figure") -> bytes:
    written = BytesIO()
    told: dict[str, Any] = {"Software": None}
    figure.savefig(written, format="png", dpi=DPI, metadata=told)
    return written.getvalue()
