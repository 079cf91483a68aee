"""Plots of road-test logs: channels over time, one above the other.

Every plot says what the log holds and not what is wrong. Its alt text reads the plot at moments, so that the question
beside it can be answered without seeing it.
"""

from collections.abc import Sequence
from math import ceil, floor

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import one_of, within
from bitepoint.pictures.axes import Axes, figure, label, round_up, step_between, ticks
from bitepoint.pictures.canvas import BLUE, INK, SHADE, VERMILLION, Canvas
from bitepoint.pictures.framing import frame_words
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.workshop.roadtests import road_test
from bitepoint.workshop.simulator import Sample
from bitepoint.workshop.vehicles import vehicle

CHANNELS = {
    "engine_rpm": ("engine speed", "rpm"),
    "speed_km_h": ("speed of the wheels not driven", "km/h"),
    "driven_wheel_km_h": ("speed of the driven wheels", "km/h"),
    "pedal_pct": ("clutch pedal", "%, 100 is down"),
    "throttle_pct": ("throttle", "%"),
    "gear": ("gear", "0 is neutral"),
    "vibration_g": ("shake", "g"),
}
"""Name in words and unit of each channel of a log."""
_LEFT, _RIGHT = 84, 694
_TITLE, _FOOT = 36, 100
_MOMENTS = 8


@picture("road-test")
def road_test_plot(
    *,
    name: str = "b-5",
    from_s: float = 0,
    to_s: float = 120,
    channels: Sequence[str] = ("engine_rpm", "speed_km_h", "throttle_pct"),
    marks: Sequence[float] = (),
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
    marks : sequence of float
        Up to 4 moments inside the part, drawn as upright lines P, Q, R, S.
    """
    log = road_test(name)
    for channel in channels:
        one_of("channel", channel, tuple(CHANNELS), "Name a column of the log.")
    if not 1 <= len(set(channels)) == len(channels) <= 5:
        raise OutOfRange("channels", "1 to 5 different columns", ", ".join(channels) or "none", "Plot fewer at a time.")
    part = between(log.samples, from_s, to_s)
    if len(marks) > 4:
        raise OutOfRange("marks", "at most 4 moments", f"{len(marks)}", "Mark fewer.")
    marked = [(letter, _at(part, moment)) for letter, moment in zip("PQRS", marks, strict=False)]
    heights = [_height(part, channel, len(channels)) for channel in channels]
    top, told = 34 if marked else 12, []
    canvas = Canvas(top + sum(heights) + len(channels) * _TITLE + _FOOT)
    for i, (channel, high) in enumerate(zip(channels, heights, strict=True), start=1):
        panel = draw_panel(canvas, part, channel, (top + _TITLE, top + _TITLE + high), last=i == len(channels))
        for letter, sample in marked:
            panel.upright(sample.t_s, VERMILLION, dash="9 6")
            if i == 1:
                label(canvas, (panel.at(sample.t_s, 0)[0], top + 8), letter, 21)
        values = [float(getattr(s, channel)) for s in part]
        words, unit = CHANNELS[channel]
        told.append(f"{words} ({unit}) from {min(values):g} to {max(values):g}")
        top += high + _TITLE
    canvas.frame(frame_words())
    return canvas.drawing(
        alt=(
            f"Road test {name} of {vehicle(log.vehicle).name}, {part[0].t_s:g} to {part[-1].t_s:g} s, one graph under the other "
            f"against time: {'; '.join(told)}. {_story(part, channels)}{_read_marks(marked, channels)}"
        ),
        caption=f"Road test {name}, {vehicle(log.vehicle).name}, {part[0].t_s:g} to {part[-1].t_s:g} s.",
    )


def _height(part: Sequence[Sample], channel: str, channels: int) -> int:
    """Return how high a graph is: low where few values are seen at a glance, as of what is pressed or of two gears."""
    if channel in ("pedal_pct", "throttle_pct") or (channel == "gear" and max(s.gear for s in part) < 3):
        return 76
    return 120 if channels <= 3 else 78


def draw_panel(
    canvas: Canvas,
    part: Sequence[Sample],
    channel: str,
    edges: tuple[float, float],
    *,
    last: bool,
    words: str = "",
) -> Axes:
    """Draw one channel with its own scale; the seconds stand under the last one. `words` are over it instead of its name."""
    values = [float(getattr(s, channel)) for s in part]
    top, base = edges
    axes = Axes(canvas, (_LEFT, top, _RIGHT, base), x=(part[0].t_s, part[-1].t_s), y=_span(channel, values))
    step = 1.0 if channel == "gear" else step_between(0, 0.94 * (axes.y[1] - axes.y[0]), 5 if base - top > 120 else 4)
    for half in range(ceil(2 * axes.y[0] / step - 1e-9), floor(2 * axes.y[1] / step + 1e-9) + 1):
        value = half * step / 2
        if channel == "gear" and half % 2:
            continue
        canvas.line(axes.at(axes.x[0], value), axes.at(axes.x[1], value), SHADE, 1)
        if half % 2:
            continue
        canvas.text(_LEFT - 8, axes.at(axes.x[0], value)[1] + 6, figure(value, 4), 18, anchor="end")
    for second in ticks(*axes.x, most=10):
        x = axes.at(second, axes.y[0])[0]
        canvas.line((x, top), (x, base), SHADE, 1)
        if last:
            canvas.line((x, base), (x, base + 7))
            canvas.text(x, base + 26, figure(second, 4), 18)
    canvas.rect(_LEFT, top, _RIGHT - _LEFT, base - top, "none", INK, 1.5)
    canvas.text(_LEFT, top - 8, words or ", ".join(CHANNELS[channel]), 19, anchor="start", bold=True)
    if last:
        canvas.text(_RIGHT, base + 50, "time, s", 19, anchor="end")
    canvas.polyline((axes.at(s.t_s, value) for s, value in zip(part, values, strict=True)), BLUE, 3)
    return axes


def _span(channel: str, values: Sequence[float]) -> tuple[float, float]:
    """Return the scale of a channel: its whole range where that is fixed, else round figures about what is plotted."""
    if channel in ("pedal_pct", "throttle_pct"):
        return -6.0, 106.0
    if channel == "gear":
        return -0.1, max(values) + 0.5
    if channel == "vibration_g":
        return 0.0, round_up(max(0.1, *values), 5)
    least = 200.0 if channel == "engine_rpm" else 4.0
    low, high = min(values), max(min(values) + least, *values)
    step = step_between(low, high, 5)
    base, top = step * int(low / step), step * (int(high / step) + 1)
    # A line that runs along the frame would not be seen.
    return (base - 0.05 * (top - base) if low < base + 0.03 * (top - base) else base), top


def between(samples: Sequence[Sample], from_s: float, to_s: float) -> list[Sample]:
    within("from_s", from_s, 0, 600, "s", "Seconds since the log began.")
    within("to_s", to_s, 0, 600, "s", "Seconds since the log began.")
    part = [s for s in samples if from_s - 1e-6 <= s.t_s <= to_s + 1e-6]
    if len(part) < 10:
        rule = f"at least 1 s after from_s ({from_s:g} s), within the log's {samples[-1].t_s:g} s"
        raise OutOfRange("to_s", rule, f"{to_s:g} s", "Take a longer part.")
    return part


def _at(part: Sequence[Sample], moment: float) -> Sample:
    within("mark", moment, part[0].t_s, part[-1].t_s, "s", "A mark lies inside the part that is plotted.")
    return min(part, key=lambda s: abs(s.t_s - moment))


def _read(sample: Sample, channels: Sequence[str]) -> str:
    return f"{sample.t_s:g} s: " + ", ".join(f"{CHANNELS[c][0]} {getattr(sample, c):g}" for c in channels)


def _story(part: Sequence[Sample], channels: Sequence[str]) -> str:
    """Read the channels at a few moments, so that the course of each can be followed without seeing it."""
    last = _MOMENTS - 1
    moments = [part[round(i * (len(part) - 1) / last)] for i in range(_MOMENTS)]
    return f"Read at {_MOMENTS} moments, {'; '.join(_read(s, channels) for s in moments)}."


def _read_marks(marked: Sequence[tuple[str, Sample]], channels: Sequence[str]) -> str:
    return (
        f" Marked moments, {'; '.join(f'{letter} at {_read(s, channels)}' for letter, s in marked)}." if marked else ""
    )
